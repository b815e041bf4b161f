/* The words of Verilog text, as far as a module's header needs them: names, numbers, strings and
 * single signs; comments, attributes and compiler directives are passed over. header.c reads them.
 */
#ifndef SUMWRIGHT_CHECK_READ_TOKENS_H
#define SUMWRIGHT_CHECK_READ_TOKENS_H

#include <stdbool.h>
#include <stddef.h>

typedef enum {
    TOKEN_END,
    TOKEN_NAME,    /* an identifier or keyword; escaped: without the backslash */
    TOKEN_NUMBER,  /* 12, 4'b1010, 'h3f, 1.5 */
    TOKEN_STRING,  /* with its quotes */
    TOKEN_MACRO,   /* `NAME, without the sign: what it stands for is the compiler's to say */
    TOKEN_SIGN,    /* any other single character */
    TOKEN_STRANGE, /* a byte that no Verilog text has: a control character */
} TokenKind;

typedef struct {
    TokenKind kind;
    bool escaped;     /* TOKEN_NAME: written with a backslash */
    const char *text; /* in the source, not ended by a NUL */
    size_t bytes;
    unsigned line; /* from 1 */
} Token;

typedef struct {
    const char *at, *end;
    unsigned line;
    bool conditional; /* `ifdef, `include, or a macro was met: the text needs the preprocessor to be
                         read for sure */
} Tokens;

/* The text must outlive the tokens. */
void tokens_begin(Tokens *tokens, const char *text, size_t bytes);
Token tokens_next(Tokens *tokens);
/* Is it this keyword (never so when escaped), this sign? */
bool token_is(const Token *token, const char *keyword);
bool token_is_sign(const Token *token, char sign);

#endif
