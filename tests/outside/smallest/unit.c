/* See unit.h. */
#include "unit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef enum { ADD, ADC, SUB, SBC, RSB, INC, DEC, OPERATION_COUNT } Operation;
static const char *const operation_names[] = {"add", "adc", "sub", "sbc", "rsb", "inc", "dec"};

typedef enum { RESULT, CARRY, OVERFLOWS, NONE, OUTPUT_KINDS } OutputKind;
static const char *const output_names[] = {"result", "carry", "overflow", "none"};

static const char *const sense_names[] = {"no-borrow", "borrow"};

typedef struct {
    Operation operation[2];
    int operation_count;
    int width;
    bool borrow; /* the sense */
    bool shows[OUTPUT_KINDS];
    bool has_b;
    bool has_cin;
} Description;

_Noreturn void stop(const char *what, const char *which) {
    fprintf(stderr, "smallest: %s%s\n", what, which);
    exit(2);
}

int unit_word(char **text, const char *const *names, int count) {
    size_t length = strcspn(*text, ",");
    for (int k = 0; k < count; k++)
        if (strlen(names[k]) == length && strncmp(*text, names[k], length) == 0) {
            *text += length + ((*text)[length] == ',');
            return k;
        }
    stop("what is ", *text);
}

/* ---- the definitions ------------------------------------------------------------------------ */

static bool subtracts(Operation operation) {
    return operation == SUB || operation == SBC || operation == RSB || operation == DEC;
}

static int as_signed(int width, int word) {
    return word < 1 << (width - 1) ? word : word - (1 << width);
}

/* What the operation says, as a number: of the words as they are, or of their signed readings. */
static int exact(Operation operation, int a, int b, int carried) {
    switch (operation) {
    case ADD:
        return a + b;
    case ADC:
        return a + b + carried;
    case SUB:
        return a - b;
    case SBC:
        return a - b - carried;
    case RSB:
        return b - a;
    case INC:
        return a + 1;
    default:
        return a - 1;
    }
}

/* All outputs for one setting of the inputs. */
static void define(const Description *description, Unit *unit, int row) {
    int n = description->width, a = 0, b = 0, at = 0;
    for (int i = 0; i < n; i++) {
        a |= (row >> at++ & 1) << i;
        if (description->has_b)
            b |= (row >> at++ & 1) << i;
    }
    int line = description->operation_count == 2 ? row >> at++ & 1 : 0;
    int cin = description->has_cin ? row >> at & 1 : 0;
    Operation operation = description->operation[line];
    bool turned = subtracts(operation) && !description->borrow; /* the pins say "no borrow" */
    int carried = turned ? !cin : cin;
    int total = exact(operation, a, b, carried);
    int of_signed = exact(operation, as_signed(n, a), as_signed(n, b), carried);
    int h = 0;
    for (int i = 0; i < n && description->shows[RESULT]; i++)
        unit->target[h++][row] = (total >> i & 1) != 0;
    if (description->shows[CARRY])
        unit->target[h++][row] = (total < 0 || total >= 1 << n) != turned;
    if (description->shows[OVERFLOWS])
        unit->target[h++][row] = of_signed < -(1 << (n - 1)) || of_signed >= 1 << (n - 1);
}

/* ---- reading -------------------------------------------------------------------------------- */

static void read_description(Description *description, char **words) {
    for (char *text = words[0]; *text != '\0' && description->operation_count < 2;) {
        Operation operation = (Operation)unit_word(&text, operation_names, OPERATION_COUNT);
        description->operation[description->operation_count++] = operation;
        description->has_b = description->has_b || (operation != INC && operation != DEC);
        description->has_cin = description->has_cin || operation == ADC || operation == SBC;
    }
    description->width = atoi(words[1]);
    if (description->width < 1 || description->width > 3)
        stop("a width is 1 to 3, not ", words[1]);
    description->borrow = unit_word(&words[2], sense_names, 2) == 1;
    for (char *text = words[3]; *text != '\0';)
        description->shows[unit_word(&text, output_names, OUTPUT_KINDS)] = true;
}

static void name_inputs(const Description *description, Unit *unit) {
    for (int i = 0; i < description->width; i++) {
        snprintf(unit->input_name[unit->inputs++], NAME_BYTES, "a%d", i);
        if (description->has_b)
            snprintf(unit->input_name[unit->inputs++], NAME_BYTES, "b%d", i);
    }
    if (description->operation_count == 2)
        strcpy(unit->input_name[unit->inputs++], "line");
    if (description->has_cin)
        strcpy(unit->input_name[unit->inputs++], "cin");
    unit->rows = 1 << unit->inputs;
}

static void name_outputs(const Description *description, Unit *unit) {
    for (int i = 0; i < description->width && description->shows[RESULT]; i++)
        snprintf(unit->output_name[unit->outputs++], NAME_BYTES, "result%d", i);
    for (int k = CARRY; k < NONE; k++)
        if (description->shows[k])
            strcpy(unit->output_name[unit->outputs++], output_names[k]);
}

/* Is output h input p, or the complement? p = -1: constant. */
static bool is_input(const Unit *unit, int h, int p, bool complement) {
    for (int row = 0; row < unit->rows; row++) {
        bool input = p >= 0 && (row >> p & 1) != 0;
        if ((unit->target[h][row] != complement) != input)
            return false;
    }
    return true;
}

static bool is_output(const Unit *unit, int h, int other, bool complement) {
    for (int row = 0; row < unit->rows; row++)
        if ((unit->target[h][row] != complement) != unit->target[other][row])
            return false;
    return true;
}

static bool needs_gate(const Unit *unit, int h, bool inverters) {
    for (int complement = 0; complement <= (inverters ? 1 : 0); complement++) {
        for (int p = -1; p < unit->inputs; p++)
            if (is_input(unit, h, p, complement == 1))
                return false;
        for (int other = 0; other < h; other++)
            if (is_output(unit, h, other, complement == 1))
                return false;
    }
    return true;
}

void unit_read(Unit *unit, char **words, bool inverters) {
    Description description = {0};
    *unit = (Unit){0};
    read_description(&description, words);
    name_inputs(&description, unit);
    name_outputs(&description, unit);
    for (int row = 0; row < unit->rows; row++)
        define(&description, unit, row);
    for (int h = unit->outputs - 1; h >= 0; h--) {
        if (needs_gate(unit, h, inverters))
            continue;
        for (int later = h + 1; later < unit->outputs; later++) {
            memcpy(unit->target[later - 1], unit->target[later], sizeof unit->target[0]);
            strcpy(unit->output_name[later - 1], unit->output_name[later]);
        }
        unit->outputs--;
    }
}

bool unit_depends(const Unit *unit, int h, int input) {
    for (int row = 0; row < unit->rows; row++)
        if (unit->target[h][row] != unit->target[h][row ^ 1 << input])
            return true;
    return false;
}

bool unit_alike(const Unit *unit, int p, int q) {
    for (int row = 0; row < unit->rows; row++) {
        bool differ = ((row >> p ^ row >> q) & 1) != 0;
        int other = differ ? row ^ (1 << p | 1 << q) : row;
        for (int h = 0; h < unit->outputs; h++)
            if (unit->target[h][row] != unit->target[h][other])
                return false;
    }
    return true;
}
