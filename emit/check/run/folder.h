/* A temporary folder, and its end. */
#ifndef SUMWRIGHT_CHECK_RUN_FOLDER_H
#define SUMWRIGHT_CHECK_RUN_FOLDER_H

#include "base/problem.h"

/* A new folder that only this user can enter, in $TMPDIR or /tmp; the caller frees the path. NULL
 * after a problem (STATUS_SURROUNDINGS). */
char *folder_make(Problem *problem);

/* Makes a folder that only this user can enter; false with errno. */
bool folder_create(const char *path);

/* Removes the folder with all that is in it; links are removed, not followed. */
void folder_remove(const char *path);

/* "folder/name", which the caller frees. */
char *folder_path(const char *folder, const char *name);

#endif
