/* See draw.h. */
#include "draw/draw.h"

#include "base/memory.h"
#include "draw/notes.h"

#include <stdlib.h>

void draw_unit(const Unit *unit, const Working *example, bool gates, Scene *scene) {
    bool chain = unit->structure == STRUCTURE_RIPPLE || unit->structure == STRUCTURE_FEWEST;
    char *words = gates   ? gates_draw(unit, example, scene)
                  : chain ? row_draw(unit, example, scene)
                          : network_draw(unit, example, scene);
    char *sentence = notes_heading(unit, example, scene);
    char *title =
        memory_text("%s, %u bits, %s", unit->name, unit->width, structure_name(unit->structure));
    char *description = memory_text("%s%s", words, sentence);
    scene_say(scene, title, description);
    scene_settle(scene);
    free(words);
    free(sentence);
    free(title);
    free(description);
}
