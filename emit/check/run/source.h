/* The files of a design: read once, looked at, and from then on known by safe names in the
 * temporary folder, whatever they are called outside. */
#ifndef SUMWRIGHT_CHECK_RUN_SOURCE_H
#define SUMWRIGHT_CHECK_RUN_SOURCE_H

#include "base/problem.h"

#include <stddef.h>

enum { SOURCE_BYTES_MAX = 32 << 20, SOURCE_NAME_BYTES = 32 };

typedef struct {
    const char *path;             /* as the user wrote it */
    char safe[SOURCE_NAME_BYTES]; /* "design1.v" */
    char *folder;                 /* its own folder, absolute, links resolved */
    char *text;                   /* followed by a NUL that is not counted */
    size_t bytes;
} Source;

typedef struct {
    Source *source;
    size_t count;
} Sources;

/* Reads the files. One that is missing, a folder, empty, larger than SOURCE_BYTES_MAX or holds
 * bytes that no text has is a problem (STATUS_UNTESTED). Free with sources_free, whatever the
 * result. */
bool sources_read(Sources *sources, char *const *paths, size_t count, Problem *problem);
void sources_free(Sources *sources);

/* Does a file that is not SystemVerilog by its name have words that only SystemVerilog has? */
bool sources_speak_system_verilog(const Sources *sources);

/* Writes them into the folder under their safe names, and beside them links include1, ... to their
 * own folders. */
bool sources_place(const Sources *sources, const char *folder, Problem *problem);

/* A whole file into memory, with a NUL behind it; NULL with errno when it cannot be read, EFBIG
 * when it is larger than most. The caller frees it. */
char *source_load(const char *path, size_t most, size_t *bytes);

#endif
