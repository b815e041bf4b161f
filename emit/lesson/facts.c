/* See facts.h. */
#include "lesson/facts.h"

#include "base/memory.h"
#include "base/text.h"
#include "write/template.h"

#include <string.h>

void lesson_text(Facts *facts, const char *name, const char *text) {
    static const struct {
        char letter;
        const char *written;
    } escapes[] = {{'<', "&lt;"}, {'>', "&gt;"}, {'&', "&amp;"}, {'"', "&quot;"}};
    TextBuffer escaped = {NULL, 0, 0};
    for (; *text != '\0'; text++) {
        const char *written = NULL;
        for (size_t k = 0; k < sizeof escapes / sizeof escapes[0]; k++)
            if (escapes[k].letter == *text)
                written = escapes[k].written;
        if (written != NULL)
            text_add(&escaped, written);
        else
            text_add_bytes(&escaped, text, 1);
    }
    char *whole = text_take(&escaped);
    facts_text(facts, name, "%s", whole);
    memory_free(whole);
}

/* ---- the table ------------------------------------------------------------------------------ */

static Facts *add_row(Facts *facts, const char *label, const char *kind) {
    Facts *row = facts_row(facts, "rows");
    lesson_text(row, "label", label);
    facts_text(row, "kind", "%s", kind);
    facts_list(row, "cells");
    return row;
}

/* A bit's place: its digit, or nothing where it is to be filled in. */
static void add_cell(Facts *row, const char *list, bool level, bool blank, bool is_sign) {
    Facts *cell = facts_row(row, list);
    facts_text(cell, "bit", "%s", blank ? "" : level ? "1" : "0");
    facts_text(cell, "kind", "%s%s",
               blank   ? "blank"
               : level ? "one"
                       : "nought",
               is_sign ? " sign" : "");
}

static void add_bits(Facts *facts, const StoryRow *from, const char *kind, bool blank) {
    Facts *row = add_row(facts, from->label, kind);
    facts_flag(row, "carries", false);
    for (unsigned column = from->word->width; column-- > 0;)
        add_cell(row, "cells", word_bit(from->word, column), blank,
                 column + 1 == from->word->width);
}

static void add_carries(Facts *facts, const Working *working, bool blank) {
    unsigned width = working->unit->width;
    Facts *row = add_row(facts, "carry", "carry");
    facts_flag(row, "carries", true);
    facts_text(row, "out", "%s", blank ? "" : word_bit(&working->carry, width) ? "1" : "0");
    facts_text(row, "out.kind", "%s",
               blank                              ? "blank"
               : word_bit(&working->carry, width) ? "one"
                                                  : "nought");
    for (unsigned column = width; column-- > 0;)
        add_cell(row, "cells", word_bit(&working->carry, column), blank, column + 1 == width);
}

static void add_table(Facts *facts, const Working *working, const Story *story, Blank blank) {
    unsigned width = working->unit->width;
    for (unsigned column = width; column-- > 0;) {
        Facts *row = facts_row(facts, "columns");
        facts_text(row, "number", "%u", column);
        facts_flag(row, "sign", column + 1 == width);
    }
    for (int k = 0; k < story->row_count; k++) {
        bool result = k >= story->row_sum;
        if (k == story->row_x)
            add_carries(facts, working, blank.carries);
        add_bits(facts, &story->row[k],
                 result             ? "result"
                 : k < story->row_x ? "pin"
                 : k > story->row_x ? "added last"
                                    : "added",
                 result ? blank.result : blank.operands);
    }
}

static bool adopt(Facts *facts, const char *name, const char *template, const Facts *filling,
                  Problem *problem) {
    const Templates embedded = {NULL};
    size_t bytes = 0;
    char *text = template_text(&embedded, template, filling, &bytes, problem);
    if (text != NULL)
        facts_adopt(facts, name, text, bytes);
    return text != NULL;
}

bool lesson_table(Facts *facts, const char *name, const Working *working, const Story *story,
                  Blank blank, Problem *problem) {
    Facts *table = facts_new();
    add_table(table, working, story, blank);
    bool good = adopt(facts, name, "worked_table.html", table, problem);
    facts_free(table);
    return good;
}

bool lesson_style(Facts *facts, const char *name, Problem *problem) {
    Facts *none = facts_new();
    bool good = adopt(facts, name, "worked_table.css", none, problem);
    facts_free(none);
    return good;
}

/* ---- the words ------------------------------------------------------------------------------ */

static void add_part(Facts *facts, const char *list, const StoryPart *part) {
    facts_list(facts, list);
    for (int k = 0; k < part->count; k++) {
        Facts *row = facts_row(facts, list);
        lesson_text(row, "label", part->line[k].label);
        lesson_text(row, "text", part->line[k].text);
    }
}

void lesson_story(Facts *facts, const Story *story) {
    add_part(facts, "verdict", &story->verdict);
    add_part(facts, "back", &story->back);
    add_part(facts, "flags", &story->flags);
}
