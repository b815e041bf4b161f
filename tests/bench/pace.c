/* For tests/bench/run: what the command line hides among other work. The options are those of emit.
 *
 *   pace write FILE OPTION ...   builds the unit's gates and writes its Verilog into FILE
 *   pace grade OPTION ...        grades the vectors on the unit's gates; prints the processor time
 * of that, of simulating the circuit without faults once for each fault (64 vectors at a time), and
 * the numbers of gates and faults */
#include "commands/grade.h"
#include "gates/build.h"
#include "options/options.h"
#include "verilog/verilog.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { ROUNDS_NODES = 500000000 };

static Request request;

static double seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static bool grade_one(void *context, const Vector *vector) {
    grade_vector(context, vector);
    return true;
}

/* Values that are as good as those of the vectors: the time does not depend on them. Of large
 * circuits some rounds stand for all. */
static double once_per_fault(const Netlist *netlist, uint32_t faults, uint64_t vectors) {
    uint64_t *values = calloc(netlist->node_count, sizeof *values);
    uint64_t all = faults * ((vectors + 63) / 64), some = ROUNDS_NODES / netlist->node_count;
    if (values == NULL)
        return 0;
    double start = seconds();
    for (uint64_t k = 0; k < all && k < some; k++) {
        values[1] += k;
        netlist_evaluate(netlist, values);
    }
    double spent = seconds() - start;
    free(values);
    return some < all ? spent * (double)all / (double)some : spent;
}

static bool grade(const Netlist *netlist) {
    VectorPlan plan = {.random = request.random, .seed = request.seed};
    VectorCount count;
    vectors_count(&request.unit, &plan, &count);
    double start = seconds();
    Grade *grading = grade_new(&request.unit, netlist, count.total);
    vectors_each(&request.unit, &plan, grade_one, grading);
    FaultCount faults = grade_finish(grading, count.exhaustive);
    double spent = seconds() - start;
    uint32_t gates = 0;
    for (uint32_t k = 0; k < netlist->node_count; k++)
        gates += netlist_is_gate(&netlist->nodes[k]) ? 1 : 0;
    printf("%.4f %.4f %u %u\n", spent, once_per_fault(netlist, faults.total, count.total), gates,
           faults.total);
    return true;
}

static bool write(const Netlist *netlist, const char *name, Problem *problem) {
    Templates templates = {0};
    FILE *out = fopen(name, "w");
    if (out == NULL)
        return problem_set(problem, STATUS_SURROUNDINGS, "cannot write %s", name);
    bool good = verilog_write(&request.unit, netlist, "sumwright emit", &templates, out, problem);
    return fclose(out) == 0 && good;
}

int main(int argc, char **argv) {
    Problem problem = {STATUS_DONE, ""};
    Netlist netlist;
    int used = argc > 2 && strcmp(argv[1], "write") == 0 ? 3 : 2;
    if (argc < used ||
        !options_parse(COMMAND_EMIT, argc - used + 1, argv + used - 1, &request, &problem)) {
        fprintf(stderr, "pace: %s\n", problem.text);
        return 2;
    }
    build_netlist(&request.unit, &netlist);
    bool good = used == 3 ? write(&netlist, argv[2], &problem) : grade(&netlist);
    netlist_free(&netlist);
    if (!good)
        fprintf(stderr, "pace: %s\n", problem.text);
    return good ? 0 : 1;
}
