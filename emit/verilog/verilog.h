/* The unit's Verilog (IEEE 1364-2005). */
#ifndef SUMWRIGHT_VERILOG_VERILOG_H
#define SUMWRIGHT_VERILOG_VERILOG_H

#include "gates/netlist/netlist.h"
#include "unit/unit.h"
#include "write/template.h"

#include <stdio.h>

/* Writes NAME.v: the module, and the cells that it uses. netlist holds the gates of the unit;
 * command is the command line that asks for it, for the header. */
bool verilog_write(const Unit *unit, const Netlist *netlist, const char *command,
                   const Templates *templates, FILE *out, Problem *problem);

#endif
