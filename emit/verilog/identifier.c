/* See identifier.h. */
#include "verilog/identifier.h"

#include <stdio.h>
#include <string.h>

static bool clashes(const char *taken, const char *stem, bool numbered) {
    size_t length = strlen(stem);
    if (!numbered)
        return strcmp(taken, stem) == 0;
    return strncmp(taken, stem, length) == 0 && taken[length] == '_' &&
           strspn(taken + length + 1, "0123456789_") == strlen(taken + length + 1);
}

static bool is_taken(const Unit *unit, const char *stem, bool numbered) {
    bool taken = clashes(unit->name, stem, numbered);
    for (int pin = 0; pin < PIN_COUNT && !taken; pin++)
        taken = unit_has(unit, (Pin)pin) && clashes(unit->pin[pin], stem, numbered);
    return taken;
}

Identifier identifier_free(const Unit *unit, const char *stem, bool numbered) {
    Identifier identifier;
    snprintf(identifier.text, sizeof identifier.text, "%s", stem);
    /* A unit has fewer names than this loop can try. */
    for (size_t used = strlen(stem); is_taken(unit, identifier.text, numbered); used += 2)
        memcpy(identifier.text + used, "_w", 3);
    return identifier;
}
