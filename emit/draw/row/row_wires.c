/* The row picture: wires, their levels and names. See row.h. */
#include "draw/row/row.h"

#include "base/memory.h"
#include "draw/notes.h"

void row_lead(Row *row, Literal literal, double x, double from, double to) {
    scene_wire(row->scene, literal, WIRE_PLAIN, x, from);
    scene_to(row->scene, x, to);
    if (row->values != NULL && to - from >= 16)
        scene_value(row->scene, x + 3, from + 12, ANCHOR_START, literal, row_level(row, literal));
}

void row_level_above(Row *row, Literal literal, double x, double y) {
    if (row->values != NULL)
        scene_value(row->scene, x, y - 4, ANCHOR_START, literal, row_level(row, literal));
}

char *row_name(const Row *row, Literal literal) {
    const Node *node = &row->build.netlist.nodes[literal_node(literal)];
    const char *turned = literal_inverted(literal) ? "not " : "";
    if (literal_is_constant(literal))
        return memory_text("%d", literal == LITERAL_1);
    if (values_is_carry(node))
        return memory_text("%sc%d", turned, node->index);
    if (netlist_is_gate(node))
        return node->index < 0 ? memory_text("%s%s", turned, role_text(node->role))
                               : memory_text("%s%s%d", turned, role_text(node->role), node->index);
    if (node->pin == PIN_A || node->pin == PIN_B)
        return memory_text("%s%c%u", turned, node->pin == PIN_A ? 'a' : 'b', node->bit);
    ShortName cut = notes_short(row->unit->pin[node->pin], 24);
    const char *name = cut.text;
    return unit_pin_bits(row->unit, node->pin) > 1
               ? memory_text("%s%s[%u]", turned, name, node->bit)
               : memory_text("%s%s", turned, name);
}
