/* The commands. Each reads its own argv (argv[0] is the command's name), calls the rooms below,
 * and prints its results on standard output. */
#ifndef SUMWRIGHT_COMMANDS_COMMANDS_H
#define SUMWRIGHT_COMMANDS_COMMANDS_H

#include "base/problem.h"

/* Writes NAME.v, NAME_tb.v and NAME.vec, and says how to simulate them. */
bool command_emit(int argc, char **argv, Problem *problem);

/* Tests somebody's design and says which mistake it makes. The problem has no text but the status
 * STATUS_WRONG_DESIGN or STATUS_UNTESTED when all went well and a design did not. */
bool command_check(int argc, char **argv, Problem *problem);

/* Works an operation column by column. */
bool command_work(int argc, char **argv, Problem *problem);

/* What each carry structure costs: gates, levels and more, as text, CSV, JSON or a drawing. */
bool command_cost(int argc, char **argv, Problem *problem);

/* Draws a unit's schematic. */
bool command_draw(int argc, char **argv, Problem *problem);

#endif
