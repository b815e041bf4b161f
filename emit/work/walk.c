/* See walk.h. */
#include "work/walk.h"

#include "base/memory.h"
#include "base/text.h"

#include <assert.h>

Walk walk_of(const Working *working, const Story *story) {
    Walk walk;
    walk.compare = WALK_COLUMN + working->unit->width;
    walk.verdict = walk.compare + 1;
    walk.flags = walk.verdict + 1;
    walk.count = walk.flags + (unsigned)story->flags.count;
    return walk;
}

static void add_number(TextBuffer *text, const char *name, const Word *word) {
    char *readings = story_both_readings(word);
    text_printf(text, "%s = %s", name, readings);
    memory_free(readings);
}

char *walk_say_pins(const Working *working) {
    const OperationFacts *facts = operation_facts(working_operation(working));
    TextBuffer text = {NULL, 0, 0};
    text_add(&text, "The operands arrive: ");
    add_number(&text, "a", &working->a);
    if (facts->reads_b)
        add_number(&text, "; b", &working->b);
    if (facts->reads_cin)
        text_printf(&text, "; cin = %d", working->cin);
    text_add(&text, ".");
    return text_take(&text);
}

char *walk_say_operands(const Working *working) {
    TextBuffer text = {NULL, 0, 0};
    text_printf(&text, "%s adds %s and %s", operation_name(working_operation(working)),
                addend_name(working->addend[0]), addend_name(working->addend[1]));
    if (working_inverts(working))
        text_add(&text, ": every bit of what is taken away is inverted");
    text_add(&text, ".");
    return text_take(&text);
}

char *walk_say_first(const Working *working, const Story *story) {
    return memory_text("The first carry is %d: %s.", word_bit(&working->carry, 0),
                       story->first_carry);
}

char *walk_say_compare(const Story *story) {
    return memory_text("The last carries: %s.", story->verdict.line[0].text);
}

char *walk_say_verdict(const Story *story) {
    TextBuffer text = {NULL, 0, 0};
    for (int k = 1; k < story->verdict.count; k++)
        text_printf(&text, "%s%s: %s.", k == 1 ? "" : " ", story->verdict.line[k].label,
                    story->verdict.line[k].text);
    return text_take(&text);
}

char *walk_say_flag(const Story *story, unsigned flag) {
    const StoryLine *line = &story->flags.line[flag];
    return memory_text("%s: %s.", line->label, line->text);
}

char *walk_say(const Working *working, const Story *story, unsigned step) {
    Walk walk = walk_of(working, story);
    assert(step < walk.count);
    if (step == WALK_PINS)
        return walk_say_pins(working);
    if (step == WALK_OPERANDS)
        return walk_say_operands(working);
    if (step == WALK_FIRST)
        return walk_say_first(working, story);
    if (step < walk.compare)
        return story_step(working, step - WALK_COLUMN);
    if (step == walk.compare)
        return walk_say_compare(story);
    if (step == walk.verdict)
        return walk_say_verdict(story);
    return walk_say_flag(story, step - walk.flags);
}
