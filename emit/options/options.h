/* The command line: one table (table.c) says what each option is called, what it takes and what it
 * means. Parsing, --help, the command in the generated files, and the manual page and completions in
 * docs/ all come from it. Besides the commands only the library includes
 * this room. */
#ifndef SUMWRIGHT_OPTIONS_OPTIONS_H
#define SUMWRIGHT_OPTIONS_OPTIONS_H

#include "unit/unit.h"

#include <stdint.h>
#include <stdio.h>

#define OPTIONS_RANDOM_DEFAULT 2000u    /* random vectors */
#define OPTIONS_RANDOM_MAX     1000000u /* keeps a file in the range of gigabytes at most */
#define OPTIONS_SEED_DEFAULT   1u
#define OPTIONS_CIN_UNSET      (-1)

/* ROW(ID, name, summary, what it takes beside options or NULL); command_NAME runs it. */
#define COMMANDS(ROW)                                                                              \
    ROW(EMIT, emit, "write a unit's Verilog, its testbench and its test vectors", NULL)            \
    ROW(CHECK, check, "test somebody's design and name its mistake", "DESIGN.v...")                \
    ROW(WORK, work, "work an example column by column", "A [B]")                                   \
    ROW(COST, cost, "show what each carry structure costs in gates and levels", NULL)              \
    ROW(DRAW, draw, "draw the unit's schematic", NULL)                                             \
    ROW(LESSON, lesson, "write a page on which an operation is gone through step by step", NULL)   \
    ROW(EXERCISES, exercises, "write a sheet of exercises, and their solutions", NULL)

#define COMMAND_ID(ID, ...) COMMAND_##ID,
typedef enum { COMMANDS(COMMAND_ID) } Command;
#undef COMMAND_ID
#define COMMAND_COUNT (0 COMMANDS(ROW_ONE))

/* How results are written. */
#define FORMATS(ROW)                                                                               \
    ROW(TEXT, "text", "to be read")                                                                \
    ROW(JSON, "json", "JSON (RFC 8259)")                                                           \
    ROW(CSV, "csv", "comma-separated values (RFC 4180)")

#define FORMAT_ID(ID, ...) FORMAT_##ID,
typedef enum { FORMATS(FORMAT_ID) } Format;
#undef FORMAT_ID

/* What a sheet of exercises leaves blank. */
#define LEAVES(ROW)                                                                                \
    ROW(CARRIES, "carries", "the carries")                                                         \
    ROW(RESULT, "result", "the result")                                                            \
    ROW(ALL, "all", "every bit; the operands are given as numbers")

#define LEAVE_ID(ID, ...) LEAVE_##ID,
typedef enum { LEAVES(LEAVE_ID) } Leave;
#undef LEAVE_ID

enum { OPTIONS_EXERCISES_DEFAULT = 12, OPTIONS_EXERCISES_MAX = 200 };
enum { OPTIONS_EXAMPLES_MAX = 64 };
enum { OPTIONS_PARAMETERS_MAX = 32, OPTIONS_LATENCY_MAX = 64, OPTIONS_JOBS_MAX = 256 };
enum { OPTIONS_WIDTHS_MAX = 64, OPTIONS_STRUCTURES_MAX = 64 };

/* A carry structure as it is asked for. */
typedef struct {
    Structure structure;
    unsigned depth; /* STRUCTURE_DEPTH: levels of cells */
} StructureChoice;

/* Everything that one command was asked. Strings belong to argv; operands is a part of it. */
typedef struct {
    bool help;                                      /* --help was given: the rest is not settled */
    Unit unit;                                      /* settled */
    const char *out;                                /* folder for the files */
    bool overwrite;                                 /* replace existing files */
    uint64_t random;                                /* random vectors, at most OPTIONS_RANDOM_MAX */
    uint64_t seed;                                  /* of the random vectors */
    const char *templates;                          /* folder of templates, or NULL */
    const char *coverage;                           /* name of the coverage file, or NULL */
    const char *module;                             /* check: the module to test, or NULL */
    const char *parameters[OPTIONS_PARAMETERS_MAX]; /* check: NAME=VALUE, of plain characters */
    int parameter_count;
    unsigned latency; /* check: clocks from operands to result; the unit's unless given */
    bool prove;       /* check: for all inputs */
    bool each;        /* check: every file is a design of its own */
    unsigned jobs;    /* check: designs at once; 0: as many as there are processors */
    Format format;
    StructureChoice structures[OPTIONS_STRUCTURES_MAX]; /* cost: which; none: all there are */
    int structure_count;
    unsigned widths[OPTIONS_WIDTHS_MAX]; /* cost: bits in a word, each */
    int width_count;
    bool flags_given; /* by --flags, none among them */
    bool flags_all;   /* --flags all: half-carry wherever there is a column 3 */
    const char *svg;  /* the file of the drawing, or NULL */
    char **operands;  /* what is not an option, for the commands that take such */
    int operand_count;
    const char *operation; /* work: the name of the operation, or NULL: the first */
    int choice;            /* work: the operation, an index into unit.choice */
    int cin;    /* work, draw, lesson: the level of the pin, 0 or 1, or OPTIONS_CIN_UNSET */
    bool steps; /* work: a line a column */
    const char *example;                        /* draw: operands and operation to show, or NULL */
    const char *examples[OPTIONS_EXAMPLES_MAX]; /* lesson: the same, each */
    int example_count;
    bool bare;             /* draw: the picture without heading and notes */
    const char *frames;    /* work, draw: the folder of a drawing a step, or NULL */
    const char *html;      /* lesson, exercises: the file of the page, or NULL */
    const char *solutions; /* exercises: the file of the solutions, or NULL */
    unsigned count;        /* exercises: how many, at most OPTIONS_EXERCISES_MAX */
    Leave leave;           /* exercises: what is left blank */
    bool rectangular;      /* draw, lesson: gates as rectangles */
    bool detail_given;     /* --detail was given */
} Request;

/* What a command is called, in how few words it says what it does, and what it takes beside options,
 * as its usage line shows it (NULL: nothing). */
const char *command_name(Command command);
const char *command_summary(Command command);
const char *command_operands(Command command);

/* Reads argv[1 ...] (argv[0] is the command's name) into a settled request. Options and operands
 * stand in any order; after -- there are only operands, and a - with a digit after it (-5) begins
 * an operand. The operands are moved to the start of argv. Every mistake is a problem of
 * STATUS_INVALID that says what is wrong and what would be right. */
bool options_parse(Command command, int argc, char **argv, Request *request, Problem *problem);

/* A request in which nothing has been said. */
void options_init(Request *request);

/* The number of the unit's operation that the text names. What begins the message for one that the
 * unit does not have: "--operation cannot be". */
bool options_find_operation(const Unit *unit, const char *text, const char *what, int *choice,
                            Problem *problem);

/* Turns the properties in a message of unit_settle into options: `width` into --width. Returns false.
 */
bool options_reword(Problem *problem);

/* The help of one command: usage, then every option it takes with values, meaning and default. */
void options_help(Command command, FILE *out);

/* The command line that asks for this request, for the headers of generated files: options at
 * their defaults are left out, except name, width and operations. It parses back to the same
 * request; only the folders are spelled as the word DIR, and a file as FILE. */
void options_spell(const Request *request, FILE *out);

#endif
