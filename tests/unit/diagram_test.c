/* Decision diagrams against truth tables, and what holds of them whatever the functions: equal ones
 * are one number, what is not held goes, a limit is a limit. */
#include "proof/diagram.h"
#include "proof/share.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

enum { VARIABLES = 6, KEPT = 40, ROUNDS = 4000 };

static const DiagramLimits plenty = {1u << 20, UINT64_C(1) << 40};

/* Bit v of a table is the function's value where variable k is bit k of v. */
static uint64_t table_of_variable(unsigned k) {
    uint64_t table = 0;
    for (unsigned v = 0; v < 64; v++)
        table |= (uint64_t)(v >> k & 1) << v;
    return table;
}

static uint64_t table_of(const Diagrams *diagrams, Diagram x) {
    uint64_t table = 0;
    for (unsigned v = 0; v < 64; v++) {
        Diagram at = x;
        while (at > DIAGRAM_1) {
            unsigned level = diagram_level(diagrams, at);
            at = diagram_branch(diagrams, at, level, v >> level & 1);
        }
        table |= (uint64_t)at << v;
    }
    return table;
}

static unsigned drawn(uint64_t *state) {
    *state = *state * UINT64_C(6364136223846793005) + 1442695040888963407u;
    return (unsigned)(*state >> 33);
}

typedef struct {
    Diagram diagram[KEPT];
    uint64_t table[KEPT];
} Functions;

/* One more function of two or three that there are, in the place of another. */
static void replace(Diagrams *d, Functions *f, uint64_t *state) {
    unsigned x = drawn(state) % KEPT, y = drawn(state) % KEPT, z = drawn(state) % KEPT;
    unsigned to = VARIABLES + drawn(state) % (KEPT - VARIABLES);
    Diagram a = f->diagram[x], b = diagram_not(f->diagram[y]), c = f->diagram[z], made;
    uint64_t ta = f->table[x], tb = ~f->table[y], tc = f->table[z], table;
    switch (drawn(state) % 4) {
    case 0:
        made = diagram_and(d, a, b), table = ta & tb;
        break;
    case 1:
        made = diagram_or(d, a, b), table = ta | tb;
        break;
    case 2:
        made = diagram_xor(d, a, b), table = ta ^ tb;
        break;
    default:
        made = diagram_if(d, c, a, b), table = (tc & ta) | (~tc & tb);
        break;
    }
    diagram_hold(d, made);
    diagram_drop(d, f->diagram[to]);
    f->diagram[to] = made;
    f->table[to] = table;
}

static void test_functions_are_their_truth_tables(void **state) {
    (void)state;
    Diagrams *d = diagram_open(VARIABLES, plenty);
    Functions f = {{0}, {0}};
    for (unsigned k = 0; k < VARIABLES; k++) {
        f.diagram[k] = diagram_hold(d, diagram_variable(d, k));
        f.table[k] = table_of_variable(k);
    }
    uint64_t random = 5;
    for (unsigned round = 0; round < ROUNDS; round++) {
        replace(d, &f, &random);
        diagram_tidy(d, round % 7 == 0);
        for (unsigned k = 0; k < KEPT; k++) {
            assert_int_equal(table_of(d, f.diagram[k]), f.table[k]);
            assert_true((f.diagram[k] == f.diagram[0]) == (f.table[k] == f.table[0]));
        }
    }
    diagram_close(d);
}

static void test_an_example_is_one_and_the_share_is_counted(void **state) {
    (void)state;
    Diagrams *d = diagram_open(VARIABLES, plenty);
    uint64_t random = 9;
    for (unsigned round = 0; round < 500; round++) {
        Diagram x = DIAGRAM_0;
        uint64_t table = 0;
        for (unsigned term = 0; term < 1 + round % 5; term++) {
            Diagram all = DIAGRAM_1;
            uint64_t where = ~UINT64_C(0);
            for (unsigned k = 0; k < VARIABLES; k++) {
                Diagram variable = diagram_variable(d, k);
                unsigned pick = drawn(&random) % 3;
                if (pick == 0)
                    continue;
                all = diagram_and(d, all, pick == 1 ? variable : diagram_not(variable));
                where &= pick == 1 ? table_of_variable(k) : ~table_of_variable(k);
            }
            x = diagram_or(d, x, all);
            table |= where;
        }
        bool level[VARIABLES];
        diagram_example(d, x, level);
        unsigned v = 0;
        for (unsigned k = 0; k < VARIABLES; k++)
            v |= (unsigned)level[k] << k;
        assert_true(table >> v & 1);
        unsigned count = (unsigned)__builtin_popcountll(table), total = 64;
        for (; count % 2 == 0 && total > 1; count /= 2)
            total /= 2;
        char text[SHARE_BYTES], wanted[SHARE_BYTES];
        share_text(d, x, 1, VARIABLES, text);
        snprintf(wanted, sizeof wanted, "%u of every %u inputs", count, total);
        assert_string_equal(text, total == 1 ? "every input" : wanted);
    }
    diagram_close(d);
}

/* An AND of all variables: true once in 2^n, and the deepest diagram that there is. */
static void test_deep_diagrams_are_walked_and_counted(void **state) {
    (void)state;
    enum { LEVELS = 50000 };
    Diagrams *d = diagram_open(LEVELS, plenty);
    Diagram all = DIAGRAM_1, odd = DIAGRAM_0;
    for (unsigned k = 0; k < LEVELS; k++)
        odd = diagram_xor(d, diagram_variable(d, LEVELS - 1 - k), odd);
    for (unsigned k = 0; k < 8200; k++)
        all = diagram_and(d, diagram_variable(d, LEVELS - 1 - k), all);
    /* From the top, through all levels. */
    assert_int_equal(diagram_and(d, diagram_xor(d, odd, diagram_variable(d, LEVELS - 1)), odd),
                     diagram_and(d, odd, diagram_not(diagram_variable(d, LEVELS - 1))));
    diagram_hold(d, all);
    diagram_tidy(d, true);
    char text[SHARE_BYTES];
    share_text(d, all, 1, LEVELS, text);
    assert_string_equal(text, "1 of every 2^8200 inputs");
    share_text(d, diagram_not(all), 1, LEVELS, text);
    assert_string_equal(text, "about 100 % of all inputs");
    diagram_close(d);
}

static void test_what_is_not_held_makes_room(void **state) {
    (void)state;
    Diagrams *d = diagram_open(64, (DiagramLimits){200, UINT64_C(1) << 40});
    for (unsigned round = 0; round < 100; round++) {
        Diagram all = DIAGRAM_1;
        for (unsigned k = 64; k-- > 0;) {
            Diagram variable = diagram_variable(d, k);
            bool plain = (round >> k % 7 & 1) != 0;
            all = diagram_and(d, plain ? variable : diagram_not(variable), all);
        }
        assert_true(all != DIAGRAM_NONE);
        diagram_tidy(d, true);
    }
    diagram_close(d);
}

static void test_limits_are_kept(void **state) {
    (void)state;
    Diagrams *d = diagram_open(64, (DiagramLimits){40, UINT64_C(1) << 40});
    Diagram odd = DIAGRAM_0;
    for (unsigned k = 0; k < 64; k++)
        odd = diagram_xor(d, odd, diagram_variable(d, k));
    assert_true(odd == DIAGRAM_NONE);
    assert_true(diagram_and(d, odd, DIAGRAM_0) == DIAGRAM_NONE);
    assert_true(diagram_if(d, DIAGRAM_1, DIAGRAM_0, odd) == DIAGRAM_NONE);
    assert_true(diagram_peak(d) <= 40);
    diagram_close(d);
    d = diagram_open(64, (DiagramLimits){1u << 20, 100});
    odd = DIAGRAM_0;
    for (unsigned k = 0; k < 64; k++)
        odd = diagram_xor(d, odd, diagram_variable(d, k));
    assert_true(odd == DIAGRAM_NONE);
    assert_true(diagram_steps(d) <= 101);
    diagram_close(d);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_functions_are_their_truth_tables),
        cmocka_unit_test(test_an_example_is_one_and_the_share_is_counted),
        cmocka_unit_test(test_deep_diagrams_are_walked_and_counted),
        cmocka_unit_test(test_what_is_not_held_makes_room),
        cmocka_unit_test(test_limits_are_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
