/* The part of corner values, each with each. */
#include "vectors/parts.h"
#include "vectors/patterns.h"

#include <assert.h>
#include <stddef.h>

enum { CORNERS = 15 };

typedef struct {
    int count;
    Word value[CORNERS];
} Corners;

/* Keeps the last value of the list only if it is not there yet: in narrow words corners meet. */
static void keep_if_new(Corners *corners) {
    assert(corners->count < CORNERS);
    for (int k = 0; k < corners->count; k++)
        if (word_equal(&corners->value[k], &corners->value[corners->count]))
            return;
    corners->count++;
}

/* base + offset mod 2^n */
static void add_near(Corners *corners, const Word *base, int64_t offset) {
    Word distance;
    word_set(&distance, 64, (uint64_t)offset);
    word_resize_signed(&distance, &distance, base->width);
    word_add(&corners->value[corners->count], base, &distance, false);
    keep_if_new(corners);
}

static void add_pattern(Corners *corners, unsigned width, uint64_t bits) {
    pattern_repeat(&corners->value[corners->count], width, bits);
    keep_if_new(corners);
}

/* The ends of the unsigned range and of the signed range with their neighbours, bits that alternate
 * singly and in twos, fours and eights, and half a word of ones. */
static void corners_of(unsigned width, Corners *corners) {
    static const uint64_t alternating[] = {
        UINT64_C(0x5555555555555555), UINT64_C(0xaaaaaaaaaaaaaaaa), UINT64_C(0x3333333333333333),
        UINT64_C(0x0f0f0f0f0f0f0f0f), UINT64_C(0x00ff00ff00ff00ff)};
    Word base;
    corners->count = 0;
    word_zero(&base, width);
    for (int offset = -2; offset <= 2; offset++)
        add_near(corners, &base, offset);
    word_put(&base, width - 1, true);
    for (int offset = -1; offset <= 1; offset++)
        add_near(corners, &base, offset);
    for (size_t k = 0; k < sizeof alternating / sizeof *alternating; k++)
        add_pattern(corners, width, alternating[k]);
    pattern_low_ones(&base, width, width / 2);
    add_near(corners, &base, 0);
    word_not(&base, &base);
    add_near(corners, &base, 0);
}

void part_corners(Generator *generator) {
    const Unit *unit = generator->unit;
    Vector *vector = &generator->vector;
    Corners corners;
    corners_of(unit->width, &corners);
    for (int k = 0; k < unit->choice_count; k++)
        for (int cin = 0; cin <= generator->has_cin; cin++)
            for (int a = 0; a < corners.count; a++)
                for (int b = 0; b < (generator->has_b ? corners.count : 1); b++) {
                    word_resize_unsigned(&vector->a, &corners.value[a], unit->width);
                    word_resize_unsigned(&vector->b, &corners.value[b], unit->width);
                    generator_send(generator, VECTOR_CORNER, unit_control_value(unit, k), cin == 1);
                }
}
