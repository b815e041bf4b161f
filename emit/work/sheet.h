/* A worked operation as text: the table with a column per bit, then the story. */
#ifndef SUMWRIGHT_WORK_SHEET_H
#define SUMWRIGHT_WORK_SHEET_H

#include "work/story.h"
#include "work/terminal.h"

/* Writes it, folded and wrapped to the terminal's width; where that is too narrow for a column and
 * its labels, or for a word, lines are longer. steps: with a line of reasoning for each column. */
void sheet_write(const Working *working, const Story *story, bool steps, const Terminal *terminal);

#endif
