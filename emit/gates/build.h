/* From a unit to its gates: operand row, adder core, flag row. Registers, where there are any,
 * stand around these gates and are not part of them. */
#ifndef SUMWRIGHT_GATES_BUILD_H
#define SUMWRIGHT_GATES_BUILD_H

#include "gates/netlist/core.h"
#include "gates/netlist/netlist.h"
#include "gates/operands.h"
#include "gates/structures/structure.h"

/* Builds the finished netlist of a settled unit: of NANDs or NORs alone for those details, of any
 * two-input gates for all others. Inputs in the order of Pin (the request pins in
 * the order listed), outputs likewise. The caller frees it with netlist_free. */
void build_netlist(const Unit *unit, Netlist *netlist);

/* The same of gates of one kind, NODE_NAND or NODE_NOR, whatever the unit's detail. */
void build_of_kind(const Unit *unit, NodeKind kind, Netlist *netlist);

/* The same of gates of any kind, whatever the unit's detail. */
void build_of_any_kind(const Unit *unit, Netlist *netlist);

/* The same gates before they are finished, with what each part handed to the next: literals of
 * operands, sums and carries, which finishing would renumber. Gates that no output depends on are
 * still there. */
typedef struct {
    Netlist netlist;
    Operands operands;
    Adder adder;
} Build;

/* Builds; build_close frees what the build owns. */
void build_open(const Unit *unit, Build *build);
void build_close(Build *build);

#endif
