/* The layout of a vector: a word of fields, each in whole hexadecimal digits, what the pins are
 * given before what must come out: control_cin_a_b_result_flags, without those that a unit lacks.
 * The testbench takes the word apart, the vector file puts it together. */
#ifndef SUMWRIGHT_VERILOG_LAYOUT_H
#define SUMWRIGHT_VERILOG_LAYOUT_H

#include "unit/unit.h"
#include "write/facts.h"

typedef enum {
    FIELD_CONTROL, /* unit_control_bits */
    FIELD_CIN,
    FIELD_A,
    FIELD_B,
    FIELD_RESULT,
    FIELD_FLAGS, /* the unit's flags, the first one most significant */
    FIELD_COUNT
} Field;

typedef struct {
    unsigned bits;   /* that carry something; 0 for a field that the unit lacks */
    unsigned digits; /* hexadecimal, 4 bits each */
    unsigned low;    /* the number of the field's lowest bit in the word */
} FieldPlace;

typedef struct {
    FieldPlace field[FIELD_COUNT];
    unsigned bits;     /* of the word, padding included */
    unsigned out_bits; /* of them, result and flags */
} Layout;

Layout layout_of(const Unit *unit);
/* The facts layout ("subtract_a_b_result_{carry,zero}"), bits and out_bits. */
void layout_facts(const Unit *unit, Facts *facts);

#endif
