/* See facts.h. Everything that facts hold comes from one store, which is freed as a whole: a unit
 * of 4096 bits has a quarter of a million facts. */
#include "write/facts.h"

#include "base/memory.h"

#include <stdalign.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    CHUNK_BYTES = 64 * 1024,
    FIRST_ROOM = 2, /* facts of a row, rows of a list; both double */
};

typedef struct Chunk {
    struct Chunk *older;
    size_t used, bytes;
    alignas(max_align_t) unsigned char data[];
} Chunk;

typedef struct {
    Chunk *newest;
} Store;

/* A short array is searched from end to end: a unit has some tens of facts, a row a handful. */
struct Facts {
    const Facts *owner; /* NULL at the top */
    Store *store;       /* of the top one, shared by all its rows */
    Fact *fact;
    size_t count;
};

/* Room in the store, not zeroed. */
static void *take(Store *store, size_t bytes) {
    const size_t align = alignof(max_align_t);
    Chunk *chunk = store->newest;
    if (chunk == NULL || bytes > chunk->bytes - chunk->used) {
        size_t room = bytes > CHUNK_BYTES ? bytes : CHUNK_BYTES;
        chunk = memory_resize(NULL, sizeof *chunk + room, 1);
        *chunk = (Chunk){.older = store->newest, .bytes = room};
        store->newest = chunk;
    }
    void *block = chunk->data + chunk->used;
    size_t next = chunk->used + (bytes + align - 1) / align * align;
    chunk->used = next < chunk->bytes ? next : chunk->bytes;
    return block;
}

/* What take gives without a new chunk. */
static size_t left(const Store *store) {
    return store->newest->bytes - store->newest->used;
}

static Facts *make(Store *store, const Facts *owner) {
    Facts *facts = take(store, sizeof *facts);
    *facts = (Facts){.owner = owner, .store = store};
    return facts;
}

Facts *facts_new(void) {
    return make(memory_zeroed(1, sizeof(Store)), NULL);
}

void facts_free(Facts *facts) {
    if (facts == NULL)
        return;
    Store *store = facts->store;
    for (Chunk *chunk = store->newest, *older; chunk != NULL; chunk = older) {
        older = chunk->older;
        free(chunk);
    }
    free(store);
}

static Fact *find_here(const Facts *facts, const char *name, size_t name_bytes) {
    for (size_t i = 0; i < facts->count; i++) {
        Fact *fact = &facts->fact[i];
        if (fact->name_bytes == name_bytes && memcmp(fact->name, name, name_bytes) == 0)
            return fact;
    }
    return NULL;
}

/* Room for count + 1 things in an array that doubles: it is full whenever count is zero or
 * FIRST_ROOM times a power of two. */
static void *grown(Store *store, void *array, size_t count, size_t size) {
    if (count != 0 && (count < FIRST_ROOM || (count & (count - 1)) != 0))
        return array;
    void *larger = take(store, (count == 0 ? FIRST_ROOM : 2 * count) * size);
    if (count > 0)
        memcpy(larger, array, count * size);
    return larger;
}

/* The fact of this name among facts' own, new if need be, of this kind, and empty unless it is a
 * list that stays one. */
static Fact *define(Facts *facts, const char *name, FactKind kind) {
    size_t bytes = strlen(name);
    Fact *fact = find_here(facts, name, bytes);
    if (fact == NULL) {
        facts->fact = grown(facts->store, facts->fact, facts->count, sizeof *facts->fact);
        fact = &facts->fact[facts->count++];
        char *copy = take(facts->store, bytes + 1);
        memcpy(copy, name, bytes + 1);
        *fact = (Fact){.name = copy, .name_bytes = bytes, .kind = kind};
    } else if (kind != FACT_LIST || fact->kind != FACT_LIST) {
        *fact = (Fact){.name = fact->name, .name_bytes = bytes, .kind = kind};
    }
    return fact;
}

void facts_flag(Facts *facts, const char *name, bool value) {
    define(facts, name, FACT_FLAG)->truth = value;
}

void facts_text(Facts *facts, const char *name, const char *format, ...) {
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    /* Formatted where it will stay, and once more only where it turns out too long for that. */
    char *text = take(facts->store, 0);
    size_t room = left(facts->store);
    int length = vsnprintf(text, room, format, arguments);
    va_end(arguments);
    /* A text past INT_MAX bytes: asking for all memory there is ends in the usual message. */
    size_t bytes = length < 0 ? SIZE_MAX / 2 : (size_t)length;
    text = take(facts->store, bytes + 1);
    if (bytes >= room)
        vsnprintf(text, bytes + 1, format, again);
    va_end(again);

    /* Only now: the arguments may point into the older text of this very fact. */
    Fact *fact = define(facts, name, FACT_TEXT);
    fact->text = text;
    fact->bytes = bytes;
    fact->truth = bytes > 0;
}

void facts_list(Facts *facts, const char *list) {
    define(facts, list, FACT_LIST);
}

Facts *facts_row(Facts *facts, const char *list) {
    Fact *fact = define(facts, list, FACT_LIST);
    Facts *row = make(facts->store, facts);
    fact->row = grown(facts->store, fact->row, fact->row_count, sizeof *fact->row);
    fact->row[fact->row_count++] = row;
    fact->truth = true;
    return row;
}

const Fact *facts_find(const Facts *facts, const char *name, size_t name_bytes) {
    for (; facts != NULL; facts = facts->owner) {
        const Fact *fact = find_here(facts, name, name_bytes);
        if (fact != NULL)
            return fact;
    }
    return NULL;
}

void facts_names(const Facts *facts, char *text, size_t bytes) {
    size_t used = 0;
    text[0] = '\0';
    for (; facts != NULL; facts = facts->owner)
        for (size_t i = 0; i < facts->count; i++) {
            const Fact *fact = &facts->fact[i];
            if (used + fact->name_bytes + sizeof ", ..." > bytes) {
                memcpy(text + used, "...", sizeof "...");
                return;
            }
            used += (size_t)snprintf(text + used, bytes - used, "%s, ", fact->name);
        }
    if (used > 0)
        text[used - 2] = '\0';
}
