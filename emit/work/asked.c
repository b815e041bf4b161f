/* See asked.h. */
#include "work/asked.h"

#include "model/number.h"

/* As many operands as the operation reads. */
static bool check(const OperationFacts *facts, const char *const *operand, int count, int cin,
                  Problem *problem) {
    int wanted = facts->reads_b ? 2 : 1;
    const char *right = facts->reads_b ? "give a and b" : "give a";
    if (count < wanted)
        return problem_set(problem, STATUS_INVALID,
                           "%s, %s, takes %d operand%s and %d is given; %s", facts->name,
                           facts->formula, wanted, wanted == 1 ? "" : "s", count, right);
    if (count > wanted)
        return problem_set(problem, STATUS_INVALID,
                           "%s, %s, takes %d operand%s and there is %s too; %s, or choose another "
                           "operation",
                           facts->name, facts->formula, wanted, wanted == 1 ? "" : "s",
                           problem_quote(operand[wanted]).text, right);
    if (cin >= 0 && !facts->reads_cin)
        return problem_set(problem, STATUS_INVALID,
                           "%s, %s, does not read cin; leave cin out, or choose adc or sbc",
                           facts->name, facts->formula);
    return true;
}

bool work_asked(const Unit *unit, int choice, const char *const *operand, int count, int cin,
                Working *working, Problem *problem) {
    const OperationFacts *facts = operation_facts(unit->choice[choice].operation);
    Word a, b;
    word_zero(&b, unit->width);
    if (!check(facts, operand, count, cin, problem) ||
        !number_read(operand[0], unit->width, "operand a", &a, problem) ||
        (count == 2 && !number_read(operand[1], unit->width, "operand b", &b, problem)))
        return false;
    bool neither = facts->subtracts && unit->sense == SENSE_NO_BORROW;
    working_compute(unit, choice, &a, &b, cin >= 0 ? cin == 1 : neither, working);
    return true;
}
