/* See operands.h. Each operation has its levels below, which neither the model nor the row of the
 * operation knows. */
#include "gates/operands.h"

#include "base/memory.h"

#include <assert.h>
#include <string.h>

/* 0, 1, or _ for no matter. The row's cin is inverted for sbc where the sense is borrow, the
 * chain's where it is no-borrow. */
enum { _ = 2, IF_BORROW = 3, IF_NO_BORROW = 4 };

typedef unsigned char Levels[SIGNAL_COUNT];

/* inv_a use_b inv_b set_c use_cin inv_cin subtr active turn_a turn_b set chain_cin turn_cin */
static const Levels add_levels = {0, 1, 0, 0, 0, _, 0, 1, 0, 0, 0, 0, _};
static const Levels adc_levels = {0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 0, 1, 0};
static const Levels sub_levels = {0, 1, 1, 1, _, _, 1, 1, 1, 0, 0, 0, _};
static const Levels sbc_levels = {0, 1, 1, 0, 1, IF_BORROW, 1, 1, 1, 0, 0, 1, IF_NO_BORROW};
static const Levels rsb_levels = {1, 1, 0, 1, _, _, 1, 1, 0, 1, 0, 0, _};
static const Levels inc_levels = {0, 0, 0, 1, _, _, 0, 1, 0, 0, 1, _, _};
static const Levels dec_levels = {0, 0, 1, 0, 0, _, 1, 1, 1, 0, 1, _, _};
static const Levels neg_levels = {1, 0, 0, 1, _, _, 1, 1, 0, 1, 0, 0, _};
static const Levels pass_levels = {0, 0, 0, 0, 0, _, 0, 1, 0, 0, 0, 0, _};

#define LEVELS_ROW(ID, id, ...) [OP_##ID] = id##_levels,
static const unsigned char *const levels[OP_COUNT] = {OPERATIONS(LEVELS_ROW)};
#undef LEVELS_ROW

static unsigned level(const Unit *unit, int choice, Signal signal) {
    unsigned value = levels[unit->choice[choice].operation][signal];
    if (value == IF_BORROW || value == IF_NO_BORROW)
        return (value == IF_BORROW) == (unit->sense == SENSE_BORROW);
    return value;
}

SignalPlan operands_signal(const Unit *unit, Signal signal) {
    assert(signal < SIGNAL_COUNT);
    assert(unit->choice_count > 0 && unit->choice_count <= OP_COUNT);
    SignalPlan plan = {LEVEL_VARIES, 0, 0};
    for (int k = 0; k < unit->choice_count; k++) {
        unsigned value = level(unit, k, signal);
        if (value == 1)
            plan.on |= UINT32_C(1) << k;
        if (value == _)
            plan.free |= UINT32_C(1) << k;
    }
    uint32_t all = (UINT32_C(1) << unit->choice_count) - 1;
    bool idle_matters = signal == SIGNAL_ACTIVE && unit_can_idle(unit);
    if (plan.on == 0)
        plan.level = LEVEL_0;
    else if ((plan.on | plan.free) == all && !idle_matters)
        plan.level = LEVEL_1;
    return plan;
}

/* ---- decoding the control pins ------------------------------------------------------------ */

/* A Boolean function of the op field as a truth table over its values from base on, one char a
 * value: 0, 1 or _ for no matter. Halved by the field's top bit until it is constant. */
static Literal decode_code(Netlist *netlist, const unsigned char *table, const Literal *field,
                           unsigned bits) {
    uint32_t size = UINT32_C(1) << bits;
    bool zero = false, one = false;
    for (uint32_t k = 0; k < size; k++) {
        zero = zero || table[k] == 0;
        one = one || table[k] == 1;
    }
    if (!one)
        return LITERAL_0;
    if (!zero)
        return LITERAL_1;
    const unsigned char *low = table, *high = table + size / 2;
    bool same = true, opposite = true;
    for (uint32_t k = 0; k < size / 2; k++) {
        bool known = low[k] != _ && high[k] != _;
        same = same && !(known && low[k] != high[k]);
        opposite = opposite && !(known && low[k] == high[k]);
    }
    assert(bits > 0);
    Literal select = field[bits - 1];
    if (same || opposite) {
        unsigned char *joined = memory_zeroed(size / 2, 1);
        for (uint32_t k = 0; k < size / 2; k++) {
            unsigned char other = (unsigned char)(high[k] == _ || same ? high[k] : !high[k]);
            joined[k] = low[k] != _ ? low[k] : other;
        }
        Literal inner = decode_code(netlist, joined, field, bits - 1);
        memory_free(joined);
        return same ? inner : netlist_xor(netlist, inner, select);
    }
    Literal at_0 = decode_code(netlist, low, field, bits - 1);
    Literal at_1 = decode_code(netlist, high, field, bits - 1);
    if (at_0 == LITERAL_1)
        return netlist_or(netlist, literal_not(select), at_1);
    if (at_1 == LITERAL_1)
        return netlist_or(netlist, select, at_0);
    return netlist_or(netlist, netlist_and(netlist, at_0, literal_not(select)),
                      netlist_and(netlist, at_1, select));
}

static Literal signal_from_code(const Unit *unit, Netlist *netlist, Signal signal,
                                const SignalPlan *plan, const Literal *pins) {
    uint32_t size = UINT32_C(1) << unit->code_bits;
    unsigned char *table = memory_zeroed(size, 1);
    memset(table, signal == SIGNAL_ACTIVE ? 0 : _, size);
    for (int k = 0; k < unit->choice_count; k++) {
        uint32_t level_of_k = plan->free >> k & 1 ? (uint32_t)_ : plan->on >> k & 1;
        table[unit->choice[k].code] = (unsigned char)level_of_k;
    }
    Literal literal = decode_code(netlist, table, pins, unit->code_bits);
    memory_free(table);
    return literal;
}

/* The OR of the requests that want it. */
static Literal signal_from_requests(const Unit *unit, Netlist *netlist, const SignalPlan *plan,
                                    const Literal *pins) {
    Literal literal = LITERAL_0;
    for (int k = 0; k < unit->choice_count; k++)
        if (plan->on >> k & 1)
            literal = netlist_or(netlist, literal, pins[k]);
    return literal;
}

/* The first signal that asks for the same of every operation: its gates serve for both. */
static int same_signal(const Unit *unit, int signal) {
    SignalPlan plan = operands_signal(unit, (Signal)signal);
    int same = 0;
    for (; same < signal; same++) {
        SignalPlan other = operands_signal(unit, (Signal)same);
        bool idle = same == SIGNAL_ACTIVE || signal == SIGNAL_ACTIVE;
        if (!idle && plan.level == other.level && plan.on == other.on && plan.free == other.free)
            break;
    }
    return same;
}

static Literal signal_literal(const Unit *unit, Netlist *netlist, Signal signal,
                              const Literal *pins) {
    SignalPlan plan = operands_signal(unit, signal);
    if (plan.level != LEVEL_VARIES)
        return plan.level == LEVEL_1 ? LITERAL_1 : LITERAL_0;
    switch (unit->control) {
    case CONTROL_HIGH: /* the pin is 1 for choice 1 */
        return plan.on >> 1 & 1 ? pins[0] : literal_not(pins[0]);
    case CONTROL_LOW:
        return plan.on >> 1 & 1 ? literal_not(pins[0]) : pins[0];
    case CONTROL_ONE_HOT:
        return signal_from_requests(unit, netlist, &plan, pins);
    case CONTROL_CODE:
        return signal_from_code(unit, netlist, signal, &plan, pins);
    case CONTROL_FIXED: /* nothing varies */
    case CONTROL_UNSET:
        break;
    }
    return LITERAL_0;
}

/* ---- the row ------------------------------------------------------------------------------ */

/* The unit's inputs, in the order of Pin; pins[] gets the control pins, and a, b their bits. */
static void add_inputs(const Unit *unit, Netlist *netlist, Literal *pins, Literal *cin, Literal *a,
                       Literal *b) {
    if (unit->control == CONTROL_HIGH || unit->control == CONTROL_LOW)
        pins[0] = netlist_input(netlist, PIN_LINE, 0);
    if (unit->control == CONTROL_CODE)
        for (unsigned bit = 0; bit < unit->code_bits; bit++)
            pins[bit] = netlist_input(netlist, PIN_OP, bit);
    if (unit->control == CONTROL_ONE_HOT)
        for (int k = 0; k < unit->choice_count; k++)
            pins[k] = netlist_input(netlist, (Pin)(PIN_DO + (int)unit->choice[k].operation), 0);
    *cin = LITERAL_0;
    if (unit_has(unit, PIN_CIN))
        *cin = netlist_input(netlist, PIN_CIN, 0);
    for (unsigned i = 0; i < unit->width; i++)
        a[i] = netlist_input(netlist, PIN_A, i);
    for (unsigned i = 0; i < unit->width && unit_has(unit, PIN_B); i++)
        b[i] = netlist_input(netlist, PIN_B, i);
}

/* set, or cin (inverted where turn) where use. */
static Literal first_bit(Netlist *netlist, const Literal *signal, Literal cin, Signal set,
                         Signal use, Signal turn, Role role, int index) {
    assert(netlist_has(netlist, cin));
    assert(signal[set] != LITERAL_NONE && signal[use] != LITERAL_NONE);
    Literal carried = netlist_xor(netlist, cin, signal[turn]);
    Literal used = netlist_and(netlist, signal[use], carried);
    Literal first = netlist_or(netlist, signal[set], used);
    netlist_mean(netlist, first, role, index);
    netlist_mean(netlist, used, ROLE_USED_CIN, -1);
    netlist_mean(netlist, carried, ROLE_CARRY_WANTED, -1);
    return first;
}

void operands_build(const Unit *unit, Netlist *netlist, Operands *operands) {
    assert(netlist->node_count == 1 && netlist->output_count == 0);
    Literal pins[UNIT_CODE_BITS_MAX]; /* as many as the widest control has */
    Literal cin;
    Literal **rows[] = {&operands->x, &operands->y, &operands->a, &operands->b};
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++)
        *rows[k] = memory_zeroed(unit->width, sizeof(Literal));
    add_inputs(unit, netlist, pins, &cin, operands->a, operands->b);

    netlist_enter(netlist, PART_CONTROL, -1);
    Literal *signal = operands->signal;
    for (int k = 0; k < SIGNAL_COUNT; k++) {
        int same = same_signal(unit, k);
        signal[k] = same < k ? signal[same] : signal_literal(unit, netlist, (Signal)k, pins);
        netlist_mean(netlist, signal[k], role_of_signal((Signal)k), -1);
    }
    operands->first = first_bit(netlist, signal, cin, SIGNAL_SET_CARRY, SIGNAL_USE_CIN,
                                SIGNAL_INVERT_CIN, ROLE_FIRST_CARRY, -1);
    operands->chain = first_bit(netlist, signal, cin, SIGNAL_SET_CHAIN, SIGNAL_CHAIN_CIN,
                                SIGNAL_TURN_CIN, ROLE_CHAIN, 0);

    netlist_enter(netlist, PART_OPERANDS, -1);
    for (unsigned i = 0; i < unit->width; i++) {
        operands->x[i] = netlist_xor(netlist, operands->a[i], signal[SIGNAL_INVERT_A]);
        operands->b[i] = netlist_and(netlist, operands->b[i], signal[SIGNAL_USE_B]);
        operands->y[i] = netlist_xor(netlist, operands->b[i], signal[SIGNAL_INVERT_B]);
        netlist_mean(netlist, operands->x[i], ROLE_OPERAND_A, (int)i);
        netlist_mean(netlist, operands->y[i], ROLE_OPERAND_B, (int)i);
        netlist_mean(netlist, operands->b[i], ROLE_USED_B, (int)i);
    }
}

void operands_free(Operands *operands) {
    memory_free(operands->x);
    memory_free(operands->y);
    memory_free(operands->a);
    memory_free(operands->b);
}
