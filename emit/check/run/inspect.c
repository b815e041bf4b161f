/* See inspect.h. The text is not parsed: every place that could be a call counts as one, in a
 * string too, so that nothing can be hidden by how it is written. */
#include "check/run/inspect.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME_BYTES = 64 };

/* What prints to standard output, which nobody reads, and functions without effects. A task not
 * listed is refused: files, memories from files, the end of the simulation. */
static const char *const allowed[] = {
    "$display",    "$displayb",      "$displayh",       "$displayo", "$write",
    "$writeb",     "$writeh",        "$writeo",         "$strobe",   "$strobeb",
    "$strobeh",    "$strobeo",       "$monitor",        "$monitorb", "$monitorh",
    "$monitoro",   "$monitoron",     "$monitoroff",     "$time",     "$stime",
    "$realtime",   "$timeformat",    "$printtimescale", "$simtime",  "$random",
    "$urandom",    "$urandom_range", "$signed",         "$unsigned", "$clog2",
    "$bits",       "$size",          "$rtoi",           "$itor",     "$realtobits",
    "$bitstoreal", "$countones",     "$onehot",         "$onehot0",  "$isunknown",
    "$info",       "$warning",       "$error",          "$abs",      "$ln",
    "$log10",      "$exp",           "$sqrt",           "$pow",      "$floor",
    "$ceil",
};

/* What the bench calls, once each. */
static const char *const bench_calls[] = {"$readmemh", "$writememb", "$finish"};
enum { BENCH_CALLS = sizeof bench_calls / sizeof bench_calls[0] };

static const char *const modules[] = {"system.vpi",     "vhdl_sys.vpi", "vhdl_textio.vpi",
                                      "v2005_math.vpi", "va_math.vpi",  "v2009.vpi"};

static int find(const char *const *list, size_t count, const char *name) {
    for (size_t k = 0; k < count; k++)
        if (strcmp(list[k], name) == 0)
            return (int)k;
    return -1;
}

/* The string in quotes that follows, cut to the room; what follows it. */
static const char *quoted(const char *text, char name[NAME_BYTES]) {
    text += strcspn(text, "\"");
    text += *text == '"';
    size_t length = strcspn(text, "\"");
    snprintf(name, NAME_BYTES, "%.*s", (int)(length < NAME_BYTES ? length : NAME_BYTES - 1), text);
    return text + length;
}

static bool inspect_calls(const char *text, const char *mark, int *calls, Problem *problem) {
    char name[NAME_BYTES];
    for (const char *at = text; (at = strstr(at, mark)) != NULL;) {
        at = quoted(at, name);
        int own = find(bench_calls, BENCH_CALLS, name);
        if (own >= 0)
            calls[own]++;
        bool fine = own >= 0 ? calls[own] == 1
                             : find(allowed, sizeof allowed / sizeof allowed[0], name) >= 0;
        if (!fine)
            return problem_set(problem, STATUS_UNTESTED,
                               "it calls %s, which a unit has no use for; take the call out",
                               name[0] == '$' ? problem_quote(name).text : "an unknown task");
    }
    return true;
}

static bool inspect_modules(const char *text, Problem *problem) {
    char path[4096];
    for (const char *at = text; (at = strstr(at, ":vpi_module")) != NULL;) {
        const char *from = at + strcspn(at, "\"");
        from += *from == '"';
        size_t length = strcspn(from, "\"");
        snprintf(path, sizeof path, "%.*s", (int)(length < sizeof path ? length : 0), from);
        const char *slash = strrchr(path, '/');
        if (find(modules, sizeof modules / sizeof modules[0], slash != NULL ? slash + 1 : path) < 0)
            return problem_set(problem, STATUS_UNTESTED,
                               "it loads %s into the simulator; a unit needs no such module",
                               problem_quote(path).text);
        at = from + length;
    }
    return true;
}

/* What stands behind the last quote of the line: the name before it may hold anything, quotes and
 * numbers too, but no line end. */
static const char *behind_name(const char *line) {
    const char *end = line + strcspn(line, "\n"), *at = end;
    while (at > line && at[-1] != '"')
        at--;
    return at == line ? end : at;
}

/* A pair "high low" as declarations have it; how many that are, at most 2^32. */
static uint64_t pair(const char **text) {
    char *end = NULL;
    long long high = strtoll(*text, &end, 10);
    long long low = strtoll(end, &end, 10);
    *text = end;
    uint64_t span = high > low ? (uint64_t)high - (uint64_t)low : (uint64_t)low - (uint64_t)high;
    return (span < UINT32_MAX ? span : UINT32_MAX) + 1;
}

static bool inspect_memory(const char *text, uint64_t bench_bits, Problem *problem) {
    uint64_t bits = 0;
    for (const char *at = text; (at = strstr(at, ".array")) != NULL && bits < UINT64_MAX / 4;) {
        at = behind_name(at);
        if (*at != ',')
            continue;
        at++;
        uint64_t words = pair(&at);
        uint64_t width = 64;
        if (*at == ',') {
            at++;
            width = pair(&at);
        }
        bits += width < UINT32_MAX && words < UINT32_MAX ? words * width : UINT64_MAX / 4;
    }
    if (bits > bench_bits + INSPECT_MEMORY_BITS)
        return problem_set(problem, STATUS_UNTESTED,
                           "it keeps memories of more than %d bits; a unit needs none",
                           INSPECT_MEMORY_BITS);
    return true;
}

static const char *next_line(const char *line) {
    line += strcspn(line, "\n");
    return *line == '\n' ? line + 1 : line;
}

/* The lines behind an instance's own, to the next scope, list its ports among others:
 * `    .port_info 1 /OUTPUT 9 "sum";` */
static unsigned port_bits(const char *line, const char *name) {
    static const char mark[] = "    .port_info ";
    size_t length = strlen(name);
    for (line = next_line(line); *line != '\0' && strncmp(line, "S_", 2) != 0;
         line = next_line(line)) {
        char *end = NULL;
        if (strncmp(line, mark, strlen(mark)) != 0)
            continue;
        const char *at = line + strcspn(line, "/\n");
        at += strcspn(at, " \n");
        unsigned long bits = strtoul(at, &end, 10);
        if (strncmp(end, " \"", 2) == 0 && strncmp(end + 2, name, length) == 0 &&
            strncmp(end + 2 + length, "\";", 2) == 0)
            return bits < UINT32_MAX ? (unsigned)bits : UINT32_MAX;
    }
    return 0;
}

unsigned inspect_port_bits(const char *text, const char *instance, const char *name) {
    static const char before[] = ".scope module, \"";
    size_t length = strlen(instance);
    for (const char *at = text; (at = strstr(at, before)) != NULL;) {
        at += strlen(before);
        if (strncmp(at, instance, length) == 0 && at[length] == '"')
            return port_bits(at, name);
    }
    return 0;
}

bool inspect_compiled(const char *text, uint64_t bench_bits, Problem *problem) {
    static const char *const marks[] = {"vpi_call", "vpi_func", "sfunc"};
    int calls[BENCH_CALLS] = {0};
    for (size_t k = 0; k < sizeof marks / sizeof marks[0]; k++)
        if (!inspect_calls(text, marks[k], calls, problem))
            return false;
    return inspect_modules(text, problem) && inspect_memory(text, bench_bits, problem);
}
