/* Which operations an exercise sheet asks for: operands found at random, but so that each kind of
 * thing that can happen comes up, as far as the unit can do it. */
#ifndef SUMWRIGHT_LESSON_QUESTIONS_H
#define SUMWRIGHT_LESSON_QUESTIONS_H

#include "work/working.h"

/* ROW(ID, id, what is to happen); is_ID in questions.c says whether it does. */
#define AIMS(ROW)                                                                                  \
    ROW(OVERFLOW_ABOVE, overflow_above, "the exact signed result is above the greatest number")    \
    ROW(BORROW, borrow, "the exact unsigned result is below 0")                                    \
    ROW(NEGATIVE, negative, "the result is negative and fits two's complement")                    \
    ROW(CARRY, carry, "the exact unsigned result is above the greatest number")                    \
    ROW(OVERFLOW_BELOW, overflow_below, "the exact signed result is below the least number")       \
    ROW(CHAIN, chain, "a carry passes through at least half of the columns")

#define AIM_ID(ID, ...) AIM_##ID,
typedef enum { AIMS(AIM_ID) } Aim;
#undef AIM_ID
#define AIM_COUNT (0 AIMS(ROW_ONE))

enum { QUESTIONS_MAX = 200, QUESTIONS_WIDTH_MAX = 32 };

/* Does it happen in this operation? */
bool question_meets(const Working *working, Aim aim);

/* Works out count questions into an array of that many, the same for the same unit and seed. The
 * aims take turns, and so do the unit's operations; an aim that none of them can reach is any
 * operands. No question is asked twice while there are others. The workings point to the unit, whose
 * width is at most QUESTIONS_WIDTH_MAX. */
void questions_choose(const Unit *unit, uint64_t seed, int count, Working *question);

#endif
