/* How a row list is used. A concept's values are listed once, in a file of this folder, as
 * `#define FLAGS(ROW) ROW(CARRY, carry, "carry", ...) ROW(...)`; a place that needs something for
 * each of them writes what becomes of a row and goes through the list:
 *
 *     #define BUILD_ROW(ID, id, ...) [FLAG_##ID] = build_##id,
 *     static FlagBuild *const builds[FLAG_COUNT] = {FLAGS(BUILD_ROW)};
 *
 * so that a new row without a build_... is an error of the compiler, not a crash. The number of
 * rows is no member of the enum: a switch names every value that there is, and has no `default`. */
#ifndef SUMWRIGHT_UNIT_ROWS_H
#define SUMWRIGHT_UNIT_ROWS_H

#include <stddef.h>

/* One for each row, to count them: `#define FLAG_COUNT (0 FLAGS(ROW_ONE))`. */
#define ROW_ONE(...) +1

/* A value as the command line writes it, and what it means. */
typedef struct {
    const char *name; /* NULL: one that cannot be written (UNSET) */
    const char *meaning;
} Value;

/* The number of the value whose name is this text of this length, or -1. */
int values_find(const Value *values, int count, const char *text, size_t length);

/* "a, b or c" of the values that have a name; last stands before the last one (" or "). The caller
 * frees it with memory_free(). */
char *values_text(const Value *values, int count, const char *last);

#endif
