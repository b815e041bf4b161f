/* The command line: one table says what each option is called, what it takes and what it means;
 * parsing, --help and the messages all come from it. */
#ifndef SUMWRIGHT_OPTIONS_OPTIONS_H
#define SUMWRIGHT_OPTIONS_OPTIONS_H

#include "unit/unit.h"

#include <stdint.h>
#include <stdio.h>

#define OPTIONS_RANDOM_DEFAULT 2000u    /* random vectors */
#define OPTIONS_RANDOM_MAX     1000000u /* keeps a file in the range of gigabytes at most */
#define OPTIONS_SEED_DEFAULT   1u
#define OPTIONS_CIN_UNSET      (-1)

/* Which commands take an option: the bits of Option.commands. */
typedef enum {
    COMMAND_EMIT = 1 << 0,
    COMMAND_CHECK = 1 << 1,
    COMMAND_WORK = 1 << 2,
    COMMAND_COST = 1 << 3,
    COMMAND_DRAW = 1 << 4,
    COMMAND_EVERY = (1 << 5) - 1,
} Command;

typedef enum { FORMAT_TEXT, FORMAT_JSON, FORMAT_CSV } Format;

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
    bool each;        /* check: every file is a design of its own */
    unsigned jobs;    /* check: designs at once; 0: as many as there are processors */
    Format format;
    StructureChoice structures[OPTIONS_STRUCTURES_MAX]; /* cost: which; none: all there are */
    int structure_count;
    unsigned widths[OPTIONS_WIDTHS_MAX]; /* cost: bits in a word, each */
    int width_count;
    bool flags_all;  /* --flags all: half-carry wherever there is a column 3 */
    const char *svg; /* the file of the drawing, or NULL */
    char **operands; /* what is not an option, for the commands that take such */
    int operand_count;
    int choice;          /* work: the operation, an index into unit.choice */
    int cin;             /* work, draw: the level of the pin, 0 or 1, or OPTIONS_CIN_UNSET */
    bool steps;          /* work: a line a column */
    const char *example; /* draw: operands and operation to show, or NULL */
    bool rectangular;    /* draw: gates as rectangles */
    bool detail_given;   /* --detail was given */
} Request;

/* Reads argv[1 ...] (argv[0] is the command's name) into a settled request. Options and operands
 * stand in any order; after -- there are only operands, and a - with a digit after it (-5) begins
 * an operand. The operands are moved to the start of argv. Every mistake is a problem of
 * STATUS_INVALID that says what is wrong and what would be right. */
bool options_parse(Command command, int argc, char **argv, Request *request, Problem *problem);

/* The help of one command: usage, then every option it takes with values, meaning and default. */
void options_help(Command command, FILE *out);

/* The command line that asks for this request, for the headers of generated files: options at
 * their defaults are left out, except name, width and operations. It parses back to the same
 * request; only the folders are spelled as the word DIR, and a file as FILE. */
void options_spell(const Request *request, FILE *out);

#endif
