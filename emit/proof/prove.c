/* See prove.h. */
#include "proof/prove.h"

#include "base/memory.h"
#include "proof/definition.h"
#include "proof/order.h"

#include <assert.h>
#include <string.h>

const DiagramLimits prove_limits = {1u << 22, UINT64_C(1) << 24};

#define NOWHERE UINT32_MAX

/* The netlist on its way. */
typedef struct {
    const Netlist *netlist;
    Diagrams *diagrams;
    Inputs inputs;
    Definition *definition;
    Diagram *value;   /* of each node, held while something is still to read it */
    uint32_t *unread; /* of each node: gate inputs and outputs that are still to read it */
    uint32_t *output; /* of each node: the first output that reads it, or NOWHERE, */
    uint32_t *next;   /* and of each output the next of the same node */
    bool full;        /* a limit was reached: no gate is looked at any more */
    Diagram first;    /* where the first output that differs does, */
    Diagram wanted;   /* what is wanted of it, */
    Diagram wrong;    /* and where any output differs; all held */
    Proof *proof;
} Sweep;

static bool is_free(const Node *node) {
    return node->kind == NODE_INPUT && node->pin == PROVE_FREE;
}

/* Variables that the unit does not have. */
static unsigned free_levels(const Netlist *netlist) {
    unsigned count = 0;
    for (uint32_t k = 0; k < netlist->node_count; k++)
        if (is_free(&netlist->nodes[k]) && netlist->nodes[k].bit >= count)
            count = netlist->nodes[k].bit + 1;
    return count;
}

static void prepare(Sweep *sweep, const Unit *unit, DiagramLimits limits) {
    const Netlist *netlist = sweep->netlist;
    sweep->diagrams = diagram_open(inputs_levels(unit) + free_levels(netlist), limits);
    inputs_make(unit, sweep->diagrams, &sweep->inputs);
    sweep->definition = definition_new(sweep->diagrams, &sweep->inputs);
    sweep->value = memory_zeroed(netlist->node_count, sizeof sweep->value[0]);
    sweep->unread = memory_zeroed(netlist->node_count, sizeof sweep->unread[0]);
    sweep->output = memory_zeroed(netlist->node_count, sizeof sweep->output[0]);
    sweep->next = memory_zeroed(netlist->output_count, sizeof sweep->next[0]);
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        sweep->output[k] = NOWHERE;
        for (int side = 0; side < 2 && netlist_is_gate(&netlist->nodes[k]); side++)
            sweep->unread[literal_node(netlist->nodes[k].in[side])]++;
    }
    for (uint32_t k = netlist->output_count; k-- > 0;) {
        uint32_t node = literal_node(netlist->outputs[k].literal);
        sweep->unread[node]++;
        sweep->next[k] = sweep->output[node];
        sweep->output[node] = k;
    }
}

static void release(Sweep *sweep) {
    definition_free(sweep->definition);
    diagram_close(sweep->diagrams);
    memory_free(sweep->value);
    memory_free(sweep->unread);
    memory_free(sweep->output);
    memory_free(sweep->next);
    memory_free(sweep);
}

/* ---- one gate ------------------------------------------------------------------------------- */

static Diagram value_of(const Sweep *sweep, Literal literal) {
    Diagram value = sweep->value[literal_node(literal)];
    return literal_inverted(literal) ? diagram_not(value) : value;
}

static void read_once(Sweep *sweep, Literal literal) {
    uint32_t node = literal_node(literal);
    assert(sweep->unread[node] > 0);
    if (--sweep->unread[node] == 0)
        diagram_drop(sweep->diagrams, sweep->value[node]);
}

static Diagram gate_value(Diagrams *d, NodeKind kind, Diagram x, Diagram y) {
    switch (kind) {
    case NODE_AND:
        return diagram_and(d, x, y);
    case NODE_NAND:
        return diagram_not(diagram_and(d, x, y));
    case NODE_OR:
        return diagram_or(d, x, y);
    case NODE_NOR:
        return diagram_not(diagram_or(d, x, y));
    case NODE_XOR:
        return diagram_xor(d, x, y);
    case NODE_XNOR:
        return diagram_not(diagram_xor(d, x, y));
    case NODE_CONSTANT:
    case NODE_INPUT:
    case NODE_KIND_COUNT:
        break;
    }
    return DIAGRAM_NONE;
}

/* A gate's function; where there is no room for it, once more when what can be is forgotten. */
static Diagram make_gate(Sweep *sweep, const Node *gate) {
    if (sweep->full)
        return DIAGRAM_NONE;
    Diagram x = value_of(sweep, gate->in[0]), y = value_of(sweep, gate->in[1]);
    diagram_tidy(sweep->diagrams, false);
    Diagram value = gate_value(sweep->diagrams, gate->kind, x, y);
    if (value != DIAGRAM_NONE)
        return value;
    diagram_tidy(sweep->diagrams, true);
    value = gate_value(sweep->diagrams, gate->kind, x, y);
    sweep->full = value == DIAGRAM_NONE;
    return value;
}

static void make_value(Sweep *sweep, uint32_t k) {
    const Node *node = &sweep->netlist->nodes[k];
    Diagram value = DIAGRAM_0;
    if (netlist_is_gate(node))
        value = make_gate(sweep, node);
    else if (is_free(node))
        value = diagram_variable(sweep->diagrams, sweep->inputs.levels + node->bit);
    else if (node->kind == NODE_INPUT)
        value = inputs_of(&sweep->inputs, node->pin, node->bit);
    sweep->value[k] = diagram_hold(sweep->diagrams, value);
    for (int side = 0; side < 2 && netlist_is_gate(node); side++)
        read_once(sweep, node->in[side]);
}

/* ---- the outputs ---------------------------------------------------------------------------- */

/* The proof's first output is the one with the lowest index. */
static void note(Sweep *sweep, ProofState state, uint32_t k) {
    Proof *proof = sweep->proof;
    if (proof->state == state && proof->output < k)
        return;
    if (proof->state == PROOF_DIFFERENT && state == PROOF_OPEN)
        return;
    proof->state = state;
    proof->output = k;
}

static void note_difference(Sweep *sweep, uint32_t k, Diagram wanted, Diagram differ) {
    Diagrams *d = sweep->diagrams;
    note(sweep, PROOF_DIFFERENT, k);
    diagram_hold(d, differ);
    if (sweep->proof->output == k) {
        diagram_drop(d, sweep->first);
        sweep->first = diagram_hold(d, differ);
        diagram_drop(d, sweep->wanted);
        sweep->wanted = diagram_hold(d, wanted);
    }
    Diagram wrong = diagram_hold(d, diagram_or(d, sweep->wrong, differ));
    diagram_drop(d, sweep->wrong);
    diagram_drop(d, differ);
    sweep->wrong = wrong;
}

static void compare(Sweep *sweep, uint32_t k) {
    const Output *output = &sweep->netlist->outputs[k];
    Diagram made = value_of(sweep, output->literal);
    Diagram wanted = output->pin == PROVE_NONE
                         ? DIAGRAM_0
                         : definition_output(sweep->definition, output->pin, output->bit);
    Diagram differ = diagram_xor(sweep->diagrams, made, wanted);
    if (differ == DIAGRAM_NONE) {
        note(sweep, PROOF_OPEN, k);
        sweep->proof->open++;
    } else if (differ != DIAGRAM_0) {
        note_difference(sweep, k, wanted, differ);
    }
}

/* ---- the whole ------------------------------------------------------------------------------ */

/* The value of a diagram where its variables have these values. */
static bool value_at(const Diagrams *diagrams, Diagram x, const bool *variable) {
    while (x > DIAGRAM_1) {
        unsigned level = diagram_level(diagrams, x);
        x = diagram_branch(diagrams, x, level, variable[level]);
    }
    return x == DIAGRAM_1;
}

static void show_difference(Sweep *sweep, const Unit *unit) {
    Diagrams *d = sweep->diagrams;
    Proof *proof = sweep->proof;
    bool *variable = memory_zeroed(diagram_levels(d), sizeof variable[0]);
    diagram_example(d, sweep->first, variable);
    inputs_levels_of(&sweep->inputs, variable, &proof->example);
    proof->wanted = value_at(d, sweep->wanted, variable);
    memory_free(variable);
    Diagram inside = diagram_and(d, sweep->wrong, inputs_contract(d, &sweep->inputs));
    unsigned exponent, odd = inputs_count(unit, &exponent);
    if (inside != DIAGRAM_NONE && proof->open == 0 && free_levels(sweep->netlist) == 0)
        share_text(d, inside, odd, exponent, proof->share);
}

void prove(const Unit *unit, const Netlist *netlist, DiagramLimits limits, Proof *proof) {
    memset(proof, 0, sizeof *proof);
    proof->limits = limits;
    if (inputs_levels(unit) + free_levels(netlist) > DIAGRAM_LEVELS_MAX) {
        proof->state = PROOF_OPEN;
        proof->open = netlist->output_count;
        return;
    }
    Sweep *sweep = memory_zeroed(1, sizeof *sweep);
    sweep->netlist = netlist;
    sweep->proof = proof;
    prepare(sweep, unit, limits);
    uint32_t *order = order_find(netlist);
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        uint32_t node = order[k];
        make_value(sweep, node);
        for (uint32_t o = sweep->output[node]; o != NOWHERE; o = sweep->next[o]) {
            compare(sweep, o);
            read_once(sweep, netlist->outputs[o].literal);
        }
    }
    if (proof->state == PROOF_DIFFERENT)
        show_difference(sweep, unit);
    proof->peak = diagram_peak(sweep->diagrams);
    proof->steps = diagram_steps(sweep->diagrams);
    memory_free(order);
    release(sweep);
}

void prove_inputs_text(const Unit *unit, char text[SHARE_BYTES]) {
    unsigned exponent, odd = inputs_count(unit, &exponent);
    share_total_text(odd, exponent, text);
}
