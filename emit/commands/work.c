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
    figure_write(working, story, out);
    return files_commit(files, problem);
}

bool command_work(const Request *request, Problem *problem) {
    static Working working; /* its words are large */
    if (!work_request(request, &working, problem))
        return false;
    Story story;
    story_tell(&working, &story);
    bool good = request->svg == NULL || write_figure(request, &working, &story, problem);
    if (good) {
        Terminal terminal = terminal_of(stdout);
        sheet_write(&working, &story, request->steps, &terminal);
    }
    story_free(&story);
    return good;
}
