/* See answer.h. */
#include "answer.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    int first, second;
    bool table[4]; /* its value where first, second are 00, 10, 01, 11 */
} Gate;

/* The variables that are true, from the lines "v 1 -2 3 ...". Free with free. */
static bool *read_values(const Question *question) {
    bool *holds = calloc((size_t)question->variables + 1, sizeof *holds);
    char word[32];
    bool listed = false;
    if (holds == NULL)
        stop("out of memory", "");
    while (scanf("%31s", word) == 1) {
        int number = atoi(word);
        listed = listed || strcmp(word, "v") == 0;
        if (listed && number > 0 && number <= question->variables)
            holds[number] = true;
    }
    return holds;
}

static Gate gate_of(const Question *question, const bool *holds, int i) {
    Gate gate = {.first = -1};
    for (int k = 0; k < i; k++)
        for (int j = 0; j <= k; j++)
            if (question->select[i][j][k] != 0 && holds[question->select[i][j][k]]) {
                gate.first = j;
                gate.second = k;
            }
    if (gate.first < 0)
        stop("the answer has no circuit", "");
    for (int entry = 0; entry < 4; entry++) {
        if (question->basis == BASIS_NAND)
            gate.table[entry] = entry != 3;
        else if (question->basis == BASIS_NOR)
            gate.table[entry] = entry == 0;
        else
            gate.table[entry] = entry > 0 && holds[question->function[i][entry - 1]];
    }
    return gate;
}

static const char *node_name(const Unit *unit, int node, char name[NAME_BYTES]) {
    if (node < unit->inputs)
        return unit->input_name[node];
    snprintf(name, NAME_BYTES, "g%d", node - unit->inputs + 1);
    return name;
}

static void show_gate(const Question *question, const Gate *gate, int i) {
    static const char *const forms[] = {NULL,       "%s & %s", "~%s & %s", NULL,
                                        "%s & ~%s", NULL,      "%s ^ %s",  "%s | %s"};
    static const char *const basis_forms[] = {NULL, "~(%s & %s)", "~(%s | %s)"};
    char name[2][NAME_BYTES];
    const char *form = basis_forms[question->basis];
    if (form == NULL)
        form = forms[gate->table[1] * 4 + gate->table[2] * 2 + gate->table[3]];
    if (form == NULL)
        stop("a gate that is none", "");
    printf("  g%d = ", i - question->unit->inputs + 1);
    printf(form, node_name(question->unit, gate->first, name[0]),
           node_name(question->unit, gate->second, name[1]));
    putchar('\n');
}

/* The values of every node in one row. */
static void run(const Question *question, const Gate *gate, int row, bool *value) {
    int inputs = question->unit->inputs;
    for (int i = 0; i < inputs; i++)
        value[i] = (row >> i & 1) != 0;
    for (int i = inputs; i < question->nodes; i++)
        value[i] = gate[i].table[value[gate[i].first] + 2 * value[gate[i].second]];
}

/* Is gate i output h, or its inverse where inverting is free, in every row? */
static bool gives(const Question *question, const Gate *gate, int i, int h, bool *inverted) {
    const Unit *unit = question->unit;
    *inverted = question->basis == BASIS_ANY && unit->target[h][0];
    for (int row = 0; row < unit->rows; row++) {
        bool value[NODES_MAX];
        run(question, gate, row, value);
        if ((value[i] != *inverted) != unit->target[h][row])
            return false;
    }
    return true;
}

void answer_show(const Question *question) {
    const Unit *unit = question->unit;
    Gate gate[NODES_MAX];
    bool *holds = read_values(question);
    for (int i = unit->inputs; i < question->nodes; i++) {
        gate[i] = gate_of(question, holds, i);
        show_gate(question, &gate[i], i);
    }
    free(holds);
    for (int h = 0; h < unit->outputs; h++) {
        int i = unit->inputs;
        bool inverted = false;
        while (i < question->nodes && !gives(question, gate, i, h, &inverted))
            i++;
        if (i == question->nodes)
            stop("the circuit found does not compute ", unit->output_name[h]);
        char name[NAME_BYTES];
        printf("  %s = %s%s\n", unit->output_name[h], inverted ? "~" : "",
               node_name(unit, i, name));
    }
}
