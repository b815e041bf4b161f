/* What a proof of a unit's own circuit says, in words. */
#ifndef SUMWRIGHT_PROOF_SAY_H
#define SUMWRIGHT_PROOF_SAY_H

#include "proof/prove.h"

#include <stdio.h>

/* One line, without its end: what is equal, for which inputs, and what was not compared. A proof
 * that is PROOF_DIFFERENT has none: see say_difference. */
void say_proof(const Unit *unit, const Netlist *netlist, const Proof *proof, FILE *out);

/* Sets a problem of STATUS_SURROUNDINGS, since only a fault of this program makes a circuit of ours
 * differ; returns false. */
bool say_difference(const Unit *unit, const Netlist *netlist, const Proof *proof, Problem *problem);

#endif
