/* The circuit that a solver found. */
#ifndef SMALLEST_ANSWER_H
#define SMALLEST_ANSWER_H

#include "question.h"

/* Reads the solver's answer, its lines "v 1 -2 3 ...", from standard input, prints the circuit, and
 * checks it against the unit's table in every row; ends the program where it is wrong. */
void answer_show(const Question *question);

#endif
