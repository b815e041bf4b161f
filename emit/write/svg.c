/* See svg.h. */
#include "write/svg.h"

#include "base/memory.h"
#include "write/utf8.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

/* ---- characters and numbers ---------------------------------------------------------------- */

static void escape_one(FILE *out, const char *text, size_t bytes) {
    unsigned char first = (unsigned char)text[0];
    static const struct {
        char character;
        const char *entity;
    } entities[] = {{'&', "&amp;"}, {'<', "&lt;"}, {'>', "&gt;"}, {'"', "&quot;"}, {'\'', "&#39;"}};
    for (size_t k = 0; k < sizeof entities / sizeof entities[0]; k++)
        if (text[0] == entities[k].character) {
            fputs(entities[k].entity, out);
            return;
        }
    bool forbidden = bytes == 0 || (first < ' ' && first != '\t' && first != '\n') ||
                     strncmp(text, "\xEF\xBF\xBE", 3) == 0 || strncmp(text, "\xEF\xBF\xBF", 3) == 0;
    if (forbidden)
        fputs("\xEF\xBF\xBD", out);
    else
        fwrite(text, 1, bytes, out);
}

void svg_escape(FILE *out, const char *text) {
    while (*text != '\0') {
        size_t bytes = utf8_bytes(text);
        escape_one(out, text, bytes);
        text += bytes == 0 ? 1 : bytes;
    }
}

/* A length to a hundredth of a pixel, without needless zeros. */
static void number(FILE *out, double value) {
    char text[64];
    int length = snprintf(text, sizeof text, "%.2f", value);
    while (length > 0 && text[length - 1] == '0')
        text[--length] = '\0';
    if (length > 0 && text[length - 1] == '.')
        text[--length] = '\0';
    fputs(strcmp(text, "-0") == 0 ? "0" : text, out);
}

static void attribute(FILE *out, const char *name, double value) {
    fprintf(out, " %s=\"", name);
    number(out, value);
    fputc('"', out);
}

static void attributes_of(FILE *out, const char *attributes) {
    if (attributes[0] != '\0')
        fprintf(out, " %s", attributes);
}

/* ---- the document -------------------------------------------------------------------------- */

void svg_begin(FILE *out, double width, double height, const char *title, const char *description) {
    fputs("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
          "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\"",
          out);
    attribute(out, "width", width);
    attribute(out, "height", height);
    fputs(" viewBox=\"0 0 ", out);
    number(out, width);
    fputc(' ', out);
    number(out, height);
    fputs("\"\n     font-family=\"Helvetica, Arial, 'DejaVu Sans', sans-serif\" "
          "font-size=\"12\">\n<title>",
          out);
    svg_escape(out, title);
    fputs("</title>\n<desc>", out);
    svg_escape(out, description);
    fputs("</desc>\n", out);
    svg_rect(out, 0, 0, width, height, "fill=\"white\"");
}

void svg_end(FILE *out) {
    fputs("</svg>\n", out);
}

void svg_group(FILE *out, const char *attributes) {
    fputs("<g", out);
    attributes_of(out, attributes);
    fputs(">\n", out);
}

void svg_group_end(FILE *out) {
    fputs("</g>\n", out);
}

/* ---- shapes -------------------------------------------------------------------------------- */

void svg_line(FILE *out, double x1, double y1, double x2, double y2, const char *attributes) {
    fputs("<line", out);
    attribute(out, "x1", x1);
    attribute(out, "y1", y1);
    attribute(out, "x2", x2);
    attribute(out, "y2", y2);
    attributes_of(out, attributes);
    fputs("/>\n", out);
}

void svg_rect(FILE *out, double x, double y, double width, double height, const char *attributes) {
    fputs("<rect", out);
    attribute(out, "x", x);
    attribute(out, "y", y);
    attribute(out, "width", width);
    attribute(out, "height", height);
    attributes_of(out, attributes);
    fputs("/>\n", out);
}

void svg_circle(FILE *out, double x, double y, double radius, const char *attributes) {
    fputs("<circle", out);
    attribute(out, "cx", x);
    attribute(out, "cy", y);
    attribute(out, "r", radius);
    attributes_of(out, attributes);
    fputs("/>\n", out);
}

void svg_path(FILE *out, const char *attributes) {
    fputs("<path", out);
    attributes_of(out, attributes);
    fputs(" d=\"", out);
}

void svg_to(FILE *out, char step, double x, double y) {
    fputc(step, out);
    number(out, x);
    fputc(' ', out);
    number(out, y);
}

void svg_path_end(FILE *out, bool closed) {
    fputs(closed ? "Z\"/>\n" : "\"/>\n", out);
}

/* ---- text ---------------------------------------------------------------------------------- */

void svg_text(FILE *out, double x, double y, const char *attributes, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = memory_text_list(format, arguments);
    va_end(arguments);
    fputs("<text", out);
    attribute(out, "x", x);
    attribute(out, "y", y);
    attributes_of(out, attributes);
    fputc('>', out);
    svg_escape(out, text);
    fputs("</text>\n", out);
    free(text);
}

/* Widths by class, in hundredths of the size, from the wider of the common fonts. Common practice,
 * no source. */
double svg_text_width(const char *text, double size) {
    double width = 0;
    while (*text != '\0') {
        size_t bytes = utf8_bytes(text);
        bool narrow = strchr("ijl.,:;'|! ()", text[0]) != NULL;
        bool wide = strchr("mwMW@%", text[0]) != NULL || bytes > 1;
        width += narrow ? 0.40 : wide ? 1.0 : 0.66;
        text += bytes == 0 ? 1 : bytes;
    }
    return width * size;
}

static bool fits(const char *text, size_t length, double size, double room) {
    char *part = memory_text("%.*s", (int)length, text);
    bool does = svg_text_width(part, size) <= room;
    free(part);
    return does;
}

size_t svg_text_fits(const char *text, double size, double room) {
    size_t length = strcspn(text, " ");
    while (length > 1 && !fits(text, length, size, room))
        length--;
    if (text[length] != ' ')
        return length;
    for (;;) {
        size_t next = length + 1 + strcspn(text + length + 1, " ");
        if (!fits(text, next, size, room))
            return length;
        length = next;
        if (text[length] == '\0')
            return length;
    }
}
