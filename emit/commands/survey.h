/* What each carry structure costs a unit at each width: the figures that `sumwright cost` prints
 * and draws. */
#ifndef SUMWRIGHT_COMMANDS_SURVEY_H
#define SUMWRIGHT_COMMANDS_SURVEY_H

#include "gates/bound.h"
#include "gates/netlist/cost.h"
#include "options/options.h"

enum { SURVEY_TITLE_BYTES = 512 };

/* A structure at a width. */
typedef struct {
    StructureChoice choice;
    char name[STRUCTURE_TEXT_BYTES]; /* "ripple", "depth=6" */
    Cost cost;
    Cost nands;      /* of NANDs alone, */
    Cost nors;       /* of NORs alone */
    bool smallest;   /* fewest gates at its width, and among those fewest levels */
    bool shallowest; /* fewest levels, and among those fewest gates */
    bool front;      /* no other has fewer of one and no more of the other: the Pareto front */
} SurveyRow;

/* A structure that the unit cannot have, and why not. */
typedef struct {
    char name[STRUCTURE_TEXT_BYTES];
    char reason[PROBLEM_TEXT_BYTES];
} SurveyGap;

typedef struct {
    unsigned width;
    char title[SURVEY_TITLE_BYTES]; /* the unit in a few words: "add,sub with carry, overflow" */
    Bound bound;
    SurveyRow *row; /* in the order asked for */
    size_t count;
    SurveyGap *gap; /* only where structures were not asked for by name */
    size_t gap_count;
} SurveyWidth;

typedef struct {
    SurveyWidth *width;
    size_t count;
} Survey;

/* Builds and counts everything that the request asks for. A structure asked for by name that the
 * unit cannot have at one of the widths is a problem; one that was not is a gap. Free with
 * survey_free, also after a problem. */
bool survey_make(const Request *request, Survey *survey, Problem *problem);
void survey_free(Survey *survey);

/* Sets smallest, shallowest and front of the rows of one width. */
void survey_mark(SurveyRow *row, size_t count);

#endif
