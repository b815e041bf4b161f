/* The words that vectors are made of, against each bit by itself, at widths around whole limbs. */
#include "vectors/patterns.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static const unsigned widths[] = {1, 2, 7, 63, 64, 65, 127, 128, 129, 4096};

enum { WIDTHS = sizeof widths / sizeof *widths };

static void test_low_ones(void **state) {
    (void)state;
    Word word;
    for (size_t w = 0; w < WIDTHS; w++)
        for (unsigned count = 0; count <= widths[w]; count += count < 130 ? 1 : 61) {
            pattern_low_ones(&word, widths[w], count);
            assert_int_equal(word.width, widths[w]);
            for (unsigned i = 0; i < widths[w]; i++)
                assert_int_equal(word_bit(&word, i), i < count);
        }
}

/* What was 1 stays so, and nothing else becomes 1. */
static void test_ones_between(void **state) {
    (void)state;
    static const unsigned ends[] = {0, 1, 2, 6, 63, 64, 65, 127, 128, 129, 192, 4095, 4096};
    Word word;
    for (size_t f = 0; f < sizeof ends / sizeof *ends; f++)
        for (size_t e = f + 1; e < sizeof ends / sizeof *ends; e++) {
            pattern_index(&word, 4096, 0);
            pattern_ones(&word, ends[f], ends[e]);
            for (unsigned i = 0; i < 4096; i++)
                assert_int_equal(word_bit(&word, i), i % 2 == 1 || (i >= ends[f] && i < ends[e]));
        }
}

static void test_index(void **state) {
    (void)state;
    Word word;
    for (size_t w = 0; w < WIDTHS; w++)
        for (unsigned k = 0; k < pattern_index_count(widths[w]); k++) {
            pattern_index(&word, widths[w], k);
            for (unsigned i = 0; i < widths[w]; i++)
                assert_int_equal(word_bit(&word, i), i >> k & 1);
        }
    assert_int_equal(pattern_index_count(1), 0);
    assert_int_equal(pattern_index_count(64), 6);
    assert_int_equal(pattern_index_count(65), 7);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_low_ones),
        cmocka_unit_test(test_ones_between),
        cmocka_unit_test(test_index),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
