/* What drawings say in words is so: the carry path, the rings, the flags' rules and the levels on
 * the wires, each held to the carries and flags that the Working and the model have, over all
 * structures, lists of operations, details and widths. */
#include "drawings.h"

#include "draw/draw.h"

enum { CARRIES_MAX = 4100 };

typedef struct {
    const Scene *scene;
    const Working *working;
    const char *what;
    bool turned;        /* the carries drawn are those of the sum turned over, */
    bool last_is_plain; /* but the last is not */
    bool named[CARRIES_MAX];
} Case;

/* The text of the note that begins so, its lines joined; NULL for none. The caller frees it. */
static char *note(const Scene *scene, const char *begins) {
    for (uint32_t k = 0; k < scene->text_count; k++) {
        if (strncmp(scene->text[k].text, begins, strlen(begins)) != 0)
            continue;
        char *joined = calloc(1, 2048);
        double y = scene->text[k].y;
        for (uint32_t line = k; line < scene->text_count && scene->text[line].y <= y + SCENE_LINE;
             y = scene->text[line++].y) {
            size_t used = strlen(joined);
            snprintf(joined + used, 2048 - used, "%s%s", line == k ? "" : " ",
                     scene->text[line].text);
        }
        return joined;
    }
    return NULL;
}

/* ---- the carries ----------------------------------------------------------------------------- */

static bool expected_carry(const Case *one, unsigned column) {
    bool plain = column == one->working->unit->width && one->last_is_plain;
    return word_bit(&one->working->carry, column) != (one->turned && !plain);
}

/* The level that the drawing shows of a net; -1 for none. */
static int shown_level(const Scene *scene, Net net) {
    for (uint32_t k = 0; k < scene->text_count; k++) {
        const Text *text = &scene->text[k];
        if (text->net == net && text->style == TEXT_SMALL && text->text[1] == '\0')
            return text->level;
    }
    return -1;
}

static bool is_heavy(const Scene *scene, Net net) {
    for (uint32_t k = 0; k < scene->wire_count; k++)
        if (scene->wire[k].net == net && scene->wire[k].style == WIRE_HEAVY)
            return true;
    return false;
}

/* Every wire that is named as a carry has its level, and is heavy where the carry is 1. */
static void check_names(Case *one) {
    for (uint32_t k = 0; k < one->scene->text_count; k++) {
        const Text *text = &one->scene->text[k];
        bool inverse = strncmp(text->text, "not c", 5) == 0;
        unsigned column;
        int end = 0;
        if (text->net == LITERAL_NONE ||
            sscanf(text->text + (inverse ? 4 : 0), "c%u%n", &column, &end) != 1 ||
            text->text[end + (inverse ? 4 : 0)] != '\0')
            continue;
        assert_true(column <= one->working->unit->width);
        bool expected = expected_carry(one, column);
        int shown = shown_level(one->scene, text->net);
        if (shown >= 0 && shown != (expected != inverse))
            fail_msg("%s: %s is shown as %d", one->what, text->text, shown);
        if (is_heavy(one->scene, text->net) != expected)
            fail_msg("%s: %s of %d is%s heavy", one->what, text->text, expected,
                     expected ? " not" : "");
        one->named[column] = true;
    }
}

/* Columns in the middle of a wide drawing have no names; the rest has. */
static bool counts(const Case *one, unsigned column) {
    unsigned width = one->working->unit->width;
    return one->named[column] || (width > DRAW_COLUMNS_MAX && column >= 8 && column + 8 < width);
}

static void check_path(const Case *one, const char *text) {
    unsigned width = one->working->unit->width, best = 0, from = 0, run = 0;
    char expected[256];
    const char *what = one->turned
                           ? strstr(text, "borrows") != NULL ? "borrows" : "carries turned over"
                           : "carries";
    for (unsigned i = 0; i <= width; i++) {
        run = counts(one, i) && expected_carry(one, i) ? run + 1 : 0;
        if (run > best) {
            best = run;
            from = i + 1 - run;
        }
    }
    if (best == 0)
        snprintf(expected, sizeof expected, "all %s are 0.", what);
    else if (best == 1)
        snprintf(expected, sizeof expected, "none goes further than one column.");
    else
        snprintf(expected, sizeof expected, "the longest path is from c%u to c%u.", from,
                 from + best - 1);
    if (strstr(text, expected) == NULL || strstr(text, what) == NULL)
        fail_msg("%s: '%s', and not '%s'", one->what, text, expected);
}

static void check_rings(const Case *one, const char *text) {
    unsigned width = one->working->unit->width;
    bool in = expected_carry(one, width - 1), out = expected_carry(one, width);
    char expected[128];
    snprintf(expected, sizeof expected, "c%u = %d and c%u = %d; they %s", width, out, width - 1, in,
             in == out ? "are equal, so the sum is valid" : "differ, so the sum is wrong");
    if (strstr(text, expected) == NULL)
        fail_msg("%s: '%s', and not '%s'", one->what, text, expected);
    int rings = 0;
    for (uint32_t k = 0; k < one->scene->mark_count; k++)
        rings += one->scene->mark[k].kind == MARK_COMPARED;
    if (rings != 2)
        fail_msg("%s: %d rings", one->what, rings);
}

/* ---- the flags ------------------------------------------------------------------------------- */

/* The level of an input of a box, by the name at the end of its wire: beside the box, on its
 * right. */
static int input_level(const Case *one, const Box *box, const char *name) {
    for (uint32_t k = 0; k < one->scene->text_count; k++) {
        const Text *text = &one->scene->text[k];
        if (text->x > box->x + box->width && text->x < box->x + box->width + 40 &&
            text->y > box->y && text->y < box->y + box->height && strcmp(text->text, name) == 0)
            return shown_level(one->scene, text->net);
    }
    fail_msg("%s: no '%s' at '%s'", one->what, name, box->label);
    return -1;
}

/* What the rule in a flag's box comes to; -1: it is not one of carries. */
static int rule_value(const Case *one, const Box *box) {
    unsigned i, j;
    char name[64], rest[8];
    const char *label = box->label;
    int known = label[0] - '0';
    if (sscanf(label, "c%u and c%u\ndiffe%1s", &i, &j, rest) == 3)
        return expected_carry(one, i) != expected_carry(one, j);
    if (sscanf(label, "c%u differs\nfrom %u", &i, &j) == 2)
        return expected_carry(one, i) != (j == 1);
    if (sscanf(label, "c%u, turned over if\n%63[^\n]", &i, name) == 2)
        return expected_carry(one, i) != (input_level(one, box, name) == 1);
    if (sscanf(label, "%1u, turned over if\n%63[^\n]", &i, name) == 2)
        return (i == 1) != (input_level(one, box, name) == 1);
    if (strcmp(label, "0") == 0 || strcmp(label, "1") == 0)
        return known;
    if (sscanf(label, "not c%u", &i) == 1)
        return !expected_carry(one, i);
    if (sscanf(label, "c%u%1s", &i, rest) == 1)
        return expected_carry(one, i);
    return -1;
}

static int check_flags(const Case *one) {
    int checked = 0;
    const Unit *unit = one->working->unit;
    for (uint32_t k = 0; k < one->scene->box_count; k++) {
        const Box *box = &one->scene->box[k];
        int value = box->width > 150 && box->height < 40 ? rule_value(one, box) : -1;
        if (strstr(box->label, "as control says") != NULL)
            fail_msg("%s: %s", one->what, box->label);
        if (value < 0)
            continue;
        /* Which flag: the pin whose wire begins in the middle of the box's left edge. */
        for (uint32_t w = 0; w < one->scene->wire_count; w++) {
            Point from = one->scene->point[one->scene->wire[w].first];
            double above = from.y - box->y - box->height / 2;
            for (int flag = 0; flag < FLAG_COUNT; flag++)
                if (one->scene->wire[w].net == net_of_pin((Pin)(PIN_FLAG + flag)) &&
                    unit->flag[flag] && above * above < 0.1 && from.x - box->x < 0.1 &&
                    box->x - from.x < 0.1) {
                    if (value != one->working->outcome.flag[flag])
                        fail_msg("%s: %s is not '%s'", one->what, flag_name((Flag)flag),
                                 box->label);
                    checked++;
                }
        }
    }
    return checked;
}

/* ---- words that name columns ----------------------------------------------------------------- */

/* No text speaks of a column, a bit or a carry that the unit does not have. */
static void check_columns(const Case *one) {
    unsigned width = one->working->unit->width;
    for (uint32_t k = 0; k < one->scene->text_count; k++) {
        const char *text = one->scene->text[k].text;
        for (const char *c = text; *c != '\0'; c++) {
            unsigned number;
            bool begins = c == text || c[-1] == ' ';
            if (begins && sscanf(c, "column %u", &number) == 1 && number >= width)
                fail_msg("%s: '%s'", one->what, text);
            if (begins && strchr("abr", *c) != NULL && sscanf(c + 1, "%u", &number) == 1 &&
                c[1] >= '0' && c[1] <= '9' && number >= width)
                fail_msg("%s: '%s'", one->what, text);
            if (begins && *c == 'c' && c[1] >= '0' && c[1] <= '9' &&
                sscanf(c + 1, "%u", &number) == 1 && number > width)
                fail_msg("%s: '%s'", one->what, text);
        }
    }
}

/* A wire that parts in dots is read by several columns: it shows its level. */
static void check_levels(const Case *one) {
    if (one->working->unit->width > DRAW_COLUMNS_MAX)
        return; /* it may come from columns left out */
    for (uint32_t k = 0; k < one->scene->dot_count; k++) {
        Net net = one->scene->dot[k].net;
        if (net < UINT32_C(0x80000000) && shown_level(one->scene, net) < 0)
            fail_msg("%s: net %u has no level", one->what, net);
    }
}

/* ---- all of it ------------------------------------------------------------------------------- */

static int said, ruled;

static void check_scene(Case *one) {
    char *path = note(one->scene, "Carry path:"), *rings = note(one->scene, "Rings:");
    bool subtracts = operation_facts(working_operation(one->working))->subtracts;
    one->turned = path != NULL && (strstr(path, "borrows") != NULL || strstr(path, "over") != NULL);
    for (uint32_t k = 0; k < one->scene->text_count; k++)
        one->last_is_plain |= strstr(one->scene->text[k].text, " But c") != NULL;
    if (path != NULL && strstr(path, "borrows") != NULL)
        assert_true(subtracts);
    if (path != NULL) {
        check_names(one);
        check_path(one, path);
        ruled += check_flags(one);
        said++;
    }
    if (rings != NULL)
        check_rings(one, rings);
    check_columns(one);
    check_levels(one);
    free(path);
    free(rings);
}

static uint32_t seed = 1;

static uint64_t drawn_word(void) {
    uint64_t word = 0;
    for (int k = 0; k < 4; k++) {
        seed = seed * 1664525u + 1013904223u; /* Numerical Recipes (from memory) */
        word = word << 16 ^ seed >> 12;
    }
    return word;
}

/* The unit of a line, with operands that carry far, not at all, and drawn ones. */
static void check_line(const char *line, bool gates) {
    static Working working;
    static Case one;
    Scene scene;
    const Request *request = draw(line, &scene);
    const Unit *unit = &request->unit;
    scene_free(&scene);
    for (int choice = 0; choice < unit->choice_count; choice++) {
        Word a, b;
        int way = (int)(drawn_word() % 4);
        uint64_t all = unit->width < 64 ? (UINT64_C(1) << unit->width) - 1 : UINT64_MAX;
        word_set(&a, unit->width, (way == 0 ? 7 : way == 1 ? all : drawn_word()) & all);
        word_set(&b, unit->width, (way == 0 ? 7 : way == 1 ? 1 : drawn_word()) & all);
        working_compute(unit, choice, &a, &b, drawn_word() % 2 == 1, &working);
        scene_init(&scene, SYMBOLS_DISTINCTIVE);
        draw_unit(unit, &working, gates, &scene);
        one = (Case){.scene = &scene, .working = &working, .what = line};
        check_scene(&one);
        scene_free(&scene);
    }
}

static const char *const structures[] = {
    "ripple",   "fewest",      "skip",       "select",      "lookahead",
    "sklansky", "kogge-stone", "brent-kung", "han-carlson", "ladner-fischer"};
static const char *const lists[] = {
    "add",
    "sub",
    "inc",
    "dec,inc",
    "add,sub",
    "sub,add --control low",
    "adc,sbc",
    "adc,sbc --subtract-carry borrow",
    "sub,rsb --subtract-carry borrow",
    "add,sub --control one-hot",
    "add,adc,sub,sbc,rsb,inc,dec,neg,pass",
    "neg --subtract-carry borrow",
};
static const char *const details[] = {NULL, "gates", "nand", "nor"};

enum {
    STRUCTURES = sizeof structures / sizeof structures[0],
    LISTS = sizeof lists / sizeof lists[0],
    DETAILS = sizeof details / sizeof details[0]
};

static void check_one(int structure, int list, int detail, unsigned width) {
    char line[256];
    bool refused = strcmp(structures[structure], "fewest") == 0 &&
                   (strstr(lists[list], "one-hot") != NULL || strstr(lists[list], "pass") != NULL);
    if (refused)
        return;
    snprintf(line, sizeof line, "--structure %s --operations %s --width %u --flags %s%s%s",
             structures[structure], lists[list], width, width < 4 ? "carry,overflow,zero" : "all",
             details[detail] == NULL ? "" : " --detail ",
             details[detail] == NULL ? "" : details[detail]);
    check_line(line, details[detail] != NULL);
}

static void test_every_kind_of_unit(void **state) {
    (void)state;
    for (int structure = 0; structure < STRUCTURES; structure++)
        for (int list = 0; list < LISTS; list++)
            for (int detail = 0; detail < DETAILS; detail++)
                check_one(structure, list, detail, 4);
    assert_true(said > 800 && ruled > 500);
}

static void test_every_width(void **state) {
    (void)state;
    int way = 0;
    for (unsigned width = 1; width <= 33; width++)
        for (int structure = 0; structure < STRUCTURES; structure++, way++)
            check_one(structure, way % LISTS, width % 2 == 0 ? 0 : way % DETAILS, width);
    for (int structure = 0; structure < STRUCTURES; structure++)
        for (int detail = 0; detail < DETAILS; detail++, way++)
            check_one(structure,
                      structure < 2 ? (structure * DETAILS + detail) % LISTS : way % LISTS, detail,
                      127);
}

/* What users met: the carries of 7 + 7 are 1. */
static void test_words_that_were_wrong(void **state) {
    (void)state;
    Scene scene;
    draw("--width 4 --operations add --detail gates --example 7,7", &scene);
    char *path = note(&scene, "Carry path:");
    assert_string_equal(path, "Carry path: heavy wires are carries of 1; the longest path is from "
                              "c1 to c3.");
    free(path);
    scene_free(&scene);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_words_that_were_wrong),
        cmocka_unit_test(test_every_kind_of_unit),
        cmocka_unit_test(test_every_width),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
