/* See picture.h. */
#include "lesson/picture.h"

#include "base/memory.h"
#include "base/text.h"
#include "write/json.h"
#include "write/svg.h"

/* ---- shapes ---------------------------------------------------------------------------------- */

enum { ATTRIBUTES = 160 };

/* A literal of the netlist that can change, no other net. */
static bool shows_literal(const Netlist *netlist, Net net) {
    return net != LITERAL_NONE && literal_node(net) < netlist->node_count &&
           !literal_is_constant(net);
}

/* What is drawn: all of it, or what stands after a step. */
typedef struct {
    const Scene *scene;
    const Netlist *netlist;
    const Steps *steps; /* NULL: all */
    unsigned step;
    FILE *out;
} Picture;

static unsigned step_of(const Picture *picture, Net net) {
    return picture->steps != NULL && shows_literal(picture->netlist, net)
               ? picture->steps->node[literal_node(net)]
               : 0;
}

static bool stands(const Picture *picture, Net net) {
    return step_of(picture, net) <= picture->step;
}

static bool is_new(const Picture *picture, Net net) {
    return picture->steps != NULL && shows_literal(picture->netlist, net) &&
           step_of(picture, net) == picture->step;
}

static const char *wire_class(const Picture *picture, const Wire *wire) {
    static const char *const classes[] = {[WIRE_PLAIN] = "w",
                                          [WIRE_HEAVY] = "w h",
                                          [WIRE_FINE] = "w fine",
                                          [WIRE_DASHED] = "w dashed",
                                          [WIRE_FRAME] = "fine"};
    if (!stands(picture, wire->net))
        return "w off";
    if (is_new(picture, wire->net))
        return wire->style == WIRE_HEAVY ? "w h new" : "w new";
    return classes[wire->style];
}

static void write_wires(const Picture *picture) {
    const Scene *scene = picture->scene;
    for (uint32_t k = 0; k < scene->wire_count; k++) {
        const Wire *wire = &scene->wire[k];
        char attributes[ATTRIBUTES], net[32] = "";
        if (picture->steps == NULL && shows_literal(picture->netlist, wire->net))
            snprintf(net, sizeof net, " data-n=\"%u\"", (unsigned)wire->net);
        snprintf(attributes, sizeof attributes, "class=\"%s\"%s", wire_class(picture, wire), net);
        svg_path(picture->out, attributes);
        for (uint32_t p = 0; p < wire->count; p++)
            svg_to(picture->out, p == 0 ? 'M' : 'L', scene->point[wire->first + p].x,
                   scene->point[wire->first + p].y);
        svg_path_end(picture->out, false);
    }
}

static void write_marks(const Scene *scene, MarkKind kind, FILE *out) {
    for (uint32_t k = 0; k < scene->mark_count; k++) {
        const Mark *mark = &scene->mark[k];
        if (mark->kind != kind)
            continue;
        if (kind == MARK_BAND)
            svg_rect(out, mark->x, mark->y, mark->width, mark->height, "class=\"band\"");
        else
            svg_circle(out, mark->x, mark->y, mark->width / 2, "class=\"ring\"");
    }
}

static void frame_level(const Text *text, double around, const char *attributes, FILE *out) {
    Extent extent = scene_text_extent(text);
    svg_rect(out, extent.left - around, extent.top - around,
             extent.right - extent.left + 2 * around, extent.bottom - extent.top + 2 * around,
             attributes);
}

static void write_level_of_step(const Picture *picture, const Text *text, const char *anchor) {
    char attributes[ATTRIBUTES];
    bool fresh = is_new(picture, text->net);
    if (!stands(picture, text->net))
        return;
    if (fresh)
        frame_level(text, 1.5, "class=\"m\" rx=\"2\"", picture->out);
    snprintf(attributes, sizeof attributes, "class=\"v%s\"%s", fresh ? " new" : "", anchor);
    svg_text(picture->out, text->x, text->y, attributes, "%s", text->text);
}

/* A level has a frame, which shows when it is new, or when it is a pin's that can be turned over. */
static void write_level(const Picture *picture, const Text *text, const char *anchor) {
    char attributes[ATTRIBUTES];
    bool is_pin = picture->netlist->nodes[literal_node(text->net)].kind == NODE_INPUT;
    if (picture->steps != NULL) {
        write_level_of_step(picture, text, anchor);
        return;
    }
    snprintf(attributes, sizeof attributes, "class=\"m%s\" rx=\"2\" data-n=\"%u\"",
             is_pin ? " pin" : "", (unsigned)text->net);
    frame_level(text, is_pin ? 4 : 1.5, attributes, picture->out);
    snprintf(attributes, sizeof attributes, "class=\"v%s\"%s data-n=\"%u\"", is_pin ? " pin" : "",
             anchor, (unsigned)text->net);
    svg_text(picture->out, text->x, text->y, attributes, "%s", text->text);
}

static void write_texts(const Picture *picture) {
    const Scene *scene = picture->scene;
    static const char *const classes[TEXT_STYLE_COUNT] = {[TEXT_PLAIN] = "",
                                                          [TEXT_SMALL] = " class=\"small\"",
                                                          [TEXT_BOLD] = " class=\"bold\"",
                                                          [TEXT_TITLE] = " class=\"title\""};
    static const char *const anchors[] = {[ANCHOR_START] = "",
                                          [ANCHOR_MIDDLE] = " text-anchor=\"middle\"",
                                          [ANCHOR_END] = " text-anchor=\"end\""};
    for (uint32_t k = 0; k < scene->text_count; k++) {
        const Text *text = &scene->text[k];
        bool digit = (text->text[0] == '0' || text->text[0] == '1') && text->text[1] == '\0';
        char attributes[ATTRIBUTES];
        if (digit && text->style == TEXT_SMALL && shows_literal(picture->netlist, text->net)) {
            write_level(picture, text, anchors[text->anchor]);
            continue;
        }
        snprintf(attributes, sizeof attributes, "%s%s", classes[text->style],
                 anchors[text->anchor]);
        svg_text(picture->out, text->x, text->y, attributes + (attributes[0] == ' '), "%s",
                 text->text);
    }
}

static void write_picture(const Picture *picture) {
    const Scene *scene = picture->scene;
    FILE *out = picture->out;
    write_marks(scene, MARK_BAND, out);
    write_wires(picture);
    for (uint32_t k = 0; k < scene->box_count; k++)
        symbol_write(&scene->box[k], scene->symbols, out);
    for (uint32_t k = 0; k < scene->dot_count; k++)
        svg_circle(out, scene->dot[k].x, scene->dot[k].y, 2.6, "class=\"dot\"");
    write_marks(scene, MARK_COMPARED, out);
    write_texts(picture);
}

void picture_write(const Scene *scene, const Netlist *netlist, FILE *out) {
    write_picture(&(Picture){scene, netlist, NULL, 0, out});
}

void picture_write_step(const Scene *scene, const Netlist *netlist, const Steps *steps,
                        unsigned step, FILE *out) {
    write_picture(&(Picture){scene, netlist, steps, step, out});
}

void picture_style(FILE *out) {
    fputs("<style>\n"
          ".w, .fine { fill: none; stroke: black; stroke-width: 1; stroke-linecap: square }\n"
          ".fine { stroke-width: 0.5 }\n"
          ".dashed { stroke-dasharray: 3 3 }\n"
          ".h { stroke-width: 3 }\n"
          ".off { stroke-width: 0.4; stroke-dasharray: 1 3 }\n"
          ".new { stroke-width: 2 }\n"
          ".h.new { stroke-width: 4 }\n"
          ".ring { fill: none; stroke: black; stroke-width: 1.6 }\n"
          ".band { fill: #ececec }\n"
          ".m { fill: white; stroke: black; stroke-width: 1.8 }\n"
          ".v, .small { font-size: 10px }\n"
          ".v.new { stroke: none; font-weight: bold }\n"
          ".bold { font-weight: bold }\n"
          "</style>\n",
          out);
}

uint64_t *picture_levels(const Netlist *netlist, const Working *example) {
    uint64_t *values = memory_zeroed(netlist->node_count, sizeof values[0]);
    uint32_t control = unit_control_value(example->unit, example->choice);
    unsigned request = 0;
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (node->kind != NODE_INPUT)
            continue;
        if (node->pin == PIN_A || node->pin == PIN_B)
            values[k] = word_bit(node->pin == PIN_A ? &example->a : &example->b, node->bit);
        else if (node->pin == PIN_CIN)
            values[k] = example->cin;
        else if (example->unit->control == CONTROL_ONE_HOT)
            values[k] = control >> request++ & 1;
        else
            values[k] = control >> node->bit & 1;
    }
    netlist_evaluate(netlist, values);
    return values;
}

/* ---- data ------------------------------------------------------------------------------------ */

static void list_literals(Json *json, const char *key, const Literal *literal, unsigned count) {
    TextBuffer text = {NULL, 0, 0};
    for (unsigned i = 0; i < count; i++)
        text_printf(&text, "%s%d", i == 0 ? "" : " ",
                    literal[i] == LITERAL_NONE ? -1 : (int)literal[i]);
    char *whole = text_take(&text);
    json_text(json, key, whole);
    memory_free(whole);
}

static void list_numbers(Json *json, const char *key, const unsigned *number, unsigned count) {
    TextBuffer text = {NULL, 0, 0};
    for (unsigned i = 0; i < count; i++)
        text_printf(&text, "%s%d", i == 0 ? "" : " ", (int)number[i]);
    char *whole = text_take(&text);
    json_text(json, key, whole);
    memory_free(whole);
}

/* "a 3" for an input, the pin's role and bit (of the control pins taken as one number), or
 * "AND 5 8": a gate's kind and its literals; one after the other, parted by commas. */
static void list_nodes(Json *json, const Unit *unit, const Netlist *netlist) {
    static const char *const kinds[NODE_KIND_COUNT] = {
        [NODE_CONSTANT] = "0", [NODE_INPUT] = "in",  [NODE_AND] = "AND", [NODE_OR] = "OR",
        [NODE_XOR] = "XOR",    [NODE_NAND] = "NAND", [NODE_NOR] = "NOR", [NODE_XNOR] = "XNOR"};
    TextBuffer text = {NULL, 0, 0};
    unsigned request = 0;
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        const char *comma = k == 0 ? "" : ",";
        if (node->kind != NODE_INPUT)
            text_printf(&text, "%s%s %u %u", comma, kinds[node->kind], (unsigned)node->in[0],
                        (unsigned)node->in[1]);
        else if (node->pin == PIN_A || node->pin == PIN_B || node->pin == PIN_CIN)
            text_printf(&text, "%s%s %u", comma, unit_role(unit, node->pin), node->bit);
        else /* the request pins come in the order of the operations */
            text_printf(&text, "%scontrol %u", comma,
                        unit->control == CONTROL_ONE_HOT ? request++ : node->bit);
    }
    char *whole = text_take(&text);
    json_text(json, "nodes", whole);
    memory_free(whole);
}

static void list_operations(Json *json, const Unit *unit) {
    static const char *const firsts[] = {[ENTERS_0] = "0", [ENTERS_1] = "1", [ENTERS_CIN] = "cin"};
    json_array(json, "operations");
    for (int k = 0; k < unit->choice_count; k++) {
        Operation operation = unit->choice[k].operation;
        const OperationFacts *facts = operation_facts(operation);
        json_object(json, NULL);
        json_text(json, "name", facts->name);
        json_text(json, "formula", facts->formula);
        json_text(json, "x", addend_name(facts->x));
        json_text(json, "y", addend_name(facts->y));
        json_text(json, "first", firsts[facts->first]);
        json_truth(json, "inverts", adder_inverts_cin(unit, operation));
        json_truth(json, "b", facts->reads_b);
        json_truth(json, "cin", facts->reads_cin);
        json_truth(json, "subtracts", facts->subtracts);
        json_whole(json, "control", unit_control_value(unit, k));
        json_close(json);
    }
    json_close(json);
}

static void list_flags(Json *json, const Unit *unit, const Netlist *netlist, const Steps *steps) {
    json_array(json, "flags");
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!unit->flag[flag])
            continue;
        json_object(json, NULL);
        json_text(json, "name", flag_name((Flag)flag));
        json_whole(json, "literal", netlist->core->flag[flag].masked);
        json_whole(json, "step", steps->flag[flag]);
        json_close(json);
    }
    json_close(json);
}

static void list_examples(Json *json, const Working *example, int count) {
    json_array(json, "examples");
    for (int k = 0; k < count; k++) {
        char a[WORD_BITS_MAX / 4 + 2], b[WORD_BITS_MAX / 4 + 2];
        word_hex(&example[k].a, a);
        word_hex(&example[k].b, b);
        json_array(json, NULL);
        json_whole(json, NULL, (uint64_t)example[k].choice);
        json_text(json, NULL, a);
        json_text(json, NULL, b);
        json_whole(json, NULL, example[k].cin);
        json_close(json);
    }
    json_close(json);
}

/* "1 to 0", the columns of each group that has a step; none of a structure without. */
static void list_groups(Json *json, const AdderCore *core, const Steps *steps) {
    json_array(json, "groups");
    for (uint32_t k = steps->least; steps->kind == STEPS_GROUPS && k < core->group_count; k++) {
        char *columns = memory_text("%u to %u", core->group[k].top, core->group[k].bottom);
        json_text(json, NULL, columns);
        memory_free(columns);
    }
    json_close(json);
}

static void list_steps(Json *json, const Netlist *netlist, const Steps *steps) {
    static const char *const kinds[] = {
        [STEPS_COLUMNS] = "column", [STEPS_LEVELS] = "level", [STEPS_GROUPS] = "group"};
    json_object(json, "steps");
    json_text(json, "kind", kinds[steps->kind]);
    list_groups(json, netlist->core, steps);
    json_whole(json, "core", steps->core);
    json_whole(json, "compare", steps->compare);
    json_whole(json, "result", steps->result);
    json_whole(json, "count", steps->count);
    list_numbers(json, "node", steps->node, netlist->node_count);
    list_numbers(json, "carry", steps->carry, netlist->core->width + 1);
    list_numbers(json, "sum", steps->sum, netlist->core->width);
    json_close(json);
}

void picture_data(const Unit *unit, const Netlist *netlist, const Steps *steps,
                  const Working *example, int example_count, FILE *out) {
    const AdderCore *core = netlist->core;
    Json json = json_begin(out);
    json_object(&json, NULL);
    json_text(&json, "name", unit->name);
    json_whole(&json, "width", unit->width);
    json_whole(&json, "controls", unit_control_bits(unit));
    json_truth(&json, "oneHot", unit->control == CONTROL_ONE_HOT);
    json_truth(&json, "borrow", unit->sense == SENSE_BORROW);
    json_text(&json, "overflow",
              unit->overflow == OVERFLOW_WRAP              ? "wrap"
              : unit->overflow == OVERFLOW_SATURATE_SIGNED ? "signed"
                                                           : "unsigned");
    list_operations(&json, unit);
    list_flags(&json, unit, netlist, steps);
    list_nodes(&json, unit, netlist);
    list_literals(&json, "carries", core->carry, core->width + 1);
    list_literals(&json, "result", core->result, core->width);
    list_literals(&json, "sum", core->sum, core->width);
    list_steps(&json, netlist, steps);
    list_examples(&json, example, example_count);
    json_close(&json);
}
