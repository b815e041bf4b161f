/* See facts.h. Everything that facts hold comes from one store, which is freed as a whole: a unit
 * of 4096 bits has a quarter of a million facts. */
#include "write/facts.h"

#include "base/memory.h"

#include <assert.h>
#include <stdalign.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum {
    CHUNK_BYTES = 64 * 1024,
    FIRST_ROOM = 2, /* facts of a row, rows of a list; both double */
    SHORT = 8,      /* facts that are searched from end to end */
};

typedef struct Chunk {
    struct Chunk *older;
    size_t used, bytes;
    alignas(max_align_t) unsigned char data[];
} Chunk;

typedef struct {
    Chunk *newest;
} Store;

/* A row has a handful of facts, which are searched from end to end; a unit has some tens, which
 * each line of each row asks for, and an index. */
struct Facts {
    const Facts *owner;  /* NULL at the top */
    const Facts *before; /* the row before it in its list; NULL at the first */
    Store *store;        /* of the top one, shared by all its rows */
    Fact *fact;
    uint32_t *index; /* of more than SHORT facts: their numbers + 1 by hash, 0 for none */
    uint32_t count;
    uint32_t room; /* in the index, a power of two, at least twice the count */
};

/* Room in the store, not zeroed, at a multiple of align. */
static void *take(Store *store, size_t bytes, size_t align) {
    Chunk *chunk = store->newest;
    size_t from = chunk == NULL ? 0 : (chunk->used + align - 1) / align * align;
    if (chunk == NULL || from > chunk->bytes || bytes > chunk->bytes - from) {
        size_t room = bytes > CHUNK_BYTES ? bytes : CHUNK_BYTES;
        chunk = memory_resize(NULL, sizeof *chunk + room, 1);
        *chunk = (Chunk){.older = store->newest, .bytes = room};
        store->newest = chunk;
        from = 0;
    }
    chunk->used = from + bytes;
    return chunk->data + from;
}

/* What take gives without a new chunk. */
static size_t left(const Store *store) {
    return store->newest->bytes - store->newest->used;
}

static Facts *make(Store *store, const Facts *owner) {
    Facts *facts = take(store, sizeof *facts, alignof(Facts));
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
        memory_free(chunk);
    }
    memory_free(store);
}

static bool is_named(const Fact *fact, const char *name, size_t name_bytes) {
    return fact->name_bytes == name_bytes && memcmp(fact->name, name, name_bytes) == 0;
}

/* Where the name is in the index, or the free place where it would be. FNV-1a: G. Fowler, L. C.
 * Noll, K.-P. Vo, public domain; from memory. */
static uint32_t *place(const Facts *facts, const char *name, size_t name_bytes) {
    assert((facts->room & (facts->room - 1)) == 0 && facts->count < facts->room);
    uint32_t hash = UINT32_C(2166136261);
    for (size_t i = 0; i < name_bytes; i++)
        hash = (hash ^ (unsigned char)name[i]) * UINT32_C(16777619);
    size_t at = hash & (facts->room - 1);
    while (facts->index[at] != 0 && !is_named(&facts->fact[facts->index[at] - 1], name, name_bytes))
        at = (at + 1) & (facts->room - 1);
    return &facts->index[at];
}

/* The newest fact into the index, or all of them into a larger one. */
static void add_to_index(Facts *facts) {
    size_t first = facts->count - 1;
    if (2 * facts->count > facts->room) {
        facts->room = 8 * facts->count;
        while ((facts->room & (facts->room - 1)) != 0)
            facts->room &= facts->room - 1;
        facts->index = take(facts->store, facts->room * sizeof *facts->index, alignof(uint32_t));
        memset(facts->index, 0, facts->room * sizeof *facts->index);
        first = 0;
    }
    for (size_t i = first; i < facts->count; i++)
        *place(facts, facts->fact[i].name, facts->fact[i].name_bytes) = (uint32_t)i + 1;
}

static Fact *find_here(const Facts *facts, const char *name, size_t name_bytes) {
    if (facts->index != NULL) {
        uint32_t number = *place(facts, name, name_bytes);
        return number == 0 ? NULL : &facts->fact[number - 1];
    }
    for (size_t i = 0; i < facts->count; i++)
        if (is_named(&facts->fact[i], name, name_bytes))
            return &facts->fact[i];
    return NULL;
}

/* Room for count + 1 things in an array that doubles: it is full whenever count is zero or
 * FIRST_ROOM times a power of two. */
static void *grown(Store *store, void *array, size_t count, size_t size) {
    if (count != 0 && (count < FIRST_ROOM || (count & (count - 1)) != 0))
        return array;
    void *larger = take(store, (count == 0 ? FIRST_ROOM : 2 * count) * size, alignof(void *));
    if (count > 0)
        memcpy(larger, array, count * size);
    return larger;
}

/* A copy of the name. Rows of a list mostly have the same facts in the same order, and share it. */
static const char *keep_name(const Facts *facts, const char *name, size_t bytes) {
    const Facts *before = facts->before;
    if (before != NULL && facts->count < before->count &&
        is_named(&before->fact[facts->count], name, bytes))
        return before->fact[facts->count].name;
    return memcpy(take(facts->store, bytes + 1, 1), name, bytes + 1);
}

/* The fact of this name among facts' own, new if need be, of this kind, and empty unless it is a
 * list that stays one. */
static Fact *define(Facts *facts, const char *name, FactKind kind) {
    size_t bytes = strlen(name);
    Fact *fact = find_here(facts, name, bytes);
    if (fact == NULL) {
        facts->fact = grown(facts->store, facts->fact, facts->count, sizeof *facts->fact);
        const char *kept = keep_name(facts, name, bytes);
        fact = &facts->fact[facts->count++];
        *fact = (Fact){.name = kept, .name_bytes = (uint32_t)bytes, .kind = kind};
        if (facts->count > SHORT)
            add_to_index(facts);
    } else if (kind != FACT_LIST || fact->kind != FACT_LIST) {
        *fact = (Fact){.name = fact->name, .name_bytes = fact->name_bytes, .kind = kind};
    }
    return fact;
}

void facts_flag(Facts *facts, const char *name, bool value) {
    define(facts, name, FACT_FLAG)->truth = value;
}

static void define_text(Facts *facts, const char *name, char *text, size_t bytes) {
    Fact *fact = define(facts, name, FACT_TEXT);
    fact->text = text;
    fact->bytes = bytes;
    fact->truth = bytes > 0;
}

void facts_text(Facts *facts, const char *name, const char *format, ...) {
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    /* Formatted where it will stay, and once more only where it turns out too long for that. */
    char *text = take(facts->store, 0, 1);
    size_t room = left(facts->store);
    int length = vsnprintf(text, room, format, arguments);
    va_end(arguments);
    /* A text past INT_MAX bytes: asking for all memory there is ends in the usual message. */
    size_t bytes = length < 0 ? SIZE_MAX / 2 : (size_t)length;
    text = take(facts->store, bytes + 1, 1);
    if (bytes >= room)
        vsnprintf(text, bytes + 1, format, again);
    va_end(again);

    /* Only now: the arguments may point into the older text of this very fact. */
    define_text(facts, name, text, bytes);
}

void facts_join(Facts *facts, const char *name, const char *const *parts, size_t count) {
    size_t bytes = 0;
    for (size_t k = 0; k < count; k++)
        bytes += strlen(parts[k]);
    char *text = take(facts->store, bytes + 1, 1), *end = text;
    for (size_t k = 0; k < count; k++) {
        size_t length = strlen(parts[k]);
        memcpy(end, parts[k], length);
        end += length;
    }
    *end = '\0';
    define_text(facts, name, text, bytes);
}

void facts_adopt(Facts *facts, const char *name, char *text, size_t bytes) {
    assert(text[bytes] == '\0');
    define_text(facts, name, memcpy(take(facts->store, bytes + 1, 1), text, bytes + 1), bytes);
    memory_free(text);
}

void facts_list(Facts *facts, const char *list) {
    define(facts, list, FACT_LIST);
}

Facts *facts_row(Facts *facts, const char *list) {
    Fact *fact = define(facts, list, FACT_LIST);
    Facts *row = make(facts->store, facts);
    fact->row = grown(facts->store, fact->row, fact->row_count, sizeof *fact->row);
    row->before = fact->row_count == 0 ? NULL : fact->row[fact->row_count - 1];
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
    assert(bytes >= 8);
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
