/* The commands. Each is given what its command line asks for, calls the rooms below, and prints its
 * results on standard output. */
#ifndef SUMWRIGHT_COMMANDS_COMMANDS_H
#define SUMWRIGHT_COMMANDS_COMMANDS_H

#include "options/options.h"

/* Writes NAME.v, NAME_tb.v and NAME.vec, and says how to simulate them. */
bool command_emit(const Request *request, Problem *problem);

/* Tests somebody's design and says which mistake it makes. The problem has no text but the status
 * STATUS_WRONG_DESIGN or STATUS_UNTESTED when all went well and a design did not. */
bool command_check(const Request *request, Problem *problem);

/* Works an operation column by column. */
bool command_work(const Request *request, Problem *problem);

/* What each carry structure costs: gates, levels and more, as text, CSV, JSON or a drawing. */
bool command_cost(const Request *request, Problem *problem);

/* Draws a unit's schematic. */
bool command_draw(const Request *request, Problem *problem);

/* Writes a page on which an operation is gone through step by step. */
bool command_lesson(const Request *request, Problem *problem);

/* Writes a sheet of exercises, and their solutions. */
bool command_exercises(const Request *request, Problem *problem);

#endif
