/* sumwright draw: a unit's schematic, with an example on its wires if one is given. */
#include "commands/draw.h"

#include "commands/commands.h"
#include "commands/work.h"
#include "draw/draw.h"
#include "lesson/frames.h"
#include "lesson/lesson.h"
#include "write/files.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { EXAMPLE_BYTES = 8192, EXAMPLE_ITEMS = 4 };

static bool is_word(const char *text) {
    return (text[0] >= 'a' && text[0] <= 'z') || (text[0] >= 'A' && text[0] <= 'Z');
}

/* Takes A,B,OP apart: the operands as `sumwright work` would have them, and the operation, the
 * first of the unit's where none is named. text is cut up. */
static bool read_example(char *text, char **operand, Request *request, Problem *problem) {
    int count = 0;
    for (char *item = text; item != NULL && count < EXAMPLE_ITEMS;) {
        char *comma = strchr(item, ',');
        if (comma != NULL)
            *comma = '\0';
        operand[count++] = item;
        item = comma == NULL ? NULL : comma + 1;
    }
    request->operands = operand;
    request->operand_count = count;
    request->choice = 0;
    if (!is_word(operand[count - 1]))
        return true;
    request->operand_count--;
    return options_find_operation(&request->unit, operand[count - 1], "--example cannot show",
                                  &request->choice, problem);
}

bool draw_example(const Request *request, const char *example, Working *working, Problem *problem) {
    static char text[EXAMPLE_BYTES]; /* the operands are parts of it */
    static char *operand[EXAMPLE_ITEMS];
    static Request asked; /* a Unit is large */
    asked = *request;
    if (strlen(example) >= sizeof text)
        return problem_set(problem, STATUS_INVALID,
                           "--example is longer than any operands; write A,B or A,B,OP");
    snprintf(text, sizeof text, "%s", example);
    if (!read_example(text, operand, &asked, problem) || !work_request(&asked, working, problem))
        return false;
    working->unit = &request->unit;
    return true;
}

bool draw_request(const Request *request, Scene *scene, Problem *problem) {
    static Working working;
    scene_init(scene, request->rectangular ? SYMBOLS_RECTANGULAR : SYMBOLS_DISTINCTIVE);
    scene->bare = request->bare;
    if (request->example == NULL && request->cin != OPTIONS_CIN_UNSET)
        return problem_set(problem, STATUS_INVALID,
                           "--cin without --example has nothing to enter; add --example A,B,OP");
    if (request->example != NULL && !draw_example(request, request->example, &working, problem))
        return false;
    bool gates = request->detail_given && request->unit.detail >= DETAIL_GATES;
    draw_unit(&request->unit, request->example != NULL ? &working : NULL, gates, scene);
    return true;
}

static bool write_scene(const Request *request, const Scene *scene, Problem *problem) {
    FILE *out = NULL;
    Files *files = files_open_one(request->svg, request->overwrite, &out, problem);
    if (files == NULL)
        return false;
    scene_write(scene, out);
    return files_commit(files, problem);
}

static bool frames_are_possible(const Request *request, Problem *problem) {
    if (request->example == NULL)
        return problem_set(problem, STATUS_INVALID,
                           "--frames without --example has no steps to show; add --example A,B,OP");
    if (request->unit.width > LESSON_WIDTH_MAX)
        return problem_set(problem, STATUS_INVALID,
                           "--frames cannot show %u columns; a step has room for %d, so ask for "
                           "--width %d or less",
                           request->unit.width, LESSON_WIDTH_MAX, LESSON_WIDTH_MAX);
    return work_frames_alone(request, problem);
}

static bool add_frames(Files *files, const Request *request, const Working *example,
                       Problem *problem) {
    Circuit circuit;
    Story story;
    bool good = true;
    story_tell(example, &story);
    circuit_open(example, request->detail_given && request->unit.detail >= DETAIL_GATES,
                 request->rectangular ? SYMBOLS_RECTANGULAR : SYMBOLS_DISTINCTIVE, &circuit);
    unsigned lines = frames_lines(&circuit, example, &story);
    for (unsigned step = 0; step < circuit.steps.count && good; step++) {
        FILE *out = NULL;
        good = work_add_frame(files, step, circuit.steps.count, &out, problem);
        if (good)
            frame_write(&circuit, example, &story, step, lines, out);
    }
    circuit_close(&circuit);
    story_free(&story);
    return good;
}

static bool write_frames(const Request *request, Problem *problem) {
    static Working example;
    if (!frames_are_possible(request, problem) ||
        !draw_example(request, request->example, &example, problem))
        return false;
    Files *files = files_open(request->frames, request->overwrite, problem);
    if (files == NULL)
        return false;
    if (add_frames(files, request, &example, problem))
        return files_commit(files, problem);
    files_abandon(files);
    return false;
}

bool command_draw(const Request *request, Problem *problem) {
    if (request->frames != NULL)
        return write_frames(request, problem);
    if (request->svg == NULL)
        return problem_set(problem, STATUS_INVALID,
                           "draw lacks --svg; name the file to draw into, for example --svg "
                           "%.64s.svg",
                           request->unit.name);
    Scene scene;
    bool good = draw_request(request, &scene, problem) && write_scene(request, &scene, problem);
    scene_free(&scene);
    return good;
}
