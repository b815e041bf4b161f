/* In which order a netlist's nodes are best looked at where each takes much room until all that
 * read it have been: from the outputs backwards, one after the other, and everything as soon as
 * what it reads is there. Then a column's signals are gone before the next column's are made. */
#ifndef SUMWRIGHT_PROOF_ORDER_H
#define SUMWRIGHT_PROOF_ORDER_H

#include "gates/netlist/netlist.h"

/* All nodes, each after those that it reads: node_count of them. The caller frees them. */
uint32_t *order_find(const Netlist *netlist);

#endif
