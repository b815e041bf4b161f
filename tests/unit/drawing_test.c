/* Drawings of units: that nothing lies on anything it does not belong to, at every width from 1 to
 * 32 and at wide ones, whatever the unit has; that every level of an example is the model's; that
 * every gate and every connection of the netlist is there once. */
#include "drawing.h"

#include "command_lines.h"
#include "commands/draw.h"
#include "draw/draw.h"
#include "gates/build.h"
#include "model/number.h"

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

enum { PAGE_MOST = 5000 };

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
        check(line);
    }
    check("--detail gates --width 33 --example 0,-1,sub --flags all");
    check("--detail gates --width 4096 --example 0,-1,sub --flags all");
}

static void test_gates_of_every_control(void **state) {
    (void)state;
    for (size_t k = 0; k < sizeof controls / sizeof controls[0]; k++)
        for (unsigned width = 1; width <= 9; width += 4)
            for (int rule = 0; rule < OVERFLOW_COUNT; rule++) {
                char line[512];
                snprintf(line, sizeof line, "%s --detail gates --overflow %s --width %u",
                         controls[k], overflow_name((Overflow)rule), width);
                check(line);
            }
}

/* ---- gates and wires ------------------------------------------------------------------------- */

/* Wires of one net that touch, as sets: set[k] leads to the set's first wire. */
static uint32_t set_of(const uint32_t *set, uint32_t wire) {
    while (set[wire] != wire)
        wire = set[wire];
    return wire;
}

static Extent extent_of(const Scene *scene, uint32_t wire) {
    Point from = scene->point[scene->wire[wire].first];
    Point to = scene->point[scene->wire[wire].first + 1];
    assert_int_equal(scene->wire[wire].count, 2);
    return (Extent){drawing_least(from.x, to.x), drawing_least(from.y, to.y),
                    -drawing_least(-from.x, -to.x), -drawing_least(-from.y, -to.y)};
}

static uint32_t *sets_of(const Scene *scene) {
    uint32_t *set = calloc(scene->wire_count + 1, sizeof *set);
    for (uint32_t k = 0; k < scene->wire_count; k++) {
        set[k] = k;
        for (uint32_t other = 0; other < k; other++)
            if (drawing_same_net(scene->wire[k].net, scene->wire[other].net) &&
                drawing_touch(extent_of(scene, k), extent_of(scene, other)))
                set[set_of(set, k)] = set_of(set, other);
    }
    return set;
}

/* The set of the wire of a net that ends at a place. */
static uint32_t set_at(const Scene *scene, const uint32_t *set, Net net, double x, double y) {
    Extent at = {x, y, x, y};
    for (uint32_t k = 0; k < scene->wire_count; k++)
        if (scene->wire[k].net == net && drawing_touch(at, extent_of(scene, k)))
            return set_of(set, k);
    fail_msg("no wire of net %u at %.0f, %.0f", net, x, y);
    return 0;
}

/* Does a set of wires come from where its net begins: the output of its gate or inverter, or a name
 * above it? */
static bool has_source(const Scene *scene, const uint32_t *set, uint32_t of) {
    Net net = scene->wire[of].net;
    for (uint32_t k = 0; k < scene->wire_count; k++) {
        if (set_of(set, k) != of)
            continue;
        Extent wire = extent_of(scene, k);
        for (uint32_t b = 0; b < scene->box_count; b++) {
            const Box *box = &scene->box[b];
            double x, y;
            gate_output(box, &x, &y);
            bool drives =
                box->node == literal_node(net) || (box->node == 0 && literal_inverted(net));
            if (drives && drawing_touch((Extent){x, y, x, y}, wire))
                return true;
        }
        for (uint32_t t = 0; t < scene->text_count; t++) {
            const Text *text = &scene->text[t];
            double above = wire.top - text->y, aside = wire.left - text->x;
            if (text->net == net && text->style == TEXT_PLAIN && above > 0 && above < 8 &&
                aside * aside < 0.1)
                return true;
        }
    }
    return false;
}

/* Every gate once, as it is, with a wire of the right net from that net's source at each input; an
 * output of the unit likewise, at the top of its name. */
static void check_connections(const char *line) {
    Scene scene;
    const Request *request = draw(line, &scene);
    Netlist netlist;
    build_netlist(&request->unit, &netlist);
    uint32_t *set = sets_of(&scene);
    const Box **box_of = calloc(netlist.node_count, sizeof *box_of);
    for (uint32_t k = 0; k < scene.box_count; k++) {
        const Box *box = &scene.box[k];
        if (box->node == 0)
            continue;
        assert_null(box_of[box->node]);
        box_of[box->node] = box;
    }
    for (uint32_t k = 0; k < netlist.node_count; k++) {
        const Node *node = &netlist.nodes[k];
        if (!netlist_is_gate(node))
            continue;
        assert_non_null(box_of[k]);
        assert_int_equal(box_of[k]->gate, node->kind);
        for (int side = 0; side < 2; side++) {
            double x, y;
            gate_input(box_of[k], side, &x, &y);
            assert_int_equal(box_of[k]->inverted[side], literal_inverted(node->in[side]));
            uint32_t wires = set_at(&scene, set, node->in[side] & ~1u, x, y);
            if (!has_source(&scene, set, wires))
                fail_msg("%s: input %d of gate %u hangs in the air", line, side, k);
        }
    }
    for (uint32_t k = 0; k < netlist.output_count; k++) {
        Literal literal = netlist.outputs[k].literal;
        char name[64];
        if (netlist.outputs[k].pin == PIN_RESULT)
            snprintf(name, sizeof name, "r%u", netlist.outputs[k].bit);
        else
            snprintf(name, sizeof name, "%s", request->unit.pin[netlist.outputs[k].pin]);
        bool found = false;
        for (uint32_t t = 0; t < scene.text_count; t++)
            if (strcmp(scene.text[t].text, name) == 0 && scene.text[t].net == literal) {
                uint32_t wires =
                    set_at(&scene, set, literal, scene.text[t].x, scene.text[t].y - 12);
                found = has_source(&scene, set, wires);
            }
        if (!found && !literal_is_constant(literal))
            fail_msg("%s: output %s hangs in the air", line, name);
    }
    free(box_of);
    free(set);
    netlist_free(&netlist);
    scene_free(&scene);
}

static void test_every_gate_is_wired(void **state) {
    (void)state;
    for (unsigned width = 1; width <= 32; width += width < 10 ? 1 : 11)
        for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
            char line[256];
            snprintf(line, sizeof line, "%s --detail gates --width %u --flags all", rows[k], width);
            check_connections(line);
        }
    for (int structure = STRUCTURE_SKIP; structure < STRUCTURE_DEPTH; structure++) {
        char line[128];
        snprintf(line, sizeof line, "--structure %s --width 11 --detail gates",
                 structure_name((Structure)structure));
        check_connections(line);
    }
    for (size_t k = 0; k < sizeof controls / sizeof controls[0]; k++) {
        char line[512];
        snprintf(line, sizeof line, "%s --detail gates --width 4 --overflow saturate-signed",
                 controls[k]);
        check_connections(line);
    }
}

/* ---- examples -------------------------------------------------------------------------------- */

/* Each level that is written of a net; -1: none is; they all are the same. */
static int level_of(const Scene *scene, Net net) {
    int level = -1;
    for (uint32_t k = 0; k < scene->text_count; k++) {
        const Text *text = &scene->text[k];
        if (text->net != net || text->style != TEXT_SMALL)
            continue;
        assert_string_equal(text->text, text->level ? "1" : "0");
        assert_true(level == -1 || level == text->level);
        level = text->level;
    }
    return level;
}

static void assert_level(const Scene *scene, Literal literal, bool expected, const char *what) {
    if (literal_is_constant(literal))
        assert_int_equal(literal == LITERAL_1, expected);
    else if (level_of(scene, literal) != expected)
        fail_msg("%s: %d, not %d", what, level_of(scene, literal), expected);
}

/* The working of an example, by the model's side. */
static void work_out(const Unit *unit, const char *a_text, const char *b_text, int choice,
                     Working *working) {
    Problem problem = {STATUS_DONE, ""};
    Word a, b;
    assert_true(number_read(a_text, unit->width, "a", &a, &problem));
    assert_true(number_read(b_text, unit->width, "b", &b, &problem));
    bool subtracts = operation_facts(unit->choice[choice].operation)->subtracts;
    working_compute(unit, choice, &a, &b, subtracts && unit->sense == SENSE_NO_BORROW, working);
}

static void check_outputs(const Scene *scene, const Netlist *netlist, const Working *working,
                          const char *what) {
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        const Output *output = &netlist->outputs[k];
        bool expected = output->pin == PIN_RESULT ? word_bit(&working->outcome.result, output->bit)
                                                  : working->outcome.flag[output->pin - PIN_FLAG];
        assert_level(scene, output->literal, expected, what);
    }
}

static const char *const examples[][2] = {{"0", "0"}, {"-1", "1"},  {"5", "-3"}, {"-8", "7"},
                                          {"7", "7"}, {"-8", "-8"}, {"3", "-5"}};

static void check_example(const char *options, int choice, const char *const *operands) {
    static Working working;
    char line[512];
    Scene scene;
    static const char *const operations[] = {"add", "adc", "sub", "sbc", "rsb"};
    bool one_line = strstr(options, "add,adc") == NULL;
    static const char *const few[] = {"add", "sub"};
    snprintf(line, sizeof line, "--width 4 %s --example %s,%s,%s", options, operands[0],
             operands[1], one_line ? few[choice] : operations[choice]);
    const Request *request = draw(line, &scene);
    work_out(&request->unit, operands[0], operands[1], choice, &working);
    bool gates = strstr(options, "gates") != NULL;
    Build build;
    build_open(&request->unit, &build);
    if (gates) {
        Netlist netlist;
        build_netlist(&request->unit, &netlist);
        check_outputs(&scene, &netlist, &working, line);
        netlist_free(&netlist);
    } else {
        check_outputs(&scene, &build.netlist, &working, line);
        for (unsigned i = 0; i <= 4 && request->unit.structure == STRUCTURE_RIPPLE; i++) {
            assert_level(&scene, build.adder.carry[i], word_bit(&working.carry, i), line);
            if (i == 4)
                break;
            assert_level(&scene, build.adder.sum[i], word_bit(&working.sum, i), line);
            assert_level(&scene, build.operands.x[i], word_bit(&working.operand[0], i), line);
            assert_level(&scene, build.operands.y[i], word_bit(&working.operand[1], i), line);
        }
    }
    build_close(&build);
    scene_free(&scene);
}

/* The second witness of the levels, which the netlist computed: the model, and the columns as they
 * are worked by hand. */
static void test_levels_are_the_models(void **state) {
    (void)state;
    static const char *const units[] = {
        "--flags all",
        "--flags all --detail gates",
        "--flags all --structure fewest",
        "--flags all --structure fewest --detail gates",
        "--flags all --operations add,adc,sub,sbc,rsb --subtract-carry borrow",
        "--flags all --operations add,adc,sub,sbc,rsb --overflow saturate-signed",
        "--flags all --operations add,adc,sub,sbc,rsb --control one-hot --detail gates",
    };
    for (size_t k = 0; k < sizeof units / sizeof units[0]; k++)
        for (size_t e = 0; e < sizeof examples / sizeof examples[0]; e++)
            for (int choice = 0; choice < (k < 4 ? 2 : 5); choice++)
                check_example(units[k], choice, examples[e]);
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
    return unit_settle(unit, &problem);
}

static void test_any_unit(void **state) {
    (void)state;
    static Unit unit;
    static Working working;
    uint32_t seed = 1;
    int drawn = 0;
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
            scene_free(&scene);
        }
        drawn++;
    }
    assert_true(drawn > 100);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows_at_every_width),
        cmocka_unit_test(test_rows_of_every_control),
        cmocka_unit_test(test_rows_of_every_flag_set),
        cmocka_unit_test(test_long_names),
        cmocka_unit_test(test_gates_at_every_width),
        cmocka_unit_test(test_gates_of_every_control),
        cmocka_unit_test(test_every_gate_is_wired),
        cmocka_unit_test(test_levels_are_the_models),
        cmocka_unit_test(test_any_unit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
