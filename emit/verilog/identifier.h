/* Names for what is inside a generated module, out of the way of the names that its pins have. */
#ifndef SUMWRIGHT_VERILOG_IDENTIFIER_H
#define SUMWRIGHT_VERILOG_IDENTIFIER_H

#include "unit/unit.h"

enum { IDENTIFIER_BYTES = UNIT_NAME_MAX + 32 };

typedef struct {
    char text[IDENTIFIER_BYTES];
} Identifier;

/* The stem itself, or with _w added until neither it nor, where numbered, it and _NUMBER (or
 * _NUMBER_NUMBER) is the name of one of the unit's pins or of the unit. */
Identifier identifier_free(const Unit *unit, const char *stem, bool numbered);

#endif
