/* See terminal.h. */
#include "work/terminal.h"

#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

/* The number in COLUMNS, or 0. */
static unsigned wanted_columns(void) {
    const char *text = getenv("COLUMNS");
    unsigned columns = 0;
    if (text == NULL)
        return 0;
    for (; *text >= '0' && *text <= '9' && columns <= TERMINAL_COLUMNS_MAX; text++)
        columns = columns * 10 + (unsigned)(*text - '0');
    return *text == '\0' && columns <= TERMINAL_COLUMNS_MAX ? columns : 0;
}

/* The width that the terminal itself tells, or 0. */
static unsigned own_columns(int descriptor) {
    struct winsize size;
    if (ioctl(descriptor, TIOCGWINSZ, &size) != 0 || size.ws_col > TERMINAL_COLUMNS_MAX)
        return 0;
    return size.ws_col;
}

Terminal terminal_of(FILE *out) {
    Terminal terminal = {.out = out, .columns = wanted_columns()};
    bool is_terminal = isatty(fileno(out)) == 1;
    if (terminal.columns == 0 && is_terminal)
        terminal.columns = own_columns(fileno(out));
    if (terminal.columns == 0)
        terminal.columns = TERMINAL_COLUMNS;
    if (terminal.columns < TERMINAL_COLUMNS_LEAST)
        terminal.columns = TERMINAL_COLUMNS_LEAST;
    const char *no_colour = getenv("NO_COLOR"), *kind = getenv("TERM");
    bool plain = no_colour != NULL && no_colour[0] != '\0';
    bool dumb = kind == NULL || strcmp(kind, "dumb") == 0;
    terminal.colour = is_terminal && !plain && !dumb;
    return terminal;
}
