/* See folder.h. */
#include "check/run/folder.h"

#include "base/memory.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { DEPTH_MAX = 8 };

char *folder_path(const char *folder, const char *name) {
    size_t room = strlen(folder) + strlen(name) + 2;
    char *path = memory_zeroed(room, 1);
    snprintf(path, room, "%s/%s", folder, name);
    return path;
}

static void refuse(const char *where, Problem *problem) {
    problem_set(
        problem, STATUS_SURROUNDINGS,
        "cannot make a temporary folder in %s (%s); set TMPDIR to the whole path of a folder "
        "that can be written",
        problem_quote(where).text, strerror(errno));
}

char *folder_make(Problem *problem) {
    const char *where = getenv("TMPDIR");
    if (where == NULL || where[0] == '\0')
        where = "/tmp";
    char *path = folder_path(where, "sumwright-XXXXXX");
    if (mkdtemp(path) != NULL) {
        char *absolute = realpath(path, NULL); /* fails below a folder that cannot be read */
        if (absolute == NULL)
            refuse(where, problem);
        if (absolute == NULL)
            rmdir(path);
        memory_free(path);
        return absolute;
    }
    refuse(where, problem);
    memory_free(path);
    return NULL;
}

bool folder_create(const char *path) {
    return mkdir(path, 0700) == 0;
}

/* Empties an open folder, which it closes. */
static void empty(int descriptor, int depth) {
    DIR *folder = fdopendir(descriptor);
    if (folder == NULL) {
        close(descriptor);
        return;
    }
    for (const struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0)
            continue;
        if (unlinkat(descriptor, entry->d_name, 0) == 0 || depth == DEPTH_MAX)
            continue;
        int inner =
            openat(descriptor, entry->d_name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
        if (inner != -1)
            empty(inner, depth + 1);
        unlinkat(descriptor, entry->d_name, AT_REMOVEDIR);
    }
    closedir(folder);
}

void folder_remove(const char *path) {
    int descriptor = open(path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (descriptor != -1)
        empty(descriptor, 0);
    rmdir(path);
}
