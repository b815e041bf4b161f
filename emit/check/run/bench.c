/* See bench.h. A word that the bench is given has fields in whole hexadecimal digits, the first
 * most significant: rst and en (one digit), control, cin, a, b. */
#include "check/run/bench.h"

#include "base/memory.h"
#include "base/text.h"
#include "check/run/folder.h"
#include "check/run/source.h"
#include "write/template.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { NAME_BYTES = 128, LINE_BYTES = 2 * (UNIT_WIDTH_MAX / 4) + 64 };

/* ---- names --------------------------------------------------------------------------------- */

bool bench_draw_tag(Bench *bench, Problem *problem) {
    unsigned char bytes[(BENCH_TAG_BYTES - 1) / 2];
    int source = open("/dev/urandom", O_RDONLY | O_CLOEXEC);
    bool good = source != -1 && read(source, bytes, sizeof bytes) == (ssize_t)sizeof bytes;
    if (source != -1)
        close(source);
    if (!good)
        return problem_set(problem, STATUS_SURROUNDINGS,
                           "cannot read /dev/urandom (%s); the check needs random names",
                           strerror(errno));
    for (size_t k = 0; k < sizeof bytes; k++)
        snprintf(bench->tag + 2 * k, 3, "%02x", bytes[k]);
    return true;
}

static char *path_of(const Bench *bench, const char *folder, const char *stem, const char *ending) {
    char name[NAME_BYTES];
    snprintf(name, sizeof name, "%s_%s%s", stem, bench->tag, ending);
    return folder_path(folder, name);
}

static bool cannot_write(int error, Problem *problem) {
    return problem_set(problem, STATUS_SURROUNDINGS,
                       "cannot write in the temporary folder (%s); make room there or set TMPDIR",
                       strerror(error));
}

/* ---- where the fields are ------------------------------------------------------------------ */

typedef struct {
    unsigned b, a, cin, control, clocking; /* the lowest bit of each */
    unsigned bits;
} Places;

static Places places_of(const Unit *unit) {
    Places places = {.b = 0};
    unsigned word = 4 * word_hex_digits(unit->width);
    places.a = unit_has(unit, PIN_B) ? word : 0;
    places.cin = places.a + word;
    places.control = places.cin + (unit_has(unit, PIN_CIN) ? 4 : 0);
    places.clocking = places.control + 4 * word_hex_digits(unit_control_bits(unit));
    places.bits = places.clocking + (unit_has(unit, PIN_CLK) ? 4 : 0);
    return places;
}

static unsigned place_of(const Unit *unit, const Places *places, Pin pin) {
    switch (pin) {
    case PIN_A:
        return places->a;
    case PIN_B:
        return places->b;
    case PIN_CIN:
        return places->cin;
    case PIN_RST:
        return places->clocking + 1;
    case PIN_EN:
        return places->clocking;
    default:
        break;
    }
    unsigned place = places->control;
    if (pin >= PIN_DO && pin < PIN_CIN)
        for (int k = 0; unit->choice[k].operation != (Operation)(pin - PIN_DO); k++)
            place++;
    return place;
}

/* Bits of what is seen: the packed word of cases.h, and one more above it that says whether the
 * outputs move where they must not (see check_bench.v). */
static unsigned seen_bits(const Bench *bench) {
    return bench->cases->unit->width + FLAG_COUNT + 1;
}

/* Bits of a word of the bench's memory, which holds first what is given and then what was seen. */
static unsigned word_bits(const Bench *bench) {
    unsigned given = places_of(bench->cases->unit).bits, seen = seen_bits(bench);
    return given > seen ? given : seen;
}

uint64_t bench_memory_bits(const Bench *bench) {
    return (uint64_t)bench->schedule->count * word_bits(bench);
}

/* ---- the bench ----------------------------------------------------------------------------- */

static bool is_plain(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/* Could the compiler take this for anything but a name, whatever it was told before? Its
 * preprocessor knows no escaped names: it expands macros in them, and sees comments and strings. So
 * each of the few marks allowed stands alone, before a plain character or the end. */
static bool may_mislead(const char *name, bool escaped) {
    const char *marks = escaped ? "$+-*/?!<>=.:&|^%~" : "$";
    for (const char *c = name; *c != '\0'; c++)
        if (!is_plain(*c) &&
            (strchr(marks, *c) == NULL || (c[1] != '\0' && !is_plain(c[1]) && c[1] != '$')))
            return true;
    return name[0] == '\0' || (!escaped && (name[0] == '$' || (name[0] >= '0' && name[0] <= '9')));
}

/* Every name of the design that the bench repeats comes from here. */
static void add_name(Facts *row, const char *key, const char *name, bool escaped) {
    assert(!may_mislead(name, escaped));
    facts_text(row, key, "%s%s%s", escaped ? "\\" : "", name, escaped ? " " : "");
}

static bool refuse_name(const char *what, const char *name, Problem *problem) {
    return problem_set(problem, STATUS_UNTESTED,
                       "the name of its %s %s could be read as something else; give it a plain "
                       "name, of letters, digits and _",
                       what, problem_quote(name).text);
}

static bool check_names(const Mapping *mapping, Problem *problem) {
    if (may_mislead(mapping->module->name, mapping->module->escaped))
        return refuse_name("module", mapping->module->name, problem);
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        const HeaderPort *port = mapping->port[pin];
        if (port != NULL && may_mislead(port->name, port->escaped))
            return refuse_name("port", port->name, problem);
    }
    return mapping->parameter == NULL || !may_mislead(mapping->parameter, false) ||
           refuse_name("parameter", mapping->parameter, problem);
}

static void add_connection(Facts *facts, const HeaderPort *port, const char *wire, bool last) {
    Facts *row = facts_row(facts, "connection");
    add_name(row, "port", port->name, port->escaped);
    facts_text(row, "wire", "%s", wire);
    facts_text(row, "comma", last ? "" : ",");
}

/* What each pin is connected to: a part of the word, or a wire that is looked at. */
static void add_pins(const Bench *bench, Facts *facts) {
    const Unit *unit = bench->cases->unit;
    Places places = places_of(unit);
    int last = 0;
    for (int pin = 0; pin < PIN_COUNT; pin++)
        last = bench->mapping->port[pin] != NULL ? pin : last;
    facts_list(facts, "output");
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        const HeaderPort *port = bench->mapping->port[pin];
        char wire[NAME_BYTES];
        if (port == NULL)
            continue;
        unsigned bits = unit_pin_bits(unit, (Pin)pin), low = place_of(unit, &places, (Pin)pin);
        if (pin_is_output((Pin)pin))
            snprintf(wire, sizeof wire, "out_%s_%s", unit_role(unit, (Pin)pin), bench->tag);
        else if (pin == PIN_CLK)
            snprintf(wire, sizeof wire, "clk_%s", bench->tag);
        else
            snprintf(wire, sizeof wire, "word_%s[%u:%u]", bench->tag, low + bits - 1, low);
        add_connection(facts, port, wire, pin == last);
        if (!pin_is_output((Pin)pin))
            continue;
        Facts *row = facts_row(facts, "output");
        facts_text(row, "range", "[%u:0] ", bits - 1);
        facts_text(row, "wire", "%s", wire);
    }
}

static bool is_input(const Mapping *mapping, int pin) {
    return mapping->port[pin] != NULL && !pin_is_output((Pin)pin);
}

static unsigned count_inputs(const Mapping *mapping) {
    unsigned count = 0;
    for (int pin = 0; pin < PIN_COUNT; pin++)
        count += is_input(mapping, pin) ? 1 : 0;
    return count;
}

/* Without a clock, the input that changes alone at this step. */
static Pin alone_at(const Mapping *mapping, size_t step) {
    size_t turn = step % count_inputs(mapping);
    int pin = 0;
    while (!is_input(mapping, pin) || turn-- > 0)
        pin++;
    return (Pin)pin;
}

/* Which bits of the word change alone at which step. Wide words take long. */
static void add_turns(const Bench *bench, Facts *facts) {
    enum { ROUNDS = 32, WIDE = 64, WIDE_ROUNDS = 2 };
    const Unit *unit = bench->cases->unit;
    Places places = places_of(unit);
    unsigned inputs = count_inputs(bench->mapping);
    unsigned rounds = unit->width > WIDE ? WIDE_ROUNDS : ROUNDS;
    facts_text(facts, "inputs", "%u", inputs);
    size_t steps = (size_t)rounds * inputs;
    facts_text(facts, "alone", "%zu",
               steps < bench->schedule->count ? steps : bench->schedule->count);
    facts_list(facts, "turn");
    for (unsigned turn = 0; turn < inputs; turn++) {
        Pin pin = alone_at(bench->mapping, turn);
        unsigned low = place_of(unit, &places, pin), bits = unit_pin_bits(unit, pin);
        Facts *row = facts_row(facts, "turn");
        facts_text(row, "number", "%u", turn);
        facts_text(row, "slice", "word_%s[%u:%u]", bench->tag, low + bits - 1, low);
    }
}

/* The flags of the packed word of cases.h, highest bit first. */
static void add_flags(const Bench *bench, Facts *facts) {
    TextBuffer text = {NULL, 0, 0};
    for (int flag = FLAG_COUNT - 1; flag >= 0; flag--) {
        const char *role = unit_role(bench->cases->unit, (Pin)(PIN_FLAG + flag));
        text_add(&text, flag == FLAG_COUNT - 1 ? "" : ", ");
        if (bench->mapping->port[PIN_FLAG + flag] != NULL)
            text_printf(&text, "out_%s_%s", role, bench->tag);
        else
            text_add(&text, "1'b0");
    }
    facts_text(facts, "flags", "%s", text.text);
    text_free(&text);
    facts_text(facts, "flags_high", "%u", FLAG_COUNT - 1);
}

static void add_parameters(const Bench *bench, Facts *facts) {
    const ParameterSettings *settings = &bench->settings;
    const char *found = bench->mapping->parameter;
    facts_flag(facts, "parameters", settings->count > 0 || found != NULL);
    facts_list(facts, "parameter");
    for (size_t k = 0; k < settings->count; k++) {
        Facts *row = facts_row(facts, "parameter");
        facts_text(row, "name", "%s", settings->setting[k].name);
        facts_text(row, "value", "%s", settings->setting[k].value);
        facts_text(row, "comma", k + 1 == settings->count && found == NULL ? "" : ",");
    }
    if (found == NULL)
        return;
    Facts *row = facts_row(facts, "parameter");
    add_name(row, "name", found, false);
    facts_text(row, "value", "%u", bench->cases->unit->width);
    facts_text(row, "comma", "%s", "");
}

static bool write_module(const Bench *bench, FILE *out, Problem *problem) {
    const Unit *unit = bench->cases->unit;
    const HeaderModule *module = bench->mapping->module;
    if (!check_names(bench->mapping, problem))
        return false;
    Facts *facts = facts_new();
    facts_text(facts, "bench", "bench_%s", bench->tag);
    facts_text(facts, "given", "given_%s", bench->tag);
    facts_text(facts, "seen", "seen_%s", bench->tag);
    facts_text(facts, "instance", "dut_%s", bench->tag);
    add_name(facts, "module", module->name, module->escaped);
    facts_text(facts, "tag", "%s", bench->tag);
    facts_text(facts, "high", "%u", word_bits(bench) - 1);
    facts_text(facts, "operands_high", "%u", places_of(unit).clocking - 1);
    facts_text(facts, "out_high", "%u", unit->width + FLAG_COUNT - 1);
    facts_text(facts, "last", "%zu", bench->schedule->count - 1);
    /* Long enough for gates with delays, column after column. */
    facts_text(facts, "settle", "%u", 100 * (unit->width + 9));
    facts_flag(facts, "clocked", bench->schedule->clocked);
    add_parameters(bench, facts);
    add_pins(bench, facts);
    add_flags(bench, facts);
    if (!bench->schedule->clocked)
        add_turns(bench, facts);
    Templates built_in = {NULL};
    bool good = template_fill(&built_in, "check_bench.v", facts, out, problem);
    facts_free(facts);
    return good;
}

/* ---- what it reads ------------------------------------------------------------------------- */

static char *put_number(char *to, uint32_t value, unsigned digits) {
    for (unsigned k = digits; k-- > 0;)
        *to++ = "0123456789abcdef"[value >> (4 * k) & 15];
    return to;
}

static char *put_operand(char *to, const uint64_t *limbs, unsigned width) {
    for (unsigned k = word_hex_digits(width); k-- > 0;)
        *to++ = "0123456789abcdef"[limbs[k / 16] >> (k % 16 * 4) & 15];
    return to;
}

static void write_given(const Bench *bench, FILE *out) {
    const Cases *cases = bench->cases;
    const Unit *unit = cases->unit;
    unsigned control_digits = word_hex_digits(unit_control_bits(unit));
    char line[LINE_BYTES];
    for (size_t s = 0; s < bench->schedule->count; s++) {
        Step step = schedule_step(bench->schedule, s);
        bool rst = step.reset != bench->reset_low;
        char *end = line;
        if (unit_has(unit, PIN_CLK))
            end = put_number(end, (uint32_t)(rst << 1 | step.enable), 1);
        end = put_number(end, cases->control[step.which], control_digits);
        if (unit_has(unit, PIN_CIN))
            end = put_number(end, cases->cin[step.which], 1);
        end = put_operand(end, cases->a + step.which * cases->limbs, unit->width);
        if (unit_has(unit, PIN_B))
            end = put_operand(end, cases->b + step.which * cases->limbs, unit->width);
        *end++ = '\n';
        fwrite(line, 1, (size_t)(end - line), out);
    }
}

bool bench_write(const Bench *bench, const char *folder, Problem *problem) {
    char *path = path_of(bench, folder, "bench", ".v");
    FILE *out = fopen(path, "w");
    free(path);
    if (out == NULL)
        return cannot_write(errno, problem);
    bool good = write_module(bench, out, problem);
    if (fclose(out) != 0 && good)
        good = cannot_write(errno, problem);
    path = path_of(bench, folder, "given", "");
    out = good ? fopen(path, "w") : NULL;
    free(path);
    if (out == NULL)
        return good ? cannot_write(errno, problem) : false;
    write_given(bench, out);
    good = ferror(out) == 0;
    return (fclose(out) == 0 && good) || cannot_write(errno, problem);
}

/* ---- what it wrote ------------------------------------------------------------------------- */

/* One word of 0, 1, x and z, highest bit first. */
static bool take_word(const char *text, unsigned bits, uint64_t *value, uint64_t *unknown) {
    for (unsigned k = 0; k < bits; k++) {
        unsigned bit = bits - 1 - k;
        uint64_t mask = UINT64_C(1) << (bit % 64);
        if (text[k] == '1')
            value[bit / 64] |= mask;
        else if (text[k] == 'x' || text[k] == 'z')
            unknown[bit / 64] |= mask;
        else if (text[k] != '0')
            return false;
    }
    return true;
}

/* The file, a word a line, the address before some in a comment. False when it is not whole. */
static bool take_all(const Bench *bench, FILE *in, Samples *samples) {
    unsigned bits = word_bits(bench), seen = bench->cases->unit->width + FLAG_COUNT;
    int room = (int)bits + 64;
    char *line = memory_zeroed((size_t)room, 1);
    size_t taken = 0;
    bool good = true;
    while (good && fgets(line, room, in) != NULL) {
        if (line[0] == '/')
            continue;
        good = strcspn(line, "\n") == bits && taken < samples->count &&
               take_word(line + bits - seen, seen, samples->value + taken * samples->limbs,
                         samples->unknown + taken * samples->limbs);
        if (line[bits - seen - 1] == '1') {
            samples->moves = true;
            if (!bench->schedule->clocked)
                samples->stays[alone_at(bench->mapping, taken)] = true;
        }
        taken++;
    }
    free(line);
    return good && taken == samples->count;
}

bool bench_read(const Bench *bench, const char *folder, Samples *samples, Problem *problem) {
    const Cases *cases = bench->cases;
    char *path = path_of(bench, folder, "seen", "");
    FILE *in = fopen(path, "r");
    free(path);
    *samples = (Samples){.count = bench->schedule->count, .limbs = cases->out_limbs};
    samples->value = memory_zeroed(samples->count * samples->limbs, sizeof *samples->value);
    samples->unknown = memory_zeroed(samples->count * samples->limbs, sizeof *samples->unknown);
    bool good = in != NULL && take_all(bench, in, samples);
    if (in != NULL)
        fclose(in);
    if (good)
        return true;
    samples_free(samples);
    return problem_set(problem, STATUS_UNTESTED,
                       "the simulation ended before the last vector; a unit does not end it");
}
