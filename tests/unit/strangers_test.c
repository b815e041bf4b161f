/* The vectors know nothing of the circuit, so they have to serve designs that sumwright did not
 * write. Here an adder-subtractor is built from cells in several ways, and each cell in turn
 * answers one of its inputs wrongly in one of its outputs; any other function of the same inputs
 * does at least that. The vectors that no chance has a part in must find every such change that can
 * be found at all.
 *
 * To try them all at once a cell's output is turned over by a gate that recognises the one input
 * and is armed by a line that is always 0: the change is that gate's line stuck at 1. */
#include "gates/faults/faults.h"
#include "vectors/vectors.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

/* ---- building ------------------------------------------------------------------------------ */

typedef struct {
    Netlist netlist;
    unsigned width;
    Literal armed, subtract;
    Literal *x, *y; /* the adder's words */
    Literal *sum, *carry;
    Fault *change;
    size_t count, room;
} Stranger;

/* The output, but for this one input of its cell. */
static Literal changeable(Stranger *stranger, Literal output, const Literal *input, unsigned inputs,
                          unsigned row) {
    Netlist *netlist = &stranger->netlist;
    Literal here = LITERAL_1;
    for (unsigned k = 0; k < inputs; k++)
        here = netlist_and(netlist, here, (row >> k & 1) == 1 ? input[k] : literal_not(input[k]));
    if (here == LITERAL_0)
        return output;
    Literal turned = netlist_and(netlist, here, stranger->armed);
    if (stranger->count == stranger->room) {
        stranger->room = 2 * stranger->room + 1024;
        stranger->change = realloc(stranger->change, stranger->room * sizeof *stranger->change);
        assert_non_null(stranger->change);
    }
    bool first =
        literal_node(netlist->nodes[literal_node(turned)].in[0]) == literal_node(stranger->armed);
    stranger->change[stranger->count++] =
        (Fault){first ? FAULT_INPUT_0 : FAULT_INPUT_1, literal_node(turned), true};
    return netlist_xor(netlist, output, turned);
}

static Literal changeable_anywhere(Stranger *stranger, Literal output, const Literal *input,
                                   unsigned inputs) {
    for (unsigned row = 0; row < 1U << inputs; row++)
        output = changeable(stranger, output, input, inputs, row);
    return output;
}

static void full_adder(Stranger *stranger, Literal x, Literal y, Literal c, Literal *sum,
                       Literal *carry) {
    Netlist *netlist = &stranger->netlist;
    Literal input[3] = {x, y, c}, either = netlist_xor(netlist, x, y);
    Literal right =
        netlist_or(netlist, netlist_and(netlist, x, y), netlist_and(netlist, either, c));
    *sum = changeable_anywhere(stranger, netlist_xor(netlist, either, c), input, 3);
    *carry = changeable_anywhere(stranger, right, input, 3);
}

static void start(Stranger *stranger, unsigned width) {
    *stranger = (Stranger){.width = width};
    Netlist *netlist = &stranger->netlist;
    netlist_init(netlist);
    stranger->armed = netlist_input(netlist, PIN_EN, 0);
    stranger->subtract = netlist_input(netlist, PIN_LINE, 0);
    stranger->x = calloc(width, sizeof(Literal));
    stranger->y = calloc(width, sizeof(Literal));
    stranger->sum = calloc(width, sizeof(Literal));
    stranger->carry = calloc(width + 1, sizeof(Literal));
    for (unsigned i = 0; i < width; i++)
        stranger->x[i] = netlist_input(netlist, PIN_A, i);
    for (unsigned i = 0; i < width; i++)
        stranger->y[i] = netlist_input(netlist, PIN_B, i);
}

/* b, or its complement in a subtraction, whose 1 is the first carry. */
static void invert_b(Stranger *stranger) {
    for (unsigned i = 0; i < stranger->width; i++)
        stranger->y[i] = netlist_xor(&stranger->netlist, stranger->y[i], stranger->subtract);
    stranger->carry[0] = stranger->subtract;
}

static void finish(Stranger *stranger) {
    unsigned n = stranger->width;
    Netlist *netlist = &stranger->netlist;
    for (unsigned i = 0; i < n; i++)
        netlist_output(netlist, PIN_RESULT, i, stranger->sum[i]);
    netlist_output(netlist, PIN_FLAG + FLAG_CARRY, 0, stranger->carry[n]);
    netlist_output(netlist, PIN_FLAG + FLAG_OVERFLOW, 0,
                   netlist_xor(netlist, stranger->carry[n], stranger->carry[n - 1]));
}

static void drop(Stranger *stranger) {
    netlist_free(&stranger->netlist);
    free(stranger->x);
    free(stranger->y);
    free(stranger->sum);
    free(stranger->carry);
    free(stranger->change);
}

/* ---- strangers ----------------------------------------------------------------------------- */

/* A row of full adders. */
static void build_ripple(Stranger *stranger) {
    invert_b(stranger);
    for (unsigned i = 0; i < stranger->width; i++)
        full_adder(stranger, stranger->x[i], stranger->y[i], stranger->carry[i], &stranger->sum[i],
                   &stranger->carry[i + 1]);
}

static Literal choose(Netlist *netlist, Literal which, Literal at_1, Literal at_0) {
    return netlist_or(netlist, netlist_and(netlist, which, at_1),
                      netlist_and(netlist, literal_not(which), at_0));
}

/* An adder and a subtractor, and a choice between their results. */
static void build_two_adders(Stranger *stranger) {
    Netlist *netlist = &stranger->netlist;
    Literal carry = LITERAL_0, no_borrow = LITERAL_1, total, difference;
    stranger->carry[0] = stranger->subtract;
    for (unsigned i = 0; i < stranger->width; i++) {
        Literal x = stranger->x[i], y = stranger->y[i];
        full_adder(stranger, x, y, carry, &total, &carry);
        full_adder(stranger, x, literal_not(y), no_borrow, &difference, &no_borrow);
        stranger->sum[i] = choose(netlist, stranger->subtract, difference, total);
        stranger->carry[i + 1] = choose(netlist, stranger->subtract, no_borrow, carry);
    }
}

/* Groups of full adders, a carry skips a group that passes it on. */
static void build_skip(Stranger *stranger, unsigned group) {
    Netlist *netlist = &stranger->netlist;
    Literal in = stranger->subtract, passes = LITERAL_1, carry = in;
    invert_b(stranger);
    for (unsigned i = 0; i < stranger->width; i++) {
        Literal either = netlist_xor(netlist, stranger->x[i], stranger->y[i]);
        passes = netlist_and(netlist, passes, either);
        full_adder(stranger, stranger->x[i], stranger->y[i], carry, &stranger->sum[i], &carry);
        if (i % group == group - 1) {
            carry = in = choose(netlist, passes, in, carry);
            passes = LITERAL_1;
        }
        stranger->carry[i + 1] = carry;
    }
}

static void build_skip_4(Stranger *stranger) {
    build_skip(stranger, 4);
}

static void build_skip_7(Stranger *stranger) {
    build_skip(stranger, 7);
}

/* Groups added for either carry. */
static void build_select(Stranger *stranger) {
    Netlist *netlist = &stranger->netlist;
    Literal in = stranger->subtract, carry[2] = {LITERAL_0, LITERAL_1}, sum[2];
    invert_b(stranger);
    for (unsigned i = 0; i < stranger->width; i++) {
        if (i % 6 == 0) {
            in = stranger->carry[i];
            carry[0] = LITERAL_0;
            carry[1] = LITERAL_1;
        }
        for (int k = 0; k < 2; k++)
            full_adder(stranger, stranger->x[i], stranger->y[i], carry[k], &sum[k], &carry[k]);
        stranger->sum[i] = choose(netlist, in, sum[1], sum[0]);
        stranger->carry[i + 1] = choose(netlist, in, carry[1], carry[0]);
    }
}

/* Groups of columns that generate a carry, or pass one on. */
typedef struct {
    Literal *generates, *passes;
    unsigned *first; /* the column where the group begins that ends here */
} Groups;

static void begin_groups(Stranger *stranger, Groups *groups) {
    Netlist *netlist = &stranger->netlist;
    invert_b(stranger);
    groups->generates = calloc(stranger->width, sizeof(Literal));
    groups->passes = calloc(stranger->width, sizeof(Literal));
    groups->first = calloc(stranger->width, sizeof(unsigned));
    for (unsigned i = 0; i < stranger->width; i++) {
        Literal input[2] = {stranger->x[i], stranger->y[i]};
        groups->first[i] = i;
        groups->generates[i] =
            changeable_anywhere(stranger, netlist_and(netlist, input[0], input[1]), input, 2);
        groups->passes[i] =
            changeable_anywhere(stranger, netlist_xor(netlist, input[0], input[1]), input, 2);
        stranger->sum[i] = groups->passes[i];
    }
    groups->generates[0] = netlist_or(netlist, groups->generates[0],
                                      netlist_and(netlist, groups->passes[0], stranger->subtract));
}

/* The group that ends at column high with the one below it, which ends at column low. What a group
 * passes on does not matter where it generates, and no group does both: those changes change
 * nothing. A group that begins at column 0 is known by its carry alone. */
static void join(Stranger *stranger, Groups *groups, unsigned high, unsigned low) {
    Netlist *netlist = &stranger->netlist;
    Literal input[4] = {groups->generates[high], groups->passes[high], groups->generates[low],
                        groups->passes[low]};
    bool whole = groups->first[low] == 0;
    Literal generates = netlist_or(netlist, input[0], netlist_and(netlist, input[1], input[2]));
    Literal passes = netlist_and(netlist, input[1], input[3]);
    for (unsigned row = 0; row < (whole ? 8U : 16U); row++) {
        if ((row & 3) == 3 || row >> 2 == 3)
            continue;
        generates = changeable(stranger, generates, input, whole ? 3 : 4, row);
        bool generated = (row & 1) != 0 || (row & 6) == 6;
        if (!whole && !generated)
            passes = changeable(stranger, passes, input, 4, row);
    }
    groups->generates[high] = generates;
    groups->passes[high] = passes;
    groups->first[high] = groups->first[low];
}

static void end_groups(Stranger *stranger, Groups *groups) {
    for (unsigned i = 0; i < stranger->width; i++)
        stranger->carry[i + 1] = groups->generates[i];
    for (unsigned i = 0; i < stranger->width; i++)
        stranger->sum[i] = netlist_xor(&stranger->netlist, stranger->sum[i], stranger->carry[i]);
    free(groups->generates);
    free(groups->passes);
    free(groups->first);
}

/* Each column's group doubles from level to level (P. M. Kogge, H. S. Stone, 1973). */
static void build_doubling(Stranger *stranger) {
    Groups groups;
    begin_groups(stranger, &groups);
    for (unsigned span = 1; span < stranger->width; span *= 2)
        for (unsigned i = stranger->width; i-- > span;)
            join(stranger, &groups, i, i - span);
    end_groups(stranger, &groups);
}

/* The upper half of each group joins the whole lower half (J. Sklansky, 1960). */
static void build_halving(Stranger *stranger) {
    Groups groups;
    begin_groups(stranger, &groups);
    for (unsigned span = 1; span < stranger->width; span *= 2)
        for (unsigned i = 0; i < stranger->width; i++)
            if (i / span % 2 == 1)
                join(stranger, &groups, i, i / span * span - 1);
    end_groups(stranger, &groups);
}

/* Up a tree of pairs and down again (R. P. Brent, H. T. Kung, 1982). */
static void build_tree(Stranger *stranger) {
    Groups groups;
    unsigned n = stranger->width, span = 1;
    begin_groups(stranger, &groups);
    for (; span < n; span *= 2)
        for (unsigned i = 2 * span - 1; i < n; i += 2 * span)
            join(stranger, &groups, i, i - span);
    for (; span > 0; span /= 2)
        for (unsigned i = 3 * span - 1; i < n; i += 2 * span)
            join(stranger, &groups, i, i - span);
    end_groups(stranger, &groups);
}

/* ---- the vectors --------------------------------------------------------------------------- */

typedef struct {
    const Stranger *stranger;
    Faults *faults;
    unsigned held;
} Trial;

static void try_held(Trial *trial) {
    if (trial->held > 0)
        faults_try(trial->faults, trial->held);
    trial->held = 0;
}

static bool hold(void *context, const Vector *vector) {
    Trial *trial = context;
    uint64_t *word = faults_inputs(trial->faults), bit = UINT64_C(1) << trial->held;
    unsigned n = trial->stranger->width;
    for (unsigned i = 0; i < 2 * n + 2; i++) {
        bool level = i == 0      ? false
                     : i == 1    ? vector->control == 1
                     : i < n + 2 ? word_bit(&vector->a, i - 2)
                                 : word_bit(&vector->b, i - 2 - n);
        word[i + 1] = level ? word[i + 1] | bit : word[i + 1] & ~bit;
    }
    if (++trial->held == 64)
        try_held(trial);
    return true;
}

typedef void Build(Stranger *stranger);

static const struct {
    const char *name;
    Build *build;
} kinds[] = {
    {"ripple", build_ripple},   {"two adders", build_two_adders}, {"skip 4", build_skip_4},
    {"skip 7", build_skip_7},   {"select", build_select},         {"tree", build_tree},
    {"halving", build_halving}, {"doubling", build_doubling},
};

enum { KINDS = sizeof kinds / sizeof kinds[0] };

/* add,sub with one control line; no random vectors. Returns how many changes were tried. */
static uint32_t check(size_t kind, unsigned width) {
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    VectorPlan plan = {.random = 0, .seed = 1};
    VectorCount vectors;
    Stranger stranger;
    unit_init(&unit);
    unit.width = width;
    assert_true(unit_settle(&unit, &problem));
    vectors_count(&unit, &plan, &vectors);
    start(&stranger, width);
    kinds[kind].build(&stranger);
    finish(&stranger);
    Trial trial = {&stranger, faults_new_of(&stranger.netlist, stranger.change, stranger.count), 0};
    vectors_each(&unit, &plan, hold, &trial);
    try_held(&trial);
    faults_settle(trial.faults, vectors.exhaustive);
    FaultCount count = faults_count(trial.faults);
    if (count.by_state[FAULT_CAUGHT] + count.by_state[FAULT_HIDDEN] != count.total)
        fail_msg("%s, %u bits: %u of %u changes missed", kinds[kind].name, width,
                 count.by_state[FAULT_MISSED] + count.by_state[FAULT_UNDECIDED], count.total);
    if (width > 4 && count.first > vectors.by_reason[VECTOR_COMPACT])
        fail_msg("%s, %u bits: the first %llu, more than the compact set", kinds[kind].name, width,
                 (unsigned long long)count.first);
    faults_free(trial.faults);
    drop(&stranger);
    return count.total;
}

static void test_every_change_of_a_cell_is_found(void **state) {
    (void)state;
    for (unsigned width = 1; width <= 40; width++)
        for (size_t kind = 0; kind < KINDS; kind++)
            check(kind, width);
    static const unsigned widths[] = {47, 63, 64, 65, 77, 100, 127, 128, 129};
    for (size_t w = 0; w < sizeof widths / sizeof *widths; w++)
        for (size_t kind = 0; kind < KINDS; kind++)
            check(kind, widths[w]);
}

static void test_wide_strangers(void **state) {
    (void)state;
    for (size_t kind = 0; kind < KINDS; kind++)
        check(kind, 300);
    for (size_t kind = 0; kind + 2 < KINDS; kind++)
        check(kind, 1024);
}

/* Eight columns of full adders: two outputs of eight inputs each, all of which come but in column 0
 * of the adders that have a carry of one level there. */
static void test_all_changes_are_tried(void **state) {
    (void)state;
    assert_int_equal(check(0, 8), 8 * 16);
    assert_int_equal(check(1, 8), 2 * 8 * 16 - 2 * 8);
    assert_true(check(7, 8) > 3 * 8 * 9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_change_of_a_cell_is_found),
        cmocka_unit_test(test_wide_strangers),
        cmocka_unit_test(test_all_changes_are_tried),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
