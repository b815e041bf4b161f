/* Is there a circuit of so many gates for the unit? As clauses for a satisfiability solver.
 *
 * Each gate selects two nodes before it and has a value for each setting of the inputs; each output
 * selects a gate (A. Kojevnikov, A. Kulikov, G. Yaroslavtsev, "Finding Efficient Circuits Using
 * SAT-solvers", SAT 2009; D. E. Knuth, "The Art of Computer Programming", 7.2.2.2, exercises on
 * optimum circuits; both from memory). Gates of any kind are asked for in normal form, 0 where both
 * inputs are 0, and so are the outputs: any circuit is brought into that form by turning wires
 * over, which is free as gates of any kind invert what they read. */
#ifndef SMALLEST_QUESTION_H
#define SMALLEST_QUESTION_H

#include "unit.h"

#include <stddef.h>

enum {
    GATES_MAX = 20,
    NODES_MAX = INPUTS_MAX + GATES_MAX,
    FUNCTION_BITS = 3,
};

typedef enum { BASIS_ANY, BASIS_NAND, BASIS_NOR } Basis;

/* Variables are numbers from 1; 0 where there is none. Nodes: the inputs, then the gates. */
typedef struct {
    const Unit *unit;
    Basis basis;
    int nodes;
    int select[NODES_MAX][NODES_MAX]
              [NODES_MAX];                  /* gate i reads j and k, j < k; j = k in nand, nor */
    int value[NODES_MAX][ROWS_MAX];         /* gate i is 1 in the row */
    int function[NODES_MAX][FUNCTION_BITS]; /* it is 1 where j, k are 10, 01, 11 */
    int output[OUTPUTS_MAX][NODES_MAX];     /* gate i is output h */
    int variables;
    int *literals; /* all clauses, each ended by 0 */
    size_t length, room;
    int clauses;
} Question;

/* Free with question_free. Out of memory ends the program. */
void question_ask(Question *question, const Unit *unit, Basis basis, int gates);
void question_free(Question *question);

/* In DIMACS form, on standard output. */
void question_write(const Question *question);

/* rules.c: asks for the first of the smallest circuits only. */
void question_restrict(Question *question);

/* One more clause of up to four literals, 0 for none; or literal by literal, 0 at the end. */
void question_clause(Question *question, int p, int q, int r, int s);
void question_add(Question *question, int literal);

#endif
