/* A unit's picture without words, the gates that it shows, and the steps in which they have their
 * levels. */
#ifndef SUMWRIGHT_LESSON_CIRCUIT_H
#define SUMWRIGHT_LESSON_CIRCUIT_H

#include "draw/scene.h"
#include "gates/build.h"
#include "lesson/steps.h"
#include "work/working.h"

typedef struct {
    Scene scene;      /* settled, bare, with the levels of the example */
    Netlist *netlist; /* a net of the scene is a literal of it */
    Steps steps;
    bool is_row; /* the netlist is that of a build, which is not finished; */
    Build build;
    Netlist finished; /* else this */
} Circuit;

/* Draws the example's unit: with every gate, or as a row or network. circuit_close frees what the
 * circuit owns; it must not be moved. */
void circuit_open(const Working *example, bool gates, SymbolSet symbols, Circuit *circuit);
void circuit_close(Circuit *circuit);

#endif
