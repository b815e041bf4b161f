/* A table of text with its columns aligned, for a screen.
 *
 *   Table *table = table_new();
 *   table_column(table, "structure", TABLE_LEFT);
 *   table_column(table, "gates", TABLE_RIGHT);
 *   table_cell(table, "%s", "ripple");        cells row by row
 *   table_cell(table, "%u", 56);
 *   table_write(table, 1, 80, stdout);
 *   table_free(table);
 */
#ifndef SUMWRIGHT_WRITE_TABLE_H
#define SUMWRIGHT_WRITE_TABLE_H

#include <stdio.h>

typedef struct Table Table;
typedef enum { TABLE_LEFT, TABLE_RIGHT } TableSide;

/* Never fails: out of memory ends the program with STATUS_SURROUNDINGS. */
Table *table_new(void);
void table_free(Table *table);

/* Every column comes before the first cell. */
void table_column(Table *table, const char *heading, TableSide side);
/* The next cell: the columns of a row in order, then the next row. Its text is printable ASCII or
 * UTF-8, one line. */
void table_cell(Table *table, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Writes the headings and the rows, two blanks between columns and none at a line's end. A table
 * wider than limit characters is folded: the columns that do not fit follow below in a block of
 * their own, after an empty line, beside the first `keep` columns again. A column is never cut. */
void table_write(const Table *table, int keep, int limit, FILE *out);

#endif
