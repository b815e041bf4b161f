/* A unit with every operation, for tests that compare the model with another witness: choice k is
 * operation k, so an Operation serves as the choice. */
#ifndef SUMWRIGHT_TESTS_ALL_OPERATIONS_H
#define SUMWRIGHT_TESTS_ALL_OPERATIONS_H

#include "unit/unit.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static inline void all_operations(Unit *unit, unsigned width, Sense sense, Overflow overflow) {
    Problem problem = {0};
    unit_init(unit);
    unit->width = width;
    unit->sense = sense;
    unit->overflow = overflow;
    unit->choice_count = OP_COUNT;
    for (int op = 0; op < OP_COUNT; op++)
        unit->choice[op].operation = (Operation)op;
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
}

#endif
