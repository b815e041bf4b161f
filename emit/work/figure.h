/* A worked operation as a figure: the table of columns with its carries as arrows, then the story.
 * Black on white; a 1 among the carries is a filled circle, the two last carries have double rings,
 * the sign column a thick frame. */
#ifndef SUMWRIGHT_WORK_FIGURE_H
#define SUMWRIGHT_WORK_FIGURE_H

#include "work/story.h"

#include <stdio.h>

/* More columns than this are shown abridged: the lowest and the highest FIGURE_BAND of them. */
enum { FIGURE_COLUMNS_MAX = 64, FIGURE_BAND = 16 };

/* Writes an SVG document. Columns stand in bands of at most FIGURE_BAND, the lowest band first. A
 * write error on out is for its owner to detect. */
void figure_write(const Working *working, const Story *story, FILE *out);

#endif
