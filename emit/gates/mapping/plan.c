/* See plan.h. One pass over all pairs, from the outputs to the inputs, in which each takes what is
 * cheapest given what its readers have chosen. Then the whole is improved pair by pair: another
 * plan is tried, the pairs of which it reads other terms choose again, and so on; if the whole has
 * become smaller it stays. (The improvement is worth its time: without it a netlist has 3 % more
 * gates, a lookahead or Sklansky adder 5 %. More passes before it, from other beginnings, are not:
 * they take as long again for 0.03 %.) */
#include "gates/mapping/plan.h"

#include "base/memory.h"

#include <assert.h>
#include <string.h>

/* What a pair does now. */
typedef struct {
    Plan plan;
    Effort effort; /* the gates of a selection by its other products included */
} Decision;

typedef struct {
    const Pairs *pairs;
    Decision *decided; /* of each pair */
    uint32_t *readers; /* of each term: by pairs that have decided, and outputs */
    uint32_t *shared;  /* of each signal: how many pairs it is in */
    uint64_t gates;    /* of the whole */
} Planner;

/* A gate, in the unit of prices. */
enum { GATE = 64 };

/* The last of the products, the one that may be a selection. */
enum { SELECTION = SHAPE_PRODUCTS - 1 };

/* ---- what a plan takes --------------------------------------------------------------------- */

/* The term of one of a pair's signals. */
static Term term_of(const Planner *planner, uint32_t number, int shape, bool inverted) {
    return pairs_term(pairs_signal(planner->pairs, number, shape), inverted);
}

static bool is_read(const Planner *planner, uint32_t number, int shape, bool inverted) {
    return planner->readers[term_of(planner, number, shape, inverted)] > 0;
}

/* Gates that a selection takes behind its halves where they are its other products: it comes plain
 * then. */
static unsigned gates_behind(const Planner *planner, uint32_t number) {
    if (!planner->pairs->pair[number].selects)
        return 0;
    if (is_read(planner, number, SELECTION, true))
        return 2;
    return is_read(planner, number, SELECTION, false) ? 1 : 0;
}

static Wanted wanted_of(const Planner *planner, uint32_t number, bool by_others) {
    Wanted wanted = {0};
    for (int shape = 0; shape < SHAPE_PRODUCTS - (by_others ? 1 : 0); shape++) {
        wanted.plain |= (Set)is_read(planner, number, shape, false) << shape;
        wanted.inverses |= (Set)is_read(planner, number, shape, true) << shape;
    }
    wanted.differ[0] = is_read(planner, number, SHAPE_XOR, false);
    wanted.differ[1] = is_read(planner, number, SHAPE_XOR, true);
    return wanted;
}

/* What a plan takes where this is wanted. */
static Decision decide_for(const Planner *planner, uint32_t number, const Wanted *wanted,
                           Plan plan) {
    Decision decision = {plan, way_effort(wanted, plan.way, plan.through_y)};
    if (plan.by_others)
        decision.effort.gates += gates_behind(planner, number);
    return decision;
}

static Decision decide(const Planner *planner, uint32_t number, Plan plan) {
    Wanted wanted = wanted_of(planner, number, plan.by_others);
    return decide_for(planner, number, &wanted, plan);
}

enum { TERMS_READ = 6 };

/* The terms that a pair reads; their number. */
static int terms_read(const Planner *planner, uint32_t number, const Decision *decision,
                      Term term[TERMS_READ]) {
    const Pair *pair = &planner->pairs->pair[number];
    int count = 0;
    for (unsigned bit = 0; bit < 4; bit++)
        if (decision->effort.terms >> bit & 1)
            term[count++] = pairs_term(pair->operand[bit / 2], bit % 2 == 1);
    for (int side = 0; side < 2 && decision->plan.by_others; side++)
        term[count++] = pairs_term(pair->other[side], true);
    return count;
}

static void read_terms(Planner *planner, uint32_t number) {
    Term term[TERMS_READ];
    int count = terms_read(planner, number, &planner->decided[number], term);
    for (int k = 0; k < count; k++)
        planner->readers[term[k]]++;
}

static void leave_terms(Planner *planner, uint32_t number) {
    Term term[TERMS_READ];
    int count = terms_read(planner, number, &planner->decided[number], term);
    for (int k = 0; k < count; k++) {
        assert(planner->readers[term[k]] > 0);
        planner->readers[term[k]]--;
    }
}

/* ---- prices -------------------------------------------------------------------------------- */

static bool is_there(const Planner *planner, Term term) {
    return planner->readers[term] > 0;
}

/* What a term costs over the other polarity, at a guess: a product comes inverted, a selection
 * either way, as an XOR mostly does; an input's inverse counts less where many may share it. */
static unsigned guessed_price(const Planner *planner, Term term) {
    const Pairs *pairs = planner->pairs;
    uint32_t signal = term >> 1;
    bool inverted = (term & 1) != 0;
    if (pairs_is_input(pairs, signal))
        return !inverted ? 0 : planner->shared[signal] > 1 ? GATE / planner->shared[signal] : GATE;
    int shape = pairs_shape(pairs, signal);
    if (shape == SHAPE_XOR)
        return inverted ? 1 : 0;
    return inverted || (shape == SELECTION && pairs->pair[pairs_pair(pairs, signal)].selects)
               ? 0
               : GATE;
}

/* What one more reader of an operand's term costs, not counting so many of those that there are. */
static unsigned term_price(const Planner *planner, Term term, uint32_t but) {
    if (planner->readers[term] > but)
        return 0;
    bool input = pairs_is_input(planner->pairs, term >> 1);
    return !input && is_there(planner, term ^ 1) ? GATE : guessed_price(planner, term);
}

/* What one more reader of a product's inverse costs, that a selection may be made of. */
static unsigned product_price(const Planner *planner, uint32_t signal) {
    const Pairs *pairs = planner->pairs;
    uint32_t number = pairs_pair(pairs, signal);
    int shape = pairs_shape(pairs, signal);
    const Decision *decision = &planner->decided[number];
    Term differ = pairs_term(pairs_signal(pairs, number, SHAPE_XOR), false);
    if (is_there(planner, 2 * signal + 1) || is_there(planner, 2 * signal))
        return 0;
    if (is_there(planner, differ) || is_there(planner, differ + 1)) {
        int way = decision->plan.way;
        if (way < WAY_APART && shape != (way ^ 3))
            return 0;
    }
    Set own = decision->effort.terms; /* read in vain if nothing reads this */
    unsigned price = GATE;
    for (int side = 0; side < 2; side++) {
        bool inverted = ((uint32_t)shape >> side & 1) != 0;
        Term term = pairs_term(pairs->pair[number].operand[side], inverted);
        price += term_price(planner, term, own & way_term(side, inverted) ? 1 : 0);
    }
    return price;
}

static unsigned price_of(const Planner *planner, uint32_t number, const Decision *decision) {
    const Pair *pair = &planner->pairs->pair[number];
    unsigned price = GATE * decision->effort.gates;
    if (decision->plan.by_others)
        price += product_price(planner, pair->other[0]) + product_price(planner, pair->other[1]);
    if (pair->selects && (decision->effort.made >> SELECTION & 1))
        return price + product_price(planner, pair->operand[0]) +
               product_price(planner, pair->operand[1]);
    for (unsigned bit = 0; bit < 4; bit++)
        if (decision->effort.terms >> bit & 1)
            price += term_price(planner, pairs_term(pair->operand[bit / 2], bit % 2 == 1), 0);
    return price;
}

/* ---- the plans of a pair ------------------------------------------------------------------- */

enum { PLANS_MAX = 2 * WAYS * 2 };

/* The second product of a way matters only where the fourth is made, ways through a product only
 * where there is something to share or an inverse to avoid. */
static int list_ways(const Wanted *wanted, bool by_others, Plan *plans) {
    Set products = wanted->inverses | wanted->plain;
    bool differ = wanted->differ[0] || wanted->differ[1];
    bool single = !differ && (products & (products - 1)) == 0;
    int count = 0;
    for (int way = 0; way < WAY_APART; way++) {
        bool fourth = (products >> (way ^ 3) & 1) != 0, first = (products >> way & 1) != 0;
        if (single && (fourth || first))
            continue;
        for (int through_y = 0; through_y <= (fourth ? 1 : 0); through_y++)
            plans[count++] = (Plan){(unsigned char)way, through_y == 1, by_others};
    }
    plans[count++] = (Plan){WAY_APART, false, by_others};
    if (differ)
        plans[count++] = (Plan){WAY_APART_INVERSE, false, by_others};
    return count;
}

/* Those worth trying; wanted gets what is wanted of the pair, without and with its selection made
 * of its other products. */
static int list_plans(const Planner *planner, uint32_t number, Wanted wanted[2], Plan *plans) {
    wanted[0] = wanted_of(planner, number, false);
    int count = list_ways(&wanted[0], false, plans);
    if (gates_behind(planner, number) > 0) {
        wanted[1] = wanted_of(planner, number, true);
        count += list_ways(&wanted[1], true, plans + count);
    }
    assert(count <= PLANS_MAX);
    return count;
}

/* The cheapest; the one before where nothing is cheaper. */
static Decision cheapest(const Planner *planner, uint32_t number) {
    Plan plans[PLANS_MAX];
    Wanted wanted[2];
    int count = list_plans(planner, number, wanted, plans);
    Plan before = planner->decided[number].plan;
    bool can_stay = !before.by_others || gates_behind(planner, number) > 0;
    Decision best = decide(planner, number, can_stay ? before : plans[0]);
    unsigned price = price_of(planner, number, &best);
    for (int k = 0; k < count; k++) {
        Decision decision = decide_for(planner, number, &wanted[plans[k].by_others], plans[k]);
        unsigned other = price_of(planner, number, &decision);
        if (other < price) {
            best = decision;
            price = other;
        }
    }
    return best;
}

/* ---- the first pass ------------------------------------------------------------------------ */

static void read_outputs(Planner *planner) {
    const Pairs *pairs = planner->pairs;
    for (uint32_t k = 0; k < pairs->netlist->output_count; k++) {
        Literal literal = pairs->netlist->outputs[k].literal;
        planner->readers[pairs->term[literal_node(literal)] ^ (literal & 1)]++;
    }
}

static void count_shared(Planner *planner) {
    for (uint32_t k = 0; k < planner->pairs->count; k++)
        for (int side = 0; side < 2; side++)
            planner->shared[planner->pairs->pair[k].operand[side]]++;
}

static void decide_all(Planner *planner) {
    read_outputs(planner);
    for (uint32_t number = planner->pairs->count; number-- > 0;) {
        planner->decided[number] = cheapest(planner, number);
        planner->gates += planner->decided[number].effort.gates;
        read_terms(planner, number);
    }
    for (uint32_t signal = 1; signal <= planner->pairs->inputs; signal++)
        planner->gates += planner->readers[pairs_term(signal, true)] > 0;
}

/* ---- improvement --------------------------------------------------------------------------- */

/* One attempt: what it has changed, and the pairs that must choose again. */
typedef struct {
    Planner *planner;
    uint32_t *changed; /* pairs, */
    Decision *before;  /* and what they did */
    uint32_t changes;
    uint32_t *waiting; /* pairs, a heap with the highest on top */
    uint32_t waits;
    bool *is_waiting; /* of each pair */
    uint32_t seed;
} Attempt;

static void wait_for(Attempt *attempt, uint32_t number) {
    if (attempt->is_waiting[number])
        return;
    attempt->is_waiting[number] = true;
    uint32_t at = attempt->waits++;
    for (; at > 0 && attempt->waiting[(at - 1) / 2] < number; at = (at - 1) / 2)
        attempt->waiting[at] = attempt->waiting[(at - 1) / 2];
    attempt->waiting[at] = number;
}

static uint32_t next_waiting(Attempt *attempt) {
    assert(attempt->waits > 0);
    uint32_t top = attempt->waiting[0], last = attempt->waiting[--attempt->waits], at = 0;
    for (uint32_t child = 1; child < attempt->waits; child = 2 * at + 1) {
        if (child + 1 < attempt->waits && attempt->waiting[child + 1] > attempt->waiting[child])
            child++;
        if (attempt->waiting[child] <= last)
            break;
        attempt->waiting[at] = attempt->waiting[child];
        at = child;
    }
    attempt->waiting[at] = last;
    attempt->is_waiting[top] = false;
    return top;
}

/* A term has got its first reader or lost its last: its pair has more, or less, to make. */
static void revise_maker(Attempt *attempt, Term term, bool read) {
    Planner *planner = attempt->planner;
    if (!pairs_is_input(planner->pairs, term >> 1))
        wait_for(attempt, pairs_pair(planner->pairs, term >> 1));
    else if (term & 1)
        planner->gates += read ? 1 : (uint64_t)-1;
}

static void read_by(Attempt *attempt, uint32_t number, const Decision *decision, bool read) {
    uint32_t *readers = attempt->planner->readers;
    Term term[TERMS_READ];
    int count = terms_read(attempt->planner, number, decision, term);
    for (int k = 0; k < count; k++)
        if (read ? readers[term[k]]++ == 0 : --readers[term[k]] == 0)
            revise_maker(attempt, term[k], read);
}

static void change(Attempt *attempt, uint32_t number, Decision decision) {
    Planner *planner = attempt->planner;
    Decision before = planner->decided[number];
    attempt->changed[attempt->changes] = number;
    attempt->before[attempt->changes++] = before;
    planner->decided[number] = decision;
    planner->gates += (uint64_t)decision.effort.gates - before.effort.gates;
    read_by(attempt, number, &decision, true);
    read_by(attempt, number, &before, false);
}

/* All that wait choose again; those of which they then read other terms wait in turn. */
static void settle(Attempt *attempt) {
    Planner *planner = attempt->planner;
    while (attempt->waits > 0) {
        uint32_t number = next_waiting(attempt);
        leave_terms(planner, number);
        Decision best = cheapest(planner, number);
        read_terms(planner, number);
        change(attempt, number, best);
    }
}

static void undo(Attempt *attempt, uint64_t gates) {
    Planner *planner = attempt->planner;
    while (attempt->changes-- > 0) {
        uint32_t number = attempt->changed[attempt->changes];
        leave_terms(planner, number);
        planner->decided[number] = attempt->before[attempt->changes];
        read_terms(planner, number);
    }
    planner->gates = gates;
}

/* Is one plan to be preferred where it costs the same? So that columns come out alike. */
static bool plainer(Plan one, Plan other) {
    if (one.by_others != other.by_others)
        return other.by_others;
    return one.way != other.way ? one.way < other.way : !one.through_y && other.through_y;
}

/* The numbers of a linear congruential generator (constants of ISO C's example of rand); the same
 * in every run. */
static bool one_in_four(Attempt *attempt) {
    attempt->seed = attempt->seed * 1103515245u + 12345u;
    return (attempt->seed >> 16) % 4 == 0;
}

static void try_plan(Attempt *attempt, uint32_t number, Plan plan, bool tidies) {
    Planner *planner = attempt->planner;
    uint64_t gates = planner->gates;
    Plan before = planner->decided[number].plan;
    attempt->changes = 0;
    change(attempt, number, decide(planner, number, plan));
    settle(attempt);
    bool stays = tidies ? plainer(plan, before) : one_in_four(attempt);
    if (planner->gates > gates || (planner->gates == gates && !stays))
        undo(attempt, gates);
}

/* In the first rounds some changes stay that make nothing better or worse, and may lead on; in the
 * last ones only those for a plainer plan. */
enum { ROUNDS = 5, TIDY_ROUNDS = 1 };

static void improve(Planner *planner) {
    uint32_t count = planner->pairs->count + 1;
    Attempt attempt = {.planner = planner,
                       .changed = memory_zeroed(count, sizeof(uint32_t)),
                       .before = memory_zeroed(count, sizeof(Decision)),
                       .waiting = memory_zeroed(count, sizeof(uint32_t)),
                       .is_waiting = memory_zeroed(count, sizeof(bool)),
                       .seed = 1};
    for (int round = 0; round < ROUNDS; round++)
        for (uint32_t number = planner->pairs->count; number-- > 0;) {
            Plan plans[PLANS_MAX];
            Wanted wanted[2];
            int plan_count = list_plans(planner, number, wanted, plans);
            for (int k = 0; k < plan_count; k++)
                try_plan(&attempt, number, plans[k], round >= ROUNDS - TIDY_ROUNDS);
        }
    memory_free(attempt.changed);
    memory_free(attempt.before);
    memory_free(attempt.waiting);
    memory_free(attempt.is_waiting);
}

/* ---- all of it ----------------------------------------------------------------------------- */

void plans_choose(const Pairs *pairs, Plans *plans) {
    size_t terms = 2 * (size_t)pairs_signals(pairs);
    Planner planner = {.pairs = pairs,
                       .decided = memory_zeroed(pairs->count + 1, sizeof(Decision)),
                       .readers = memory_zeroed(terms, sizeof(uint32_t)),
                       .shared = memory_zeroed(terms / 2, sizeof(uint32_t))};
    count_shared(&planner);
    decide_all(&planner);
    improve(&planner);
    *plans =
        (Plans){.plan = memory_zeroed(pairs->count + 1, sizeof(Plan)), .readers = planner.readers};
    for (uint32_t k = 0; k < pairs->count; k++)
        plans->plan[k] = planner.decided[k].plan;
    memory_free(planner.decided);
    memory_free(planner.shared);
}

void plans_free(Plans *plans) {
    memory_free(plans->plan);
    memory_free(plans->readers);
    *plans = (Plans){0};
}
