/* sumwright lesson: a page on which an operation is gone through step by step. */
#include "lesson/lesson.h"

#include "base/memory.h"
#include "commands/commands.h"
#include "commands/draw.h"
#include "write/files.h"

static bool is_possible(const Request *request, Problem *problem) {
    if (request->html == NULL)
        return problem_set(problem, STATUS_INVALID,
                           "lesson lacks --html; name the file of the page, for example --html "
                           "%.64s.html",
                           request->unit.name);
    if (request->unit.width > LESSON_WIDTH_MAX)
        return problem_set(problem, STATUS_INVALID,
                           "lesson cannot show %u columns; a page has room for %d, so ask for "
                           "--width %d or less",
                           request->unit.width, LESSON_WIDTH_MAX, LESSON_WIDTH_MAX);
    if (request->example_count == 0 && request->cin != OPTIONS_CIN_UNSET)
        return problem_set(problem, STATUS_INVALID,
                           "--cin without --example has nothing to enter; add --example A,B,OP");
    return true;
}

static bool work_examples(const Request *request, Working *example, Problem *problem) {
    if (request->example_count == 0)
        lesson_example(&request->unit, example);
    for (int k = 0; k < request->example_count; k++)
        if (!draw_example(request, request->examples[k], &example[k], problem))
            return false;
    return true;
}

static bool write_page(const Request *request, const Working *example, int count,
                       Problem *problem) {
    FILE *out = NULL;
    Files *files = files_open_one(request->html, request->overwrite, &out, problem);
    if (files == NULL)
        return false;
    bool gates = request->detail_given && request->unit.detail >= DETAIL_GATES;
    if (lesson_write(example, count, gates,
                     request->rectangular ? SYMBOLS_RECTANGULAR : SYMBOLS_DISTINCTIVE, out,
                     problem))
        return files_commit(files, problem);
    files_abandon(files);
    return false;
}

bool command_lesson(const Request *request, Problem *problem) {
    if (!is_possible(request, problem))
        return false;
    int count = request->example_count > 0 ? request->example_count : 1;
    Working *example = memory_zeroed((size_t)count, sizeof *example);
    bool good =
        work_examples(request, example, problem) && write_page(request, example, count, problem);
    memory_free(example);
    return good;
}
