/* A scene as shapes inside a page: every wire, dot, ring and level says which literal it shows, so
 * that the page's script can set it; and the unit's gates and steps as data for that script. */
#ifndef SUMWRIGHT_LESSON_PICTURE_H
#define SUMWRIGHT_LESSON_PICTURE_H

#include "draw/scene.h"
#include "lesson/steps.h"
#include "work/working.h"

/* The shapes of a settled scene without the document around them; the same as it stands after a step:
 * what is new framed, what comes later dotted and without its level. */
void picture_write(const Scene *scene, const Netlist *netlist, FILE *out);
void picture_write_step(const Scene *scene, const Netlist *netlist, const Steps *steps,
                        unsigned step, FILE *out);

/* How these shapes look in a document of their own. */
void picture_style(FILE *out);

/* The level of every node in the example, bit 0; the caller frees them. */
uint64_t *picture_levels(const Netlist *netlist, const Working *example);

/* What the script computes by, as JSON: the unit, its gates, its steps, and the examples. */
void picture_data(const Unit *unit, const Netlist *netlist, const Steps *steps,
                  const Working *example, int example_count, FILE *out);

#endif
