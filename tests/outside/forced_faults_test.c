/* Fault grading against Icarus Verilog: a small circuit is written with a wire for each of its
 * fault places, every fault is forced there by `force`, every input is applied, and the first one
 * with which an output differs is compared with what the grading says, fault by fault. */
#include "gates/build.h"
#include "gates/faults/faults.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include <cmocka.h>

/* ---- the circuit and its faults in Verilog -------------------------------------------------- */

static const char *const places[] = {"w", "x", "y", "o"}; /* wire, gate's inputs, output pin */

static void write_literal(FILE *out, Literal literal) {
    fprintf(out, "%sw%u", literal_inverted(literal) ? "~" : "", literal_node(literal));
}

static void write_gate(FILE *out, uint32_t k, const Node *gate) {
    static const struct {
        const char *before;
        char operator;
    } form[NODE_KIND_COUNT] = {
        [NODE_AND] = {"", '&'},   [NODE_OR] = {"", '|'},   [NODE_XOR] = {"", '^'},
        [NODE_NAND] = {"~", '&'}, [NODE_NOR] = {"~", '|'}, [NODE_XNOR] = {"~", '^'}};
    for (int side = 0; side < 2; side++) {
        fprintf(out, "wire %s%u = ", places[1 + side], k);
        write_literal(out, gate->in[side]);
        fprintf(out, ";\n");
    }
    fprintf(out, "wire w%u = %s(x%u %c y%u);\n", k, form[gate->kind].before, k,
            form[gate->kind].operator, k);
}

static uint32_t inputs_of(const Netlist *netlist) {
    uint32_t count = 0;
    while (count + 1 < netlist->node_count && netlist->nodes[count + 1].kind == NODE_INPUT)
        count++;
    return count;
}

static void write_circuit(FILE *out, const Netlist *netlist) {
    uint32_t inputs = inputs_of(netlist);
    fprintf(out, "module forced;\nreg [%u:0] in;\nwire w0 = 1'b0;\n", inputs - 1);
    for (uint32_t k = 1; k <= inputs; k++)
        fprintf(out, "wire w%u = in[%u];\n", k, k - 1);
    for (uint32_t k = inputs + 1; k < netlist->node_count; k++)
        write_gate(out, k, &netlist->nodes[k]);
    for (uint32_t k = 0; k < netlist->output_count; k++) {
        fprintf(out, "wire o%u = ", k);
        write_literal(out, netlist->outputs[k].literal);
        fprintf(out, ";\n");
    }
    fprintf(out, "wire [%u:0] out = {", netlist->output_count - 1);
    for (uint32_t k = 0; k < netlist->output_count; k++)
        fprintf(out, "%so%u", k == 0 ? "" : ", ", k);
    fprintf(out, "};\n");
}

/* The runs of all inputs: the right outputs kept, then each fault's compared with them. The number
 * printed is that of the first input that shows the fault, or -1. */
static void write_runs(FILE *out, const Netlist *netlist, const Fault *faults, size_t count) {
    uint32_t inputs = inputs_of(netlist);
    fprintf(out, "reg [%u:0] right [0:%u];\ninteger k, first;\n", netlist->output_count - 1,
            (1U << inputs) - 1);
    fprintf(out,
            "task run;\nbegin\n  first = -1;\n"
            "  for (k = %u; k >= 0; k = k - 1) begin\n"
            "    in = k; #1; if (out !== right[k]) first = k;\n  end\n"
            "  $display(\"%%0d\", first);\nend\nendtask\n",
            (1U << inputs) - 1);
    fprintf(out,
            "initial begin\n  for (k = 0; k < %u; k = k + 1) begin\n"
            "    in = k; #1; right[k] = out;\n  end\n",
            1U << inputs);
    for (size_t k = 0; k < count; k++)
        fprintf(out, "  force %s%u = 1'b%d; run; release %s%u;\n", places[faults[k].place],
                faults[k].index, faults[k].level, places[faults[k].place], faults[k].index);
    fprintf(out, "  $finish;\nend\nendmodule\n");
}

/* ---- the two lists -------------------------------------------------------------------------- */

static size_t list_faults(const Netlist *netlist, Fault **list) {
    size_t count = 0;
    *list = calloc(6 * (size_t)netlist->node_count + 2 * netlist->output_count, sizeof **list);
    assert_non_null(*list);
    for (int level = 0; level <= 1; level++) {
        for (uint32_t k = 1; k < netlist->node_count; k++)
            for (int place = FAULT_WIRE; place <= FAULT_INPUT_1; place++)
                if (place == FAULT_WIRE || netlist_is_gate(&netlist->nodes[k]))
                    (*list)[count++] = (Fault){(FaultPlace)place, k, level == 1};
        for (uint32_t k = 0; k < netlist->output_count; k++)
            (*list)[count++] = (Fault){FAULT_PIN, k, level == 1};
    }
    return count;
}

static Faults *grade_every_input(const Netlist *netlist) {
    Faults *faults = faults_new(netlist);
    uint32_t inputs = inputs_of(netlist), total = 1U << inputs;
    for (uint32_t from = 0; from < total; from += 64) {
        unsigned count = total - from < 64 ? total - from : 64;
        uint64_t *word = faults_inputs(faults);
        for (uint32_t k = 1; k <= inputs; k++) {
            word[k] = 0;
            for (unsigned v = 0; v < count; v++)
                word[k] |= (uint64_t)((from + v) >> (k - 1) & 1) << v;
        }
        faults_try(faults, count);
    }
    faults_settle(faults, true);
    return faults;
}

static FILE *simulate(const Netlist *netlist, const Fault *list, size_t count, char *folder) {
    assert_non_null(mkdtemp(folder));
    assert_int_equal(chdir(folder), 0);
    FILE *out = fopen("forced.v", "w");
    assert_non_null(out);
    write_circuit(out, netlist);
    write_runs(out, netlist, list, count);
    assert_int_equal(fclose(out), 0);
    assert_int_equal(system("iverilog -g2005 -o forced.vvp forced.v && vvp -n forced.vvp >first"),
                     0);
    FILE *in = fopen("first", "r");
    assert_non_null(in);
    return in;
}

static void check(const Unit *unit) {
    Netlist netlist;
    Fault *list;
    char folder[] = "/tmp/forced.XXXXXX";
    build_netlist(unit, &netlist);
    size_t count = list_faults(&netlist, &list);
    Faults *faults = grade_every_input(&netlist);
    FILE *in = simulate(&netlist, list, count, folder);
    for (size_t k = 0; k < count; k++) {
        long first;
        assert_int_equal(fscanf(in, "%ld", &first), 1);
        FaultState state = faults_state(faults, list[k]);
        if (state != (first < 0 ? FAULT_HIDDEN : FAULT_CAUGHT) ||
            (first >= 0 && faults_caught_by(faults, list[k]) != (uint64_t)first))
            fail_msg("%s%u stuck at %d: Icarus says %ld", places[list[k].place], list[k].index,
                     list[k].level, first);
    }
    assert_int_equal(faults_count(faults).total, count);
    fclose(in);
    assert_int_equal(remove("forced.v") | remove("forced.vvp") | remove("first"), 0);
    assert_int_equal(chdir("/") | rmdir(folder), 0);
    faults_free(faults);
    free(list);
    netlist_free(&netlist);
}

/* Every flag; one-hot control is left out, as its requests exclude one another. */
static void check_unit(unsigned width, int operations, Overflow overflow, Sense sense) {
    static const Operation all[] = {OP_SUB, OP_ADC, OP_INC, OP_NEG, OP_PASS};
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    unit_init(&unit);
    unit.width = width;
    unit.detail = DETAIL_GATES;
    unit.overflow = overflow;
    unit.sense = sense;
    unit.choice_count = operations;
    for (int k = 0; k < operations; k++)
        unit.choice[k].operation = all[k];
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        unit.flag[flag] = flag != FLAG_HALF_CARRY || width >= 4;
    assert_true(unit_settle(&unit, &problem));
    check(&unit);
}

static void test_one_operation(void **state) {
    (void)state;
    check_unit(4, 1, OVERFLOW_WRAP, SENSE_NO_BORROW);
    check_unit(3, 1, OVERFLOW_SATURATE_SIGNED, SENSE_BORROW);
}

static void test_two_operations(void **state) {
    (void)state;
    check_unit(3, 2, OVERFLOW_SATURATE_UNSIGNED, SENSE_BORROW);
}

/* Three bits of code, of which some values are unused. */
static void test_five_operations(void **state) {
    (void)state;
    check_unit(2, 5, OVERFLOW_SATURATE_SIGNED, SENSE_NO_BORROW);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_operation),
        cmocka_unit_test(test_two_operations),
        cmocka_unit_test(test_five_operations),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
