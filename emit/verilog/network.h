/* Carry structures as cells: which instances there are and what each is connected to, from the
 * descriptions that their gates are built from (gates/prefix.h, gates/columns.h). */
#ifndef SUMWRIGHT_VERILOG_NETWORK_H
#define SUMWRIGHT_VERILOG_NETWORK_H

#include "gates/netlist/netlist.h"
#include "unit/unit.h"
#include "verilog/identifier.h"
#include "write/facts.h"

/* Is the unit written as cells of a structure other than the ripple chain? */
bool network_has(const Unit *unit);

/* The template of its adder, "prefix.v". */
const char *network_template(const Unit *unit);

/* The wire, or the constant, that enters a column; column width: that leaves the last one. */
Identifier network_carry(const Unit *unit, const Netlist *netlist, unsigned column);

/* The templates of the cells that are in use, each once. */
typedef struct {
    const char *template[4];
    int count;
} NetworkCells;

/* Adds every instance and wire that network_template names; the facts of expression.h are there
 * already. */
NetworkCells network_facts(const Unit *unit, const Netlist *netlist, Facts *facts);

#endif
