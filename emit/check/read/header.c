/* See header.h. One pass over the words; `inside` keeps the place: a module's parameter list, its
 * port list, its body. Functions and tasks have inputs of their own and are passed over. */
#include "check/read/header.h"

#include "base/memory.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
    Tokens tokens;
    Token token; /* the one looked at */
    Headers *headers;
    HeaderModule *module;
} Reading;

/* ---- small things -------------------------------------------------------------------------- */

static char *copy_text(const char *text, size_t bytes) {
    char *copy = memory_zeroed(bytes + 1, 1);
    memcpy(copy, text, bytes);
    return copy;
}

static char *copy_token(const Token *token) {
    return copy_text(token->text, token->bytes);
}

/* Room for one thing more in an array that doubles when full. */
static void *grown(void *array, size_t count, size_t size) {
    if ((count & (count - 1)) != 0)
        return array;
    return memory_resize(array, count == 0 ? 1 : 2 * count, size);
}

static void advance(Reading *reading) {
    reading->token = tokens_next(&reading->tokens);
    if (reading->token.kind == TOKEN_STRANGE && reading->headers->strange == 0)
        reading->headers->strange = reading->token.line;
}

static bool at_end(const Reading *reading) {
    return reading->token.kind == TOKEN_END || token_is(&reading->token, "endmodule");
}

static bool at_sign(const Reading *reading, char sign) {
    return token_is_sign(&reading->token, sign);
}

static bool at_word(const Reading *reading, const char *word) {
    return token_is(&reading->token, word);
}

/* ---- words with blanks between ------------------------------------------------------------- */

typedef struct {
    char *text;
    size_t bytes, room;
} Words;

static void add_word(Words *words, const Token *token) {
    size_t wanted = words->bytes + token->bytes + 3;
    if (words->text == NULL || wanted > words->room) {
        words->room = 2 * wanted;
        words->text = memory_resize(words->text, words->room, 1);
    }
    if (words->bytes > 0)
        words->text[words->bytes++] = ' ';
    if (token->kind == TOKEN_MACRO)
        words->text[words->bytes++] = '`';
    memcpy(words->text + words->bytes, token->text, token->bytes);
    words->bytes += token->bytes;
    words->text[words->bytes] = '\0';
}

static int nesting(const Token *token) {
    if (token->kind != TOKEN_SIGN)
        return 0;
    if (strchr("([{", token->text[0]) != NULL)
        return 1;
    return strchr(")]}", token->text[0]) != NULL ? -1 : 0;
}

/* The words up to one of these signs outside all brackets, which stays the one looked at.
 * Allocated, NULL when there are none. */
static char *words_until(Reading *reading, const char *signs) {
    Words words = {NULL, 0, 0};
    for (int depth = 0; !at_end(reading); advance(reading)) {
        const Token *token = &reading->token;
        if (depth == 0 && token->kind == TOKEN_SIGN && strchr(signs, token->text[0]) != NULL)
            break;
        depth += nesting(token);
        add_word(&words, token);
    }
    return words.text;
}

/* A range, at its "["; the word behind "]" is looked at afterwards. */
static char *take_range(Reading *reading) {
    advance(reading);
    char *range = words_until(reading, "]");
    if (at_sign(reading, ']'))
        advance(reading);
    return range != NULL ? range : copy_text("", 0);
}

/* ---- parameters ---------------------------------------------------------------------------- */

static HeaderParameter *add_parameter(HeaderModule *module, const Token *name) {
    module->parameter =
        grown(module->parameter, module->parameter_count, sizeof *module->parameter);
    HeaderParameter *parameter = &module->parameter[module->parameter_count++];
    *parameter = (HeaderParameter){.name = copy_token(name)};
    return parameter;
}

/* After `parameter`, or in #( ... ): types and ranges, then NAME = value, up to one of the signs.
 */
static void read_parameters(Reading *reading, const char *end) {
    bool local = at_word(reading, "localparam");
    Token name = {.kind = TOKEN_END};
    while (!at_end(reading) &&
           !(reading->token.kind == TOKEN_SIGN && strchr(end, reading->token.text[0]) != NULL)) {
        if (at_sign(reading, '[')) {
            free(take_range(reading));
            continue;
        }
        if (at_word(reading, "parameter") || at_word(reading, "localparam"))
            local = at_word(reading, "localparam");
        else if (reading->token.kind == TOKEN_NAME)
            name = reading->token;
        bool equals = at_sign(reading, '=');
        advance(reading);
        if (!equals)
            continue;
        char *value = words_until(reading, ",;)");
        if (name.kind == TOKEN_NAME && !local)
            add_parameter(reading->module, &name)->value = value != NULL ? value : copy_text("", 0);
        else
            free(value);
        name.kind = TOKEN_END;
    }
}

/* ---- ports --------------------------------------------------------------------------------- */

static Direction direction_of(const Token *token) {
    if (token_is(token, "input"))
        return DIRECTION_INPUT;
    if (token_is(token, "output"))
        return DIRECTION_OUTPUT;
    return token_is(token, "inout") ? DIRECTION_INOUT : DIRECTION_UNKNOWN;
}

/* What may stand between the direction and the name. */
static bool is_type(const Token *token) {
    static const char *const types[] = {"wire",   "reg",   "logic",   "signed",  "unsigned",
                                        "tri",    "tri0",  "tri1",    "wand",    "wor",
                                        "uwire",  "var",   "bit",     "integer", "trireg",
                                        "triand", "trior", "supply0", "supply1"};
    for (size_t k = 0; k < sizeof types / sizeof types[0]; k++)
        if (token_is(token, types[k]))
            return true;
    return false;
}

/* NULL when there are more than any unit has. */
static HeaderPort *add_port(HeaderModule *module, const Token *name) {
    if (module->port_count == HEADER_PORTS_MAX)
        return NULL;
    module->port = grown(module->port, module->port_count, sizeof *module->port);
    HeaderPort *port = &module->port[module->port_count++];
    *port = (HeaderPort){.name = copy_token(name), .escaped = name->escaped};
    return port;
}

/* What a direction, a type or a range has said, and holds for the names that follow. */
typedef struct {
    Direction direction;
    char *range; /* allocated */
} Declaration;

static void declare(HeaderPort *port, const Declaration *declaration) {
    if (port == NULL)
        return;
    port->direction = declaration->direction;
    free(port->range);
    port->range = declaration->range == NULL
                      ? NULL
                      : copy_text(declaration->range, strlen(declaration->range));
}

/* A direction, types and a range, as far as they are there. */
static void take_declaration(Reading *reading, Declaration *declaration) {
    Direction direction = direction_of(&reading->token);
    if (direction == DIRECTION_UNKNOWN && !is_type(&reading->token) && !at_sign(reading, '['))
        return;
    if (direction != DIRECTION_UNKNOWN)
        declaration->direction = direction;
    free(declaration->range);
    declaration->range = NULL;
    while (direction_of(&reading->token) != DIRECTION_UNKNOWN || is_type(&reading->token))
        advance(reading);
    if (at_sign(reading, '['))
        declaration->range = take_range(reading);
    if (at_sign(reading, '[')) { /* of several dimensions the compiler knows the width */
        free(declaration->range);
        declaration->range = copy_text("", 0);
    }
}

/* Of several names the last; those before it, with their ranges, are types, whose width the compiler
 * knows. */
static Token take_port_name(Reading *reading, Declaration *declaration) {
    Token name = {.kind = TOKEN_END};
    bool typed = false;
    while ((reading->token.kind == TOKEN_NAME || at_sign(reading, '[')) && !at_end(reading)) {
        if (at_sign(reading, '[')) {
            free(take_range(reading));
            continue;
        }
        typed = typed || name.kind == TOKEN_NAME;
        name = reading->token;
        advance(reading);
    }
    if (typed) {
        free(declaration->range);
        declaration->range = copy_text("", 0);
    }
    return name;
}

/* input [3:0] a, b, output c, ... up to ")". */
static void read_ansi_ports(Reading *reading) {
    Declaration declaration = {DIRECTION_UNKNOWN, NULL};
    while (!at_end(reading) && !at_sign(reading, ')')) {
        take_declaration(reading, &declaration);
        Token name = take_port_name(reading, &declaration);
        if (name.kind == TOKEN_NAME)
            declare(add_port(reading->module, &name), &declaration);
        free(words_until(reading, ",)"));
        if (at_sign(reading, ','))
            advance(reading);
    }
    free(declaration.range);
}

/* .NAME(internal): the port's name is the first, the declared one the second. */
static void read_renamed_port(Reading *reading) {
    advance(reading);
    if (reading->token.kind != TOKEN_NAME || at_end(reading))
        return;
    HeaderPort *port = add_port(reading->module, &reading->token);
    advance(reading);
    if (at_sign(reading, '('))
        advance(reading);
    if (port != NULL && reading->token.kind == TOKEN_NAME && !at_end(reading))
        port->internal = copy_token(&reading->token);
    free(words_until(reading, ")"));
    if (at_sign(reading, ')'))
        advance(reading);
}

/* a, b, .c(d), ... up to ")". */
static void read_port_names(Reading *reading) {
    while (!at_end(reading) && !at_sign(reading, ')')) {
        if (at_sign(reading, '.'))
            read_renamed_port(reading);
        else if (reading->token.kind == TOKEN_NAME)
            add_port(reading->module, &reading->token);
        free(words_until(reading, ",)"));
        if (at_sign(reading, ','))
            advance(reading);
    }
}

static HeaderPort *find_port(HeaderModule *module, const Token *name) {
    for (size_t k = 0; k < module->port_count; k++) {
        HeaderPort *port = &module->port[k];
        const char *inside = port->internal != NULL ? port->internal : port->name;
        if (strlen(inside) == name->bytes && memcmp(inside, name->text, name->bytes) == 0)
            return port;
    }
    return NULL;
}

/* input [3:0] a, b; in the body of a module with a non-ANSI header. */
static void read_port_declaration(Reading *reading) {
    Declaration declaration = {DIRECTION_UNKNOWN, NULL};
    take_declaration(reading, &declaration);
    while (!at_end(reading) && !at_sign(reading, ';')) {
        HeaderPort *port =
            reading->token.kind == TOKEN_NAME ? find_port(reading->module, &reading->token) : NULL;
        if (port != NULL && port->direction == DIRECTION_UNKNOWN)
            declare(port, &declaration);
        free(words_until(reading, ",;"));
        if (at_sign(reading, ','))
            advance(reading);
    }
    free(declaration.range);
}

/* ---- modules ------------------------------------------------------------------------------- */

static void skip_to(Reading *reading, const char *word) {
    while (reading->token.kind != TOKEN_END && !at_word(reading, word))
        advance(reading);
}

/* A name before another name or a # may be the module of an instance. */
static void note_used(HeaderModule *module, const Token *before, const Token *token) {
    if (before->kind != TOKEN_NAME)
        return;
    if (token->kind != TOKEN_NAME && !token_is_sign(token, '#'))
        return;
    module->used = grown(module->used, module->used_count, sizeof *module->used);
    module->used[module->used_count++] = *before;
}

static void read_body(Reading *reading) {
    Token before = {.kind = TOKEN_END};
    while (!at_end(reading)) {
        if (at_word(reading, "function"))
            skip_to(reading, "endfunction");
        else if (at_word(reading, "task"))
            skip_to(reading, "endtask");
        note_used(reading->module, &before, &reading->token);
        before = reading->token;
        if (at_word(reading, "parameter"))
            read_parameters(reading, ";");
        else if (direction_of(&reading->token) != DIRECTION_UNKNOWN)
            read_port_declaration(reading);
        else
            advance(reading);
    }
    reading->headers->ends_early = reading->token.kind == TOKEN_END;
}

static void read_port_list(Reading *reading) {
    advance(reading);
    bool ansi = direction_of(&reading->token) != DIRECTION_UNKNOWN || is_type(&reading->token);
    if (ansi)
        read_ansi_ports(reading);
    else
        read_port_names(reading);
    if (at_sign(reading, ')'))
        advance(reading);
}

/* Behind the word `module`. */
static void read_module(Reading *reading) {
    while (at_word(reading, "automatic") || at_word(reading, "static"))
        advance(reading);
    if (reading->token.kind != TOKEN_NAME)
        return;
    Headers *headers = reading->headers;
    headers->module = grown(headers->module, headers->module_count, sizeof *headers->module);
    reading->module = &headers->module[headers->module_count++];
    *reading->module = (HeaderModule){.name = copy_token(&reading->token),
                                      .escaped = reading->token.escaped,
                                      .line = reading->token.line};
    advance(reading);
    if (at_sign(reading, '#')) {
        advance(reading);
        if (at_sign(reading, '('))
            advance(reading);
        read_parameters(reading, ")");
        if (at_sign(reading, ')'))
            advance(reading);
    }
    if (at_sign(reading, '('))
        read_port_list(reading);
    read_body(reading);
}

void headers_read(Headers *headers, const char *text, size_t bytes) {
    Reading reading = {.headers = headers};
    tokens_begin(&reading.tokens, text, bytes);
    advance(&reading);
    while (reading.token.kind != TOKEN_END) {
        bool module = at_word(&reading, "module") || at_word(&reading, "macromodule");
        if (at_word(&reading, "primitive"))
            skip_to(&reading, "endprimitive");
        advance(&reading);
        if (module)
            read_module(&reading);
    }
    headers->conditional = headers->conditional || reading.tokens.conditional;
}

static void module_free(HeaderModule *module) {
    for (size_t k = 0; k < module->port_count; k++) {
        free(module->port[k].name);
        free(module->port[k].internal);
        free(module->port[k].range);
    }
    for (size_t k = 0; k < module->parameter_count; k++) {
        free(module->parameter[k].name);
        free(module->parameter[k].value);
    }
    free(module->port);
    free(module->parameter);
    free(module->used);
    free(module->name);
}

void headers_free(Headers *headers) {
    for (size_t k = 0; k < headers->module_count; k++)
        module_free(&headers->module[k]);
    free(headers->module);
    *headers = (Headers){NULL, 0, false, false, 0};
}
