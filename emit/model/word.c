/* See word.h. Limb by limb, least significant first; only the limbs that a width needs are touched,
 * so that narrow words cost little though a Word has room for the widest. */
#include "model/word.h"

#include <assert.h>
#include <string.h>

static unsigned limbs_of(unsigned width) {
    return (width + 63) / 64;
}

/* The bits of the last limb that belong to the word. */
static uint64_t last_limb_mask(unsigned width) {
    return UINT64_MAX >> (limbs_of(width) * 64 - width);
}

static void trim(Word *word) {
    word->limb[limbs_of(word->width) - 1] &= last_limb_mask(word->width);
}

static void fill(Word *word, unsigned width, uint64_t pattern) {
    assert(width >= 1 && width <= WORD_BITS_MAX);
    word->width = width;
    for (unsigned i = 0; i < limbs_of(width); i++)
        word->limb[i] = pattern;
    trim(word);
}

void word_zero(Word *word, unsigned width) {
    fill(word, width, 0);
}

void word_ones(Word *word, unsigned width) {
    fill(word, width, UINT64_MAX);
}

void word_set(Word *word, unsigned width, uint64_t value) {
    word_zero(word, width);
    word->limb[0] = value;
    trim(word);
}

bool word_bit(const Word *word, unsigned bit) {
    assert(bit < word->width);
    return word->limb[bit / 64] >> (bit % 64) & 1;
}

void word_put(Word *word, unsigned bit, bool value) {
    assert(bit < word->width);
    uint64_t mask = UINT64_C(1) << (bit % 64);
    if (value)
        word->limb[bit / 64] |= mask;
    else
        word->limb[bit / 64] &= ~mask;
}

/* from's bits at another width, the new ones all equal to extension. */
static void resize(Word *to, const Word *from, unsigned width, bool extension) {
    assert(width >= 1 && width <= WORD_BITS_MAX && from->width >= 1);
    unsigned old_width = from->width;
    unsigned kept = limbs_of(width < old_width ? width : old_width);
    memmove(to->limb, from->limb, kept * sizeof to->limb[0]);
    if (extension && width > old_width)
        to->limb[kept - 1] |= ~last_limb_mask(old_width);
    for (unsigned i = kept; i < limbs_of(width); i++)
        to->limb[i] = extension ? UINT64_MAX : 0;
    to->width = width;
    trim(to);
}

void word_resize_unsigned(Word *to, const Word *from, unsigned width) {
    resize(to, from, width, false);
}

void word_resize_signed(Word *to, const Word *from, unsigned width) {
    resize(to, from, width, word_bit(from, from->width - 1));
}

bool word_add(Word *to, const Word *x, const Word *y, bool carry) {
    assert(x->width == y->width);
    unsigned width = x->width;
    unsigned limbs = limbs_of(width);
    for (unsigned i = 0; i < limbs; i++) {
        uint64_t partial = x->limb[i] + y->limb[i];
        uint64_t sum = partial + carry;
        carry = partial < x->limb[i] || sum < partial;
        to->limb[i] = sum;
    }
    /* A last limb that is not full cannot overflow: its carry is the bit above the word. */
    if (width % 64 != 0)
        carry = to->limb[limbs - 1] >> (width % 64) & 1;
    to->width = width;
    trim(to);
    return carry;
}

bool word_subtract(Word *to, const Word *x, const Word *y, bool borrow) {
    assert(x->width == y->width);
    unsigned limbs = limbs_of(x->width);
    for (unsigned i = 0; i < limbs; i++) {
        uint64_t partial = x->limb[i] - y->limb[i];
        bool wraps = x->limb[i] < y->limb[i] || partial < borrow;
        to->limb[i] = partial - borrow;
        borrow = wraps;
    }
    to->width = x->width;
    trim(to);
    return borrow;
}

void word_not(Word *to, const Word *from) {
    to->width = from->width;
    for (unsigned i = 0; i < limbs_of(to->width); i++)
        to->limb[i] = ~from->limb[i];
    trim(to);
}

void word_xor(Word *to, const Word *x, const Word *y) {
    assert(x->width == y->width);
    to->width = x->width;
    for (unsigned i = 0; i < limbs_of(to->width); i++)
        to->limb[i] = x->limb[i] ^ y->limb[i];
}

void word_and(Word *to, const Word *x, const Word *y) {
    assert(x->width == y->width);
    to->width = x->width;
    for (unsigned i = 0; i < limbs_of(to->width); i++)
        to->limb[i] = x->limb[i] & y->limb[i];
}

void word_or(Word *to, const Word *x, const Word *y) {
    to->width = x->width;
    for (unsigned i = 0; i < limbs_of(to->width); i++)
        to->limb[i] = x->limb[i] | y->limb[i];
}

void word_and_not(Word *to, const Word *x, const Word *y) {
    to->width = x->width;
    for (unsigned i = 0; i < limbs_of(to->width); i++)
        to->limb[i] = x->limb[i] & ~y->limb[i];
}

bool word_equal(const Word *x, const Word *y) {
    assert(x->width == y->width);
    return memcmp(x->limb, y->limb, limbs_of(x->width) * sizeof x->limb[0]) == 0;
}

bool word_is_zero(const Word *word) {
    for (unsigned i = 0; i < limbs_of(word->width); i++)
        if (word->limb[i] != 0)
            return false;
    return true;
}

bool word_parity(const Word *word) {
    uint64_t folded = 0;
    for (unsigned i = 0; i < limbs_of(word->width); i++)
        folded ^= word->limb[i];
    for (unsigned half = 32; half > 0; half /= 2)
        folded ^= folded >> half;
    return folded & 1;
}

unsigned word_count(const Word *word) {
    unsigned count = 0;
    for (unsigned i = 0; i < limbs_of(word->width); i++)
        for (uint64_t left = word->limb[i]; left != 0; left &= left - 1)
            count++;
    return count;
}

unsigned word_hex_digits(unsigned width) {
    return (width + 3) / 4;
}

/* Eight digits at once, each in a byte of its own: vectors of wide words are mostly digits. */
static void put_hex(char *text, uint32_t value) {
    uint64_t digit = value;
    digit = (digit | digit << 16) & UINT64_C(0x0000ffff0000ffff);
    digit = (digit | digit << 8) & UINT64_C(0x00ff00ff00ff00ff);
    digit = (digit | digit << 4) & UINT64_C(0x0f0f0f0f0f0f0f0f);
    uint64_t letter = (digit + UINT64_C(0x0606060606060606)) >> 4 & UINT64_C(0x0101010101010101);
    digit += UINT64_C(0x3030303030303030) + letter * ('a' - '0' - 10);
    for (unsigned i = 0; i < 8; i++)
        text[i] = (char)(digit >> (56 - 8 * i) & 0xff);
}

unsigned word_hex(const Word *word, char *text) {
    unsigned digits = word_hex_digits(word->width);
    unsigned i = 0;
    for (; i + 8 <= digits; i += 8)
        put_hex(text + digits - 8 - i, (uint32_t)(word->limb[i / 16] >> (i % 16 * 4)));
    for (; i < digits; i++)
        text[digits - 1 - i] = "0123456789abcdef"[word->limb[i / 16] >> (i % 16 * 4) & 15];
    text[digits] = '\0';
    return digits;
}
