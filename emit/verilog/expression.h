/* The operand row, flags and addition as Verilog expressions, for the details `operators` and
 * `cells`. What each expression stands for is said in the templates. */
#ifndef SUMWRIGHT_VERILOG_EXPRESSION_H
#define SUMWRIGHT_VERILOG_EXPRESSION_H

#include "gates/netlist/netlist.h"
#include "unit/unit.h"
#include "write/facts.h"

/* Adds every expression that operands.v, operators.v, cells.v, columns.v and flags.v name. The
 * facts in.ROLE and out.ROLE, where the operands come from and where the results go, are there
 * already; of the unit's gates those are asked that say which way its columns are turned. */
void expression_facts(const Unit *unit, const Netlist *netlist, const char *const source[PIN_COUNT],
                      Facts *facts);

#endif
