/* What a wire of a unit means. A gate carries its role (and the number of its column, or the span of
 * columns) from the moment that it is made; whoever wants to know what a wire is asks for the role
 * or, for the adder core, looks into its record (core.h). The text of a role is for the reader of
 * the Verilog and of labels alone: no code reads it.
 *
 * A role speaks of a value. Where the wire has the complement of that value, Node.complement says
 * so. */
#ifndef SUMWRIGHT_GATES_NETLIST_ROLE_H
#define SUMWRIGHT_GATES_NETLIST_ROLE_H

/* The control signals of the operand row (see operands.h), with their text. */
#define SIGNALS(ROW)                                                                               \
    ROW(INVERT_A, "invert_a")                                                                      \
    ROW(USE_B, "use_b")                                                                            \
    ROW(INVERT_B, "invert_b")                                                                      \
    ROW(SET_CARRY, "set_carry")                                                                    \
    ROW(USE_CIN, "use_cin")                                                                        \
    ROW(INVERT_CIN, "invert_cin")                                                                  \
    ROW(SUBTRACTING, "subtracting") /* the carry pins speak of a borrow */                         \
    ROW(ACTIVE, "active")           /* something is requested */                                   \
    /* of the borrow form: */                                                                      \
    ROW(TURN_A, "turn_a")                                                                          \
    ROW(TURN_B, "turn_b")                                                                          \
    ROW(SET_CHAIN, "set_chain")                                                                    \
    ROW(CHAIN_CIN, "chain_cin")                                                                    \
    ROW(TURN_CIN, "turn_cin")

/* The other roles. Number i: the column; of a carry, the column that it enters. */
#define ROLES(ROW)                                                                                 \
    /* the operand row */                                                                          \
    ROW(FIRST_CARRY, "first_carry")   /* what enters column 0 of X + Y + first */                  \
    ROW(CARRY_WANTED, "carry_wanted") /* the pin cin in the sense of the core's carries */         \
    ROW(USED_CIN, "used_cin")         /* the same where an operation uses it, else 0 */            \
    ROW(OPERAND_A, "operand_a")       /* bit i of X */                                             \
    ROW(OPERAND_B, "operand_b")       /* bit i of Y */                                             \
    ROW(USED_B, "used_b")             /* bit i of b where an operation uses it, else 0 */          \
    /* what goes from column to column: into column i */                                           \
    ROW(CARRY, "carry")       /* the carry of X + Y + first, */                                    \
    ROW(NO_CARRY, "no_carry") /* its complement, */                                                \
    ROW(BORROW, "borrow")     /* which is a borrow where every operation subtracts; */             \
    ROW(CHAIN, "chain") /* carry in an addition, borrow in a subtraction, of a ripple chain */     \
    ROW(CARRY_OR_BORROW, "carry_or_borrow") /* and of any other structure */                       \
    /* a column i */                                                                               \
    ROW(TURNED_A, "turned_a")   /* a as its carry gates take it, where that is not X */            \
    ROW(TURNED_B, "turned_b")   /* the same of b */                                                \
    ROW(HALF_SUM, "half_sum")   /* the sum but for the carry that enters */                        \
    ROW(DIFFER, "differ")       /* the same in a ripple chain: the operands differ */              \
    ROW(PROPAGATE, "propagate") /* exactly one of the two that the carry gates take is 1 */        \
    ROW(GENERATED, "generated") /* both are */                                                     \
    ROW(PASSED, "passed")       /* a carry enters and is passed on */                              \
    ROW(AGAINST, "against")     /* an operand differs from what enters */                          \
    ROW(DIFFERS, "differs")     /* a step to what leaves column 0 */                               \
    ROW(SUM, "sum")             /* bit i of X + Y + first */                                       \
    /* a column i of gates of one kind (fewest_one_kind.c) */                                      \
    ROW(CARRY_MADE, "carry_made") /* of a + b */                                                   \
    ROW(CARRY_PASSED, "carry_passed")                                                              \
    ROW(CARRY_IF_ADDED, "carry") /* into column i, if the operation adds */                        \
    ROW(CARRY_MAY_BE, "carry_may_be")                                                              \
    ROW(CARRY_TAKEN, "carry_taken")                                                                \
    ROW(BORROW_MADE, "borrow_made") /* of a subtraction */                                         \
    ROW(BORROW_PASSED, "borrow_passed")                                                            \
    ROW(BORROW_IF_SUBTRACTED, "borrow") /* into column i, if the operation subtracts */            \
    ROW(BORROW_SPARED, "borrow_spared")                                                            \
    ROW(BORROW_TAKEN, "borrow_taken")                                                              \
    /* a span of columns, or a column */                                                           \
    ROW(GENERATES, "generates")         /* makes a carry, whatever enters */                       \
    ROW(PASSES, "passes")               /* lets a carry through */                                 \
    ROW(HANDED_ON, "handed_on")         /* made, or entering, below and passed on */               \
    ROW(HANDED_UP, "handed_up")         /* the same beside a rippling carry */                     \
    ROW(SKIPS, "skips")                 /* a carry passes a group */                               \
    ROW(CARRY_WITHOUT, "carry_without") /* into column i, if none enters the group */              \
    ROW(CARRY_WITH, "carry_with")       /* the same, if one enters it */                           \
    ROW(ON_WITHOUT, "on_without")       /* steps to these two */                                   \
    ROW(ON_WITH, "on_with")                                                                        \
    ROW(SELECTED, "selected") /* the second, where a carry does enter the group */                 \
    /* the flag row */                                                                             \
    ROW(OVERFLOWS, "overflows")   /* the last two carries differ */                                \
    ROW(BELOW_ZERO, "below_zero") /* the exact signed result is */                                 \
    ROW(BORROWS, "borrows")       /* the exact unsigned result is below 0 */                       \
    ROW(TOO_LOW, "too_low")       /* the exact result is below the range it is held to */          \
    ROW(TOO_HIGH, "too_high")     /* or above it */                                                \
    ROW(RAISED, "raised")         /* bit i of the result, 1 if too high */                         \
    ROW(FITTED, "fitted")         /* bit i of the result, held in range */                         \
    ROW(DELIVERED, "delivered")   /* bit i of the result as it leaves */                           \
    ROW(ANY, "any")               /* some of a number of the result's bits are 1 */                \
    ROW(ODD, "odd")               /* an odd number of them are */                                  \
    ROW(UNMASKED, "unmasked")     /* flag i before it is cleared where nothing is requested */

#define ROLE_ROW(name, text)   ROLE_##name,
#define SIGNAL_ROW(name, text) SIGNAL_##name,

typedef enum { SIGNALS(SIGNAL_ROW) SIGNAL_COUNT } Signal;

/* The signals' roles stand in the order of Signal, from ROLE_INVERT_A on. */
typedef enum { ROLE_NONE, SIGNALS(ROLE_ROW) ROLES(ROLE_ROW) ROLE_COUNT } Role;

#undef ROLE_ROW
#undef SIGNAL_ROW

static inline Role role_of_signal(Signal signal) {
    return (Role)(ROLE_INVERT_A + (int)signal);
}

/* The text of a role, "carry"; NULL for ROLE_NONE. Lives as long as the program. */
const char *role_text(Role role);

#endif
