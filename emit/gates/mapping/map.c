/* See map.h. All of this speaks of NANDs; for NORs everything is the dual. */
#include "gates/mapping/map.h"

#include "base/memory.h"
#include "gates/mapping/plan.h"
#include "gates/netlist/core.h"

#include <assert.h>
#include <string.h>

typedef struct {
    const Plans *plans;
    const Pairs *pairs;
    Netlist *mapped;
    NodeKind kind;
    Literal *made; /* of each term, LITERAL_NONE until it is */
} Mapper;

static Literal make(Mapper *mapper, Term term);

static Literal invert(Mapper *mapper, Literal literal) {
    return netlist_gate(mapper->mapped, mapper->kind, literal, literal);
}

static void name_after(Mapper *mapper, Literal literal, uint32_t source, Help help) {
    const Node *named = &mapper->pairs->netlist->nodes[source];
    Node *node = &mapper->mapped->nodes[literal_node(literal)];
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
static void name_gate(Mapper *mapper, Literal literal, Term term) {
    const Pairs *pairs = mapper->pairs;
    uint32_t source = pairs->source[term >> 1];
    if (source != 0) {
        name_after(mapper, literal, source, pairs->term[source] == term ? HELP_NONE : HELP_INVERSE);
        return;
    }
    if (pairs_is_input(pairs, term >> 1))
        return;
    static const Help steps[SHAPE_PRODUCTS] = {HELP_INNER, HELP_SECOND, HELP_FIRST, HELP_OUTER};
    uint32_t number = pairs_pair(pairs, term >> 1);
    int way = mapper->plans->plan[number].way;
    int shape = pairs_shape(pairs, term >> 1);
    name_after(mapper, literal, pairs->source[pairs_signal(pairs, number, SHAPE_XOR)],
               steps[shape ^ way_base(way)]);
}

static Literal operand(Mapper *mapper, uint32_t number, int side, bool inverted) {
    return make(mapper, 2 * mapper->pairs->pair[number].operand[side] + (inverted ? 1 : 0));
}

static Literal inverse_of_product(Mapper *mapper, uint32_t number, int shape) {
    return make(mapper, 2 * pairs_signal(mapper->pairs, number, shape) + 1);
}

static Literal gate(Mapper *mapper, Literal x, Literal y) {
    return netlist_gate(mapper->mapped, mapper->kind, x, y);
}

static Literal make_product(Mapper *mapper, uint32_t number, int shape) {
    Plan plan = mapper->plans->plan[number];
    int way = plan.way;
    bool invert_x = (shape & 1) != 0, invert_y = (shape & 2) != 0;
    if (way >= WAY_APART || shape == way)
        return gate(mapper, operand(mapper, number, 0, invert_x),
                    operand(mapper, number, 1, invert_y));
    bool through_y = shape == (way ^ 1) || (shape == (way ^ 3) && plan.through_y);
    int from = shape == (way ^ 3) ? way ^ (plan.through_y ? 2 : 1) : way;
    Literal beside = inverse_of_product(mapper, number, from);
    return through_y ? gate(mapper, operand(mapper, number, 1, invert_y), beside)
                     : gate(mapper, operand(mapper, number, 0, invert_x), beside);
}

static Literal make_xor(Mapper *mapper, uint32_t number, bool inverted) {
    int way = mapper->plans->plan[number].way;
    if (inverted != way_inverts(way))
        return invert(mapper, make(mapper, 2 * pairs_signal(mapper->pairs, number, SHAPE_XOR) +
                                               (inverted ? 0 : 1)));
    int base = way_base(way);
    Literal first = inverse_of_product(mapper, number, base ^ 2);
    return gate(mapper, first, inverse_of_product(mapper, number, base ^ 1));
}

/* The selection's halves with their data inverted make the product of the inverses. */
static Literal make_by_others(Mapper *mapper, uint32_t number) {
    const Pairs *pairs = mapper->pairs;
    const Pair *pair = &pairs->pair[number];
    Literal half[2];
    uint32_t source = pairs->source[pairs_signal(pairs, number, SHAPE_PRODUCTS - 1)];
    for (int side = 0; side < 2; side++) {
        half[side] = make(mapper, 2 * pair->other[side] + 1);
        name_after(mapper, half[side], source, side == 0 ? HELP_FIRST : HELP_SECOND);
    }
    return gate(mapper, half[0], half[1]);
}

static Literal make_new(Mapper *mapper, Term term) {
    const Pairs *pairs = mapper->pairs;
    bool inverted = (term & 1) != 0;
    if (pairs_is_input(pairs, term >> 1))
        return invert(mapper, make(mapper, term ^ 1));
    uint32_t number = pairs_pair(pairs, term >> 1);
    int shape = pairs_shape(pairs, term >> 1);
    if (shape == SHAPE_XOR)
        return make_xor(mapper, number, inverted);
    bool by_others = mapper->plans->plan[number].by_others && shape == SHAPE_PRODUCTS - 1;
    if (inverted == by_others)
        return invert(mapper, make(mapper, term ^ 1));
    return by_others ? make_by_others(mapper, number) : make_product(mapper, number, shape);
}

/* The gate of a term; the gates before it are few, because what its operands need of them is there:
 * signals are made in the order of the source. */
static Literal make(Mapper *mapper, Term term) {
    assert(term < 2 * pairs_signals(mapper->pairs));
    if (mapper->made[term] == LITERAL_NONE) {
        Literal literal = make_new(mapper, term);
        assert(!literal_inverted(literal) || literal_is_constant(literal));
        mapper->made[term] = literal;
        name_gate(mapper, literal, term);
    }
    return mapper->made[term];
}

static void make_inputs(Mapper *mapper) {
    const Netlist *source = mapper->pairs->netlist;
    mapper->made[LITERAL_0] = LITERAL_0;
    mapper->made[LITERAL_1] = LITERAL_1;
    for (uint32_t k = 1; k <= mapper->pairs->inputs; k++)
        mapper->made[pairs_term(k, false)] =
            netlist_input(mapper->mapped, source->nodes[k].pin, source->nodes[k].bit);
    netlist_enter(mapper->mapped, PART_CONTROL, -1);
    for (uint32_t k = 1; k <= mapper->pairs->inputs; k++)
        if (source->nodes[k].pin < PIN_A && mapper->plans->readers[pairs_term(k, true)] > 0)
            make(mapper, pairs_term(k, true));
}

static void make_gates(Mapper *mapper) {
    const Pairs *pairs = mapper->pairs;
    for (uint32_t k = pairs->inputs + 1; k < pairs->netlist->node_count; k++) {
        const Node *node = &pairs->netlist->nodes[k];
        uint32_t signal = pairs->term[k] >> 1;
        netlist_enter(mapper->mapped, node->part, node->column);
        for (Term term = 2 * signal; pairs->source[signal] == k && term <= 2 * signal + 1; term++)
            if (mapper->plans->readers[term] > 0)
                make(mapper, term);
    }
}

static void make_outputs(Mapper *mapper, bool dual) {
    const Netlist *source = mapper->pairs->netlist;
    netlist_enter(mapper->mapped, PART_FLAGS, -1);
    for (uint32_t k = 0; k < source->output_count; k++) {
        const Output *output = &source->outputs[k];
        Term term = mapper->pairs->term[literal_node(output->literal)] ^ (output->literal & 1);
        bool constant = dual && term <= LITERAL_1 && !literal_is_constant(output->literal);
        netlist_output(mapper->mapped, output->pin, output->bit,
                       constant ? literal_not(term) : make(mapper, term));
    }
}

/* What has become of a literal of the record: its gate, or what makes its inverse. */
static Literal found_again(Literal literal, const void *how) {
    const Mapper *mapper = how;
    Term term = mapper->pairs->term[literal_node(literal)] ^ (literal & 1);
    if (term <= LITERAL_1) /* known after all; the dual's constants are the other way round */
        return mapper->kind == NODE_NOR ? literal_not(term) : term;
    if (mapper->made[term] != LITERAL_NONE)
        return mapper->made[term];
    Literal inverse = mapper->made[term ^ 1];
    return inverse == LITERAL_NONE ? LITERAL_NONE : literal_not(inverse);
}

void map_netlist(const Netlist *netlist, NodeKind kind, Netlist *mapped) {
    assert(kind == NODE_NAND || kind == NODE_NOR);
    Pairs pairs;
    Plans plans;
    pairs_find(netlist, kind == NODE_NOR, &pairs);
    plans_choose(&pairs, &plans);
    uint32_t terms = 2 * pairs_signals(&pairs);
    Mapper mapper = {&plans, &pairs, mapped, kind, memory_zeroed(terms, sizeof(Literal))};
    memset(mapper.made, 0xff, terms * sizeof mapper.made[0]);
    netlist_init(mapped);
    make_inputs(&mapper);
    make_gates(&mapper);
    make_outputs(&mapper, kind == NODE_NOR);
    if (netlist->core != NULL) {
        mapped->core = core_copy(netlist->core);
        core_change(mapped->core, found_again, &mapper);
    }
    memory_free(mapper.made);
    plans_free(&plans);
    pairs_free(&pairs);
}
