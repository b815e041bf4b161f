/* See check_report.h. */
#include "commands/check_report.h"

#include <string.h>

static const char *const kinds[] = {"PASS", "WRONG", "UNTESTED", "FAILED"};

/* A path as it is, or in quotes where it has more than plain characters. */
static Quoted shown(const char *path) {
    static const char plain[] =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_.-+/=,:@%";
    Quoted quoted;
    if (path[0] == '\0' || strspn(path, plain) != strlen(path) ||
        strlen(path) >= sizeof quoted.text)
        return problem_quote(path);
    snprintf(quoted.text, sizeof quoted.text, "%s", path);
    return quoted;
}

/* ---- text ---------------------------------------------------------------------------------- */

static void print_mistakes(const Verdict *verdict, FILE *out) {
    bool unexplained = verdict->mistake_count > 0 && verdict->mistake[0].share == 0;
    for (size_t k = 0; k < verdict->mistake_count; k++) {
        const VerdictMistake *mistake = &verdict->mistake[k];
        bool nearest = unexplained && k > 0;
        fprintf(out, "  %s%s: %s", nearest ? "nearest: " : "", mistake->name, mistake->sentence);
        if (mistake->detail[0] != '\0')
            fprintf(out, "; %s", mistake->detail);
        if (mistake->share > 0 || k > 0)
            fprintf(out, " (explains %s%.3g %% of the mismatches)",
                    verdict->mistake_count > 1 && !unexplained ? "alone " : "",
                    100 * mistake->share);
        fputc('\n', out);
    }
    if (verdict->mistake_count > 1 && !unexplained)
        fputs("  together they explain all mismatches\n", out);
}

static void print_verdict(const char *design, const Verdict *verdict, FILE *out) {
    fprintf(out, "%s %s: ", kinds[verdict->kind], shown(design).text);
    if (verdict->kind == VERDICT_PASS)
        fprintf(out, "%zu vectors\n", verdict->cases);
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

/* "first-carry-missing + bit-stuck", or why it was not tested. */
static void mistakes_text(const Verdict *verdict, char *text, size_t room) {
    size_t used = 0;
    text[0] = '\0';
    if (verdict->kind == VERDICT_UNTESTED)
        snprintf(text, room, "%s", verdict->reason);
    bool unexplained = verdict->mistake_count > 0 && verdict->mistake[0].share == 0;
    for (size_t k = 0; k < verdict->mistake_count && used + 64 < room; k++) {
        if (unexplained && k > 0)
            break;
        used += (size_t)snprintf(text + used, room - used, "%s%s", k == 0 ? "" : " + ",
                                 verdict->mistake[k].name);
    }
}

static void print_table(const Report *report, FILE *out) {
    size_t design = strlen("design"), mistake = strlen("mistake");
    char text[PROBLEM_TEXT_BYTES];
    for (size_t k = 0; k < report->count; k++) {
        size_t length = strlen(shown(report->design[k]).text);
        design = length > design ? length : design;
        mistakes_text(&report->verdict[k], text, sizeof text);
        if (report->verdict[k].kind == VERDICT_WRONG && strlen(text) > mistake)
            mistake = strlen(text);
    }
    fprintf(out, "%-*s  %-8s  %-*s  %s\n", (int)design, "design", "verdict", (int)mistake,
            "mistake", "first bad column");
    for (size_t k = 0; k < report->count; k++) {
        const Verdict *verdict = &report->verdict[k];
        mistakes_text(verdict, text, sizeof text);
        fprintf(out, "%-*s  ", (int)design, shown(report->design[k]).text);
        if (verdict->kind == VERDICT_PASS)
            fprintf(out, "%s\n", kinds[verdict->kind]);
        else if (verdict->kind == VERDICT_UNTESTED)
            fprintf(out, "%-8s  %s\n", kinds[verdict->kind], text);
        else
            fprintf(out, "%-8s  %-*s  %s\n", kinds[verdict->kind], (int)mistake, text,
                    verdict->first_bad[0] != '\0' ? verdict->first_bad : "-");
    }
}

void check_report(const Report *report, bool each, Format format, FILE *out) {
    (void)format;
    if (each)
        print_table(report, out);
    else
        print_verdict(report->design[0], &report->verdict[0], out);
}
