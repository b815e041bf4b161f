/* See tracks.h. */
#include "draw/frame/tracks.h"

#include "base/memory.h"

#include <assert.h>
#include <stdlib.h>

void span_reach(Span *span, double to) {
    span->from = to < span->from ? to : span->from;
    span->to = to > span->to ? to : span->to;
}

static int compare(const void *one, const void *other) {
    const Span *a = one, *b = other;
    if (a->place != b->place)
        return a->place < b->place ? -1 : 1;
    if (a->from < b->from || b->from < a->from)
        return a->from < b->from ? -1 : 1;
    return a->owner < b->owner ? -1 : a->owner > b->owner;
}

void tracks_pack(Span *span, uint32_t count, double apart, int *tracks) {
    double *end = memory_zeroed(count + 1, sizeof end[0]); /* of each track so far */
    qsort(span, count, sizeof span[0], compare);
    for (uint32_t k = 0; k < count; k++) {
        int *used = &tracks[span[k].place], track = 0;
        assert(span[k].from <= span[k].to);
        if (k == 0 || span[k].place != span[k - 1].place)
            *used = 0;
        while (track < *used && end[track] + apart > span[k].from)
            track++;
        *used = track == *used ? track + 1 : *used;
        end[track] = span[k].to;
        span[k].track = track;
    }
    memory_free(end);
}

const Span *tracks_find(const Span *span, uint32_t count, int place, uint32_t owner) {
    uint32_t k = 0;
    while (k < count && (span[k].place != place || span[k].owner != owner))
        k++;
    assert(k < count);
    return &span[k];
}
