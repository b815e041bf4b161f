/* The words around a picture: what it is above it, how to read it below it. */
#ifndef SUMWRIGHT_DRAW_NOTES_H
#define SUMWRIGHT_DRAW_NOTES_H

#include "draw/scene.h"
#include "work/working.h"

/* A heading over everything that the scene shows so far: the unit, what it does, and the example's
 * numbers and verdict where there is one. Returns the example as a sentence for those who cannot
 * see it, "" without one; the caller frees it. */
char *notes_heading(const Unit *unit, const Working *example, Scene *scene);

/* A paragraph below everything that the scene shows so far. */
void notes_add(Scene *scene, const char *text);

/* What is done to the result on its way out: saturation, and 0 where nothing is asked for. */
void notes_result(const Unit *unit, Scene *scene);

/* The notes that every picture has: registers, and pins that have names of their own. */
void notes_pins(const Unit *unit, Scene *scene);

#endif
