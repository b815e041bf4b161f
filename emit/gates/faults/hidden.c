/* See hidden.h. The question as clauses: the circuit without the fault and, from the fault on, a
 * second one with it; and a path of gates on which the two differ, from the fault to an output. */
#include "gates/faults/hidden.h"

#include "base/memory.h"
#include "gates/faults/solver.h"

#include <assert.h>

typedef struct {
    uint32_t cone;      /* gates from the fault on, */
    uint32_t inside;    /* nodes in all that a window holds at most, */
    uint64_t conflicts; /* and the bound on the search in it */
} Effort;

static const Effort efforts[] = {
    {50, 200, 1000}, {500, 2000, 4000}, {UINT32_MAX, UINT32_MAX, 20000}};

enum { EFFORTS = sizeof efforts / sizeof efforts[0] };

/* A window. Nodes have a variable each in what are arrays by node here, plus one; 0: none. */
typedef struct {
    const Netlist *netlist;
    const Readers *readers;
    Fault fault;
    uint32_t root;    /* the node that differs first */
    uint32_t *good;   /* without the fault: the nodes inside */
    uint32_t *faulty; /* with it: the cone; the next variable is true on the path of differences */
    uint32_t *inside; /* the nodes of the window; the cone comes first, from the root on, */
    uint32_t cone_count; /* ascending */
    uint32_t count;
    uint32_t expanded; /* so many of them are bound to their inputs, the others are free */
    bool complete;     /* nothing was left out */
    uint32_t variables;
    Solver *solver;
} Window;

/* ---- which nodes --------------------------------------------------------------------------- */

static void enter(Window *window, uint32_t node) {
    if (window->good[node] != 0)
        return;
    window->good[node] = ++window->variables;
    window->inside[window->count++] = node;
}

static void enter_cone(Window *window, uint32_t node) {
    enter(window, node);
    window->faulty[node] = window->variables + 1;
    window->variables += 2;
}

/* The root and the first gates behind it, by their numbers. An output pin has none. */
static void find_cone(Window *window, uint32_t limit) {
    const Netlist *netlist = window->netlist;
    if (window->fault.place == FAULT_PIN) {
        enter(window, window->root);
        return;
    }
    enter_cone(window, window->root);
    for (uint32_t k = window->root + 1; k < netlist->node_count; k++) {
        const Node *gate = &netlist->nodes[k];
        if (!netlist_is_gate(gate) || (window->faulty[literal_node(gate->in[0])] == 0 &&
                                       window->faulty[literal_node(gate->in[1])] == 0))
            continue;
        if (window->count == limit) {
            window->complete = false;
            break;
        }
        enter_cone(window, k);
    }
    window->cone_count = window->count;
}

/* What the nodes inside are made of, the nearest first. The gates of the cone read nodes inside
 * whatever the limit. */
static void find_sources(Window *window, uint32_t limit) {
    enter(window, 0);
    for (window->expanded = 0; window->expanded < window->count; window->expanded++) {
        const Node *node = &window->netlist->nodes[window->inside[window->expanded]];
        if (!netlist_is_gate(node))
            continue;
        if (window->expanded >= window->cone_count && window->count >= limit) {
            window->complete = false;
            return;
        }
        enter(window, literal_node(node->in[0]));
        enter(window, literal_node(node->in[1]));
    }
}

/* ---- clauses ------------------------------------------------------------------------------- */

static void require(Window *window, uint32_t x) {
    solver_clause(window->solver, &x, 1);
}

static void either(Window *window, uint32_t x, uint32_t y) {
    uint32_t clause[2] = {x, y};
    solver_clause(window->solver, clause, 2);
}

static void one_of(Window *window, uint32_t x, uint32_t y, uint32_t z) {
    uint32_t clause[3] = {x, y, z};
    solver_clause(window->solver, clause, 3);
}

static uint32_t good_literal(const Window *window, Literal literal) {
    assert(window->good[literal_node(literal)] != 0);
    return 2 * (window->good[literal_node(literal)] - 1) + (literal & 1);
}

static uint32_t faulty_literal(const Window *window, Literal literal) {
    uint32_t variable = window->faulty[literal_node(literal)];
    return variable == 0 ? good_literal(window, literal) : 2 * (variable - 1) + (literal & 1);
}

/* z is x and y. */
static void bind_and(Window *window, uint32_t z, uint32_t x, uint32_t y) {
    if (x / 2 == y / 2) {
        /* The two inputs of a gate that inverts, or a constant. */
        either(window, z ^ 1, x);
        either(window, z ^ 1, y);
        if (x == y)
            either(window, z, x ^ 1);
        return;
    }
    either(window, z ^ 1, x);
    either(window, z ^ 1, y);
    one_of(window, z, x ^ 1, y ^ 1);
}

/* z is x xor y. */
static void bind_xor(Window *window, uint32_t z, uint32_t x, uint32_t y) {
    if (x / 2 == y / 2) {
        require(window, x == y ? z ^ 1 : z);
        return;
    }
    one_of(window, z ^ 1, x, y);
    one_of(window, z ^ 1, x ^ 1, y ^ 1);
    one_of(window, z, x ^ 1, y);
    one_of(window, z, x, y ^ 1);
}

static void bind(Window *window, NodeKind kind, uint32_t z, uint32_t x, uint32_t y) {
    bool inverted = kind == NODE_NAND || kind == NODE_NOR || kind == NODE_XNOR;
    z ^= inverted ? 1 : 0;
    if (kind == NODE_XOR || kind == NODE_XNOR)
        bind_xor(window, z, x, y);
    else if (kind == NODE_AND || kind == NODE_NAND)
        bind_and(window, z, x, y);
    else
        bind_and(window, z ^ 1, x ^ 1, y ^ 1);
}

/* At most one operation is requested. */
static void bind_requests(Window *window) {
    for (uint32_t i = 1; i < window->netlist->node_count; i++)
        for (uint32_t k = i + 1; k < window->netlist->node_count; k++) {
            const Node *first = &window->netlist->nodes[i], *second = &window->netlist->nodes[k];
            if (first->kind != NODE_INPUT || first->pin >= PIN_DO + OP_COUNT ||
                second->kind != NODE_INPUT || second->pin >= PIN_DO + OP_COUNT)
                break;
            if (first->pin >= PIN_DO && second->pin >= PIN_DO && window->good[i] != 0 &&
                window->good[k] != 0)
                either(window, good_literal(window, 2 * i + 1), good_literal(window, 2 * k + 1));
        }
}

static void bind_circuit(Window *window) {
    require(window, good_literal(window, LITERAL_1));
    for (uint32_t k = 0; k < window->expanded; k++) {
        uint32_t node = window->inside[k];
        const Node *gate = &window->netlist->nodes[node];
        if (netlist_is_gate(gate))
            bind(window, gate->kind, good_literal(window, 2 * node),
                 good_literal(window, gate->in[0]), good_literal(window, gate->in[1]));
    }
    bind_requests(window);
}

/* The place gets the level that the fault does not have; what it is with the fault. */
static void bind_fault(Window *window) {
    assert(window->fault.place != FAULT_PIN && window->faulty[window->root] != 0);
    const Node *root = &window->netlist->nodes[window->root];
    Literal stuck = window->fault.level ? LITERAL_1 : LITERAL_0;
    if (window->fault.place == FAULT_WIRE) {
        require(window, good_literal(window, 2 * window->root) ^ (stuck & 1));
        require(window, faulty_literal(window, 2 * window->root) ^ 1 ^ (stuck & 1));
        return;
    }
    int side = window->fault.place == FAULT_INPUT_0 ? 0 : 1;
    Literal other = root->in[1 - side];
    require(window, good_literal(window, root->in[side]) ^ (stuck & 1));
    bind(window, root->kind, faulty_literal(window, 2 * window->root), good_literal(window, stuck),
         good_literal(window, other));
}

/* The gates behind the root, with the fault. */
static void bind_faulty(Window *window) {
    for (uint32_t k = 1; k < window->cone_count; k++) {
        uint32_t node = window->inside[k];
        const Node *gate = &window->netlist->nodes[node];
        bind(window, gate->kind, faulty_literal(window, 2 * node),
             faulty_literal(window, gate->in[0]), faulty_literal(window, gate->in[1]));
    }
}

static bool leaves(const Window *window, uint32_t node) {
    assert(window->faulty[node] != 0);
    const Readers *readers = window->readers;
    if (readers->outputs[node] > 0)
        return true;
    for (uint32_t r = readers->first[node]; r < readers->first[node + 1]; r++)
        if (window->faulty[readers->reader[r] / 2] == 0)
            return true;
    return false;
}

/* On the path: the node differs, and unless it leaves the window so does one of its readers. */
static void bind_path(Window *window, uint32_t node, uint32_t *clause) {
    uint32_t differs = 2 * window->faulty[node];
    uint32_t good = good_literal(window, 2 * node), faulty = faulty_literal(window, 2 * node);
    one_of(window, differs ^ 1, good, faulty);
    one_of(window, differs ^ 1, good ^ 1, faulty ^ 1);
    if (leaves(window, node))
        return;
    const Readers *readers = window->readers;
    uint32_t count = 0;
    clause[count++] = differs ^ 1;
    for (uint32_t r = readers->first[node]; r < readers->first[node + 1]; r++) {
        uint32_t reader = 2 * window->faulty[readers->reader[r] / 2];
        if (clause[count - 1] != reader) /* both inputs of one gate */
            clause[count++] = reader;
    }
    solver_clause(window->solver, clause, count);
}

static void bind_difference(Window *window) {
    uint32_t *clause = memory_zeroed((size_t)window->variables + 1, sizeof *clause);
    bind_fault(window);
    bind_faulty(window);
    require(window, 2 * window->faulty[window->root]);
    for (uint32_t k = 0; k < window->cone_count; k++)
        bind_path(window, window->inside[k], clause);
    memory_free(clause);
}

/* ---- the search ---------------------------------------------------------------------------- */

static uint32_t root_of(const Netlist *netlist, Fault fault) {
    return fault.place == FAULT_PIN ? literal_node(netlist->outputs[fault.index].literal)
                                    : fault.index;
}

static FaultState search_window(Window *window, const Effort *effort) {
    find_cone(window, effort->cone);
    find_sources(window, effort->inside);
    window->solver = solver_new(window->variables);
    bind_circuit(window);
    if (window->fault.place == FAULT_PIN)
        require(window,
                good_literal(window, window->netlist->outputs[window->fault.index].literal) ^
                    (window->fault.level ? 1 : 0));
    else
        bind_difference(window);
    SolverAnswer answer = solver_run(window->solver, effort->conflicts);
    solver_free(window->solver);
    if (answer == SOLVER_IMPOSSIBLE)
        return FAULT_HIDDEN;
    return answer == SOLVER_POSSIBLE && window->complete ? FAULT_MISSED : FAULT_UNDECIDED;
}

FaultState hidden_search(const Netlist *netlist, const Readers *readers, Fault fault, bool whole) {
    FaultState state = FAULT_UNDECIDED;
    int windows = whole ? EFFORTS : EFFORTS - 1;
    for (int k = 0; k < windows && state == FAULT_UNDECIDED; k++) {
        Window window = {.netlist = netlist, .readers = readers, .fault = fault, .complete = true};
        window.root = root_of(netlist, fault);
        window.good = memory_zeroed(netlist->node_count, sizeof *window.good);
        window.faulty = memory_zeroed(netlist->node_count, sizeof *window.faulty);
        window.inside = memory_zeroed(netlist->node_count, sizeof *window.inside);
        state = search_window(&window, &efforts[k]);
        memory_free(window.good);
        memory_free(window.faulty);
        memory_free(window.inside);
    }
    return state;
}
