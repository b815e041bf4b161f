/* mutants: writes every mutant of the emitted unit u.v, in this folder, to m0.v, m1.v ..., each
 * with a testbench of its own, t0.v, t1.v ...; says how many. So that all go into one simulation,
 * modules are renamed, u to u5 and u_tb to u5_tb, and a testbench ends without ending the run. The
 * first line of a mutant says what is different. For mutants_test.sh.
 *
 * A mutant differs from the unit by one slip of a writer's hand, in the text between a module's
 * ports and its end:
 *
 *   operators   another operator of the same kind, a lost or added complement, the arms of ?:
 * swapped constants   a bit turned over, a number one too small or too great (so also an index, a
 * bound of a loop, the range of a vector) names       a name replaced by 0 or by 1, or, where it
 * ends in a number, by its neighbour's terms       one side of an operator dropped pins        the
 * wires at two pins of an instance exchanged; two targets exchanged registers   the other edge of a
 * clock
 *
 * Not every mutant compiles; those that do not are told apart by the compiler. */
#include <ctype.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TOKENS_MAX = 100000, ROOM = 1 << 22 };

typedef struct {
    const char *text;
    int length;
    int line;
    int body; /* between a module's ports and its end */
} Token;

static char *source, *testbench;
static Token token[TOKENS_MAX];
static int token_count;
static FILE *out;
static long made;

/* ---- tokens -------------------------------------------------------------------------------- */

static int token_length(const char *at) {
    static const char *const longs[] = {
        "<<<", "===", "!==", "<=", ">=", "==", "!=", "&&", "||", "~^"};
    int length = 0;
    if (isalnum((unsigned char)*at) || *at == '_') {
        while (isalnum((unsigned char)at[length]) || at[length] == '_' || at[length] == '$' ||
               at[length] == '\'')
            length++;
        return length;
    }
    for (size_t k = 0; k < sizeof longs / sizeof longs[0]; k++)
        if (strncmp(at, longs[k], strlen(longs[k])) == 0)
            return (int)strlen(longs[k]);
    return 1;
}

static int is(int k, const char *text) {
    return k >= 0 && k < token_count && (int)strlen(text) == token[k].length &&
           strncmp(token[k].text, text, (size_t)token[k].length) == 0;
}

static int is_name(int k) {
    static const char *const words[] = {
        "wire",   "reg",       "assign",   "begin",   "end",       "if",
        "else",   "for",       "always",   "posedge", "or",        "negedge",
        "genvar", "endmodule", "generate", "module",  "parameter", "endgenerate"};
    if (k < 0 || k >= token_count ||
        !(isalpha((unsigned char)*token[k].text) || *token[k].text == '_'))
        return 0;
    for (size_t w = 0; w < sizeof words / sizeof words[0]; w++)
        if (is(k, words[w]))
            return 0;
    return 1;
}

static int is_number(int k) {
    return k >= 0 && k < token_count && isdigit((unsigned char)*token[k].text);
}

static void read_tokens(void) {
    int line = 1, body = 0, header = 0, depth = 0, looped = 0;
    for (const char *at = source; *at != '\0';) {
        if (*at == '\n')
            line++;
        if (isspace((unsigned char)*at)) {
            at++;
        } else if (at[0] == '/' && at[1] == '/') {
            at += strcspn(at, "\n");
        } else {
            if (token_count == TOKENS_MAX)
                exit(3);
            Token *next = &token[token_count++];
            *next = (Token){at, token_length(at), line, body};
            at += next->length;
            int k = token_count - 1;
            header = header || is(k, "module");
            depth += is(k, "(") - is(k, ")");
            body = body && !is(k, "endmodule");
            if (header && is(k, ";") && depth == 0) {
                header = 0;
                body = 1;
            }
            /* How a loop ends and steps is left alone: the compiler would not come to an end. */
            looped = is(k, "for") ? 1 : looped == 1 && is(k, ";") ? 2 : looped;
            if (looped == 2 && depth == 0)
                looped = 0;
            next->body = next->body && looped != 2;
        }
    }
}

/* ---- writing ------------------------------------------------------------------------------- */

/* Text of u.v or u_tb.v, the modules renamed. */
static void put(const char *text, size_t length) {
    for (size_t k = 0; k < length; k++) {
        bool starts = k == 0 || !(isalnum((unsigned char)text[k - 1]) || text[k - 1] == '_');
        bool ends = k + 1 == length || !isalnum((unsigned char)text[k + 1]);
        fputc(text[k], out);
        if (text[k] == 'u' && starts && ends && !(k > 0 && strchr("'.", text[k - 1]) != NULL))
            fprintf(out, "%ld", made);
    }
}

static void open_file(char letter) {
    char name[32];
    snprintf(name, sizeof name, "%c%ld.v", letter, made);
    out = fopen(name, "w");
    if (out == NULL)
        exit(4);
}

/* The testbench of the mutant, without the lines that end the run. */
static void put_testbench(void) {
    open_file('t');
    for (const char *line = testbench; *line != '\0';) {
        size_t length = strcspn(line, "\n") + 1;
        char text[4096];
        snprintf(text, sizeof text, "%.*s", (int)length, line);
        if (strstr(text, "$fatal(1);") == NULL && strstr(text, "$finish;") == NULL)
            put(line, length);
        line += length;
    }
    fclose(out);
}

/* The file with the tokens from ... to - 1 replaced. */
static void mutant(int from, int to, const char *text, const char *what) {
    const char *first = token[from].text, *rest = token[to - 1].text + token[to - 1].length;
    open_file('m');
    fprintf(out, "// line %d: %s\n", token[from].line, what);
    put(source, (size_t)(first - source));
    put(text, strlen(text));
    put(rest, strlen(rest));
    fclose(out);
    put_testbench();
    made++;
}

/* Two stretches of tokens, the first before the second, exchanged. */
static void exchange(int a, int a_end, int b, int b_end, const char *what) {
    const char *at[6] = {source,
                         token[a].text,
                         token[a_end - 1].text + token[a_end - 1].length,
                         token[b].text,
                         token[b_end - 1].text + token[b_end - 1].length,
                         source + strlen(source)};
    static const int order[] = {0, 3, 2, 1, 4};
    open_file('m');
    fprintf(out, "// line %d: %s\n", token[a].line, what);
    for (int part = 0; part < 5; part++)
        put(at[order[part]], (size_t)(at[order[part] + 1] - at[order[part]]));
    fclose(out);
    put_testbench();
    made++;
}

/* ---- slips --------------------------------------------------------------------------------- */

static void other_operator(int k) {
    static const char *const kinds[][4] = {{"&", "|", "^", NULL}, {"+", "-", NULL},
                                           {"==", "!=", NULL},    {"===", "!==", NULL},
                                           {"&&", "||", NULL},    {"<", "<=", ">", NULL}};
    for (size_t kind = 0; kind < sizeof kinds / sizeof kinds[0]; kind++)
        for (int mine = 0; kinds[kind][mine] != NULL; mine++)
            for (int other = 0; is(k, kinds[kind][mine]) && kinds[kind][other] != NULL; other++)
                if (other != mine)
                    mutant(k, k + 1, kinds[kind][other], "another operator");
}

/* The end of the operand that starts at k: complements, then a name with indices and members, a
 * number, or brackets. */
static int operand_end(int k) {
    while (is(k, "~") || is(k, "!"))
        k++;
    int at = k, depth = 0;
    if (is_name(k) || is_number(k))
        at = k + 1;
    while (at < token_count && (is(at, "(") || is(at, "[") || is(at, "{")) &&
           (at == k || is(at, "["))) {
        do {
            depth += is(at, "(") + is(at, "[") + is(at, "{");
            depth -= is(at, ")") + is(at, "]") + is(at, "}");
            at++;
        } while (depth > 0 && at < token_count);
        if (is(at, ".") && is_name(at + 1))
            at += 2;
        if (!is(at, "["))
            break;
    }
    return at > k ? at : -1;
}

static int operand_start(int end) { /* of the operand whose last token is end - 1 */
    for (int start = end - 1; start > 0 && start > end - 64; start--)
        if (operand_end(start) == end && !is(start - 1, ".") && !is(start - 1, "]")) {
            while (is(start - 1, "~"))
                start--;
            return start;
        }
    return -1;
}

static void dropped_term(int k) {
    static const char *const binary[] = {"&", "|", "^", "+", "-", "&&", "||"};
    int found = 0;
    for (size_t b = 0; b < sizeof binary / sizeof binary[0]; b++)
        found = found || is(k, binary[b]);
    int left = found ? operand_start(k) : -1, right = found ? operand_end(k + 1) : -1;
    if (left >= 0)
        mutant(left, k + 1, "", "the term before the operator dropped");
    if (left >= 0 && right >= 0)
        mutant(k, right, "", "the term after the operator dropped");
}

static void complement(int k) {
    if (is(k, "~"))
        mutant(k, k + 1, "", "a complement lost");
}

static void constant(int k) {
    char text[64];
    if (!is_number(k))
        return;
    const char *quote = memchr(token[k].text, '\'', (size_t)token[k].length);
    if (quote == NULL) {
        long value = strtol(token[k].text, NULL, 10);
        snprintf(text, sizeof text, "%ld", value + 1);
        mutant(k, k + 1, text, "a number one too great");
        snprintf(text, sizeof text, "%ld", value - 1);
        if (value > 0)
            mutant(k, k + 1, text, "a number one too small");
        return;
    }
    for (int at = (int)(quote - token[k].text) + 2; at < token[k].length; at++) {
        snprintf(text, sizeof text, "%.*s", token[k].length, token[k].text);
        if (at >= (int)sizeof text || (text[at] != '0' && text[at] != '1'))
            continue;
        text[at] = text[at] == '0' ? '1' : '0';
        mutant(k, k + 1, text, "a bit of a constant turned over");
    }
}

static int is_read(int k) { /* a name that is not being declared, assigned or instantiated */
    return is_name(k) && !is(k, "WIDTH") && !is(k, "i") && !is(k - 1, ".") && !is(k - 1, ":") &&
           !is(k - 1, "wire") && !is(k - 1, "reg") && !is(k - 1, "]") && !is(k - 1, "genvar") &&
           !is_name(k - 1) && !is_name(k + 1) && !is(k + 1, "=") && !is(k + 1, "<=") &&
           !is(k - 1, "assign");
}

static void complemented(int k) {
    char text[1200];
    snprintf(text, sizeof text, "~%.*s", token[k].length, token[k].text);
    mutant(k, k + 1, text, "a complement added");
}

static void name(int k) {
    char text[1200];
    if (!is_read(k) || token[k].length > 1000)
        return;
    int end = operand_end(k);
    if (end < 0)
        return;
    complemented(k);
    if (end == k + 1 || is(end - 1, "]")) {
        mutant(k, end, "1'b0", "a wire replaced by 0");
        mutant(k, end, "1'b1", "a wire replaced by 1");
    }
    int digits = token[k].length;
    while (digits > 0 && isdigit((unsigned char)token[k].text[digits - 1]))
        digits--;
    if (digits == token[k].length || token[k].text[digits - 1] != '_')
        return;
    long number = strtol(token[k].text + digits, NULL, 10);
    for (int step = -1; step <= 1; step += 2) {
        if (number + step < 0)
            continue;
        snprintf(text, sizeof text, "%.*s%ld", digits, token[k].text, number + step);
        mutant(k, k + 1, text, "the neighbour's wire");
    }
}

static void arms(int k) {
    int yes_end = is(k, "?") ? operand_end(k + 1) : -1;
    int no_end = yes_end >= 0 && is(yes_end, ":") ? operand_end(yes_end + 1) : -1;
    if (no_end >= 0)
        exchange(k + 1, yes_end, yes_end + 1, no_end, "the arms of ?: exchanged");
}

static int close(int open) {
    int depth = 0, at = open;
    do {
        depth += is(at, "(") - is(at, ")");
        at++;
    } while (depth > 0 && at < token_count);
    return at;
}

static void pins(int k) { /* .first(...), .second(...), anywhere later in the same instance */
    if (!is(k, ".") || !is(k + 2, "("))
        return;
    int end = close(k + 2);
    for (int other = end; is(other, ",") && is(other + 1, ".") && is(other + 3, "(");) {
        int other_end = close(other + 3);
        exchange(k + 3, end - 1, other + 4, other_end - 1, "the wires at two pins exchanged");
        other = other_end;
    }
}

static int target_end(int k) {
    int end = is(k, "assign") ? operand_end(k + 1) : -1;
    return end >= 0 && is(end, "=") ? end : -1;
}

static void targets(int k) { /* of this assign and the next */
    int end = target_end(k), next = k + 1;
    while (end >= 0 && next < token_count && !is(next, ";"))
        next++;
    int next_end = end >= 0 ? target_end(next + 1) : -1;
    if (next_end >= 0)
        exchange(k + 1, end, next + 2, next_end, "two targets exchanged");
}

static void edge(int k) {
    if (is(k, "posedge"))
        mutant(k, k + 1, "negedge", "the other edge");
    if (is(k, "negedge"))
        mutant(k, k + 1, "posedge", "the other edge");
}

static void every_mutant(void) {
    static void (*const slips[])(int) = {other_operator, dropped_term, complement, constant, name,
                                         arms,           pins,         targets,    edge};
    for (int k = 1; k < token_count; k++)
        for (size_t s = 0; s < sizeof slips / sizeof slips[0] && token[k].body; s++)
            slips[s](k);
}

static char *read_file(const char *name) {
    FILE *file = fopen(name, "r");
    char *text = calloc(ROOM, 1);
    if (file == NULL || text == NULL || fread(text, 1, ROOM - 1, file) == 0)
        exit(4);
    fclose(file);
    return text;
}

int main(void) {
    source = read_file("u.v");
    testbench = read_file("u_tb.v");
    read_tokens();
    every_mutant();
    printf("%ld\n", made);
    free(source);
    free(testbench);
    return 0;
}
