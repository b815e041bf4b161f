/* See lesson.h. */
#include "lesson/lesson.h"

#include "base/memory.h"
#include "gates/structures/structure.h"
#include "lesson/circuit.h"
#include "lesson/facts.h"
#include "lesson/picture.h"
#include "lesson/questions.h"
#include "write/template.h"

#include <stdlib.h>

void lesson_example(const Unit *unit, Working *example) {
    questions_choose(unit, 1, 1, example);
}

/* ---- the circuit ----------------------------------------------------------------------------- */

/* Shapes and data, each as a text in a stream of its own. */
typedef struct {
    FILE *out;
    char *text;
    size_t bytes;
} Stream;

static void stream_open(Stream *stream) {
    stream->out = open_memstream(&stream->text, &stream->bytes);
    if (stream->out == NULL)
        memory_lacks();
}

static void stream_into(Stream *stream, Facts *facts, const char *name) {
    if (fclose(stream->out) != 0)
        memory_lacks();
    facts_text(facts, name, "%s", stream->text);
    free(stream->text);
}

static bool has_rings(const Scene *scene) {
    for (uint32_t k = 0; k < scene->mark_count; k++)
        if (scene->mark[k].kind == MARK_COMPARED)
            return true;
    return false;
}

static void add_circuit(Facts *facts, const Working *example, int count, bool gates,
                        SymbolSet symbols) {
    Circuit circuit;
    Stream stream;
    circuit_open(example, gates, symbols, &circuit);
    const Scene *scene = &circuit.scene;
    stream_open(&stream);
    picture_write(scene, circuit.netlist, stream.out);
    stream_into(&stream, facts, "shapes");
    stream_open(&stream);
    picture_data(example->unit, circuit.netlist, &circuit.steps, example, count, stream.out);
    stream_into(&stream, facts, "data");
    facts_text(facts, "viewbox", "0 0 %.0f %.0f", scene->width, scene->height);
    facts_text(facts, "pixels", "%.0f", scene->width);
    facts_flag(facts, "rings", has_rings(scene));
    lesson_text(facts, "description", scene->description);
    circuit_close(&circuit);
}

/* ---- words ------------------------------------------------------------------------------------ */

static void add_operations(Facts *facts, const Unit *unit) {
    for (int k = 0; k < unit->choice_count; k++) {
        const OperationFacts *operation = operation_facts(unit->choice[k].operation);
        Facts *row = facts_row(facts, "operations");
        facts_text(row, "place", "%d", k);
        facts_text(row, "operation", "%s", operation->name);
        lesson_text(row, "formula", operation->formula);
    }
}

/* "sub a = 100; b = -50, unsigned 206" */
static void add_examples(Facts *facts, const Working *example, int count) {
    for (int k = 0; k < count; k++) {
        const OperationFacts *operation = operation_facts(working_operation(&example[k]));
        char *a = story_both_readings(&example[k].a), *b = story_both_readings(&example[k].b);
        Facts *row = facts_row(facts, "examples");
        facts_text(row, "place", "%d", k);
        facts_text(row, "example", "%s a = %s%s%s", operation->name, a,
                   operation->reads_b ? "; b = " : "", operation->reads_b ? b : "");
        memory_free(a);
        memory_free(b);
    }
}

static void add_words(Facts *facts, const Working *example) {
    const Unit *unit = example->unit;
    facts_text(facts, "name", "%s", unit->name);
    facts_text(facts, "size", "%u bit%s", unit->width, unit->width == 1 ? "" : "s");
    facts_text(facts, "structure", "%s", structure_text(unit->structure, unit->depth).text);
    facts_flag(facts, "reads.b", unit_any_reads_b(unit));
    facts_flag(facts, "reads.cin", unit_any_reads_cin(unit));
    facts_flag(facts, "several", unit->choice_count > 1);
    facts_flag(facts, "registers", unit->registers != REGISTERS_NONE);
    add_operations(facts, unit);
}

static bool add_script(Facts *facts, Problem *problem) {
    const Templates embedded = {NULL};
    Facts *none = facts_new();
    size_t bytes = 0;
    char *text = template_text(&embedded, "lesson.js", none, &bytes, problem);
    facts_free(none);
    if (text != NULL)
        facts_adopt(facts, "script", text, bytes);
    return text != NULL;
}

bool lesson_write(const Working *example, int count, bool gates, SymbolSet symbols, FILE *out,
                  Problem *problem) {
    const Templates embedded = {NULL};
    Facts *facts = facts_new();
    Story story;
    story_tell(example, &story);
    lesson_text(facts, "title", story.title);
    lesson_story(facts, &story);
    add_words(facts, example);
    add_examples(facts, example, count);
    add_circuit(facts, example, count, gates, symbols);
    bool good = lesson_style(facts, "css", problem) && add_script(facts, problem) &&
                lesson_table(facts, "table", example, &story, (Blank){0}, problem) &&
                template_fill(&embedded, "lesson.html", facts, out, problem);
    story_free(&story);
    facts_free(facts);
    return good;
}
