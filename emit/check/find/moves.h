/* Mistakes in what is added: each a move that turns the unit as it should be into a variant, and a
 * theory is some of them together. Private to this folder; search.c tries theories. */
#ifndef SUMWRIGHT_CHECK_FIND_MOVES_H
#define SUMWRIGHT_CHECK_FIND_MOVES_H

#include "check/find/study.h"

typedef enum {
    MOVE_FIRST_MISSING,
    MOVE_PLAIN, /* the number is a PlainOperand */
    MOVE_SWAPPED,
    MOVE_CONTROL,
    MOVE_CIN_SENSE,
    MOVE_REVERSE, /* some of a, b and result: the number says which */
    MOVE_CODE,
    MOVE_CUT, /* the number is a Cut */
    MOVE_BREAKS,
    MOVE_STUCK,
} MoveKind;

typedef struct {
    MoveKind kind;
    unsigned number;
    Mistake mistake;
    bool everywhere; /* shows in every operation, not in some */
    const char *detail;
} Move;

enum { MOVES_AT_ONCE = 2 };

/* The moves there are, the likelier first; how many. */
const Move *moves_all(int *count);

/* Some moves together, made into a variant. */
typedef struct {
    const Move *move[MOVES_AT_ONCE];
    int count;
    Variant variant;
    Breaks breaks;
    bool stuck;
    bool everywhere;
} Theory;

/* The lowest result bit that is ever wrong, or the width: a cut keeps those below. */
unsigned moves_lowest_wrong(const Study *study);

/* Adds a move; false where it makes no sense for what was seen. */
bool theory_add(const Study *study, Theory *theory, const Move *move);

/* Finds the carries that do not reach their columns, in the groups that do not fit without; false
 * when there are none, or the carries are mistaken in some other way. theory->variant points into
 * the theory then. */
bool theory_find_breaks(const Study *study, const Fit *base, Theory *theory);

#endif
