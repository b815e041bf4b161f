/* libsumwright: the inside of sumwright as a library. A unit is described, in fields or as the
 * program's options; from it come its gates, its Verilog, its testbench and vectors, a worked
 * example, its cost and its drawing, byte for byte what the program makes.
 *
 * docs/library.md has a whole program that uses it, and the commands that build one.
 *
 * Nothing here ends the process, prints, reads or writes files, or keeps anything between calls but
 * in what it returns. A unit or circuit is not changed once it is made: several threads may use one,
 * as long as none frees it meanwhile. When memory runs out a call returns SUMWRIGHT_NO_MEMORY and
 * has freed whatever it took. */
#ifndef SUMWRIGHT_H
#define SUMWRIGHT_H

#include <stddef.h>

#if defined(__GNUC__)
#define SUMWRIGHT_API __attribute__((visibility("default")))
#else
#define SUMWRIGHT_API
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* "0.1.0" */
SUMWRIGHT_API const char *sumwright_version(void);

/* ---- what can go wrong --------------------------------------------------------------------- */

typedef enum sumwright_status {
    SUMWRIGHT_DONE = 0,
    SUMWRIGHT_INVALID = 2,  /* what was asked for makes no sense; the message says why */
    SUMWRIGHT_NO_MEMORY = 4 /* there is not enough memory for it */
} sumwright_status;

enum { SUMWRIGHT_MESSAGE_BYTES = 2048 };

/* One line: what is wrong, and what would be right. "" after SUMWRIGHT_DONE. */
typedef struct sumwright_error {
    char message[SUMWRIGHT_MESSAGE_BYTES];
} sumwright_error;

/* Where a function takes a sumwright_error, NULL will do. After any status but SUMWRIGHT_DONE, what
 * it was to return is NULL. */

/* ---- units --------------------------------------------------------------------------------- */

/* What is asked for: an adder or subtractor of some width, with its operations, pins and flags. */
typedef struct sumwright_unit sumwright_unit;

/* A property and its value, which are those of `sumwright emit` without the dashes: {"width", "12"},
 * {"operations", "add,sub"}, {"port", "a=observed"}. The value is NULL for a property that takes
 * none: {"enable", NULL}. The properties of the unit itself, and of its vectors ("vectors", "seed"),
 * are fields; those about files are not. */
typedef struct sumwright_field {
    const char *name;
    const char *value;
} sumwright_field;

/* A unit of these fields, in any order; what no field says has its usual value. */
SUMWRIGHT_API sumwright_status sumwright_unit_from_fields(const sumwright_field *fields,
                                                          size_t count, sumwright_unit **unit,
                                                          sumwright_error *error);

/* The same from options as a command line has them: {"--width", "12", "--enable"}. */
SUMWRIGHT_API sumwright_status sumwright_unit_from_options(const char *const *options, size_t count,
                                                           sumwright_unit **unit,
                                                           sumwright_error *error);

/* NULL is allowed. The unit's circuits are to be freed first. */
SUMWRIGHT_API void sumwright_unit_free(sumwright_unit *unit);

/* The name of its module, and the bits in its words. The name belongs to the unit. */
SUMWRIGHT_API const char *sumwright_unit_name(const sumwright_unit *unit);
SUMWRIGHT_API unsigned sumwright_unit_width(const sumwright_unit *unit);

/* ---- gates --------------------------------------------------------------------------------- */

/* The gates of a unit, without its registers. */
typedef struct sumwright_circuit sumwright_circuit;

/* The unit must outlive the circuit. */
SUMWRIGHT_API sumwright_status sumwright_circuit_make(const sumwright_unit *unit,
                                                      sumwright_circuit **circuit,
                                                      sumwright_error *error);
SUMWRIGHT_API void sumwright_circuit_free(sumwright_circuit *circuit); /* NULL is allowed */

typedef enum sumwright_kind {
    SUMWRIGHT_CONSTANT, /* node 0: the constant 0 */
    SUMWRIGHT_INPUT,
    SUMWRIGHT_AND,
    SUMWRIGHT_OR,
    SUMWRIGHT_XOR,
    SUMWRIGHT_NAND,
    SUMWRIGHT_NOR,
    SUMWRIGHT_XNOR
} sumwright_kind;

/* Node 0, then the inputs, then the gates; a gate's inputs stand before it. A literal says which
 * node, and whether its value or the inverse: twice the node's number, plus 1 for the inverse. */
typedef struct sumwright_node {
    sumwright_kind kind;
    unsigned input[2]; /* gates: literals */
    const char *name;  /* of the input pin; or what a gate's wire means, e.g. "carry", or NULL */
    int index;         /* the bit of the pin, or the column; -1 for none */
    int complement;    /* 1: the wire has the complement of what the name says */
} sumwright_node;

/* A bit of an output pin, and the literal that drives it. */
typedef struct sumwright_output {
    const char *name;
    unsigned bit;
    unsigned literal;
} sumwright_output;

/* Names belong to the circuit. Numbers go from 0 to the count, exclusive. */
SUMWRIGHT_API size_t sumwright_node_count(const sumwright_circuit *circuit);
SUMWRIGHT_API sumwright_node sumwright_node_at(const sumwright_circuit *circuit, size_t number);
SUMWRIGHT_API size_t sumwright_output_count(const sumwright_circuit *circuit);
SUMWRIGHT_API sumwright_output sumwright_output_at(const sumwright_circuit *circuit, size_t number);

/* What it takes. */
typedef struct sumwright_cost {
    unsigned gates;                 /* with two inputs, of any kind */
    unsigned levels;                /* gates on the longest path */
    unsigned inverters;             /* signals that something reads inverted, each once */
    unsigned fan_out;               /* the most inputs and output pins that one gate drives */
    unsigned long long transistors; /* in static CMOS, gates and inverters */
} sumwright_cost;

SUMWRIGHT_API sumwright_cost sumwright_circuit_cost(const sumwright_circuit *circuit);

/* ---- texts --------------------------------------------------------------------------------- */

/* Each is a text that ends in a NUL, which the caller frees with sumwright_free(). */
SUMWRIGHT_API void sumwright_free(char *text); /* NULL is allowed */

/* The module, NAME.v; its self-checking testbench, NAME_tb.v; and the vectors that this reads from
 * the file NAME.vec. */
SUMWRIGHT_API sumwright_status sumwright_verilog(const sumwright_circuit *circuit, char **text,
                                                 sumwright_error *error);
SUMWRIGHT_API sumwright_status sumwright_testbench(const sumwright_unit *unit, char **text,
                                                   sumwright_error *error);
SUMWRIGHT_API sumwright_status sumwright_vectors(const sumwright_unit *unit, char **text,
                                                 sumwright_error *error);

/* An operation with its operands: decimal, signed or not, 0x... or 0b... */
typedef struct sumwright_example {
    const char *operation; /* "sub"; NULL: the first of the unit's */
    const char *a;
    const char *b; /* NULL where the operation has one operand */
    int cin;       /* the level of the pin, 0 or 1; -1: no carry, no borrow */
} sumwright_example;

/* The example worked column by column, plain text in lines of at most 80 characters where that can
 * be. steps: not 0, with a line of reasoning for each column. */
SUMWRIGHT_API sumwright_status sumwright_work(const sumwright_unit *unit,
                                              const sumwright_example *example, int steps,
                                              char **text, sumwright_error *error);

/* The schematic, SVG, with an example on its wires unless that is NULL. gates: not 0, every gate. */
SUMWRIGHT_API sumwright_status sumwright_drawing(const sumwright_unit *unit,
                                                 const sumwright_example *example, int gates,
                                                 char **text, sumwright_error *error);

#ifdef __cplusplus
}
#endif

#endif
