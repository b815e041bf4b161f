/* The search for values that meet clauses: against trying all values, and on a question that is
 * known to be hard. */
#include "gates/faults/solver.h"
#include "vectors/random.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

enum { VARIABLES = 12, CLAUSES_MAX = 80 };

typedef struct {
    uint32_t count;
    struct {
        uint32_t length;
        uint32_t literal[3];
    } clause[CLAUSES_MAX];
} Question;

/* One to three literals of different variables in each clause, three in most. */
static void draw_question(Question *question, uint32_t clauses, Random *random) {
    question->count = clauses;
    for (uint32_t k = 0; k < clauses; k++) {
        uint32_t length = random_below(random, 16);
        question->clause[k].length = length == 0 ? 1 : length < 4 ? 2 : 3;
        uint32_t first = random_below(random, VARIABLES);
        for (uint32_t i = 0; i < 3; i++) {
            uint32_t variable = (first + i * (1 + first % 3)) % VARIABLES;
            question->clause[k].literal[i] = 2 * variable + random_below(random, 2);
        }
    }
}

static bool meets(const Question *question, uint32_t values) {
    for (uint32_t k = 0; k < question->count; k++) {
        bool met = false;
        for (uint32_t i = 0; i < question->clause[k].length; i++) {
            uint32_t literal = question->clause[k].literal[i];
            met = met || (values >> literal / 2 & 1) != (literal & 1);
        }
        if (!met)
            return false;
    }
    return true;
}

static bool is_possible(const Question *question) {
    for (uint32_t values = 0; values < 1 << VARIABLES; values++)
        if (meets(question, values))
            return true;
    return false;
}

static SolverAnswer answer(const Question *question) {
    Solver *solver = solver_new(VARIABLES);
    for (uint32_t k = 0; k < question->count; k++)
        solver_clause(solver, question->clause[k].literal, question->clause[k].length);
    SolverAnswer found = solver_run(solver, 100000);
    uint32_t values = 0;
    for (uint32_t k = 0; k < VARIABLES; k++)
        values |= (uint32_t)solver_value(solver, k) << k;
    if (found == SOLVER_POSSIBLE)
        assert_true(meets(question, values));
    solver_free(solver);
    return found;
}

/* Few clauses and many, so that both answers come. */
static void test_against_all_values(void **state) {
    (void)state;
    Random random;
    random_seed(&random, 1);
    unsigned possible = 0, impossible = 0;
    for (uint32_t k = 0; k < 600; k++) {
        Question question;
        draw_question(&question, 20 + k % 60, &random);
        bool right = is_possible(&question);
        assert_int_equal(answer(&question), right ? SOLVER_POSSIBLE : SOLVER_IMPOSSIBLE);
        possible += right;
        impossible += !right;
    }
    assert_true(possible > 100 && impossible > 100);
}

/* Pigeons in one hole fewer: every pigeon in some hole, no two in one. Impossible, and without
 * learning from conflicts a matter of trying all ways (from memory: S. A. Cook, 1976). */
static SolverAnswer pigeons(uint32_t holes, uint64_t conflicts) {
    Solver *solver = solver_new((holes + 1) * holes);
    uint32_t clause[16];
    for (uint32_t p = 0; p <= holes; p++) {
        for (uint32_t h = 0; h < holes; h++)
            clause[h] = 2 * (p * holes + h);
        solver_clause(solver, clause, holes);
    }
    for (uint32_t h = 0; h < holes; h++)
        for (uint32_t p = 0; p <= holes; p++)
            for (uint32_t q = 0; q < p; q++) {
                uint32_t not_both[2] = {2 * (p * holes + h) + 1, 2 * (q * holes + h) + 1};
                solver_clause(solver, not_both, 2);
            }
    SolverAnswer found = solver_run(solver, conflicts);
    solver_free(solver);
    return found;
}

static void test_pigeons(void **state) {
    (void)state;
    assert_int_equal(pigeons(6, 100000), SOLVER_IMPOSSIBLE);
    assert_int_equal(pigeons(9, 100), SOLVER_UNDECIDED);
}

/* Clauses of one literal, of none, and none at all. */
static void test_edges(void **state) {
    (void)state;
    Solver *solver = solver_new(0);
    assert_int_equal(solver_run(solver, 0), SOLVER_POSSIBLE);
    solver_free(solver);
    solver = solver_new(2);
    solver_clause(solver, NULL, 0);
    assert_int_equal(solver_run(solver, 0), SOLVER_IMPOSSIBLE);
    solver_free(solver);
    solver = solver_new(2);
    const uint32_t is_1 = 0, is_0 = 1, implies[2] = {1, 2};
    solver_clause(solver, implies, 2);
    solver_clause(solver, &is_1, 1);
    assert_int_equal(solver_run(solver, 0), SOLVER_POSSIBLE);
    assert_true(solver_value(solver, 0) && solver_value(solver, 1));
    solver_free(solver);
    solver = solver_new(1);
    solver_clause(solver, &is_1, 1);
    solver_clause(solver, &is_0, 1);
    assert_int_equal(solver_run(solver, 0), SOLVER_IMPOSSIBLE);
    solver_free(solver);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_against_all_values),
        cmocka_unit_test(test_pigeons),
        cmocka_unit_test(test_edges),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
