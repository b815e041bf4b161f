/* See ports.h. */
#include "check/read/ports.h"

#include "base/memory.h"
#include "check/read/names_of_trade.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LIST_BYTES = 512 };

typedef struct {
    char text[LIST_BYTES];
    size_t used;
    int count;
} List;

/* Adds an item while there is room; a list that is cut ends in "...". */
static void add(List *list, const char *between, const char *item) {
    size_t length = strlen(between) + strlen(item);
    if (list->used + length + 8 > sizeof list->text) {
        if (list->count >= 0)
            memcpy(list->text + list->used, " ...", sizeof " ...");
        list->count = -1;
        return;
    }
    if (list->count < 0)
        return;
    list->used += (size_t)snprintf(list->text + list->used, sizeof list->text - list->used, "%s%s",
                                   list->count > 0 ? between : "", item);
    list->count++;
}

/* ---- the module ---------------------------------------------------------------------------- */

static int by_name(const void *one, const void *other) {
    const HeaderModule *const *left = one, *const *right = other;
    return strcmp((*left)->name, (*right)->name);
}

static int name_to_module(const void *key, const void *element) {
    const Token *name = key;
    const HeaderModule *const *module = element;
    int order = strncmp(name->text, (*module)->name, name->bytes);
    return order != 0 ? order : (*module)->name[name->bytes] == '\0' ? 0 : -1;
}

/* Marks the modules that others with ports use; a testbench, which has none, does not count. */
static void mark_used(const Headers *headers, bool *used) {
    size_t count = headers->module_count;
    const HeaderModule **sorted = memory_zeroed(count, sizeof *sorted);
    for (size_t k = 0; k < count; k++)
        sorted[k] = &headers->module[k];
    qsort(sorted, count, sizeof *sorted, by_name);
    for (size_t k = 0; k < count; k++) {
        const HeaderModule *module = &headers->module[k];
        for (size_t u = 0; module->port_count > 0 && u < module->used_count; u++) {
            const HeaderModule **found =
                bsearch(&module->used[u], sorted, count, sizeof *sorted, name_to_module);
            if (found != NULL && *found != module)
                used[*found - headers->module] = true;
        }
    }
    free(sorted);
}

static const HeaderModule *named_module(const Headers *headers, const char *wanted,
                                        Problem *problem) {
    List known = {"", 0, 0};
    for (size_t k = 0; k < headers->module_count; k++) {
        if (strcmp(headers->module[k].name, wanted) == 0)
            return &headers->module[k];
        add(&known, ", ", problem_quote(headers->module[k].name).text);
    }
    problem_set(problem, STATUS_UNTESTED, "there is no module %s; the modules are %s",
                problem_quote(wanted).text, known.count == 0 ? "none" : known.text);
    return NULL;
}

const HeaderModule *ports_module(const Headers *headers, const char *wanted, Problem *problem) {
    if (wanted != NULL)
        return named_module(headers, wanted, problem);
    bool *used = memory_zeroed(headers->module_count, sizeof *used);
    mark_used(headers, used);
    const HeaderModule *top = NULL;
    List tops = {"", 0, 0}, remedies = {"", 0, 0};
    int candidates = 0;
    char remedy[PROBLEM_QUOTE_BYTES + 16];
    for (size_t k = 0; k < headers->module_count; k++) {
        if (used[k] || headers->module[k].port_count == 0)
            continue;
        top = &headers->module[k];
        candidates++;
        add(&tops, " and ", problem_quote(top->name).text);
        snprintf(remedy, sizeof remedy, "--module %.*s", PROBLEM_QUOTE_BYTES, top->name);
        add(&remedies, " or ", remedy);
    }
    free(used);
    if (candidates == 1)
        return top;
    if (candidates > 1)
        problem_set(problem, STATUS_UNTESTED,
                    "%s could each be the unit, as no other module uses them; add %s", tops.text,
                    remedies.text);
    else if (headers->module_count == 0)
        problem_set(problem, STATUS_UNTESTED,
                    "there is no module in it; a design is a Verilog module");
    else
        problem_set(problem, STATUS_UNTESTED,
                    "none of its modules can be the unit; one with ports that no other uses is "
                    "wanted, or name it with --module");
    return NULL;
}

/* ---- which ports could be a pin ------------------------------------------------------------ */

typedef struct {
    const Unit *unit;
    const HeaderModule *module;
    ParameterSettings settings;
    Mapping *mapping;
    bool *taken; /* the ports that are somebody's */
} Work;

static const char *shown(Direction direction) {
    static const char *const words[] = {"never declared", "an input", "an output", "an inout"};
    return words[direction];
}

static bool direction_fits(Pin pin, const HeaderPort *port) {
    return port->direction == (pin_is_output(pin) ? DIRECTION_OUTPUT : DIRECTION_INPUT);
}

/* A width that is not known fits: the compiler will tell. */
static bool width_fits(const Work *work, Pin pin, const HeaderPort *port) {
    unsigned bits = header_port_bits(work->module, port, &work->settings);
    return bits == 0 || bits == unit_pin_bits(work->unit, pin);
}

static bool is_free(const Work *work, Pin pin, size_t k) {
    const HeaderPort *port = &work->module->port[k];
    return !work->taken[k] && direction_fits(pin, port) && width_fits(work, pin, port);
}

static void take(Work *work, Pin pin, size_t k) {
    work->mapping->port[pin] = &work->module->port[k];
    work->taken[k] = true;
}

static bool is_open(const Work *work, Pin pin) {
    return unit_has(work->unit, pin) && work->mapping->port[pin] == NULL;
}

/* Was the pin named with --port? */
static bool is_named(const Unit *unit, Pin pin) {
    return strcmp(unit->pin[pin], unit_role(unit, pin)) != 0;
}

typedef bool Fits(const Work *work, Pin pin, size_t k);

static bool has_own_name(const Work *work, Pin pin, size_t k) {
    return strcmp(work->module->port[k].name, work->unit->pin[pin]) == 0;
}

/* Names of operands and results are looked at before the width is known to be right, so that a
 * wrong width is told as such. */
static bool has_trade_name(const Work *work, Pin pin, size_t k) {
    const char *name = work->module->port[k].name;
    return trade_name_fits(pin, name) ||
           (pin == PIN_FLAG + FLAG_CARRY && trade_name_of_carry(work->unit->width, name));
}

static bool is_any(const Work *work, Pin pin, size_t k) {
    (void)work, (void)pin, (void)k;
    return true;
}

/* How many free ports could be the pin, and the last of them. */
static int candidates(const Work *work, Pin pin, Fits *fits, size_t *last) {
    int count = 0;
    for (size_t k = 0; k < work->module->port_count; k++)
        if (is_free(work, pin, k) && fits(work, pin, k)) {
            *last = k;
            count++;
        }
    return count;
}

/* Gives every pin that has one candidate that port, again and again: what is taken is no candidate
 * for others any more. */
static void settle_single(Work *work, Fits *fits) {
    for (bool more = true; more;) {
        more = false;
        for (int pin = 0; pin < PIN_COUNT; pin++) {
            size_t found = 0;
            if (is_open(work, (Pin)pin) && !is_named(work->unit, (Pin)pin) &&
                candidates(work, (Pin)pin, fits, &found) == 1) {
                take(work, (Pin)pin, found);
                more = true;
            }
        }
    }
}

/* Would more than this open pin take such a port? */
static bool is_wanted_twice(const Work *work, Pin pin, size_t k) {
    for (int other = 0; other < PIN_COUNT; other++)
        if (other != (int)pin && is_open(work, (Pin)other) && is_free(work, (Pin)other, k))
            return true;
    return false;
}

/* The only one left of its kind. A flag is never found in this way: the design may lack it and have
 * some other output. */
static void settle_by_elimination(Work *work) {
    for (int pin = 0; pin < PIN_FLAG; pin++) {
        size_t found = 0;
        bool clocking = pin == PIN_CLK || pin == PIN_RST || pin == PIN_EN;
        if (!clocking && is_open(work, (Pin)pin) &&
            candidates(work, (Pin)pin, is_any, &found) == 1 &&
            !is_wanted_twice(work, (Pin)pin, found))
            take(work, (Pin)pin, found);
    }
}

/* ---- what --port says ---------------------------------------------------------------------- */

static bool take_named(Work *work, Pin pin, Problem *problem) {
    const char *role = unit_role(work->unit, pin), *name = work->unit->pin[pin];
    for (size_t k = 0; k < work->module->port_count; k++) {
        const HeaderPort *port = &work->module->port[k];
        if (strcmp(port->name, name) != 0)
            continue;
        if (!direction_fits(pin, port))
            return problem_set(problem, STATUS_UNTESTED,
                               "--port %s=%s names a port that is %s; %s is %s", role,
                               problem_quote(name).text, shown(port->direction), role,
                               pin_is_output(pin) ? "an output" : "an input");
        take(work, pin, k);
        return true;
    }
    List known = {"", 0, 0};
    for (size_t k = 0; k < work->module->port_count; k++)
        add(&known, ", ", problem_quote(work->module->port[k].name).text);
    return problem_set(problem, STATUS_UNTESTED,
                       "module %s has no port %s, which --port %s names; its ports are %s",
                       problem_quote(work->module->name).text, problem_quote(name).text, role,
                       known.text);
}

/* ---- what is still open -------------------------------------------------------------------- */

static void add_option(List *options, const Work *work, Pin pin, const HeaderPort *port) {
    char option[PROBLEM_QUOTE_BYTES + 64];
    snprintf(option, sizeof option, "--port %s=%.*s", unit_role(work->unit, pin),
             PROBLEM_QUOTE_BYTES, port->name);
    add(options, " or ", option);
}

/* A port that would be this pin, were it not for its width or direction. */
static const HeaderPort *nearly(const Work *work, Pin pin) {
    for (size_t k = 0; k < work->module->port_count; k++)
        if (!work->taken[k] && (has_own_name(work, pin, k) || has_trade_name(work, pin, k)))
            return &work->module->port[k];
    return NULL;
}

static bool refuse_missing(const Work *work, Pin pin, Problem *problem) {
    const char *role = unit_role(work->unit, pin);
    const HeaderPort *port = nearly(work, pin);
    unsigned wanted = unit_pin_bits(work->unit, pin);
    if (port != NULL && direction_fits(pin, port) && !width_fits(work, pin, port))
        return problem_set(
            problem, STATUS_UNTESTED,
            "port %s has %u bit%s, and %s of the unit has %u; change one of them, "
            "--width or --parameter",
            problem_quote(port->name).text, header_port_bits(work->module, port, &work->settings),
            header_port_bits(work->module, port, &work->settings) == 1 ? "" : "s", role, wanted);
    if (port != NULL && !direction_fits(pin, port))
        return problem_set(problem, STATUS_UNTESTED, "port %s is %s, and %s of the unit is %s",
                           problem_quote(port->name).text, shown(port->direction), role,
                           pin_is_output(pin) ? "an output" : "an input");
    const char *way_out = pin == PIN_RST  ? "; say --reset none if it has no reset"
                          : pin == PIN_EN ? "; leave --enable out if it has none"
                                          : "; name the port with --port, or describe the unit as "
                                            "the design is";
    return problem_set(problem, STATUS_UNTESTED, "it has no port for %s (%s of %u bit%s)%s", role,
                       pin_is_output(pin) ? "an output" : "an input", wanted,
                       wanted == 1 ? "" : "s", way_out);
}

/* The candidates by name if there are any, else all that are left. */
static bool refuse_ambiguous(const Work *work, Pin pin, Problem *problem) {
    List options = {"", 0, 0};
    size_t last = 0;
    Fits *fits = candidates(work, pin, has_trade_name, &last) > 0 ? has_trade_name : is_any;
    for (size_t k = 0; k < work->module->port_count; k++)
        if (is_free(work, pin, k) && fits(work, pin, k))
            add_option(&options, work, pin, &work->module->port[k]);
    const char *remedy = pin >= PIN_FLAG ? ", or leave it out of --flags" : "";
    return problem_set(problem, STATUS_UNTESTED, "which port is %s cannot be told; add %s%s",
                       unit_role(work->unit, pin), options.text, remedy);
}

/* An output that could be a flag and is not known to be another one. */
static bool is_unknown_output(const Work *work, Pin pin, size_t k) {
    return has_trade_name(work, pin, k) || trade_flag(work->module->port[k].name) < 0;
}

static bool settle_open_pins(Work *work, Problem *problem) {
    for (int pin = 0; pin < PIN_FLAG; pin++) {
        size_t last = 0;
        if (!is_open(work, (Pin)pin))
            continue;
        if (candidates(work, (Pin)pin, is_any, &last) == 0)
            return refuse_missing(work, (Pin)pin, problem);
        return refuse_ambiguous(work, (Pin)pin, problem);
    }
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        Pin pin = (Pin)(PIN_FLAG + flag);
        size_t last = 0;
        if (!is_open(work, pin))
            continue;
        if (candidates(work, pin, is_unknown_output, &last) > 0)
            return refuse_ambiguous(work, pin, problem);
        work->mapping->lacks[flag] = true;
        const HeaderPort *port = nearly(work, pin);
        if (port != NULL && direction_fits(pin, port))
            work->mapping->wide[flag] = port;
    }
    return true;
}

/* How the unit comes by a pin that such an input could be. */
static const char *way_to_have(const Work *work, size_t k) {
    static const struct {
        Pin pin;
        const char *way;
    } ways[] = {
        {PIN_CLK, "if it is a clock, add --registers output, or --latency N"},
        {PIN_RST, "if it is a reset, add --reset sync or --reset async"},
        {PIN_EN, "if it is a clock enable, add --enable"},
        {PIN_CIN, "if it is a carry in, list adc or sbc in --operations"},
        {PIN_LINE, "if it chooses the operation, list two operations in --operations"},
        {PIN_B, "if it is an operand, list an operation that reads it in --operations"},
    };
    for (size_t w = 0; w < sizeof ways / sizeof ways[0]; w++)
        if (!unit_has(work->unit, ways[w].pin) && has_trade_name(work, ways[w].pin, k))
            return ways[w].way;
    return "describe the unit so that it has this pin, or take the port away";
}

static bool refuse_spare_inputs(const Work *work, Problem *problem) {
    for (size_t k = 0; k < work->module->port_count; k++) {
        const HeaderPort *port = &work->module->port[k];
        if (!work->taken[k] && port->direction != DIRECTION_OUTPUT)
            return problem_set(problem, STATUS_UNTESTED, "port %s, %s, is no pin of this unit; %s",
                               problem_quote(port->name).text, shown(port->direction),
                               way_to_have(work, k));
    }
    return true;
}

/* ---- a parameter for the width ------------------------------------------------------------- */

static const HeaderPort *operand_port(const Work *work) {
    for (size_t k = 0; k < work->module->port_count; k++) {
        const HeaderPort *port = &work->module->port[k];
        if (port->direction == DIRECTION_INPUT &&
            (has_own_name(work, PIN_A, k) || has_trade_name(work, PIN_A, k)) && port->range != NULL)
            return port;
    }
    return NULL;
}

/* If one parameter, set to the unit's width, makes operand a fit, it is the width. */
static void find_width_parameter(Work *work, ParameterSetting *room, const char *width) {
    const HeaderPort *port = operand_port(work);
    if (port == NULL)
        return;
    ParameterSettings given = work->settings;
    unsigned bits = header_port_bits(work->module, port, &given);
    if (bits == 0 || bits == work->unit->width)
        return;
    for (size_t k = 0; k < given.count; k++)
        room[k] = given.setting[k];
    for (size_t k = 0; k < work->module->parameter_count; k++) {
        const char *name = work->module->parameter[k].name;
        if (!header_range_names(port, name))
            continue;
        room[given.count] = (ParameterSetting){name, width};
        ParameterSettings tried = {room, given.count + 1};
        bool fresh = true;
        for (size_t g = 0; g < given.count; g++)
            fresh = fresh && strcmp(given.setting[g].name, name) != 0;
        if (fresh && header_port_bits(work->module, port, &tried) == work->unit->width) {
            work->settings = tried;
            work->mapping->parameter = name;
            return;
        }
    }
}

static bool has_parameter(const HeaderModule *module, const char *name) {
    for (size_t k = 0; k < module->parameter_count; k++)
        if (strcmp(module->parameter[k].name, name) == 0)
            return true;
    return false;
}

/* Has the module the parameters that are set? */
static bool check_settings(const HeaderModule *module, const ParameterSettings *settings,
                           Problem *problem) {
    for (size_t k = 0; k < settings->count; k++) {
        const char *name = settings->setting[k].name;
        List known = {"", 0, 0};
        if (has_parameter(module, name))
            continue;
        for (size_t p = 0; p < module->parameter_count; p++)
            add(&known, ", ", problem_quote(module->parameter[p].name).text);
        return problem_set(problem, STATUS_UNTESTED,
                           "module %s has no parameter %s, which --parameter sets; its parameters "
                           "are %s",
                           problem_quote(module->name).text, problem_quote(name).text,
                           known.count == 0 ? "none" : known.text);
    }
    return true;
}

bool ports_map(const Unit *unit, const HeaderModule *module, const ParameterSettings *settings,
               Mapping *mapping, Problem *problem) {
    *mapping = (Mapping){.module = module};
    if (!check_settings(module, settings, problem))
        return false;
    Work work = {unit, module, *settings, mapping, NULL};
    char width[16];
    snprintf(width, sizeof width, "%u", unit->width);
    ParameterSetting *room = memory_zeroed(settings->count + 1, sizeof *room);
    work.taken = memory_zeroed(module->port_count, sizeof *work.taken);
    find_width_parameter(&work, room, width);
    bool good = true;
    for (int pin = 0; pin < PIN_COUNT && good; pin++)
        if (unit_has(unit, (Pin)pin) && is_named(unit, (Pin)pin))
            good = take_named(&work, (Pin)pin, problem);
    settle_single(&work, has_own_name);
    settle_single(&work, has_trade_name);
    settle_by_elimination(&work);
    good = good && settle_open_pins(&work, problem) && refuse_spare_inputs(&work, problem);
    free(work.taken);
    free(room);
    return good;
}

bool ports_says_low(const char *name) {
    size_t length = strlen(name);
    if (length > 2 && name[length - 2] == '_' && strchr("nNbBlL", name[length - 1]) != NULL)
        return true;
    static const char *const plain[] = {"rstn",   "resetn", "nrst",    "nreset", "rstb",
                                        "resetb", "arstn",  "aresetn", "clrn",   "nclr"};
    for (size_t k = 0; k < sizeof plain / sizeof plain[0]; k++)
        if (strcmp(name, plain[k]) == 0)
            return true;
    return false;
}
