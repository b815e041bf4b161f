/* The table of options, for the files of this room and for what makes the pages in docs/. A new
 * option is a row of table.c; where its text is more than a switch, a choice, a number or a text, it
 * has a function in take.c. */
#ifndef SUMWRIGHT_OPTIONS_TABLE_H
#define SUMWRIGHT_OPTIONS_TABLE_H

#include "options/options.h"

enum { OPTIONS_PORTS_MAX = PIN_COUNT };

/* What has been read so far, and what can only be placed when everything has been read. */
typedef struct {
    Request *request;
    bool *given; /* by the option's place in the table */
    bool operations_coded[OP_COUNT];
    const char *port[OPTIONS_PORTS_MAX]; /* ROLE=NAME */
    int port_count;
} Reading;

/* What becomes of an option's text. */
typedef enum {
    OPTION_SWITCH, /* takes none; the field, a bool, is true when the option is given */
    OPTION_CHOICE, /* one of the values; the field, an enum or a bool, gets its number */
    OPTION_NUMBER, /* a whole number from least to most */
    OPTION_TEXT,   /* kept as it is, not empty, and as check wants it */
    OPTION_TAKEN,  /* what take makes of it */
} OptionKind;

/* Where an option goes in the command that is written into the generated files. */
typedef enum {
    SPELLED_NEVER,  /* it makes no difference to what the files are */
    SPELLED_NEEDED, /* where the request would be another without it */
    SPELLED_ALWAYS,
} Spelled;

typedef struct {
    const char *name;
    const char
        *argument;       /* what stands for its text, NULL: takes none. FILE and DIR are paths, LIST
                             is a comma list of the values */
    const char *meaning; /* half a sentence, for --help and the completions */
    const char *more;    /* sentences that the manual page adds, or NULL */
    const char *standard; /* what holds when it is not given, or NULL */
    unsigned commands;    /* that take it: bit k is command k */
    bool repeatable;
    OptionKind kind;
    size_t offset; /* of the field in Request */
    size_t size;   /* bytes in it */
    uint64_t least;
    uint64_t most;
    const Value *values; /* what its text, or an item of a LIST, can be: those with a name */
    int value_count;
    bool (*check)(const char *option, const char *text, Problem *problem);
    bool (*take)(Reading *reading, const char *text, Problem *problem);
    Spelled spelled;
    void (*spell)(const Unit *unit, FILE *out); /* OPTION_TAKEN: writes " --name value", or nothing
                                                   where it is not needed */
} Option;

extern const Option options_table[];
extern const int options_count;

/* Does the command take the option? */
bool option_is_for(const Option *option, Command command);

/* A whole number from least to most, or a problem that says what the option takes. */
bool number_take(const char *option, const char *text, uint64_t least, uint64_t most,
                 uint64_t *number, Problem *problem);

/* The takers of single options (take.c), and how their values are written back (spell.c). */
bool take_name(Reading *reading, const char *text, Problem *problem);
bool take_operations(Reading *reading, const char *text, Problem *problem);
bool take_flags(Reading *reading, const char *text, Problem *problem);
bool take_structure(Reading *reading, const char *text, Problem *problem);
bool take_structures(Reading *reading, const char *text, Problem *problem);
bool take_widths(Reading *reading, const char *text, Problem *problem);
bool take_port(Reading *reading, const char *text, Problem *problem);
bool take_example(Reading *reading, const char *text, Problem *problem);
bool take_parameter(Reading *reading, const char *text, Problem *problem);
bool check_svg_name(const char *option, const char *text, Problem *problem);
bool check_plain_name(const char *option, const char *text, Problem *problem);
void spell_name(const Unit *unit, FILE *out);
void spell_operations(const Unit *unit, FILE *out);
void spell_flags(const Unit *unit, FILE *out);
void spell_structure(const Unit *unit, FILE *out);
void spell_ports(const Unit *unit, FILE *out);

#endif
