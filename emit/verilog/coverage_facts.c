/* See coverage_facts.h. */
#include "verilog/coverage_facts.h"

#include "base/memory.h"
#include "base/text.h"

/* Columns come in at most so many ranges; what is more is counted. */
enum { RANGES_MAX = 8 };

/* "0-3, 7 and 12 more" */
static void put_ranges(TextBuffer *remark, const Word *columns) {
    unsigned ranges = 0, left_out = 0;
    for (unsigned i = 0; i < columns->width; i++) {
        if (!word_bit(columns, i))
            continue;
        unsigned first = i;
        while (i + 1 < columns->width && word_bit(columns, i + 1))
            i++;
        if (ranges++ >= RANGES_MAX) {
            left_out += i - first + 1;
            continue;
        }
        text_printf(remark, "%s%u", ranges == 1 ? "" : ", ", first);
        if (i > first)
            text_printf(remark, "-%u", i);
    }
    if (left_out > 0)
        text_printf(remark, " and %u more", left_out);
}

/* What is in some events and not in others. */
static char *absent(const Unit *unit, const CoverageEvents *in, const CoverageEvents *not_in) {
    TextBuffer remark = {0};
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        for (int level = 0; level <= 1; level++)
            if (unit->flag[flag] && in->flag[flag][level] && !not_in->flag[flag][level])
                text_printf(&remark, "%s%s %d", remark.length == 0 ? "" : ", ",
                            flag_name((Flag)flag), level);
    for (int event = 0; event < COLUMN_EVENT_COUNT; event++) {
        Word columns;
        word_not(&columns, &not_in->column[event]);
        word_and(&columns, &columns, &in->column[event]);
        if (word_is_zero(&columns))
            continue;
        text_printf(&remark, "%scolumn %s: ", remark.length == 0 ? "" : "; ",
                    column_event_name((ColumnEvent)event));
        put_ranges(&remark, &columns);
    }
    return text_take(&remark);
}

static CoverageEvents everything(unsigned width) {
    CoverageEvents events = {0};
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        events.flag[flag][0] = events.flag[flag][1] = true;
    for (int event = 0; event < COLUMN_EVENT_COUNT; event++)
        word_ones(&events.column[event], width);
    return events;
}

void coverage_facts(const Coverage *coverage, Facts *facts) {
    const Unit *unit = coverage->unit;
    CoverageEvents all = everything(unit->width);
    facts_list(facts, "covered");
    for (int k = 0; k < unit->choice_count; k++) {
        CoverageCount count = coverage_count_choice(coverage, k);
        Facts *row = facts_row(facts, "covered");
        facts_text(row, "operation", "%-4s", operation_name(unit->choice[k].operation));
        facts_text(row, "flags", "%llu/%llu", (unsigned long long)count.seen.flags,
                   (unsigned long long)count.possible.flags);
        facts_text(row, "columns", "%llu/%llu", (unsigned long long)count.seen.columns,
                   (unsigned long long)count.possible.columns);
        facts_text(row, "longest", "%u/%u", count.seen.longest, count.possible.longest);
        char *cannot = absent(unit, &all, &coverage->possible[k]);
        char *missed = absent(unit, &coverage->possible[k], &coverage->seen[k]);
        facts_text(row, "cannot", "%s", cannot);
        facts_text(row, "missed", "%s", missed);
        memory_free(cannot);
        memory_free(missed);
    }
    facts_flag(facts, "can_idle", unit_can_idle(unit));
    facts_text(facts, "idle_vectors", "%llu", (unsigned long long)coverage->nothing);
}
