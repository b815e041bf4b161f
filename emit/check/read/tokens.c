/* See tokens.h. */
#include "check/read/tokens.h"

#include <string.h>

void tokens_begin(Tokens *tokens, const char *text, size_t bytes) {
    *tokens = (Tokens){.at = text, .end = text + bytes, .line = 1};
}

bool token_is(const Token *token, const char *keyword) {
    return token->kind == TOKEN_NAME && !token->escaped && strlen(keyword) == token->bytes &&
           memcmp(token->text, keyword, token->bytes) == 0;
}

bool token_is_sign(const Token *token, char sign) {
    return token->kind == TOKEN_SIGN && token->text[0] == sign;
}

/* The character this far on, NUL past the end. */
static char peek(const Tokens *tokens, size_t offset) {
    return (size_t)(tokens->end - tokens->at) > offset ? tokens->at[offset] : '\0';
}

static void step(Tokens *tokens) {
    if (*tokens->at == '\n')
        tokens->line++;
    tokens->at++;
}

static bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static bool begins_name(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '$';
}

static bool continues_name(char c) {
    return begins_name(c) || is_digit(c);
}

/* To behind the two characters that end a comment or an attribute, or to the end. */
static void skip_past(Tokens *tokens, const char *ending) {
    while (tokens->at < tokens->end &&
           !(peek(tokens, 0) == ending[0] && peek(tokens, 1) == ending[1]))
        step(tokens);
    for (int k = 0; k < 2 && tokens->at < tokens->end; k++)
        step(tokens);
}

/* To the end of the line; a backslash before it continues the line. */
static void skip_line(Tokens *tokens) {
    char before = '\0';
    while (tokens->at < tokens->end && !(*tokens->at == '\n' && before != '\\')) {
        before = *tokens->at == '\r' ? before : *tokens->at;
        step(tokens);
    }
}

/* Is what stands here an attribute, and not the (*) of an event control? */
static bool at_attribute(const Tokens *tokens) {
    if (peek(tokens, 0) != '(' || peek(tokens, 1) != '*')
        return false;
    size_t offset = 2;
    while (is_blank(peek(tokens, offset)))
        offset++;
    return peek(tokens, offset) != ')';
}

static void skip_what_says_nothing(Tokens *tokens) {
    for (const char *before = NULL; before != tokens->at;) {
        before = tokens->at;
        while (tokens->at < tokens->end && is_blank(*tokens->at))
            step(tokens);
        if (peek(tokens, 0) == '/' && peek(tokens, 1) == '/') {
            while (tokens->at < tokens->end && *tokens->at != '\n')
                step(tokens);
        } else if (peek(tokens, 0) == '/' && peek(tokens, 1) == '*') {
            tokens->at += 2;
            skip_past(tokens, "*/");
        } else if (at_attribute(tokens)) {
            tokens->at += 2;
            skip_past(tokens, "*)");
        }
    }
}

static void take_string(Tokens *tokens) {
    step(tokens);
    while (tokens->at < tokens->end && *tokens->at != '"' && *tokens->at != '\n') {
        if (*tokens->at == '\\' && tokens->end - tokens->at > 1)
            step(tokens);
        step(tokens);
    }
    if (tokens->at < tokens->end)
        step(tokens);
}

/* 12, 8'hff, 'd3, 1.5: what follows a digit or an apostrophe. */
static void take_number(Tokens *tokens) {
    while (is_digit(peek(tokens, 0)) || peek(tokens, 0) == '_')
        tokens->at++;
    bool based = peek(tokens, 0) == '\'';
    if (based || peek(tokens, 0) == '.')
        tokens->at++;
    while (continues_name(peek(tokens, 0)) || (based && peek(tokens, 0) == '?'))
        tokens->at++;
}

/* What becomes of a directive. */
typedef enum {
    DIRECTIVE_MACRO,       /* none of the language's: a macro */
    DIRECTIVE_ALONE,       /* nothing follows */
    DIRECTIVE_LINE,        /* the rest of its line belongs to it */
    DIRECTIVE_CONDITIONAL, /* what is read depends on it; a name may follow */
} DirectiveKind;

static DirectiveKind directive_kind(const char *name, size_t bytes) {
    static const struct {
        const char *name;
        DirectiveKind kind;
    } directives[] = {
        {"define", DIRECTIVE_LINE},         {"timescale", DIRECTIVE_LINE},
        {"line", DIRECTIVE_LINE},           {"default_nettype", DIRECTIVE_LINE},
        {"pragma", DIRECTIVE_LINE},         {"unconnected_drive", DIRECTIVE_LINE},
        {"begin_keywords", DIRECTIVE_LINE}, {"resetall", DIRECTIVE_ALONE},
        {"celldefine", DIRECTIVE_ALONE},    {"endcelldefine", DIRECTIVE_ALONE},
        {"end_keywords", DIRECTIVE_ALONE},  {"nounconnected_drive", DIRECTIVE_ALONE},
        {"include", DIRECTIVE_CONDITIONAL}, {"ifdef", DIRECTIVE_CONDITIONAL},
        {"ifndef", DIRECTIVE_CONDITIONAL},  {"elsif", DIRECTIVE_CONDITIONAL},
        {"else", DIRECTIVE_CONDITIONAL},    {"endif", DIRECTIVE_CONDITIONAL},
        {"undef", DIRECTIVE_LINE},
    };
    for (size_t k = 0; k < sizeof directives / sizeof directives[0]; k++)
        if (strlen(directives[k].name) == bytes && memcmp(directives[k].name, name, bytes) == 0)
            return directives[k].kind;
    return DIRECTIVE_MACRO;
}

/* A ` and its name. True when it was a directive and is passed over, false for a macro's name. */
static bool take_directive(Tokens *tokens) {
    const char *name = ++tokens->at;
    while (continues_name(peek(tokens, 0)))
        tokens->at++;
    DirectiveKind kind = directive_kind(name, (size_t)(tokens->at - name));
    if (kind == DIRECTIVE_MACRO || kind == DIRECTIVE_CONDITIONAL)
        tokens->conditional = true;
    bool names_something = kind == DIRECTIVE_CONDITIONAL && name[0] != 'e';
    if (kind == DIRECTIVE_LINE || names_something)
        skip_line(tokens);
    return kind != DIRECTIVE_MACRO;
}

static void take_escaped_name(Tokens *tokens, Token *token) {
    token->kind = TOKEN_NAME;
    token->escaped = true;
    token->text = ++tokens->at;
    while (tokens->at < tokens->end && !is_blank(*tokens->at))
        tokens->at++;
}

static void take_name(Tokens *tokens, Token *token) {
    token->kind = TOKEN_NAME;
    while (continues_name(peek(tokens, 0)))
        tokens->at++;
}

static void take_one(Tokens *tokens, Token *token) {
    unsigned char c = (unsigned char)*tokens->at;
    token->kind = c < ' ' || c == 127 ? TOKEN_STRANGE : TOKEN_SIGN;
    step(tokens);
}

Token tokens_next(Tokens *tokens) {
    for (;;) {
        skip_what_says_nothing(tokens);
        Token token = {.kind = TOKEN_END, .text = tokens->at, .line = tokens->line};
        if (tokens->at == tokens->end)
            return token;
        char c = *tokens->at;
        if (c == '`') {
            if (take_directive(tokens))
                continue;
            token.kind = TOKEN_MACRO;
            token.text++;
        } else if (c == '\\') {
            take_escaped_name(tokens, &token);
        } else if (c == '"') {
            token.kind = TOKEN_STRING;
            take_string(tokens);
        } else if (is_digit(c) || c == '\'') {
            token.kind = TOKEN_NUMBER;
            take_number(tokens);
        } else if (begins_name(c)) {
            take_name(tokens, &token);
        } else {
            take_one(tokens, &token);
        }
        token.bytes = (size_t)(tokens->at - token.text);
        return token;
    }
}
