/* Parallel-prefix networks: the carry of every column at once, by cells that join neighbouring
 * spans of columns.
 *
 * A network is data. Nodes 0 ... columns - 1 are the columns, and each cell is a node more: it
 * joins the span of node `high` with that of node `low`, which ends where the other begins.
 * whole[i] is the node that spans columns i ... 0, so its "generates" is the carry out of column i.
 * A cell costs three gates and two levels of gates, or two gates where nobody asks whether its span
 * passes a carry (G = G_high OR (P_high AND G_low), P = P_high AND P_low; common practice, no
 * source). */
#ifndef SUMWRIGHT_GATES_PREFIX_PREFIX_H
#define SUMWRIGHT_GATES_PREFIX_PREFIX_H

#include "gates/structures/structure.h"

typedef struct {
    uint32_t high; /* nodes */
    uint32_t low;
    unsigned top; /* columns that it spans */
    unsigned bottom;
    unsigned level; /* of cells, from 1 */
} PrefixCell;

typedef struct Prefix {
    unsigned columns;
    uint32_t *whole; /* a node a column; at first the columns themselves */
    PrefixCell *cell;
    uint32_t cell_count;
    size_t cell_room;
} Prefix;

/* A network of no cells yet. Free with prefix_free. */
void prefix_init(Prefix *prefix, unsigned columns);
void prefix_free(Prefix *prefix);

/* A new cell; its node. The span of low ends just below that of high. */
uint32_t prefix_join(Prefix *prefix, uint32_t high, uint32_t low);

/* Joins whole[high] with whole[low] and keeps the result as whole[high]. */
void prefix_extend(Prefix *prefix, unsigned high, unsigned low);

/* The lowest column that a node spans. */
unsigned prefix_bottom(const Prefix *prefix, uint32_t node);

/* The level of a node (0: a column), and of the deepest cell. */
unsigned prefix_level(const Prefix *prefix, uint32_t node);
unsigned prefix_depth(const Prefix *prefix);

/* The least depth of a network: ceil(log2 columns). */
unsigned prefix_least_depth(unsigned columns);

/* Makes a network of at most 130 columns smaller if a search of some thousand steps finds how,
 * within so many levels (which it keeps to already); that takes tenths of a second at most. The
 * cells may be others. */
void prefix_refine(Prefix *prefix, unsigned depth);

/* Each fills an empty network. */
PrefixMake sklansky_make, kogge_stone_make, brent_kung_make, han_carlson_make, ladner_fischer_make,
    depth_make;

/* The adder's carries by a network. A first carry that is no constant is one column more, below the
 * others (see unit_prefix_columns). */
void prefix_build(Netlist *netlist, Adder *adder, PrefixMake *make);

#endif
