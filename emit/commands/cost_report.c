/* See cost_report.h. */
#include "commands/cost_report.h"

#include "base/memory.h"
#include "write/json.h"
#include "write/table.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

enum { SCREEN = 80 }; /* characters in a line */

static const char *mark(const SurveyRow *row) {
    return row->smallest && row->shallowest ? "*^ smallest, shallowest"
           : row->smallest                  ? "* smallest"
           : row->shallowest                ? "^ shallowest"
           : row->front                     ? "+ front"
                                            : "";
}

/* The fewest cells that a network as deep as this one can have. */
static uint32_t least_cells(const SurveyRow *row) {
    return row->cost.prefix_columns == 0
               ? 0
               : bound_prefix_cells(row->cost.prefix_columns, row->cost.prefix_depth);
}

/* ---- text ---------------------------------------------------------------------------------- */

/* A paragraph, folded at blanks, its further lines indented; printf style. */
__attribute__((format(printf, 2, 3))) static void print_folded(FILE *out, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = memory_text_list(format, arguments);
    va_end(arguments);
    int column = 0;
    for (const char *word = text; *word != '\0'; word += strspn(word, " ")) {
        int length = (int)strcspn(word, " ");
        if (column > 0 && column + 1 + length > SCREEN)
            column = fprintf(out, "\n   ") - 1;
        column += fprintf(out, "%s%.*s", column > 0 ? " " : "", length, word);
        word += length;
    }
    fputc('\n', out);
    free(text);
}

static void print_caption(const SurveyWidth *at, FILE *out) {
    print_folded(out, "%u bit%s: %s", at->width, at->width == 1 ? "" : "s", at->title);
    if (at->bound.gates > 0)
        fprintf(out, "no circuit has fewer than %u gates: %s\n", at->bound.gates, at->bound.proof);
    if (at->bound.levels > 0)
        fprintf(out, "no circuit has fewer than %u levels: %u pins decide the sign bit\n",
                at->bound.levels, at->bound.inputs);
    fputc('\n', out);
}

static void cell_if(Table *table, uint32_t figure, bool known) {
    if (known)
        table_cell(table, "%u", figure);
    else
        table_cell(table, "-");
}

/* What decides between structures. */
static Table *figures_table(const SurveyWidth *at) {
    Table *table = table_new();
    table_column(table, "structure", TABLE_LEFT);
    table_column(table, "gates", TABLE_RIGHT);
    table_column(table, "levels", TABLE_RIGHT);
    table_column(table, "fan-out", TABLE_RIGHT);
    table_column(table, "cells", TABLE_RIGHT);
    table_column(table, "least", TABLE_RIGHT);
    table_column(table, "mark", TABLE_LEFT);
    for (size_t k = 0; k < at->count; k++) {
        const SurveyRow *row = &at->row[k];
        table_cell(table, "%s", row->name);
        table_cell(table, "%u", row->cost.gates);
        table_cell(table, "%u", row->cost.levels);
        table_cell(table, "%u", row->cost.fan_out);
        cell_if(table, row->cost.prefix_cells, row->cost.prefix_columns > 0);
        cell_if(table, least_cells(row), row->cost.prefix_columns > 0);
        table_cell(table, "%s", mark(row));
    }
    return table;
}

/* What the gates are. */
static Table *kinds_table(const SurveyWidth *at) {
    Table *table = table_new();
    table_column(table, "structure", TABLE_LEFT);
    for (int kind = NODE_AND; kind < NODE_KIND_COUNT; kind++)
        table_column(table, cost_kind_name((NodeKind)kind), TABLE_RIGHT);
    table_column(table, "inverters", TABLE_RIGHT);
    table_column(table, "transistors", TABLE_RIGHT);
    for (size_t k = 0; k < at->count; k++) {
        const SurveyRow *row = &at->row[k];
        table_cell(table, "%s", row->name);
        for (int kind = NODE_AND; kind < NODE_KIND_COUNT; kind++)
            table_cell(table, "%u", row->cost.by_kind[kind]);
        table_cell(table, "%u", row->cost.inverters);
        table_cell(table, "%llu", (unsigned long long)row->cost.transistors);
    }
    return table;
}

static void one_kind_cells(Table *table, const Cost *cost) {
    table_cell(table, "%u", cost->gates);
    table_cell(table, "%u", cost->levels);
    table_cell(table, "%u", cost->fan_out);
}

/* What it takes of one kind alone. */
static Table *one_kind_table(const SurveyWidth *at) {
    Table *table = table_new();
    table_column(table, "structure", TABLE_LEFT);
    for (int kind = 0; kind < 2; kind++) {
        table_column(table, kind == 0 ? "NANDs only" : "NORs only", TABLE_RIGHT);
        table_column(table, "levels", TABLE_RIGHT);
        table_column(table, "fan-out", TABLE_RIGHT);
    }
    for (size_t k = 0; k < at->count; k++) {
        table_cell(table, "%s", at->row[k].name);
        one_kind_cells(table, &at->row[k].nands);
        one_kind_cells(table, &at->row[k].nors);
    }
    return table;
}

static void print_table(Table *table, FILE *out) {
    table_write(table, 1, SCREEN, out);
    table_free(table);
    fputc('\n', out);
}

static void print_legend(FILE *out) {
    fprintf(out,
            "gates        two-input gates of any kind; an inverted input belongs to its gate\n"
            "levels       gates on the longest path\n"
            "fan-out      the most gate inputs and output pins that one gate drives; what\n"
            "             the input pins drive is not counted\n"
            "cells        of the prefix network that the carries come from; least: the fewest\n"
            "             for a network of its depth, 2n - 2 less its levels (Snir 1986)\n"
            "* smallest   fewest gates; ^ shallowest: fewest levels; + front: every other\n"
            "             that has fewer of the one has more of the other\n"
            "transistors  in static CMOS: inverter %d, NAND and NOR %u, AND and OR %u, XOR\n"
            "             and XNOR %u; common practice, no source\n"
            "inverters    signals that are read inverted, each inverted once; they are no\n"
            "             gates here and no level\n"
            "NANDs only   the circuit of two-input NANDs alone, inverters included; NORs only\n"
            "             likewise: --detail nand, --detail nor\n",
            COST_INVERTER_TRANSISTORS, cost_transistors(NODE_NAND), cost_transistors(NODE_AND),
            cost_transistors(NODE_XOR));
}

static void report_text(const Survey *survey, FILE *out) {
    for (size_t k = 0; k < survey->count; k++) {
        const SurveyWidth *at = &survey->width[k];
        print_caption(at, out);
        print_table(figures_table(at), out);
        print_table(kinds_table(at), out);
        print_table(one_kind_table(at), out);
        for (size_t gap = 0; gap < at->gap_count; gap++)
            print_folded(out, "left out: %s", at->gap[gap].reason);
        if (at->gap_count > 0)
            fputc('\n', out);
    }
    print_legend(out);
}

/* ---- comma-separated values ---------------------------------------------------------------- */

static void lower_case(const char *name, char text[8]) {
    size_t i = 0;
    for (; name[i] != '\0' && i < 7; i++)
        text[i] = (char)tolower((unsigned char)name[i]);
    text[i] = '\0';
}

static void csv_figure(FILE *out, uint64_t figure, bool known) {
    if (known)
        fprintf(out, ",%llu", (unsigned long long)figure);
    else
        fputc(',', out);
}

static void csv_one_kind(const Cost *cost, FILE *out) {
    csv_figure(out, cost->gates, true);
    csv_figure(out, cost->levels, true);
    csv_figure(out, cost->fan_out, true);
}

static void csv_row(const SurveyWidth *at, const SurveyRow *row, FILE *out) {
    fprintf(out, "%u,%s", at->width, row->name);
    csv_figure(out, row->cost.gates, true);
    csv_figure(out, at->bound.gates, at->bound.gates > 0);
    csv_figure(out, row->cost.levels, true);
    csv_figure(out, at->bound.levels, at->bound.levels > 0);
    csv_figure(out, row->cost.fan_out, true);
    bool network = row->cost.prefix_columns > 0;
    csv_figure(out, row->cost.prefix_cells, network);
    csv_figure(out, least_cells(row), network);
    csv_figure(out, row->cost.transistors, true);
    for (int kind = NODE_AND; kind < NODE_KIND_COUNT; kind++)
        csv_figure(out, row->cost.by_kind[kind], true);
    csv_figure(out, row->cost.inverters, true);
    csv_one_kind(&row->nands, out);
    csv_one_kind(&row->nors, out);
    fprintf(out, ",%d,%d,%d\n", row->smallest, row->shallowest, row->front);
}

static void report_csv(const Survey *survey, FILE *out) {
    fputs("width,structure,gates,gates_bound,levels,levels_bound,fan_out,prefix_cells,"
          "prefix_cells_bound,transistors",
          out);
    for (int kind = NODE_AND; kind < NODE_KIND_COUNT; kind++) {
        char name[8];
        lower_case(cost_kind_name((NodeKind)kind), name);
        fprintf(out, ",%s", name);
    }
    fputs(",inverters,nands_only,nands_only_levels,nands_only_fan_out,nors_only,"
          "nors_only_levels,nors_only_fan_out,smallest,shallowest,front\n",
          out);
    for (size_t k = 0; k < survey->count; k++)
        for (size_t row = 0; row < survey->width[k].count; row++)
            csv_row(&survey->width[k], &survey->width[k].row[row], out);
}

/* ---- JSON ---------------------------------------------------------------------------------- */

static void json_figure(Json *json, const char *key, uint64_t figure, bool known) {
    if (known)
        json_whole(json, key, figure);
    else
        json_null(json, key);
}

static void json_one_kind(const char *key, const Cost *cost, Json *json) {
    json_object(json, key);
    json_whole(json, "gates", cost->gates);
    json_whole(json, "levels", cost->levels);
    json_whole(json, "fan_out", cost->fan_out);
    json_close(json);
}

static void json_row(const SurveyRow *row, Json *json) {
    json_object(json, NULL);
    json_text(json, "structure", row->name);
    json_whole(json, "gates", row->cost.gates);
    json_whole(json, "levels", row->cost.levels);
    json_whole(json, "fan_out", row->cost.fan_out);
    bool network = row->cost.prefix_columns > 0;
    json_figure(json, "prefix_cells", row->cost.prefix_cells, network);
    json_figure(json, "prefix_cells_bound", least_cells(row), network);
    json_whole(json, "transistors", row->cost.transistors);
    json_object(json, "by_kind");
    for (int kind = NODE_AND; kind < NODE_KIND_COUNT; kind++) {
        char name[8];
        lower_case(cost_kind_name((NodeKind)kind), name);
        json_whole(json, name, row->cost.by_kind[kind]);
    }
    json_close(json);
    json_whole(json, "inverters", row->cost.inverters);
    json_one_kind("nands_only", &row->nands, json);
    json_one_kind("nors_only", &row->nors, json);
    json_truth(json, "smallest", row->smallest);
    json_truth(json, "shallowest", row->shallowest);
    json_truth(json, "front", row->front);
    json_close(json);
}

static void json_width(const SurveyWidth *at, Json *json) {
    json_object(json, NULL);
    json_text(json, "unit", at->title);
    json_whole(json, "width", at->width);
    json_figure(json, "gates_bound", at->bound.gates, at->bound.gates > 0);
    json_text(json, "gates_bound_proof", at->bound.proof);
    json_figure(json, "levels_bound", at->bound.levels, at->bound.levels > 0);
    json_array(json, "structures");
    for (size_t k = 0; k < at->count; k++)
        json_row(&at->row[k], json);
    json_close(json);
    json_array(json, "left_out");
    for (size_t k = 0; k < at->gap_count; k++) {
        json_object(json, NULL);
        json_text(json, "structure", at->gap[k].name);
        json_text(json, "reason", at->gap[k].reason);
        json_close(json);
    }
    json_close(json);
    json_close(json);
}

static void report_json(const Survey *survey, FILE *out) {
    Json json = json_begin(out);
    json_object(&json, NULL);
    json_array(&json, "widths");
    for (size_t k = 0; k < survey->count; k++)
        json_width(&survey->width[k], &json);
    json_close(&json);
    json_close(&json);
}

void cost_report(const Survey *survey, Format format, FILE *out) {
    switch (format) {
    case FORMAT_TEXT:
        report_text(survey, out);
        return;
    case FORMAT_JSON:
        report_json(survey, out);
        return;
    case FORMAT_CSV:
        report_csv(survey, out);
        return;
    }
}
