/* See inputs.h. */
#include "proof/inputs.h"

#include <assert.h>
#include <string.h>

/* The level of a bit of an input pin, the control pins taken as one number (PIN_OP). */
static unsigned level_of(const Unit *unit, Pin pin, unsigned bit) {
    if (pin == PIN_OP)
        return bit;
    unsigned control = unit_control_bits(unit);
    if (pin == PIN_CIN)
        return control;
    unsigned top = control + (unit_has(unit, PIN_CIN) ? 1 : 0);
    unsigned each = unit_has(unit, PIN_B) ? 2 : 1;
    return top + (unit->width - 1 - bit) * each + (pin == PIN_B ? 1 : 0);
}

unsigned inputs_levels(const Unit *unit) {
    return level_of(unit, unit_has(unit, PIN_B) ? PIN_B : PIN_A, 0) + 1;
}

/* A request counts where no earlier one is made. */
static void keep_contract(Diagrams *diagrams, Inputs *inputs) {
    Diagram none = DIAGRAM_1;
    for (unsigned k = 0; k < unit_control_bits(inputs->unit); k++) {
        Diagram request = inputs->at[k];
        inputs->at[k] = diagram_and(diagrams, request, none);
        none = diagram_and(diagrams, none, diagram_not(request));
    }
}

void inputs_make(const Unit *unit, Diagrams *diagrams, Inputs *inputs) {
    inputs->unit = unit;
    inputs->levels = inputs_levels(unit);
    assert(inputs->levels <= INPUTS_MAX);
    for (unsigned level = 0; level < inputs->levels; level++)
        inputs->at[level] = diagram_variable(diagrams, level);
    if (unit->control == CONTROL_ONE_HOT)
        keep_contract(diagrams, inputs);
    for (unsigned level = 0; level < inputs->levels; level++)
        diagram_hold(diagrams, inputs->at[level]);
}

void inputs_drop(Diagrams *diagrams, const Inputs *inputs) {
    for (unsigned level = 0; level < inputs->levels; level++)
        diagram_drop(diagrams, inputs->at[level]);
}

Diagram inputs_control(const Inputs *inputs, unsigned bit) {
    assert(bit < unit_control_bits(inputs->unit));
    return inputs->at[bit];
}

Diagram inputs_of(const Inputs *inputs, Pin pin, unsigned bit) {
    const Unit *unit = inputs->unit;
    if (!unit_has(unit, pin))
        return DIAGRAM_0;
    if (pin == PIN_OP || pin == PIN_LINE)
        return inputs_control(inputs, bit);
    if (pin < PIN_DO || pin >= PIN_CIN)
        return inputs->at[level_of(unit, pin, bit)];
    unsigned request = 0;
    while (PIN_DO + (int)unit->choice[request].operation != (int)pin)
        request++;
    return inputs_control(inputs, request);
}

Diagram inputs_contract(Diagrams *diagrams, const Inputs *inputs) {
    if (inputs->unit->control != CONTROL_ONE_HOT)
        return DIAGRAM_1;
    Diagram none = DIAGRAM_1, several = DIAGRAM_0;
    for (unsigned k = 0; k < unit_control_bits(inputs->unit); k++) {
        Diagram request = diagram_variable(diagrams, k);
        Diagram second = diagram_and(diagrams, request, diagram_not(none));
        several = diagram_or(diagrams, several, second);
        none = diagram_and(diagrams, none, diagram_not(request));
    }
    return diagram_not(several);
}

static void levels_of_operand(const Unit *unit, Pin pin, const bool *variable, uint64_t *limb) {
    memset(limb, 0, UNIT_WIDTH_MAX / 8);
    for (unsigned bit = 0; bit < unit->width && unit_has(unit, pin); bit++)
        limb[bit / 64] |= (uint64_t)variable[level_of(unit, pin, bit)] << bit % 64;
}

void inputs_levels_of(const Inputs *inputs, const bool *variable, InputLevels *levels) {
    const Unit *unit = inputs->unit;
    levels->control = 0;
    for (unsigned bit = 0; bit < unit_control_bits(unit); bit++)
        levels->control |= (uint32_t)variable[bit] << bit;
    if (unit->control == CONTROL_ONE_HOT)
        levels->control &= ~levels->control + 1; /* the first request alone */
    levels->cin = unit_has(unit, PIN_CIN) && variable[level_of(unit, PIN_CIN, 0)];
    levels_of_operand(unit, PIN_A, variable, levels->a);
    levels_of_operand(unit, PIN_B, variable, levels->b);
}

unsigned inputs_count(const Unit *unit, unsigned *exponent) {
    unsigned odd = 1;
    *exponent = inputs_levels(unit);
    if (unit->control == CONTROL_ONE_HOT) {
        odd = unit_control_bits(unit) + 1; /* each request alone, or none */
        *exponent -= unit_control_bits(unit);
    }
    for (; odd % 2 == 0; odd /= 2)
        ++*exponent;
    return odd;
}
