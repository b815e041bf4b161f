/* See survey.h. */
#include "commands/survey.h"

#include "base/memory.h"
#include "gates/build.h"
#include "gates/prefix/prefix.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static const unsigned default_widths[] = {8, 16, 32, 64};
enum { DEFAULT_WIDTHS = sizeof default_widths / sizeof default_widths[0] };

/* ---- progress ------------------------------------------------------------------------------ */

enum { QUIET_SECONDS = 1 };

typedef struct {
    bool terminal;
    bool shown;
    struct timespec begun;
} Progress;

static void progress_begin(Progress *progress) {
    progress->terminal = isatty(STDERR_FILENO) == 1;
    progress->shown = false;
    clock_gettime(CLOCK_MONOTONIC, &progress->begun);
}

static void progress_say(Progress *progress, const char *name, unsigned width) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    if (!progress->terminal || now.tv_sec - progress->begun.tv_sec <= QUIET_SECONDS)
        return;
    fprintf(stderr, "\r\033[Kcounting %s, %u bits", name, width);
    fflush(stderr);
    progress->shown = true;
}

static void progress_end(const Progress *progress) {
    if (progress->shown)
        fputs("\r\033[K", stderr);
}

/* ---- words --------------------------------------------------------------------------------- */

static void add_word(char *words, const char *between, const char *word) {
    size_t used = strlen(words);
    snprintf(words + used, SURVEY_TITLE_BYTES - used, "%s%s", between, word);
}

/* "add,sub with carry, overflow" */
static void say_title(const Unit *unit, char title[SURVEY_TITLE_BYTES]) {
    title[0] = '\0';
    for (int k = 0; k < unit->choice_count; k++)
        add_word(title, k == 0 ? "" : ",", operation_name(unit->choice[k].operation));
    const char *between = " with ";
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!unit->flag[flag])
            continue;
        add_word(title, between, flag_name((Flag)flag));
        between = ", ";
    }
    if (unit->overflow != OVERFLOW_WRAP)
        add_word(title, "; ", overflow_name(unit->overflow));
}

/* ---- marks --------------------------------------------------------------------------------- */

/* Does one have fewer of something and no more of anything? */
static bool better(const Cost *one, const Cost *other) {
    return one->gates <= other->gates && one->levels <= other->levels &&
           (one->gates < other->gates || one->levels < other->levels);
}

void survey_mark(SurveyRow *row, size_t count) {
    uint32_t gates = UINT32_MAX, levels = UINT32_MAX;
    for (size_t k = 0; k < count; k++) {
        gates = row[k].cost.gates < gates ? row[k].cost.gates : gates;
        levels = row[k].cost.levels < levels ? row[k].cost.levels : levels;
    }
    for (size_t k = 0; k < count; k++) {
        row[k].front = true;
        for (size_t other = 0; other < count && row[k].front; other++)
            row[k].front = !better(&row[other].cost, &row[k].cost);
        /* The ends of the front: what has the fewest of one and does not lose on the other. */
        row[k].smallest = row[k].front && row[k].cost.gates == gates;
        row[k].shallowest = row[k].front && row[k].cost.levels == levels;
    }
}

/* ---- counting ------------------------------------------------------------------------------ */

/* The unit at this width with this structure, out of gates. */
static bool settle(const Request *request, unsigned width, StructureChoice choice, Unit *unit,
                   Problem *problem) {
    *unit = request->unit;
    unit->width = width;
    unit->structure = choice.structure;
    unit->depth = choice.depth;
    unit->detail = DETAIL_GATES;
    if (request->flags_all)
        unit->flag[FLAG_HALF_CARRY] = width >= 4;
    return unit_settle(unit, problem) || options_reword(problem);
}

static Cost cost_of_kind(const Unit *unit, NodeKind kind) {
    Netlist netlist;
    build_of_kind(unit, kind, &netlist);
    Cost cost = cost_count(&netlist);
    netlist_free(&netlist);
    return cost;
}

static void add_row(SurveyWidth *at, StructureChoice choice, const Unit *unit) {
    SurveyRow row = {.choice = choice};
    snprintf(row.name, sizeof row.name, "%s", structure_text(choice.structure, choice.depth).text);
    Netlist netlist;
    build_netlist(unit, &netlist);
    row.cost = cost_count(&netlist);
    netlist_free(&netlist);
    row.nands = cost_of_kind(unit, NODE_NAND);
    row.nors = cost_of_kind(unit, NODE_NOR);
    at->row = memory_resize(at->row, at->count + 1, sizeof at->row[0]);
    at->row[at->count++] = row;
}

static void add_gap(SurveyWidth *at, StructureChoice choice, const char *reason) {
    at->gap = memory_resize(at->gap, at->gap_count + 1, sizeof at->gap[0]);
    SurveyGap *gap = &at->gap[at->gap_count++];
    snprintf(gap->name, sizeof gap->name, "%s",
             structure_text(choice.structure, choice.depth).text);
    snprintf(gap->reason, sizeof gap->reason, "%s", reason);
}

/* The structures in the table's order, then the three shallowest of depth=N for this unit. */
static int every_structure(const Unit *unit, StructureChoice *choices) {
    int count = 0;
    for (int k = 0; k < STRUCTURE_COUNT; k++)
        if (k != STRUCTURE_DEPTH)
            choices[count++] = (StructureChoice){(Structure)k, 0};
    unsigned least = prefix_least_depth(unit_prefix_columns(unit));
    least = least == 0 ? 1 : least;
    for (unsigned depth = least; depth < least + 3; depth++)
        choices[count++] = (StructureChoice){STRUCTURE_DEPTH, depth};
    return count;
}

static bool survey_width(const Request *request, SurveyWidth *at, Progress *progress,
                         Problem *problem) {
    static Unit unit; /* large */
    StructureChoice every[OPTIONS_STRUCTURES_MAX];
    if (!settle(request, at->width, (StructureChoice){STRUCTURE_RIPPLE, 0}, &unit, problem))
        return false;
    at->bound = bound_of(&unit);
    say_title(&unit, at->title);
    bool asked = request->structure_count > 0;
    const StructureChoice *choices = asked ? request->structures : every;
    int count = asked ? request->structure_count : every_structure(&unit, every);
    for (int k = 0; k < count; k++) {
        Problem refused = {STATUS_DONE, ""};
        StructureText name = structure_text(choices[k].structure, choices[k].depth);
        progress_say(progress, name.text, at->width);
        if (settle(request, at->width, choices[k], &unit, &refused))
            add_row(at, choices[k], &unit);
        else if (asked)
            return problem_set(problem, refused.status, "%s", refused.text);
        else
            add_gap(at, choices[k], refused.text);
    }
    survey_mark(at->row, at->count);
    return true;
}

bool survey_make(const Request *request, Survey *survey, Problem *problem) {
    bool asked = request->width_count > 0;
    Progress progress;
    progress_begin(&progress);
    survey->count = asked ? (size_t)request->width_count : DEFAULT_WIDTHS;
    survey->width = memory_zeroed(survey->count, sizeof survey->width[0]);
    bool good = true;
    for (size_t k = 0; k < survey->count && good; k++) {
        survey->width[k].width = asked ? request->widths[k] : default_widths[k];
        good = survey_width(request, &survey->width[k], &progress, problem);
    }
    progress_end(&progress);
    return good;
}

void survey_free(Survey *survey) {
    for (size_t k = 0; k < survey->count; k++) {
        free(survey->width[k].row);
        free(survey->width[k].gap);
    }
    free(survey->width);
    *survey = (Survey){0};
}
