/* What sumwright draw and its tests share. */
#ifndef SUMWRIGHT_COMMANDS_DRAW_H
#define SUMWRIGHT_COMMANDS_DRAW_H

#include "draw/scene.h"
#include "options/options.h"
#include "work/working.h"

/* Draws what a request of COMMAND_DRAW asks for into a settled scene. Operands that are missing,
 * extra or do not fit the unit's width, an operation that it does not have, and a --cin that is not
 * read, are problems of STATUS_INVALID; the scene is empty then. Free with scene_free. */
bool draw_request(const Request *request, Scene *scene, Problem *problem);

/* Works out what A,B,OP says for the request's unit and --cin; the working points to that unit. */
bool draw_example(const Request *request, const char *example, Working *working, Problem *problem);

#endif
