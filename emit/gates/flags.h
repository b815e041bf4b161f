/* The flag row: what is said about the result, and what is done to it on the way out. */
#ifndef SUMWRIGHT_GATES_FLAGS_H
#define SUMWRIGHT_GATES_FLAGS_H

#include "gates/operands.h"
#include "gates/structures/structure.h"

/* Adds saturation, the flags and the outputs of the unit to the netlist. */
void flags_build(const Unit *unit, Netlist *netlist, const Operands *operands, const Adder *adder);

/* Is the flag about the delivered result, so that it need not be cleared where nothing is requested? */
bool flag_is_of_result(Flag flag);

/* Does anything in the flag row read whether the two last carries differ? */
bool flags_read_overflow(const Unit *unit);

#endif
