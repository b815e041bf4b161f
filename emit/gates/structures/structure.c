/* See structure.h: the table. */
#include "gates/structures/structure.h"

#include "gates/prefix/prefix.h"

#include <assert.h>

void structure_build(Structure structure, Netlist *netlist, Adder *adder) {
#define MAKER_ROW(ID, id, ...) [STRUCTURE_##ID] = &id##_structure,
    static const StructureMaker *const makers[STRUCTURE_COUNT] = {STRUCTURES(MAKER_ROW)};
#undef MAKER_ROW
    const StructureMaker *maker = makers[structure];
    assert((maker->build == NULL) != (maker->make == NULL));
    assert(adder->width > 0 && netlist->core != NULL && netlist->core->width == adder->width);
    if (maker->make != NULL)
        prefix_build(netlist, adder, maker->make);
    else
        maker->build(netlist, adder);
}
