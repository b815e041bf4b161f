/* The table of operations in docs/conventions.md is what the generator does: each of its rows is
 * made here from the operand row's table of control signals (gates/operands.c) and the operations'
 * facts (unit/unit.c), and must stand in the page, in this order, with no other row between them.
 */
#include "gates/operands.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdio.h>
#include <string.h>

enum { LINE_BYTES = 512 };

static const char heading[] = "| operation | result modulo 2^n | X | Y | first carry | `carry` |\n";

/* Is the signal 1 in a unit of this operation alone? */
static bool is_on(Operation operation, Sense sense, Signal signal) {
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    unit_init(&unit);
    unit.choice[0].operation = operation;
    unit.choice_count = 1;
    unit.sense = sense;
    assert_true(unit_settle(&unit, &problem));
    return operands_signal(&unit, signal).level == LEVEL_1;
}

/* Signals that do not depend on the sense. */
static bool on(Operation operation, Signal signal) {
    bool is = is_on(operation, SENSE_NO_BORROW, signal);
    assert_true(is == is_on(operation, SENSE_BORROW, signal));
    return is;
}

static const char *first_text(Operation operation) {
    if (on(operation, SIGNAL_SET_CARRY))
        return "1";
    if (!on(operation, SIGNAL_USE_CIN))
        return "0";
    assert_false(is_on(operation, SENSE_NO_BORROW, SIGNAL_INVERT_CIN));
    return is_on(operation, SENSE_BORROW, SIGNAL_INVERT_CIN)
               ? "`cin`; its complement where the sense is `borrow`"
               : "`cin`";
}

static const char *carry_text(Operation operation, bool y_is_0, const char *first) {
    if (y_is_0 && strcmp(first, "0") == 0)
        return "0: nothing is added";
    return on(operation, SIGNAL_SUBTRACTING) ? "no borrow, or borrow, by the sense" : "carry";
}

/* The operation's row, with a minus for each hyphen of its formula. */
static void make_row(Operation operation, char *row) {
    char formula[64] = "";
    for (const char *c = operation_facts(operation)->formula; *c != '\0'; c++)
        snprintf(formula + strlen(formula), sizeof formula - strlen(formula), "%s",
                 *c == '-' ? "\xe2\x88\x92" : (char[]){*c, '\0'});
    static const char *const ys[2][2] = {{"0", "not 0"}, {"b", "not b"}};
    bool use_b = on(operation, SIGNAL_USE_B), invert_b = on(operation, SIGNAL_INVERT_B);
    const char *first = first_text(operation);
    snprintf(row, LINE_BYTES, "| `%s` | %s | %s | %s | %s | %s |\n", operation_name(operation),
             formula, on(operation, SIGNAL_INVERT_A) ? "not a" : "a", ys[use_b][invert_b], first,
             carry_text(operation, !use_b && !invert_b, first));
}

static void test_conventions(void **state) {
    (void)state;
    char line[LINE_BYTES] = "", row[LINE_BYTES];
    FILE *page = fopen(SUMWRIGHT_SOURCE "/docs/conventions.md", "r");
    assert_non_null(page);
    while (strcmp(line, heading) != 0)
        assert_non_null(fgets(line, sizeof line, page));
    assert_non_null(fgets(line, sizeof line, page)); /* the rule below the heading */
    for (int operation = 0; operation < OP_COUNT; operation++) {
        assert_non_null(fgets(line, sizeof line, page));
        make_row((Operation)operation, row);
        assert_string_equal(line, row);
    }
    assert_non_null(fgets(line, sizeof line, page));
    assert_string_equal(line, "\n");
    assert_int_equal(fclose(page), 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_conventions)};
    return cmocka_run_group_tests_name("operations_table", tests, NULL, NULL);
}
