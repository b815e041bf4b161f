/* The choice of exercises: every aim that a unit can reach is met in its turn, whatever the width
 * and the seed; no question twice. */
#include "lesson/questions.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

enum { COUNT = 24 };
static Working question[COUNT];

static void choose(unsigned width, Operation first, Operation second, uint64_t seed, Unit *unit) {
    Problem problem;
    unit_init(unit);
    unit->width = width;
    unit->choice[0].operation = first;
    unit->choice[1].operation = second;
    unit->choice_count = first == second ? 1 : 2;
    assert_true(unit_settle(unit, &problem));
    questions_choose(unit, seed, COUNT, question);
}

static void test_every_aim_in_its_turn(void **state) {
    (void)state;
    static const unsigned widths[] = {4, 5, 8, 12, 16, 31, 32};
    Unit unit;
    for (size_t w = 0; w < sizeof widths / sizeof widths[0]; w++)
        for (uint64_t seed = 0; seed < 20; seed++) {
            choose(widths[w], OP_ADD, OP_SUB, seed, &unit);
            for (int k = 0; k < COUNT; k++)
                assert_true(question_meets(&question[k], (Aim)(k % AIM_COUNT)));
        }
}

static void test_no_question_twice(void **state) {
    (void)state;
    Unit unit;
    choose(4, OP_SBC, OP_RSB, 3, &unit);
    for (int k = 0; k < COUNT; k++)
        for (int other = 0; other < k; other++)
            assert_false(question[k].choice == question[other].choice &&
                         word_equal(&question[k].a, &question[other].a) &&
                         word_equal(&question[k].b, &question[other].b) &&
                         question[k].cin == question[other].cin);
}

/* neg and dec overflow at one number of 2^32 each, inc carries at one. */
static void test_rare_operands(void **state) {
    (void)state;
    Unit unit;
    bool met[AIM_COUNT] = {false};
    choose(32, OP_INC, OP_DEC, 1, &unit);
    for (int k = 0; k < COUNT; k++)
        met[k % AIM_COUNT] =
            met[k % AIM_COUNT] || question_meets(&question[k], (Aim)(k % AIM_COUNT));
    for (int aim = 0; aim < AIM_COUNT; aim++)
        assert_true(met[aim]);
}

/* Two questions are all there is: asked again rather than not at all. */
static void test_fewer_than_asked_for(void **state) {
    (void)state;
    Unit unit;
    choose(1, OP_NEG, OP_NEG, 1, &unit);
    for (int k = 0; k < COUNT; k++)
        assert_int_equal(question[k].a.width, 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_aim_in_its_turn),
        cmocka_unit_test(test_no_question_twice),
        cmocka_unit_test(test_rare_operands),
        cmocka_unit_test(test_fewer_than_asked_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
