/* See share.h. A count is a number of as many limbs as there are variables to have bits. */
#include "proof/share.h"

#include "base/memory.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    LIMBS_MAX = 1 << 25, /* of all counts together: 256 MB */
    SMALL = 1000000,     /* counts below this are told as "3 of every 2^64" */
    LONG_DIGITS = 40,    /* of counts that are told in full */
};

typedef struct {
    const Diagrams *diagrams;
    unsigned levels;
    unsigned limbs;
    uint32_t *place; /* of each node: its count's, plus one; 0: not counted yet */
    uint64_t *count; /* of a node taken as it stands, over the variables from its level on */
    uint32_t counted;
    uint32_t room;
} Counting;

/* ---- numbers of limbs ----------------------------------------------------------------------- */

/* to += from * 2^shift; what is past the limbs is 0. */
static void add_shifted(uint64_t *to, const uint64_t *from, unsigned limbs, unsigned shift) {
    unsigned whole = shift / 64, part = shift % 64;
    uint64_t carry = 0;
    for (unsigned k = whole; k < limbs; k++) {
        uint64_t limb = from[k - whole] << part;
        if (part > 0 && k > whole)
            limb |= from[k - whole - 1] >> (64 - part);
        uint64_t sum = to[k] + limb;
        uint64_t more = sum + carry;
        carry = (sum < limb) | (more < sum);
        to[k] = more;
    }
}

/* to = 2^exponent - to, of which to is at most. */
static void take_from_power(uint64_t *to, unsigned limbs, unsigned exponent) {
    uint64_t carry = 1;
    for (unsigned k = 0; k < limbs; k++) {
        to[k] = ~to[k] + carry;
        carry = carry && to[k] == 0;
    }
    uint64_t bit = UINT64_C(1) << exponent % 64;
    for (unsigned k = exponent / 64; k < limbs; k++, bit = 1) {
        to[k] += bit;
        if (to[k] >= bit)
            break;
    }
}

/* Divides by a small number, and says what is left over. */
static uint32_t divide(uint64_t *number, unsigned limbs, uint32_t by) {
    uint64_t left = 0;
    for (unsigned k = limbs; k-- > 0;) {
        uint64_t high = left << 32 | number[k] >> 32;
        uint64_t low = (high % by) << 32 | (number[k] & UINT32_MAX);
        number[k] = (high / by) << 32 | low / by;
        left = low % by;
    }
    return (uint32_t)left;
}

static bool is_below(const uint64_t *number, unsigned limbs, uint64_t bound) {
    for (unsigned k = 1; k < limbs; k++)
        if (number[k] != 0)
            return false;
    return number[0] < bound;
}

/* number / 2^exponent, which is at most 1 or little more. */
static double over_power(const uint64_t *number, unsigned limbs, unsigned exponent) {
    double value = 0;
    for (unsigned k = 0; k < limbs; k++)
        value += ldexp((double)number[k], (int)(64 * k) - (int)exponent);
    return value;
}

/* ---- counting ------------------------------------------------------------------------------- */

static bool is_counted(const Counting *counting, Diagram x) {
    return x <= DIAGRAM_1 || counting->place[x >> 1] != 0;
}

/* Adds to sum what x, counted before, is true for, over the variables from a level on. */
static void add_count(const Counting *counting, Diagram x, unsigned from, uint64_t *sum) {
    unsigned limbs = counting->limbs, level = diagram_level(counting->diagrams, x);
    uint64_t *count = memory_zeroed(limbs, sizeof count[0]);
    assert(x <= DIAGRAM_1 || counting->count != NULL);
    if (x > DIAGRAM_1)
        memcpy(count, counting->count + (size_t)(counting->place[x >> 1] - 1) * limbs,
               limbs * sizeof count[0]);
    if (x & 1u)
        take_from_power(count, limbs, counting->levels - level);
    add_shifted(sum, count, limbs, level - from);
    memory_free(count);
}

/* Counts a node both of whose branches are counted. */
static bool count_node(Counting *counting, Diagram x) {
    unsigned limbs = counting->limbs, level = diagram_level(counting->diagrams, x);
    if ((uint64_t)(counting->counted + 1) * limbs > LIMBS_MAX)
        return false;
    if (counting->counted == counting->room) {
        counting->room = counting->room * 2 + 64;
        counting->count = memory_resize(counting->count, (size_t)counting->room * limbs,
                                        sizeof counting->count[0]);
    }
    uint64_t *count = counting->count + (size_t)counting->counted * limbs;
    memset(count, 0, limbs * sizeof count[0]);
    for (int value = 0; value < 2; value++)
        add_count(counting, diagram_branch(counting->diagrams, x & ~1u, level, value), level + 1,
                  count);
    counting->place[x >> 1] = ++counting->counted;
    return true;
}

/* Counts x and all below it, deepest first; false: too much room. */
static bool count_all(Counting *counting, Diagram x) {
    Diagram *path = memory_zeroed(counting->levels + 1, sizeof path[0]);
    unsigned length = 0;
    bool fits = true;
    path[length++] = x;
    while (length > 0 && fits) {
        x = path[length - 1];
        if (is_counted(counting, x)) {
            length--;
            continue;
        }
        unsigned level = diagram_level(counting->diagrams, x);
        Diagram low = diagram_branch(counting->diagrams, x, level, false);
        Diagram high = diagram_branch(counting->diagrams, x, level, true);
        if (!is_counted(counting, low))
            path[length++] = low;
        else if (!is_counted(counting, high))
            path[length++] = high;
        else
            fits = count_node(counting, x);
    }
    memory_free(path);
    return fits;
}

/* The count of x, of all variables, or NULL. The caller frees it. */
static uint64_t *count_of(const Diagrams *diagrams, Diagram x, unsigned *limbs) {
    Counting counting = {.diagrams = diagrams, .levels = diagram_levels(diagrams)};
    counting.limbs = *limbs = counting.levels / 64 + 1;
    counting.place = memory_zeroed(diagram_end(diagrams), sizeof counting.place[0]);
    uint64_t *sum = NULL;
    if (count_all(&counting, x)) {
        sum = memory_zeroed(*limbs, sizeof sum[0]);
        add_count(&counting, x, 0, sum);
    }
    memory_free(counting.place);
    memory_free(counting.count);
    return sum;
}

/* ---- words ---------------------------------------------------------------------------------- */

void share_total_text(unsigned odd, unsigned exponent, char text[SHARE_BYTES]) {
    if (exponent <= 10)
        snprintf(text, SHARE_BYTES, "%lu", (unsigned long)odd << exponent);
    else if (odd == 1)
        snprintf(text, SHARE_BYTES, "2^%u", exponent);
    else
        snprintf(text, SHARE_BYTES, "%u x 2^%u", odd, exponent);
}

/* Decimal digits, or false where there are more than LONG_DIGITS. Uses up the number. */
static bool digits_of(uint64_t *number, unsigned limbs, char text[LONG_DIGITS + 1]) {
    char *end = text + LONG_DIGITS, *first = end;
    *end = '\0';
    do {
        if (first == text)
            return false;
        *--first = (char)('0' + divide(number, limbs, 10));
    } while (!is_below(number, limbs, 1));
    memmove(text, first, (size_t)(end - first) + 1);
    return true;
}

static void large_text(uint64_t *number, unsigned limbs, unsigned odd, unsigned exponent,
                       char text[SHARE_BYTES]) {
    double percent = 100 * over_power(number, limbs, exponent) / odd;
    char digits[LONG_DIGITS + 1], total[SHARE_BYTES];
    share_total_text(odd, exponent, total);
    if (digits_of(number, limbs, digits))
        snprintf(text, SHARE_BYTES, "%s of every %.40s inputs, about %.3g %%", digits, total,
                 percent);
    else
        snprintf(text, SHARE_BYTES, "about %.3g %% of all inputs", percent);
}

void share_text(const Diagrams *diagrams, Diagram x, unsigned odd, unsigned exponent,
                char text[SHARE_BYTES]) {
    unsigned limbs;
    text[0] = '\0';
    uint64_t *number = count_of(diagrams, x, &limbs);
    if (number == NULL)
        return;
    for (; exponent > 0 && number[0] % 2 == 0; exponent--)
        divide(number, limbs, 2);
    if (is_below(number, limbs, SMALL)) {
        unsigned long count = (unsigned long)number[0];
        char total[SHARE_BYTES];
        if (count % odd == 0) {
            count /= odd;
            odd = 1;
        }
        share_total_text(odd, exponent, total);
        if (count == 1 && odd == 1 && exponent == 0)
            snprintf(text, SHARE_BYTES, "every input");
        else
            snprintf(text, SHARE_BYTES, "%lu of every %.40s inputs", count, total);
    } else {
        large_text(number, limbs, odd, exponent, text);
    }
    memory_free(number);
}
