/* Somebody's gates as a netlist that prove.h can take: what they show after the clock has stood at
 * some levels one after the other, from any state.
 *
 * The gates are AIGER's, and their inputs and outputs are called "pin_" and the role of a pin
 * ("pin_a[3]", "pin_carry"); an input of another name may have any level. Registers are latches that
 * take a value at every frame: a register's clock is an input like others, whose edges the gates
 * themselves find. */
#ifndef SUMWRIGHT_PROOF_UNROLL_H
#define SUMWRIGHT_PROOF_UNROLL_H

#include "gates/netlist/netlist.h"
#include "proof/aiger.h"

typedef enum { LEVEL_0, LEVEL_1, LEVEL_ANY } FrameLevel;

/* The pins for a while. */
typedef struct {
    bool clock, reset;
    FrameLevel enable;
    unsigned data; /* 0: the unit's inputs, which the definition is about; else others, the same in
                      frames of the same number */
} Frame;

/* What is wanted of the outputs in a frame. */
typedef enum {
    WATCH_NOTHING,
    WATCH_DEFINITION, /* what the definition says of the unit's inputs */
    WATCH_SAME,       /* what they were in the frame before */
    WATCH_CLEARED,    /* the result 0, zero 1, the other flags 0 */
} Watch;

enum { UNROLL_FRAMES_MAX = 24 };

typedef struct {
    bool reset_low; /* the reset pin works when low */
    unsigned count;
    Frame frame[UNROLL_FRAMES_MAX];
    Watch watch[UNROLL_FRAMES_MAX];
} Run;

/* The netlist of a run, as prove takes it. Free with netlist_free. */
void unroll(const Unit *unit, const Aiger *aiger, const Run *run, Netlist *netlist);

#endif
