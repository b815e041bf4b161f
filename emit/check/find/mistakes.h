/* Which mistake a design makes. Mistakes are variants of the model: one explains a design when the
 * variant gives what the design gave, in every case.
 *
 * The result and each flag are explained apart: what is added may be mistaken in one way, and a
 * flag is then right if it follows from that sum by any of the rules that people write. Where no
 * single mistake explains everything, two together are tried. */
#ifndef SUMWRIGHT_CHECK_FIND_MISTAKES_H
#define SUMWRIGHT_CHECK_FIND_MISTAKES_H

#include "check/find/mistake_rows.h"
#include "check/run/schedule.h"

#include <stdio.h>

enum { FINDING_DETAIL_BYTES = 512, FINDINGS_MAX = 8, GROUPS_MAX = OP_COUNT + 1 };

typedef struct {
    Mistake mistake;
    char detail[FINDING_DETAIL_BYTES]; /* which bit, column, pin ...; "" where there is no such */
    bool nearest;                      /* explains only some, after MISTAKE_UNEXPLAINED */
    double
        share; /* of the mismatching cases, those that it explains alone; 0 ... 1; -1: of no case */
} Finding;

typedef struct {
    size_t cases;
    size_t wrong; /* cases that differ; 0: the design is right as far as the cases go */
    Tail tail;    /* what a reset and a clock without enable do, where all cases are right */
    size_t asked[GROUPS_MAX]; /* cases by what is asked for: a choice each, then nothing */
    size_t wrong_of[GROUPS_MAX];
    int finding_count;
    Finding finding[FINDINGS_MAX]; /* one MISTAKE_UNEXPLAINED where nothing explains it, then the
                                      nearest, if any */
    size_t example;                /* the smallest mismatching case */
    int late;                      /* the clocks that the design is late, as found */
    int first_column;              /* the lowest result column that is ever wrong, or -1 */
    bool wrong_flag[FLAG_COUNT];   /* flags that are ever wrong */
} Diagnosis;

/* What a run showed. */
typedef struct {
    const Cases *cases;
    const Schedule *schedule;
    const Mapping *mapping;
    const Samples *samples;
} Evidence;

/* Adds a mistake that no case shows, once, with one detail more. */
void diagnosis_add(Diagnosis *diagnosis, Mistake mistake, const char *detail);

void mistakes_find(const Evidence *evidence, Diagnosis *diagnosis);

#endif
