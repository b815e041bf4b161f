/* See columns.h. */
#include "vectors/columns.h"

#include <stddef.h>

void columns_to_operands(Operation operation, const Columns *columns, Word *a, Word *b) {
    unsigned width = columns->propagate.width;
    const Addend addend[2] = {adder_addend(operation, 0), adder_addend(operation, 1)};
    uint64_t invert[2];
    for (int which = 0; which < 2; which++)
        invert[which] = addend_is_inverted(addend[which]) ? UINT64_MAX : 0;
    for (size_t i = 0; i < (width + 63) / 64; i++) {
        uint64_t passes = columns->propagate.limb[i], in_x = columns->in_x.limb[i];
        uint64_t forced = ~passes & columns->level.limb[i];
        uint64_t given[2] = {(passes & in_x) | forced, (passes & ~in_x) | forced};
        a->limb[i] = b->limb[i] = in_x;
        for (int which = 0; which < 2; which++) {
            bool alone = addend_is_constant(addend[1 - which]);
            uint64_t bits = alone ? passes ^ invert[1 - which] : given[which];
            if (!addend_is_constant(addend[which]))
                (addend_pin(addend[which]) == PIN_A ? a : b)->limb[i] = bits ^ invert[which];
        }
    }
    a->width = b->width = width;
    word_resize_unsigned(a, a, width);
    word_resize_unsigned(b, b, width);
}
