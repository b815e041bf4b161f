/* Fills a template: the text of every generated file lives in templates/, not in C strings.
 *
 * A template is plain text with
 *   ${name}          the text of that fact; one of several lines is indented like the line it
 *                    stands on when it stands there alone, and a line holding only an empty fact
 *                    disappears
 *   %if name         lines kept when the fact is true; also %if not name; %else; %end
 *   %each name       lines repeated for each row of the list; inside, a row's own facts come first
 *   %# ...           a remark that is not copied
 * A % directive is the first thing but blanks on its line. Names are letters, digits, _ and dots.
 */
#ifndef SUMWRIGHT_WRITE_TEMPLATE_H
#define SUMWRIGHT_WRITE_TEMPLATE_H

#include "base/problem.h"

#include <stdbool.h>
#include <stdio.h>

/* What a template may name. A row of a list is Facts of its own that also sees its owner's. */
typedef struct Facts Facts;

/* Never fails: out of memory ends the program with STATUS_SURROUNDINGS. Free the top one only. */
Facts *facts_new(void);
void facts_free(Facts *facts);

/* Defines or redefines a fact. A flag is true or false; a text is also true when not empty; a
 * list is also true when it has rows. Asking for a flag's text is an error of the template. */
void facts_flag(Facts *facts, const char *name, bool value);
void facts_text(Facts *facts, const char *name, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* Makes sure that the list exists (so that %each of no rows is no error). */
void facts_list(Facts *facts, const char *list);
/* Adds a row to a list; the row belongs to facts. */
Facts *facts_row(Facts *facts, const char *list);

/* Where templates come from: NULL for the embedded ones; a folder whose files of the same name
 * take their place. */
typedef struct {
    const char *folder;
} Templates;

/* Fills the template of this name into out. Errors (unknown placeholder or directive, %end missing,
 * unreadable file) name file and line: "unit.v:12: unknown placeholder 'x'; ...". On failure part
 * of the text may have been written to out. */
bool template_fill(const Templates *templates, const char *name, const Facts *facts, FILE *out,
                   Problem *problem);

/* The same from text in memory; shown_name stands in messages. */
bool template_fill_text(const char *shown_name, const char *text, size_t bytes, const Facts *facts,
                        FILE *out, Problem *problem);

#endif
