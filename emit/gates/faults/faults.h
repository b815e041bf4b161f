/* Single stuck-at faults: which of them a set of input vectors shows at the outputs.
 *
 * A fault holds one place of the circuit at one level. The places are each input of the unit, each
 * gate's two inputs and output, and each output pin: 2 (inputs + 3 gates + outputs) faults. A fault
 * is caught by a vector if some output pin then differs from the fault-free circuit's.
 *
 * 64 vectors are tried at once. Within a part of the circuit where every wire has one reader a
 * change can leave through the last wire only, so one simulated change of that wire, in the gates
 * that it can reach and for as long as it is alive, serves all faults before it. Faults that are
 * caught are not tried again. (M. Abramovici, M. A. Breuer, A. D. Friedman, "Digital Systems
 * Testing and Testable Design", 1990: parallel-pattern simulation, critical-path tracing; from
 * memory.) */
#ifndef SUMWRIGHT_GATES_FAULTS_FAULTS_H
#define SUMWRIGHT_GATES_FAULTS_FAULTS_H

#include "gates/netlist/netlist.h"

typedef enum {
    FAULT_WIRE,    /* an input of the unit or a gate's output; index: the node */
    FAULT_INPUT_0, /* a gate's first input, as the gate sees it after its inversion; the node */
    FAULT_INPUT_1,
    FAULT_PIN, /* an output pin; index: its number in Netlist.outputs */
} FaultPlace;

typedef struct {
    FaultPlace place;
    uint32_t index;
    bool level;
} Fault;

typedef enum {
    FAULT_NONE,      /* no such place */
    FAULT_OPEN,      /* not caught so far */
    FAULT_CAUGHT,    /* by a vector that was tried */
    FAULT_MISSED,    /* by no vector that was tried, though some input shows it */
    FAULT_HIDDEN,    /* no input shows it, proven */
    FAULT_UNDECIDED, /* not caught, and neither shown nor proven hidden with bounded effort */
    FAULT_STATE_COUNT
} FaultState;

typedef struct Faults Faults;

/* All faults of a finished netlist, which must outlive them; every one is open. Out of memory ends
 * the program with STATUS_SURROUNDINGS. Free with faults_free. */
Faults *faults_new(const Netlist *netlist);

/* The same, for these faults only. */
Faults *faults_new_of(const Netlist *netlist, const Fault *list, size_t count);

void faults_free(Faults *faults);

/* A word a node: the caller sets those of the inputs, bit v of each belonging to vector v, and then
 * tries the lowest count vectors, 1 to 64. */
uint64_t *faults_inputs(Faults *faults);
void faults_try(Faults *faults, unsigned count);

/* Is a fault still open? If not, no vector can tell more. */
bool faults_open(const Faults *faults);

/* Says what the faults that are still open are: all hidden if every input there is has been tried,
 * otherwise by proof (see hidden.h). Where that would take too long many are left undecided. */
void faults_settle(Faults *faults, bool every_input);

typedef struct {
    uint32_t total;
    uint32_t by_state[FAULT_STATE_COUNT];
    uint64_t first; /* so many vectors, the first ones tried, catch all that are caught */
} FaultCount;
FaultCount faults_count(const Faults *faults);

/* One fault; and the number of the vector that caught it first, from 0, where one did. */
FaultState faults_state(const Faults *faults, Fault fault);
uint64_t faults_caught_by(const Faults *faults, Fault fault);

#endif
