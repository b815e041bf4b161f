/* In place of the C library's calloc and realloc, for a program that is linked with --wrap: the one
 * call whose number the environment variable FAILING gives, and all after it, find no memory. */
#include <stddef.h>
#include <stdlib.h>

void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *block, size_t bytes);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *block, size_t bytes);

static int fails(void) {
    static long calls, failing;
    if (calls++ == 0) {
        const char *text = getenv("FAILING");
        failing = text == NULL ? 0 : strtol(text, NULL, 10);
    }
    return failing > 0 && calls >= failing;
}

void *__wrap_calloc(size_t count, size_t size) {
    return fails() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *block, size_t bytes) {
    return fails() ? NULL : __real_realloc(block, bytes);
}
