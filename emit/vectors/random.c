/* See random.h. */
#include "vectors/random.h"

#include <assert.h>

/* splitmix64: a counter with a scrambled output. */
static uint64_t split_mix(uint64_t *counter) {
    uint64_t z = *counter += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

void random_seed(Random *random, uint64_t seed) {
    for (int i = 0; i < 4; i++)
        random->state[i] = split_mix(&seed);
}

static uint64_t rotate_left(uint64_t bits, int by) {
    return (bits << by) | (bits >> (64 - by));
}

uint64_t random_next(Random *random) {
    uint64_t *s = random->state;
    uint64_t drawn = rotate_left(s[1] * 5, 7) * 9;
    uint64_t shifted = s[1] << 17;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= shifted;
    s[3] = rotate_left(s[3], 45);
    return drawn;
}

uint32_t random_below(Random *random, uint32_t count) {
    assert(count > 0);
    return (uint32_t)((random_next(random) >> 32) * count >> 32);
}
