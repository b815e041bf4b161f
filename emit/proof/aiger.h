/* Reads gates in the binary form of the AIGER format (A. Biere, "The AIGER And-Inverter Graph (AIG)
 * Format Version 20071012", and "AIGER 1.9 and Beyond", 2011, for how latches begin). Whatever the
 * bytes are, the answer is a circuit in topological order or a reason.
 *
 * A literal is a variable's index times two, plus one when its inverse is meant; literals 0 and 1
 * are the constants. The inputs are variables 1, 2, ..., then come the latches, then the gates, each
 * the AND of two literals of lower variables. */
#ifndef SUMWRIGHT_PROOF_AIGER_H
#define SUMWRIGHT_PROOF_AIGER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct {
    uint32_t inputs, latches, outputs, ands;
    uint32_t *next;    /* of each latch: the literal that it takes */
    uint32_t *output;  /* literals */
    uint32_t (*in)[2]; /* of each gate: its literals */
    char **input_name; /* NULL where a symbol is not given */
    char **output_name;
} Aiger;

/* Reads the bytes; NULL, or what is wrong with them. Free with aiger_free, whatever the result. A
 * circuit with constraints or properties is refused: it is more than gates. */
const char *aiger_read(Aiger *aiger, const char *bytes, size_t count);
void aiger_free(Aiger *aiger);

static inline uint32_t aiger_variables(const Aiger *aiger) {
    return 1 + aiger->inputs + aiger->latches + aiger->ands; /* with the constant */
}

#endif
