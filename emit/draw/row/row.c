/* The row picture: an adder box a column, column 0 at the right, in bands of columns, the lowest
 * band first. What is around the boxes is the frame's, see frame/frame.h. */
#include "base/memory.h"
#include "draw/draw.h"
#include "draw/frame/frame.h"
#include "draw/notes.h"
#include "gates/build.h"

enum {
    BAND = 16,       /* columns side by side at most */
    PITCH = 84,      /* from column to column; */
    PITCH_WIDE = 96, /* where their numbers are longer */
    BOX = 52,        /* an adder's width */
    BOX_HEIGHT = 44,
    OPERAND = 17, /* the operands' wires, left and right of the column's middle */
    TELLS = 4,    /* and the lines that tell it what to do */
    TRACK = 35,   /* of the carry into the sign column, below the boxes' bottom */
};

typedef struct {
    Frame frame;
    bool borrow_form; /* the adders work on carries or borrows, and are told which */
} Row;

/* ---- the boxes ------------------------------------------------------------------------------- */

/* Is a half adder enough? In a chain of full adders that is so where no carry enters, as in the
 * generated text; in the smallest circuits wherever an input is known. */
static bool is_half(const Row *row, unsigned i) {
    const Frame *frame = &row->frame;
    bool none_enters = frame->core->carry[i] == LITERAL_0;
    if (frame->unit->structure == STRUCTURE_RIPPLE)
        return none_enters && i == 0 && frame->core->width > 1;
    return none_enters || literal_is_constant(frame->operand[1].out[i]);
}

/* Adders, subtractors, or boxes that are told which of the two to be. */
static int form_of(const Row *row) {
    return !row->borrow_form ? 0 : row->frame.core->sense == CORE_BORROWS ? 1 : 2;
}

static const char *adder_label(const Row *row, unsigned i) {
    static const char *const labels[][2] = {{"FA", "HA"}, {"FS", "HS"}, {"FA/S", "HA/S"}};
    return labels[form_of(row)][is_half(row, i)];
}

static void draw_box(Row *row, unsigned i) {
    Frame *frame = &row->frame;
    double x = frame_x(frame, i);
    for (int k = 0; k < frame->line_count; k++) {
        FrameLine *line = &frame->line[k];
        bool tells = row->borrow_form && !line->selects;
        if (tells)
            frame_tap(frame, line, x + (k % 2 == 0 ? TELLS : -TELLS), frame->y);
    }
    scene_rect(frame->scene, SYMBOL_FRAME, x - BOX / 2.0, frame->y, BOX, BOX_HEIGHT,
               adder_label(row, i));
}

/* ---- the carries ----------------------------------------------------------------------------- */

static double gap_of(const Row *row) {
    return row->frame.pitch - BOX;
}

/* Where the band ends on the left, halfway between two columns. */
static double band_end(const Row *row) {
    return frame_x(&row->frame, row->frame.top - 1) - row->frame.pitch / 2;
}

static bool has_sign_tap(const Frame *frame) {
    return frame->unit->flag[FLAG_OVERFLOW] && frame_compares(frame) &&
           frame_varies(frame->core->carry[frame->core->width - 1]);
}

/* The carry that enters column i, from the box on the right or from beyond the band; the one that
 * leaves the band comes to an end beside it. */
static void draw_carry(Row *row, unsigned i) {
    Frame *frame = &row->frame;
    Literal carry = frame_carry(frame, i);
    double gap = gap_of(row), to = band_end(row) + gap / 2, from = to - gap;
    if (i < frame->top) {
        from = frame_x(frame, i) + BOX / 2.0;
        to = from + gap;
    }
    bool tapped = i + 1 == frame->core->width && has_sign_tap(frame);
    double name = (from + to) / 2 + (tapped ? 2 : 0); /* beside the wire down to the flags */
    scene_wire(frame->scene, carry, frame_carry_is_1(frame, i) ? WIRE_HEAVY : WIRE_PLAIN, to,
               frame->first_y);
    scene_to(frame->scene, from, frame->first_y);
    scene_name(frame->scene, name, frame->first_y + 13, ANCHOR_MIDDLE, carry, "c%u", i);
    frame_carry_level(frame, i, carry, name, frame->first_y - 8, ANCHOR_MIDDLE);
}

/* The carry into the sign column, from between the columns to below the boxes; where it then is. */
static Point draw_sign_tap(const Row *row) {
    const Frame *frame = &row->frame;
    unsigned sign = frame->core->width - 1;
    Point end = {frame_x(frame, sign) + BOX / 2.0 + 2, frame->first_y + BOX_HEIGHT / 2.0 + TRACK};
    if (!has_sign_tap(frame))
        return end;
    Literal carry = frame->core->carry[sign];
    frame_wire(frame, carry, frame_carry_is_1(frame, sign) ? WIRE_HEAVY : WIRE_PLAIN, end.x,
               frame->first_y, end.y);
    return end;
}

/* ---- bands ----------------------------------------------------------------------------------- */

static void draw_band(Row *row) {
    Frame *frame = &row->frame;
    frame_draw_pins(frame);
    frame_draw_operands(frame);
    frame->first_y = frame->y + BOX_HEIGHT / 2.0;
    for (unsigned i = frame->low; i < frame->top; i++)
        draw_box(row, i);
    for (unsigned i = frame->low; i <= frame->top; i++)
        draw_carry(row, i);
    frame_draw_lines(frame);
    if (frame->low == 0)
        frame_draw_sources(frame, frame->core->carry[0],
                           frame_x(frame, 0) + BOX / 2.0 + gap_of(row));
    frame->y += BOX_HEIGHT;
    frame_draw_result(frame);
    if (frame->top == frame->unit->width) {
        Point last = {band_end(row) - gap_of(row) / 2, frame->first_y};
        frame_draw_flags(frame, last, draw_sign_tap(row));
    }
}

/* As many columns as each band has: all alike, in fours, the highest with what is left. */
static unsigned band_of(unsigned width) {
    if (width > DRAW_COLUMNS_MAX || width <= BAND)
        return BAND;
    return ((width + 1) / 2 + 3) / 4 * 4;
}

static void draw_bands(Row *row) {
    Frame *frame = &row->frame;
    unsigned width = frame->unit->width, band = band_of(width);
    for (frame->low = 0; frame->low < width; frame->low = frame->top) {
        frame->top = width - frame->low > band ? frame->low + band : width;
        draw_band(row);
        frame->y += 16;
        if (width > DRAW_COLUMNS_MAX && frame->low == 0) {
            scene_text(frame->scene, frame_left(frame), frame->y, ANCHOR_START, TEXT_BOLD,
                       "... %u columns like these, %u to %u, are left out ...", width - 2 * band,
                       band, width - band - 1);
            frame->top = width - band;
            frame->y += 32;
        }
    }
}

/* ---- the whole ------------------------------------------------------------------------------- */

/* The adders in borrow form take a and b as they are and are told which to turn over. */
static void choose_operands(Row *row, const Operands *operands) {
    Frame *frame = &row->frame;
    const AdderCore *core = frame->core;
    const Literal *signal = core->signal;
    bool form = row->borrow_form;
    frame->operand[0] = (FrameOperand){LITERAL_1, form ? LITERAL_0 : signal[SIGNAL_INVERT_A],
                                       form ? operands->a : core->added_x, -OPERAND};
    frame->operand[1] =
        (FrameOperand){signal[SIGNAL_USE_B], form ? LITERAL_0 : signal[SIGNAL_INVERT_B],
                       form ? operands->b : core->added_y, OPERAND};
    frame_add_line(frame, signal[SIGNAL_USE_B], true);
    frame_add_line(frame, signal[form ? SIGNAL_TURN_A : SIGNAL_INVERT_A], false);
    frame_add_line(frame, signal[form ? SIGNAL_TURN_B : SIGNAL_INVERT_B], false);
}

static void note_adders(const Row *row) {
    const Frame *frame = &row->frame;
    static const char *const words[][2] = {
        {"FA: full adder, the sum of its inputs as a bit below it and a carry on its left",
         "HA: half adder, with fewer inputs"},
        {"FS: full subtractor, the difference as a bit below it and a borrow on its left",
         "HS: half subtractor, with fewer inputs"},
        {"FA/S: full adder and subtractor, the sum or the difference as a bit below it, and on its "
         "left the carry of an addition or the borrow of a subtraction, as the line from above "
         "says",
         "HA/S: the same with fewer inputs"}};
    bool half = false;
    for (unsigned i = 0; i < frame->core->width; i++)
        half = half || is_half(row, i);
    char *text = memory_text("%s%s%s.", words[form_of(row)][0], half ? "; " : "",
                             half ? words[form_of(row)][1] : "");
    notes_add(frame->scene, text);
    memory_free(text);
    frame_note_sense(frame);
    int tell = 0;
    for (int k = 0; k < frame->line_count; k++)
        tell += row->borrow_form && !frame->line[k].selects;
    if (tell > 1)
        notes_add(frame->scene, "Two lines tell the adders which operand is taken from the other: "
                                "the left one of the two at each adder is 1 where a is taken from "
                                "b.");
}

static void draw_notes(const Row *row) {
    const Frame *frame = &row->frame;
    note_adders(row);
    frame_note_result(frame);
    if (frame->unit->detail == DETAIL_OPERATORS)
        notes_add(frame->scene,
                  "In the Verilog of this unit an arithmetic operator stands for the row of "
                  "adders; how its carries travel is left to the synthesizer.");
    frame_note_pins(frame);
    frame_note_path(frame, false);
    frame_note_compared(frame);
}

char *row_draw(const Unit *unit, const Working *example, Scene *scene) {
    Row row;
    Build build;
    build_open(unit, &build);
    Frame *frame = &row.frame;
    frame_open(frame, unit, example, &build.netlist, CARRIES_ALL, scene);
    row.borrow_form = frame->core->sense != CORE_CARRIES;
    frame->pitch = unit->width > DRAW_COLUMNS_MAX ? PITCH_WIDE : PITCH;
    frame->half = frame->pitch / 2 - 4;
    choose_operands(&row, &build.operands);
    draw_bands(&row);
    draw_notes(&row);
    frame_close(frame);
    build_close(&build);
    return memory_text("%u column%s in a row, column 0 at the right. Each is a box that adds a bit "
                       "of each operand and the carry from the box on its right; its sum goes down "
                       "to the result, its carry to the box on its left. Above the boxes is the "
                       "operand row with the control lines, on the left are the flags.",
                       unit->width, unit->width == 1 ? "" : "s");
}
