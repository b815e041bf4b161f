/* The network picture, see network.h: where columns stand, and what wires carry. */
#include "draw/network/network.h"

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

Net network_net(const CoreCell *cell) {
    return network_varies(cell->generates) ? cell->generates : cell->passes;
}

bool network_level(const Network *network, Literal literal) {
    return values_level(network->values, literal);
}

bool network_carries(const Network *network) {
    for (unsigned i = 0; i <= network->unit->width; i++)
        if (network_varies(network->netlist.core->carry[i]))
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
