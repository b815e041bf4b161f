/* See solver.h. */
#include "gates/faults/solver.h"

#include "base/memory.h"

#include <assert.h>
#include <string.h>

enum { UNSET = 2, RESTART_CONFLICTS = 64 };

static const uint32_t NO_CLAUSE = UINT32_MAX;

/* Clauses, by where they start in the arena, in which a literal is watched. */
typedef struct {
    uint32_t *clause;
    uint32_t count;
    size_t room;
} Watchers;

struct Solver {
    uint32_t variables;
    bool contradiction; /* a clause is empty, or facts disagree */
    uint32_t *arena;    /* clauses: length, then literals, the two watched ones first */
    size_t arena_count;
    size_t arena_room;
    Watchers *watchers;   /* by literal */
    unsigned char *value; /* by variable: 0, 1 or UNSET */
    unsigned char *phase; /* the value that it had last */
    uint32_t *reason;     /* the clause that gave the value, or NO_CLAUSE */
    uint32_t *level;      /* the number of decisions before it */
    uint32_t *trail;      /* literals in the order in which they became true */
    uint32_t trail_count;
    uint32_t propagated; /* trail literals whose consequences have been drawn */
    uint32_t *decision;  /* where in the trail each decision stands */
    uint32_t decisions;
    double *activity; /* by variable: how much of late it took part in conflicts */
    double step;
    uint32_t *heap;  /* variables, the most active first; all that are UNSET and others */
    uint32_t *place; /* by variable: where in the heap, or NO_CLAUSE */
    uint32_t heap_count;
    unsigned char *marked; /* by variable, while a conflict is analysed */
    uint32_t *learnt;
};

Solver *solver_new(uint32_t variables) {
    Solver *solver = memory_zeroed(1, sizeof *solver);
    size_t count = (size_t)variables + 1;
    solver->variables = variables;
    solver->watchers = memory_zeroed(2 * count, sizeof *solver->watchers);
    solver->value = memory_zeroed(count, 1);
    memset(solver->value, UNSET, count);
    solver->phase = memory_zeroed(count, 1);
    solver->reason = memory_zeroed(count, sizeof *solver->reason);
    solver->level = memory_zeroed(count, sizeof *solver->level);
    solver->trail = memory_zeroed(count, sizeof *solver->trail);
    solver->decision = memory_zeroed(count, sizeof *solver->decision);
    solver->activity = memory_zeroed(count, sizeof *solver->activity);
    solver->step = 1;
    solver->heap = memory_zeroed(count, sizeof *solver->heap);
    solver->place = memory_zeroed(count, sizeof *solver->place);
    solver->marked = memory_zeroed(count, 1);
    solver->learnt = memory_zeroed(count, sizeof *solver->learnt);
    for (uint32_t k = 0; k < variables; k++)
        solver->heap[k] = solver->place[k] = k;
    solver->heap_count = variables;
    return solver;
}

void solver_free(Solver *solver) {
    for (uint32_t k = 0; k < 2 * solver->variables; k++)
        memory_free(solver->watchers[k].clause);
    memory_free(solver->watchers);
    memory_free(solver->arena);
    memory_free(solver->value);
    memory_free(solver->phase);
    memory_free(solver->reason);
    memory_free(solver->level);
    memory_free(solver->trail);
    memory_free(solver->decision);
    memory_free(solver->activity);
    memory_free(solver->heap);
    memory_free(solver->place);
    memory_free(solver->marked);
    memory_free(solver->learnt);
    memory_free(solver);
}

/* ---- the heap of variables ----------------------------------------------------------------- */

static void heap_put(Solver *solver, uint32_t at, uint32_t variable) {
    assert(variable < solver->variables);
    solver->heap[at] = variable;
    solver->place[variable] = at;
}

static void heap_rise(Solver *solver, uint32_t at) {
    uint32_t variable = solver->heap[at];
    for (; at > 0; at = (at - 1) / 2) {
        uint32_t above = solver->heap[(at - 1) / 2];
        if (solver->activity[above] >= solver->activity[variable])
            break;
        heap_put(solver, at, above);
    }
    heap_put(solver, at, variable);
}

static void heap_sink(Solver *solver, uint32_t at) {
    uint32_t variable = solver->heap[at];
    for (uint32_t below; (below = 2 * at + 1) < solver->heap_count; at = below) {
        if (below + 1 < solver->heap_count &&
            solver->activity[solver->heap[below + 1]] > solver->activity[solver->heap[below]])
            below++;
        if (solver->activity[solver->heap[below]] <= solver->activity[variable])
            break;
        heap_put(solver, at, solver->heap[below]);
    }
    heap_put(solver, at, variable);
}

static void heap_insert(Solver *solver, uint32_t variable) {
    if (solver->place[variable] != NO_CLAUSE)
        return;
    heap_put(solver, solver->heap_count++, variable);
    heap_rise(solver, solver->place[variable]);
}

static uint32_t heap_take(Solver *solver) {
    assert(solver->heap_count > 0);
    uint32_t variable = solver->heap[0];
    solver->place[variable] = NO_CLAUSE;
    if (--solver->heap_count > 0) {
        heap_put(solver, 0, solver->heap[solver->heap_count]);
        heap_sink(solver, 0);
    }
    return variable;
}

static void bump(Solver *solver, uint32_t variable) {
    solver->activity[variable] += solver->step;
    if (solver->activity[variable] > 1e100) {
        for (uint32_t k = 0; k < solver->variables; k++)
            solver->activity[k] *= 1e-100;
        solver->step *= 1e-100;
    }
    if (solver->place[variable] != NO_CLAUSE)
        heap_rise(solver, solver->place[variable]);
}

/* ---- clauses and their consequences -------------------------------------------------------- */

/* 1 true, 0 false, UNSET. */
static unsigned literal_value(const Solver *solver, uint32_t literal) {
    unsigned value = solver->value[literal / 2];
    return value == UNSET ? UNSET : value ^ (literal & 1);
}

static void make_true(Solver *solver, uint32_t literal, uint32_t reason) {
    uint32_t variable = literal / 2;
    assert(solver->value[variable] == UNSET);
    solver->value[variable] = (literal & 1) == 0;
    solver->reason[variable] = reason;
    solver->level[variable] = solver->decisions;
    solver->trail[solver->trail_count++] = literal;
}

static void watch(Solver *solver, uint32_t literal, uint32_t clause) {
    Watchers *watchers = &solver->watchers[literal];
    watchers->clause = memory_grow(watchers->clause, &watchers->room, watchers->count + 1u,
                                   sizeof watchers->clause[0]);
    watchers->clause[watchers->count++] = clause;
}

/* A clause of two literals or more; where it starts. */
static uint32_t store(Solver *solver, const uint32_t *literals, uint32_t count) {
    assert(count >= 2);
    solver->arena = memory_grow(solver->arena, &solver->arena_room, solver->arena_count + count + 1,
                                sizeof solver->arena[0]);
    uint32_t clause = (uint32_t)solver->arena_count;
    solver->arena[solver->arena_count++] = count;
    memcpy(solver->arena + solver->arena_count, literals, count * sizeof *literals);
    solver->arena_count += count;
    watch(solver, literals[0], clause);
    watch(solver, literals[1], clause);
    return clause;
}

void solver_clause(Solver *solver, const uint32_t *literals, uint32_t count) {
    if (count > 1)
        store(solver, literals, count);
    else if (count == 0 || literal_value(solver, literals[0]) == 0)
        solver->contradiction = true;
    else if (literal_value(solver, literals[0]) == UNSET)
        make_true(solver, literals[0], NO_CLAUSE);
}

/* Finds another literal to watch in place of the second, which is false. */
static bool move_watch(Solver *solver, uint32_t clause) {
    uint32_t *literals = solver->arena + clause + 1;
    for (uint32_t k = 2; k < solver->arena[clause]; k++)
        if (literal_value(solver, literals[k]) != 0) {
            uint32_t found = literals[k];
            literals[k] = literals[1];
            literals[1] = found;
            watch(solver, found, clause);
            return true;
        }
    return false;
}

/* Draws the consequences of a literal that has become false; the clause that has no true literal
 * left, or NO_CLAUSE. */
static uint32_t propagate_false(Solver *solver, uint32_t literal) {
    assert(literal_value(solver, literal) == 0);
    Watchers *watchers = &solver->watchers[literal];
    uint32_t kept = 0, conflict = NO_CLAUSE;
    for (uint32_t k = 0; k < watchers->count; k++) {
        uint32_t clause = watchers->clause[k];
        uint32_t *literals = solver->arena + clause + 1;
        if (conflict == NO_CLAUSE && literals[0] == literal) {
            literals[0] = literals[1];
            literals[1] = literal;
        }
        bool moved = conflict == NO_CLAUSE && literal_value(solver, literals[0]) != 1 &&
                     move_watch(solver, clause);
        if (moved)
            continue;
        watchers->clause[kept++] = clause;
        if (conflict != NO_CLAUSE || literal_value(solver, literals[0]) == 1)
            continue;
        if (literal_value(solver, literals[0]) == 0)
            conflict = clause;
        else
            make_true(solver, literals[0], clause);
    }
    watchers->count = kept;
    return conflict;
}

static uint32_t propagate(Solver *solver) {
    uint32_t conflict = NO_CLAUSE;
    while (conflict == NO_CLAUSE && solver->propagated < solver->trail_count)
        conflict = propagate_false(solver, solver->trail[solver->propagated++] ^ 1);
    return conflict;
}

/* ---- conflicts ----------------------------------------------------------------------------- */

static void take_back(Solver *solver, uint32_t decisions) {
    if (solver->decisions <= decisions)
        return;
    uint32_t kept = solver->decision[decisions];
    while (solver->trail_count > kept) {
        uint32_t variable = solver->trail[--solver->trail_count] / 2;
        solver->phase[variable] = solver->value[variable];
        solver->value[variable] = UNSET;
        heap_insert(solver, variable);
    }
    solver->propagated = kept;
    solver->decisions = decisions;
}

/* Marks the literals of a clause that are false; those of earlier decisions go into the learnt
 * clause. How many there are of the last decision. */
static uint32_t mark_clause(Solver *solver, uint32_t clause, uint32_t *learnt_count) {
    uint32_t here = 0;
    for (uint32_t k = 1; k <= solver->arena[clause]; k++) {
        uint32_t literal = solver->arena[clause + k], variable = literal / 2;
        if (literal_value(solver, literal) != 0 || solver->marked[variable] ||
            solver->level[variable] == 0)
            continue;
        solver->marked[variable] = 1;
        bump(solver, variable);
        if (solver->level[variable] == solver->decisions)
            here++;
        else
            solver->learnt[(*learnt_count)++] = literal;
    }
    return here;
}

/* The clause that the conflict teaches, in learnt: first the one literal of the last decision, then
 * one of the latest decision before; their number is returned. */
static uint32_t analyse(Solver *solver, uint32_t conflict) {
    assert(conflict != NO_CLAUSE && solver->decisions > 0);
    uint32_t count = 1, open = 0, at = solver->trail_count, clause = conflict, literal = 0;
    do {
        open += mark_clause(solver, clause, &count);
        do
            literal = solver->trail[--at];
        while (!solver->marked[literal / 2]);
        solver->marked[literal / 2] = 0;
        clause = solver->reason[literal / 2];
    } while (--open > 0);
    solver->learnt[0] = literal ^ 1;
    for (uint32_t k = 1; k < count; k++) {
        uint32_t other = solver->learnt[k];
        solver->marked[other / 2] = 0;
        if (solver->level[other / 2] > solver->level[solver->learnt[1] / 2]) {
            solver->learnt[k] = solver->learnt[1];
            solver->learnt[1] = other;
        }
    }
    return count;
}

static void learn(Solver *solver, uint32_t conflict) {
    uint32_t count = analyse(solver, conflict);
    uint32_t reason = NO_CLAUSE;
    take_back(solver, count == 1 ? 0 : solver->level[solver->learnt[1] / 2]);
    if (count > 1)
        reason = store(solver, solver->learnt, count);
    make_true(solver, solver->learnt[0], reason);
    solver->step *= 1 / 0.95;
}

static bool decide(Solver *solver) {
    while (solver->heap_count > 0) {
        uint32_t variable = heap_take(solver);
        if (solver->value[variable] != UNSET)
            continue;
        solver->decision[solver->decisions++] = solver->trail_count;
        make_true(solver, 2 * variable + (solver->phase[variable] == 0 ? 1 : 0), NO_CLAUSE);
        return true;
    }
    return false;
}

SolverAnswer solver_run(Solver *solver, uint64_t conflicts) {
    uint64_t restart = RESTART_CONFLICTS, since = 0;
    while (!solver->contradiction) {
        uint32_t conflict = propagate(solver);
        if (conflict != NO_CLAUSE) {
            if (solver->decisions == 0)
                return SOLVER_IMPOSSIBLE;
            if (conflicts-- == 0)
                return SOLVER_UNDECIDED;
            learn(solver, conflict);
            since++;
        } else if (since >= restart) {
            take_back(solver, 0);
            since = 0;
            restart += restart / 2;
        } else if (!decide(solver)) {
            return SOLVER_POSSIBLE;
        }
    }
    return SOLVER_IMPOSSIBLE;
}

bool solver_value(const Solver *solver, uint32_t variable) {
    assert(variable < solver->variables);
    return solver->value[variable] == 1;
}
