/* The carry structures: everything that only has to be told once. How one is built stands in its
 * file in gates/structures/. See rows.h for how a list is used. */
#ifndef SUMWRIGHT_UNIT_STRUCTURES_H
#define SUMWRIGHT_UNIT_STRUCTURES_H

#include "unit/rows.h"

#include <stdbool.h>

enum { STRUCTURE_TEXT_BYTES = 32 };

/* ROW(ID, prefix of its functions, spelling, number, meaning, source): number is "=N" where the command
 * line writes one behind the name. */
#define STRUCTURES(ROW)                                                                            \
    ROW(RIPPLE, ripple, "ripple", "", "each column waits for the carry of the one before it",      \
        "common practice, no source")                                                              \
    ROW(FEWEST, fewest, "fewest", "",                                                              \
        "the smallest circuits known, a ripple chain in borrow form", "see docs/fewest.md")        \
    ROW(SKIP, skip, "skip", "", "the carry ripples within groups of columns and skips past them",  \
        "Lehman and Burla 1961")                                                                   \
    ROW(SELECT, select, "select", "",                                                              \
        "groups have their carries ready for either carry into them", "Bedrij 1962")               \
    ROW(LOOKAHEAD, lookahead, "lookahead", "",                                                     \
        "groups of four columns, and of four groups, tell their carries ahead",                    \
        "Weinberger and Smith 1958")                                                               \
    ROW(SKLANSKY, sklansky, "sklansky", "",                                                        \
        "prefix network of ever larger halves: least depth, large fan-out", "Sklansky 1960")       \
    ROW(KOGGE_STONE, kogge_stone, "kogge-stone", "",                                               \
        "prefix network that doubles every span: least depth, small fan-out",                      \
        "Kogge and Stone 1973")                                                                    \
    ROW(BRENT_KUNG, brent_kung, "brent-kung", "",                                                  \
        "prefix network up and down a tree: few cells, twice the depth", "Brent and Kung 1982")    \
    ROW(HAN_CARLSON, han_carlson, "han-carlson", "",                                               \
        "Kogge and Stone's over pairs of columns: half its cells, one level more",                 \
        "Han and Carlson 1987")                                                                    \
    ROW(LADNER_FISCHER, ladner_fischer, "ladner-fischer", "",                                      \
        "prefix network of the least depth with few cells", "Ladner and Fischer 1980")             \
    ROW(DEPTH, depth, "depth", "=N", "the fewest prefix cells found within a number of levels",    \
        "a search of our own")

#define STRUCTURE_ID(ID, ...) STRUCTURE_##ID,
typedef enum { STRUCTURES(STRUCTURE_ID) } Structure;
#undef STRUCTURE_ID
#define STRUCTURE_COUNT (0 STRUCTURES(ROW_ONE))

typedef struct {
    const char *name;    /* as the command line writes it, without a number behind it */
    bool has_number;     /* "depth=6": Unit.depth */
    const char *meaning; /* what it does, half a sentence */
    const char *source;  /* where it is from */
} StructureFacts;

/* As the command line lists them, "depth=N" among them. */
extern const Value structure_values[STRUCTURE_COUNT];

const StructureFacts *structure_facts(Structure structure);
const char *structure_name(Structure structure);

/* The whole of it, as the command line writes it: "ripple", "depth=6". */
typedef struct {
    char text[STRUCTURE_TEXT_BYTES];
} StructureText;
StructureText structure_text(Structure structure, unsigned number);

#endif
