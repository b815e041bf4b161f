/* Landmarks: every literal means what its place says, against sums worked bit by bit from what
 * enters the columns; and the cells of prefix networks are as many, and as deep, as published. */
#include "gates/build.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    const Unit *unit;
    const Netlist *netlist;
    const Landmarks *landmarks;
    uint64_t *values;
} Case;

/* ---- the literals -------------------------------------------------------------------------- */

static uint64_t next_random(uint64_t *state) {
    *state += UINT64_C(0x9e3779b97f4a7c15); /* splitmix64, Steele and others 2014; from memory */
    uint64_t z = *state;
    z = (z ^ z >> 30) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ z >> 27) * UINT64_C(0x94d049bb133111eb);
    return z ^ z >> 31;
}

static uint64_t majority(uint64_t x, uint64_t y, uint64_t z) {
    return (x & y) | (x & z) | (y & z);
}

static uint64_t level(const Case *one, Literal literal) {
    return netlist_value(one->values, literal);
}

/* The carry out of columns top ... bottom when this one enters them. */
static uint64_t carry_past(const Case *one, int top, int bottom, uint64_t carry) {
    uint64_t turned = level(one, one->landmarks->turned);
    for (int i = bottom; i <= top; i++)
        carry = majority(level(one, one->landmarks->plain[i]) ^ turned,
                         level(one, one->landmarks->y[i]), carry);
    return carry;
}

static void expect(const Case *one, uint32_t k, const char *what, Literal literal,
                   uint64_t expected) {
    if (literal != LITERAL_NONE && level(one, literal) != expected)
        fail_msg("%s: cell %u, %s, is not what it says", one->unit->name, k, what);
}

/* `passes` may be "exactly one of the two" or "at least one": together with generates it is what
 * comes out when a carry enters. */
static void check_cell(const Case *one, uint32_t k) {
    const Landmark *cell = &one->landmarks->cell[k];
    int top = cell->top, bottom = cell->bottom;
    uint64_t first = level(one, one->landmarks->carry[0]);
    if (cell->kind == LANDMARK_FIRST) {
        expect(one, k, "first", cell->generates, first);
        return;
    }
    bool of_span =
        cell->kind == LANDMARK_COLUMN || cell->kind == LANDMARK_JOIN || cell->kind == LANDMARK_PAIR;
    expect(one, k, "generates", cell->generates,
           of_span ? carry_past(one, top, bottom, 0) : carry_past(one, top, 0, first));
    if (cell->passes == LITERAL_NONE)
        return;
    assert_true(of_span);
    uint64_t either = level(one, cell->passes);
    if (cell->kind != LANDMARK_PAIR && cell->generates != LITERAL_NONE)
        either |= level(one, cell->generates);
    if (cell->generates != LITERAL_NONE && either != carry_past(one, top, bottom, ~UINT64_C(0)))
        fail_msg("%s: cell %u, passes, is not what it says", one->unit->name, k);
}

static void check_columns(const Case *one) {
    const Landmarks *landmarks = one->landmarks;
    uint64_t first = level(one, landmarks->carry[0]);
    for (unsigned i = 0; i < landmarks->width; i++) {
        uint64_t plain = level(one, landmarks->plain[i]), y = level(one, landmarks->y[i]);
        uint64_t carry = carry_past(one, (int)i - 1, 0, first);
        expect(one, i, "x", landmarks->x[i], plain ^ level(one, landmarks->turned));
        expect(one, i, "half", landmarks->half[i], plain ^ y);
        expect(one, i, "carry", landmarks->carry[i], carry);
        expect(one, i, "sum", landmarks->sum[i], plain ^ y ^ carry);
    }
    expect(one, landmarks->width, "carry", landmarks->carry[landmarks->width],
           carry_past(one, (int)landmarks->width - 1, 0, first));
    for (uint32_t k = 0; k < one->netlist->output_count; k++) {
        const Output *output = &one->netlist->outputs[k];
        if (output->pin == PIN_RESULT && one->unit->overflow == OVERFLOW_WRAP &&
            !unit_can_idle(one->unit))
            assert_int_equal(output->literal, landmarks->sum[output->bit]);
    }
}

/* What a cell reads is there before it and one level above it; carries come from cells. */
static void check_shape(const Case *one) {
    const Landmarks *landmarks = one->landmarks;
    for (uint32_t k = 0; k < landmarks->cell_count; k++) {
        const Landmark *cell = &landmarks->cell[k];
        unsigned deepest = 0;
        for (int in = 0; in < cell->in_count; in++) {
            assert_true(cell->in[in] < k);
            unsigned depth = landmarks->cell[cell->in[in]].level + 1;
            deepest = depth > deepest ? depth : deepest;
        }
        assert_int_equal(cell->level, deepest);
        if (cell->in_count > 0)
            assert_int_equal(landmarks->cell[cell->in[0]].top, cell->top);
        for (int in = 1; in < cell->in_count; in++)
            assert_int_equal(landmarks->cell[cell->in[in]].top,
                             landmarks->cell[cell->in[in - 1]].bottom - 1);
    }
    for (unsigned i = 0; i <= landmarks->width; i++) {
        Literal carry = landmarks->carry[i];
        if (carry == LITERAL_NONE || literal_is_constant(carry))
            continue;
        assert_true(landmarks->giver[i] != LANDMARK_NONE);
        assert_int_equal(landmarks->cell[landmarks->giver[i]].generates, carry);
        assert_int_equal(landmarks->cell[landmarks->giver[i]].top, (int)i - 1);
    }
}

static void make(Unit *unit, Structure structure, unsigned width, const char *operations) {
    static const char letters[] = "aAsSridnp"; /* in the order of Operation */
    Problem problem = {STATUS_DONE, ""};
    unit_init(unit);
    unit->width = width;
    unit->structure = structure;
    unit->depth = 9;
    for (const char *letter = operations; *letter != '\0'; letter++)
        unit->choice[unit->choice_count++].operation =
            (Operation)(strchr(letters, *letter) - letters);
    unit->flag[FLAG_OVERFLOW] = width % 2 == 0;
    unit->flag[FLAG_CARRY] = width % 3 != 0;
    unit->sense = width % 4 < 2 ? SENSE_BORROW : SENSE_NO_BORROW;
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
}

static void check(const Unit *unit) {
    Netlist netlist, plain;
    Landmarks landmarks;
    uint64_t state = unit->width;
    build_netlist_marked(unit, &netlist, &landmarks);
    build_netlist(unit, &plain);
    assert_int_equal(netlist.node_count, plain.node_count);
    Case one = {unit, &netlist, &landmarks, calloc(netlist.node_count, sizeof(uint64_t))};
    check_shape(&one);
    for (int round = 0; round < 2; round++) {
        for (uint32_t k = 1; k < netlist.node_count && netlist.nodes[k].kind == NODE_INPUT; k++)
            one.values[k] = next_random(&state);
        netlist_evaluate(&netlist, one.values);
        check_columns(&one);
        for (uint32_t k = 0; k < landmarks.cell_count; k++)
            check_cell(&one, k);
    }
    free(one.values);
    landmarks_free(&landmarks);
    netlist_free(&netlist);
    netlist_free(&plain);
}

static bool is_here(int structure) {
    return structure != STRUCTURE_RIPPLE && structure != STRUCTURE_FEWEST;
}

static void test_meanings(void **state) {
    (void)state;
    static Unit unit;
    static const char *const sets[] = {"as", "a", "AS", "s", "d", "n", "ip", "p", "aAsSridnp"};
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (unsigned width = 1; is_here(structure) && width <= 33; width++)
            for (size_t k = 0; k < sizeof sets / sizeof sets[0]; k++) {
                make(&unit, (Structure)structure, width, sets[k]);
                check(&unit);
            }
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        if (is_here(structure)) {
            make(&unit, (Structure)structure, 300, "as");
            check(&unit);
        }
}

/* Columns of the adder and the subtracter are what they add: a XOR subtract, and b. */
static void test_operands(void **state) {
    (void)state;
    static Unit unit;
    Netlist netlist;
    Landmarks landmarks;
    make(&unit, STRUCTURE_SKLANSKY, 8, "as");
    build_netlist_marked(&unit, &netlist, &landmarks);
    uint64_t *values = calloc(netlist.node_count, sizeof values[0]), line = 0, bits[2][8];
    uint64_t random = 5;
    for (uint32_t k = 1; netlist.nodes[k].kind == NODE_INPUT; k++) {
        const Node *node = &netlist.nodes[k];
        values[k] = next_random(&random);
        if (node->pin == PIN_LINE)
            line = values[k];
        else
            bits[node->pin == PIN_B][node->bit] = values[k];
    }
    netlist_evaluate(&netlist, values);
    for (unsigned i = 0; i < 8; i++) {
        assert_true(netlist_value(values, landmarks.x[i]) == (bits[0][i] ^ line));
        assert_true(netlist_value(values, landmarks.y[i]) == bits[1][i]);
    }
    assert_true(netlist_value(values, landmarks.turned) == line);
    free(values);
    landmarks_free(&landmarks);
    netlist_free(&netlist);
}

/* ---- how many ------------------------------------------------------------------------------ */

/* Cells of a prefix network of n columns that are there, and their levels. */
static void count(Structure structure, unsigned n, unsigned *cells, unsigned *levels,
                  unsigned *carries) {
    static Unit unit;
    Netlist netlist;
    Landmarks landmarks;
    make(&unit, structure, n, "as");
    unit.flag[FLAG_CARRY] = true;
    build_netlist_marked(&unit, &netlist, &landmarks);
    *cells = *levels = *carries = 0;
    for (uint32_t k = 0; k < landmarks.cell_count; k++) {
        const Landmark *cell = &landmarks.cell[k];
        if (cell->level == 0 || !landmark_is_there(cell))
            continue;
        ++*cells;
        *carries += cell->kind == LANDMARK_CARRY;
        *levels = cell->level > *levels ? cell->level : *levels;
        assert_int_equal(cell->passes == LITERAL_NONE, cell->kind == LANDMARK_CARRY);
    }
    assert_int_equal(*cells, netlist.prefix_cells);
    landmarks_free(&landmarks);
    netlist_free(&netlist);
}

static unsigned fibonacci(unsigned n) {
    return n <= 2 ? 1 : fibonacci(n - 1) + fibonacci(n - 2);
}

/* Sklansky 1960; Kogge and Stone 1973; Brent and Kung 1982 (levels from memory); Han and Carlson
 * 1987, Ladner and Fischer 1980 (from memory). All carries but that of column 0 come from a cell
 * that only generates, and only they do. */
static void test_published_counts(void **state) {
    (void)state;
    unsigned log = 2, cells, levels, carries;
    for (unsigned n = 4; n <= 128; n *= 2, log++) {
        const struct {
            Structure structure;
            unsigned cells, levels;
        } published[] = {
            {STRUCTURE_SKLANSKY, n / 2 * log, log},
            {STRUCTURE_KOGGE_STONE, n * log - n + 1, log},
            {STRUCTURE_BRENT_KUNG, 2 * n - 2 - log, 2 * log - 2},
            {STRUCTURE_HAN_CARLSON, n / 2 * log, n == 4 ? log : log + 1},
            {STRUCTURE_LADNER_FISCHER, 4 * n - fibonacci(5 + log) + 1, log},
        };
        for (size_t k = 0; k < sizeof published / sizeof published[0]; k++) {
            count(published[k].structure, n, &cells, &levels, &carries);
            assert_int_equal(cells, published[k].cells);
            assert_int_equal(levels, published[k].levels);
            assert_int_equal(carries, n - 1);
        }
    }
}

/* What no flag reads is gone: the carry out of the last column, and its cell. */
static void test_what_is_not_read_is_gone(void **state) {
    (void)state;
    static Unit unit;
    Netlist netlist;
    Landmarks landmarks;
    make(&unit, STRUCTURE_KOGGE_STONE, 9, "as"); /* neither carry nor overflow */
    build_netlist_marked(&unit, &netlist, &landmarks);
    assert_true(landmarks.carry[9] == LITERAL_NONE);
    for (uint32_t k = 0; k < landmarks.cell_count; k++)
        assert_true(landmarks.cell[k].top != 8 || landmarks.cell[k].level == 0 ||
                    !landmark_is_there(&landmarks.cell[k]));
    landmarks_free(&landmarks);
    netlist_free(&netlist);
}

/* Groups cover the columns without a gap; skip's are alike, select's grow by one, lookahead's are
 * of four, in tiers. */
static void test_groups(void **state) {
    (void)state;
    static Unit unit;
    for (int structure = STRUCTURE_SKIP; structure <= STRUCTURE_LOOKAHEAD; structure++) {
        Netlist netlist;
        Landmarks landmarks;
        make(&unit, (Structure)structure, 27, "as");
        build_netlist_marked(&unit, &netlist, &landmarks);
        unsigned next = 0, tiers = 0;
        for (uint32_t k = 0; k < landmarks.group_count; k++) {
            const LandmarkGroup *group = &landmarks.group[k];
            next = group->tier > tiers ? 0 : next;
            tiers = group->tier;
            assert_int_equal(group->bottom, next);
            unsigned size = structure == STRUCTURE_SKIP     ? 4
                            : structure == STRUCTURE_SELECT ? 2 + k
                                                            : 1u << 2 * tiers;
            next = next + size < 27 ? next + size : 27;
            assert_int_equal(group->top + 1, next);
        }
        assert_int_equal(next, 27);
        assert_int_equal(tiers, structure == STRUCTURE_LOOKAHEAD ? 3 : 1);
        landmarks_free(&landmarks);
        netlist_free(&netlist);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_meanings),         cmocka_unit_test(test_operands),
        cmocka_unit_test(test_published_counts), cmocka_unit_test(test_what_is_not_read_is_gone),
        cmocka_unit_test(test_groups),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
