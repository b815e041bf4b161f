/* Gates as data: an array of two-input gates in topological order. Simulation, counting, fault
 * grading, Verilog and drawing are all one pass over the same array.
 *
 * A literal is a node's index times two, plus one when its inverse is meant: literal 2k is node k,
 * literal 2k + 1 its complement. Node 0 is the constant 0, so literals 0 and 1 are the constants.
 * Then come the inputs, then the gates; a gate's inputs have lower indices than itself.
 *
 * Every gate is one two-input function and written with the fewest inversions: XOR and XNOR, NAND
 * and NOR have none on their inputs, AND and OR at most one ("a and not b"). */
#ifndef SUMWRIGHT_GATES_NETLIST_NETLIST_H
#define SUMWRIGHT_GATES_NETLIST_NETLIST_H

#include "gates/netlist/role.h"
#include "unit/unit.h"

#include <assert.h>
#include <stddef.h>
#include <stdint.h>

typedef uint32_t Literal;

enum { LITERAL_0 = 0, LITERAL_1 = 1 };
#define LITERAL_NONE UINT32_MAX /* no literal at all */

static inline Literal literal_not(Literal literal) {
    return literal ^ 1u;
}

static inline uint32_t literal_node(Literal literal) {
    return literal >> 1;
}

static inline bool literal_inverted(Literal literal) {
    return (literal & 1u) != 0;
}

static inline bool literal_is_constant(Literal literal) {
    return literal <= LITERAL_1;
}

typedef enum {
    NODE_CONSTANT,
    NODE_INPUT,
    NODE_AND,
    NODE_OR,
    NODE_XOR,
    NODE_NAND,
    NODE_NOR,
    NODE_XNOR,
    NODE_KIND_COUNT
} NodeKind;

/* What a gate of a mapped netlist (map.h) does for the wire whose role it carries: it is that wire,
 * or its inverse, or a step towards it, which has another value. */
typedef enum {
    HELP_NONE,
    HELP_INVERSE,
    HELP_INNER,
    HELP_FIRST,
    HELP_SECOND,
    HELP_OUTER,
    HELP_COUNT
} Help;

/* The parts of a unit, in the order in which signals pass them. */
typedef enum {
    PART_CONTROL,  /* the control pins decoded */
    PART_OPERANDS, /* the operand row */
    PART_COLUMNS,  /* the adder core, column by column */
    PART_LEVELS,   /* its carries, level by level of a network, */
    PART_GROUPS,   /* or group by group of columns */
    PART_SUMS,     /* its sums, where they come after all carries */
    PART_FLAGS,    /* what is said about the result, and what is done to it */
} Part;

typedef struct {
    NodeKind kind;
    Literal in[2];   /* gates only */
    Role role;       /* gates: what the wire means; ROLE_NONE until that is said */
    bool complement; /* it has the complement of what its role says */
    Help help;       /* what it does for the wire of that role */
    int index;       /* the role's number, usually the column; -1 for none */
    int low;         /* a second number, the lowest column of a span; -1 for none */
    Part part;       /* gates: where in the unit */
    int column;      /* gates of PART_COLUMNS, _LEVELS and _GROUPS: which, else -1 */
    Pin pin;         /* inputs: which pin, and which bit of it */
    unsigned bit;
} Node;

typedef struct {
    Pin pin;
    unsigned bit;
    Literal literal;
} Output;

struct AdderCore;

typedef struct {
    Node *nodes;
    uint32_t node_count;
    size_t node_room;
    Output *outputs;
    uint32_t output_count;
    size_t output_room;
    Part part; /* where new gates belong */
    int column;
    struct AdderCore *core; /* where the parts of the adder core are (core.h); the netlist's own;
                                NULL: of no unit */
} Netlist;

/* An empty netlist (node 0 only). Memory that runs out ends the program with
 * STATUS_SURROUNDINGS. Free with netlist_free. */
void netlist_init(Netlist *netlist);
void netlist_free(Netlist *netlist);

/* A new input or output. All inputs come before the first gate. */
Literal netlist_input(Netlist *netlist, Pin pin, unsigned bit);
void netlist_output(Netlist *netlist, Pin pin, unsigned bit, Literal literal);

/* Gates made from here on belong to this part (and column, -1 for none). */
void netlist_enter(Netlist *netlist, Part part, int column);

/* The function of two literals: a new gate, or none where a constant or equal inputs decide. An XOR
 * also takes out again what an XOR before it put in: (p XOR m) XOR m is p, (p XOR m) XOR (q XOR m)
 * is p XOR q. */
Literal netlist_and(Netlist *netlist, Literal x, Literal y);
Literal netlist_or(Netlist *netlist, Literal x, Literal y);
Literal netlist_xor(Netlist *netlist, Literal x, Literal y);

/* A new gate of this kind as it stands: the two literals are not inverted, and may be equal. */
Literal netlist_gate(Netlist *netlist, NodeKind kind, Literal x, Literal y);

/* Says what a literal means, to its gate, unless it is an input, a constant or has a role already;
 * returns the literal, so that calls nest. */
Literal netlist_mean(Netlist *netlist, Literal literal, Role role, int index);

/* The same for what concerns columns high ... low: "passes_7_4". */
Literal netlist_mean_span(Netlist *netlist, Literal literal, Role role, int high, int low);

/* Drops the gates that no output depends on, and inverts gates (AND to NAND, ...) whose inverse
 * is what an output needs. Call once, when the netlist is complete. */
void netlist_finish(Netlist *netlist);

/* 64 values of a gate of this kind from those of its inputs, their inversion included. */
static inline uint64_t netlist_gate_value(NodeKind kind, uint64_t x, uint64_t y) {
    switch (kind) {
    case NODE_AND:
        return x & y;
    case NODE_OR:
        return x | y;
    case NODE_XOR:
        return x ^ y;
    case NODE_NAND:
        return ~(x & y);
    case NODE_NOR:
        return ~(x | y);
    case NODE_XNOR:
        return ~(x ^ y);
    case NODE_CONSTANT:
    case NODE_INPUT:
    case NODE_KIND_COUNT:
        break;
    }
    return 0;
}

/* 64 vectors at once: values has node_count words; those of the inputs are set by the caller,
 * bit v of each word belonging to vector v; the others are computed. */
void netlist_evaluate(const Netlist *netlist, uint64_t *values);

/* The word of a literal after netlist_evaluate. */
static inline uint64_t netlist_value(const uint64_t *values, Literal literal) {
    assert(literal != LITERAL_NONE);
    uint64_t value = values[literal_node(literal)];
    return literal_inverted(literal) ? ~value : value;
}

static inline bool netlist_is_gate(const Node *node) {
    return node->kind >= NODE_AND;
}

/* Is this a literal of the netlist? */
static inline bool netlist_has(const Netlist *netlist, Literal literal) {
    return literal_node(literal) < netlist->node_count;
}

#endif
