/* See simulate.h. */
#include "check/run/simulate.h"

#include "base/memory.h"
#include "check/run/fence.h"
#include "check/run/folder.h"
#include "check/run/inspect.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum {
    COMPILE_SECONDS = 4,
    RUN_SECONDS = 4,
    COLUMNS_A_SECOND = 100000, /* cases times width; what takes longer is no unit */
    ARGUMENT_BYTES = 64,
    LINE_BYTES = 512,
};
#define MEMORY_BYTES  (UINT64_C(1) << 30)
#define PRINTED_BYTES (UINT64_C(16) << 20)
#define TEXT_BYTES    (UINT64_C(128) << 20)

#define MEMORY "it may need more memory than the %llu MiB that a check gives it"

bool simulator_find(Simulator *simulator, Problem *problem) {
    *simulator = (Simulator){fence_find("iverilog"), fence_find("vvp")};
    if (simulator->iverilog != NULL && simulator->vvp != NULL)
        return true;
    return problem_set(
        problem, STATUS_SURROUNDINGS,
        "Icarus Verilog (iverilog and vvp) is not on the PATH; install it, on Debian "
        "and Ubuntu with apt install iverilog");
}

void simulator_free(Simulator *simulator) {
    free(simulator->iverilog);
    free(simulator->vvp);
}

/* ---- what the compiler said ---------------------------------------------------------------- */

/* A path as the user knows it, fit for one line. */
static void put_path(FILE *out, const char *path) {
    static const char plain[] =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_.-+/";
    bool odd = strspn(path, plain) != strlen(path);
    fputs(odd ? problem_quote(path).text : path, out);
}

/* The file that a message's "design2.v:7:" or "include1/part.v:7:" means, and what stands behind
 * the name; NULL when it is neither. */
static const char *put_file(const Design *design, const char *line, FILE *out) {
    for (size_t k = 0; k < design->sources->count; k++) {
        const Source *source = &design->sources->source[k];
        size_t length = strlen(source->safe);
        const char *name = strncmp(line, "./", 2) == 0 ? line + 2 : line;
        if (strncmp(name, source->safe, length) == 0 && name[length] == ':') {
            put_path(out, source->path);
            return name + length;
        }
    }
    if (strncmp(line, "include", 7) != 0 || strchr(line, '/') == NULL)
        return NULL;
    line = strchr(line, '/') + 1;
    char path[LINE_BYTES];
    size_t length = strcspn(line, ":");
    snprintf(path, sizeof path, "%.*s", (int)(length < sizeof path ? length : 0), line);
    put_path(out, path);
    return line + length;
}

/* The random tag of a name of the bench, "_" and hexadecimal digits, is nothing to the user. */
static size_t tag_at(const char *text) {
    size_t digits = text[0] == '_' ? strspn(text + 1, "0123456789abcdef") : 0;
    return digits == BENCH_TAG_BYTES - 1 ? digits + 1 : 0;
}

/* The line with safe names turned back, and what is the bench's taken out. */
static void say_line(const Design *design, const char *line, char *said, size_t room) {
    FILE *out = fmemopen(said, room, "w");
    said[0] = '\0';
    if (out == NULL)
        return;
    const char *rest = put_file(design, line, out);
    if (rest == NULL && strncmp(line, "bench_", 6) == 0) {
        rest = strchr(line, ' ');
        rest = rest == NULL ? line : rest + 1;
    }
    if (rest == NULL)
        rest = strncmp(line, ":0: ", 4) == 0 ? line + 4 : line; /* of no file */
    for (const char *c = rest; *c != '\0'; c++) {
        c += tag_at(c);
        if (*c == '\0')
            break;
        fputc(*c >= ' ' && *c <= '~' ? *c : '?', out);
    }
    fclose(out);
    said[room - 1] = '\0';
}

static bool says_nothing(const char *line) {
    return line[0] == '\0' || strcmp(line, "I give up.") == 0 ||
           strstr(line, ": warning: ") != NULL || strstr(line, ":        : ") != NULL;
}

/* What a line of the compiler means, where its words would puzzle; NULL elsewhere. */
static const char *meaning_of(const char *line) {
    if (strstr(line, "bad_alloc") != NULL || strstr(line, "malloc() ran out") != NULL)
        return "it needs more memory than a check gives it";
    if (strstr(line, "File size limit") != NULL)
        return "what the compiler makes of it is larger than any unit";
    if (strstr(line, "No top level modules") != NULL)
        return "there is no module in it";
    if (strstr(line, "bench_") != NULL &&
        (strstr(line, "root module") != NULL || strstr(line, "cannot nest") != NULL))
        return "a comment, string or module in it is not closed";
    return NULL;
}

/* By the ending of a file's name; in Verilog, SystemVerilog's keywords are names like others. */
bool simulate_is_system_verilog(const Design *design) {
    for (size_t k = 0; k < design->sources->count; k++)
        if (strstr(design->sources->source[k].safe, ".sv") != NULL)
            return true;
    return false;
}

/* The first line of the log that says something. */
static bool refuse_text(const Design *design, const char *log, Problem *problem) {
    char *path = folder_path(design->folder, log);
    FILE *in = fopen(path, "r");
    free(path);
    char line[LINE_BYTES] = "", said[LINE_BYTES] = "the compiler gives no reason";
    while (in != NULL && fgets(line, sizeof line, in) != NULL) {
        line[strcspn(line, "\n")] = '\0';
        if (says_nothing(line))
            continue;
        if (meaning_of(line) != NULL)
            snprintf(said, sizeof said, "%s", meaning_of(line));
        else
            say_line(design, line, said, sizeof said);
        break;
    }
    if (in != NULL)
        fclose(in);
    bool other =
        !simulate_is_system_verilog(design) && sources_speak_system_verilog(design->sources);
    return problem_set(problem, STATUS_UNTESTED, "it does not compile: %s%s", said,
                       other ? "; a file of SystemVerilog has a name that ends in .sv" : "");
}

/* ---- what it included ---------------------------------------------------------------------- */

static bool is_inside(const char *path, const char *folder) {
    size_t length = strlen(folder);
    return strncmp(path, folder, length) == 0 &&
           (path[length] == '/' || (length == 1 && folder[0] == '/'));
}

/* Is it a file of the design, or one beside it or below? */
static bool is_own(const Design *design, const char *path) {
    char *asked = path[0] == '/' ? folder_path("", path + 1) : folder_path(design->folder, path);
    char *resolved = realpath(asked, NULL);
    free(asked);
    bool own = false;
    for (size_t k = 0; resolved != NULL && k < design->sources->count; k++) {
        const Source *source = &design->sources->source[k];
        char *copy = folder_path(design->folder, source->safe);
        own = own || is_inside(resolved, source->folder) || strcmp(resolved, copy) == 0;
        free(copy);
    }
    free(resolved);
    return own;
}

static bool is_same_file(const struct stat *one, const char *path) {
    struct stat other;
    return stat(path, &other) == 0 && one->st_dev == other.st_dev && one->st_ino == other.st_ino;
}

/* Is it another design of the run, whatever links lead to it? */
static bool is_neighbour(const Design *design, const char *path) {
    char *asked = path[0] == '/' ? folder_path("", path + 1) : folder_path(design->folder, path);
    struct stat status;
    bool known = stat(asked, &status) == 0, neighbour = false;
    memory_free(asked);
    for (size_t k = 0; known && k < design->sources->count; k++)
        known = !is_same_file(&status, design->sources->source[k].path);
    for (size_t k = 0; known && k < design->other_count; k++)
        neighbour = neighbour || is_same_file(&status, design->others[k]);
    return neighbour;
}

/* The path that the design named: without the link that it was looked up through. */
static const char *as_written(const char *path) {
    size_t length = strlen("include");
    if (strncmp(path, "include", length) != 0)
        return path;
    length += strspn(path + length, "0123456789");
    return path[length] == '/' ? path + length + 1 : path;
}

/* The compiler's list of what it read: "M file" for sources, "I file" for included ones. */
static bool check_included(const Design *design, const char *list, Problem *problem) {
    char *path = folder_path(design->folder, list);
    size_t bytes = 0;
    char *text = source_load(path, PRINTED_BYTES, &bytes);
    free(path);
    bool good = true;
    for (char *line = text; line != NULL && *line != '\0' && good;) {
        char *end = line + strcspn(line, "\n");
        char *next = *end == '\0' ? end : end + 1;
        *end = '\0';
        if (line[0] == 'I' && !is_own(design, line + 2))
            good = problem_set(problem, STATUS_UNTESTED,
                               "it includes %s, which is not in its own folder; put what it needs "
                               "beside it",
                               problem_quote(as_written(line + 2)).text);
        else if (line[0] == 'I' && is_neighbour(design, line + 2))
            good =
                problem_set(problem, STATUS_UNTESTED,
                            "it includes %s, which is another design; a design stands on its own",
                            problem_quote(as_written(line + 2)).text);
        line = next;
    }
    free(text);
    return good;
}

/* ---- running the compiler ------------------------------------------------------------------ */

typedef struct {
    char (*text)[ARGUMENT_BYTES];
    char **list; /* ended by NULL */
    size_t count;
} Arguments;

static Arguments arguments_new(size_t room) {
    Arguments arguments = {memory_zeroed(room, ARGUMENT_BYTES),
                           memory_zeroed(room + 1, sizeof(char *)), 0};
    return arguments;
}

static void argument(Arguments *arguments, const char *before, const char *text) {
    char *place = arguments->text[arguments->count];
    snprintf(place, ARGUMENT_BYTES, "%s%s", before, text);
    arguments->list[arguments->count++] = place;
}

static void arguments_free(Arguments *arguments) {
    free(arguments->text);
    free(arguments->list);
}

/* What a compilation is for. */
typedef struct {
    const char *mode;  /* one more option, or "" */
    const char *top;   /* the only top module, or NULL */
    const char *bench; /* the bench's file, or NULL */
    const char *output;
    unsigned seconds;
} Compilation;

static void add_files(const Design *design, Arguments *arguments) {
    char number[32];
    for (size_t k = 0; k < design->sources->count; k++) {
        snprintf(number, sizeof number, "%zu", k + 1);
        argument(arguments, "-Iinclude", number);
    }
    for (size_t k = 0; k < design->sources->count; k++)
        argument(arguments, "", design->sources->source[k].safe);
}

/* The driver runs the compiler's two parts through a command line of its own; all names in it are
 * given here and by source.c, none by the design. */
static bool compile(const Design *design, const Compilation *compilation, Problem *problem) {
    Arguments arguments = arguments_new(2 * design->sources->count + 16);
    argument(&arguments, "", "iverilog");
    argument(&arguments, "", simulate_is_system_verilog(design) ? "-g2012" : "-g2005");
    argument(&arguments, "-Mprefix=", "included");
    if (compilation->mode[0] != '\0')
        argument(&arguments, "", compilation->mode);
    if (compilation->top != NULL)
        argument(&arguments, "-s", compilation->top);
    argument(&arguments, "-o", compilation->output);
    add_files(design, &arguments);
    if (compilation->bench != NULL)
        argument(&arguments, "", compilation->bench);
    FenceLimits limits = {compilation->seconds, MEMORY_BYTES, TEXT_BYTES, false};
    FenceEnd end = FENCE_DONE;
    bool good = fence_run(design->folder, design->simulator->iverilog, arguments.list,
                          "compiled.log", &limits, &end, problem);
    arguments_free(&arguments);
    if (!good || !check_included(design, "included", problem))
        return false;
    if (end == FENCE_TIME)
        return problem_set(problem, STATUS_UNTESTED,
                           "the compiler is not done with it after %u seconds; look for a loop "
                           "that does not end",
                           compilation->seconds);
    if (end == FENCE_CRASHED)
        return problem_set(problem, STATUS_UNTESTED, "the compiler ends without a result; " MEMORY,
                           (unsigned long long)(MEMORY_BYTES >> 20));
    return end == FENCE_DONE || refuse_text(design, "compiled.log", problem);
}

bool simulate_try(const Design *design, Problem *problem) {
    Compilation compilation = {"-tnull", NULL, NULL, "nothing", COMPILE_SECONDS};
    return compile(design, &compilation, problem);
}

bool simulate_preprocess(const Design *design, Problem *problem) {
    Compilation compilation = {"-E", NULL, NULL, "preprocessed", COMPILE_SECONDS};
    return compile(design, &compilation, problem);
}

bool simulate_headers(const Design *design, Headers *headers, char **text, Problem *problem) {
    *headers = (Headers){NULL, 0, false, false, 0};
    *text = NULL;
    for (size_t k = 0; k < design->sources->count; k++)
        headers_read(headers, design->sources->source[k].text, design->sources->source[k].bytes);
    if (!headers->conditional)
        return true;
    if (!simulate_preprocess(design, problem))
        return false;
    char *path = folder_path(design->folder, "preprocessed");
    size_t bytes = 0;
    *text = source_load(path, TEXT_BYTES, &bytes);
    free(path);
    headers_free(headers);
    if (*text != NULL)
        headers_read(headers, *text, bytes);
    return true;
}

/* ---- the run ------------------------------------------------------------------------------- */

/* Pins of another width than the unit's. A flag's is the design's mistake; the other pins' may be the
 * description's. */
static bool check_widths(const Bench *bench, const char *text, Widths *widths, Problem *problem) {
    const Unit *unit = bench->cases->unit;
    char instance[ARGUMENT_BYTES];
    snprintf(instance, sizeof instance, "dut_%s", bench->tag);
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        const HeaderPort *port = bench->mapping->port[pin];
        unsigned wanted = unit_pin_bits(unit, (Pin)pin);
        if (port == NULL)
            continue;
        unsigned bits = inspect_port_bits(text, instance, port->name);
        if (bits == 0)
            return problem_set(problem, STATUS_SURROUNDINGS,
                               "the simulator does not tell how wide port %s is; Icarus Verilog 11 "
                               "or later does",
                               problem_quote(port->name).text);
        widths->bits[pin] = bits;
        if (bits != wanted && pin < PIN_FLAG)
            return problem_set(problem, STATUS_UNTESTED,
                               "port %s has %u bit%s, and %s of the unit has %u; change one of "
                               "them, --width or --parameter",
                               problem_quote(port->name).text, bits, bits == 1 ? "" : "s",
                               unit_role(unit, (Pin)pin), wanted);
    }
    return true;
}

static bool inspect(const Design *design, const Bench *bench, Widths *widths, Problem *problem) {
    char *path = folder_path(design->folder, "compiled.vvp");
    size_t bytes = 0;
    char *text = source_load(path, TEXT_BYTES, &bytes);
    free(path);
    bool good = text != NULL && strlen(text) == bytes;
    if (!good)
        problem_set(problem, STATUS_UNTESTED, "what the compiler makes of it cannot be read");
    good = good && check_widths(bench, text, widths, problem) &&
           inspect_compiled(text, bench_memory_bits(bench), problem);
    free(text);
    return good;
}

static bool run(const Design *design, const Bench *bench, Problem *problem) {
    uint64_t words = bench->schedule->count;
    uint64_t width = bench->cases->unit->width;
    uint64_t written = bench_memory_bits(bench) + words * 8 + 4096; /* a character a bit */
    FenceLimits limits = {.seconds = RUN_SECONDS + (unsigned)(words * width / COLUMNS_A_SECOND),
                          .memory_bytes = MEMORY_BYTES,
                          .file_bytes = written > PRINTED_BYTES ? written : PRINTED_BYTES,
                          .alone = true};
    char program[] = "vvp", no_stop[] = "-n", file[] = "compiled.vvp";
    char *const arguments[] = {program, no_stop, file, NULL};
    FenceEnd end = FENCE_DONE;
    if (!fence_run(design->folder, design->simulator->vvp, arguments, "printed", &limits, &end,
                   problem))
        return false;
    switch (end) {
    case FENCE_TIME:
        return problem_set(problem, STATUS_UNTESTED,
                           "its simulation is not done after %u seconds; look for a loop, through "
                           "gates or in a process, that does not come to rest",
                           limits.seconds);
    case FENCE_OUTPUT:
        return problem_set(problem, STATUS_UNTESTED,
                           "it prints more than %llu MiB; take the printing out",
                           (unsigned long long)(limits.file_bytes >> 20));
    case FENCE_CRASHED:
        return problem_set(problem, STATUS_UNTESTED, "the simulator ends without a result; " MEMORY,
                           (unsigned long long)(MEMORY_BYTES >> 20));
    default:
        return true; /* with another status, too: what was seen decides */
    }
}

bool simulate_run(const Design *design, const Bench *bench, Widths *widths, Samples *samples,
                  Problem *problem) {
    *widths = (Widths){{0}};
    char top[ARGUMENT_BYTES], file[ARGUMENT_BYTES];
    snprintf(top, sizeof top, "bench_%s", bench->tag);
    snprintf(file, sizeof file, "bench_%s.v", bench->tag);
    Compilation compilation = {"", top, file, "compiled.vvp",
                               COMPILE_SECONDS + bench->cases->unit->width / 100};
    return bench_write(bench, design->folder, problem) && compile(design, &compilation, problem) &&
           inspect(design, bench, widths, problem) && run(design, bench, problem) &&
           bench_read(bench, design->folder, samples, problem);
}
