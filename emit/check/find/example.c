/* See example.h. */
#include "check/find/example.h"

#include "check/find/variant.h"

#include <string.h>

enum { COLUMNS_SHOWN = 24, LABEL = 12, NUMBER_BYTES = UNIT_WIDTH_MAX / 4 + 8 };

static const uint64_t *value_of(const Evidence *evidence, const Diagnosis *diagnosis) {
    const Samples *samples = evidence->samples;
    return samples->value +
           schedule_sample(evidence->schedule, diagnosis->example, 0) * samples->limbs;
}

static const uint64_t *unknown_of(const Evidence *evidence, const Diagnosis *diagnosis) {
    const Samples *samples = evidence->samples;
    return samples->unknown +
           schedule_sample(evidence->schedule, diagnosis->example, 0) * samples->limbs;
}

static const uint64_t *right_of(const Evidence *evidence, const Diagnosis *diagnosis) {
    return evidence->cases->right + diagnosis->example * evidence->cases->out_limbs;
}

static bool bit_is_wrong(const Evidence *evidence, const Diagnosis *diagnosis, unsigned bit) {
    return packed_bit(unknown_of(evidence, diagnosis), bit) ||
           packed_bit(value_of(evidence, diagnosis), bit) !=
               packed_bit(right_of(evidence, diagnosis), bit);
}

int example_column(const Evidence *evidence, const Diagnosis *diagnosis) {
    for (unsigned bit = 0; bit < evidence->cases->unit->width; bit++)
        if (bit_is_wrong(evidence, diagnosis, bit))
            return (int)bit;
    return -1;
}

/* Decimal where it fits 64 bits, else hexadecimal. */
static void number_text(const Word *word, char text[NUMBER_BYTES]) {
    if (word->width <= 64) {
        snprintf(text, NUMBER_BYTES, "%llu", (unsigned long long)word->limb[0]);
        return;
    }
    text[0] = '0';
    text[1] = 'x';
    word_hex(word, text + 2);
}

void example_operation(const Evidence *evidence, size_t k, char *text, size_t room) {
    const Cases *cases = evidence->cases;
    const Unit *unit = cases->unit;
    char number[NUMBER_BYTES];
    Word a, b;
    cases_operands(cases, k, &a, &b);
    int choice = cases_choice(cases, k);
    number_text(&a, number);
    size_t used = (size_t)snprintf(text, room, "%s: %s = %s",
                                   choice == UNIT_NOTHING
                                       ? "nothing requested"
                                       : operation_facts(unit->choice[choice].operation)->formula,
                                   "a", number);
    number_text(&b, number);
    if (unit_has(unit, PIN_B) && used < room)
        used += (size_t)snprintf(text + used, room - used, ", b = %s", number);
    if (unit_has(unit, PIN_CIN) && used < room)
        snprintf(text + used, room - used, ", cin = %d", cases->cin[k]);
}

/* ---- the columns --------------------------------------------------------------------------- */

typedef struct {
    FILE *out;
    unsigned low, high; /* the columns shown, high exclusive */
} Columns;

static void begin_row(const Columns *columns, const char *label) {
    fprintf(columns->out, "    %-*s", LABEL, label);
}

static void number_row(const Columns *columns) {
    begin_row(columns, "column");
    for (unsigned bit = columns->high; bit-- > columns->low;)
        fprintf(columns->out, " %*u", columns->high > 1000 ? 4 : columns->high > 100 ? 3 : 2, bit);
    fputc('\n', columns->out);
}

static void put_level(const Columns *columns, char level) {
    fprintf(columns->out, " %*c", columns->high > 1000 ? 4 : columns->high > 100 ? 3 : 2, level);
}

static void word_row(const Columns *columns, const char *label, const Word *word) {
    begin_row(columns, label);
    for (unsigned bit = columns->high; bit-- > columns->low;)
        put_level(columns, word_bit(word, bit) ? '1' : '0');
    fputc('\n', columns->out);
}

static char seen_level(const Evidence *evidence, const Diagnosis *diagnosis, unsigned bit) {
    if (packed_bit(unknown_of(evidence, diagnosis), bit))
        return 'x';
    return packed_bit(value_of(evidence, diagnosis), bit) ? '1' : '0';
}

static void result_rows(const Evidence *evidence, const Diagnosis *diagnosis,
                        const Columns *columns) {
    begin_row(columns, "came out");
    for (unsigned bit = columns->high; bit-- > columns->low;)
        put_level(columns, seen_level(evidence, diagnosis, bit));
    fputc('\n', columns->out);
    begin_row(columns, "should be");
    for (unsigned bit = columns->high; bit-- > columns->low;)
        put_level(columns, packed_bit(right_of(evidence, diagnosis), bit) ? '1' : '0');
    fputc('\n', columns->out);
    int first = example_column(evidence, diagnosis);
    if (first < 0)
        return;
    begin_row(columns, "wrong");
    for (unsigned bit = columns->high; bit-- > columns->low;)
        put_level(columns, bit_is_wrong(evidence, diagnosis, bit) ? '^' : ' ');
    fprintf(columns->out, "  first in column %d\n", first);
}

static void flag_rows(const Evidence *evidence, const Diagnosis *diagnosis, FILE *out) {
    const Unit *unit = evidence->cases->unit;
    for (unsigned flag = 0; flag < FLAG_COUNT; flag++) {
        unsigned bit = unit->width + flag;
        if (evidence->mapping->port[PIN_FLAG + flag] == NULL ||
            !bit_is_wrong(evidence, diagnosis, bit))
            continue;
        fprintf(out, "    %s came out %c and should be %d\n",
                unit_role(unit, (Pin)(PIN_FLAG + flag)), seen_level(evidence, diagnosis, bit),
                packed_bit(right_of(evidence, diagnosis), bit));
    }
}

/* Which columns to show: all of a narrow word, else those around the first wrong one. */
static Columns choose_columns(const Evidence *evidence, const Diagnosis *diagnosis, FILE *out) {
    unsigned width = evidence->cases->unit->width;
    int first = example_column(evidence, diagnosis);
    unsigned low = first < 0 ? width : (unsigned)first;
    low = low > COLUMNS_SHOWN / 2 ? low - COLUMNS_SHOWN / 2 : 0;
    if (width < COLUMNS_SHOWN)
        return (Columns){out, 0, width};
    low = low + COLUMNS_SHOWN > width ? width - COLUMNS_SHOWN : low;
    return (Columns){out, low, low + COLUMNS_SHOWN};
}

void example_print(const Evidence *evidence, const Diagnosis *diagnosis, FILE *out) {
    static const Variant as_it_should_be;
    Machine machine;
    const Cases *cases = evidence->cases;
    size_t k = diagnosis->example;
    char operation[3 * NUMBER_BYTES];
    Word a, b;
    cases_operands(cases, k, &a, &b);
    variant_run(cases->unit, &as_it_should_be, cases->control[k], &a, &b, cases->cin[k], &machine);
    example_operation(evidence, k, operation, sizeof operation);
    fprintf(out, "  smallest mismatch, %s\n", operation);
    Columns columns = choose_columns(evidence, diagnosis, out);
    number_row(&columns);
    word_row(&columns, "a", &a);
    if (unit_has(cases->unit, PIN_B))
        word_row(&columns, "b", &b);
    if (machine.choice != UNIT_NOTHING) {
        word_row(&columns, "adder gets", &machine.x);
        word_row(&columns, "and", &machine.y);
        word_row(&columns, "carries in", &machine.carries);
    }
    result_rows(evidence, diagnosis, &columns);
    flag_rows(evidence, diagnosis, out);
}
