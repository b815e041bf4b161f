/* See memory.h. */
#include "base/memory.h"

#include "base/problem.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

static void give_up(void) {
    fputs("sumwright: error: out of memory; a narrower unit or fewer vectors need less\n", stderr);
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
