/* See mistakes.h. A mistake in what is added is a row of `moves`; a mistake in a flag is a row of
 * the table in rules.c; a sentence for each is a row of `sentences`. */
#include "check/mistakes.h"

#include "check/study.h"

#include <stdlib.h>
#include <string.h>

static const struct {
    const char *name;
    const char *sentence;
} sentences[MISTAKE_COUNT] = {
    [MISTAKE_FIRST_CARRY_MISSING] = {"first-carry-missing",
                                     "subtraction lacks the +1: it computes a + not b"},
    [MISTAKE_OPERAND_NOT_INVERTED] = {"operand-not-inverted",
                                      "subtraction adds the operand itself, not its complement"},
    [MISTAKE_OPERANDS_SWAPPED] = {"operands-swapped",
                                  "subtraction takes the operands the wrong way round"},
    [MISTAKE_CONTROL_REVERSED] = {"control-reversed",
                                  "it adds when told to subtract and subtracts when told to add"},
    [MISTAKE_CARRY_SENSE_REVERSED] = {"carry-sense-reversed",
                                      "the carry in subtraction has the opposite sense: borrow for "
                                      "no borrow"},
    [MISTAKE_OVERFLOW_REPEATS_CARRY] = {"overflow-repeats-carry",
                                        "the overflow pin is the carry out"},
    [MISTAKE_OVERFLOW_FORGETS_SUBTRACTION] =
        {"overflow-forgets-subtraction",
         "overflow in subtraction goes by the rule for addition, on the operand before inversion"},
    [MISTAKE_OVERFLOW_INVERTED] = {"overflow-inverted", "the overflow pin is upside down"},
    [MISTAKE_ZERO_MISSES_BITS] = {"zero-misses-bits",
                                  "the zero flag looks at a part of the result only"},
    [MISTAKE_NEGATIVE_WRONG] = {"negative-wrong", "the negative flag is not the sign bit"},
    [MISTAKE_BITS_REVERSED] = {"bits-reversed", "a bus is wired in the opposite order"},
    [MISTAKE_CARRY_BROKEN] = {"carry-broken", "a carry does not reach its column"},
    [MISTAKE_BIT_STUCK] = {"bit-stuck", "an output never changes"},
    [MISTAKE_UNDRIVEN] = {"undriven", "an output is X or Z: nothing drives it, or several do"},
    [MISTAKE_WIDTH_SHORT] = {"width-short", "only the lower bits are right"},
    [MISTAKE_LATE] = {"late", "it is right, but at another clock"},
    [MISTAKE_UNEXPLAINED] = {"unexplained", "no mistake that is known explains it"},
};

const char *mistake_name(Mistake mistake) {
    return sentences[mistake].name;
}

const char *mistake_sentence(Mistake mistake) {
    return sentences[mistake].sentence;
}

/* ---- moves: mistakes in what is added ------------------------------------------------------ */

typedef enum {
    MOVE_FIRST_MISSING,
    MOVE_PLAIN,
    MOVE_PLAIN_SUM,
    MOVE_SWAPPED,
    MOVE_CONTROL,
    MOVE_CIN_SENSE,
    MOVE_REVERSE, /* some of a, b and result: the number says which */
    MOVE_CODE,
    MOVE_CUT, /* the number is a Cut */
    MOVE_BREAKS,
    MOVE_STUCK,
} MoveKind;

typedef struct {
    MoveKind kind;
    unsigned number;
    Mistake mistake;
    bool everywhere; /* shows in every operation, not in some */
    const char *detail;
} Move;

static const Move moves[] = {
    {MOVE_FIRST_MISSING, 0, MISTAKE_FIRST_CARRY_MISSING, false, ""},
    {MOVE_PLAIN, 0, MISTAKE_OPERAND_NOT_INVERTED, false, "it computes a + b + 1"},
    {MOVE_PLAIN_SUM, 0, MISTAKE_OPERAND_NOT_INVERTED, false, "it computes a + b"},
    {MOVE_SWAPPED, 0, MISTAKE_OPERANDS_SWAPPED, false, ""},
    {MOVE_CONTROL, 0, MISTAKE_CONTROL_REVERSED, true, ""},
    {MOVE_CIN_SENSE, 0, MISTAKE_CARRY_SENSE_REVERSED, false, "the pin cin"},
    {MOVE_REVERSE, 1, MISTAKE_BITS_REVERSED, false, "a"},
    {MOVE_REVERSE, 2, MISTAKE_BITS_REVERSED, false, "b"},
    {MOVE_REVERSE, 4, MISTAKE_BITS_REVERSED, false, "result"},
    {MOVE_REVERSE, 3, MISTAKE_BITS_REVERSED, false, "a and b"},
    {MOVE_REVERSE, 5, MISTAKE_BITS_REVERSED, false, "a and result"},
    {MOVE_REVERSE, 6, MISTAKE_BITS_REVERSED, false, "b and result"},
    {MOVE_REVERSE, 7, MISTAKE_BITS_REVERSED, false, "a, b and result"},
    {MOVE_CODE, 0, MISTAKE_BITS_REVERSED, true, "op"},
    {MOVE_CUT, CUT_SUM_ZEROS, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_SUM_CARRY, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_SUM_SIGN, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_OPERANDS, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_A, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_B, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_X, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_Y, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_X_AND_Y, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_STUCK, 0, MISTAKE_BIT_STUCK, true, ""},
    {MOVE_BREAKS, 0, MISTAKE_CARRY_BROKEN, false, ""},
};

enum { MOVES = sizeof moves / sizeof moves[0], MOVES_AT_ONCE = 2 };

/* Some moves together, made into a variant. */
typedef struct {
    const Move *move[MOVES_AT_ONCE];
    int count;
    Variant variant;
    Breaks breaks;
    bool stuck;
    bool everywhere;
} Theory;

/* The lowest result bit that is ever wrong: a cut keeps those below. */
static unsigned lowest_wrong(const Study *study) {
    unsigned bit = 0;
    while (bit < study->unit->width && !word_bit(&study->ever_wrong, bit))
        bit++;
    return bit;
}

/* Adds a move; false where it makes no sense for what was seen. */
static bool theory_add(const Study *study, Theory *theory, const Move *move) {
    Variant *variant = &theory->variant;
    unsigned kept = lowest_wrong(study);
    theory->move[theory->count++] = move;
    theory->everywhere = theory->everywhere || move->everywhere;
    switch (move->kind) {
    case MOVE_FIRST_MISSING:
        variant->first_missing = true;
        return true;
    case MOVE_PLAIN:
        variant->operand = OPERAND_PLAIN;
        return true;
    case MOVE_PLAIN_SUM:
        variant->operand = OPERAND_PLAIN_SUM;
        return true;
    case MOVE_SWAPPED:
        variant->swapped = true;
        return true;
    case MOVE_CONTROL:
        variant->control_reversed = true;
        return study->unit->control != CONTROL_FIXED;
    case MOVE_CIN_SENSE:
        variant->cin_reversed = true;
        return unit_has(study->unit, PIN_CIN);
    case MOVE_REVERSE:
        variant->reverse_a = (move->number & 1) != 0;
        variant->reverse_b = (move->number & 2) != 0;
        variant->reverse_result = (move->number & 4) != 0;
        return unit_has(study->unit, PIN_B) || !variant->reverse_b;
    case MOVE_CODE:
        variant->code_reversed = true;
        return study->unit->control == CONTROL_CODE && study->unit->code_bits > 1;
    case MOVE_CUT:
        variant->cut = (Cut)move->number;
        variant->kept = kept;
        return kept > 0 && kept + 2 <= study->unit->width;
    case MOVE_STUCK:
        theory->stuck = true;
        return study->any_stuck;
    default:
        return true; /* breaks: found when all moves are known */
    }
}

/* ---- carries that do not arrive ------------------------------------------------------------ */

/* What has been seen of the carries that the columns were given. */
typedef struct {
    Word differs; /* columns where it was not the carry of the column before, in some case */
    Word seen_0, seen_1;
} Carries;

/* In words of up to 4098 bits: to |= from. */
static void merge(Word *to, const Word *from) {
    for (unsigned limb = 0; limb < (to->width + 63) / 64; limb++)
        to->limb[limb] |= from->limb[limb];
}

/* The carries out of every column, shifted to the column that they enter. */
static void carries_on(const Machine *machine, const Word *used, Word *entering) {
    Word either, both;
    word_xor(&either, &machine->x, &machine->y);
    word_and(&both, &machine->x, &machine->y);
    word_and(&either, &either, used);
    merge(&both, &either);
    word_add(entering, &both, &both, word_bit(&machine->carries, 0));
}

/* From the result that came out, bit by bit the carry that its column was given: result, X and Y
 * XORed. It should be the one that the column before makes of its own. */
static void note_carries(const Study *study, const Theory *theory, size_t k, Carries *carries) {
    static View view;
    static Machine machine;
    Word a, b, unknown, known, used, entering, differs;
    study_view(study, &theory->variant, k, &machine, &a, &b, &unknown, &view);
    if (theory->stuck)
        merge(&unknown, &study->stuck);
    Word seen = view.seen;
    if (theory->variant.reverse_result) {
        variant_reverse(&seen, &view.seen);
        known = unknown;
        variant_reverse(&unknown, &known);
    }
    word_not(&known, &unknown);
    word_xor(&used, &seen, &machine.x);
    word_xor(&used, &used, &machine.y);
    carries_on(&machine, &used, &entering);
    word_xor(&differs, &used, &entering);
    word_and(&differs, &differs, &known);
    word_add(&unknown, &unknown, &unknown, false); /* what an unknown bit hands on is not known */
    word_not(&unknown, &unknown);
    word_and(&differs, &differs, &unknown);
    merge(&carries->differs, &differs);
    word_and(&entering, &used, &known);
    merge(&carries->seen_1, &entering);
    word_not(&used, &used);
    word_and(&entering, &used, &known);
    merge(&carries->seen_0, &entering);
}

/* Every column that is not given its carry must be given a constant. */
static bool all_constant(const Carries *carries) {
    Word both;
    word_and(&both, &carries->seen_0, &carries->seen_1);
    word_and(&both, &both, &carries->differs);
    return word_is_zero(&both);
}

/* Finds the breaks that the cases of the wrong groups show; false when there are none, or the
 * carries are mistaken in some other way. */
static bool find_breaks(const Study *study, const Fit *base, Theory *theory) {
    static Carries carries;
    unsigned width = study->unit->width;
    word_zero(&carries.differs, width);
    word_zero(&carries.seen_0, width);
    word_zero(&carries.seen_1, width);
    theory->breaks.any = false;
    theory->variant.breaks = NULL;
    if (study->unit->overflow != OVERFLOW_WRAP || theory->variant.cut != CUT_NOTHING)
        return false;
    for (int g = 0; g < study->unit->choice_count; g++)
        for (size_t i = study->begin[g]; i < study->begin[g + 1] && !base[g].agrees; i++) {
            note_carries(study, theory, study->order[i], &carries);
            if (!all_constant(&carries))
                return false;
        }
    theory->breaks.any = !word_is_zero(&carries.differs);
    theory->breaks.column = carries.differs;
    word_and(&theory->breaks.level, &carries.differs, &carries.seen_1);
    theory->variant.breaks = &theory->breaks;
    return theory->breaks.any;
}

/* ---- an explanation ------------------------------------------------------------------------ */

typedef struct {
    Theory theory;
    int rule[FLAG_COUNT][GROUPS_MAX]; /* of a flag that is wrong in a group; -1: it follows */
    bool used[GROUPS_MAX];            /* groups where the theory is needed */
    unsigned cost; /* two for each mistake; one more for a flag that only something explains */
} Explanation;

static uint32_t right_rules(const Study *study, int flag) {
    uint32_t rules = 0;
    for (int r = 0; r < study->rule_count[flag]; r++)
        if (study->rule[flag][r].mistake == MISTAKE_NONE)
            rules |= UINT32_C(1) << r;
    return rules;
}

static int lowest(uint32_t bits) {
    int bit = 0;
    while (bits != 0 && (bits >> bit & 1) == 0)
        bit++;
    return bits == 0 ? -1 : bit;
}

/* Chooses a rule for each group in which the flag does not follow: one rule for all if there is
 * one, best of all one that fits the other groups, too. False where some group has none. */
static bool choose_rules(const Study *study, int flag, const Fit *fit, int chosen[GROUPS_MAX]) {
    uint32_t right = right_rules(study, flag), everywhere = ~right, where_wrong = ~right;
    bool any = false;
    for (int g = 0; g < study->group_count; g++) {
        bool wrong = (fit[g].alive[flag] & right) == 0;
        chosen[g] = -1;
        any = any || wrong;
        everywhere &= fit[g].alive[flag];
        if (wrong)
            where_wrong &= fit[g].alive[flag];
    }
    int common = lowest(everywhere & ~right);
    if (common < 0)
        common = lowest(where_wrong & ~right);
    for (int g = 0; g < study->group_count && any; g++) {
        if ((fit[g].alive[flag] & right) != 0)
            continue;
        chosen[g] = common >= 0 ? common : lowest(fit[g].alive[flag] & ~right);
        if (chosen[g] < 0)
            return false;
    }
    return true;
}

static bool explain_flags(const Study *study, const Fit *fit, Explanation *explanation) {
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        for (int g = 0; g < study->group_count; g++)
            explanation->rule[flag][g] = -1;
        if (study_has(study, (Flag)flag) &&
            !choose_rules(study, flag, fit, explanation->rule[flag]))
            return false;
    }
    return true;
}

/* The mistakes of an explanation, a bit each. */
static uint32_t mistakes_of(const Study *study, const Explanation *explanation) {
    uint32_t mistakes = 0;
    for (int m = 0; m < explanation->theory.count; m++)
        mistakes |= UINT32_C(1) << explanation->theory.move[m]->mistake;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        for (int g = 0; g < study->group_count; g++)
            if (explanation->rule[flag][g] >= 0)
                mistakes |= UINT32_C(1) << study->rule[flag][explanation->rule[flag][g]].mistake;
    if (study->any_unknown)
        mistakes |= UINT32_C(1) << MISTAKE_UNDRIVEN;
    if (study->late != 0)
        mistakes |= UINT32_C(1) << MISTAKE_LATE;
    return mistakes;
}

static unsigned cost_of(const Study *study, const Explanation *explanation) {
    unsigned cost = 0;
    for (uint32_t left = mistakes_of(study, explanation); left != 0; left &= left - 1)
        cost += 2;
    for (int g = 0; g < study->group_count; g++) {
        int rule = explanation->rule[FLAG_NEGATIVE][g];
        if (rule >= 0 && rule + 1 == study->rule_count[FLAG_NEGATIVE])
            return cost + 1; /* negative_anything */
    }
    return cost;
}

/* Does the theory, with a rule for each flag, give what was seen in every case? Groups where the
 * result is right without it need not show it, unless it shows everywhere. */
static bool explain(const Study *study, const Fit *base, const Fit *base_stuck,
                    Explanation *explanation) {
    const Theory *theory = &explanation->theory;
    const Fit *given = theory->stuck ? base_stuck : base;
    Fit fit[GROUPS_MAX];
    bool moved = theory->count > (theory->stuck ? 1 : 0), any = false;
    for (int g = 0; g < study->group_count; g++) {
        explanation->used[g] = moved && (theory->everywhere || !given[g].agrees);
        any = any || explanation->used[g];
        if (!explanation->used[g])
            fit[g] = given[g];
        else
            study_fit(study, &theory->variant, theory->stuck, g, &fit[g]);
        if (!fit[g].agrees)
            return false;
    }
    if (moved && !any)
        return false;
    if (!explain_flags(study, fit, explanation))
        return false;
    explanation->cost = cost_of(study, explanation);
    return true;
}

/* ---- the search ---------------------------------------------------------------------------- */

typedef struct {
    const Study *study;
    Fit base[GROUPS_MAX];       /* without any move */
    Fit base_stuck[GROUPS_MAX]; /* without any but that some bits are stuck */
    bool found;
    Explanation best;
} Search;

static const Variant as_it_should_be;

static void try_theory(Search *search, const Move *const *chosen, int count) {
    static Explanation explanation; /* large */
    Theory *theory = &explanation.theory;
    *theory = (Theory){.count = 0};
    bool breaks = false;
    for (int m = 0; m < count; m++) {
        if (!theory_add(search->study, theory, chosen[m]))
            return;
        breaks = breaks || chosen[m]->kind == MOVE_BREAKS;
    }
    if (breaks &&
        !find_breaks(search->study, theory->stuck ? search->base_stuck : search->base, theory))
        return;
    if (!explain(search->study, search->base, search->base_stuck, &explanation))
        return;
    if (search->found && search->best.cost <= explanation.cost)
        return;
    search->found = true;
    search->best = explanation;
    if (breaks)
        search->best.theory.variant.breaks = &search->best.theory.breaks;
}

/* No move, then each, then each two; a dearer explanation is not looked for when there is a cheaper
 * one. */
static void search_all(Search *search) {
    const Move *chosen[MOVES_AT_ONCE];
    for (int g = 0; g < search->study->group_count; g++) {
        study_fit(search->study, &as_it_should_be, false, g, &search->base[g]);
        search->base_stuck[g] = search->base[g];
        if (search->study->any_stuck)
            study_fit(search->study, &as_it_should_be, true, g, &search->base_stuck[g]);
    }
    try_theory(search, chosen, 0);
    for (int m = 0; m < MOVES && !(search->found && search->best.cost <= 2); m++) {
        chosen[0] = &moves[m];
        try_theory(search, chosen, 1);
    }
    for (int m = 0; m < MOVES && !(search->found && search->best.cost <= 4); m++)
        for (int n = m + 1; n < MOVES; n++) {
            chosen[0] = &moves[m];
            chosen[1] = &moves[n];
            if (moves[m].kind != moves[n].kind)
                try_theory(search, chosen, 2);
        }
}

/* ---- shares -------------------------------------------------------------------------------- */

enum { SHARE_CASES = 4096 }; /* looked at, evenly, for a share */

/* What is tried alone: a variant, or a rule for one mistake in the flags. */
typedef struct {
    const Variant *variant;
    bool stuck;
    Mistake mistake;
} Alone;

/* Could the flag have been made so: by a right rule, or by one of this mistake? */
static bool flag_agrees(const Study *study, const View *view, int flag, Mistake mistake) {
    for (int r = 0; r < study->rule_count[flag]; r++) {
        const Rule *rule = &study->rule[flag][r];
        bool counts = rule->mistake == MISTAKE_NONE || rule->mistake == mistake;
        if (counts && rule->level(view) == view->seen_flag[flag])
            return true;
    }
    return false;
}

static bool explains_case(const Study *study, const Alone *alone, size_t k) {
    static View view;
    static Machine machine;
    Word a, b, unknown;
    study_view(study, alone->variant, k, &machine, &a, &b, &unknown, &view);
    if (!study_result_agrees(study, &machine, &view, &unknown, alone->stuck))
        return false;
    bool undriven = alone->mistake == MISTAKE_UNDRIVEN;
    if (!undriven && !view.seen_all)
        return false;
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!study_has(study, (Flag)flag))
            continue;
        if (study_flag_unknown(study, k, (Flag)flag)
                ? !undriven
                : !flag_agrees(study, &view, flag, alone->mistake))
            return false;
    }
    return true;
}

static double share_of(const Study *study, const Alone *alone) {
    size_t looked = 0, explained = 0;
    size_t stride = study->wrong_count / SHARE_CASES + 1, at = 0;
    for (int g = 0; g < study->group_count; g++)
        for (size_t i = 0; i < study->wrong[g]; i++) {
            if (at++ % stride != 0)
                continue;
            looked++;
            explained += explains_case(study, alone, study->order[study->begin[g] + i]);
        }
    return looked == 0 ? 0 : (double)explained / (double)looked;
}

/* ---- findings in words --------------------------------------------------------------------- */

typedef struct {
    char *text;
    size_t used;
} Phrase;

static void say(Phrase *detail, const char *between, const char *text) {
    size_t room = FINDING_DETAIL_BYTES - detail->used;
    int length =
        snprintf(detail->text + detail->used, room, "%s%s", detail->used == 0 ? "" : between, text);
    if (length > 0)
        detail->used += (size_t)length < room ? (size_t)length : room - 1;
}

/* "0, 3 and 5 to 7" of the bits set. */
static void bits_text(const Word *bits, char *text, size_t room) {
    size_t used = 0;
    text[0] = '\0';
    for (unsigned bit = 0; bit < bits->width && used + 32 < room; bit++) {
        if (!word_bit(bits, bit))
            continue;
        unsigned end = bit;
        while (end + 1 < bits->width && word_bit(bits, end + 1))
            end++;
        const char *between = used == 0 ? "" : ", ";
        if (end > bit + 1)
            used += (size_t)snprintf(text + used, room - used, "%s%u to %u", between, bit, end);
        else if (end == bit + 1)
            used += (size_t)snprintf(text + used, room - used, "%s%u, %u", between, bit, end);
        else
            used += (size_t)snprintf(text + used, room - used, "%s%u", between, bit);
        bit = end;
    }
}

static bool is_single(const Word *bits) {
    unsigned count = 0;
    for (unsigned bit = 0; bit < bits->width; bit++)
        count += word_bit(bits, bit);
    return count == 1;
}

/* "carry into column 5 is always 0" for each level. */
static void say_breaks(const Breaks *breaks, Phrase *detail) {
    char bits[256], text[320];
    for (int level = 0; level <= 1; level++) {
        Word columns = breaks->level;
        if (level == 0)
            word_xor(&columns, &breaks->column, &breaks->level);
        if (word_is_zero(&columns))
            continue;
        bits_text(&columns, bits, sizeof bits);
        snprintf(text, sizeof text, "the carry into column%s %s is always %d",
                 is_single(&columns) ? "" : "s", bits, level);
        say(detail, "; ", text);
    }
}

static void say_stuck(const Study *study, Phrase *detail) {
    char bits[256], text[320];
    for (int level = 0; level <= 1; level++) {
        Word stuck = study->stuck_level;
        if (level == 0)
            word_xor(&stuck, &study->stuck, &study->stuck_level);
        if (word_is_zero(&stuck))
            continue;
        bits_text(&stuck, bits, sizeof bits);
        snprintf(text, sizeof text, "result bit%s %s %s always %d", is_single(&stuck) ? "" : "s",
                 bits, is_single(&stuck) ? "is" : "are", level);
        say(detail, "; ", text);
    }
}

static void say_unknown(const Study *study, Phrase *detail) {
    char bits[256], text[320];
    if (!word_is_zero(&study->unknown)) {
        bits_text(&study->unknown, bits, sizeof bits);
        snprintf(text, sizeof text, "result bit%s %s", is_single(&study->unknown) ? "" : "s", bits);
        say(detail, ", ", text);
    }
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (study->flag_unknown[flag])
            say(detail, ", ", unit_role(study->unit, (Pin)(PIN_FLAG + flag)));
}

/* In which operations, where it is not in all that it could be in. */
static void say_operations(const Study *study, const bool *used, Phrase *detail) {
    bool all = true;
    for (int g = 0; g < study->unit->choice_count; g++)
        all = all && (used[g] || !operation_facts(study->unit->choice[g].operation)->subtracts);
    bool additions = false;
    for (int g = 0; g < study->unit->choice_count; g++)
        additions =
            additions || (used[g] && !operation_facts(study->unit->choice[g].operation)->subtracts);
    bool every = true;
    for (int g = 0; g < study->unit->choice_count; g++)
        every = every && used[g];
    if (every || (all && !additions))
        return;
    char text[128] = "in ";
    size_t used_bytes = 3;
    for (int g = 0; g < study->unit->choice_count; g++)
        if (used[g])
            used_bytes += (size_t)snprintf(text + used_bytes, sizeof text - used_bytes, "%s%s",
                                           used_bytes == 3 ? "" : ", ",
                                           operation_name(study->unit->choice[g].operation));
    if (used_bytes > 3)
        say(detail, ", ", text);
}

static void say_bit_of_negative(const Study *study, bool inverted, Phrase *detail) {
    const Word *bits = inverted ? &study->hints.negative_against : &study->hints.negative_as;
    char text[64];
    for (unsigned bit = bits->width; bit-- > 0;)
        if (word_bit(bits, bit)) {
            snprintf(text, sizeof text, "it is result bit %u%s", bit, inverted ? " inverted" : "");
            say(detail, "; ", text);
            return;
        }
}

static void say_rule(const Study *study, const Rule *rule, Phrase *detail) {
    char bits[256], text[320];
    if (strcmp(rule->detail, "it is another bit of the result") == 0) {
        say_bit_of_negative(study, false, detail);
    } else if (strcmp(rule->detail, "it is another bit of the result, inverted") == 0) {
        say_bit_of_negative(study, true, detail);
    } else if (rule->mistake == MISTAKE_ZERO_MISSES_BITS) {
        bits_text(&study->hints.zero_missed, bits, sizeof bits);
        snprintf(text, sizeof text, "it misses bit%s %s",
                 is_single(&study->hints.zero_missed) ? "" : "s", bits);
        say(detail, "; ", text);
    } else if (rule->detail[0] != '\0') {
        say(detail, "; ", rule->detail);
    }
}

static void say_late(const Study *study, Phrase *detail) {
    char text[64];
    int clocks = study->late < 0 ? -study->late : study->late;
    snprintf(text, sizeof text, "%d clock%s %s", clocks, clocks == 1 ? "" : "s",
             study->late < 0 ? "early" : "late");
    say(detail, "; ", text);
}

static void say_move(const Study *study, const Explanation *explanation, const Move *move,
                     Phrase *detail) {
    char text[64];
    if (move->detail[0] != '\0')
        say(detail, "; ", move->detail);
    if (move->kind == MOVE_BREAKS)
        say_breaks(&explanation->theory.breaks, detail);
    if (move->kind == MOVE_STUCK)
        say_stuck(study, detail);
    if (move->kind == MOVE_CUT) {
        snprintf(text, sizeof text, "the lower %u of %u", explanation->theory.variant.kept,
                 study->unit->width);
        say(detail, "; ", text);
    }
    if (!move->everywhere && move->kind != MOVE_BREAKS)
        say_operations(study, explanation->used, detail);
}

/* The flag's rules of this mistake, each once, and in which operations it is so. */
static void say_flag(const Study *study, const Explanation *explanation, int flag, Mistake mistake,
                     Phrase *detail) {
    bool used[GROUPS_MAX] = {false};
    const Rule *said = NULL;
    for (int g = 0; g < study->group_count; g++) {
        int r = explanation->rule[flag][g];
        if (r < 0 || study->rule[flag][r].mistake != mistake)
            continue;
        used[g] = true;
        if (said == NULL)
            say_rule(study, &study->rule[flag][r], detail);
        said = &study->rule[flag][r];
    }
    if (said == NULL || mistake == MISTAKE_OVERFLOW_FORGETS_SUBTRACTION)
        return;
    bool always = true;
    for (int g = 0; g < study->unit->choice_count; g++) {
        /* Where it follows as well by the rule, it is nowhere else than everywhere. */
        always = always && (used[g] || mistake == MISTAKE_ZERO_MISSES_BITS);
    }
    if (!always && mistake != MISTAKE_CARRY_SENSE_REVERSED)
        say_operations(study, used, detail);
}

/* ---- putting a diagnosis together ---------------------------------------------------------- */

static Finding *add_finding(Diagnosis *diagnosis, Mistake mistake) {
    if (diagnosis->finding_count == FINDINGS_MAX)
        return NULL;
    Finding *finding = &diagnosis->finding[diagnosis->finding_count++];
    *finding = (Finding){.mistake = mistake, .share = 1};
    return finding;
}

/* The moves of one mistake alone, as a variant. */
static void set_share(const Study *study, const Explanation *explanation, Finding *finding) {
    Theory theory = {.count = 0};
    for (int m = 0; m < explanation->theory.count; m++)
        if (explanation->theory.move[m]->mistake == finding->mistake)
            theory_add(study, &theory, explanation->theory.move[m]);
    if (finding->mistake == MISTAKE_CARRY_BROKEN)
        theory.variant.breaks = &explanation->theory.breaks;
    Alone alone = {&theory.variant, theory.stuck, finding->mistake};
    finding->share = share_of(study, &alone);
}

static void describe(const Study *study, const Explanation *explanation, Diagnosis *diagnosis) {
    uint32_t mistakes = mistakes_of(study, explanation);
    for (int mistake = 0; mistake < MISTAKE_COUNT; mistake++) {
        if ((mistakes >> mistake & 1) == 0)
            continue;
        Finding *finding = add_finding(diagnosis, (Mistake)mistake);
        if (finding == NULL)
            return;
        Phrase detail = {finding->detail, 0};
        for (int m = 0; m < explanation->theory.count; m++)
            if (explanation->theory.move[m]->mistake == (Mistake)mistake)
                say_move(study, explanation, explanation->theory.move[m], &detail);
        for (int flag = 0; flag < FLAG_COUNT; flag++)
            say_flag(study, explanation, flag, (Mistake)mistake, &detail);
        if (mistake == MISTAKE_UNDRIVEN)
            say_unknown(study, &detail);
        if (mistake == MISTAKE_LATE)
            say_late(study, &detail);
    }
    if (diagnosis->finding_count < 2)
        return;
    for (int f = 0; f < diagnosis->finding_count; f++)
        set_share(study, explanation, &diagnosis->finding[f]);
}

/* Nothing explains it all: the mistake that alone explains most. */
static void describe_nearest(const Study *study, Diagnosis *diagnosis) {
    Mistake nearest = MISTAKE_NONE;
    double most = 0;
    add_finding(diagnosis, MISTAKE_UNEXPLAINED)->share = 0;
    for (int m = -1; m < MOVES + MISTAKE_COUNT; m++) {
        Theory theory = {.count = 0};
        Alone alone = {&theory.variant, false, MISTAKE_NONE};
        if (m >= 0 && m < MOVES) {
            if (moves[m].kind == MOVE_BREAKS || !theory_add(study, &theory, &moves[m]))
                continue;
            alone.stuck = theory.stuck;
            alone.mistake = moves[m].mistake;
        } else if (m >= MOVES) {
            alone.mistake = (Mistake)(m - MOVES);
        }
        double share = m < 0 ? 0 : share_of(study, &alone);
        if (share > most) {
            most = share;
            nearest = alone.mistake;
        }
    }
    if (nearest != MISTAKE_NONE)
        add_finding(diagnosis, nearest)->share = most;
}

/* ---- the smallest mismatching case --------------------------------------------------------- */

static unsigned length_of(const Word *word) {
    unsigned bit = word->width;
    while (bit > 0 && !word_bit(word, bit - 1))
        bit--;
    return bit;
}

/* Smaller: shorter operands, then a lesser sum of the two. */
static bool is_smaller(const Study *study, size_t one, size_t other) {
    Word a[2], b[2];
    unsigned length[2];
    size_t which[2] = {one, other};
    for (int k = 0; k < 2; k++) {
        cases_operands(study->evidence->cases, which[k], &a[k], &b[k]);
        unsigned of_a = length_of(&a[k]), of_b = length_of(&b[k]);
        length[k] = of_a > of_b ? of_a : of_b;
        word_resize_unsigned(&a[k], &a[k], study->unit->width + 1);
        word_resize_unsigned(&b[k], &b[k], study->unit->width + 1);
        word_add(&a[k], &a[k], &b[k], false);
    }
    if (length[0] != length[1])
        return length[0] < length[1];
    return word_subtract(&b[0], &a[0], &a[1], false);
}

static void find_example(const Study *study, Diagnosis *diagnosis) {
    bool found = false;
    for (int g = 0; g < study->group_count; g++)
        for (size_t i = 0; i < study->wrong[g]; i++) {
            size_t k = study->order[study->begin[g] + i];
            if (!found || is_smaller(study, k, diagnosis->example))
                diagnosis->example = k;
            found = true;
        }
}

/* ---- finding out --------------------------------------------------------------------------- */

/* Looks at the samples some clocks later or earlier. */
static bool explain_at(const Evidence *evidence, int late, Search *search, Study *study) {
    study_make(study, evidence, late);
    *search = (Search){.study = study};
    search_all(search);
    return search->found;
}

/* A design with a clock may be right at another time; the nearest time first. */
static void explain_at_other_times(const Evidence *evidence, Diagnosis *diagnosis) {
    static Search search;
    int latency = (int)evidence->schedule->latency;
    for (int step = 1; step <= SCHEDULE_LATE_MAX; step++)
        for (int sign = 1; sign >= -1; sign -= 2) {
            if (diagnosis->finding_count > 0 || (sign < 0 && step > latency))
                continue;
            Study study;
            if (explain_at(evidence, sign * step, &search, &study)) {
                diagnosis->late = study.late;
                describe(&study, &search.best, diagnosis);
            }
            study_free(&study);
        }
}

void mistakes_find(const Evidence *evidence, Diagnosis *diagnosis) {
    static Search search;
    Study study;
    *diagnosis = (Diagnosis){.cases = evidence->cases->count, .first_column = -1};
    study_make(&study, evidence, 0);
    diagnosis->wrong = study.wrong_count;
    diagnosis->tail = TAIL_RIGHT;
    if (study.wrong_count == 0) {
        diagnosis->tail = schedule_tail(evidence->schedule, evidence->cases, evidence->mapping,
                                        evidence->samples);
        if (diagnosis->tail != TAIL_RIGHT)
            add_finding(diagnosis, MISTAKE_UNEXPLAINED)->share = 0;
        study_free(&study);
        return;
    }
    memcpy(diagnosis->wrong_flag, study.flag_ever_wrong, sizeof diagnosis->wrong_flag);
    if (!word_is_zero(&study.ever_wrong))
        diagnosis->first_column = (int)lowest_wrong(&study);
    find_example(&study, diagnosis);
    search = (Search){.study = &study};
    search_all(&search);
    if (search.found)
        describe(&study, &search.best, diagnosis);
    else if (evidence->schedule->clocked)
        explain_at_other_times(evidence, diagnosis);
    if (diagnosis->finding_count == 0)
        describe_nearest(&study, diagnosis);
    study_free(&study);
}
