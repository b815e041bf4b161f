/* See verdict.h. A verdict travels as strings, each ended by a NUL, in a fixed order; numbers are
 * strings, too. */
#include "check/verdict.h"

#include "base/memory.h"
#include "base/text.h"
#include "check/find/example.h"
#include "check/find/mistakes.h"
#include "check/run/gates.h"
#include "proof/equal.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

enum { NOTES_MAX = 8, NOTE_BYTES = 1024 };

/* What is found out on the way. */
typedef struct {
    const Question *question;
    Design design;
    Sources sources;
    Headers headers;
    char *text; /* that the headers point into, or NULL */
    Mapping mapping;
    Cases cases;
    Schedule schedule;
    Samples samples;
    Diagnosis diagnosis;
    char note[NOTES_MAX][NOTE_BYTES];
    size_t note_count;
    bool reset_low;    /* the level that resets it */
    Equality equality; /* PROOF_EQUAL and a text where it is proved */
} Check;

__attribute__((format(printf, 2, 3))) static void note(Check *check, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    if (check->note_count < NOTES_MAX)
        vsnprintf(check->note[check->note_count++], NOTE_BYTES, format, arguments);
    va_end(arguments);
}

/* ---- notes --------------------------------------------------------------------------------- */

/* Pins that go by another name. */
static void note_names(Check *check) {
    TextBuffer pins = {NULL, 0, 0};
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        const HeaderPort *port = check->mapping.port[pin];
        const char *role = unit_role(check->question->unit, (Pin)pin);
        if (port != NULL && strcmp(port->name, role) != 0)
            text_printf(&pins, " %s=%.80s", role, port->name);
    }
    if (pins.length > 0)
        note(check, "pins%s", pins.text);
    text_free(&pins);
    if (check->mapping.parameter != NULL)
        note(check, "parameter %.80s set to %u", check->mapping.parameter,
             check->question->unit->width);
}

/* Flags that no vector tests, and why. */
static void note_left_out(Check *check) {
    TextBuffer missing = {NULL, 0, 0}, wide = {NULL, 0, 0};
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (check->mapping.lacks[flag])
            text_printf(check->mapping.wide[flag] == NULL ? &missing : &wide, " %s",
                        unit_role(check->question->unit, (Pin)(PIN_FLAG + flag)));
    if (missing.length > 0)
        note(check, "left out of the test, no such port:%s", missing.text);
    if (wide.length > 0)
        note(check, "left out of the test, of another width:%s", wide.text);
    text_free(&missing);
    text_free(&wide);
}

/* A flag that was asked for and is not there, or has another width, is a mistake of the design, and
 * so is one that has the pin's own name and another width. */
static void find_pin_mistakes(Check *check) {
    const Mapping *mapping = &check->mapping;
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        const char *role = unit_role(check->question->unit, (Pin)(PIN_FLAG + flag));
        const HeaderPort *wide = mapping->wide[flag];
        if (!mapping->lacks[flag])
            continue;
        if (wide == NULL && check->question->flags_asked)
            diagnosis_add(&check->diagnosis, MISTAKE_PIN_MISSING, role);
        else if (wide != NULL && (check->question->flags_asked || strcmp(wide->name, role) == 0))
            diagnosis_add(&check->diagnosis, MISTAKE_PIN_WIDTH, role);
    }
}

/* Flags that the compiler found to have another width are left out of what is compared. */
static void leave_wide_out(Mapping *mapping, const Widths *widths) {
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        const HeaderPort **port = &mapping->port[PIN_FLAG + flag];
        if (*port == NULL || widths->bits[PIN_FLAG + flag] == 1)
            continue;
        mapping->lacks[flag] = true;
        mapping->wide[flag] = *port;
        *port = NULL;
    }
}

/* How many cases of each operation differ, where there are several. */
static void note_operations(Check *check) {
    const Unit *unit = check->question->unit;
    const Diagnosis *diagnosis = &check->diagnosis;
    char text[NOTE_BYTES] = "differs in";
    size_t used = strlen(text);
    for (int g = 0; g <= unit->choice_count; g++) {
        if (diagnosis->asked[g] == 0)
            continue;
        bool nothing = g == unit->choice_count;
        used += (size_t)snprintf(
            text + used, sizeof text - used, "%s %s %zu of %zu", g == 0 ? "" : ",",
            nothing ? "nothing requested" : operation_name(unit->choice[g].operation),
            diagnosis->wrong_of[g], diagnosis->asked[g]);
    }
    if (diagnosis->wrong > 0 && unit->choice_count > 1)
        note(check, "%s", text);
}

/* Inputs that the outputs do not follow when they change alone. */
static void note_stale(Check *check) {
    char text[NOTE_BYTES];
    size_t used = (size_t)snprintf(text, sizeof text, "%sthe outputs do not follow",
                                   check->diagnosis.wrong == 0 ? "every vector is right; " : "");
    const char *between = " ";
    for (int pin = 0; pin < PIN_COUNT; pin++)
        if (check->samples.stays[pin] && used < sizeof text) {
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%s", between,
                                     check->mapping.port[pin]->name);
            between = " and ";
        }
    if (used < sizeof text)
        snprintf(
            text + used, sizeof text - used,
            " alone: not in the sensitivity list of an always block, or a latch holds the outputs");
    note(check, "%s", text);
}

static void note_tail(Check *check) {
    if (check->diagnosis.tail == TAIL_STALE)
        note_stale(check);
    if (check->diagnosis.tail == TAIL_MOVES)
        note(check, "every vector is right; the outputs change when the clock falls, where they "
                    "should change when it rises");
    if (check->diagnosis.tail == TAIL_HOLD_WRONG)
        note(check, "every vector is right; with the enable low the outputs change at a clock");
    if (check->diagnosis.tail == TAIL_RESET_EARLY)
        note(check, "every vector is right; the reset does not wait for the clock: --reset async "
                    "describes it");
    if (check->diagnosis.tail == TAIL_RESET_WRONG)
        note(check, "every vector is right; in reset the outputs are not cleared (result 0, zero "
                    "1, the other flags 0)");
}

/* ---- the run ------------------------------------------------------------------------------- */

static bool simulate(Check *check, bool reset_low, Problem *problem) {
    check->reset_low = reset_low;
    Bench bench = {.cases = &check->cases,
                   .schedule = &check->schedule,
                   .mapping = &check->mapping,
                   .settings = check->question->settings,
                   .reset_low = reset_low};
    Widths widths;
    if (!bench_draw_tag(&bench, problem) ||
        !simulate_run(&check->design, &bench, &widths, &check->samples, problem))
        return false;
    leave_wide_out(&check->mapping, &widths);
    Evidence evidence = {&check->cases, &check->schedule, &check->mapping, &check->samples};
    mistakes_find(&evidence, &check->diagnosis);
    return true;
}

/* Do the outputs never change from the first case on? */
static bool never_changes(const Check *check) {
    const Samples *samples = &check->samples;
    for (size_t k = check->schedule.first + check->schedule.latency; k < check->schedule.tail; k++)
        for (unsigned limb = 0; limb < samples->limbs; limb++) {
            size_t at = k * samples->limbs + limb;
            size_t before =
                (check->schedule.first + check->schedule.latency) * samples->limbs + limb;
            if (samples->value[at] != samples->value[before] ||
                samples->unknown[at] != samples->unknown[before])
                return false;
        }
    return true;
}

/* A design that does nothing may be held in reset: its reset works at the other level. The level is
 * found and not assumed; where the port's name says it, it counts as known. */
static bool try_other_reset(Check *check, Problem *problem) {
    const HeaderPort *port = check->mapping.port[PIN_RST];
    bool low = check->question->unit->reset_low;
    if (check->diagnosis.wrong == 0 || port == NULL || !never_changes(check))
        return true;
    Samples first_samples = check->samples;
    Diagnosis first = check->diagnosis;
    if (!simulate(check, !low, problem)) {
        check->samples = first_samples;
        return false;
    }
    bool moves = check->diagnosis.wrong < first.wrong;
    bool says_so = ports_says_low(port->name) != low;
    if (moves && says_so) {
        note(check, "%.80s resets when %s, as its name says; --reset-level %s says so", port->name,
             low ? "high" : "low", low ? "high" : "low");
        samples_free(&first_samples);
        return true;
    }
    samples_free(&check->samples);
    check->samples = first_samples;
    check->diagnosis = first;
    check->reset_low = low;
    if (moves)
        note(check, "it is held in reset: %.80s resets when %s, not when %s", port->name,
             low ? "high" : "low", low ? "low" : "high");
    return true;
}

/* Finds module and pins. Where that fails, the compiler may know better why. */
static bool map(Check *check, Problem *problem) {
    const Question *question = check->question;
    Problem mapping_problem = {STATUS_DONE, ""};
    const HeaderModule *module = ports_module(&check->headers, question->module, &mapping_problem);
    if (module != NULL &&
        ports_map(question->unit, module, &question->settings, &check->mapping, &mapping_problem))
        return true;
    if (!simulate_try(&check->design, problem))
        return false;
    *problem = mapping_problem;
    return false;
}

static bool find_out(Check *check, const char *folder, Problem *problem) {
    const Question *question = check->question;
    check->design = (Design){question->simulator, &check->sources, folder, question->others,
                             question->other_count};
    if (!sources_read(&check->sources, question->paths, question->path_count, problem) ||
        !sources_place(&check->sources, folder, problem) ||
        !simulate_headers(&check->design, &check->headers, &check->text, problem) ||
        !map(check, problem) ||
        !cases_make(&check->cases, question->unit, &question->plan, problem))
        return false;
    note_names(check);
    schedule_make(&check->schedule, &check->mapping, &check->cases, question->latency);
    if (!simulate(check, question->unit->reset_low, problem) || !try_other_reset(check, problem))
        return false;
    note_left_out(check);
    find_pin_mistakes(check);
    return true;
}

/* ---- the proof ----------------------------------------------------------------------------- */

static bool compare_gates(Check *check, Problem *problem) {
    Bench bench = {.cases = &check->cases,
                   .schedule = &check->schedule,
                   .mapping = &check->mapping,
                   .settings = check->question->settings};
    Aiger aiger;
    if (!bench_draw_tag(&bench, problem))
        return false;
    bool good = gates_read(&check->design, &bench, check->question->yosys, &aiger, problem);
    if (good)
        equal_find(check->question->unit, &aiger, check->question->latency, check->reset_low,
                   &check->equality);
    aiger_free(&aiger);
    return good;
}

static void word_of(Word *word, unsigned width, const uint64_t *limb) {
    word_zero(word, width);
    for (unsigned bit = 0; bit < width; bit++)
        word_put(word, bit, limb[bit / 64] >> bit % 64 & 1);
}

/* The input that the proof found becomes one more case, and the design is simulated again: what is
 * wrong in both is wrong. */
static bool try_example(Check *check, Problem *problem) {
    const Unit *unit = check->question->unit;
    const InputLevels *levels = &check->equality.example;
    Vector vector = {.control = levels->control, .cin = levels->cin, .reason = VECTOR_RANDOM};
    word_of(&vector.a, unit->width, levels->a);
    word_of(&vector.b, unit->width, levels->b);
    cases_add(&check->cases, &vector);
    samples_free(&check->samples);
    schedule_make(&check->schedule, &check->mapping, &check->cases, check->question->latency);
    if (!simulate(check, check->reset_low, problem))
        return false;
    if (check->diagnosis.wrong == 0)
        return true;
    note(check, "the proof found what the vectors miss%s%s",
         check->equality.share[0] == '\0' ? "" : ": wrong for ", check->equality.share);
    return true;
}

/* A design that passes its vectors is read as gates. */
static bool prove_design(Check *check, VerdictKind *kind, Problem *problem) {
    if (check->question->yosys == NULL || *kind != VERDICT_PASS)
        return true;
    *kind = VERDICT_UNPROVED;
    if (!compare_gates(check, problem))
        return false;
    if (check->equality.state == PROOF_EQUAL)
        *kind = VERDICT_PASS;
    if (!check->equality.shown)
        return true;
    if (!try_example(check, problem))
        return false;
    if (check->diagnosis.wrong > 0 || check->diagnosis.finding_count > 0)
        *kind = VERDICT_WRONG;
    return true;
}

/* ---- writing ------------------------------------------------------------------------------- */

static void put(FILE *reply, const char *text) {
    fputs(text, reply);
    fputc('\0', reply);
}

static void put_number(FILE *reply, size_t number) {
    fprintf(reply, "%zu", number);
    fputc('\0', reply);
}

static void put_first_bad(const Check *check, FILE *reply) {
    const Diagnosis *diagnosis = &check->diagnosis;
    char text[64] = "";
    if (diagnosis->first_column >= 0)
        snprintf(text, sizeof text, "%d", diagnosis->first_column);
    for (int flag = 0; flag < FLAG_COUNT && text[0] == '\0'; flag++)
        if (diagnosis->wrong_flag[flag])
            snprintf(text, sizeof text, "%s",
                     unit_role(check->question->unit, (Pin)(PIN_FLAG + flag)));
    put(reply, text);
}

static void put_left_out(const Check *check, FILE *reply) {
    const char *between = "";
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (check->mapping.lacks[flag]) {
            fprintf(reply, "%s%s", between,
                    unit_role(check->question->unit, (Pin)(PIN_FLAG + flag)));
            between = " ";
        }
    put(reply, "");
}

static void put_diagnosis(const Check *check, FILE *reply) {
    const Diagnosis *diagnosis = &check->diagnosis;
    put_number(reply, (size_t)diagnosis->finding_count);
    for (int k = 0; k < diagnosis->finding_count; k++) {
        const Finding *finding = &diagnosis->finding[k];
        char share[32];
        snprintf(share, sizeof share, "%.6f", finding->share);
        put_number(reply, finding->nearest);
        put(reply, mistake_facts(finding->mistake)->name);
        put(reply, mistake_facts(finding->mistake)->sentence);
        put(reply, finding->detail);
        put(reply, share);
    }
    if (diagnosis->wrong > 0) {
        Evidence evidence = {&check->cases, &check->schedule, &check->mapping, &check->samples};
        example_print(&evidence, diagnosis, reply);
    }
    fputc('\0', reply);
}

static void put_verdict(Check *check, VerdictKind kind, Status status, const char *reason,
                        FILE *reply) {
    note_operations(check);
    note_tail(check);
    put_number(reply, kind);
    put_number(reply, (size_t)status);
    put(reply, kind == VERDICT_UNPROVED && reason[0] == '\0' ? check->equality.text : reason);
    put(reply, kind == VERDICT_PASS ? check->equality.text : "");
    put_number(reply, check->diagnosis.cases);
    put_number(reply, check->diagnosis.wrong);
    put_first_bad(check, reply);
    put_left_out(check, reply);
    put_number(reply, check->note_count);
    for (size_t k = 0; k < check->note_count; k++)
        put(reply, check->note[k]);
    put_diagnosis(check, reply);
}

void verdict_find(const Question *question, const char *folder, FILE *reply) {
    Check *check = memory_zeroed(1, sizeof *check);
    Problem problem = {STATUS_DONE, ""};
    check->question = question;
    check->diagnosis.first_column = -1;
    VerdictKind kind = VERDICT_PASS;
    if (!find_out(check, folder, &problem))
        kind = problem.status == STATUS_UNTESTED ? VERDICT_UNTESTED : VERDICT_FAILED;
    else if (check->diagnosis.wrong > 0 || check->diagnosis.finding_count > 0)
        kind = VERDICT_WRONG;
    if (!prove_design(check, &kind, &problem) && problem.status != STATUS_UNTESTED)
        kind = VERDICT_FAILED;
    put_verdict(check, kind, problem.status, problem.text, reply);
    samples_free(&check->samples);
    cases_free(&check->cases);
    headers_free(&check->headers);
    sources_free(&check->sources);
    memory_free(check->text);
    memory_free(check);
}

/* ---- reading ------------------------------------------------------------------------------- */

typedef struct {
    const char *at, *end;
    bool good;
} Strings;

static const char *next(Strings *strings) {
    if (strings->at == strings->end) {
        strings->good = false;
        return "";
    }
    const char *text = strings->at;
    strings->at += strlen(text) + 1; /* a NUL follows the last byte, too */
    if (strings->at > strings->end)
        strings->at = strings->end;
    return text;
}

static char *next_copy(Strings *strings) {
    const char *text = next(strings);
    size_t room = strlen(text) + 1;
    char *copy = memory_zeroed(room, 1);
    memcpy(copy, text, room);
    return copy;
}

static size_t next_number(Strings *strings, size_t most) {
    size_t number = strtoul(next(strings), NULL, 10);
    if (number > most)
        strings->good = false;
    return strings->good ? number : 0;
}

bool verdict_read(Verdict *verdict, const char *bytes, size_t count) {
    Strings strings = {bytes, bytes + count, true};
    *verdict = (Verdict){.kind = (VerdictKind)next_number(&strings, VERDICT_FAILED)};
    verdict->status = (Status)next_number(&strings, STATUS_SURROUNDINGS);
    verdict->reason = next_copy(&strings);
    verdict->proof = next_copy(&strings);
    verdict->cases = next_number(&strings, SIZE_MAX);
    verdict->wrong = next_number(&strings, SIZE_MAX);
    verdict->first_bad = next_copy(&strings);
    verdict->left_out = next_copy(&strings);
    verdict->note_count = next_number(&strings, NOTES_MAX);
    verdict->note = memory_zeroed(verdict->note_count, sizeof *verdict->note);
    for (size_t k = 0; k < verdict->note_count; k++)
        verdict->note[k] = next_copy(&strings);
    verdict->mistake_count = next_number(&strings, FINDINGS_MAX);
    verdict->mistake = memory_zeroed(verdict->mistake_count, sizeof *verdict->mistake);
    for (size_t k = 0; k < verdict->mistake_count; k++) {
        VerdictMistake *mistake = &verdict->mistake[k];
        mistake->nearest = next_number(&strings, 1) == 1;
        mistake->name = next_copy(&strings);
        mistake->sentence = next_copy(&strings);
        mistake->detail = next_copy(&strings);
        mistake->share = strtod(next(&strings), NULL);
    }
    verdict->example = next_copy(&strings);
    bool whole = strings.at == strings.end && count > 0 && bytes[count - 1] == '\0';
    return strings.good && whole;
}

void verdict_without(Verdict *verdict, VerdictKind kind, Status status, const char *reason) {
    *verdict = (Verdict){.kind = kind, .status = status};
    verdict->reason = memory_text("%s", reason);
    verdict->proof = memory_text("%s", "");
    verdict->first_bad = memory_text("%s", "");
    verdict->left_out = memory_text("%s", "");
    verdict->example = memory_text("%s", "");
}

void verdict_free(Verdict *verdict) {
    for (size_t k = 0; k < verdict->note_count; k++)
        memory_free(verdict->note[k]);
    for (size_t k = 0; k < verdict->mistake_count; k++) {
        memory_free(verdict->mistake[k].name);
        memory_free(verdict->mistake[k].sentence);
        memory_free(verdict->mistake[k].detail);
    }
    memory_free(verdict->note);
    memory_free(verdict->mistake);
    memory_free(verdict->reason);
    memory_free(verdict->proof);
    memory_free(verdict->first_bad);
    memory_free(verdict->left_out);
    memory_free(verdict->example);
}
