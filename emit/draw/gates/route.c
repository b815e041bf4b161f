/* Lanes, tracks and places. See gates.h. */
#include "draw/gates/gates.h"

#include "base/memory.h"

#include <stdlib.h>

/* ---- nets ------------------------------------------------------------------------------------ */

static int compare_endings(const void *one, const void *other) {
    const Ending *a = one, *b = other;
    if (a->literal != b->literal)
        return a->literal < b->literal ? -1 : 1;
    if (a->item != b->item)
        return a->item < b->item ? -1 : 1;
    return a->which - b->which;
}

/* Where nets begin and end, net by net. */
static void find_endings(Sheet *sheet) {
    sheet->ending = memory_zeroed(sheet->item_count * 3 + 1, sizeof sheet->ending[0]);
    for (uint32_t k = 0; k < sheet->item_count; k++)
        for (int which = -1; which < 2; which++) {
            const Item *item = &sheet->item[k];
            Literal literal = which < 0 ? item->drives : item->reads[which];
            int channel = item->layer - (which >= 0);
            if (literal != LITERAL_NONE)
                sheet->ending[sheet->ending_count++] = (Ending){literal, k, which, channel, 0};
        }
    qsort(sheet->ending, sheet->ending_count, sizeof sheet->ending[0], compare_endings);
}

static void find_nets(Sheet *sheet) {
    find_endings(sheet);
    sheet->net = memory_zeroed((size_t)sheet->ending_count + 1, sizeof sheet->net[0]);
    for (uint32_t k = 0; k < sheet->ending_count; k++) {
        const Ending *ending = &sheet->ending[k];
        if (k == 0 || ending[-1].literal != ending->literal)
            sheet->net[sheet->net_count++] =
                (Route){.literal = ending->literal, .first = k, .top = sheet->layers, .bottom = 0};
        Route *net = &sheet->net[sheet->net_count - 1];
        net->count++;
        net->top = ending->channel < net->top ? ending->channel : net->top;
        net->bottom = ending->channel > net->bottom ? ending->channel : net->bottom;
    }
}

/* ---- lanes ----------------------------------------------------------------------------------- */

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
    memory_free(slot);
    return (low + high + 1) / 2;
}

/* Gives each net that goes through layers a lane in its gap, that no other has in the same
 * channels; which. */
static Span *find_lanes(Sheet *sheet, uint32_t *count) {
    Span *lane = memory_zeroed(sheet->net_count + 1, sizeof lane[0]);
    int *lanes = memory_zeroed((size_t)sheet->slot_count + 1, sizeof lanes[0]);
    *count = 0;
    for (uint32_t k = 0; k < sheet->net_count; k++) {
        Route *net = &sheet->net[k];
        net->has_lane = net->top < net->bottom;
        if (net->has_lane)
            lane[(*count)++] = (Span){middle_gap(sheet, net), k, net->top, net->bottom, 0};
    }
    tracks_pack(lane, *count, 0.5, lanes);
    for (int gap = 0; gap <= sheet->slot_count; gap++)
        sheet->slot[gap].lanes = lanes[gap];
    memory_free(lanes);
    return lane;
}

/* ---- places across --------------------------------------------------------------------------- */

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
    for (size_t k = 0; k < sheet->item_count; k++)
        at[sheet->item[k].slot * stride + sheet->item[k].layer] = (uint32_t)k + 1;
    for (size_t k = 0; k < sheet->item_count; k++) {
        Item *item = &sheet->item[k];
        item->x = sheet->slot[item->slot].middle;
        uint32_t above = item->layer == 0 ? 0 : at[item->slot * stride + item->layer - 1];
        if (gates_may_stand_aside(item) && above != 0 &&
            sheet->item[above - 1].drives != item->reads[0])
            item->x += item->kind == ITEM_INVERTER ? GATES_ASIDE : -GATES_ASIDE;
    }
    memory_free(at);
}

static void place_endings(Sheet *sheet) {
    for (uint32_t k = 0; k < sheet->ending_count; k++) {
        Ending *ending = &sheet->ending[k];
        const Item *item = &sheet->item[ending->item];
        bool gate = item->kind == ITEM_GATE && ending->which >= 0;
        ending->x = item->x + (!gate ? 0 : ending->which == 0 ? -GATE_INPUT : GATE_INPUT);
    }
}

static void place_across(Sheet *sheet) {
    uint32_t lane_count = 0;
    Span *lane = find_lanes(sheet, &lane_count);
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
    for (uint32_t k = 0; k < lane_count; k++)
        sheet->net[lane[k].owner].lane_x =
            sheet->slot[lane[k].place].gap_x + GATES_MARGIN + GATES_TRACK * lane[k].track;
    memory_free(lane);
    place_items(sheet);
    place_endings(sheet);
}

/* ---- tracks ---------------------------------------------------------------------------------- */

/* The stretch that a net needs in a channel: over its pins there, and its lane. */
static void add_track(Sheet *sheet, uint32_t k, int channel) {
    const Route *net = &sheet->net[k];
    Span track = {channel, k, net->lane_x, net->lane_x, 0};
    bool any = net->has_lane, used = channel == net->top || channel == net->bottom;
    for (uint32_t e = net->first; e < net->first + net->count; e++) {
        const Ending *ending = &sheet->ending[e];
        if (ending->channel != channel)
            continue;
        if (!any)
            track.from = track.to = ending->x;
        span_reach(&track, ending->x);
        any = used = true;
    }
    if (used)
        sheet->track[sheet->track_count++] = track;
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
    tracks_pack(sheet->track, sheet->track_count, GATES_TRACK, sheet->channel_tracks);
}

/* ---- places downward ------------------------------------------------------------------------- */

double gates_layer_height(const Sheet *sheet, int layer) {
    Registers registers = sheet->frame->unit->registers;
    if (layer == 0)
        return GATES_PIN + (registers == REGISTERS_BOTH ? GATES_REGISTER : 0);
    if (layer == sheet->layers)
        return GATES_PIN + (registers != REGISTERS_NONE ? GATES_REGISTER : 0);
    return GATE_ALONG;
}

static void place_downward(Sheet *sheet) {
    sheet->channel_y = memory_zeroed((size_t)sheet->layers + 1, sizeof(double));
    double *layer_y = memory_zeroed((size_t)sheet->layers + 1, sizeof(double));
    double y = sheet->y_begin;
    for (int layer = 0; layer <= sheet->layers; layer++) {
        layer_y[layer] = y;
        y += gates_layer_height(sheet, layer);
        sheet->channel_y[layer] = y;
        if (layer < sheet->layers)
            y += GATES_VALUES + GATES_TRACK * (double)sheet->channel_tracks[layer] + 4;
    }
    for (size_t k = 0; k < sheet->item_count; k++)
        sheet->item[k].y = layer_y[sheet->item[k].layer];
    sheet->y_end = y;
    memory_free(layer_y);
}

void gates_route(Sheet *sheet) {
    find_nets(sheet);
    place_across(sheet);
    find_tracks(sheet);
    place_downward(sheet);
}
