/* What is asked for: the one description that everything downstream reads.
 *
 * options.c fills a Unit from the command line, unit_settle() gives every property left open its
 * default and refuses what makes no sense. From then on a Unit is valid by construction and is
 * passed as `const Unit *`; nothing below this folder looks at options again. */
#ifndef SUMWRIGHT_UNIT_UNIT_H
#define SUMWRIGHT_UNIT_UNIT_H

#include "base/problem.h"
#include "unit/flags.h"
#include "unit/operations.h"
#include "unit/structures.h"
#include "unit/values.h"

#include <stdbool.h>
#include <stdint.h>

enum {
    UNIT_WIDTH_MAX = 4096, /* bits in a word */
    UNIT_NAME_MAX = 1024,  /* characters in an identifier, IEEE 1364-2005 section 3.7.1's minimum */
    UNIT_CODE_BITS_MAX = 16,
    UNIT_NOTHING = -1, /* a selection of no operation: no request, or an unused code */
};

/* Every pin a unit can have; which of them one has is in Unit.pin. The requests and the flags stand
 * in the order of Operation and Flag, so that their pins are PIN_DO + OP_x and PIN_FLAG + FLAG_x;
 * each member of the enum but these two is one pin. */
typedef enum {
    PIN_CLK,
    PIN_RST,
    PIN_EN,
    PIN_LINE, /* the one control line: subtract, or mode */
    PIN_OP,   /* the operation's code */
    PIN_DO,   /* the first request: do_add ... */
    PIN_CIN = PIN_DO + OP_COUNT,
    PIN_A,
    PIN_B,
    PIN_RESULT,
    PIN_FLAG, /* the first flag: carry ... */
} Pin;
#define PIN_COUNT ((int)PIN_FLAG + FLAG_COUNT)

/* The pin itself, or PIN_DO for any request and PIN_FLAG for any flag: to switch over. */
Pin pin_kind(Pin pin);
bool pin_is_output(Pin pin);

/* From an operation to its request and back, from a flag to its pin and back. */
Pin pin_of_request(Operation operation);
Pin pin_of_flag(Flag flag);
Operation pin_operation(Pin pin);
Flag pin_flag(Pin pin);

typedef struct {
    Operation operation;
    uint32_t code; /* CONTROL_CODE: the value of the op field that selects it */
} Choice;

typedef struct {
    char name[UNIT_NAME_MAX + 1]; /* the module */
    unsigned width;               /* bits, 1 ... UNIT_WIDTH_MAX */
    Choice choice[OP_COUNT];      /* the operations in the order asked for, no two alike */
    int choice_count;             /* 1 ... OP_COUNT */
    unsigned code_bits;           /* CONTROL_CODE: bits of the op field; before unit_settle,
                                     0 = codes by position */
    Control control;
    Sense sense;
    bool flag[FLAG_COUNT];
    Overflow overflow;
    Structure structure;
    unsigned depth; /* STRUCTURE_DEPTH: levels of cells */
    Detail detail;
    Registers registers;
    Reset reset;
    bool reset_low; /* the reset pin is active low */
    bool enable;
    /* The name of each pin, "" for one that the unit does not have. Before unit_settle: the name
     * asked for, "" for the default. */
    char pin[PIN_COUNT][UNIT_NAME_MAX + 1];
} Unit;

/* A Unit with every property at "not said yet". Follow with unit_settle. */
void unit_init(Unit *unit);

/* Gives every open property its default and refuses combinations that make no sense, with the
 * reason and a way out. On success the unit is valid and stays so. */
bool unit_settle(Unit *unit, Problem *problem);

/* Its two halves, for callers that must know which pins there are before they can name them:
 * everything but the pins; then default names for pins without one, and no name twice. */
bool unit_settle_shape(Unit *unit, Problem *problem);
bool unit_settle_pins(Unit *unit, Problem *problem);

/* Is this a name that a Verilog module or pin can have? An IEEE 1364-2005 simple identifier
 * (letter or _, then letters, digits, _ and $), not a keyword, at most UNIT_NAME_MAX characters.
 * what names the thing in the message ("module name"). */
bool unit_check_name(const char *name, const char *what, Problem *problem);

/* Does the unit have this pin? */
bool unit_has(const Unit *unit, Pin pin);

/* The name that --port knows a pin of this unit by, and the pin's default name. */
const char *unit_role(const Unit *unit, Pin pin);

/* Bits of a pin: the width for a, b and result, the code's bits for op, else 1. */
unsigned unit_pin_bits(const Unit *unit, Pin pin);

/* The control pins taken as one number. Width in bits (0 for fixed); the value that selects
 * choice k (one-hot: bit k is the request of choice k); and which choice a value selects, or
 * UNIT_NOTHING. Several one-hot requests at once are outside the contract and also give
 * UNIT_NOTHING; unit_control_is_contract tells them apart. */
unsigned unit_control_bits(const Unit *unit);
uint32_t unit_control_value(const Unit *unit, int choice);
int unit_control_choice(const Unit *unit, uint32_t value);
bool unit_control_is_contract(const Unit *unit, uint32_t value);

/* Can the control pins ask for nothing (one-hot, or a code with unused values)? */
bool unit_can_idle(const Unit *unit);

/* Clock edges from operands at the pins to their result at the pins: 0, 1 or 2. */
unsigned unit_latency(const Unit *unit);

/* The columns of a prefix network for this unit: one a bit; and one for the first carry, unless
 * that is constant or goes with the inversion of b (add, sub and pass), see gates/columns.h. */
unsigned unit_prefix_columns(const Unit *unit);

/* Does the emitted text keep `parameter WIDTH`? Operators and ripple cells do. */
bool unit_keeps_width(const Unit *unit);

/* Any operation of the unit that ... */
bool unit_any_reads_b(const Unit *unit);
bool unit_any_reads_cin(const Unit *unit);
bool unit_any_subtracts(const Unit *unit);

#endif
