/* What a template may name: flags, texts and lists of rows, each row facts of its own.
 *
 * Writers of generated files fill Facts from a unit and a netlist; template.c looks them up. */
#ifndef SUMWRIGHT_WRITE_FACTS_H
#define SUMWRIGHT_WRITE_FACTS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* A row of a list is Facts of its own that also sees its owner's. */
typedef struct Facts Facts;

/* Never fails: out of memory ends the program with STATUS_SURROUNDINGS. Free the top one only. */
Facts *facts_new(void);
void facts_free(Facts *facts);

/* Defines or redefines a fact; a list redefined as something else loses its rows. A flag is true
 * or false; a text, of any length, is also true when not empty; a list is also true when it has
 * rows. Asking for a flag's text is an error of the template. */
void facts_flag(Facts *facts, const char *name, bool value);
void facts_text(Facts *facts, const char *name, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* The same, of texts one after the other, which takes less time where there are very many. */
void facts_join(Facts *facts, const char *name, const char *const *parts, size_t count);
/* The same, of a text with a NUL after its bytes, which it frees by memory_free(). */
void facts_adopt(Facts *facts, const char *name, char *text, size_t bytes);
/* Makes sure that the list exists (so that %each of no rows is no error). */
void facts_list(Facts *facts, const char *list);
/* Adds a row to a list, which need not exist yet; the row belongs to facts. */
Facts *facts_row(Facts *facts, const char *list);

/* ---- for template.c ----------------------------------------------------------------------- */

typedef enum __attribute__((packed)) { FACT_FLAG, FACT_TEXT, FACT_LIST } FactKind;

typedef struct {
    const char *name;
    union {
        struct { /* FACT_TEXT */
            char *text;
            size_t bytes; /* without a NUL */
        };
        struct { /* FACT_LIST */
            Facts **row;
            size_t row_count;
        };
    };
    uint32_t name_bytes;
    FactKind kind;
    bool truth; /* what %if sees */
} Fact;

/* The fact of this name (not ended by a NUL) here, or else with the owner, and so on up; NULL when
 * there is none. */
const Fact *facts_find(const Facts *facts, const char *name, size_t name_bytes);

/* Writes the names in sight, nearest first, into text as "a, b, c"; what does not fit into bytes
 * (at least 8) is cut with "...". */
void facts_names(const Facts *facts, char *text, size_t bytes);

#endif
