/* What a writer writes into a stream, as a text. */
#ifndef SUMWRIGHT_TESTS_WRITTEN_H
#define SUMWRIGHT_TESTS_WRITTEN_H

#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <setjmp.h>

#include <cmocka.h>

typedef struct {
    FILE *out;
    char *text;
    size_t bytes;
} Written;

static inline void written_open(Written *written) {
    written->out = open_memstream(&written->text, &written->bytes);
    assert_non_null(written->out);
}

/* Ends the writing; what was written must be this. */
static inline void assert_written(Written *written, const char *expected) {
    assert_int_equal(fclose(written->out), 0);
    assert_string_equal(written->text, expected);
    free(written->text);
}

#endif
