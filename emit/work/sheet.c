/* See sheet.h. Colour repeats what signs say: the two last carries stand in parentheses, the sign
 * column between bars, a verdict that is not "valid" in capitals. */
#include "work/sheet.h"

#include "base/memory.h"

#include <stdarg.h>
#include <string.h>

/* ---- paint -------------------------------------------------------------------------------- */

typedef enum { PAINT_NONE, PAINT_CARRY, PAINT_STRONG, PAINT_GOOD, PAINT_BAD } Paint;

static void change_paint(const Terminal *terminal, Paint paint) {
    static const char *const codes[] = {[PAINT_NONE] = "\033[0m",
                                        [PAINT_CARRY] = "\033[36m",
                                        [PAINT_STRONG] = "\033[1m",
                                        [PAINT_GOOD] = "\033[1;32m",
                                        [PAINT_BAD] = "\033[1;31m"};
    if (terminal->colour)
        fputs(codes[paint], terminal->out);
}

/* A line is made up in memory, so that blanks at its end can be left out. */
enum { LINE_BYTES = TERMINAL_COLUMNS_MAX + 64 };

typedef struct {
    char text[LINE_BYTES];
    unsigned char paint[LINE_BYTES];
    size_t length;
} Line;

__attribute__((format(printf, 3, 4))) static void put(Line *line, Paint paint, const char *format,
                                                      ...) {
    va_list arguments;
    va_start(arguments, format);
    int added = vsnprintf(line->text + line->length, LINE_BYTES - line->length, format, arguments);
    va_end(arguments);
    size_t end = line->length + (size_t)added;
    for (; line->length < end && line->length < LINE_BYTES - 1; line->length++)
        line->paint[line->length] = (unsigned char)paint;
}

static void pad_to(Line *line, size_t length, char with) {
    while (line->length < length)
        put(line, PAINT_NONE, "%c", with);
}

static void end_line(Line *line, const Terminal *terminal) {
    while (line->length > 0 && line->text[line->length - 1] == ' ')
        line->length--;
    Paint now = PAINT_NONE;
    for (size_t i = 0; i < line->length; i++) {
        if (line->paint[i] != now) {
            if (now != PAINT_NONE)
                change_paint(terminal, PAINT_NONE);
            now = (Paint)line->paint[i];
            if (now != PAINT_NONE)
                change_paint(terminal, now);
        }
        fputc(line->text[i], terminal->out);
    }
    if (now != PAINT_NONE)
        change_paint(terminal, PAINT_NONE);
    fputc('\n', terminal->out);
    line->length = 0;
}

/* ---- wrapping ----------------------------------------------------------------------------- */

/* Words of text, wrapped between the indent and the terminal's width, from column on; the first
 * word is painted. */
static void wrap(const Terminal *terminal, unsigned indent, unsigned column, Paint paint,
                 const char *text) {
    while (*text != '\0') {
        unsigned length = (unsigned)strcspn(text, " ");
        if (column > indent && column + 1 + length > terminal->columns) {
            fprintf(terminal->out, "\n%*s", (int)indent, "");
            column = indent;
        } else if (column > indent) {
            fputc(' ', terminal->out);
            column++;
        }
        /* A word longer than a line is cut where the line ends. */
        unsigned room = terminal->columns > column ? terminal->columns - column : length;
        if (length > room)
            length = room;
        if (paint != PAINT_NONE)
            change_paint(terminal, paint);
        fprintf(terminal->out, "%.*s", (int)length, text);
        if (paint != PAINT_NONE)
            change_paint(terminal, PAINT_NONE);
        paint = PAINT_NONE;
        column += length;
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', terminal->out);
}

/* ---- the table ---------------------------------------------------------------------------- */

/* A line of the table: label, the place of the carry that leaves, a bar, then a cell a column, with
 * a bar after the sign column; last, what is said about the row.
 *
 *     carry   (0) |(1)| 1  0  0  0  0  1  1  <- 1 first carry: sub lets a 1 enter
 */
enum { LABEL_WIDTH = 8, OUT_WIDTH = 4, LEFT_WIDTH = LABEL_WIDTH + OUT_WIDTH + 1, CELL_LEAST = 3 };

static const char arrow[] = "<- ";
static const char first_mark[] = " first carry";

typedef struct {
    const Working *working;
    const Story *story;
    const Terminal *terminal;
    unsigned cell;     /* characters of a column */
    unsigned group;    /* columns side by side */
    unsigned low, top; /* the columns of the group being written: low ... top - 1 */
    bool notes;        /* there is room for what is said about the operands and results */
    Line line;
} Table;

static bool is_sign(const Table *table, unsigned column) {
    return column + 1 == table->working->unit->width;
}

/* The characters of a row without what is said about it. */
static unsigned row_width(const Table *table) {
    return LEFT_WIDTH + (table->top - table->low) * table->cell + is_sign(table, table->top - 1);
}

/* The bar before the columns. */
static void put_bar(Line *line) {
    pad_to(line, LEFT_WIDTH - 1, ' ');
    put(line, PAINT_NONE, "|");
}

/* A bit in its cell, its digit where column numbers have their last. */
static void put_bit(Table *table, unsigned column, bool bit, bool compared, Paint paint) {
    put(&table->line, paint, "%*s%d%s", (int)table->cell - 2, compared ? "(" : "", bit,
        compared ? ")" : " ");
    if (is_sign(table, column))
        put(&table->line, PAINT_NONE, "|");
}

static void end_row(Table *table, const char *note) {
    if (table->notes && note != NULL) {
        pad_to(&table->line, row_width(table) + 1, ' ');
        put(&table->line, PAINT_NONE, "%s", note);
    }
    end_line(&table->line, table->terminal);
}

/* With what its word is worth, where there is room for it, or what is said of it otherwise. */
static void write_row(Table *table, const StoryRow *row) {
    char *value = table->notes && row->shows_value ? story_both_readings(row->word) : NULL;
    put(&table->line, PAINT_NONE, "%s", row->label);
    put_bar(&table->line);
    for (unsigned column = table->top; column-- > table->low;)
        put_bit(table, column, word_bit(row->word, column), false, PAINT_NONE);
    end_row(table, value != NULL ? value : row->remark);
    memory_free(value);
}

/* The carry that enters the lowest column of the group, and as much about the first one as the line
 * has room for. */
static void write_entering_carry(Table *table) {
    Line *line = &table->line;
    pad_to(line, row_width(table), ' ');
    put(line, PAINT_CARRY, "%s%d", arrow, word_bit(&table->working->carry, table->low));
    const char *reason = table->story->first_carry;
    size_t room = table->terminal->columns;
    if (table->low > 0 || line->length + strlen(first_mark) > room)
        return;
    put(line, PAINT_NONE, "%s", first_mark);
    if (line->length + strlen(": ") + strlen(reason) <= room)
        put(line, PAINT_NONE, ": %s", reason);
}

/* Each carry over the column that it enters; the one that leaves the group before the bar. */
static void write_carries(Table *table) {
    const Word *carry = &table->working->carry;
    bool last = is_sign(table, table->top - 1);
    Paint paint = last ? PAINT_STRONG : PAINT_CARRY;
    Line *line = &table->line;
    put(line, PAINT_CARRY, "carry");
    pad_to(line, LABEL_WIDTH, ' ');
    put(line, paint, last ? "(%d)" : " %d ", word_bit(carry, table->top));
    put_bar(line);
    for (unsigned column = table->top; column-- > table->low;)
        put_bit(table, column, word_bit(carry, column), is_sign(table, column),
                is_sign(table, column) ? PAINT_STRONG : PAINT_CARRY);
    write_entering_carry(table);
    end_line(line, table->terminal);
}

static void write_column_numbers(Table *table) {
    Line *line = &table->line;
    if (is_sign(table, table->top - 1)) {
        pad_to(line, LEFT_WIDTH + table->cell - CELL_LEAST, ' ');
        put(line, PAINT_STRONG, "sign");
        end_line(line, table->terminal);
    }
    put(line, PAINT_NONE, "%-*sout", LABEL_WIDTH, "column");
    put_bar(line);
    for (unsigned column = table->top; column-- > table->low;)
        put(line, PAINT_NONE, "%*u%s", (int)table->cell - 1, column,
            is_sign(table, column) ? " |" : " ");
    end_row(table, NULL);
}

static void write_rule(Table *table) {
    Line *line = &table->line;
    bool last = is_sign(table, table->top - 1);
    pad_to(line, LEFT_WIDTH - 1, '-');
    put(line, PAINT_NONE, "+");
    if (last) {
        pad_to(line, LEFT_WIDTH + table->cell, '-');
        put(line, PAINT_NONE, "+");
    }
    pad_to(line, row_width(table), '-');
    end_line(line, table->terminal);
}

/* Which columns these are, where not all of them are beside one another. */
static void write_heading(const Table *table) {
    char text[128];
    int used = table->top - table->low == 1
                   ? snprintf(text, sizeof text, "column %u", table->low)
                   : snprintf(text, sizeof text, "columns %u to %u", table->top - 1, table->low);
    if (table->low > 0) {
        fputc('\n', table->terminal->out);
        snprintf(text + used, sizeof text - (size_t)used,
                 ", which the carry out of column %u enters", table->low - 1);
    }
    wrap(table->terminal, 0, 0, PAINT_NONE, text);
}

static void write_group(Table *table) {
    const Story *story = table->story;
    write_column_numbers(table);
    write_rule(table);
    for (int k = 0; k < story->row_count; k++) {
        if ((k == story->row_x && k > 0) || k == story->row_sum)
            write_rule(table);
        if (k == story->row_x)
            write_carries(table);
        write_row(table, &story->row[k]);
    }
}

/* ---- what fits ---------------------------------------------------------------------------- */

/* As many columns as fit beside one another: all of them, or sixteens, eights or fours, or what
 * there is room for, at least one. */
static unsigned columns_that_fit(const Table *table, unsigned width) {
    unsigned taken = LEFT_WIDTH + 1 + (unsigned)strlen(arrow) + 1;
    unsigned room = table->terminal->columns;
    unsigned fit = room > taken ? (room - taken) / table->cell : 0;
    if (fit >= width)
        return width;
    for (unsigned even = 16; even >= 4; even /= 2)
        if (fit >= even)
            return fit / even * even;
    return fit > 0 ? fit : 1;
}

/* Whether all columns are beside one another and everything said about a row has room beside it. */
static bool notes_fit(const Table *table) {
    unsigned width = table->working->unit->width;
    size_t longest = 0;
    for (int k = 0; k < table->story->row_count; k++) {
        const StoryRow *row = &table->story->row[k];
        char *value = row->shows_value ? story_both_readings(row->word) : NULL;
        const char *note = value != NULL ? value : row->remark != NULL ? row->remark : "";
        longest = strlen(note) > longest ? strlen(note) : longest;
        memory_free(value);
    }
    unsigned taken = LEFT_WIDTH + width * table->cell + 2;
    return table->group == width && taken + longest <= table->terminal->columns;
}

static void write_table(const Working *working, const Story *story, const Terminal *terminal) {
    Table table;
    unsigned width = working->unit->width;
    char digits[16];
    int number = snprintf(digits, sizeof digits, "%u", width - 1);
    table = (Table){.working = working, .story = story, .terminal = terminal};
    table.cell = (unsigned)number + 1 > CELL_LEAST ? (unsigned)number + 1 : CELL_LEAST;
    table.group = columns_that_fit(&table, width);
    table.notes = notes_fit(&table);
    for (; table.top < width; table.low = table.top) {
        table.top = width - table.low > table.group ? table.low + table.group : width;
        if (table.group < width)
            write_heading(&table);
        write_group(&table);
    }
}

/* ---- the words ---------------------------------------------------------------------------- */

enum { INDENT = 2, ROOM_LEAST = 24 };

/* A label, and the text beside it, or below it where that leaves too little room. */
static void write_labelled(const Terminal *terminal, unsigned label_width, const char *label,
                           Paint paint, const char *text) {
    unsigned indent = INDENT + label_width + 2;
    if (indent + ROOM_LEAST <= terminal->columns) {
        fprintf(terminal->out, "%*s%-*s  ", INDENT, "", (int)label_width, label);
        wrap(terminal, indent, indent, paint, text);
        return;
    }
    fprintf(terminal->out, "%*s%s\n%*s", INDENT, "", label, 2 * INDENT, "");
    wrap(terminal, 2 * INDENT, 2 * INDENT, paint, text);
}

static void write_part(const Terminal *terminal, const StoryPart *part) {
    static const Paint paints[] = {
        [TONE_PLAIN] = PAINT_NONE, [TONE_GOOD] = PAINT_GOOD, [TONE_BAD] = PAINT_BAD};
    unsigned widest = 0;
    if (part->count == 0)
        return;
    for (int k = 0; k < part->count; k++)
        if (strlen(part->line[k].label) > widest)
            widest = (unsigned)strlen(part->line[k].label);
    fputc('\n', terminal->out);
    wrap(terminal, 0, 0, PAINT_NONE, part->heading);
    for (int k = 0; k < part->count; k++)
        write_labelled(terminal, widest, part->line[k].label, paints[part->line[k].tone],
                       part->line[k].text);
}

/* The numbers side by side where they fit. */
static bool write_number_table(const Story *story, const Terminal *terminal) {
    const size_t label = strlen("numbers");
    size_t widest[2] = {strlen(story_readings[0]), strlen(story_readings[1])};
    for (int k = 0; k < story->number_count; k++)
        for (int reading = 0; reading < 2; reading++) {
            size_t length = strlen(story->number[k].reading[reading]);
            widest[reading] = length > widest[reading] ? length : widest[reading];
        }
    if (INDENT + label + 2 + widest[0] + 2 + widest[1] > terminal->columns)
        return false;
    int first = (int)widest[0], second = (int)widest[1];
    fprintf(terminal->out, "\n%-*s  %*s  %*s\n", (int)(INDENT + label), "numbers", first,
            story_readings[0], second, story_readings[1]);
    for (int k = 0; k < story->number_count; k++)
        fprintf(terminal->out, "%*s%-*s  %*s  %*s\n", INDENT, "", (int)label,
                story->number[k].label, first, story->number[k].reading[0], second,
                story->number[k].reading[1]);
    return true;
}

static void write_number_list(const Story *story, const Terminal *terminal) {
    fputs("\nnumbers\n", terminal->out);
    for (int k = 0; k < story->number_count; k++)
        for (int reading = 0; reading < 2; reading++) {
            char label[64];
            snprintf(label, sizeof label, "%s, %s", story->number[k].label,
                     story_readings[reading]);
            write_labelled(terminal, (unsigned)strlen("result, two's complement"), label,
                           PAINT_NONE, story->number[k].reading[reading]);
        }
}

static void write_steps(const Working *working, const Terminal *terminal) {
    fputc('\n', terminal->out);
    wrap(terminal, 0, 0, PAINT_NONE, "steps, from the lowest column up");
    for (unsigned column = 0; column < working->unit->width; column++) {
        char *step = story_step(working, column);
        fprintf(terminal->out, "%*s", INDENT, "");
        wrap(terminal, 2 * INDENT, INDENT, PAINT_NONE, step);
        memory_free(step);
    }
}

void sheet_write(const Working *working, const Story *story, bool steps, const Terminal *terminal) {
    change_paint(terminal, PAINT_STRONG);
    wrap(terminal, 0, 0, PAINT_NONE, story->title);
    change_paint(terminal, PAINT_NONE);
    wrap(terminal, 0, 0, PAINT_NONE, story->unit);
    fputc('\n', terminal->out);
    write_table(working, story, terminal);
    if (steps)
        write_steps(working, terminal);
    write_part(terminal, &story->verdict);
    if (!write_number_table(story, terminal))
        write_number_list(story, terminal);
    write_part(terminal, &story->back);
    write_part(terminal, &story->flags);
}
