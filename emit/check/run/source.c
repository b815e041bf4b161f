/* See source.h. */
#include "check/run/source.h"

#include "base/memory.h"
#include "check/read/tokens.h"
#include "check/run/folder.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* To the end; expected: the bytes that there should be, not to be relied on. */
static char *read_all(FILE *stream, size_t expected, size_t most, size_t *bytes) {
    size_t room = expected < most ? expected + 2 : 2;
    char *text = memory_resize(NULL, room, 1);
    *bytes = 0;
    for (;;) {
        if (*bytes + 1 >= room) {
            room *= 2;
            text = memory_resize(text, room, 1);
        }
        size_t got = fread(text + *bytes, 1, room - *bytes - 1, stream);
        *bytes += got;
        if (*bytes > most)
            errno = EFBIG;
        if (*bytes > most || ferror(stream)) {
            free(text);
            return NULL;
        }
        if (got == 0)
            break;
    }
    text[*bytes] = '\0';
    return text;
}

char *source_load(const char *path, size_t most, size_t *bytes) {
    /* O_NONBLOCK: should it be a FIFO, do not wait for a writer. */
    int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (file == -1)
        return NULL;
    struct stat status;
    FILE *stream = NULL;
    if (fstat(file, &status) == 0 && S_ISREG(status.st_mode))
        stream = fdopen(file, "r");
    else
        errno = S_ISDIR(status.st_mode) ? EISDIR : EINVAL;
    if (stream == NULL) {
        close(file);
        return NULL;
    }
    char *text = read_all(stream, (size_t)status.st_size, most, bytes);
    fclose(stream);
    return text;
}

static bool cannot_read(const char *path, int error, Problem *problem) {
    const char *why = error == EISDIR   ? "it is a folder; name Verilog files, or add --each"
                      : error == EINVAL ? "it is no plain file; name Verilog files"
                      : error == ENOENT ? "there is no such file; look at its name"
                      : error == EFBIG  ? "it is too large; a design has some megabytes at most"
                                        : strerror(error);
    return problem_set(problem, STATUS_UNTESTED, "cannot read %s: %s", problem_quote(path).text,
                       why);
}

/* Bytes past 127 are left to the compiler: comments have them. */
static bool is_text(const Source *source) {
    for (size_t k = 0; k < source->bytes; k++) {
        unsigned char c = (unsigned char)source->text[k];
        if (c < ' ' && c != '\t' && c != '\n' && c != '\r' && c != '\f' && c != '\v')
            return false;
    }
    return true;
}

static bool is_blank(const Source *source) {
    return strspn(source->text, " \t\r\n\f\v") == source->bytes;
}

/* The folder that the path stands in, links resolved. */
static char *own_folder(const char *path) {
    char *copy = memory_zeroed(strlen(path) + 3, 1);
    const char *slash = strrchr(path, '/');
    if (slash == NULL)
        copy[0] = '.';
    else
        memcpy(copy, path, (size_t)(slash - path) + 1);
    char *resolved = realpath(copy, NULL);
    free(copy);
    return resolved;
}

static bool is_system_verilog(const char *path) {
    size_t length = strlen(path);
    return length > 3 && strcmp(path + length - 3, ".sv") == 0;
}

static bool read_one(Source *source, const char *path, size_t number, Problem *problem) {
    source->path = path;
    snprintf(source->safe, sizeof source->safe, "design%zu.%s", number,
             is_system_verilog(path) ? "sv" : "v");
    source->text = source_load(path, SOURCE_BYTES_MAX, &source->bytes);
    if (source->text == NULL)
        return cannot_read(path, errno, problem);
    if (!is_text(source))
        return problem_set(problem, STATUS_UNTESTED, "%s is binary; a design is Verilog text",
                           problem_quote(path).text);
    if (is_blank(source))
        return problem_set(problem, STATUS_UNTESTED, "%s is empty; a design is a Verilog module",
                           problem_quote(path).text);
    source->folder = own_folder(path);
    return source->folder != NULL || cannot_read(path, errno, problem);
}

bool sources_read(Sources *sources, char *const *paths, size_t count, Problem *problem) {
    sources->source = memory_zeroed(count, sizeof *sources->source);
    sources->count = 0;
    for (size_t k = 0; k < count; k++) {
        sources->count++;
        if (!read_one(&sources->source[k], paths[k], k + 1, problem))
            return false;
    }
    return true;
}

void sources_free(Sources *sources) {
    for (size_t k = 0; k < sources->count; k++) {
        free(sources->source[k].folder);
        free(sources->source[k].text);
    }
    free(sources->source);
    *sources = (Sources){NULL, 0};
}

/* Words that are often met in SystemVerilog, and seldom are names in Verilog. */
static bool is_system_verilog_word(const Token *token) {
    static const char *const words[] = {"logic",      "always_comb", "always_ff", "always_latch",
                                        "endpackage", "typedef",     "interface", "unique"};
    for (size_t k = 0; k < sizeof words / sizeof words[0]; k++)
        if (token_is(token, words[k]))
            return true;
    return false;
}

bool sources_speak_system_verilog(const Sources *sources) {
    for (size_t k = 0; k < sources->count; k++) {
        Tokens tokens;
        tokens_begin(&tokens, sources->source[k].text, sources->source[k].bytes);
        for (Token token = tokens_next(&tokens); token.kind != TOKEN_END;
             token = tokens_next(&tokens))
            if (is_system_verilog_word(&token))
                return true;
    }
    return false;
}

static bool place_one(const Source *source, size_t number, const char *folder) {
    char name[SOURCE_NAME_BYTES];
    char *path = folder_path(folder, source->safe);
    FILE *out = fopen(path, "w");
    free(path);
    bool good = out != NULL && fwrite(source->text, 1, source->bytes, out) == source->bytes;
    if (good && source->text[source->bytes - 1] != '\n') /* a last line that has no end */
        good = fputc('\n', out) != EOF;
    good = out != NULL && fclose(out) == 0 && good;
    snprintf(name, sizeof name, "include%zu", number);
    path = folder_path(folder, name);
    good = good && symlink(source->folder, path) == 0;
    free(path);
    return good;
}

bool sources_place(const Sources *sources, const char *folder, Problem *problem) {
    for (size_t k = 0; k < sources->count; k++)
        if (!place_one(&sources->source[k], k + 1, folder))
            return problem_set(problem, STATUS_SURROUNDINGS,
                               "cannot write in the temporary folder (%s); make room there or set "
                               "TMPDIR",
                               strerror(errno));
    return true;
}
