/* The worked example as it is printed, against the GNU Multiple Precision library: the table is
 * read back from the text, group by group, and every row, every carry and every number in both
 * readings must be what GMP says of the operands. Widths from 1 to 4096, terminals narrow and wide;
 * the random sequence is the same in every run. */
#include "workings.h"

#include <gmp.h>

enum { COLUMNS_MAX = 4096, LABEL = 8, BAR = 12 };

static gmp_randstate_t random_state;

static int begin_random(void **state) {
    (void)state;
    gmp_randinit_mt(random_state);
    gmp_randseed_ui(random_state, 1912);
    return 0;
}

static int end_random(void **state) {
    (void)state;
    gmp_randclear(random_state);
    return 0;
}

/* ---- the table, read back ------------------------------------------------------------------ */

/* A row of bits as a number; shown is 0 when the table has no such row. */
typedef struct {
    mpz_t value;
    unsigned shown; /* columns */
} Row;

typedef enum { ROW_FIRST, ROW_SECOND, ROW_CARRY, ROW_SUM, ROW_RESULT, ROW_COUNT } RowKind;

typedef struct {
    Row row[ROW_COUNT]; /* the two that the adder is given, the carries, ... */
    size_t end;         /* where the column numbers of the group end */
} Table;

/* The bits of a line from the bar to where the column numbers end, the highest first. */
static void take_bits(Row *row, const char *line, size_t end) {
    char bits[COLUMNS_MAX + 2];
    size_t count = 0;
    for (size_t i = BAR + 1; i < end && line[i] != '\n'; i++)
        if (line[i] == '0' || line[i] == '1')
            bits[count++] = line[i];
    bits[count] = '\0';
    mpz_t group;
    mpz_init_set_str(group, bits, 2);
    mpz_mul_2exp(group, group, row->shown);
    mpz_ior(row->value, row->value, group);
    mpz_clear(group);
    row->shown += (unsigned)count;
}

static bool has_label(const char *line, const char *label) {
    size_t length = strlen(label);
    return strncmp(line, label, length) == 0 && (line[length] == ' ' || length == LABEL);
}

/* One line of the table. Rows above the carries are the pins', below them the adder's: below counts
 * those of the group, and is negative above its carries. */
static void read_row(Table *table, const char *line, int *below) {
    if (has_label(line, "column")) {
        table->end = strcspn(line, "\n");
        *below = -1;
    } else if (has_label(line, "carry")) {
        take_bits(&table->row[ROW_CARRY], line, table->end);
        /* The last group's leaves the sign column. */
        if (line[LABEL] == '(' && line[LABEL + 1] == '1')
            mpz_setbit(table->row[ROW_CARRY].value, table->row[ROW_CARRY].shown);
        *below = 0;
    } else if (has_label(line, "sum")) {
        take_bits(&table->row[ROW_SUM], line, table->end);
    } else if (has_label(line, "result")) {
        take_bits(&table->row[ROW_RESULT], line, table->end);
    } else if (*below >= 0 && *below < 2) {
        take_bits(&table->row[ROW_FIRST + (*below)++], line, table->end);
    }
}

/* Reads the lines before the verdict. */
static void read_table(const char *sheet, Table *table) {
    int below = -1;
    const char *line = strchr(sheet, '\n') + 1;
    for (; strncmp(line, "verdict\n", 8) != 0; line = strchr(line, '\n') + 1)
        if (strcspn(line, "\n") > BAR && line[BAR] == '|')
            read_row(table, line, &below);
}

/* ---- what GMP says -------------------------------------------------------------------------- */

typedef struct {
    unsigned width;
    Operation operation;
    Sense sense;
    Overflow overflow;
    bool cin;
    mpz_t a, b;        /* unsigned */
    mpz_t x, y, carry; /* what the adder is given, its carries */
    mpz_t sum, result; /* unsigned */
    mpz_t exact[2];    /* unsigned, signed */
    mpz_t full;
    mpz_t s, t;
} Case;

static void signed_of(const Case *c, mpz_t to, const mpz_t from) {
    mpz_set(to, from);
    if (mpz_tstbit(from, c->width - 1))
        mpz_sub(to, to, c->full);
}

static void complement(const Case *c, mpz_t to, const mpz_t from) {
    mpz_sub(to, c->full, from);
    mpz_sub_ui(to, to, 1);
}

/* The operation's formula on integers. */
static void formula(const Case *c, mpz_t to, const mpz_t a, const mpz_t b) {
    bool borrow = c->sense == SENSE_BORROW ? c->cin : !c->cin;
    switch (c->operation) {
    case OP_ADD:
        mpz_add(to, a, b);
        break;
    case OP_ADC:
        mpz_add(to, a, b);
        mpz_add_ui(to, to, c->cin);
        break;
    case OP_SUB:
        mpz_sub(to, a, b);
        break;
    case OP_SBC:
        mpz_sub(to, a, b);
        mpz_sub_ui(to, to, borrow);
        break;
    case OP_RSB:
        mpz_sub(to, b, a);
        break;
    case OP_INC:
        mpz_add_ui(to, a, 1);
        break;
    case OP_DEC:
        mpz_sub_ui(to, a, 1);
        break;
    case OP_NEG:
        mpz_neg(to, a);
        break;
    default:
        mpz_set(to, a);
    }
}

/* What the adder is given, by section "Subtraction is addition" of docs/conventions.md. */
static unsigned adder_operands(Case *c) {
    Operation op = c->operation;
    bool reads_b = op == OP_ADD || op == OP_ADC || op == OP_SUB || op == OP_SBC || op == OP_RSB;
    mpz_set(c->x, c->a);
    mpz_set_ui(c->y, 0);
    if (reads_b)
        mpz_set(c->y, c->b);
    if (op == OP_RSB || op == OP_NEG)
        complement(c, c->x, c->x);
    if (op == OP_SUB || op == OP_SBC || op == OP_DEC)
        complement(c, c->y, c->y);
    if (op == OP_ADC)
        return c->cin;
    if (op == OP_SBC)
        return c->sense == SENSE_BORROW ? !c->cin : c->cin;
    return op == OP_SUB || op == OP_RSB || op == OP_INC || op == OP_NEG;
}

/* Brings an exact result into its reading's range. */
static void clamp(Case *c, const mpz_t exact, bool is_signed) {
    mpz_set(c->s, c->full);
    mpz_set_ui(c->t, 0);
    if (is_signed) {
        mpz_fdiv_q_2exp(c->s, c->s, 1);
        mpz_neg(c->t, c->s);
    }
    mpz_sub_ui(c->s, c->s, 1);
    mpz_set(c->result, exact);
    if (mpz_cmp(exact, c->s) > 0)
        mpz_set(c->result, c->s);
    if (mpz_cmp(exact, c->t) < 0)
        mpz_set(c->result, c->t);
    mpz_mod(c->result, c->result, c->full);
}

/* The carries of a sum are the bits in which it differs from the sum without carries. */
static void expect(Case *c) {
    unsigned first = adder_operands(c);
    mpz_add(c->sum, c->x, c->y);
    mpz_add_ui(c->sum, c->sum, first);
    mpz_xor(c->carry, c->sum, c->x);
    mpz_xor(c->carry, c->carry, c->y);
    mpz_fdiv_r_2exp(c->sum, c->sum, c->width);
    formula(c, c->exact[0], c->a, c->b);
    signed_of(c, c->s, c->a);
    signed_of(c, c->t, c->b);
    formula(c, c->exact[1], c->s, c->t);
    mpz_set(c->result, c->sum);
    if (c->overflow != OVERFLOW_WRAP)
        clamp(c, c->exact[c->overflow == OVERFLOW_SATURATE_SIGNED],
              c->overflow == OVERFLOW_SATURATE_SIGNED);
}

/* ---- comparing ------------------------------------------------------------------------------ */

static void row_is(const Case *c, const Table *table, RowKind kind, const mpz_t expected,
                   const char *line) {
    if (table->row[kind].shown != c->width)
        fail_msg("%s: row %d shows %u columns", line, (int)kind, table->row[kind].shown);
    if (mpz_cmp(table->row[kind].value, expected) != 0)
        fail_msg("%s: row %d differs from GMP's", line, (int)kind);
}

static void compare_table(const Case *c, const char *sheet, const char *line) {
    Table table = {0};
    for (int k = 0; k < ROW_COUNT; k++)
        mpz_init(table.row[k].value);
    read_table(sheet, &table);
    row_is(c, &table, ROW_FIRST, c->x, line);
    row_is(c, &table, ROW_SECOND, c->y, line);
    row_is(c, &table, ROW_CARRY, c->carry, line);
    row_is(c, &table, ROW_RESULT, c->result, line);
    if (c->overflow != OVERFLOW_WRAP)
        row_is(c, &table, ROW_SUM, c->sum, line);
    for (int k = 0; k < ROW_COUNT; k++)
        mpz_clear(table.row[k].value);
}

static void number_is(const char *text, const mpz_t expected) {
    char *digits = mpz_get_str(NULL, 10, expected);
    assert_string_equal(text, digits);
    free(digits);
}

static void compare_number(Case *c, const StoryNumber *number) {
    const char *label = number->label;
    if (strcmp(label, "exact") == 0) {
        number_is(number->reading[0], c->exact[0]);
        number_is(number->reading[1], c->exact[1]);
        return;
    }
    mpz_ptr value = label[0] == 'a'   ? c->a
                    : label[0] == 'b' ? c->b
                    : label[0] == 's' ? c->sum
                                      : c->result;
    number_is(number->reading[0], value);
    signed_of(c, c->s, value);
    number_is(number->reading[1], c->s);
}

/* The verdict is good in a reading exactly when the columns' sum is the exact result. */
static void compare_verdict(Case *c, const Story *story) {
    for (int reading = 0; reading < 2; reading++) {
        const StoryLine *line = &story->verdict.line[reading == 0 ? 2 : 1];
        assert_string_equal(line->label, reading == 0 ? "unsigned" : "two's complement");
        mpz_set(c->s, c->sum);
        if (reading == 1)
            signed_of(c, c->s, c->sum);
        bool right = mpz_cmp(c->s, c->exact[reading]) == 0;
        assert_int_equal(line->tone, right ? TONE_GOOD : TONE_BAD);
    }
}

static void compare(Case *c, unsigned columns) {
    char line[4096];
    bool reads_b = operation_facts(c->operation)->reads_b;
    bool reads_cin = operation_facts(c->operation)->reads_cin;
    int used = gmp_snprintf(
        line, sizeof line, "--width %u --operations %s --subtract-carry %s --overflow %s %s",
        c->width, operation_name(c->operation), sense_name(c->sense), overflow_name(c->overflow),
        reads_cin ? c->cin ? "--cin 1" : "--cin 0" : "");
    used += gmp_snprintf(line + used, sizeof line - (size_t)used, " %Zd", c->a);
    if (reads_b)
        gmp_snprintf(line + used, sizeof line - (size_t)used, " 0x%Zx", c->b);
    const Working *working = worked(line);
    expect(c);
    char *sheet = sheet_of(working, columns, false, false);
    compare_table(c, sheet, line);
    free(sheet);
    Story story;
    story_tell(working, &story);
    for (int k = 0; k < story.number_count; k++)
        compare_number(c, &story.number[k]);
    compare_verdict(c, &story);
    story_free(&story);
}

static void random_operand(mpz_t z, unsigned width) {
    if (gmp_urandomb_ui(random_state, 1))
        mpz_urandomb(z, random_state, width);
    else
        mpz_rrandomb(z, random_state, width); /* long runs: carries go far */
}

static void at_width(unsigned width, int rounds) {
    Case c = {.width = width};
    mpz_inits(c.a, c.b, c.x, c.y, c.carry, c.sum, c.result, c.exact[0], c.exact[1], c.full, c.s,
              c.t, NULL);
    mpz_ui_pow_ui(c.full, 2, width);
    for (int round = 0; round < rounds; round++) {
        c.operation = (Operation)gmp_urandomm_ui(random_state, OP_COUNT);
        c.sense = (Sense)gmp_urandomm_ui(random_state, SENSE_COUNT);
        c.overflow = (Overflow)gmp_urandomm_ui(random_state, OVERFLOW_COUNT);
        c.cin = gmp_urandomb_ui(random_state, 1);
        random_operand(c.a, width);
        random_operand(c.b, width);
        compare(&c, 28 + (unsigned)gmp_urandomm_ui(random_state, 200));
    }
    mpz_clears(c.a, c.b, c.x, c.y, c.carry, c.sum, c.result, c.exact[0], c.exact[1], c.full, c.s,
               c.t, NULL);
}

static void test_narrow_words(void **state) {
    (void)state;
    for (unsigned width = 1; width <= 70; width++)
        at_width(width, 60);
}

static void test_wide_words(void **state) {
    (void)state;
    const unsigned widths[] = {99, 100, 101, 127, 128, 129, 512, 999, 1000, 1001, 1002, 4095, 4096};
    for (size_t k = 0; k < sizeof widths / sizeof *widths; k++)
        at_width(widths[k], 10);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_narrow_words),
        cmocka_unit_test(test_wide_words),
    };
    return cmocka_run_group_tests_name("work_gmp", tests, begin_random, end_random);
}
