/* See check_report.h. */
#include "commands/check_report.h"

#include "base/memory.h"
#include "base/text.h"
#include "write/json.h"
#include "write/table.h"
#include "write/utf8.h"

#include <stdlib.h>
#include <string.h>

enum { TABLE_WIDTH = 100000 };

static const char *const kinds[] = {"PASS", "WRONG", "UNTESTED", "UNPROVED", "FAILED"};

/* The number of a character of up to three bytes. */
static unsigned number_of(const char *text, size_t bytes) {
    const unsigned char *byte = (const unsigned char *)text;
    if (bytes == 2)
        return (byte[0] & 31U) << 6 | (byte[1] & 63U);
    return bytes == 3 ? (byte[0] & 15U) << 12 | (byte[1] & 63U) << 6 | (byte[2] & 63U) : byte[0];
}

/* The bytes of a character that a line of text may show as it is, at the start of text; 0 where
 * there is none: control characters, bytes that are no UTF-8, what turns the direction of writing
 * (U+2028 ... U+202E, U+2066 ... U+2069) or cannot be seen (U+FEFF). */
static size_t shown_bytes(const char *text) {
    size_t bytes = utf8_bytes(text);
    unsigned number = number_of(text, bytes);
    bool control = number < 0x20 || (number >= 0x7f && number < 0xa0);
    bool turns = (number >= 0x2028 && number <= 0x202e) || (number >= 0x2066 && number <= 0x2069) ||
                 number == 0xfeff;
    return bytes < 4 && (control || turns) ? 0 : bytes;
}

/* A path as it is, or in quotes where it has blanks, signs or what cannot be shown, which is then a
 * question mark. The caller frees it. */
static char *shown(const char *path) {
    static const char plain[] =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_.-+/=,:@%";
    char *text = memory_zeroed(strlen(path) + 3, 1);
    size_t used = 0;
    bool quotes = path[0] == '\0';
    text[used++] = '\'';
    while (*path != '\0') {
        size_t bytes = *path == '\'' ? 0 : shown_bytes(path);
        quotes = quotes || bytes == 0 || (bytes == 1 && strchr(plain, *path) == NULL);
        if (bytes == 0)
            text[used++] = '?';
        memcpy(text + used, path, bytes);
        used += bytes;
        path += bytes == 0 ? 1 : bytes;
    }
    if (quotes)
        text[used] = '\'';
    else
        memmove(text, text + 1, used);
    return text;
}

/* ---- text ---------------------------------------------------------------------------------- */

static void print_mistakes(const Verdict *verdict, FILE *out) {
    int explaining = 0, nearest = 0;
    for (size_t k = 0; k < verdict->mistake_count; k++) {
        explaining += verdict->mistake[k].share >= 0 && !verdict->mistake[k].nearest;
        nearest += verdict->mistake[k].nearest;
    }
    for (size_t k = 0; k < verdict->mistake_count; k++) {
        const VerdictMistake *mistake = &verdict->mistake[k];
        fprintf(out, "  %s%s: %s", mistake->nearest ? "nearest: " : "", mistake->name,
                mistake->sentence);
        if (mistake->detail[0] != '\0')
            fprintf(out, "; %s", mistake->detail);
        if (mistake->share >= 0)
            fprintf(out, " (explains %s%.3g %% of the mismatches)", explaining > 1 ? "alone " : "",
                    100 * mistake->share);
        fputc('\n', out);
    }
    if (explaining > 1 && nearest == 0)
        fputs("  together they explain all mismatches\n", out);
}

static void print_verdict(const char *design, const Verdict *verdict, FILE *out) {
    char *name = shown(design);
    fprintf(out, "%s %s: ", kinds[verdict->kind], name);
    free(name);
    if (verdict->kind == VERDICT_PASS && verdict->proof[0] != '\0')
        fprintf(out, "%s; %zu vectors simulated\n", verdict->proof, verdict->cases);
    else if (verdict->kind == VERDICT_PASS)
        fprintf(out, "%zu vectors\n", verdict->cases);
    else if (verdict->kind == VERDICT_UNPROVED)
        fprintf(out, "%s; %zu vectors are right\n", verdict->reason, verdict->cases);
    else if (verdict->kind == VERDICT_WRONG)
        fprintf(out, "%zu of %zu vectors differ\n", verdict->wrong, verdict->cases);
    else
        fprintf(out, "%s\n", verdict->reason);
    print_mistakes(verdict, out);
    for (size_t k = 0; k < verdict->note_count; k++)
        fprintf(out, "  %s\n", verdict->note[k]);
    fputs(verdict->example, out);
}

/* ---- the table ----------------------------------------------------------------------------- */

/* "first-carry-missing + bit-stuck" */
static void mistakes_cell(const Verdict *verdict, Table *table) {
    TextBuffer names = {NULL, 0, 0};
    for (size_t k = 0; k < verdict->mistake_count; k++)
        if (!verdict->mistake[k].nearest)
            text_printf(&names, "%s%s", names.length == 0 ? "" : " + ", verdict->mistake[k].name);
    table_cell(table, "%s", names.length > 0 ? names.text : "-");
    text_free(&names);
}

/* A row for each design, and under the table why some were not tested. */
static void print_table(const Report *report, FILE *out) {
    Table *table = table_new();
    table_column(table, "design", TABLE_LEFT);
    table_column(table, "verdict", TABLE_LEFT);
    table_column(table, "mistake", TABLE_LEFT);
    table_column(table, "first bad column", TABLE_LEFT);
    bool some_left_out = false;
    for (size_t k = 0; k < report->count; k++)
        some_left_out = some_left_out || report->verdict[k].left_out[0] != '\0';
    if (some_left_out)
        table_column(table, "left out of the test", TABLE_LEFT);
    for (size_t k = 0; k < report->count; k++) {
        const Verdict *verdict = &report->verdict[k];
        char *name = shown(report->design[k]);
        table_cell(table, "%s", name);
        free(name);
        table_cell(table, "%s", kinds[verdict->kind]);
        mistakes_cell(verdict, table);
        table_cell(table, "%s", verdict->first_bad[0] != '\0' ? verdict->first_bad : "-");
        if (some_left_out)
            table_cell(table, "%s", verdict->left_out[0] != '\0' ? verdict->left_out : "-");
    }
    table_write(table, 1, TABLE_WIDTH, out);
    table_free(table);
    for (size_t k = 0; k < report->count; k++) {
        VerdictKind kind = report->verdict[k].kind;
        if (kind != VERDICT_UNTESTED && kind != VERDICT_UNPROVED)
            continue;
        char *name = shown(report->design[k]);
        fprintf(out, "%s %s: %s\n", kinds[kind], name, report->verdict[k].reason);
        free(name);
    }
}

/* ---- JSON ---------------------------------------------------------------------------------- */

static void write_mistakes(Json *json, const Verdict *verdict) {
    json_array(json, "mistakes");
    for (size_t k = 0; k < verdict->mistake_count; k++) {
        const VerdictMistake *mistake = &verdict->mistake[k];
        json_object(json, NULL);
        json_text(json, "name", mistake->name);
        json_text(json, "sentence", mistake->sentence);
        json_text(json, "detail", mistake->detail);
        json_number(json, "share", mistake->share > 0 ? mistake->share : 0, 4);
        json_close(json);
    }
    json_close(json);
}

/* What comes after `unexplained` among the mistakes is the nearest one. */
static void write_json(const Report *report, FILE *out) {
    Json json = json_begin(out);
    json_object(&json, NULL);
    json_array(&json, "designs");
    for (size_t k = 0; k < report->count; k++) {
        const Verdict *verdict = &report->verdict[k];
        json_object(&json, NULL);
        json_text(&json, "design", report->design[k]);
        json_text(&json, "verdict", kinds[verdict->kind]);
        json_text(&json, "reason", verdict->reason);
        json_text(&json, "proof", verdict->proof);
        json_whole(&json, "vectors", verdict->cases);
        json_whole(&json, "wrong", verdict->wrong);
        json_text(&json, "first_bad_column", verdict->first_bad);
        json_text(&json, "left_out", verdict->left_out);
        write_mistakes(&json, verdict);
        json_array(&json, "notes");
        for (size_t n = 0; n < verdict->note_count; n++)
            json_text(&json, NULL, verdict->note[n]);
        json_close(&json);
        json_text(&json, "example", verdict->example);
        json_close(&json);
    }
    json_close(&json);
    json_close(&json);
}

void check_report(const Report *report, bool each, Format format, FILE *out) {
    if (format == FORMAT_JSON)
        write_json(report, out);
    else if (each)
        print_table(report, out);
    else
        print_verdict(report->design[0], &report->verdict[0], out);
}
