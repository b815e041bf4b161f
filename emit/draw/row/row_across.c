/* What lies across the columns of the row picture: registers, saturation, the result. See row.h. */
#include "draw/row/row.h"

#include "draw/notes.h"

#include <stdlib.h>
#include <string.h>

/* A box as wide as the band; a register has its clock at the left edge, or if it faces left at the
 * right one. */
void row_draw_across(Row *row, Symbol symbol, Facing facing, double height, const char *label) {
    bool at_right = facing == FACING_LEFT;
    Box box = {.symbol = symbol,
               .x = row_left(row) + 4,
               .y = row->y,
               .width = -row_left(row) - 8,
               .height = height,
               .facing = facing};
    scene_box(row->scene, box, label);
    if (symbol == SYMBOL_REGISTER) {
        double clock = row->y + height - 9;
        double edge = at_right ? box.x + box.width : box.x, end = at_right ? edge + 16 : edge - 16;
        scene_wire(row->scene, net_of_pin(PIN_CLK), WIRE_PLAIN, edge, clock);
        scene_to(row->scene, end, clock);
        scene_name(row->scene, at_right ? end + 4 : end - 4, clock + 4,
                   at_right ? ANCHOR_START : ANCHOR_END, net_of_pin(PIN_CLK), "%s",
                   notes_short(row->unit->pin[PIN_CLK], 24).text);
    }
    row->y += height;
}

/* What a box across is told, by name at its right edge: the level of a gate named so. */
static void draw_told(Row *row, Literal literal, double y) {
    char *name = row_name(row, literal);
    scene_wire(row->scene, literal, WIRE_PLAIN, 20, y);
    scene_to(row->scene, -4, y);
    scene_name(row->scene, 24, y + 4, ANCHOR_START, literal, "%s", name);
    row_level_above(row, literal, 6, y);
    free(name);
}

Literal row_named(const Row *row, Role role) {
    const Netlist *netlist = &row->build.netlist;
    for (uint32_t k = netlist->node_count; k-- > 1;)
        if (netlist->nodes[k].role == role)
            return k * 2;
    return LITERAL_NONE;
}

/* Saturation is told that the result is too high, or too low; or below zero, which then is all it
 * needs to know. */
static void draw_saturation(Row *row, double top) {
    Literal high = row_named(row, ROLE_TOO_HIGH), low = row_named(row, ROLE_TOO_LOW);
    if (low == LITERAL_NONE)
        low = row_named(row, row->unit->overflow == OVERFLOW_SATURATE_SIGNED ? ROLE_BELOW_ZERO
                                                                             : ROLE_BORROWS);
    if (high != LITERAL_NONE)
        draw_told(row, high, top + 8);
    if (low != LITERAL_NONE)
        draw_told(row, low, top + 26);
}

static Literal output_literal(const Row *row, Pin pin, unsigned bit) {
    const Netlist *netlist = &row->build.netlist;
    for (uint32_t k = 0; k < netlist->output_count; k++)
        if (netlist->outputs[k].pin == pin && netlist->outputs[k].bit == bit)
            return netlist->outputs[k].literal;
    return LITERAL_0;
}

/* The result as a bar where all its bits end, from y on. */
static void draw_bar(Row *row, double from) {
    const Unit *unit = row->unit;
    for (unsigned i = row->low; i < row->top; i++) {
        Literal literal = output_literal(row, PIN_RESULT, i);
        row_lead(row, literal, row_middle(row, i), from, row->y);
        scene_name(row->scene, row_middle(row, i) - 4, row->y - 4, ANCHOR_END, literal, "%u", i);
    }
    scene_box(row->scene,
              (Box){.symbol = SYMBOL_FRAME,
                    .x = row_left(row) + 4,
                    .y = row->y,
                    .width = -row_left(row) - 8,
                    .height = 4,
                    .shade = SHADE_BLACK},
              "");
    if (row->top - row->low > 1)
        scene_name(row->scene, 8, row->y + 6, ANCHOR_START, net_of_pin(PIN_RESULT), "%s[%u:%u]",
                   notes_short(unit->pin[PIN_RESULT], 24).text, row->top - 1, row->low);
    else
        scene_name(row->scene, 8, row->y + 6, ANCHOR_START, net_of_pin(PIN_RESULT), "%s[%u]",
                   notes_short(unit->pin[PIN_RESULT], 24).text, row->low);
    row->y += 24;
}

/* Sums, what is done to them, and the result as a bar. */
void row_draw_result(Row *row) {
    const Unit *unit = row->unit;
    Literal active = row_signal(row, SIGNAL_ACTIVE);
    const struct {
        bool there;
        Symbol symbol;
        double height;
        const char *label;
    } across[] = {{unit->overflow != OVERFLOW_WRAP, SYMBOL_FRAME, 34, "saturate"},
                  {row_varies(active), SYMBOL_FRAME, 28, "if active"},
                  {unit->registers != REGISTERS_NONE, SYMBOL_REGISTER, 28, "registers"}};
    double from = row->y;
    bool changed = false;
    row->y += 54;
    for (size_t k = 0; k < sizeof across / sizeof across[0]; k++) {
        if (!across[k].there)
            continue;
        for (unsigned i = row->low; i < row->top; i++)
            row_lead(row, changed ? output_literal(row, PIN_RESULT, i) : row->build.adder.sum[i],
                     row_middle(row, i), from, row->y);
        if (k == 0)
            draw_saturation(row, row->y);
        if (k == 1)
            draw_told(row, active, row->y + 14);
        row_draw_across(row, across[k].symbol, FACING_LEFT, across[k].height, across[k].label);
        changed = changed || across[k].symbol != SYMBOL_REGISTER;
        from = row->y;
        row->y += 26;
    }
    draw_bar(row, from);
}
