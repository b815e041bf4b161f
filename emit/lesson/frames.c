/* See frames.h. */
#include "lesson/frames.h"

#include "base/memory.h"
#include "base/text.h"
#include "lesson/picture.h"
#include "work/walk.h"
#include "write/svg.h"

#include <assert.h>
#include <string.h>

enum { MARGIN = 24, WIDTH_LEAST = 640, SENTENCE_SIZE = 14, SENTENCE_LINE = 20, BAR = 14 };

/* ---- what is said ---------------------------------------------------------------------------- */

/* The carries that are found in a step, as the wires have them. */
static void add_found(TextBuffer *text, const Circuit *circuit, const Working *example,
                      unsigned step) {
    const AdderCore *core = circuit->netlist->core;
    const char *before = "; now known: ";
    uint64_t *values = picture_levels(circuit->netlist, example);
    for (unsigned i = 0; i <= core->width; i++) {
        if (circuit->steps.carry[i] != step || core->carry[i] == LITERAL_NONE)
            continue;
        text_printf(text, "%sc%u = %d", before, i,
                    (int)(netlist_value(values, core->carry[i]) & 1));
        before = ", ";
    }
    memory_free(values);
}

/* Groups of columns have the numbers of their steps. */
static void add_group(TextBuffer *text, const AdderCore *core, unsigned number) {
    assert(number < core->group_count && core->group[number].tier == 1);
    const CoreGroup *group = &core->group[number];
    text_printf(text, "The group of columns %u to %u", group->top, group->bottom);
}

static char *say_core(const Circuit *circuit, const Working *example, unsigned step) {
    const Steps *steps = &circuit->steps;
    if (steps->kind == STEPS_COLUMNS)
        return story_step(example, step - STEP_CORE);
    TextBuffer text = {NULL, 0, 0};
    if (step == steps->sums)
        text_add(&text, "Every column adds its two bits and its carry");
    else if (step == STEP_CORE)
        text_add(&text,
                 "Every column sees from its two bits whether it makes a carry or passes one "
                 "on");
    else if (steps->kind == STEPS_GROUPS)
        add_group(&text, circuit->netlist->core, steps->least + step - STEP_CORE - 1);
    else
        text_printf(&text, "Level %u joins neighbouring columns", step - STEP_CORE);
    add_found(&text, circuit, example, step);
    text_add(&text, ".");
    return text_take(&text);
}

/* With what the wires are, where they have the complements of the carries that are spoken of. */
static char *say_first(const Circuit *circuit, const Working *example, const Story *story) {
    const AdderCore *core = circuit->netlist->core;
    char *first = walk_say_first(example, story);
    if (core->sense == CORE_CARRIES)
        return first;
    uint64_t *values = picture_levels(circuit->netlist, example);
    bool turned = (netlist_value(values, core->turned) & 1) != 0;
    memory_free(values);
    if (!turned)
        return first;
    char *text = memory_text("%s In this operation the wires between the columns are borrows: the "
                             "carries turned over.",
                             first);
    memory_free(first);
    return text;
}

static char *say(const Circuit *circuit, const Working *example, const Story *story,
                 unsigned step) {
    const Steps *steps = &circuit->steps;
    if (step == STEP_PINS)
        return walk_say_pins(example);
    if (step == STEP_OPERANDS)
        return walk_say_operands(example);
    if (step == STEP_FIRST)
        return say_first(circuit, example, story);
    if (step < steps->compare)
        return say_core(circuit, example, step);
    if (step == steps->compare)
        return walk_say_compare(story);
    if (step == steps->result)
        return walk_say_verdict(story);
    return walk_say_flag(story, step - steps->result - 1);
}

/* ---- the drawing ------------------------------------------------------------------------------ */

static double width_of(const Circuit *circuit) {
    return circuit->scene.width > WIDTH_LEAST ? circuit->scene.width : WIDTH_LEAST;
}

/* The sentence in lines, which it returns the number of; drawn if there is a stream. */
static unsigned write_sentence(const char *text, double width, FILE *out) {
    unsigned lines = 0;
    while (*text != '\0') {
        size_t length = svg_text_fits(text, SENTENCE_SIZE, width - 2 * MARGIN - BAR);
        svg_text(out, MARGIN + BAR, MARGIN + SENTENCE_SIZE + (double)lines * SENTENCE_LINE,
                 "font-size=\"14\"", "%.*s", (int)length, text);
        text += length;
        text += strspn(text, " ");
        lines++;
    }
    return lines;
}

unsigned frames_lines(const Circuit *circuit, const Working *example, const Story *story) {
    unsigned most = 1;
    for (unsigned step = 0; step < circuit->steps.count; step++) {
        char *sentence = say(circuit, example, story, step);
        unsigned lines = write_sentence(sentence, width_of(circuit), NULL);
        most = lines > most ? lines : most;
        memory_free(sentence);
    }
    return most;
}

void frame_write(const Circuit *circuit, const Working *example, const Story *story, unsigned step,
                 unsigned lines, FILE *out) {
    const Scene *scene = &circuit->scene;
    const double width = width_of(circuit), height = (double)lines * SENTENCE_LINE;
    char *sentence = say(circuit, example, story, step);
    char *title = memory_text("%s, step %u of %u", story->title, step, circuit->steps.count - 1);
    svg_begin(out, width, scene->height + MARGIN + height, title, sentence);
    picture_style(out);
    svg_rect(out, MARGIN, MARGIN, 5, height, "fill=\"black\"");
    write_sentence(sentence, width, out);
    char shift[64];
    snprintf(shift, sizeof shift, "transform=\"translate(0 %.0f)\"", MARGIN + height);
    svg_group(out, shift);
    picture_write_step(scene, circuit->netlist, &circuit->steps, step, out);
    svg_group_end(out);
    svg_end(out);
    memory_free(sentence);
    memory_free(title);
}
