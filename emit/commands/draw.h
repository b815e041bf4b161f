/* What sumwright draw and its tests share. */
#ifndef SUMWRIGHT_COMMANDS_DRAW_H
#define SUMWRIGHT_COMMANDS_DRAW_H

#include "draw/scene.h"
#include "options/options.h"

/* Draws what a request of COMMAND_DRAW asks for into a settled scene. Operands that are missing,
 * extra or do not fit the unit's width, an operation that it does not have, and a --cin that is not
 * read, are problems of STATUS_INVALID; the scene is empty then. Free with scene_free. */
bool draw_request(const Request *request, Scene *scene, Problem *problem);

#endif
