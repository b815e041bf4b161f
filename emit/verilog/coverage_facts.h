/* What the header of a vector file says of the vectors' coverage. */
#ifndef SUMWRIGHT_VERILOG_COVERAGE_FACTS_H
#define SUMWRIGHT_VERILOG_COVERAGE_FACTS_H

#include "vectors/coverage.h"
#include "write/facts.h"

/* A list "covered" with a row an operation: operation; flags, columns and longest as "16/16", what
 * was seen of what can be; cannot and missed as texts, columns folded into ranges, empty where
 * there is nothing to say. The flag can_idle, and in the text idle how many vectors request
 * nothing. */
void coverage_facts(const Coverage *coverage, Facts *facts);

#endif
