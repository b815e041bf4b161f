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

/* A name, but if it is longer than most characters, at most NOTES_NAME_MOST, its beginning and
 * "...". */
enum { NOTES_NAME_MOST = 40 };
typedef struct {
    char text[NOTES_NAME_MOST + 1];
} ShortName;
ShortName notes_short(const char *name, size_t most);

#endif
