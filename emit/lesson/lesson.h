/* The page of a lesson: a unit's circuit and the worked columns, gone through step by step by the
 * page's own script. Without scripts it shows the first example, finished. */
#ifndef SUMWRIGHT_LESSON_LESSON_H
#define SUMWRIGHT_LESSON_LESSON_H

#include "base/problem.h"
#include "draw/symbols.h"
#include "work/working.h"

#include <stdio.h>

/* More columns than this are more than a page shows. */
enum { LESSON_WIDTH_MAX = 32 };

/* Writes the page of the unit that the examples point to, one at least. gates: with every gate, else
 * a row or a network. A write error on out is for its owner to detect; a problem is one of the
 * templates. */
bool lesson_write(const Working *example, int count, bool gates, SymbolSet symbols, FILE *out,
                  Problem *problem);

/* The example of a unit for which none is given: one that borrows or overflows, if the unit can. */
void lesson_example(const Unit *unit, Working *example);

#endif
