/* The vectors' coverage and strength for other programs to read: emit --coverage. */
#ifndef SUMWRIGHT_WRITE_COVERAGE_JSON_H
#define SUMWRIGHT_WRITE_COVERAGE_JSON_H

#include "gates/faults/faults.h"
#include "vectors/coverage.h"

#include <stdio.h>

/* One JSON object. For each operation, each flag at each level is "seen", "missed" or "impossible",
 * and so are columns, event by event, as ranges [first, last]. faults is NULL where the circuit was
 * not graded. Write errors show in the stream. */
void coverage_json(const Coverage *coverage, const VectorCount *vectors, const FaultCount *faults,
                   FILE *out);

#endif
