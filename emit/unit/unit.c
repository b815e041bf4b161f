/* See unit.h: defaults, what makes sense together, and questions about a settled unit. */
#include "unit/unit.h"

#include <assert.h>
#include <stdio.h>
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
    return (unsigned)unit->registers; /* none, output, both */
}

bool unit_keeps_width(const Unit *unit) {
    return unit->detail == DETAIL_OPERATORS ||
           (unit->detail == DETAIL_CELLS && unit->structure == STRUCTURE_RIPPLE);
}

/* ---- settling ----------------------------------------------------------------------------- */

static bool settle_control(Unit *unit, Problem *problem) {
    int count = unit->choice_count;
    if (unit->control == CONTROL_UNSET)
        unit->control = unit->code_bits > 0 || count > 2 ? CONTROL_CODE
                        : count == 2                     ? CONTROL_HIGH
                                                         : CONTROL_FIXED;
    const char *style = control_name(unit->control);
    if (unit->control == CONTROL_FIXED && count != 1)
        return problem_set(problem, STATUS_INVALID,
                           "--control fixed has no pin to choose among %d operations; list one "
                           "operation, or choose --control high, low, one-hot or code",
                           count);
    if ((unit->control == CONTROL_HIGH || unit->control == CONTROL_LOW) && count != 2)
        return problem_set(problem, STATUS_INVALID,
                           "--control %s chooses between two operations and %d %s listed; %s",
                           style, count, count == 1 ? "is" : "are",
                           count == 1 ? "list two, or choose --control fixed"
                                      : "choose --control code or one-hot");
    if (unit->control == CONTROL_ONE_HOT && count < 2)
        return problem_set(
            problem, STATUS_INVALID,
            "--control one-hot with one operation leaves nothing to choose; list two "
            "or more operations, or choose --control fixed");
    if (unit->control != CONTROL_CODE) {
        if (unit->code_bits > 0)
            return problem_set(problem, STATUS_INVALID,
                               "codes are written in --operations, but --control %s has no op "
                               "field; choose --control code, or leave the codes out",
                               style);
        return true;
    }
    if (unit->code_bits > 0)
        return true;
    do
        unit->code_bits++;
    while ((1 << unit->code_bits) < count);
    for (int k = 0; k < count; k++)
        unit->choice[k].code = (uint32_t)k;
    return true;
}

static bool settle_flags(const Unit *unit, Problem *problem) {
    if (unit->flag[FLAG_HALF_CARRY] && unit->width < 4)
        return problem_set(problem, STATUS_INVALID,
                           "half-carry leaves column 3, and a %u-bit unit has none; use --width 4 "
                           "or more, or leave half-carry out of --flags",
                           unit->width);
    return true;
}

/* Two operations that the smallest circuits combine: both on a and b, or counting up and down. */
static bool fewest_has_pair(const Unit *unit) {
    Operation first = unit->choice[0].operation, second = unit->choice[1].operation;
    if (operation_facts(first)->reads_b && operation_facts(second)->reads_b)
        return true;
    return (first == OP_INC && second == OP_DEC) || (first == OP_DEC && second == OP_INC);
}

static bool settle_fewest(const Unit *unit, Problem *problem) {
    bool one_line = unit->choice_count == 2 && !unit_can_idle(unit);
    if (unit->choice_count == 1 || (one_line && fewest_has_pair(unit)))
        return true;
    return problem_set(problem, STATUS_INVALID,
                       "--structure fewest has no circuit for these operations and this control; "
                       "list one operation, two of add, adc, sub, sbc and rsb, or inc,dec, with "
                       "--control high or low, or choose --structure ripple");
}

/* A prefix network on n columns has log2 n levels of cells at least, and uses n - 1 at most. */
static bool settle_depth(const Unit *unit, Problem *problem) {
    unsigned columns = unit_prefix_columns(unit), least = 0;
    while ((1u << least) < columns)
        least++;
    if (unit->structure != STRUCTURE_DEPTH || unit->depth >= least)
        return true;
    return problem_set(
        problem, STATUS_INVALID,
        "--structure depth=%u is too shallow: %u columns of carries need %u levels of "
        "cells; use depth=%u or more",
        unit->depth, columns, least, least);
}

static bool settle_detail(Unit *unit, Problem *problem) {
    bool ripple = unit->structure == STRUCTURE_RIPPLE;
    if (unit->detail == DETAIL_UNSET)
        unit->detail = ripple ? DETAIL_CELLS : DETAIL_GATES;
    if (!ripple && unit->detail == DETAIL_OPERATORS)
        return problem_set(problem, STATUS_INVALID,
                           "--detail operators leaves the carry structure to the synthesizer; use "
                           "--detail gates for %s, or leave --structure out",
                           structure_name(unit->structure));
    if (unit->structure == STRUCTURE_FEWEST && unit->detail == DETAIL_CELLS)
        return problem_set(problem, STATUS_INVALID,
                           "--detail cells has no cells for the fewest structure, in which columns "
                           "differ by what is read of them; use --detail gates");
    return unit->structure != STRUCTURE_FEWEST || settle_fewest(unit, problem);
}

static bool settle_registers(Unit *unit, Problem *problem) {
    if (unit->registers != REGISTERS_NONE) {
        if (unit->reset == RESET_UNSET)
            unit->reset = RESET_SYNC;
        if (unit->reset_low && unit->reset == RESET_NONE)
            return problem_set(problem, STATUS_INVALID,
                               "--reset-level low without a reset pin; choose --reset sync or "
                               "async, or leave --reset-level out");
        return true;
    }
    if (unit->reset == RESET_SYNC || unit->reset == RESET_ASYNC)
        return problem_set(problem, STATUS_INVALID,
                           "--reset %s without registers has nothing to reset; add --registers "
                           "output or both, or choose --reset none",
                           reset_name(unit->reset));
    if (unit->reset_low)
        return problem_set(problem, STATUS_INVALID,
                           "--reset-level low without registers has nothing to reset; add "
                           "--registers output or both, or leave it out");
    if (unit->enable)
        return problem_set(problem, STATUS_INVALID,
                           "--enable without registers has no clock to gate; add --registers "
                           "output or both, or leave --enable out");
    unit->reset = RESET_NONE;
    return true;
}

/* The operations, the width, and the structure where it is not ripple: addsub8, adcsbc16, ... */
static void default_name(Unit *unit) {
    size_t room = sizeof unit->name;
    size_t used = 0;
    for (int k = 0; k < unit->choice_count; k++)
        used += (size_t)snprintf(unit->name + used, room - used, "%s",
                                 operation_name(unit->choice[k].operation));
    used += (size_t)snprintf(unit->name + used, room - used, "%u", unit->width);
    if (unit->structure == STRUCTURE_RIPPLE)
        return;
    size_t start = used;
    used +=
        (size_t)snprintf(unit->name + used, room - used, "_%s", structure_name(unit->structure));
    if (unit->structure == STRUCTURE_DEPTH)
        snprintf(unit->name + used, room - used, "%u", unit->depth);
    for (size_t i = start; unit->name[i] != '\0'; i++)
        if (unit->name[i] == '-')
            unit->name[i] = '_';
}

bool unit_settle_pins(Unit *unit, Problem *problem) {
    if (unit_keeps_width(unit) && strcmp(unit->name, "WIDTH") == 0)
        return problem_set(problem, STATUS_INVALID,
                           "the module cannot be called WIDTH, the name of its parameter; choose "
                           "another --name");
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin)) {
            unit->pin[pin][0] = '\0';
            continue;
        }
        if (unit->pin[pin][0] == '\0')
            snprintf(unit->pin[pin], sizeof unit->pin[pin], "%s", unit_role(unit, (Pin)pin));
        const char *name = unit->pin[pin];
        const char *role = unit_role(unit, (Pin)pin);
        if (unit_keeps_width(unit) && strcmp(name, "WIDTH") == 0)
            return problem_set(problem, STATUS_INVALID,
                               "pin %s cannot be called WIDTH, the name of the module's parameter; "
                               "choose another name",
                               role);
        if (strcmp(name, unit->name) == 0)
            return problem_set(problem, STATUS_INVALID,
                               "pin %s has the module's own name %s; rename one with --name or "
                               "--port %s=NAME",
                               role, problem_quote(name).text, role);
        for (int other = 0; other < pin; other++)
            if (unit_has(unit, (Pin)other) && strcmp(name, unit->pin[other]) == 0)
                return problem_set(problem, STATUS_INVALID,
                                   "pins %s and %s have one name, %s; give each its own with "
                                   "--port ROLE=NAME",
                                   unit_role(unit, (Pin)other), role, problem_quote(name).text);
    }
    return true;
}

bool unit_settle_shape(Unit *unit, Problem *problem) {
    if (unit->width == 0)
        unit->width = 8;
    if (unit->choice_count == 0) {
        unit->choice[0].operation = OP_ADD;
        unit->choice[1].operation = OP_SUB;
        unit->choice_count = 2;
    }
    if (!settle_control(unit, problem) || !settle_flags(unit, problem) ||
        !settle_detail(unit, problem) || !settle_depth(unit, problem) ||
        !settle_registers(unit, problem))
        return false;
    if (unit->name[0] == '\0')
        default_name(unit);
    return true;
}

bool unit_settle(Unit *unit, Problem *problem) {
    return unit_settle_shape(unit, problem) && unit_settle_pins(unit, problem);
}
