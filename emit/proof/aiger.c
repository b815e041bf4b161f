/* See aiger.h. */
#include "proof/aiger.h"

#include "base/memory.h"

#include <string.h>

enum { MOST = 1 << 24, INPUTS_MOST = 1 << 20, NAME_BYTES = 4096 };

typedef struct {
    const unsigned char *at, *end;
} Bytes;

static bool take(Bytes *bytes, char wanted) {
    if (bytes->at == bytes->end || *bytes->at != (unsigned char)wanted)
        return false;
    bytes->at++;
    return true;
}

/* A decimal number of at most 2 * MOST + 1. */
static bool take_number(Bytes *bytes, uint32_t *number) {
    const unsigned char *first = bytes->at;
    *number = 0;
    for (; bytes->at < bytes->end && *bytes->at >= '0' && *bytes->at <= '9'; bytes->at++) {
        *number = *number * 10 + (*bytes->at - '0');
        if (*number > 2 * MOST + 1)
            return false;
    }
    return bytes->at > first;
}

/* "aig M I L O A", the numbers of variables, inputs, latches, outputs and gates. */
static bool take_header(Bytes *bytes, Aiger *aiger) {
    uint32_t number[5];
    if (!take(bytes, 'a') || !take(bytes, 'i') || !take(bytes, 'g'))
        return false;
    for (int k = 0; k < 5; k++)
        if (!take(bytes, ' ') || !take_number(bytes, &number[k]) || number[k] > MOST)
            return false;
    /* What follows takes two bytes at least of each of these. */
    size_t left = (size_t)(bytes->end - bytes->at);
    if (number[0] != (uint64_t)number[1] + number[2] + number[4] || number[2] > left ||
        number[3] > left || number[4] > left || number[1] > INPUTS_MOST)
        return false;
    aiger->inputs = number[1];
    aiger->latches = number[2];
    aiger->outputs = number[3];
    aiger->ands = number[4];
    return take(bytes, '\n');
}

static bool take_literal(Bytes *bytes, const Aiger *aiger, uint32_t *literal) {
    return take_number(bytes, literal) && *literal / 2 < aiger_variables(aiger);
}

/* The literal that each latch takes; how it begins may follow and is left aside. */
static bool take_latches(Bytes *bytes, Aiger *aiger) {
    aiger->next = memory_zeroed(aiger->latches, sizeof aiger->next[0]);
    for (uint32_t k = 0; k < aiger->latches; k++) {
        uint32_t begins;
        if (!take_literal(bytes, aiger, &aiger->next[k]))
            return false;
        if (take(bytes, ' ') && !take_literal(bytes, aiger, &begins))
            return false;
        if (!take(bytes, '\n'))
            return false;
    }
    return true;
}

static bool take_outputs(Bytes *bytes, Aiger *aiger) {
    aiger->output = memory_zeroed(aiger->outputs, sizeof aiger->output[0]);
    for (uint32_t k = 0; k < aiger->outputs; k++)
        if (!take_literal(bytes, aiger, &aiger->output[k]) || !take(bytes, '\n'))
            return false;
    return true;
}

/* A number of seven bits a byte, the lowest first; all but the last byte have their highest bit. */
static bool take_difference(Bytes *bytes, uint32_t *number) {
    *number = 0;
    for (unsigned shift = 0; shift < 28; shift += 7) {
        if (bytes->at == bytes->end)
            return false;
        unsigned char byte = *bytes->at++;
        *number |= (uint32_t)(byte & 127U) << shift;
        if (byte < 128)
            return true;
    }
    return false;
}

/* Each gate as two differences: from its own literal to the greater one that it reads, and from that
 * to the other. */
static bool take_ands(Bytes *bytes, Aiger *aiger) {
    aiger->in = memory_zeroed(aiger->ands, sizeof aiger->in[0]);
    for (uint32_t k = 0; k < aiger->ands; k++) {
        uint32_t own = 2 * (1 + aiger->inputs + aiger->latches + k), first, second;
        if (!take_difference(bytes, &first) || !take_difference(bytes, &second) || first == 0 ||
            first > own || second > own - first)
            return false;
        aiger->in[k][0] = own - first;
        aiger->in[k][1] = own - first - second;
    }
    return true;
}

/* "i3 name", "o0 name"; those of latches are left aside. */
static bool take_symbol(Bytes *bytes, Aiger *aiger) {
    char kind = (char)*bytes->at++;
    uint32_t k;
    if (!take_number(bytes, &k) || !take(bytes, ' '))
        return false;
    const unsigned char *end = memchr(bytes->at, '\n', (size_t)(bytes->end - bytes->at));
    if (end == NULL || end - bytes->at > NAME_BYTES)
        return false;
    const char *name = (const char *)bytes->at;
    int length = (int)(end - bytes->at);
    bytes->at = end + 1;
    char **place = kind == 'i' && k < aiger->inputs    ? &aiger->input_name[k]
                   : kind == 'o' && k < aiger->outputs ? &aiger->output_name[k]
                                                       : NULL;
    if (place != NULL && *place == NULL)
        *place = memory_text("%.*s", length, name);
    return place != NULL || (kind == 'l' && k < aiger->latches);
}

static bool take_symbols(Bytes *bytes, Aiger *aiger) {
    aiger->input_name = memory_zeroed(aiger->inputs, sizeof aiger->input_name[0]);
    aiger->output_name = memory_zeroed(aiger->outputs, sizeof aiger->output_name[0]);
    while (bytes->at < bytes->end && *bytes->at != 'c')
        if (!take_symbol(bytes, aiger))
            return false;
    return true;
}

const char *aiger_read(Aiger *aiger, const char *bytes, size_t count) {
    *aiger = (Aiger){0};
    const unsigned char *first = (const unsigned char *)bytes;
    Bytes rest = {first, first + count};
    if (!take_header(&rest, aiger)) {
        *aiger = (Aiger){0};
        return "its gates do not begin as AIGER does, or are too many";
    }
    if (!take_latches(&rest, aiger) || !take_outputs(&rest, aiger))
        return "its latches and outputs are not as AIGER has them";
    if (!take_ands(&rest, aiger))
        return "its gates are not as AIGER has them";
    return take_symbols(&rest, aiger) ? NULL : "its symbols are not as AIGER has them";
}

static void free_names(char **names, uint32_t count) {
    for (uint32_t k = 0; k < count && names != NULL; k++)
        memory_free(names[k]);
    memory_free(names);
}

void aiger_free(Aiger *aiger) {
    free_names(aiger->input_name, aiger->inputs);
    free_names(aiger->output_name, aiger->outputs);
    memory_free(aiger->next);
    memory_free(aiger->output);
    memory_free(aiger->in);
    *aiger = (Aiger){0};
}
