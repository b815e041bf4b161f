/* See draw.h. */
#include "draw/draw.h"

#include "base/memory.h"
#include "draw/notes.h"

#include <stdlib.h>

static char *draw_picture(const Unit *unit, const Working *example, bool gates, Scene *scene) {
    bool fits = draw_is_chain(unit) || unit->width <= DRAW_COLUMNS_MAX;
    if (gates && fits)
        return gates_draw(unit, example, scene);
    if (draw_is_chain(unit))
        return row_draw(unit, example, scene);
    char *words = network_draw(unit, example, scene);
    if (gates)
        notes_add(scene, "Cells are drawn in place of gates, as of every network of more than 32 "
                         "columns.");
    return words;
}

void draw_unit(const Unit *unit, const Working *example, bool gates, Scene *scene) {
    char *words = draw_picture(unit, example, gates, scene);
    char *sentence = notes_heading(unit, example, scene);
    char *title = memory_text("%s, %u bit%s, %s", unit->name, unit->width,
                              unit->width == 1 ? "" : "s", structure_name(unit->structure));
    char *description = memory_text("%s%s", words, sentence);
    scene_say(scene, title, description);
    scene_settle(scene);
    memory_free(words);
    memory_free(sentence);
    memory_free(title);
    memory_free(description);
}
