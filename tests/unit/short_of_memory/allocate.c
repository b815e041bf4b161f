/* See allocate.h. */
#include "unit/short_of_memory/allocate.h"

#include <stdatomic.h>
#include <stddef.h>
#include <stdlib.h>

void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *block, size_t bytes);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *block, size_t bytes);

static atomic_long calls, failing = -1; /* -1: not said yet */

void fail_at(long call) {
    calls = 0;
    failing = call;
}

static int fails(void) {
    if (failing == -1) {
        const char *text = getenv("FAILING");
        failing = text == NULL ? 0 : strtol(text, NULL, 10);
    }
    return ++calls >= failing && failing > 0;
}

void *__wrap_calloc(size_t count, size_t size) {
    return fails() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *block, size_t bytes) {
    return fails() ? NULL : __real_realloc(block, bytes);
}
