/* How many inputs a function is true for, exactly, and how one says so. */
#ifndef SUMWRIGHT_PROOF_SHARE_H
#define SUMWRIGHT_PROOF_SHARE_H

#include "proof/diagram.h"

enum { SHARE_BYTES = 160 };

/* How much of all inputs: "1 of every 2^64 inputs". There are odd times 2^exponent of them, and x is
 * a function of the store's variables that is true for none but inputs, and for one at least. The
 * text is exact unless it says "about"; it is empty where counting takes too much room. */
void share_text(const Diagrams *diagrams, Diagram x, unsigned odd, unsigned exponent,
                char text[SHARE_BYTES]);

/* The number of all inputs: "512", "2^40", "3 x 2^40". */
void share_total_text(unsigned odd, unsigned exponent, char text[SHARE_BYTES]);

#endif
