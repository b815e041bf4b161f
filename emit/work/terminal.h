/* What a stream is good for: how many characters a line has, and whether colours show. */
#ifndef SUMWRIGHT_WORK_TERMINAL_H
#define SUMWRIGHT_WORK_TERMINAL_H

#include <stdbool.h>
#include <stdio.h>

enum { TERMINAL_COLUMNS = 80, TERMINAL_COLUMNS_LEAST = 28, TERMINAL_COLUMNS_MAX = 10000 };

typedef struct {
    FILE *out;
    unsigned columns; /* characters in a line, TERMINAL_COLUMNS_LEAST ... TERMINAL_COLUMNS_MAX */
    bool colour;
} Terminal;

/* Columns: the environment's COLUMNS if it is a number in range, else the terminal's own width,
 * else TERMINAL_COLUMNS; one narrower than the least counts as that. Colour: on a terminal, unless
 * the environment has NO_COLOR (not empty) or TERM is dumb. */
Terminal terminal_of(FILE *out);

#endif
