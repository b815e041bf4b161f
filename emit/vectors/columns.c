/* See columns.h. */
#include "vectors/columns.h"

#include <stddef.h>

typedef enum { X_IS_A, X_IS_NOT_A } X;
typedef enum { Y_IS_B, Y_IS_NOT_B, Y_IS_ZEROS, Y_IS_ONES } Y;

/* x + y + first carry, from the definition of each operation with -w = not w + 1. */
typedef struct {
    X x;
    Y y;
    bool first_carry; /* adc and sbc: the cin pin instead */
} View;

static const View views[OP_COUNT] = {
    [OP_ADD] = {X_IS_A, Y_IS_B, false},        /* a + b */
    [OP_ADC] = {X_IS_A, Y_IS_B, false},        /* a + b + carry */
    [OP_SUB] = {X_IS_A, Y_IS_NOT_B, true},     /* a + not b + 1 */
    [OP_SBC] = {X_IS_A, Y_IS_NOT_B, true},     /* a + not b + 1 - borrow */
    [OP_RSB] = {X_IS_NOT_A, Y_IS_B, true},     /* not a + b + 1 */
    [OP_INC] = {X_IS_A, Y_IS_ZEROS, true},     /* a + 0 + 1 */
    [OP_DEC] = {X_IS_A, Y_IS_ONES, false},     /* a + (-1) */
    [OP_NEG] = {X_IS_NOT_A, Y_IS_ZEROS, true}, /* not a + 0 + 1 */
    [OP_PASS] = {X_IS_A, Y_IS_ZEROS, false},   /* a + 0 */
};

bool columns_first_carry(Operation operation) {
    return views[operation].first_carry;
}

void columns_to_operands(Operation operation, const Columns *columns, Word *a, Word *b) {
    const View *view = &views[operation];
    unsigned width = columns->propagate.width;
    bool reads_b = view->y == Y_IS_B || view->y == Y_IS_NOT_B;
    uint64_t invert_a = view->x == X_IS_NOT_A ? UINT64_MAX : 0;
    uint64_t invert_b = view->y == Y_IS_NOT_B ? UINT64_MAX : 0;
    uint64_t constant_y = view->y == Y_IS_ONES ? UINT64_MAX : 0;
    for (size_t i = 0; i < (width + 63) / 64; i++) {
        uint64_t passes = columns->propagate.limb[i];
        uint64_t in_x = columns->in_x.limb[i];
        uint64_t forced = ~passes & columns->level.limb[i];
        uint64_t x = reads_b ? (passes & in_x) | forced : passes ^ constant_y;
        uint64_t y = (passes & ~in_x) | forced;
        a->limb[i] = x ^ invert_a;
        b->limb[i] = reads_b ? y ^ invert_b : in_x;
    }
    a->width = b->width = width;
    word_resize_unsigned(a, a, width);
    word_resize_unsigned(b, b, width);
}

bool columns_of_operands(const Unit *unit, Operation operation, const Word *a, const Word *b,
                         bool cin, Word *x, Word *y) {
    const View *view = &views[operation];
    word_resize_unsigned(x, a, unit->width);
    if (view->x == X_IS_NOT_A)
        word_not(x, x);
    if (view->y == Y_IS_B || view->y == Y_IS_NOT_B)
        word_resize_unsigned(y, b, unit->width);
    else
        word_zero(y, unit->width);
    if (view->y == Y_IS_NOT_B || view->y == Y_IS_ONES)
        word_not(y, y);
    const OperationFacts *facts = operation_facts(operation);
    if (!facts->reads_cin)
        return view->first_carry;
    return cin != (facts->subtracts && unit->sense == SENSE_BORROW);
}
