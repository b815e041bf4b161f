/* See memory.h. A block that belongs to a pool has its links before it; one that belongs to none is
 * what calloc gave. */
#include "base/memory.h"

#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* link: the pointer that points to this block, in its pool or in the block before. */
typedef struct MemoryBlock {
    _Alignas(max_align_t) struct MemoryBlock *next;
    struct MemoryBlock **link;
} Block;

typedef struct {
    void (*lack)(void *context);
    void *context;
    MemoryPool *pool; /* that new blocks join, or NULL */
} Watch;

static _Thread_local Watch watch;

void memory_on_lack(void (*lack)(void *context), void *context) {
    watch.lack = lack;
    watch.context = context;
}

void memory_lacks(void) {
    if (watch.lack != NULL)
        watch.lack(watch.context);
    abort();
}

/* ---- pools --------------------------------------------------------------------------------- */

static void *join(Block *block, MemoryPool *pool) {
    block->next = pool->first;
    block->link = &pool->first;
    if (block->next != NULL)
        block->next->link = &block->next;
    pool->first = block;
    return block + 1;
}

/* The block that this memory belongs to, in no pool any more. */
static Block *leave(void *memory) {
    Block *block = (Block *)memory - 1;
    *block->link = block->next;
    if (block->next != NULL)
        block->next->link = block->link;
    return block;
}

void memory_empty(MemoryPool *pool) {
    for (Block *block = pool->first, *next; block != NULL; block = next) {
        next = block->next;
        free(block);
    }
    pool->first = NULL;
}

static void jump_back(void *context) {
    jmp_buf *back = context;
    longjmp(*back, 1);
}

bool memory_try(MemoryPool *pool, void (*work)(void *context), void *context) {
    const Watch before = watch;
    jmp_buf back;
    watch = (Watch){jump_back, &back, pool};
    if (setjmp(back) == 0) {
        work(context);
        watch = before;
        return true;
    }
    watch = before;
    memory_empty(pool);
    return false;
}

/* ---- blocks -------------------------------------------------------------------------------- */

/* The bytes of so many things after the links, if a pool wants them; SIZE_MAX when there are too
 * many to count. */
static size_t bytes_of(size_t count, size_t size) {
    size_t links = watch.pool != NULL ? sizeof(Block) : 0;
    if (count == 0 || size == 0)
        return links + 1;
    return count > (SIZE_MAX - links) / size ? SIZE_MAX : links + count * size;
}

void *memory_zeroed(size_t count, size_t size) {
    size_t bytes = bytes_of(count, size);
    void *block = bytes == SIZE_MAX ? NULL : calloc(1, bytes);
    if (block == NULL)
        memory_lacks();
    return watch.pool != NULL ? join(block, watch.pool) : block;
}

void *memory_resize(void *block, size_t count, size_t size) {
    bool links = watch.pool != NULL && block != NULL;
    size_t bytes = bytes_of(count, size);
    void *old = links ? leave(block) : block;
    void *grown = bytes == SIZE_MAX ? NULL : realloc(old, bytes);
    if (grown == NULL) {
        if (links)
            join(old, watch.pool);
        memory_lacks();
    }
    return watch.pool != NULL ? join(grown, watch.pool) : grown;
}

void *memory_grow(void *array, size_t *room, size_t needed, size_t size) {
    enum { LEAST = 16 };
    if (needed <= *room)
        return array;
    size_t twice = *room == 0 ? LEAST : *room <= SIZE_MAX / 2 ? *room * 2 : SIZE_MAX;
    size_t more = needed > twice ? needed : twice;
    void *grown = memory_resize(array, more, size);
    *room = more;
    return grown;
}

void memory_free(void *block) {
    free(watch.pool != NULL && block != NULL ? leave(block) : block);
}

/* ---- texts --------------------------------------------------------------------------------- */

char *memory_text_list(const char *format, va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    int bytes = vsnprintf(NULL, 0, format, again);
    va_end(again);
    size_t room = (size_t)(bytes < 0 ? 0 : bytes) + 1;
    char *text = memory_zeroed(room, 1);
    vsnprintf(text, room, format, arguments);
    return text;
}

char *memory_text(const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = memory_text_list(format, arguments);
    va_end(arguments);
    return text;
}
