/* What is asked for: the one description that everything downstream reads.
 *
 * options.c fills a Unit from the command line, unit_settle() gives every property left open its
 * default and refuses what makes no sense. From then on a Unit is valid by construction and is
 * passed as `const Unit *`; nothing below this folder looks at options again. */
#ifndef SUMWRIGHT_UNIT_UNIT_H
#define SUMWRIGHT_UNIT_UNIT_H

#include "base/problem.h"

#include <stdbool.h>
#include <stdint.h>

enum {
    UNIT_WIDTH_MAX = 4096, /* bits in a word */
    UNIT_NAME_MAX = 1024,  /* characters in an identifier, IEEE 1364-2005 section 3.7.1's minimum */
    UNIT_CODE_BITS_MAX = 16,
    UNIT_NOTHING = -1, /* a selection of no operation: no request, or an unused code */
};

/* The operations, on n-bit words a and b. */
typedef enum {
    OP_ADD,  /* a + b */
    OP_ADC,  /* a + b + carry */
    OP_SUB,  /* a - b */
    OP_SBC,  /* a - b - borrow */
    OP_RSB,  /* b - a */
    OP_INC,  /* a + 1 */
    OP_DEC,  /* a - 1 */
    OP_NEG,  /* -a */
    OP_PASS, /* a */
    OP_COUNT
} Operation;

/* How the control pins choose among the operations. */
typedef enum {
    CONTROL_UNSET,
    CONTROL_FIXED,   /* one operation, no pin */
    CONTROL_HIGH,    /* one pin: 0 the first operation, 1 the second */
    CONTROL_LOW,     /* one pin: 1 the first operation, 0 the second */
    CONTROL_ONE_HOT, /* a request pin an operation */
    CONTROL_CODE,    /* a binary field */
    CONTROL_COUNT
} Control;

/* What the carry pins, in and out, say in a subtraction. */
typedef enum {
    SENSE_NO_BORROW, /* 1 = no borrow: the adder's own carry */
    SENSE_BORROW,    /* 1 = borrow */
    SENSE_COUNT
} Sense;

typedef enum {
    FLAG_CARRY,
    FLAG_OVERFLOW,
    FLAG_ZERO,
    FLAG_NEGATIVE,
    FLAG_LESS_SIGNED,
    FLAG_LESS_UNSIGNED,
    FLAG_PARITY,
    FLAG_HALF_CARRY,
    FLAG_COUNT
} Flag;

/* What becomes of a result that does not fit. */
typedef enum {
    OVERFLOW_WRAP,
    OVERFLOW_SATURATE_SIGNED,
    OVERFLOW_SATURATE_UNSIGNED,
    OVERFLOW_COUNT
} Overflow;

/* How carries travel. */
typedef enum {
    STRUCTURE_RIPPLE,
    STRUCTURE_FEWEST,
    STRUCTURE_SKIP,
    STRUCTURE_SELECT,
    STRUCTURE_LOOKAHEAD,
    STRUCTURE_SKLANSKY,
    STRUCTURE_KOGGE_STONE,
    STRUCTURE_BRENT_KUNG,
    STRUCTURE_HAN_CARLSON,
    STRUCTURE_LADNER_FISCHER,
    STRUCTURE_DEPTH, /* at most Unit.depth levels of prefix cells */
    STRUCTURE_COUNT
} Structure;

/* What the text is made of. */
typedef enum {
    DETAIL_UNSET,
    DETAIL_OPERATORS,
    DETAIL_CELLS,
    DETAIL_GATES,
    DETAIL_NAND,
    DETAIL_NOR,
    DETAIL_COUNT
} Detail;

typedef enum { REGISTERS_NONE, REGISTERS_OUTPUT, REGISTERS_BOTH, REGISTERS_COUNT } Registers;

typedef enum { RESET_UNSET, RESET_NONE, RESET_SYNC, RESET_ASYNC, RESET_COUNT } Reset;

/* Every pin a unit can have; which of them one has is in Unit.pin. The request pins and the flag
 * pins stand in the order of Operation and Flag: PIN_DO + OP_x, PIN_FLAG + FLAG_x. */
typedef enum {
    PIN_CLK,
    PIN_RST,
    PIN_EN,
    PIN_LINE, /* the one control line: subtract, or mode */
    PIN_OP,   /* the operation's code */
    PIN_DO,   /* do_add ... */
    PIN_CIN = PIN_DO + OP_COUNT,
    PIN_A,
    PIN_B,
    PIN_RESULT,
    PIN_FLAG, /* carry ... */
    PIN_COUNT = PIN_FLAG + FLAG_COUNT
} Pin;

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

/* Mnemonics and option values, as the command line writes them ("adc", "less-signed", ...). */
const char *operation_name(Operation operation);
const char *control_name(Control control);
const char *sense_name(Sense sense);
const char *flag_name(Flag flag);
const char *overflow_name(Overflow overflow);
const char *structure_name(Structure structure); /* STRUCTURE_DEPTH: "depth" */
const char *detail_name(Detail detail);
const char *registers_name(Registers registers);
const char *reset_name(Reset reset);

/* What an operation is, from its definition: does it read b, does it read cin, is it a subtraction
 * (its carry pin is a borrow or no-borrow by Unit.sense), and the formula in words ("a - b"). */
typedef struct {
    const char *name;
    const char *formula;
    bool reads_b;
    bool reads_cin;
    bool subtracts;
} OperationFacts;
const OperationFacts *operation_facts(Operation operation);

/* Does the unit have this pin? */
bool unit_has(const Unit *unit, Pin pin);

/* The name that --port knows a pin of this unit by, and the pin's default name. */
const char *unit_role(const Unit *unit, Pin pin);

/* Bits of a pin: the width for a, b and result, the code's bits for op, else 1. */
unsigned unit_pin_bits(const Unit *unit, Pin pin);
bool pin_is_output(Pin pin);

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
