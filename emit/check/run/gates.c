/* See gates.h. */
#include "check/run/gates.h"

#include "base/memory.h"
#include "check/run/fence.h"
#include "check/run/folder.h"

#include <ctype.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SECONDS = 10, LINE_BYTES = 512, NAME_BYTES = 64, REASON_BYTES = 240 };
#define MEMORY_BYTES (UINT64_C(2) << 30)
#define FILE_BYTES   (UINT64_C(128) << 20)

char *gates_find_yosys(Problem *problem) {
    char *yosys = fence_find("yosys");
    if (yosys == NULL)
        problem_set(problem, STATUS_SURROUNDINGS,
                    "--prove reads designs with Yosys, which is not on the PATH; install it, on "
                    "Debian and Ubuntu with apt install yosys, or leave --prove out");
    return yosys;
}

/* ---- the text ------------------------------------------------------------------------------- */

typedef struct {
    const char *at, *end;
    FILE *out;
} Text;

/* Copies what ends with one of its own kind: a string, or an escaped name. */
static void copy_string(Text *text) {
    fputc(*text->at++, text->out);
    while (text->at < text->end && *text->at != '"' && *text->at != '\n') {
        if (*text->at == '\\' && text->at + 1 < text->end)
            fputc(*text->at++, text->out);
        fputc(*text->at++, text->out);
    }
}

static void copy_escaped(Text *text) {
    while (text->at < text->end && !isspace((unsigned char)*text->at))
        fputc(*text->at++, text->out);
}

/* Leaves out what stands up to and with the ending, but its ends of lines. */
static void skip_past(Text *text, const char *ending) {
    size_t length = strlen(ending);
    text->at += 2;
    while (text->at < text->end && strncmp(text->at, ending, length) != 0)
        if (*text->at++ == '\n')
            fputc('\n', text->out);
    text->at = text->end - text->at < (ptrdiff_t)length ? text->end : text->at + length;
    fputc(' ', text->out);
}

/* "(* full_case *)", and not "@(*)" */
static bool is_attribute(const Text *text) {
    const char *c = text->at + 2;
    while (c < text->end && isspace((unsigned char)*c))
        c++;
    return strncmp(text->at, "(*", 2) == 0 && *c != ')';
}

/* What the preprocessor leaves; anything else could be read in two ways. */
static bool is_known_directive(const char *at) {
    static const char *const known[] = {"`timescale", "`default_nettype", "`resetall",
                                        "`celldefine", "`endcelldefine"};
    size_t length = 1 + strspn(at + 1, "abcdefghijklmnopqrstuvwxyz_");
    for (size_t k = 0; k < sizeof known / sizeof known[0]; k++)
        if (strlen(known[k]) == length && strncmp(at, known[k], length) == 0)
            return true;
    return false;
}

/* Copies without comments and attributes; false where a directive is left. The text is followed by
 * a NUL. */
static bool copy_plain(Text *text) {
    while (text->at < text->end) {
        if (*text->at == '"')
            copy_string(text);
        if (text->at >= text->end)
            break;
        if (*text->at == '\\')
            copy_escaped(text);
        else if (strncmp(text->at, "//", 2) == 0)
            text->at += strcspn(text->at, "\n");
        else if (strncmp(text->at, "/*", 2) == 0)
            skip_past(text, "*/");
        else if (is_attribute(text))
            skip_past(text, "*)");
        else if (*text->at == '`' && !is_known_directive(text->at))
            return false;
        else
            fputc(*text->at++, text->out);
    }
    return true;
}

static bool cannot_write(Problem *problem) {
    return problem_set(problem, STATUS_SURROUNDINGS,
                       "cannot write in the temporary folder (%s); make room there or set TMPDIR",
                       strerror(errno));
}

static FILE *open_in(const char *folder, const char *name, Problem *problem) {
    char *path = folder_path(folder, name);
    FILE *out = fopen(path, "w");
    memory_free(path);
    if (out == NULL)
        cannot_write(problem);
    return out;
}

static bool write_text(const Design *design, const char *name, Problem *problem) {
    if (!simulate_preprocess(design, problem))
        return false;
    char *path = folder_path(design->folder, "preprocessed");
    size_t bytes = 0;
    char *loaded = source_load(path, FILE_BYTES, &bytes);
    memory_free(path);
    if (loaded == NULL || strlen(loaded) != bytes) {
        memory_free(loaded);
        return problem_set(problem, STATUS_UNTESTED,
                           "what the preprocessor makes of it cannot be "
                           "read");
    }
    FILE *out = open_in(design->folder, name, problem);
    bool good = out != NULL;
    if (good) {
        Text text = {loaded, loaded + bytes, out};
        if (!copy_plain(&text))
            good = problem_set(problem, STATUS_UNTESTED,
                               "it has a compiler directive that the proof does not read");
        if (fclose(out) != 0)
            good = cannot_write(problem);
    }
    memory_free(loaded);
    return good;
}

/* ---- the module around it ------------------------------------------------------------------- */

static void put_port(FILE *out, const HeaderPort *port, const char *role, const char *between) {
    fprintf(out, "%s.%s%s%s(pin_%s)", between, port->escaped ? "\\" : "", port->name,
            port->escaped ? " " : "", role);
}

static void put_parameters(const Bench *bench, FILE *out) {
    const char *between = " #(";
    for (size_t k = 0; k < bench->settings.count; k++, between = ", ")
        fprintf(out, "%s.%s(%s)", between, bench->settings.setting[k].name,
                bench->settings.setting[k].value);
    if (bench->mapping->parameter != NULL) {
        fprintf(out, "%s.%s(%u)", between, bench->mapping->parameter, bench->cases->unit->width);
        between = ", ";
    }
    if (between[0] == ',')
        fputc(')', out);
}

/* A module with the unit's pins that has the design in it. */
static bool write_wrapper(const Design *design, const Bench *bench, const char *name,
                          Problem *problem) {
    const Unit *unit = bench->cases->unit;
    const HeaderModule *module = bench->mapping->module;
    FILE *out = open_in(design->folder, name, problem);
    if (out == NULL)
        return false;
    fprintf(out, "module around_%s", bench->tag);
    const char *between = "(";
    for (int pin = 0; pin < PIN_COUNT; pin++)
        if (bench->mapping->port[pin] != NULL) {
            fprintf(out, "%s%s [%u:0] pin_%s", between,
                    pin_is_output((Pin)pin) ? "output" : "input", unit_pin_bits(unit, (Pin)pin) - 1,
                    unit_role(unit, (Pin)pin));
            between = ", ";
        }
    fprintf(out, ");\n  %s%s%s", module->escaped ? "\\" : "", module->name,
            module->escaped ? " " : "");
    put_parameters(bench, out);
    fprintf(out, " dut_%s", bench->tag);
    between = " (";
    for (int pin = 0; pin < PIN_COUNT; pin++)
        if (bench->mapping->port[pin] != NULL) {
            put_port(out, bench->mapping->port[pin], unit_role(unit, (Pin)pin), between);
            between = ", ";
        }
    fputs(");\nendmodule\n", out);
    return fclose(out) == 0 || cannot_write(problem);
}

/* ---- Yosys ---------------------------------------------------------------------------------- */

/* Its message as one line for the user: the file's name where there is one file. */
static void reason_of(const Design *design, const char *line, const char *text_name, char *reason) {
    const char *error = strstr(line, "ERROR: ");
    size_t length = strlen(text_name), used = 0;
    const char *name = strstr(line, text_name);
    unsigned long number = 0;
    if (name != NULL && name[length] == ':')
        number = strtoul(name + length + 1, NULL, 10);
    if (number > 0 && design->sources->count == 1)
        used = (size_t)snprintf(reason, REASON_BYTES,
                                "%.80s:%lu: ", design->sources->source[0].path, number);
    snprintf(reason + used, REASON_BYTES - used, "%s", error + strlen("ERROR: "));
    reason[strcspn(reason, "\n")] = '\0';
    if (strlen(reason) > 0 && reason[strlen(reason) - 1] == '.')
        reason[strlen(reason) - 1] = '\0';
    for (char *c = reason; *c != '\0'; c++)
        if (*c < ' ' || *c > '~')
            *c = '?';
}

static bool refuse(const Design *design, const char *log, const char *text_name, Problem *problem) {
    char *path = folder_path(design->folder, log);
    FILE *in = fopen(path, "r");
    memory_free(path);
    char line[LINE_BYTES], reason[REASON_BYTES] = "Yosys gives no reason";
    while (in != NULL && fgets(line, sizeof line, in) != NULL)
        if (strstr(line, "ERROR: ") != NULL)
            reason_of(design, line, text_name, reason);
    if (in != NULL)
        fclose(in);
    return problem_set(problem, STATUS_UNTESTED, "Yosys cannot read it as gates: %s", reason);
}

static bool run_yosys(const Design *design, const Bench *bench, const char *yosys,
                      const char *wrapper, const char *text, Problem *problem) {
    char *script = memory_text(
        "read_verilog %s; read_verilog %s -noassert -noassume %s; hierarchy -check -top around_%s; "
        "proc; flatten; memory_map; opt_clean; clk2fflogic; simplemap; techmap; setundef -undriven "
        "-anyseq; setundef -anyseq; aigmap; write_aiger -symbols gates_%s.aig",
        wrapper, simulate_is_system_verilog(design) ? "-sv" : "", text, bench->tag, bench->tag);
    char name[] = "yosys", quiet[] = "-q", no_banner[] = "-Q", no_footer[] = "-T", command[] = "-p";
    char *const arguments[] = {name, quiet, no_banner, no_footer, command, script, NULL};
    FenceLimits limits = {SECONDS, MEMORY_BYTES, FILE_BYTES, true};
    FenceEnd end = FENCE_DONE;
    bool good = fence_run(design->folder, yosys, arguments, "yosys.log", &limits, &end, problem);
    memory_free(script);
    if (!good || end == FENCE_DONE)
        return good;
    if (end == FENCE_FAILED)
        return refuse(design, "yosys.log", text, problem);
    return problem_set(problem, STATUS_UNTESTED,
                       "Yosys is not done with it within %d seconds and "
                       "%llu MiB",
                       SECONDS, (unsigned long long)(MEMORY_BYTES >> 20));
}

bool gates_read(const Design *design, const Bench *bench, const char *yosys, Aiger *aiger,
                Problem *problem) {
    char wrapper[NAME_BYTES], text[NAME_BYTES], gates[NAME_BYTES];
    *aiger = (Aiger){0};
    snprintf(wrapper, sizeof wrapper, "around_%s.v", bench->tag);
    snprintf(text, sizeof text, "text_%s.v", bench->tag);
    snprintf(gates, sizeof gates, "gates_%s.aig", bench->tag);
    if (!write_text(design, text, problem) || !write_wrapper(design, bench, wrapper, problem) ||
        !run_yosys(design, bench, yosys, wrapper, text, problem))
        return false;
    char *path = folder_path(design->folder, gates);
    size_t bytes = 0;
    char *loaded = source_load(path, FILE_BYTES, &bytes);
    memory_free(path);
    const char *wrong = loaded == NULL ? "there are none" : aiger_read(aiger, loaded, bytes);
    memory_free(loaded);
    return wrong == NULL ||
           problem_set(problem, STATUS_UNTESTED, "Yosys cannot read it as gates: %s", wrong);
}
