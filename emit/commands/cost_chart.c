/* See cost_chart.h. */
#include "commands/cost_chart.h"

#include "base/memory.h"
#include "chart/chart.h"

#include <stdlib.h>

/* Each structure has a mark of its own. */
_Static_assert((int)STRUCTURE_COUNT <= (int)CHART_SHAPES, "a structure has no mark in chart.c");

static void fill_panel(const SurveyWidth *at, ChartPanel *panel) {
    ChartPoint *points = memory_zeroed(at->count, sizeof *points);
    for (size_t k = 0; k < at->count; k++)
        points[k] = (ChartPoint){.x = at->row[k].cost.levels,
                                 .y = at->row[k].cost.gates,
                                 .label = at->row[k].name,
                                 .shape = (int)at->row[k].choice.structure,
                                 .front = at->row[k].front};
    snprintf(panel->title, sizeof panel->title, "%u bit%s", at->width, at->width == 1 ? "" : "s");
    panel->point = points;
    panel->count = at->count;
}

/* The front of each width in words. The caller frees it. */
static char *describe(const Survey *survey) {
    char *text = NULL;
    size_t bytes = 0;
    FILE *out = open_memstream(&text, &bytes);
    if (out == NULL)
        return memory_text("Two-input gates against levels of carry structures.");
    fputs("Two-input gates against levels of carry structures. On the front", out);
    for (size_t k = 0; k < survey->count; k++) {
        const SurveyWidth *at = &survey->width[k];
        fprintf(out, "%s at %u bits", k == 0 ? "" : ";", at->width);
        const char *between = ": ";
        for (size_t row = 0; row < at->count; row++) {
            if (!at->row[row].front)
                continue;
            fprintf(out, "%s%s, %u gates and %u levels", between, at->row[row].name,
                    at->row[row].cost.gates, at->row[row].cost.levels);
            between = "; ";
        }
    }
    fputs(".", out);
    fclose(out);
    return text;
}

void cost_chart(const Survey *survey, FILE *out) {
    ChartPanel *panels = memory_zeroed(survey->count, sizeof *panels);
    for (size_t k = 0; k < survey->count; k++)
        fill_panel(&survey->width[k], &panels[k]);
    char *title = memory_text("Gates against levels: %s", survey->width[0].title);
    char *description = describe(survey);
    Chart chart = {.title = title,
                   .description = description,
                   .x_title = "levels (two-input gates on the longest path)",
                   .y_title = "gates (two-input gates)",
                   .panel = panels,
                   .count = survey->count};
    chart_write(&chart, out);
    for (size_t k = 0; k < survey->count; k++)
        free((void *)panels[k].point);
    free(panels);
    free(description);
    free(title);
}
