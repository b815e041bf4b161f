/* See structure.h: the table. */
#include "gates/structures/structure.h"

#include "gates/prefix/prefix.h"
#include "gates/structures/columns.h"

static const struct {
    StructureBuild *build; /* one of the two */
    PrefixMake *make;
    GroupSize *groups; /* of columns, where it has them */
    const char *description;
    const char *source;
} structures[STRUCTURE_COUNT] = {
    [STRUCTURE_RIPPLE] = {ripple_build, NULL, NULL,
                          "each column waits for the carry of the one before it",
                          "common practice, no source"},
    [STRUCTURE_FEWEST] = {fewest_build, NULL, NULL,
                          "the smallest circuits known, a ripple chain in borrow form",
                          "see docs/fewest.md"},
    [STRUCTURE_SKIP] = {skip_build, NULL, skip_size,
                        "the carry ripples within groups of columns and skips past them",
                        "Lehman and Burla 1961"},
    [STRUCTURE_SELECT] = {select_build, NULL, select_size,
                          "groups have their carries ready for either carry into them",
                          "Bedrij 1962"},
    [STRUCTURE_LOOKAHEAD] = {lookahead_build, NULL, NULL,
                             "groups of four columns, and of four groups, tell their carries ahead",
                             "Weinberger and Smith 1958"},
    [STRUCTURE_SKLANSKY] = {NULL, sklansky_make, NULL,
                            "prefix network of ever larger halves: least depth, large fan-out",
                            "Sklansky 1960"},
    [STRUCTURE_KOGGE_STONE] = {NULL, kogge_stone_make, NULL,
                               "prefix network that doubles every span: least depth, small fan-out",
                               "Kogge and Stone 1973"},
    [STRUCTURE_BRENT_KUNG] = {NULL, brent_kung_make, NULL,
                              "prefix network up and down a tree: few cells, twice the depth",
                              "Brent and Kung 1982"},
    [STRUCTURE_HAN_CARLSON] = {NULL, han_carlson_make, NULL,
                               "Kogge and Stone's over pairs of columns: half its cells, one level "
                               "more",
                               "Han and Carlson 1987"},
    [STRUCTURE_LADNER_FISCHER] = {NULL, ladner_fischer_make, NULL,
                                  "prefix network of the least depth with few cells",
                                  "Ladner and Fischer 1980"},
    [STRUCTURE_DEPTH] = {NULL, depth_make, NULL,
                         "the fewest prefix cells found within a number of levels",
                         "a search of our own"},
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

const char *structure_description(Structure structure) {
    return structures[structure].description;
}

const char *structure_source(Structure structure) {
    return structures[structure].source;
}
