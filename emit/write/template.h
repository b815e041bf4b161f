/* Fills a template: the text of every generated file lives in templates/, not in C strings.
 *
 * A template is plain text with
 *   ${name}          the text of that fact; one of several lines is indented like the line it
 *                    stands on when it stands there alone, and a line holding only an empty fact
 *                    disappears
 *   %if name         lines kept when the fact is true; also %if not name; %else; %end
 *   %each name       lines repeated for each row of the list; inside, a row's own facts come first
 *   %# ...           a remark that is not copied
 * A % directive is the first thing but blanks on its line; %else and %end stand alone. Names are
 * letters, digits, _ and dots; "not" is no name. There is no way to write ${ or a line that starts
 * with % as text: no generated file needs them.
 *
 * Finer points:
 *   - Blanks are spaces and tabs. Trailing blanks do not keep a placeholder from standing alone.
 *   - Of a text that stands alone, empty lines stay empty and one final line end is not counted.
 *   - Lines may end in LF or CR LF; every line put out ends in LF, also the last.
 *   - A byte order mark (UTF-8) at the start is skipped. A NUL byte is an error.
 *   - %if and %each nest TEMPLATE_DEPTH_MAX deep.
 *   - The form of all lines is checked before anything is put out; names are looked up only on the
 *     lines that are kept.
 *   - A template whose loops in loops ask for more than about TEMPLATE_WORK_MAX bytes is an error.
 */
#ifndef SUMWRIGHT_WRITE_TEMPLATE_H
#define SUMWRIGHT_WRITE_TEMPLATE_H

#include "base/problem.h"
#include "write/facts.h"

#include <stdbool.h>
#include <stdio.h>

enum {
    TEMPLATE_DEPTH_MAX = 64,
    TEMPLATE_FILE_MAX = 1 << 20, /* bytes of a template file */
    TEMPLATE_WORK_MAX = 1 << 30, /* bytes read and written, see spend() in template.c */
};

/* Where templates come from: NULL for the embedded ones; a folder whose files of the same name
 * take their place. */
typedef struct {
    const char *folder;
} Templates;

/* Fills the template of this name into out. Errors of the template (unknown placeholder or
 * directive, %end missing, ...) name file and line: "unit.v:12: unknown placeholder 'x'; ...", with
 * STATUS_INVALID, as have a missing folder and a file over TEMPLATE_FILE_MAX. A file that is in
 * the folder but cannot be read, or is no plain file, is STATUS_SURROUNDINGS. On failure part of
 * the text may have been written to out. A write error on out is for its owner to detect. */
bool template_fill(const Templates *templates, const char *name, const Facts *facts, FILE *out,
                   Problem *problem);

/* The same into a text, *bytes long without its NUL, which the caller frees; NULL on failure. Out
 * of memory ends the program with STATUS_SURROUNDINGS. */
char *template_text(const Templates *templates, const char *name, const Facts *facts, size_t *bytes,
                    Problem *problem);

/* template_fill from text in memory; shown_name stands in messages. Time and memory are
 * proportional to the template and what it puts out. */
bool template_fill_text(const char *shown_name, const char *text, size_t bytes, const Facts *facts,
                        FILE *out, Problem *problem);

#endif
