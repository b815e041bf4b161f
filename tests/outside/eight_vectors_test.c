/* The first eight vectors of an operation are a complete test of a ripple of cells with one faulty
 * cell, whatever that cell computes and however many there are: W.-T. Cheng, J. H. Patel, "A
 * Minimum Test Set for Multiple Fault Detection in Ripple Carry Adders", IEEE Trans. Computers,
 * 1987, for the number eight. Here the ripple is simulated with each cell in turn replaced by each
 * two-output function of three inputs: all 65 536 up to 8 columns, a sample in wider words. */
#include "vectors/random.h"
#include "vectors/vectors.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

enum { VECTORS = 8, FUNCTIONS = 65536, SAMPLE = 2000 };

/* What the cells get: the words and the first carry, as the operation's definition says. */
typedef struct {
    unsigned width;
    unsigned count;
    uint64_t x[VECTORS], y[VECTORS];
    bool first[VECTORS];
} Tests;

static bool keep(void *context, const Vector *vector) {
    Tests *tests = context;
    assert_int_equal(vector->reason, VECTOR_COMPACT);
    tests->x[tests->count] = vector->a.limb[0];
    tests->y[tests->count] = vector->b.limb[0];
    tests->first[tests->count] = vector->cin;
    return ++tests->count < VECTORS;
}

/* The first vectors of adc (a + b + cin), or of sbc (a + not b + cin). */
static void tests_of(Tests *tests, Operation operation, unsigned width) {
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    VectorPlan plan = {.random = 0, .seed = 1};
    unit_init(&unit);
    unit.width = width;
    unit.choice_count = 1;
    unit.choice[0].operation = operation;
    assert_true(unit_settle(&unit, &problem));
    *tests = (Tests){.width = width};
    vectors_each(&unit, &plan, keep, tests);
    assert_int_equal(tests->count, VECTORS);
    uint64_t ones = width == 64 ? UINT64_MAX : (UINT64_C(1) << width) - 1;
    for (unsigned v = 0; v < VECTORS && operation == OP_SBC; v++)
        tests->y[v] ^= ones;
}

/* The full adder as such a function: two bits a row of its table, sum and carry. */
static uint16_t full_adder(void) {
    uint16_t table = 0;
    for (unsigned row = 0; row < 8; row++) {
        unsigned count = (row & 1) + (row >> 1 & 1) + (row >> 2);
        table = (uint16_t)(table | count << (2 * row));
    }
    return table;
}

/* The sum bits and the last carry where the cell of one column is another. */
static uint64_t ripple(const Tests *tests, unsigned v, unsigned faulty, uint16_t function,
                       bool *last) {
    uint16_t right = full_adder();
    uint64_t sum = 0;
    unsigned carry = tests->first[v];
    for (unsigned i = 0; i < tests->width; i++) {
        unsigned row =
            (unsigned)(tests->x[v] >> i & 1) | (unsigned)(tests->y[v] >> i & 1) << 1 | carry << 2;
        unsigned cell = (i == faulty ? function : right) >> (2 * row) & 3;
        sum |= (uint64_t)(cell & 1) << i;
        carry = cell >> 1;
    }
    *last = carry == 1;
    return sum;
}

static bool shows(const Tests *tests, unsigned column, uint16_t function) {
    for (unsigned v = 0; v < VECTORS; v++) {
        bool last, right_last;
        uint64_t sum = ripple(tests, v, column, function, &last);
        uint64_t right = ripple(tests, v, column, full_adder(), &right_last);
        if (sum != right || last != right_last)
            return true;
    }
    return false;
}

static void check_column(const Tests *tests, unsigned column, unsigned functions) {
    Random random;
    random_seed(&random, column);
    for (unsigned k = 0; k < functions; k++) {
        uint16_t function =
            (uint16_t)(functions == FUNCTIONS ? k : random_below(&random, FUNCTIONS));
        if (shows(tests, column, function) != (function != full_adder()))
            fail_msg("%u bits, column %u, function %04x", tests->width, column, function);
    }
}

/* One row of the cell's table wrong in one bit: the hardest to see. */
static void check_single_changes(const Tests *tests, unsigned column) {
    for (unsigned bit = 0; bit < 16; bit++)
        assert_true(shows(tests, column, (uint16_t)(full_adder() ^ 1U << bit)));
}

static void check_widths(Operation operation) {
    static Tests tests;
    for (unsigned width = 4; width <= 64; width++) {
        tests_of(&tests, operation, width);
        for (unsigned column = 0; column < width; column++)
            check_single_changes(&tests, column);
        if (width > 8 && width != 16 && width != 33 && width != 64)
            continue;
        for (unsigned column = 0; column < width; column++)
            check_column(&tests, column, width <= 8 ? FUNCTIONS : SAMPLE);
    }
}

static void test_adc(void **state) {
    (void)state;
    check_widths(OP_ADC);
}

static void test_sbc(void **state) {
    (void)state;
    check_widths(OP_SBC);
}

/* Seven are too few, any seven: each vector gives some cell an input that no other gives it. */
static void test_none_of_the_eight_can_be_left_out(void **state) {
    (void)state;
    static Tests tests, fewer;
    tests_of(&tests, OP_ADC, 8);
    for (unsigned left_out = 0; left_out < VECTORS; left_out++) {
        fewer = tests;
        unsigned instead = left_out == 0 ? 1 : 0;
        fewer.x[left_out] = tests.x[instead];
        fewer.y[left_out] = tests.y[instead];
        fewer.first[left_out] = tests.first[instead];
        bool all = true;
        for (unsigned column = 0; column < 8; column++)
            for (unsigned bit = 0; bit < 16; bit++)
                all = all && shows(&fewer, column, (uint16_t)(full_adder() ^ 1U << bit));
        assert_false(all);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_adc),
        cmocka_unit_test(test_sbc),
        cmocka_unit_test(test_none_of_the_eight_can_be_left_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
