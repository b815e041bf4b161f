/* The smaller properties of a unit and their values, each told once. See rows.h for how a list is
 * used; UNSET is "not said yet", which unit_settle turns into a value. */
#ifndef SUMWRIGHT_UNIT_VALUES_H
#define SUMWRIGHT_UNIT_VALUES_H

#include "unit/rows.h"

/* In every list: ROW(ID, spelling, meaning). */

/* How the control pins choose among the operations. */
#define CONTROLS(ROW)                                                                              \
    ROW(FIXED, "fixed", "one operation, no pin")                                                   \
    ROW(HIGH, "high", "one pin: 0 the first operation, 1 the second")                              \
    ROW(LOW, "low", "one pin: 1 the first operation, 0 the second")                                \
    ROW(ONE_HOT, "one-hot", "a request pin for each operation")                                    \
    ROW(CODE, "code", "a binary field")

/* What the carry pins, in and out, say in a subtraction. */
#define SENSES(ROW)                                                                                \
    ROW(NO_BORROW, "no-borrow", "1 is no borrow, the adder's own carry")                           \
    ROW(BORROW, "borrow", "1 is a borrow")

/* What becomes of a result that does not fit. */
#define OVERFLOWS(ROW)                                                                             \
    ROW(WRAP, "wrap", "the result modulo 2^n")                                                     \
    ROW(SATURATE_SIGNED, "saturate-signed", "the nearest signed number")                           \
    ROW(SATURATE_UNSIGNED, "saturate-unsigned", "the nearest unsigned number")

/* What the text is made of. */
#define DETAILS(ROW)                                                                               \
    ROW(OPERATORS, "operators", "arithmetic operators; the synthesizer finds the carries")         \
    ROW(CELLS, "cells", "instances of cells: full adders, or those of the structure")              \
    ROW(GATES, "gates", "two-input gates of any kind")                                             \
    ROW(NAND, "nand", "two-input NANDs alone")                                                     \
    ROW(NOR, "nor", "two-input NORs alone")

/* Where flip-flops are. */
#define REGISTER_PLACES(ROW)                                                                       \
    ROW(NONE, "none", "no clock: the outputs follow the inputs")                                   \
    ROW(OUTPUT, "output", "at the outputs")                                                        \
    ROW(BOTH, "both", "at the inputs and the outputs")

/* How they are reset. */
#define RESETS(ROW)                                                                                \
    ROW(NONE, "none", "no reset pin")                                                              \
    ROW(SYNC, "sync", "at the clock's edge")                                                       \
    ROW(ASYNC, "async", "at once")

#define CONTROL_ID(ID, ...)   CONTROL_##ID,
#define SENSE_ID(ID, ...)     SENSE_##ID,
#define OVERFLOW_ID(ID, ...)  OVERFLOW_##ID,
#define DETAIL_ID(ID, ...)    DETAIL_##ID,
#define REGISTERS_ID(ID, ...) REGISTERS_##ID,
#define RESET_ID(ID, ...)     RESET_##ID,
typedef enum { CONTROL_UNSET, CONTROLS(CONTROL_ID) } Control;
typedef enum { SENSES(SENSE_ID) } Sense;
typedef enum { OVERFLOWS(OVERFLOW_ID) } Overflow;
typedef enum { DETAIL_UNSET, DETAILS(DETAIL_ID) } Detail;
typedef enum { REGISTER_PLACES(REGISTERS_ID) } Registers;
typedef enum { RESET_UNSET, RESETS(RESET_ID) } Reset;
#undef CONTROL_ID
#undef SENSE_ID
#undef OVERFLOW_ID
#undef DETAIL_ID
#undef REGISTERS_ID
#undef RESET_ID

/* How many: with UNSET, where the enum has one. */
#define CONTROL_COUNT   (1 CONTROLS(ROW_ONE))
#define SENSE_COUNT     (0 SENSES(ROW_ONE))
#define OVERFLOW_COUNT  (0 OVERFLOWS(ROW_ONE))
#define DETAIL_COUNT    (1 DETAILS(ROW_ONE))
#define REGISTERS_COUNT (0 REGISTER_PLACES(ROW_ONE))
#define RESET_COUNT     (1 RESETS(ROW_ONE))

/* By the enum's value. */
extern const Value control_values[CONTROL_COUNT];
extern const Value sense_values[SENSE_COUNT];
extern const Value overflow_values[OVERFLOW_COUNT];
extern const Value detail_values[DETAIL_COUNT];
extern const Value registers_values[REGISTERS_COUNT];
extern const Value reset_values[RESET_COUNT];

const char *control_name(Control control);
const char *sense_name(Sense sense);
const char *overflow_name(Overflow overflow);
const char *detail_name(Detail detail);
const char *registers_name(Registers registers);
const char *reset_name(Reset reset);

#endif
