/* See options.h. A new option is a row of the table below and its taker. */
#include "options/options.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>

enum { PORTS_MAX = PIN_COUNT };

/* What has been read so far, and what can only be placed when everything has been read. */
typedef struct {
    Request *request;
    bool operations_coded[OP_COUNT];
    bool structure_given;
    const char *port[PORTS_MAX];
    int port_count;
    bool latency_given;
    const char *operation; /* --operation, or NULL */
} Reading;

typedef struct {
    const char *name;
    const char *argument;      /* NULL: takes none */
    const char *const *values; /* what the argument can be, or NULL */
    const char *standard;      /* the default, in words */
    const char *meaning;
    unsigned commands;
    bool repeatable;
    bool (*take)(Reading *reading, const char *text, Problem *problem);
} Option;

/* The values of each property in the order of its enum, "" for one that cannot be written. */
#define SPELLING(ID, name, ...)            name,
#define SPELLING_BEHIND(ID, id, name, ...) name,
static const char *const control_names[] = {"", CONTROLS(SPELLING) NULL};
static const char *const sense_names[] = {SENSES(SPELLING) NULL};
static const char *const flag_names[] = {FLAGS(SPELLING_BEHIND) NULL};
static const char *const overflow_names[] = {OVERFLOWS(SPELLING) NULL};
static const char *const structure_names[] = {STRUCTURES(SPELLING_BEHIND) NULL};
static const char *const detail_names[] = {"", DETAILS(SPELLING) NULL};
static const char *const registers_names[] = {REGISTER_PLACES(SPELLING) NULL};
static const char *const reset_names[] = {"", RESETS(SPELLING) NULL};
static const char *const level_names[] = {"high", "low", NULL};

/* ---- takers ------------------------------------------------------------------------------- */

/* The index of text in a list of values, or -1. */
static int find(const char *const *values, const char *text, size_t length) {
    for (int k = 0; values[k] != NULL; k++)
        if (length > 0 && strlen(values[k]) == length && strncmp(values[k], text, length) == 0)
            return k;
    return -1;
}

/* "a, b or c" of a list of values, into room bytes. */
static void list_values(const char *const *values, char *text, size_t room) {
    size_t used = 0;
    text[0] = '\0';
    for (int k = 0; values[k] != NULL && used < room; k++) {
        if (values[k][0] == '\0')
            continue;
        const char *between = used == 0 ? "" : values[k + 1] == NULL ? " or " : ", ";
        used += (size_t)snprintf(text + used, room - used, "%s%s", between, values[k]);
    }
}

/* The value's number in its list, or -1 after a problem. */
static int take_value(const char *option, const char *const *values, const char *text,
                      Problem *problem) {
    int found = find(values, text, strlen(text));
    if (found >= 0)
        return found;
    char known[512];
    list_values(values, known, sizeof known);
    problem_set(problem, STATUS_INVALID, "%s cannot be %s; it is %s", option,
                problem_quote(text).text, known);
    return -1;
}

static bool take_number(const char *option, const char *text, uint64_t least, uint64_t most,
                        uint64_t *number, Problem *problem) {
    uint64_t value = 0;
    bool good = text[0] != '\0';
    for (const char *c = text; *c != '\0' && good; c++) {
        good = *c >= '0' && *c <= '9' && value <= (UINT64_MAX - 9) / 10;
        if (good)
            value = value * 10 + (uint64_t)(*c - '0');
    }
    if (!good || value < least || value > most)
        return problem_set(
            problem, STATUS_INVALID, "%s cannot be %s; it is a whole number from %llu to %llu",
            option, problem_quote(text).text, (unsigned long long)least, (unsigned long long)most);
    *number = value;
    return true;
}

static bool take_name(Reading *reading, const char *text, Problem *problem) {
    if (!unit_check_name(text, "module name", problem))
        return false;
    snprintf(reading->request->unit.name, sizeof reading->request->unit.name, "%s", text);
    return true;
}

static bool take_width(Reading *reading, const char *text, Problem *problem) {
    uint64_t width = 0;
    if (!take_number("--width", text, 1, UNIT_WIDTH_MAX, &width, problem))
        return false;
    reading->request->unit.width = (unsigned)width;
    return true;
}

/* The code of `name=code`: binary digits, all codes of one length, no two alike. */
static bool take_code(Unit *unit, const char *name, const char *digits, size_t length,
                      Problem *problem) {
    uint32_t code = 0;
    bool good = length > 0 && length <= UNIT_CODE_BITS_MAX;
    for (size_t i = 0; i < length && good; i++) {
        good = digits[i] == '0' || digits[i] == '1';
        code = code << 1 | (digits[i] == '1');
    }
    if (!good)
        return problem_set(problem, STATUS_INVALID,
                           "the code of %s in --operations is not a binary number of 1 to %d "
                           "digits; write, for example, %s=101",
                           name, UNIT_CODE_BITS_MAX, name);
    if (unit->code_bits != 0 && unit->code_bits != length)
        return problem_set(problem, STATUS_INVALID,
                           "the code of %s in --operations has %zu digits and one before it %u; "
                           "give all codes one length",
                           name, length, unit->code_bits);
    unit->code_bits = (unsigned)length;
    unit->choice[unit->choice_count].code = code;
    return true;
}

static bool take_operation(Reading *reading, const char *text, size_t length, Problem *problem) {
    Unit *unit = &reading->request->unit;
    const char *equals = memchr(text, '=', length);
    size_t name_length = equals == NULL ? length : (size_t)(equals - text);
    const char *names[OP_COUNT + 1] = {NULL};
    for (int op = 0; op < OP_COUNT; op++)
        names[op] = operation_name((Operation)op);
    int op = find(names, text, name_length);
    if (op < 0) {
        char known[128], item[64];
        list_values(names, known, sizeof known);
        snprintf(item, sizeof item, "%.*s", (int)(length < 63 ? length : 63), text);
        return problem_set(problem, STATUS_INVALID, "--operations does not know %s; it knows %s",
                           problem_quote(item).text, known);
    }
    for (int k = 0; k < unit->choice_count; k++)
        if (unit->choice[k].operation == (Operation)op)
            return problem_set(problem, STATUS_INVALID,
                               "--operations lists %s twice; list each operation once", names[op]);
    if (equals != NULL &&
        !take_code(unit, names[op], equals + 1, length - name_length - 1, problem))
        return false;
    reading->operations_coded[unit->choice_count] = equals != NULL;
    unit->choice[unit->choice_count++].operation = (Operation)op;
    return true;
}

/* Where some operations carry a code, one without has its place in the list as its code. */
static bool place_codes(const Reading *reading, Unit *unit, Problem *problem) {
    for (int k = 0; k < unit->choice_count; k++) {
        const char *name = operation_name(unit->choice[k].operation);
        if (!reading->operations_coded[k])
            unit->choice[k].code = (uint32_t)k;
        if (unit->choice[k].code >= UINT32_C(1) << unit->code_bits)
            return problem_set(problem, STATUS_INVALID,
                               "%s in --operations would have the code %d, which does not fit %u "
                               "bits; write longer codes, or one for every operation",
                               name, k, unit->code_bits);
        for (int other = 0; other < k; other++)
            if (unit->choice[other].code == unit->choice[k].code)
                return problem_set(problem, STATUS_INVALID,
                                   "%s and %s in --operations have the same code; give each "
                                   "operation its own",
                                   operation_name(unit->choice[other].operation), name);
    }
    return true;
}

static bool take_operations(Reading *reading, const char *text, Problem *problem) {
    const char *item = text;
    for (;;) {
        size_t length = strcspn(item, ",");
        if (!take_operation(reading, item, length, problem))
            return false;
        if (item[length] == '\0')
            break;
        item += length + 1;
    }
    Unit *unit = &reading->request->unit;
    return unit->code_bits == 0 || place_codes(reading, unit, problem);
}

static bool take_control(Reading *reading, const char *text, Problem *problem) {
    int value = take_value("--control", control_names, text, problem);
    if (value < 0)
        return false;
    reading->request->unit.control = (Control)value;
    return true;
}

static bool take_sense(Reading *reading, const char *text, Problem *problem) {
    int value = take_value("--subtract-carry", sense_names, text, problem);
    if (value < 0)
        return false;
    reading->request->unit.sense = (Sense)value;
    return true;
}

static bool take_flags(Reading *reading, const char *text, Problem *problem) {
    bool *flags = reading->request->unit.flag;
    reading->request->flags_all = strcmp(text, "all") == 0;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        flags[flag] = reading->request->flags_all;
    if (reading->request->flags_all || strcmp(text, "none") == 0)
        return true;
    for (const char *item = text;;) {
        size_t length = strcspn(item, ",");
        int flag = find(flag_names, item, length);
        if (flag < 0 || flags[flag]) {
            char known[256], quoted[64];
            list_values(flag_names, known, sizeof known);
            snprintf(quoted, sizeof quoted, "%.*s", (int)(length < 63 ? length : 63), item);
            return problem_set(problem, STATUS_INVALID,
                               flag < 0 ? "--flags does not know %s; it takes all, none, or a "
                                          "comma list of %s"
                                        : "--flags lists %s twice; list each flag once (%s)",
                               problem_quote(quoted).text, known);
        }
        flags[flag] = true;
        if (item[length] == '\0')
            return true;
        item += length + 1;
    }
}

static bool take_overflow(Reading *reading, const char *text, Problem *problem) {
    int value = take_value("--overflow", overflow_names, text, problem);
    if (value < 0)
        return false;
    reading->request->unit.overflow = (Overflow)value;
    return true;
}

/* A structure by its name, or depth=N. */
static bool read_structure(const char *option, const char *text, StructureChoice *choice,
                           Problem *problem) {
    if (strncmp(text, "depth=", 6) == 0) {
        char what[64];
        uint64_t depth = 0;
        snprintf(what, sizeof what, "%s depth", option);
        if (!take_number(what, text + 6, 1, UNIT_WIDTH_MAX, &depth, problem))
            return false;
        *choice = (StructureChoice){STRUCTURE_DEPTH, (unsigned)depth};
        return true;
    }
    int value = take_value(option, structure_names, text, problem);
    if (value < 0)
        return false;
    if (value == STRUCTURE_DEPTH)
        return problem_set(problem, STATUS_INVALID,
                           "%s depth lacks its levels; write, for example, depth=6", option);
    *choice = (StructureChoice){(Structure)value, 0};
    return true;
}

static bool take_structure(Reading *reading, const char *text, Problem *problem) {
    StructureChoice choice = {STRUCTURE_RIPPLE, 0};
    if (!read_structure("--structure", text, &choice, problem))
        return false;
    reading->request->unit.structure = choice.structure;
    reading->request->unit.depth = choice.depth;
    reading->structure_given = true;
    return true;
}

static bool take_detail(Reading *reading, const char *text, Problem *problem) {
    int value = take_value("--detail", detail_names, text, problem);
    if (value < 0)
        return false;
    reading->request->unit.detail = (Detail)value;
    reading->request->detail_given = true;
    return true;
}

static bool take_registers(Reading *reading, const char *text, Problem *problem) {
    int value = take_value("--registers", registers_names, text, problem);
    if (value < 0)
        return false;
    reading->request->unit.registers = (Registers)value;
    return true;
}

static bool take_reset(Reading *reading, const char *text, Problem *problem) {
    int value = take_value("--reset", reset_names, text, problem);
    if (value < 0)
        return false;
    reading->request->unit.reset = (Reset)value;
    return true;
}

static bool take_reset_level(Reading *reading, const char *text, Problem *problem) {
    int value = take_value("--reset-level", level_names, text, problem);
    if (value < 0)
        return false;
    reading->request->unit.reset_low = value == 1;
    return true;
}

static bool take_enable(Reading *reading, const char *text, Problem *problem) {
    (void)text, (void)problem;
    reading->request->unit.enable = true;
    return true;
}

static bool take_port(Reading *reading, const char *text, Problem *problem) {
    const char *equals = strchr(text, '=');
    if (equals == NULL || equals == text)
        return problem_set(problem, STATUS_INVALID,
                           "--port %s is not ROLE=NAME; write, for example, result=difference",
                           problem_quote(text).text);
    if (!unit_check_name(equals + 1, "pin name", problem))
        return false;
    if (reading->port_count == PORTS_MAX)
        return problem_set(problem, STATUS_INVALID,
                           "--port is given more than %d times; a unit has fewer pins", PORTS_MAX);
    reading->port[reading->port_count++] = text;
    return true;
}

static bool take_out(Reading *reading, const char *text, Problem *problem) {
    if (text[0] == '\0')
        return problem_set(problem, STATUS_INVALID, "--out is empty; name a folder, . is this one");
    reading->request->out = text;
    return true;
}

static bool take_overwrite(Reading *reading, const char *text, Problem *problem) {
    (void)text, (void)problem;
    reading->request->overwrite = true;
    return true;
}

static bool take_vectors(Reading *reading, const char *text, Problem *problem) {
    return take_number("--vectors", text, 0, OPTIONS_RANDOM_MAX, &reading->request->random,
                       problem);
}

static bool take_seed(Reading *reading, const char *text, Problem *problem) {
    return take_number("--seed", text, 0, INT64_MAX, &reading->request->seed, problem);
}

static bool take_coverage(Reading *reading, const char *text, Problem *problem) {
    if (text[0] == '\0' || strchr(text, '/') != NULL)
        return problem_set(
            problem, STATUS_INVALID,
            "--coverage %s is no plain file name; it goes into the folder of --out, so "
            "write, for example, coverage.json",
            problem_quote(text).text);
    reading->request->coverage = text;
    return true;
}

static bool take_templates(Reading *reading, const char *text, Problem *problem) {
    if (text[0] == '\0')
        return problem_set(problem, STATUS_INVALID, "--templates is empty; name a folder");
    reading->request->templates = text;
    return true;
}

static bool take_module(Reading *reading, const char *text, Problem *problem) {
    if (text[0] == '\0')
        return problem_set(problem, STATUS_INVALID, "--module is empty; name a module");
    reading->request->module = text;
    return true;
}

/* NAME=VALUE: a Verilog name, and a number as Verilog writes it. The value goes into Verilog text.
 */
static bool take_parameter(Reading *reading, const char *text, Problem *problem) {
    static const char plain[] = "0123456789abcdefABCDEFxXhHoOdDsSzZ_'";
    char name[UNIT_NAME_MAX + 1];
    size_t length = strcspn(text, "=");
    snprintf(name, sizeof name, "%.*s", (int)(length < sizeof name ? length : 0), text);
    const char *value = text[length] == '=' ? text + length + 1 : "";
    const char *digits = value[0] == '-' ? value + 1 : value;
    if (digits[0] == '\0' || strspn(digits, plain) != strlen(digits) ||
        strpbrk(digits, "0123456789") == NULL)
        return problem_set(problem, STATUS_INVALID,
                           "--parameter %s is not NAME=VALUE with a number; write, for example, "
                           "WIDTH=12",
                           problem_quote(text).text);
    if (!unit_check_name(name, "parameter name", problem))
        return false;
    Request *request = reading->request;
    for (int k = 0; k < request->parameter_count; k++)
        if (strncmp(request->parameters[k], text, length + 1) == 0)
            return problem_set(problem, STATUS_INVALID, "--parameter sets %s twice; set it once",
                               problem_quote(name).text);
    if (request->parameter_count == OPTIONS_PARAMETERS_MAX)
        return problem_set(problem, STATUS_INVALID, "--parameter is given more than %d times",
                           OPTIONS_PARAMETERS_MAX);
    request->parameters[request->parameter_count++] = text;
    return true;
}

static bool take_latency(Reading *reading, const char *text, Problem *problem) {
    uint64_t latency = 0;
    if (!take_number("--latency", text, 0, OPTIONS_LATENCY_MAX, &latency, problem))
        return false;
    reading->request->latency = (unsigned)latency;
    reading->latency_given = true;
    return true;
}

static bool take_each(Reading *reading, const char *text, Problem *problem) {
    (void)text, (void)problem;
    reading->request->each = true;
    return true;
}

static bool take_jobs(Reading *reading, const char *text, Problem *problem) {
    uint64_t jobs = 0;
    if (!take_number("--jobs", text, 1, OPTIONS_JOBS_MAX, &jobs, problem))
        return false;
    reading->request->jobs = (unsigned)jobs;
    return true;
}

static const char *const format_names[] = {"text", "json", NULL};
static const char *const cost_format_names[] = {"text", "json", "csv", NULL};

static bool read_format(Reading *reading, const char *const *names, const char *text,
                        Problem *problem) {
    int value = take_value("--format", names, text, problem);
    if (value < 0)
        return false;
    reading->request->format = (Format)value;
    return true;
}

static bool take_operation_worked(Reading *reading, const char *text, Problem *problem) {
    (void)problem; /* which operations there are is known when everything has been read */
    reading->operation = text;
    return true;
}

static bool take_cin(Reading *reading, const char *text, Problem *problem) {
    uint64_t level = 0;
    if (!take_number("--cin", text, 0, 1, &level, problem))
        return false;
    reading->request->cin = (int)level;
    return true;
}

static bool take_steps(Reading *reading, const char *text, Problem *problem) {
    (void)text, (void)problem;
    reading->request->steps = true;
    return true;
}

static bool take_format(Reading *reading, const char *text, Problem *problem) {
    return read_format(reading, format_names, text, problem);
}

static bool take_cost_format(Reading *reading, const char *text, Problem *problem) {
    return read_format(reading, cost_format_names, text, problem);
}

/* ---- lists -------------------------------------------------------------------------------- */

enum { ITEM_BYTES = 80 };

/* The next item of a comma list as a text of its own, cut if it is too long to be right; what
 * follows it, or NULL after the last. */
static const char *next_item(const char *list, char item[ITEM_BYTES]) {
    size_t length = strcspn(list, ",");
    snprintf(item, ITEM_BYTES, "%.*s", (int)(length < ITEM_BYTES ? length : ITEM_BYTES), list);
    return list[length] == '\0' ? NULL : list + length + 1;
}

static bool take_structure_list(Reading *reading, const char *text, Problem *problem) {
    Request *request = reading->request;
    char item[ITEM_BYTES];
    for (const char *list = text; list != NULL;) {
        list = next_item(list, item);
        StructureChoice choice = {STRUCTURE_RIPPLE, 0};
        if (!read_structure("--structures", item, &choice, problem))
            return false;
        for (int k = 0; k < request->structure_count; k++)
            if (request->structures[k].structure == choice.structure &&
                request->structures[k].depth == choice.depth)
                return problem_set(problem, STATUS_INVALID,
                                   "--structures lists %s twice; list each structure once", item);
        if (request->structure_count == OPTIONS_STRUCTURES_MAX)
            return problem_set(problem, STATUS_INVALID,
                               "--structures lists more than %d; ask for them in parts",
                               OPTIONS_STRUCTURES_MAX);
        request->structures[request->structure_count++] = choice;
    }
    return true;
}

static bool take_width_list(Reading *reading, const char *text, Problem *problem) {
    Request *request = reading->request;
    char item[ITEM_BYTES];
    for (const char *list = text; list != NULL;) {
        list = next_item(list, item);
        uint64_t width = 0;
        if (!take_number("--widths", item, 1, UNIT_WIDTH_MAX, &width, problem))
            return false;
        for (int k = 0; k < request->width_count; k++)
            if (request->widths[k] == width)
                return problem_set(problem, STATUS_INVALID,
                                   "--widths lists %s twice; list each width once", item);
        if (request->width_count == OPTIONS_WIDTHS_MAX)
            return problem_set(problem, STATUS_INVALID,
                               "--widths lists more than %d; ask for them in parts",
                               OPTIONS_WIDTHS_MAX);
        request->widths[request->width_count++] = (unsigned)width;
    }
    return true;
}

static bool take_svg(Reading *reading, const char *text, Problem *problem) {
    if (text[0] == '\0')
        return problem_set(problem, STATUS_INVALID, "--svg is empty; name a file");
    reading->request->svg = text;
    return true;
}

static bool take_example(Reading *reading, const char *text, Problem *problem) {
    (void)problem; /* what its operands must be is known when everything has been read */
    reading->request->example = text;
    return true;
}

static const char *const symbols_names[] = {"distinctive", "rectangular", NULL};

static bool take_symbols(Reading *reading, const char *text, Problem *problem) {
    int value = take_value("--symbols", symbols_names, text, problem);
    if (value < 0)
        return false;
    reading->request->rectangular = value == 1;
    return true;
}

static bool take_help(Reading *reading, const char *text, Problem *problem) {
    (void)text, (void)problem;
    reading->request->help = true;
    return true;
}

/* ---- the table ---------------------------------------------------------------------------- */

static const Option options[] = {
    {"name", "NAME", NULL, "from the operations and the width, e.g. addsub8",
     "the module's name, a Verilog identifier", COMMAND_EVERY, false, take_name},
    {"width", "N", NULL, "8", "bits in a word, 1 to 4096", COMMAND_EVERY, false, take_width},
    {"operations", "LIST", NULL, "add,sub",
     "comma list of add, adc, sub, sbc, rsb, inc, dec, neg and pass; name=code, e.g. sub=101, sets "
     "its code",
     COMMAND_EVERY, false, take_operations},
    {"control", "STYLE", control_names, "fixed for one operation, high for two, code for more",
     "how the control pins choose the operation", COMMAND_EVERY, false, take_control},
    {"subtract-carry", "SENSE", sense_names, "no-borrow",
     "what a 1 on the carry pins says in a subtraction", COMMAND_EVERY, false, take_sense},
    {"flags", "LIST", NULL, "carry,overflow,zero,negative",
     "all, none, or a comma list of carry, overflow, zero, negative, less-signed, less-unsigned, "
     "parity and half-carry (all: half-carry from width 4 only)",
     COMMAND_EVERY, false, take_flags},
    {"overflow", "RULE", overflow_names, "wrap", "what becomes of a result that does not fit",
     COMMAND_EVERY, false, take_overflow},
    {"structure", "KIND", structure_names, "ripple",
     "how carries travel; depth is written depth=N, N levels of cells", COMMAND_EVERY, false,
     take_structure},
    {"detail", "KIND", detail_names, "cells for ripple, gates for other structures",
     "what the text is made of", COMMAND_EVERY, false, take_detail},
    {"registers", "WHERE", registers_names, "none", "flip-flops at the outputs, or at both ends",
     COMMAND_EVERY, false, take_registers},
    {"reset", "KIND", reset_names, "none; sync with registers", "how the registers are reset",
     COMMAND_EVERY, false, take_reset},
    {"reset-level", "LEVEL", level_names, "high", "the level that resets", COMMAND_EVERY, false,
     take_reset_level},
    {"enable", NULL, NULL, "absent", "a clock enable pin for the registers", COMMAND_EVERY, false,
     take_enable},
    {"port", "ROLE=NAME", NULL, "each role's own name",
     "another name for a pin; once for each pin to rename", COMMAND_EVERY, true, take_port},
    {"out", "DIR", NULL, "the current folder", "where the files go; it must exist", COMMAND_EMIT,
     false, take_out},
    {"overwrite", NULL, NULL, "refuse", "replace existing files of other content",
     COMMAND_EMIT | COMMAND_WORK | COMMAND_COST | COMMAND_DRAW, false, take_overwrite},
    {"vectors", "N", NULL, "2000",
     "at most N random vectors, beside the compact, corner, walking and chain ones, which are "
     "always "
     "there; "
     "every input is tried where the input pins together are at most 17 bits",
     COMMAND_EMIT | COMMAND_CHECK, false, take_vectors},
    {"seed", "N", NULL, "1", "chooses the random vectors", COMMAND_EMIT | COMMAND_CHECK, false,
     take_seed},
    {"coverage", "FILE", NULL, "none",
     "writes what the vectors cover and catch, as JSON, to FILE beside the others", COMMAND_EMIT,
     false, take_coverage},
    {"templates", "DIR", NULL, "the built-in ones",
     "files in DIR take the place of the built-in templates of the same name", COMMAND_EMIT, false,
     take_templates},
    {"module", "NAME", NULL, "the one that no other uses", "the design's module", COMMAND_CHECK,
     false, take_module},
    {"parameter", "NAME=VALUE", NULL, "the design's own values",
     "a parameter of the design's module; once for each", COMMAND_CHECK, true, take_parameter},
    {"latency", "N", NULL, "as --registers says",
     "clocks from operands to result of a design with a clock", COMMAND_CHECK, false, take_latency},
    {"each", NULL, NULL, "all files are one design",
     "every file is a design of its own, and so is every .v and .sv file in a folder",
     COMMAND_CHECK, false, take_each},
    {"jobs", "N", NULL, "the number of processors", "designs checked at once", COMMAND_CHECK, false,
     take_jobs},
    {"format", "KIND", format_names, "text", "how results are written", COMMAND_CHECK, false,
     take_format},
    {"operation", "OP", NULL, "the first of the unit's", "the operation that is worked",
     COMMAND_WORK, false, take_operation_worked},
    {"cin", "LEVEL", NULL, "no carry, no borrow",
     "the level of the pin cin, 0 or 1, for an operation that reads it",
     COMMAND_WORK | COMMAND_DRAW, false, take_cin},
    {"steps", NULL, NULL, "absent", "a line of reasoning for each column", COMMAND_WORK, false,
     take_steps},
    {"format", "KIND", cost_format_names, "text", "how results are written", COMMAND_COST, false,
     take_cost_format},
    {"structures", "LIST", structure_names,
     "that of --structure, or every one that the unit can have",
     "comma list of carry structures; depth is written depth=N, N levels of cells", COMMAND_COST,
     false, take_structure_list},
    {"widths", "LIST", NULL, "that of --width, or 8,16,32,64",
     "comma list of bits in a word, each 1 to 4096", COMMAND_COST, false, take_width_list},
    {"svg", "FILE", NULL, "none", "draws the result into FILE too", COMMAND_WORK | COMMAND_COST,
     false, take_svg},
    {"svg", "FILE", NULL, NULL, "the drawing; draw needs it", COMMAND_DRAW, false, take_svg},
    {"example", "A,B[,OP]", NULL, "none; of the unit's operations the first",
     "an operation to show on the wires: its operands, as for work, and its name", COMMAND_DRAW,
     false, take_example},
    {"symbols", "SHAPES", symbols_names, "distinctive",
     "the shapes of gates, of IEEE Std 91 or of IEC 60617-12", COMMAND_DRAW, false, take_symbols},
    {"help", NULL, NULL, NULL, "show this", COMMAND_EVERY, true, take_help},
};

enum {
    OPTION_COUNT = sizeof options / sizeof options[0],
    FIRST_OPTION = 256, /* option k is FIRST_OPTION + k to getopt_long: no character */
};

/* ---- parsing ------------------------------------------------------------------------------ */

/* What a command is called and takes beside options. A command is a row here and one in main.c. */
static const struct {
    Command command;
    const char *name;
    const char *operands; /* as its usage line shows them, or NULL: takes none */
} commands[] = {
    {COMMAND_EMIT, "emit", NULL},    {COMMAND_CHECK, "check", "DESIGN.v..."},
    {COMMAND_WORK, "work", "A [B]"}, {COMMAND_COST, "cost", NULL},
    {COMMAND_DRAW, "draw", NULL},
};

enum { COMMANDS_COUNT = sizeof commands / sizeof commands[0] };

static int find_command(Command command) {
    int found = 0;
    while (found < COMMANDS_COUNT - 1 && commands[found].command != command)
        found++;
    return found;
}

static const char *command_name(Command command) {
    return commands[find_command(command)].name;
}

static const char *command_operands(Command command) {
    return commands[find_command(command)].operands;
}

/* What getopt_long could not place: an unknown or ambiguous name, a value where none goes, a
 * missing one. It leaves in optopt the number of a known option, 0 for an unknown name, or the
 * letter of a short option, of which there are none: optind does not tell the argument then. */
static bool refuse(Command command, int code, const char *text, Problem *problem) {
    const char *name = command_name(command);
    if (code == ':')
        return problem_set(problem, STATUS_INVALID,
                           "option %s lacks its value; see sumwright %s --help",
                           problem_quote(text).text, name);
    if (optopt >= FIRST_OPTION)
        return problem_set(problem, STATUS_INVALID,
                           "--%s takes no value; leave = and what follows out, see sumwright %s "
                           "--help",
                           options[optopt - FIRST_OPTION].name, name);
    char letter[] = {'-', (char)optopt, '\0'};
    return problem_set(problem, STATUS_INVALID,
                       "option %s is not one of %s, or not complete; see sumwright %s --help",
                       problem_quote(optopt != 0 ? letter : text).text, name, name);
}

/* Gives the pins that --port names their names; which roles there are is known by now. */
static bool place_ports(const Reading *reading, Unit *unit, Problem *problem) {
    for (int k = 0; k < reading->port_count; k++) {
        const char *text = reading->port[k];
        size_t length = strcspn(text, "=");
        char roles[512];
        size_t used = 0;
        int found = -1;
        for (int pin = 0; pin < PIN_COUNT; pin++) {
            if (!unit_has(unit, (Pin)pin))
                continue;
            const char *role = unit_role(unit, (Pin)pin);
            used += (size_t)snprintf(roles + used, sizeof roles - used, " %s", role);
            if (strlen(role) == length && strncmp(role, text, length) == 0)
                found = pin;
        }
        if (found < 0)
            return problem_set(problem, STATUS_INVALID,
                               "--port %s names a pin that this unit does not have; its pins are%s",
                               problem_quote(text).text, roles);
        if (unit->pin[found][0] != '\0')
            return problem_set(problem, STATUS_INVALID,
                               "--port names pin %s twice; name each pin once",
                               unit_role(unit, (Pin)found));
        snprintf(unit->pin[found], sizeof unit->pin[found], "%s", text + length + 1);
    }
    return true;
}

/* A design that takes clocks has a clock, and no more than that unless more is said. */
static void settle_latency(const Reading *reading, Unit *unit) {
    if (reading->request->latency == 0 || unit->registers != REGISTERS_NONE)
        return;
    unit->registers = REGISTERS_OUTPUT;
    if (unit->reset == RESET_UNSET && !unit->reset_low)
        unit->reset = RESET_NONE;
}

/* Which of the unit's operations --operation names; the first when it names none. */
static bool place_operation(Reading *reading, Problem *problem) {
    const Unit *unit = &reading->request->unit;
    const char *names[OP_COUNT + 1] = {NULL};
    for (int k = 0; k < unit->choice_count; k++)
        names[k] = operation_name(unit->choice[k].operation);
    if (reading->operation == NULL)
        return true;
    int found = find(names, reading->operation, strlen(reading->operation));
    if (found < 0) {
        char known[128];
        list_values(names, known, sizeof known);
        return problem_set(problem, STATUS_INVALID,
                           "--operation cannot be %s; this unit does %s, see --operations",
                           problem_quote(reading->operation).text, known);
    }
    reading->request->choice = found;
    return true;
}

/* A survey without lists is of the one unit that --width and --structure describe; with lists,
 * the unit itself is the first of them. */
static void settle_lists(const Reading *reading, Unit *unit) {
    Request *request = reading->request;
    if (request->width_count == 0 && unit->width != 0)
        request->widths[request->width_count++] = unit->width;
    if (request->width_count > 0)
        unit->width = request->widths[0];
    if (request->structure_count == 0 && reading->structure_given)
        request->structures[request->structure_count++] =
            (StructureChoice){unit->structure, unit->depth};
}

static bool settle(Reading *reading, Problem *problem) {
    Unit *unit = &reading->request->unit;
    settle_latency(reading, unit);
    settle_lists(reading, unit);
    if (reading->request->flags_all && unit->width != 0 && unit->width < 4)
        unit->flag[FLAG_HALF_CARRY] = false;
    if (!unit_settle_shape(unit, problem))
        return false;
    if (!reading->latency_given)
        reading->request->latency = unit_latency(unit);
    return place_ports(reading, unit, problem) && unit_settle_pins(unit, problem) &&
           place_operation(reading, problem);
}

static void make_long_options(Command command, struct option *list) {
    int count = 0;
    for (int k = 0; k < OPTION_COUNT; k++) {
        if ((options[k].commands & (unsigned)command) == 0)
            continue;
        int has_value = options[k].argument != NULL ? required_argument : no_argument;
        list[count++] = (struct option){options[k].name, has_value, NULL, FIRST_OPTION + k};
    }
    list[count] = (struct option){NULL, 0, NULL, 0};
}

/* Takes the arguments up to the next option as operands, gathered at the start of argv, whose
 * options have been read by then. -5 is a number, not an option. */
static void take_operands(int argc, char **argv, Request *request) {
    for (; optind < argc; optind++) {
        const char *text = argv[optind];
        bool number = text[0] == '-' && text[1] >= '0' && text[1] <= '9';
        if (text[0] == '-' && text[1] != '\0' && !number)
            return;
        request->operands[request->operand_count++] = argv[optind];
    }
}

/* Every argument, in order: options are taken, operands gathered. */
static bool read_arguments(Command command, int argc, char **argv, Reading *reading,
                           Problem *problem) {
    struct option list[OPTION_COUNT + 1];
    make_long_options(command, list);
    bool seen[OPTION_COUNT] = {false};
    opterr = 0;
    optind = 0; /* a full reset, for callers that parse twice; it leaves 1 */
    getopt_long(1, argv, "+:", list, NULL);
    for (;;) {
        take_operands(argc, argv, reading->request);
        int code = getopt_long(argc, argv, "+:", list, NULL);
        if (code == -1)
            break;
        if (code == ':' || code == '?')
            return refuse(command, code, argv[optind - 1], problem);
        const Option *option = &options[code - FIRST_OPTION];
        if (seen[code - FIRST_OPTION] && !option->repeatable)
            return problem_set(problem, STATUS_INVALID, "--%s is given twice; give it once",
                               option->name);
        seen[code - FIRST_OPTION] = true;
        if (!option->take(reading, optarg, problem))
            return false;
        if (reading->request->help)
            return true;
    }
    while (optind < argc) /* what follows -- */
        reading->request->operands[reading->request->operand_count++] = argv[optind++];
    return true;
}

bool options_parse(Command command, int argc, char **argv, Request *request, Problem *problem) {
    *request = (Request){.out = ".",
                         .random = OPTIONS_RANDOM_DEFAULT,
                         .seed = OPTIONS_SEED_DEFAULT,
                         .operands = argv + 1,
                         .cin = OPTIONS_CIN_UNSET};
    unit_init(&request->unit);
    Reading reading = {.request = request};
    if (!read_arguments(command, argc, argv, &reading, problem))
        return false;
    if (request->help)
        return true;
    if (request->operand_count > 0 && command_operands(command) == NULL)
        return problem_set(problem, STATUS_INVALID,
                           "%s takes no %s; options begin with --, see sumwright %s --help",
                           command_name(command), problem_quote(request->operands[0]).text,
                           command_name(command));
    return settle(&reading, problem);
}

/* ---- help --------------------------------------------------------------------------------- */

enum { HELP_INDENT = 26, HELP_WIDTH = 92 };

/* Words of text, wrapped between the indent and the width, from column on. */
static void wrap(FILE *out, const char *text, int column) {
    while (*text != '\0') {
        int length = (int)strcspn(text, " ");
        if (column > HELP_INDENT && column + 1 + length > HELP_WIDTH) {
            fprintf(out, "\n%*s", HELP_INDENT, "");
            column = HELP_INDENT;
        } else if (column > HELP_INDENT) {
            fputc(' ', out);
            column++;
        }
        fprintf(out, "%.*s", length, text);
        column += length;
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', out);
}

static void help_option(const Option *option, FILE *out) {
    char line[1024], known[512];
    int column = fprintf(out, "  --%s%s%s", option->name, option->argument != NULL ? " " : "",
                         option->argument != NULL ? option->argument : "");
    int pad = column < HELP_INDENT ? HELP_INDENT - column : 1;
    fprintf(out, "%*s", pad, "");
    int used = snprintf(line, sizeof line, "%s", option->meaning);
    if (option->values != NULL) {
        list_values(option->values, known, sizeof known);
        used += snprintf(line + used, sizeof line - (size_t)used, ": %s", known);
    }
    if (option->standard != NULL)
        snprintf(line + used, sizeof line - (size_t)used, " [%s]", option->standard);
    wrap(out, line, HELP_INDENT);
}

void options_help(Command command, FILE *out) {
    const char *operands = command_operands(command);
    fprintf(out, "usage: sumwright %s [options]%s%s\n\n", command_name(command),
            operands != NULL ? " " : "", operands != NULL ? operands : "");
    for (int k = 0; k < OPTION_COUNT; k++)
        if (options[k].commands & (unsigned)command)
            help_option(&options[k], out);
    fprintf(out, "\nIn brackets: what holds when the option is not given.\n");
}
