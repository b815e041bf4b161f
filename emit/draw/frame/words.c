/* The words below a picture, made from the unit, the record of its adder core and the example. See
 * frame.h. */
#include "draw/frame/frame.h"

#include "base/memory.h"
#include "base/text.h"
#include "draw/notes.h"

#include <string.h>

/* ---- what the carries are -------------------------------------------------------------------- */

/* Are the core's carries those of the sum turned over, in the example? Where the wire that tells is
 * not there any more, any of the carries does beside the Working's. */
static bool are_turned(const Frame *frame) {
    const AdderCore *core = frame->core;
    if (core->turned != LITERAL_NONE)
        return frame_level(frame, core->turned);
    for (unsigned i = 0; i <= core->width; i++)
        if (frame_varies(core->carry[i]))
            return frame_level(frame, core->carry[i]) != word_bit(&frame->example->carry, i);
    return false;
}

/* The carry into a column by the Working, in the sense of the wire that the picture has for it. */
static bool worked_carry(const Frame *frame, unsigned column) {
    bool chained = frame->core->carry[column] != LITERAL_NONE;
    return word_bit(&frame->example->carry, column) != (chained && are_turned(frame));
}

const char *frame_carry_words(const Frame *frame) {
    Operation operation = working_operation(frame->example);
    return !are_turned(frame)                      ? "carries"
           : operation_facts(operation)->subtracts ? "borrows"
                                                   : "carries turned over";
}

void frame_note_sense(const Frame *frame) {
    const AdderCore *core = frame->core;
    unsigned width = core->width, column = width < 3 ? width : 3;
    bool out = column == width;
    char *where = memory_text("%s column %u", out ? "out of" : "into", out ? column - 1 : column);
    TextBuffer text = {NULL, 0, 0};
    switch (core->sense) {
    case CORE_CARRIES:
        text_printf(&text, "c%u is the carry %s.", column, where);
        break;
    case CORE_BORROWS:
        text_printf(&text, "c%u is the borrow %s.", column, where);
        break;
    case CORE_NO_CARRIES:
        text_printf(&text, "The carries are turned over: c%u is 1 where no carry goes %s.", column,
                    where);
        break;
    case CORE_CARRIES_OR_BORROWS:
        if (core->turned == core->signal[SIGNAL_SUBTRACTING])
            text_printf(&text,
                        "c%u is the carry %s in an addition, and the borrow in a subtraction.",
                        column, where);
        else
            text_printf(&text,
                        "c%u is the carry %s, turned over where the first carry of the "
                        "addition is 1: a borrow in a subtraction.",
                        column, where);
    }
    if (core->carry[width] == LITERAL_NONE && core->leaving != LITERAL_NONE &&
        core->sense != CORE_CARRIES)
        text_printf(&text, " But c%u is the carry of the addition in every operation.", width);
    notes_add(frame->scene, text.text);
    text_free(&text);
    memory_free(where);
}

/* ---- the carry path -------------------------------------------------------------------------- */

/* A run of carries of 1, from c[first] to c[last]. */
typedef struct {
    unsigned first, last;
    bool any;
} Run;

/* The longest; of several, the lowest. */
static Run longest_run(const Frame *frame) {
    Run longest = {0, 0, false}, run = {0, 0, false};
    for (unsigned i = 0; i <= frame->core->width; i++) {
        if (!frame->drawn[i] || !worked_carry(frame, i)) {
            run.any = false;
            continue;
        }
        run = run.any ? (Run){run.first, i, true} : (Run){i, i, true};
        if (!longest.any || run.last - run.first > longest.last - longest.first)
            longest = run;
    }
    return longest;
}

void frame_note_path(const Frame *frame, bool brought) {
    bool any = false;
    for (unsigned i = 0; i <= frame->core->width; i++)
        any = any || frame->drawn[i];
    if (frame->example == NULL || !any)
        return;
    Run run = longest_run(frame);
    const char *what = frame_carry_words(frame);
    TextBuffer text = {NULL, 0, 0};
    text_add(&text, "Carry path: ");
    if (!run.any)
        text_printf(&text, "all %s are 0.", what);
    else
        text_printf(&text,
                    brought ? "heavy wires bring the %s of 1 from the columns that make them; "
                            : "heavy wires are %s of 1; ",
                    what);
    if (run.any && run.first == run.last)
        text_add(&text, "none goes further than one column.");
    else if (run.any)
        text_printf(&text, "the longest path is from c%u to c%u.", run.first, run.last);
    notes_add(frame->scene, text.text);
    text_free(&text);
}

void frame_note_compared(const Frame *frame) {
    unsigned width = frame->core->width;
    if (frame->example == NULL || !frame->rings)
        return;
    bool in = worked_carry(frame, width - 1), out = worked_carry(frame, width);
    TextBuffer text = {NULL, 0, 0};
    text_printf(&text, "Rings: the two %s that are compared, c%u = %d and c%u = %d; they %s.",
                frame_carry_words(frame), width, out, width - 1, in,
                in == out ? "are equal, so the sum is valid in two's complement"
                          : "differ, so the sum is wrong in two's complement");
    if (are_turned(frame))
        text_printf(&text, " As carries of the sum in the heading they are %d and %d.", !out, !in);
    notes_add(frame->scene, text.text);
    text_free(&text);
}

/* ---- result and pins --------------------------------------------------------------------------- */

void frame_note_result(const Frame *frame) {
    const Unit *unit = frame->unit;
    if (unit->overflow == OVERFLOW_SATURATE_SIGNED)
        notes_add(frame->scene, "saturate: a result that does not fit two's complement becomes the "
                                "highest or the lowest number there is.");
    if (unit->overflow == OVERFLOW_SATURATE_UNSIGNED)
        notes_add(frame->scene, "saturate: a result that does not fit unsigned becomes the highest "
                                "number there is, or 0.");
    if (frame_varies(frame->core->signal[SIGNAL_ACTIVE]))
        notes_add(frame->scene, "if active: with no operation asked for, result and flags are 0, "
                                "and zero is 1.");
}

/* "The pins: a is observed, b is predicted." for the two that are written as letters. */
static void note_operands(const Unit *unit, Scene *scene) {
    bool a = strcmp(unit->pin[PIN_A], "a") != 0;
    bool b = unit_has(unit, PIN_B) && strcmp(unit->pin[PIN_B], "b") != 0;
    TextBuffer text = {NULL, 0, 0};
    if (a)
        text_printf(&text, "a is the pin %.*s", NOTES_NAME_MOST, unit->pin[PIN_A]);
    if (b)
        text_printf(&text, "%sb is the pin %.*s", a ? ", " : "", NOTES_NAME_MOST, unit->pin[PIN_B]);
    if (a || b) {
        text_add(&text, ".");
        notes_add(scene, text.text);
    }
    text_free(&text);
}

void frame_note_pins(const Frame *frame) {
    const Unit *unit = frame->unit;
    TextBuffer text = {NULL, 0, 0};
    note_operands(unit, frame->scene);
    if (unit->registers == REGISTERS_NONE)
        return;
    text_printf(&text, "Registers take their inputs at the rising edge of %.*s", NOTES_NAME_MOST,
                unit->pin[PIN_CLK]);
    if (unit->reset != RESET_NONE)
        text_printf(&text, ", reset by %.*s (%s)", NOTES_NAME_MOST, unit->pin[PIN_RST],
                    unit->reset == RESET_SYNC ? "at the clock" : "at once");
    if (unit->enable)
        text_printf(&text, ", enabled by %.*s", NOTES_NAME_MOST, unit->pin[PIN_EN]);
    text_add(&text, "; the flags pass one, too.");
    notes_add(frame->scene, text.text);
    text_free(&text);
}
