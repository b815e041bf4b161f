/* The columns where walking bits stand and carry chains start and end. Every column in words of at
 * most POSITIONS_MAX bits. In wider words the two sides of each boundary at a power of two, 2^k - 1
 * and 2^k, and the two columns at each end: 0, 1, 2, 3, 4, 7, 8, 15, 16 ... n-2, n-1. Ascending,
 * none twice. */
#ifndef SUMWRIGHT_VECTORS_POSITIONS_H
#define SUMWRIGHT_VECTORS_POSITIONS_H

enum { POSITIONS_MAX = 64 };
typedef struct {
    unsigned count;
    unsigned at[POSITIONS_MAX];
} Positions;

Positions positions_of(unsigned width);

#endif
