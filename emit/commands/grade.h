/* Where the vectors meet the gates: packs what the pins are given, 64 vectors at a time, for the
 * fault grading of gates/faults.h. What must come out takes no part: a fault is caught where the
 * faulty circuit differs from the circuit itself. */
#ifndef SUMWRIGHT_COMMANDS_GRADE_H
#define SUMWRIGHT_COMMANDS_GRADE_H

#include "gates/faults/faults.h"
#include "vectors/vectors.h"

/* Circuits of more gates take minutes with all their vectors; emit leaves them ungraded. */
enum { GRADE_GATES_MAX = 100000 };

typedef struct Grade Grade;

/* The netlist is that of the unit; both must outlive the grade. Large circuits report how far of
 * the total number of vectors they are, if standard error is a terminal. Out of memory ends the
 * program with STATUS_SURROUNDINGS. */
Grade *grade_new(const Unit *unit, const Netlist *netlist, uint64_t total);

/* One more vector, in the order of the file. */
void grade_vector(Grade *grade, const Vector *vector);

/* The faults caught, and what the others are (see faults_settle). Frees the grade. */
FaultCount grade_finish(Grade *grade, bool every_input);

#endif
