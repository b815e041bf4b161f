/* Every mistake is found in what a design with it would show, without a simulator: the outputs come
 * from a variant, or from the model and a change by hand. */
#include "check/find/mistakes.h"
#include "check/find/study.h"
#include "command_lines.h"
#include "model/model.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* ---- a variant without mistakes is the model ------------------------------------------------ */

static bool outcome_agrees(void *context, const Vector *vector) {
    static const Variant plain;
    static Machine machine;
    static Outcome outcome;
    const Unit *unit = context;
    int choice = unit_control_choice(unit, vector->control);
    variant_run(unit, &plain, vector->control, &vector->a, &vector->b, vector->cin, &machine);
    model_outcome(unit, choice, &vector->a, &vector->b, vector->cin, &outcome);
    assert_int_equal(machine.choice, choice);
    assert_true(word_equal(&machine.result, &outcome.result));
    if (choice != UNIT_NOTHING) {
        assert_int_equal(machine.out != machine.into_sign, outcome.flag[FLAG_OVERFLOW]);
        bool borrow = machine.subtracts && unit->sense == SENSE_BORROW;
        assert_int_equal(machine.out != borrow, outcome.flag[FLAG_CARRY]);
        if (unit->width >= 4)
            assert_int_equal(machine.half != borrow, outcome.flag[FLAG_HALF_CARRY]);
    }
    return true;
}

static void test_a_variant_without_mistakes_is_the_model(void **state) {
    (void)state;
    static const char *const units[] = {
        "--width 3 --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass",
        "--width 4 --operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --subtract-carry borrow",
        "--width 5 --operations add,sub,adc,sbc --overflow saturate-signed",
        "--width 6 --operations add,sub,inc,neg --overflow saturate-unsigned",
        "--width 70 --operations add,sub,rsb --control one-hot",
    };
    VectorPlan plan = {.random = 200, .seed = 1};
    for (size_t k = 0; k < sizeof units / sizeof units[0]; k++)
        vectors_each(&parsed(units[k])->unit, &plan, outcome_agrees,
                     (void *)&parsed(units[k])->unit);
}

/* ---- what a design shows ------------------------------------------------------------------- */

/* A change by hand to what comes out of one case; the packed word of cases.h. */
typedef void Change(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                    uint64_t *unknown);

typedef struct {
    Cases cases;
    Schedule schedule;
    Mapping mapping;
    Samples samples;
    HeaderPort port;
    Diagnosis diagnosis;
    char names[256]; /* of the mistakes found, with blanks between */
} Show;

static void put_flag(const Cases *cases, uint64_t *value, Flag flag, bool level) {
    unsigned bit = cases->unit->width + (unsigned)flag;
    value[bit / 64] &= ~(UINT64_C(1) << (bit % 64));
    value[bit / 64] |= (uint64_t)level << (bit % 64);
}

static bool sign_of(const Word *word) {
    return word_bit(word, word->width - 1);
}

/* What an adder with the usual flags around it shows for the machine of a variant. */
static void show_machine(const Cases *cases, const Machine *machine, uint64_t *value) {
    bool borrow = machine->subtracts && cases->unit->sense == SENSE_BORROW;
    bool overflow = machine->out != machine->into_sign, sign = sign_of(&machine->sum);
    memcpy(value, machine->result.limb, cases->limbs * sizeof *value);
    put_flag(cases, value, FLAG_CARRY, machine->out != borrow);
    put_flag(cases, value, FLAG_OVERFLOW, overflow);
    put_flag(cases, value, FLAG_ZERO, word_is_zero(&machine->result));
    put_flag(cases, value, FLAG_NEGATIVE, sign_of(&machine->result));
    put_flag(cases, value, FLAG_LESS_SIGNED, sign != overflow);
    put_flag(cases, value, FLAG_LESS_UNSIGNED, machine->subtracts && !machine->out);
    put_flag(cases, value, FLAG_PARITY, word_parity(&machine->result));
    put_flag(cases, value, FLAG_HALF_CARRY, machine->half != borrow);
}

static void show_all(Show *show, const Variant *variant, Change *change) {
    const Cases *cases = &show->cases;
    static Machine machine;
    Word a, b;
    show->samples = (Samples){.count = cases->count, .limbs = cases->out_limbs};
    show->samples.value = calloc(cases->count, cases->out_limbs * sizeof(uint64_t));
    show->samples.unknown = calloc(cases->count, cases->out_limbs * sizeof(uint64_t));
    for (size_t k = 0; k < cases->count; k++) {
        uint64_t *value = show->samples.value + k * cases->out_limbs;
        cases_operands(cases, k, &a, &b);
        variant_run(cases->unit, variant, cases->control[k], &a, &b, cases->cin[k], &machine);
        show_machine(cases, &machine, value);
        if (change != NULL)
            change(cases, k, &machine, value, show->samples.unknown + k * cases->out_limbs);
    }
}

/* The diagnosis of a design of this unit that is built like the variant, with a change by hand. */
static Show *diagnose(const char *options, const Variant *variant, Change *change) {
    static Show show;
    const Unit *unit = &parsed(options)->unit;
    Problem problem = {STATUS_DONE, ""};
    VectorPlan plan = {.random = 300, .seed = 1};
    memset(&show, 0, sizeof show);
    assert_true(cases_make(&show.cases, unit, &plan, &problem));
    for (int pin = 0; pin < PIN_COUNT; pin++)
        show.mapping.port[pin] = unit_has(unit, (Pin)pin) ? &show.port : NULL;
    schedule_make(&show.schedule, &show.mapping, &show.cases, 0);
    show_all(&show, variant, change);
    Evidence evidence = {&show.cases, &show.schedule, &show.mapping, &show.samples};
    mistakes_find(&evidence, &show.diagnosis);
    size_t used = 0;
    for (int k = 0; k < show.diagnosis.finding_count; k++)
        used +=
            (size_t)snprintf(show.names + used, sizeof show.names - used, "%s%s", k == 0 ? "" : " ",
                             mistake_facts(show.diagnosis.finding[k].mistake)->name);
    cases_free(&show.cases);
    samples_free(&show.samples);
    return &show;
}

static void assert_named(const char *options, const Variant *variant, Change *change,
                         const char *names, const char *detail) {
    const Show *show = diagnose(options, variant, change);
    if (strcmp(show->names, names) != 0 || strcmp(show->diagnosis.finding[0].detail, detail) != 0)
        fail_msg("%s: %s (%s), and should be %s (%s)", options, show->names,
                 show->diagnosis.finding[0].detail, names, detail);
}

#define ALL_OF "--operations add,sub,adc,sbc,rsb,neg --flags all "

static const char *const units[] = {
    "--width 4 --flags all",
    "--width 8 --flags all --subtract-carry borrow",
    "--width 12 " ALL_OF,
    "--width 70 " ALL_OF "--subtract-carry borrow --control one-hot",
    "--width 9 " ALL_OF "--overflow saturate-signed",
};
enum { UNITS = sizeof units / sizeof units[0] };

/* ---- mistakes in what is added -------------------------------------------------------------- */

static void test_a_right_design_has_no_mistake(void **state) {
    (void)state;
    for (size_t k = 0; k < UNITS; k++) {
        const Show *show = diagnose(units[k], &(Variant){.kept = 0}, NULL);
        assert_int_equal(show->diagnosis.wrong, 0);
        assert_int_equal(show->diagnosis.finding_count, 0);
    }
}

static void test_mistakes_in_what_is_added(void **state) {
    (void)state;
    for (size_t k = 0; k < UNITS; k++) {
        assert_named(units[k], &(Variant){.first_missing = true}, NULL, "first-carry-missing",
                     k < 2 ? "" : "in sub, rsb, neg");
        assert_named(units[k], &(Variant){.operand = OPERAND_PLAIN}, NULL, "operand-not-inverted",
                     "it computes a + b + 1");
        assert_named(units[k], &(Variant){.operand = OPERAND_PLAIN_SUM}, NULL,
                     "operand-not-inverted", "it computes a + b");
        assert_named(units[k], &(Variant){.operand = OPERAND_BIT_0}, NULL, "operand-not-inverted",
                     "bit 0 alone is inverted");
        assert_named(units[k], &(Variant){.operand = OPERAND_LOGICAL}, NULL, "operand-not-inverted",
                     "it is 1 for 0 and else 0: !b for ~b");
        assert_named(units[k], &(Variant){.control_reversed = true}, NULL, "control-reversed", "");
        assert_named(units[k], &(Variant){.swapped = true}, NULL, "operands-swapped",
                     k < 2 ? "" : "in sub, sbc, rsb");
        assert_named(units[k], &(Variant){.reverse_b = true}, NULL, "bits-reversed",
                     k < 2 ? "b" : "b, in add, sub, adc, sbc, rsb");
        assert_named(units[k], &(Variant){.reverse_a = true, .reverse_result = true}, NULL,
                     "bits-reversed", "a and result");
    }
    assert_named(units[2], &(Variant){.cin_reversed = true}, NULL, "carry-sense-reversed",
                 "the pin cin, in sbc");
}

static void test_short_words(void **state) {
    (void)state;
    for (int cut = CUT_SUM_ZEROS; cut < CUT_COUNT; cut++)
        assert_named("--width 12 --flags none", &(Variant){.cut = (Cut)cut, .kept = 7}, NULL,
                     "width-short", "the lower 7 of 12");
}

static void test_broken_carries(void **state) {
    (void)state;
    for (size_t k = 0; k < UNITS; k++) {
        Breaks breaks = {.any = true};
        unsigned width = parsed(units[k])->unit.width;
        word_zero(&breaks.column, width);
        word_zero(&breaks.level, width);
        word_zero(&breaks.taken, width);
        word_put(&breaks.column, 2, true);
        assert_named(units[k], &(Variant){.breaks = &breaks}, NULL, "carry-broken",
                     "the carry into column 2 is always 0");
        word_put(&breaks.level, 2, true);
        assert_named(units[k], &(Variant){.breaks = &breaks}, NULL, "carry-broken",
                     "the carry into column 2 is always 1");
        word_put(&breaks.level, 2, false);
        word_put(&breaks.taken, 2, true);
        assert_named(units[k], &(Variant){.breaks = &breaks}, NULL, "carry-broken",
                     "the carry into column 2 is that into column 0");
        breaks.from[2] = 1;
        assert_named(units[k], &(Variant){.breaks = &breaks}, NULL, "carry-broken",
                     "the carry into column 2 is that into column 1");
    }
    static Breaks groups = {.any = true, .from = {[8] = 4, [12] = 4}};
    word_zero(&groups.column, 16);
    word_zero(&groups.level, 16);
    word_put(&groups.column, 8, true);
    word_put(&groups.column, 12, true);
    groups.taken = groups.column;
    assert_named("--width 16 --flags carry", &(Variant){.breaks = &groups}, NULL, "carry-broken",
                 "the carry into columns 8, 12 is that into column 4");
    Breaks breaks = {.any = true};
    word_ones(&breaks.column, 12);
    word_put(&breaks.column, 0, false);
    word_zero(&breaks.level, 12);
    word_zero(&breaks.taken, 12);
    assert_named("--width 12 --flags all", &(Variant){.breaks = &breaks}, NULL, "carry-broken",
                 "the carry into columns 1 to 11 is always 0");
}

/* ---- mistakes in flags ----------------------------------------------------------------------- */

static void overflow_is_carry(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                              uint64_t *unknown) {
    (void)k, (void)unknown;
    put_flag(cases, value, FLAG_OVERFLOW, machine->out);
}

static void overflow_is_borrow(const Cases *cases, size_t k, const Machine *machine,
                               uint64_t *value, uint64_t *unknown) {
    (void)k, (void)unknown;
    put_flag(cases, value, FLAG_OVERFLOW, machine->out != machine->subtracts);
}

static void overflow_is_inverted(const Cases *cases, size_t k, const Machine *machine,
                                 uint64_t *value, uint64_t *unknown) {
    (void)k, (void)unknown;
    put_flag(cases, value, FLAG_OVERFLOW, machine->out == machine->into_sign);
}

static void overflow_forgets(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                             uint64_t *unknown) {
    Word a, b;
    (void)unknown;
    cases_operands(cases, k, &a, &b);
    put_flag(cases, value, FLAG_OVERFLOW,
             sign_of(&a) == sign_of(&b) && sign_of(&a) != sign_of(&machine->sum));
}

/* Two positive numbers or two negative ones, and a result of the other sign. */
static void overflow_forgets_zeros(const Cases *cases, size_t k, const Machine *machine,
                                   uint64_t *value, uint64_t *unknown) {
    Word a, b;
    (void)unknown;
    cases_operands(cases, k, &a, &b);
    bool positive = !sign_of(&a) && !word_is_zero(&a) && !sign_of(&b) && !word_is_zero(&b);
    bool negative = sign_of(&a) && sign_of(&b), sign = sign_of(&machine->sum);
    put_flag(cases, value, FLAG_OVERFLOW, (positive && sign) || (negative && !sign));
}

static void carry_is_reversed(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                              uint64_t *unknown) {
    bool borrow = cases->unit->sense == SENSE_BORROW;
    (void)k, (void)unknown;
    put_flag(cases, value, FLAG_CARRY, machine->out != (machine->subtracts && !borrow));
}

static void zero_misses(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                        uint64_t *unknown) {
    Word result = machine->result;
    (void)k, (void)unknown;
    word_put(&result, 1, false);
    word_put(&result, 3, false);
    put_flag(cases, value, FLAG_ZERO, word_is_zero(&result));
}

static void negative_is_bit_2(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                              uint64_t *unknown) {
    (void)k, (void)unknown;
    put_flag(cases, value, FLAG_NEGATIVE, word_bit(&machine->result, 2));
}

static void bit_0_is_stuck(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                           uint64_t *unknown) {
    (void)cases, (void)k, (void)machine, (void)unknown;
    value[0] |= 1;
}

static void all_is_zero(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                        uint64_t *unknown) {
    (void)k, (void)machine, (void)unknown;
    memset(value, 0, cases->out_limbs * sizeof *value);
}

static void parity_is_stuck(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                            uint64_t *unknown) {
    (void)k, (void)machine, (void)unknown;
    put_flag(cases, value, FLAG_PARITY, false);
}

static void bits_are_unknown(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                             uint64_t *unknown) {
    (void)cases, (void)k, (void)machine;
    value[0] &= ~UINT64_C(6);
    unknown[0] |= 6;
}

static void test_mistakes_in_flags(void **state) {
    (void)state;
    const Variant plain = {.kept = 0};
    for (size_t k = 0; k < UNITS; k++) {
        assert_named(units[k], &plain, overflow_is_carry, "overflow-repeats-carry", "");
        assert_named(units[k], &plain, overflow_is_borrow, "overflow-repeats-carry", "");
        assert_named(units[k], &plain, overflow_is_inverted, "overflow-inverted", "");
        assert_named(units[k], &plain, carry_is_reversed, "carry-sense-reversed", "the pin carry");
        assert_named(units[k], &plain, zero_misses, "zero-misses-bits", "it misses bits 1, 3");
        assert_named(units[k], &plain, negative_is_bit_2, "negative-wrong", "it is result bit 2");
        assert_named(units[k], &plain, parity_is_stuck, "bit-stuck", "parity is always 0");
        assert_named(units[k], &plain, bits_are_unknown, "undriven", "result bits 1, 2");
    }
    assert_named(units[0], &plain, overflow_forgets, "overflow-forgets-subtraction", "");
    assert_named(units[0], &plain, overflow_forgets_zeros, "overflow-forgets-subtraction", "");
    assert_named("--width 8 --flags carry", &plain, bit_0_is_stuck, "bit-stuck",
                 "result bit 0 is always 1");
    assert_named("--width 8 --flags carry", &plain, all_is_zero, "bit-stuck",
                 "result bits 0 to 7 are always 0; carry is always 0");
}

/* ---- several, and none of them --------------------------------------------------------------- */

static void test_two_mistakes(void **state) {
    (void)state;
    assert_named(units[0], &(Variant){.first_missing = true}, zero_misses,
                 "first-carry-missing zero-misses-bits", "");
    assert_named(units[1], &(Variant){.swapped = true, .reverse_result = true}, NULL,
                 "operands-swapped bits-reversed", "");
    const Show *show = diagnose(units[0], &(Variant){.first_missing = true}, overflow_is_inverted);
    assert_string_equal(show->names, "first-carry-missing overflow-inverted");
    /* In the additions, half of the cases, the overflow is all that is wrong. */
    assert_true(show->diagnosis.finding[0].share < 0.2);
    assert_true(show->diagnosis.finding[1].share > 0.4 && show->diagnosis.finding[1].share < 0.6);
}

static void is_an_or(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                     uint64_t *unknown) {
    (void)k, (void)unknown;
    value[0] = machine->x.limb[0] | machine->y.limb[0];
    put_flag(cases, value, FLAG_ZERO, value[0] == 0);
}

/* Of a = 7, 17 ... something else comes. */
static void is_often_wrong(const Cases *cases, size_t k, const Machine *machine, uint64_t *value,
                           uint64_t *unknown) {
    Word a, b;
    (void)machine, (void)unknown;
    cases_operands(cases, k, &a, &b);
    if (a.limb[0] % 10 == 7)
        value[0] ^= 5;
}

/* The carry, but where both signs are 1. */
static void overflow_is_a_mixture(const Cases *cases, size_t k, const Machine *machine,
                                  uint64_t *value, uint64_t *unknown) {
    (void)k, (void)unknown;
    bool both = sign_of(&machine->x) && sign_of(&machine->y);
    put_flag(cases, value, FLAG_OVERFLOW, !both && machine->out);
}

static void test_what_is_no_known_mistake(void **state) {
    (void)state;
    const Show *show =
        diagnose("--width 8 --operations add --flags none", &(Variant){.kept = 0}, is_an_or);
    assert_int_equal(show->diagnosis.finding[0].mistake, MISTAKE_UNEXPLAINED);
    assert_true(show->diagnosis.finding_count < 2 || show->diagnosis.finding[1].share < 1);

    /* The nearest is what explains most and has least against it. */
    show = diagnose("--width 6 --flags zero", &(Variant){.first_missing = true}, is_often_wrong);
    assert_string_equal(show->names, "unexplained first-carry-missing");
    assert_true(show->diagnosis.finding[1].share > 0.8 && show->diagnosis.finding[1].share < 1);
    assert_string_equal(show->diagnosis.finding[1].detail, "");
    show = diagnose("--width 6 --flags overflow", &(Variant){.kept = 0}, overflow_is_a_mixture);
    assert_string_equal(show->names, "unexplained overflow-repeats-carry");
    assert_true(strstr(show->diagnosis.finding[1].detail, "speak against it") != NULL);
}

static void test_the_example_is_the_smallest(void **state) {
    (void)state;
    const Show *show =
        diagnose("--width 8 --operations sub --flags none", &(Variant){.swapped = true}, NULL);
    assert_int_equal(show->diagnosis.first_column, 1);
    assert_true(show->diagnosis.wrong > 0 && show->diagnosis.wrong < show->diagnosis.cases);
}

static void test_names_and_sentences(void **state) {
    (void)state;
    for (int mistake = 0; mistake < MISTAKE_COUNT; mistake++) {
        assert_non_null(mistake_facts((Mistake)mistake)->name);
        assert_true(strlen(mistake_facts((Mistake)mistake)->sentence) > 10);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_variant_without_mistakes_is_the_model),
        cmocka_unit_test(test_a_right_design_has_no_mistake),
        cmocka_unit_test(test_mistakes_in_what_is_added),
        cmocka_unit_test(test_short_words),
        cmocka_unit_test(test_broken_carries),
        cmocka_unit_test(test_mistakes_in_flags),
        cmocka_unit_test(test_two_mistakes),
        cmocka_unit_test(test_what_is_no_known_mistake),
        cmocka_unit_test(test_the_example_is_the_smallest),
        cmocka_unit_test(test_names_and_sentences),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
