/* The files that put a design to the test: a bench around it, and what the bench reads. */
#ifndef SUMWRIGHT_CHECK_RUN_BENCH_H
#define SUMWRIGHT_CHECK_RUN_BENCH_H

#include "check/run/schedule.h"

enum { BENCH_TAG_BYTES = 33 };

typedef struct {
    const Cases *cases;
    const Schedule *schedule;
    const Mapping *mapping;
    ParameterSettings settings;
    bool reset_low; /* the level that the reset pin is given to reset */
    /* 128 random bits in hexadecimal: bench_TAG, given_TAG and seen_TAG are the module and the two
     * files, dut_TAG the instance, so that a design cannot name them. */
    char tag[BENCH_TAG_BYTES];
} Bench;

/* Draws the tag; false after a problem (STATUS_SURROUNDINGS). */
bool bench_draw_tag(Bench *bench, Problem *problem);

/* Writes bench_TAG.v and given_TAG into the folder. */
bool bench_write(const Bench *bench, const char *folder, Problem *problem);

/* Bits of the memories that the bench keeps. */
uint64_t bench_memory_bits(const Bench *bench);

/* Reads seen_TAG; a file that is not there, or not whole, is a problem (STATUS_UNTESTED). */
bool bench_read(const Bench *bench, const char *folder, Samples *samples, Problem *problem);

#endif
