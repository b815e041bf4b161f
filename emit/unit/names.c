/* What a Verilog name may be, see unit_check_name in unit.h. */
#include "unit/unit.h"

#include <stdio.h>
#include <string.h>

/* The keywords of IEEE 1364-2005, annex B, each between two spaces. */
static const char keywords[] =
    " always and assign automatic begin buf bufif0 bufif1 case casex casez cell cmos config "
    "deassign default defparam design disable edge else end endcase endconfig endfunction "
    "endgenerate endmodule endprimitive endspecify endtable endtask event for force forever fork "
    "function generate genvar highz0 highz1 if ifnone incdir include initial inout input "
    "instance integer join large liblist library localparam macromodule medium module nand "
    "negedge nmos nor noshowcancelled not notif0 notif1 or output parameter pmos posedge "
    "primitive pull0 pull1 pulldown pullup pulsestyle_onevent pulsestyle_ondetect rcmos real "
    "realtime reg release repeat rnmos rpmos rtran rtranif0 rtranif1 scalared showcancelled "
    "signed small specify specparam strong0 strong1 supply0 supply1 table task time tran tranif0 "
    "tranif1 tri tri0 tri1 triand trior trireg unsigned use uwire vectored wait wand weak0 weak1 "
    "while wire wor xnor xor ";

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

static bool is_keyword(const char *name) {
    char spaced[UNIT_NAME_MAX + 3];
    snprintf(spaced, sizeof spaced, " %s ", name);
    return strstr(keywords, spaced) != NULL;
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
    if (is_keyword(name))
        return problem_set(problem, STATUS_INVALID,
                           "%s %s is a Verilog keyword; choose another name", what,
                           problem_quote(name).text);
    return true;
}
