/* The self-checking testbench of a unit. */
#ifndef SUMWRIGHT_VERILOG_TESTBENCH_H
#define SUMWRIGHT_VERILOG_TESTBENCH_H

#include "unit/unit.h"
#include "vectors/vectors.h"
#include "write/template.h"

#include <stdint.h>
#include <stdio.h>

/* Writes NAME_tb.v, with room for count vectors, which follow the plan. command is the command line
 * that asks for the unit, for the header. */
bool testbench_write(const Unit *unit, const VectorPlan *plan, uint64_t count, const char *command,
                     const Templates *templates, FILE *out, Problem *problem);

#endif
