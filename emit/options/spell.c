/* The command line that asks for a request, the inverse of options.c: generated files carry it, so
 * that whoever finds one can make it again. */
#include "options/table.h"

#include "base/memory.h"

#include <assert.h>
#include <string.h>

/* ---- values of single options ------------------------------------------------------------- */

/* A $ in a name would be the shell's; every other character of a name is plain. */
static void write_name(const char *name, FILE *out) {
    const char *quote = strchr(name, '$') != NULL ? "'" : "";
    fprintf(out, "%s%s%s", quote, name, quote);
}

void spell_name(const Unit *unit, FILE *out) {
    fputs(" --name ", out);
    write_name(unit->name, out);
}

void spell_operations(const Unit *unit, FILE *out) {
    const char *between = " --operations ";
    for (int k = 0; k < unit->choice_count; k++) {
        fprintf(out, "%s%s%s", between, operation_name(unit->choice[k].operation),
                unit->code_bits > 0 ? "=" : "");
        for (unsigned bit = unit->code_bits; bit-- > 0;)
            fputc(unit->choice[k].code >> bit & 1 ? '1' : '0', out);
        between = ",";
    }
}

void spell_flags(const Unit *unit, FILE *out) {
    bool standard = true;
    const char *between = " --flags ";
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        standard = standard && unit->flag[flag] == flag_facts((Flag)flag)->standard;
    if (standard)
        return;
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!unit->flag[flag])
            continue;
        fprintf(out, "%s%s", between, flag_name((Flag)flag));
        between = ",";
    }
    if (between[0] != ',')
        fputs(" --flags none", out);
}

void spell_structure(const Unit *unit, FILE *out) {
    if (unit->structure != STRUCTURE_RIPPLE)
        fprintf(out, " --structure %s", structure_text(unit->structure, unit->depth).text);
}

void spell_ports(const Unit *unit, FILE *out) {
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin) || strcmp(unit->pin[pin], unit_role(unit, (Pin)pin)) == 0)
            continue;
        fprintf(out, " --port %s=", unit_role(unit, (Pin)pin));
        write_name(unit->pin[pin], out);
    }
}

/* ---- all of them -------------------------------------------------------------------------- */

static uint64_t load(const Option *option, const Request *request) {
    const char *field = (const char *)request + option->offset;
    bool truth = false;
    unsigned word = 0;
    uint64_t number = 0;
    if (option->size == sizeof truth)
        memcpy(&truth, field, sizeof truth);
    else if (option->size == sizeof word)
        memcpy(&word, field, sizeof word);
    else
        memcpy(&number, field, sizeof number);
    return truth + word + number;
}

/* Would the request be another without the option? Then its field differs from what it has in a
 * request that leaves only this one unsaid. */
static bool is_needed(const Option *option, const Request *request, const Request *unsaid) {
    Problem problem = {STATUS_DONE, ""};
    Request *without = memory_zeroed(1, sizeof *without);
    *without = *request;
    memcpy((char *)without + option->offset, (const char *)unsaid + option->offset, option->size);
    bool needed =
        !unit_settle(&without->unit, &problem) || load(option, without) != load(option, request);
    memory_free(without);
    return needed;
}

static void spell_value(const Option *option, const Request *request, FILE *out) {
    uint64_t value = load(option, request);
    fprintf(out, " --%s", option->name);
    switch (option->kind) {
    case OPTION_CHOICE:
        fprintf(out, " %s", option->values[value].name);
        return;
    case OPTION_NUMBER:
        fprintf(out, " %llu", (unsigned long long)value);
        return;
    case OPTION_TEXT: /* folders are the user's business: nothing of them gets into a file */
        fprintf(out, " %s", option->argument);
        return;
    case OPTION_SWITCH:
    case OPTION_TAKEN:
        return;
    }
}

/* Codes that follow from the places in the list are not written. */
static void forget_codes(Unit *unit) {
    unsigned least = 1;
    bool by_place = true;
    while ((1 << least) < unit->choice_count)
        least++;
    for (int k = 0; k < unit->choice_count; k++)
        by_place = by_place && unit->choice[k].code == (uint32_t)k;
    if (by_place && unit->code_bits == least)
        unit->code_bits = 0;
}

void options_spell(const Request *request, FILE *out) {
    assert(request->unit.name[0] != '\0'); /* it is settled */
    Request *said = memory_zeroed(2, sizeof *said), *unsaid = said + 1;
    *said = *request;
    forget_codes(&said->unit);
    options_init(unsaid);
    fputs("sumwright emit", out);
    for (const Option *option = options_table; option < options_table + options_count; option++) {
        if (option->spelled == SPELLED_NEVER)
            continue;
        if (option->spell != NULL)
            option->spell(&said->unit, out);
        else if (option->spelled == SPELLED_ALWAYS || is_needed(option, said, unsaid))
            spell_value(option, said, out);
    }
    memory_free(said);
}
