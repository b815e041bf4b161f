/* Chooses units for pairwise_test.sh: every two values of any two properties stand together in at
 * least one unit, if they can stand together at all. Prints
 *
 *   unit OPTIONS            the options of one unit, for each unit
 *   refuse WORDS | OPTIONS  for every two values that cannot stand together: what the refusal says
 *   pairs N of M            how many possible pairs the units have, of how many there are
 *
 * A unit is begun with a pair that is still missing; each other property then gets the value that
 * adds most missing pairs. A new value is a word in the table; what it cannot stand with, a row of
 * the rules. */
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
    STRUCTURE,
    DETAIL,
    SENSE,
    FLAGS,
    RULE,
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

/* What is written after the option; options without text are put together in print_options, and so
 * are the levels of depth= for the unit's width: as few as there can be, and two more. */
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
    [STRUCTURE] = {"--structure",
                   {"ripple", "fewest", "skip", "select", "lookahead", "sklansky", "kogge-stone",
                    "brent-kung", "han-carlson", "ladner-fischer", "depth=", "depth=+2"}},
    [DETAIL] = {"--detail", {"operators", "cells", "gates", "nand", "nor"}},
    [SENSE] = {"--subtract-carry", {"no-borrow", "borrow"}},
    [FLAGS] = {"--flags",
               {"none", "carry", "overflow", "zero", "negative", "less-signed", "less-unsigned",
                "parity", "half-carry", "all", "carry,overflow,zero,negative"}},
    [RULE] = {"--overflow", {"wrap", "saturate-signed", "saturate-unsigned"}},
    [WIDTH] = {"--width", {"1", "2", "3", "4", "5", "8", "13", "33", "65"}},
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

static bool fixed_several(int operations, int control) {
    return control == FIXED && operation_count(operations) != 1;
}

static bool line_not_two(int operations, int control) {
    return (control == HIGH || control == LOW) && operation_count(operations) != 2;
}

static bool request_alone(int operations, int control) {
    return control == ONE_HOT && operation_count(operations) == 1;
}

static bool is_fewest(int structure) {
    return value_is(STRUCTURE, structure, "fewest");
}

static bool fewest_lacks(int operations, int structure) {
    bool combined =
        value_is(OPERATIONS, operations, "add,sub") || value_is(OPERATIONS, operations, "sbc,adc");
    return is_fewest(structure) && operation_count(operations) > 1 && !combined;
}

static bool fewest_requests(int control, int structure) {
    return is_fewest(structure) && control == ONE_HOT;
}

static bool operators_only(int structure, int detail) {
    return !value_is(STRUCTURE, structure, "ripple") && value_is(DETAIL, detail, "operators");
}

static bool fewest_cells(int structure, int detail) {
    return is_fewest(structure) && value_is(DETAIL, detail, "cells");
}

static bool no_column_3(int flags, int width) {
    return value_is(FLAGS, flags, "half-carry") && atoi(table[WIDTH].value[width]) < 4;
}

/* Without registers, no value but the first. */
static bool no_registers(int registers, int other) {
    return registers == 0 && other != 0;
}

static bool level_of_none(int reset, int level) {
    return reset == 0 && level != 0;
}

/* Two properties, the first before the second in the table; and the words of the refusal. */
static const struct {
    Property p, q;
    bool (*clash)(int v, int w);
    const char *words;
} rules[] = {
    {OPERATIONS, CONTROL, fixed_several, "has no pin to choose among"},
    {OPERATIONS, CONTROL, line_not_two, "chooses between two operations"},
    {OPERATIONS, CONTROL, request_alone, "leaves nothing to choose"},
    {OPERATIONS, STRUCTURE, fewest_lacks, "fewest has no circuit for these operations"},
    {CONTROL, STRUCTURE, fewest_requests, "fewest has no circuit for these operations"},
    {STRUCTURE, DETAIL, operators_only, "leaves the carry structure to the synthesizer"},
    {STRUCTURE, DETAIL, fewest_cells, "has no cells for the fewest structure"},
    {FLAGS, WIDTH, no_column_3, "half-carry leaves column 3"},
    {REGISTERS, RESET, no_registers, "without registers has nothing to reset"},
    {REGISTERS, LEVEL, no_registers, "without registers has nothing to reset"},
    {REGISTERS, ENABLE, no_registers, "without registers has no clock"},
    {RESET, LEVEL, level_of_none, "--reset-level low without"},
};
enum { RULES = sizeof rules / sizeof rules[0] };

/* Why p's value v and q's value w cannot stand together, p before q in the table; NULL: they can.
 */
static const char *clash(int p, int v, int q, int w) {
    for (int k = 0; k < RULES; k++)
        if ((int)rules[k].p == p && (int)rules[k].q == q && rules[k].clash(v, w))
            return rules[k].words;
    return NULL;
}

static bool fit(int p, int v, int q, int w) {
    return (p < q ? clash(p, v, q, w) : clash(q, w, p, v)) == NULL;
}

/* The one rule about three: two operations by codes with unused ones have no fewest circuit. */
static bool three_fit(const Choice *choice) {
    int operations = choice->value[OPERATIONS], structure = choice->value[STRUCTURE];
    if (operations == OPEN || structure == OPEN || choice->value[CONTROL] != CODES_LONGER)
        return true;
    return !(is_fewest(structure) && operation_count(operations) > 1);
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
    Choice with = *choice;
    with.value[property] = value;
    return three_fit(&with) ? missing : -1;
}

/* Gives every open property its best value; how many missing pairs that adds, or -1 where none is
 * left for a property. */
static int complete(Choice *choice) {
    int sum = 0, first = (int)draw(PROPERTIES);
    for (int step = 0; step < PROPERTIES; step++) {
        int property = (first + step) % PROPERTIES;
        if (choice->value[property] != OPEN)
            continue;
        int best = -1, found = OPEN, count = value_count(property);
        int start = (int)draw((uint32_t)count);
        for (int k = 0; k < count; k++) {
            int value = (start + k) % count, gained = gain(choice, property, value);
            if (gained > best) {
                best = gained;
                found = value;
            }
        }
        if (best < 0)
            return -1;
        choice->value[property] = found;
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
    assert(most >= 0);
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

/* Levels of prefix cells for a width: log2 of its columns, of which one may be for the first carry,
 * and more. */
static void print_levels(const Choice *choice, int more) {
    int width = choice->value[WIDTH], levels = 0;
    int columns = (width == OPEN ? 8 : atoi(table[WIDTH].value[width])) + 1;
    while (1 << levels < columns)
        levels++;
    printf("depth=%d", levels + more);
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
        else if (property == STRUCTURE && value_is(property, value, "depth="))
            print_levels(choice, 0);
        else if (property == STRUCTURE && value_is(property, value, "depth=+2"))
            print_levels(choice, 2);
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
        printf("refuse %s |", clash(pair.p, pair.v, pair.q, pair.w));
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
