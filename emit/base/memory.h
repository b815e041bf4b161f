/* Memory that does not run out quietly: when there is none, the program says so in one line and
 * ends with STATUS_SURROUNDINGS. Nothing but temporary files is ever half done at such a point,
 * and those are removed at exit (write/files.c). */
#ifndef SUMWRIGHT_BASE_MEMORY_H
#define SUMWRIGHT_BASE_MEMORY_H

#include <stdarg.h>
#include <stddef.h>

/* Room for count things of this size: zeroed, or an older block grown (its start kept). The caller
 * frees it with free(). */
void *memory_zeroed(size_t count, size_t size);
void *memory_resize(void *block, size_t count, size_t size);

/* From now on a lack of memory ends the process without a line, with STATUS_SURROUNDINGS all the
 * same: for a process whose end another one tells about. */
void memory_lack_is_silent(void);

/* A text as printf would write it. The caller frees it with free(). */
char *memory_text(const char *format, ...) __attribute__((format(printf, 1, 2)));
char *memory_text_list(const char *format, va_list arguments) __attribute__((format(printf, 1, 0)));

#endif
