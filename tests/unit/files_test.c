/* Output files appear whole or not at all (write/files.h). Each test starts in an empty folder of
 * its own and says which names stand there at the end; a temporary file left behind would be one
 * name too many. The files are those of an invented tide gauge's unit.
 *
 * Two system calls of the commit, linkat() and renameat(), are replaced by ones that can fail or
 * let something happen just before them, so that every failure and race comes at a known moment. */
#define _GNU_SOURCE /* unshare() */
#include "write/files.h"

#include "base/memory.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <ftw.h>
#include <sched.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

/* ---- the replaced system calls ------------------------------------------------------------- */

typedef struct {
    int link_error;                          /* not 0: every linkat() fails so */
    int rename_error, failing_from, until;   /* renameat() calls number from ... until fail so */
    int renames;                             /* calls so far */
    void (*before_link)(const char *target); /* called before each */
    void (*before_rename)(const char *target);
} Interference;

static Interference interference;
static int start_folder, test_folder; /* descriptors */

int linkat(int from, const char *name, int to, const char *new_name, int flags) {
    (void)to, (void)flags;
    if (interference.before_link != NULL)
        interference.before_link(new_name);
    if (interference.link_error != 0) {
        errno = interference.link_error;
        return -1;
    }
    fchdir(from);
    int result = link(name, new_name);
    int why = errno;
    fchdir(test_folder);
    errno = why;
    return result;
}

int renameat(int from, const char *name, int to, const char *new_name) {
    (void)to;
    if (interference.before_rename != NULL)
        interference.before_rename(new_name);
    interference.renames++;
    if (interference.renames >= interference.failing_from &&
        interference.renames <= interference.until) {
        errno = interference.rename_error;
        return -1;
    }
    fchdir(from);
    int result = rename(name, new_name);
    int why = errno;
    fchdir(test_folder);
    errno = why;
    return result;
}

static void fail_renames(int from, int until) {
    interference.rename_error = EIO;
    interference.failing_from = from;
    interference.until = until;
}

/* ---- a folder for each test ---------------------------------------------------------------- */

static char folder_name[] = "/tmp/sumwright-files-XXXXXX";
static int lowest_descriptor;
static mode_t umask_before;

static int next_descriptor(void) {
    int next = dup(0);
    close(next);
    return next;
}

static int enter_folder(void **state) {
    (void)state;
    interference = (Interference){0};
    strcpy(folder_name + sizeof folder_name - sizeof "XXXXXX", "XXXXXX");
    start_folder = open(".", O_RDONLY | O_DIRECTORY);
    if (mkdtemp(folder_name) == NULL || chdir(folder_name) != 0)
        return -1;
    test_folder = open(".", O_RDONLY | O_DIRECTORY);
    lowest_descriptor = next_descriptor();
    umask_before = umask(022);
    return start_folder == -1 || test_folder == -1 ? -1 : 0;
}

static int remove_all(const char *path, const struct stat *status, int kind, struct FTW *where) {
    (void)status, (void)kind, (void)where;
    return remove(path);
}

/* Leaves the folder and removes it; fails if a descriptor was left open. */
static int leave_folder(void **state) {
    (void)state;
    umask(umask_before);
    bool closed = next_descriptor() == lowest_descriptor;
    chmod(".", 0755);
    bool removed = nftw(folder_name, remove_all, 8, FTW_DEPTH | FTW_PHYS) == 0;
    fchdir(start_folder);
    close(start_folder);
    close(test_folder);
    return closed && removed ? 0 : -1;
}

static int visible(const struct dirent *entry) {
    return strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
}

/* The names in a folder, in order, each after a blank: " gauge.v gauge.vec". */
static const char *names_in(const char *folder) {
    static char names[2048];
    struct dirent **entry;
    int count = scandir(folder, &entry, visible, alphasort);
    names[0] = '\0';
    for (int i = 0; i < count; i++) {
        strncat(names, " ", sizeof names - strlen(names) - 1);
        strncat(names, entry[i]->d_name, sizeof names - strlen(names) - 1);
        free(entry[i]);
    }
    if (count >= 0)
        free(entry);
    return names;
}

static void put(const char *name, const char *content) {
    FILE *stream = fopen(name, "w");
    if (stream == NULL)
        abort();
    fputs(content, stream);
    fclose(stream);
}

static const char *content_of(const char *name) {
    static char content[256];
    FILE *stream = fopen(name, "r");
    if (stream == NULL)
        return "(there is no such file)";
    content[fread(content, 1, sizeof content - 1, stream)] = '\0';
    fclose(stream);
    return content;
}

static struct stat status_of(const char *name) {
    struct stat status = {0};
    lstat(name, &status);
    return status;
}

/* A file as it was in 2001, so that any change shows. */
static struct stat put_old(const char *name, const char *content) {
    struct timespec then[2] = {{.tv_sec = 1000000000}, {.tv_sec = 1000000000}};
    put(name, content);
    utimensat(AT_FDCWD, name, then, 0);
    return status_of(name);
}

static void assert_untouched(const char *name, struct stat before) {
    struct stat now = status_of(name);
    assert_int_equal(now.st_ino, before.st_ino);
    assert_int_equal(now.st_mtime, before.st_mtime);
    assert_int_equal(now.st_mode, before.st_mode);
}

/* ---- sets of files ------------------------------------------------------------------------- */

static Problem problem;

static Files *open_set(const char *folder, bool overwrite) {
    problem = (Problem){STATUS_DONE, ""};
    Files *files = files_open(folder, overwrite, &problem);
    if (files == NULL)
        print_error("%s\n", problem.text);
    return files;
}

static FILE *add(Files *files, const char *name, const char *content) {
    FILE *stream = files_add(files, name, &problem);
    if (stream == NULL)
        abort();
    fputs(content, stream);
    return stream;
}

/* The three files of one unit. */
static Files *open_unit(bool overwrite) {
    Files *files = open_set(".", overwrite);
    add(files, "gauge.v", "new design");
    add(files, "gauge.vec", "new vectors");
    add(files, "gauge_tb.v", "new testbench");
    return files;
}

static void assert_unit(const char *age) {
    char expected[64];
    snprintf(expected, sizeof expected, "%s design", age);
    assert_string_equal(content_of("gauge.v"), expected);
    snprintf(expected, sizeof expected, "%s vectors", age);
    assert_string_equal(content_of("gauge.vec"), expected);
    snprintf(expected, sizeof expected, "%s testbench", age);
    assert_string_equal(content_of("gauge_tb.v"), expected);
    assert_string_equal(names_in("."), " gauge.v gauge.vec gauge_tb.v");
}

static void put_old_unit(void) {
    put_old("gauge.v", "old design");
    put_old("gauge.vec", "old vectors");
    put_old("gauge_tb.v", "old testbench");
}

static void assert_problem(const char *text) {
    assert_int_equal(problem.status, STATUS_SURROUNDINGS);
    assert_string_equal(problem.text, text);
}

static void assert_refused(Files *files, const char *text) {
    assert_false(files_commit(files, &problem));
    assert_problem(text);
}

/* ---- the plain run ------------------------------------------------------------------------- */

static void files_appear_at_the_commit(void **state) {
    (void)state;
    Files *files = open_unit(false);
    assert_int_equal(access("gauge.v", F_OK), -1);
    assert_true(files_commit(files, &problem));
    assert_int_equal(problem.status, STATUS_DONE);
    assert_unit("new");
}

static void another_folder_may_be_named(void **state) {
    (void)state;
    mkdir("out", 0777);
    Files *files = open_set("out", false);
    add(files, "gauge.v", "new design");
    assert_true(files_commit(files, &problem));
    assert_string_equal(content_of("out/gauge.v"), "new design");
    assert_string_equal(names_in("out"), " gauge.v");
    assert_string_equal(names_in("."), " out");
}

static void the_folder_may_be_renamed_meanwhile(void **state) {
    (void)state;
    mkdir("out", 0777);
    Files *files = open_set("out", false);
    add(files, "gauge.v", "new design");
    assert_int_equal(rename("out", "moved"), 0);
    assert_true(files_commit(files, &problem));
    assert_string_equal(names_in("moved"), " gauge.v");
}

static void an_empty_set_and_an_empty_file_are_fine(void **state) {
    (void)state;
    assert_true(files_commit(open_set(".", false), &problem));
    assert_string_equal(names_in("."), "");
    Files *files = open_set(".", false);
    add(files, "gauge.vec", "");
    assert_true(files_commit(files, &problem));
    assert_int_equal(status_of("gauge.vec").st_size, 0);
}

static void megabytes_arrive_whole(void **state) {
    (void)state;
    enum { LINES = 400000, LINE_BYTES = 9 };
    Files *files = open_set(".", false);
    FILE *stream = files_add(files, "gauge.vec", &problem);
    for (int i = 0; i < LINES; i++)
        fprintf(stream, "%08x\n", (unsigned)i);
    assert_true(files_commit(files, &problem));
    stream = fopen("gauge.vec", "r");
    char line[LINE_BYTES + 1], expected[LINE_BYTES + 1];
    for (int i = 0; i < LINES; i++) {
        snprintf(expected, sizeof expected, "%08x\n", (unsigned)i);
        assert_non_null(fgets(line, sizeof line, stream));
        assert_string_equal(line, expected);
    }
    assert_int_equal(fgetc(stream), EOF);
    fclose(stream);
}

static void the_umask_gives_the_permissions(void **state) {
    (void)state;
    static const mode_t masks[] = {022, 027, 077, 002, 0};
    for (size_t i = 0; i < sizeof masks / sizeof masks[0]; i++) {
        put("gauge.v", "old design");
        umask(masks[i]);
        assert_true(files_commit(open_unit(true), &problem));
        assert_int_equal(status_of("gauge.v").st_mode, S_IFREG | (0666 & ~masks[i]));
        assert_int_equal(status_of("gauge.vec").st_mode, S_IFREG | (0666 & ~masks[i]));
        unlink("gauge.vec");
    }
}

static void an_abandoned_set_leaves_nothing(void **state) {
    (void)state;
    files_abandon(open_unit(false));
    assert_string_equal(names_in("."), "");
    files_abandon(NULL);
}

/* ---- targets that are there already -------------------------------------------------------- */

static void the_same_content_is_left_untouched(void **state) {
    (void)state;
    for (int overwrite = 0; overwrite < 2; overwrite++) {
        struct stat before = put_old("gauge.v", "new design");
        assert_true(files_commit(open_unit(overwrite), &problem));
        assert_untouched("gauge.v", before);
        assert_unit("new");
    }
}

/* One byte more, one less, one different, and a difference far beyond any buffer. */
static void nearly_the_same_is_other_content(void **state) {
    (void)state;
    static const char *const near[] = {"new design\n", "new desig", "new desigm", ""};
    for (size_t i = 0; i < sizeof near / sizeof near[0]; i++) {
        put("gauge.v", near[i]);
        assert_refused(open_unit(false), "cannot write 'gauge.v' in '.' (it exists with other "
                                         "content); use --overwrite or write elsewhere");
        assert_string_equal(content_of("gauge.v"), near[i]);
    }
    FILE *stream = fopen("gauge.v", "w");
    fprintf(stream, "%1000000d", 1);
    fclose(stream);
    Files *files = open_set(".", false);
    fprintf(files_add(files, "gauge.v", &problem), "%1000000d", 2);
    assert_false(files_commit(files, &problem));
    files = open_set(".", false);
    fprintf(files_add(files, "gauge.v", &problem), "%1000000d", 1);
    assert_true(files_commit(files, &problem));
}

static void one_refused_target_keeps_all_away(void **state) {
    (void)state;
    struct stat before = put_old("gauge_tb.v", "by hand");
    assert_refused(open_unit(false), "cannot write 'gauge_tb.v' in '.' (it exists with other "
                                     "content); use --overwrite or write elsewhere");
    assert_untouched("gauge_tb.v", before);
    assert_string_equal(names_in("."), " gauge_tb.v");
}

/* The old file is replaced, not written into: another name of it keeps the old content. */
static void overwriting_replaces(void **state) {
    (void)state;
    put_old_unit();
    assert_int_equal(link("gauge.v", "kept.v"), 0);
    assert_true(files_commit(open_unit(true), &problem));
    assert_string_equal(content_of("kept.v"), "old design");
    unlink("kept.v");
    assert_unit("new");
}

static void a_folder_is_never_replaced(void **state) {
    (void)state;
    mkdir("gauge.vec", 0777);
    assert_refused(open_unit(true), "cannot write 'gauge.vec' in '.' (it is a folder); remove it "
                                    "or write into another folder");
    assert_string_equal(names_in("."), " gauge.vec");
    assert_true(S_ISDIR(status_of("gauge.vec").st_mode));
}

static void a_special_file_is_never_replaced(void **state) {
    (void)state;
    mkfifo("gauge.vec", 0666);
    assert_refused(open_unit(true), "cannot write 'gauge.vec' in '.' (it is not a plain file); "
                                    "remove it or write into another folder");
    assert_string_equal(names_in("."), " gauge.vec");
    assert_true(S_ISFIFO(status_of("gauge.vec").st_mode));
}

static void assert_link_refused(const char *to) {
    assert_int_equal(symlink(to, "gauge.vec"), 0);
    assert_refused(open_unit(true), "cannot write 'gauge.vec' in '.' (it is a symbolic link); "
                                    "remove it or write into another folder");
    assert_true(S_ISLNK(status_of("gauge.vec").st_mode));
    assert_int_equal(unlink("gauge.vec"), 0);
}

static void a_symbolic_link_is_never_replaced(void **state) {
    (void)state;
    assert_link_refused("nowhere");
    assert_string_equal(names_in("."), ""); /* and nothing made where it points */
    mkdir("elsewhere", 0777);
    assert_link_refused("elsewhere");
    mkfifo("pipe", 0666);
    assert_link_refused("pipe");
    struct stat before = put_old("shared", "old vectors");
    assert_link_refused("shared");
    assert_untouched("shared", before);
    assert_string_equal(names_in("."), " elsewhere pipe shared");
}

/* Reading it gives what the empty file holds, but it is no such file. */
static void a_symbolic_link_to_a_device_is_no_empty_file(void **state) {
    (void)state;
    assert_int_equal(symlink("/dev/null", "gauge.vec"), 0);
    Files *files = open_set(".", true);
    add(files, "gauge.vec", "");
    assert_refused(files, "cannot write 'gauge.vec' in '.' (it is a symbolic link); remove it or "
                          "write into another folder");
}

static void a_symbolic_link_to_the_same_content_stays(void **state) {
    (void)state;
    struct stat before = put_old("shared", "new vectors");
    assert_int_equal(symlink("shared", "gauge.vec"), 0);
    assert_true(files_commit(open_unit(false), &problem));
    assert_true(S_ISLNK(status_of("gauge.vec").st_mode));
    assert_untouched("shared", before);
    assert_string_equal(names_in("."), " gauge.v gauge.vec gauge_tb.v shared");
}

/* ---- names and folders that cannot be ------------------------------------------------------ */

static void assert_no_set(const char *folder, const char *text) {
    problem = (Problem){STATUS_DONE, ""};
    assert_null(files_open(folder, true, &problem));
    assert_problem(text);
}

static void the_folder_must_be_there(void **state) {
    (void)state;
    put("gauge.v", "a file");
    assert_no_set("nowhere", "cannot write in folder 'nowhere' (No such file or directory); write "
                             "into a folder that is there and may be written");
    assert_no_set("", "cannot write in folder '' (No such file or directory); write into a folder "
                      "that is there and may be written");
    assert_no_set("gauge.v", "cannot write in folder 'gauge.v' (Not a directory); write into a "
                             "folder that is there and may be written");
    mkfifo("pipe", 0666); /* must not wait for a writer */
    assert_no_set("pipe", "cannot write in folder 'pipe' (Not a directory); write into a folder "
                          "that is there and may be written");
    char long_name[300];
    memset(long_name, 'g', sizeof long_name - 1);
    long_name[sizeof long_name - 1] = '\0';
    assert_no_set(long_name, "cannot write in folder 'gggggggggggggggggggggggggggggggggggggggggggg"
                             "gggggggggggggggg...' (File name too long); give it a shorter name");
}

/* A set stays usable after a name that it refused. */
static void assert_no_stream(const char *name, Status status, const char *text) {
    Files *files = open_set(".", false);
    add(files, "gauge.v", "new design");
    assert_null(files_add(files, name, &problem));
    assert_int_equal(problem.status, status);
    assert_string_equal(problem.text, text);
    files_abandon(files);
    assert_string_equal(names_in("."), "");
}

static void a_name_must_be_a_plain_one(void **state) {
    (void)state;
    assert_no_stream("", STATUS_INVALID,
                     "cannot write a file called ''; a file name is not empty and has no /");
    assert_no_stream("../gauge.v", STATUS_INVALID,
                     "cannot write a file called '../gauge.v'; a file name is not empty and has no "
                     "/");
    assert_no_stream("gauge.v", STATUS_INVALID,
                     "'gauge.v' would be written twice; give the files different names");
    char long_name[300];
    memset(long_name, 'g', sizeof long_name - 1);
    long_name[sizeof long_name - 1] = '\0';
    assert_no_stream(
        long_name, STATUS_SURROUNDINGS,
        "cannot write 'gggggggggggggggggggggggggggggggggggggggggggggggggggggggggggg...'"
        " in '.' (File name too long); give it a shorter name");
}

/* ---- failures and races in the commit ------------------------------------------------------ */

static void a_failing_last_file_restores_the_earlier_ones(void **state) {
    (void)state;
    put_old_unit();
    struct stat design = status_of("gauge.v"), vectors = status_of("gauge.vec"),
                testbench = status_of("gauge_tb.v");
    fail_renames(3, 3);
    assert_refused(open_unit(true), "cannot write 'gauge_tb.v' in '.' (Input/output error); write "
                                    "into a folder that is there and may be written");
    assert_int_equal(interference.renames, 6); /* three there, three back */
    assert_unit("old");
    assert_untouched("gauge.v", design);
    assert_untouched("gauge.vec", vectors);
    assert_untouched("gauge_tb.v", testbench);
}

static void a_failing_last_file_takes_new_ones_away(void **state) {
    (void)state;
    struct stat before = put_old("gauge_tb.v", "old testbench");
    fail_renames(1, 1);
    assert_false(files_commit(open_unit(true), &problem));
    assert_string_equal(names_in("."), " gauge_tb.v");
    assert_untouched("gauge_tb.v", before);
}

/* Should even the way back be barred, nothing is lost, and the message says where it is. */
static void what_cannot_be_restored_is_named(void **state) {
    (void)state;
    put_old("gauge.v", "old design");
    struct stat before = put_old("gauge.vec", "old vectors");
    fail_renames(2, 100);
    assert_false(files_commit(open_unit(true), &problem));
    const char *name = strstr(problem.text, ".sumwright-");
    assert_non_null(name);
    char kept[64];
    assert_int_equal(sscanf(name, "%63s", kept), 1);
    char text[256];
    snprintf(text, sizeof text,
             "cannot write 'gauge.vec' in '.' (Input/output error); the old content of 'gauge.v' "
             "is now in the file %s there, rename it back",
             kept);
    assert_problem(text);
    assert_string_equal(content_of(kept), "old design");
    assert_untouched("gauge.vec", before);
    assert_int_equal(access("gauge_tb.v", F_OK), -1);
}

static void somebody_writes_vectors(const char *target) {
    if (strcmp(target, "gauge.vec") == 0)
        put("gauge.vec", "somebody else's");
}

static void a_target_that_appears_meanwhile_stays(void **state) {
    (void)state;
    for (int overwrite = 0; overwrite < 2; overwrite++) {
        interference.before_link = somebody_writes_vectors;
        assert_refused(open_unit(overwrite),
                       "cannot write 'gauge.vec' in '.' (another file appeared there meanwhile); "
                       "try again or write into another folder");
        assert_string_equal(names_in("."), " gauge.vec");
        assert_string_equal(content_of("gauge.vec"), "somebody else's");
        unlink("gauge.vec");
    }
}

static void somebody_makes_folder_of_vectors(const char *target) {
    if (strcmp(target, "gauge.v") == 0) {
        unlink("gauge.vec");
        mkdir("gauge.vec", 0777);
    }
}

static void a_target_that_becomes_a_folder_stays(void **state) {
    (void)state;
    put("gauge.vec", "old vectors");
    interference.before_link = somebody_makes_folder_of_vectors;
    assert_refused(open_unit(true),
                   "cannot write 'gauge.vec' in '.' (another file appeared there meanwhile); "
                   "try again or write into another folder");
    assert_string_equal(names_in("."), " gauge.vec");
    assert_true(S_ISDIR(status_of("gauge.vec").st_mode));
}

/* What link() says where there are no hard links: EPERM for FAT on Linux (link(2)), the others on
 * network and user-space file systems; EMLINK when a file has all the names it may have. */
static const int link_errors[] = {EPERM, ENOTSUP, EOPNOTSUPP, ENOSYS, EMLINK, EACCES};
enum { LINK_ERRORS = sizeof link_errors / sizeof link_errors[0] };

static void hard_links_are_not_needed(void **state) {
    (void)state;
    for (int i = 0; i < LINK_ERRORS; i++) {
        interference.link_error = link_errors[i];
        assert_true(files_commit(open_unit(false), &problem));
        assert_unit("new");
        put_old_unit();
        assert_true(files_commit(open_unit(true), &problem));
        assert_unit("new");
        unlink("gauge.v");
        unlink("gauge.vec");
        unlink("gauge_tb.v");
    }
}

static void without_hard_links_a_failure_restores_too(void **state) {
    (void)state;
    put_old_unit();
    struct stat before = status_of("gauge.v");
    interference.link_error = EPERM;
    fail_renames(6, 6); /* the last file's new content; the even ones bring the new content */
    assert_false(files_commit(open_unit(true), &problem));
    assert_unit("old");
    assert_untouched("gauge.v", before);
    unlink("gauge.v");
    unlink("gauge.vec");
    interference.renames = 0;
    fail_renames(2, 2); /* a new file's */
    assert_false(files_commit(open_unit(true), &problem));
    assert_string_equal(names_in("."), " gauge_tb.v");
}

static void without_hard_links_a_race_is_lost_as_politely(void **state) {
    (void)state;
    interference.link_error = EPERM;
    interference.before_link = somebody_writes_vectors;
    assert_refused(open_unit(true),
                   "cannot write 'gauge.vec' in '.' (another file appeared there meanwhile); "
                   "try again or write into another folder");
    assert_string_equal(names_in("."), " gauge.vec");
    assert_string_equal(content_of("gauge.vec"), "somebody else's");
}

/* ---- in a process of its own --------------------------------------------------------------- */

/* For the child: cmocka's assertions belong to the parent. */
static void expect(bool met, const char *what) {
    if (met)
        return;
    fprintf(stderr, "in the child process: %s; %s\n", what, problem.text);
    _exit(1);
}

/* Runs the function in a child process; its wait status. A child that hangs ends by SIGALRM. */
static int in_child(void (*work)(void)) {
    fflush(NULL);
    pid_t child = fork();
    if (child == 0) {
        alarm(60);
        work();
        _exit(0);
    }
    int status = -1;
    waitpid(child, &status, 0);
    return status;
}

static void assert_child_succeeds(void (*work)(void)) {
    int status = in_child(work);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
}

static void assert_child_killed(int status, int by) {
    assert_true(WIFSIGNALED(status));
    assert_int_equal(WTERMSIG(status), by);
}

/* ---- signals ------------------------------------------------------------------------------- */

/* Writes without end, into a file that does not grow without end, after telling the parent. */
static void write_without_end(int told) {
    Files *files = open_unit(true);
    FILE *stream = files_add(files, "gauge.svg", &problem);
    for (int round = 0;; round++) {
        rewind(stream);
        for (int i = 0; i < 100000; i++)
            fprintf(stream, "%d\n", i);
        if (round == 0 && write(told, "", 1) != 1)
            _exit(1);
    }
}

/* Starts the function in a child process; its number, once it has told us that it is at work. */
static pid_t start_child(void (*work)(int told)) {
    int told[2];
    char byte;
    assert_int_equal(pipe(told), 0);
    fflush(NULL);
    pid_t child = fork();
    if (child == 0) {
        alarm(60);
        work(told[1]);
        _exit(0);
    }
    close(told[1]);
    ssize_t got = read(told[0], &byte, 1);
    close(told[0]);
    assert_int_equal(got, 1);
    return child;
}

static void a_signal_while_writing_leaves_the_folder_as_it_was(void **state) {
    (void)state;
    static const int numbers[] = {SIGTERM, SIGINT, SIGHUP, SIGQUIT};
    put_old_unit();
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        pid_t child = start_child(write_without_end);
        assert_non_null(strstr(names_in("."), " .sumwright-")); /* something to remove */
        kill(child, numbers[i]);
        int status = -1;
        waitpid(child, &status, 0);
        assert_child_killed(status, numbers[i]);
        assert_unit("old");
    }
}

enum { LEVELS = 200 };

static void commit_many(int told) {
    Files *files = open_set(".", false);
    for (int i = 0; i < LEVELS; i++) {
        char name[32];
        snprintf(name, sizeof name, "level%03d.vec", i);
        add(files, name, "0");
    }
    if (write(told, "", 1) != 1 || !files_commit(files, &problem))
        _exit(1);
}

/* None, all, or something between; removes them. */
static int count_and_remove(void) {
    struct dirent **entry;
    int count = scandir(".", &entry, visible, alphasort);
    for (int i = 0; i < count; i++) {
        unlink(entry[i]->d_name);
        free(entry[i]);
    }
    free(entry);
    return count;
}

/* The delays only spread the signals over the commit; the outcome may not depend on them. */
static void a_signal_at_any_moment_leaves_all_or_none(void **state) {
    (void)state;
    for (long delay = 0; delay < 40; delay++) {
        pid_t child = start_child(commit_many);
        nanosleep(&(struct timespec){.tv_nsec = delay * 100000}, NULL);
        kill(child, SIGTERM);
        int status = -1;
        waitpid(child, &status, 0);
        int count = count_and_remove();
        if (count != 0)
            assert_int_equal(count, LEVELS);
        if (WIFSIGNALED(status))
            assert_int_equal(WTERMSIG(status), SIGTERM);
        else
            assert_int_equal(count, LEVELS);
    }
}

static void terminate_at_vectors(const char *target) {
    if (strcmp(target, "gauge.vec") == 0)
        raise(SIGTERM);
}

static void commit_terminated(void) {
    interference.before_link = terminate_at_vectors;
    interference.before_rename = terminate_at_vectors;
    files_commit(open_unit(true), &problem);
    put("after", "the signal came too late");
}

static void a_signal_during_the_commit_waits_for_its_end(void **state) {
    (void)state;
    assert_child_killed(in_child(commit_terminated), SIGTERM); /* new files: link */
    assert_unit("new");
    put_old_unit();
    assert_child_killed(in_child(commit_terminated), SIGTERM); /* replaced ones: rename */
    assert_unit("new");
}

static void commit_ignoring_hangup(void) {
    signal(SIGHUP, SIG_IGN);
    Files *files = open_unit(false);
    raise(SIGHUP);
    expect(files_commit(files, &problem), "the set is committed");
}

/* As under nohup. */
static void an_ignored_signal_stays_ignored(void **state) {
    (void)state;
    assert_child_succeeds(commit_ignoring_hangup);
    assert_unit("new");
}

static void on_terminate(int number) {
    (void)number;
}

static void expect_signals_as_before(const char *when) {
    static const int numbers[] = {SIGINT, SIGHUP, SIGXFSZ};
    struct sigaction action;
    sigset_t mask;
    sigaction(SIGTERM, NULL, &action);
    expect(action.sa_handler == on_terminate, when);
    for (int i = 0; i < 3; i++) {
        sigaction(numbers[i], NULL, &action);
        expect(action.sa_handler == SIG_DFL, when);
    }
    sigprocmask(SIG_SETMASK, NULL, &mask);
    expect(sigismember(&mask, SIGINT) == 1, when);
    expect(sigismember(&mask, SIGTERM) == 0 && sigismember(&mask, SIGHUP) == 0, when);
}

static void use_and_look_at_signals(void) {
    sigset_t mask;
    sigemptyset(&mask);
    sigaddset(&mask, SIGINT);
    sigprocmask(SIG_SETMASK, &mask, NULL);
    signal(SIGHUP, SIG_DFL);
    signal(SIGINT, SIG_DFL);
    signal(SIGXFSZ, SIG_DFL);
    signal(SIGTERM, on_terminate);
    files_abandon(open_unit(false));
    expect_signals_as_before("signals after files_abandon()");
    expect(files_commit(open_unit(false), &problem), "the set is committed");
    expect_signals_as_before("signals after files_commit()");
    put("gauge.v", "by hand");
    expect(!files_commit(open_unit(false), &problem), "the set is refused");
    expect_signals_as_before("signals after a refusal");
}

static void handlers_and_mask_are_given_back(void **state) {
    (void)state;
    assert_child_succeeds(use_and_look_at_signals);
}

/* ---- the end of the program ---------------------------------------------------------------- */

static void no_memory(void *context) {
    (void)context;
    files_abandon_open();
    exit(STATUS_SURROUNDINGS);
}

static void run_out_of_memory(void) {
    open_unit(true);
    memory_on_lack(no_memory, NULL);
    memory_resize(NULL, SIZE_MAX, 2);
}

static void temporary_files_go_when_memory_runs_out(void **state) {
    (void)state;
    put_old_unit();
    int status = in_child(run_out_of_memory);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), STATUS_SURROUNDINGS);
    assert_unit("old");
}

static void be_killed_outright(void) {
    open_unit(false);
    raise(SIGKILL);
}

/* SIGKILL leaves temporary files, which no later run stumbles over or takes for its own. */
static void leftovers_of_a_killed_run_do_no_harm(void **state) {
    (void)state;
    assert_child_killed(in_child(be_killed_outright), SIGKILL);
    char leftovers[2048];
    snprintf(leftovers, sizeof leftovers, "%s", names_in("."));
    assert_non_null(strstr(leftovers, " .sumwright-"));
    assert_true(files_commit(open_unit(false), &problem));
    assert_memory_equal(names_in("."), leftovers, strlen(leftovers));
    assert_string_equal(names_in(".") + strlen(leftovers), " gauge.v gauge.vec gauge_tb.v");
}

/* Process numbers come round again: the first names that a run would choose may be taken. */
static void take_first_names_and_commit(void) {
    enum { TAKEN = 1000 };
    char name[64];
    for (int i = 0; i < TAKEN; i++) {
        snprintf(name, sizeof name, ".sumwright-%ld-%d", (long)getpid(), i);
        put(name, "left over");
    }
    put("gauge.v", "old design");
    expect(files_commit(open_unit(true), &problem), "the set is committed");
    for (int i = 0; i < TAKEN; i++) {
        snprintf(name, sizeof name, ".sumwright-%ld-%d", (long)getpid(), i);
        expect(strcmp(content_of(name), "left over") == 0, "a leftover is as it was");
        unlink(name);
    }
}

static void a_taken_temporary_name_is_passed_over(void **state) {
    (void)state;
    assert_child_succeeds(take_first_names_and_commit);
    assert_unit("new");
}

static char taken_name[64];

static void somebody_takes_the_first_temporary_name(const char *target) {
    if (target[0] == '.' && taken_name[0] == '\0') {
        snprintf(taken_name, sizeof taken_name, "%s", target);
        put(taken_name, "somebody else's");
    }
}

/* The name under which the old content would be kept; with hard links and without. */
static void a_taken_name_for_the_old_content_is_passed_over(void **state) {
    (void)state;
    static const int errors[] = {0, EPERM};
    for (int i = 0; i < 2; i++) {
        put_old_unit();
        taken_name[0] = '\0';
        interference.link_error = errors[i];
        interference.before_link = somebody_takes_the_first_temporary_name;
        assert_true(files_commit(open_unit(true), &problem));
        assert_string_equal(content_of(taken_name), "somebody else's");
        assert_int_equal(unlink(taken_name), 0);
        assert_unit("new");
    }
}

/* ---- disks and folders that refuse --------------------------------------------------------- */

enum { MEBIBYTE = 1 << 20 };

/* The failing write comes while writing or only at the end, when the stream's buffer is flushed. In
 * small pieces the buffer holds the rest when the write fails; in one piece the stream has given it
 * up by then. */
static void write_small_pieces(FILE *stream) {
    for (int i = 0; i < MEBIBYTE / 16; i++)
        fprintf(stream, "%015d\n", i);
}

static void write_one_piece(FILE *stream) {
    char *piece = memory_zeroed(MEBIBYTE, 1);
    fwrite(piece, 1, MEBIBYTE, stream);
    free(piece);
}

static void write_less_than_the_buffer(FILE *stream) {
    for (int i = 0; i < 60000; i++)
        fputc('0', stream);
    expect(!ferror(stream), "nothing has failed yet");
}

/* Replaces one file and adds a big one, which must fail for the given reason. */
static void expect_big_file_fails(const char *folder, const char *names, const char *text) {
    static void (*const ways[])(FILE * stream) = {write_small_pieces, write_one_piece,
                                                  write_less_than_the_buffer};
    for (int i = 0; i < 3; i++) {
        Files *files = open_set(folder, true);
        fflush(add(files, "gauge.v", "new design")); /* while there is room */
        FILE *stream = files_add(files, "gauge.vec", &problem);
        expect(stream != NULL, "the stream");
        ways[i](stream);
        expect(!files_commit(files, &problem), "a write error is a problem");
        expect(problem.status == STATUS_SURROUNDINGS, "the status");
        expect(strcmp(problem.text, text) == 0, text);
        expect(strcmp(names_in(folder), names) == 0, names_in(folder));
    }
}

static void meet_size_limit(void) {
    struct rlimit limit = {.rlim_cur = 20000, .rlim_max = 20000};
    signal(SIGXFSZ, SIG_DFL);
    setrlimit(RLIMIT_FSIZE, &limit);
    expect_big_file_fails(".", " gauge.v gauge.vec gauge_tb.v",
                          "cannot write 'gauge.vec' in '.' (File too large); raise the limit on "
                          "the size of files (ulimit -f) or ask for smaller files");
}

static void a_limit_on_the_size_of_files_is_an_error(void **state) {
    (void)state;
    put_old_unit();
    assert_child_succeeds(meet_size_limit);
    assert_unit("old");
}

/* A small disk, seen by this process alone, so that it goes with it; false where that is not
 * allowed. */
static bool mount_disk(const char *folder, const char *options) {
    return unshare(CLONE_NEWNS) == 0 && mount("none", "/", "", MS_REC | MS_PRIVATE, "") == 0 &&
           mount("tmpfs", folder, "tmpfs", 0, options) == 0;
}

static void fill_disk(void) {
    if (!mount_disk("disk", "size=32k")) {
        print_message("no small disk may be mounted here: %s; the size limit stands for it\n",
                      strerror(errno));
        rmdir("disk");
        meet_size_limit();
        return;
    }
    put("disk/gauge.v", "old design");
    expect_big_file_fails("disk", " gauge.v",
                          "cannot write 'gauge.vec' in 'disk' (No space left on device); make room "
                          "there or write into another folder");
    expect(strcmp(content_of("disk/gauge.v"), "old design") == 0, "the old file is there");
}

static void a_full_disk_is_an_error(void **state) {
    (void)state;
    put_old_unit();
    mkdir("disk", 0777);
    int status = in_child(fill_disk);
    rmdir("disk");
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
    assert_unit("old");
}

static void write_into_folder_without_permission(void) {
    if (geteuid() == 0)
        expect(setgid(65534) == 0 && setuid(65534) == 0, "root's privileges are dropped");
    problem = (Problem){STATUS_DONE, ""};
    expect(files_open(".", true, &problem) == NULL, "the folder is refused");
    expect(problem.status == STATUS_SURROUNDINGS, "the status");
    const char *text = "cannot write in folder '.' (Permission denied); write into a folder that "
                       "is there and may be written";
    expect(strcmp(problem.text, text) == 0, text);
}

static void a_folder_without_permission_is_an_error(void **state) {
    (void)state;
    put_old_unit();
    chmod(".", 0555);
    assert_child_succeeds(write_into_folder_without_permission);
    assert_unit("old");
}

static void write_on_read_only_disk(void) {
    if (!mount_disk("disk", "size=32k")) {
        print_message("no disk may be mounted here: %s; a folder without permission stands for "
                      "it\n",
                      strerror(errno));
        chmod(".", 0555);
        write_into_folder_without_permission();
        return;
    }
    expect(mount("none", "disk", "", MS_REMOUNT | MS_RDONLY, "") == 0, "remount");
    problem = (Problem){STATUS_DONE, ""};
    expect(files_open("disk", true, &problem) == NULL, "the folder is refused");
    const char *text = "cannot write in folder 'disk' (Read-only file system); write into a folder "
                       "that is there and may be written";
    expect(strcmp(problem.text, text) == 0, text);
}

static void a_read_only_disk_is_an_error(void **state) {
    (void)state;
    mkdir("disk", 0777);
    assert_child_succeeds(write_on_read_only_disk);
    chmod(".", 0755);
    assert_string_equal(names_in("."), " disk");
}

static void run_out_of_descriptors(void) {
    struct rlimit limit;
    getrlimit(RLIMIT_NOFILE, &limit);
    limit.rlim_cur = (rlim_t)next_descriptor();
    setrlimit(RLIMIT_NOFILE, &limit);
    problem = (Problem){STATUS_DONE, ""};
    expect(files_open(".", false, &problem) == NULL, "the folder is not opened");
    const char *text = "cannot write in folder '.' (Too many open files); allow more open files "
                       "(ulimit -n)";
    expect(strcmp(problem.text, text) == 0, text);
}

static void too_many_open_files_are_an_error(void **state) {
    (void)state;
    assert_child_succeeds(run_out_of_descriptors);
    assert_string_equal(names_in("."), "");
}

static void a_folder_that_goes_meanwhile_is_an_error(void **state) {
    (void)state;
    const char *text = "cannot write 'gauge.v' in 'out' (No such file or directory); write into a "
                       "folder that is there and may be written";
    mkdir("out", 0777);
    Files *files = open_set("out", false);
    assert_int_equal(rmdir("out"), 0); /* before the first file is made */
    assert_null(files_add(files, "gauge.v", &problem));
    assert_problem(text);
    files_abandon(files);

    mkdir("out", 0777);
    files = open_set("out", false);
    add(files, "gauge.v", "new design");
    nftw("out", remove_all, 8, FTW_DEPTH | FTW_PHYS);
    assert_refused(files, text);
    assert_string_equal(names_in("."), "");
}

/* Everyone may make files in a folder like /tmp, but only replace their own (chmod(2), S_ISVTX). */
static void replace_somebody_elses_file(void) {
    if (geteuid() != 0) {
        print_message("only root can stand for two users; a failing rename stands for them\n");
        fail_renames(1, 1);
        expect(!files_commit(open_unit(true), &problem), "the set is refused");
        return;
    }
    expect(setgid(65534) == 0 && setuid(65534) == 0, "root's privileges are dropped");
    expect(!files_commit(open_unit(true), &problem), "the set is refused");
    const char *text = "cannot write 'gauge_tb.v' in '.' (Operation not permitted); write into a "
                       "folder that is there and may be written";
    expect(strcmp(problem.text, text) == 0, text);
}

static void somebody_elses_file_in_a_shared_folder_stays(void **state) {
    (void)state;
    struct stat before = put_old("gauge_tb.v", "old testbench");
    chmod(".", 01777);
    assert_child_succeeds(replace_somebody_elses_file);
    assert_string_equal(names_in("."), " gauge_tb.v");
    assert_untouched("gauge_tb.v", before);
}

#define IN_FOLDER(test) cmocka_unit_test_setup_teardown(test, enter_folder, leave_folder)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_FOLDER(files_appear_at_the_commit),
        IN_FOLDER(another_folder_may_be_named),
        IN_FOLDER(the_folder_may_be_renamed_meanwhile),
        IN_FOLDER(an_empty_set_and_an_empty_file_are_fine),
        IN_FOLDER(megabytes_arrive_whole),
        IN_FOLDER(the_umask_gives_the_permissions),
        IN_FOLDER(an_abandoned_set_leaves_nothing),
        IN_FOLDER(the_same_content_is_left_untouched),
        IN_FOLDER(nearly_the_same_is_other_content),
        IN_FOLDER(one_refused_target_keeps_all_away),
        IN_FOLDER(overwriting_replaces),
        IN_FOLDER(a_folder_is_never_replaced),
        IN_FOLDER(a_special_file_is_never_replaced),
        IN_FOLDER(a_symbolic_link_is_never_replaced),
        IN_FOLDER(a_symbolic_link_to_a_device_is_no_empty_file),
        IN_FOLDER(a_symbolic_link_to_the_same_content_stays),
        IN_FOLDER(the_folder_must_be_there),
        IN_FOLDER(a_name_must_be_a_plain_one),
        IN_FOLDER(a_failing_last_file_restores_the_earlier_ones),
        IN_FOLDER(a_failing_last_file_takes_new_ones_away),
        IN_FOLDER(what_cannot_be_restored_is_named),
        IN_FOLDER(a_target_that_appears_meanwhile_stays),
        IN_FOLDER(a_target_that_becomes_a_folder_stays),
        IN_FOLDER(hard_links_are_not_needed),
        IN_FOLDER(without_hard_links_a_failure_restores_too),
        IN_FOLDER(without_hard_links_a_race_is_lost_as_politely),
        IN_FOLDER(a_signal_while_writing_leaves_the_folder_as_it_was),
        IN_FOLDER(a_signal_at_any_moment_leaves_all_or_none),
        IN_FOLDER(a_signal_during_the_commit_waits_for_its_end),
        IN_FOLDER(an_ignored_signal_stays_ignored),
        IN_FOLDER(handlers_and_mask_are_given_back),
        IN_FOLDER(temporary_files_go_when_memory_runs_out),
        IN_FOLDER(leftovers_of_a_killed_run_do_no_harm),
        IN_FOLDER(a_taken_temporary_name_is_passed_over),
        IN_FOLDER(a_taken_name_for_the_old_content_is_passed_over),
        IN_FOLDER(a_limit_on_the_size_of_files_is_an_error),
        IN_FOLDER(a_full_disk_is_an_error),
        IN_FOLDER(a_folder_without_permission_is_an_error),
        IN_FOLDER(a_read_only_disk_is_an_error),
        IN_FOLDER(too_many_open_files_are_an_error),
        IN_FOLDER(a_folder_that_goes_meanwhile_is_an_error),
        IN_FOLDER(somebody_elses_file_in_a_shared_folder_stays),
    };
    return cmocka_run_group_tests_name("files", tests, NULL, NULL);
}
