/* From a design's files to what its outputs showed, with Icarus Verilog, fenced in (fence.h).
 *
 * The verdict is not the simulation's: the bench writes down what it sees, under names that the
 * design cannot know, and the caller compares. */
#ifndef SUMWRIGHT_CHECK_RUN_SIMULATE_H
#define SUMWRIGHT_CHECK_RUN_SIMULATE_H

#include "check/run/bench.h"
#include "check/run/source.h"

typedef struct {
    char *iverilog; /* absolute paths */
    char *vvp;
} Simulator;

/* Finds the simulator on the PATH; a problem of STATUS_SURROUNDINGS when it is not there. Free with
 * simulator_free. */
bool simulator_find(Simulator *simulator, Problem *problem);
void simulator_free(Simulator *simulator);

/* The files of one design, in a temporary folder of its own. */
typedef struct {
    const Simulator *simulator;
    const Sources *sources;
    const char *folder;
    char *const *others; /* of the run, this one among them: not to be included */
    size_t other_count;
} Design;

/* The design's headers: from its text or, where macros, conditions or included files could change
 * what it says, from what the preprocessor makes of it. *text holds what the headers point into;
 * the caller frees it and the headers, whatever the result. Problems are STATUS_UNTESTED or
 * STATUS_SURROUNDINGS, here and below. */
bool simulate_headers(const Design *design, Headers *headers, char **text, Problem *problem);

/* Is it compiled as SystemVerilog, by the ending of a file's name? */
bool simulate_is_system_verilog(const Design *design);

/* Writes what the preprocessor makes of the design into the file `preprocessed` of its folder. */
bool simulate_preprocess(const Design *design, Problem *problem);

/* Compiles the design alone, to learn what the compiler says against it. True when it has nothing
 * against the text. */
bool simulate_try(const Design *design, Problem *problem);

/* Bits of the ports that are pins, as elaborated; 0 for other pins. */
typedef struct {
    unsigned bits[PIN_COUNT];
} Widths;

/* Compiles the design with the bench, looks through it, runs it, and reads what was seen. Free
 * samples with samples_free after success. */
bool simulate_run(const Design *design, const Bench *bench, Widths *widths, Samples *samples,
                  Problem *problem);

#endif
