/* Reduced ordered binary decision diagrams: a function of many variables as a graph in which equal
 * functions are one node, so that two circuits are equal where two numbers are.
 *
 * Source: R. E. Bryant, "Graph-Based Algorithms for Boolean Function Manipulation", IEEE Trans.
 * Computers, 1986; with complement edges: K. S. Brace, R. L. Rudell, R. E. Bryant, "Efficient
 * Implementation of a BDD Package", 1990.
 *
 * A Diagram is a node's index times two, plus one when its inverse is meant, like a literal of a
 * netlist. Node 0 is the constant: diagram 0 is false, diagram 1 is true. A node asks for the
 * variable of its level, level 0 first. Its low edge (variable 0) is never inverted: so a diagram's
 * own inversion bit is its value where all variables are 0.
 *
 * Nothing here calls itself: a diagram may be as deep as there are variables. Nodes and steps are
 * counted: where one more would pass its limit, an operation gives DIAGRAM_NONE, and so does every
 * operation on DIAGRAM_NONE. */
#ifndef SUMWRIGHT_PROOF_DIAGRAM_H
#define SUMWRIGHT_PROOF_DIAGRAM_H

#include <stdbool.h>
#include <stdint.h>

typedef uint32_t Diagram;

enum { DIAGRAM_0 = 0, DIAGRAM_1 = 1 };
#define DIAGRAM_NONE UINT32_MAX /* no diagram: the limit was reached */

typedef struct Diagrams Diagrams;

/* What a store may take: nodes at once (24 bytes each, with what finds them), and steps of all its
 * operations together, each of which makes a node at most. */
typedef struct {
    uint32_t nodes;
    uint64_t steps;
} DiagramLimits;

enum { DIAGRAM_LEVELS_MAX = 60000 };

/* An empty store for functions of this many variables (1 ... DIAGRAM_LEVELS_MAX). Memory that runs out ends the
 * program with STATUS_SURROUNDINGS. Free with diagram_close. */
Diagrams *diagram_open(unsigned levels, DiagramLimits limits);
void diagram_close(Diagrams *diagrams);

/* The function that is the variable of a level. */
Diagram diagram_variable(Diagrams *diagrams, unsigned level);

static inline Diagram diagram_not(Diagram x) {
    return x == DIAGRAM_NONE ? x : x ^ 1u;
}

/* New functions. They stay until the next diagram_tidy, and those held, with all that they are made
 * of, until they are dropped. */
Diagram diagram_and(Diagrams *diagrams, Diagram x, Diagram y);
Diagram diagram_or(Diagrams *diagrams, Diagram x, Diagram y);
Diagram diagram_xor(Diagrams *diagrams, Diagram x, Diagram y);
Diagram diagram_if(Diagrams *diagrams, Diagram condition, Diagram then, Diagram otherwise);

/* Holds a diagram, as often as it is dropped later; returns it. Constants and DIAGRAM_NONE need no
 * holding, and may be held. */
Diagram diagram_hold(Diagrams *diagrams, Diagram x);
void diagram_drop(Diagrams *diagrams, Diagram x);

/* Forgets the nodes of diagrams that are not held, if there are many or force is set. */
void diagram_tidy(Diagrams *diagrams, bool force);

/* One assignment for which x, which is not DIAGRAM_0, is true: level[k] for each variable, 0 where
 * either will do and wherever 0 will do. */
void diagram_example(const Diagrams *diagrams, Diagram x, bool *level);

/* The most nodes that there were at once, and the steps that operations took. */
uint32_t diagram_peak(const Diagrams *diagrams);
uint64_t diagram_steps(const Diagrams *diagrams);

/* The variables, and a number above that of every node in use. */
unsigned diagram_levels(const Diagrams *diagrams);
uint32_t diagram_end(const Diagrams *diagrams);

/* The level of x's first variable (levels for a constant), and what x is where that variable, or a
 * level above it, has this value. For walks over a diagram. */
unsigned diagram_level(const Diagrams *diagrams, Diagram x);
Diagram diagram_branch(const Diagrams *diagrams, Diagram x, unsigned level, bool value);

#endif
