/* See files.h.
 *
 * The order of things: files_open takes the folder and the signals; files_add makes a temporary
 * file; files_commit finishes the streams, looks at every target (settle), and only then puts the
 * files in place (place), keeping what it replaces under a temporary name until the last one
 * stands. All names are used relative to the open folder, so that it may be renamed meanwhile.
 *
 * Nothing is forced to the disk (fsync): the promise is about this program being stopped or a full
 * disk, not about the machine losing power, and the same command writes the same files again. */
#include "write/files.h"

#include "base/memory.h"
#include "base/signals.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The buffer is large so that megabytes are few system calls. */
enum { TEMPORARY_BYTES = 64, BUFFER_BYTES = 64 * 1024 };

typedef enum {
    TARGET_NEW,     /* nothing there */
    TARGET_SAME,    /* the same content: left untouched */
    TARGET_REPLACE, /* other content, and overwriting was asked for */
} Target;

typedef struct {
    char *name;
    FILE *stream;                    /* NULL once closed */
    char *buffer;                    /* the stream's */
    char temporary[TEMPORARY_BYTES]; /* the new content; "" when there is no such file */
    char old[TEMPORARY_BYTES];       /* the replaced content; "" when there is no such file */
    Target target;
    bool placed;
} Output;

struct Files {
    char *folder; /* for messages */
    int directory;
    bool overwrite;
    Output *file;
    size_t count;
    unsigned long serial; /* of the next temporary file */
    Signals before;
    struct sigaction size_before; /* SIGXFSZ */
};

/* The one set, for the signal handler and the end of the program. It and what hangs on it change
 * only while the signals are blocked, so the handler never sees it half changed. */
static Files *current;

/* ---- signals ------------------------------------------------------------------------------- */

static void remove_temporary_files(void) {
    for (size_t i = 0; current != NULL && i < current->count; i++)
        if (current->file[i].temporary[0] != '\0')
            unlinkat(current->directory, current->file[i].temporary, 0);
}

/* SIGXFSZ is ignored meanwhile, so that a limit on the size of files (ulimit -f) is an error like a
 * full disk. */
static void take_signals(Files *files) {
    signals_clean_up(&files->before, remove_temporary_files);
    struct sigaction ignore = {.sa_handler = SIG_IGN};
    sigemptyset(&ignore.sa_mask);
    sigaction(SIGXFSZ, &ignore, &files->size_before);
}

static void give_signals_back(const Files *files) {
    signals_clean_up_no_more(&files->before);
    sigaction(SIGXFSZ, &files->size_before, NULL);
}

/* ---- messages ------------------------------------------------------------------------------ */

/* What would be right, by what went wrong. */
static const char *way_out(int error) {
    switch (error) {
    case ENOSPC:
    case EDQUOT:
        return "make room there or write into another folder";
    case EFBIG:
        return "raise the limit on the size of files (ulimit -f) or ask for smaller files";
    case EMFILE:
        return "allow more open files (ulimit -n)";
    case ENAMETOOLONG:
        return "give it a shorter name";
    default:
        return "write into a folder that is there and may be written";
    }
}

static bool refuse(const Files *files, const char *name, const char *what, const char *remedy,
                   Problem *problem) {
    return problem_set(problem, STATUS_SURROUNDINGS, "cannot write %s in %s (%s); %s",
                       problem_quote(name).text, problem_quote(files->folder).text, what, remedy);
}

/* error: an errno, 0 when the system gave none. */
static bool cannot_write(const Files *files, const char *name, int error, Problem *problem) {
    return refuse(files, name, error != 0 ? strerror(error) : "a write failed", way_out(error),
                  problem);
}

/* ---- opening and adding -------------------------------------------------------------------- */

Files *files_open(const char *folder, bool overwrite, Problem *problem) {
    assert(current == NULL);
    int directory = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (directory == -1 || faccessat(directory, ".", W_OK | X_OK, AT_EACCESS) == -1) {
        problem_set(problem, STATUS_SURROUNDINGS, "cannot write in folder %s (%s); %s",
                    problem_quote(folder).text, strerror(errno), way_out(errno));
        if (directory != -1)
            close(directory);
        return NULL;
    }

    Files *files = memory_zeroed(1, sizeof *files);
    files->folder = memory_text("%s", folder);
    files->directory = directory;
    files->overwrite = overwrite;

    sigset_t before;
    signals_block(&before);
    current = files;
    take_signals(files);
    signals_unblock(&before);
    return files;
}

/* The next name for a temporary file: hidden, short, and our own but for what a killed run left. */
static void next_temporary(Files *files, char name[TEMPORARY_BYTES]) {
    snprintf(name, TEMPORARY_BYTES, ".sumwright-%ld-%lu", (long)getpid(), files->serial++);
}

/* Names that a run killed outright may have left are passed over, up to a bound. */
enum { TRIES = 10000 };

/* An empty temporary file with the permissions that the umask gives; its descriptor, or -1. Opened
 * for reading too, as settle compares what was written. */
static int make_temporary(Files *files, char name[TEMPORARY_BYTES]) {
    for (int i = 0; i < TRIES; i++) {
        next_temporary(files, name);
        int made = openat(files->directory, name, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (made != -1 || errno != EEXIST)
            return made;
    }
    return -1;
}

/* Whether the target's name is one that a file can have here, before anything is computed. */
static bool check_name(const Files *files, const char *name, Problem *problem) {
    if (name[0] == '\0' || strchr(name, '/') != NULL)
        return problem_set(problem, STATUS_INVALID,
                           "cannot write a file called %s; a file name is not empty and has no /",
                           problem_quote(name).text);
    for (size_t i = 0; i < files->count; i++)
        if (strcmp(files->file[i].name, name) == 0)
            return problem_set(problem, STATUS_INVALID,
                               "%s would be written twice; give the files different names",
                               problem_quote(name).text);
    struct stat status;
    if (fstatat(files->directory, name, &status, AT_SYMLINK_NOFOLLOW) == -1 && errno != ENOENT)
        return cannot_write(files, name, errno, problem);
    return true;
}

static void free_output(const Output *file) {
    memory_free(file->buffer);
    memory_free(file->name);
}

/* Adds a file with its stream; signals are blocked. */
static FILE *add_blocked(Files *files, const char *name, Problem *problem) {
    files->file = memory_resize(files->file, files->count + 1, sizeof *files->file);
    Output file = {.name = memory_text("%s", name), .buffer = memory_zeroed(BUFFER_BYTES, 1)};
    int made = make_temporary(files, file.temporary);
    if (made != -1)
        file.stream = fdopen(made, "w+");
    if (file.stream == NULL) {
        cannot_write(files, name, errno, problem);
        if (made != -1) {
            close(made);
            unlinkat(files->directory, file.temporary, 0);
        }
        free_output(&file);
        return NULL;
    }
    setvbuf(file.stream, file.buffer, _IOFBF, BUFFER_BYTES);
    files->file[files->count++] = file;
    return file.stream;
}

FILE *files_add(Files *files, const char *name, Problem *problem) {
    if (!check_name(files, name, problem))
        return NULL;
    sigset_t before;
    signals_block(&before);
    FILE *stream = add_blocked(files, name, problem);
    signals_unblock(&before);
    return stream;
}

Files *files_open_one(const char *path, bool overwrite, FILE **stream, Problem *problem) {
    const char *slash = strrchr(path, '/');
    const char *name = slash == NULL ? path : slash + 1;
    int length = slash == NULL ? 1 : slash == path ? 1 : (int)(slash - path);
    char *folder = memory_text("%.*s", length, slash == NULL ? "." : path);
    Files *files = files_open(folder, overwrite, problem);
    memory_free(folder);
    *stream = files == NULL ? NULL : files_add(files, name, problem);
    if (files != NULL && *stream == NULL) {
        files_abandon(files);
        return NULL;
    }
    return files;
}

/* ---- looking at the targets ---------------------------------------------------------------- */

/* From where they stand to their ends. */
static bool same_bytes(FILE *one, FILE *other) {
    char left[4096], right[sizeof left];
    for (;;) {
        size_t got = fread(left, 1, sizeof left, one);
        if (fread(right, 1, sizeof right, other) != got || memcmp(left, right, got) != 0)
            return false;
        if (got < sizeof left)
            return !ferror(one) && !ferror(other);
    }
}

/* Whether the target is a plain file, by a link or not, that holds what was written. One that
 * cannot be read counts as different. */
static bool same_content(const Files *files, const Output *file) {
    /* O_NONBLOCK: should it be a FIFO by now, do not wait. */
    int target = openat(files->directory, file->name, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    struct stat status;
    if (target == -1)
        return false;
    FILE *stream =
        fstat(target, &status) == 0 && S_ISREG(status.st_mode) ? fdopen(target, "r") : NULL;
    if (stream == NULL) {
        close(target);
        return false;
    }
    rewind(file->stream);
    bool same = same_bytes(file->stream, stream);
    fclose(stream);
    return same;
}

/* Decides what is to be done with a target. A symbolic link is never replaced and never written
 * through: the one would lose the link, the other would change a file outside the folder. */
static bool settle(const Files *files, Output *file, Problem *problem) {
    struct stat status;
    if (fstatat(files->directory, file->name, &status, AT_SYMLINK_NOFOLLOW) == -1) {
        file->target = TARGET_NEW;
        return true; /* if that is not because nothing is there, placing it will tell */
    }
    if (S_ISREG(status.st_mode) || S_ISLNK(status.st_mode)) {
        file->target = TARGET_SAME;
        if (same_content(files, file))
            return true;
    }
    if (!S_ISREG(status.st_mode))
        return refuse(files, file->name,
                      S_ISDIR(status.st_mode)   ? "it is a folder"
                      : S_ISLNK(status.st_mode) ? "it is a symbolic link"
                                                : "it is not a plain file",
                      "remove it or write into another folder", problem);
    file->target = TARGET_REPLACE;
    return files->overwrite || refuse(files, file->name, "it exists with other content",
                                      "use --overwrite or write elsewhere", problem);
}

/* Everything written so far is with the file system, or a problem. The reason for an earlier failed
 * write may be gone from errno by now: then flushing what the stream still holds, or one byte more,
 * meets the same full disk or limit again and tells. */
static bool flush(const Files *files, const Output *file, Problem *problem) {
    bool failed = ferror(file->stream) != 0;
    errno = 0;
    failed = fflush(file->stream) != 0 || failed;
    if (!failed)
        return true;
    int why = errno;
    if (why == 0 && write(fileno(file->stream), "", 1) == -1)
        why = errno;
    return cannot_write(files, file->name, why, problem);
}

static bool close_stream(const Files *files, Output *file, Problem *problem) {
    int result = fclose(file->stream);
    file->stream = NULL;
    return result == 0 || cannot_write(files, file->name, errno, problem);
}

static bool settle_all(Files *files, Problem *problem) {
    for (size_t i = 0; i < files->count; i++) {
        Output *file = &files->file[i];
        if (!flush(files, file, problem) || !settle(files, file, problem) ||
            !close_stream(files, file, problem))
            return false;
    }
    return true;
}

/* ---- putting in place; signals are blocked ------------------------------------------------- */

/* Puts a new file in place so that one which appeared meanwhile stays: link() fails then. Where
 * there are no hard links (FAT, some network folders), the name is claimed by creating it. */
static bool place_new(const Files *files, Output *file) {
    int folder = files->directory;
    if (linkat(folder, file->temporary, folder, file->name, 0) == 0)
        return true; /* the temporary name goes with the others */
    int claim = openat(folder, file->name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (claim == -1)
        return false;
    close(claim);
    if (renameat(folder, file->temporary, folder, file->name) == 0) {
        file->temporary[0] = '\0';
        return true;
    }
    int why = errno;
    unlinkat(folder, file->name, 0);
    errno = why;
    return false;
}

/* Without hard links, the target's own name becomes the kept one. */
static bool move_old(const Files *files, const Output *file) {
    int folder = files->directory;
    struct stat status;
    if (fstatat(folder, file->old, &status, AT_SYMLINK_NOFOLLOW) == 0) {
        errno = EEXIST;
        return false;
    }
    return renameat(folder, file->name, folder, file->old) == 0;
}

/* Keeps the target's content under a second name. */
static bool keep_old(Files *files, Output *file) {
    int folder = files->directory;
    for (int i = 0; i < TRIES; i++) {
        next_temporary(files, file->old);
        if (linkat(folder, file->name, folder, file->old, 0) == 0)
            return true;
        if (errno != EEXIST && move_old(files, file))
            return true;
        if (errno != EEXIST)
            break;
    }
    file->old[0] = '\0';
    return false;
}

/* Gives the target its old content back; false when it can't, and then file->old stays. */
static bool restore(const Files *files, Output *file) {
    if (renameat(files->directory, file->old, files->directory, file->name) != 0)
        return false;
    /* Two names of one file: rename leaves both. */
    unlinkat(files->directory, file->old, 0);
    file->old[0] = '\0';
    return true;
}

/* When it fails, roll_back restores what keep_old kept. */
static bool place_over(Files *files, Output *file) {
    struct stat status;
    if (fstatat(files->directory, file->name, &status, AT_SYMLINK_NOFOLLOW) == 0 &&
        !S_ISREG(status.st_mode)) {
        errno = EEXIST; /* no longer the plain file that was settled on */
        return false;
    }
    if (!keep_old(files, file) ||
        renameat(files->directory, file->temporary, files->directory, file->name) != 0)
        return false;
    file->temporary[0] = '\0';
    return true;
}

/* Takes back what was placed. Returns a file whose old content could not be put back, or NULL. */
static const Output *roll_back(Files *files) {
    const Output *lost = NULL;
    for (size_t i = files->count; i-- > 0;) {
        Output *file = &files->file[i];
        if (file->placed && file->target == TARGET_NEW)
            unlinkat(files->directory, file->name, 0);
        if (file->old[0] != '\0' && !restore(files, file))
            lost = file;
    }
    return lost;
}

static bool place_failed(Files *files, const Output *file, Problem *problem) {
    int why = errno;
    const Output *lost = roll_back(files);
    if (lost != NULL)
        return problem_set(problem, STATUS_SURROUNDINGS,
                           "cannot write %s in %s (%s); the old content of %s is now in the "
                           "file %s there, rename it back",
                           problem_quote(file->name).text, problem_quote(files->folder).text,
                           strerror(why), problem_quote(lost->name).text, lost->old);
    if (why == EEXIST)
        return refuse(files, file->name, "another file appeared there meanwhile",
                      "try again or write into another folder", problem);
    return cannot_write(files, file->name, why, problem);
}

static bool place_all(Files *files, Problem *problem) {
    for (size_t i = 0; i < files->count; i++) {
        Output *file = &files->file[i];
        if (file->target == TARGET_NEW)
            file->placed = place_new(files, file);
        else if (file->target == TARGET_REPLACE)
            file->placed = place_over(files, file);
        if (!file->placed && file->target != TARGET_SAME)
            return place_failed(files, file, problem);
    }
    /* From here on nothing can fail: the replaced files go. */
    for (size_t i = 0; i < files->count; i++)
        if (files->file[i].old[0] != '\0')
            unlinkat(files->directory, files->file[i].old, 0);
    return true;
}

/* ---- the end ------------------------------------------------------------------------------- */

/* Removes the temporary files and frees the set; signals are blocked. The old handlers are back
 * before a signal that waited arrives. */
static void finish(Files *files) {
    for (size_t i = 0; i < files->count; i++) {
        Output *file = &files->file[i];
        if (file->stream != NULL)
            fclose(file->stream);
        if (file->temporary[0] != '\0')
            unlinkat(files->directory, file->temporary, 0);
        free_output(file);
    }
    close(files->directory);
    give_signals_back(files);
    current = NULL;
    memory_free(files->file);
    memory_free(files->folder);
    memory_free(files);
}

bool files_commit(Files *files, Problem *problem) {
    bool settled = settle_all(files, problem);
    sigset_t before;
    signals_block(&before);
    bool done = settled && place_all(files, problem);
    finish(files);
    signals_unblock(&before);
    return done;
}

void files_abandon(Files *files) {
    if (files == NULL)
        return;
    sigset_t before;
    signals_block(&before);
    finish(files);
    signals_unblock(&before);
}

void files_abandon_open(void) {
    files_abandon(current);
}
