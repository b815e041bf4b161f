/* Drawings of units: that nothing lies on anything it does not belong to, at every width from 1 to
 * 32 and at wide ones, whatever the unit has; that every level of an example is the model's; that
 * every gate and every connection of the netlist is there once. */
#include "drawing.h"

#include "command_lines.h"
#include "commands/draw.h"
#include "draw/draw.h"

#include <stdio.h>

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

/* The same with both kinds of symbols, without and with an example. */
static void check_all_ways(const char *line, const char *example) {
    for (int way = 0; way < 4; way++) {
        char longer[1024];
        snprintf(longer, sizeof longer, "%s%s%s%s", line, way % 2 == 1 ? " --example " : "",
                 way % 2 == 1 ? example : "", way >= 2 ? " --symbols rectangular" : "");
        check(longer);
    }
}

/* ---- geometry ------------------------------------------------------------------------------ */

static const char *const rows[] = {"", "--structure fewest"};

static void test_rows_at_every_width(void **state) {
    (void)state;
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++)
        for (unsigned width = 1; width <= 32; width++) {
            char line[128];
            snprintf(line, sizeof line, "%s --width %u --flags all", rows[k], width);
            check_all_ways(line, "0,-1,sub");
        }
    check("--width 33 --example 0,-1,sub --flags all");
    check("--width 4096 --example 0,-1,sub --flags all");
}

static const char *const controls[] = {
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

static void test_rows_of_every_control(void **state) {
    (void)state;
    static const char *const more[] = {"", "--overflow saturate-signed --registers output",
                                       "--overflow saturate-unsigned --registers both --enable"};
    for (size_t k = 0; k < sizeof controls / sizeof controls[0]; k++)
        for (size_t m = 0; m < sizeof more / sizeof more[0]; m++)
            for (unsigned width = 1; width <= 5; width += 2) {
                char line[512];
                snprintf(line, sizeof line, "%s %s --width %u", controls[k], more[m], width);
                bool one = strncmp(controls[k], "--operations pass", 17) == 0 ||
                           strncmp(controls[k], "--operations neg", 16) == 0 ||
                           strncmp(controls[k], "--operations inc", 16) == 0 ||
                           strncmp(controls[k], "--operations dec", 16) == 0;
                check_all_ways(line, one ? "-1" : "-1,0");
            }
}

static void test_rows_of_every_flag_set(void **state) {
    (void)state;
    for (unsigned set = 0; set < 1u << FLAG_COUNT; set++) {
        char line[512] = "--width 4 --example 5,-3,sub --flags ";
        size_t used = strlen(line);
        for (int flag = 0; flag < FLAG_COUNT; flag++)
            if (set >> flag & 1)
                used +=
                    (size_t)snprintf(line + used, sizeof line - used, "%s,", flag_name((Flag)flag));
        if (set == 0)
            snprintf(line + used, sizeof line - used, "none");
        else
            line[used - 1] = '\0';
        check(line);
        snprintf(line + strlen(line), sizeof line - strlen(line),
                 " --structure fewest --subtract-carry borrow");
        check(line);
    }
}

static void test_long_names(void **state) {
    (void)state;
    check(
        "--port a=the_observed_level_of_this_minute --port b=the_predicted_level_of_this_minute "
        "--port result=the_surge_residual_of_this_minute --port clk=the_clock_of_the_whole_logger "
        "--port carry=no_borrow_out_of_the_top_column --port subtract=take_the_prediction_away "
        "--name surge_residual_of_a_small_harbour_in_millimetres --registers both --enable");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows_at_every_width),
        cmocka_unit_test(test_rows_of_every_control),
        cmocka_unit_test(test_rows_of_every_flag_set),
        cmocka_unit_test(test_long_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
