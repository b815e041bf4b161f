/* Drawings of units: that nothing lies on anything it does not belong to, at every width from 1 to
 * 32 and at wide ones, whatever the unit has. */
#include "drawings.h"

#include "draw/draw.h"

enum { PAGE_MOST = 10000 };

static void check(const char *line) {
    Scene scene;
    draw(line, &scene);
    drawing_check(&scene, line);
    if (scene.width > PAGE_MOST || scene.height > PAGE_MOST)
        fail_msg("%s: %.0f x %.0f is no page", line, scene.width, scene.height);
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

static void test_rows_of_every_control(void **state) {
    (void)state;
    static const char *const more[] = {"", "--overflow saturate-signed --registers output",
                                       "--overflow saturate-unsigned --registers both --enable"};
    for (size_t k = 0; k < sizeof drawing_controls / sizeof drawing_controls[0]; k++)
        for (size_t m = 0; m < sizeof more / sizeof more[0]; m++)
            for (unsigned width = 1; width <= 5; width += 2) {
                char line[512];
                snprintf(line, sizeof line, "%s %s --width %u", drawing_controls[k], more[m],
                         width);
                bool one = strncmp(drawing_controls[k], "--operations pass", 17) == 0 ||
                           strncmp(drawing_controls[k], "--operations neg", 16) == 0 ||
                           strncmp(drawing_controls[k], "--operations inc", 16) == 0 ||
                           strncmp(drawing_controls[k], "--operations dec", 16) == 0;
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

static void test_gates_at_every_width(void **state) {
    (void)state;
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++)
        for (unsigned width = 1; width <= 32; width++) {
            char line[128];
            snprintf(line, sizeof line, "%s --width %u --detail gates --flags all", rows[k], width);
            if (width % 8 <= 1)
                check_all_ways(line, "0,-1,sub");
            else
                check(line);
        }
    for (int structure = STRUCTURE_SKIP; structure < STRUCTURE_DEPTH; structure++) {
        char line[128];
        snprintf(line, sizeof line, "--structure %s --width 11 --detail gates --flags all",
                 structure_name((Structure)structure));
        check_all_ways(line, "1,-1,sub");
    }
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++)
        for (unsigned width = 1; width <= 32; width += 5) {
            char line[128];
            snprintf(line, sizeof line, "%s --width %u --detail %s --flags all", rows[k], width,
                     width % 2 == 0 ? "nand" : "nor");
            check_all_ways(line, "0,-1,sub");
        }
    check("--detail gates --width 32 --structure sklansky");
    check("--detail gates --width 64 --structure sklansky");
    check("--detail gates --width 33 --example 0,-1,sub --flags all");
    check("--detail gates --width 4096 --example 0,-1,sub --flags all");
}

static void test_gates_of_every_control(void **state) {
    (void)state;
    for (size_t k = 0; k < sizeof drawing_controls / sizeof drawing_controls[0]; k++)
        for (unsigned width = 1; width <= 9; width += 4)
            for (int rule = 0; rule < OVERFLOW_COUNT; rule++) {
                char line[512];
                snprintf(line, sizeof line, "%s --detail gates --overflow %s --width %u",
                         drawing_controls[k], overflow_name((Overflow)rule), width);
                check(line);
            }
}

/* ---- any unit -------------------------------------------------------------------------------- */

static unsigned drawn_number(uint32_t *seed, unsigned below) {
    *seed = *seed * 1664525u + 1013904223u; /* the constants of Numerical Recipes (from memory) */
    return (*seed >> 8) % below;
}

/* Some unit, or false for a combination that is refused. */
static bool draw_lots(uint32_t *seed, Unit *unit) {
    Problem problem = {STATUS_DONE, ""};
    unit_init(unit);
    unit->width = 1 + drawn_number(seed, 12);
    unsigned first = drawn_number(seed, OP_COUNT), count = 1 + drawn_number(seed, 4);
    for (unsigned k = 0; k < count; k++)
        unit->choice[unit->choice_count++].operation = (Operation)((first + k * 2) % OP_COUNT);
    unit->control = (Control)drawn_number(seed, CONTROL_COUNT);
    unit->sense = (Sense)drawn_number(seed, SENSE_COUNT);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit->flag[flag] = drawn_number(seed, 2) == 1;
    unit->overflow = (Overflow)drawn_number(seed, OVERFLOW_COUNT);
    unit->structure = (Structure)drawn_number(seed, STRUCTURE_DEPTH);
    unit->registers = (Registers)drawn_number(seed, REGISTERS_COUNT);
    static const Detail details[] = {DETAIL_UNSET, DETAIL_GATES, DETAIL_NAND, DETAIL_NOR};
    unit->detail = details[drawn_number(seed, 4)];
    return unit_settle(unit, &problem);
}

/* What a drawing says of the carries that are compared is what the model says of overflow. */
static int check_verdict(const Scene *scene, const Working *working, const char *what) {
    int said = 0;
    for (uint32_t k = 0; k < scene->text_count; k++) {
        const char *text = scene->text[k].text;
        if (strstr(text, "Rings:") == NULL && strstr(text, "ringed") == NULL)
            continue;
        /* Wrapped lines have the rest of the sentence in the next. */
        const char *next = k + 1 < scene->text_count ? scene->text[k + 1].text : "";
        bool differ = strstr(text, "differ") != NULL ||
                      (strstr(text, "equal") == NULL && strstr(next, "differ") != NULL);
        if (differ != working->outcome.flag[FLAG_OVERFLOW])
            fail_msg("%s: %s", what, text);
        said++;
    }
    return said;
}

static void test_any_unit(void **state) {
    (void)state;
    static Unit unit;
    static Working working;
    uint32_t seed = 1;
    int drawn = 0, said = 0;
    for (int k = 0; k < 600; k++) {
        if (!draw_lots(&seed, &unit))
            continue;
        Word a, b;
        word_set(&a, unit.width, drawn_number(&seed, 4096));
        word_set(&b, unit.width, drawn_number(&seed, 4096));
        int choice = (int)drawn_number(&seed, (unsigned)unit.choice_count);
        working_compute(&unit, choice, &a, &b, drawn_number(&seed, 2) == 1, &working);
        for (int gates = 0; gates < 2; gates++) {
            Scene scene;
            char what[64];
            snprintf(what, sizeof what, "lot %d, %.20s, gates %d", k, unit.name, gates);
            scene_init(&scene, SYMBOLS_DISTINCTIVE);
            draw_unit(&unit, k % 2 == 0 ? &working : NULL, gates == 1, &scene);
            drawing_check(&scene, what);
            if (k % 2 == 0)
                said += check_verdict(&scene, &working, what);
            scene_free(&scene);
        }
        drawn++;
    }
    assert_true(drawn > 100 && said > 100);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows_at_every_width),
        cmocka_unit_test(test_rows_of_every_control),
        cmocka_unit_test(test_rows_of_every_flag_set),
        cmocka_unit_test(test_long_names),
        cmocka_unit_test(test_gates_at_every_width),
        cmocka_unit_test(test_gates_of_every_control),
        cmocka_unit_test(test_any_unit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
