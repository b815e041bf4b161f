/* See unroll.h. */
#include "proof/unroll.h"

#include "base/memory.h"
#include "proof/prove.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* Which bit of which pin an input or output is, or PROVE_NONE. */
typedef struct {
    Pin pin;
    unsigned bit;
} Place;

/* A gate that there is; made is 0 where there is none. */
typedef struct {
    Literal x, y, made;
} Known;

typedef struct {
    const Unit *unit;
    const Aiger *aiger;
    const Run *run;
    Netlist *netlist;
    Place *input, *output;
    uint32_t free, free_end; /* nodes of variables of their own that are not given yet */
    Literal *given;     /* by data and input: the literal, or LITERAL_NONE before it is asked for */
    Literal *state;     /* of each latch in this frame */
    Literal *value;     /* of each variable in this frame, */
    Literal *before;    /* and of each output in the frame before */
    Known *known;       /* by hash */
    size_t known_count; /* a power of two */
} Unroll;

/* ---- names ---------------------------------------------------------------------------------- */

static Place place_of(const Unit *unit, const char *name) {
    Place place = {PROVE_NONE, 0};
    if (name == NULL || strncmp(name, "pin_", 4) != 0)
        return place;
    name += 4;
    size_t length = strcspn(name, "[");
    if (name[length] == '[')
        place.bit = (unsigned)strtoul(name + length + 1, NULL, 10);
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        const char *role = unit_role(unit, (Pin)pin);
        if (unit_has(unit, (Pin)pin) && strlen(role) == length &&
            strncmp(role, name, length) == 0 && place.bit < unit_pin_bits(unit, (Pin)pin))
            place.pin = (Pin)pin;
    }
    return place;
}

static Place *places_of(const Unit *unit, char *const *names, uint32_t count) {
    Place *places = memory_zeroed(count, sizeof places[0]);
    for (uint32_t k = 0; k < count; k++)
        places[k] = place_of(unit, names[k]);
    return places;
}

/* ---- inputs --------------------------------------------------------------------------------- */

static Literal free_input(Unroll *unroll) {
    assert(unroll->free < unroll->free_end);
    return 2 * unroll->free++;
}

static Literal data_input(Unroll *unroll, unsigned data, uint32_t k) {
    Literal *given = &unroll->given[(size_t)data * unroll->aiger->inputs + k];
    if (*given == LITERAL_NONE)
        *given = free_input(unroll);
    return *given;
}

static Literal input_of(Unroll *unroll, const Frame *frame, uint32_t k) {
    Pin pin = unroll->input[k].pin;
    if (pin == PROVE_NONE)
        return free_input(unroll);
    if (pin == PIN_CLK)
        return frame->clock ? LITERAL_1 : LITERAL_0;
    if (pin == PIN_RST)
        return frame->reset != unroll->run->reset_low ? LITERAL_1 : LITERAL_0;
    if (pin != PIN_EN)
        return data_input(unroll, frame->data, k);
    if (frame->enable == LEVEL_ANY)
        return free_input(unroll);
    return frame->enable == LEVEL_1 ? LITERAL_1 : LITERAL_0;
}

/* ---- gates ---------------------------------------------------------------------------------- */

/* x AND y; a gate that there is already is not made again, so that what depends on the same state is
 * the same. */
static Literal make_and(Unroll *unroll, Literal x, Literal y) {
    Literal low = x < y ? x : y, high = x < y ? y : x;
    uint64_t hash = ((uint64_t)low << 32 | high) * UINT64_C(0x9e3779b97f4a7c15);
    size_t at = (size_t)(hash >> 32) & (unroll->known_count - 1);
    for (; unroll->known[at].made != 0; at = (at + 1) & (unroll->known_count - 1))
        if (unroll->known[at].x == low && unroll->known[at].y == high)
            return unroll->known[at].made;
    Literal made = netlist_and(unroll->netlist, low, high);
    if (!literal_is_constant(made))
        unroll->known[at] = (Known){low, high, made};
    return made;
}

static Literal literal_of(const Unroll *unroll, uint32_t literal) {
    return unroll->value[literal / 2] ^ (literal & 1u);
}

/* The values of all variables in a frame, and the state after it. */
static void make_frame(Unroll *unroll, const Frame *frame) {
    const Aiger *aiger = unroll->aiger;
    Literal *value = unroll->value;
    value[0] = LITERAL_0;
    for (uint32_t k = 0; k < aiger->inputs; k++)
        value[1 + k] = input_of(unroll, frame, k);
    for (uint32_t k = 0; k < aiger->latches; k++)
        value[1 + aiger->inputs + k] = unroll->state[k];
    for (uint32_t k = 0; k < aiger->ands; k++)
        value[1 + aiger->inputs + aiger->latches + k] = make_and(
            unroll, literal_of(unroll, aiger->in[k][0]), literal_of(unroll, aiger->in[k][1]));
    for (uint32_t k = 0; k < aiger->latches; k++)
        unroll->state[k] = literal_of(unroll, aiger->next[k]);
}

static void watch(Unroll *unroll, Watch what) {
    for (uint32_t k = 0; k < unroll->aiger->outputs; k++) {
        Place place = unroll->output[k];
        Literal now = literal_of(unroll, unroll->aiger->output[k]), before = unroll->before[k];
        bool one = place.pin == (Pin)(PIN_FLAG + FLAG_ZERO);
        unroll->before[k] = now;
        if (place.pin == PROVE_NONE || !pin_is_output(place.pin))
            continue;
        if (what == WATCH_DEFINITION)
            netlist_output(unroll->netlist, place.pin, place.bit, now);
        if (what == WATCH_SAME)
            netlist_output(unroll->netlist, PROVE_NONE, 0,
                           netlist_xor(unroll->netlist, now, before));
        if (what == WATCH_CLEARED)
            netlist_output(unroll->netlist, PROVE_NONE, 0, one ? literal_not(now) : now);
    }
}

/* ---- the whole ------------------------------------------------------------------------------ */

/* All inputs, which come before the first gate: the unit's, and as many of their own as the latches,
 * other data, and in each frame a free enable and inputs of no pin can take. */
static void make_inputs(Unroll *unroll, unsigned data) {
    const Aiger *aiger = unroll->aiger;
    for (uint32_t k = 0; k < aiger->inputs; k++)
        if (unroll->input[k].pin > PIN_EN && unroll->input[k].pin < PIN_RESULT)
            unroll->given[k] =
                netlist_input(unroll->netlist, unroll->input[k].pin, unroll->input[k].bit);
    size_t count = aiger->latches + (size_t)data * aiger->inputs;
    for (uint32_t k = 0; k < aiger->inputs; k++)
        if (unroll->input[k].pin == PROVE_NONE || unroll->input[k].pin == PIN_EN)
            count += unroll->run->count;
    unroll->free = unroll->netlist->node_count;
    for (size_t k = 0; k < count; k++)
        netlist_input(unroll->netlist, PROVE_FREE, 0);
    unroll->free_end = unroll->netlist->node_count;
}

static void prepare(Unroll *unroll) {
    const Aiger *aiger = unroll->aiger;
    unsigned data = 0;
    for (unsigned f = 0; f < unroll->run->count; f++)
        data = unroll->run->frame[f].data > data ? unroll->run->frame[f].data : data;
    size_t inputs = (size_t)(data + 1) * aiger->inputs;
    unroll->given = memory_zeroed(inputs, sizeof unroll->given[0]);
    for (size_t k = 0; k < inputs; k++)
        unroll->given[k] = LITERAL_NONE;
    unroll->known_count = 64;
    while (unroll->known_count < (size_t)2 * aiger->ands * unroll->run->count)
        unroll->known_count *= 2;
    unroll->known = memory_zeroed(unroll->known_count, sizeof unroll->known[0]);
    unroll->input = places_of(unroll->unit, aiger->input_name, aiger->inputs);
    unroll->output = places_of(unroll->unit, aiger->output_name, aiger->outputs);
    unroll->before = memory_zeroed(aiger->outputs, sizeof unroll->before[0]);
    unroll->value = memory_zeroed(aiger_variables(aiger), sizeof unroll->value[0]);
    make_inputs(unroll, data);
    unroll->state = memory_zeroed(aiger->latches, sizeof unroll->state[0]);
    for (uint32_t k = 0; k < aiger->latches; k++)
        unroll->state[k] = free_input(unroll);
}

/* Numbers the variables of their own that are read, one after the other; the others are none. */
static void number_free_inputs(Netlist *netlist) {
    bool *read = memory_zeroed(netlist->node_count, sizeof read[0]);
    for (uint32_t k = 0; k < netlist->node_count; k++)
        for (int side = 0; side < 2 && netlist_is_gate(&netlist->nodes[k]); side++)
            read[literal_node(netlist->nodes[k].in[side])] = true;
    for (uint32_t k = 0; k < netlist->output_count; k++)
        read[literal_node(netlist->outputs[k].literal)] = true;
    unsigned count = 0;
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        Node *node = &netlist->nodes[k];
        if (node->kind == NODE_INPUT && node->pin == PROVE_FREE && read[k])
            node->bit = count++;
        else if (node->kind == NODE_INPUT && node->pin == PROVE_FREE)
            node->kind = NODE_CONSTANT;
    }
    memory_free(read);
}

void unroll(const Unit *unit, const Aiger *aiger, const Run *run, Netlist *netlist) {
    assert(run->count <= UNROLL_FRAMES_MAX);
    netlist_init(netlist);
    Unroll unroll = {.unit = unit, .aiger = aiger, .run = run, .netlist = netlist};
    prepare(&unroll);
    for (unsigned f = 0; f < run->count; f++) {
        make_frame(&unroll, &run->frame[f]);
        watch(&unroll, run->watch[f]);
    }
    netlist_finish(netlist);
    number_free_inputs(netlist);
    memory_free(unroll.given);
    memory_free(unroll.known);
    memory_free(unroll.input);
    memory_free(unroll.output);
    memory_free(unroll.before);
    memory_free(unroll.value);
    memory_free(unroll.state);
}
