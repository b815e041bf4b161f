/* See order.h. */
#include "proof/order.h"

#include "base/memory.h"
#include "gates/netlist/readers.h"

#include <assert.h>

typedef struct {
    const Netlist *netlist;
    Readers readers;
    unsigned char *lacking; /* of each node: inputs that are not placed yet */
    bool *placed;
    uint32_t *stack; /* nodes to place: each once for each input and output that asks for it, and
                        once when it becomes ready */
    uint32_t height;
    uint32_t *order;
    uint32_t count;
} Search;

static void push(Search *search, uint32_t k) {
    search->stack[search->height++] = k;
}

/* Places a node, and asks for those that are ready with it. */
static void place(Search *search, uint32_t k) {
    search->placed[k] = true;
    search->order[search->count++] = k;
    for (uint32_t r = search->readers.first[k]; r < search->readers.first[k + 1]; r++) {
        uint32_t reader = search->readers.reader[r] / 2;
        if (--search->lacking[reader] == 0)
            push(search, reader);
    }
}

/* Places a node and all that it depends on. */
static void reach(Search *search, uint32_t target) {
    push(search, target);
    while (search->height > 0) {
        uint32_t k = search->stack[search->height - 1];
        const Node *node = &search->netlist->nodes[k];
        if (search->placed[k]) {
            search->height--;
        } else if (search->lacking[k] == 0) {
            search->height--;
            place(search, k);
        } else {
            uint32_t first = literal_node(node->in[0]);
            push(search, search->placed[first] ? literal_node(node->in[1]) : first);
        }
    }
}

uint32_t *order_find(const Netlist *netlist) {
    Search search = {.netlist = netlist};
    uint32_t count = netlist->node_count;
    readers_find(netlist, &search.readers);
    search.lacking = memory_zeroed(count, sizeof search.lacking[0]);
    search.placed = memory_zeroed(count, sizeof search.placed[0]);
    search.stack = memory_zeroed((size_t)3 * count + 1, sizeof search.stack[0]);
    search.order = memory_zeroed(count, sizeof search.order[0]);
    for (uint32_t k = 0; k < count; k++)
        search.lacking[k] = netlist_is_gate(&netlist->nodes[k]) ? 2 : 0;
    for (uint32_t k = 0; k < netlist->output_count; k++)
        reach(&search, literal_node(netlist->outputs[k].literal));
    for (uint32_t k = 0; k < count; k++)
        reach(&search, k);
    assert(search.count == count);
    readers_free(&search.readers);
    memory_free(search.lacking);
    memory_free(search.placed);
    memory_free(search.stack);
    return search.order;
}
