/* A unit's schematic as a scene: which of the pictures it is, its heading and its notes.
 *
 *   row      an adder box a column, with operand row, control lines and flags around it
 *   gates    every gate of the netlist and every wire; of a network no more than 32 columns, its
 *            cells instead
 *   network  the cells of a prefix network by levels, or the groups of a group structure
 *
 * The values on the wires of an example come from the netlist, evaluated for the example's pins;
 * the numbers in the heading from the Working. */
#ifndef SUMWRIGHT_DRAW_DRAW_H
#define SUMWRIGHT_DRAW_DRAW_H

#include "draw/scene.h"
#include "work/working.h"

/* Draws into a fresh scene, and settles it. example is an operation of the same unit to show on the
 * wires, or NULL. gates: the gates, whatever picture the structure would have. */
void draw_unit(const Unit *unit, const Working *example, bool gates, Scene *scene);

/* The pictures themselves, without heading and notes; where their page begins does not matter. Each
 * returns sentences for those who cannot see it; the caller frees them. */
char *row_draw(const Unit *unit, const Working *example, Scene *scene);
char *gates_draw(const Unit *unit, const Working *example, Scene *scene);
char *network_draw(const Unit *unit, const Working *example, Scene *scene);

/* Do the carries of this structure go from column to column? Then it is a row; else a network. */
static inline bool draw_is_chain(const Unit *unit) {
    return unit->structure == STRUCTURE_RIPPLE || unit->structure == STRUCTURE_FEWEST;
}

/* More columns than this are drawn abridged: the lowest and the highest of them. */
enum { DRAW_COLUMNS_MAX = 32 };

#endif
