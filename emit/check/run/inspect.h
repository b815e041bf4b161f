/* Looks through a compiled simulation before it runs: which system tasks it calls, whatever macro
 * hides them in the source, and how much memory it keeps. */
#ifndef SUMWRIGHT_CHECK_RUN_INSPECT_H
#define SUMWRIGHT_CHECK_RUN_INSPECT_H

#include "base/problem.h"

#include <stddef.h>
#include <stdint.h>

/* Bits of memories that a design may keep beside the bench's. A hand-written unit has none; a table
 * of all sums of two 4-bit words takes 2048. */
enum { INSPECT_MEMORY_BITS = 1 << 19 };

/* The text of the compiled simulation, ended by a NUL, in which the bench calls $readmemh,
 * $writememb and $finish once each and keeps this much memory. False after a problem
 * (STATUS_UNTESTED). */
bool inspect_compiled(const char *text, uint64_t bench_bits, Problem *problem);

/* The bits that a port has as elaborated, in the instance of this name, which no other has; 0: no
 * such port. */
unsigned inspect_port_bits(const char *text, const char *instance, const char *name);

#endif
