/* Memory that does not run out quietly: no function here returns NULL. When there is none left,
 * what memory_on_lack() was given takes over and does not come back. The program's main says so in
 * one line and ends with STATUS_SURROUNDINGS. The library runs each of its calls through
 * memory_try(), which frees what the call had taken and reports a failure.
 *
 * What these functions return is freed by memory_free(), nothing else: inside memory_try() a block
 * belongs to a pool. Each thread has a hook and a pool of its own. */
#ifndef SUMWRIGHT_BASE_MEMORY_H
#define SUMWRIGHT_BASE_MEMORY_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

/* Room for count things of this size: zeroed, or an older block (or NULL) made larger or smaller,
 * its start kept. count may be 0. */
void *memory_zeroed(size_t count, size_t size);
void *memory_resize(void *block, size_t count, size_t size);

/* The one way in which arrays grow. Room for at least `needed` things of this size: the array as it
 * is, or moved to where there is twice the room, which *room then says. An empty array is NULL with
 * room 0.
 *
 *     list->item = memory_grow(list->item, &list->room, list->count + 1, sizeof *list->item);
 *     list->item[list->count++] = item;
 */
void *memory_grow(void *array, size_t *room, size_t needed, size_t size);

/* NULL is allowed. */
void memory_free(void *block);

/* A text as printf would write it. base/text.h has texts that grow. */
char *memory_text(const char *format, ...) __attribute__((format(printf, 1, 2)));
char *memory_text_list(const char *format, va_list arguments) __attribute__((format(printf, 1, 0)));

/* From now on a lack of memory in this thread calls `lack`, which must not return. Without one the
 * process is aborted. */
void memory_on_lack(void (*lack)(void *context), void *context);

/* What the functions above do when there is no memory, for those who find it out in another way. */
_Noreturn void memory_lacks(void);

/* Blocks that are freed together. It must not be moved or copied while it has any. {NULL} is one
 * without blocks. */
typedef struct {
    struct MemoryBlock *first;
} MemoryPool;

/* Calls work(context), whose blocks join the pool. When memory runs out, work is left where it is,
 * the pool is emptied, and the answer is false. work must not hold anything but memory: no open
 * stream, no descriptor. Only blocks of this pool may be freed or resized meanwhile. */
bool memory_try(MemoryPool *pool, void (*work)(void *context), void *context);

/* Frees the blocks that the pool has; it is then one without any. */
void memory_empty(MemoryPool *pool);

#endif
