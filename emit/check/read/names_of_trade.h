/* The names that pins have in hand-written designs. Private to this folder. */
#ifndef SUMWRIGHT_CHECK_READ_NAMES_OF_TRADE_H
#define SUMWRIGHT_CHECK_READ_NAMES_OF_TRADE_H

#include "unit/unit.h"

/* Could a port of this name be that pin? Case, underscores, and an i_ or o_, _i or _o around the
 * name do not matter. */
bool trade_name_fits(Pin pin, const char *name);

/* Is it the carry out of the last column by its number: c8 or C_8 in an 8-bit unit? */
bool trade_name_of_carry(unsigned width, const char *name);

/* The flag that such a name usually stands for, or -1. */
int trade_flag(const char *name);

#endif
