/* The test vectors of a unit: that every part holds what docs/vectors.md says of it. What the
 * adder inside the unit sees is worked out here once more, from the operations' definitions. */
#include "all_operations.h"
#include "model/model.h"
#include "vectors/random.h"
#include "vectors/vectors.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- units and vectors to look at ---------------------------------------------------------- */

static void settle(Unit *unit) {
    Problem problem = {0};
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
}

/* The operations listed, up to OP_COUNT. */
static void make_unit(Unit *unit, unsigned width, Control control, const Operation *operations) {
    unit_init(unit);
    unit->width = width;
    unit->control = control;
    while (operations[unit->choice_count] != OP_COUNT) {
        unit->choice[unit->choice_count].operation = operations[unit->choice_count];
        unit->choice_count++;
    }
    settle(unit);
}

static const Operation add_sub[] = {OP_ADD, OP_SUB, OP_COUNT};
static const Operation adc_only[] = {OP_ADC, OP_COUNT};
static const Operation adc_sbc[] = {OP_ADC, OP_SBC, OP_COUNT};
static const Operation add_sub_inc[] = {OP_ADD, OP_SUB, OP_INC, OP_COUNT};
static const Operation inc_only[] = {OP_INC, OP_COUNT};
static const Operation inc_dec[] = {OP_INC, OP_DEC, OP_COUNT};
static const Operation all_nine[] = {OP_ADD, OP_ADC, OP_SUB, OP_SBC,  OP_RSB,
                                     OP_INC, OP_DEC, OP_NEG, OP_PASS, OP_COUNT};

/* Vectors of a unit of at most 64 bits. */
typedef struct {
    VectorReason reason;
    uint32_t control;
    bool cin;
    uint64_t a, b;
} Kept;

typedef struct {
    size_t count;
    size_t room;
    Kept *kept;
} List;

static bool keep(void *context, const Vector *vector) {
    List *list = context;
    if (list->count == list->room) {
        list->room = 2 * list->room + 1024;
        list->kept = realloc(list->kept, list->room * sizeof *list->kept);
        assert_non_null(list->kept);
    }
    list->kept[list->count++] =
        (Kept){vector->reason, vector->control, vector->cin, vector->a.limb[0], vector->b.limb[0]};
    return true;
}

static List list_of(const Unit *unit, uint64_t random, uint64_t seed) {
    List list = {0};
    VectorPlan plan = {.random = random, .seed = seed};
    assert_true(unit->width <= 64);
    assert_true(vectors_each(unit, &plan, keep, &list));
    return list;
}

static bool same(const Kept *p, const Kept *q) {
    return p->reason == q->reason && p->control == q->control && p->cin == q->cin && p->a == q->a &&
           p->b == q->b;
}

static bool same_lists(const List *p, const List *q) {
    if (p->count != q->count)
        return false;
    for (size_t k = 0; k < p->count; k++)
        if (!same(&p->kept[k], &q->kept[k]))
            return false;
    return true;
}

/* ---- every input --------------------------------------------------------------------------- */

/* The compact set first, then every other input in order. */
static void test_8_bit_add_sub_is_tried_with_every_input_once(void **state) {
    (void)state;
    Unit unit;
    make_unit(&unit, 8, CONTROL_HIGH, add_sub);
    List list = list_of(&unit, 2000, 1);
    assert_int_equal(list.count, 131072);
    static bool seen[131072];
    uint64_t last = 0;
    size_t compact = 0;
    for (size_t k = 0; k < list.count; k++) {
        const Kept *kept = &list.kept[k];
        uint64_t input = kept->control << 16 | kept->a << 8 | kept->b;
        assert_false(seen[input]);
        seen[input] = true;
        if (kept->reason == VECTOR_COMPACT) {
            assert_int_equal(compact++, k);
            continue;
        }
        assert_int_equal(kept->reason, VECTOR_EVERY);
        assert_true(input > last || k == compact);
        last = input;
    }
    assert_in_range(compact, 8, 2 * 8 + 2 * 60 + 8);
    free(list.kept);
}

static void check_count(unsigned width, Control control, const Operation *operations,
                        bool exhaustive, uint64_t every, uint64_t idle) {
    Unit unit;
    VectorCount count;
    VectorPlan plan = {.random = 100, .seed = 1};
    make_unit(&unit, width, control, operations);
    vectors_count(&unit, &plan, &count);
    assert_int_equal(count.exhaustive, exhaustive);
    if (exhaustive)
        assert_int_equal(count.by_reason[VECTOR_EVERY] + count.by_reason[VECTOR_COMPACT], every);
    else
        assert_int_equal(count.by_reason[VECTOR_EVERY], 0);
    assert_int_equal(count.by_reason[VECTOR_IDLE], idle);
    assert_int_equal(count.by_reason[VECTOR_RANDOM], exhaustive ? 0 : 100);
}

/* Up to 17 input bits. */
static void test_when_every_input_is_tried(void **state) {
    (void)state;
    check_count(8, CONTROL_FIXED, adc_only, true, UINT64_C(1) << 17, 0);
    check_count(17, CONTROL_FIXED, inc_only, true, UINT64_C(1) << 17, 0);
    check_count(16, CONTROL_HIGH, inc_dec, true, UINT64_C(1) << 17, 0);
    check_count(18, CONTROL_FIXED, inc_only, false, 0, 0);
    check_count(8, CONTROL_HIGH, adc_sbc, false, 0, 0);
    check_count(9, CONTROL_HIGH, add_sub, false, 0, 0);
    /* One of 3 requests, or none: 4 of the 8 values, with 2^14 operands each. */
    check_count(7, CONTROL_ONE_HOT, add_sub_inc, true, 3 << 14, 1 << 14);
    /* 3 of the 4 codes are used. */
    check_count(7, CONTROL_CODE, add_sub_inc, true, 3 << 14, 1 << 14);
    /* All nine: 4 bits of code, cin, and 7 unused codes. */
    check_count(6, CONTROL_CODE, all_nine, true, 9 << 13, 7 << 13);
}

/* A plan may ask for every input of up to 20 bits. */
static void test_a_plan_says_up_to_where(void **state) {
    (void)state;
    VectorPlan plan = {.random = 5, .seed = 1, .exhaustive_bits = VECTORS_EXHAUSTIVE_BITS_MAX};
    Unit unit;
    VectorCount count;
    make_unit(&unit, 9, CONTROL_HIGH, adc_sbc);
    vectors_count(&unit, &plan, &count);
    assert_true(count.exhaustive);
    assert_int_equal(count.total, UINT64_C(1) << 20);
    make_unit(&unit, 10, CONTROL_HIGH, add_sub);
    vectors_count(&unit, &plan, &count);
    assert_false(count.exhaustive);
}

/* ---- the same for every unit --------------------------------------------------------------- */

/* What vectors_each sends, against what it promised. */
typedef struct {
    const Unit *unit;
    VectorCount seen;
    VectorReason last;
    uint64_t stop_after; /* 0: never */
} Audit;

static void assert_is_word(const Word *word, unsigned width) {
    assert_int_equal(word->width, width);
    if (width % 64 != 0)
        assert_int_equal(word->limb[width / 64] >> (width % 64), 0);
}

static bool audit(void *context, const Vector *vector) {
    Audit *seen = context;
    const Unit *unit = seen->unit;
    assert_is_word(&vector->a, unit->width);
    assert_is_word(&vector->b, unit->width);
    if (!unit_has(unit, PIN_B))
        assert_true(word_is_zero(&vector->b));
    if (!unit_has(unit, PIN_CIN))
        assert_false(vector->cin);
    assert_true(vector->control < UINT32_C(1) << unit_control_bits(unit));
    assert_true(unit_control_is_contract(unit, vector->control));
    if (unit_control_choice(unit, vector->control) == UNIT_NOTHING)
        assert_true(vector->reason == VECTOR_IDLE || vector->reason == VECTOR_RANDOM);
    else
        assert_true(vector->reason != VECTOR_IDLE);
    seen->seen.by_reason[vector->reason]++;
    seen->seen.total++;
    return seen->seen.total != seen->stop_after;
}

static void audit_unit(const Unit *unit) {
    VectorPlan plan = {.random = 50, .seed = 3};
    VectorCount promised;
    Audit seen = {.unit = unit};
    vectors_count(unit, &plan, &promised);
    assert_true(vectors_each(unit, &plan, audit, &seen));
    assert_int_equal(seen.seen.total, promised.total);
    assert_memory_equal(seen.seen.by_reason, promised.by_reason, sizeof promised.by_reason);
}

static void test_counts_and_contract_at_many_widths(void **state) {
    (void)state;
    static const unsigned widths[] = {1,   2,   3,   4,   5,    8,    9,    12,   16,   17,  18,
                                      19,  31,  32,  33,  63,   64,   65,   66,   67,   100, 127,
                                      128, 129, 130, 191, 1000, 2047, 2048, 2049, 4095, 4096};
    static const struct {
        Control control;
        const Operation *operations;
    } kinds[] = {{CONTROL_HIGH, add_sub},   {CONTROL_LOW, adc_sbc},      {CONTROL_FIXED, adc_only},
                 {CONTROL_HIGH, inc_dec},   {CONTROL_ONE_HOT, all_nine}, {CONTROL_CODE, all_nine},
                 {CONTROL_FIXED, inc_only}, {CONTROL_CODE, add_sub_inc}};
    for (size_t w = 0; w < sizeof widths / sizeof *widths; w++)
        for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
            Unit unit;
            make_unit(&unit, widths[w], kinds[k].control, kinds[k].operations);
            audit_unit(&unit);
        }
}

/* From the first vector of each part, and the last of all. */
static void test_false_stops_at_once(void **state) {
    (void)state;
    Unit unit;
    VectorPlan plan = {.random = 50, .seed = 3};
    VectorCount all;
    make_unit(&unit, 70, CONTROL_ONE_HOT, add_sub_inc);
    vectors_count(&unit, &plan, &all);
    uint64_t at = 1;
    for (int reason = 0; reason < VECTOR_REASON_COUNT; reason++) {
        if (all.by_reason[reason] == 0)
            continue;
        Audit seen = {.unit = &unit, .stop_after = at};
        assert_false(vectors_each(&unit, &plan, audit, &seen));
        assert_int_equal(seen.seen.total, at);
        assert_int_equal(seen.seen.by_reason[reason], 1);
        at += all.by_reason[reason];
    }
    Audit seen = {.unit = &unit, .stop_after = all.total};
    assert_false(vectors_each(&unit, &plan, audit, &seen));
    assert_int_equal(seen.seen.total, all.total);
    make_unit(&unit, 4, CONTROL_HIGH, add_sub);
    seen = (Audit){.unit = &unit, .stop_after = 7};
    assert_false(vectors_each(&unit, &plan, audit, &seen));
    assert_int_equal(seen.seen.total, 7);
}

/* ---- the table of docs/vectors.md ---------------------------------------------------------- */

static void test_counts_of_the_documented_table(void **state) {
    (void)state;
    static const struct {
        unsigned width;
        Control control;
        const Operation *operations;
        uint64_t compact, idle, corner, walk, chain;
    } rows[] = {
        {9, CONTROL_HIGH, add_sub, 185, 0, 392, 208, 306},
        {12, CONTROL_HIGH, add_sub, 188, 0, 450, 256, 516},
        {16, CONTROL_HIGH, add_sub, 192, 0, 392, 320, 880},
        {32, CONTROL_HIGH, add_sub, 248, 0, 450, 592, 3296},
        {64, CONTROL_HIGH, add_sub, 320, 0, 450, 1120, 12736},
        {65, CONTROL_HIGH, add_sub, 361, 0, 450, 320, 1248},
        {128, CONTROL_HIGH, add_sub, 424, 0, 450, 352, 2060},
        {1024, CONTROL_HIGH, add_sub, 1440, 0, 450, 496, 11710},
        {4096, CONTROL_HIGH, add_sub, 4592, 0, 450, 592, 2050},
        {64, CONTROL_HIGH, adc_sbc, 320, 0, 900, 1120, 17152},
        {64, CONTROL_HIGH, inc_dec, 272, 0, 30, 408, 256},
        {64, CONTROL_ONE_HOT, all_nine, 736, 16, 4050, 5232, 36768},
        {64, CONTROL_CODE, all_nine, 736, 112, 4050, 5232, 36768},
        {1024, CONTROL_HIGH, inc_dec, 4112, 0, 30, 166, 4096},
    };
    for (size_t r = 0; r < sizeof rows / sizeof *rows; r++) {
        Unit unit;
        VectorCount count;
        VectorPlan plan = {.random = 0, .seed = 1};
        make_unit(&unit, rows[r].width, rows[r].control, rows[r].operations);
        vectors_count(&unit, &plan, &count);
        assert_int_equal(count.by_reason[VECTOR_COMPACT], rows[r].compact);
        assert_int_equal(count.by_reason[VECTOR_IDLE], rows[r].idle);
        assert_int_equal(count.by_reason[VECTOR_CORNER], rows[r].corner);
        assert_int_equal(count.by_reason[VECTOR_WALK], rows[r].walk);
        assert_int_equal(count.by_reason[VECTOR_CHAIN], rows[r].chain);
        assert_int_equal(count.by_reason[VECTOR_RANDOM], 0);
    }
}

/* ---- idle and corners ---------------------------------------------------------------------- */

/* add and sub with codes 5 and 4 of a field of so many bits; which codes are driven, and which with
 * all ones in both operands. */
static void driven_codes(unsigned code_bits, bool driven[1024], bool with_ones[1024]) {
    Unit unit;
    unit_init(&unit);
    unit.width = 16;
    unit.choice_count = 2;
    unit.choice[0] = (Choice){OP_ADD, 5};
    unit.choice[1] = (Choice){OP_SUB, 4};
    unit.code_bits = code_bits;
    settle(&unit);
    List list = list_of(&unit, 0, 1);
    memset(driven, 0, 1024 * sizeof *driven);
    memset(with_ones, 0, 1024 * sizeof *with_ones);
    for (size_t k = 0; k < list.count; k++) {
        driven[list.kept[k].control] = true;
        if (list.kept[k].a == 0xffff && list.kept[k].b == 0xffff)
            with_ones[list.kept[k].control] = true;
    }
    free(list.kept);
}

/* Up to 6 bits, every code. A field of 10 bits has 1022 unused codes: those one bit away from an
 * operation's, and the two ends. */
static void test_unused_codes_are_driven(void **state) {
    (void)state;
    bool driven[1024], with_ones[1024];
    driven_codes(6, driven, with_ones);
    for (unsigned code = 0; code < 64; code++)
        assert_true(with_ones[code]);
    driven_codes(10, driven, with_ones);
    unsigned idle = 0;
    for (unsigned code = 0; code < 1024; code++)
        idle += driven[code] && code != 4 && code != 5;
    for (unsigned bit = 0; bit < 10; bit++) {
        assert_true(with_ones[5 ^ 1U << bit]);
        assert_true(with_ones[4 ^ 1U << bit]);
    }
    assert_true(with_ones[0] && with_ones[1023]);
    assert_int_equal(idle, 2 * 9 + 1); /* 0 is next to 4; 1023 is next to neither */
}

static void check_every_control_value_is_driven(Control control, const Operation *operations,
                                                unsigned values) {
    Unit unit;
    make_unit(&unit, 24, control, operations);
    List list = list_of(&unit, 0, 1);
    bool driven[512] = {false};
    unsigned distinct = 0;
    for (size_t k = 0; k < list.count; k++)
        driven[list.kept[k].control] = true;
    for (unsigned value = 0; value < 512; value++) {
        distinct += driven[value];
        if (value < 1U << unit_control_bits(&unit))
            assert_int_equal(driven[value], unit_control_is_contract(&unit, value));
    }
    assert_int_equal(distinct, values);
    free(list.kept);
}

static void test_every_control_value_in_the_contract_is_driven(void **state) {
    (void)state;
    check_every_control_value_is_driven(CONTROL_FIXED, adc_only, 1);
    check_every_control_value_is_driven(CONTROL_HIGH, add_sub, 2);
    check_every_control_value_is_driven(CONTROL_LOW, add_sub, 2);
    check_every_control_value_is_driven(CONTROL_ONE_HOT, all_nine, 10);
    check_every_control_value_is_driven(CONTROL_CODE, all_nine, 16);
}

static bool has_corner(const List *list, uint32_t control, bool cin, uint64_t a, uint64_t b) {
    Kept wanted = {VECTOR_CORNER, control, cin, a, b};
    for (size_t k = 0; k < list->count; k++)
        if (same(&list->kept[k], &wanted))
            return true;
    return false;
}

static void test_corners_are_crossed_with_operation_and_cin(void **state) {
    (void)state;
    static const uint64_t corners[] = {0,          1,          2,          0xffffffff, 0xfffffffe,
                                       0x80000000, 0x7fffffff, 0x80000001, 0x55555555, 0xaaaaaaaa,
                                       0x33333333, 0x0f0f0f0f, 0x00ff00ff, 0x0000ffff, 0xffff0000};
    Unit unit;
    make_unit(&unit, 32, CONTROL_HIGH, adc_sbc);
    List list = list_of(&unit, 0, 1);
    for (size_t a = 0; a < 15; a++)
        for (size_t b = 0; b < 15; b++)
            for (unsigned level = 0; level < 4; level++)
                assert_true(has_corner(&list, level / 2, level % 2, corners[a], corners[b]));
    free(list.kept);
}

/* In 4 bits 0011 is both alternating twos and half a word of ones, and so on. */
static void test_no_corner_twice_in_narrow_words(void **state) {
    (void)state;
    Unit unit;
    make_unit(&unit, 4, CONTROL_CODE, all_nine);
    unit.code_bits = 9; /* so that not every input is tried */
    List list = list_of(&unit, 0, 1);
    unsigned corners = 0;
    for (size_t k = 0; k < list.count; k++) {
        if (list.kept[k].reason != VECTOR_CORNER)
            continue;
        corners++;
        for (size_t other = 0; other < k; other++)
            assert_false(same(&list.kept[k], &list.kept[other]));
    }
    /* 0 1 2, 15 14, 8 7 9, 5 10, 3, 12; 9 operations, 2 levels of cin */
    assert_int_equal(corners, 12 * 12 * 9 * 2);
    free(list.kept);
}

/* ---- walking bits -------------------------------------------------------------------------- */

static bool has_walk(const List *list, uint32_t control, uint64_t a, uint64_t b) {
    for (size_t k = 0; k < list->count; k++)
        if (list->kept[k].reason == VECTOR_WALK && list->kept[k].control == control &&
            list->kept[k].a == a && list->kept[k].b == b)
            return true;
    return false;
}

static void test_a_one_and_a_zero_walk_over_every_bit(void **state) {
    (void)state;
    Unit unit;
    make_unit(&unit, 64, CONTROL_CODE, all_nine);
    List list = list_of(&unit, 0, 1);
    for (uint32_t op = 0; op < OP_COUNT; op++)
        for (unsigned bit = 0; bit < 64; bit++)
            for (int other = 0; other <= 1; other++) {
                uint64_t one = UINT64_C(1) << bit;
                uint64_t still = other == 1 ? UINT64_MAX : 0;
                assert_true(has_walk(&list, op, one, still));
                assert_true(has_walk(&list, op, ~one, still));
                assert_true(has_walk(&list, op, still, one));
                assert_true(has_walk(&list, op, still, ~one));
            }
    free(list.kept);
}

/* Bits that no vector has told apart so far are in one class. */
typedef struct {
    uint32_t control;
    bool in_b;
    unsigned classes;
    unsigned class_of[UNIT_WIDTH_MAX];
    uint64_t vectors; /* that told bits apart */
} Classes;

static bool split_classes(void *context, const Vector *vector) {
    Classes *split = context;
    const Word *moving = split->in_b ? &vector->b : &vector->a;
    const Word *still = split->in_b ? &vector->a : &vector->b;
    if (vector->reason != VECTOR_WALK || vector->control != split->control || !word_is_zero(still))
        return true;
    static unsigned renamed[2 * UNIT_WIDTH_MAX];
    memset(renamed, 0, sizeof renamed);
    unsigned before = split->classes;
    split->classes = 0;
    for (unsigned bit = 0; bit < moving->width; bit++) {
        unsigned *name = &renamed[2 * split->class_of[bit] + word_bit(moving, bit)];
        if (*name == 0)
            *name = ++split->classes;
        split->class_of[bit] = *name - 1;
    }
    split->vectors += split->classes > before;
    return true;
}

static void test_walks_tell_every_two_bits_apart(void **state) {
    (void)state;
    static const unsigned widths[] = {9, 12, 64, 65, 100, 1000, 4095, 4096};
    for (size_t w = 0; w < sizeof widths / sizeof *widths; w++)
        for (uint32_t control = 0; control < 2; control++)
            for (int in_b = 0; in_b <= 1; in_b++) {
                Unit unit;
                VectorPlan plan = {.random = 0, .seed = 1};
                Classes split = {.control = control, .in_b = in_b == 1, .classes = 1};
                make_unit(&unit, widths[w], CONTROL_HIGH, add_sub);
                assert_true(vectors_each(&unit, &plan, split_classes, &split));
                assert_int_equal(split.classes, widths[w]);
            }
}

/* The words that spell the bits' numbers, each with its complement. */
static void test_index_patterns_of_12_bits(void **state) {
    (void)state;
    static const uint64_t patterns[] = {0xaaa, 0xccc, 0x0f0, 0xf00};
    Unit unit;
    make_unit(&unit, 12, CONTROL_HIGH, add_sub);
    List list = list_of(&unit, 0, 1);
    for (uint32_t control = 0; control < 2; control++)
        for (size_t k = 0; k < 4; k++)
            for (int other = 0; other <= 1; other++) {
                uint64_t still = other == 1 ? 0xfff : 0;
                assert_true(has_walk(&list, control, patterns[k], still));
                assert_true(has_walk(&list, control, 0xfff ^ patterns[k], still));
                assert_true(has_walk(&list, control, still, patterns[k]));
                assert_true(has_walk(&list, control, still, 0xfff ^ patterns[k]));
            }
    free(list.kept);
}

typedef struct {
    bool alone[UNIT_WIDTH_MAX];
} Walked;

static bool note_single_ones(void *context, const Vector *vector) {
    Walked *walked = context;
    if (vector->reason != VECTOR_WALK || vector->control != 1 || !word_is_zero(&vector->b))
        return true;
    unsigned ones = 0, last = 0;
    for (unsigned i = 0; i < vector->a.width; i++)
        if (word_bit(&vector->a, i)) {
            ones++;
            last = i;
        }
    if (ones == 1)
        walked->alone[last] = true;
    return true;
}

static void test_wide_words_are_walked_at_both_sides_of_powers_of_two(void **state) {
    (void)state;
    static const unsigned widths[] = {65, 66, 67, 68, 100, 128, 129, 4096};
    for (size_t w = 0; w < sizeof widths / sizeof *widths; w++) {
        Unit unit;
        VectorPlan plan = {.random = 0, .seed = 1};
        Walked walked = {{false}};
        unsigned n = widths[w];
        make_unit(&unit, n, CONTROL_HIGH, add_sub);
        assert_true(vectors_each(&unit, &plan, note_single_ones, &walked));
        assert_true(walked.alone[0] && walked.alone[n - 2] && walked.alone[n - 1]);
        for (unsigned power = 1; power < n; power *= 2)
            assert_true(walked.alone[power] && walked.alone[power - 1]);
        unsigned walks = 0;
        for (unsigned i = 0; i < n; i++)
            walks += walked.alone[i];
        assert_true(walks <= 2 * 12 + 2);
    }
}

/* ---- single ones in the result ------------------------------------------------------------- */

/* In which columns an operation's result has had a one with all others 0. */
typedef struct {
    const Unit *unit;
    bool alone[OP_COUNT][UNIT_WIDTH_MAX];
} Results;

static bool note_results(void *context, const Vector *vector) {
    Results *results = context;
    const Unit *unit = results->unit;
    int choice = unit_control_choice(unit, vector->control);
    if (choice == UNIT_NOTHING)
        return true;
    Outcome outcome;
    model_outcome(unit, choice, &vector->a, &vector->b, vector->cin, &outcome);
    unsigned ones = 0, last = 0;
    for (unsigned i = 0; i < unit->width; i++)
        if (word_bit(&outcome.result, i)) {
            ones++;
            last = i;
        }
    if (ones == 1)
        results->alone[unit->choice[choice].operation][last] = true;
    return true;
}

static void results_of(Results *results, const Unit *unit) {
    VectorPlan plan = {.random = 0, .seed = 1};
    memset(results, 0, sizeof *results);
    results->unit = unit;
    assert_true(vectors_each(unit, &plan, note_results, results));
}

/* What saturation never lets out: neg saturated unsigned is always 0, and the lowest signed number
 * is out of reach of inc and neg. */
static bool never_gives(Operation operation, Overflow overflow, unsigned bit) {
    if (overflow == OVERFLOW_SATURATE_UNSIGNED)
        return operation == OP_NEG;
    return overflow == OVERFLOW_SATURATE_SIGNED && bit == 63 &&
           (operation == OP_INC || operation == OP_NEG);
}

/* A zero flag that overlooks a bit is wrong where that bit is the only one, and nowhere else. */
static void test_every_operation_gives_every_single_one(void **state) {
    (void)state;
    static Results results;
    for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++) {
        Unit unit;
        all_operations(&unit, 64, SENSE_BORROW, (Overflow)overflow);
        results_of(&results, &unit);
        for (int op = 0; op < OP_COUNT; op++)
            for (unsigned bit = 0; bit < 64; bit++)
                if (results.alone[op][bit] == never_gives((Operation)op, (Overflow)overflow, bit))
                    fail_msg("%s, bit %u, overflow %d", operation_name((Operation)op), bit,
                             overflow);
    }
}

/* One operation is enough, as in the unit all share the zero flag. */
static void check_single_ones(unsigned width, const Operation *operations, Operation walker,
                              Overflow overflow) {
    static Results results;
    Unit unit;
    make_unit(&unit, width, CONTROL_UNSET, operations);
    unit.overflow = overflow;
    results_of(&results, &unit);
    unsigned columns = 0;
    for (unsigned bit = 0; bit < width; bit++)
        columns += results.alone[walker][bit];
    assert_int_equal(columns, width);
}

static void test_wide_results_have_every_single_one(void **state) {
    (void)state;
    static const Operation neg_inc[] = {OP_NEG, OP_INC, OP_COUNT};
    static const Operation neg_only[] = {OP_NEG, OP_COUNT};
    static const Operation rsb_only[] = {OP_RSB, OP_COUNT};
    static const Operation sbc_only[] = {OP_SBC, OP_COUNT};
    static const unsigned widths[] = {65, 100, 1024, 4096};
    for (size_t w = 0; w < sizeof widths / sizeof *widths; w++) {
        check_single_ones(widths[w], add_sub, OP_ADD, OVERFLOW_WRAP);
        check_single_ones(widths[w], sbc_only, OP_SBC, OVERFLOW_WRAP);
        check_single_ones(widths[w], inc_only, OP_INC, OVERFLOW_WRAP);
        check_single_ones(widths[w], neg_only, OP_NEG, OVERFLOW_WRAP);
        check_single_ones(widths[w], rsb_only, OP_RSB, OVERFLOW_SATURATE_UNSIGNED);
        check_single_ones(widths[w], neg_inc, OP_INC, OVERFLOW_SATURATE_UNSIGNED);
    }
}

/* An operation that leaves the walk over every column to another still has the sample's. */
static void test_dec_has_single_ones_in_the_sampled_columns(void **state) {
    (void)state;
    static Results results;
    static const Operation add_dec[] = {OP_ADD, OP_DEC, OP_COUNT};
    static const unsigned sampled[] = {0, 1, 2, 3, 4, 31, 32, 63, 64, 98, 99};
    Unit unit;
    make_unit(&unit, 100, CONTROL_HIGH, add_dec);
    results_of(&results, &unit);
    for (size_t p = 0; p < sizeof sampled / sizeof *sampled; p++)
        assert_true(results.alone[OP_DEC][sampled[p]]);
    assert_false(results.alone[OP_DEC][50]);
}

/* ---- carry chains -------------------------------------------------------------------------- */

/* What an operation gives its adder: its definition with -w = not w + 1. */
typedef struct {
    Word x, y;
    bool first_carry;
} AdderInput;

static void adder_input(const Unit *unit, Operation operation, const Vector *vector,
                        AdderInput *adder) {
    Word zero, not_a, not_b;
    word_zero(&zero, unit->width);
    word_not(&not_a, &vector->a);
    word_not(&not_b, &vector->b);
    bool no_borrow = unit->sense == SENSE_BORROW ? !vector->cin : vector->cin;
    adder->x = operation == OP_RSB || operation == OP_NEG ? not_a : vector->a;
    adder->y = zero;
    adder->first_carry = false;
    switch (operation) {
    case OP_ADC:
        adder->first_carry = vector->cin;
        adder->y = vector->b;
        break;
    case OP_ADD:
        adder->y = vector->b;
        break;
    case OP_SUB:
    case OP_SBC:
        adder->y = not_b;
        adder->first_carry = operation == OP_SUB || no_borrow;
        break;
    case OP_RSB:
        adder->y = vector->b;
        adder->first_carry = true;
        break;
    case OP_INC:
    case OP_NEG:
        adder->first_carry = true;
        break;
    case OP_DEC:
        word_not(&adder->y, &zero);
        break;
    default:
        break;
    }
}

/* Bit k: the carry into column k, from the sum: it is x ^ y ^ carry. */
static void carries_into(const AdderInput *adder, Word *carries) {
    word_add(carries, &adder->x, &adder->y, adder->first_carry);
    word_xor(carries, carries, &adder->x);
    word_xor(carries, carries, &adder->y);
}

/* Which chains have been seen, for one operation. Start 0 is the first carry, start i + 1 is
 * column i; the chain passes columns up to j. */
enum { PLACED_X = 1, PLACED_Y = 2, PLACED_MIXED = 4 };
typedef struct {
    const Unit *unit;
    int choice;
    bool level[2][65][64];   /* [level carried][start][j], stopped at j + 1 by the other level */
    bool through[65][64];    /* with all columns but i and j + 1 passing carries on */
    bool forced[2][65][64];  /* with all columns but i and those passed forcing the other level */
    unsigned placed[65][64]; /* where the ones of the columns passed have been */
    uint64_t vectors;
    uint64_t with_cin[2];
} Chains;

static bool passes(const AdderInput *adder, unsigned column) {
    return word_bit(&adder->x, column) != word_bit(&adder->y, column);
}

static unsigned placing_of(const AdderInput *adder, unsigned begin, unsigned end) {
    unsigned in_x = 0;
    for (unsigned i = begin; i < end; i++)
        in_x += word_bit(&adder->x, i);
    return in_x == end - begin ? PLACED_X : in_x == 0 ? PLACED_Y : PLACED_MIXED;
}

/* The chain that starts below column begin in this vector; its level is the carry there. */
static void note_chain(Chains *chains, const AdderInput *adder, const Word *carries,
                       unsigned begin) {
    unsigned n = chains->unit->width;
    bool level = begin < n ? word_bit(carries, begin) : word_bit(&adder->x, n - 1);
    unsigned end = begin, passing = 0;
    while (end < n && passes(adder, end))
        end++;
    if (end == 0)
        return;
    for (unsigned i = begin; i < end; i++)
        assert_int_equal(word_bit(carries, i), level);
    if (end < n) {
        assert_int_equal(word_bit(carries, end), level);
        if (word_bit(&adder->x, end) == level)
            return; /* forced on, not stopped */
        if (end + 1 < n)
            assert_int_equal(word_bit(carries, end + 1), !level);
    }
    chains->level[level][begin][end - 1] = true;
    for (unsigned i = 0; i < n; i++)
        passing += passes(adder, i);
    if (passing == n - (begin > 0) - (end < n) && (begin == 0 || adder->first_carry != level))
        chains->through[begin][end - 1] = true;
    bool others_force = passing == end - begin;
    for (unsigned i = 0; i < n && others_force; i++)
        if (!passes(adder, i) && i + 1 != begin)
            others_force = word_bit(&adder->x, i) != level;
    if (others_force)
        chains->forced[level][begin][end - 1] = true;
    chains->placed[begin][end - 1] |= placing_of(adder, begin, end);
}

static bool note_chains(void *context, const Vector *vector) {
    Chains *chains = context;
    const Unit *unit = chains->unit;
    if (vector->reason != VECTOR_CHAIN ||
        unit_control_choice(unit, vector->control) != chains->choice)
        return true;
    AdderInput adder;
    Word carries;
    adder_input(unit, unit->choice[chains->choice].operation, vector, &adder);
    carries_into(&adder, &carries);
    for (unsigned begin = 0; begin <= unit->width; begin++)
        if (begin == 0 || !passes(&adder, begin - 1))
            note_chain(chains, &adder, &carries, begin);
    chains->vectors++;
    chains->with_cin[vector->cin]++;
    return true;
}

static void chains_of(Chains *chains, const Unit *unit, int choice) {
    VectorPlan plan = {.random = 0, .seed = 1};
    memset(chains, 0, sizeof *chains);
    chains->unit = unit;
    chains->choice = choice;
    assert_true(vectors_each(unit, &plan, note_chains, chains));
}

/* Every chain that starts in a column: a 1 that travels and a 0 that travels, among columns that
 * force the opposite; one through columns that all pass carries on; and each way to place the
 * ones of the columns passed, where there are enough to tell. */
static void check_chains_from_columns(const Chains *chains) {
    for (unsigned i = 0; i < chains->unit->width; i++)
        for (unsigned j = i; j < chains->unit->width; j++) {
            assert_true(chains->level[0][i + 1][j] && chains->level[1][i + 1][j]);
            assert_true(chains->forced[0][i + 1][j] && chains->forced[1][i + 1][j]);
            assert_true(chains->through[i + 1][j]);
            if (j >= i + 2)
                assert_int_equal(chains->placed[i + 1][j], PLACED_X | PLACED_Y | PLACED_MIXED);
        }
}

/* Every chain that the first carry starts, at each level that the operation's first carry has. */
static void check_chains_from_first_carry(const Chains *chains, Operation operation) {
    bool reads_cin = operation_facts(operation)->reads_cin;
    bool one =
        operation == OP_SUB || operation == OP_RSB || operation == OP_INC || operation == OP_NEG;
    for (unsigned j = 0; j < chains->unit->width; j++) {
        assert_true(chains->through[0][j]);
        assert_int_equal(chains->level[1][0][j], reads_cin || one);
        assert_int_equal(chains->level[0][0][j], reads_cin || !one);
        assert_int_equal(chains->forced[1][0][j], reads_cin || one);
        assert_int_equal(chains->forced[0][0][j], reads_cin || !one);
    }
}

static void test_every_carry_chain_of_every_operation(void **state) {
    (void)state;
    static Chains chains;
    static const unsigned widths[] = {12, 64};
    for (int w = 0; w < 2; w++)
        for (int sense = 0; sense < SENSE_COUNT; sense++) {
            Unit unit;
            all_operations(&unit, widths[w], (Sense)sense, OVERFLOW_WRAP);
            for (int op = 0; op < OP_COUNT; op++) {
                chains_of(&chains, &unit, op);
                if (op != OP_PASS)
                    check_chains_from_first_carry(&chains, (Operation)op);
                if (operation_facts((Operation)op)->reads_b)
                    check_chains_from_columns(&chains);
                else
                    assert_int_equal(chains.vectors, 2 * widths[w]);
            }
        }
}

/* The columns between which chains run in words of more than 64 bits: 0, both sides of each power
 * of two, the two columns at the top. */
static bool is_sampled(unsigned column, unsigned width) {
    bool below_a_power = (column & (column + 1)) == 0;
    bool power = (column & (column - 1)) == 0;
    return below_a_power || power || column >= width - 2;
}

/* seen[i][j]: a chain of this level that starts in column i, passes on up to j, and stops. */
enum { WIDE = 300 };
typedef struct {
    uint32_t control;
    bool seen[2][WIDE][WIDE];
} WideChains;

static bool note_wide_chains(void *context, const Vector *vector) {
    WideChains *chains = context;
    if (vector->reason != VECTOR_CHAIN || vector->control != chains->control)
        return true;
    AdderInput adder = {vector->a, vector->b, false};
    if (chains->control == 1)
        word_not(&adder.y, &vector->b); /* a - b is a + not b + 1 */
    for (unsigned start = 0; start < WIDE; start++) {
        unsigned end = start + 1;
        while (end < WIDE && passes(&adder, end))
            end++;
        bool level = word_bit(&adder.x, start);
        if (!passes(&adder, start) && (end == WIDE || word_bit(&adder.x, end) != level))
            chains->seen[level][start][end - 1] = true;
    }
    return true;
}

static void test_wide_words_have_every_chain_between_sampled_columns(void **state) {
    (void)state;
    static WideChains chains;
    VectorPlan plan = {.random = 0, .seed = 1};
    Unit unit;
    make_unit(&unit, WIDE, CONTROL_HIGH, add_sub);
    for (uint32_t control = 0; control < 2; control++) {
        memset(&chains, 0, sizeof chains);
        chains.control = control;
        assert_true(vectors_each(&unit, &plan, note_wide_chains, &chains));
        for (unsigned i = 0; i < WIDE; i++)
            for (unsigned j = i; j < WIDE; j++)
                if (is_sampled(i, WIDE) && is_sampled(j, WIDE))
                    assert_true(chains.seen[0][i][j] && chains.seen[1][i][j]);
    }
}

/* pass has no carry; it is given the words of inc, so that a carry where there is none shows. */
static void test_pass_gets_the_chains_of_inc(void **state) {
    (void)state;
    static const Operation inc_pass[] = {OP_INC, OP_PASS, OP_COUNT};
    Unit unit;
    make_unit(&unit, 20, CONTROL_HIGH, inc_pass);
    List list = list_of(&unit, 0, 1);
    uint64_t words[2][40];
    unsigned count[2] = {0, 0};
    for (size_t k = 0; k < list.count; k++)
        if (list.kept[k].reason == VECTOR_CHAIN)
            words[list.kept[k].control][count[list.kept[k].control]++] = list.kept[k].a;
    assert_int_equal(count[0], 40);
    assert_int_equal(count[1], 40);
    assert_memory_equal(words[0], words[1], sizeof words[0]);
    free(list.kept);
}

/* add does not read cin, but a unit that also has adc has the pin: a wrong design may read it. */
static void test_cin_is_0_and_1_where_it_does_not_matter(void **state) {
    (void)state;
    static Chains chains;
    Unit unit;
    all_operations(&unit, 12, SENSE_NO_BORROW, OVERFLOW_WRAP);
    chains_of(&chains, &unit, OP_ADD);
    assert_int_equal(chains.with_cin[0], chains.vectors / 2);
    assert_int_equal(chains.with_cin[1], chains.vectors / 2);
}

/* ---- random -------------------------------------------------------------------------------- */

/* splitmix64 from seed 1234567, and xoshiro256** from the state 1, 2, 3, 4: published reference
 * outputs, from memory; the first of the latter is rotl(2 * 5, 7) * 9. */
static void test_random_numbers_are_the_published_ones(void **state) {
    (void)state;
    static const uint64_t split[] = {UINT64_C(6457827717110365317), UINT64_C(3203168211198807973),
                                     UINT64_C(9817491932198370423), UINT64_C(4593380528125082431)};
    static const uint64_t drawn[] = {11520, 0, 1509978240, UINT64_C(1215971899390074240)};
    Random random;
    random_seed(&random, 1234567);
    for (int k = 0; k < 4; k++)
        assert_int_equal(random.state[k], split[k]);
    random = (Random){{1, 2, 3, 4}};
    for (int k = 0; k < 4; k++)
        assert_int_equal(random_next(&random), drawn[k]);
}

static void test_a_seed_changes_the_random_vectors_only(void **state) {
    (void)state;
    Unit unit;
    make_unit(&unit, 64, CONTROL_HIGH, add_sub);
    List first = list_of(&unit, 500, 1);
    List again = list_of(&unit, 500, 1);
    List other = list_of(&unit, 500, 2);
    assert_true(same_lists(&first, &again));
    assert_int_equal(first.count, other.count);
    size_t random = 0, changed = 0;
    for (size_t k = 0; k < first.count; k++) {
        if (first.kept[k].reason == VECTOR_RANDOM) {
            random++;
            changed += !same(&first.kept[k], &other.kept[k]);
        } else {
            assert_true(same(&first.kept[k], &other.kept[k]));
        }
    }
    assert_int_equal(random, 500);
    assert_int_equal(changed, 500);
    free(first.kept);
    free(again.kept);
    free(other.kept);
}

static void test_more_random_vectors_leave_the_first_ones_as_they_were(void **state) {
    (void)state;
    Unit unit;
    make_unit(&unit, 40, CONTROL_CODE, all_nine);
    List none = list_of(&unit, 0, 1);
    List few = list_of(&unit, 10, 1);
    List many = list_of(&unit, 1000, 1);
    assert_int_equal(few.count, none.count + 10);
    assert_int_equal(many.count, none.count + 1000);
    many.count = few.count;
    assert_true(same_lists(&few, &many));
    few.count = none.count;
    assert_true(same_lists(&none, &few));
    free(none.kept);
    free(few.kept);
    free(many.kept);
}

/* The longest way of a carry, in columns, through a sum of 64-bit words. */
static unsigned longest_carry(const AdderInput *adder) {
    Word carries;
    carries_into(adder, &carries);
    unsigned longest = 0, length = 0;
    for (unsigned i = 0; i < 64; i++) {
        length = word_bit(&carries, i) && passes(adder, i) ? length + 1 : 0;
        longest = length > longest ? length : longest;
    }
    return longest;
}

typedef struct {
    const Unit *unit;
    unsigned drawn[OP_COUNT + 1][2]; /* by operation, or none, and cin */
    unsigned long_carries[OP_COUNT];
} Draws;

static bool note_draw(void *context, const Vector *vector) {
    Draws *draws = context;
    if (vector->reason != VECTOR_RANDOM)
        return true;
    int choice = unit_control_choice(draws->unit, vector->control);
    draws->drawn[choice == UNIT_NOTHING ? OP_COUNT : choice][vector->cin]++;
    if (choice == UNIT_NOTHING)
        return true;
    AdderInput adder;
    adder_input(draws->unit, draws->unit->choice[choice].operation, vector, &adder);
    draws->long_carries[choice] += longest_carry(&adder) >= 16;
    return true;
}

/* In the sum of two uniform words a carry of 16 columns or more is rarer than one in a thousand,
 * as each column passes it on with probability 1/2. */
static void test_random_vectors_are_spread_and_have_long_carries(void **state) {
    (void)state;
    Unit unit;
    VectorPlan plan = {.random = 10000, .seed = 7};
    all_operations(&unit, 64, SENSE_NO_BORROW, OVERFLOW_WRAP);
    Draws draws = {.unit = &unit};
    assert_true(vectors_each(&unit, &plan, note_draw, &draws));
    for (int op = 0; op <= OP_COUNT; op++)
        for (int cin = 0; cin <= 1; cin++)
            assert_in_range(draws.drawn[op][cin], 400, 600); /* 500 expected */
    for (int op = 0; op < OP_COUNT; op++) {
        bool carries = op != OP_PASS; /* dec carries wherever it does not borrow */
        assert_in_range(draws.long_carries[op], carries ? 150 : 0, carries ? 1000 : 0);
    }
}

/* ---- what does not matter ------------------------------------------------------------------ */

static void test_registers_change_no_vector(void **state) {
    (void)state;
    Unit plain, registered;
    make_unit(&plain, 20, CONTROL_HIGH, add_sub);
    unit_init(&registered);
    registered.width = 20;
    registered.registers = REGISTERS_BOTH;
    registered.enable = true;
    settle(&registered);
    List first = list_of(&plain, 100, 1);
    List second = list_of(&registered, 100, 1);
    assert_true(same_lists(&first, &second));
    free(first.kept);
    free(second.kept);
}

static void test_every_reason_has_a_name(void **state) {
    (void)state;
    for (int reason = 0; reason < VECTOR_REASON_COUNT; reason++)
        assert_true(strlen(vector_reason_name((VectorReason)reason)) > 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_8_bit_add_sub_is_tried_with_every_input_once),
        cmocka_unit_test(test_when_every_input_is_tried),
        cmocka_unit_test(test_a_plan_says_up_to_where),
        cmocka_unit_test(test_counts_and_contract_at_many_widths),
        cmocka_unit_test(test_false_stops_at_once),
        cmocka_unit_test(test_counts_of_the_documented_table),
        cmocka_unit_test(test_unused_codes_are_driven),
        cmocka_unit_test(test_every_control_value_in_the_contract_is_driven),
        cmocka_unit_test(test_corners_are_crossed_with_operation_and_cin),
        cmocka_unit_test(test_no_corner_twice_in_narrow_words),
        cmocka_unit_test(test_a_one_and_a_zero_walk_over_every_bit),
        cmocka_unit_test(test_walks_tell_every_two_bits_apart),
        cmocka_unit_test(test_index_patterns_of_12_bits),
        cmocka_unit_test(test_wide_words_are_walked_at_both_sides_of_powers_of_two),
        cmocka_unit_test(test_every_operation_gives_every_single_one),
        cmocka_unit_test(test_wide_results_have_every_single_one),
        cmocka_unit_test(test_dec_has_single_ones_in_the_sampled_columns),
        cmocka_unit_test(test_every_carry_chain_of_every_operation),
        cmocka_unit_test(test_wide_words_have_every_chain_between_sampled_columns),
        cmocka_unit_test(test_pass_gets_the_chains_of_inc),
        cmocka_unit_test(test_cin_is_0_and_1_where_it_does_not_matter),
        cmocka_unit_test(test_random_numbers_are_the_published_ones),
        cmocka_unit_test(test_a_seed_changes_the_random_vectors_only),
        cmocka_unit_test(test_more_random_vectors_leave_the_first_ones_as_they_were),
        cmocka_unit_test(test_random_vectors_are_spread_and_have_long_carries),
        cmocka_unit_test(test_registers_change_no_vector),
        cmocka_unit_test(test_every_reason_has_a_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
