/* See landmarks.h. */
#include "gates/landmarks.h"

#include "base/memory.h"

#include <stdlib.h>
#include <string.h>

void landmarks_init(Landmarks *landmarks, unsigned width) {
    *landmarks = (Landmarks){.width = width, .turned = LITERAL_0};
    Literal **rows[] = {&landmarks->x,    &landmarks->y,   &landmarks->plain,
                        &landmarks->half, &landmarks->sum, &landmarks->carry};
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++)
        *rows[k] = memory_zeroed(width + 1, sizeof(Literal));
    landmarks->giver = memory_zeroed(width + 1, sizeof(uint32_t));
    memset(landmarks->giver, 0xff, (width + 1) * sizeof(uint32_t)); /* LANDMARK_NONE */
}

void landmarks_free(Landmarks *landmarks) {
    free(landmarks->cell);
    free(landmarks->group);
    free(landmarks->x);
    free(landmarks->y);
    free(landmarks->plain);
    free(landmarks->half);
    free(landmarks->sum);
    free(landmarks->carry);
    free(landmarks->giver);
    *landmarks = (Landmarks){0};
}

/* The cells that a cell reads without those that are constants, and its level. */
static void settle_inputs(const Landmarks *landmarks, Landmark *cell) {
    int kept = 0;
    for (int k = 0; k < cell->in_count; k++) {
        if (cell->in[k] == LANDMARK_NONE)
            continue;
        unsigned level = landmarks->cell[cell->in[k]].level + 1;
        cell->in[kept++] = cell->in[k];
        cell->level = level > cell->level ? level : cell->level;
    }
    cell->in_count = kept;
}

/* Does the cell give no more than one before it does? */
static bool is_wire(const Landmarks *landmarks, const Landmark *cell) {
    if (cell->kind == LANDMARK_PAIR || cell->in_count == 0)
        return false;
    const Landmark *before = &landmarks->cell[cell->in[0]];
    return before->generates == cell->generates &&
           (cell->passes == LITERAL_NONE || cell->passes == before->passes);
}

uint32_t landmarks_cell(Netlist *netlist, Landmark cell) {
    Landmarks *landmarks = netlist->landmarks;
    if (landmarks == NULL)
        return LANDMARK_NONE;
    settle_inputs(landmarks, &cell);
    if (is_wire(landmarks, &cell))
        return cell.in[0];
    if (landmarks->cell_count == landmarks->cell_room) {
        landmarks->cell_room = landmarks->cell_room == 0 ? 64 : 2 * landmarks->cell_room;
        landmarks->cell =
            memory_resize(landmarks->cell, landmarks->cell_room, sizeof landmarks->cell[0]);
    }
    landmarks->cell[landmarks->cell_count] = cell;
    return landmarks->cell_count++;
}

uint32_t landmarks_cell_of_two(Netlist *netlist, Landmark cell, uint32_t high, uint32_t low) {
    cell.in[0] = high;
    cell.in[1] = low;
    cell.in_count = 2;
    return landmarks_cell(netlist, cell);
}

void landmarks_group(Netlist *netlist, unsigned top, unsigned bottom, unsigned tier) {
    Landmarks *landmarks = netlist->landmarks;
    if (landmarks == NULL)
        return;
    if (landmarks->group_count == landmarks->group_room) {
        landmarks->group_room = landmarks->group_room == 0 ? 16 : 2 * landmarks->group_room;
        landmarks->group =
            memory_resize(landmarks->group, landmarks->group_room, sizeof landmarks->group[0]);
    }
    landmarks->group[landmarks->group_count++] = (LandmarkGroup){top, bottom, tier};
}

static bool is_gone(Literal literal) {
    return literal == LITERAL_NONE || literal_is_constant(literal);
}

bool landmark_is_there(const Landmark *cell) {
    return cell->kind == LANDMARK_COLUMN || !is_gone(cell->generates) || !is_gone(cell->passes);
}

/* ---- what becomes of the literals ---------------------------------------------------------- */

typedef void Change(Literal *literal, const void *how);

static void change_row(Literal *row, size_t count, Change *change, const void *how) {
    for (size_t k = 0; k < count; k++)
        change(&row[k], how);
}

static void change_all(Landmarks *landmarks, Change *change, const void *how) {
    for (uint32_t k = 0; k < landmarks->cell_count; k++) {
        change(&landmarks->cell[k].generates, how);
        change(&landmarks->cell[k].passes, how);
    }
    change_row(landmarks->x, landmarks->width, change, how);
    change_row(landmarks->y, landmarks->width, change, how);
    change_row(landmarks->plain, landmarks->width, change, how);
    change_row(landmarks->half, landmarks->width, change, how);
    change_row(landmarks->sum, landmarks->width, change, how);
    change_row(landmarks->carry, landmarks->width + 1, change, how);
    change(&landmarks->turned, how);
}

static void move(Literal *literal, const void *how) {
    const uint32_t *place = how;
    if (*literal == LITERAL_NONE || literal_is_constant(*literal))
        return;
    uint32_t node = place[literal_node(*literal)];
    *literal = node == 0 ? LITERAL_NONE : node * 2 + (*literal & 1u);
}

static void flip(Literal *literal, const void *how) {
    const bool *flipped = how;
    if (*literal != LITERAL_NONE && flipped[literal_node(*literal)])
        *literal = literal_not(*literal);
}

void landmarks_move(Landmarks *landmarks, const uint32_t *place) {
    change_all(landmarks, move, place);
}

void landmarks_flip(Landmarks *landmarks, const bool *flipped) {
    change_all(landmarks, flip, flipped);
}
