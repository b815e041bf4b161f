/* The vectors' strength: for every carry structure and detail, up to 1024 bits, the vectors that no
 * chance has a part in catch each single stuck-at fault that any input shows. */
#include "commands/grade.h"
#include "gates/build.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static bool grade(void *context, const Vector *vector) {
    grade_vector(context, vector);
    return true;
}

static FaultCount grade_unit(const Unit *unit, uint64_t *first_parts) {
    Netlist netlist;
    VectorPlan plan = {.random = 0, .seed = 1};
    VectorCount count;
    vectors_count(unit, &plan, &count);
    *first_parts = count.by_reason[VECTOR_COMPACT] + count.by_reason[VECTOR_IDLE];
    build_netlist(unit, &netlist);
    Grade *grading = grade_new(unit, &netlist, count.total);
    vectors_each(unit, &plan, grade, grading);
    FaultCount faults = grade_finish(grading, count.exhaustive);
    netlist_free(&netlist);
    return faults;
}

/* ---- the units ----------------------------------------------------------------------------- */

static const struct {
    const char *operations; /* one letter each: a add, A adc, s sub, S sbc, r rsb, i inc, d dec, n
                               neg, p pass */
    Control control;
} kinds[] = {
    {"as", CONTROL_HIGH}, {"a", CONTROL_FIXED},     {"S", CONTROL_FIXED},
    {"AS", CONTROL_LOW},  {"isp", CONTROL_ONE_HOT}, {"aAsSridnp", CONTROL_CODE},
    {"id", CONTROL_HIGH}, {"d", CONTROL_FIXED},     {"n", CONTROL_FIXED},
    {"p", CONTROL_FIXED}, {"rn", CONTROL_HIGH},     {"aAsSridnp", CONTROL_ONE_HOT},
};

enum { KINDS = sizeof kinds / sizeof kinds[0] };

static void make(Unit *unit, size_t kind, unsigned width, Overflow overflow, bool every_flag) {
    static const char letters[] = "aAsSridnp";
    unit_init(unit);
    unit->width = width;
    unit->control = kinds[kind].control;
    unit->overflow = overflow;
    for (const char *letter = kinds[kind].operations; *letter != '\0'; letter++)
        unit->choice[unit->choice_count++].operation =
            (Operation)(strchr(letters, *letter) - letters);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit->flag[flag] =
            (every_flag || flag <= FLAG_NEGATIVE) && (flag != FLAG_HALF_CARRY || width >= 4);
}

/* Not every structure has a circuit for every choice of operations, nor every detail for every
 * structure: what is refused is passed over. */
static bool check(Unit *unit, Structure structure, Detail detail) {
    Problem problem = {STATUS_DONE, ""};
    uint64_t first_parts;
    unit->structure = structure;
    unit->depth = structure == STRUCTURE_DEPTH ? 12 : 0;
    unit->detail = detail;
    if (!unit_settle(unit, &problem))
        return false;
    FaultCount faults = grade_unit(unit, &first_parts);
    if (faults.by_state[FAULT_MISSED] > 0 || faults.by_state[FAULT_UNDECIDED] > 0)
        fail_msg("%s, %s, %s: %u missed, %u undecided of %u", unit->name, structure_name(structure),
                 detail_name(detail), faults.by_state[FAULT_MISSED],
                 faults.by_state[FAULT_UNDECIDED], faults.total);
    assert_true(faults.total > 0);
    return true;
}

/* Cells are the same gates in modules, so one of the two is enough. Gates of one kind by turns,
 * because they take longest. */
static void check_details(size_t kind, unsigned width, unsigned turn, Structure structure) {
    static Unit unit;
    make(&unit, kind, width, (Overflow)(turn % OVERFLOW_COUNT), turn % 2 == 0);
    check(&unit, structure, DETAIL_GATES);
    if (turn % 10 < 2 && width <= 128) {
        make(&unit, kind, width, (Overflow)(turn / 10 % OVERFLOW_COUNT), turn / 10 % 2 == 0);
        check(&unit, structure, turn % 10 == 0 ? DETAIL_NAND : DETAIL_NOR);
    }
}

/* Every structure at these widths; overflow rules and flags by turns. STRENGTH=all in the
 * environment makes it every kind of unit at all of them, which takes minutes. */
static void check_widths(const unsigned *widths, size_t count, size_t only_kinds) {
    const char *strength = getenv("STRENGTH");
    if (strength != NULL && strcmp(strength, "all") == 0)
        only_kinds = KINDS;
    unsigned turn = 0;
    for (size_t w = 0; w < count; w++)
        for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
            for (size_t kind = 0; kind < only_kinds; kind++, turn++)
                check_details(kind, widths[w], turn, (Structure)structure);
}

static void test_narrow_units(void **state) {
    (void)state;
    static const unsigned widths[] = {1, 2, 3, 4, 5, 7, 8, 9, 12};
    check_widths(widths, sizeof widths / sizeof *widths, KINDS);
}

static void test_words(void **state) {
    (void)state;
    static const unsigned widths[] = {16, 31, 32, 33, 64};
    check_widths(widths, sizeof widths / sizeof *widths, KINDS);
}

static void test_wide_units(void **state) {
    (void)state;
    static const unsigned widths[] = {65, 128, 256};
    check_widths(widths, sizeof widths / sizeof *widths, 3);
}

static void test_1024_bits(void **state) {
    (void)state;
    static const unsigned widths[] = {1024};
    check_widths(widths, 1, 1);
}

/* What docs/vectors.md says of a ripple: the compact set, and for codes the vectors that request
 * nothing, are all it takes. */
static void test_the_compact_set_is_enough_for_a_ripple(void **state) {
    (void)state;
    static const unsigned widths[] = {4, 8, 13, 32, 64, 100};
    static Unit unit;
    for (size_t w = 0; w < sizeof widths / sizeof *widths; w++)
        for (size_t kind = 0; kind < KINDS; kind++)
            for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++) {
                Problem problem = {STATUS_DONE, ""};
                uint64_t first_parts;
                make(&unit, kind, widths[w], (Overflow)overflow, true);
                assert_true(unit_settle(&unit, &problem));
                FaultCount faults = grade_unit(&unit, &first_parts);
                if (faults.first > first_parts)
                    fail_msg("%s, overflow %d: the first %llu, not %llu", unit.name, overflow,
                             (unsigned long long)faults.first, (unsigned long long)first_parts);
            }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_narrow_units),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_wide_units),
        cmocka_unit_test(test_1024_bits),
        cmocka_unit_test(test_the_compact_set_is_enough_for_a_ripple),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
