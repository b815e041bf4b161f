/* Network pictures from command lines in one string, for tests. */
#ifndef SUMWRIGHT_TESTS_NETWORKS_H
#define SUMWRIGHT_TESTS_NETWORKS_H

#include "drawing.h"

#include "command_lines.h"
#include "commands/draw.h"
#include "draw/draw.h"

#include <stdio.h>

static const char *const structures[] = {"skip",        "select",         "lookahead",
                                         "sklansky",    "kogge-stone",    "brent-kung",
                                         "han-carlson", "ladner-fischer", "depth=9"};

enum { STRUCTURES = sizeof structures / sizeof structures[0], LINE_BYTES = 1024 };

/* Draws "--width 4 ...". The request lasts until the next call. */
static inline const Request *draw(const char *line, Scene *scene) {
    static char text[COMMAND_LINE_BYTES];
    static Request request;
    char *words[COMMAND_LINE_WORDS + 1];
    Problem problem = {STATUS_DONE, ""};
    snprintf(text, sizeof text, "draw %s", line);
    if (!options_parse(COMMAND_DRAW, command_line_words(text, words), words, &request, &problem) ||
        !draw_request(&request, scene, &problem))
        fail_msg("%s: %s", line, problem.text);
    return &request;
}

#endif
