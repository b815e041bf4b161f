/* See facts.h. */
#include "write/facts.h"

#include "base/memory.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A short array is searched from end to end: a unit has some tens of facts, a row a handful. */
struct Facts {
    const Facts *owner; /* NULL at the top */
    Fact *fact;
    size_t count;
};

Facts *facts_new(void) {
    return memory_zeroed(1, sizeof(Facts));
}

/* Frees what a fact holds, not its name. */
static void empty(Fact *fact) {
    free(fact->text);
    for (size_t i = 0; i < fact->row_count; i++)
        facts_free(fact->row[i]);
    free(fact->row);
    fact->text = NULL;
    fact->bytes = 0;
    fact->row = NULL;
    fact->row_count = 0;
}

void facts_free(Facts *facts) {
    if (facts == NULL)
        return;
    for (size_t i = 0; i < facts->count; i++) {
        empty(&facts->fact[i]);
        free(facts->fact[i].name);
    }
    free(facts->fact);
    free(facts);
}

static Fact *find_here(const Facts *facts, const char *name, size_t name_bytes) {
    for (size_t i = 0; i < facts->count; i++) {
        Fact *fact = &facts->fact[i];
        if (fact->name_bytes == name_bytes && memcmp(fact->name, name, name_bytes) == 0)
            return fact;
    }
    return NULL;
}

/* Room for count + 1 things in an array that doubles: it is full whenever count is a power of two
 * or zero. */
static void *grown(void *array, size_t count, size_t size) {
    if ((count & (count - 1)) != 0)
        return array;
    return memory_resize(array, count == 0 ? 1 : 2 * count, size);
}

/* The fact of this name among facts' own, new if need be, of this kind, and empty unless it is a
 * list that stays one. */
static Fact *define(Facts *facts, const char *name, FactKind kind) {
    size_t bytes = strlen(name);
    Fact *fact = find_here(facts, name, bytes);
    if (fact == NULL) {
        facts->fact = grown(facts->fact, facts->count, sizeof *facts->fact);
        fact = &facts->fact[facts->count++];
        *fact = (Fact){.name = memory_zeroed(bytes + 1, 1), .name_bytes = bytes, .kind = kind};
        memcpy(fact->name, name, bytes);
    } else if (kind != FACT_LIST || fact->kind != FACT_LIST) {
        empty(fact);
        fact->kind = kind;
        fact->truth = false;
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
    int length = vsnprintf(NULL, 0, format, arguments);
    va_end(arguments);
    /* A text past INT_MAX bytes: asking for all memory there is ends in the usual message. */
    size_t bytes = length < 0 ? SIZE_MAX - 1 : (size_t)length;
    char *text = memory_resize(NULL, bytes + 1, 1);
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
    Facts *row = facts_new();
    row->owner = facts;
    fact->row = grown(fact->row, fact->row_count, sizeof *fact->row);
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
