/* See problem.h. */
#include "base/problem.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

bool problem_set(Problem *problem, Status status, const char *format, ...) {
    if (problem->status != STATUS_DONE)
        return false;
    problem->status = status;
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(problem->text, sizeof problem->text, format, arguments);
    va_end(arguments);
    return false;
}

Quoted problem_quote(const char *text) {
    enum { SHOWN = 60 };
    Quoted quoted;
    size_t used = 0;
    quoted.text[used++] = '\'';
    for (size_t i = 0; text[i] != '\0' && i < SHOWN; i++) {
        char c = text[i];
        bool plain = c >= ' ' && c <= '~' && c != '\'' && c != '`';
        quoted.text[used++] = plain ? c : '?';
    }
    if (strnlen(text, SHOWN + 1) > SHOWN) {
        memcpy(quoted.text + used, "...", 3);
        used += 3;
    }
    quoted.text[used++] = '\'';
    quoted.text[used] = '\0';
    return quoted;
}
