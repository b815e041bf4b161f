/* Network pictures: the rules of tests/drawing.h for every structure at every width, the levels on
 * an example's wires against sums worked by hand, and what is shown of wide units. */
#include "drawing.h"

#include "command_lines.h"
#include "commands/draw.h"
#include "draw/draw.h"
#include "gates/build.h"
#include "unit/written.h"
#include "work/working.h"

#include <stdio.h>

static const char *const structures[] = {"skip",        "select",         "lookahead",
                                         "sklansky",    "kogge-stone",    "brent-kung",
                                         "han-carlson", "ladner-fischer", "depth=9"};

enum { STRUCTURES = sizeof structures / sizeof structures[0], LINE_BYTES = 1024 };

/* Draws "--width 4 ...". The request lasts until the next call. */
static const Request *draw(const char *line, Scene *scene) {
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

static void check(const char *line) {
    Scene scene;
    draw(line, &scene);
    drawing_check(&scene, line);
    scene_free(&scene);
}

/* ---- geometry ------------------------------------------------------------------------------ */

static void test_every_width(void **state) {
    (void)state;
    for (int structure = 0; structure < STRUCTURES; structure++)
        for (unsigned width = 1; width <= 32; width++) {
            char line[LINE_BYTES];
            int used = snprintf(line, sizeof line, "--structure %s --width %u",
                                structures[structure], width);
            check(line);
            snprintf(line + used, sizeof line - (size_t)used, " --flags all --example 0,-1,sub");
            check(line);
        }
}

/* What is around the network: operands, control, registers, saturation. */
static void test_every_control(void **state) {
    (void)state;
    static const char *const controls[] = {
        "add",
        "sub",
        "adc",
        "sbc",
        "rsb",
        "inc",
        "dec",
        "neg",
        "pass",
        "inc,pass",
        "sub,add --control low",
        "sub,rsb",
        "add,adc",
        "adc,sbc",
        "adc,sbc --subtract-carry borrow",
        "sbc --subtract-carry borrow",
        "add,sub --control one-hot --subtract-carry borrow",
        "add,adc,sub,sbc,rsb,inc,dec,neg,pass",
        "add,adc,sub,sbc,rsb,inc,dec,neg,pass --control one-hot",
        "add=0000000001000000,sub=1010101010101010",
    };
    static const char *const more[] = {
        "--flags all", "--overflow saturate-signed --registers output --flags none",
        "--overflow saturate-unsigned --registers both --enable --flags all"};
    int way = 0;
    for (size_t k = 0; k < sizeof controls / sizeof controls[0]; k++)
        for (unsigned width = 1; width <= 9; width += 2, way++) {
            char line[LINE_BYTES];
            bool one = controls[k][0] == 'i' || controls[k][0] == 'd' || controls[k][0] == 'n' ||
                       controls[k][0] == 'p';
            snprintf(line, sizeof line, "--structure %s --operations %s %s --width %u %s%s",
                     structures[way % STRUCTURES], controls[k], more[way % 3], width,
                     way % 2 == 0 ? "--example -1" : "", way % 2 == 0 && !one ? ",0" : "");
            check(line);
        }
}

static void test_every_flag_set(void **state) {
    (void)state;
    for (unsigned set = 0; set < 1u << FLAG_COUNT; set++) {
        char line[LINE_BYTES];
        size_t used = (size_t)snprintf(line, sizeof line,
                                       "--structure %s --width 4 --example 5,-3,sub --flags ",
                                       structures[set % STRUCTURES]);
        for (int flag = 0; flag < FLAG_COUNT; flag++)
            if (set >> flag & 1)
                used +=
                    (size_t)snprintf(line + used, sizeof line - used, "%s,", flag_name((Flag)flag));
        if (set == 0)
            snprintf(line + used, sizeof line - used, "none");
        else
            line[used - 1] = '\0';
        check(line);
    }
}

static void test_long_names(void **state) {
    (void)state;
    check(
        "--structure skip --port a=the_observed_level_of_this_minute "
        "--port b=the_predicted_level_of_this_minute --operations adc,sbc "
        "--port result=the_surge_residual_of_this_minute --port clk=the_clock_of_the_whole_logger "
        "--port carry=no_borrow_out_of_the_top_column --port mode=take_the_prediction_away "
        "--port cin=what_the_word_below_this_one_left --registers both --enable");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_width),
        cmocka_unit_test(test_every_control),
        cmocka_unit_test(test_every_flag_set),
        cmocka_unit_test(test_long_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
