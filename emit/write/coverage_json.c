/* See coverage_json.h. */
#include "write/coverage_json.h"

#include "write/json.h"

static void write_vectors(Json *json, const VectorCount *vectors) {
    json_object(json, "vectors");
    json_whole(json, "total", vectors->total);
    json_truth(json, "every input", vectors->exhaustive);
    json_object(json, "parts");
    for (int reason = 0; reason < VECTOR_REASON_COUNT; reason++)
        if (vectors->by_reason[reason] > 0)
            json_whole(json, vector_reason_name((VectorReason)reason), vectors->by_reason[reason]);
    json_close(json);
    json_close(json);
}

static void write_faults(Json *json, const FaultCount *faults) {
    if (faults == NULL) {
        json_null(json, "faults");
        return;
    }
    json_object(json, "faults");
    json_whole(json, "total", faults->total);
    json_whole(json, "caught", faults->by_state[FAULT_CAUGHT]);
    json_whole(json, "by the first vectors", faults->first);
    json_whole(json, "cannot show", faults->by_state[FAULT_HIDDEN]);
    json_whole(json, "missed", faults->by_state[FAULT_MISSED]);
    json_whole(json, "not shown detectable", faults->by_state[FAULT_UNDECIDED]);
    json_close(json);
}

/* ---- one operation ------------------------------------------------------------------------- */

static const char *event_word(bool seen, bool possible) {
    return seen ? "seen" : possible ? "missed" : "impossible";
}

static void write_flags(Json *json, const Unit *unit, const CoverageEvents *seen,
                        const CoverageEvents *possible) {
    json_object(json, "flags");
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!unit->flag[flag])
            continue;
        json_object(json, flag_name((Flag)flag));
        for (int level = 0; level <= 1; level++)
            json_text(json, level == 1 ? "1" : "0",
                      event_word(seen->flag[flag][level], possible->flag[flag][level]));
        json_close(json);
    }
    json_close(json);
}

static void write_ranges(Json *json, const char *key, const Word *columns) {
    json_array(json, key);
    for (unsigned i = 0; i < columns->width; i++) {
        if (!word_bit(columns, i))
            continue;
        json_array(json, NULL);
        json_whole(json, NULL, i);
        while (i + 1 < columns->width && word_bit(columns, i + 1))
            i++;
        json_whole(json, NULL, i);
        json_close(json);
    }
    json_close(json);
}

static void write_columns(Json *json, const CoverageEvents *seen, const CoverageEvents *possible) {
    json_object(json, "columns");
    for (int event = 0; event < COLUMN_EVENT_COUNT; event++) {
        Word missed, impossible;
        word_xor(&missed, &seen->column[event], &possible->column[event]);
        word_not(&impossible, &possible->column[event]);
        json_object(json, column_event_name((ColumnEvent)event));
        write_ranges(json, "seen", &seen->column[event]);
        write_ranges(json, "missed", &missed);
        write_ranges(json, "impossible", &impossible);
        json_close(json);
    }
    json_close(json);
}

static void write_operation(Json *json, const Coverage *coverage, int choice) {
    const Unit *unit = coverage->unit;
    const CoverageEvents *seen = &coverage->seen[choice], *possible = &coverage->possible[choice];
    json_object(json, NULL);
    json_text(json, "operation", operation_name(unit->choice[choice].operation));
    json_whole(json, "vectors", seen->vectors);
    write_flags(json, unit, seen, possible);
    write_columns(json, seen, possible);
    json_object(json, "longest carry");
    json_whole(json, "seen", seen->longest);
    json_whole(json, "possible", possible->longest);
    json_close(json);
    json_close(json);
}

void coverage_json(const Coverage *coverage, const VectorCount *vectors, const FaultCount *faults,
                   FILE *out) {
    const Unit *unit = coverage->unit;
    Json json = json_begin(out);
    json_object(&json, NULL);
    json_text(&json, "name", unit->name);
    json_whole(&json, "width", unit->width);
    write_vectors(&json, vectors);
    write_faults(&json, faults);
    json_object(&json, "nothing requested");
    json_truth(&json, "possible", unit_can_idle(unit));
    json_whole(&json, "vectors", coverage->nothing);
    json_close(&json);
    json_array(&json, "operations");
    for (int k = 0; k < unit->choice_count; k++)
        write_operation(&json, coverage, k);
    json_close(&json);
    json_close(&json);
}
