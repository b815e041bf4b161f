/* Any bytes as a Verilog text: its headers are read without crash or hang, within its own size, and
 * every width that is computed is one.
 *   ./header_fuzz -max_total_time=60 -max_len=4096 */
#include "check/read/header.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check(bool good, const char *what) {
    if (good)
        return;
    fprintf(stderr, "wrong: %s\n", what);
    abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    const ParameterSetting setting = {"WIDTH", "12"};
    const ParameterSettings settings = {&setting, 1};
    Headers headers = {NULL, 0, false, false, 0};
    headers_read(&headers, (const char *)data, size);
    size_t named = 0;
    for (size_t m = 0; m < headers.module_count; m++) {
        const HeaderModule *module = &headers.module[m];
        named += 1 + module->port_count + module->parameter_count;
        check(module->name[0] != '\0' || module->escaped, "a module without a name");
        for (size_t p = 0; p < module->port_count; p++) {
            const HeaderPort *port = &module->port[p];
            check(port->range != NULL || header_port_bits(module, port, &settings) == 1, "one bit");
            check(header_port_bits(module, port, &settings) <= (2u << 20) + 1, "too many bits");
            header_range_names(port, "WIDTH");
        }
    }
    check(named <= size, "more names than bytes");
    headers_free(&headers);
    return 0;
}
