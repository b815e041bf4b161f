/* See question.h. */
#include "question.h"

#include <stdio.h>
#include <stdlib.h>

void question_add(Question *question, int literal) {
    if (question->length == question->room) {
        question->room = question->room == 0 ? 1 << 16 : 2 * question->room;
        question->literals =
            realloc(question->literals, question->room * sizeof *question->literals);
        if (question->literals == NULL)
            stop("out of memory", "");
    }
    question->literals[question->length++] = literal;
    question->clauses += literal == 0;
}

void question_clause(Question *question, int p, int q, int r, int s) {
    const int literals[] = {p, q, r, s};
    for (int k = 0; k < 4; k++)
        if (literals[k] != 0)
            question_add(question, literals[k]);
    question_add(question, 0);
}

/* The first row that says something: in normal form everything is 0 in row 0. */
static int first_row(const Question *question) {
    return question->basis == BASIS_ANY ? 1 : 0;
}

static void make_variables(Question *question) {
    const Unit *unit = question->unit;
    int same = question->basis == BASIS_ANY ? 0 : 1; /* a gate may read one node twice */
    for (int i = unit->inputs; i < question->nodes; i++) {
        for (int k = 0; k < i; k++)
            for (int j = 0; j < k + same; j++)
                question->select[i][j][k] = ++question->variables;
        for (int row = first_row(question); row < unit->rows; row++)
            question->value[i][row] = ++question->variables;
        for (int f = 0; f < FUNCTION_BITS && question->basis == BASIS_ANY; f++)
            question->function[i][f] = ++question->variables;
        for (int h = 0; h < unit->outputs; h++)
            question->output[h][i] = ++question->variables;
    }
}

/* Exactly one of these. */
static void ask_one_of(Question *question, const int *list, int count) {
    for (int x = 0; x < count; x++)
        question_add(question, list[x]);
    question_add(question, 0);
    for (int x = 1; x < count; x++)
        for (int y = 0; y < x; y++)
            question_clause(question, -list[x], -list[y], 0, 0);
}

static void ask_selection(Question *question) {
    int list[NODES_MAX * NODES_MAX];
    for (int i = question->unit->inputs; i < question->nodes; i++) {
        int count = 0;
        for (int k = 0; k < i; k++)
            for (int j = 0; j <= k; j++)
                if (question->select[i][j][k] != 0)
                    list[count++] = question->select[i][j][k];
        ask_one_of(question, list, count);
    }
    for (int h = 0; h < question->unit->outputs; h++)
        ask_one_of(question, &question->output[h][question->unit->inputs],
                   question->nodes - question->unit->inputs);
}

/* The literal "this node has not this value in this row", or 0 where that is known to be false;
 * *holds is set where it is known to be true. */
static int differs(const Question *question, int node, int row, int value, bool *holds) {
    int variable = question->value[node][row];
    if (variable != 0)
        return value != 0 ? -variable : variable;
    int known = node < question->unit->inputs ? row >> node & 1 : 0;
    *holds = *holds || known != value;
    return 0;
}

/* In this row, where gate i reads j and k, and they have these values, it has the value that its
 * function has there. */
static void ask_value(Question *question, int i, int j, int k, int row, int first, int second) {
    bool holds = j == k && first != second;
    int not_first = differs(question, j, row, first, &holds);
    int not_second = j == k ? 0 : differs(question, k, row, second, &holds);
    int value = question->value[i][row], entry = first + 2 * second;
    if (holds)
        return;
    for (int one = 0; one <= 1; one++) { /* the function is not so, or the value is */
        int function = 0;
        bool known = question->basis != BASIS_ANY || entry == 0;
        if (!known)
            function = question->function[i][entry - 1];
        else if (one != (question->basis == BASIS_NAND  ? entry != 3
                         : question->basis == BASIS_NOR ? entry == 0
                                                        : 0))
            continue;
        question_add(question, -question->select[i][j][k]);
        question_clause(question, not_first, not_second, one != 0 ? -function : function,
                        one != 0 ? value : -value);
    }
}

static void ask_values(Question *question) {
    for (int i = question->unit->inputs; i < question->nodes; i++)
        for (int k = 0; k < i; k++)
            for (int j = 0; j <= k; j++)
                for (int row = first_row(question);
                     row < question->unit->rows && question->select[i][j][k] != 0; row++)
                    for (int entry = 0; entry < 4; entry++)
                        ask_value(question, i, j, k, row, entry & 1, entry >> 1);
}

static void ask_outputs(Question *question) {
    const Unit *unit = question->unit;
    for (int h = 0; h < unit->outputs; h++)
        for (int i = unit->inputs; i < question->nodes; i++)
            for (int row = first_row(question); row < unit->rows; row++) {
                bool turned = question->basis == BASIS_ANY && unit->target[h][0];
                int value = question->value[i][row];
                question_clause(question, -question->output[h][i],
                                unit->target[h][row] != turned ? value : -value, 0, 0);
            }
}

void question_ask(Question *question, const Unit *unit, Basis basis, int gates) {
    *question = (Question){.unit = unit, .basis = basis, .nodes = unit->inputs + gates};
    make_variables(question);
    ask_selection(question);
    ask_values(question);
    ask_outputs(question);
}

void question_write(const Question *question) {
    printf("p cnf %d %d\n", question->variables, question->clauses);
    for (size_t k = 0; k < question->length; k++)
        printf(question->literals[k] != 0 ? "%d " : "%d\n", question->literals[k]);
}

void question_free(Question *question) {
    free(question->literals);
}
