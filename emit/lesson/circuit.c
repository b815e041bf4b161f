/* See circuit.h. */
#include "lesson/circuit.h"

#include "draw/draw.h"

/* The netlist that the picture is drawn from (draw/draw.c chooses the picture). */
static void build_drawn(const Unit *unit, bool gates, Circuit *circuit) {
    circuit->is_row = !gates && draw_is_chain(unit);
    circuit->netlist = circuit->is_row ? &circuit->build.netlist : &circuit->finished;
    if (circuit->is_row)
        build_open(unit, &circuit->build);
    else if (gates)
        build_netlist(unit, &circuit->finished);
    else
        build_of_any_kind(unit, &circuit->finished);
}

void circuit_open(const Working *example, bool gates, SymbolSet symbols, Circuit *circuit) {
    const Unit *unit = example->unit;
    scene_init(&circuit->scene, symbols);
    circuit->scene.bare = true;
    draw_unit(unit, example, gates, &circuit->scene);
    build_drawn(unit, gates, circuit);
    steps_find(unit, circuit->netlist, draw_is_chain(unit), &circuit->steps);
}

void circuit_close(Circuit *circuit) {
    scene_free(&circuit->scene);
    steps_free(&circuit->steps);
    if (circuit->is_row)
        build_close(&circuit->build);
    else
        netlist_free(&circuit->finished);
}
