/* See json.h. */
#include "write/json.h"

#include "write/utf8.h"

#include <assert.h>
#include <inttypes.h>

Json json_begin(FILE *out) {
    return (Json){.out = out};
}

static void write_character(FILE *out, const char *text, size_t bytes) {
    unsigned char first = (unsigned char)text[0];
    if (bytes == 0)
        fputs("\\ufffd", out);
    else if (first == '"' || first == '\\')
        fprintf(out, "\\%c", first);
    else if (first < ' ' || first == 0x7F)
        fprintf(out, "\\u%04x", first);
    else
        fwrite(text, 1, bytes, out);
}

static void write_string(FILE *out, const char *text) {
    fputc('"', out);
    while (*text != '\0') {
        size_t bytes = utf8_bytes(text);
        write_character(out, text, bytes);
        text += bytes == 0 ? 1 : bytes;
    }
    fputc('"', out);
}

static void new_line(const Json *json) {
    fprintf(json->out, "\n%*s", 2 * json->depth, "");
}

/* What stands before a value: a comma after the one before, a line of its own, its key. */
static void place(Json *json, const char *key) {
    if (json->depth == 0) {
        assert(key == NULL);
        return;
    }
    int within = json->depth - 1;
    assert((key == NULL) == json->array[within]);
    if (!json->empty[within])
        fputc(',', json->out);
    json->empty[within] = false;
    new_line(json);
    if (key != NULL) {
        write_string(json->out, key);
        fputs(": ", json->out);
    }
}

static void open_one(Json *json, const char *key, bool array) {
    assert(json->depth < JSON_DEPTH_MAX);
    place(json, key);
    fputc(array ? '[' : '{', json->out);
    json->array[json->depth] = array;
    json->empty[json->depth] = true;
    json->depth++;
}

void json_object(Json *json, const char *key) {
    open_one(json, key, false);
}

void json_array(Json *json, const char *key) {
    open_one(json, key, true);
}

void json_close(Json *json) {
    assert(json->depth > 0);
    json->depth--;
    if (!json->empty[json->depth])
        new_line(json);
    fputc(json->array[json->depth] ? ']' : '}', json->out);
    if (json->depth == 0)
        fputc('\n', json->out);
}

void json_text(Json *json, const char *key, const char *text) {
    place(json, key);
    write_string(json->out, text);
}

void json_whole(Json *json, const char *key, uint64_t number) {
    place(json, key);
    fprintf(json->out, "%" PRIu64, number);
}

void json_truth(Json *json, const char *key, bool value) {
    place(json, key);
    fputs(value ? "true" : "false", json->out);
}

void json_null(Json *json, const char *key) {
    place(json, key);
    fputs("null", json->out);
}

void json_number(Json *json, const char *key, double number, int digits) {
    place(json, key);
    fprintf(json->out, "%.*f", digits, number);
}
