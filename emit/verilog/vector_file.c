/* See vector_file.h. */
#include "verilog/vector_file.h"

#include "model/model.h"
#include "verilog/coverage_facts.h"
#include "verilog/layout.h"
#include "verilog/unit_facts.h"

#include <string.h>

enum { LINE_BYTES = 4 * (UNIT_WIDTH_MAX / 4) + 64 };

typedef struct {
    const Unit *unit;
    Layout layout;
    FILE *out;
} Writing;

static char *put_number(char *to, uint32_t value, unsigned digits) {
    for (unsigned k = digits; k-- > 0;)
        *to++ = "0123456789abcdef"[value >> (4 * k) & 15];
    *to++ = '_';
    return to;
}

static char *put_word(char *to, const Word *word) {
    to += word_hex(word, to);
    *to++ = '_';
    return to;
}

static uint32_t flag_bits(const Unit *unit, const Outcome *outcome) {
    uint32_t bits = 0;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (unit->flag[flag])
            bits = bits << 1 | outcome->flag[flag];
    return bits;
}

static bool write_vector(void *context, const Vector *vector) {
    Writing *writing = context;
    const Unit *unit = writing->unit;
    const FieldPlace *field = writing->layout.field;
    Outcome outcome;
    model_outcome(unit, unit_control_choice(unit, vector->control), &vector->a, &vector->b,
                  vector->cin, &outcome);
    char line[LINE_BYTES];
    char *end = line;
    if (field[FIELD_CONTROL].digits > 0)
        end = put_number(end, vector->control, field[FIELD_CONTROL].digits);
    if (field[FIELD_CIN].digits > 0)
        end = put_number(end, vector->cin, field[FIELD_CIN].digits);
    end = put_word(end, &vector->a);
    if (field[FIELD_B].digits > 0)
        end = put_word(end, &vector->b);
    end = put_word(end, &outcome.result);
    if (field[FIELD_FLAGS].digits > 0)
        end = put_number(end, flag_bits(unit, &outcome), field[FIELD_FLAGS].digits);
    end[-1] = '\n';
    return fwrite(line, 1, (size_t)(end - line), writing->out) == (size_t)(end - line);
}

static void write_end(const Writing *writing) {
    bool first = true;
    for (int field = 0; field < FIELD_COUNT; field++) {
        unsigned digits = writing->layout.field[field].digits;
        if (digits > 0 && !first)
            fputc('_', writing->out);
        for (unsigned k = 0; k < digits; k++)
            fputc('f', writing->out);
        first = first && digits == 0;
    }
    fputc('\n', writing->out);
}

bool vector_file_write(const Unit *unit, const VectorPlan *plan, const VectorCount *count,
                       const Coverage *coverage, const char *command, const Templates *templates,
                       FILE *out, Problem *problem) {
    Facts *facts = unit_facts(unit, command);
    facts_text(facts, "count", "%llu", (unsigned long long)count->total);
    facts_list(facts, "reason");
    for (int reason = 0; reason < VECTOR_REASON_COUNT; reason++)
        if (count->by_reason[reason] > 0)
            facts_text(facts_row(facts, "reason"), "row", "%9llu  %s",
                       (unsigned long long)count->by_reason[reason],
                       vector_reason_name((VectorReason)reason));
    facts_text(facts, "seed", "%llu", (unsigned long long)plan->seed);
    facts_text(facts, "most", "%llu", (unsigned long long)plan->random);
    coverage_facts(coverage, facts);
    Writing writing = {.unit = unit, .layout = layout_of(unit), .out = out};
    layout_facts(unit, facts);
    bool good = unit_facts_fill(facts, "contract", templates, "contract.v", problem) &&
                template_fill(templates, "vectors.vec", facts, out, problem);
    facts_free(facts);
    if (!good)
        return false;
    /* A failed write shows when the file is closed. */
    vectors_each(unit, plan, write_vector, &writing);
    write_end(&writing);
    return true;
}
