/* What `sumwright cost` prints. */
#ifndef SUMWRIGHT_COMMANDS_COST_REPORT_H
#define SUMWRIGHT_COMMANDS_COST_REPORT_H

#include "commands/survey.h"

/* As aligned tables with what their columns mean, as comma-separated values under a header line
 * (RFC 4180, nothing where a figure does not apply), or as JSON. */
void cost_report(const Survey *survey, Format format, FILE *out);

#endif
