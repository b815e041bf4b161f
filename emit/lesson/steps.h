/* The steps in which a lesson shows an operation, and from which step on each wire has its level: the
 * operands arrive, the operand row acts, the first carry enters; then column after column, or level
 * after level of a network; the last carries are compared, the result stands, and each flag. */
#ifndef SUMWRIGHT_LESSON_STEPS_H
#define SUMWRIGHT_LESSON_STEPS_H

#include "gates/netlist/core.h"

/* What the steps between the first carry and the comparison are. */
typedef enum { STEPS_COLUMNS, STEPS_LEVELS, STEPS_GROUPS } StepsKind;

enum { STEP_PINS, STEP_OPERANDS, STEP_FIRST, STEP_CORE };

typedef struct {
    StepsKind kind;
    unsigned core;    /* how many there are, the first of them STEP_CORE */
    unsigned least;   /* of a network: the number of its first level or group */
    unsigned sums;    /* of a network: when all columns add; else no step */
    unsigned compare; /* the last two carries */
    unsigned result;  /* as delivered, and the verdict */
    unsigned flag[FLAG_COUNT];
    unsigned count;        /* of all steps */
    unsigned *node;        /* when each node of the netlist has its level */
    unsigned *carry, *sum; /* when the carry into each column (width + 1) and its sum bit stand */
} Steps;

/* The steps of a netlist that has the record of its core; steps_free frees what they own. */
void steps_find(const Unit *unit, const Netlist *netlist, bool is_chain, Steps *steps);
void steps_free(Steps *steps);

#endif
