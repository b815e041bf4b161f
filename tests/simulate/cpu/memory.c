/* What the CPU's memory must hold after its program: memory PROGRAM.asm SENSE
 *
 * assembles the program, runs it with the reference model in place of the arithmetic unit, and
 * checks what it worked out for the day of readings against plain C arithmetic. Writes program.hex,
 * memory.hex (before) and expected.hex (after) into the current folder, for cpu_tb.v. */
#include "model/model.h"
#include "unit/unit.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    MEMORY = 4096,
    NAMES_MAX = 128,
    LINE_BYTES = 256,
    STEPS_MAX = 100000,
    HOURS = 24,
    PAIRS = 16
};

/* The kinds of instruction: see cpu.v. COMPARE is added to the three that compute. */
enum { IMMEDIATE, DIRECT, INDEXED, COMPARE = 4, STORE = 8, STORE_INDEXED, INDEX, INDEX_TEST };
enum { IF_SET = 12, IF_CLEAR, FLAGS, HALT };
enum { CLEAR = OP_COUNT }; /* a code that is no operation */

/* The day, invented: levels in millimetres above the datum, with a surge in the afternoon. */
static const uint16_t observed[HOURS] = {1841, 2544, 3212, 3690, 3901, 3775, 3333, 2702,
                                         2011, 1420, 1075, 1066, 1447, 2159, 3051, 3922,
                                         4550, 4771, 4514, 3860, 3004, 2166, 1532, 1221};
static const uint16_t predicted[HOURS] = {1900, 2610, 3280, 3755, 3950, 3812, 3360, 2717,
                                          2011, 1400, 1020, 960,  1235, 1791, 2513, 3252,
                                          3850, 4175, 4158, 3801, 3172, 2405, 1690, 1200};

/* Pairs of bytes that every flag tells apart: the ends of both ranges, equal ones, either order. */
static const uint8_t left[PAIRS] = {0x00, 0x00, 0x01, 0x7f, 0x7f, 0x80, 0x80, 0xff,
                                    0xff, 0x0f, 0x10, 0x55, 0xaa, 0x2c, 0x93, 0xc8};
static const uint8_t right[PAIRS] = {0x00, 0x01, 0x00, 0xff, 0x80, 0x7f, 0x01, 0xff,
                                     0x01, 0x01, 0x0f, 0xaa, 0xaa, 0x9b, 0x2a, 0x37};

/* Places that the program and the checks share. */
enum {
    AT_OBSERVED = 0x000,
    AT_PREDICTED = 0x040,
    AT_LEFT = 0x080,
    AT_RIGHT = 0x090,
    AT_RESIDUAL = 0x0a0,
    AT_RESIDUALS = 0x0e0,
    AT_DIFFERENCE = 0x0ec,
    AT_AGREE = 0x0f0,
    AT_HIGHEST = 0x0f2,
    AT_LARGEST = 0x0f4,
    AT_BELOW = 0x0f6,
    AT_BY_CARRY = 0x0f7,
    AT_CLEAR_BELOW = 0x0f8,
    AT_SET = 0x400,   /* a row of PAIRS for each flag: 1 where it is 1, */
    AT_CLEAR = 0x500, /* and 1 where it is 0 */
    HIGH = 0x20       /* from a table of low bytes to that of the high ones */
};

static void stop(const char *format, ...) __attribute__((format(printf, 1, 2), noreturn));

static void stop(const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    vfprintf(stderr, format, arguments);
    va_end(arguments);
    fputc('\n', stderr);
    exit(1);
}

/* ---- the assembler ------------------------------------------------------------------------ */

typedef struct {
    char name[LINE_BYTES];
    unsigned value;
} Name;

typedef struct {
    const char *path;
    int line;
    Name name[NAMES_MAX]; /* places and labels */
    int name_count;
    uint32_t program[MEMORY];
    unsigned size;
} Assembler;

static const struct {
    const char *mnemonic;
    int kind; /* IMMEDIATE and COMPARE: as the operand says */
    int operation;
} mnemonics[] = {
    {"lda", IMMEDIATE, OP_PASS}, {"add", IMMEDIATE, OP_ADD}, {"adc", IMMEDIATE, OP_ADC},
    {"sub", IMMEDIATE, OP_SUB},  {"sbc", IMMEDIATE, OP_SBC}, {"rsb", IMMEDIATE, OP_RSB},
    {"inc", IMMEDIATE, OP_INC},  {"dec", IMMEDIATE, OP_DEC}, {"neg", IMMEDIATE, OP_NEG},
    {"clr", IMMEDIATE, CLEAR},   {"tst", COMPARE, OP_PASS},  {"cmp", COMPARE, OP_SUB},
    {"cpc", COMPARE, OP_SBC},    {"sta", STORE, 0},          {"ldx", INDEX, OP_PASS},
    {"inx", INDEX, OP_INC},      {"dex", INDEX, OP_DEC},     {"cpx", INDEX_TEST, OP_SUB},
    {"ldf", FLAGS, 0},           {"hlt", HALT, 0},           {"if_set", IF_SET, 0},
    {"if_clear", IF_CLEAR, 0},
};
enum { MNEMONICS = sizeof mnemonics / sizeof mnemonics[0] };

static void define(Assembler *assembler, const char *name, unsigned value) {
    if (assembler->name_count == NAMES_MAX)
        stop("%s:%d: too many names", assembler->path, assembler->line);
    Name *added = &assembler->name[assembler->name_count++];
    snprintf(added->name, sizeof added->name, "%s", name);
    added->value = value;
}

/* A number, or a name, or name+number. Names may be unknown in the first pass. */
static unsigned value_of(const Assembler *assembler, const char *text, bool last_pass) {
    if (isdigit((unsigned char)text[0]))
        return (unsigned)strtoul(text, NULL, 0);
    size_t length = strcspn(text, "+");
    unsigned more = text[length] == '+' ? (unsigned)strtoul(text + length + 1, NULL, 0) : 0;
    for (int k = 0; k < assembler->name_count; k++)
        if (strlen(assembler->name[k].name) == length &&
            strncmp(assembler->name[k].name, text, length) == 0)
            return assembler->name[k].value + more;
    if (last_pass)
        stop("%s:%d: no '%s'", assembler->path, assembler->line, text);
    return 0;
}

static int flag_number(const Assembler *assembler, const char *name) {
    Unit unit;
    unit_init(&unit);
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        if (strcmp(unit_role(&unit, (Pin)(PIN_FLAG + flag)), name) == 0)
            return flag;
    stop("%s:%d: no flag '%s'", assembler->path, assembler->line, name);
}

/* One instruction from its words: mnemonic, then a flag or an operand, then a target. */
static uint32_t instruction(const Assembler *assembler, const char *mnemonic, const char *first,
                            char *second, bool last_pass) {
    int number = 0;
    while (number < MNEMONICS && strcmp(mnemonics[number].mnemonic, mnemonic) != 0)
        number++;
    if (number == MNEMONICS)
        stop("%s:%d: no instruction '%s'", assembler->path, assembler->line, mnemonic);
    int kind = mnemonics[number].kind, operation = mnemonics[number].operation;
    char operand[LINE_BYTES];
    snprintf(operand, sizeof operand, "%s", first);
    if (kind == IF_SET || kind == IF_CLEAR) {
        operation = flag_number(assembler, first);
        snprintf(operand, sizeof operand, "%s", second);
    } else {
        char *comma = strstr(operand, ",x");
        bool takes_place = operand[0] != '\0' && operand[0] != '#' && kind <= STORE;
        if (comma != NULL)
            *comma = '\0';
        if (kind < STORE && takes_place)
            kind += comma != NULL ? INDEXED : DIRECT;
        else if (kind == STORE && comma != NULL)
            kind = STORE_INDEXED;
    }
    const char *text = operand[0] == '#' ? operand + 1 : operand;
    unsigned value = text[0] == '\0' ? 0 : value_of(assembler, text, last_pass);
    return (uint32_t)kind << 16 | (uint32_t)operation << 12 | (value & 0xfff);
}

static void assemble_line(Assembler *assembler, char *line, bool last_pass) {
    char word[3][64] = {"", "", ""};
    line[strcspn(line, ";\n")] = '\0';
    char *colon = strchr(line, ':');
    if (colon != NULL) {
        *colon = '\0';
        if (!last_pass)
            define(assembler, line, assembler->size);
        line = colon + 1;
    }
    int words = sscanf(line, "%63s %63s %63s", word[0], word[1], word[2]);
    if (words <= 0)
        return;
    if (words == 3 && strcmp(word[1], "=") == 0) {
        if (!last_pass)
            define(assembler, word[0], value_of(assembler, word[2], true));
        return;
    }
    if (assembler->size == MEMORY)
        stop("%s:%d: the program is too long", assembler->path, assembler->line);
    assembler->program[assembler->size++] =
        instruction(assembler, word[0], word[1], word[2], last_pass);
}

static void assemble(Assembler *assembler, const char *path) {
    assembler->path = path;
    FILE *file = fopen(path, "r");
    if (file == NULL)
        stop("cannot open %s", path);
    for (int pass = 0; pass < 2; pass++) {
        char line[LINE_BYTES];
        rewind(file);
        assembler->size = 0;
        for (assembler->line = 1; fgets(line, sizeof line, file) != NULL; assembler->line++)
            assemble_line(assembler, line, pass == 1);
    }
    fclose(file);
}

/* ---- the CPU ------------------------------------------------------------------------------ */

typedef struct {
    Unit unit;
    uint8_t memory[MEMORY];
    unsigned counter;
    uint8_t accumulator;
    uint8_t index;
    bool flag[FLAG_COUNT];
    bool branched[2][FLAG_COUNT][2]; /* on clear or set, on this flag, not taken or taken */
} Cpu;

static void cpu_init(Cpu *cpu, Sense sense) {
    Problem problem = {0};
    memset(cpu, 0, sizeof *cpu);
    unit_init(&cpu->unit);
    cpu->unit.sense = sense;
    cpu->unit.choice_count = OP_COUNT;
    for (int op = 0; op < OP_COUNT; op++)
        cpu->unit.choice[op].operation = (Operation)op;
    if (!unit_settle(&cpu->unit, &problem))
        stop("%s", problem.text);
    for (int hour = 0; hour < HOURS; hour++) {
        cpu->memory[AT_OBSERVED + hour] = (uint8_t)observed[hour];
        cpu->memory[AT_OBSERVED + HIGH + hour] = (uint8_t)(observed[hour] >> 8);
        cpu->memory[AT_PREDICTED + hour] = (uint8_t)predicted[hour];
        cpu->memory[AT_PREDICTED + HIGH + hour] = (uint8_t)(predicted[hour] >> 8);
    }
    memcpy(cpu->memory + AT_LEFT, left, PAIRS);
    memcpy(cpu->memory + AT_RIGHT, right, PAIRS);
}

/* What the arithmetic unit gives; the flags become the CPU's when they are kept. */
static uint8_t compute(Cpu *cpu, int operation, uint8_t mine, uint8_t value, bool keep_flags) {
    Word a, b;
    Outcome outcome;
    int choice = operation < OP_COUNT ? operation : UNIT_NOTHING;
    word_set(&a, 8, operation == OP_PASS ? value : mine);
    word_set(&b, 8, value);
    model_outcome(&cpu->unit, choice, &a, &b, cpu->flag[FLAG_CARRY], &outcome);
    if (keep_flags)
        memcpy(cpu->flag, outcome.flag, sizeof cpu->flag);
    return (uint8_t)outcome.result.limb[0];
}

static uint8_t all_flags(const Cpu *cpu) {
    unsigned byte = 0;
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        byte = byte << 1 | cpu->flag[flag];
    return (uint8_t)byte;
}

/* One instruction; false when it halts. */
static bool step(Cpu *cpu, uint32_t instruction) {
    int kind = (int)(instruction >> 16), operation = (int)(instruction >> 12 & 15);
    unsigned operand = instruction & 0xfff;
    unsigned place = (operand + cpu->index) % MEMORY;
    bool keeps = operation != OP_PASS, set;
    cpu->counter++;
    switch (kind) {
    case IMMEDIATE:
    case DIRECT:
    case INDEXED:
    case IMMEDIATE + COMPARE:
    case DIRECT + COMPARE:
    case INDEXED + COMPARE: {
        unsigned from = kind % COMPARE == INDEXED ? place : operand;
        uint8_t value = kind % COMPARE == IMMEDIATE ? (uint8_t)operand : cpu->memory[from];
        uint8_t result = compute(cpu, operation, cpu->accumulator, value, kind >= COMPARE || keeps);
        if (kind < COMPARE)
            cpu->accumulator = result;
        return true;
    }
    case STORE:
    case STORE_INDEXED:
        cpu->memory[kind == STORE ? operand : place] = cpu->accumulator;
        return true;
    case INDEX:
        cpu->index = compute(cpu, operation, cpu->index, (uint8_t)operand, keeps);
        return true;
    case INDEX_TEST:
        compute(cpu, operation, cpu->index, (uint8_t)operand, true);
        return true;
    case IF_SET:
    case IF_CLEAR:
        set = kind == IF_SET;
        cpu->branched[set][operation][cpu->flag[operation] == set] = true;
        if (cpu->flag[operation] == set)
            cpu->counter = operand;
        return true;
    case FLAGS:
        cpu->accumulator = all_flags(cpu);
        return true;
    default:
        return false;
    }
}

static void run(Cpu *cpu, const Assembler *assembler) {
    int steps = 0;
    while (step(cpu, assembler->program[cpu->counter]))
        if (++steps > STEPS_MAX || cpu->counter >= assembler->size)
            stop("the program does not halt");
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        for (int set = 0; set < 2; set++)
            if (!cpu->branched[set][flag][0] || !cpu->branched[set][flag][1])
                stop("a branch on %s goes one way only", flag_name((Flag)flag));
    printf("%u instructions, %d steps\n", assembler->size, steps);
}

/* ---- the same in plain C ------------------------------------------------------------------ */

static void must_be(const Cpu *cpu, const char *what, unsigned at, int bytes, int64_t expected) {
    for (int k = 0; k < bytes; k++)
        if (cpu->memory[at + (unsigned)k] != ((uint64_t)expected >> 8 * k & 0xff))
            stop("%s is not %lld", what, (long long)expected);
}

static void check_day(const Cpu *cpu) {
    int sum = 0, highest = 0, largest = -32768, below = 0, clear_below = 0, not_below = 0;
    for (unsigned hour = 0; hour < HOURS; hour++) {
        int residual = observed[hour] - predicted[hour];
        must_be(cpu, "a residual's low byte", AT_RESIDUAL + hour, 1, residual & 0xff);
        must_be(cpu, "a residual's high byte", AT_RESIDUAL + HIGH + hour, 1, residual >> 8 & 0xff);
        sum += residual;
        highest = observed[hour] > highest ? observed[hour] : highest;
        largest = residual > largest ? residual : largest;
        below += residual < 0;
        not_below += residual >= 0;
        clear_below += residual < -100;
    }
    must_be(cpu, "the sum of the residuals", AT_RESIDUALS, 4, sum);
    must_be(cpu, "the difference of the sums", AT_DIFFERENCE, 4, sum);
    must_be(cpu, "the agreement of the two", AT_AGREE, 1, 1);
    must_be(cpu, "the highest level", AT_HIGHEST, 2, highest);
    must_be(cpu, "the largest surge", AT_LARGEST, 2, largest);
    must_be(cpu, "the hours below 0", AT_BELOW, 1, below);
    must_be(cpu, "the hours clearly below 0", AT_CLEAR_BELOW, 1, clear_below);
    must_be(cpu, "the hours with carry", AT_BY_CARRY, 1,
            cpu->unit.sense == SENSE_BORROW ? below : not_below);
}

/* Comparisons by flags are those of the numbers. */
static void check_comparisons(const Cpu *cpu) {
    for (unsigned k = 0; k < PAIRS; k++) {
        bool less = left[k] < right[k];
        bool less_signed = (left[k] ^ 0x80) < (right[k] ^ 0x80);
        bool carry = cpu->unit.sense == SENSE_BORROW ? less : !less;
        const struct {
            Flag flag;
            bool expected;
        } flags[] = {{FLAG_CARRY, carry},
                     {FLAG_ZERO, left[k] == right[k]},
                     {FLAG_LESS_SIGNED, less_signed},
                     {FLAG_LESS_UNSIGNED, less}};
        for (size_t f = 0; f < sizeof flags / sizeof *flags; f++) {
            unsigned row = (unsigned)flags[f].flag * PAIRS + k;
            must_be(cpu, "a comparison", AT_SET + row, 1, flags[f].expected);
            must_be(cpu, "a comparison", AT_CLEAR + row, 1, !flags[f].expected);
        }
    }
}

/* ---- files -------------------------------------------------------------------------------- */

static FILE *create(const char *path) {
    FILE *file = fopen(path, "w");
    if (file == NULL)
        stop("cannot write %s", path);
    return file;
}

static void write_memory(const char *path, const uint8_t *memory) {
    FILE *file = create(path);
    for (int k = 0; k < MEMORY; k++)
        fprintf(file, "%02x\n", memory[k]);
    fclose(file);
}

static void write_program(const char *path, const Assembler *assembler) {
    FILE *file = create(path);
    for (unsigned k = 0; k < MEMORY; k++)
        fprintf(file, "%05x\n", k < assembler->size ? assembler->program[k] : HALT << 16);
    fclose(file);
}

int main(int count, char **argument) {
    static Assembler assembler;
    static Cpu cpu;
    if (count != 3)
        stop("memory PROGRAM.asm SENSE");
    bool borrow = strcmp(argument[2], sense_name(SENSE_BORROW)) == 0;
    assemble(&assembler, argument[1]);
    write_program("program.hex", &assembler);
    cpu_init(&cpu, borrow ? SENSE_BORROW : SENSE_NO_BORROW);
    write_memory("memory.hex", cpu.memory);
    run(&cpu, &assembler);
    check_day(&cpu);
    check_comparisons(&cpu);
    write_memory("expected.hex", cpu.memory);
    return 0;
}
