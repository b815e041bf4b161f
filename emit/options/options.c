/* See options.h: reads a command line by the table, and settles what has been read. */
#include "options/table.h"

#include "base/memory.h"

#include <assert.h>
#include <limits.h>
#include <string.h>

/* ---- one option --------------------------------------------------------------------------- */

/* Puts a number into the option's field, whichever of the types of Request it has. */
static void store(const Option *option, Request *request, uint64_t number) {
    char *field = (char *)request + option->offset;
    bool truth = number != 0;
    unsigned word = (unsigned)number;
    assert(option->size == sizeof truth || option->size == sizeof word ||
           option->size == sizeof number);
    assert(option->size != sizeof word || number <= UINT_MAX);
    if (option->size == sizeof truth)
        memcpy(field, &truth, sizeof truth);
    else if (option->size == sizeof word)
        memcpy(field, &word, sizeof word);
    else
        memcpy(field, &number, sizeof number);
}

static bool take_choice(const Option *option, const char *name, const char *text, Request *request,
                        Problem *problem) {
    assert(text != NULL);
    int found = values_find(option->values, option->value_count, text, strlen(text));
    if (found >= 0) {
        store(option, request, (uint64_t)found);
        return true;
    }
    char *known = values_text(option->values, option->value_count, " or ");
    problem_set(problem, STATUS_INVALID, "%s cannot be %s; it is %s", name,
                problem_quote(text).text, known);
    memory_free(known);
    return false;
}

static bool takes(const Option *option, const char *argument) {
    return option->argument != NULL && strcmp(option->argument, argument) == 0;
}

static bool take_text(const Option *option, const char *name, const char *text, Request *request,
                      Problem *problem) {
    assert(text != NULL);
    if (option->check != NULL && !option->check(name, text, problem))
        return false;
    if (text[0] == '\0') {
        bool folder = takes(option, "DIR"), file = takes(option, "FILE");
        return problem_set(problem, STATUS_INVALID, "%s is empty; %s%s", name,
                           folder ? "name a folder, . is this one"
                           : file ? "name a file"
                                  : "write ",
                           folder || file ? "" : option->argument);
    }
    memcpy((char *)request + option->offset, &text, sizeof text);
    return true;
}

static bool take(const Option *option, const char *text, Reading *reading, Problem *problem) {
    char name[32];
    uint64_t number = 0;
    snprintf(name, sizeof name, "--%s", option->name);
    switch (option->kind) {
    case OPTION_SWITCH:
        store(option, reading->request, true);
        return true;
    case OPTION_CHOICE:
        return take_choice(option, name, text, reading->request, problem);
    case OPTION_NUMBER:
        if (!number_take(name, text, option->least, option->most, &number, problem))
            return false;
        store(option, reading->request, number);
        return true;
    case OPTION_TEXT:
        return take_text(option, name, text, reading->request, problem);
    case OPTION_TAKEN:
        return option->take(reading, text, problem);
    }
    return false;
}

/* ---- the command line --------------------------------------------------------------------- */

/* The option of the command with this name, or the only one whose name begins so; or NULL. */
static const Option *find_option(Command command, const char *name, size_t length) {
    const Option *found = NULL;
    int count = 0;
    for (const Option *option = options_table; option < options_table + options_count; option++) {
        if (!option_is_for(option, command) || strncmp(option->name, name, length) != 0)
            continue;
        if (option->name[length] == '\0')
            return option;
        found = option;
        count++;
    }
    return length > 0 && count == 1 ? found : NULL;
}

/* Takes argv[*at], an option, and its value if that is an argument of its own; *at is then the last
 * argument read. */
static bool read_option(Command command, char **argv, int *at, Reading *reading, Problem *problem) {
    const char *argument = argv[*at], *name = argument + 2, *command_is = command_name(command);
    size_t length = strcspn(name, "=");
    const char *value = name[length] == '=' ? name + length + 1 : NULL;
    const Option *option = argument[1] == '-' ? find_option(command, name, length) : NULL;
    if (option == NULL)
        return problem_set(problem, STATUS_INVALID,
                           "option %s is not one of %s, or not complete; see sumwright %s --help",
                           problem_quote(argument).text, command_is, command_is);
    if (option->argument == NULL && value != NULL)
        return problem_set(problem, STATUS_INVALID,
                           "--%s takes no value; leave = and what follows out, see sumwright %s "
                           "--help",
                           option->name, command_is);
    if (option->argument == NULL)
        value = "";
    if (value == NULL && (value = argv[++*at]) == NULL)
        return problem_set(problem, STATUS_INVALID,
                           "option %s lacks its value; see sumwright %s --help",
                           problem_quote(argument).text, command_is);
    if (reading->given[option - options_table] && !option->repeatable)
        return problem_set(problem, STATUS_INVALID, "--%s is given twice; give it once",
                           option->name);
    reading->given[option - options_table] = true;
    return take(option, value, reading, problem);
}

/* -5 is a number, not an option, and so is a - alone. */
static bool is_option(const char *argument) {
    return argument[0] == '-' && argument[1] != '\0' && !(argument[1] >= '0' && argument[1] <= '9');
}

static bool read_arguments(Command command, int argc, char **argv, Reading *reading,
                           Problem *problem) {
    Request *request = reading->request;
    bool options_end = false;
    for (int k = 1; k < argc; k++) {
        if (options_end || !is_option(argv[k]))
            request->operands[request->operand_count++] = argv[k];
        else if (strcmp(argv[k], "--") == 0)
            options_end = true;
        else if (!read_option(command, argv, &k, reading, problem))
            return false;
        if (request->help)
            return true;
    }
    return true;
}

/* ---- when everything has been read -------------------------------------------------------- */

bool options_reword(Problem *problem) {
    char text[PROBLEM_TEXT_BYTES];
    size_t used = 0;
    bool opens = true;
    for (const char *c = problem->text; *c != '\0' && used + 3 < sizeof text; c++) {
        if (*c != '`') {
            text[used++] = *c;
            continue;
        }
        for (int dash = 0; dash < 2 && opens; dash++)
            text[used++] = '-';
        opens = !opens;
    }
    text[used] = '\0';
    memcpy(problem->text, text, used + 1);
    return false;
}

static bool is_given(const Reading *reading, const char *name) {
    for (int k = 0; k < options_count; k++)
        if (reading->given[k] && strcmp(options_table[k].name, name) == 0)
            return true;
    return false;
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

bool options_find_operation(const Unit *unit, const char *text, const char *what, int *choice,
                            Problem *problem) {
    Value names[OP_COUNT];
    for (int k = 0; k < unit->choice_count; k++)
        names[k] = (Value){operation_name(unit->choice[k].operation), NULL};
    int found = values_find(names, unit->choice_count, text, strlen(text));
    if (found >= 0) {
        *choice = found;
        return true;
    }
    char *known = values_text(names, unit->choice_count, " or ");
    problem_set(problem, STATUS_INVALID, "%s %s; this unit does %s, see --operations", what,
                problem_quote(text).text, known);
    memory_free(known);
    return false;
}

/* A survey without lists is of the one unit that --width and --structure describe; with lists,
 * the unit itself is the first of them. */
static void settle_lists(const Reading *reading, Unit *unit) {
    Request *request = reading->request;
    if (request->width_count == 0 && unit->width != 0)
        request->widths[request->width_count++] = unit->width;
    if (request->width_count > 0)
        unit->width = request->widths[0];
    if (request->structure_count == 0 && is_given(reading, "structure"))
        request->structures[request->structure_count++] =
            (StructureChoice){unit->structure, unit->depth};
}

static bool settle(Reading *reading, Problem *problem) {
    Request *request = reading->request;
    Unit *unit = &request->unit;
    settle_latency(reading, unit);
    settle_lists(reading, unit);
    request->detail_given = is_given(reading, "detail");
    if (request->flags_all && unit->width != 0 && unit->width < 4)
        unit->flag[FLAG_HALF_CARRY] = false;
    if (!unit_settle_shape(unit, problem))
        return options_reword(problem);
    if (!is_given(reading, "latency"))
        request->latency = unit_latency(unit);
    if (!place_ports(reading, unit, problem))
        return false;
    if (!unit_settle_pins(unit, problem))
        return options_reword(problem);
    return request->operation == NULL ||
           options_find_operation(unit, request->operation, "--operation cannot be",
                                  &request->choice, problem);
}

void options_init(Request *request) {
    *request = (Request){.out = ".",
                         .random = OPTIONS_RANDOM_DEFAULT,
                         .seed = OPTIONS_SEED_DEFAULT,
                         .count = OPTIONS_EXERCISES_DEFAULT,
                         .leave = LEAVE_ALL,
                         .cin = OPTIONS_CIN_UNSET};
    unit_init(&request->unit);
}

bool options_parse(Command command, int argc, char **argv, Request *request, Problem *problem) {
    options_init(request);
    request->operands = argv + 1;
    Reading reading = {.request = request,
                       .given = memory_zeroed((size_t)options_count, sizeof *reading.given)};
    bool good = read_arguments(command, argc, argv, &reading, problem);
    if (good && !request->help) {
        const char *name = command_name(command);
        if (request->operand_count > 0 && command_operands(command) == NULL)
            good = problem_set(problem, STATUS_INVALID,
                               "%s takes no %s; options begin with --, see sumwright %s --help",
                               name, problem_quote(request->operands[0]).text, name);
        else
            good = settle(&reading, problem);
    }
    memory_free(reading.given);
    return good;
}
