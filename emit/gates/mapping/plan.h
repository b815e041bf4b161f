/* Which way each pair of signals is made of NANDs, so that the whole takes few. See map.h for the
 * idea. */
#ifndef SUMWRIGHT_GATES_MAPPING_PLAN_H
#define SUMWRIGHT_GATES_MAPPING_PLAN_H

#include "gates/mapping/way.h"

typedef struct {
    unsigned char way;
    bool through_y; /* see way_effort */
    bool by_others; /* the pair's selection is made of its other products */
} Plan;

typedef struct {
    Plan *plan;        /* of each pair */
    uint32_t *readers; /* of each term: gates and outputs that read it */
} Plans;

/* Linear in pairs. Free with plans_free. */
void plans_choose(const Pairs *pairs, Plans *plans);
void plans_free(Plans *plans);

#endif
