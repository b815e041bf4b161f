/* Which of a design's modules is the unit, and which of its ports is which pin.
 *
 * A port is taken for a pin when --port says so, when it has the pin's own name, when it has a name
 * that the trade gives such a pin, or when it is the only one left of its direction and width.
 * What is left open is asked for. Nothing is assumed of levels: a control pin that works upside
 * down is mapped like any other, and the simulation shows it. */
#ifndef SUMWRIGHT_CHECK_READ_PORTS_H
#define SUMWRIGHT_CHECK_READ_PORTS_H

#include "base/problem.h"
#include "check/read/header.h"
#include "unit/unit.h"

/* The module to test: the one called wanted, or, where that is NULL, the only one with ports that
 * no other module with ports uses. Problems are STATUS_UNTESTED. */
const HeaderModule *ports_module(const Headers *headers, const char *wanted, Problem *problem);

typedef struct {
    const HeaderModule *module;
    const HeaderPort *port[PIN_COUNT];  /* NULL: not a pin of the unit, or a flag that it lacks */
    bool lacks[FLAG_COUNT];             /* flags of the unit without a port, */
    const HeaderPort *wide[FLAG_COUNT]; /* or with this one, of another width */
    const char *parameter; /* set to the unit's width so that the operands fit, or NULL */
} Mapping;

/* Maps the pins of a unit. Every pin but flags must be found, every input must be a pin of the
 * unit. Problems are STATUS_UNTESTED and name the --port options that would settle it. */
bool ports_map(const Unit *unit, const HeaderModule *module, const ParameterSettings *settings,
               Mapping *mapping, Problem *problem);

/* Does the name of a reset pin say that it resets when low: rst_n, nreset, rstb ...? */
bool ports_says_low(const char *name);

#endif
