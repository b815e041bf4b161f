/* Any bytes as a template: no crash, no hang, and either a result or one clear line.
 *   ./template_fuzz -max_total_time=60 -max_len=4096 */
#include "write/template.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Every kind of fact under a short name, lists in lists, and a text of several lines. */
static Facts *representative_facts(void) {
    Facts *facts = facts_new();
    facts_flag(facts, "t", true);
    facts_flag(facts, "f", false);
    facts_text(facts, "name", "%s", "gauge16");
    facts_text(facts, "e", "%s", "");
    facts_text(facts, "m", "%s", "one\n\n  two\nthree\n");
    facts_text(facts, "a.b_c", "%0500d", 1);
    facts_list(facts, "none");
    for (int i = 0; i < 2; i++) {
        Facts *row = facts_row(facts, "p");
        facts_text(row, "name", "%d", i);
        facts_flag(row, "last", i == 1);
        facts_text(facts_row(row, "q"), "x", "%d", i);
    }
    return facts;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static Facts *facts;
    static FILE *out;
    if (facts == NULL) {
        facts = representative_facts();
        out = fopen("/dev/null", "w");
    }
    Problem problem = {0};
    bool done = template_fill_text("fuzz.v", (const char *)data, size, facts, out, &problem);
    if (done != (problem.status == STATUS_DONE) || done != (problem.text[0] == '\0'))
        abort();
    for (const char *c = problem.text; *c != '\0'; c++)
        if (*c < ' ' || *c > '~')
            abort();
    return 0;
}
