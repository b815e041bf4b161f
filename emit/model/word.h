/* Words of n bits, the numbers of the reference model. Plain values, no allocation.
 *
 * Bits are numbered from 0, the least significant. A Word keeps every bit at and above its width
 * zero. Two words given to one function have the same width unless it says otherwise. */
#ifndef SUMWRIGHT_MODEL_WORD_H
#define SUMWRIGHT_MODEL_WORD_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

/* 4096-bit operands, and two bits more for exact sums and differences of them. */
enum { WORD_BITS_MAX = 4096 + 2, WORD_LIMBS = (WORD_BITS_MAX + 63) / 64 };

typedef struct {
    unsigned width;            /* bits, 1 ... WORD_BITS_MAX */
    uint64_t limb[WORD_LIMBS]; /* limb[0] holds bits 0 ... 63; limbs past the width are not kept */
} Word;

/* All zeros, all ones, and the low bits of value (cut to the width). */
void word_zero(Word *word, unsigned width);
void word_ones(Word *word, unsigned width);
void word_set(Word *word, unsigned width, uint64_t value);

/* One bit; bit is below the width. */
bool word_bit(const Word *word, unsigned bit);
void word_put(Word *word, unsigned bit, bool value);

/* The same bits at another width: cut, or extended with zeros, or with the sign bit.
 * to may be the same object as from. */
void word_resize_unsigned(Word *to, const Word *from, unsigned width);
void word_resize_signed(Word *to, const Word *from, unsigned width);

/* to = x + y + carry and to = x - y - borrow, modulo 2^width. The value returned is the carry out
 * of the top bit (exact sum >= 2^width), or the borrow that the top bit asks for (exact difference
 * < 0). to may be x or y, here and in the three below. */
bool word_add(Word *to, const Word *x, const Word *y, bool carry);
bool word_subtract(Word *to, const Word *x, const Word *y, bool borrow);

void word_not(Word *to, const Word *from);
void word_xor(Word *to, const Word *x, const Word *y);
void word_and(Word *to, const Word *x, const Word *y);
void word_or(Word *to, const Word *x, const Word *y);
void word_and_not(Word *to, const Word *x, const Word *y); /* x AND NOT y */

bool word_equal(const Word *x, const Word *y);
bool word_is_zero(const Word *word);
bool word_parity(const Word *word);       /* XOR of all bits */
unsigned word_count(const Word *word);    /* how many bits are 1 */
unsigned word_hex_digits(unsigned width); /* (width + 3) / 4 */

/* Lower-case hexadecimal, word_hex_digits(width) digits, to a buffer with room for them and a
 * terminating zero; returns the number of digits. */
unsigned word_hex(const Word *word, char *text);

#endif
