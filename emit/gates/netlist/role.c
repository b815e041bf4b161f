/* See role.h. */
#include "gates/netlist/role.h"

#include <assert.h>
#include <stddef.h>

const char *role_text(Role role) {
#define TEXT_ROW(name, text) [ROLE_##name] = text,
    static const char *const texts[ROLE_COUNT] = {SIGNALS(TEXT_ROW) ROLES(TEXT_ROW)};
#undef TEXT_ROW
    assert(role < ROLE_COUNT);
    return texts[role];
}
