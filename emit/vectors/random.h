/* Numbers that look random and are the same on every machine, for the random vectors.
 *
 * xoshiro256** seeded by splitmix64, both by David Blackman and Sebastiano Vigna, who put them in
 * the public domain: https://prng.di.unimi.it/ (xoshiro256starstar.c, splitmix64.c), and
 * "Scrambled Linear Pseudorandom Number Generators", ACM Trans. Mathematical Software 47, 2021. */
#ifndef SUMWRIGHT_VECTORS_RANDOM_H
#define SUMWRIGHT_VECTORS_RANDOM_H

#include <stdint.h>

typedef struct {
    uint64_t state[4]; /* not all zero */
} Random;

/* Every seed is good, 0 too. */
void random_seed(Random *random, uint64_t seed);

/* The next 64 bits. */
uint64_t random_next(Random *random);

/* A number in 0 ... count - 1, each as likely as any other to within count / 2^32; count is
 * 1 ... 2^32 - 1. */
uint32_t random_below(Random *random, uint32_t count);

#endif
