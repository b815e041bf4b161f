/* Writes JSON (RFC 8259) value by value: commas, indentation and escapes are done here. Any text
 * may be given; bytes that are no UTF-8 become U+FFFD.
 *
 *   Json json = json_begin(stdout);
 *   json_object(&json, NULL);
 *   json_text(&json, "name", "addsub8");
 *   json_array(&json, "gates");
 *   json_whole(&json, NULL, 56);
 *   json_close(&json);
 *   json_close(&json);                writes the last newline too
 *
 * Write errors show in the stream (ferror). */
#ifndef SUMWRIGHT_WRITE_JSON_H
#define SUMWRIGHT_WRITE_JSON_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

enum { JSON_DEPTH_MAX = 16 }; /* objects and arrays within one another */

typedef struct {
    FILE *out;
    int depth;
    bool array[JSON_DEPTH_MAX]; /* by depth: an array, else an object */
    bool empty[JSON_DEPTH_MAX]; /* by depth: nothing in it yet */
} Json;

Json json_begin(FILE *out);

/* In an object every value has a key; in an array, and for the one value of the text, it is NULL.
 */
void json_object(Json *json, const char *key);
void json_array(Json *json, const char *key);
void json_close(Json *json); /* the innermost object or array */
void json_text(Json *json, const char *key, const char *text);
void json_whole(Json *json, const char *key, uint64_t number);
void json_truth(Json *json, const char *key, bool value);
void json_null(Json *json, const char *key);
/* A number with this many digits after the point. It must be finite. */
void json_number(Json *json, const char *key, double number, int digits);

#endif
