/* See unit.h: questions about a unit. What makes one valid is in settle.c. */
#include "unit/unit.h"

#include <assert.h>
#include <string.h>

void unit_init(Unit *unit) {
    memset(unit, 0, sizeof *unit);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit->flag[flag] = flag_facts((Flag)flag)->standard;
}

/* ---- what some operation does ------------------------------------------------------------- */

bool unit_any_reads_b(const Unit *unit) {
    for (int k = 0; k < unit->choice_count; k++)
        if (operation_facts(unit->choice[k].operation)->reads_b)
            return true;
    return false;
}

bool unit_any_reads_cin(const Unit *unit) {
    for (int k = 0; k < unit->choice_count; k++)
        if (operation_facts(unit->choice[k].operation)->reads_cin)
            return true;
    return false;
}

bool unit_any_subtracts(const Unit *unit) {
    for (int k = 0; k < unit->choice_count; k++)
        if (operation_facts(unit->choice[k].operation)->subtracts)
            return true;
    return false;
}

/* The first carry is constant, or 1 exactly where y is complemented. */
static bool first_carry_is_spared(const Unit *unit) {
    bool always_0 = true, always_1 = true, goes_with_y = true;
    for (int k = 0; k < unit->choice_count; k++) {
        const OperationFacts *facts = operation_facts(unit->choice[k].operation);
        bool y_is_complemented = facts->y == ADDEND_NOT_B || facts->y == ADDEND_ONES;
        always_0 = always_0 && facts->first == ENTERS_0;
        always_1 = always_1 && facts->first == ENTERS_1;
        goes_with_y = goes_with_y && facts->x == ADDEND_A &&
                      facts->first == (y_is_complemented ? ENTERS_1 : ENTERS_0);
    }
    return always_0 || always_1 || goes_with_y;
}

unsigned unit_prefix_columns(const Unit *unit) {
    return unit->width + (first_carry_is_spared(unit) ? 0 : 1);
}

/* ---- the control pins --------------------------------------------------------------------- */

unsigned unit_control_bits(const Unit *unit) {
    switch (unit->control) {
    case CONTROL_UNSET:
    case CONTROL_FIXED:
        return 0;
    case CONTROL_HIGH:
    case CONTROL_LOW:
        return 1;
    case CONTROL_ONE_HOT:
        return (unsigned)unit->choice_count;
    case CONTROL_CODE:
        return unit->code_bits;
    }
    return 0;
}

uint32_t unit_control_value(const Unit *unit, int choice) {
    assert(choice >= 0 && choice < unit->choice_count);
    switch (unit->control) {
    case CONTROL_UNSET:
    case CONTROL_FIXED:
        return 0;
    case CONTROL_HIGH:
        return choice == 1;
    case CONTROL_LOW:
        return choice == 0;
    case CONTROL_ONE_HOT:
        return UINT32_C(1) << choice;
    case CONTROL_CODE:
        return unit->choice[choice].code;
    }
    return 0;
}

int unit_control_choice(const Unit *unit, uint32_t value) {
    for (int k = 0; k < unit->choice_count; k++)
        if (unit_control_value(unit, k) == value)
            return k;
    return UNIT_NOTHING;
}

bool unit_control_is_contract(const Unit *unit, uint32_t value) {
    bool several = (value & (value - 1)) != 0;
    return !(unit->control == CONTROL_ONE_HOT && several);
}

bool unit_can_idle(const Unit *unit) {
    if (unit->control == CONTROL_CODE)
        return (UINT32_C(1) << unit->code_bits) > (uint32_t)unit->choice_count;
    return unit->control == CONTROL_ONE_HOT;
}

/* ---- the pins ----------------------------------------------------------------------------- */

Pin pin_kind(Pin pin) {
    assert((int)pin >= 0 && (int)pin < PIN_COUNT);
    if (pin >= PIN_FLAG)
        return PIN_FLAG;
    return pin > PIN_DO && pin < PIN_CIN ? PIN_DO : pin;
}

bool pin_is_output(Pin pin) {
    return pin >= PIN_RESULT;
}

Pin pin_of_request(Operation operation) {
    return (Pin)(PIN_DO + (int)operation);
}

Pin pin_of_flag(Flag flag) {
    return (Pin)(PIN_FLAG + (int)flag);
}

Operation pin_operation(Pin pin) {
    assert(pin_kind(pin) == PIN_DO);
    return (Operation)(pin - PIN_DO);
}

Flag pin_flag(Pin pin) {
    assert(pin_kind(pin) == PIN_FLAG);
    return (Flag)(pin - PIN_FLAG);
}

static bool does(const Unit *unit, Operation operation) {
    for (int k = 0; k < unit->choice_count; k++)
        if (unit->choice[k].operation == operation)
            return true;
    return false;
}

bool unit_has(const Unit *unit, Pin pin) {
    switch (pin_kind(pin)) {
    case PIN_CLK:
        return unit->registers != REGISTERS_NONE;
    case PIN_RST:
        return unit->registers != REGISTERS_NONE && unit->reset != RESET_NONE;
    case PIN_EN:
        return unit->enable;
    case PIN_LINE:
        return unit->control == CONTROL_HIGH || unit->control == CONTROL_LOW;
    case PIN_OP:
        return unit->control == CONTROL_CODE;
    case PIN_DO:
        return unit->control == CONTROL_ONE_HOT && does(unit, pin_operation(pin));
    case PIN_CIN:
        return unit_any_reads_cin(unit);
    case PIN_B:
        return unit_any_reads_b(unit);
    case PIN_A:
    case PIN_RESULT:
        return true;
    case PIN_FLAG:
        return unit->flag[pin_flag(pin)];
    }
    return false;
}

const char *unit_role(const Unit *unit, Pin pin) {
    switch (pin_kind(pin)) {
    case PIN_CLK:
        return "clk";
    case PIN_RST:
        return unit->reset_low ? "rst_n" : "rst";
    case PIN_EN:
        return "en";
    case PIN_LINE: {
        bool textbook = unit->choice[0].operation == OP_ADD && unit->choice[1].operation == OP_SUB;
        return textbook ? "subtract" : "mode";
    }
    case PIN_OP:
        return "op";
    case PIN_DO:
        return operation_facts(pin_operation(pin))->pin;
    case PIN_CIN:
        return "cin";
    case PIN_A:
        return "a";
    case PIN_B:
        return "b";
    case PIN_RESULT:
        return "result";
    case PIN_FLAG:
        return flag_facts(pin_flag(pin))->pin;
    }
    return "";
}

unsigned unit_pin_bits(const Unit *unit, Pin pin) {
    if (pin == PIN_A || pin == PIN_B || pin == PIN_RESULT)
        return unit->width;
    return pin == PIN_OP ? unit->code_bits : 1;
}

unsigned unit_latency(const Unit *unit) {
    assert((unsigned)unit->registers < REGISTERS_COUNT);
    return (unsigned)unit->registers; /* none, output, both */
}

bool unit_keeps_width(const Unit *unit) {
    return unit->detail == DETAIL_OPERATORS ||
           (unit->detail == DETAIL_CELLS && unit->structure == STRUCTURE_RIPPLE);
}
