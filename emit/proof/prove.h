/* Is a finished netlist what the definition says, for all inputs? Gate by gate its functions are
 * made as diagrams, until those of its outputs can be held beside the definition's. What no later
 * gate reads is forgotten on the way. */
#ifndef SUMWRIGHT_PROOF_PROVE_H
#define SUMWRIGHT_PROOF_PROVE_H

#include "gates/netlist/netlist.h"
#include "proof/inputs.h"
#include "proof/share.h"

typedef enum {
    PROOF_EQUAL,     /* every output, for every input inside the contract */
    PROOF_DIFFERENT, /* an input shows a difference */
    PROOF_OPEN,      /* no difference was found, and some outputs could not be compared */
} ProofState;

typedef struct {
    ProofState state;
    DiagramLimits limits;    /* those that it was held to */
    uint32_t open;           /* outputs that could not be compared within the limits */
    uint32_t output;         /* DIFFERENT: the first output found to differ, OPEN: the first open;
                                an index into the netlist's outputs */
    InputLevels example;     /* DIFFERENT: an input that shows it, */
    bool wanted;             /* what the definition says of the output there, */
    char share[SHARE_BYTES]; /* and how many of the inputs inside the contract show a difference in
                                any output; empty where that could not be counted, or
                                depends on PROVE_FREE */
    uint32_t peak;           /* nodes at once */
    uint64_t steps;
} Proof;

/* Beside the unit's pins a netlist may have others. An input PROVE_FREE (the clock, which gates between
 * registers never read) is a variable of its own, number `bit`, which may have any level. An output
 * PROVE_NONE is to be 0. */
#define PROVE_FREE PIN_CLK
#define PROVE_NONE ((Pin)PIN_COUNT)

/* Limits that hold every proof to about 100 MB and a few seconds. */
extern const DiagramLimits prove_limits;

/* Compares the netlist of a unit with its definition: the netlist's inputs and outputs are pins of
 * the unit. Registers stand around these gates and take no part. */
void prove(const Unit *unit, const Netlist *netlist, DiagramLimits limits, Proof *proof);

/* How many inputs the contract allows, all of which a proof is about: "2^17". */
void prove_inputs_text(const Unit *unit, char text[SHARE_BYTES]);

#endif
