/* Scenes: what they keep, how large they are, and that the rules of tests/drawing.h see what is
 * wrong with one. */
#include "drawing.h"

#include "unit/written.h"

enum { NET = 12, OTHER = 14 };

/* A gate of every kind, both symbols and every way, each with wires to its pins. */
static void draw_gates(Scene *scene) {
    for (int kind = NODE_AND; kind < NODE_KIND_COUNT; kind++)
        for (int facing = FACING_RIGHT; facing <= FACING_LEFT; facing++) {
            Box box = {.symbol = SYMBOL_GATE, .facing = (Facing)facing, .gate = (NodeKind)kind};
            box.x = 100.0 * facing;
            box.y = 100.0 * kind;
            box.width = facing == FACING_DOWN ? GATE_ACROSS : GATE_ALONG;
            box.height = facing == FACING_DOWN ? GATE_ALONG : GATE_ACROSS;
            box.inverted[0] = kind == NODE_AND || kind == NODE_OR;
            scene_box(scene, box, "");
            double out = facing == FACING_LEFT ? -15 : 15;
            for (int end = 0; end < 3; end++) {
                Point pin = end == 2 ? drawing_output(&box) : drawing_input(&box, end);
                double on = end == 2 ? out : -out;
                scene_wire(scene, LITERAL_NONE, WIRE_PLAIN, pin.x, pin.y);
                scene_to(scene, facing == FACING_DOWN ? pin.x : pin.x + on,
                         facing == FACING_DOWN ? pin.y + on : pin.y);
            }
        }
}

static void test_gates_meet_their_wires(void **state) {
    (void)state;
    for (int set = 0; set < SYMBOLS_COUNT; set++) {
        Scene scene;
        scene_init(&scene, (SymbolSet)set);
        draw_gates(&scene);
        scene_settle(&scene);
        drawing_check(&scene, "gates");
        scene_free(&scene);
    }
}

static void test_texts_take_room(void **state) {
    (void)state;
    Text text = {100, 50, ANCHOR_END, TEXT_PLAIN, (char[]){"abc"}, LITERAL_NONE, false};
    Extent extent = scene_text_extent(&text);
    assert_true(extent.right == 100 && extent.left < 90 && extent.top == 41 && extent.bottom > 52);
    text.anchor = ANCHOR_MIDDLE;
    extent = scene_text_extent(&text);
    assert_true(extent.right - 100 == 100 - extent.left);
}

static void test_a_settled_scene_has_margins(void **state) {
    (void)state;
    Scene scene;
    scene_init(&scene, SYMBOLS_DISTINCTIVE);
    scene_box(&scene, (Box){.symbol = SYMBOL_FRAME, .x = -40, .y = -10, .width = 50, .height = 20},
              "FA");
    scene_wire(&scene, NET, WIRE_PLAIN, 10, 0);
    scene_to(&scene, 10, 0);
    scene_to(&scene, 60, 0);
    scene_settle(&scene);
    assert_true(scene.wire[0].count == 2);
    assert_true(scene.width == 100 + 2 * SCENE_MARGIN && scene.height == 20 + 2 * SCENE_MARGIN);
    assert_true(scene.box[0].x == SCENE_MARGIN && scene.point[1].x == SCENE_MARGIN + 100);
    scene_free(&scene);
}

static void test_a_document(void **state) {
    (void)state;
    Scene scene;
    Written written;
    scene_init(&scene, SYMBOLS_DISTINCTIVE);
    scene_say(&scene, "one & two", "A box.");
    scene_box(&scene, (Box){.symbol = SYMBOL_FRAME, .width = 50, .height = 30}, "full\nadder");
    scene_value(&scene, 60, 10, ANCHOR_START, NET, true);
    scene_settle(&scene);
    written_open(&written);
    scene_write(&scene, written.out);
    fflush(written.out);
    assert_non_null(strstr(written.text, "<title>one &amp; two</title>\n<desc>A box.</desc>"));
    assert_non_null(strstr(written.text, ">full</text>\n<text"));
    assert_non_null(strstr(written.text, " font-size=\"10\">1</text>"));
    fclose(written.out);
    free(written.text);
    scene_free(&scene);
}

/* Wires of one net have a dot where they go three ways or four, once, and none at a corner, where
 * they only cross, or where another net crosses. */
static void test_dots_where_wires_join(void **state) {
    (void)state;
    Scene scene;
    scene_init(&scene, SYMBOLS_DISTINCTIVE);
    const double lines[][5] = {{NET, 0, 50, 100, 50},   {NET, 20, 0, 20, 50}, /* ends on it */
                               {NET, 20, 50, 20, 90},                         /* goes on */
                               {NET, 60, 0, 60, 100},                         /* crosses */
                               {OTHER, 80, 0, 80, 100}, {NET, 100, 50, 100, 90}};
    for (size_t k = 0; k < sizeof lines / sizeof lines[0]; k++) {
        scene_wire(&scene, (Net)lines[k][0], WIRE_PLAIN, lines[k][1], lines[k][2]);
        scene_to(&scene, lines[k][3], lines[k][4]);
    }
    scene_settle(&scene);
    assert_int_equal(scene.dot_count, 1);
    assert_int_equal(scene.dot[0].net, NET);
    assert_true(scene.dot[0].x == 20 + SCENE_MARGIN && scene.dot[0].y == 50 + SCENE_MARGIN);
    scene_free(&scene);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_dots_where_wires_join),
        cmocka_unit_test(test_gates_meet_their_wires),
        cmocka_unit_test(test_texts_take_room),
        cmocka_unit_test(test_a_settled_scene_has_margins),
        cmocka_unit_test(test_a_document),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
