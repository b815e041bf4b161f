/* Network pictures: every level on the wires of an example against sums worked by hand, and every
 * cell's connections against the record of the netlist's adder core. */
#include "networks.h"

#include "gates/build.h"
#include "work/working.h"

/* ---- places -------------------------------------------------------------------------------- */

static Net net_of(const CoreCell *cell) {
    bool carry = cell->generates != LITERAL_NONE && !literal_is_constant(cell->generates);
    return carry ? cell->generates : cell->passes;
}

static bool ends_on(const Scene *scene, const Wire *wire, const Box *box) {
    Point end = scene->point[wire->first + wire->count - 1];
    return end.x > box->x && end.x < box->x + box->width && end.y > box->y - 0.1 &&
           end.y < box->y + 0.1;
}

/* Does a wire of this net end on the upper edge of the box? */
static bool enters(const Scene *scene, const Box *box, Net net) {
    for (uint32_t k = 0; k < scene->wire_count; k++)
        if (scene->wire[k].net == net && ends_on(scene, &scene->wire[k], box))
            return true;
    return false;
}

/* How many wires do, of any net; all, or only heavy ones. */
static uint32_t wires_into(const Scene *scene, const Box *box, bool heavy) {
    uint32_t count = 0;
    for (uint32_t k = 0; k < scene->wire_count; k++)
        count +=
            ends_on(scene, &scene->wire[k], box) && (!heavy || scene->wire[k].style == WIRE_HEAVY);
    return count;
}

static const Box *box_of(const Scene *scene, const CoreCell *cell) {
    for (uint32_t k = 0; k < scene->box_count; k++)
        if (scene->box[k].node == literal_node(cell->generates) &&
            scene->box[k].symbol != SYMBOL_GATE)
            return &scene->box[k];
    return NULL;
}

/* ---- levels -------------------------------------------------------------------------------- */

/* What the literals of a unit must be in an example, from its Working; 2: nothing is known. */
typedef struct {
    const Working *working;
    Netlist netlist;
    unsigned char *expected; /* of each literal */
    bool turned;
} Example;

enum { UNKNOWN = 2 };

static void expect(Example *example, Literal literal, bool level) {
    if (literal == LITERAL_NONE)
        return;
    unsigned char *known = example->expected;
    assert_true(known[literal] == UNKNOWN || known[literal] == level);
    known[literal] = level;
    known[literal ^ 1u] = !level;
}

static bool operand(const Example *example, int which, int column) {
    return word_bit(&example->working->operand[which], (unsigned)column) != example->turned;
}

/* The carry out of columns top ... bottom of the core when this one enters them. */
static bool carry_past(const Example *example, int top, int bottom, bool carry) {
    for (int i = bottom; i <= top; i++)
        carry = operand(example, 0, i) + operand(example, 1, i) + carry >= 2;
    return carry;
}

static void expect_cell(Example *example, const CoreCell *cell) {
    bool of_span = cell->kind == CORE_COLUMN || cell->kind == CORE_JOIN || cell->kind == CORE_PAIR;
    bool first = word_bit(&example->working->carry, 0) != example->turned;
    int from = of_span ? cell->bottom : 0;
    bool generates = carry_past(example, cell->top, from, !of_span && first);
    expect(example, cell->generates, generates);
    /* Where a carry is made, "passes" may be either, see core_test.c. */
    if (of_span && (cell->kind == CORE_PAIR || !generates))
        expect(example, cell->passes, carry_past(example, cell->top, from, true));
}

static void expect_pins(Example *example) {
    const Working *working = example->working;
    for (uint32_t k = 1; k < example->netlist.node_count; k++) {
        const Node *node = &example->netlist.nodes[k];
        if (node->kind != NODE_INPUT)
            continue;
        if (node->pin == PIN_A || node->pin == PIN_B)
            expect(example, k * 2,
                   word_bit(node->pin == PIN_A ? &working->a : &working->b, node->bit));
        if (node->pin == PIN_CIN)
            expect(example, k * 2, working->cin);
        if (node->pin == PIN_LINE)
            expect(example, k * 2, unit_control_value(working->unit, working->choice) == 1);
    }
    for (uint32_t k = 0; k < example->netlist.output_count; k++) {
        const Output *output = &example->netlist.outputs[k];
        expect(example, output->literal,
               output->pin == PIN_RESULT ? word_bit(&working->outcome.result, output->bit)
                                         : working->outcome.flag[output->pin - PIN_FLAG]);
    }
}

/* turned: does the core work on the adder's carries turned over, in this operation? */
static void example_open(Example *example, const Working *working, bool turned) {
    *example = (Example){.working = working, .turned = turned};
    build_of_any_kind(working->unit, &example->netlist);
    const AdderCore *core = example->netlist.core;
    example->expected = malloc(2 * (size_t)example->netlist.node_count);
    memset(example->expected, UNKNOWN, 2 * (size_t)example->netlist.node_count);
    for (unsigned i = 0; i < working->unit->width; i++) {
        bool x = word_bit(&working->operand[0], i), y = word_bit(&working->operand[1], i);
        expect(example, core->x[i], x != turned);
        expect(example, core->y[i], y != turned);
        expect(example, core->added_x[i], x);
        expect(example, core->half[i], x != (y != turned));
        expect(example, core->sum[i], word_bit(&working->sum, i));
    }
    for (unsigned i = 0; i <= working->unit->width; i++)
        expect(example, core->carry[i], word_bit(&working->carry, i) != turned);
    for (uint32_t k = 0; k < core->cell_count; k++)
        if (core->cell[k].kind != CORE_FIRST)
            expect_cell(example, &core->cell[k]);
    expect_pins(example);
}

static void example_close(Example *example) {
    free(example->expected);
    netlist_free(&example->netlist);
}

/* Every level in the drawing is right, and every wire that is known has one. */
static void check_levels(const Example *example, const Scene *scene, const char *line) {
    unsigned char *shown = calloc(2 * (size_t)example->netlist.node_count, 1);
    for (uint32_t k = 0; k < scene->text_count; k++) {
        const Text *text = &scene->text[k];
        bool level = strcmp(text->text, "0") == 0 || strcmp(text->text, "1") == 0;
        if (text->net == LITERAL_NONE || !level || text->style != TEXT_SMALL)
            continue;
        assert_int_equal(text->level, text->text[0] == '1');
        unsigned char expected = example->expected[text->net];
        if (expected != UNKNOWN && expected != text->level)
            fail_msg("%s: %s at %.0f, %.0f", line, text->text, text->x, text->y);
        shown[text->net] = 1;
    }
    const AdderCore *core = example->netlist.core;
    for (uint32_t k = 0; k < core->cell_count; k++) {
        const CoreCell *cell = &core->cell[k];
        if (cell->generates != LITERAL_NONE && !literal_is_constant(cell->generates))
            assert_true(shown[cell->generates]);
        if (cell->passes != LITERAL_NONE && !literal_is_constant(cell->passes))
            assert_true(shown[cell->passes]);
    }
    for (uint32_t k = 0; k < example->netlist.output_count; k++)
        assert_true(shown[example->netlist.outputs[k].literal]);
    free(shown);
}

static bool is_heavy(const Scene *scene, Net net) {
    for (uint32_t k = 0; k < scene->wire_count; k++)
        if (scene->wire[k].net == net && scene->wire[k].style == WIRE_HEAVY)
            return true;
    return false;
}

/* The way of a carry of 1 comes into a cell once if it leaves it, and starts at a column. */
static void check_path(const Example *example, const Scene *scene) {
    const AdderCore *core = example->netlist.core;
    for (uint32_t k = 0; k < core->cell_count; k++) {
        const CoreCell *cell = &core->cell[k];
        if (cell->level == 0 || !core_cell_is_there(cell))
            continue;
        uint32_t heavy = wires_into(scene, box_of(scene, cell), true);
        assert_int_equal(heavy, is_heavy(scene, cell->generates));
    }
    for (unsigned i = 0; i <= core->width; i++)
        if (core->giver[i] != CORE_NO_CELL)
            assert_int_equal(is_heavy(scene, core->carry[i]),
                             example->expected[core->carry[i]] == 1);
}

/* Heavy wires are 1, and two carries are ringed. */
static void check_marks(const Example *example, const Scene *scene) {
    unsigned width = example->working->unit->width;
    uint32_t rings = 0;
    for (uint32_t k = 0; k < scene->mark_count; k++) {
        if (scene->mark[k].kind != MARK_COMPARED)
            continue;
        rings++;
        assert_true(scene->mark[k].net == example->netlist.core->carry[width] ||
                    scene->mark[k].net == example->netlist.core->carry[width - 1]);
    }
    assert_int_equal(rings, 2);
    for (uint32_t k = 0; k < scene->wire_count; k++)
        if (scene->wire[k].style == WIRE_HEAVY)
            assert_int_equal(example->expected[scene->wire[k].net], 1);
}

/* Operations whose carries are and are not turned over: by the line, always, and never. */
static void test_levels(void **state) {
    (void)state;
    static Working working;
    static const struct {
        const char *operations;
        int choice;
        bool turned;
    } tries[] = {{"add,sub", 0, false},
                 {"add,sub", 1, true},
                 {"sub", 0, true},
                 {"add", 0, false},
                 {"adc,sbc", 1, false}};
    uint64_t random = 1;
    for (int structure = 0; structure < STRUCTURES; structure++)
        for (unsigned width = 2; width <= 32; width += width < 9 ? 1 : 7)
            for (size_t k = 0; k < sizeof tries / sizeof tries[0]; k++) {
                char line[LINE_BYTES];
                snprintf(line, sizeof line, "--structure %s --width %u --operations %s --flags all",
                         structures[structure], width, tries[k].operations);
                Scene scene;
                const Request *request = draw(line, &scene);
                scene_free(&scene);
                Word a, b;
                random = random * UINT64_C(6364136223846793005) + 1442695040888963407;
                word_set(&a, width, random >> 32);
                word_set(&b, width, random >> (32 - width % 16));
                working_compute(&request->unit, tries[k].choice, &a, &b, random >> 40 & 1,
                                &working);
                scene_init(&scene, SYMBOLS_DISTINCTIVE);
                draw_unit(&request->unit, &working, false, &scene);
                Example example;
                example_open(&example, &working, tries[k].turned);
                check_levels(&example, &scene, line);
                check_marks(&example, &scene);
                check_path(&example, &scene);
                example_close(&example);
                scene_free(&scene);
            }
}

/* ---- connections --------------------------------------------------------------------------- */

/* Every cell of the structure is there once and reads what it reads, and nothing else. */
static void test_connections(void **state) {
    (void)state;
    for (int structure = 0; structure < STRUCTURES; structure++)
        for (unsigned width = 1; width <= 32; width += width < 8 ? 1 : 3) {
            char line[LINE_BYTES];
            Scene scene;
            Netlist netlist;
            snprintf(line, sizeof line, "--structure %s --width %u --operations %s",
                     structures[structure], width, width % 2 == 0 ? "add,sub" : "adc,sbc");
            build_of_any_kind(&draw(line, &scene)->unit, &netlist);
            for (uint32_t k = 0; k < netlist.core->cell_count; k++) {
                const CoreCell *cell = &netlist.core->cell[k];
                if (cell->level == 0 || !core_cell_is_there(cell))
                    continue;
                const Box *box = box_of(&scene, cell);
                if (box == NULL)
                    fail_msg("%s: cell %u is not drawn", line, k);
                uint32_t inputs = 0;
                for (int in = 0; in < cell->in_count; in++) {
                    const CoreCell *before = &netlist.core->cell[cell->in[in]];
                    if (!core_cell_is_there(before))
                        continue;
                    inputs++;
                    if (!enters(&scene, box, net_of(before)))
                        fail_msg("%s: input %d of cell %u is not drawn", line, in, k);
                }
                assert_int_equal(wires_into(&scene, box, false), inputs);
            }
            netlist_free(&netlist);
            scene_free(&scene);
        }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_levels),
        cmocka_unit_test(test_connections),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
