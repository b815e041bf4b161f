/* The network picture, see network.h: the steps. */
#include "draw/network/network.h"

#include "base/memory.h"

#include <stdlib.h>

static void find_pins(Network *network) {
    unsigned width = network->unit->width;
    network->pin_a = memory_zeroed(width, sizeof network->pin_a[0]);
    network->pin_b = memory_zeroed(width, sizeof network->pin_b[0]);
    for (unsigned i = 0; i < width; i++)
        network->pin_a[i] = network->pin_b[i] = LITERAL_NONE;
    for (uint32_t k = 1; k < network->netlist.node_count; k++) {
        const Node *node = &network->netlist.nodes[k];
        if (node->kind == NODE_INPUT && node->pin == PIN_A)
            network->pin_a[node->bit] = k * 2;
        if (node->kind == NODE_INPUT && node->pin == PIN_B)
            network->pin_b[node->bit] = k * 2;
    }
}

static void free_parts(Network *network) {
    free(network->values);
    free(network->pin_a);
    free(network->pin_b);
    free(network->row);
    free(network->level);
    free(network->top);
    free(network->channel);
    free(network->tracks);
    free(network->on_path);
    free(network->edge);
    free(network->trunk);
    netlist_free(&network->netlist);
}

char *network_draw(const Unit *unit, const Working *example, Scene *scene) {
    Network network = {.unit = unit, .example = example, .scene = scene};
    build_of_any_kind(unit, &network.netlist);
    network.values = values_of(&network.netlist, example);
    find_pins(&network);
    network_plan(&network);
    network_choose_operands(&network);
    network_draw_top(&network);
    network_connect(&network);
    network_place_rows(&network);
    network_draw_wires(&network);
    network_draw_bottom(&network);
    network_draw_groups(&network);
    network_draw_notes(&network);
    char *words = network_describe(&network);
    free_parts(&network);
    return words;
}
