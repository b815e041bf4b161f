/* A drawing from a command line in one string, for tests: "--width 4 --example 5,-3,sub". It is
 * what `sumwright draw` draws. */
#ifndef SUMWRIGHT_TESTS_DRAWINGS_H
#define SUMWRIGHT_TESTS_DRAWINGS_H

#include "command_lines.h"
#include "commands/draw.h"
#include "drawing.h"

#include <stdio.h>

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

/* Operations and how they are chosen, of every kind. */
static const char *const drawing_controls[] __attribute__((unused)) = {
    "--operations add --flags all",
    "--operations pass --flags all",
    "--operations inc --flags all",
    "--operations neg --flags all",
    "--operations dec,inc --flags all",
    "--operations sub,add --control low --flags all",
    "--operations sub,rsb --flags all",
    "--operations add,inc --flags all",
    "--operations adc --flags all",
    "--operations sbc --subtract-carry borrow --flags all",
    "--operations adc,sbc --flags all",
    "--operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --flags all",
    "--operations add,adc,sub,sbc,rsb,inc,dec,neg,pass --flags all --control one-hot",
    "--operations add,sub --control one-hot --subtract-carry borrow --flags all",
    "--operations add=0000000001000000,sub=1010101010101010 --flags all",
};

#endif
