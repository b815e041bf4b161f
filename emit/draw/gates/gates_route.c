/* Lanes, tracks and places. See gates.h. */
#include "draw/gates/gates.h"

#include "base/memory.h"

#include <stdlib.h>

/* ---- nets --------------------------------------------------------------------------------------
 */

/* A place of an item where a net begins (which: -1) or ends. */
typedef struct {
    Literal literal;
    uint32_t item;
    int which;
} Place;

/* All places of the sheet; returns how many. */
static uint32_t list_places(const Sheet *sheet, Place *place) {
    uint32_t count = 0;
    for (uint32_t k = 0; k < sheet->item_count; k++)
        for (int which = -1; which < 2; which++) {
            const Item *item = &sheet->item[k];
            Literal literal = which < 0 ? item->drives : item->reads[which];
            if (literal != LITERAL_NONE)
                place[count++] = (Place){literal, k, which};
        }
    return count;
}

/* Makes a net of each literal, in the order in which they are met, and gives it room for its
 * endings. net_of: the number of a literal's net, from 1. */
static void open_nets(Sheet *sheet, const Place *place, uint32_t *net_of) {
    for (uint32_t k = 0; k < sheet->ending_count; k++) {
        if (net_of[place[k].literal] == 0) {
            sheet->net[sheet->net_count] =
                (Route){.literal = place[k].literal, .top = sheet->layers, .bottom = 0};
            net_of[place[k].literal] = ++sheet->net_count;
        }
        sheet->net[net_of[place[k].literal] - 1].count++;
    }
    uint32_t first = 0;
    for (uint32_t k = 0; k < sheet->net_count; k++) {
        sheet->net[k].first = first;
        first += sheet->net[k].count;
        sheet->net[k].count = 0;
    }
}

static void add_ending(Sheet *sheet, Route *net, const Place *place) {
    int channel = sheet->item[place->item].layer - (place->which >= 0);
    sheet->ending[net->first + net->count++] = (Ending){place->item, place->which, channel, 0};
    net->top = channel < net->top ? channel : net->top;
    net->bottom = channel > net->bottom ? channel : net->bottom;
}

static void find_nets(Sheet *sheet) {
    Place *place = memory_zeroed((size_t)sheet->item_count * 3 + 1, sizeof place[0]);
    uint32_t *net_of = memory_zeroed((size_t)sheet->netlist->node_count * 2, sizeof net_of[0]);
    sheet->ending_count = list_places(sheet, place);
    sheet->net = memory_zeroed((size_t)sheet->ending_count + 1, sizeof sheet->net[0]);
    sheet->ending = memory_zeroed((size_t)sheet->ending_count + 1, sizeof sheet->ending[0]);
    open_nets(sheet, place, net_of);
    for (uint32_t k = 0; k < sheet->ending_count; k++)
        add_ending(sheet, &sheet->net[net_of[place[k].literal] - 1], &place[k]);
    free(net_of);
    free(place);
}

/* ---- lanes -------------------------------------------------------------------------------------
 */

static int compare_ints(const void *one, const void *other) {
    int a = *(const int *)one, b = *(const int *)other;
    return (a > b) - (a < b);
}

/* The gap in the middle of the net's pins. */
static int middle_gap(const Sheet *sheet, const Route *net) {
    int *slot = memory_zeroed(net->count + 1, sizeof slot[0]);
    for (uint32_t k = 0; k < net->count; k++)
        slot[k] = sheet->item[sheet->ending[net->first + k].item].slot;
    qsort(slot, net->count, sizeof slot[0], compare_ints);
    int low = slot[(net->count - 1) / 2], high = slot[net->count / 2];
    free(slot);
    return (low + high + 1) / 2;
}

/* Gives each net that goes through layers a lane in its gap that no other has in the same
 * channels: the first that is free. */
static void find_lanes(Sheet *sheet) {
    int channels = sheet->layers;
    /* taken[lane][channel] of one gap, for as many lanes as there are nets in it. */
    int *nets_of_gap = memory_zeroed((size_t)sheet->slot_count + 1, sizeof nets_of_gap[0]);
    for (uint32_t k = 0; k < sheet->net_count; k++) {
        Route *net = &sheet->net[k];
        net->gap = middle_gap(sheet, net);
        net->lane = -1;
        if (net->top < net->bottom)
            nets_of_gap[net->gap]++;
    }
    bool **taken = memory_zeroed((size_t)sheet->slot_count + 1, sizeof taken[0]);
    for (int gap = 0; gap <= sheet->slot_count; gap++)
        taken[gap] = memory_zeroed((size_t)nets_of_gap[gap] * (size_t)channels + 1, sizeof(bool));
    for (uint32_t k = 0; k < sheet->net_count; k++) {
        Route *net = &sheet->net[k];
        bool free_lane = net->top >= net->bottom;
        while (!free_lane) {
            net->lane++;
            free_lane = true;
            for (int channel = net->top; channel <= net->bottom; channel++)
                free_lane = free_lane && !taken[net->gap][net->lane * channels + channel];
        }
        for (int channel = net->top; channel <= net->bottom && net->lane >= 0; channel++)
            taken[net->gap][net->lane * channels + channel] = true;
        if (net->lane >= sheet->slot[net->gap].lanes)
            sheet->slot[net->gap].lanes = net->lane + 1;
    }
    for (int gap = 0; gap <= sheet->slot_count; gap++)
        free(taken[gap]);
    free(taken);
    free(nets_of_gap);
}

/* ---- places across ------------------------------------------------------------------------------
 */

/* Is this slot the first of its group? Then there is more room before it. */
static bool begins_group(const Sheet *sheet, int slot) {
    for (int group = 0; group <= sheet->group_count; group++)
        if (sheet->group_first[group] == slot)
            return true;
    return false;
}

/* In the middle of the slot, or aside. */
static void place_items(Sheet *sheet) {
    int stride = sheet->layers + 1;
    uint32_t *at = memory_zeroed((size_t)sheet->slot_count * (size_t)stride + 1, sizeof at[0]);
    for (uint32_t k = 0; k < sheet->item_count; k++)
        at[sheet->item[k].slot * stride + sheet->item[k].layer] = k + 1;
    for (uint32_t k = 0; k < sheet->item_count; k++) {
        Item *item = &sheet->item[k];
        item->x = sheet->slot[item->slot].middle;
        uint32_t above = item->layer == 0 ? 0 : at[item->slot * stride + item->layer - 1];
        if (gates_may_stand_aside(item) && above != 0 &&
            sheet->item[above - 1].drives != item->reads[0])
            item->x += item->kind == ITEM_INVERTER ? GATES_ASIDE : -GATES_ASIDE;
    }
    free(at);
}

static void place_across(Sheet *sheet) {
    double x = 0;
    for (int k = 0; k <= sheet->slot_count; k++) {
        Slot *slot = &sheet->slot[k];
        if (k > 0 && begins_group(sheet, k))
            x += GATES_MARGIN;
        slot->gap_x = x;
        x += GATES_MARGIN + GATES_TRACK * (double)slot->lanes;
        slot->middle = x + slot->width / 2;
        x += slot->width;
    }
    sheet->right = x;
    place_items(sheet);
    for (uint32_t k = 0; k < sheet->net_count; k++) {
        Route *net = &sheet->net[k];
        if (net->lane >= 0)
            net->lane_x = sheet->slot[net->gap].gap_x + GATES_MARGIN + GATES_TRACK * net->lane;
    }
    for (uint32_t k = 0; k < sheet->ending_count; k++) {
        Ending *ending = &sheet->ending[k];
        const Item *item = &sheet->item[ending->item];
        bool gate = item->kind == ITEM_GATE && ending->which >= 0;
        ending->x = item->x + (!gate ? 0 : ending->which == 0 ? -GATE_INPUT : GATE_INPUT);
    }
}

/* ---- tracks -------------------------------------------------------------------------------------
 */

static int compare_tracks(const void *one, const void *other) {
    const Track *a = one, *b = other;
    if (a->channel != b->channel)
        return a->channel < b->channel ? -1 : 1;
    if (a->left < b->left || b->left < a->left)
        return a->left < b->left ? -1 : 1;
    return a->net < b->net ? -1 : a->net > b->net;
}

/* The stretch that a net needs in a channel: over its pins there, and its lane. */
static void add_track(Sheet *sheet, uint32_t k, int channel) {
    const Route *net = &sheet->net[k];
    Track track = {k, channel, 0, net->lane_x, net->lane_x};
    bool any = net->lane >= 0;
    bool used = channel == net->top || channel == net->bottom;
    for (uint32_t e = net->first; e < net->first + net->count; e++) {
        const Ending *ending = &sheet->ending[e];
        if (ending->channel != channel)
            continue;
        used = true;
        track.left = !any || ending->x < track.left ? ending->x : track.left;
        track.right = !any || ending->x > track.right ? ending->x : track.right;
        any = true;
    }
    if (used)
        sheet->track[sheet->track_count++] = track;
}

/* From left to right, each stretch on the first track of its channel that is free there. */
static void number_tracks(Sheet *sheet) {
    double *end = memory_zeroed(sheet->track_count + 1, sizeof end[0]);
    int channel = -1, tracks = 0;
    for (uint32_t k = 0; k < sheet->track_count; k++) {
        Track *track = &sheet->track[k];
        if (track->channel != channel)
            tracks = 0;
        channel = track->channel;
        int index = 0;
        while (index < tracks && end[index] > track->left - GATES_TRACK)
            index++;
        tracks = index == tracks ? tracks + 1 : tracks;
        end[index] = track->right;
        track->index = index;
        sheet->channel_tracks[channel] = tracks;
    }
    free(end);
}

static void find_tracks(Sheet *sheet) {
    size_t room = 0;
    for (uint32_t k = 0; k < sheet->net_count; k++)
        room += (size_t)(sheet->net[k].bottom - sheet->net[k].top) + 1;
    sheet->track = memory_zeroed(room + 1, sizeof sheet->track[0]);
    sheet->channel_tracks = memory_zeroed((size_t)sheet->layers + 1, sizeof(int));
    for (uint32_t k = 0; k < sheet->net_count; k++)
        for (int channel = sheet->net[k].top; channel <= sheet->net[k].bottom; channel++)
            add_track(sheet, k, channel);
    qsort(sheet->track, sheet->track_count, sizeof sheet->track[0], compare_tracks);
    number_tracks(sheet);
}

/* ---- places downward
 * ----------------------------------------------------------------------------- */

double gates_layer_height(const Sheet *sheet, int layer) {
    Registers registers = sheet->unit->registers;
    if (layer == 0)
        return GATES_PIN + (registers == REGISTERS_BOTH ? GATES_REGISTER : 0);
    if (layer == sheet->layers)
        return GATES_PIN + (registers != REGISTERS_NONE ? GATES_REGISTER : 0);
    return GATE_ALONG;
}

static void place_downward(Sheet *sheet) {
    sheet->channel_y = memory_zeroed((size_t)sheet->layers + 1, sizeof(double));
    double *layer_y = memory_zeroed((size_t)sheet->layers + 1, sizeof(double));
    double y = 0;
    for (int layer = 0; layer <= sheet->layers; layer++) {
        layer_y[layer] = y;
        y += gates_layer_height(sheet, layer);
        sheet->channel_y[layer] = y;
        if (layer < sheet->layers)
            y += GATES_VALUES + GATES_TRACK * (double)sheet->channel_tracks[layer] + 4;
    }
    for (uint32_t k = 0; k < sheet->item_count; k++)
        sheet->item[k].y = layer_y[sheet->item[k].layer];
    sheet->bottom = y;
    free(layer_y);
}

void gates_route(Sheet *sheet) {
    find_nets(sheet);
    find_lanes(sheet);
    place_across(sheet);
    find_tracks(sheet);
    place_downward(sheet);
}
