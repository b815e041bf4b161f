/* The command line that asks for a request, the inverse of options.c: generated files carry it, so
 * that whoever finds one can make it again. */
#include "options/options.h"

#include <string.h>

/* A $ in a name would be the shell's; every other character of a name is plain. */
static void spell_name(const char *before, const char *name, FILE *out) {
    const char *quote = strchr(name, '$') != NULL ? "'" : "";
    fprintf(out, "%s%s%s%s", before, quote, name, quote);
}

static void spell_operations(const Unit *unit, FILE *out) {
    fputs(" --operations ", out);
    bool coded = false;
    for (int k = 0; k < unit->choice_count; k++)
        coded = coded || unit->choice[k].code != (uint32_t)k;
    unsigned least = 1;
    while ((1 << least) < unit->choice_count)
        least++;
    coded = unit->control == CONTROL_CODE && (coded || unit->code_bits != least);
    for (int k = 0; k < unit->choice_count; k++) {
        fprintf(out, "%s%s", k == 0 ? "" : ",", operation_name(unit->choice[k].operation));
        if (!coded)
            continue;
        fputc('=', out);
        for (unsigned bit = unit->code_bits; bit-- > 0;)
            fputc(unit->choice[k].code >> bit & 1 ? '1' : '0', out);
    }
    Control standard = unit->choice_count == 1   ? CONTROL_FIXED
                       : coded                   ? CONTROL_CODE
                       : unit->choice_count == 2 ? CONTROL_HIGH
                                                 : CONTROL_CODE;
    if (coded && unit->choice_count == 1)
        standard = CONTROL_CODE;
    if (unit->control != standard)
        fprintf(out, " --control %s", control_name(unit->control));
}

static void spell_flags(const Unit *unit, FILE *out) {
    Unit standard;
    unit_init(&standard);
    if (memcmp(standard.flag, unit->flag, sizeof unit->flag) == 0)
        return;
    fputs(" --flags ", out);
    bool any = false;
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!unit->flag[flag])
            continue;
        fprintf(out, "%s%s", any ? "," : "", flag_name((Flag)flag));
        any = true;
    }
    if (!any)
        fputs("none", out);
}

static void spell_registers(const Unit *unit, FILE *out) {
    if (unit->registers == REGISTERS_NONE)
        return;
    fprintf(out, " --registers %s", registers_name(unit->registers));
    if (unit->reset != RESET_SYNC)
        fprintf(out, " --reset %s", reset_name(unit->reset));
    if (unit->reset_low)
        fputs(" --reset-level low", out);
    if (unit->enable)
        fputs(" --enable", out);
}

static void spell_pins(const Unit *unit, FILE *out) {
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        if (!unit_has(unit, (Pin)pin) || strcmp(unit->pin[pin], unit_role(unit, (Pin)pin)) == 0)
            continue;
        fprintf(out, " --port %s=", unit_role(unit, (Pin)pin));
        spell_name("", unit->pin[pin], out);
    }
}

void options_spell(const Request *request, FILE *out) {
    const Unit *unit = &request->unit;
    spell_name("sumwright emit --name ", unit->name, out);
    fprintf(out, " --width %u", unit->width);
    spell_operations(unit, out);
    if (unit->sense != SENSE_NO_BORROW)
        fprintf(out, " --subtract-carry %s", sense_name(unit->sense));
    spell_flags(unit, out);
    if (unit->overflow != OVERFLOW_WRAP)
        fprintf(out, " --overflow %s", overflow_name(unit->overflow));
    if (unit->structure == STRUCTURE_DEPTH)
        fprintf(out, " --structure depth=%u", unit->depth);
    else if (unit->structure != STRUCTURE_RIPPLE)
        fprintf(out, " --structure %s", structure_name(unit->structure));
    if (unit->detail != (unit->structure == STRUCTURE_RIPPLE ? DETAIL_CELLS : DETAIL_GATES))
        fprintf(out, " --detail %s", detail_name(unit->detail));
    spell_registers(unit, out);
    spell_pins(unit, out);
    if (request->random != OPTIONS_RANDOM_DEFAULT)
        fprintf(out, " --vectors %llu", (unsigned long long)request->random);
    if (request->seed != OPTIONS_SEED_DEFAULT)
        fprintf(out, " --seed %llu", (unsigned long long)request->seed);
    if (request->coverage != NULL)
        fputs(" --coverage FILE", out);
    if (request->templates != NULL)
        fputs(" --templates DIR", out);
}
