/* See table.h: every option, and what each value means. */
#include "options/table.h"

/* ---- values ------------------------------------------------------------------------------- */

#define VALUE(ID, name, meaning) {name, meaning},
static const Value format_values[] = {FORMATS(VALUE)};

static const Value leave_values[] = {LEAVES(VALUE)};

#define FLAG_VALUE(ID, pin, name, standard, meaning) {name, meaning},
static const Value flags_values[] = {
    {"all", "all of them"}, {"none", "none of them"}, FLAGS(FLAG_VALUE)};

static const Value level_values[] = {{"high", "a 1 resets"}, {"low", "a 0 resets"}};

static const Value symbol_values[] = {{"distinctive", "the shapes of IEEE Std 91"},
                                      {"rectangular", "the rectangles of IEC 60617-12"}};

/* ---- what rows are written with ------------------------------------------------------------ */

#define COMMAND_BIT(ID, ...) ON_##ID = 1u << COMMAND_##ID,
enum { COMMANDS(COMMAND_BIT) ON_EVERY = (1u << COMMAND_COUNT) - 1 };

#define FIELD(member) .offset = offsetof(Request, member), .size = sizeof(((Request *)NULL)->member)
#define COUNT(array)  (int)(sizeof(array) / sizeof(array)[0])
#define VALUES(array) .values = (array), .value_count = COUNT(array)

#define SWITCH(member)        .kind = OPTION_SWITCH, FIELD(member)
#define CHOICE(member, array) .kind = OPTION_CHOICE, FIELD(member), VALUES(array)
#define NUMBER(member, least_is, most_is)                                                          \
    .kind = OPTION_NUMBER, FIELD(member), .least = (least_is), .most = (most_is)
#define TEXT(member) .kind = OPTION_TEXT, FIELD(member)
#define TAKEN(taker) .kind = OPTION_TAKEN, .take = (taker)

/* ---- the options -------------------------------------------------------------------------- */

const Option options_table[] = {
    {"name", "NAME", "the module's name, a Verilog identifier", NULL,
     "from the operations and the width, e.g. addsub8", ON_EVERY, TAKEN(take_name),
     .spelled = SPELLED_ALWAYS, .spell = spell_name},
    {"width", "N", "bits in a word, 1 to 4096", NULL, "8", ON_EVERY,
     NUMBER(unit.width, 1, UNIT_WIDTH_MAX), .spelled = SPELLED_ALWAYS},
    {"operations", "LIST",
     "comma list of what the unit can do, a name or name=code, e.g. sub=101, for a code of its own",
     NULL, "add,sub", ON_EVERY, TAKEN(take_operations), VALUES(operation_values),
     .spelled = SPELLED_ALWAYS, .spell = spell_operations},
    {"control", "STYLE", "how the control pins choose the operation", NULL,
     "fixed for one operation, high for two, code for more", ON_EVERY,
     CHOICE(unit.control, control_values), .spelled = SPELLED_NEEDED},
    {"subtract-carry", "SENSE", "what a 1 on the carry pins says in a subtraction", NULL,
     "no-borrow", ON_EVERY, CHOICE(unit.sense, sense_values), .spelled = SPELLED_NEEDED},
    {"flags", "LIST",
     "comma list of flags; all and none stand alone, and all has half-carry from width 4 only",
     NULL, "carry,overflow,zero,negative", ON_EVERY, TAKEN(take_flags), VALUES(flags_values),
     .spelled = SPELLED_NEEDED, .spell = spell_flags},
    {"overflow", "RULE", "what becomes of a result that does not fit", NULL, "wrap", ON_EVERY,
     CHOICE(unit.overflow, overflow_values), .spelled = SPELLED_NEEDED},
    {"structure", "KIND", "how carries travel; N is a number of levels",
     "--detail operators leaves it to the synthesizer; fewest has no cells.", "ripple", ON_EVERY,
     TAKEN(take_structure), VALUES(structure_values), .spelled = SPELLED_NEEDED,
     .spell = spell_structure},
    {"detail", "KIND", "what the text is made of",
     "Operators and the cells of ripple keep a parameter WIDTH. Of NANDs or NORs alone, an "
     "inverter "
     "is one with both inputs tied.",
     "cells for ripple, gates for other structures", ON_EVERY, CHOICE(unit.detail, detail_values),
     .spelled = SPELLED_NEEDED},
    {"registers", "WHERE", "flip-flops at the outputs, or at both ends", NULL, "none", ON_EVERY,
     CHOICE(unit.registers, registers_values), .spelled = SPELLED_NEEDED},
    {"reset", "KIND", "how the registers are reset", NULL, "none; sync with registers", ON_EVERY,
     CHOICE(unit.reset, reset_values), .spelled = SPELLED_NEEDED},
    {"reset-level", "LEVEL", "the level that resets", NULL, "high", ON_EVERY,
     CHOICE(unit.reset_low, level_values), .spelled = SPELLED_NEEDED},
    {"enable", NULL, "a clock enable pin for the registers", NULL, "absent", ON_EVERY,
     SWITCH(unit.enable), .spelled = SPELLED_NEEDED},
    {"port", "ROLE=NAME", "another name for a pin; once for each pin to rename",
     "The roles are the pins' default names: a, b, cin, result, the flags with _ for -, the "
     "control "
     "pins (subtract, or mode for another pair of operations; do_add, do_sub and so on; op), clk, "
     "rst (rst_n where low resets) and en. To check it names the design's port for a pin; without "
     "it that is the port of that name, of a name that is common for such a pin, or the only one "
     "left of its direction and width.",
     "each role's own name", ON_EVERY, true, TAKEN(take_port), .spelled = SPELLED_NEEDED,
     .spell = spell_ports},
    {"out", "DIR", "where the files go; it must exist", NULL, "the current folder", ON_EMIT,
     TEXT(out)},
    {"overwrite", NULL, "replace existing files of other content", NULL, "refuse",
     ON_EMIT | ON_WORK | ON_COST | ON_DRAW | ON_LESSON | ON_EXERCISES, SWITCH(overwrite)},
    {"vectors", "N",
     "at most N random vectors, beside the compact, corner, walking and chain ones, which are "
     "always there; every input is tried where the input pins together are at most 17 bits",
     NULL, "2000", ON_EMIT | ON_CHECK, NUMBER(random, 0, OPTIONS_RANDOM_MAX),
     .spelled = SPELLED_NEEDED},
    {"seed", "N", "chooses the random vectors", NULL, "1", ON_EMIT | ON_CHECK,
     NUMBER(seed, 0, INT64_MAX), .spelled = SPELLED_NEEDED},
    {"coverage", "FILE",
     "writes what the vectors cover and catch, as JSON, to FILE beside the others",
     "FILE is a plain name, in the folder of the other files.", "none", ON_EMIT, TEXT(coverage),
     .check = check_plain_name, .spelled = SPELLED_NEEDED},
    {"templates", "DIR", "files in DIR take the place of the built-in templates of the same name",
     NULL, "the built-in ones", ON_EMIT, TEXT(templates), .spelled = SPELLED_NEEDED},
    {"module", "NAME", "the design's module", NULL, "the one that no other uses", ON_CHECK,
     TEXT(module)},
    {"parameter", "NAME=VALUE", "a parameter of the design's module; once for each", NULL,
     "the design's own values", ON_CHECK, true, TAKEN(take_parameter)},
    {"latency", "N", "clocks from operands to result of a design with a clock", NULL,
     "as --registers says", ON_CHECK, NUMBER(latency, 0, OPTIONS_LATENCY_MAX)},
    {"prove", NULL,
     "compares a design that passes the vectors for all inputs, read as gates by Yosys",
     "A design that cannot be read or compared so is UNPROVED, and the exit status 3.", "absent",
     ON_CHECK, SWITCH(prove)},
    {"each", NULL, "every file is a design of its own, and so is every .v and .sv file in a folder",
     "Prints a table.", "all files are one design", ON_CHECK, SWITCH(each)},
    {"jobs", "N", "designs checked at once", NULL, "the number of processors", ON_CHECK,
     NUMBER(jobs, 1, OPTIONS_JOBS_MAX)},
    {"format", "KIND", "how results are written", NULL, "text", ON_CHECK, .kind = OPTION_CHOICE,
     FIELD(format), .values = format_values, .value_count = FORMAT_JSON + 1},
    {"operation", "OP", "the operation that is worked", NULL, "the first of the unit's", ON_WORK,
     TEXT(operation), VALUES(operation_values)},
    {"cin", "LEVEL", "the level of the pin cin, 0 or 1, for an operation that reads it", NULL,
     "no carry, no borrow", ON_WORK | ON_DRAW | ON_LESSON, NUMBER(cin, 0, 1)},
    {"steps", NULL, "a line of reasoning for each column", "From the lowest column up.", "absent",
     ON_WORK, SWITCH(steps)},
    {"format", "KIND", "how results are written", NULL, "text", ON_COST,
     CHOICE(format, format_values)},
    {"structures", "LIST", "comma list of carry structures; N is a number of levels", NULL,
     "that of --structure, or every one that the unit can have", ON_COST, TAKEN(take_structures),
     VALUES(structure_values)},
    {"widths", "LIST", "comma list of bits in a word, each 1 to 4096", NULL,
     "that of --width, or 8,16,32,64", ON_COST, TAKEN(take_widths)},
    {"svg", "FILE", "draws the result into FILE too", NULL, "none", ON_WORK | ON_COST, TEXT(svg),
     .check = check_svg_name},
    {"svg", "FILE", "the drawing; draw needs it, or --frames", NULL, NULL, ON_DRAW, TEXT(svg),
     .check = check_svg_name},
    {"example", "A,B[,OP]",
     "an operation to show on the wires: its operands, as for work, and its name",
     "Wires of carries that are 1 are heavier, and the two carries that are compared have rings. "
     "An "
     "operation of one operand takes A or A,OP.",
     "none; of the unit's operations the first", ON_DRAW, TEXT(example)},
    {"frames", "DIR", "draws each step into a file of its own in DIR",
     "The files are step_00.svg and so on, of one size; what is new in a step has a frame. DIR "
     "must "
     "exist.",
     "none", ON_WORK | ON_DRAW, TEXT(frames)},
    {"bare", NULL, "the picture alone, without heading and notes", NULL, "absent", ON_DRAW,
     SWITCH(bare)},
    {"example", "A,B[,OP]",
     "an operation in the page's list: its operands, as for work, and its name; once for each",
     "The page opens with the first.", "one that borrows or overflows", ON_LESSON, true,
     TAKEN(take_example)},
    {"html", "FILE", "the page; lesson needs it", NULL, NULL, ON_LESSON, TEXT(html)},
    {"symbols", "SHAPES", "the shapes of gates, of IEEE Std 91 or of IEC 60617-12", NULL,
     "distinctive", ON_DRAW | ON_LESSON, CHOICE(rectangular, symbol_values)},
    {"count", "N", "how many exercises", NULL, "12", ON_EXERCISES,
     NUMBER(count, 1, OPTIONS_EXERCISES_MAX)},
    {"seed", "N", "chooses the operands", NULL, "1", ON_EXERCISES, NUMBER(seed, 0, INT64_MAX)},
    {"blank", "WHAT", "what is left to fill in", NULL, "all", ON_EXERCISES,
     CHOICE(leave, leave_values)},
    {"html", "FILE", "the sheet; exercises needs it", NULL, NULL, ON_EXERCISES, TEXT(html)},
    {"solutions", "FILE", "the same tables filled in, with what there is to say of each",
     "FILE is in the folder of the sheet.", "none", ON_EXERCISES, TEXT(solutions)},
    {"help", NULL, "show this", NULL, NULL, ON_EVERY, true, SWITCH(help)},
};

const int options_count = COUNT(options_table);

/* ---- the commands ------------------------------------------------------------------------- */

#define COMMAND_ROW(ID, id, summary, operands) [COMMAND_##ID] = {#id, summary, operands},
static const struct {
    const char *name;
    const char *summary;
    const char *operands;
} commands[COMMAND_COUNT] = {COMMANDS(COMMAND_ROW)};

const char *command_name(Command command) {
    return commands[command].name;
}

const char *command_summary(Command command) {
    return commands[command].summary;
}

const char *command_operands(Command command) {
    return commands[command].operands;
}

bool option_is_for(const Option *option, Command command) {
    return (option->commands >> command & 1) != 0;
}
