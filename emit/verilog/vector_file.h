/* The vector file of a unit: what the pins are given and what must come out, from the model. */
#ifndef SUMWRIGHT_VERILOG_VECTOR_FILE_H
#define SUMWRIGHT_VERILOG_VECTOR_FILE_H

#include "unit/unit.h"
#include "vectors/coverage.h"
#include "write/template.h"

#include <stdio.h>

/* Writes NAME.vec: a first line that counts the vectors, a remark, a line a vector (see layout.h),
 * and a line of ones that ends it. One pass, in constant memory; the coverage of these vectors has
 * been gathered before. */
bool vector_file_write(const Unit *unit, const VectorPlan *plan, const VectorCount *count,
                       const Coverage *coverage, const char *command, const Templates *templates,
                       FILE *out, Problem *problem);

#endif
