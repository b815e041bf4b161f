/* Tables: columns stand under one another, no blank ends a line, wide tables fold. */
#include "write/table.h"

#include "unit/written.h"

static Table *three_columns(void) {
    Table *table = table_new();
    table_column(table, "structure", TABLE_LEFT);
    table_column(table, "gates", TABLE_RIGHT);
    table_column(table, "mark", TABLE_LEFT);
    table_cell(table, "%s", "ripple");
    table_cell(table, "%u", 56u);
    table_cell(table, "%s", "* smallest");
    table_cell(table, "%s", "kogge-stone");
    table_cell(table, "%u", 1234567u);
    table_cell(table, "%s", "");
    return table;
}

static void assert_table(Table *table, int keep, int limit, const char *expected) {
    Written written;
    written_open(&written);
    table_write(table, keep, limit, written.out);
    assert_written(&written, expected);
    table_free(table);
}

static void test_columns_are_aligned(void **state) {
    (void)state;
    assert_table(three_columns(), 1, 80,
                 "structure      gates  mark\n"
                 "ripple            56  * smallest\n"
                 "kogge-stone  1234567\n");
}

/* structure and gates take 11 + 2 + 7 = 20 characters. */
static void test_what_does_not_fit_stands_below(void **state) {
    (void)state;
    static const char folded[] = "structure      gates\n"
                                 "ripple            56\n"
                                 "kogge-stone  1234567\n"
                                 "\n"
                                 "structure    mark\n"
                                 "ripple       * smallest\n"
                                 "kogge-stone\n";
    assert_table(three_columns(), 1, 31, folded);
    assert_table(three_columns(), 1, 20, folded);
    assert_table(three_columns(), 1, 1, folded); /* a column is never cut */
    assert_table(three_columns(), 1, 32,
                 "structure      gates  mark\n"
                 "ripple            56  * smallest\n"
                 "kogge-stone  1234567\n");
}

static void test_nothing_need_be_kept(void **state) {
    (void)state;
    assert_table(three_columns(), 0, 11,
                 "structure\nripple\nkogge-stone\n\n"
                 "  gates\n     56\n1234567\n\n"
                 "mark\n* smallest\n\n");
}

/* A character counts as one, whatever its bytes. */
static void test_characters_are_counted_not_bytes(void **state) {
    (void)state;
    Table *table = table_new();
    table_column(table, "5n \xE2\x88\x92 3", TABLE_LEFT);
    table_column(table, "n", TABLE_RIGHT);
    table_cell(table, "abcdefg");
    table_cell(table, "8");
    assert_table(table, 1, 80, "5n \xE2\x88\x92 3   n\nabcdefg  8\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_columns_are_aligned),
        cmocka_unit_test(test_what_does_not_fit_stands_below),
        cmocka_unit_test(test_nothing_need_be_kept),
        cmocka_unit_test(test_characters_are_counted_not_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
