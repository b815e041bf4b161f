/* What `sumwright cost` draws: gates against levels, a panel a width. */
#ifndef SUMWRIGHT_COMMANDS_COST_CHART_H
#define SUMWRIGHT_COMMANDS_COST_CHART_H

#include "commands/survey.h"

void cost_chart(const Survey *survey, FILE *out);

#endif
