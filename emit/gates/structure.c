/* See structure.h: the table. */
#include "gates/structure.h"

static StructureBuild *const builders[STRUCTURE_COUNT] = {
    [STRUCTURE_RIPPLE] = ripple_build,
    [STRUCTURE_FEWEST] = fewest_build,
};

StructureBuild *structure_build(Structure structure) {
    return builders[structure];
}
