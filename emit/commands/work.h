/* What sumwright work and its tests share. */
#ifndef SUMWRIGHT_COMMANDS_WORK_H
#define SUMWRIGHT_COMMANDS_WORK_H

#include "options/options.h"
#include "work/working.h"
#include "write/files.h"

/* Works out what a request of COMMAND_WORK asks for. Operands that are missing, extra or do not fit
 * the unit's width, and a --cin that the operation does not read, are problems of STATUS_INVALID.
 * The working points into the request. */
bool work_request(const Request *request, Working *working, Problem *problem);

/* Refuses --svg beside --frames, which are two sets of files. */
bool work_frames_alone(const Request *request, Problem *problem);

/* Adds the file of a step, "step_07.svg", to a set; *out is its stream. */
bool work_add_frame(Files *files, unsigned step, unsigned count, FILE **out, Problem *problem);

#endif
