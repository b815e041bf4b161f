/* See grade.h. */
#include "commands/grade.h"

#include "base/memory.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

enum {
    LIMBS = (UNIT_WIDTH_MAX + 63) / 64,
    QUIET_NODES = 10000, /* circuits of more than that report their progress */
};

struct Grade {
    const Unit *unit;
    const Netlist *netlist;
    Faults *faults;
    bool reports;
    uint64_t total;
    uint64_t tried;
    unsigned held; /* vectors, below 64 between calls */
    uint32_t control[64];
    uint64_t cin;          /* bit v: of vector v */
    uint64_t a[LIMBS][64]; /* limb by limb, the 64 vectors' */
    uint64_t b[LIMBS][64];
};

Grade *grade_new(const Unit *unit, const Netlist *netlist, uint64_t total) {
    Grade *grade = memory_zeroed(1, sizeof *grade);
    grade->unit = unit;
    grade->netlist = netlist;
    grade->faults = faults_new(netlist);
    grade->total = total;
    grade->reports = netlist->node_count > QUIET_NODES && isatty(STDERR_FILENO) == 1;
    return grade;
}

/* Turns 64 words over: bit v of word i becomes bit i of word v. By halves: the off-diagonal blocks
 * of 32 x 32 bits change places, then within each block those of 16 x 16, and so on (H. S. Warren,
 * "Hacker's Delight", section 7-3; from memory). */
static void transpose(uint64_t word[64]) {
    uint64_t mask = UINT64_C(0xffffffff);
    for (unsigned size = 32; size > 0; size /= 2, mask ^= mask << size)
        for (unsigned k = 0; k < 64; k = ((k | size) + 1) & ~size) {
            uint64_t differing = ((word[k] >> size) ^ word[k | size]) & mask;
            word[k] ^= differing << size;
            word[k | size] ^= differing;
        }
}

/* The position of a control pin in the number that the control pins make (unit_control_bits). */
static unsigned control_bit(const Unit *unit, const Node *input) {
    for (int k = 0; k < unit->choice_count; k++)
        if ((int)input->pin == PIN_DO + (int)unit->choice[k].operation)
            return (unsigned)k;
    return input->bit;
}

static uint64_t control_word(const Grade *grade, const Node *input) {
    unsigned bit = control_bit(grade->unit, input);
    uint64_t word = 0;
    for (unsigned v = 0; v < grade->held; v++)
        word |= (uint64_t)(grade->control[v] >> bit & 1) << v;
    return word;
}

static uint64_t input_word(const Grade *grade, const Node *input) {
    switch (pin_kind(input->pin)) {
    case PIN_A:
        return grade->a[input->bit / 64][input->bit % 64];
    case PIN_B:
        return grade->b[input->bit / 64][input->bit % 64];
    case PIN_CIN:
        return grade->cin;
    case PIN_LINE:
    case PIN_OP:
    case PIN_DO:
        return control_word(grade, input);
    case PIN_CLK:
    case PIN_RST:
    case PIN_EN:
    case PIN_RESULT:
    case PIN_FLAG:
        break; /* no input of the circuit between the registers */
    }
    assert(false);
    return 0;
}

static void report(const Grade *grade) {
    if (grade->reports)
        fprintf(stderr, "\rgrading  %llu of %llu vectors", (unsigned long long)grade->tried,
                (unsigned long long)grade->total);
}

static void set_inputs(Grade *grade) {
    uint64_t *word = faults_inputs(grade->faults);
    for (unsigned limb = 0; 64 * limb < grade->unit->width; limb++) {
        transpose(grade->a[limb]);
        transpose(grade->b[limb]);
    }
    for (uint32_t k = 1; k < grade->netlist->node_count; k++)
        if (grade->netlist->nodes[k].kind == NODE_INPUT)
            word[k] = input_word(grade, &grade->netlist->nodes[k]);
}

static void try_held(Grade *grade) {
    if (faults_open(grade->faults))
        set_inputs(grade);
    faults_try(grade->faults, grade->held);
    grade->tried += grade->held;
    report(grade);
    grade->held = 0;
    grade->cin = 0;
}

void grade_vector(Grade *grade, const Vector *vector) {
    unsigned v = grade->held++;
    grade->control[v] = vector->control;
    grade->cin |= (uint64_t)vector->cin << v;
    for (unsigned limb = 0; 64 * limb < grade->unit->width; limb++) {
        grade->a[limb][v] = vector->a.limb[limb];
        grade->b[limb][v] = vector->b.limb[limb];
    }
    if (grade->held == 64)
        try_held(grade);
}

FaultCount grade_finish(Grade *grade, bool every_input) {
    if (grade->held > 0)
        try_held(grade);
    faults_settle(grade->faults, every_input);
    FaultCount count = faults_count(grade->faults);
    if (grade->reports)
        fputs("\r\033[K", stderr); /* erases the line */
    faults_free(grade->faults);
    free(grade);
    return count;
}
