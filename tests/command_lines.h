/* A command line in one string, for tests of options.c: words between blanks, single quotes around
 * a word as the shell has them. */
#ifndef SUMWRIGHT_TESTS_COMMAND_LINES_H
#define SUMWRIGHT_TESTS_COMMAND_LINES_H

#include "options/options.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

enum { COMMAND_LINE_BYTES = 65536, COMMAND_LINE_WORDS = 128 };

/* Cuts the line into words, in place; returns how many. */
static inline int command_line_words(char *line, char **words) {
    int count = 0;
    char *to = line;
    for (const char *from = line + strspn(line, " "); *from != '\0'; from += strspn(from, " ")) {
        assert_true(count < COMMAND_LINE_WORDS);
        words[count++] = to;
        bool quoted = false;
        for (; *from != '\0' && (quoted || *from != ' '); from++) {
            if (*from == '\'')
                quoted = !quoted;
            else
                *to++ = *from;
        }
        from += *from != '\0';
        *to++ = '\0';
    }
    words[count] = NULL;
    return count;
}

/* Parses "emit OPTIONS". The request's strings last until the next call. */
static inline bool parse_line(const char *options, Request *request, Problem *problem) {
    static char line[COMMAND_LINE_BYTES];
    char *words[COMMAND_LINE_WORDS + 1];
    int length = snprintf(line, sizeof line, "emit %s", options);
    assert_true(length < COMMAND_LINE_BYTES);
    *problem = (Problem){STATUS_DONE, ""};
    return options_parse(COMMAND_EMIT, command_line_words(line, words), words, request, problem);
}

/* Parses options that are right. */
static inline const Request *parsed(const char *options) {
    static Request request;
    Problem problem;
    if (!parse_line(options, &request, &problem))
        fail_msg("%s: %s", options, problem.text);
    return &request;
}

#endif
