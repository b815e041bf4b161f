/* Which column, layer and slot everything has. See gates.h. */
#include "draw/gates/gates.h"

#include "base/memory.h"
#include "draw/notes.h"
#include "write/svg.h"

/* ---- columns and layers --------------------------------------------------------------------- */

enum { UNCLAIMED = -1, SHARED = -2, NAME = 16 /* characters */ };

/* Gates of the flag row that lead to one bit of the result alone belong to its column. What each
 * gate is claimed by; readers are seen before what they read. */
static int *claims_of(const Netlist *netlist) {
    int *claim = memory_zeroed(netlist->node_count, sizeof claim[0]);
    for (uint32_t k = 0; k < netlist->node_count; k++)
        claim[k] = UNCLAIMED;
    for (uint32_t k = 0; k < netlist->output_count; k++)
        if (netlist->outputs[k].pin == PIN_RESULT)
            claim[literal_node(netlist->outputs[k].literal)] = (int)netlist->outputs[k].bit;
    for (uint32_t k = netlist->node_count; k-- > 1;) {
        const Node *node = &netlist->nodes[k];
        if (!netlist_is_gate(node) || node->part != PART_FLAGS || claim[k] < 0)
            continue;
        for (int side = 0; side < 2; side++) {
            int *of = &claim[literal_node(node->in[side])];
            *of = *of == UNCLAIMED || *of == claim[k] ? claim[k] : SHARED;
        }
    }
    return claim;
}

static int higher(const Node *gate, const int *column) {
    int one = column[literal_node(gate->in[0])], other = column[literal_node(gate->in[1])];
    return one > other ? one : other;
}

int *gates_columns(const Netlist *netlist) {
    int *column = memory_zeroed(netlist->node_count, sizeof column[0]);
    int *claim = claims_of(netlist);
    column[0] = GATES_NOWHERE;
    for (uint32_t k = 1; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (node->kind == NODE_INPUT)
            column[k] = node->pin == PIN_A || node->pin == PIN_B ? (int)node->bit : GATES_NOWHERE;
        else if (node->part == PART_COLUMNS)
            column[k] = node->column;
        else if (node->part == PART_CONTROL)
            column[k] = GATES_NOWHERE;
        else if (node->part == PART_FLAGS && claim[k] >= 0)
            column[k] = claim[k];
        else if (higher(node, column) == GATES_NOWHERE)
            column[k] = (int)netlist->core->width - 1;
        else
            column[k] = higher(node, column);
    }
    memory_free(claim);
    return column;
}

/* A layer below everything that a gate reads, but for the chain from column to column, along which
 * the layers would grow without end. */
int *gates_depths(const Netlist *netlist, const int *column) {
    int *depth = memory_zeroed(netlist->node_count, sizeof depth[0]);
    for (uint32_t k = 1; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        depth[k] = netlist_is_gate(node) ? 1 : 0;
        for (int side = 0; side < 2 && netlist_is_gate(node); side++) {
            uint32_t in = literal_node(node->in[side]);
            bool chain = node->part == PART_COLUMNS && netlist->nodes[in].part == PART_COLUMNS &&
                         column[in] != column[k];
            if (!chain && depth[in] >= depth[k])
                depth[k] = depth[in] + 1;
        }
    }
    return depth;
}

/* ---- items ----------------------------------------------------------------------------------- */

static Item *add_item(Sheet *sheet, ItemKind kind, uint32_t node, int group, int layer) {
    sheet->item =
        memory_grow(sheet->item, &sheet->item_room, sheet->item_count + 1, sizeof sheet->item[0]);
    Item *item = &sheet->item[sheet->item_count++];
    *item = (Item){.kind = kind,
                   .node = node,
                   .drives = LITERAL_NONE,
                   .reads = {LITERAL_NONE, LITERAL_NONE},
                   .group = group,
                   .layer = layer};
    return item;
}

static int controls_group(const Sheet *sheet) {
    return sheet->group_count - 1;
}

/* The group of a column, or of the controls. */
static int group_of(const Sheet *sheet, int column) {
    return column == GATES_NOWHERE ? controls_group(sheet) : (int)sheet->top - column;
}

/* Is the node drawn on this sheet? Controls are on the lowest. */
static bool is_here(const Sheet *sheet, uint32_t node) {
    int column = sheet->column[node];
    return column == GATES_NOWHERE ? sheet->low == 0
                                   : column >= (int)sheet->low && column < (int)sheet->top;
}

/* Which sheet an output pin is on: that of its column, a flag's that of what makes it. */
static bool output_is_here(const Sheet *sheet, const Output *output) {
    if (output->pin == PIN_RESULT)
        return output->bit >= sheet->low && output->bit < sheet->top;
    return is_here(sheet, literal_node(output->literal));
}

/* An output pin, below an inverter where its inverse is what the netlist has. */
static void add_output(Sheet *sheet, const Output *output) {
    bool is_result = output->pin == PIN_RESULT;
    int group = is_result ? group_of(sheet, (int)output->bit) : 0;
    Literal literal = output->literal;
    uint32_t node = literal_node(literal);
    if (literal_inverted(literal) && node != 0) {
        int layer = is_here(sheet, node) ? sheet->depth[node] + 1 : 1;
        Item *inverter = add_item(sheet, ITEM_INVERTER, node, group, layer);
        inverter->reads[0] = literal_not(literal);
        inverter->drives = literal;
    }
    Item *item = add_item(sheet, ITEM_OUTPUT, node, group, 0);
    item->reads[0] = node == 0 ? LITERAL_NONE : literal;
    const char *level = node != 0 ? "" : literal == LITERAL_1 ? " = 1" : " = 0";
    const char *pin = sheet->frame->unit->pin[output->pin];
    item->name = is_result ? memory_text("r%u%s", output->bit, level)
                           : memory_text("%s%s", notes_short(pin, NAME).text, level);
}

/* Marks the nets that the sheet's gates and outputs read, and those that others read. */
static void mark_readers(const Sheet *sheet, bool *here, bool *elsewhere) {
    const Netlist *netlist = sheet->frame->netlist;
    for (uint32_t k = 1; k < netlist->node_count; k++)
        for (int side = 0; side < 2 && netlist_is_gate(&netlist->nodes[k]); side++)
            (is_here(sheet, k) ? here : elsewhere)[literal_node(netlist->nodes[k].in[side])] = true;
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        const Output *output = &netlist->outputs[k];
        (output_is_here(sheet, output) ? here : elsewhere)[literal_node(output->literal)] = true;
    }
}

/* What a net is called where it comes from outside, or goes there. */
static char *name_of(const Sheet *sheet, uint32_t node) {
    char *name = frame_name(sheet->frame, node * 2);
    char *cut = memory_text("%s", notes_short(name, NAME).text);
    memory_free(name);
    return cut;
}

static void add_node(Sheet *sheet, uint32_t k, bool read_here, bool read_elsewhere) {
    const Node *node = &sheet->frame->netlist->nodes[k];
    bool here = is_here(sheet, k), gate = netlist_is_gate(node);
    int group = here ? group_of(sheet, sheet->column[k]) : controls_group(sheet);
    if (here && gate) {
        Item *item = add_item(sheet, ITEM_GATE, k, group, sheet->depth[k]);
        item->drives = k * 2;
        item->reads[0] = node->in[0] & ~1u;
        item->reads[1] = node->in[1] & ~1u;
        item->name = sheet->frame->carry_of[k] > 0 ? name_of(sheet, k) : NULL;
    } else if (read_here || (here && node->kind == NODE_INPUT)) {
        Item *source = add_item(sheet, ITEM_SOURCE, k, group, 0);
        source->drives = k * 2;
        source->name = name_of(sheet, k);
    }
    /* Pins of the unit are named wherever they are read; other nets where they are made, too. */
    if (here && read_elsewhere && gate) {
        Item *sink = add_item(sheet, ITEM_SINK, k, 0, 0);
        sink->reads[0] = k * 2;
        sink->name = name_of(sheet, k);
    }
}

static void add_items(Sheet *sheet) {
    const Netlist *netlist = sheet->frame->netlist;
    bool *here = memory_zeroed(netlist->node_count, sizeof here[0]);
    bool *elsewhere = memory_zeroed(netlist->node_count, sizeof elsewhere[0]);
    mark_readers(sheet, here, elsewhere);
    for (uint32_t k = 1; k < netlist->node_count; k++)
        add_node(sheet, k, here[k], elsewhere[k]);
    for (uint32_t k = 0; k < netlist->output_count; k++)
        if (output_is_here(sheet, &netlist->outputs[k]))
            add_output(sheet, &netlist->outputs[k]);
    memory_free(here);
    memory_free(elsewhere);
}

/* ---- slots ----------------------------------------------------------------------------------- */

static void number_layers(Sheet *sheet) {
    int deepest = 0;
    for (size_t k = 0; k < sheet->item_count; k++)
        if (sheet->item[k].layer > deepest)
            deepest = sheet->item[k].layer;
    sheet->layers = deepest + 1;
    for (size_t k = 0; k < sheet->item_count; k++)
        if (sheet->item[k].kind == ITEM_OUTPUT || sheet->item[k].kind == ITEM_SINK)
            sheet->item[k].layer = sheet->layers;
}

/* The items of each group and layer take its slots in the order in which they are, spread about its
 * middle. */
static void place_items(Sheet *sheet) {
    size_t stride = (size_t)sheet->layers + 1, places = (size_t)sheet->group_count * stride;
    int *count = memory_zeroed(places, sizeof count[0]), *most = sheet->group_first + 1;
    for (size_t k = 0; k < sheet->item_count; k++) {
        Item *item = &sheet->item[k];
        item->slot = count[(size_t)item->group * stride + (size_t)item->layer]++;
        if (item->slot >= most[item->group])
            most[item->group] = item->slot + 1;
    }
    for (int group = 0; group < sheet->group_count; group++)
        sheet->group_first[group + 1] =
            sheet->group_first[group] + (most[group] > 0 ? most[group] : 1);
    for (size_t k = 0; k < sheet->item_count; k++) {
        Item *item = &sheet->item[k];
        int first = sheet->group_first[item->group];
        int slots = sheet->group_first[item->group + 1] - first;
        int used = count[(size_t)item->group * stride + (size_t)item->layer];
        item->slot += first + (slots - used) / 2;
    }
    sheet->slot_count = sheet->group_first[sheet->group_count];
    memory_free(count);
}

bool gates_may_stand_aside(const Item *item) {
    return item->kind == ITEM_OUTPUT || item->kind == ITEM_SINK || item->kind == ITEM_INVERTER;
}

/* The room that an item takes in its slot. The name of a gate stands left of its output. */
static double width_of(const Item *item) {
    double name = item->name == NULL ? 0 : svg_text_width(item->name, 12);
    double width = item->kind == ITEM_GATE ? 2 * (name + 9) : name;
    if (width < GATE_ACROSS)
        width = GATE_ACROSS;
    return width + (gates_may_stand_aside(item) ? 2 * GATES_ASIDE : 0);
}

void gates_plan(Sheet *sheet) {
    sheet->group_count = (int)(sheet->top - sheet->low) + 2;
    add_items(sheet);
    number_layers(sheet);
    sheet->group_first = memory_zeroed((size_t)sheet->group_count + 1, sizeof(int));
    place_items(sheet);
    sheet->slot = memory_zeroed((size_t)sheet->slot_count + 1, sizeof sheet->slot[0]);
    for (size_t k = 0; k < sheet->item_count; k++) {
        double width = width_of(&sheet->item[k]);
        Slot *slot = &sheet->slot[sheet->item[k].slot];
        slot->width = width > slot->width ? width : slot->width;
    }
}

void gates_free(Sheet *sheet) {
    for (size_t k = 0; k < sheet->item_count; k++)
        memory_free(sheet->item[k].name);
    memory_free(sheet->item);
    memory_free(sheet->group_first);
    memory_free(sheet->slot);
    memory_free(sheet->net);
    memory_free(sheet->ending);
    memory_free(sheet->track);
    memory_free(sheet->channel_tracks);
    memory_free(sheet->channel_y);
}
