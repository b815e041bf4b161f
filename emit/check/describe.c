/* See describe.h. */
#include "check/describe.h"

#include "check/share.h"

#include <stdio.h>
#include <string.h>

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

/* Mistakes that only a subtraction can show. */
static bool is_of_subtraction(Mistake mistake) {
    return mistake == MISTAKE_FIRST_CARRY_MISSING || mistake == MISTAKE_OPERAND_NOT_INVERTED ||
           mistake == MISTAKE_OPERANDS_SWAPPED || mistake == MISTAKE_CARRY_SENSE_REVERSED ||
           mistake == MISTAKE_OVERFLOW_FORGETS_SUBTRACTION;
}

/* In which operations, where it is not in all that it could be in. */
static void say_operations(const Study *study, const bool *used, Mistake mistake, Phrase *detail) {
    const Unit *unit = study->unit;
    char text[128] = "in ";
    size_t length = 3;
    bool all = true, all_subtractions = is_of_subtraction(mistake);
    for (int g = 0; g < unit->choice_count; g++) {
        Operation operation = unit->choice[g].operation;
        all = all && used[g];
        all_subtractions = all_subtractions && (used[g] || !operation_facts(operation)->subtracts);
        if (used[g])
            length += (size_t)snprintf(text + length, sizeof text - length, "%s%s",
                                       length == 3 ? "" : ", ", operation_name(operation));
    }
    if (!all && !all_subtractions && length > 3)
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
        if (r < 0 || study->rule[flag][r].mistake != mistake)
            continue;
        used[g] = true;
        if (said == NULL)
            say_rule(study, &study->rule[flag][r], detail);
        said = &study->rule[flag][r];
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
    Alone alone = {&theory.variant, theory.stuck, finding->mistake};
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

void describe_nearest(const Study *study, Diagnosis *diagnosis) {
    int move_count = 0;
    const Move *moves = moves_all(&move_count);
    Mistake nearest = MISTAKE_NONE;
    double most = 0;
    add_finding(diagnosis, MISTAKE_UNEXPLAINED)->share = 0;
    for (int m = -1; m < move_count + MISTAKE_COUNT; m++) {
        Theory theory = {.count = 0};
        Alone alone = {&theory.variant, false, MISTAKE_NONE};
        if (m >= 0 && m < move_count) {
            if (moves[m].kind == MOVE_BREAKS || !theory_add(study, &theory, &moves[m]))
                continue;
            alone.stuck = theory.stuck;
            alone.mistake = moves[m].mistake;
        } else if (m >= move_count) {
            alone.mistake = (Mistake)(m - move_count);
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
