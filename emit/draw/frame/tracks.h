/* Parallel tracks: stretches of wires that run side by side, packed so that none meet. Wires across
 * take tracks in the channel between two layers of a picture, wires downward lanes in the gap
 * between two columns of boxes; both are the same task. */
#ifndef SUMWRIGHT_DRAW_FRAME_TRACKS_H
#define SUMWRIGHT_DRAW_FRAME_TRACKS_H

#include <stdint.h>

/* What one wire needs of the tracks of a place. */
typedef struct {
    int place;       /* which channel or gap, from 0 */
    uint32_t owner;  /* whose wire */
    double from, to; /* from <= to */
    int track;       /* in its place, from 0 */
} Span;

/* Widens a span so that it reaches a point. */
void span_reach(Span *span, double to);

/* Sorts the spans by place and where they begin, and gives each the first track of its place that
 * is free, with `apart` to the span before it on that track (the "left-edge" way of channel routing;
 * common practice, no source). tracks[place] becomes how many are used there. */
void tracks_pack(Span *span, uint32_t count, double apart, int *tracks);

/* The span of an owner in a place; there is one. */
const Span *tracks_find(const Span *span, uint32_t count, int place, uint32_t owner);

#endif
