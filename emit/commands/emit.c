/* sumwright emit: options in; NAME.v, NAME_tb.v and NAME.vec out, all or none. */
#include "commands/commands.h"

#include "base/memory.h"
#include "commands/grade.h"
#include "gates/build.h"
#include "gates/netlist/cost.h"
#include "proof/say.h"
#include "vectors/vectors.h"
#include "verilog/testbench.h"
#include "verilog/vector_file.h"
#include "verilog/verilog.h"
#include "write/coverage_json.h"
#include "write/files.h"

#include <stdio.h>
#include <stdlib.h>

/* Everything about one run. */
typedef struct {
    const Request *request;
    VectorPlan plan;
    VectorCount count;
    Netlist netlist;
    Proof proof;  /* of the netlist; none for operators */
    Grade *grade; /* while the vectors are measured; NULL: the circuit is too large */
    bool graded;
    FaultCount faults;
    Coverage *coverage;
    /* Counted before the files stand, as counting may fail for want of memory. */
    Cost cost;
    CoverageCount covered;
    char *command; /* the line that repeats it */
} Emit;

static bool spell_command(Emit *emit, Problem *problem) {
    size_t bytes = 0;
    FILE *stream = open_memstream(&emit->command, &bytes);
    if (stream != NULL)
        options_spell(emit->request, stream);
    if (stream == NULL || fclose(stream) != 0)
        return problem_set(problem, STATUS_SURROUNDINGS, "out of memory; close other programs");
    return true;
}

/* ---- the circuit, before anything is written ------------------------------------------------- */

static bool prove_circuit(Emit *emit, Problem *problem) {
    const Unit *unit = &emit->request->unit;
    if (unit->detail == DETAIL_OPERATORS)
        return true;
    prove(unit, &emit->netlist, prove_limits, &emit->proof);
    return emit->proof.state != PROOF_DIFFERENT ||
           say_difference(unit, &emit->netlist, &emit->proof, problem);
}

/* ---- the vectors, before they are written --------------------------------------------------- */

static bool measure_vector(void *context, const Vector *vector) {
    Emit *emit = context;
    if (emit->graded)
        grade_vector(emit->grade, vector);
    coverage_add(emit->coverage, vector);
    return true;
}

static void measure(Emit *emit) {
    const Unit *unit = &emit->request->unit;
    vectors_count(unit, &emit->plan, &emit->count);
    emit->cost = cost_count(&emit->netlist);
    emit->graded = emit->cost.gates <= GRADE_GATES_MAX;
    if (emit->graded)
        emit->grade = grade_new(unit, &emit->netlist, emit->count.total);
    emit->coverage = coverage_new(unit);
    vectors_each(unit, &emit->plan, measure_vector, emit);
    emit->covered = coverage_count(emit->coverage);
    if (emit->graded)
        emit->faults = grade_finish(emit->grade, emit->count.exhaustive);
}

/* ---- the files ------------------------------------------------------------------------------ */

static FILE *add_file(Files *files, const Unit *unit, const char *ending, Problem *problem) {
    char name[UNIT_NAME_MAX + 8];
    snprintf(name, sizeof name, "%s%s", unit->name, ending);
    return files_add(files, name, problem);
}

static bool write_files(Emit *emit, Files *files, Problem *problem) {
    const Unit *unit = &emit->request->unit;
    Templates templates = {.folder = emit->request->templates};
    FILE *out = add_file(files, unit, ".v", problem);
    if (out == NULL ||
        !verilog_write(unit, &emit->netlist, emit->command, &templates, out, problem))
        return false;
    out = add_file(files, unit, "_tb.v", problem);
    if (out == NULL || !testbench_write(unit, &emit->plan, emit->count.total, emit->command,
                                        &templates, out, problem))
        return false;
    out = add_file(files, unit, ".vec", problem);
    if (out == NULL || !vector_file_write(unit, &emit->plan, &emit->count, emit->coverage,
                                          emit->command, &templates, out, problem))
        return false;
    if (emit->request->coverage == NULL)
        return true;
    out = files_add(files, emit->request->coverage, problem);
    if (out != NULL)
        coverage_json(emit->coverage, &emit->count, emit->graded ? &emit->faults : NULL, out);
    return out != NULL;
}

/* ---- what is printed ---------------------------------------------------------------------- */

static void print_vectors(const Emit *emit) {
    const VectorCount *count = &emit->count;
    printf("vectors  %llu", (unsigned long long)count->total);
    if (count->exhaustive) {
        puts(": every input there is");
        return;
    }
    const char *between = ": ";
    for (int reason = 0; reason < VECTOR_REASON_COUNT; reason++) {
        if (count->by_reason[reason] == 0)
            continue;
        printf("%s%llu %s", between, (unsigned long long)count->by_reason[reason],
               vector_reason_name((VectorReason)reason));
        between = ", ";
    }
    puts(count->by_reason[VECTOR_RANDOM] > 0
             ? ""
             : "; none at random: mistakes that only rare operands show may pass");
}

/* What the vectors make the unit do, of all that some input makes it do. */
static void print_coverage(const Emit *emit) {
    CoverageSum seen = emit->covered.seen, possible = emit->covered.possible;
    printf("coverage %llu/%llu operations, %llu/%llu flag levels, %llu/%llu column events, carries "
           "through %u/%u columns\n",
           (unsigned long long)seen.operations, (unsigned long long)possible.operations,
           (unsigned long long)seen.flags, (unsigned long long)possible.flags,
           (unsigned long long)seen.columns, (unsigned long long)possible.columns, seen.longest,
           possible.longest);
}

static void print_some(uint32_t count, const char *what) {
    if (count > 0)
        printf(", %u %s", count, what);
}

static void print_circuit(const Emit *emit) {
    if (emit->request->unit.detail == DETAIL_OPERATORS) {
        puts("circuit  as the synthesizer makes it");
        return;
    }
    Cost cost = emit->cost;
    printf("circuit  %u two-input gates, %u levels, largest fan-out %u", cost.gates, cost.levels,
           cost.fan_out);
    print_some(cost.inverters, "inverters");
    putchar('\n');
    if (cost.gates == 0)
        return;
    fputs("        ", stdout);
    const char *between = " ";
    for (int kind = NODE_AND; kind < NODE_KIND_COUNT; kind++) {
        if (cost.by_kind[kind] == 0)
            continue;
        printf("%s%u %s", between, cost.by_kind[kind], cost_kind_name((NodeKind)kind));
        between = ", ";
    }
    printf("; about %llu transistors\n", (unsigned long long)cost.transistors);
}

/* How many of the circuit's single stuck-at faults the vectors catch. */
static void print_faults(const Emit *emit) {
    const Unit *unit = &emit->request->unit;
    const FaultCount *faults = &emit->faults;
    uint32_t caught = faults->by_state[FAULT_CAUGHT];
    if (!emit->graded) {
        printf("faults   not graded: the circuit has more than %d gates\n", GRADE_GATES_MAX);
        return;
    }
    printf("faults   %u single stuck-at", faults->total);
    if (unit->detail == DETAIL_OPERATORS)
        printf(" if made as %s gates", structure_name(unit->structure));
    if (caught == faults->total)
        printf(", all caught");
    else
        printf(", %u caught", caught);
    printf(" by the first %llu vectors", (unsigned long long)faults->first);
    print_some(faults->by_state[FAULT_HIDDEN], "cannot show");
    print_some(faults->by_state[FAULT_MISSED], "missed");
    print_some(faults->by_state[FAULT_UNDECIDED], "not shown detectable");
    putchar('\n');
}

/* What is proved of the circuit, whatever its inputs. */
static void print_proof(const Emit *emit) {
    fputs("proof    ", stdout);
    if (emit->request->unit.detail == DETAIL_OPERATORS)
        fputs("none: the synthesizer makes the circuit", stdout);
    else
        say_proof(&emit->request->unit, &emit->netlist, &emit->proof, stdout);
    putchar('\n');
}

static void print_report(const Emit *emit) {
    const char *folder = emit->request->out, *name = emit->request->unit.name;
    bool here = folder[0] == '.' && folder[1] == '\0';
    const char *before = here ? "" : folder, *slash = here ? "" : "/";
    printf("unit     %s%s%s.v\n", before, slash, name);
    printf("bench    %s%s%s_tb.v\n", before, slash, name);
    printf("data     %s%s%s.vec\n", before, slash, name);
    if (emit->request->coverage != NULL)
        printf("report   %s%s%s\n", before, slash, emit->request->coverage);
    print_vectors(emit);
    print_coverage(emit);
    print_circuit(emit);
    print_faults(emit);
    print_proof(emit);
    puts("simulate");
    if (!here)
        printf("  cd %s\n", folder);
    printf("  iverilog -g2005 -Wall -o %s.vvp %s.v %s_tb.v\n", name, name, name);
    printf("  vvp -n %s.vvp\n", name);
}

bool command_emit(const Request *request, Problem *problem) {
    Emit emit = {.request = request, .plan = {.random = request->random, .seed = request->seed}};
    Files *files = files_open(request->out, request->overwrite, problem);
    if (files == NULL || !spell_command(&emit, problem)) {
        files_abandon(files);
        return false;
    }
    build_netlist(&request->unit, &emit.netlist);
    bool good = prove_circuit(&emit, problem);
    if (good)
        measure(&emit);
    good = good && write_files(&emit, files, problem);
    if (good)
        good = files_commit(files, problem);
    else
        files_abandon(files);
    if (good)
        print_report(&emit);
    netlist_free(&emit.netlist);
    free(emit.coverage);
    free(emit.command);
    return good;
}
