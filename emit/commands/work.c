/* sumwright work: an operation worked column by column. */
#include "commands/work.h"

#include "commands/commands.h"
#include "work/asked.h"
#include "work/figure.h"
#include "work/sheet.h"
#include "write/files.h"

#include <stdio.h>

bool work_request(const Request *request, Working *working, Problem *problem) {
    return work_asked(&request->unit, request->choice, (const char *const *)request->operands,
                      request->operand_count, request->cin, working, problem);
}

static bool write_figure(const Request *request, const Working *working, const Story *story,
                         Problem *problem) {
    FILE *out = NULL;
    Files *files = files_open_one(request->svg, request->overwrite, &out, problem);
    if (files == NULL)
        return false;
    figure_write(working, story, request->steps, out);
    return files_commit(files, problem);
}

bool work_add_frame(Files *files, unsigned step, unsigned count, FILE **out, Problem *problem) {
    unsigned digits = count <= 10 ? 1 : count <= 100 ? 2 : 3;
    char name[32];
    snprintf(name, sizeof name, "step_%0*u.svg", (int)digits, step);
    *out = files_add(files, name, problem);
    return *out != NULL;
}

static bool write_frames(const Request *request, const Working *working, const Story *story,
                         Problem *problem) {
    if (request->unit.width > FIGURE_COLUMNS_MAX)
        return problem_set(problem, STATUS_INVALID,
                           "--frames cannot show %u columns; a step has room for %d, so ask for "
                           "--width %d or less",
                           request->unit.width, FIGURE_COLUMNS_MAX, FIGURE_COLUMNS_MAX);
    Files *files = files_open(request->frames, request->overwrite, problem);
    if (files == NULL)
        return false;
    unsigned count = walk_of(working, story).count;
    for (unsigned step = 0; step < count; step++) {
        FILE *out = NULL;
        if (!work_add_frame(files, step, count, &out, problem)) {
            files_abandon(files);
            return false;
        }
        figure_write_step(working, story, step, out);
    }
    return files_commit(files, problem);
}

bool work_frames_alone(const Request *request, Problem *problem) {
    if (request->svg == NULL || request->frames == NULL)
        return true;
    return problem_set(problem, STATUS_INVALID,
                       "--svg and --frames are both given; ask for one of them at a time");
}

bool command_work(const Request *request, Problem *problem) {
    static Working working; /* its words are large */
    if (!work_frames_alone(request, problem) || !work_request(request, &working, problem))
        return false;
    Story story;
    story_tell(&working, &story);
    bool good = request->frames == NULL || write_frames(request, &working, &story, problem);
    good = good && (request->svg == NULL || write_figure(request, &working, &story, problem));
    if (good) {
        Terminal terminal = terminal_of(stdout);
        sheet_write(&working, &story, request->steps, &terminal);
    }
    story_free(&story);
    return good;
}
