/* The network picture, see network.h: the steps. */
#include "draw/network.h"

#include "base/memory.h"

#include <stdlib.h>

double network_x(const Network *network, int column) {
    if (column < 0)
        return network->has_control ? network->lane + 84 : network->pitch;
    unsigned place = (unsigned)column;
    if (place >= network->high_start && network->low_end < network->unit->width)
        return -network->pitch * (network->low_end + place - network->high_start) - NETWORK_OMITTED;
    return -network->pitch * place;
}

double network_left(const Network *network) {
    return network_x(network, (int)network->unit->width - 1) - network->lane - 8;
}

Net network_net(const Landmark *cell) {
    return network_varies(cell->generates) ? cell->generates : cell->passes;
}

bool network_level(const Network *network, Literal literal) {
    return values_level(network->values, literal);
}

bool network_carries(const Network *network) {
    for (unsigned i = 0; i <= network->unit->width; i++)
        if (network_varies(network->landmarks.carry[i]))
            return true;
    return false;
}

void network_lead(const Network *network, Net net, WireStyle style, double x, double from,
                  double to) {
    scene_wire(network->scene, net, style, x, from);
    scene_to(network->scene, x, to);
}

void network_value_beside(const Network *network, Literal literal, double x, double y) {
    if (network->values != NULL)
        scene_value(network->scene, x + 3, y, ANCHOR_START, literal,
                    network_level(network, literal));
}

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
    landmarks_free(&network->landmarks);
    netlist_free(&network->netlist);
}

char *network_draw(const Unit *unit, const Working *example, Scene *scene) {
    Network network = {.unit = unit, .example = example, .scene = scene};
    build_netlist_marked(unit, &network.netlist, &network.landmarks);
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
