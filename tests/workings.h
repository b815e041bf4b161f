/* A worked example from a command line in one string, for tests: "--width 4 --operation sub 5 -6".
 * It is what `sumwright work` works. */
#ifndef SUMWRIGHT_TESTS_WORKINGS_H
#define SUMWRIGHT_TESTS_WORKINGS_H

#include "command_lines.h"
#include "commands/work.h"
#include "work/sheet.h"

#include <stdio.h>
#include <stdlib.h>

/* The working lasts until the next call. */
static inline const Working *worked(const char *line) {
    static char text[COMMAND_LINE_BYTES];
    static Request request;
    static Working working;
    char *words[COMMAND_LINE_WORDS + 1];
    Problem problem = {STATUS_DONE, ""};
    snprintf(text, sizeof text, "work %s", line);
    if (!options_parse(COMMAND_WORK, command_line_words(text, words), words, &request, &problem) ||
        !work_request(&request, &working, &problem))
        fail_msg("%s: %s", line, problem.text);
    return &working;
}

/* The sheet of a working, on a terminal of this shape; the caller frees it. */
static inline char *sheet_of(const Working *working, unsigned columns, bool colour, bool steps) {
    static char *text; /* static, or gcc 12 thinks that the stream's memory dies with it */
    static size_t bytes;
    FILE *out = open_memstream(&text, &bytes);
    assert_non_null(out);
    Story story;
    story_tell(working, &story);
    Terminal terminal = {out, columns, colour};
    sheet_write(working, &story, steps, &terminal);
    story_free(&story);
    fclose(out);
    return text;
}

#endif
