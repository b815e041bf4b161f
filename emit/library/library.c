/* See sumwright.h: a thin layer on the rooms that the commands use too. Each call that can fail does
 * its work inside memory_try(), with a pool of its own: that of the unit or circuit that it makes,
 * or one that is emptied when the text is there. */
#include "library/sumwright.h"

#include "base/memory.h"
#include "draw/draw.h"
#include "gates/build.h"
#include "gates/netlist/cost.h"
#include "options/table.h"
#include "verilog/testbench.h"
#include "verilog/vector_file.h"
#include "verilog/verilog.h"
#include "work/asked.h"
#include "work/sheet.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

_Static_assert(SUMWRIGHT_CONSTANT == (int)NODE_CONSTANT && SUMWRIGHT_INPUT == (int)NODE_INPUT &&
                   SUMWRIGHT_AND == (int)NODE_AND && SUMWRIGHT_OR == (int)NODE_OR &&
                   SUMWRIGHT_XOR == (int)NODE_XOR && SUMWRIGHT_NAND == (int)NODE_NAND &&
                   SUMWRIGHT_NOR == (int)NODE_NOR && SUMWRIGHT_XNOR == (int)NODE_XNOR,
               "the header's kinds are the netlist's");

struct sumwright_unit {
    MemoryPool pool;
    Request *request;
    char *command; /* that asks for it, for the headers of files; from malloc */
};

struct sumwright_circuit {
    MemoryPool pool;
    const sumwright_unit *unit;
    Netlist netlist;
    Cost cost;
};

/* What a call is given, and what went wrong in it. */
typedef struct {
    const sumwright_field *fields; /* or */
    const char *const *options;
    size_t count;
    sumwright_unit *made;
    sumwright_circuit *circuit;
    const sumwright_unit *unit;
    const sumwright_example *example;
    bool more; /* the steps, or the gates */
    FILE *out;
    Problem problem;
} Call;

const char *sumwright_version(void) {
    return SUMWRIGHT_VERSION;
}

/* ---- the end of a call --------------------------------------------------------------------- */

/* The message in the words of the caller: for one who gave no options, without their dashes. */
static void say(sumwright_error *error, const char *text, bool with_dashes) {
    size_t used = 0;
    for (const char *c = text; *c != '\0' && used + 1 < sizeof error->message; c++) {
        bool dashes = c[0] == '-' && c[1] == '-' && c[2] >= 'a' && c[2] <= 'z';
        if (dashes && !with_dashes)
            c++;
        else
            error->message[used++] = *c;
    }
    error->message[used] = '\0';
}

/* complete: memory did not run out. */
static sumwright_status ended(const Call *call, bool complete, sumwright_error *error) {
    sumwright_error nowhere;
    error = error == NULL ? &nowhere : error;
    if (!complete) {
        say(error, "out of memory; a narrower unit or fewer vectors need less", false);
        return SUMWRIGHT_NO_MEMORY;
    }
    say(error, call->problem.text, call->options != NULL);
    return call->problem.status == STATUS_DONE ? SUMWRIGHT_DONE : SUMWRIGHT_INVALID;
}

/* The text that work writes into call->out. */
static sumwright_status text_of(Call *call, void (*work)(void *call), char **text,
                                sumwright_error *error) {
    MemoryPool pool = {NULL};
    char *written = NULL;
    size_t bytes = 0;
    *text = NULL;
    call->out = open_memstream(&written, &bytes);
    if (call->out == NULL)
        return ended(call, false, error);
    bool complete = memory_try(&pool, work, call) && !ferror(call->out);
    memory_empty(&pool);
    complete = fclose(call->out) == 0 && complete;
    sumwright_status status = ended(call, complete, error);
    if (status == SUMWRIGHT_DONE)
        *text = written;
    else
        free(written);
    return status;
}

void sumwright_free(char *text) {
    free(text);
}

/* ---- units --------------------------------------------------------------------------------- */

/* The option that a field is, or NULL: of those of `emit`, what is neither about files nor without
 * effect on what they hold. */
static const Option *field_option(const char *name) {
    for (const Option *option = options_table; option < options_table + options_count; option++)
        if (strcmp(option->name, name) == 0 && option_is_for(option, COMMAND_EMIT) &&
            option->spelled != SPELLED_NEVER && option->kind != OPTION_TEXT)
            return option;
    return NULL;
}

static char *option_of(const sumwright_field *field, Problem *problem) {
    const Option *option = field_option(field->name);
    if (option == NULL)
        problem_set(problem, STATUS_INVALID,
                    "there is no field %s; fields are properties of a unit, such as width",
                    problem_quote(field->name).text);
    else if (option->argument != NULL && field->value == NULL)
        problem_set(problem, STATUS_INVALID, "field %s lacks its value; give %s", field->name,
                    option->argument);
    return field->value == NULL ? memory_text("--%s", field->name)
                                : memory_text("--%s=%s", field->name, field->value);
}

static void read_unit(void *context) {
    Call *call = context;
    Request *request = memory_zeroed(1, sizeof *request);
    char **arguments = memory_zeroed(call->count + 2, sizeof *arguments);
    arguments[0] = memory_text("emit");
    for (size_t k = 0; k < call->count; k++)
        arguments[k + 1] = call->fields != NULL ? option_of(&call->fields[k], &call->problem)
                                                : memory_text("%s", call->options[k]);
    call->made->request = request;
    if (call->problem.status == STATUS_DONE &&
        options_parse(COMMAND_EMIT, (int)call->count + 1, arguments, request, &call->problem) &&
        (request->help || request->templates != NULL || request->coverage != NULL))
        problem_set(&call->problem, STATUS_INVALID,
                    "--help, --templates and --coverage are the program's; leave them out");
}

static void spell(void *context) {
    const Call *call = context;
    options_spell(call->unit->request, call->out);
}

static sumwright_status make_unit(Call *call, sumwright_unit **unit, sumwright_error *error) {
    *unit = NULL;
    assert(call->count < 100000);
    call->made = calloc(1, sizeof *call->made);
    if (call->made == NULL)
        return ended(call, false, error);
    call->unit = call->made;
    bool complete = memory_try(&call->made->pool, read_unit, call);
    sumwright_status status = ended(call, complete, error);
    if (status == SUMWRIGHT_DONE)
        status = text_of(call, spell, &call->made->command, error);
    if (status == SUMWRIGHT_DONE)
        *unit = call->made;
    else
        sumwright_unit_free(call->made);
    return status;
}

sumwright_status sumwright_unit_from_fields(const sumwright_field *fields, size_t count,
                                            sumwright_unit **unit, sumwright_error *error) {
    static const sumwright_field none[1];
    Call call = {.fields = count == 0 ? none : fields, .count = count};
    return make_unit(&call, unit, error);
}

sumwright_status sumwright_unit_from_options(const char *const *options, size_t count,
                                             sumwright_unit **unit, sumwright_error *error) {
    static const char *const none[1];
    Call call = {.options = count == 0 ? none : options, .count = count};
    return make_unit(&call, unit, error);
}

void sumwright_unit_free(sumwright_unit *unit) {
    if (unit == NULL)
        return;
    memory_empty(&unit->pool);
    free(unit->command);
    free(unit);
}

const char *sumwright_unit_name(const sumwright_unit *unit) {
    return unit->request->unit.name;
}

unsigned sumwright_unit_width(const sumwright_unit *unit) {
    return unit->request->unit.width;
}

/* ---- gates --------------------------------------------------------------------------------- */

static void build(void *context) {
    const Call *call = context;
    build_netlist(&call->unit->request->unit, &call->circuit->netlist);
    call->circuit->cost = cost_count(&call->circuit->netlist);
}

sumwright_status sumwright_circuit_make(const sumwright_unit *unit, sumwright_circuit **circuit,
                                        sumwright_error *error) {
    Call call = {.unit = unit, .circuit = calloc(1, sizeof **circuit)};
    bool complete = call.circuit != NULL;
    if (complete) {
        call.circuit->unit = unit;
        complete = memory_try(&call.circuit->pool, build, &call);
    }
    *circuit = complete ? call.circuit : NULL;
    if (!complete)
        free(call.circuit);
    return ended(&call, complete, error);
}

void sumwright_circuit_free(sumwright_circuit *circuit) {
    if (circuit == NULL)
        return;
    memory_empty(&circuit->pool);
    free(circuit);
}

static const char *pin_name(const sumwright_circuit *circuit, Pin pin) {
    return circuit->unit->request->unit.pin[pin];
}

size_t sumwright_node_count(const sumwright_circuit *circuit) {
    return circuit->netlist.node_count;
}

sumwright_node sumwright_node_at(const sumwright_circuit *circuit, size_t number) {
    assert(number < circuit->netlist.node_count);
    const Node *node = &circuit->netlist.nodes[number];
    sumwright_node shown = {.kind = (sumwright_kind)node->kind, .index = -1};
    if (node->kind == NODE_INPUT) {
        shown.name = pin_name(circuit, node->pin);
        shown.index = (int)node->bit;
    } else if (netlist_is_gate(node)) {
        memcpy(shown.input, node->in, sizeof shown.input);
        shown.name = node->help == HELP_NONE ? role_text(node->role) : NULL;
        shown.index = shown.name == NULL ? -1 : node->index;
        shown.complement = shown.name != NULL && node->complement;
    }
    return shown;
}

size_t sumwright_output_count(const sumwright_circuit *circuit) {
    return circuit->netlist.output_count;
}

sumwright_output sumwright_output_at(const sumwright_circuit *circuit, size_t number) {
    assert(number < circuit->netlist.output_count);
    const Output *output = &circuit->netlist.outputs[number];
    return (sumwright_output){pin_name(circuit, output->pin), output->bit, output->literal};
}

sumwright_cost sumwright_circuit_cost(const sumwright_circuit *circuit) {
    const Cost *cost = &circuit->cost;
    return (sumwright_cost){cost->gates, cost->levels, cost->inverters, cost->fan_out,
                            cost->transistors};
}

/* ---- the files ----------------------------------------------------------------------------- */

static const Templates built_in = {NULL};

static VectorPlan plan_of(const sumwright_unit *unit) {
    return (VectorPlan){.random = unit->request->random, .seed = unit->request->seed};
}

static void write_verilog(void *context) {
    Call *call = context;
    verilog_write(&call->unit->request->unit, &call->circuit->netlist, call->unit->command,
                  &built_in, call->out, &call->problem);
}

static void write_testbench(void *context) {
    Call *call = context;
    const Unit *unit = &call->unit->request->unit;
    VectorPlan plan = plan_of(call->unit);
    VectorCount count;
    vectors_count(unit, &plan, &count);
    testbench_write(unit, &plan, count.total, call->unit->command, &built_in, call->out,
                    &call->problem);
}

static bool cover(void *coverage, const Vector *vector) {
    coverage_add(coverage, vector);
    return true;
}

static void write_vectors(void *context) {
    Call *call = context;
    const Unit *unit = &call->unit->request->unit;
    VectorPlan plan = plan_of(call->unit);
    VectorCount count;
    vectors_count(unit, &plan, &count);
    Coverage *coverage = coverage_new(unit);
    vectors_each(unit, &plan, cover, coverage);
    vector_file_write(unit, &plan, &count, coverage, call->unit->command, &built_in, call->out,
                      &call->problem);
}

sumwright_status sumwright_verilog(const sumwright_circuit *circuit, char **text,
                                   sumwright_error *error) {
    sumwright_circuit *read_only = (sumwright_circuit *)circuit;
    Call call = {.unit = circuit->unit, .circuit = read_only};
    return text_of(&call, write_verilog, text, error);
}

sumwright_status sumwright_testbench(const sumwright_unit *unit, char **text,
                                     sumwright_error *error) {
    Call call = {.unit = unit};
    return text_of(&call, write_testbench, text, error);
}

sumwright_status sumwright_vectors(const sumwright_unit *unit, char **text,
                                   sumwright_error *error) {
    Call call = {.unit = unit};
    return text_of(&call, write_vectors, text, error);
}

/* ---- examples and drawings ----------------------------------------------------------------- */

/* The example worked out, or NULL after a problem. */
static Working *work_out(Call *call) {
    const sumwright_example *example = call->example;
    const Unit *unit = &call->unit->request->unit;
    const char *operand[] = {example->a, example->b};
    int count = example->a == NULL ? 0 : example->b == NULL ? 1 : 2, choice = 0;
    Working *working = memory_zeroed(1, sizeof *working);
    bool good = example->operation == NULL ||
                options_find_operation(unit, example->operation, "operation cannot be", &choice,
                                       &call->problem);
    good = good && work_asked(unit, choice, operand, count, example->cin, working, &call->problem);
    return good ? working : NULL;
}

static void write_work(void *context) {
    Call *call = context;
    const Working *working = work_out(call);
    if (working == NULL)
        return;
    Terminal plain = {.out = call->out, .columns = TERMINAL_COLUMNS};
    Story story;
    story_tell(working, &story);
    sheet_write(working, &story, call->more, &plain);
}

static void write_drawing(void *context) {
    Call *call = context;
    const Working *working = call->example == NULL ? NULL : work_out(call);
    if (call->problem.status != STATUS_DONE)
        return;
    Scene scene;
    scene_init(&scene, SYMBOLS_DISTINCTIVE);
    draw_unit(&call->unit->request->unit, working, call->more, &scene);
    scene_write(&scene, call->out);
}

sumwright_status sumwright_work(const sumwright_unit *unit, const sumwright_example *example,
                                int steps, char **text, sumwright_error *error) {
    Call call = {.unit = unit, .example = example, .more = steps != 0};
    return text_of(&call, write_work, text, error);
}

sumwright_status sumwright_drawing(const sumwright_unit *unit, const sumwright_example *example,
                                   int gates, char **text, sumwright_error *error) {
    Call call = {.unit = unit, .example = example, .more = gates != 0};
    return text_of(&call, write_drawing, text, error);
}
