/* The unit that a smallest circuit is looked for, as a table of its outputs over its inputs, worked
 * out from the definitions by whole numbers. Nothing of sumwright takes part. */
#ifndef SMALLEST_UNIT_H
#define SMALLEST_UNIT_H

#include <stdbool.h>

enum {
    INPUTS_MAX = 8,
    ROWS_MAX = 1 << INPUTS_MAX,
    OUTPUTS_MAX = 8,
    NAME_BYTES = 24,
};

/* Inputs: a0, b0, a1, b1, ..., then the line and the carry pin, as far as the unit has them. Bit p
 * of a row's number is input p. */
typedef struct {
    int inputs;
    int rows;
    int outputs;
    char input_name[INPUTS_MAX][NAME_BYTES];
    char output_name[OUTPUTS_MAX][NAME_BYTES];
    bool target[OUTPUTS_MAX][ROWS_MAX];
} Unit;

/* words: operations, width, sense and outputs, as main.c explains them. Ends the program where they
 * make no sense. inverters: inverting is free, so that an output that is an input's or another
 * output's inverse takes no gate. Outputs that take no gate are left out. */
void unit_read(Unit *unit, char **words, bool inverters);

/* The number of a word in a table; text is a list of words, by commas, and is moved past the first.
 * Ends the program for a word that is not in the table. */
int unit_word(char **text, const char *const *names, int count);

/* Does output h depend on the input? */
bool unit_depends(const Unit *unit, int h, int input);

/* Exchanging these two inputs changes no output. */
bool unit_alike(const Unit *unit, int p, int q);

/* Prints what is wrong and ends the program with status 2. */
_Noreturn void stop(const char *what, const char *which);

#endif
