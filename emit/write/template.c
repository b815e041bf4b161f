/* See template.h. Two steps: the text is cut into lines whose form is checked and whose %if, %each
 * know where they end (read_script); then the lines are run with the facts (run). Below that,
 * where the text of a template comes from. */
#include "write/template.h"

#include "base/memory.h"
#include "base/text.h"
#include "write/embedded.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Where the text goes. */
typedef struct {
    FILE *out;       /* NULL: all of it stays in text */
    TextBuffer text; /* not yet written to out */
} Sink;

typedef enum { LINE_TEXT, LINE_IF, LINE_IF_NOT, LINE_ELSE, LINE_EACH, LINE_END } LineKind;

/* A placeholder: from..end is ${name}, its name begins at from + 2. */
typedef struct {
    size_t from, end;
} Hole;

typedef struct {
    LineKind kind;
    size_t number;    /* in the template, from 1 */
    const char *text; /* LINE_TEXT: the line without its end; LINE_IF, LINE_EACH: the name */
    size_t bytes;
    size_t partner; /* index of the %else or %end that ends the part this line begins */
} Line;

typedef struct {
    const char *shown_name;
    Line *line;
    size_t count, room;
    size_t open[TEMPLATE_DEPTH_MAX]; /* indices of lines whose %end is still to come */
    size_t depth;
    Problem *problem;

    Sink *sink;
    size_t work; /* see spend() */
} Script;

/* ---- messages ------------------------------------------------------------------------------ */

static bool fail(const Script *script, size_t number, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

static bool fail(const Script *script, size_t number, const char *format, ...) {
    char text[PROBLEM_TEXT_BYTES];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    return problem_set(script->problem, STATUS_INVALID, "%s:%zu: %s", script->shown_name, number,
                       text);
}

/* problem_quote for a piece of a template; it shows no more than PROBLEM_QUOTE_BYTES anyhow. */
static Quoted quote(const char *text, size_t bytes) {
    char piece[PROBLEM_QUOTE_BYTES];
    if (bytes >= sizeof piece)
        bytes = sizeof piece - 1;
    memcpy(piece, text, bytes);
    piece[bytes] = '\0';
    return problem_quote(piece);
}

/* ---- pieces of a line ---------------------------------------------------------------------- */

static bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

/* ASCII letters only, whatever the locale. */
static bool is_name_character(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '.';
}

static size_t blanks(const char *text, size_t bytes, size_t from) {
    while (from < bytes && is_blank(text[from]))
        from++;
    return from;
}

static size_t name_end(const char *text, size_t bytes, size_t from) {
    while (from < bytes && is_name_character(text[from]))
        from++;
    return from;
}

static bool is_word(const char *text, size_t bytes, const char *word) {
    return bytes == strlen(word) && memcmp(text, word, bytes) == 0;
}

/* The next ${ at or after from, its name and the } after it, if that is there; false when there is
 * no ${. */
static bool next_hole(const char *text, size_t bytes, size_t from, Hole *hole) {
    for (;;) {
        const char *dollar = from < bytes ? memchr(text + from, '$', bytes - from) : NULL;
        if (dollar == NULL)
            return false;
        from = (size_t)(dollar - text);
        if (from + 1 < bytes && dollar[1] == '{')
            break;
        from++;
    }
    size_t end = name_end(text, bytes, from + 2);
    *hole = (Hole){from, end < bytes && text[end] == '}' ? end + 1 : end};
    return true;
}

/* ---- reading a template -------------------------------------------------------------------- */

static void add_line(Script *script, LineKind kind, size_t number, const char *text, size_t bytes) {
    script->line =
        memory_grow(script->line, &script->room, script->count + 1, sizeof *script->line);
    script->line[script->count++] =
        (Line){.kind = kind, .number = number, .text = text, .bytes = bytes};
}

static bool read_text(Script *script, size_t number, const char *text, size_t bytes) {
    Hole hole;
    for (size_t from = 0; next_hole(text, bytes, from, &hole); from = hole.end)
        if (text[hole.end - 1] != '}' || hole.end == hole.from + sizeof "${}" - 1)
            return fail(script, number,
                        "broken placeholder %s; write ${name} with letters, digits, _ and dots",
                        quote(text + hole.from, bytes - hole.from).text);
    add_line(script, LINE_TEXT, number, text, bytes);
    return true;
}

/* %if and %each; rest is what follows the word. */
static bool read_opening(Script *script, size_t number, const char *word, const char *rest,
                         size_t bytes) {
    LineKind kind = strcmp(word, "each") == 0 ? LINE_EACH : LINE_IF;
    size_t from = blanks(rest, bytes, 0);
    size_t end = name_end(rest, bytes, from);
    if (kind == LINE_IF && is_word(rest + from, end - from, "not")) {
        kind = LINE_IF_NOT;
        from = blanks(rest, bytes, end);
        end = name_end(rest, bytes, from);
    }
    if (end == from || blanks(rest, bytes, end) != bytes || is_word(rest + from, end - from, "not"))
        return fail(script, number, "%%%s takes one name, not %s; write %%%s name%s", word,
                    quote(rest, bytes).text, word, kind == LINE_EACH ? "" : " or %if not name");
    if (script->depth == TEMPLATE_DEPTH_MAX)
        return fail(script, number, "%%%s is nested too deep; %d levels are allowed", word,
                    TEMPLATE_DEPTH_MAX);
    script->open[script->depth++] = script->count;
    add_line(script, kind, number, rest + from, end - from);
    return true;
}

/* %else and %end: the part begun by the innermost open line ends here. */
static bool read_closing(Script *script, size_t number, const char *word, const char *rest,
                         size_t bytes) {
    LineKind kind = strcmp(word, "else") == 0 ? LINE_ELSE : LINE_END;
    if (blanks(rest, bytes, 0) != bytes)
        return fail(script, number, "%s follows %%%s; it stands alone on its line",
                    quote(rest, bytes).text, word);
    if (script->depth == 0)
        return fail(script, number, "%%%s without its beginning; put %s before it", word,
                    kind == LINE_ELSE ? "%if" : "%if or %each");
    size_t *innermost = &script->open[script->depth - 1];
    Line *begin = &script->line[*innermost];
    if (kind == LINE_ELSE && begin->kind != LINE_IF && begin->kind != LINE_IF_NOT)
        return fail(script, number, "%%else belongs to no %%if; line %zu is the %s still open",
                    begin->number, begin->kind == LINE_ELSE ? "%else" : "%each");
    begin->partner = script->count;
    if (kind == LINE_ELSE)
        *innermost = script->count;
    else
        script->depth--;
    add_line(script, kind, number, NULL, 0);
    return true;
}

/* text begins at the %. */
static bool read_directive(Script *script, size_t number, const char *text, size_t bytes) {
    if (bytes > 1 && text[1] == '#')
        return true;
    size_t end = name_end(text, bytes, 1);
    const char *rest = text + end;
    if (is_word(text, end, "%if"))
        return read_opening(script, number, "if", rest, bytes - end);
    if (is_word(text, end, "%each"))
        return read_opening(script, number, "each", rest, bytes - end);
    if (is_word(text, end, "%else"))
        return read_closing(script, number, "else", rest, bytes - end);
    if (is_word(text, end, "%end"))
        return read_closing(script, number, "end", rest, bytes - end);
    return fail(script, number, "unknown directive %s; there are %%if, %%else, %%end, %%each, %%#",
                quote(text, end).text);
}

static bool read_line(Script *script, size_t number, const char *text, size_t bytes) {
    if (memchr(text, '\0', bytes) != NULL)
        return fail(script, number, "a NUL byte; a template is plain text");
    if (bytes > 0 && text[bytes - 1] == '\r')
        bytes--;
    size_t from = blanks(text, bytes, 0);
    if (from < bytes && text[from] == '%')
        return read_directive(script, number, text + from, bytes - from);
    return read_text(script, number, text, bytes);
}

static bool read_script(Script *script, const char *text, size_t bytes) {
    size_t at = bytes >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
    for (size_t number = 1; at < bytes; number++) {
        const char *end = memchr(text + at, '\n', bytes - at);
        size_t length = end != NULL ? (size_t)(end - (text + at)) : bytes - at;
        if (!read_line(script, number, text + at, length))
            return false;
        at += length + 1;
    }
    if (script->depth > 0) {
        const Line *begin = &script->line[script->open[script->depth - 1]];
        const char *const words[] = {
            [LINE_IF] = "%if", [LINE_IF_NOT] = "%if", [LINE_ELSE] = "%else", [LINE_EACH] = "%each"};
        return fail(script, begin->number, "%s is never closed; put %%end on a line of its own",
                    words[begin->kind]);
    }
    return true;
}

/* ---- filling ------------------------------------------------------------------------------- */

/* A look-up and a line cost about as much as some tens of bytes copied. */
enum { LINE_WORK = 64 };

/* Loops in loops can ask for more than any disk holds, and for more time than anybody has even
 * when they put out nothing; each step pays here for what it reads and writes. */
static bool spend(Script *script, const Line *line, size_t bytes) {
    if (bytes > (size_t)TEMPLATE_WORK_MAX - script->work)
        return fail(script, line->number,
                    "more than %d MiB would be put out; are %%each loops nested by mistake?",
                    TEMPLATE_WORK_MAX >> 20);
    script->work += bytes;
    return true;
}

/* The fact that a line names; NULL after a problem, and what says how the name is used. */
static const Fact *look_up(Script *script, const Line *line, const char *name, size_t bytes,
                           const Facts *facts, const char *what) {
    const Fact *fact = facts_find(facts, name, bytes);
    if (fact == NULL) {
        char known[PROBLEM_TEXT_BYTES / 2];
        facts_names(facts, known, sizeof known);
        fail(script, line->number, "unknown %s %s; known here: %s", what, quote(name, bytes).text,
             known[0] != '\0' ? known : "nothing");
    }
    return fact;
}

static const Fact *look_up_text(Script *script, const Line *line, const Hole *hole,
                                const Facts *facts) {
    const char *name = line->text + hole->from + 2;
    size_t bytes = hole->end - 1 - (hole->from + 2);
    const Fact *fact = look_up(script, line, name, bytes, facts, "placeholder");
    if (fact == NULL)
        return NULL;
    if (fact->kind != FACT_TEXT) {
        fail(script, line->number, "%s is a %s and has no text; use it in %s", fact->name,
             fact->kind == FACT_FLAG ? "flag" : "list",
             fact->kind == FACT_FLAG ? "%if" : "%each or %if");
        return NULL;
    }
    return spend(script, line, LINE_WORK + fact->bytes) ? fact : NULL;
}

static void write_out(Sink *sink) {
    if (sink->text.length > 0)
        fwrite(sink->text.text, 1, sink->text.length, sink->out);
    sink->text.length = 0;
}

/* Short texts wait for one another: a stream takes longer over a call than over what it is given.
 */
static void put(Script *script, const char *text, size_t bytes) {
    enum { ENOUGH = 4096 };
    Sink *sink = script->sink;
    if (sink->out != NULL && sink->text.length + bytes > ENOUGH)
        write_out(sink);
    text_add_bytes(&sink->text, text, bytes);
}

/* The lines of a text that stands alone, each after the blanks that the placeholder stands after.
 * The indentation counts as work: many short lines behind many blanks. */
static bool put_block(Script *script, const Line *line, size_t indentation, const Fact *fact) {
    for (size_t at = 0; at < fact->bytes;) {
        const char *end = memchr(fact->text + at, '\n', fact->bytes - at);
        size_t length = end != NULL ? (size_t)(end - (fact->text + at)) : fact->bytes - at;
        if (length > 0) {
            if (!spend(script, line, indentation))
                return false;
            put(script, line->text, indentation);
            put(script, fact->text + at, length);
        }
        put(script, "\n", 1);
        at += length + 1;
    }
    return true;
}

static bool stands_alone(const Line *line, const Hole *hole) {
    assert(hole->from < hole->end && hole->end <= line->bytes);
    return blanks(line->text, line->bytes, 0) == hole->from &&
           blanks(line->text, line->bytes, hole->end) == line->bytes;
}

static bool put_line(Script *script, const Line *line, const Facts *facts) {
    size_t from = 0;
    Hole hole;
    for (; next_hole(line->text, line->bytes, from, &hole); from = hole.end) {
        const Fact *fact = look_up_text(script, line, &hole, facts);
        if (fact == NULL)
            return false;
        if (stands_alone(line, &hole))
            return put_block(script, line, hole.from, fact);
        put(script, line->text + from, hole.from - from);
        put(script, fact->text, fact->bytes);
    }
    put(script, line->text + from, line->bytes - from);
    put(script, "\n", 1);
    return true;
}

static bool run(Script *script, size_t from, size_t end, const Facts *facts);

static bool run_each(Script *script, size_t index, const Facts *facts) {
    const Line *line = &script->line[index];
    const Fact *list = look_up(script, line, line->text, line->bytes, facts, "list");
    if (list == NULL)
        return false;
    if (list->kind != FACT_LIST)
        return fail(script, line->number, "%s is not a list; use it in %s", list->name,
                    list->kind == FACT_FLAG ? "%if" : "a placeholder or %if");
    for (size_t i = 0; i < list->row_count; i++)
        if (!spend(script, line, LINE_WORK) || !run(script, index + 1, line->partner, list->row[i]))
            return false;
    return true;
}

/* Runs the lines from..end (a whole number of blocks); recursion is as deep as %each is nested. */
static bool run(Script *script, size_t from, size_t end, const Facts *facts) {
    for (size_t i = from; i < end; i++) {
        const Line *line = &script->line[i];
        if (!spend(script, line, LINE_WORK + line->bytes))
            return false;
        switch (line->kind) {
        case LINE_TEXT:
            if (!put_line(script, line, facts))
                return false;
            break;
        case LINE_IF:
        case LINE_IF_NOT: {
            const Fact *fact = look_up(script, line, line->text, line->bytes, facts, "fact");
            if (fact == NULL)
                return false;
            if (fact->truth != (line->kind == LINE_IF))
                i = line->partner;
            break;
        }
        case LINE_ELSE: /* reached from the kept part above it */
            i = line->partner;
            break;
        case LINE_EACH:
            if (!run_each(script, i, facts))
                return false;
            i = line->partner;
            break;
        case LINE_END:
            break;
        }
    }
    return true;
}

static bool fill(const char *shown_name, const char *text, size_t bytes, const Facts *facts,
                 Sink *sink, Problem *problem) {
    assert(shown_name != NULL && facts != NULL);
    Script script = {.shown_name = shown_name, .problem = problem, .sink = sink};
    bool done = read_script(&script, text, bytes) && run(&script, 0, script.count, facts);
    memory_free(script.line);
    return done;
}

static bool finish(Sink *sink, bool done) {
    write_out(sink);
    text_free(&sink->text);
    return done;
}

bool template_fill_text(const char *shown_name, const char *text, size_t bytes, const Facts *facts,
                        FILE *out, Problem *problem) {
    Sink sink = {.out = out};
    return finish(&sink, fill(shown_name, text, bytes, facts, &sink, problem));
}

/* ---- where templates come from ------------------------------------------------------------- */

static bool fill_embedded(const char *name, const Facts *facts, Sink *sink, Problem *problem) {
    for (const EmbeddedTemplate *t = embedded_templates; t->name != NULL; t++)
        if (strcmp(t->name, name) == 0)
            return fill(name, (const char *)t->bytes, t->length, facts, sink, problem);
    return problem_set(problem, STATUS_INVALID,
                       "no template of the name %s; put it into the folder given by --templates",
                       problem_quote(name).text);
}

/* Reads an open file to its end, or past the most that is taken; false with errno set. */
static bool read_all(int file, TextBuffer *text) {
    char piece[4096];
    for (ssize_t got; text->length <= TEMPLATE_FILE_MAX; text_add_bytes(text, piece, (size_t)got)) {
        got = read(file, piece, sizeof piece);
        if (got <= 0)
            return got == 0;
    }
    return true;
}

/* Reads folder/name where it is there. A link that leads nowhere is somebody's mistake, not an
 * absent file. */
static bool read_file(const char *folder, const char *name, bool *there, TextBuffer *text,
                      Problem *problem) {
    char *path = memory_text("%s/%s", folder, name);
    struct stat status;
    const char *why = NULL;
    /* O_NONBLOCK: a FIFO must not make the program wait. */
    int file = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC), error = errno;
    *there = file != -1;
    if (file == -1)
        why = error == ENOENT && lstat(path, &status) != 0 ? NULL : strerror(error);
    else if (fstat(file, &status) != 0 || !S_ISREG(status.st_mode))
        why = "it is not a plain file";
    else if (!read_all(file, text))
        why = strerror(errno);
    if (file != -1)
        close(file);
    memory_free(path);
    if (why != NULL)
        return problem_set(problem, STATUS_SURROUNDINGS,
                           "cannot read template %s in folder %s: %s; a template is a plain file "
                           "that may be read",
                           problem_quote(name).text, problem_quote(folder).text, why);
    return text->length <= TEMPLATE_FILE_MAX ||
           problem_set(
               problem, STATUS_INVALID, "template %s in folder %s is over %d KiB; shorten it",
               problem_quote(name).text, problem_quote(folder).text, TEMPLATE_FILE_MAX >> 10);
}

/* A missing folder is a mistake on the command line, unlike a missing file in it. */
static bool folder_is_there(const char *folder, Problem *problem) {
    struct stat status;
    int error = stat(folder, &status) != 0 ? errno : S_ISDIR(status.st_mode) ? 0 : ENOTDIR;
    bool missing = error == ENOENT || error == ENOTDIR;
    return error == 0 ||
           problem_set(problem, missing ? STATUS_INVALID : STATUS_SURROUNDINGS,
                       "cannot use templates folder %s: %s; give a folder with --templates",
                       problem_quote(folder).text, strerror(error));
}

static bool fill_from(const Templates *templates, const char *name, const Facts *facts, Sink *sink,
                      Problem *problem) {
    const char *folder = templates->folder;
    TextBuffer text = {NULL, 0, 0};
    bool there = false;
    bool done = folder == NULL || (folder_is_there(folder, problem) &&
                                   read_file(folder, name, &there, &text, problem));
    if (done)
        done = there ? fill(name, text.text, text.length, facts, sink, problem)
                     : fill_embedded(name, facts, sink, problem);
    text_free(&text);
    return done;
}

bool template_fill(const Templates *templates, const char *name, const Facts *facts, FILE *out,
                   Problem *problem) {
    Sink sink = {.out = out};
    return finish(&sink, fill_from(templates, name, facts, &sink, problem));
}

char *template_text(const Templates *templates, const char *name, const Facts *facts, size_t *bytes,
                    Problem *problem) {
    Sink sink = {.out = NULL};
    bool done = fill_from(templates, name, facts, &sink, problem);
    *bytes = sink.text.length;
    if (done)
        return text_take(&sink.text);
    text_free(&sink.text);
    return NULL;
}
