/* sumwright work: an operation worked column by column. */
#include "commands/work.h"

#include "commands/commands.h"
#include "model/number.h"
#include "work/figure.h"
#include "work/sheet.h"
#include "write/files.h"

#include <stdio.h>

/* As many operands as the operation reads. */
static bool check_operands(const Request *request, Problem *problem) {
    Operation operation = request->unit.choice[request->choice].operation;
    const OperationFacts *facts = operation_facts(operation);
    int wanted = facts->reads_b ? 2 : 1;
    const char *right = facts->reads_b ? "give a and b" : "give a";
    if (request->operand_count < wanted)
        return problem_set(
            problem, STATUS_INVALID, "%s, %s, takes %d operand%s and %d is given; %s", facts->name,
            facts->formula, wanted, wanted == 1 ? "" : "s", request->operand_count, right);
    if (request->operand_count > wanted)
        return problem_set(problem, STATUS_INVALID,
                           "%s, %s, takes %d operand%s and there is %s too; %s, or choose another "
                           "operation",
                           facts->name, facts->formula, wanted, wanted == 1 ? "" : "s",
                           problem_quote(request->operands[wanted]).text, right);
    if (request->cin != OPTIONS_CIN_UNSET && !facts->reads_cin)
        return problem_set(problem, STATUS_INVALID,
                           "%s, %s, does not read cin; leave --cin out, or choose adc or sbc",
                           facts->name, facts->formula);
    return true;
}

/* The level of cin that was asked for, or the one that brings no carry and no borrow. */
static bool level_of_cin(const Request *request) {
    Operation operation = request->unit.choice[request->choice].operation;
    if (request->cin != OPTIONS_CIN_UNSET)
        return request->cin == 1;
    return operation_facts(operation)->subtracts && request->unit.sense == SENSE_NO_BORROW;
}

bool work_request(const Request *request, Working *working, Problem *problem) {
    unsigned width = request->unit.width;
    Word a, b;
    word_zero(&b, width);
    if (!check_operands(request, problem) ||
        !number_read(request->operands[0], width, "operand a", &a, problem) ||
        (request->operand_count == 2 &&
         !number_read(request->operands[1], width, "operand b", &b, problem)))
        return false;
    working_compute(&request->unit, request->choice, &a, &b, level_of_cin(request), working);
    return true;
}

static bool write_figure(const Request *request, const Working *working, const Story *story,
                         Problem *problem) {
    FILE *out = NULL;
    Files *files = files_open_one(request->svg, request->overwrite, &out, problem);
    if (files == NULL)
        return false;
    figure_write(working, story, out);
    return files_commit(files, problem);
}

bool command_work(int argc, char **argv, Problem *problem) {
    static Request request; /* a Unit is large */
    static Working working;
    if (!options_parse(COMMAND_WORK, argc, argv, &request, problem))
        return false;
    if (request.help) {
        options_help(COMMAND_WORK, stdout);
        return true;
    }
    if (!work_request(&request, &working, problem))
        return false;
    Story story;
    story_tell(&working, &story);
    bool good = request.svg == NULL || write_figure(&request, &working, &story, problem);
    if (good) {
        Terminal terminal = terminal_of(stdout);
        sheet_write(&working, &story, request.steps, &terminal);
    }
    story_free(&story);
    return good;
}
