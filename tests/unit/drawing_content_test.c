/* What drawings show: every gate and every connection of the netlist once, levels that are the
 * model's, heavy wires and rings where they belong. */
#include "drawings.h"

#include "gates/build.h"
#include "model/number.h"
#include "work/working.h"

static const char *const rows[] = {"", "--structure fewest"};

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
            Point end = drawing_output(box);
            bool drives =
                box->node == literal_node(net) || (box->node == 0 && literal_inverted(net));
            if (drives && drawing_touch((Extent){end.x, end.y, end.x, end.y}, wire))
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
            Point end = drawing_input(box_of[k], side);
            assert_int_equal(box_of[k]->inverted[side], literal_inverted(node->in[side]));
            uint32_t wires = set_at(&scene, set, node->in[side] & ~1u, end.x, end.y);
            if (!has_source(&scene, set, wires))
                fail_msg("%s: input %d of gate %u hangs in the air", line, side, k);
        }
    }
    for (uint32_t k = 0; k < netlist.output_count; k++) {
        Literal literal = netlist.outputs[k].literal;
        char name[UNIT_NAME_MAX + 1];
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
            snprintf(line, sizeof line, "%s --detail %s --width %u --flags all", rows[k],
                     width % 2 == 0 ? "nand" : "nor", width);
            check_connections(line);
        }
    for (int structure = STRUCTURE_SKIP; structure < STRUCTURE_DEPTH; structure++) {
        char line[128];
        snprintf(line, sizeof line, "--structure %s --width 11 --detail gates",
                 structure_name((Structure)structure));
        check_connections(line);
    }
    for (size_t k = 0; k < sizeof drawing_controls / sizeof drawing_controls[0]; k++) {
        char line[512];
        snprintf(line, sizeof line, "%s --detail gates --width 4 --overflow saturate-signed",
                 drawing_controls[k]);
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
    bool gates = strstr(options, "--detail") != NULL;
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
        "--flags all --detail nand",
        "--flags all --structure fewest --detail nor",
        "--flags all --operations add,adc,sub,sbc,rsb --subtract-carry borrow",
        "--flags all --operations add,adc,sub,sbc,rsb --overflow saturate-signed",
        "--flags all --operations add,adc,sub,sbc,rsb --control one-hot --detail gates",
    };
    for (size_t k = 0; k < sizeof units / sizeof units[0]; k++)
        for (size_t e = 0; e < sizeof examples / sizeof examples[0]; e++)
            for (int choice = 0; choice < (k < 6 ? 2 : 5); choice++)
                check_example(units[k], choice, examples[e]);
}

/* ---- marks ------------------------------------------------------------------------------------
 */

/* Heavy are the wires of carries of 1, and no others; the two last carries have rings. */
static void check_marks(const char *line, const Literal *carry, const bool *level, unsigned count) {
    Scene scene;
    draw(line, &scene);
    for (uint32_t k = 0; k < scene.wire_count; k++) {
        bool heavy = scene.wire[k].style == WIRE_HEAVY, expected = false, is_carry = false;
        for (unsigned i = 0; i < count; i++)
            if (scene.wire[k].net == carry[i]) {
                is_carry = true;
                expected = level[i];
            }
        if (heavy && !(is_carry && expected))
            fail_msg("%s: net %u is heavy", line, scene.wire[k].net);
    }
    for (unsigned i = 0; i < count; i++) {
        bool heavy = false;
        for (uint32_t k = 0; k < scene.wire_count; k++)
            heavy = heavy || (scene.wire[k].net == carry[i] && scene.wire[k].style == WIRE_HEAVY);
        if (heavy != level[i])
            fail_msg("%s: carry %u of %d is %sheavy", line, i, level[i], heavy ? "" : "not ");
    }
    int rings = 0;
    for (uint32_t k = 0; k < scene.mark_count; k++) {
        if (scene.mark[k].kind != MARK_COMPARED)
            continue;
        rings++;
        assert_true(scene.mark[k].net == carry[count - 1] || scene.mark[k].net == carry[count - 2]);
    }
    assert_int_equal(rings, 2);
    scene_free(&scene);
}

/* 0101 - 1101, that is 0101 + 0010 + 1: carries 1, 1, 1, 1 and 0. */
static void test_carry_path_and_rings(void **state) {
    (void)state;
    static const bool level[] = {true, true, true, true, false};
    const Request *request = parsed("--width 4");
    Build build;
    build_open(&request->unit, &build);
    check_marks("--width 4 --example 5,-3,sub", build.adder.carry, level, 5);
    build_close(&build);
    Netlist netlist;
    build_netlist(&request->unit, &netlist);
    Literal carry[4] = {0};
    for (uint32_t k = 0; k < netlist.node_count; k++)
        if (netlist.nodes[k].role == ROLE_CARRY)
            carry[netlist.nodes[k].index - 1] = k * 2;
    check_marks("--width 4 --detail gates --example 5,-3,sub", carry, level + 1, 4);
    netlist_free(&netlist);
}

static int count_labels(const char *line, const char *label) {
    Scene scene;
    int count = 0;
    draw(line, &scene);
    for (uint32_t k = 0; k < scene.box_count; k++)
        count += strcmp(scene.box[k].label, label) == 0;
    scene_free(&scene);
    return count;
}

static int count_texts(const char *line, const char *words) {
    Scene scene;
    int count = 0;
    draw(line, &scene);
    for (uint32_t k = 0; k < scene.text_count; k++)
        count += strstr(scene.text[k].text, words) != NULL;
    scene_free(&scene);
    return count;
}

/* The name of the sign bit keeps its number, however long the pin's name is. */
static void test_sign_bit_has_its_number(void **state) {
    (void)state;
    const char *unit = "--width 12 --operations sub --flags negative --port result=";
    char line[128];
    snprintf(line, sizeof line, "%sresidual", unit);
    assert_int_equal(count_texts(line, "residual[11]"), 1);
    snprintf(line, sizeof line, "%sthe_residual_of_the_minute", unit);
    assert_int_equal(count_texts(line, "...[11]"), 1);
}

/* What is not drawn is said. */
static void test_abridged_forms_say_so(void **state) {
    (void)state;
    assert_int_equal(count_texts("--width 32", "left out"), 0);
    assert_int_equal(count_texts("--width 40", "8 columns like these, 16 to 23, are left out"), 1);
    assert_int_equal(
        count_texts("--width 40 --detail gates", "24 columns like these, 8 to 31, are left out"),
        1);
    assert_int_equal(count_texts("--width 32 --structure sklansky --detail gates", "in place of"),
                     0);
    assert_int_equal(count_texts("--width 33 --structure sklansky --detail gates", "in place of"),
                     1);
}

/* The cells of a ripple chain are those of the generated text (draw_test.sh compares them). */
static void test_kinds_of_adders(void **state) {
    (void)state;
    assert_int_equal(count_labels("--width 8", "FA"), 8);
    assert_int_equal(count_labels("--width 8 --operations add", "FA"), 7);
    assert_int_equal(count_labels("--width 8 --operations add", "HA"), 1);
    assert_int_equal(count_labels("--width 8 --operations sub", "FA"), 8); /* a 1 enters */
    assert_int_equal(count_labels("--width 8 --operations inc", "FA"), 8);
    assert_int_equal(count_labels("--width 1 --operations add", "FA"), 1);
    assert_int_equal(count_labels("--width 8 --operations inc --structure fewest", "HA"), 8);
    assert_int_equal(count_labels("--width 8 --operations sub --structure fewest", "FS"), 7);
    assert_int_equal(count_labels("--width 8 --structure fewest", "FA/S"), 7);
    assert_int_equal(count_labels("--width 8 --structure fewest", "HA/S"), 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_gate_is_wired),
        cmocka_unit_test(test_levels_are_the_models),
        cmocka_unit_test(test_carry_path_and_rings),
        cmocka_unit_test(test_kinds_of_adders),
        cmocka_unit_test(test_abridged_forms_say_so),
        cmocka_unit_test(test_sign_bit_has_its_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
