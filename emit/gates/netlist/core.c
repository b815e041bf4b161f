/* See core.h. */
#include "gates/netlist/core.h"

#include "base/memory.h"
#include "gates/prefix/prefix.h"

#include <assert.h>
#include <string.h>

/* Of the record, all rows of literals, one a column or carry. */
enum { ROWS = 8 };

static void rows_of(AdderCore *core, Literal **rows[ROWS]) {
    rows[0] = &core->added_x;
    rows[1] = &core->added_y;
    rows[2] = &core->x;
    rows[3] = &core->y;
    rows[4] = &core->half;
    rows[5] = &core->sum;
    rows[6] = &core->carry;
    rows[7] = &core->result;
}

/* One more than the width, for all alike: of carries there are so many. */
static uint32_t *row_of_none(unsigned width) {
    uint32_t *row = memory_zeroed(width + 1, sizeof row[0]);
    memset(row, 0xff, (width + 1) * sizeof row[0]); /* LITERAL_NONE, CORE_NO_CELL */
    return row;
}

AdderCore *core_new(unsigned width) {
    assert(width > 0 && width <= UNIT_WIDTH_MAX);
    AdderCore *core = memory_zeroed(1, sizeof *core);
    Literal **rows[ROWS];
    core->width = width;
    rows_of(core, rows);
    for (int k = 0; k < ROWS; k++)
        *rows[k] = row_of_none(width);
    core->giver = row_of_none(width);
    memset(core->signal, 0xff, sizeof core->signal);
    memset(core->flag, 0xff, sizeof core->flag);
    core->turned = LITERAL_0;
    core->first = core->leaving = core->overflow = core->below_zero = LITERAL_NONE;
    return core;
}

void core_free(AdderCore *core) {
    if (core == NULL)
        return;
    Literal **rows[ROWS];
    rows_of(core, rows);
    for (int k = 0; k < ROWS; k++)
        memory_free(*rows[k]);
    memory_free(core->giver);
    memory_free(core->cell);
    memory_free(core->group);
    if (core->prefix != NULL)
        prefix_free(core->prefix);
    memory_free(core->prefix);
    memory_free(core);
}

static void *copy_of(const void *bytes, size_t count, size_t size) {
    void *copy = memory_zeroed(count + 1, size);
    if (count > 0)
        memcpy(copy, bytes, count * size);
    return copy;
}

AdderCore *core_copy(const AdderCore *core) {
    assert(core != NULL);
    AdderCore *copy = copy_of(core, 1, sizeof *core);
    Literal **rows[ROWS];
    rows_of(copy, rows);
    for (int k = 0; k < ROWS; k++)
        *rows[k] = copy_of(*rows[k], core->width + 1, sizeof(Literal));
    copy->giver = copy_of(core->giver, core->width + 1, sizeof core->giver[0]);
    copy->cell = copy_of(core->cell, core->cell_count, sizeof core->cell[0]);
    copy->cell_room = core->cell_count + 1u;
    copy->group = copy_of(core->group, core->group_count, sizeof core->group[0]);
    copy->group_room = core->group_count + 1u;
    if (core->prefix != NULL) {
        Prefix *prefix = copy->prefix = copy_of(core->prefix, 1, sizeof *prefix);
        prefix->whole = copy_of(prefix->whole, prefix->columns, sizeof prefix->whole[0]);
        prefix->cell = copy_of(prefix->cell, prefix->cell_count, sizeof prefix->cell[0]);
        prefix->cell_room = prefix->cell_count + 1u;
    }
    return copy;
}

/* ---- cells and groups ----------------------------------------------------------------------- */

/* The cells that a cell reads without those that are constants, and its level. */
static void settle_inputs(const AdderCore *core, CoreCell *cell) {
    int kept = 0;
    for (int k = 0; k < cell->in_count; k++) {
        if (cell->in[k] == CORE_NO_CELL)
            continue;
        assert(cell->in[k] < core->cell_count);
        unsigned level = core->cell[cell->in[k]].level + 1;
        cell->in[kept++] = cell->in[k];
        cell->level = level > cell->level ? level : cell->level;
    }
    cell->in_count = kept;
}

/* Does the cell give no more than one before it does? */
static bool is_wire(const AdderCore *core, const CoreCell *cell) {
    if (cell->kind == CORE_PAIR || cell->in_count == 0)
        return false;
    const CoreCell *before = &core->cell[cell->in[0]];
    return before->generates == cell->generates &&
           (cell->passes == LITERAL_NONE || cell->passes == before->passes);
}

uint32_t core_cell(AdderCore *core, CoreCell cell) {
    assert(cell.in_count <= CORE_INPUTS_MAX);
    assert(cell.top >= cell.bottom && cell.top < (int)core->width);
    settle_inputs(core, &cell);
    if (is_wire(core, &cell))
        return cell.in[0];
    core->cell =
        memory_grow(core->cell, &core->cell_room, core->cell_count + 1u, sizeof core->cell[0]);
    core->cell[core->cell_count] = cell;
    return core->cell_count++;
}

uint32_t core_cell_of_two(AdderCore *core, CoreCell cell, uint32_t high, uint32_t low) {
    assert(high != low || high == CORE_NO_CELL);
    cell.in[0] = high;
    cell.in[1] = low;
    cell.in_count = 2;
    return core_cell(core, cell);
}

void core_group(AdderCore *core, unsigned top, unsigned bottom, unsigned tier) {
    assert(top >= bottom && top < core->width);
    core->group =
        memory_grow(core->group, &core->group_room, core->group_count + 1u, sizeof core->group[0]);
    core->group[core->group_count++] = (CoreGroup){top, bottom, tier};
}

/* ---- asking ---------------------------------------------------------------------------------- */

static bool is_gone(Literal literal) {
    return literal == LITERAL_NONE || literal_is_constant(literal);
}

bool core_cell_is_there(const CoreCell *cell) {
    return cell->kind == CORE_COLUMN || !is_gone(cell->generates) || !is_gone(cell->passes);
}

CoreEntry core_enters(const AdderCore *core, unsigned i) {
    assert(i <= core->width);
    switch (core->carry[i]) {
    case LITERAL_0:
        return CORE_ENTERS_0;
    case LITERAL_1:
        return CORE_ENTERS_1;
    case LITERAL_NONE:
        /* A first column may take the carry as it is and hand on a borrow. */
        return i == 0 && !is_gone(core->first) ? CORE_ENTERS_SIGNAL : CORE_ENTERS_UNREAD;
    }
    return CORE_ENTERS_SIGNAL;
}

void core_set_sense(AdderCore *core, Literal turned, Literal subtracting) {
    assert(turned != LITERAL_NONE);
    core->turned = turned;
    core->sense = turned == LITERAL_0        ? CORE_CARRIES
                  : turned != LITERAL_1      ? CORE_CARRIES_OR_BORROWS
                  : subtracting == LITERAL_1 ? CORE_BORROWS
                                             : CORE_NO_CARRIES;
}

Role core_carry_role(const AdderCore *core) {
    assert(core->sense <= CORE_CARRIES_OR_BORROWS);
    static const Role roles[] = {[CORE_CARRIES] = ROLE_CARRY,
                                 [CORE_NO_CARRIES] = ROLE_NO_CARRY,
                                 [CORE_BORROWS] = ROLE_BORROW,
                                 [CORE_CARRIES_OR_BORROWS] = ROLE_CARRY_OR_BORROW};
    return roles[core->sense];
}

/* ---- what becomes of the literals ---------------------------------------------------------- */

static void change_row(Literal *row, size_t count, CoreChange *change, const void *how) {
    for (size_t k = 0; k < count; k++)
        if (row[k] != LITERAL_NONE && !literal_is_constant(row[k]))
            row[k] = change(row[k], how);
}

void core_change(AdderCore *core, CoreChange *change, const void *how) {
    Literal **rows[ROWS];
    rows_of(core, rows);
    for (int k = 0; k < ROWS; k++)
        change_row(*rows[k], core->width + 1, change, how);
    for (uint32_t k = 0; k < core->cell_count; k++) {
        change_row(&core->cell[k].generates, 1, change, how);
        change_row(&core->cell[k].passes, 1, change, how);
    }
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        change_row(&core->flag[flag].plain, 1, change, how);
        change_row(&core->flag[flag].masked, 1, change, how);
    }
    change_row(core->signal, SIGNAL_COUNT, change, how);
    Literal *single[] = {&core->first, &core->turned, &core->leaving, &core->overflow,
                         &core->below_zero};
    for (size_t k = 0; k < sizeof single / sizeof single[0]; k++)
        change_row(single[k], 1, change, how);
}
