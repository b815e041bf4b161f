/* The row lists of this folder as tables, see rows.h. */
#include "unit/rows.h"

#include "unit/flags.h"
#include "unit/operations.h"
#include "unit/structures.h"
#include "unit/values.h"

/* reads_b, reads_cin and subtracts, from what the adder is given. */
#define IS_B(word) (ADDEND_##word == ADDEND_B || ADDEND_##word == ADDEND_NOT_B)
#define IS_INVERTED(word)                                                                          \
    (ADDEND_##word == ADDEND_NOT_A || ADDEND_##word == ADDEND_NOT_B || ADDEND_##word == ADDEND_ONES)
#define OPERATION_ROW(ID, id, formula, x, y, first)                                                \
    [OP_##ID] = {#id,                                                                              \
                 "do_" #id,                                                                        \
                 formula,                                                                          \
                 ADDEND_##x,                                                                       \
                 ADDEND_##y,                                                                       \
                 ENTERS_##first,                                                                   \
                 IS_B(x) || IS_B(y),                                                               \
                 ENTERS_##first == ENTERS_CIN,                                                     \
                 IS_INVERTED(x) || IS_INVERTED(y)},
static const OperationFacts operations[OP_COUNT] = {OPERATIONS(OPERATION_ROW)};

#define FLAG_ROW(ID, pin, spelling, standard, meaning)                                             \
    [FLAG_##ID] = {spelling, #pin, standard, meaning},
static const FlagFacts flags[FLAG_COUNT] = {FLAGS(FLAG_ROW)};

#define STRUCTURE_ROW(ID, id, spelling, meaning, source)                                           \
    [STRUCTURE_##ID] = {spelling, meaning, source},
static const StructureFacts structures[STRUCTURE_COUNT] = {STRUCTURES(STRUCTURE_ROW)};

#define CONTROL_ROW(ID, ...)   [CONTROL_##ID] = {__VA_ARGS__},
#define SENSE_ROW(ID, ...)     [SENSE_##ID] = {__VA_ARGS__},
#define OVERFLOW_ROW(ID, ...)  [OVERFLOW_##ID] = {__VA_ARGS__},
#define DETAIL_ROW(ID, ...)    [DETAIL_##ID] = {__VA_ARGS__},
#define REGISTERS_ROW(ID, ...) [REGISTERS_##ID] = {__VA_ARGS__},
#define RESET_ROW(ID, ...)     [RESET_##ID] = {__VA_ARGS__},
const Value control_values[CONTROL_COUNT] = {CONTROLS(CONTROL_ROW)};
const Value sense_values[SENSE_COUNT] = {SENSES(SENSE_ROW)};
const Value overflow_values[OVERFLOW_COUNT] = {OVERFLOWS(OVERFLOW_ROW)};
const Value detail_values[DETAIL_COUNT] = {DETAILS(DETAIL_ROW)};
const Value registers_values[REGISTERS_COUNT] = {REGISTER_PLACES(REGISTERS_ROW)};
const Value reset_values[RESET_COUNT] = {RESETS(RESET_ROW)};

const OperationFacts *operation_facts(Operation operation) {
    return &operations[operation];
}

const char *operation_name(Operation operation) {
    return operations[operation].name;
}

const FlagFacts *flag_facts(Flag flag) {
    return &flags[flag];
}

const char *flag_name(Flag flag) {
    return flags[flag].name;
}

const StructureFacts *structure_facts(Structure structure) {
    return &structures[structure];
}

const char *structure_name(Structure structure) {
    return structures[structure].name;
}

const char *control_name(Control control) {
    return control_values[control].name;
}

const char *sense_name(Sense sense) {
    return sense_values[sense].name;
}

const char *overflow_name(Overflow overflow) {
    return overflow_values[overflow].name;
}

const char *detail_name(Detail detail) {
    return detail_values[detail].name;
}

const char *registers_name(Registers registers) {
    return registers_values[registers].name;
}

const char *reset_name(Reset reset) {
    return reset_values[reset].name;
}
