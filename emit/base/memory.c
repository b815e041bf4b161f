/* See memory.h. */
#include "base/memory.h"

#include "base/problem.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

static bool silent;

void memory_lack_is_silent(void) {
    silent = true;
}

static void give_up(void) {
    if (!silent)
        fputs("sumwright: error: out of memory; a narrower unit or fewer vectors need less\n",
              stderr);
    exit(STATUS_SURROUNDINGS);
}

void *memory_zeroed(size_t count, size_t size) {
    void *block = calloc(count == 0 ? 1 : count, size);
    if (block == NULL)
        give_up();
    return block;
}

void *memory_resize(void *block, size_t count, size_t size) {
    void *grown = count <= SIZE_MAX / size ? realloc(block, count * size) : NULL;
    if (grown == NULL)
        give_up();
    return grown;
}

char *memory_text_list(const char *format, va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    int bytes = vsnprintf(NULL, 0, format, again);
    va_end(again);
    size_t room = (size_t)(bytes < 0 ? 0 : bytes) + 1;
    char *text = memory_zeroed(room, 1);
    vsnprintf(text, room, format, arguments);
    return text;
}

char *memory_text(const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = memory_text_list(format, arguments);
    va_end(arguments);
    return text;
}
