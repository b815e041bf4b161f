/* The steps of a lesson as drawings, one each: the circuit with the levels that stand by then. */
#ifndef SUMWRIGHT_LESSON_FRAMES_H
#define SUMWRIGHT_LESSON_FRAMES_H

#include "lesson/circuit.h"
#include "work/story.h"

/* The most lines that a step's sentence takes. */
unsigned frames_lines(const Circuit *circuit, const Working *example, const Story *story);

/* Writes the drawing of a step below circuit->steps.count, as SVG, with room for so many lines above
 * it. All steps have one size, and everything keeps its place. A write error on out is for its owner
 * to detect. */
void frame_write(const Circuit *circuit, const Working *example, const Story *story, unsigned step,
                 unsigned lines, FILE *out);

#endif
