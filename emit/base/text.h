/* A text that grows as it is added to: the one way in which the program puts texts together in
 * memory. {NULL, 0, 0} is an empty one. */
#ifndef SUMWRIGHT_BASE_TEXT_H
#define SUMWRIGHT_BASE_TEXT_H

#include <stddef.h>

/* text: NULL, or length bytes and a NUL after them. */
typedef struct {
    char *text;
    size_t length, room;
} TextBuffer;

/* Puts a text, so many bytes of one, or what printf would write, at the end. */
void text_add(TextBuffer *buffer, const char *text);
void text_add_bytes(TextBuffer *buffer, const char *bytes, size_t count);
void text_printf(TextBuffer *buffer, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* The text, "" when nothing was added, which the caller frees by memory_free(). The buffer is empty
 * again. */
char *text_take(TextBuffer *buffer);

/* Forgets the text. */
void text_free(TextBuffer *buffer);

#endif
