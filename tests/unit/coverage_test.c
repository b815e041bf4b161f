/* The coverage of vectors: against sums done bit by bit, what is possible against trying all
 * inputs, and that the vectors of every unit leave nothing out. */
#include "all_operations.h"
#include "vectors/coverage.h"
#include "vectors/random.h"
#include "verilog/coverage_facts.h"
#include "write/coverage_json.h"

#include <stdlib.h>
#include <string.h>

/* ---- one vector ---------------------------------------------------------------------------- */

static void send(Coverage *coverage, int op, unsigned width, uint64_t a, uint64_t b, bool cin) {
    Vector vector = {VECTOR_RANDOM, unit_control_value(coverage->unit, op), cin, {0}, {0}};
    word_set(&vector.a, width, a);
    word_set(&vector.b, width, b);
    coverage_add(coverage, &vector);
}

static bool has_event(const CoverageEvents *events, ColumnEvent event, unsigned column) {
    return word_bit(&events->column[event], column);
}

/* Column by column: exactly one event in each, and the one that the bits say. */
static void check_sum(const CoverageEvents *events, uint64_t x, uint64_t y, bool carry,
                      unsigned width) {
    unsigned run = 0, longest = 0;
    for (unsigned i = 0; i < width; i++) {
        bool p = x >> i & 1, q = y >> i & 1;
        assert_int_equal(has_event(events, COLUMN_GENERATES, i), p && q);
        assert_int_equal(has_event(events, COLUMN_KILLS, i), !p && !q);
        assert_int_equal(has_event(events, COLUMN_PASSES_1, i), p != q && carry);
        assert_int_equal(has_event(events, COLUMN_PASSES_0, i), p != q && !carry);
        run = p != q ? run + 1 : 0;
        longest = run > longest ? run : longest;
        carry = (p && q) || (carry && p != q);
    }
    assert_int_equal(events->longest, longest);
}

static void test_one_vector_is_a_sum_done_bit_by_bit(void **state) {
    (void)state;
    static Unit unit;
    Random random;
    random_seed(&random, 1);
    for (unsigned round = 0; round < 2000; round++) {
        unsigned width = 1 + random_below(&random, 64);
        uint64_t ones = width == 64 ? UINT64_MAX : (UINT64_C(1) << width) - 1;
        uint64_t a = random_next(&random), b = random_next(&random);
        if (round % 2 == 1)
            b = ~a ^ UINT64_C(1) << random_below(&random, width); /* long ways */
        a &= ones;
        b &= ones;
        bool cin = round % 4 >= 2;
        all_operations(&unit, width, SENSE_BORROW, OVERFLOW_WRAP);
        Coverage *coverage = coverage_new(&unit);
        for (int op = 0; op < OP_COUNT; op++)
            send(coverage, op, width, a, b, cin);
        /* From the operations' definitions, with -w = not w + 1. */
        check_sum(&coverage->seen[OP_ADD], a, b, false, width);
        check_sum(&coverage->seen[OP_ADC], a, b, cin, width);
        check_sum(&coverage->seen[OP_SUB], a, ~b & ones, true, width);
        check_sum(&coverage->seen[OP_SBC], a, ~b & ones, !cin, width); /* cin is a borrow */
        check_sum(&coverage->seen[OP_RSB], ~a & ones, b, true, width);
        check_sum(&coverage->seen[OP_INC], a, 0, true, width);
        check_sum(&coverage->seen[OP_DEC], a, ones, false, width);
        check_sum(&coverage->seen[OP_NEG], ~a & ones, 0, true, width);
        check_sum(&coverage->seen[OP_PASS], a, 0, false, width);
        free(coverage);
    }
}

/* The carry that leaves column 63 and enters column 64. */
static void test_events_cross_the_limbs_of_a_word(void **state) {
    (void)state;
    static Unit unit;
    all_operations(&unit, 130, SENSE_NO_BORROW, OVERFLOW_WRAP);
    Coverage *coverage = coverage_new(&unit);
    Vector vector = {VECTOR_RANDOM, OP_ADD, false, {0}, {0}};
    word_ones(&vector.a, 130);
    word_set(&vector.b, 130, 1);
    coverage_add(coverage, &vector);
    const CoverageEvents *events = &coverage->seen[OP_ADD];
    assert_true(has_event(events, COLUMN_GENERATES, 0));
    for (unsigned i = 1; i < 130; i++)
        assert_true(has_event(events, COLUMN_PASSES_1, i));
    assert_int_equal(events->longest, 129);
    assert_true(events->flag[FLAG_ZERO][1] && !events->flag[FLAG_ZERO][0]);
    free(coverage);
}

/* ---- what can occur ------------------------------------------------------------------------ */

static void assert_same_events(const Unit *unit, const CoverageEvents *seen,
                               const CoverageEvents *possible) {
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (unit->flag[flag]) {
            assert_int_equal(seen->flag[flag][0], possible->flag[flag][0]);
            assert_int_equal(seen->flag[flag][1], possible->flag[flag][1]);
        }
    for (int event = 0; event < COLUMN_EVENT_COUNT; event++)
        assert_true(word_equal(&seen->column[event], &possible->column[event]));
    assert_int_equal(seen->longest, possible->longest);
}

static void all_flags(Unit *unit) {
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit->flag[flag] = flag != FLAG_HALF_CARRY || unit->width >= 4;
}

/* Wider than the inputs that coverage_new tries. */
static void test_what_is_possible_is_what_some_input_does(void **state) {
    (void)state;
    static Unit unit;
    for (unsigned width = 1; width <= 6; width++)
        for (int way = 0; way < SENSE_COUNT * OVERFLOW_COUNT; way++) {
            all_operations(&unit, width, (Sense)(way % SENSE_COUNT), (Overflow)(way / SENSE_COUNT));
            all_flags(&unit);
            Coverage *coverage = coverage_new(&unit);
            for (unsigned input = 0; input < 2U << 2 * width; input++)
                for (int op = 0; op < OP_COUNT; op++)
                    send(coverage, op, width, input >> 1 & ((1U << width) - 1),
                         input >> (1 + width), input % 2 == 1);
            for (int op = 0; op < OP_COUNT; op++)
                assert_same_events(&unit, &coverage->seen[op], &coverage->possible[op]);
            free(coverage);
        }
}

/* Known by the definitions: add is never below 0, pass never carries, column 0 of add is never
 * given a carry. */
static void test_some_things_cannot_be(void **state) {
    (void)state;
    static Unit unit;
    all_operations(&unit, 12, SENSE_NO_BORROW, OVERFLOW_WRAP);
    Coverage *coverage = coverage_new(&unit);
    const CoverageEvents *possible = coverage->possible;
    assert_false(possible[OP_ADD].flag[FLAG_LESS_UNSIGNED][1]);
    assert_true(possible[OP_ADD].flag[FLAG_LESS_SIGNED][1]);
    assert_false(possible[OP_PASS].flag[FLAG_CARRY][1]);
    assert_false(has_event(&possible[OP_ADD], COLUMN_PASSES_1, 0));
    assert_true(has_event(&possible[OP_ADD], COLUMN_PASSES_1, 1));
    assert_true(has_event(&possible[OP_SUB], COLUMN_PASSES_1, 0));
    assert_false(has_event(&possible[OP_SUB], COLUMN_PASSES_0, 0));
    assert_true(has_event(&possible[OP_ADC], COLUMN_PASSES_0, 0));
    assert_false(has_event(&possible[OP_INC], COLUMN_GENERATES, 7));
    assert_int_equal(possible[OP_ADD].longest, 12);
    free(coverage);
}

/* ---- the vectors --------------------------------------------------------------------------- */

static bool cover(void *context, const Vector *vector) {
    coverage_add(context, vector);
    return true;
}

static void check_complete(const Unit *unit) {
    VectorPlan plan = {.random = 0, .seed = 1};
    Coverage *coverage = coverage_new(unit);
    assert_true(vectors_each(unit, &plan, cover, coverage));
    CoverageCount count = coverage_count(coverage);
    assert_int_equal(count.seen.operations, count.possible.operations);
    assert_int_equal(count.seen.flags, count.possible.flags);
    assert_int_equal(count.seen.columns, count.possible.columns);
    assert_int_equal(count.seen.longest, unit->width);
    for (int k = 0; k < unit->choice_count; k++)
        assert_same_events(unit, &coverage->seen[k], &coverage->possible[k]);
    free(coverage);
}

static void settle(Unit *unit, unsigned width, const Operation *operations, int count,
                   Control control) {
    Problem problem = {STATUS_DONE, ""};
    unit_init(unit);
    unit->width = width;
    unit->control = control;
    unit->choice_count = count;
    for (int k = 0; k < count; k++)
        unit->choice[k].operation = operations[k];
    all_flags(unit);
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
}

/* Without the random ones. */
static void test_the_vectors_of_every_unit_leave_nothing_out(void **state) {
    (void)state;
    static const unsigned widths[] = {1, 2, 3, 4, 5, 8, 9, 12, 17, 31, 32, 33, 64, 65, 100, 1024};
    static Unit unit;
    for (size_t w = 0; w < sizeof widths / sizeof *widths; w++)
        for (int way = 0; way < SENSE_COUNT * OVERFLOW_COUNT; way++) {
            all_operations(&unit, widths[w], (Sense)(way % SENSE_COUNT),
                           (Overflow)(way / SENSE_COUNT));
            all_flags(&unit);
            check_complete(&unit);
        }
    for (size_t w = 0; w < sizeof widths / sizeof *widths; w++)
        for (int op = 0; op < OP_COUNT; op++) {
            Operation operations[2] = {(Operation)op, (Operation)((op + 4) % OP_COUNT)};
            settle(&unit, widths[w], operations, 1, CONTROL_FIXED);
            check_complete(&unit);
            settle(&unit, widths[w], operations, 2, CONTROL_ONE_HOT);
            check_complete(&unit);
        }
}

static void test_4096_bits(void **state) {
    (void)state;
    static Unit unit;
    static const Operation pairs[][2] = {{OP_ADD, OP_SUB}, {OP_INC, OP_DEC}, {OP_SBC, OP_NEG}};
    for (size_t k = 0; k < sizeof pairs / sizeof *pairs; k++) {
        settle(&unit, 4096, pairs[k], 2, CONTROL_HIGH);
        check_complete(&unit);
    }
}

/* ---- what a file's header says ------------------------------------------------------------- */

static const char *text_of(const Facts *row, const char *name) {
    const Fact *fact = facts_find(row, name, strlen(name));
    assert_non_null(fact);
    return fact->text;
}

static void test_the_header_tells_missed_from_impossible(void **state) {
    (void)state;
    static Unit unit;
    static const Operation pair[2] = {OP_ADD, OP_PASS};
    settle(&unit, 12, pair, 2, CONTROL_HIGH);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit.flag[flag] = flag == FLAG_CARRY || flag == FLAG_LESS_UNSIGNED;
    Coverage *coverage = coverage_new(&unit);
    send(coverage, 0, 12, 0xa07, 0x505, false); /* columns 1010 0000 0111 + 0101 0000 0101 */
    Facts *facts = facts_new();
    coverage_facts(coverage, facts);
    const Fact *covered = facts_find(facts, "covered", strlen("covered"));
    assert_int_equal(covered->row_count, 2);
    const Facts *add = covered->row[0], *pass = covered->row[1];
    assert_string_equal(text_of(add, "operation"), "add ");
    assert_string_equal(text_of(add, "flags"), "2/3");
    assert_string_equal(text_of(add, "columns"), "12/47");
    assert_string_equal(text_of(add, "longest"), "4/12");
    assert_string_equal(text_of(add, "cannot"), "less-unsigned 1; column passes 1: 0");
    assert_string_equal(text_of(add, "missed"),
                        "carry 1; column generates: 1, 3-11; column kills: 0-2, 8-11; "
                        "column passes 1: 2-11; column passes 0: 0-7");
    assert_string_equal(text_of(pass, "flags"), "0/2");
    assert_string_equal(text_of(pass, "cannot"), "carry 1, less-unsigned 1; column generates: "
                                                 "0-11; column passes 1: 0-11");
    facts_free(facts);
    free(coverage);
}

static void test_many_ranges_are_cut(void **state) {
    (void)state;
    static Unit unit;
    static const Operation add[1] = {OP_ADD};
    settle(&unit, 24, add, 1, CONTROL_FIXED);
    Coverage *coverage = coverage_new(&unit);
    send(coverage, 0, 24, 0x555555, 0x555555, false);
    Facts *facts = facts_new();
    coverage_facts(coverage, facts);
    const Fact *covered = facts_find(facts, "covered", strlen("covered"));
    assert_non_null(strstr(text_of(covered->row[0], "missed"),
                           "column generates: 1, 3, 5, 7, 9, 11, 13, 15 and 4 more; "));
    facts_free(facts);
    free(coverage);
}

/* ---- the report ---------------------------------------------------------------------------- */

static void assert_has(const char *text, const char *part) {
    if (strstr(text, part) == NULL)
        fail_msg("%s\nlacks\n%s", text, part);
}

/* Its layout, blanks and line ends, is json.c's. */
static void without_blanks(char *text) {
    char *to = text;
    for (const char *from = text; *from != '\0'; from++)
        if (*from != ' ' && *from != '\n')
            *to++ = *from;
    *to = '\0';
}

static void test_the_report(void **state) {
    (void)state;
    static Unit unit;
    static const Operation add[1] = {OP_ADD};
    settle(&unit, 12, add, 1, CONTROL_FIXED);
    Coverage *coverage = coverage_new(&unit);
    send(coverage, 0, 12, 0xa07, 0x505, false); /* as above */
    VectorCount vectors = {.total = 1, .by_reason = {[VECTOR_RANDOM] = 1}};
    FaultCount faults = {.total = 9, .by_state = {[FAULT_CAUGHT] = 5, [FAULT_MISSED] = 3}};
    faults.by_state[FAULT_HIDDEN] = 1;
    faults.first = 1;
    static char text[16384];
    FILE *out = fmemopen(text, sizeof text, "w");
    assert_non_null(out);
    coverage_json(coverage, &vectors, &faults, out);
    assert_int_equal(fclose(out), 0);
    without_blanks(text);
    assert_has(text, "{\"name\":\"add12\",\"width\":12,\"vectors\":{\"total\":1,"
                     "\"everyinput\":false,\"parts\":{\"random\":1}},");
    assert_has(text, "\"faults\":{\"total\":9,\"caught\":5,\"bythefirstvectors\":1,"
                     "\"cannotshow\":1,\"missed\":3,\"notshowndetectable\":0},");
    assert_has(text, "\"carry\":{\"0\":\"seen\",\"1\":\"missed\"}");
    assert_has(text, "\"less-unsigned\":{\"0\":\"seen\",\"1\":\"impossible\"}");
    assert_has(text, "\"passes1\":{\"seen\":[[1,1]],\"missed\":[[2,11]],\"impossible\":[[0,0]]}");
    assert_has(text, "\"longestcarry\":{\"seen\":4,\"possible\":12}");
    free(coverage);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_vector_is_a_sum_done_bit_by_bit),
        cmocka_unit_test(test_events_cross_the_limbs_of_a_word),
        cmocka_unit_test(test_what_is_possible_is_what_some_input_does),
        cmocka_unit_test(test_some_things_cannot_be),
        cmocka_unit_test(test_the_vectors_of_every_unit_leave_nothing_out),
        cmocka_unit_test(test_4096_bits),
        cmocka_unit_test(test_the_header_tells_missed_from_impossible),
        cmocka_unit_test(test_many_ranges_are_cut),
        cmocka_unit_test(test_the_report),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
