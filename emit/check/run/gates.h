/* From a design's files to its gates, with Yosys, fenced in (fence.h). What is read is what the
 * simulator's preprocessor made of the files, without comments and attributes: a design has no way
 * to show another text here than it showed in simulation. A level that the design leaves open (x, z,
 * undriven) becomes an input of its own. */
#ifndef SUMWRIGHT_CHECK_RUN_GATES_H
#define SUMWRIGHT_CHECK_RUN_GATES_H

#include "check/run/simulate.h"
#include "proof/aiger.h"

/* Where Yosys is on the PATH, which the caller frees; NULL after a problem (STATUS_SURROUNDINGS). */
char *gates_find_yosys(Problem *problem);

/* The gates of the design with the bench's pins, called as proof/unroll.h wants them. Problems are
 * STATUS_UNTESTED, with why it cannot be read, or STATUS_SURROUNDINGS. Free with aiger_free. */
bool gates_read(const Design *design, const Bench *bench, const char *yosys, Aiger *aiger,
                Problem *problem);

#endif
