/* Network pictures from command lines in one string, for tests. */
#ifndef SUMWRIGHT_TESTS_NETWORKS_H
#define SUMWRIGHT_TESTS_NETWORKS_H

#include "drawings.h"

#include "draw/draw.h"

static const char *const structures[] = {"skip",        "select",         "lookahead",
                                         "sklansky",    "kogge-stone",    "brent-kung",
                                         "han-carlson", "ladner-fischer", "depth=9"};

enum { STRUCTURES = sizeof structures / sizeof structures[0], LINE_BYTES = 1024 };

#endif
