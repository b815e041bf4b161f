/* See number.h. */
#include "model/number.h"

#include <assert.h>
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

static unsigned limbs_of(const Word *word) {
    return (word->width + 63) / 64;
}

/* ---- reading ------------------------------------------------------------------------------ */

/* word = word * base + digit; false when that no longer fits the word. Half a limb at a time, so
 * that no product overflows. */
static bool append(Word *word, uint64_t base, uint64_t digit) {
    uint64_t carry = digit;
    for (unsigned i = 0; i < limbs_of(word); i++) {
        uint64_t low = (word->limb[i] & UINT32_MAX) * base + carry;
        uint64_t high = (word->limb[i] >> 32) * base + (low >> 32);
        word->limb[i] = high << 32 | (low & UINT32_MAX);
        carry = high >> 32;
    }
    unsigned over = word->width % 64;
    return carry == 0 && (over == 0 || word->limb[limbs_of(word) - 1] >> over == 0);
}

/* The value of a digit, or 16 for what is none in any base. */
static unsigned digit_value(char c) {
    if (c >= '0' && c <= '9')
        return (unsigned)(c - '0');
    if (c >= 'a' && c <= 'f')
        return (unsigned)(c - 'a') + 10;
    if (c >= 'A' && c <= 'F')
        return (unsigned)(c - 'A') + 10;
    return 16;
}

/* What a number's text begins with. */
typedef struct {
    bool negative;
    unsigned base;
    const char *digits;
} Form;

static Form form_of(const char *text) {
    if (text[0] == '0' && (text[1] == 'x' || text[1] == 'X'))
        return (Form){false, 16, text + 2};
    if (text[0] == '0' && (text[1] == 'b' || text[1] == 'B'))
        return (Form){false, 2, text + 2};
    return (Form){text[0] == '-', 10, text + (text[0] == '-')};
}

static bool is_number(const Form *form) {
    for (const char *c = form->digits; *c != '\0'; c++)
        if (digit_value(*c) >= form->base)
            return false;
    return form->digits[0] != '\0';
}

/* A magnitude of n bits turned into its negative; false below -2^(n - 1). */
static bool negate(Word *word) {
    Word zero, least;
    word_zero(&zero, word->width);
    word_zero(&least, word->width);
    word_put(&least, word->width - 1, true);
    if (word_bit(word, word->width - 1) && !word_equal(word, &least))
        return false;
    word_subtract(word, &zero, word, false);
    return true;
}

static bool does_not_fit(const char *text, unsigned width, const char *what, Problem *problem) {
    if (width > 64)
        return problem_set(problem, STATUS_INVALID,
                           "%s %s does not fit %u bits; unsigned they hold 0 to 2^%u - 1, in two's "
                           "complement -2^%u to 2^%u - 1",
                           what, problem_quote(text).text, width, width, width - 1, width - 1);
    uint64_t most = UINT64_MAX >> (64 - width);
    return problem_set(problem, STATUS_INVALID,
                       "%s %s does not fit %u bit%s; unsigned %s 0 to %" PRIu64
                       ", in two's complement -%" PRIu64 " to %" PRIu64,
                       what, problem_quote(text).text, width, width == 1 ? "" : "s",
                       width == 1 ? "it holds" : "they hold", most, most / 2 + 1, most / 2);
}

bool number_read(const char *text, unsigned width, const char *what, Word *word, Problem *problem) {
    Form form = form_of(text);
    if (!is_number(&form))
        return problem_set(problem, STATUS_INVALID,
                           "%s %s is not a number; write it in decimal (-5), in hexadecimal (0x1f) "
                           "or in binary (0b101)",
                           what, problem_quote(text).text);
    word_zero(word, width);
    for (const char *c = form.digits; *c != '\0'; c++)
        if (!append(word, form.base, digit_value(*c)))
            return does_not_fit(text, width, what, problem);
    if (form.negative && !negate(word))
        return does_not_fit(text, width, what, problem);
    return true;
}

/* ---- writing ------------------------------------------------------------------------------ */

/* Digits are taken off nine at a time, the most that fit half a limb. */
enum { CHUNK_DIGITS = 9, CHUNKS_MAX = (NUMBER_BYTES + CHUNK_DIGITS - 1) / CHUNK_DIGITS };
#define CHUNK UINT64_C(1000000000)

/* word = word / CHUNK; the remainder is returned. */
static uint64_t take_chunk(Word *word) {
    uint64_t rest = 0;
    for (unsigned i = limbs_of(word); i-- > 0;) {
        uint64_t high = rest << 32 | word->limb[i] >> 32;
        uint64_t low = high % CHUNK << 32 | (word->limb[i] & UINT32_MAX);
        word->limb[i] = high / CHUNK << 32 | low / CHUNK;
        rest = low % CHUNK;
    }
    return rest;
}

void number_unsigned(const Word *word, char *text) {
    Word left = *word;
    uint64_t chunk[CHUNKS_MAX];
    int count = 0;
    do {
        assert(count < CHUNKS_MAX);
        chunk[count++] = take_chunk(&left);
    } while (!word_is_zero(&left));
    size_t used = (size_t)snprintf(text, NUMBER_BYTES, "%" PRIu64, chunk[--count]);
    while (count-- > 0)
        used += (size_t)snprintf(text + used, NUMBER_BYTES - used, "%09" PRIu64, chunk[count]);
}

void number_signed(const Word *word, char *text) {
    if (!word_bit(word, word->width - 1)) {
        number_unsigned(word, text);
        return;
    }
    Word zero, magnitude;
    char digits[NUMBER_BYTES];
    word_zero(&zero, word->width);
    word_subtract(&magnitude, &zero, word, false);
    number_unsigned(&magnitude, digits);
    snprintf(text, NUMBER_BYTES, "-%.*s", NUMBER_BYTES - 2, digits);
}
