/* See patterns.h. A word is filled limb by limb, and then cut at its width. */
#include "vectors/patterns.h"

#include <assert.h>

static unsigned limbs_of(unsigned width) {
    return (width + 63) / 64;
}

static void cut(Word *word, unsigned width) {
    word->width = width;
    word_resize_unsigned(word, word, width);
}

void pattern_repeat(Word *word, unsigned width, uint64_t bits) {
    for (unsigned i = 0; i < limbs_of(width); i++)
        word->limb[i] = bits;
    cut(word, width);
}

void pattern_low_ones(Word *word, unsigned width, unsigned count) {
    assert(count <= width);
    word_zero(word, width);
    for (unsigned i = 0; i < count / 64; i++)
        word->limb[i] = UINT64_MAX;
    if (count % 64 != 0)
        word->limb[count / 64] = (UINT64_C(1) << count % 64) - 1;
}

void pattern_index(Word *word, unsigned width, unsigned k) {
    static const uint64_t within_a_limb[6] = {
        UINT64_C(0xaaaaaaaaaaaaaaaa), UINT64_C(0xcccccccccccccccc), UINT64_C(0xf0f0f0f0f0f0f0f0),
        UINT64_C(0xff00ff00ff00ff00), UINT64_C(0xffff0000ffff0000), UINT64_C(0xffffffff00000000),
    };
    if (k < 6) {
        pattern_repeat(word, width, within_a_limb[k]);
        return;
    }
    for (unsigned i = 0; i < limbs_of(width); i++)
        word->limb[i] = (i >> (k - 6) & 1) != 0 ? UINT64_MAX : 0;
    cut(word, width);
}

unsigned pattern_index_count(unsigned width) {
    unsigned k = 0;
    while (1U << k < width)
        k++;
    return k;
}

void pattern_uniform(Word *word, unsigned width, Random *random) {
    for (unsigned i = 0; i < limbs_of(width); i++)
        word->limb[i] = random_next(random);
    cut(word, width);
}

void pattern_runs(Word *word, unsigned width, Random *random) {
    word_zero(word, width);
    for (uint32_t changes = 1 + random_below(random, 8); changes > 0; changes--) {
        Word below;
        pattern_low_ones(&below, width, random_below(random, width));
        word_xor(word, word, &below);
        word_not(word, word);
    }
}

void pattern_ones(Word *word, unsigned from, unsigned end) {
    assert(from < end && end <= word->width);
    for (unsigned i = from / 64; i < limbs_of(end); i++) {
        uint64_t ones = UINT64_MAX;
        if (i == from / 64)
            ones <<= from % 64;
        if (i == end / 64) /* then end is no multiple of 64 */
            ones &= (UINT64_C(1) << end % 64) - 1;
        word->limb[i] |= ones;
    }
}

void pattern_flip(Word *word, unsigned bit) {
    word_put(word, bit, !word_bit(word, bit));
}
