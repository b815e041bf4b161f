/* What there is to know for reading a row picture, in words: below it, and for those who cannot see
 * it. */
#include "draw/notes.h"
#include "draw/row/row.h"

#include "base/memory.h"

#include <stdlib.h>

/* ---- the carry path ------------------------------------------------------------------------- */

static void note_path(const Row *row) {
    unsigned width = row->unit->width;
    const Literal *carry = row->build.adder.carry;
    bool *level = memory_zeroed(width + 1, sizeof level[0]);
    for (unsigned i = 0; i <= width; i++)
        level[i] = row_level(row, carry[i]);
    notes_path(row->scene, level, width + 1, row->borrow_form ? "carries or borrows" : "carries",
               'c');
    bool in = level[width - 1], out = level[width];
    free(level);
    if (row->build.adder.leaving != LITERAL_NONE)
        return;
    bool borrows = row_level(row, row->build.adder.turned);
    char *sum = borrows ? memory_text(" They are borrows here; as carries of the sum in the "
                                      "heading they are %d and %d.",
                                      !out, !in)
                        : memory_text("%s", "");
    char *text = memory_text("Rings: the two %s that are compared, c%u = %d and c%u = %d; they "
                             "%s.%s",
                             borrows ? "borrows" : "carries", width, out, width - 1, in,
                             in == out ? "are equal, so the result is valid in two's complement"
                                       : "differ, so the result is wrong in two's complement",
                             sum);
    notes_add(row->scene, text);
    free(sum);
    free(text);
}

/* ---- the boxes ------------------------------------------------------------------------------- */

static void note_adders(const Row *row) {
    if (!row->borrow_form) {
        notes_add(row->scene, "FA: full adder, the sum of its inputs as a bit below it and a carry "
                              "on its left; HA: half adder, with fewer inputs. c3 is the carry "
                              "into column 3.");
        return;
    }
    notes_add(row->scene,
              row->build.adder.turned == LITERAL_1
                  ? "FS: full subtractor, the difference as a bit below it and a borrow on its "
                    "left; HS: half subtractor, with fewer inputs. c3 is the borrow into column 3."
                  : "FA/S: full adder and subtractor, HA/S: half, with fewer inputs: the bit below "
                    "it is the sum or the difference, on its left is the carry of an addition or "
                    "the borrow of a subtraction, as the line from above says. c3 enters column "
                    "3.");
    if (row->line_count > 1)
        notes_add(row->scene,
                  "Two lines tell the adders which operand is taken from the other: the "
                  "left one of the two at each adder is 1 where a is taken from b.");
}

void row_draw_notes(const Row *row) {
    note_adders(row);
    notes_result(row->unit, row->scene);
    if (row->unit->detail == DETAIL_OPERATORS)
        notes_add(row->scene,
                  "In the Verilog of this unit an arithmetic operator stands for the row of "
                  "adders; how its carries travel is left to the synthesizer.");
    notes_pins(row->unit, row->scene);
    if (row->values != NULL)
        note_path(row);
}

char *row_describe(const Row *row) {
    unsigned width = row->unit->width;
    return memory_text("%u column%s in a row, column 0 at the right. Each is a box that adds a bit "
                       "of each operand and the carry from the box on its right; its sum goes down "
                       "to the result, its carry to the box on its left. Above the boxes is the "
                       "operand row with the control lines, on the left are the flags.",
                       width, width == 1 ? "" : "s");
}
