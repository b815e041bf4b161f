/* A netlist made again of two-input gates of one kind, NAND or NOR. An inverter is a gate with both
 * inputs tied; an output that is an input or a constant takes no gate.
 *
 * NAND of inverses is OR, so the inverses that a circuit needs decide what it costs. For each pair
 * of signals that gates join (see pairs.h) there are six ways to make what is read of its XOR and
 * products; each finds them ready in one polarity and reads its operands in some polarities. The
 * mapper takes for each what is cheapest, and improves the whole (see plan.c). Inverses are shared.
 * Linear in gates.
 *
 * An XOR takes four NANDs, a full adder nine (S. Muroga and others, "Optimal One-Bit Full Adders
 * With Different Types of Gates", IEEE Transactions on Computers, 1974: eight are impossible). A
 * circuit of NORs is the dual of a circuit of NANDs for the dual function. */
#ifndef SUMWRIGHT_GATES_MAPPING_MAP_H
#define SUMWRIGHT_GATES_MAPPING_MAP_H

#include "gates/netlist/netlist.h"

/* kind is NODE_NAND or NODE_NOR. Reads a finished netlist and makes mapped, which the caller frees
 * with netlist_free: all its gates are of that kind, no literal in it is inverted, and it has the
 * same inputs and outputs. A gate that has the value of one before keeps its name, part and
 * column. */
void map_netlist(const Netlist *netlist, NodeKind kind, Netlist *mapped);

#endif
