/* Chooses units for pairwise_test.sh: every two values of any two properties stand together in at
 * least one unit, if they can stand together at all. Prints
 *
 *   unit OPTIONS      the options of one unit, for each unit
 *   refuse OPTIONS    two values that cannot stand together, for every such two
 *   pairs N of M      how many possible pairs the units have, of how many there are
 *
 * Every rule about what can stand together is about two properties. A unit is begun with a pair
 * that is still missing; each other property then gets the value that adds most missing pairs. */
#include <assert.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { VALUES_MAX = 16, OPEN = -1, TRIES = 30 };

typedef enum {
    OPERATIONS,
    CONTROL,
    SENSE,
    FLAGS,
    RULE,
    DETAIL,
    WIDTH,
    REGISTERS,
    RESET,
    LEVEL,
    ENABLE,
    NAMES,
    PROPERTIES
} Property;

/* Beside high and low: the control values by their numbers in the table. */
enum { FIXED, HIGH, LOW, ONE_HOT, CODE, CODES_REVERSED, CODES_LONGER };

/* What is written after the option; options without text are put together in print_options. */
static const struct {
    const char *option;
    const char *value[VALUES_MAX + 1];
} table[PROPERTIES] = {
    [OPERATIONS] = {"--operations",
                    {"add", "sbc", "rsb", "inc", "dec", "neg", "pass", "add,sub", "sbc,adc",
                     "pass,neg", "sub,add,adc", "add,adc,sub,sbc", "rsb,neg,inc,dec,pass",
                     "add,sub,adc,sbc,rsb,pass", "dec,add,inc,sub,neg,rsb,sbc",
                     "add,adc,sub,sbc,rsb,inc,dec,neg,pass"}},
    [CONTROL] = {"--control", {"fixed", "high", "low", "one-hot", "code", "code", "code"}},
    [SENSE] = {"--subtract-carry", {"no-borrow", "borrow"}},
    [FLAGS] = {"--flags",
               {"none", "carry", "overflow", "zero", "negative", "less-signed", "less-unsigned",
                "parity", "half-carry", "all", "carry,overflow,zero,negative"}},
    [RULE] = {"--overflow", {"wrap", "saturate-signed", "saturate-unsigned"}},
    [DETAIL] = {"--detail", {"operators", "cells", "gates"}},
    [WIDTH] = {"--width", {"1", "2", "3", "4", "5", "8", "13", "33", "64", "65"}},
    [REGISTERS] = {"--registers", {"none", "output", "both"}},
    [RESET] = {"--reset", {"none", "sync", "async"}},
    [LEVEL] = {"--reset-level", {"high", "low"}},
    [ENABLE] = {"", {"", "--enable"}},
    [NAMES] = {"", {"", "--port a=observed --port result=residual"}},
};

typedef struct {
    int value[PROPERTIES];
} Choice;

static bool covered[PROPERTIES][VALUES_MAX][PROPERTIES][VALUES_MAX];

static int value_count(int property) {
    int count = 0;
    while (table[property].value[count] != NULL)
        count++;
    return count;
}

static bool value_is(int property, int value, const char *text) {
    return strcmp(table[property].value[value], text) == 0;
}

/* ---- what cannot stand together ----------------------------------------------------------- */

static int operation_count(int value) {
    int count = 1;
    for (const char *c = table[OPERATIONS].value[value]; *c != '\0'; c++)
        count += *c == ',';
    return count;
}

static bool control_fits(int operations, int control) {
    int count = operation_count(operations);
    if (control == FIXED)
        return count == 1;
    if (control == HIGH || control == LOW)
        return count == 2;
    return control != ONE_HOT || count >= 2;
}

/* Of p's value v and q's value w, p before q in the table. */
static bool fit_ordered(int p, int v, int q, int w) {
    if (p == OPERATIONS && q == CONTROL)
        return control_fits(v, w);
    if (p == FLAGS && q == WIDTH)
        return !value_is(p, v, "half-carry") || atoi(table[q].value[w]) >= 4;
    if (p == REGISTERS && v == 0 && (q == RESET || q == LEVEL || q == ENABLE))
        return w == 0;
    return !(p == RESET && v == 0 && q == LEVEL && w != 0);
}

static bool fit(int p, int v, int q, int w) {
    return p < q ? fit_ordered(p, v, q, w) : fit_ordered(q, w, p, v);
}

/* ---- choosing ----------------------------------------------------------------------------- */

/* A linear congruential generator, so that the choice is the same everywhere (the constants of
 * C17's example of rand, 7.22.2.2). */
static uint32_t draw(uint32_t below) {
    static uint32_t state = 1;
    state = state * 1103515245u + 12345u;
    return (state >> 16) % below;
}

/* How many missing pairs a value makes with the values chosen so far; -1 when it does not fit. */
static int gain(const Choice *choice, int property, int value) {
    int missing = 0;
    for (int other = 0; other < PROPERTIES; other++) {
        int at = choice->value[other];
        if (other == property || at == OPEN)
            continue;
        if (!fit(property, value, other, at))
            return -1;
        missing += !covered[property][value][other][at];
    }
    return missing;
}

/* Gives every open property its best value; how many missing pairs that adds. */
static int complete(Choice *choice) {
    int sum = 0, first = (int)draw(PROPERTIES);
    for (int step = 0; step < PROPERTIES; step++) {
        int property = (first + step) % PROPERTIES;
        if (choice->value[property] != OPEN)
            continue;
        int best = -1, count = value_count(property), start = (int)draw((uint32_t)count);
        for (int k = 0; k < count; k++) {
            int value = (start + k) % count, gained = gain(choice, property, value);
            if (gained > best) {
                best = gained;
                choice->value[property] = value;
            }
        }
        assert(best >= 0);
        sum += best;
    }
    return sum;
}

typedef struct {
    int p, v, q, w;
} Pair;

/* The next of all pairs of values, p < q; begin with {0, 0, 1, -1}. */
static bool next_pair(Pair *pair) {
    if (++pair->w < value_count(pair->q))
        return true;
    pair->w = 0;
    if (++pair->v < value_count(pair->p))
        return true;
    pair->v = 0;
    if (++pair->q < PROPERTIES)
        return true;
    pair->q = ++pair->p + 1;
    return pair->q < PROPERTIES;
}

static const Pair before_first = {0, 0, 1, -1};

/* The first pair that no unit has yet; false when there is none. */
static bool missing_pair(Pair *pair) {
    *pair = before_first;
    while (next_pair(pair))
        if (!covered[pair->p][pair->v][pair->q][pair->w] && fit(pair->p, pair->v, pair->q, pair->w))
            return true;
    return false;
}

static Choice choose(const Pair *seed) {
    Choice best = {{0}};
    int most = -1;
    for (int try = 0; try < TRIES; try++) {
        Choice choice;
        for (int property = 0; property < PROPERTIES; property++)
            choice.value[property] = OPEN;
        choice.value[seed->p] = seed->v;
        choice.value[seed->q] = seed->w;
        int sum = complete(&choice);
        if (sum > most) {
            most = sum;
            best = choice;
        }
    }
    return best;
}

static void cover(const Choice *choice) {
    for (int p = 0; p < PROPERTIES; p++)
        for (int q = 0; q < PROPERTIES; q++)
            if (p != q)
                covered[p][choice->value[p]][q][choice->value[q]] = true;
}

/* ---- printing ----------------------------------------------------------------------------- */

/* The list with a code for each operation: from the highest down, or in one bit more than needed,
 * every other code. */
static void print_coded(int operations, int control) {
    int count = operation_count(operations), bits = 1;
    while (1 << bits < count)
        bits++;
    bits += control == CODES_LONGER;
    const char *item = table[OPERATIONS].value[operations];
    for (int k = 0; k < count; k++) {
        int length = (int)strcspn(item, ",");
        int code = control == CODES_LONGER ? 2 * k + 1 : (1 << bits) - 1 - k;
        printf("%s%.*s=", k == 0 ? "" : ",", length, item);
        for (int bit = bits; bit-- > 0;)
            putchar((code >> bit & 1) != 0 ? '1' : '0');
        item += length + 1;
    }
}

static void print_options(const Choice *choice) {
    int control = choice->value[CONTROL];
    for (int property = 0; property < PROPERTIES; property++) {
        int value = choice->value[property];
        if (value == OPEN || table[property].value[value][0] == '\0')
            continue;
        printf(" %s%s", table[property].option, table[property].option[0] == '\0' ? "" : " ");
        if (property == OPERATIONS && (control == CODES_REVERSED || control == CODES_LONGER))
            print_coded(value, control);
        else
            printf("%s", table[property].value[value]);
    }
    putchar('\n');
}

/* Prints the pairs that cannot be, and counts those that can. */
static void print_pairs(void) {
    int have = 0, possible = 0;
    Pair pair = before_first;
    while (next_pair(&pair)) {
        if (fit(pair.p, pair.v, pair.q, pair.w)) {
            possible++;
            have += covered[pair.p][pair.v][pair.q][pair.w];
            continue;
        }
        Choice two;
        for (int property = 0; property < PROPERTIES; property++)
            two.value[property] = OPEN;
        two.value[pair.p] = pair.v;
        two.value[pair.q] = pair.w;
        printf("refuse");
        print_options(&two);
    }
    printf("pairs %d of %d\n", have, possible);
}

int main(void) {
    Pair seed;
    while (missing_pair(&seed)) {
        Choice choice = choose(&seed);
        cover(&choice);
        printf("unit");
        print_options(&choice);
    }
    print_pairs();
    return 0;
}
