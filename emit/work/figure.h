/* A worked operation as a figure: the table of columns with its carries as arrows, then the story.
 * Black on white; a 1 among the carries is a filled circle, the two last carries have double rings,
 * the sign column a thick frame. */
#ifndef SUMWRIGHT_WORK_FIGURE_H
#define SUMWRIGHT_WORK_FIGURE_H

#include "work/walk.h"

#include <stdio.h>

/* More columns than this are shown abridged: the lowest and the highest FIGURE_BAND of them. */
enum { FIGURE_COLUMNS_MAX = 64, FIGURE_BAND = 16 };

/* Writes an SVG document, with a line of reasoning for each column that it shows where steps are asked
 * for. Columns stand in bands of at most FIGURE_BAND, the lowest band first. A
 * write error on out is for its owner to detect. */
void figure_write(const Working *working, const Story *story, bool steps, FILE *out);

/* The same as it stands after a step of the walk (walk.h), below its count: with the step's sentence,
 * what is new framed, and what comes later not there yet. All steps have one size, and everything
 * keeps its place. The unit has no more than FIGURE_COLUMNS_MAX columns. */
void figure_write_step(const Working *working, const Story *story, unsigned step, FILE *out);

#endif
