/* An operation as it is asked for, its operands still in digits, worked out. */
#ifndef SUMWRIGHT_WORK_ASKED_H
#define SUMWRIGHT_WORK_ASKED_H

#include "base/problem.h"
#include "work/working.h"

/* choice: an index into unit->choice. operand: count of them, as number_read() takes them. cin: the
 * level of the pin, 0 or 1; or less, for the one that brings no carry and no borrow. Operands that
 * are missing, extra or do not fit the unit's width, and a cin that the operation does not read, are
 * problems of STATUS_INVALID. The working points to the unit. */
bool work_asked(const Unit *unit, int choice, const char *const *operand, int count, int cin,
                Working *working, Problem *problem);

#endif
