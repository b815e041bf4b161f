/* See plan.h. First passes over all pairs, from the outputs to the inputs: each pair takes what is
 * cheapest given what its readers have chosen in this pass and what the others chose in the last.
 * The best of several beginnings is then improved pair by pair: another way is tried, the pairs of
 * which it reads other terms choose again, and so on; if the whole has become smaller it stays. */
#include "gates/mapping/plan.h"

#include "base/memory.h"

#include <string.h>

/* What a pair does now. */
typedef struct {
    Plan plan;
    Effort effort; /* the gates of a turned selection included */
} Done;

typedef struct {
    const Pairs *pairs;
    Done *done;        /* of each pair: in this pass, or in the last one before this comes to it */
    uint32_t *readers; /* of each term: in this pass, as far as it is, */
    uint32_t *left;    /* and of the last one those that this has not come to */
    uint32_t *asked;   /* of each signal: how many pairs it is in */
    unsigned *guess;   /* of each term: what it costs over the other polarity, at a guess */
    uint64_t gates;    /* of the whole */
    bool first;        /* there is no last pass */
    bool generous;     /* an inverse that many may share counts less */
    bool blind;        /* an XOR is taken to be had in either polarity */
    int selections;    /* in the first pass: 0 what is cheapest, 1 as they are, 2 turned */
} Choosing;

/* A gate, in the unit of prices. */
enum { GATE = 64 };

/* ---- what a plan takes --------------------------------------------------------------------- */

/* The term of one of a pair's signals. */
static Term term_of(const Choosing *choosing, uint32_t number, int shape, bool inverted) {
    return pairs_term(pairs_signal(choosing->pairs, number, shape), inverted);
}

static bool is_read(const Choosing *choosing, uint32_t number, int shape, bool inverted) {
    return choosing->readers[term_of(choosing, number, shape, inverted)] > 0;
}

/* Gates that a selection takes behind its halves where it is turned: it comes plain then. */
static unsigned turned_gates(const Choosing *choosing, uint32_t number) {
    if (!choosing->pairs->pair[number].selects)
        return 0;
    if (is_read(choosing, number, SHAPE_PRODUCTS - 1, true))
        return 2;
    return is_read(choosing, number, SHAPE_PRODUCTS - 1, false) ? 1 : 0;
}

static Wanted wanted_of(const Choosing *choosing, uint32_t number, bool turned) {
    Wanted wanted = {0};
    for (int shape = 0; shape < SHAPE_PRODUCTS - (turned ? 1 : 0); shape++) {
        wanted.plain |= (Set)is_read(choosing, number, shape, false) << shape;
        wanted.inverses |= (Set)is_read(choosing, number, shape, true) << shape;
    }
    wanted.differ[0] = is_read(choosing, number, SHAPE_XOR, false);
    wanted.differ[1] = is_read(choosing, number, SHAPE_XOR, true);
    return wanted;
}

/* What a plan takes where this is wanted. */
static Done done_for(const Choosing *choosing, uint32_t number, const Wanted *wanted, Plan plan) {
    Done done = {plan, way_effort(wanted, plan.way, plan.through_y)};
    if (plan.turned)
        done.effort.gates += turned_gates(choosing, number);
    return done;
}

static Done done_by(const Choosing *choosing, uint32_t number, Plan plan) {
    Wanted wanted = wanted_of(choosing, number, plan.turned);
    return done_for(choosing, number, &wanted, plan);
}

/* Hands the terms that a pair reads to a function. */
typedef void Visit(Choosing *choosing, Term term);

static void each_term(Choosing *choosing, uint32_t number, const Done *done, Visit *visit) {
    const Pair *pair = &choosing->pairs->pair[number];
    for (unsigned bit = 0; bit < 4; bit++)
        if (done->effort.terms >> bit & 1)
            visit(choosing, 2 * pair->operand[bit / 2] + bit % 2);
    for (int side = 0; side < 2 && done->plan.turned; side++)
        visit(choosing, 2 * pair->other[side] + 1);
}

static void add_reader(Choosing *choosing, Term term) {
    choosing->readers[term]++;
}

static void forget_left(Choosing *choosing, Term term) {
    choosing->left[term]--;
}

/* ---- guesses ------------------------------------------------------------------------------- */

static unsigned least(unsigned x, unsigned y) {
    return x < y ? x : y;
}

static unsigned guessed(const Choosing *choosing, uint32_t signal, bool inverted) {
    return choosing->guess[pairs_term(signal, inverted)];
}

/* A product comes inverted, a selection either way, and an XOR in the polarity of its operands. */
static void guess_pair(Choosing *choosing, uint32_t number) {
    const Pair *pair = &choosing->pairs->pair[number];
    uint32_t x = pair->operand[0], y = pair->operand[1];
    unsigned plain = least(guessed(choosing, x, false) + guessed(choosing, y, false),
                           guessed(choosing, x, true) + guessed(choosing, y, true));
    unsigned inverse = least(guessed(choosing, x, true) + guessed(choosing, y, false),
                             guessed(choosing, x, false) + guessed(choosing, y, true));
    unsigned both = least(plain, inverse);
    for (int shape = 0; shape < SHAPE_PRODUCTS; shape++)
        choosing->guess[term_of(choosing, number, shape, false)] =
            pair->selects && shape == SHAPE_PRODUCTS - 1 ? 0 : GATE;
    choosing->guess[term_of(choosing, number, SHAPE_XOR, false)] =
        choosing->blind ? 0 : least(plain - both, GATE);
    choosing->guess[term_of(choosing, number, SHAPE_XOR, true)] =
        choosing->blind ? 1 : least(inverse - both, GATE);
}

static void guess_all(Choosing *choosing) {
    for (uint32_t signal = 1; signal <= choosing->pairs->inputs; signal++) {
        uint32_t sharing = choosing->generous ? choosing->asked[signal] : 1;
        choosing->guess[pairs_term(signal, true)] = sharing > 1 ? GATE / sharing : GATE;
    }
    for (uint32_t number = 0; number < choosing->pairs->count; number++)
        guess_pair(choosing, number);
}

/* ---- prices -------------------------------------------------------------------------------- */

static bool is_there(const Choosing *choosing, Term term) {
    return choosing->readers[term] > 0 || choosing->left[term] > 0;
}

/* What one more reader of an operand's term costs, not counting so many of those that there are. */
static unsigned term_price(const Choosing *choosing, Term term, uint32_t but) {
    if (choosing->readers[term] + choosing->left[term] > but)
        return 0;
    bool input = pairs_is_input(choosing->pairs, term >> 1);
    return !input && is_there(choosing, term ^ 1) ? GATE : choosing->guess[term];
}

/* What one more reader of a product's inverse costs, that a selection may be made of. */
static unsigned product_price(const Choosing *choosing, uint32_t signal) {
    const Pairs *pairs = choosing->pairs;
    uint32_t number = pairs_pair(pairs, signal);
    int shape = pairs_shape(pairs, signal);
    const Done *done = &choosing->done[number];
    Term differ = 2 * pairs_signal(pairs, number, SHAPE_XOR);
    if (is_there(choosing, 2 * signal + 1) || is_there(choosing, 2 * signal))
        return 0;
    if (is_there(choosing, differ) || is_there(choosing, differ + 1)) {
        int way = choosing->first ? 0 : done->plan.way;
        if (way < WAY_APART && shape != (way ^ 3))
            return 0;
    }
    Set own = choosing->first ? 0 : done->effort.terms; /* read in vain if nothing reads this */
    unsigned price = GATE;
    for (int side = 0; side < 2; side++) {
        uint32_t inverted = (uint32_t)shape >> side & 1;
        Term term = 2 * pairs->pair[number].operand[side] + inverted;
        price += term_price(choosing, term, own & way_term(side, inverted == 1) ? 1 : 0);
    }
    return price;
}

static unsigned price_of(const Choosing *choosing, uint32_t number, const Done *done) {
    const Pair *pair = &choosing->pairs->pair[number];
    unsigned price = GATE * done->effort.gates;
    if (done->plan.turned)
        price += product_price(choosing, pair->other[0]) + product_price(choosing, pair->other[1]);
    if (pair->selects && (done->effort.made >> (SHAPE_PRODUCTS - 1) & 1))
        return price + product_price(choosing, pair->operand[0]) +
               product_price(choosing, pair->operand[1]);
    for (unsigned bit = 0; bit < 4; bit++)
        if (done->effort.terms >> bit & 1)
            price += term_price(choosing, 2 * pair->operand[bit / 2] + bit % 2, 0);
    return price;
}

/* ---- the plans of a pair ------------------------------------------------------------------- */

enum { PLANS_MAX = 2 * WAYS * 2 };

/* The second product of a way matters only where the fourth is made, ways through a product only
 * where there is something to share or an inverse to avoid. */
static int list_ways(const Wanted *wanted, bool turned, Plan *plans) {
    Set products = wanted->inverses | wanted->plain;
    bool differ = wanted->differ[0] || wanted->differ[1];
    bool single = !differ && (products & (products - 1)) == 0;
    int count = 0;
    for (int way = 0; way < WAY_APART; way++) {
        bool fourth = (products >> (way ^ 3) & 1) != 0, first = (products >> way & 1) != 0;
        if (single && (fourth || first))
            continue;
        for (int through_y = 0; through_y <= (fourth ? 1 : 0); through_y++)
            plans[count++] = (Plan){(unsigned char)way, through_y == 1, turned};
    }
    plans[count++] = (Plan){WAY_APART, false, turned};
    if (differ)
        plans[count++] = (Plan){WAY_APART_INVERSE, false, turned};
    return count;
}

/* Those worth trying; wanted gets what is wanted as it is, and turned. */
static int list_plans(const Choosing *choosing, uint32_t number, Wanted wanted[2], Plan *plans) {
    bool selection = turned_gates(choosing, number) > 0;
    int forced = choosing->first ? choosing->selections : 0;
    int count = 0;
    wanted[0] = wanted_of(choosing, number, false);
    wanted[1] = selection ? wanted_of(choosing, number, true) : wanted[0];
    if (!(selection && forced == 2))
        count += list_ways(&wanted[0], false, plans);
    if (selection && forced != 1)
        count += list_ways(&wanted[1], true, plans + count);
    return count;
}

/* The cheapest; the one before where nothing is cheaper. */
static Done cheapest(const Choosing *choosing, uint32_t number) {
    Plan plans[PLANS_MAX];
    Wanted wanted[2];
    int count = list_plans(choosing, number, wanted, plans);
    Plan before = choosing->done[number].plan;
    bool can_stay = !choosing->first && (!before.turned || turned_gates(choosing, number) > 0);
    Done best = done_by(choosing, number, can_stay ? before : plans[0]);
    unsigned price = price_of(choosing, number, &best);
    for (int k = 0; k < count; k++) {
        Done done = done_for(choosing, number, &wanted[plans[k].turned], plans[k]);
        unsigned other = price_of(choosing, number, &done);
        if (other < price) {
            best = done;
            price = other;
        }
    }
    return best;
}

/* ---- passes -------------------------------------------------------------------------------- */

static size_t terms_bytes(const Choosing *choosing) {
    return 2 * (size_t)pairs_signals(choosing->pairs) * sizeof choosing->readers[0];
}

static void read_outputs(Choosing *choosing) {
    const Netlist *netlist = choosing->pairs->netlist;
    memset(choosing->readers, 0, terms_bytes(choosing));
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        Literal literal = netlist->outputs[k].literal;
        add_reader(choosing, choosing->pairs->term[literal_node(literal)] ^ (literal & 1));
    }
}

static uint64_t input_inverters(const Choosing *choosing) {
    uint64_t count = 0;
    for (uint32_t signal = 1; signal <= choosing->pairs->inputs; signal++)
        count += choosing->readers[pairs_term(signal, true)] > 0;
    return count;
}

static void run_pass(Choosing *choosing) {
    guess_all(choosing);
    memcpy(choosing->left, choosing->readers, terms_bytes(choosing));
    if (!choosing->first) /* they are read in every pass, and are not left to come */
        for (uint32_t k = 0; k < choosing->pairs->netlist->output_count; k++) {
            Literal literal = choosing->pairs->netlist->outputs[k].literal;
            forget_left(choosing, choosing->pairs->term[literal_node(literal)] ^ (literal & 1));
        }
    read_outputs(choosing);
    choosing->gates = 0;
    for (uint32_t number = choosing->pairs->count; number-- > 0;) {
        if (!choosing->first)
            each_term(choosing, number, &choosing->done[number], forget_left);
        choosing->done[number] = cheapest(choosing, number);
        choosing->gates += choosing->done[number].effort.gates;
        each_term(choosing, number, &choosing->done[number], add_reader);
    }
    choosing->gates += input_inverters(choosing);
    choosing->first = false;
}

/* The same plans again, to have their readers. */
static void replay(Choosing *choosing) {
    read_outputs(choosing);
    choosing->gates = 0;
    for (uint32_t number = choosing->pairs->count; number-- > 0;) {
        choosing->done[number] = done_by(choosing, number, choosing->done[number].plan);
        choosing->gates += choosing->done[number].effort.gates;
        each_term(choosing, number, &choosing->done[number], add_reader);
    }
    choosing->gates += input_inverters(choosing);
}

enum { STARTS = 6, PASSES = 4, GENEROUS_PASSES = 2 };

static void best_of_passes(Choosing *choosing) {
    size_t bytes = choosing->pairs->count * sizeof choosing->done[0];
    Done *best = memory_zeroed(choosing->pairs->count + 1, sizeof best[0]);
    uint64_t fewest = UINT64_MAX;
    for (int start = 0; start < STARTS; start++) {
        choosing->first = true;
        choosing->selections = start % 3;
        choosing->blind = start >= 3;
        memset(choosing->readers, 0, terms_bytes(choosing));
        for (int pass = 0; pass < PASSES; pass++) {
            choosing->generous = pass < GENEROUS_PASSES;
            run_pass(choosing);
            if (choosing->gates >= fewest)
                continue;
            fewest = choosing->gates;
            memcpy(best, choosing->done, bytes);
        }
    }
    memcpy(choosing->done, best, bytes);
    memory_free(best);
    replay(choosing);
}

/* ---- improvement --------------------------------------------------------------------------- */

/* One attempt: what it has changed, and the pairs that must choose again. */
typedef struct {
    Choosing *choosing;
    uint32_t *changed; /* pairs, */
    Done *before;      /* and what they did */
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

/* A term has got its first reader or lost its last. */
static void term_turns(Attempt *attempt, Term term, bool read) {
    Choosing *choosing = attempt->choosing;
    if (!pairs_is_input(choosing->pairs, term >> 1))
        wait_for(attempt, pairs_pair(choosing->pairs, term >> 1));
    else if (term & 1)
        choosing->gates += read ? 1 : (uint64_t)-1;
}

static void read_by(Attempt *attempt, uint32_t number, const Done *done, bool read) {
    const Pair *pair = &attempt->choosing->pairs->pair[number];
    uint32_t *readers = attempt->choosing->readers;
    for (unsigned bit = 0; bit < 6; bit++) {
        bool reads = bit < 4 ? (done->effort.terms >> bit & 1) != 0 : done->plan.turned;
        Term term = bit < 4 ? 2 * pair->operand[bit / 2] + bit % 2 : 2 * pair->other[bit - 4] + 1;
        if (!reads)
            continue;
        if (read ? readers[term]++ == 0 : --readers[term] == 0)
            term_turns(attempt, term, read);
    }
}

static void change(Attempt *attempt, uint32_t number, Done done) {
    Choosing *choosing = attempt->choosing;
    Done before = choosing->done[number];
    attempt->changed[attempt->changes] = number;
    attempt->before[attempt->changes++] = before;
    choosing->done[number] = done;
    choosing->gates += (uint64_t)done.effort.gates - before.effort.gates;
    read_by(attempt, number, &done, true);
    read_by(attempt, number, &before, false);
}

static void drop_reader(Choosing *choosing, Term term) {
    choosing->readers[term]--;
}

/* All that wait choose again; those of which they then read other terms wait in turn. */
static void settle(Attempt *attempt) {
    Choosing *choosing = attempt->choosing;
    while (attempt->waits > 0) {
        uint32_t number = next_waiting(attempt);
        Done now = choosing->done[number];
        each_term(choosing, number, &now, drop_reader);
        Done best = cheapest(choosing, number);
        each_term(choosing, number, &now, add_reader);
        change(attempt, number, best);
    }
}

static void undo(Attempt *attempt, uint64_t gates) {
    Choosing *choosing = attempt->choosing;
    while (attempt->changes-- > 0) {
        uint32_t number = attempt->changed[attempt->changes];
        each_term(choosing, number, &choosing->done[number], drop_reader);
        choosing->done[number] = attempt->before[attempt->changes];
        each_term(choosing, number, &choosing->done[number], add_reader);
    }
    choosing->gates = gates;
}

/* Is one plan to be preferred where it costs the same? So that columns come out alike. */
static bool plainer(Plan one, Plan other) {
    if (one.turned != other.turned)
        return other.turned;
    return one.way != other.way ? one.way < other.way : !one.through_y && other.through_y;
}

/* The numbers of a linear congruential generator (constants of ISO C's example of rand); the same
 * in every run. */
static bool one_in_four(Attempt *attempt) {
    attempt->seed = attempt->seed * 1103515245u + 12345u;
    return (attempt->seed >> 16) % 4 == 0;
}

static void try_plan(Attempt *attempt, uint32_t number, Plan plan, bool tidies) {
    Choosing *choosing = attempt->choosing;
    uint64_t gates = choosing->gates;
    Plan before = choosing->done[number].plan;
    attempt->changes = 0;
    change(attempt, number, done_by(choosing, number, plan));
    settle(attempt);
    bool stays = tidies ? plainer(plan, before) : one_in_four(attempt);
    if (choosing->gates > gates || (choosing->gates == gates && !stays))
        undo(attempt, gates);
}

/* In the first rounds some changes stay that make nothing better or worse, and may lead on; in the
 * last ones only those for a plainer plan. */
enum { ROUNDS = 5, TIDY_ROUNDS = 1 };

static void improve(Choosing *choosing) {
    uint32_t count = choosing->pairs->count + 1;
    Attempt attempt = {.choosing = choosing,
                       .changed = memory_zeroed(count, sizeof(uint32_t)),
                       .before = memory_zeroed(count, sizeof(Done)),
                       .waiting = memory_zeroed(count, sizeof(uint32_t)),
                       .is_waiting = memory_zeroed(count, sizeof(bool)),
                       .seed = 1};
    memset(choosing->left, 0, terms_bytes(choosing));
    for (int round = 0; round < ROUNDS; round++)
        for (uint32_t number = choosing->pairs->count; number-- > 0;) {
            Plan plans[PLANS_MAX];
            Wanted wanted[2];
            int plan_count = list_plans(choosing, number, wanted, plans);
            for (int k = 0; k < plan_count; k++)
                try_plan(&attempt, number, plans[k], round >= ROUNDS - TIDY_ROUNDS);
        }
    memory_free(attempt.changed);
    memory_free(attempt.before);
    memory_free(attempt.waiting);
    memory_free(attempt.is_waiting);
}

/* ---- all of it ----------------------------------------------------------------------------- */

static void count_asked(Choosing *choosing) {
    for (uint32_t k = 0; k < choosing->pairs->count; k++)
        for (int side = 0; side < 2; side++)
            choosing->asked[choosing->pairs->pair[k].operand[side]]++;
}

void plans_choose(const Pairs *pairs, Plans *plans) {
    uint32_t signals = pairs_signals(pairs);
    Choosing choosing = {.pairs = pairs,
                         .done = memory_zeroed(pairs->count + 1, sizeof(Done)),
                         .readers = memory_zeroed(2 * (size_t)signals, sizeof(uint32_t)),
                         .left = memory_zeroed(2 * (size_t)signals, sizeof(uint32_t)),
                         .asked = memory_zeroed(signals, sizeof(uint32_t)),
                         .guess = memory_zeroed(2 * (size_t)signals, sizeof(unsigned))};
    count_asked(&choosing);
    best_of_passes(&choosing);
    improve(&choosing);
    *plans = (Plans){.plan = memory_zeroed(pairs->count + 1, sizeof(Plan)),
                     .readers = choosing.readers,
                     .gates = choosing.gates};
    for (uint32_t k = 0; k < pairs->count; k++)
        plans->plan[k] = choosing.done[k].plan;
    memory_free(choosing.done);
    memory_free(choosing.left);
    memory_free(choosing.asked);
    memory_free(choosing.guess);
}

void plans_free(Plans *plans) {
    memory_free(plans->plan);
    memory_free(plans->readers);
    *plans = (Plans){0};
}
