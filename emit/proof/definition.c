/* See definition.h. A new operation is a formula_..., a new flag a define_... */
#include "proof/definition.h"

#include "base/memory.h"

#include <assert.h>

/* An operation on numbers: first + second + extra, or first - second - extra. */
typedef enum { NUMBER_0, NUMBER_A, NUMBER_B } Number;
typedef enum { PLUS, MINUS } Sign;
typedef enum { EXTRA_0, EXTRA_1, EXTRA_CIN } Extra; /* the last: the carry, or borrow, at cin */

typedef struct {
    Number first;
    Sign sign;
    Number second;
    Extra extra;
} Formula;

static const Formula formula_add = {NUMBER_A, PLUS, NUMBER_B, EXTRA_0};
static const Formula formula_adc = {NUMBER_A, PLUS, NUMBER_B, EXTRA_CIN};
static const Formula formula_sub = {NUMBER_A, MINUS, NUMBER_B, EXTRA_0};
static const Formula formula_sbc = {NUMBER_A, MINUS, NUMBER_B, EXTRA_CIN};
static const Formula formula_rsb = {NUMBER_B, MINUS, NUMBER_A, EXTRA_0};
static const Formula formula_inc = {NUMBER_A, PLUS, NUMBER_0, EXTRA_1};
static const Formula formula_dec = {NUMBER_A, MINUS, NUMBER_0, EXTRA_1};
static const Formula formula_neg = {NUMBER_0, MINUS, NUMBER_A, EXTRA_0};
static const Formula formula_pass = {NUMBER_A, PLUS, NUMBER_0, EXTRA_0};

#define FORMULA_ROW(ID, id, ...) [OP_##ID] = &formula_##id,
static const Formula *const formulas[OP_COUNT] = {OPERATIONS(FORMULA_ROW)};

/* An operation worked on paper, and where its result is cut to the highest number there is, or to
 * the lowest. All are held. */
typedef struct {
    Diagram chosen; /* the control pins ask for it */
    bool minus;
    Diagram *digit;   /* the result modulo 2^width */
    Diagram nibble;   /* the carry, or borrow, out of column 3 */
    Diagram out;      /* the carry, or borrow, out of the last column */
    Diagram negative; /* the exact result, of signed numbers, is below 0 */
    Diagram overflow; /* and does not fit into width bits */
    Diagram none;     /* every digit is 0 */
    Diagram odd;      /* an odd number of digits is 1 */
    Diagram above;    /* cut to the highest number */
    Diagram below;    /* cut to the lowest */
} Worked;

struct Definition {
    const Unit *unit;
    const Inputs *inputs;
    Diagrams *diagrams;
    Worked worked[OP_COUNT]; /* by choice */
};

/* ---- an operation, column by column --------------------------------------------------------- */

/* One column: x + y + carry in is digit + 2 * carry out. */
static Diagram add_column(Diagrams *d, Diagram x, Diagram y, Diagram *carry) {
    Diagram digit = diagram_xor(d, diagram_xor(d, x, y), *carry);
    Diagram one_and_carry = diagram_and(d, diagram_or(d, x, y), *carry);
    *carry = diagram_or(d, diagram_and(d, x, y), one_and_carry);
    return digit;
}

/* One column: x - y - borrow in is digit - 2 * borrow out. */
static Diagram subtract_column(Diagrams *d, Diagram x, Diagram y, Diagram *borrow) {
    Diagram differ = diagram_xor(d, x, y);
    Diagram digit = diagram_xor(d, differ, *borrow);
    Diagram equal_and_borrow = diagram_and(d, diagram_not(differ), *borrow);
    *borrow = diagram_or(d, diagram_and(d, diagram_not(x), y), equal_and_borrow);
    return digit;
}

static Diagram work_column(Diagrams *d, bool minus, Diagram x, Diagram y, Diagram *carry) {
    return minus ? subtract_column(d, x, y, carry) : add_column(d, x, y, carry);
}

static Diagram number_bit(const Inputs *inputs, Number number, unsigned bit) {
    if (number == NUMBER_0)
        return DIAGRAM_0;
    return inputs_of(inputs, number == NUMBER_A ? PIN_A : PIN_B, bit);
}

/* Replaces what a variable holds. */
static void set(Diagrams *d, Diagram *held, Diagram value) {
    diagram_hold(d, value);
    diagram_drop(d, *held);
    *held = value;
}

/* A carry as its pin shows it, and back. */
static Diagram at_pin(const Definition *definition, bool minus, Diagram carry) {
    bool inverted = minus && definition->unit->sense == SENSE_NO_BORROW;
    return inverted ? diagram_not(carry) : carry;
}

static Diagram extra_of(const Definition *definition, const Formula *formula) {
    if (formula->extra == EXTRA_CIN)
        return at_pin(definition, formula->sign == MINUS,
                      inputs_of(definition->inputs, PIN_CIN, 0));
    return formula->extra == EXTRA_1 ? DIAGRAM_1 : DIAGRAM_0;
}

static void work_columns(const Definition *definition, const Formula *formula, Worked *worked) {
    Diagrams *d = definition->diagrams;
    unsigned width = definition->unit->width;
    set(d, &worked->out, extra_of(definition, formula));
    for (unsigned bit = 0; bit < width; bit++) {
        Diagram carry = worked->out;
        set(d, &worked->digit[bit],
            work_column(d, worked->minus, number_bit(definition->inputs, formula->first, bit),
                        number_bit(definition->inputs, formula->second, bit), &carry));
        set(d, &worked->out, carry);
        if (definition->unit->flag[FLAG_ZERO])
            set(d, &worked->none, diagram_and(d, worked->none, diagram_not(worked->digit[bit])));
        if (definition->unit->flag[FLAG_PARITY])
            set(d, &worked->odd, diagram_xor(d, worked->odd, worked->digit[bit]));
        if (bit == 3)
            set(d, &worked->nibble, carry);
        diagram_tidy(d, false);
    }
    /* A signed number has its sign in every column above: one more column is the exact sign. */
    Diagram beyond = worked->out;
    set(d, &worked->negative,
        work_column(d, worked->minus, number_bit(definition->inputs, formula->first, width - 1),
                    number_bit(definition->inputs, formula->second, width - 1), &beyond));
    set(d, &worked->overflow, diagram_xor(d, worked->negative, worked->digit[width - 1]));
}

/* ---- what does not fit ---------------------------------------------------------------------- */

static void find_cut(const Definition *definition, Worked *worked) {
    Diagrams *d = definition->diagrams;
    switch (definition->unit->overflow) {
    case OVERFLOW_SATURATE_SIGNED:
        set(d, &worked->above, diagram_and(d, worked->overflow, diagram_not(worked->negative)));
        set(d, &worked->below, diagram_and(d, worked->overflow, worked->negative));
        break;
    case OVERFLOW_SATURATE_UNSIGNED:
        set(d, worked->minus ? &worked->below : &worked->above, worked->out);
        break;
    case OVERFLOW_WRAP:
        break;
    }
}

/* A bit of the highest number, and of the lowest. */
static bool highest(const Unit *unit, unsigned bit) {
    return unit->overflow == OVERFLOW_SATURATE_UNSIGNED || bit != unit->width - 1;
}

static bool lowest(const Unit *unit, unsigned bit) {
    return unit->overflow == OVERFLOW_SATURATE_SIGNED && bit == unit->width - 1;
}

/* What is said of the highest number, of the lowest, or of a result that is not cut. */
static Diagram cut(const Definition *definition, const Worked *worked, bool at_highest,
                   bool at_lowest, Diagram otherwise) {
    Diagrams *d = definition->diagrams;
    Diagram value = diagram_if(d, worked->above, at_highest, otherwise);
    return diagram_if(d, worked->below, at_lowest, value);
}

static Diagram delivered(const Definition *definition, const Worked *worked, unsigned bit) {
    const Unit *unit = definition->unit;
    return cut(definition, worked, highest(unit, bit), lowest(unit, bit), worked->digit[bit]);
}

/* ---- the flags ------------------------------------------------------------------------------ */

typedef Diagram FlagDefinition(const Definition *definition, const Worked *worked);

static Diagram define_carry(const Definition *definition, const Worked *worked) {
    return at_pin(definition, worked->minus, worked->out);
}

static Diagram define_half_carry(const Definition *definition, const Worked *worked) {
    return at_pin(definition, worked->minus, worked->nibble);
}

static Diagram define_overflow(const Definition *definition, const Worked *worked) {
    (void)definition;
    return worked->overflow;
}

static Diagram define_less_signed(const Definition *definition, const Worked *worked) {
    (void)definition;
    return worked->negative;
}

/* An exact unsigned result is below 0 where a subtraction ends with a borrow. */
static Diagram define_less_unsigned(const Definition *definition, const Worked *worked) {
    (void)definition;
    return worked->minus ? worked->out : DIAGRAM_0;
}

static Diagram define_negative(const Definition *definition, const Worked *worked) {
    return delivered(definition, worked, definition->unit->width - 1);
}

static Diagram define_zero(const Definition *definition, const Worked *worked) {
    bool none_high = true, none_low = true;
    for (unsigned bit = 0; bit < definition->unit->width; bit++) {
        none_high &= !highest(definition->unit, bit);
        none_low &= !lowest(definition->unit, bit);
    }
    return cut(definition, worked, none_high, none_low, worked->none);
}

static Diagram define_parity(const Definition *definition, const Worked *worked) {
    bool odd_high = false, odd_low = false;
    for (unsigned bit = 0; bit < definition->unit->width; bit++) {
        odd_high ^= highest(definition->unit, bit);
        odd_low ^= lowest(definition->unit, bit);
    }
    return cut(definition, worked, odd_high, odd_low, worked->odd);
}

#define DEFINE_ROW(ID, id, ...) [FLAG_##ID] = define_##id,
static FlagDefinition *const flags[FLAG_COUNT] = {FLAGS(DEFINE_ROW)};

/* ---- the whole ------------------------------------------------------------------------------ */

/* Where the control pins ask for a choice. */
static Diagram chosen(const Definition *definition, int choice) {
    const Unit *unit = definition->unit;
    uint32_t value = unit_control_value(unit, choice);
    Diagram all = DIAGRAM_1;
    for (unsigned bit = 0; bit < unit_control_bits(unit); bit++) {
        Diagram level = inputs_control(definition->inputs, bit);
        bool wanted = value >> bit & 1;
        all = diagram_and(definition->diagrams, all, wanted ? level : diagram_not(level));
    }
    return all;
}

static void work(Definition *definition, int choice) {
    const Unit *unit = definition->unit;
    const Formula *formula = formulas[unit->choice[choice].operation];
    Worked *worked = &definition->worked[choice];
    *worked = (Worked){.minus = formula->sign == MINUS, .none = DIAGRAM_1};
    worked->digit = memory_zeroed(unit->width, sizeof worked->digit[0]);
    diagram_hold(definition->diagrams, worked->none);
    set(definition->diagrams, &worked->chosen, chosen(definition, choice));
    work_columns(definition, formula, worked);
    find_cut(definition, worked);
}

Definition *definition_new(Diagrams *diagrams, const Inputs *inputs) {
    Definition *definition = memory_zeroed(1, sizeof *definition);
    definition->unit = inputs->unit;
    definition->inputs = inputs;
    definition->diagrams = diagrams;
    for (int choice = 0; choice < definition->unit->choice_count; choice++)
        work(definition, choice);
    return definition;
}

void definition_free(Definition *definition) {
    for (int choice = 0; choice < definition->unit->choice_count; choice++) {
        Worked *worked = &definition->worked[choice];
        for (unsigned bit = 0; bit < definition->unit->width; bit++)
            diagram_drop(definition->diagrams, worked->digit[bit]);
        const Diagram held[] = {worked->chosen,   worked->nibble,   worked->out,
                                worked->negative, worked->overflow, worked->none,
                                worked->odd,      worked->above,    worked->below};
        for (size_t k = 0; k < sizeof held / sizeof held[0]; k++)
            diagram_drop(definition->diagrams, held[k]);
        memory_free(worked->digit);
    }
    memory_free(definition);
}

Diagram definition_output(const Definition *definition, Pin pin, unsigned bit) {
    /* Where nothing is asked for, the result is 0, zero is 1, and every other flag is 0. */
    Diagram value = pin == (Pin)(PIN_FLAG + FLAG_ZERO) ? DIAGRAM_1 : DIAGRAM_0;
    for (int choice = 0; choice < definition->unit->choice_count; choice++) {
        const Worked *worked = &definition->worked[choice];
        Diagram here = pin == PIN_RESULT ? delivered(definition, worked, bit)
                                         : flags[pin - PIN_FLAG](definition, worked);
        value = diagram_if(definition->diagrams, worked->chosen, here, value);
    }
    return value;
}
