/* Any command line, an argument a line: it is refused in one plain line, or gives a unit whose
 * command can be spelled and whose Verilog, with that command in it, holds nothing but printable
 * text and the modules that it should.
 *   ./options_fuzz -max_total_time=60 -max_len=512 */
#include "gates/build.h"
#include "options/options.h"
#include "verilog/verilog.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ARGUMENTS_MAX = 24, WIDTH_TRIED = 16 };

static void check(bool good, const char *what) {
    if (good)
        return;
    fprintf(stderr, "wrong: %s\n", what);
    abort();
}

static bool is_plain(const char *text) {
    for (const char *c = text; *c != '\0'; c++)
        if (*c != '\n' && (*c < ' ' || *c > '~'))
            return false;
    return true;
}

static int count(const char *text, const char *word) {
    int found = 0;
    for (const char *at = strstr(text, word); at != NULL; at = strstr(at + 1, word))
        found++;
    return found;
}

/* The command that asks for it; the caller frees it. */
static char *spell(const Request *request) {
    char *text = NULL;
    size_t bytes = 0;
    FILE *out = open_memstream(&text, &bytes);
    check(out != NULL, "no memory");
    options_spell(request, out);
    fclose(out);
    check(strlen(text) == bytes && is_plain(text) && strchr(text, '\n') == NULL, "spelled badly");
    return text;
}

static void write_unit(const Request *request, const char *command) {
    char *text = NULL;
    size_t bytes = 0;
    Problem problem = {STATUS_DONE, ""};
    Templates templates = {NULL};
    Netlist netlist;
    build_netlist(&request->unit, &netlist);
    FILE *out = open_memstream(&text, &bytes);
    check(out != NULL, "no memory");
    bool good = verilog_write(&request->unit, &netlist, command, &templates, out, &problem);
    fclose(out);
    check(good, problem.text);
    check(strlen(text) == bytes && is_plain(text), "the Verilog is not plain text");
    int modules = count(text, "\nmodule ");
    check(modules > 0 && modules == count(text, "\nendmodule"), "module without end");
    free(text);
    netlist_free(&netlist);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static Request request;
    char *line = malloc(size + 1);
    char *arguments[ARGUMENTS_MAX + 2] = {"emit"};
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
    bool good = options_parse(COMMAND_EMIT, argument_count, arguments, &request, &problem);
    check(good == (problem.status == STATUS_DONE), "status and answer disagree");
    check(is_plain(problem.text) && strchr(problem.text, '\n') == NULL, "not one plain line");
    if (good && !request.help) {
        char *command = spell(&request);
        if (request.unit.width <= WIDTH_TRIED)
            write_unit(&request, command);
        free(command);
    }
    free(line);
    return 0;
}
