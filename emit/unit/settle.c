/* What makes a unit valid, see unit.h: every property is within its range, what was left open has its
 * default, and what makes no sense together is refused. In the messages a property stands in
 * backquotes, under the name that its option has without the dashes. */
#include "unit/unit.h"

#include "base/memory.h"

#include <stdio.h>
#include <string.h>

/* ---- each property alone ------------------------------------------------------------------- */

/* A value of an enum, which a caller may have set to any number. */
static bool check_value(const char *property, unsigned value, const Value *values, unsigned count,
                        Problem *problem) {
    if (value < count)
        return true;
    char *known = values_text(values, (int)count, " or ");
    problem_set(problem, STATUS_INVALID, "`%s` has no value number %u; it is %s", property, value,
                known);
    memory_free(known);
    return false;
}

static bool check_values(const Unit *unit, Problem *problem) {
    return check_value("control", (unsigned)unit->control, control_values, CONTROL_COUNT,
                       problem) &&
           check_value("subtract-carry", (unsigned)unit->sense, sense_values, SENSE_COUNT,
                       problem) &&
           check_value("overflow", (unsigned)unit->overflow, overflow_values, OVERFLOW_COUNT,
                       problem) &&
           check_value("structure", (unsigned)unit->structure, structure_values, STRUCTURE_COUNT,
                       problem) &&
           check_value("detail", (unsigned)unit->detail, detail_values, DETAIL_COUNT, problem) &&
           check_value("registers", (unsigned)unit->registers, registers_values, REGISTERS_COUNT,
                       problem) &&
           check_value("reset", (unsigned)unit->reset, reset_values, RESET_COUNT, problem);
}

static bool check_number(const char *property, unsigned value, unsigned most, Problem *problem) {
    if (value >= 1 && value <= most)
        return true;
    return problem_set(problem, STATUS_INVALID,
                       "`%s` cannot be %u; it is a whole number from 1 to %u", property, value,
                       most);
}

static bool check_operations(const Unit *unit, Problem *problem) {
    if (unit->choice_count < 0 || unit->choice_count > OP_COUNT)
        return problem_set(problem, STATUS_INVALID,
                           "`operations` cannot be %d operations; there are %d, each listed once",
                           unit->choice_count, OP_COUNT);
    for (int k = 0; k < unit->choice_count; k++) {
        Operation operation = unit->choice[k].operation;
        if ((unsigned)operation >= OP_COUNT)
            return problem_set(problem, STATUS_INVALID,
                               "`operations` has no operation number %u; there are %d",
                               (unsigned)operation, OP_COUNT);
        for (int other = 0; other < k; other++)
            if (unit->choice[other].operation == operation)
                return problem_set(problem, STATUS_INVALID,
                                   "`operations` lists %s twice; list each operation once",
                                   operation_name(operation));
    }
    return true;
}

/* A name that was given ("" is none): it ends within its room, and Verilog allows it. */
static bool check_name(const char name[UNIT_NAME_MAX + 1], const char *what, Problem *problem) {
    if (memchr(name, '\0', UNIT_NAME_MAX + 1) == NULL)
        return problem_set(problem, STATUS_INVALID,
                           "the %s does not end; a name has at most %d characters", what,
                           UNIT_NAME_MAX);
    return name[0] == '\0' || unit_check_name(name, what, problem);
}

/* ---- the control pins ---------------------------------------------------------------------- */

/* Codes that the caller has set fit into their bits, and no two are the same. */
static bool check_codes(const Unit *unit, Problem *problem) {
    if (!check_number("operations' code bits", unit->code_bits, UNIT_CODE_BITS_MAX, problem))
        return false;
    for (int k = 0; k < unit->choice_count; k++) {
        const Choice *choice = &unit->choice[k];
        const char *name = operation_name(choice->operation);
        if (choice->code >> unit->code_bits != 0)
            return problem_set(
                problem, STATUS_INVALID,
                "%s in `operations` has the code %u, which does not fit %u bits; write "
                "longer codes, or one for every operation",
                name, choice->code, unit->code_bits);
        for (int other = 0; other < k; other++)
            if (unit->choice[other].code == choice->code)
                return problem_set(problem, STATUS_INVALID,
                                   "%s and %s in `operations` have the same code; give each "
                                   "operation its own",
                                   operation_name(unit->choice[other].operation), name);
    }
    return true;
}

/* Each operation's place in the list, in as few bits as there must be. */
static void codes_by_place(Unit *unit) {
    unit->code_bits = 1;
    while ((1 << unit->code_bits) < unit->choice_count)
        unit->code_bits++;
    for (int k = 0; k < unit->choice_count; k++)
        unit->choice[k].code = (uint32_t)k;
}

/* Does the style have as many operations as it chooses among? */
static bool check_control(const Unit *unit, Problem *problem) {
    int count = unit->choice_count;
    const char *style = control_name(unit->control);
    if (unit->control == CONTROL_FIXED && count != 1)
        return problem_set(problem, STATUS_INVALID,
                           "`control` fixed has no pin to choose among %d operations; list one "
                           "operation, or choose `control` high, low, one-hot or code",
                           count);
    if ((unit->control == CONTROL_HIGH || unit->control == CONTROL_LOW) && count != 2)
        return problem_set(problem, STATUS_INVALID,
                           "`control` %s chooses between two operations and %d %s listed; %s",
                           style, count, count == 1 ? "is" : "are",
                           count == 1 ? "list two, or choose `control` fixed"
                                      : "choose `control` code or one-hot");
    if (unit->control == CONTROL_ONE_HOT && count < 2)
        return problem_set(
            problem, STATUS_INVALID,
            "`control` one-hot with one operation leaves nothing to choose; list two "
            "or more operations, or choose `control` fixed");
    if (unit->control != CONTROL_CODE && unit->code_bits > 0)
        return problem_set(problem, STATUS_INVALID,
                           "codes are written in `operations`, but `control` %s has no op field; "
                           "choose `control` code, or leave the codes out",
                           style);
    return true;
}

static bool settle_control(Unit *unit, Problem *problem) {
    int count = unit->choice_count;
    if (unit->control == CONTROL_UNSET)
        unit->control = unit->code_bits > 0 || count > 2 ? CONTROL_CODE
                        : count == 2                     ? CONTROL_HIGH
                                                         : CONTROL_FIXED;
    if (!check_control(unit, problem))
        return false;
    if (unit->control != CONTROL_CODE)
        return true;
    if (unit->code_bits > 0)
        return check_codes(unit, problem);
    codes_by_place(unit);
    return true;
}

/* ---- what makes sense together ------------------------------------------------------------- */

static bool settle_flags(const Unit *unit, Problem *problem) {
    if (unit->flag[FLAG_HALF_CARRY] && unit->width < 4)
        return problem_set(problem, STATUS_INVALID,
                           "half-carry leaves column 3, and a %u-bit unit has none; use `width` 4 "
                           "or more, or leave half-carry out of `flags`",
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
                       "`structure` fewest has no circuit for these operations and this control; "
                       "list one operation, two of add, adc, sub, sbc and rsb, or inc,dec, with "
                       "`control` high or low, or choose `structure` ripple");
}

/* A prefix network on n columns has log2 n levels of cells at least, and uses n - 1 at most. */
static bool settle_depth(Unit *unit, Problem *problem) {
    unsigned columns = unit_prefix_columns(unit), least = 0;
    if (!structure_facts(unit->structure)->has_number) {
        unit->depth = 0;
        return true;
    }
    if (!check_number("structure", unit->depth, UNIT_WIDTH_MAX, problem))
        return false;
    while ((1u << least) < columns)
        least++;
    if (unit->structure != STRUCTURE_DEPTH || unit->depth >= least)
        return true;
    return problem_set(problem, STATUS_INVALID,
                       "`structure` depth=%u is too shallow: %u columns of carries need %u levels "
                       "of cells; use depth=%u or more",
                       unit->depth, columns, least, least);
}

static bool settle_detail(Unit *unit, Problem *problem) {
    bool ripple = unit->structure == STRUCTURE_RIPPLE;
    if (unit->detail == DETAIL_UNSET)
        unit->detail = ripple ? DETAIL_CELLS : DETAIL_GATES;
    if (!ripple && unit->detail == DETAIL_OPERATORS)
        return problem_set(problem, STATUS_INVALID,
                           "`detail` operators leaves the carry structure to the synthesizer; use "
                           "`detail` gates for %s, or leave `structure` out",
                           structure_name(unit->structure));
    if (unit->structure == STRUCTURE_FEWEST && unit->detail == DETAIL_CELLS)
        return problem_set(problem, STATUS_INVALID,
                           "`detail` cells has no cells for the fewest structure, in which columns "
                           "differ by what is read of them; use `detail` gates");
    return unit->structure != STRUCTURE_FEWEST || settle_fewest(unit, problem);
}

static bool settle_registers(Unit *unit, Problem *problem) {
    if (unit->registers != REGISTERS_NONE) {
        if (unit->reset == RESET_UNSET)
            unit->reset = RESET_SYNC;
        if (unit->reset_low && unit->reset == RESET_NONE)
            return problem_set(problem, STATUS_INVALID,
                               "`reset-level` low without a reset pin; choose `reset` sync or "
                               "async, or leave `reset-level` out");
        return true;
    }
    if (unit->reset == RESET_SYNC || unit->reset == RESET_ASYNC)
        return problem_set(problem, STATUS_INVALID,
                           "`reset` %s without registers has nothing to reset; add `registers` "
                           "output or both, or choose `reset` none",
                           reset_name(unit->reset));
    if (unit->reset_low)
        return problem_set(problem, STATUS_INVALID,
                           "`reset-level` low without registers has nothing to reset; add "
                           "`registers` output or both, or leave it out");
    if (unit->enable)
        return problem_set(problem, STATUS_INVALID,
                           "`enable` without registers has no clock to gate; add `registers` "
                           "output or both, or leave `enable` out");
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
    StructureText structure = structure_text(unit->structure, unit->depth);
    unit->name[used++] = '_';
    for (const char *c = structure.text; *c != '\0'; c++)
        if (*c != '=')
            unit->name[used++] = *c == '-' ? '_' : *c;
    unit->name[used] = '\0';
}

/* ---- everything ---------------------------------------------------------------------------- */

bool unit_settle_pins(Unit *unit, Problem *problem) {
    if (unit_keeps_width(unit) && strcmp(unit->name, "WIDTH") == 0)
        return problem_set(problem, STATUS_INVALID,
                           "the module cannot be called WIDTH, the name of its parameter; choose "
                           "another `name`");
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin)) {
            unit->pin[pin][0] = '\0';
            continue;
        }
        if (unit->pin[pin][0] == '\0')
            snprintf(unit->pin[pin], sizeof unit->pin[pin], "%s", unit_role(unit, (Pin)pin));
        const char *name = unit->pin[pin];
        const char *role = unit_role(unit, (Pin)pin);
        if (!check_name(name, "pin name", problem))
            return false;
        if (unit_keeps_width(unit) && strcmp(name, "WIDTH") == 0)
            return problem_set(problem, STATUS_INVALID,
                               "pin %s cannot be called WIDTH, the name of the module's parameter; "
                               "choose another name",
                               role);
        if (strcmp(name, unit->name) == 0)
            return problem_set(problem, STATUS_INVALID,
                               "pin %s has the module's own name %s; rename one with `name` or "
                               "`port` %s=NAME",
                               role, problem_quote(name).text, role);
        for (int other = 0; other < pin; other++)
            if (unit_has(unit, (Pin)other) && strcmp(name, unit->pin[other]) == 0)
                return problem_set(problem, STATUS_INVALID,
                                   "pins %s and %s have one name, %s; give each its own with "
                                   "`port` ROLE=NAME",
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
    if (!check_number("width", unit->width, UNIT_WIDTH_MAX, problem) ||
        !check_operations(unit, problem) || !check_values(unit, problem) ||
        !check_name(unit->name, "module name", problem))
        return false;
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
