/* Every carry structure against the reference model, and prefix networks against what is published
 * about their size and depth. */
#include "gates/build.h"
#include "gates/prefix/prefix.h"
#include "model/model.h"
#include "vectors/vectors.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* ---- the networks themselves --------------------------------------------------------------- */

/* Every whole[i] spans i ... 0, every cell joins neighbours. */
static void check_spans(const Prefix *prefix) {
    for (uint32_t k = 0; k < prefix->cell_count; k++) {
        const PrefixCell *cell = &prefix->cell[k];
        unsigned below =
            cell->low < prefix->columns ? cell->low : prefix->cell[cell->low - prefix->columns].top;
        unsigned above = cell->high < prefix->columns
                             ? cell->high
                             : prefix->cell[cell->high - prefix->columns].bottom;
        assert_int_equal(below + 1, above);
        assert_true(cell->high < prefix->columns + k && cell->low < prefix->columns + k);
    }
    for (unsigned i = 0; i < prefix->columns; i++) {
        uint32_t node = prefix->whole[i];
        if (i == 0) {
            assert_int_equal(node, 0);
            continue;
        }
        assert_true(node >= prefix->columns);
        assert_int_equal(prefix->cell[node - prefix->columns].top, i);
        assert_int_equal(prefix->cell[node - prefix->columns].bottom, 0);
    }
}

static void measure(PrefixMake *make, unsigned columns, unsigned depth, unsigned *cells,
                    unsigned *levels) {
    Prefix prefix;
    prefix_init(&prefix, columns);
    make(&prefix, depth);
    check_spans(&prefix);
    *cells = prefix.cell_count;
    *levels = prefix_depth(&prefix);
    prefix_free(&prefix);
}

static unsigned log2_of(unsigned n) {
    unsigned log = 0;
    while (1u << log < n)
        log++;
    return log;
}

static unsigned fibonacci(unsigned n) {
    unsigned one = 1, other = 1;
    for (unsigned k = 2; k < n; k++) {
        unsigned next = one + other;
        one = other;
        other = next;
    }
    return other;
}

/* Sizes and depths at powers of two: Sklansky 1960; Kogge and Stone 1973; Brent and Kung 1982
 * (depth 2 log2 n - 2, from memory); Han and Carlson 1987 (from memory); Ladner and Fischer 1980
 * (from memory). */
static void test_published_counts(void **state) {
    (void)state;
    for (unsigned n = 2; n <= 128; n *= 2) {
        unsigned log = log2_of(n), cells, levels;
        measure(sklansky_make, n, 0, &cells, &levels);
        assert_int_equal(cells, n / 2 * log);
        assert_int_equal(levels, log);
        measure(kogge_stone_make, n, 0, &cells, &levels);
        assert_int_equal(cells, n * log - n + 1);
        assert_int_equal(levels, log);
        measure(brent_kung_make, n, 0, &cells, &levels);
        assert_int_equal(cells, 2 * n - 2 - log);
        assert_int_equal(levels, n == 2 ? 1 : 2 * log - 2);
        measure(han_carlson_make, n, 0, &cells, &levels);
        assert_int_equal(cells, n / 2 * log);
        assert_int_equal(levels, n <= 4 ? log : log + 1);
        measure(ladner_fischer_make, n, 0, &cells, &levels);
        assert_int_equal(cells, 4 * n - fibonacci(5 + log) + 1);
        assert_int_equal(levels, log);
    }
}

/* Snir 1986: cells + levels >= 2n - 2, for every network. */
static void test_snirs_bound(void **state) {
    (void)state;
    PrefixMake *const makes[] = {sklansky_make,    kogge_stone_make,    brent_kung_make,
                                 han_carlson_make, ladner_fischer_make, depth_make};
    for (unsigned n = 2; n <= 128; n++)
        for (size_t k = 0; k < sizeof makes / sizeof makes[0]; k++) {
            unsigned cells, levels;
            if (makes[k] == depth_make && n > 34 && n % 16 > 1)
                continue; /* it takes its time */
            measure(makes[k], n, log2_of(n), &cells, &levels);
            assert_true(cells + levels >= 2 * n - 2);
            assert_true(levels >= log2_of(n));
        }
}

/* The search keeps to its levels at every depth, never needs more cells with more levels, is no
 * larger than Ladner and Fischer's at the least depth, and meets Snir's bound from log2 n + 3 on.
 */
static void test_depth(void **state) {
    (void)state;
    for (unsigned n = 2; n <= 130; n += n < 34 ? 1 : 32) {
        unsigned before = UINT32_MAX, cells, levels, ladner_fischer;
        measure(ladner_fischer_make, n, 0, &ladner_fischer, &levels);
        for (unsigned depth = log2_of(n); depth < n; depth += depth < log2_of(n) + 4 ? 1 : 19) {
            measure(depth_make, n, depth, &cells, &levels);
            assert_true(levels <= depth);
            assert_true(cells <= before);
            assert_true(cells <= ladner_fischer);
            if (depth >= log2_of(n) + 3)
                assert_int_equal(cells + levels, 2 * n - 2);
            before = cells;
        }
    }
    static const unsigned wanted[][2] = {{16, 31}, {32, 74}, {64, 167}, {128, 364}};
    for (size_t k = 0; k < sizeof wanted / sizeof wanted[0]; k++) {
        unsigned cells, levels;
        measure(depth_make, wanted[k][0], log2_of(wanted[k][0]), &cells, &levels);
        assert_true(cells <= wanted[k][1]);
    }
}

static void test_wide_networks(void **state) {
    (void)state;
    for (unsigned n = 255; n <= 4096; n = 2 * n + (n == 2047 ? 2 : 1)) {
        unsigned cells, levels;
        measure(depth_make, n, log2_of(n), &cells, &levels);
        assert_int_equal(levels, log2_of(n));
        measure(depth_make, n, n - 1, &cells, &levels);
        assert_int_equal(cells, n - 1);
    }
}

/* ---- the adders ---------------------------------------------------------------------------- */

typedef struct {
    const Unit *unit;
    const Netlist *netlist;
    uint64_t *values;
    uint64_t compared;
} Meeting;

static bool input_level(const Unit *unit, const Node *node, const Vector *vector) {
    if (node->pin == PIN_A || node->pin == PIN_B)
        return word_bit(node->pin == PIN_A ? &vector->a : &vector->b, node->bit);
    if (node->pin == PIN_CIN)
        return vector->cin;
    if (node->pin == PIN_LINE || node->pin == PIN_OP)
        return vector->control >> node->bit & 1;
    for (int k = 0; k < unit->choice_count; k++)
        if ((int)node->pin == PIN_DO + (int)unit->choice[k].operation)
            return vector->control >> k & 1;
    fail_msg("an input that no vector drives");
    return false;
}

static bool compare(void *context, const Vector *vector) {
    Meeting *meeting = context;
    static Outcome outcome;
    for (uint32_t k = 1;
         k < meeting->netlist->node_count && meeting->netlist->nodes[k].kind == NODE_INPUT; k++)
        meeting->values[k] = input_level(meeting->unit, &meeting->netlist->nodes[k], vector);
    netlist_evaluate(meeting->netlist, meeting->values);
    model_outcome(meeting->unit, unit_control_choice(meeting->unit, vector->control), &vector->a,
                  &vector->b, vector->cin, &outcome);
    for (uint32_t k = 0; k < meeting->netlist->output_count; k++) {
        const Output *output = &meeting->netlist->outputs[k];
        bool expected = output->pin == PIN_RESULT ? word_bit(&outcome.result, output->bit)
                                                  : outcome.flag[output->pin - PIN_FLAG];
        if ((netlist_value(meeting->values, output->literal) & 1) != expected)
            fail_msg("%s, vector %llu: %s[%u] differs", meeting->unit->name,
                     (unsigned long long)meeting->compared, unit_role(meeting->unit, output->pin),
                     output->bit);
    }
    meeting->compared++;
    return true;
}

static void make(Unit *unit, Structure structure, unsigned width, const char *operations) {
    static const char letters[] = "aAsSridnp"; /* in the order of Operation */
    unit_init(unit);
    unit->width = width;
    unit->structure = structure;
    unit->detail = DETAIL_GATES;
    for (const char *letter = operations; *letter != '\0'; letter++)
        unit->choice[unit->choice_count++].operation =
            (Operation)(strchr(letters, *letter) - letters);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit->flag[flag] = flag != FLAG_HALF_CARRY || width >= 4;
}

static void meet(Unit *unit, uint64_t random) {
    Netlist netlist;
    Problem problem = {STATUS_DONE, ""};
    if (unit->structure == STRUCTURE_DEPTH && unit->depth == 0)
        unit->depth = prefix_least_depth(unit->width + 1) + 1;
    if (!unit_settle(unit, &problem))
        fail_msg("%s", problem.text);
    build_netlist(unit, &netlist);
    Meeting meeting = {.unit = unit, .netlist = &netlist};
    meeting.values = calloc(netlist.node_count, sizeof meeting.values[0]);
    VectorPlan plan = {.random = random, .seed = 11};
    vectors_each(unit, &plan, compare, &meeting);
    free(meeting.values);
    netlist_free(&netlist);
    assert_true(meeting.compared > 0);
}

static bool is_here(int structure) {
    return structure != STRUCTURE_RIPPLE && structure != STRUCTURE_FEWEST;
}

static void test_narrow(void **state) {
    (void)state;
    static Unit unit;
    const char *const sets[] = {"as", "a", "s", "AS", "d", "n", "isp", "aAsSridnp"};
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (unsigned width = 1; width <= 5; width++)
            for (size_t k = 0; is_here(structure) && k < sizeof sets / sizeof sets[0]; k++)
                for (int sense = 0; sense < SENSE_COUNT; sense++) {
                    make(&unit, (Structure)structure, width, sets[k]);
                    unit.sense = (Sense)sense;
                    unit.overflow = (Overflow)((width + k) % OVERFLOW_COUNT);
                    meet(&unit, 0);
                }
}

static void test_words(void **state) {
    (void)state;
    static Unit unit;
    static const unsigned widths[] = {9, 16, 17, 32, 64, 65};
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (size_t k = 0; is_here(structure) && k < sizeof widths / sizeof widths[0]; k++) {
            make(&unit, (Structure)structure, widths[k], k % 2 == 0 ? "as" : "sA");
            unit.sense = (Sense)(k / 2 % 2);
            meet(&unit, 50);
        }
}

static void test_wide(void **state) {
    (void)state;
    static Unit unit;
    for (int structure = 0; structure < STRUCTURE_COUNT; structure++)
        for (unsigned width = 300; is_here(structure) && width <= 600; width += 277) {
            make(&unit, (Structure)structure, width, "as");
            meet(&unit, 0);
        }
}

/* A unit says how many columns its network has before the network is there: of any operations,
 * under any control. */
static void test_columns(void **state) {
    (void)state;
    static Unit unit;
    unsigned built = 0;
    for (unsigned set = 1; set < 1u << OP_COUNT; set++)
        for (int control = CONTROL_FIXED; control < CONTROL_COUNT; control++) {
            Netlist netlist;
            Problem problem = {STATUS_DONE, ""};
            unit_init(&unit);
            unit.structure = STRUCTURE_KOGGE_STONE;
            unit.width = 5;
            unit.control = (Control)control;
            for (int op = 0; op < OP_COUNT; op++)
                if (set >> op & 1)
                    unit.choice[unit.choice_count++].operation = (Operation)op;
            if (!unit_settle(&unit, &problem))
                continue;
            build_netlist(&unit, &netlist);
            if (unit_prefix_columns(&unit) != netlist.core->prefix->columns)
                fail_msg("%s, %s: %u columns said, %u there", unit.name, control_name(unit.control),
                         unit_prefix_columns(&unit), netlist.core->prefix->columns);
            netlist_free(&netlist);
            built++;
        }
    assert_in_range(built, 1000, 2000);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_published_counts),
        cmocka_unit_test(test_snirs_bound),
        cmocka_unit_test(test_depth),
        cmocka_unit_test(test_wide_networks),
        cmocka_unit_test(test_narrow),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_wide),
        cmocka_unit_test(test_columns),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
