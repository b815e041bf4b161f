/* The check of one design from its files to its verdict, in a process of its own; and the verdict's
 * way to the process that prints it. */
#ifndef SUMWRIGHT_CHECK_VERDICT_H
#define SUMWRIGHT_CHECK_VERDICT_H

#include "check/run/simulate.h"

/* VERDICT_UNPROVED: all vectors are right, and a proof that was asked for was not found. */
typedef enum {
    VERDICT_PASS,
    VERDICT_WRONG,
    VERDICT_UNTESTED,
    VERDICT_UNPROVED,
    VERDICT_FAILED
} VerdictKind;

/* What one check is asked. */
typedef struct {
    const Simulator *simulator;
    const char *yosys; /* its path, for a proof; NULL: none is asked for */
    const Unit *unit;
    bool flags_asked; /* each flag of the unit was asked for, and is there by no default */
    VectorPlan plan;
    const char *module; /* or NULL: to be found */
    ParameterSettings settings;
    unsigned latency;
    char *const *others; /* the files of all designs of the run */
    size_t other_count;
    char *const *paths; /* the design's files */
    size_t path_count;
} Question;

typedef struct {
    bool nearest; /* it explains only some, after one that is `unexplained` */
    char *name;   /* of the mistake */
    char *sentence;
    char *detail;
    double share; /* of the mismatching cases, 0 ... 1; less than 0 where that means nothing */
} VerdictMistake;

typedef struct {
    VerdictKind kind;
    Status status; /* VERDICT_FAILED: what kind of problem */
    char *reason;  /* VERDICT_UNTESTED, VERDICT_UNPROVED: why; VERDICT_FAILED: what of the
                      surroundings failed */
    char *proof;   /* VERDICT_PASS: what is proved, or "" where nothing was asked */
    size_t cases, wrong;
    char *first_bad; /* the lowest result column that is ever wrong, or a flag, or "" */
    char *left_out;  /* pins of the unit that were not tested, with blanks between, or "" */
    char **note;     /* what else is to be said, a line each */
    size_t note_count;
    VerdictMistake *mistake;
    size_t mistake_count;
    char *example; /* lines that work the smallest mismatch, or "" */
} Verdict;

/* Checks the design in a folder of its own and writes the verdict. Ends the process on no account.
 */
void verdict_find(const Question *question, const char *folder, FILE *reply);

/* The verdict that was written; false when the bytes are none. Free with verdict_free. */
bool verdict_read(Verdict *verdict, const char *bytes, size_t count);

/* The verdict on a design that none was written about. Free with verdict_free. */
void verdict_without(Verdict *verdict, VerdictKind kind, Status status, const char *reason);
void verdict_free(Verdict *verdict);

#endif
