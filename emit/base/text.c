/* See text.h. */
#include "base/text.h"

#include "base/memory.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void text_add_bytes(TextBuffer *buffer, const char *bytes, size_t count) {
    buffer->text = memory_grow(buffer->text, &buffer->room, buffer->length + count + 1, 1);
    if (count > 0)
        memcpy(buffer->text + buffer->length, bytes, count);
    buffer->length += count;
    buffer->text[buffer->length] = '\0';
}

void text_add(TextBuffer *buffer, const char *text) {
    text_add_bytes(buffer, text, strlen(text));
}

void text_printf(TextBuffer *buffer, const char *format, ...) {
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    int bytes = vsnprintf(NULL, 0, format, again);
    va_end(again);
    size_t count = bytes < 0 ? 0 : (size_t)bytes;
    buffer->text = memory_grow(buffer->text, &buffer->room, buffer->length + count + 1, 1);
    vsnprintf(buffer->text + buffer->length, count + 1, format, arguments);
    va_end(arguments);
    buffer->length += count;
}

char *text_take(TextBuffer *buffer) {
    if (buffer->text == NULL)
        text_add(buffer, "");
    char *text = buffer->text;
    *buffer = (TextBuffer){NULL, 0, 0};
    return text;
}

void text_free(TextBuffer *buffer) {
    memory_free(buffer->text);
    *buffer = (TextBuffer){NULL, 0, 0};
}
