/* Operands by the result that they give, for what looks at the result as a whole: its flags. As far
 * as saturation lets the results out. */
#ifndef SUMWRIGHT_VECTORS_RESULTS_H
#define SUMWRIGHT_VECTORS_RESULTS_H

#include "model/adder.h"
#include "vectors/generator.h"

/* Does the operation only take away from 0, as neg? */
bool result_is_taken_from_0(Operation operation);

/* Sends operands that give a result of a single one in this column. */
void result_send_single_one(Generator *generator, VectorReason reason, int choice, unsigned column);

/* Is that one the operand itself, the other one being 0? */
bool result_is_operand(Operation operation);

/* Sends operands for three results that, with a result of 0, give each XOR of a tree over the
 * result all four levels of its inputs, and the parity pin both of its levels. They are 1 in two of
 * three interleaved sets of bits, so that each XOR of two sets is the third (common practice, no
 * source). */
void result_send_parities(Generator *generator, VectorReason reason, int choice);

#endif
