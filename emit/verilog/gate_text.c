/* See gate_text.h. */
#include "verilog/gate_text.h"

#include "base/memory.h"
#include "base/text.h"
#include "verilog/identifier.h"

#include <stdio.h>
#include <string.h>

enum { STEMS = 32 };

/* A stem as it is written where a pin has its name. */
typedef struct {
    const char *stem;
    Help help;
    bool numbered;
    Identifier identifier;
} Stem;

/* The output that a gate drives first gives its wire the name; the others are assigned. */
typedef struct {
    const Unit *unit;
    const Netlist *netlist;
    const char *const *source; /* of each pin: what stands for it inside */
    uint32_t *output_of;       /* node -> number of the output that names it, or UINT32_MAX */
    size_t *wire_at;           /* node -> where its wire's name begins in names */
    TextBuffer names;
    Stem stem[STEMS]; /* those met last */
    unsigned stems;   /* all that were met */
} Gates;

/* The name of what stands for a pin's bit inside. */
static void put_pin(TextBuffer *to, const Gates *gates, Pin pin, unsigned bit) {
    bool word = pin == PIN_A || pin == PIN_B || pin == PIN_RESULT;
    text_add(to, gates->source[pin]);
    if (word || unit_pin_bits(gates->unit, pin) > 1)
        text_printf(to, "[%u]", bit);
}

/* What a gate does for the one that it is called after; "not" stands before. */
static const char *const steps[HELP_COUNT] = {
    [HELP_NONE] = "",        [HELP_INVERSE] = "",       [HELP_INNER] = "_inner",
    [HELP_FIRST] = "_first", [HELP_SECOND] = "_second", [HELP_OUTER] = "_outer"};

typedef struct {
    const char *stem;
    Help help;
    int index; /* -1: none */
    int low;
} GateName;

/* The inverter of an input is called after its pin, a gate without a role after its place in the
 * netlist. */
static GateName gate_name(const Gates *gates, uint32_t index) {
    const Node *node = &gates->netlist->nodes[index];
    const Node *read = &gates->netlist->nodes[literal_node(node->in[0])];
    if (node->role != ROLE_NONE)
        return (GateName){role_text(node->role), node->help, node->index, node->low};
    GateName name = {.stem = "term", .index = (int)index, .low = -1};
    if (node->in[0] != node->in[1] || read->kind != NODE_INPUT)
        return name;
    bool single = unit_pin_bits(gates->unit, read->pin) == 1 && read->pin < PIN_A;
    return (GateName){.stem = unit_role(gates->unit, read->pin),
                      .help = HELP_INVERSE,
                      .index = single ? -1 : (int)read->bit,
                      .low = -1};
}

/* A stem with what stands around it, where no pin is called so. Kept: many gates ask for few. */
static const char *free_stem(Gates *gates, const GateName *name, bool numbered) {
    for (unsigned k = 0; k < STEMS && k < gates->stems; k++) {
        const Stem *known = &gates->stem[k];
        if (known->stem == name->stem && known->help == name->help && known->numbered == numbered)
            return known->identifier.text;
    }
    char called[64];
    snprintf(called, sizeof called, "%s%s%s", name->help == HELP_INVERSE ? "not_" : "", name->stem,
             steps[name->help]);
    Stem *stem = &gates->stem[gates->stems++ % STEMS];
    *stem =
        (Stem){name->stem, name->help, numbered, identifier_free(gates->unit, called, numbered)};
    return stem->identifier.text;
}

static void put_name(TextBuffer *to, Gates *gates, uint32_t index) {
    const Node *node = &gates->netlist->nodes[index];
    uint32_t names = gates->output_of[index];
    if (node->kind == NODE_INPUT) {
        put_pin(to, gates, node->pin, node->bit);
        return;
    }
    if (names != UINT32_MAX) {
        put_pin(to, gates, gates->netlist->outputs[names].pin, gates->netlist->outputs[names].bit);
        return;
    }
    GateName name = gate_name(gates, index);
    text_add(to, free_stem(gates, &name, name.index >= 0));
    if (name.index >= 0)
        text_printf(to, "_%d", name.index);
    if (name.low >= 0)
        text_printf(to, "_%d", name.low);
}

/* Names every wire; each is asked for several times. */
static void name_wires(Gates *gates) {
    uint32_t count = gates->netlist->node_count;
    gates->wire_at = memory_zeroed(count, sizeof gates->wire_at[0]);
    for (uint32_t k = 1; k < count; k++) {
        gates->wire_at[k] = gates->names.length;
        put_name(&gates->names, gates, k);
        text_add_bytes(&gates->names, "", 1);
    }
}

static const char *node_wire(const Gates *gates, uint32_t index) {
    return gates->names.text + gates->wire_at[index];
}

/* A literal is written as these two, one after the other. */
static const char *literal_sign(Literal literal) {
    return !literal_is_constant(literal) && literal_inverted(literal) ? "~" : "";
}

static const char *literal_wire(const Gates *gates, Literal literal) {
    if (literal_is_constant(literal))
        return literal == LITERAL_1 ? "1'b1" : "1'b0";
    return node_wire(gates, literal_node(literal));
}

/* The gate as an expression, and what it reads, for those that are instances. */
static void add_gate(const Gates *gates, const Node *gate, Facts *row) {
    static const struct {
        const char *before, *between, *after;
    } forms[NODE_KIND_COUNT] = {[NODE_AND] = {"", " & ", ""},    [NODE_OR] = {"", " | ", ""},
                                [NODE_XOR] = {"", " ^ ", ""},    [NODE_NAND] = {"~(", " & ", ")"},
                                [NODE_NOR] = {"~(", " | ", ")"}, [NODE_XNOR] = {"~(", " ^ ", ")"}};
    Literal p = gate->in[0], q = gate->in[1];
    const char *x = literal_wire(gates, p), *y = literal_wire(gates, q);
    const char *expression[] = {forms[gate->kind].before,  literal_sign(p), x,
                                forms[gate->kind].between, literal_sign(q), y,
                                forms[gate->kind].after};
    facts_join(row, "expression", expression, sizeof expression / sizeof expression[0]);
    if (gates->unit->detail == DETAIL_GATES)
        return;
    const char *reads[] = {literal_sign(p), x, ", ", literal_sign(q), y};
    facts_join(row, "reads", reads, sizeof reads / sizeof reads[0]);
}

static bool same_part(const Node *gate, const Node *other) {
    return gate->part == other->part && gate->column == other->column;
}

static void add_names(Facts *row, bool first, TextBuffer *names, const char *end) {
    Facts *line = facts_row(row, "declared");
    facts_flag(line, "first_line", first);
    facts_text(line, "names", "%s%s", names->text, end);
    text_free(names);
}

/* Declares the wires of the part that begins with a gate, as many in a line as there is room for.
 */
static void declare_part(const Gates *gates, uint32_t first, Facts *row) {
    enum { LINE = 92 }; /* characters beside the indentation */
    const Netlist *netlist = gates->netlist;
    TextBuffer line = {0};
    bool begins = true;
    for (uint32_t k = first; k < netlist->node_count; k++) {
        if (!same_part(&netlist->nodes[k], &netlist->nodes[first]))
            break;
        if (gates->output_of[k] != UINT32_MAX)
            continue;
        const char *wire = node_wire(gates, k);
        if (line.length > 0 && line.length + strlen(wire) + 2 > LINE) {
            add_names(row, begins, &line, ",");
            begins = false;
        }
        text_add(&line, line.length > 0 ? ", " : "");
        text_add(&line, wire);
    }
    if (line.length > 0)
        add_names(row, begins, &line, ";");
}

/* Where a part begins; the rows in between see that none does, which the whole file says. */
static void add_part(Facts *row, const Node *gate, const Node *before) {
    static const char *const parts[] = {
        [PART_CONTROL] = "part.control", [PART_OPERANDS] = "part.operands",
        [PART_COLUMNS] = "part.column",  [PART_LEVELS] = "part.level",
        [PART_GROUPS] = "part.group",    [PART_SUMS] = "part.sums",
        [PART_FLAGS] = "part.flags"};
    if (before != NULL && same_part(gate, before))
        return;
    facts_flag(row, "part", true);
    facts_flag(row, parts[gate->part], true);
    facts_text(row, "column", "%d", gate->column);
}

static void no_part(Facts *facts) {
    facts_flag(facts, "part", false);
    facts_flag(facts, "part.control", false);
    facts_flag(facts, "part.operands", false);
    facts_flag(facts, "part.column", false);
    facts_flag(facts, "part.level", false);
    facts_flag(facts, "part.group", false);
    facts_flag(facts, "part.sums", false);
    facts_flag(facts, "part.flags", false);
    facts_flag(facts, "column", false);
}

static void add_output(const Gates *gates, const Output *output, bool first, Facts *facts) {
    Facts *row = facts_row(facts, "line");
    Node flags = {.part = PART_FLAGS, .column = -1};
    add_part(row, &flags, first ? NULL : &flags);
    facts_flag(row, "declares", false);
    facts_flag(row, "is_gate", false);
    TextBuffer target = {0};
    put_pin(&target, gates, output->pin, output->bit);
    facts_text(row, "target", "%s", target.text);
    text_free(&target);
    facts_text(row, "expression", "%s%s", literal_sign(output->literal),
               literal_wire(gates, output->literal));
}

static void add_gates(Gates *gates, Facts *facts) {
    const Netlist *netlist = gates->netlist;
    const Node *before = NULL;
    no_part(facts);
    facts_flag(facts, "declares", true);
    facts_flag(facts, "is_gate", true);
    facts_list(facts, "declared");
    facts_list(facts, "line");
    for (uint32_t k = 0; k < netlist->node_count; k++) {
        const Node *gate = &netlist->nodes[k];
        if (!netlist_is_gate(gate))
            continue;
        Facts *row = facts_row(facts, "line");
        add_part(row, gate, before);
        if (gates->unit->detail != DETAIL_GATES && (before == NULL || !same_part(gate, before)))
            declare_part(gates, k, row);
        if (gates->output_of[k] != UINT32_MAX)
            facts_flag(row, "declares", false);
        const char *target = node_wire(gates, k);
        facts_join(row, "target", &target, 1);
        add_gate(gates, gate, row);
        before = gate;
    }
    bool first = before == NULL || before->part != PART_FLAGS;
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        const Output *output = &netlist->outputs[k];
        if (gates->output_of[literal_node(output->literal)] == k)
            continue;
        add_output(gates, output, first, facts);
        first = false;
    }
}

/* A pin that nothing reads, because no operation depends on it, goes to a wire that says so. */
static void add_unread(const Gates *gates, const unsigned char *read, Facts *facts) {
    const Netlist *netlist = gates->netlist;
    facts_list(facts, "unread");
    for (uint32_t k = 1; k < netlist->node_count; k++) {
        const Node *node = &netlist->nodes[k];
        if (node->kind != NODE_INPUT || read[k] != 0)
            continue;
        char name[64];
        snprintf(name, sizeof name, "unused_%s", unit_role(gates->unit, node->pin));
        Identifier stem = identifier_free(gates->unit, name, true);
        Facts *row = facts_row(facts, "unread");
        facts_text(row, "unused", "%s_%u", stem.text, node->bit);
        facts_text(row, "bit", "%s", node_wire(gates, k));
    }
}

void gate_text(const Unit *unit, const Netlist *netlist, const char *const source[PIN_COUNT],
               Facts *facts) {
    Gates gates = {.unit = unit, .netlist = netlist, .source = source};
    gates.output_of = memory_zeroed(netlist->node_count, sizeof gates.output_of[0]);
    memset(gates.output_of, 0xff, netlist->node_count * sizeof gates.output_of[0]);
    unsigned char *read = memory_zeroed(netlist->node_count, 1);
    for (uint32_t k = 0; k < netlist->node_count; k++)
        for (int side = 0; side < 2 && netlist_is_gate(&netlist->nodes[k]); side++)
            read[literal_node(netlist->nodes[k].in[side])] = 1;
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        Literal literal = netlist->outputs[k].literal;
        uint32_t node = literal_node(literal);
        /* A bit of the result that another gate reads keeps a wire of its own: a simulator would
         * tell every reader of the vector of every bit, and some tools see a loop in a vector whose
         * bits read one another. The sign stays a sum. */
        Pin pin = netlist->outputs[k].pin;
        bool own = pin == PIN_RESULT ? !read[node] : pin != PIN_FLAG + FLAG_NEGATIVE;
        if (netlist_is_gate(&netlist->nodes[node]) && own && !literal_inverted(literal) &&
            gates.output_of[node] == UINT32_MAX)
            gates.output_of[node] = k;
    }
    for (uint32_t k = 0; k < netlist->output_count; k++)
        read[literal_node(netlist->outputs[k].literal)] = 1;
    name_wires(&gates);
    add_unread(&gates, read, facts);
    memory_free(read);
    add_gates(&gates, facts);
    memory_free(gates.output_of);
    memory_free(gates.wire_at);
    text_free(&gates.names);
}
