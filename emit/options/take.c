/* See table.h: what becomes of the texts that are more than a switch, a choice, a number or a path. */
#include "options/table.h"

#include "base/memory.h"

#include <string.h>

/* ---- what takers share -------------------------------------------------------------------- */

bool number_take(const char *option, const char *text, uint64_t least, uint64_t most,
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

enum { ITEM_BYTES = 80 };

/* The next item of a comma list as a text of its own, cut if it is too long to be right; what
 * follows it, or NULL after the last. */
static const char *next_item(const char *list, char item[ITEM_BYTES]) {
    size_t length = strcspn(list, ",");
    snprintf(item, ITEM_BYTES, "%.*s", (int)(length < ITEM_BYTES ? length : ITEM_BYTES), list);
    return list[length] == '\0' ? NULL : list + length + 1;
}

static bool twice(const char *option, const char *item, const char *thing, Problem *problem) {
    return problem_set(problem, STATUS_INVALID, "%s lists %s twice; list each %s once", option,
                       item, thing);
}

/* ---- names -------------------------------------------------------------------------------- */

bool take_name(Reading *reading, const char *text, Problem *problem) {
    if (!unit_check_name(text, "module name", problem))
        return false;
    snprintf(reading->request->unit.name, sizeof reading->request->unit.name, "%s", text);
    return true;
}

bool take_port(Reading *reading, const char *text, Problem *problem) {
    const char *equals = strchr(text, '=');
    if (equals == NULL || equals == text)
        return problem_set(problem, STATUS_INVALID,
                           "--port %s is not ROLE=NAME; write, for example, result=difference",
                           problem_quote(text).text);
    if (!unit_check_name(equals + 1, "pin name", problem))
        return false;
    if (reading->port_count == OPTIONS_PORTS_MAX)
        return problem_set(problem, STATUS_INVALID,
                           "--port is given more than %d times; a unit has fewer pins",
                           OPTIONS_PORTS_MAX);
    reading->port[reading->port_count++] = text;
    return true;
}

bool take_example(Reading *reading, const char *text, Problem *problem) {
    Request *request = reading->request;
    if (request->example_count == OPTIONS_EXAMPLES_MAX)
        return problem_set(problem, STATUS_INVALID,
                           "--example is given more than %d times; a page has room for that many",
                           OPTIONS_EXAMPLES_MAX);
    request->examples[request->example_count++] = text;
    return true;
}

/* NAME=VALUE: a Verilog name, and a number as Verilog writes it, for it goes into Verilog text. */
bool take_parameter(Reading *reading, const char *text, Problem *problem) {
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

bool check_plain_name(const char *option, const char *text, Problem *problem) {
    if (text[0] != '\0' && strchr(text, '/') == NULL)
        return true;
    return problem_set(problem, STATUS_INVALID,
                       "%s %s is no plain file name; it goes into the folder of --out, so write, "
                       "for example, coverage.json",
                       option, problem_quote(text).text);
}

/* A name that says another kind of picture would be wrong about its file. */
bool check_svg_name(const char *option, const char *text, Problem *problem) {
    static const char *const others[] = {"pdf", "png", "ps", "eps"};
    const char *end = strrchr(text, '.');
    for (size_t k = 0; end != NULL && k < sizeof others / sizeof others[0]; k++)
        if (strcmp(end + 1, others[k]) == 0)
            return problem_set(problem, STATUS_INVALID,
                               "%s draws SVG, and %s says %s; write FILE.svg and convert it: "
                               "rsvg-convert -f %s -o FILE.%s FILE.svg",
                               option, problem_quote(text).text, others[k], others[k], others[k]);
    return true;
}

/* ---- operations --------------------------------------------------------------------------- */

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
    int found = values_find(operation_values, OP_COUNT, text, name_length);
    if (found < 0) {
        char item[ITEM_BYTES], *known = values_text(operation_values, OP_COUNT, " or ");
        next_item(text, item);
        problem_set(problem, STATUS_INVALID, "--operations does not know %s; it knows %s",
                    problem_quote(item).text, known);
        memory_free(known);
        return false;
    }
    const char *name = operation_name((Operation)found);
    for (int k = 0; k < unit->choice_count; k++)
        if (unit->choice[k].operation == (Operation)found)
            return twice("--operations", name, "operation", problem);
    if (equals != NULL && !take_code(unit, name, equals + 1, length - name_length - 1, problem))
        return false;
    reading->operations_coded[unit->choice_count] = equals != NULL;
    unit->choice[unit->choice_count++].operation = (Operation)found;
    return true;
}

/* Where some operations carry a code, one without has its place in the list as its code. */
static void place_codes(const Reading *reading, Unit *unit) {
    for (int k = 0; k < unit->choice_count && unit->code_bits > 0; k++)
        if (!reading->operations_coded[k])
            unit->choice[k].code = (uint32_t)k;
}

bool take_operations(Reading *reading, const char *text, Problem *problem) {
    const char *item = text;
    for (;;) {
        size_t length = strcspn(item, ",");
        if (!take_operation(reading, item, length, problem))
            return false;
        if (item[length] == '\0')
            break;
        item += length + 1;
    }
    place_codes(reading, &reading->request->unit);
    return true;
}

/* ---- flags -------------------------------------------------------------------------------- */

bool take_flags(Reading *reading, const char *text, Problem *problem) {
    bool *flags = reading->request->unit.flag;
    reading->request->flags_given = true;
    reading->request->flags_all = strcmp(text, "all") == 0;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        flags[flag] = reading->request->flags_all;
    if (reading->request->flags_all || strcmp(text, "none") == 0)
        return true;
    char item[ITEM_BYTES];
    for (const char *list = text; list != NULL;) {
        list = next_item(list, item);
        int flag = values_find(flag_values, FLAG_COUNT, item, strlen(item));
        if (flag < 0) {
            char *known = values_text(flag_values, FLAG_COUNT, " or ");
            problem_set(problem, STATUS_INVALID,
                        "--flags does not know %s; it takes all, none, or a comma list of %s",
                        problem_quote(item).text, known);
            memory_free(known);
            return false;
        }
        if (flags[flag])
            return twice("--flags", item, "flag", problem);
        flags[flag] = true;
    }
    return true;
}

/* ---- structures and widths ---------------------------------------------------------------- */

/* A structure by its name, or NAME=N. */
static bool read_structure(const char *option, const char *text, StructureChoice *choice,
                           Problem *problem) {
    size_t length = strcspn(text, "=");
    for (int k = 0; k < STRUCTURE_COUNT; k++) {
        const StructureFacts *facts = structure_facts((Structure)k);
        bool numbered = text[length] == '=';
        if (strlen(facts->name) != length || strncmp(facts->name, text, length) != 0 ||
            (numbered && !facts->has_number))
            continue;
        if (facts->has_number && !numbered)
            return problem_set(problem, STATUS_INVALID,
                               "%s %s lacks its number; write, for example, %s=6", option,
                               facts->name, facts->name);
        char what[ITEM_BYTES];
        uint64_t number = 0;
        snprintf(what, sizeof what, "%s %s", option, facts->name);
        if (numbered && !number_take(what, text + length + 1, 1, UNIT_WIDTH_MAX, &number, problem))
            return false;
        *choice = (StructureChoice){(Structure)k, (unsigned)number};
        return true;
    }
    char *known = values_text(structure_values, STRUCTURE_COUNT, " or ");
    problem_set(problem, STATUS_INVALID, "%s cannot be %s; it is %s", option,
                problem_quote(text).text, known);
    memory_free(known);
    return false;
}

bool take_structure(Reading *reading, const char *text, Problem *problem) {
    StructureChoice choice = {STRUCTURE_RIPPLE, 0};
    if (!read_structure("--structure", text, &choice, problem))
        return false;
    reading->request->unit.structure = choice.structure;
    reading->request->unit.depth = choice.depth;
    return true;
}

bool take_structures(Reading *reading, const char *text, Problem *problem) {
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
                return twice("--structures", item, "structure", problem);
        if (request->structure_count == OPTIONS_STRUCTURES_MAX)
            return problem_set(problem, STATUS_INVALID,
                               "--structures lists more than %d; ask for them in parts",
                               OPTIONS_STRUCTURES_MAX);
        request->structures[request->structure_count++] = choice;
    }
    return true;
}

bool take_widths(Reading *reading, const char *text, Problem *problem) {
    Request *request = reading->request;
    char item[ITEM_BYTES];
    for (const char *list = text; list != NULL;) {
        list = next_item(list, item);
        uint64_t width = 0;
        if (!number_take("--widths", item, 1, UNIT_WIDTH_MAX, &width, problem))
            return false;
        for (int k = 0; k < request->width_count; k++)
            if (request->widths[k] == width)
                return twice("--widths", item, "width", problem);
        if (request->width_count == OPTIONS_WIDTHS_MAX)
            return problem_set(problem, STATUS_INVALID,
                               "--widths lists more than %d; ask for them in parts",
                               OPTIONS_WIDTHS_MAX);
        request->widths[request->width_count++] = (unsigned)width;
    }
    return true;
}
