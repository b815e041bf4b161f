/* What the headers of a Verilog text say: its modules with their ports, parameters and the modules
 * that each uses. Reads ANSI and non-ANSI headers itself; ports.c makes a pin mapping of it. It is
 * not a compiler: text that is no Verilog gives few modules or none, and the compiler says why. */
#ifndef SUMWRIGHT_CHECK_READ_HEADER_H
#define SUMWRIGHT_CHECK_READ_HEADER_H

#include "check/read/tokens.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { HEADER_PORTS_MAX = 8192 };

typedef enum {
    DIRECTION_UNKNOWN, /* named in a non-ANSI list and never declared */
    DIRECTION_INPUT,
    DIRECTION_OUTPUT,
    DIRECTION_INOUT,
} Direction;

typedef struct {
    char *name;     /* an escaped name without its backslash */
    bool escaped;   /* needs the backslash and a blank to be written */
    char *internal; /* non-ANSI: what it is called inside, the same but for .NAME(internal) */
    char *range;    /* "7 : 0", the words of its range with blanks between, or NULL: one bit */
    Direction direction;
} HeaderPort;

typedef struct {
    char *name;
    char *value; /* the words of its default */
} HeaderParameter;

typedef struct {
    char *name;
    bool escaped;
    unsigned line;
    HeaderPort *port;
    size_t port_count;
    HeaderParameter *parameter; /* those that an instance can set */
    size_t parameter_count;
    Token *used; /* names that stand where an instance's module would, in the text */
    size_t used_count;
} HeaderModule;

typedef struct {
    HeaderModule *module;
    size_t module_count;
    bool conditional; /* see Tokens */
    bool ends_early;  /* the text ends inside a module */
    unsigned strange; /* the line of the first byte that no Verilog text has, or 0 */
} Headers;

/* Adds what the text says; headers starts as {0}. The text must outlive the headers. Time and
 * memory are proportional to the text; of a module's ports the first HEADER_PORTS_MAX are kept. */
void headers_read(Headers *headers, const char *text, size_t bytes);
void headers_free(Headers *headers);

/* A parameter set from outside, NAME and VALUE of --parameter. */
typedef struct {
    const char *name;
    const char *value;
} ParameterSetting;

typedef struct {
    const ParameterSetting *setting;
    size_t count;
} ParameterSettings;

/* Bits of a port under these settings: 1 without a range; 0 when the range is beyond what is
 * computed here (macros, functions, anything but + - * / and parentheses). */
unsigned header_port_bits(const HeaderModule *module, const HeaderPort *port,
                          const ParameterSettings *settings);
/* Does the range of the port name this parameter? */
bool header_range_names(const HeaderPort *port, const char *parameter);

#endif
