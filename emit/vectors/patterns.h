/* The words that test vectors are made of. Each costs one pass over its limbs. */
#ifndef SUMWRIGHT_VECTORS_PATTERNS_H
#define SUMWRIGHT_VECTORS_PATTERNS_H

#include "model/word.h"
#include "vectors/random.h"

/* 64 bits over and over, cut at the width. */
void pattern_repeat(Word *word, unsigned width, uint64_t bits);

/* Columns 0 ... count - 1 are 1, those above 0; count is 0 ... width. */
void pattern_low_ones(Word *word, unsigned width, unsigned count);

/* Bit i of the word is bit k of the number i: 0101..., 0011..., 00001111..., read from bit 0 up. */
void pattern_index(Word *word, unsigned width, unsigned k);

/* The number of index patterns it takes to tell every two bits of a word apart: the least k with
 * 2^k >= width. */
unsigned pattern_index_count(unsigned width);

/* Every bit drawn by itself. */
void pattern_uniform(Word *word, unsigned width, Random *random);

/* Runs of equal bits: 1 to 8 columns are drawn, and the bits change at each. */
void pattern_runs(Word *word, unsigned width, Random *random);

/* Bits from ... end - 1 are 1, the others as they were; from < end, end at most the width. */
void pattern_ones(Word *word, unsigned from, unsigned end);

/* The other level in one bit. */
void pattern_flip(Word *word, unsigned bit);

#endif
