/* See flags.h. A new flag is a row of the table at the end. */
#include "gates/flags.h"

#include "base/memory.h"
#include "gates/netlist/core.h"

#include <assert.h>

/* What the flags are made from. */
typedef struct {
    const Unit *unit;
    Netlist *netlist;
    const Literal *signal;
    const Adder *adder;
    Literal carries;       /* in an addition: the carry out of the last column */
    Literal borrows;       /* in a subtraction: the borrow out of the last column */
    Literal overflow;      /* the two last carries differ */
    Literal less_signed;   /* the exact signed result is below 0 */
    Literal less_unsigned; /* the exact unsigned result is below 0 */
    Literal *result;       /* as delivered */
} FlagRow;

/* ---- the exact result --------------------------------------------------------------------- */

/* The carry into column i (out of the last one: i = width), inverted where that literal is 1. */
static Literal carry_inverted(const FlagRow *row, unsigned i, Literal where) {
    assert(i <= row->adder->width);
    const Adder *adder = row->adder;
    if (i == adder->width && adder->leaving != LITERAL_NONE)
        return netlist_xor(row->netlist, adder->leaving, where);
    Literal between = netlist_xor(row->netlist, adder->turned, where);
    return netlist_xor(row->netlist, adder->carry[i], between);
}

/* The carry out of the last column as far as additions are concerned, and the borrow as far as
 * subtractions are: a chain is both. */
static void find_ends(FlagRow *row) {
    const Adder *adder = row->adder;
    Literal last = adder->carry[adder->width];
    bool chained =
        adder->leaving == LITERAL_NONE && adder->turned == row->signal[SIGNAL_SUBTRACTING];
    Literal carry = chained ? LITERAL_NONE : carry_inverted(row, adder->width, LITERAL_0);
    row->carries = chained ? last : carry;
    row->borrows = chained ? last : literal_not(carry);
}

static void find_signs(FlagRow *row) {
    Netlist *netlist = row->netlist;
    const Adder *adder = row->adder;
    unsigned sign = adder->width - 1;
    row->overflow = adder->overflow;
    if (row->overflow == LITERAL_NONE)
        row->overflow = netlist_xor(netlist, adder->carry[sign + 1], adder->carry[sign]);
    netlist_mean(netlist, row->overflow, ROLE_OVERFLOWS, -1);
    row->less_signed = netlist_xor(netlist, adder->sum[sign], row->overflow);
    netlist_mean(netlist, row->less_signed, ROLE_BELOW_ZERO, -1);
    netlist->core->overflow = row->overflow;
    netlist->core->below_zero = row->less_signed;
    row->less_unsigned = netlist_and(netlist, row->signal[SIGNAL_SUBTRACTING], row->borrows);
    netlist_mean(netlist, row->less_unsigned, ROLE_BORROWS, -1);
}

/* ---- saturation --------------------------------------------------------------------------- */

/* An overflow below 0 gives 100...0, one above 011...1; the sign of the exact result is right in
 * both, so the sign bit needs no more than that. */
static void saturate_signed(FlagRow *row) {
    assert(row->overflow != LITERAL_NONE);
    Netlist *netlist = row->netlist;
    unsigned sign = row->adder->width - 1;
    Literal low = netlist_and(netlist, row->overflow, row->less_signed);
    Literal high = netlist_and(netlist, row->overflow, literal_not(row->less_signed));
    netlist_mean(netlist, low, ROLE_TOO_LOW, -1);
    netlist_mean(netlist, high, ROLE_TOO_HIGH, -1);
    for (unsigned i = 0; i < sign; i++) {
        Literal raised = netlist_or(netlist, row->adder->sum[i], high);
        netlist_mean(netlist, raised, ROLE_RAISED, (int)i);
        row->result[i] = netlist_and(netlist, raised, literal_not(low));
    }
    row->result[sign] = row->less_signed;
}

static void saturate_unsigned(FlagRow *row) {
    assert(row->carries != LITERAL_NONE && row->borrows != LITERAL_NONE);
    Netlist *netlist = row->netlist;
    Literal low = row->less_unsigned;
    Literal high = netlist_and(netlist, row->carries, literal_not(row->signal[SIGNAL_SUBTRACTING]));
    netlist_mean(netlist, high, ROLE_TOO_HIGH, -1);
    for (unsigned i = 0; i < row->adder->width; i++) {
        Literal raised = netlist_or(netlist, row->adder->sum[i], high);
        netlist_mean(netlist, raised, ROLE_RAISED, (int)i);
        row->result[i] = netlist_and(netlist, raised, literal_not(low));
    }
}

static void deliver_result(FlagRow *row) {
    for (unsigned i = 0; i < row->adder->width; i++)
        row->result[i] = row->adder->sum[i];
    if (row->unit->overflow == OVERFLOW_SATURATE_SIGNED)
        saturate_signed(row);
    if (row->unit->overflow == OVERFLOW_SATURATE_UNSIGNED)
        saturate_unsigned(row);
    for (unsigned i = 0; i < row->adder->width; i++) {
        netlist_mean(row->netlist, row->result[i], ROLE_FITTED, (int)i);
        row->result[i] = netlist_and(row->netlist, row->result[i], row->signal[SIGNAL_ACTIVE]);
        netlist_mean(row->netlist, row->result[i], ROLE_DELIVERED, (int)i);
        row->netlist->core->result[i] = row->result[i];
        netlist_output(row->netlist, PIN_RESULT, i, row->result[i]);
    }
}

/* ---- the flags ---------------------------------------------------------------------------- */

typedef Literal Gate(Netlist *netlist, Literal x, Literal y);

/* One gate kind over all bits of the result, as a tree: ceil(log2 n) levels. */
static Literal over_result(const FlagRow *row, Gate *gate, Role role) {
    unsigned count = row->adder->width;
    int named = 0;
    Literal *bits = memory_zeroed(count, sizeof bits[0]);
    for (unsigned i = 0; i < count; i++)
        bits[i] = row->result[i];
    while (count > 1) {
        unsigned half = 0;
        for (unsigned i = 0; i + 1 < count; i += 2) {
            bits[half] = gate(row->netlist, bits[i], bits[i + 1]);
            netlist_mean(row->netlist, bits[half++], role, named++);
        }
        if (count % 2 == 1)
            bits[half++] = bits[count - 1];
        count = half;
    }
    Literal literal = bits[0];
    memory_free(bits);
    return literal;
}

/* A carry out of a column as the pin shows it: turned over in a subtraction where the sense is
 * borrow. */
static Literal carry_pin(const FlagRow *row, unsigned i) {
    bool borrow = row->unit->sense == SENSE_BORROW;
    return carry_inverted(row, i, borrow ? row->signal[SIGNAL_SUBTRACTING] : LITERAL_0);
}

/* Each with whether it is about the result as delivered: that is 0 where nothing is requested, and
 * so nothing is left to clear. */

enum { carry_of_result = false };
static Literal build_carry(const FlagRow *row) {
    Literal carry = carry_pin(row, row->adder->width);
    if (row->unit->sense == SENSE_NO_BORROW)
        row->netlist->core->leaving = carry;
    return carry;
}

enum { overflow_of_result = false };
static Literal build_overflow(const FlagRow *row) {
    return row->overflow;
}

enum { zero_of_result = true };
static Literal build_zero(const FlagRow *row) {
    return literal_not(over_result(row, netlist_or, ROLE_ANY));
}

enum { negative_of_result = true };
static Literal build_negative(const FlagRow *row) {
    return row->result[row->adder->width - 1];
}

enum { less_signed_of_result = false };
static Literal build_less_signed(const FlagRow *row) {
    return row->less_signed;
}

enum { less_unsigned_of_result = false };
static Literal build_less_unsigned(const FlagRow *row) {
    return row->less_unsigned;
}

enum { parity_of_result = true };
static Literal build_parity(const FlagRow *row) {
    return over_result(row, netlist_xor, ROLE_ODD);
}

enum { half_carry_of_result = false };
static Literal build_half_carry(const FlagRow *row) {
    assert(row->adder->width >= 4);
    return carry_pin(row, 4);
}

#define FLAG_ROW(ID, id, ...) [FLAG_##ID] = {build_##id, id##_of_result},
static const struct {
    Literal (*build)(const FlagRow *row);
    bool of_result;
} flags[FLAG_COUNT] = {FLAGS(FLAG_ROW)};
#undef FLAG_ROW

bool flag_is_of_result(Flag flag) {
    assert((int)flag < FLAG_COUNT);
    return flags[flag].of_result;
}

bool flags_read_overflow(const Unit *unit) {
    return unit->flag[FLAG_OVERFLOW] || unit->flag[FLAG_LESS_SIGNED] ||
           unit->overflow == OVERFLOW_SATURATE_SIGNED;
}

void flags_build(const Unit *unit, Netlist *netlist, const Operands *operands, const Adder *adder) {
    FlagRow row = {.unit = unit, .netlist = netlist, .signal = operands->signal, .adder = adder};
    row.result = memory_zeroed(unit->width, sizeof row.result[0]);
    netlist_enter(netlist, PART_FLAGS, -1);
    find_ends(&row);
    find_signs(&row);
    deliver_result(&row);
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!unit->flag[flag])
            continue;
        Literal literal = flags[flag].build(&row);
        assert(netlist_has(netlist, literal));
        netlist_mean(netlist, literal, ROLE_UNMASKED, flag);
        netlist->core->flag[flag].plain = literal;
        if (!flag_is_of_result((Flag)flag))
            literal = netlist_and(netlist, literal, operands->signal[SIGNAL_ACTIVE]);
        netlist->core->flag[flag].masked = literal;
        netlist_output(netlist, (Pin)(PIN_FLAG + flag), 0, literal);
    }
    memory_free(row.result);
}
