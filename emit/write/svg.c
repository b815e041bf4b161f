/* See svg.h. */
#include "write/svg.h"

#include "base/memory.h"
#include "write/utf8.h"

#include <assert.h>
#include <stdarg.h>
#include <string.h>

/* ---- characters and numbers ---------------------------------------------------------------- */

/* The text with & < > " ' escaped; characters that XML 1.0 does not have become U+FFFD. */
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

static void escape(FILE *out, const char *text) {
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
    assert(length > 3 && length < (int)sizeof text);
    while (text[length - 1] == '0')
        text[--length] = '\0';
    if (text[length - 1] == '.')
        text[--length] = '\0';
    fputs(strcmp(text, "-0") == 0 ? "0" : text, out);
}

/* A tag with these attributes, as many as there are names before NULL, and those as written. */
static void begin_tag(FILE *out, const char *tag, const char *const *name, const double *value,
                      const char *attributes) {
    fprintf(out, "<%s", tag);
    for (size_t k = 0; name[k] != NULL; k++) {
        fprintf(out, " %s=\"", name[k]);
        number(out, value[k]);
        fputc('"', out);
    }
    if (attributes[0] != '\0')
        fprintf(out, " %s", attributes);
}

static void shape(FILE *out, const char *tag, const char *const *name, const double *value,
                  const char *attributes) {
    if (out == NULL)
        return;
    begin_tag(out, tag, name, value, attributes);
    fputs("/>\n", out);
}

static const char *const nothing[] = {NULL}, *const box[] = {"x", "y", "width", "height", NULL};

/* ---- the document -------------------------------------------------------------------------- */

void svg_begin(FILE *out, double width, double height, const char *title, const char *description) {
    fputs("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n", out);
    begin_tag(out, "svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\"", box + 2,
              (double[]){width, height}, "");
    fputs(" viewBox=\"0 0 ", out);
    number(out, width);
    fputc(' ', out);
    number(out, height);
    fputs("\"\n     font-family=\"Helvetica, Arial, 'DejaVu Sans', sans-serif\" "
          "font-size=\"12\">\n<title>",
          out);
    escape(out, title);
    fputs("</title>\n<desc>", out);
    escape(out, description);
    fputs("</desc>\n", out);
    svg_rect(out, 0, 0, width, height, "fill=\"white\"");
}

void svg_end(FILE *out) {
    fputs("</svg>\n", out);
}

void svg_group(FILE *out, const char *attributes) {
    begin_tag(out, "g", nothing, NULL, attributes);
    fputs(">\n", out);
}

void svg_group_end(FILE *out) {
    fputs("</g>\n", out);
}

/* ---- shapes -------------------------------------------------------------------------------- */

void svg_line(FILE *out, double x1, double y1, double x2, double y2, const char *attributes) {
    static const char *const ends[] = {"x1", "y1", "x2", "y2", NULL};
    shape(out, "line", ends, (double[]){x1, y1, x2, y2}, attributes);
}

void svg_rect(FILE *out, double x, double y, double width, double height, const char *attributes) {
    shape(out, "rect", box, (double[]){x, y, width, height}, attributes);
}

void svg_circle(FILE *out, double x, double y, double radius, const char *attributes) {
    static const char *const circle[] = {"cx", "cy", "r", NULL};
    shape(out, "circle", circle, (double[]){x, y, radius}, attributes);
}

void svg_path(FILE *out, const char *attributes) {
    if (out == NULL)
        return;
    begin_tag(out, "path", nothing, NULL, attributes);
    fputs(" d=\"", out);
}

void svg_to(FILE *out, char step, double x, double y) {
    if (out == NULL)
        return;
    fputc(step, out);
    number(out, x);
    fputc(' ', out);
    number(out, y);
}

void svg_path_end(FILE *out, bool closed) {
    if (out != NULL)
        fputs(closed ? "Z\"/>\n" : "\"/>\n", out);
}

/* ---- text ---------------------------------------------------------------------------------- */

void svg_text(FILE *out, double x, double y, const char *attributes, const char *format, ...) {
    if (out == NULL)
        return;
    va_list arguments;
    va_start(arguments, format);
    char *text = memory_text_list(format, arguments);
    va_end(arguments);
    static const char *const place[] = {"x", "y", NULL};
    begin_tag(out, "text", place, (double[]){x, y}, attributes);
    fputc('>', out);
    escape(out, text);
    fputs("</text>\n", out);
    memory_free(text);
}

/* Widths by class, in parts of the size, from the wider of the common fonts. Common practice, no
 * source. */
static double character_width(const char *text, size_t bytes) {
    if (strchr("ijl.,:;'|! ()", text[0]) != NULL)
        return 0.40;
    return strchr("mwMW@%", text[0]) != NULL || bytes > 1 ? 1.0 : 0.66;
}

double svg_text_width(const char *text, double size) {
    double width = 0;
    for (size_t bytes; *text != '\0'; text += bytes == 0 ? 1 : bytes) {
        bytes = utf8_bytes(text);
        width += character_width(text, bytes);
    }
    return width * size;
}

size_t svg_text_fits(const char *text, double size, double room) {
    size_t words = 0, at = 0;
    double width = 0;
    for (; text[at] != '\0'; at++) {
        if (text[at] == ' ')
            words = at;
        width += character_width(text + at, 1);
        if (width * size > room)
            return words > 0 ? words : at > 0 ? at : 1;
    }
    return at;
}
