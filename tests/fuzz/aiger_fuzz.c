/* Any bytes as AIGER: a circuit in topological order, or a reason. */
#include "proof/aiger.h"

#include <assert.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    Aiger aiger;
    if (aiger_read(&aiger, (const char *)data, size) == NULL) {
        uint32_t variables = aiger_variables(&aiger);
        for (uint32_t k = 0; k < aiger.latches; k++)
            assert(aiger.next[k] / 2 < variables);
        for (uint32_t k = 0; k < aiger.outputs; k++)
            assert(aiger.output[k] / 2 < variables);
        for (uint32_t k = 0; k < aiger.ands; k++)
            assert(aiger.in[k][0] / 2 < variables - aiger.ands + k &&
                   aiger.in[k][1] <= aiger.in[k][0]);
    }
    aiger_free(&aiger);
    return 0;
}
