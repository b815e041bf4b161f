/* sumwright exercises: a sheet of worked tables to fill in, and its solutions. */
#include "lesson/exercises.h"

#include "base/memory.h"
#include "commands/commands.h"
#include "lesson/questions.h"
#include "write/files.h"

#include <string.h>

/* The bytes of a path up to its file's name. */
static size_t folder_length(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash == NULL ? 0 : (size_t)(slash - path) + 1;
}

static bool is_possible(const Request *request, Problem *problem) {
    const char *html = request->html, *solutions = request->solutions;
    if (html == NULL)
        return problem_set(problem, STATUS_INVALID,
                           "exercises lacks --html; name the file of the sheet, for example --html "
                           "exercises.html");
    if (request->unit.width > QUESTIONS_WIDTH_MAX)
        return problem_set(problem, STATUS_INVALID,
                           "exercises cannot have %u columns; paper has room for %d, so ask for "
                           "--width %d or less",
                           request->unit.width, QUESTIONS_WIDTH_MAX, QUESTIONS_WIDTH_MAX);
    if (solutions == NULL)
        return true;
    size_t length = folder_length(html);
    if (length != folder_length(solutions) || strncmp(html, solutions, length) != 0)
        return problem_set(problem, STATUS_INVALID,
                           "--solutions %s is not in the folder of --html %s; both sheets go into "
                           "one folder",
                           problem_quote(solutions).text, problem_quote(html).text);
    if (strcmp(html, solutions) == 0)
        return problem_set(problem, STATUS_INVALID,
                           "--solutions and --html are both %s; give the solutions another name",
                           problem_quote(html).text);
    return true;
}

static const Blank blanks[] = {[LEAVE_CARRIES] = {false, true, false},
                               [LEAVE_RESULT] = {false, false, true},
                               [LEAVE_ALL] = {true, true, true}};

static bool write_sheets(const Request *request, const Working *question, Problem *problem) {
    FILE *out = NULL;
    Files *files = files_open_one(request->html, request->overwrite, &out, problem);
    if (files == NULL)
        return false;
    bool good = exercises_write(question, (int)request->count, blanks[request->leave],
                                request->seed, out, problem);
    if (good && request->solutions != NULL) {
        const char *name = request->solutions + folder_length(request->solutions);
        out = files_add(files, name, problem);
        good = out != NULL && exercises_write(question, (int)request->count, (Blank){0},
                                              request->seed, out, problem);
    }
    if (good)
        return files_commit(files, problem);
    files_abandon(files);
    return false;
}

bool command_exercises(const Request *request, Problem *problem) {
    if (!is_possible(request, problem))
        return false;
    Working *question = memory_zeroed(request->count, sizeof *question);
    questions_choose(&request->unit, request->seed, (int)request->count, question);
    bool good = write_sheets(request, question, problem);
    memory_free(question);
    return good;
}
