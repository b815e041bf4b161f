/* Satisfiability of clauses, for the questions about faults that simulation leaves open.
 *
 * Conflict-driven search: two watched literals a clause, learnt clauses up to the first unique
 * implication point, decisions by recent activity, restarts (J. P. Marques-Silva, K. A. Sakallah,
 * "GRASP", IEEE Trans. Computers, 1999; M. Moskewicz and others, "Chaff", DAC 2001; N. Een,
 * N. Soerensson, "An Extensible SAT-solver", SAT 2003; from memory). Learnt clauses are kept: the
 * caller bounds the number of conflicts.
 *
 * A literal is a variable's number times two, plus one when its complement is meant, as in
 * netlist.h. */
#ifndef SUMWRIGHT_GATES_FAULTS_SOLVER_H
#define SUMWRIGHT_GATES_FAULTS_SOLVER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct Solver Solver;

typedef enum {
    SOLVER_UNDECIDED, /* the conflicts were used up */
    SOLVER_POSSIBLE,  /* solver_value has values that meet every clause */
    SOLVER_IMPOSSIBLE,
} SolverAnswer;

/* Variables 0 ... variables - 1, no clause. Out of memory ends the program with
 * STATUS_SURROUNDINGS. Free with solver_free. */
Solver *solver_new(uint32_t variables);
void solver_free(Solver *solver);

/* One of these literals, of different variables, is to be true. All before solver_run. */
void solver_clause(Solver *solver, const uint32_t *literals, uint32_t count);

/* Once; gives up after so many conflicts. */
SolverAnswer solver_run(Solver *solver, uint64_t conflicts);
bool solver_value(const Solver *solver, uint32_t variable);

#endif
