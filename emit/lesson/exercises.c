/* See exercises.h. */
#include "lesson/exercises.h"

#include "base/memory.h"
#include "base/text.h"
#include "model/number.h"
#include "write/template.h"

static void add_operand(TextBuffer *text, const char *name, const Word *word, bool is_signed) {
    char digits[NUMBER_BYTES];
    (is_signed ? number_signed : number_unsigned)(word, digits);
    text_printf(text, "%s%s = %s", text->length == 0 ? "" : ", ", name, digits);
}

/* "a = 100, b = -50": every second question is about unsigned numbers. The caller frees it. */
static char *operands(const Working *working, bool is_signed) {
    const OperationFacts *facts = operation_facts(working_operation(working));
    TextBuffer text = {NULL, 0, 0};
    add_operand(&text, "a", &working->a, is_signed);
    if (facts->reads_b)
        add_operand(&text, "b", &working->b, is_signed);
    if (facts->reads_cin)
        text_printf(&text, ", cin = %d", working->cin);
    return text_take(&text);
}

/* What the exact result can be beside valid, unsigned: "carry", "borrow". */
static const char *unsigned_word(const Working *working) {
    return operation_facts(working_operation(working))->subtracts ? "borrow" : "carry";
}

static bool add_question(Facts *facts, const Working *working, int number, Blank blank,
                         Problem *problem) {
    Facts *row = facts_row(facts, "questions");
    bool is_signed = number % 2 == 1;
    Story story;
    story_tell(working, &story);
    char *given = operands(working, is_signed);
    facts_text(row, "number", "%d", number);
    lesson_text(row, "title", story.title);
    lesson_text(row, "operands", given);
    facts_text(row, "reading", "%s", story_readings[is_signed]);
    facts_text(row, "limit", "%s", unsigned_word(working));
    facts_list(row, "pins");
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (working->unit->flag[flag])
            facts_text(facts_row(row, "pins"), "pin", "%s", flag_name((Flag)flag));
    bool good = lesson_table(row, "table", working, &story, blank, problem);
    lesson_story(row, &story);
    memory_free(given);
    story_free(&story);
    return good;
}

static const char *task(Blank blank) {
    if (blank.operands)
        return "Write the operands as bits, then every carry into its ring and the result below "
               "it, column by column from the right. Then compare the two carries in double rings.";
    if (blank.carries)
        return "Write every carry into its ring, column by column from the right. Then compare the "
               "two in double rings.";
    return "The carries are given. Write the result, column by column from the right.";
}

static bool is_solved(Blank blank) {
    return !blank.operands && !blank.carries && !blank.result;
}

bool exercises_write(const Working *question, int count, Blank blank, uint64_t seed, FILE *out,
                     Problem *problem) {
    const Unit *unit = question[0].unit;
    Facts *facts = facts_new();
    facts_text(facts, "name", "%s", unit->name);
    facts_text(facts, "size", "%u bit%s", unit->width, unit->width == 1 ? "" : "s");
    facts_flag(facts, "solutions", is_solved(blank));
    facts_flag(facts, "wide", unit->width > 16);
    facts_text(facts, "task", "%s", task(blank));
    facts_text(facts, "seed", "%llu", (unsigned long long)seed);
    bool good = lesson_style(facts, "css", problem);
    for (int k = 0; k < count && good; k++)
        good = add_question(facts, &question[k], k + 1, blank, problem);
    const Templates embedded = {NULL};
    good = good && template_fill(&embedded, "exercises.html", facts, out, problem);
    facts_free(facts);
    return good;
}
