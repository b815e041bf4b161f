/* See names.h; also what a Verilog name may be. */
#include "unit/names.h"

#include "unit/unit.h"

#include <string.h>

const char *const control_names[] = {"", "fixed", "high", "low", "one-hot", "code", NULL};
const char *const sense_names[] = {"no-borrow", "borrow", NULL};
const char *const flag_names[] = {"carry",    "overflow",    "zero",
                                  "negative", "less-signed", "less-unsigned",
                                  "parity",   "half-carry",  NULL};
const char *const overflow_names[] = {"wrap", "saturate-signed", "saturate-unsigned", NULL};
const char *const structure_names[] = {"ripple",      "fewest",         "skip",        "select",
                                       "lookahead",   "sklansky",       "kogge-stone", "brent-kung",
                                       "han-carlson", "ladner-fischer", "depth",       NULL};
const char *const detail_names[] = {"", "operators", "cells", "gates", "nand", "nor", NULL};
const char *const registers_names[] = {"none", "output", "both", NULL};
const char *const reset_names[] = {"", "none", "sync", "async", NULL};
const char *const level_names[] = {"high", "low", NULL};

const char *control_name(Control control) {
    return control_names[control];
}

const char *sense_name(Sense sense) {
    return sense_names[sense];
}

const char *flag_name(Flag flag) {
    return flag_names[flag];
}

const char *overflow_name(Overflow overflow) {
    return overflow_names[overflow];
}

const char *structure_name(Structure structure) {
    return structure_names[structure];
}

const char *detail_name(Detail detail) {
    return detail_names[detail];
}

const char *registers_name(Registers registers) {
    return registers_names[registers];
}

const char *reset_name(Reset reset) {
    return reset_names[reset];
}

/* The keywords of IEEE 1364-2005, annex B. */
static const char *const keywords[] = {
    "always",
    "and",
    "assign",
    "automatic",
    "begin",
    "buf",
    "bufif0",
    "bufif1",
    "case",
    "casex",
    "casez",
    "cell",
    "cmos",
    "config",
    "deassign",
    "default",
    "defparam",
    "design",
    "disable",
    "edge",
    "else",
    "end",
    "endcase",
    "endconfig",
    "endfunction",
    "endgenerate",
    "endmodule",
    "endprimitive",
    "endspecify",
    "endtable",
    "endtask",
    "event",
    "for",
    "force",
    "forever",
    "fork",
    "function",
    "generate",
    "genvar",
    "highz0",
    "highz1",
    "if",
    "ifnone",
    "incdir",
    "include",
    "initial",
    "inout",
    "input",
    "instance",
    "integer",
    "join",
    "large",
    "liblist",
    "library",
    "localparam",
    "macromodule",
    "medium",
    "module",
    "nand",
    "negedge",
    "nmos",
    "nor",
    "noshowcancelled",
    "not",
    "notif0",
    "notif1",
    "or",
    "output",
    "parameter",
    "pmos",
    "posedge",
    "primitive",
    "pull0",
    "pull1",
    "pulldown",
    "pullup",
    "pulsestyle_onevent",
    "pulsestyle_ondetect",
    "rcmos",
    "real",
    "realtime",
    "reg",
    "release",
    "repeat",
    "rnmos",
    "rpmos",
    "rtran",
    "rtranif0",
    "rtranif1",
    "scalared",
    "showcancelled",
    "signed",
    "small",
    "specify",
    "specparam",
    "strong0",
    "strong1",
    "supply0",
    "supply1",
    "table",
    "task",
    "time",
    "tran",
    "tranif0",
    "tranif1",
    "tri",
    "tri0",
    "tri1",
    "triand",
    "trior",
    "trireg",
    "unsigned",
    "use",
    "uwire",
    "vectored",
    "wait",
    "wand",
    "weak0",
    "weak1",
    "while",
    "wire",
    "wor",
    "xnor",
    "xor",
};

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

static bool is_identifier(const char *name) {
    if (!is_letter(name[0]))
        return false;
    for (const char *c = name + 1; *c != '\0'; c++)
        if (!is_letter(*c) && !(*c >= '0' && *c <= '9') && *c != '$')
            return false;
    return true;
}

bool unit_check_name(const char *name, const char *what, Problem *problem) {
    if (strlen(name) > UNIT_NAME_MAX)
        return problem_set(problem, STATUS_INVALID,
                           "%s %s is %zu characters long; a name has at most %d", what,
                           problem_quote(name).text, strlen(name), UNIT_NAME_MAX);
    if (!is_identifier(name))
        return problem_set(problem, STATUS_INVALID,
                           "%s %s is not a Verilog name; a letter or _ comes first, then letters, "
                           "digits, _ and $",
                           what, problem_quote(name).text);
    for (size_t k = 0; k < sizeof keywords / sizeof keywords[0]; k++)
        if (strcmp(name, keywords[k]) == 0)
            return problem_set(problem, STATUS_INVALID,
                               "%s %s is a Verilog keyword; choose another name", what,
                               problem_quote(name).text);
    return true;
}
