/* Network pictures: the rules of tests/drawing.h for every structure at every width and whatever
 * stands around the network, and what is shown of wide units. */
#include "networks.h"

#include "unit/written.h"

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

/* ---- wide ones ------------------------------------------------------------------------------ */

static size_t document_bytes(const Scene *scene) {
    Written written;
    written_open(&written);
    scene_write(scene, written.out);
    fflush(written.out);
    size_t bytes = strlen(written.text);
    fclose(written.out);
    free(written.text);
    return bytes;
}

static bool says(const Scene *scene, const char *words) {
    for (uint32_t k = 0; k < scene->text_count; k++)
        if (strstr(scene->text[k].text, words) != NULL)
            return true;
    return false;
}

/* Both ends, what is left out said, and well below a mebibyte. */
static void test_wide_ones_are_abridged(void **state) {
    (void)state;
    static const unsigned widths[] = {33, 1024, 4096};
    for (int structure = 0; structure < STRUCTURES; structure++)
        for (size_t k = 0; k < sizeof widths / sizeof widths[0]; k++) {
            char line[LINE_BYTES], words[64];
            const char *name = structures[structure];
            bool slow =
                widths[k] == 4096 && strcmp(name, "skip") != 0 && strcmp(name, "kogge-stone") != 0;
            if (slow)
                continue;
            snprintf(line, sizeof line, "--structure %s --width %u --flags all %s",
                     strcmp(name, "depth=9") == 0 ? "depth=40" : name, widths[k],
                     k % 2 == 0 ? "--example 0,-1,sub" : "");
            Scene scene;
            draw(line, &scene);
            drawing_check(&scene, line);
            assert_true(document_bytes(&scene) < 1024 * 1024 / 2);
            snprintf(words, sizeof words, "columns 12 to %u", widths[k] - 13);
            assert_true(says(&scene, words));
            scene_free(&scene);
        }
}

/* Kogge and Stone 1973: n log2 n - n + 1 cells; of 64, those of columns 12 ... 51 are left out. */
static void test_cells_left_out_are_counted(void **state) {
    (void)state;
    Scene scene;
    unsigned left_out = 0;
    for (unsigned column = 12; column < 52; column++)
        for (unsigned reach = 1; reach < 64; reach *= 2)
            left_out += column >= reach;
    char words[64];
    snprintf(words, sizeof words, "and their %u cells", left_out);
    draw("--structure kogge-stone --width 64", &scene);
    assert_true(says(&scene, words));
    scene_free(&scene);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_width),
        cmocka_unit_test(test_every_control),
        cmocka_unit_test(test_every_flag_set),
        cmocka_unit_test(test_long_names),
        cmocka_unit_test(test_wide_ones_are_abridged),
        cmocka_unit_test(test_cells_left_out_are_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
