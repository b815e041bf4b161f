/* See faults.h. */
#include "gates/faults/faults.h"

#include "base/memory.h"
#include "gates/faults/hidden.h"
#include "gates/netlist/readers.h"

#include <assert.h>
#include <string.h>

struct Faults {
    const Netlist *netlist;
    Readers readers;
    unsigned char *state;   /* by fault_number */
    uint64_t *caught_by;    /* likewise */
    unsigned char *open_at; /* by number / 6: how many of a node's faults are open, then of pins' */
    uint32_t numbers;
    uint32_t open;
    uint64_t tried;
    /* A word a node: */
    uint64_t *value;   /* without a fault */
    uint64_t *excited; /* the vectors with which an open fault changes the node, as far as it or
                          places that reach nothing but it are at fault */
    uint64_t *seen;    /* of these, the ones with which a change of the node changes an output */
    uint64_t *changed; /* value, but for the nodes that a simulated change has reached */
    uint64_t *pending; /* a bit a node: an input of it has changed */
    uint32_t *touched; /* the nodes where changed differs from value, */
    uint32_t touched_count;
    uint32_t pending_end; /* words of pending that may hold a bit */
};

/* ---- the list ------------------------------------------------------------------------------ */

/* Three places a node, then the output pins; two levels a place. */
static uint32_t fault_number(const Netlist *netlist, Fault fault) {
    assert(fault.index < (fault.place == FAULT_PIN ? netlist->output_count : netlist->node_count));
    uint32_t place = fault.place == FAULT_PIN ? 3 * netlist->node_count + fault.index
                                              : 3 * fault.index + (uint32_t)fault.place;
    return 2 * place + (fault.level ? 1 : 0);
}

static bool has_place(const Netlist *netlist, uint32_t place) {
    if (place >= 3 * netlist->node_count)
        return true;
    const Node *node = &netlist->nodes[place / 3];
    return netlist_is_gate(node) || (node->kind == NODE_INPUT && place % 3 == FAULT_WIRE);
}

static Fault fault_of(const Netlist *netlist, uint32_t number) {
    assert(number < 2 * (3 * netlist->node_count + netlist->output_count));
    uint32_t place = number / 2;
    bool pin = place >= 3 * netlist->node_count;
    return (Fault){.place = pin ? FAULT_PIN : (FaultPlace)(place % 3),
                   .index = pin ? place - 3 * netlist->node_count : place / 3,
                   .level = number % 2 == 1};
}

/* No fault so far. */
static Faults *without_faults(const Netlist *netlist) {
    Faults *faults = memory_zeroed(1, sizeof *faults);
    uint32_t count = netlist->node_count;
    faults->netlist = netlist;
    readers_find(netlist, &faults->readers);
    faults->numbers = 2 * (3 * count + netlist->output_count);
    faults->state = memory_zeroed(faults->numbers, 1);
    faults->caught_by = memory_zeroed(faults->numbers, sizeof *faults->caught_by);
    faults->open_at = memory_zeroed(faults->numbers / 6 + 1, 1);
    faults->value = memory_zeroed(count, sizeof *faults->value);
    faults->excited = memory_zeroed(count, sizeof *faults->excited);
    faults->seen = memory_zeroed(count, sizeof *faults->seen);
    faults->changed = memory_zeroed(count, sizeof *faults->changed);
    faults->pending = memory_zeroed(count / 64 + 1, sizeof *faults->pending);
    faults->touched = memory_zeroed(count, sizeof *faults->touched);
    return faults;
}

static void add_fault(Faults *faults, uint32_t number) {
    if (faults->state[number] == FAULT_NONE) {
        faults->open++;
        faults->open_at[number / 6]++;
    }
    faults->state[number] = FAULT_OPEN;
}

Faults *faults_new(const Netlist *netlist) {
    Faults *faults = without_faults(netlist);
    for (uint32_t k = 0; k < faults->numbers; k++)
        if (has_place(netlist, k / 2))
            add_fault(faults, k);
    return faults;
}

Faults *faults_new_of(const Netlist *netlist, const Fault *list, size_t count) {
    Faults *faults = without_faults(netlist);
    for (size_t k = 0; k < count; k++)
        add_fault(faults, fault_number(netlist, list[k]));
    return faults;
}

void faults_free(Faults *faults) {
    if (faults == NULL)
        return;
    readers_free(&faults->readers);
    memory_free(faults->state);
    memory_free(faults->caught_by);
    memory_free(faults->open_at);
    memory_free(faults->value);
    memory_free(faults->excited);
    memory_free(faults->seen);
    memory_free(faults->changed);
    memory_free(faults->pending);
    memory_free(faults->touched);
    memory_free(faults);
}

uint64_t *faults_inputs(Faults *faults) {
    return faults->value;
}

/* ---- one change, followed to the outputs --------------------------------------------------- */

static void wake_readers(Faults *faults, uint32_t node) {
    const Readers *readers = &faults->readers;
    for (uint32_t r = readers->first[node]; r < readers->first[node + 1]; r++) {
        uint32_t reader = readers->reader[r] / 2;
        faults->pending[reader / 64] |= UINT64_C(1) << reader % 64;
        if (reader / 64 >= faults->pending_end)
            faults->pending_end = reader / 64 + 1;
    }
}

/* Gives a node another value; the vectors in which an output shows that at once. */
static uint64_t change(Faults *faults, uint32_t node, uint64_t value) {
    assert(faults->touched_count < faults->netlist->node_count && value != faults->value[node]);
    faults->changed[node] = value;
    faults->touched[faults->touched_count++] = node;
    wake_readers(faults, node);
    return faults->readers.outputs[node] > 0 ? value ^ faults->value[node] : 0;
}

static uint64_t evaluate(const Faults *faults, uint32_t node) {
    const Node *gate = &faults->netlist->nodes[node];
    return netlist_gate_value(gate->kind, netlist_value(faults->changed, gate->in[0]),
                              netlist_value(faults->changed, gate->in[1]));
}

static uint32_t lowest_bit(uint64_t word) {
    assert(word != 0);
    uint32_t bit = 0;
    for (uint32_t half = 32; half > 0; half /= 2)
        if ((word & ((UINT64_C(1) << half) - 1)) == 0) {
            word >>= half;
            bit += half;
        }
    return bit;
}

/* The vectors out of those given with which a change of the node is seen at an output. Gates are
 * visited in the order of the array, so each once; the visit ends when no change is left, or
 * nothing more to learn. */
static uint64_t follow(Faults *faults, uint32_t node, uint64_t vectors) {
    uint32_t at = node / 64;
    faults->touched_count = 0;
    faults->pending_end = 0;
    uint64_t seen = change(faults, node, faults->value[node] ^ vectors);
    while (seen != vectors && at < faults->pending_end) {
        if (faults->pending[at] == 0) {
            at++;
            continue;
        }
        uint32_t next = 64 * at + lowest_bit(faults->pending[at]);
        faults->pending[at] &= faults->pending[at] - 1;
        uint64_t value = evaluate(faults, next);
        if (value != faults->value[next])
            seen |= change(faults, next, value);
    }
    for (; at < faults->pending_end; at++)
        faults->pending[at] = 0;
    for (uint32_t k = 0; k < faults->touched_count; k++)
        faults->changed[faults->touched[k]] = faults->value[faults->touched[k]];
    return seen;
}

/* ---- 64 vectors ---------------------------------------------------------------------------- */

/* The vectors with which a change of this input of a gate changes the gate. */
static uint64_t passes(const Faults *faults, const Node *gate, int side) {
    assert(netlist_is_gate(gate) && (side == 0 || side == 1));
    uint64_t other = netlist_value(faults->value, gate->in[1 - side]);
    if (gate->kind == NODE_XOR || gate->kind == NODE_XNOR)
        return UINT64_MAX;
    return gate->kind == NODE_AND || gate->kind == NODE_NAND ? other : ~other;
}

/* The vectors that give a place the level that an open fault there does not have. */
static uint64_t excited_at(const Faults *faults, Fault fault, uint64_t value) {
    const unsigned char *state = &faults->state[fault_number(faults->netlist, fault)];
    return (state[0] == FAULT_OPEN ? value : 0) | (state[1] == FAULT_OPEN ? ~value : 0);
}

/* Does neither the node nor what it reads have anything to tell? Of most this is soon so. */
static bool is_settled(const Faults *faults, uint32_t k, const Node *node) {
    return faults->open_at[k] == 0 &&
           (!netlist_is_gate(node) || (faults->excited[literal_node(node->in[0])] |
                                       faults->excited[literal_node(node->in[1])]) == 0);
}

static void find_excited(Faults *faults, uint64_t vectors) {
    for (uint32_t k = 0; k < faults->netlist->node_count; k++) {
        const Node *node = &faults->netlist->nodes[k];
        faults->excited[k] = 0;
        if (is_settled(faults, k, node))
            continue;
        uint64_t excited = excited_at(faults, (Fault){FAULT_WIRE, k, false}, faults->value[k]);
        for (int side = 0; side < 2 && netlist_is_gate(node); side++) {
            Fault fault = {side == 0 ? FAULT_INPUT_0 : FAULT_INPUT_1, k, false};
            uint32_t source = literal_node(node->in[side]);
            uint64_t at_input =
                excited_at(faults, fault, netlist_value(faults->value, node->in[side]));
            if (readers_count(&faults->readers, source) == 1)
                at_input |= faults->excited[source];
            excited |= at_input & passes(faults, node, side);
        }
        faults->excited[k] = excited & vectors;
    }
}

static void find_seen(Faults *faults, uint32_t k) {
    const Readers *readers = &faults->readers;
    uint32_t count = readers_count(readers, k);
    uint64_t excited = faults->excited[k];
    faults->seen[k] = 0;
    if (excited == 0 || count == 0)
        return;
    if (count > 1) {
        faults->seen[k] = follow(faults, k, excited);
    } else if (readers->outputs[k] == 1) {
        faults->seen[k] = excited;
    } else {
        uint32_t reader = readers->reader[readers->first[k]];
        const Node *gate = &faults->netlist->nodes[reader / 2];
        faults->seen[k] =
            excited & faults->seen[reader / 2] & passes(faults, gate, (int)(reader % 2));
    }
}

/* Both faults of a place: caught by the vectors in which a change there is seen and the fault makes
 * one. */
static void mark(Faults *faults, Fault fault, uint64_t value, uint64_t seen) {
    uint32_t number = fault_number(faults->netlist, fault);
    for (uint32_t level = 0; level < 2; level++) {
        uint64_t caught = seen & (level == 1 ? ~value : value);
        if (caught == 0 || faults->state[number + level] != FAULT_OPEN)
            continue;
        faults->state[number + level] = FAULT_CAUGHT;
        faults->caught_by[number + level] = faults->tried + lowest_bit(caught);
        faults->open--;
        faults->open_at[number / 6]--;
    }
}

static void mark_node(Faults *faults, uint32_t k) {
    const Node *node = &faults->netlist->nodes[k];
    uint64_t seen = faults->seen[k];
    if (seen == 0)
        return;
    mark(faults, (Fault){FAULT_WIRE, k, false}, faults->value[k], seen);
    for (int side = 0; side < 2 && netlist_is_gate(node); side++)
        mark(faults, (Fault){side == 0 ? FAULT_INPUT_0 : FAULT_INPUT_1, k, false},
             netlist_value(faults->value, node->in[side]), seen & passes(faults, node, side));
}

bool faults_open(const Faults *faults) {
    return faults->open > 0;
}

void faults_try(Faults *faults, unsigned count) {
    assert(count >= 1 && count <= 64);
    const Netlist *netlist = faults->netlist;
    uint64_t vectors = count == 64 ? UINT64_MAX : (UINT64_C(1) << count) - 1;
    if (faults->open > 0) {
        netlist_evaluate(netlist, faults->value);
        memcpy(faults->changed, faults->value, netlist->node_count * sizeof faults->value[0]);
        find_excited(faults, vectors);
        for (uint32_t k = netlist->node_count; k-- > 0;) {
            find_seen(faults, k);
            mark_node(faults, k);
        }
        for (uint32_t k = 0; k < netlist->output_count; k++)
            mark(faults, (Fault){FAULT_PIN, k, false},
                 netlist_value(faults->value, netlist->outputs[k].literal), vectors);
    }
    faults->tried += count;
}

/* ---- the outcome --------------------------------------------------------------------------- */

/* Bounds on the search, about a second each: on what the searches of whole circuits come to, in
 * gates, and on the searches that end undecided. */
static const uint64_t WHOLE_GATES = 500000;
enum { UNDECIDED_MAX = 1000 };

typedef struct {
    uint64_t whole_gates; /* that may still be searched */
    uint32_t undecided;   /* so far */
} Effort;

static FaultState settled(const Faults *faults, Fault fault, Effort *effort) {
    uint32_t gates = faults->netlist->node_count;
    bool whole = effort->whole_gates >= gates;
    if (effort->undecided == UNDECIDED_MAX)
        return FAULT_UNDECIDED;
    FaultState state = hidden_search(faults->netlist, &faults->readers, fault, whole);
    if (whole && state != FAULT_HIDDEN)
        effort->whole_gates -= gates;
    effort->undecided += state == FAULT_UNDECIDED;
    return state;
}

void faults_settle(Faults *faults, bool every_input) {
    Effort effort = {WHOLE_GATES, 0};
    for (uint32_t k = 0; k < faults->numbers && faults->open > 0; k++) {
        if (faults->state[k] != FAULT_OPEN)
            continue;
        FaultState state =
            every_input ? FAULT_HIDDEN : settled(faults, fault_of(faults->netlist, k), &effort);
        faults->state[k] = (unsigned char)state;
        faults->open--;
        faults->open_at[k / 6]--;
    }
}

FaultCount faults_count(const Faults *faults) {
    FaultCount count = {0};
    for (uint32_t k = 0; k < faults->numbers; k++) {
        if (faults->state[k] == FAULT_NONE)
            continue;
        count.total++;
        count.by_state[faults->state[k]]++;
        if (faults->state[k] == FAULT_CAUGHT && faults->caught_by[k] >= count.first)
            count.first = faults->caught_by[k] + 1;
    }
    return count;
}

FaultState faults_state(const Faults *faults, Fault fault) {
    return (FaultState)faults->state[fault_number(faults->netlist, fault)];
}

uint64_t faults_caught_by(const Faults *faults, Fault fault) {
    return faults->caught_by[fault_number(faults->netlist, fault)];
}
