/* The reference model on cases small enough to check on paper. Each line gives an operation, its
 * operands and the level of the cin pin, the result, and the flags that are 1; every flag not
 * listed is 0. */
#include "all_operations.h"
#include "model/model.h"

#include <stdio.h>
#include <string.h>

static void outcome_of(const Unit *unit, int choice, uint64_t a, uint64_t b, bool cin,
                       Outcome *outcome) {
    Word word_a, word_b;
    word_set(&word_a, unit->width, a);
    word_set(&word_b, unit->width, b);
    model_outcome(unit, choice, &word_a, &word_b, cin, outcome);
}

static void check(const Unit *unit, int choice, uint64_t a, uint64_t b, bool cin, uint64_t result,
                  const char *flags) {
    Outcome outcome;
    outcome_of(unit, choice, a, b, cin, &outcome);
    char got[200] = "";
    for (int f = 0; f < FLAG_COUNT; f++)
        if (outcome.flag[f])
            snprintf(got + strlen(got), sizeof got - strlen(got), "%s%s", got[0] ? " " : "",
                     flag_name((Flag)f));
    assert_int_equal(outcome.result.limb[0], result);
    assert_string_equal(got, flags);
}

/* 8-bit words; in this unit a carry pin at 1 means no borrow. */
static void test_sums(void **state) {
    (void)state;
    Unit unit;
    all_operations(&unit, 8, SENSE_NO_BORROW, OVERFLOW_WRAP);
    check(&unit, OP_ADD, 20, 22, 0, 42, "parity");
    check(&unit, OP_ADD, 20, 22, 1, 42, "parity"); /* add does not read cin */
    check(&unit, OP_ADD, 200, 56, 0, 0, "carry zero half-carry");
    check(&unit, OP_ADD, 100, 28, 0, 128, "overflow negative parity half-carry");
    check(&unit, OP_ADD, 0x80, 0x80, 0, 0, "carry overflow zero less-signed");
    check(&unit, OP_ADC, 20, 22, 0, 42, "parity");
    check(&unit, OP_ADC, 20, 22, 1, 43, "");
    check(&unit, OP_ADC, 0xff, 0xff, 1, 0xff, "carry negative less-signed half-carry");
    check(&unit, OP_INC, 0x0f, 99, 0, 0x10, "parity half-carry"); /* inc does not read b */
    check(&unit, OP_INC, 0x7f, 0, 0, 0x80, "overflow negative parity half-carry");
    check(&unit, OP_INC, 0xff, 0, 0, 0, "carry zero half-carry");
    check(&unit, OP_PASS, 0xff, 0xff, 1, 0xff, "negative less-signed");
    check(&unit, OP_PASS, 0, 1, 0, 0, "zero");
}

static void test_differences_with_no_borrow_as_1(void **state) {
    (void)state;
    Unit unit;
    all_operations(&unit, 8, SENSE_NO_BORROW, OVERFLOW_WRAP);
    check(&unit, OP_SUB, 42, 20, 0, 22, "carry parity half-carry");
    check(&unit, OP_SUB, 42, 42, 0, 0, "carry zero half-carry");
    check(&unit, OP_SUB, 20, 22, 0, 0xfe, "negative less-signed less-unsigned parity");
    check(&unit, OP_SUB, 0x80, 1, 0, 0x7f, "carry overflow less-signed parity");
    check(&unit, OP_SUB, 0x7f, 0xff, 0, 0x80, "overflow negative less-unsigned parity half-carry");
    check(&unit, OP_SBC, 42, 20, 1, 22, "carry parity half-carry");
    check(&unit, OP_SBC, 42, 20, 0, 21, "carry parity half-carry");
    check(&unit, OP_SBC, 20, 20, 0, 0xff, "negative less-signed less-unsigned");
    check(&unit, OP_RSB, 20, 42, 0, 22, "carry parity half-carry");
    check(&unit, OP_DEC, 0x80, 0, 0, 0x7f, "carry overflow less-signed parity");
    check(&unit, OP_DEC, 0, 0, 0, 0xff, "negative less-signed less-unsigned");
    check(&unit, OP_NEG, 0, 5, 0, 0, "carry zero half-carry");
    check(&unit, OP_NEG, 1, 0, 0, 0xff, "negative less-signed less-unsigned");
    check(&unit, OP_NEG, 0x80, 0, 0, 0x80, "overflow negative less-unsigned parity half-carry");
}

/* The same differences: only carry and half-carry, and cin for sbc, change sides. */
static void test_differences_with_borrow_as_1(void **state) {
    (void)state;
    Unit unit;
    all_operations(&unit, 8, SENSE_BORROW, OVERFLOW_WRAP);
    check(&unit, OP_SUB, 42, 20, 0, 22, "parity");
    check(&unit, OP_SUB, 20, 22, 0, 0xfe,
          "carry negative less-signed less-unsigned parity half-carry");
    check(&unit, OP_SBC, 42, 20, 0, 22, "parity");
    check(&unit, OP_SBC, 42, 20, 1, 21, "parity");
    check(&unit, OP_SBC, 20, 20, 1, 0xff, "carry negative less-signed less-unsigned half-carry");
    check(&unit, OP_RSB, 20, 42, 0, 22, "parity");
    check(&unit, OP_DEC, 0x10, 0, 0, 0x0f, "half-carry");
    check(&unit, OP_NEG, 0, 0, 0, 0, "zero");
    check(&unit, OP_NEG, 0x80, 0, 0, 0x80, "carry overflow negative less-unsigned parity");
    /* not subtractions: as ever */
    check(&unit, OP_ADC, 0xff, 0, 1, 0, "carry zero half-carry");
    check(&unit, OP_INC, 0xff, 0, 0, 0, "carry zero half-carry");
    check(&unit, OP_PASS, 1, 0, 0, 1, "parity");
}

/* Zero, negative and parity are of the clamped result; the other flags of the exact one. */
static void test_signed_saturation(void **state) {
    (void)state;
    Unit unit;
    all_operations(&unit, 8, SENSE_BORROW, OVERFLOW_SATURATE_SIGNED);
    check(&unit, OP_ADD, 100, 28, 0, 127, "overflow parity half-carry");
    check(&unit, OP_ADD, 0x80, 0x80, 0, 0x80, "carry overflow negative less-signed parity");
    check(&unit, OP_ADD, 0xff, 1, 0, 0, "carry zero half-carry"); /* -1 + 1 fits */
    check(&unit, OP_SUB, 0x80, 1, 0, 0x80, "overflow negative less-signed parity half-carry");
    check(&unit, OP_SUB, 0x7f, 0xff, 0, 0x7f, "carry overflow less-unsigned parity");
    check(&unit, OP_NEG, 0x80, 0, 0, 0x7f, "carry overflow less-unsigned parity");
    check(&unit, OP_DEC, 0x80, 0, 0, 0x80, "overflow negative less-signed parity half-carry");
}

static void test_unsigned_saturation(void **state) {
    (void)state;
    Unit unit;
    all_operations(&unit, 8, SENSE_BORROW, OVERFLOW_SATURATE_UNSIGNED);
    check(&unit, OP_ADD, 200, 56, 0, 255, "carry negative half-carry");
    check(&unit, OP_ADC, 0xff, 0xff, 1, 255, "carry negative less-signed half-carry");
    check(&unit, OP_SUB, 20, 22, 0, 0, "carry zero less-signed less-unsigned half-carry");
    check(&unit, OP_SBC, 0, 0xff, 1, 0, "carry zero less-unsigned half-carry");
    check(&unit, OP_NEG, 0x80, 0, 0, 0, "carry overflow zero less-unsigned");
    check(&unit, OP_ADD, 100, 28, 0, 128, "overflow negative parity half-carry");
}

static void test_nothing_requested(void **state) {
    (void)state;
    for (int sense = 0; sense < SENSE_COUNT; sense++)
        for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++) {
            Unit unit;
            all_operations(&unit, 8, (Sense)sense, (Overflow)overflow);
            check(&unit, UNIT_NOTHING, 0xff, 0x7f, 1, 0, "zero");
        }
}

/* A choice is a position in the unit's own list. */
static void test_a_choice_is_an_index(void **state) {
    (void)state;
    Unit unit;
    Problem problem = {0};
    unit_init(&unit);
    unit.choice_count = 2;
    unit.choice[0].operation = OP_RSB;
    unit.choice[1].operation = OP_ADD;
    assert_true(unit_settle(&unit, &problem));
    check(&unit, 0, 20, 42, 0, 22, "carry parity half-carry");
    check(&unit, 1, 20, 42, 0, 62, "parity");
}

/* One bit is the sign bit alone: 0 and -1. No column 3, so no half-carry in either sense. */
static void test_one_bit_words(void **state) {
    (void)state;
    Unit unit;
    all_operations(&unit, 1, SENSE_NO_BORROW, OVERFLOW_WRAP);
    check(&unit, OP_ADD, 1, 1, 0, 0, "carry overflow zero less-signed"); /* -1 + -1 = -2 */
    check(&unit, OP_ADC, 1, 1, 1, 1, "carry negative less-signed parity");
    check(&unit, OP_SUB, 0, 1, 0, 1, "overflow negative less-unsigned parity"); /* 0 - -1 = 1 */
    check(&unit, OP_SUB, 1, 1, 0, 0, "carry zero");
    check(&unit, OP_INC, 0, 0, 0, 1, "overflow negative parity");
}

static void test_half_carry_begins_at_four_bits(void **state) {
    (void)state;
    Unit unit;
    all_operations(&unit, 3, SENSE_NO_BORROW, OVERFLOW_WRAP);
    check(&unit, OP_ADD, 7, 7, 0, 6, "carry negative less-signed");
    check(&unit, OP_SUB, 3, 1, 0, 2, "carry parity");
    all_operations(&unit, 4, SENSE_NO_BORROW, OVERFLOW_WRAP);
    check(&unit, OP_ADD, 15, 15, 0, 14, "carry negative less-signed parity half-carry");
    check(&unit, OP_SUB, 3, 1, 0, 2, "carry parity half-carry");
}

/* The carry pin out of a word is what the cin pin of the next one wants, in both senses. Invented
 * levels of a harbour's tide gauge, in millimetres from datum: 4660 observed less 3800 predicted is
 * a surge residual of 860, and the two make up the observed level again, on 8-bit words. */
static void test_words_chain(void **state) {
    (void)state;
    for (int sense = 0; sense < SENSE_COUNT; sense++) {
        Unit unit;
        all_operations(&unit, 8, (Sense)sense, OVERFLOW_WRAP);
        Outcome low, high;
        outcome_of(&unit, OP_SUB, 4660 & 0xff, 3800 & 0xff, 0, &low);
        outcome_of(&unit, OP_SBC, 4660 >> 8, 3800 >> 8, low.flag[FLAG_CARRY], &high);
        assert_int_equal(low.flag[FLAG_CARRY], sense == SENSE_BORROW); /* 0x34 - 0xd8 borrows */
        assert_int_equal(high.result.limb[0] << 8 | low.result.limb[0], 860);
        outcome_of(&unit, OP_ADD, 860 & 0xff, 3800 & 0xff, 0, &low);
        outcome_of(&unit, OP_ADC, 860 >> 8, 3800 >> 8, low.flag[FLAG_CARRY], &high);
        assert_true(low.flag[FLAG_CARRY]);
        assert_int_equal(high.result.limb[0] << 8 | low.result.limb[0], 4660);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sums),
        cmocka_unit_test(test_differences_with_no_borrow_as_1),
        cmocka_unit_test(test_differences_with_borrow_as_1),
        cmocka_unit_test(test_signed_saturation),
        cmocka_unit_test(test_unsigned_saturation),
        cmocka_unit_test(test_nothing_requested),
        cmocka_unit_test(test_a_choice_is_an_index),
        cmocka_unit_test(test_one_bit_words),
        cmocka_unit_test(test_half_carry_begins_at_four_bits),
        cmocka_unit_test(test_words_chain),
    };
    return cmocka_run_group_tests_name("model", tests, NULL, NULL);
}
