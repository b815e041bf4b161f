/* A worked operation as facts for the templates of pages: the table of columns, and what there is to
 * say. What goes into HTML is escaped here. */
#ifndef SUMWRIGHT_LESSON_FACTS_H
#define SUMWRIGHT_LESSON_FACTS_H

#include "base/problem.h"
#include "work/story.h"
#include "write/facts.h"

/* What of a table is left for the student to fill in. */
typedef struct {
    bool operands;
    bool carries;
    bool result;
} Blank;

/* A text as HTML shows it, < > & and " escaped; defined as that fact. */
void lesson_text(Facts *facts, const char *name, const char *text);

/* The table of columns as HTML (worked_table.html), and how it looks (worked_table.css), defined as
 * those facts. A problem is one of the template. */
bool lesson_table(Facts *facts, const char *name, const Working *working, const Story *story,
                  Blank blank, Problem *problem);
bool lesson_style(Facts *facts, const char *name, Problem *problem);

/* Lists `verdict`, `back` and `flags` (label, text), and whether there is anything in each. */
void lesson_story(Facts *facts, const Story *story);

#endif
