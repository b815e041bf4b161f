/* The row lists of this folder as tables, see rows.h. */
#include "unit/rows.h"

#include "base/text.h"
#include "unit/flags.h"
#include "unit/operations.h"
#include "unit/structures.h"
#include "unit/values.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

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

#define OPERATION_VALUE(ID, id, formula, ...) [OP_##ID] = {#id, formula},
const Value operation_values[OP_COUNT] = {OPERATIONS(OPERATION_VALUE)};

#define FLAG_ROW(ID, pin, spelling, standard, meaning)                                             \
    [FLAG_##ID] = {spelling, #pin, standard, meaning},
static const FlagFacts flags[FLAG_COUNT] = {FLAGS(FLAG_ROW)};

#define FLAG_VALUE(ID, pin, spelling, standard, meaning) [FLAG_##ID] = {spelling, meaning},
const Value flag_values[FLAG_COUNT] = {FLAGS(FLAG_VALUE)};

#define STRUCTURE_ROW(ID, id, spelling, number, meaning, source)                                   \
    [STRUCTURE_##ID] = {spelling, sizeof number > 1, meaning, source},
static const StructureFacts structures[STRUCTURE_COUNT] = {STRUCTURES(STRUCTURE_ROW)};

#define STRUCTURE_VALUE(ID, id, spelling, number, meaning, source)                                 \
    [STRUCTURE_##ID] = {spelling number, meaning},
const Value structure_values[STRUCTURE_COUNT] = {STRUCTURES(STRUCTURE_VALUE)};

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

int values_find(const Value *values, int count, const char *text, size_t length) {
    for (int k = 0; k < count; k++)
        if (values[k].name != NULL && strlen(values[k].name) == length &&
            strncmp(values[k].name, text, length) == 0)
            return k;
    return -1;
}

char *values_text(const Value *values, int count, const char *last) {
    TextBuffer text = {NULL, 0, 0};
    for (int k = 0; k < count; k++)
        if (values[k].name != NULL) {
            text_add(&text, text.length == 0 ? "" : k + 1 == count ? last : ", ");
            text_add(&text, values[k].name);
        }
    return text_take(&text);
}

const OperationFacts *operation_facts(Operation operation) {
    assert((unsigned)operation < OP_COUNT);
    return &operations[operation];
}

const char *operation_name(Operation operation) {
    return operation_facts(operation)->name;
}

const FlagFacts *flag_facts(Flag flag) {
    assert((unsigned)flag < FLAG_COUNT);
    return &flags[flag];
}

const char *flag_name(Flag flag) {
    return flag_facts(flag)->name;
}

const StructureFacts *structure_facts(Structure structure) {
    assert((unsigned)structure < STRUCTURE_COUNT);
    return &structures[structure];
}

const char *structure_name(Structure structure) {
    return structure_facts(structure)->name;
}

StructureText structure_text(Structure structure, unsigned number) {
    StructureText written;
    snprintf(written.text, sizeof written.text, "%s", structures[structure].name);
    size_t used = strlen(written.text);
    if (structures[structure].has_number)
        snprintf(written.text + used, sizeof written.text - used, "=%u", number);
    return written;
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
