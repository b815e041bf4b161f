/* See notes.h. */
#include "draw/notes.h"

#include "base/memory.h"
#include "base/text.h"
#include "gates/structures/structure.h"
#include "work/story.h"

#include <string.h>

enum { WIDTH_LEAST = 640, HEADING_GAP = 26 };

ShortName notes_short(const char *name, size_t most) {
    static const char dots[] = "...";
    ShortName cut;
    bool fits = strlen(name) <= most;
    int kept = (int)(fits ? most : most - strlen(dots));
    snprintf(cut.text, sizeof cut.text, "%.*s%s", kept, name, fits ? "" : dots);
    return cut;
}

/* ---- above --------------------------------------------------------------------------------- */

/* "add: a + b; sub: a - b". */
static void add_operations(TextBuffer *text, const Unit *unit) {
    for (int k = 0; k < unit->choice_count; k++) {
        const OperationFacts *facts = operation_facts(unit->choice[k].operation);
        text_printf(text, "%s%s: %s", k == 0 ? "" : "; ", facts->name, facts->formula);
    }
}

static void add_structure(TextBuffer *text, const Unit *unit) {
    text_printf(text, "%u bit%s. %s: %s.", unit->width, unit->width == 1 ? "" : "s",
                structure_text(unit->structure, unit->depth).text,
                structure_facts(unit->structure)->meaning);
}

static void add_number(TextBuffer *text, const char *name, const Word *word) {
    char *readings = story_both_readings(word);
    text_printf(text, "%s = %s", name, readings);
    memory_free(readings);
}

/* "a = 5; b = -3, unsigned 13; result = -8, unsigned 8" for what the operation reads. */
static void add_numbers(TextBuffer *text, const Working *example) {
    const OperationFacts *facts = operation_facts(working_operation(example));
    add_number(text, "a", &example->a);
    if (facts->reads_b)
        add_number(text, "; b", &example->b);
    if (facts->reads_cin)
        text_printf(text, "; cin = %d", example->cin);
    add_number(text, "; result", &example->outcome.result);
}

/* The lines of the heading, from the top down: each is a text that is used up. */
typedef struct {
    Scene *scene;
    double left, width, y;
} Column;

static void say(Column *column, TextStyle style, TextBuffer *text) {
    column->y =
        scene_paragraph(column->scene, column->left, column->y, column->width, style, text->text);
    text_free(text);
}

static void say_example(Column *column, const Working *example, const Story *story) {
    TextBuffer text = {NULL, 0, 0};
    column->y += 8;
    text_printf(&text, "Example: %s", story->title);
    say(column, TEXT_BOLD, &text);
    add_numbers(&text, example);
    say(column, TEXT_PLAIN, &text);
    for (int k = 0; k < story->verdict.count; k++) {
        text_printf(&text, "%s: %s", story->verdict.line[k].label, story->verdict.line[k].text);
        say(column, TEXT_PLAIN, &text);
    }
}

static void say_heading(Column *column, const Unit *unit) {
    TextBuffer text = {NULL, 0, 0};
    text_add(&text, unit->name);
    say(column, TEXT_TITLE, &text);
    add_operations(&text, unit);
    say(column, TEXT_PLAIN, &text);
    add_structure(&text, unit);
    say(column, TEXT_PLAIN, &text);
}

static void add_sentence(TextBuffer *text, const Working *example, const Story *story) {
    text_printf(text, " Example: %s. ", story->title);
    add_numbers(text, example);
    text_add(text, ".");
    for (int k = 0; k < story->verdict.count; k++)
        text_printf(text, " %s: %s.", story->verdict.line[k].label, story->verdict.line[k].text);
}

static double width_of(Extent extent) {
    double width = extent.right - extent.left;
    return width > WIDTH_LEAST ? width : WIDTH_LEAST;
}

char *notes_heading(const Unit *unit, const Working *example, Scene *scene) {
    Extent extent = scene_extent(scene);
    TextBuffer sentence = {NULL, 0, 0};
    uint32_t first = scene->text_count;
    Column column = {scene, extent.left, width_of(extent), 0};
    say_heading(&column, unit);
    if (example != NULL) {
        Story story;
        story_tell(example, &story);
        say_example(&column, example, &story);
        add_sentence(&sentence, example, &story);
        story_free(&story);
    }
    if (scene->bare)
        scene_forget_texts(scene, first);
    double rise = extent.top - HEADING_GAP - column.y + SCENE_LINE;
    for (uint32_t k = first; k < scene->text_count; k++)
        scene->text[k].y += rise;
    return text_take(&sentence);
}

/* ---- below --------------------------------------------------------------------------------- */

void notes_add(Scene *scene, const char *text) {
    if (scene->bare)
        return;
    Extent extent = scene_extent(scene);
    scene_paragraph(scene, extent.left, extent.bottom + SCENE_LINE + 6, width_of(extent),
                    TEXT_PLAIN, text);
}
