/* See structure.h: the table. */
#include "gates/structures/structure.h"

#include "gates/prefix/prefix.h"
#include "gates/structures/columns.h"

static const struct {
    StructureBuild *build; /* one of the two */
    PrefixMake *make;
    GroupSize *groups; /* of columns, where it has them */
} structures[STRUCTURE_COUNT] = {
    [STRUCTURE_RIPPLE] = {ripple_build, NULL, NULL},
    [STRUCTURE_FEWEST] = {fewest_build, NULL, NULL},
    [STRUCTURE_SKIP] = {skip_build, NULL, skip_size},
    [STRUCTURE_SELECT] = {select_build, NULL, select_size},
    [STRUCTURE_LOOKAHEAD] = {lookahead_build, NULL, NULL},
    [STRUCTURE_SKLANSKY] = {NULL, sklansky_make, NULL},
    [STRUCTURE_KOGGE_STONE] = {NULL, kogge_stone_make, NULL},
    [STRUCTURE_BRENT_KUNG] = {NULL, brent_kung_make, NULL},
    [STRUCTURE_HAN_CARLSON] = {NULL, han_carlson_make, NULL},
    [STRUCTURE_LADNER_FISCHER] = {NULL, ladner_fischer_make, NULL},
    [STRUCTURE_DEPTH] = {NULL, depth_make, NULL},
};

void structure_build(Structure structure, Netlist *netlist, Adder *adder) {
    if (structures[structure].make != NULL)
        prefix_build(netlist, adder, structures[structure].make);
    else
        structures[structure].build(netlist, adder);
}

PrefixMake *structure_network(Structure structure) {
    return structures[structure].make;
}

GroupSize *structure_groups(Structure structure) {
    return structures[structure].groups;
}
