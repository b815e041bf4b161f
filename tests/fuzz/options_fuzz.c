/* Any command line: it is refused in one plain line, or gives a unit whose Verilog holds nothing
 * but printable text and the modules that it should. */
#include "gates/build.h"
#include "unit/options.h"
#include "write/verilog.h"

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

static void write_unit(const Request *request) {
    char *text = NULL;
    size_t bytes = 0;
    Problem problem = {STATUS_DONE, ""};
    Templates templates = {NULL};
    Netlist netlist;
    build_netlist(&request->unit, &netlist);
    FILE *out = open_memstream(&text, &bytes);
    check(out != NULL, "no memory");
    bool good = verilog_write(&request->unit, &netlist, "x", &templates, out, &problem);
    fclose(out);
    check(good, problem.text);
    check(strlen(text) == bytes && is_plain(text), "the Verilog is not plain text");
    check(count(text, "\nmodule ") == count(text, "\nendmodule"), "module without end");
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
    for (char *at = strtok(line, "\n"); at != NULL && argument_count <= ARGUMENTS_MAX;
         at = strtok(NULL, "\n"))
        arguments[argument_count++] = at;
    Problem problem = {STATUS_DONE, ""};
    bool good = options_parse(COMMAND_EMIT, argument_count, arguments, &request, &problem);
    check(good == (problem.status == STATUS_DONE), "status and answer disagree");
    check(is_plain(problem.text) && strchr(problem.text, '\n') == NULL, "not one plain line");
    if (good && !request.help && request.unit.width <= WIDTH_TRIED)
        write_unit(&request);
    free(line);
    return 0;
}
