/* A set of output files that appear whole or not at all.
 *
 * Each file is first written under a temporary name beside its target; files_commit() then puts
 * all in place, or, on any failure, leaves the folder as it was. A SIGINT, SIGTERM, SIGHUP or
 * SIGQUIT before the commit removes the temporary files and ends the program by that signal; during
 * the commit it waits for its end. SIGXFSZ is ignored meanwhile: a limit on the size of files is an
 * error like a full disk. Handlers and signal mask are as before once the set is freed.
 *
 * A new file has the permissions that the umask gives, one that replaces another too. A target that
 * is a symbolic link is left alone if the file it points to has the same content, and refused
 * otherwise, even for overwriting: replacing it would lose the link, writing through it would
 * change a file outside the folder. */
#ifndef SUMWRIGHT_WRITE_FILES_H
#define SUMWRIGHT_WRITE_FILES_H

#include "base/problem.h"

#include <stdbool.h>
#include <stdio.h>

typedef struct Files Files;

/* Opens a set for a folder that must exist and be writable. overwrite: existing files with other
 * content are replaced instead of refused. NULL after a problem (STATUS_SURROUNDINGS). One set at
 * a time. */
Files *files_open(const char *folder, bool overwrite, Problem *problem);

/* A set of one file, given by its path, and in *stream its stream: what a drawing is written with.
 * The folder must be there. NULL after a problem. */
Files *files_open_one(const char *path, bool overwrite, FILE **stream, Problem *problem);

/* A stream for the next file; name is a plain file name without a folder. The stream belongs to
 * the set: do not close it. NULL after a problem: STATUS_SURROUNDINGS, or STATUS_INVALID for a
 * name that is empty, has a / or is already in the set. The set stays open then. */
FILE *files_add(Files *files, const char *name, Problem *problem);

/* Closes the streams (a write error on any of them is a problem), refuses targets that exist with
 * other content unless overwrite was asked for, and puts every file in place or none. A target
 * that already has the same content is left untouched. A folder or a special file is never
 * replaced, nor is a file that appeared meanwhile. Frees the set, whatever the result; problems
 * are STATUS_SURROUNDINGS. */
bool files_commit(Files *files, Problem *problem);

/* Removes the temporary files and frees the set; NULL is allowed. */
void files_abandon(Files *files);

/* Abandons the set that is open, if one is: for the end of the program, which a lack of memory can
 * bring at any time. */
void files_abandon_open(void);

#endif
