/* A worked operation as a walk: what stands after each step, and what is said at it. The operands
 * arrive, the operand row acts, the first carry enters; then column after column; the two last carries
 * are compared, the verdict is given, and each flag. */
#ifndef SUMWRIGHT_WORK_WALK_H
#define SUMWRIGHT_WORK_WALK_H

#include "work/story.h"

/* Carry i stands from step WALK_FIRST + i on, the sum of column i from WALK_COLUMN + i on. */
enum { WALK_PINS, WALK_OPERANDS, WALK_FIRST, WALK_COLUMN };

typedef struct {
    unsigned compare; /* the two last carries */
    unsigned verdict; /* and the result, as delivered */
    unsigned flags;   /* the first flag; one follows the other */
    unsigned count;   /* of all steps */
} Walk;

Walk walk_of(const Working *working, const Story *story);

/* The sentence of a step below the walk's count; the caller frees it. */
char *walk_say(const Working *working, const Story *story, unsigned step);

/* Those of the first steps and the last ones, which are the same however the carries are found. */
char *walk_say_pins(const Working *working);
char *walk_say_operands(const Working *working);
char *walk_say_first(const Working *working, const Story *story);
char *walk_say_compare(const Story *story);
char *walk_say_verdict(const Story *story);
char *walk_say_flag(const Story *story, unsigned flag);

#endif
