/* See figure.h. The body is drawn twice, first without a stream, because the document's head tells
 * how high it becomes. Lengths are in pixels. */
#include "work/figure.h"

#include "base/memory.h"
#include "base/text.h"
#include "write/svg.h"

#include <assert.h>
#include <string.h>

enum {
    MARGIN = 24,
    LABELS = 76, /* the labels of the rows */
    COLUMN = 40, /* from column to column, and the place of the carry that leaves */
    FRAME = 32,  /* the frame of a column */
    GAP = 12,    /* between the columns and what is said about a row */
    WIDTH_LEAST = 720,
    TITLE_SIZE = 17,
    BIT_SIZE = 15,
    TEXT_SIZE = 12,
    TEXT_LINE = 18,
    ROW = 24,        /* of bits */
    RING = 11,       /* radius of a carry */
    OUTER_RING = 15, /* the second ring of the two last carries */
    CARRY_ROW = 86,  /* from the row above the carries to the columns' top */
};

typedef struct {
    const Working *working;
    const Story *story;
    FILE *out;
    double width;      /* of the drawing */
    double y;          /* where the next thing goes */
    unsigned low, top; /* the columns of the band being drawn: low ... top - 1 */
    Walk walk;
    bool steps; /* with a line of reasoning for each column */
    bool walks; /* shows what stands after one step: */
    unsigned step;
} Figure;

/* ---- what stands --------------------------------------------------------------------------- */

/* Does it stand already, and is it new, what stands from this step on? */
static bool stands(const Figure *figure, unsigned from) {
    return !figure->walks || from <= figure->step;
}

static bool is_new(const Figure *figure, unsigned from) {
    return figure->walks && from == figure->step;
}

/* The step from which a row of the story has its bit in a column. */
static unsigned step_of_bit(const Figure *figure, int row, unsigned column) {
    const Story *story = figure->story;
    if (row > story->row_sum)
        return figure->walk.verdict;
    if (row == story->row_sum)
        return WALK_COLUMN + column;
    return row >= story->row_x && story->row_x > 0 ? WALK_OPERANDS : WALK_PINS;
}

/* Nothing is drawn that does not stand yet: the stream to draw into, or none. */
static FILE *stream_from(const Figure *figure, unsigned from) {
    return stands(figure, from) ? figure->out : NULL;
}

/* ---- places ------------------------------------------------------------------------------- */

/* Where the columns of the band end on the right. */
static double right_end(const Figure *figure) {
    return MARGIN + LABELS + COLUMN * (double)(figure->top - figure->low + 1);
}

/* The middle of a column; column top is where the carry that leaves the band stands. */
static double middle(const Figure *figure, unsigned column) {
    assert(column >= figure->low && column <= figure->top);
    return right_end(figure) - COLUMN * ((double)(column - figure->low) + 0.5);
}

static bool is_sign(const Figure *figure, unsigned column) {
    return column + 1 == figure->working->unit->width;
}

/* Is this one of the two last carries? */
static bool is_last(const Figure *figure, unsigned carry) {
    return carry == figure->working->unit->width || is_sign(figure, carry);
}

/* ---- shapes ------------------------------------------------------------------------------- */

/* A line with a filled head at its end; the shape of a carry of 1 is heavier. */
static void draw_arrow(FILE *out, double x1, double y1, double x2, double y2, bool heavy) {
    double dx = x2 - x1, dy = y2 - y1;
    /* Of a length near enough: the longer side and a bit of the shorter (within 8 percent). */
    double longer = dx * dx > dy * dy ? dx : dy, shorter = dx * dx > dy * dy ? dy : dx;
    longer = longer < 0 ? -longer : longer;
    shorter = shorter < 0 ? -shorter : shorter;
    double length = 0.96 * longer + 0.4 * shorter;
    double head = heavy ? 8 : 6, ux = dx / length, uy = dy / length;
    svg_line(out, x1, y1, x2 - ux * head / 2, y2 - uy * head / 2,
             heavy ? "stroke=\"black\" stroke-width=\"2.5\""
                   : "stroke=\"black\" stroke-width=\"0.8\"");
    svg_path(out, "fill=\"black\"");
    svg_to(out, 'M', x2, y2);
    svg_to(out, 'L', x2 - ux * head - uy * head / 2, y2 - uy * head + ux * head / 2);
    svg_to(out, 'L', x2 - ux * head + uy * head / 2, y2 - uy * head - ux * head / 2);
    svg_path_end(out, true);
}

static void draw_carry(const Figure *figure, unsigned carry, double y) {
    const unsigned from = WALK_FIRST + carry;
    bool level = stands(figure, from) && word_bit(&figure->working->carry, carry);
    double x = middle(figure, carry);
    if (is_new(figure, from) || (is_last(figure, carry) && is_new(figure, figure->walk.compare)))
        svg_circle(figure->out, x, y, OUTER_RING + 3.5,
                   "fill=\"none\" stroke=\"black\" stroke-width=\"2\" stroke-dasharray=\"4 2\"");
    if (is_last(figure, carry))
        svg_circle(figure->out, x, y, OUTER_RING,
                   "fill=\"white\" stroke=\"black\" stroke-width=\"1.6\"");
    svg_circle(figure->out, x, y, RING,
               level ? "fill=\"black\" stroke=\"black\"" : "fill=\"white\" stroke=\"black\"");
    svg_text(stream_from(figure, from), x, y + 5,
             level ? "font-size=\"14\" font-weight=\"bold\" text-anchor=\"middle\" fill=\"white\""
                   : "font-size=\"14\" text-anchor=\"middle\"",
             "%d", level);
}

static void draw_label(const Figure *figure, double y, const char *text) {
    svg_text(figure->out, MARGIN, y, "font-size=\"14\"", "%s", text);
}

/* A row of bits, its label on the left, and on the right its word's value where that is whole on the
 * band, or what is said of it otherwise. */
static void draw_row(Figure *figure, int number) {
    const StoryRow *row = &figure->story->row[number];
    bool complete = true;
    double base = figure->y + ROW - 7;
    bool whole = figure->low == 0 && figure->top == row->word->width;
    char *value = row->shows_value && whole ? story_both_readings(row->word) : NULL;
    const char *note = value != NULL ? value : row->remark;
    draw_label(figure, base, row->label);
    for (unsigned column = figure->top; column-- > figure->low;) {
        unsigned from = step_of_bit(figure, number, column);
        double x = middle(figure, column);
        if (is_new(figure, from))
            svg_rect(figure->out, x - 10, base - 16, 20, 20,
                     "rx=\"2\" fill=\"white\" stroke=\"black\" stroke-width=\"2\"");
        svg_text(stream_from(figure, from), x, base, "font-size=\"15\" text-anchor=\"middle\"",
                 "%d", word_bit(row->word, column));
        complete = complete && stands(figure, from);
    }
    if (note != NULL && complete)
        svg_text(figure->out, right_end(figure) + GAP, base, "", "%s", note);
    memory_free(value);
    figure->y += ROW;
}

/* ---- one band ----------------------------------------------------------------------------- */

static void draw_column_numbers(Figure *figure) {
    double base = figure->y + 30;
    draw_label(figure, base, "column");
    for (unsigned column = figure->top; column-- > figure->low;) {
        svg_text(figure->out, middle(figure, column), base, "text-anchor=\"middle\"", "%u", column);
        if (is_sign(figure, column))
            svg_text(figure->out, middle(figure, column), figure->y + 14,
                     "text-anchor=\"middle\" font-weight=\"bold\"", "sign");
    }
    figure->y += 38;
}

/* The operands at the pins, where the adder sees one of them inverted. */
static void draw_pins(Figure *figure) {
    int rows = figure->story->row_x;
    if (rows > 0 && figure->top == figure->working->unit->width)
        svg_rect(figure->out, middle(figure, figure->top - 1) - FRAME / 2.0, figure->y, FRAME,
                 rows * ROW + 2, "rx=\"4\" fill=\"#e8e8e8\"");
    for (int k = 0; k < rows; k++)
        draw_row(figure, k);
}

/* From the columns' top: each carry falls into its column, and leaves it for the next one. */
static void draw_carry_arrows(const Figure *figure, double y, double columns_top) {
    for (unsigned column = figure->low; column < figure->top; column++) {
        double x = middle(figure, column), next = middle(figure, column + 1);
        double ring = is_last(figure, column) ? OUTER_RING : RING;
        double next_ring = is_last(figure, column + 1) ? OUTER_RING : RING;
        draw_arrow(stream_from(figure, WALK_FIRST + column), x, y + ring, x, columns_top,
                   word_bit(&figure->working->carry, column));
        draw_arrow(stream_from(figure, WALK_COLUMN + column), x - 12, columns_top,
                   next + next_ring * 0.75, y + next_ring * 0.75,
                   word_bit(&figure->working->carry, column + 1));
    }
}

/* The carry that enters the lowest column, from the right. */
static void draw_entering_carry(const Figure *figure, double y) {
    double ring = is_last(figure, figure->low) ? OUTER_RING : RING;
    bool level = word_bit(&figure->working->carry, figure->low);
    double from = right_end(figure) + GAP;
    FILE *out = stream_from(figure, WALK_FIRST + figure->low);
    draw_arrow(out, from + 20, y, middle(figure, figure->low) + ring, y, level);
    if (figure->low == 0)
        svg_text(out, from + 26, y + 4, "", "%d, the first carry: %s", level,
                 figure->story->first_carry);
    else
        svg_text(out, from + 26, y + 4, "", "%d, out of column %u", level, figure->low - 1);
}

/* The bracket over the two last carries, and what they say. */
static void draw_comparison(const Figure *figure, double y) {
    unsigned width = figure->working->unit->width;
    if (figure->top != width || !stands(figure, figure->walk.compare))
        return;
    bool in = working_carry_in(figure->working), out = working_carry_out(figure->working);
    double left = middle(figure, width), right = middle(figure, width - 1),
           top = y - OUTER_RING - 8;
    svg_path(figure->out, "fill=\"none\" stroke=\"black\" stroke-width=\"1.6\"");
    svg_to(figure->out, 'M', left, y - OUTER_RING);
    svg_to(figure->out, 'L', left, top);
    svg_to(figure->out, 'L', right, top);
    svg_to(figure->out, 'L', right, y - OUTER_RING);
    svg_path_end(figure->out, false);
    svg_text(figure->out, left, top - 6, "font-weight=\"bold\"",
             "last carries, %d out and %d in: they %s", out, in,
             in == out ? "are equal, valid in two's complement"
                       : "differ, OVERFLOW in two's complement");
}

static void draw_carries(Figure *figure) {
    double columns_top = figure->y + CARRY_ROW, y = columns_top - 34;
    draw_comparison(figure, y);
    draw_label(figure, y + 5, "carry");
    draw_carry_arrows(figure, y, columns_top);
    for (unsigned carry = figure->low; carry <= figure->top; carry++)
        draw_carry(figure, carry, y);
    draw_entering_carry(figure, y);
    figure->y = columns_top;
}

/* The frames of the columns from here on, with room for so many rows; one for the sum, below a
 * line. */
static void draw_frames(const Figure *figure) {
    for (unsigned column = figure->low; column < figure->top; column++) {
        double left = middle(figure, column) - FRAME / 2.0;
        svg_rect(figure->out, left, figure->y, FRAME, 3 * ROW + 6,
                 is_sign(figure, column)
                     ? "rx=\"4\" fill=\"#e8e8e8\" stroke=\"black\" stroke-width=\"2.5\""
                     : "rx=\"4\" fill=\"white\" stroke=\"black\" stroke-width=\"0.8\"");
        svg_line(figure->out, left, figure->y + 2 * ROW + 3, left + FRAME, figure->y + 2 * ROW + 3,
                 "stroke=\"black\" stroke-width=\"0.8\"");
    }
}

static void draw_band(Figure *figure) {
    const Story *story = figure->story;
    draw_column_numbers(figure);
    draw_pins(figure);
    draw_carries(figure);
    draw_frames(figure);
    draw_row(figure, story->row_x);
    svg_text(figure->out, middle(figure, figure->top), figure->y + ROW - 7,
             "font-size=\"15\" text-anchor=\"middle\"", "+");
    draw_row(figure, story->row_x + 1);
    figure->y += 5;
    draw_row(figure, story->row_sum);
    figure->y += 3;
    for (int k = story->row_sum + 1; k < story->row_count; k++)
        draw_row(figure, k);
    figure->y += TEXT_LINE;
}

/* ---- the bands ---------------------------------------------------------------------------- */

/* As many columns as each band has: all bands alike, in fours, the highest with what is left. */
static unsigned band_of(unsigned width) {
    if (width > FIGURE_COLUMNS_MAX || width <= FIGURE_BAND)
        return FIGURE_BAND;
    unsigned bands = (width + FIGURE_BAND - 1) / FIGURE_BAND;
    unsigned even = (width + bands - 1) / bands;
    return (even + 3) / 4 * 4;
}

static void draw_omission(Figure *figure, unsigned low, unsigned top) {
    svg_text(figure->out, MARGIN, figure->y + 12, "font-style=\"italic\"",
             "columns %u to %u are left out; they are worked alike", top - 1, low);
    figure->y += 2 * TEXT_LINE;
}

static void draw_bands(Figure *figure) {
    unsigned width = figure->working->unit->width, band = band_of(width);
    for (figure->low = 0; figure->low < width; figure->low = figure->top) {
        figure->top = width - figure->low > band ? figure->low + band : width;
        draw_band(figure);
        if (width > FIGURE_COLUMNS_MAX && figure->low == 0) {
            figure->top = width - band;
            draw_omission(figure, band, figure->top);
        }
    }
}

/* ---- the words ---------------------------------------------------------------------------- */

static void draw_wrapped(Figure *figure, double x, const char *text) {
    while (*text != '\0') {
        size_t length = svg_text_fits(text, TEXT_SIZE, figure->width - MARGIN - x);
        svg_text(figure->out, x, figure->y + 12, "", "%.*s", (int)length, text);
        figure->y += TEXT_LINE;
        text += length;
        text += strspn(text, " ");
    }
}

static void draw_heading(Figure *figure, const char *text) {
    svg_text(figure->out, MARGIN, figure->y + 12, "font-weight=\"bold\"", "%s", text);
    figure->y += TEXT_LINE;
}

/* A bar beside what is new. */
static void draw_bar(const Figure *figure, unsigned from, double top) {
    if (is_new(figure, from))
        svg_rect(figure->out, MARGIN - 10, top, 4, figure->y - top, "fill=\"black\"");
}

/* A line of a part, which stands from this step on. */
static void draw_part_line(Figure *figure, const StoryLine *line, double widest, unsigned from) {
    FILE *out = figure->out;
    double top = figure->y;
    figure->out = stream_from(figure, from);
    svg_text(figure->out, MARGIN + GAP, figure->y + 12, "", "%s", line->label);
    draw_wrapped(figure, MARGIN + 2 * GAP + widest, line->text);
    figure->out = out;
    draw_bar(figure, from, top);
}

/* The first line stands from the first of these steps on, the second from the second ... the last
 * step is that of all others. */
static void draw_part(Figure *figure, const StoryPart *part, unsigned first, unsigned last) {
    double widest = 0;
    FILE *out = figure->out;
    if (part->count == 0)
        return;
    for (int k = 0; k < part->count; k++) {
        double width = svg_text_width(part->line[k].label, TEXT_SIZE);
        widest = width > widest ? width : widest;
    }
    figure->out = stream_from(figure, first);
    draw_heading(figure, part->heading);
    figure->out = out;
    for (int k = 0; k < part->count; k++)
        draw_part_line(figure, &part->line[k], widest,
                       first + (unsigned)k < last ? first + (unsigned)k : last);
    figure->y += TEXT_LINE / 2.0;
}

/* A column a reading, as wide as its widest number or its heading. */
static void draw_number_table(Figure *figure) {
    const Story *story = figure->story;
    char *text[STORY_NUMBERS_MAX][2];
    double room = svg_text_width(story_readings[1], TEXT_SIZE);
    for (int k = 0; k < story->number_count; k++)
        for (int reading = 0; reading < 2; reading++) {
            text[k][reading] = story_shorten(story->number[k].reading[reading]);
            double width = svg_text_width(text[k][reading], TEXT_SIZE);
            room = width > room ? width : room;
        }
    const double right[2] = {MARGIN + LABELS + room, MARGIN + LABELS + room + 2 * GAP + room};
    svg_text(figure->out, MARGIN, figure->y + 12, "font-weight=\"bold\"", "numbers");
    for (int reading = 0; reading < 2; reading++)
        svg_text(figure->out, right[reading], figure->y + 12, "text-anchor=\"end\"", "%s",
                 story_readings[reading]);
    figure->y += TEXT_LINE;
    for (int k = 0; k < story->number_count; k++) {
        svg_text(figure->out, MARGIN + GAP, figure->y + 12, "", "%s", story->number[k].label);
        for (int reading = 0; reading < 2; reading++) {
            svg_text(figure->out, right[reading], figure->y + 12, "text-anchor=\"end\"", "%s",
                     text[k][reading]);
            memory_free(text[k][reading]);
        }
        figure->y += TEXT_LINE;
    }
    figure->y += TEXT_LINE / 2.0;
}

static void draw_numbers(Figure *figure) {
    FILE *out = figure->out;
    double top = figure->y;
    figure->out = stream_from(figure, figure->walk.verdict);
    draw_number_table(figure);
    figure->out = out;
    draw_bar(figure, figure->walk.verdict, top);
}

/* A line of reasoning for each column that is shown. */
static void draw_steps(Figure *figure) {
    unsigned width = figure->working->unit->width, band = band_of(width);
    if (!figure->steps)
        return;
    draw_heading(figure, "steps, from the lowest column up");
    for (unsigned column = 0; column < width; column++) {
        if (width > FIGURE_COLUMNS_MAX && column >= band && column < width - band)
            continue;
        char *text = story_step(figure->working, column);
        draw_wrapped(figure, MARGIN + GAP, text);
        memory_free(text);
    }
    figure->y += TEXT_LINE / 2.0;
}

enum { SENTENCE_LINES = 5 };

static void draw_sentence(Figure *figure) {
    double top = figure->y;
    if (!figure->walks)
        return;
    char *text = walk_say(figure->working, figure->story, figure->step);
    svg_rect(figure->out, MARGIN, top, 4, SENTENCE_LINES * TEXT_LINE, "fill=\"black\"");
    draw_wrapped(figure, MARGIN + GAP, text);
    assert(figure->y <= top + SENTENCE_LINES * TEXT_LINE);
    figure->y = top + SENTENCE_LINES * TEXT_LINE;
    memory_free(text);
}

/* ---- the document ------------------------------------------------------------------------- */

/* As wide as the widest band and what is said about its rows. */
static double width_of(const Figure *figure) {
    unsigned band = band_of(figure->working->unit->width);
    unsigned columns = figure->working->unit->width < band ? figure->working->unit->width : band;
    char *first = memory_text("0, the first carry: %s", figure->story->first_carry);
    double notes = 26 + svg_text_width(first, TEXT_SIZE);
    memory_free(first);
    double width = 2 * MARGIN + LABELS + COLUMN * (double)(columns + 1) + GAP + notes;
    return width > WIDTH_LEAST ? width : WIDTH_LEAST;
}

static void draw_body(Figure *figure) {
    const Story *story = figure->story;
    figure->y = MARGIN;
    svg_text(figure->out, MARGIN, figure->y + 14, "font-size=\"17\" font-weight=\"bold\"", "%s",
             story->title);
    figure->y += 24;
    draw_wrapped(figure, MARGIN, story->unit);
    draw_sentence(figure);
    figure->y += TEXT_LINE;
    draw_bands(figure);
    draw_steps(figure);
    const Walk *walk = &figure->walk;
    draw_part(figure, &story->verdict, walk->compare, walk->verdict);
    draw_numbers(figure);
    draw_part(figure, &story->back, walk->verdict, walk->verdict);
    draw_part(figure, &story->flags, walk->flags, walk->count);
}

/* The verdict in sentences, for those who cannot see the figure. The caller frees it. */
static char *description(const Story *story) {
    TextBuffer text = {NULL, 0, 0};
    text_printf(&text, "%s. Worked column by column.", story->unit);
    for (int k = 0; k < story->verdict.count; k++)
        text_printf(&text, " %s: %s.", story->verdict.line[k].label, story->verdict.line[k].text);
    return text_take(&text);
}

static void write_document(Figure *figure, FILE *out) {
    figure->walk = walk_of(figure->working, figure->story);
    figure->width = width_of(figure);
    draw_body(figure);
    char *sentences = figure->walks ? walk_say(figure->working, figure->story, figure->step)
                                    : description(figure->story);
    svg_begin(out, figure->width, figure->y + MARGIN, figure->story->title, sentences);
    memory_free(sentences);
    figure->out = out;
    draw_body(figure);
    svg_end(out);
}

void figure_write(const Working *working, const Story *story, bool steps, FILE *out) {
    Figure figure = {.working = working, .story = story, .steps = steps};
    write_document(&figure, out);
}

void figure_write_step(const Working *working, const Story *story, unsigned step, FILE *out) {
    assert(working->unit->width <= FIGURE_COLUMNS_MAX);
    Figure figure = {.working = working, .story = story, .walks = true, .step = step};
    write_document(&figure, out);
}
