/* See notes.h. */
#include "draw/notes.h"

#include "base/memory.h"
#include "gates/structures/structure.h"
#include "work/story.h"

#include <stdlib.h>
#include <string.h>

enum { WIDTH_LEAST = 640, HEADING_GAP = 26 };

/* Text grown at its end; the old block is used up. */
static char *join(char *text, const char *more) {
    char *longer = memory_text("%s%s", text, more);
    free(text);
    return longer;
}

ShortName notes_short(const char *name, size_t most) {
    static const char dots[] = "...";
    ShortName cut;
    bool fits = strlen(name) <= most;
    int kept = (int)(fits ? most : most - strlen(dots));
    snprintf(cut.text, sizeof cut.text, "%.*s%s", kept, name, fits ? "" : dots);
    return cut;
}

/* ---- above --------------------------------------------------------------------------------- */

/* "add: a + b; sub: a - b". The caller frees it. */
static char *operations(const Unit *unit) {
    char *text = memory_text("%s", "");
    for (int k = 0; k < unit->choice_count; k++) {
        const OperationFacts *facts = operation_facts(unit->choice[k].operation);
        char *one = memory_text("%s%s: %s", k == 0 ? "" : "; ", facts->name, facts->formula);
        text = join(text, one);
        free(one);
    }
    return text;
}

static char *structure(const Unit *unit) {
    char *depth = unit->structure == STRUCTURE_DEPTH ? memory_text("=%u", unit->depth)
                                                     : memory_text("%s", "");
    char *text = memory_text("%u bit%s. %s%s: %s.", unit->width, unit->width == 1 ? "" : "s",
                             structure_name(unit->structure), depth,
                             structure_facts(unit->structure)->meaning);
    free(depth);
    return text;
}

/* "a = 5; b = -3, unsigned 13; result = -8, unsigned 8" for what the operation reads. */
static char *numbers(const Working *example) {
    const OperationFacts *facts = operation_facts(working_operation(example));
    char *a = story_both_readings(&example->a), *b = story_both_readings(&example->b);
    char *result = story_both_readings(&example->outcome.result);
    char *text = memory_text("a = %s%s%s%s; result = %s", a, facts->reads_b ? "; b = " : "",
                             facts->reads_b ? b : "",
                             !facts->reads_cin ? ""
                             : example->cin    ? "; cin = 1"
                                               : "; cin = 0",
                             result);
    free(a);
    free(b);
    free(result);
    return text;
}

/* The lines of the heading, from the top down, into a scene of their own kind: at, below each
 * other. Returns the baseline after the last. */
typedef struct {
    Scene *scene;
    double left, width, y;
} Column;

static void say(Column *column, TextStyle style, const char *text) {
    column->y = scene_paragraph(column->scene, column->left, column->y, column->width, style, text);
}

static void say_example(Column *column, const Working *example, const Story *story) {
    column->y += 8;
    char *title = memory_text("Example: %s", story->title), *line = numbers(example);
    say(column, TEXT_BOLD, title);
    say(column, TEXT_PLAIN, line);
    free(title);
    free(line);
    for (int k = 0; k < story->verdict.count; k++) {
        line = memory_text("%s: %s", story->verdict.line[k].label, story->verdict.line[k].text);
        say(column, TEXT_PLAIN, line);
        free(line);
    }
}

static void say_heading(Column *column, const Unit *unit, const Working *example,
                        const Story *story) {
    char *title = memory_text("%s", unit->name), *does = operations(unit), *how = structure(unit);
    say(column, TEXT_TITLE, title);
    say(column, TEXT_PLAIN, does);
    say(column, TEXT_PLAIN, how);
    free(title);
    free(does);
    free(how);
    if (example != NULL)
        say_example(column, example, story);
}

static char *as_sentence(const Working *example, const Story *story) {
    char *line = numbers(example);
    char *text = memory_text(" Example: %s. %s.", story->title, line);
    free(line);
    for (int k = 0; k < story->verdict.count; k++) {
        line = memory_text(" %s: %s.", story->verdict.line[k].label, story->verdict.line[k].text);
        text = join(text, line);
        free(line);
    }
    return text;
}

static double width_of(Extent extent) {
    double width = extent.right - extent.left;
    return width > WIDTH_LEAST ? width : WIDTH_LEAST;
}

char *notes_heading(const Unit *unit, const Working *example, Scene *scene) {
    Extent extent = scene_extent(scene);
    Story story;
    if (example != NULL)
        story_tell(example, &story);
    uint32_t first = scene->text_count;
    Column column = {scene, extent.left, width_of(extent), 0};
    say_heading(&column, unit, example, &story);
    double rise = extent.top - HEADING_GAP - column.y + SCENE_LINE;
    for (uint32_t k = first; k < scene->text_count; k++)
        scene->text[k].y += rise;
    char *sentence = example != NULL ? as_sentence(example, &story) : memory_text("%s", "");
    if (example != NULL)
        story_free(&story);
    return sentence;
}

/* ---- below --------------------------------------------------------------------------------- */

void notes_add(Scene *scene, const char *text) {
    Extent extent = scene_extent(scene);
    scene_paragraph(scene, extent.left, extent.bottom + SCENE_LINE + 6, width_of(extent),
                    TEXT_PLAIN, text);
}

void notes_result(const Unit *unit, Scene *scene) {
    if (unit->overflow == OVERFLOW_SATURATE_SIGNED)
        notes_add(scene, "saturate: a result that does not fit two's complement becomes the "
                         "highest or the lowest number there is.");
    if (unit->overflow == OVERFLOW_SATURATE_UNSIGNED)
        notes_add(scene, "saturate: a result that does not fit unsigned becomes the highest "
                         "number there is, or 0.");
    if (unit_can_idle(unit))
        notes_add(scene, "if active: with no operation asked for, result and flags are 0, and "
                         "zero is 1.");
}

/* "The pins: a is observed, b is predicted." for the two that are written as letters. */
static void note_operands(const Unit *unit, Scene *scene) {
    bool a = strcmp(unit->pin[PIN_A], "a") != 0;
    bool b = unit_has(unit, PIN_B) && strcmp(unit->pin[PIN_B], "b") != 0;
    if (!a && !b)
        return;
    char *text = memory_text("%s%.*s%s%s%.*s.", a ? "a is the pin " : "", NOTES_NAME_MOST,
                             a ? unit->pin[PIN_A] : "", a && b ? ", " : "",
                             b ? "b is the pin " : "", NOTES_NAME_MOST, b ? unit->pin[PIN_B] : "");
    notes_add(scene, text);
    free(text);
}

void notes_pins(const Unit *unit, Scene *scene) {
    note_operands(unit, scene);
    if (unit->registers == REGISTERS_NONE)
        return;
    char *reset = unit->reset == RESET_NONE
                      ? memory_text("%s", "")
                      : memory_text(", reset by %.*s (%s)", NOTES_NAME_MOST, unit->pin[PIN_RST],
                                    unit->reset == RESET_SYNC ? "at the clock" : "at once");
    char *enable = unit->enable
                       ? memory_text(", enabled by %.*s", NOTES_NAME_MOST, unit->pin[PIN_EN])
                       : memory_text("%s", "");
    char *text = memory_text("Registers take their inputs at the rising edge of %.*s%s%s; the "
                             "flags pass one, too.",
                             NOTES_NAME_MOST, unit->pin[PIN_CLK], reset, enable);
    notes_add(scene, text);
    free(reset);
    free(enable);
    free(text);
}

/* ---- the carry path ------------------------------------------------------------------------ */

/* A run of carries of 1, from c[first] to c[last]. */
typedef struct {
    unsigned first, last;
    bool any;
} Run;

/* The longest; of several, the lowest. */
static Run longest_run(const bool *level, unsigned count) {
    Run longest = {0, 0, false}, run = {0, 0, false};
    for (unsigned i = 0; i < count; i++) {
        if (!level[i]) {
            run.any = false;
            continue;
        }
        run = run.any ? (Run){run.first, i, true} : (Run){i, i, true};
        if (!longest.any || run.last - run.first > longest.last - longest.first)
            longest = run;
    }
    return longest;
}

void notes_path(Scene *scene, const bool *level, unsigned count, const char *what, char letter) {
    Run run = longest_run(level, count);
    char *text =
        !run.any ? memory_text("Carry path: all %s are 0.", what)
        : run.first == run.last
            ? memory_text("Carry path: heavy wires are %s of 1; none goes further than one column.",
                          what)
            : memory_text("Carry path: heavy wires are %s of 1; the longest path is from %c%u "
                          "to %c%u.",
                          what, letter, run.first, letter, run.last);
    notes_add(scene, text);
    free(text);
}
