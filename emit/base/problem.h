/* What went wrong, said once, in one line, for the person at the terminal.
 *
 * Every function that can fail takes a Problem and returns false after filling it; main.c prints
 * it as `sumwright: error: TEXT` and exits with its status. */
#ifndef SUMWRIGHT_BASE_PROBLEM_H
#define SUMWRIGHT_BASE_PROBLEM_H

#include <stdbool.h>
#include <stddef.h>

/* The exit statuses of the command-line contract. */
typedef enum {
    STATUS_DONE = 0,
    STATUS_WRONG_DESIGN = 1, /* check: a design is wrong */
    STATUS_INVALID = 2,      /* the command line or the unit is not valid */
    STATUS_UNTESTED = 3,     /* check: a design could not be tested */
    STATUS_SURROUNDINGS = 4, /* no simulator, cannot write, no memory */
} Status;

enum { PROBLEM_TEXT_BYTES = 2048, PROBLEM_QUOTE_BYTES = 80 };

/* status is STATUS_DONE until a problem has been set. */
typedef struct {
    Status status;
    char text[PROBLEM_TEXT_BYTES];
} Problem;

/* Somebody else's text, made fit to stand in a one-line message (see problem_quote). */
typedef struct {
    char text[PROBLEM_QUOTE_BYTES];
} Quoted;

/* Records what went wrong (printf style; the message says what is wrong, then "; ", then what
 * would be right). Always returns false, so that callers can `return problem_set(...)`.
 * A message too long for the buffer is cut; the first problem set is the one kept. */
bool problem_set(Problem *problem, Status status, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* The text in single quotes, control characters, quotes and bytes outside ASCII shown as ?, and
 * anything past about 60 characters cut with "...": safe to print on one line whatever it holds. */
Quoted problem_quote(const char *text);

#endif
