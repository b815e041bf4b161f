/* sumwright cost: options in; what each carry structure costs the unit, as a table and, if asked
 * for, as a drawing, out. */
#include "commands/commands.h"

#include "commands/cost_chart.h"
#include "commands/cost_report.h"
#include "commands/survey.h"
#include "write/files.h"

/* The drawing first: where it cannot be written, nothing is printed. */
static bool report(const Request *request, const Survey *survey, Problem *problem) {
    if (request->svg != NULL) {
        FILE *out = NULL;
        Files *files = files_open_one(request->svg, request->overwrite, &out, problem);
        if (files == NULL)
            return false;
        cost_chart(survey, out);
        if (!files_commit(files, problem))
            return false;
    }
    cost_report(survey, request->format, stdout);
    return true;
}

bool command_cost(const Request *request, Problem *problem) {
    Survey survey = {0};
    bool good = survey_make(request, &survey, problem) && report(request, &survey, problem);
    survey_free(&survey);
    return good;
}
