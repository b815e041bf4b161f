/* A set of output files that appear whole or not at all.
 *
 * Each file is first written under a temporary name beside its target; files_commit() then puts
 * all in place, or, on any failure, leaves the folder as it was. A SIGINT, SIGTERM or SIGHUP before
 * the commit removes the temporary files; during the commit it waits for its end. */
#ifndef SUMWRIGHT_WRITE_FILES_H
#define SUMWRIGHT_WRITE_FILES_H

#include "base/problem.h"

#include <stdbool.h>
#include <stdio.h>

typedef struct Files Files;

/* Opens a set for a folder that must exist and be writable. overwrite: existing files with other
 * content are replaced instead of refused. NULL after a problem. One set at a time. */
Files *files_open(const char *folder, bool overwrite, Problem *problem);

/* A stream for the next file; name is a plain file name without a folder. The stream belongs to
 * the set: do not close it. NULL after a problem. */
FILE *files_add(Files *files, const char *name, Problem *problem);

/* Closes the streams (a write error on any of them is a problem), refuses targets that exist with
 * other content unless overwrite was asked for, and puts every file in place or none. A target
 * that already has the same content is left untouched. Frees the set, whatever the result. */
bool files_commit(Files *files, Problem *problem);

/* Removes the temporary files and frees the set; NULL is allowed. */
void files_abandon(Files *files);

#endif
