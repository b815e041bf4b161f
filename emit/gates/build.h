/* From a unit to its gates: operand row, adder core, flag row. Registers, where there are any,
 * stand around these gates and are not part of them. */
#ifndef SUMWRIGHT_GATES_BUILD_H
#define SUMWRIGHT_GATES_BUILD_H

#include "gates/netlist.h"

/* Builds the finished netlist of a settled unit. Inputs in the order of Pin (the request pins in
 * the order listed), outputs likewise. The caller frees it with netlist_free. */
void build_netlist(const Unit *unit, Netlist *netlist);

#endif
