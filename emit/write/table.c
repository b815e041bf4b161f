/* See table.h. */
#include "write/table.h"

#include "base/memory.h"
#include "write/utf8.h"

#include <assert.h>
#include <stdarg.h>
#include <stdbool.h>

enum { BETWEEN = 2 }; /* blanks from column to column */

typedef struct {
    TableSide side;
    int width; /* characters of its widest text */
} Column;

struct Table {
    Column *column;
    int columns;
    char **text; /* the headings, then the cells, row by row */
    size_t count;
    size_t room;
};

Table *table_new(void) {
    return memory_zeroed(1, sizeof(Table));
}

void table_free(Table *table) {
    for (size_t k = 0; k < table->count; k++)
        memory_free(table->text[k]);
    memory_free(table->text);
    memory_free(table->column);
    memory_free(table);
}

/* Adds a text, which now belongs to the table, in this column. */
static void add(Table *table, int column, char *text) {
    table->text = memory_grow(table->text, &table->room, table->count + 1, sizeof *table->text);
    table->text[table->count++] = text;
    int width = (int)utf8_count(text);
    if (width > table->column[column].width)
        table->column[column].width = width;
}

void table_column(Table *table, const char *heading, TableSide side) {
    assert(table->count == (size_t)table->columns);
    table->column =
        memory_resize(table->column, (size_t)table->columns + 1, sizeof table->column[0]);
    table->column[table->columns] = (Column){.side = side};
    add(table, table->columns, memory_text("%s", heading));
    table->columns++;
}

void table_cell(Table *table, const char *format, ...) {
    assert(table->columns > 0);
    int column = (int)(table->count % (size_t)table->columns);
    va_list arguments;
    va_start(arguments, format);
    add(table, column, memory_text_list(format, arguments));
    va_end(arguments);
}

/* ---- writing ------------------------------------------------------------------------------ */

/* One line on its way: blanks are owed until a text comes, so that none ends the line. */
typedef struct {
    FILE *out;
    bool begun;
    int owed;
} Line;

static void put(Line *line, Column column, const char *text) {
    int pad = column.width - (int)utf8_count(text);
    if (line->begun)
        line->owed += BETWEEN;
    line->begun = true;
    if (column.side == TABLE_RIGHT)
        line->owed += pad;
    if (text[0] != '\0') {
        fprintf(line->out, "%*s%s", line->owed, "", text);
        line->owed = 0;
    }
    if (column.side == TABLE_LEFT)
        line->owed += pad;
}

/* The rows of the first `keep` columns and of those from first to before last. */
static void write_block(const Table *table, int keep, int first, int last, FILE *out) {
    for (size_t row = 0; row < table->count; row += (size_t)table->columns) {
        Line line = {.out = out};
        for (int k = 0; k < keep; k++)
            put(&line, table->column[k], table->text[row + (size_t)k]);
        for (int k = first; k < last; k++)
            put(&line, table->column[k], table->text[row + (size_t)k]);
        fputc('\n', out);
    }
}

void table_write(const Table *table, int keep, int limit, FILE *out) {
    assert(table->columns > 0 && table->count % (size_t)table->columns == 0);
    int kept = 0;
    for (int k = 0; k < keep; k++)
        kept += (k == 0 ? 0 : BETWEEN) + table->column[k].width;
    int first = keep;
    do {
        int last = first, width = kept;
        while (last < table->columns) {
            int wider = width + (width == 0 ? 0 : BETWEEN) + table->column[last].width;
            if (wider > limit && last > first)
                break;
            width = wider;
            last++;
        }
        if (first > keep)
            fputc('\n', out);
        write_block(table, keep, first, last, out);
        first = last;
    } while (first < table->columns);
}
