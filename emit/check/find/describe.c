/* See describe.h. */
#include "check/find/describe.h"

#include "check/find/share.h"

#include <stdarg.h>
#include <stdio.h>

typedef struct {
    char *text;
    size_t used;
} Phrase;

/* Adds a sentence, printf style; `between` stands before all but the first. */
__attribute__((format(printf, 3, 4))) static void say(Phrase *detail, const char *between,
                                                      const char *format, ...) {
    char text[384];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    size_t room = FINDING_DETAIL_BYTES - detail->used;
    int length =
        snprintf(detail->text + detail->used, room, "%s%s", detail->used == 0 ? "" : between, text);
    if (length > 0)
        detail->used += (size_t)length < room ? (size_t)length : room - 1;
}

/* "bits 0, 3, 5 to 7", or "bit 0". */
typedef struct {
    char text[FINDING_DETAIL_BYTES / 2];
} BitList;

static BitList bits_named(const char *name, const Word *bits) {
    BitList list;
    bool single = word_count(bits) == 1;
    size_t room = sizeof list.text,
           used = (size_t)snprintf(list.text, room, "%s%s ", name, single ? "" : "s");
    const char *between = "";
    for (unsigned bit = 0; bit < bits->width && used + 32 < room; bit++) {
        unsigned end = bit;
        if (!word_bit(bits, bit))
            continue;
        while (end + 1 < bits->width && word_bit(bits, end + 1))
            end++;
        used += (size_t)snprintf(list.text + used, room - used, "%s%u", between, bit);
        if (end > bit)
            used += (size_t)snprintf(list.text + used, room - used, "%s%u",
                                     end == bit + 1 ? ", " : " to ", end);
        between = ", ";
        bit = end;
    }
    return list;
}

static void say_carry_is(const Word *columns, const char *what, Phrase *detail) {
    if (!word_is_zero(columns))
        say(detail, "; ", "the carry into %s is %s", bits_named("column", columns).text, what);
}

/* "the carry into columns 4, 8 is that into column 0" for each column that one is taken from. */
static void say_taken(const Breaks *breaks, Phrase *detail) {
    Word left = breaks->taken, same;
    char text[64];
    for (unsigned first = 0; first < left.width; first++) {
        if (!word_bit(&left, first))
            continue;
        word_zero(&same, left.width);
        for (unsigned column = first; column < left.width; column++)
            if (word_bit(&left, column) && breaks->from[column] == breaks->from[first])
                word_put(&same, column, true);
        word_xor(&left, &left, &same);
        snprintf(text, sizeof text, "that into column %u", breaks->from[first]);
        say_carry_is(&same, text, detail);
    }
}

static void say_breaks(const Breaks *breaks, Phrase *detail) {
    Word low;
    word_xor(&low, &breaks->column, &breaks->level);
    word_xor(&low, &low, &breaks->taken);
    say_carry_is(&low, "always 0", detail);
    say_carry_is(&breaks->level, "always 1", detail);
    say_taken(breaks, detail);
}

static void say_stuck(const Study *study, Phrase *detail) {
    for (int level = 0; level <= 1; level++) {
        Word stuck = study->stuck_level;
        if (level == 0)
            word_xor(&stuck, &study->stuck, &study->stuck_level);
        if (!word_is_zero(&stuck))
            say(detail, "; ", "result %s %s always %d", bits_named("bit", &stuck).text,
                word_count(&stuck) == 1 ? "is" : "are", level);
    }
}

static void say_unknown(const Study *study, Phrase *detail) {
    if (!word_is_zero(&study->unknown))
        say(detail, ", ", "result %s", bits_named("bit", &study->unknown).text);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (study->flag_unknown[flag])
            say(detail, ", ", "%s", unit_role(study->unit, (Pin)(PIN_FLAG + flag)));
}

/* In which operations, where it is not in all that it could be in. */
static void say_operations(const Study *study, const bool *used, Mistake mistake, Phrase *detail) {
    const Unit *unit = study->unit;
    char text[128] = "in ";
    size_t length = 3;
    bool all = true, all_subtractions = mistake_facts(mistake)->of_subtraction;
    for (int g = 0; g < unit->choice_count; g++) {
        Operation operation = unit->choice[g].operation;
        all = all && used[g];
        all_subtractions = all_subtractions && (used[g] || !operation_facts(operation)->subtracts);
        if (used[g])
            length += (size_t)snprintf(text + length, sizeof text - length, "%s%s",
                                       length == 3 ? "" : ", ", operation_name(operation));
    }
    if (!all && !all_subtractions && length > 3)
        say(detail, ", ", "%s", text);
}

static void say_rule(const Study *study, const Rule *rule, Phrase *detail) {
    const Hints *hints = &study->hints;
    const char *pin = unit_role(study->unit, (Pin)(PIN_FLAG + rule->flag));
    const Word *bits = rule->saying == SAY_BIT_AS ? &hints->negative_as : &hints->negative_against;
    switch (rule->saying) {
    case SAY_NOTHING:
    case SAY_CANNOT_TELL:
        break;
    case SAY_IT_IS:
        say(detail, "; ", "it is %s", rule->text);
        break;
    case SAY_PIN:
        say(detail, "; ", "the pin %s", pin);
        break;
    case SAY_STUCK:
        say(detail, "; ", "%s is %s", pin, rule->text);
        break;
    case SAY_MISSED_BITS:
        say(detail, "; ", "it misses %s", bits_named("bit", &hints->zero_missed).text);
        break;
    case SAY_BIT_AS:
    case SAY_BIT_AGAINST:
        say(detail, "; ", "it is result bit %d%s", rules_highest(bits),
            rule->saying == SAY_BIT_AS ? "" : " inverted");
        break;
    }
}

static void say_late(const Study *study, Phrase *detail) {
    int clocks = study->late < 0 ? -study->late : study->late;
    say(detail, "; ", "%d clock%s %s", clocks, clocks == 1 ? "" : "s",
        study->late < 0 ? "early" : "late");
}

static void say_move(const Study *study, const Explanation *explanation, const Move *move,
                     Phrase *detail) {
    if (move->detail[0] != '\0')
        say(detail, "; ", "%s", move->detail);
    if (move->kind == MOVE_BREAKS)
        say_breaks(&explanation->theory.breaks, detail);
    if (move->kind == MOVE_STUCK)
        say_stuck(study, detail);
    if (move->kind == MOVE_CUT)
        say(detail, "; ", "the lower %u of %u", explanation->theory.variant.kept,
            study->unit->width);
    if (!move->everywhere)
        say_operations(study, explanation->used, move->mistake, detail);
}

/* The flag's rules of this mistake, each once, and in which operations it is so. */
static void say_flag(const Study *study, const Explanation *explanation, int flag, Mistake mistake,
                     Phrase *detail) {
    bool used[GROUPS_MAX] = {false};
    const Rule *said = NULL;
    for (int g = 0; g < study->group_count; g++) {
        int r = explanation->rule[flag][g];
        if (r < 0 || study->rules[flag].rule[r].mistake != mistake)
            continue;
        used[g] = true;
        if (said == NULL)
            say_rule(study, &study->rules[flag].rule[r], detail);
        said = &study->rules[flag].rule[r];
    }
    if (said != NULL)
        say_operations(study, used, mistake, detail);
}

/* ---- putting a diagnosis together ---------------------------------------------------------- */

static Finding *add_finding(Diagnosis *diagnosis, Mistake mistake) {
    if (diagnosis->finding_count == FINDINGS_MAX)
        return NULL;
    Finding *finding = &diagnosis->finding[diagnosis->finding_count++];
    *finding = (Finding){.mistake = mistake, .share = 1};
    return finding;
}

/* Of the cases that are wrong in time, those that are right at the other time. */
static double share_of_late(const Study *study, const Study *in_time) {
    size_t right = 0;
    for (int g = 0; g < in_time->group_count; g++)
        for (size_t i = 0; i < in_time->wrong[g]; i++)
            right += !study_is_wrong(study, in_time->order[in_time->begin[g] + i]);
    return in_time->wrong_count == 0 ? 0 : (double)right / (double)in_time->wrong_count;
}

/* The moves of one mistake alone, as a variant. */
static void set_share(const Study *study, const Study *in_time, const Explanation *explanation,
                      Finding *finding) {
    Theory theory = {.count = 0};
    for (int m = 0; m < explanation->theory.count; m++)
        if (explanation->theory.move[m]->mistake == finding->mistake)
            theory_add(study, &theory, explanation->theory.move[m]);
    if (finding->mistake == MISTAKE_CARRY_BROKEN)
        theory.variant.breaks = &explanation->theory.breaks;
    Alone alone = {&theory.variant, theory.stuck, finding->mistake, NULL};
    finding->share = finding->mistake == MISTAKE_LATE ? share_of_late(study, in_time)
                                                      : share_of(in_time, &alone);
}

void describe(const Study *study, const Study *in_time, const Explanation *explanation,
              Diagnosis *diagnosis) {
    uint32_t mistakes = search_mistakes(study, explanation);
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
        set_share(study, in_time, explanation, &diagnosis->finding[f]);
}

/* ---- the nearest --------------------------------------------------------------------------- */

/* The best so far; its gain may be less than 0 where every mistake spoils more than it explains. */
typedef struct {
    double gain;
    const Move *move; /* or, where NULL, */
    const Rule *rule; /* or, where that is NULL, too: undriven */
} Nearest;

enum { NO_GAIN = -1 }; /* of what explains nothing */

static bool make_alone(const Study *study, const Nearest *what, Theory *theory, Alone *alone) {
    *theory = (Theory){.count = 0};
    *alone = (Alone){&theory->variant, false, MISTAKE_UNDRIVEN, what->rule};
    if (what->rule != NULL)
        alone->mistake = what->rule->mistake;
    if (what->move == NULL)
        return true;
    alone->mistake = what->move->mistake;
    bool good = what->move->kind != MOVE_BREAKS && theory_add(study, theory, what->move);
    alone->stuck = theory->stuck;
    return good;
}

static void try_nearest(const Study *study, const Move *move, const Rule *rule, Nearest *nearest) {
    Theory theory;
    Alone alone;
    Nearest tried = {NO_GAIN, move, rule};
    if (!make_alone(study, &tried, &theory, &alone))
        return;
    tried.gain = share_gained(study, &alone);
    if (tried.gain > nearest->gain)
        *nearest = tried;
}

static bool never_changes(const Study *study, Flag flag) {
    const Samples *samples = study->evidence->samples;
    unsigned bit = study->unit->width + (unsigned)flag;
    size_t ones = 0, count = study->evidence->cases->count;
    for (size_t k = 0; k < count; k++) {
        size_t at = schedule_sample(study->evidence->schedule, k, study->late);
        ones += packed_bit(samples->value + at * samples->limbs, bit);
    }
    return ones == 0 || ones == count;
}

static bool is_worth_trying(const Study *study, const Rule *rule) {
    if (rule->mistake == MISTAKE_NONE || !study->flag_ever_wrong[rule->flag])
        return false;
    return rule->mistake != MISTAKE_BIT_STUCK || never_changes(study, rule->flag);
}

static void find_nearest(const Study *study, Nearest *nearest) {
    int count = 0;
    const Move *moves = moves_all(&count);
    if (study->any_unknown)
        try_nearest(study, NULL, NULL, nearest);
    for (int m = 0; m < count; m++)
        try_nearest(study, &moves[m], NULL, nearest);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        for (int r = 0; r < study->rules[flag].count && study_has(study, (Flag)flag); r++)
            if (is_worth_trying(study, &study->rules[flag].rule[r]))
                try_nearest(study, NULL, &study->rules[flag].rule[r], nearest);
}

static void say_against(const Study *study, const Alone *alone, Phrase *detail) {
    double against = share_against(study, alone);
    if (against > 0)
        say(detail, "; ", "%.3g %% of the right vectors speak against it", 100 * against);
}

void describe_nearest(const Study *study, Diagnosis *diagnosis) {
    Theory theory;
    Alone alone;
    Nearest nearest = {NO_GAIN, NULL, NULL};
    diagnosis_add(diagnosis, MISTAKE_UNEXPLAINED, "");
    find_nearest(study, &nearest);
    if (nearest.gain <= NO_GAIN || !make_alone(study, &nearest, &theory, &alone))
        return;
    Finding *finding = add_finding(diagnosis, alone.mistake);
    Phrase detail = {finding->detail, 0};
    finding->nearest = true;
    finding->share = share_of(study, &alone);
    if (nearest.move != NULL && nearest.move->detail[0] != '\0')
        say(&detail, "; ", "%s", nearest.move->detail);
    else if (nearest.rule != NULL)
        say_rule(study, nearest.rule, &detail);
    say_against(study, &alone, &detail);
}
