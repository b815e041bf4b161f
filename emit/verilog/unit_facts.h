/* What templates may say about a unit: its names, pins, operations and registers. Verilog,
 * testbench and vector file all start from these facts. */
#ifndef SUMWRIGHT_VERILOG_UNIT_FACTS_H
#define SUMWRIGHT_VERILOG_UNIT_FACTS_H

#include "unit/unit.h"
#include "write/facts.h"
#include "write/template.h"

#include <stdio.h>

/* Facts of a settled unit; command is the command line that asks for it. Free with facts_free. */
Facts *unit_facts(const Unit *unit, const char *command);

/* The range of a pin as its declaration shows it, padded to a column where padded is true:
 * "[WIDTH-1:0] ", "[7:0] ", "". */
void unit_range(const Unit *unit, Pin pin, bool padded, char *text, size_t room);

/* Fills a template into a fact, so that another can place it. */
bool unit_facts_fill(Facts *facts, const char *fact, const Templates *templates,
                     const char *template, Problem *problem);

#endif
