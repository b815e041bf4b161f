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

/* Which wires are heavy, and the longest run of carries of 1; level[i] is that of the carry into
 * column i, what says what they are ("carries"),
 * letter what they are called before their number. */
void notes_path(Scene *scene, const bool *level, unsigned count, const char *what, char letter);

/* The notes that every picture has: registers, and pins that have names of their own. */
void notes_pins(const Unit *unit, Scene *scene);

/* A name, but if it is longer than most characters, at most NOTES_NAME_MOST, its beginning and
 * "...". */
enum { NOTES_NAME_MOST = 40 };
typedef struct {
    char text[NOTES_NAME_MOST + 1];
} ShortName;
ShortName notes_short(const char *name, size_t most);

#endif
