/* See say.h. */
#include "proof/say.h"

#include "base/memory.h"

/* Registers take no part. */
static void say_equal(const Unit *unit, FILE *out) {
    char inputs[SHARE_BYTES];
    prove_inputs_text(unit, inputs);
    fprintf(out, "equal to the definition for all %s inputs%s%s", inputs,
            unit->control == CONTROL_ONE_HOT ? " with one request or none" : "",
            unit->registers != REGISTERS_NONE ? ", between the registers" : "");
}

void say_proof(const Unit *unit, const Netlist *netlist, const Proof *proof, FILE *out) {
    if (proof->state == PROOF_EQUAL) {
        say_equal(unit, out);
        return;
    }
    const Output *output = &netlist->outputs[proof->output];
    fprintf(out, "open for %u of %u outputs, the first %s", proof->open, netlist->output_count,
            unit->pin[output->pin]);
    if (unit_pin_bits(unit, output->pin) > 1)
        fprintf(out, "[%u]", output->bit);
    fprintf(out, ": more than %u nodes or %llu steps", proof->limits.nodes,
            (unsigned long long)proof->limits.steps);
    if (proof->open < netlist->output_count) {
        fputs("; the others ", out);
        say_equal(unit, out);
    }
}

/* "0x1f", of as many digits as the number needs */
static char *hexadecimal(const uint64_t *limb) {
    char *text = memory_zeroed(UNIT_WIDTH_MAX / 4 + 3, 1);
    unsigned digit = UNIT_WIDTH_MAX / 4, used = 0;
    while (digit > 1 && (limb[(digit - 1) / 16] >> (digit - 1) % 16 * 4 & 15) == 0)
        digit--;
    text[used++] = '0';
    text[used++] = 'x';
    while (digit-- > 0)
        text[used++] = "0123456789abcdef"[limb[digit / 16] >> digit % 16 * 4 & 15];
    return text;
}

bool say_difference(const Unit *unit, const Netlist *netlist, const Proof *proof,
                    Problem *problem) {
    const Output *output = &netlist->outputs[proof->output];
    char *a = hexadecimal(proof->example.a), *b = hexadecimal(proof->example.b);
    problem_set(
        problem, STATUS_SURROUNDINGS,
        "internal fault: bit %u of the circuit's %s is not %d, as the definition says, for control "
        "%u, cin %d, a = %s, b = %s; nothing is written, please report the command",
        output->bit, unit->pin[output->pin], proof->wanted, proof->example.control,
        proof->example.cin, a, b);
    memory_free(a);
    memory_free(b);
    return false;
}
