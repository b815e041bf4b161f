/* How `check` shows its verdicts. */
#ifndef SUMWRIGHT_COMMANDS_CHECK_REPORT_H
#define SUMWRIGHT_COMMANDS_CHECK_REPORT_H

#include "check/verdict.h"
#include "options/options.h"

typedef struct {
    char *const *design; /* what each is called */
    const Verdict *verdict;
    size_t count;
} Report;

/* As text: a verdict line with what explains it, or, where there are `each`, a table; or as JSON.
 */
void check_report(const Report *report, bool each, Format format, FILE *out);

#endif
