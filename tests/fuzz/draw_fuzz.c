/* Any command line of draw, an argument a line: it is refused in one plain line, or gives a drawing
 * whose elements are closed and whose texts are escaped.
 *   ./draw_fuzz -max_total_time=60 -max_len=512 */
#include "commands/draw.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ARGUMENTS_MAX = 24, WIDTH_TRIED = 40 };

static void check(bool good, const char *what) {
    if (good)
        return;
    fprintf(stderr, "wrong: %s\n", what);
    abort();
}

static bool is_plain(const char *text) {
    for (const char *c = text; *c != '\0'; c++)
        if (*c < ' ' || *c > '~')
            return false;
    return true;
}

/* Every < opens a tag that is closed by a > before the next one, and every & is an entity. */
static void check_document(const char *text) {
    bool inside = false;
    int open = 0;
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '<') {
            check(!inside, "a tag in a tag");
            inside = true;
            open += c[1] == '/' ? -1 : c[1] == '?' ? 0 : 1;
        } else if (*c == '>') {
            check(inside, "the end of no tag");
            inside = false;
            open -= c[-1] == '/';
        } else if (*c == '&') {
            size_t length = strcspn(c, ";");
            check(length >= 3 && length <= 5, "no entity");
        }
    }
    check(!inside && open == 0, "an element is not closed");
    check(strstr(text, "<script") == NULL, "a script");
}

static void draw(const Request *request) {
    Scene scene;
    Problem problem = {STATUS_DONE, ""};
    char *text = NULL;
    size_t bytes = 0;
    if (draw_request(request, &scene, &problem)) {
        FILE *out = open_memstream(&text, &bytes);
        check(out != NULL, "no memory");
        scene_write(&scene, out);
        fclose(out);
        check(strlen(text) == bytes, "a zero in it");
        check_document(text);
        free(text);
    } else {
        check(problem.status == STATUS_INVALID && is_plain(problem.text), "not one plain line");
    }
    scene_free(&scene);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static Request request;
    char *line = malloc(size + 1);
    char *arguments[ARGUMENTS_MAX + 2] = {"draw"};
    int argument_count = 1;
    if (line == NULL)
        return 0;
    memcpy(line, data, size);
    line[size] = '\0';
    for (char *at = line; at != NULL && argument_count <= ARGUMENTS_MAX;) {
        arguments[argument_count++] = at;
        at = strchr(at, '\n');
        if (at != NULL)
            *at++ = '\0';
    }
    Problem problem = {STATUS_DONE, ""};
    bool good = options_parse(COMMAND_DRAW, argument_count, arguments, &request, &problem);
    check(good == (problem.status == STATUS_DONE), "status and answer disagree");
    check(is_plain(problem.text), "not one plain line");
    if (good && !request.help && request.unit.width <= WIDTH_TRIED)
        draw(&request);
    free(line);
    return 0;
}
