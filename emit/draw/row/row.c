/* The row picture: the steps, band by band. See row.h. */
#include "draw/row/row.h"

#include "base/memory.h"

#include <stdlib.h>

static void draw_band(Row *row) {
    RowPlaces rows = {.selects = row_varies(row_signal(row, SIGNAL_USE_B)),
                      .inverts =
                          !row->borrow_form && (row_signal(row, SIGNAL_INVERT_A) != LITERAL_0 ||
                                                (row_signal(row, SIGNAL_INVERT_B) != LITERAL_0 &&
                                                 row_signal(row, SIGNAL_USE_B) != LITERAL_0))};
    row_draw_pins(row, &rows);
    row_place(row, &rows);
    for (unsigned i = row->low; i < row->top; i++) {
        row_draw_column(row, &rows, i);
        row_draw_carry(row, i);
    }
    row_draw_carry(row, row->top);
    row_draw_lines(row);
    if (row->low == 0)
        row_draw_sources(row);
    row->y = rows.adder + ROW_BOX_HEIGHT;
    row_draw_result(row);
    if (row->top == row->unit->width)
        row_draw_flags(row);
}

/* As many columns as each band has: all alike, in fours, the highest with what is left. */
static unsigned band_of(unsigned width) {
    if (width > DRAW_COLUMNS_MAX || width <= ROW_BAND)
        return ROW_BAND;
    return ((width + 1) / 2 + 3) / 4 * 4;
}

static void draw_bands(Row *row) {
    unsigned width = row->unit->width, band = band_of(width);
    for (row->low = 0; row->low < width; row->low = row->top) {
        row->top = width - row->low > band ? row->low + band : width;
        draw_band(row);
        row->y += 16;
        if (width > DRAW_COLUMNS_MAX && row->low == 0) {
            scene_text(row->scene, row_left(row) + 4, row->y, ANCHOR_START, TEXT_BOLD,
                       "... %u columns like these, %u to %u, are left out ...", width - 2 * band,
                       band, width - band - 1);
            row->top = width - band;
            row->y += 32;
        }
    }
}

/* ---- the whole ------------------------------------------------------------------------------- */

static void find_pins(Row *row) {
    const Netlist *netlist = &row->build.netlist;
    row->pin_b = memory_zeroed(row->unit->width, sizeof row->pin_b[0]);
    for (uint32_t k = 1; k < netlist->node_count; k++)
        if (netlist->nodes[k].kind == NODE_INPUT && netlist->nodes[k].pin == PIN_B)
            row->pin_b[netlist->nodes[k].bit] = k * 2;
}

char *row_draw(const Unit *unit, const Working *example, Scene *scene) {
    Row row = {.unit = unit, .scene = scene};
    build_open(unit, &row.build);
    row.values = values_of(&row.build.netlist, example);
    row.borrow_form = row.build.adder.turned != LITERAL_0;
    find_pins(&row);
    row_choose_lines(&row);
    draw_bands(&row);
    row_draw_notes(&row);
    char *words = row_describe(&row);
    free(row.values);
    free(row.pin_b);
    build_close(&row.build);
    return words;
}
