/* How many bits a range stands for: constant expressions of header.h, as far as headers need them.
 * Everything else is "not known", and the compiler finds the width out. */
#include "check/read/header.h"

#include <string.h>

enum { DEPTH_MAX = 32, WORK_MAX = 10000, VALUE_MAX = 1 << 20 };

typedef struct {
    const HeaderModule *module;
    const ParameterSettings *settings;
    Tokens tokens;
    Token token;
    int depth; /* of brackets and parameters within parameters */
    int work;  /* factors so far: parameters made of parameters could go on for ever */
    bool good;
} Computing;

static int64_t sum(Computing *computing);

static int64_t unknown(Computing *computing) {
    computing->good = false;
    return 0;
}

static void advance(Computing *computing) {
    computing->token = tokens_next(&computing->tokens);
}

/* Values past any width are not worth computing with, and cannot overflow what follows. */
static int64_t bounded(Computing *computing, int64_t value) {
    return value <= VALUE_MAX && value >= -VALUE_MAX ? value : unknown(computing);
}

static int64_t value_of_text(Computing *computing, const char *text) {
    Tokens tokens = computing->tokens;
    Token token = computing->token;
    tokens_begin(&computing->tokens, text, strlen(text));
    advance(computing);
    int64_t value = sum(computing);
    if (computing->token.kind != TOKEN_END)
        unknown(computing);
    computing->tokens = tokens;
    computing->token = token;
    return value;
}

static bool same_name(const char *name, const Token *token) {
    return strlen(name) == token->bytes && memcmp(name, token->text, token->bytes) == 0;
}

static int64_t value_of_name(Computing *computing) {
    const ParameterSettings *settings = computing->settings;
    const HeaderModule *module = computing->module;
    for (size_t k = 0; k < settings->count; k++)
        if (same_name(settings->setting[k].name, &computing->token))
            return value_of_text(computing, settings->setting[k].value);
    for (size_t k = 0; k < module->parameter_count; k++)
        if (same_name(module->parameter[k].name, &computing->token))
            return value_of_text(computing, module->parameter[k].value);
    return unknown(computing);
}

/* 12, 'd12, 8'hff, 4'b1010; the size is of no matter. */
static int64_t value_of_number(Computing *computing) {
    const char *at = computing->token.text, *end = at + computing->token.bytes;
    const char *mark = memchr(at, '\'', computing->token.bytes);
    int64_t base = 10, value = 0;
    if (mark != NULL) {
        at = mark + 1;
        if (at < end && (*at == 's' || *at == 'S'))
            at++;
        char letter = at < end ? *at++ : '?';
        base = strchr("hH", letter) != NULL ? 16 : strchr("bB", letter) != NULL ? 2 : 10;
        if (strchr("hHbBdD", letter) == NULL)
            return unknown(computing);
    }
    if (at == end)
        return unknown(computing);
    for (; at < end; at++) {
        static const char digits[] = "0123456789abcdef0123456789ABCDEF";
        if (*at == '_')
            continue;
        const char *digit = strchr(digits, *at);
        if (digit == NULL || (digit - digits) % 16 >= base)
            return unknown(computing);
        value = bounded(computing, value * base + (digit - digits) % 16);
    }
    return value;
}

static int64_t factor(Computing *computing) {
    if (!computing->good || ++computing->depth > DEPTH_MAX || ++computing->work > WORK_MAX)
        return unknown(computing);
    int64_t value = 0;
    bool minus = token_is_sign(&computing->token, '-');
    if (minus || token_is_sign(&computing->token, '+')) {
        advance(computing);
        value = minus ? -factor(computing) : factor(computing);
    } else if (token_is_sign(&computing->token, '(')) {
        advance(computing);
        value = sum(computing);
        if (!token_is_sign(&computing->token, ')'))
            unknown(computing);
        advance(computing);
    } else if (computing->token.kind == TOKEN_NAME) {
        value = value_of_name(computing);
        advance(computing);
    } else if (computing->token.kind == TOKEN_NUMBER) {
        value = value_of_number(computing);
        advance(computing);
    } else {
        unknown(computing);
    }
    computing->depth--;
    return value;
}

static int64_t product(Computing *computing) {
    int64_t value = factor(computing);
    while (computing->good) {
        bool times = token_is_sign(&computing->token, '*');
        if (!times && !token_is_sign(&computing->token, '/'))
            break;
        advance(computing);
        int64_t right = factor(computing);
        if (!times && right == 0)
            return unknown(computing);
        value = bounded(computing, times ? value * right : value / right);
    }
    return value;
}

static int64_t sum(Computing *computing) {
    int64_t value = product(computing);
    while (computing->good) {
        bool plus = token_is_sign(&computing->token, '+');
        if (!plus && !token_is_sign(&computing->token, '-'))
            break;
        advance(computing);
        int64_t right = product(computing);
        value = bounded(computing, plus ? value + right : value - right);
    }
    return value;
}

unsigned header_port_bits(const HeaderModule *module, const HeaderPort *port,
                          const ParameterSettings *settings) {
    if (port->range == NULL)
        return 1;
    Computing computing = {.module = module, .settings = settings, .good = true};
    tokens_begin(&computing.tokens, port->range, strlen(port->range));
    advance(&computing);
    int64_t left = sum(&computing);
    if (!token_is_sign(&computing.token, ':'))
        return 0;
    advance(&computing);
    int64_t right = sum(&computing);
    if (!computing.good || computing.token.kind != TOKEN_END)
        return 0;
    return (unsigned)(left > right ? left - right : right - left) + 1;
}

bool header_range_names(const HeaderPort *port, const char *parameter) {
    if (port->range == NULL)
        return false;
    Tokens tokens;
    tokens_begin(&tokens, port->range, strlen(port->range));
    for (Token token = tokens_next(&tokens); token.kind != TOKEN_END; token = tokens_next(&tokens))
        if (token.kind == TOKEN_NAME && same_name(parameter, &token))
            return true;
    return false;
}
