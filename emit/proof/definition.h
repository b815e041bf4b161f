/* What a unit must deliver, for all inputs at once: a witness of its own. Every operation is its
 * formula, column by column as one adds and subtracts on paper (a subtraction borrows; it adds no
 * complement); every flag is its definition. This folder includes neither the reference model nor
 * what builds gates. */
#ifndef SUMWRIGHT_PROOF_DEFINITION_H
#define SUMWRIGHT_PROOF_DEFINITION_H

#include "proof/diagram.h"
#include "proof/inputs.h"

typedef struct Definition Definition;

/* The definition of a unit's operations over these inputs; both must outlive it. It holds what it
 * needs. Free with definition_free. */
Definition *definition_new(Diagrams *diagrams, const Inputs *inputs);
void definition_free(Definition *definition);

/* The function of one bit of an output pin, or DIAGRAM_NONE where it grows past the limit. The
 * caller holds it if it is to outlast the next diagram_tidy. */
Diagram definition_output(const Definition *definition, Pin pin, unsigned bit);

#endif
