/* Which bytes of a text are characters: names of files may hold anything, and neither JSON nor SVG
 * may then become invalid. */
#ifndef SUMWRIGHT_WRITE_UTF8_H
#define SUMWRIGHT_WRITE_UTF8_H

#include <stddef.h>

/* The bytes of the character that text begins with, 1 to 4; 0 where no valid UTF-8 character
 * begins (RFC 3629: no overlong forms, no surrogates, nothing past U+10FFFF). text is not empty and
 * ends with a NUL. */
size_t utf8_bytes(const char *text);

/* How many characters a text has, each byte that is none of a character's counted as one. */
size_t utf8_count(const char *text);

#endif
