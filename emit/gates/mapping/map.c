/* See map.h. All of this speaks of NANDs; for NORs everything is the dual. */
#include "gates/mapping/map.h"

#include "base/memory.h"
#include "gates/mapping/plan.h"
#include "gates/netlist/core.h"

#include <string.h>

typedef struct {
    const Plans *plans;
    const Pairs *pairs;
    Netlist *mapped;
    NodeKind kind;
    Literal *made; /* of each term, LITERAL_NONE until it is */
} Making;

static Literal make(Making *making, Term term);

static Literal invert(Making *making, Literal literal) {
    return netlist_gate(making->mapped, making->kind, literal, literal);
}

static void name_after(Making *making, Literal literal, uint32_t source, Help help) {
    const Node *named = &making->pairs->netlist->nodes[source];
    Node *node = &making->mapped->nodes[literal_node(literal)];
    if (source == 0 || named->role == ROLE_NONE || node->role != ROLE_NONE ||
        !netlist_is_gate(node))
        return;
    node->role = named->role;
    node->complement = named->complement != (help == HELP_INVERSE);
    node->index = named->index;
    node->low = named->low;
    node->help = help;
}

/* A gate that has a source node's value keeps its name, one with the inverse is called after it; a
 * product that only an XOR uses is called after the XOR. */
static void name_gate(Making *making, Literal literal, Term term) {
    const Pairs *pairs = making->pairs;
    uint32_t source = pairs->source[term >> 1];
    if (source != 0) {
        name_after(making, literal, source, pairs->term[source] == term ? HELP_NONE : HELP_INVERSE);
        return;
    }
    if (pairs_is_input(pairs, term >> 1))
        return;
    static const Help steps[SHAPE_PRODUCTS] = {HELP_INNER, HELP_SECOND, HELP_FIRST, HELP_OUTER};
    uint32_t number = pairs_pair(pairs, term >> 1);
    int way = making->plans->plan[number].way;
    int shape = pairs_shape(pairs, term >> 1);
    name_after(making, literal, pairs->source[pairs_signal(pairs, number, SHAPE_XOR)],
               steps[shape ^ way_base(way)]);
}

static Literal operand(Making *making, uint32_t number, int side, bool inverted) {
    return make(making, 2 * making->pairs->pair[number].operand[side] + (inverted ? 1 : 0));
}

static Literal inverse_of_product(Making *making, uint32_t number, int shape) {
    return make(making, 2 * pairs_signal(making->pairs, number, shape) + 1);
}

static Literal gate(Making *making, Literal x, Literal y) {
    return netlist_gate(making->mapped, making->kind, x, y);
}

static Literal make_product(Making *making, uint32_t number, int shape) {
    Plan plan = making->plans->plan[number];
    int way = plan.way;
    bool turn_x = (shape & 1) != 0, turn_y = (shape & 2) != 0;
    if (way >= WAY_APART || shape == way)
        return gate(making, operand(making, number, 0, turn_x), operand(making, number, 1, turn_y));
    bool through_y = shape == (way ^ 1) || (shape == (way ^ 3) && plan.through_y);
    int from = shape == (way ^ 3) ? way ^ (plan.through_y ? 2 : 1) : way;
    Literal beside = inverse_of_product(making, number, from);
    return through_y ? gate(making, operand(making, number, 1, turn_y), beside)
                     : gate(making, operand(making, number, 0, turn_x), beside);
}

static Literal make_xor(Making *making, uint32_t number, bool inverted) {
    int way = making->plans->plan[number].way;
    if (inverted != way_inverts(way))
        return invert(making, make(making, 2 * pairs_signal(making->pairs, number, SHAPE_XOR) +
                                               (inverted ? 0 : 1)));
    int base = way_base(way);
    Literal first = inverse_of_product(making, number, base ^ 2);
    return gate(making, first, inverse_of_product(making, number, base ^ 1));
}

/* The selection's halves with their data inverted make the product of the inverses. */
static Literal make_turned(Making *making, uint32_t number) {
    const Pairs *pairs = making->pairs;
    const Pair *pair = &pairs->pair[number];
    Literal half[2];
    uint32_t source = pairs->source[pairs_signal(pairs, number, SHAPE_PRODUCTS - 1)];
    for (int side = 0; side < 2; side++) {
        half[side] = make(making, 2 * pair->other[side] + 1);
        name_after(making, half[side], source, side == 0 ? HELP_FIRST : HELP_SECOND);
    }
    return gate(making, half[0], half[1]);
}

static Literal make_new(Making *making, Term term) {
    const Pairs *pairs = making->pairs;
    bool inverted = (term & 1) != 0;
    if (pairs_is_input(pairs, term >> 1))
        return invert(making, make(making, term ^ 1));
    uint32_t number = pairs_pair(pairs, term >> 1);
    int shape = pairs_shape(pairs, term >> 1);
    if (shape == SHAPE_XOR)
        return make_xor(making, number, inverted);
    bool turned = making->plans->plan[number].turned && shape == SHAPE_PRODUCTS - 1;
    if (inverted == turned)
        return invert(making, make(making, term ^ 1));
    return turned ? make_turned(making, number) : make_product(making, number, shape);
}

/* The gate of a term; the gates before it are few, because what its operands need of them is there:
 * signals are made in the order of the source. */
static Literal make(Making *making, Term term) {
    if (making->made[term] == LITERAL_NONE) {
        Literal literal = make_new(making, term);
        making->made[term] = literal;
        name_gate(making, literal, term);
    }
    return making->made[term];
}

static void make_inputs(Making *making) {
    const Netlist *source = making->pairs->netlist;
    making->made[LITERAL_0] = LITERAL_0;
    making->made[LITERAL_1] = LITERAL_1;
    for (uint32_t k = 1; k <= making->pairs->inputs; k++)
        making->made[pairs_term(k, false)] =
            netlist_input(making->mapped, source->nodes[k].pin, source->nodes[k].bit);
    netlist_enter(making->mapped, PART_CONTROL, -1);
    for (uint32_t k = 1; k <= making->pairs->inputs; k++)
        if (source->nodes[k].pin < PIN_A && making->plans->readers[pairs_term(k, true)] > 0)
            make(making, pairs_term(k, true));
}

static void make_gates(Making *making) {
    const Pairs *pairs = making->pairs;
    for (uint32_t k = pairs->inputs + 1; k < pairs->netlist->node_count; k++) {
        const Node *node = &pairs->netlist->nodes[k];
        uint32_t signal = pairs->term[k] >> 1;
        netlist_enter(making->mapped, node->part, node->column);
        for (Term term = 2 * signal; pairs->source[signal] == k && term <= 2 * signal + 1; term++)
            if (making->plans->readers[term] > 0)
                make(making, term);
    }
}

static void make_outputs(Making *making, bool dual) {
    const Netlist *source = making->pairs->netlist;
    netlist_enter(making->mapped, PART_FLAGS, -1);
    for (uint32_t k = 0; k < source->output_count; k++) {
        const Output *output = &source->outputs[k];
        Term term = making->pairs->term[literal_node(output->literal)] ^ (output->literal & 1);
        bool turned = dual && term <= LITERAL_1 && !literal_is_constant(output->literal);
        netlist_output(making->mapped, output->pin, output->bit,
                       turned ? literal_not(term) : make(making, term));
    }
}

/* What has become of a literal of the record: its gate, or what makes its inverse. */
static Literal found_again(Literal literal, const void *how) {
    const Making *making = how;
    Term term = making->pairs->term[literal_node(literal)] ^ (literal & 1);
    if (term <= LITERAL_1) /* known after all; the dual's constants are the other way round */
        return making->kind == NODE_NOR ? literal_not(term) : term;
    if (making->made[term] != LITERAL_NONE)
        return making->made[term];
    Literal inverse = making->made[term ^ 1];
    return inverse == LITERAL_NONE ? LITERAL_NONE : literal_not(inverse);
}

void map_netlist(const Netlist *netlist, NodeKind kind, Netlist *mapped) {
    Pairs pairs;
    Plans plans;
    pairs_find(netlist, kind == NODE_NOR, &pairs);
    plans_choose(&pairs, &plans);
    uint32_t terms = 2 * pairs_signals(&pairs);
    Making making = {&plans, &pairs, mapped, kind, memory_zeroed(terms, sizeof(Literal))};
    memset(making.made, 0xff, terms * sizeof making.made[0]);
    netlist_init(mapped);
    make_inputs(&making);
    make_gates(&making);
    make_outputs(&making, kind == NODE_NOR);
    if (netlist->core != NULL) {
        mapped->core = core_copy(netlist->core);
        core_change(mapped->core, found_again, &making);
    }
    memory_free(making.made);
    plans_free(&plans);
    pairs_free(&pairs);
}
