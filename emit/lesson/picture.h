/* A scene as shapes inside a page: every wire, dot, ring and level says which literal it shows, so
 * that the page's script can set it; and the unit's gates and steps as data for that script. */
#ifndef SUMWRIGHT_LESSON_PICTURE_H
#define SUMWRIGHT_LESSON_PICTURE_H

#include "draw/scene.h"
#include "lesson/steps.h"
#include "work/working.h"

/* The shapes of a settled scene without the document around them. */
void picture_write(const Scene *scene, const Netlist *netlist, FILE *out);

/* What the script computes by, as JSON: the unit, its gates, its steps, and the examples. */
void picture_data(const Unit *unit, const Netlist *netlist, const Steps *steps,
                  const Working *example, int example_count, FILE *out);

#endif
