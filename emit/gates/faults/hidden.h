/* Can any input show a fault? Answered by search, for the few faults that no vector has caught. */
#ifndef SUMWRIGHT_GATES_FAULTS_HIDDEN_H
#define SUMWRIGHT_GATES_FAULTS_HIDDEN_H

#include "gates/faults/faults.h"
#include "gates/netlist/readers.h"

/* FAULT_HIDDEN, FAULT_MISSED or FAULT_UNDECIDED. Inputs with several operations requested at once
 * are outside the contract and do not count.
 *
 * First in a small window around the fault: what enters it is taken as free and what leaves it as
 * seen, so a fault that cannot show there cannot show at all. Then in a larger one; last, if whole
 * is asked for, in the whole circuit, where an input that shows the fault is an answer too. */
FaultState hidden_search(const Netlist *netlist, const Readers *readers, Fault fault, bool whole);

#endif
