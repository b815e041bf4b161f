/* A netlist as text, a line a gate: what gates.v names. */
#ifndef SUMWRIGHT_VERILOG_GATE_TEXT_H
#define SUMWRIGHT_VERILOG_GATE_TEXT_H

#include "gates/netlist/netlist.h"
#include "unit/unit.h"
#include "write/facts.h"

/* source: what stands for each pin inside. */
void gate_text(const Unit *unit, const Netlist *netlist, const char *const source[PIN_COUNT],
               Facts *facts);

#endif
