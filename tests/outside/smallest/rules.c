/* See question.h. Of all the smallest circuits of a unit, in all orders of their gates, and with
 * all exchanges of inputs that the unit does not tell apart, one comes first: the one whose list of
 * selected pairs is least, pairs compared by their larger node and then by their smaller. The rules
 * here hold for that one, because where one is broken there is a circuit that comes before. So
 * "impossible" is true of so many gates if fewer are impossible, too. */
#include "question.h"

/* Does a gate that selects j and k read the node? */
static bool reads(int j, int k, int node) {
    return j == node || k == node;
}

/* Adds "gate i reads the node" to the clause that is being written. */
static void add_reading(Question *question, int i, int node) {
    for (int k = 0; k < i; k++)
        for (int j = 0; j <= k; j++)
            if (reads(j, k, node) && question->select[i][j][k] != 0)
                question_add(question, question->select[i][j][k]);
}

/* Every gate is read or an output, and no gate is two outputs. */
static void rule_of_use(Question *question) {
    int outputs = question->unit->outputs;
    for (int i = question->unit->inputs; i < question->nodes; i++) {
        for (int h = 0; h < outputs; h++)
            question_add(question, question->output[h][i]);
        for (int later = i + 1; later < question->nodes; later++)
            add_reading(question, later, i);
        question_add(question, 0);
        for (int h = 1; h < outputs; h++)
            for (int other = 0; other < h; other++)
                question_clause(question, -question->output[h][i], -question->output[other][i], 0,
                                0);
    }
}

/* No gate is constant or one of its inputs. */
static void rule_of_functions(Question *question) {
    for (int i = question->unit->inputs; i < question->nodes; i++) {
        const int *f = question->function[i];
        question_clause(question, f[0], f[1], f[2], 0);
        question_clause(question, f[0], -f[1], -f[2], 0);
        question_clause(question, -f[0], f[1], -f[2], 0);
    }
}

/* A gate of any kind that reads another gate and what that one reads could read that pair itself,
 * which comes before. */
static void forbid_again(Question *question, int i, int j, int k, int later) {
    int first = -question->select[i][j][k];
    question_clause(question, first, -question->select[later][j][i], 0, 0);
    question_clause(question, first, -question->select[later][k][i], 0, 0);
}

/* Of NAND or NOR no two read the same pair, and none inverts an inverter or joins a node and its
 * inverse. */
static void forbid_again_of_basis(Question *question, int i, int j, int k, int later) {
    int first = -question->select[i][j][k];
    question_clause(question, first, -question->select[later][j][k], 0, 0);
    if (j != k)
        return;
    question_clause(question, first, -question->select[later][i][i], 0, 0);
    question_clause(question, first, -question->select[later][j][i], 0, 0);
}

static void rule_of_new_pairs(Question *question) {
    for (int i = question->unit->inputs; i < question->nodes; i++)
        for (int k = 0; k < i; k++)
            for (int j = 0; j <= k; j++)
                for (int later = i + 1; later < question->nodes; later++) {
                    if (question->select[i][j][k] == 0)
                        continue;
                    if (question->basis == BASIS_ANY)
                        forbid_again(question, i, j, k, later);
                    else
                        forbid_again_of_basis(question, i, j, k, later);
                }
}

/* Neighbours in the list of which the second does not read the first are in the order of their
 * pairs. */
static void rule_of_order(Question *question) {
    for (int i = question->unit->inputs; i + 1 < question->nodes; i++)
        for (int k = 0; k < i; k++)
            for (int j = 0; j <= k; j++)
                for (int q = 0; q <= k && question->select[i][j][k] != 0; q++)
                    for (int p = 0; p <= q; p++)
                        if ((q < k || p < j) && question->select[i + 1][p][q] != 0)
                            question_clause(question, -question->select[i][j][k],
                                            -question->select[i + 1][p][q], 0, 0);
}

/* Where gate i reads q of two inputs that are alike, an earlier gate, or this one, reads p. */
static void order_inputs(Question *question, int p, int q, int i) {
    for (int other = 0; other < i; other++) {
        int low = other < q ? other : q, high = other < q ? q : other;
        if (other == p || question->select[i][low][high] == 0)
            continue;
        question_add(question, -question->select[i][low][high]);
        for (int before = question->unit->inputs; before < i; before++)
            add_reading(question, before, p);
        question_add(question, 0);
    }
}

static void rule_of_inputs(Question *question) {
    const Unit *unit = question->unit;
    for (int q = 1; q < unit->inputs; q++)
        for (int p = 0; p < q; p++)
            for (int i = unit->inputs; i < question->nodes && unit_alike(unit, p, q); i++)
                order_inputs(question, p, q, i);
}

/* An output that depends on two inputs alone is a gate that reads them. */
static void rule_of_early_outputs(Question *question) {
    const Unit *unit = question->unit;
    for (int h = 0; h < unit->outputs; h++) {
        int read[INPUTS_MAX], count = 0;
        for (int p = 0; p < unit->inputs; p++)
            if (unit_depends(unit, h, p))
                read[count++] = p;
        for (int i = unit->inputs; i < question->nodes && count == 2; i++)
            question_clause(question, -question->output[h][i],
                            question->select[i][read[0]][read[1]], 0, 0);
    }
}

void question_restrict(Question *question) {
    rule_of_use(question);
    rule_of_new_pairs(question);
    rule_of_order(question);
    rule_of_inputs(question);
    if (question->basis != BASIS_ANY)
        return;
    rule_of_functions(question);
    rule_of_early_outputs(question);
}
