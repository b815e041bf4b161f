/* The flags of the row picture: a box a flag on the left of the sign column, from the carry's
 * level down. The two last carries come as wires, the rest by name. */
#include "draw/row/row.h"

#include "base/memory.h"
#include "draw/notes.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    CHANNEL = 150, /* between the sign column and the boxes */
    BOX = 160,
    HEIGHT = 36,
    GAP = 12,
    STUB = 24,
    REGISTER = 30,
    INPUTS = 2,
};

/* Where a box's input comes from. */
typedef enum {
    FROM_NONE,
    FROM_LAST,
    FROM_SIGN,
    FROM_OVERFLOW,
    FROM_LITERAL,
    FROM_BIT,
    FROM_RESULT
} From;

typedef struct {
    From from;
    Literal literal;
} Input;

/* A flag's box: what it says, and its inputs. */
typedef struct {
    char label[48];
    Input input[INPUTS];
} FlagBox;

static Literal last_carry(const Row *row) {
    const Adder *adder = &row->build.adder;
    return adder->leaving != LITERAL_NONE ? adder->leaving : adder->carry[adder->width];
}

static Literal flag_literal(const Row *row, Flag flag) {
    const Netlist *netlist = &row->build.netlist;
    for (uint32_t k = 0; k < netlist->output_count; k++)
        if (netlist->outputs[k].pin == (Pin)(PIN_FLAG + (int)flag))
            return netlist->outputs[k].literal;
    return LITERAL_0;
}

/* The pin shows the chain as it is, unless it shows the other sense in a subtraction: that of
 * carries where the chain is of borrows, or the reverse. */
static bool chain_is_turned(const Row *row) {
    bool subtracts = row_signal(row, SIGNAL_SUBTRACTING) != LITERAL_0;
    bool borrow = row->unit->sense == SENSE_BORROW;
    return subtracts && (row->borrow_form ? !borrow : borrow);
}

/* The same of the carry out of the last column, which may be there beside the chain, and then is as
 * the pin shows it. */
static bool carry_is_turned(const Row *row) {
    return row->build.adder.leaving == LITERAL_NONE && chain_is_turned(row);
}

static const char *carry_label(const Row *row) {
    bool always = row_signal(row, SIGNAL_SUBTRACTING) == LITERAL_1;
    bool chain = row->borrow_form && row->build.adder.leaving == LITERAL_NONE;
    if (carry_is_turned(row))
        return always ? "last carry\nturned over" : "last carry, turned\nover if subtracting";
    return !chain ? "carry out" : always ? "borrow out" : "carry or borrow out";
}

/* ---- what each flag is made of, from its definition ---------------------------------------------
 */

static void say(FlagBox *box, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void say(FlagBox *box, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(box->label, sizeof box->label, format, arguments);
    va_end(arguments);
}

/* Whether there is a subtraction, where that is no constant. */
static Input turning(const Row *row) {
    Literal subtracting = row_signal(row, SIGNAL_SUBTRACTING);
    return (Input){row_varies(subtracting) ? FROM_LITERAL : FROM_NONE, subtracting};
}

static void fill_carry(const Row *row, FlagBox *box) {
    box->input[0] = (Input){FROM_LAST, last_carry(row)};
    if (carry_is_turned(row))
        box->input[1] = turning(row);
    say(box, "%s", carry_label(row));
}

static void fill_overflow(const Row *row, FlagBox *box) {
    const Adder *adder = &row->build.adder;
    unsigned width = row->unit->width;
    say(box, "c%u and c%u\ndiffer", width, width - 1);
    if (adder->overflow != LITERAL_NONE) {
        box->input[0] = (Input){FROM_OVERFLOW, adder->overflow};
        return;
    }
    box->input[0] = (Input){FROM_LAST, last_carry(row)};
    box->input[1] = (Input){FROM_SIGN, adder->carry[width - 1]};
}

static void fill_zero(const Row *row, FlagBox *box) {
    (void)row;
    box->input[0] = (Input){FROM_RESULT, LITERAL_NONE};
    say(box, "no bit is 1");
}

static void fill_negative(const Row *row, FlagBox *box) {
    box->input[0] = (Input){FROM_BIT, flag_literal(row, FLAG_NEGATIVE)};
    say(box, "bit %u", row->unit->width - 1);
}

static void fill_less_signed(const Row *row, FlagBox *box) {
    unsigned sign = row->unit->width - 1;
    Literal overflow = row_named(row, ROLE_OVERFLOWS);
    box->input[0] = (Input){FROM_LITERAL, row->build.adder.sum[sign]};
    if (overflow != LITERAL_NONE)
        box->input[1] = (Input){FROM_LITERAL, overflow};
    say(box, "sum%u differs\nfrom overflow", sign);
}

static void fill_less_unsigned(const Row *row, FlagBox *box) {
    box->input[0] = turning(row);
    box->input[1] = (Input){FROM_LITERAL, last_carry(row)};
    say(box, "a borrow out, if\nsubtracting");
}

static void fill_parity(const Row *row, FlagBox *box) {
    (void)row;
    box->input[0] = (Input){FROM_RESULT, LITERAL_NONE};
    say(box, "an odd number\nof bits is 1");
}

static void fill_half_carry(const Row *row, FlagBox *box) {
    box->input[0] = (Input){FROM_LITERAL, row->build.adder.carry[4]};
    if (chain_is_turned(row))
        box->input[1] = turning(row);
    say(box, "%s", chain_is_turned(row) ? "c4, turned over\nif subtracting" : "c4");
}

static void (*const fills[FLAG_COUNT])(const Row *row, FlagBox *box) = {
    [FLAG_CARRY] = fill_carry,
    [FLAG_OVERFLOW] = fill_overflow,
    [FLAG_ZERO] = fill_zero,
    [FLAG_NEGATIVE] = fill_negative,
    [FLAG_LESS_SIGNED] = fill_less_signed,
    [FLAG_LESS_UNSIGNED] = fill_less_unsigned,
    [FLAG_PARITY] = fill_parity,
    [FLAG_HALF_CARRY] = fill_half_carry,
};

static FlagBox box_of(const Row *row, Flag flag) {
    FlagBox box = {"", {{FROM_NONE, LITERAL_NONE}, {FROM_NONE, LITERAL_NONE}}};
    fills[flag](row, &box);
    return box;
}

/* ---- the boxes and their inputs
 * ------------------------------------------------------------------ */

/* An input by its name, at the right edge of a box. */
static void draw_named(Row *row, const Input *input, double edge, double y) {
    Net net = input->from == FROM_RESULT ? net_of_pin(PIN_RESULT) : input->literal;
    scene_wire(row->scene, net, WIRE_PLAIN, edge + STUB, y);
    scene_to(row->scene, edge, y);
    if (input->from == FROM_RESULT) {
        scene_name(row->scene, edge + STUB + 4, y + 4, ANCHOR_START, net, "%s",
                   notes_short(row->unit->pin[PIN_RESULT], 12).text);
        return;
    }
    char *name = input->from == FROM_BIT
                     ? memory_text("%s[%u]", notes_short(row->unit->pin[PIN_RESULT], 12).text,
                                   row->unit->width - 1)
                     : row_name(row, input->literal);
    scene_name(row->scene, edge + STUB + 4, y + 4, ANCHOR_START, net, "%s", name);
    row_level_above(row, input->literal, edge + 8, y);
    free(name);
}

/* The last carry, on to the boxes that read it: straight to the first, down beside the sign column
 * to others. */
static void draw_last(Row *row, Literal carry, double edge, double y) {
    double corner = row_left(row) - 28, from = row_left(row) - 16;
    if (row_pitch(row) > ROW_PITCH)
        from = row_left(row) - (row_pitch(row) - ROW_BOX) / 2;
    scene_wire(row->scene, carry, WIRE_PLAIN, from, row->adders);
    scene_to(row->scene, corner, row->adders);
    scene_to(row->scene, corner, y);
    scene_to(row->scene, edge, y);
    if (y > row->adders && row->unit->flag[FLAG_CARRY]) /* goes straight on, too */
        scene_dot(row->scene, carry, corner, row->adders);
}

/* The carry into the sign column, from between the columns below the boxes. */
static void draw_sign(Row *row, Literal carry, double edge, double y) {
    unsigned sign = row->unit->width - 1;
    double x = row_middle(row, sign) + ROW_BOX / 2.0 + 2;
    double track = row->adders + ROW_BOX_HEIGHT / 2.0 + ROW_TRACK;
    double corner = row_left(row) - 44;
    scene_dot(row->scene, carry, x, row->adders);
    scene_wire(row->scene, carry, WIRE_PLAIN, x, row->adders);
    scene_to(row->scene, x, track);
    scene_to(row->scene, corner, track);
    scene_to(row->scene, corner, y);
    scene_to(row->scene, edge, y);
}

/* A last column that tells by itself that the carries differ. */
static void draw_overflow(Row *row, Literal overflow, double edge, double y) {
    double from = row_middle(row, row->unit->width - 1) - ROW_BOX / 2.0;
    double corner = row_left(row) - 28;
    scene_wire(row->scene, overflow, WIRE_PLAIN, from, row->adders + 18);
    scene_to(row->scene, corner, row->adders + 18);
    scene_to(row->scene, corner, y);
    scene_to(row->scene, edge, y);
}

static void draw_input(Row *row, const Input *input, double edge, double y) {
    switch (input->from) {
    case FROM_NONE:
        break;
    case FROM_LAST:
        draw_last(row, input->literal, edge, y);
        break;
    case FROM_SIGN:
        draw_sign(row, input->literal, edge, y);
        break;
    case FROM_OVERFLOW:
        draw_overflow(row, input->literal, edge, y);
        break;
    default:
        draw_named(row, input, edge, y);
    }
}

static void draw_flag(Row *row, Flag flag, double y) {
    FlagBox flag_box = box_of(row, flag);
    double edge = row_left(row) - CHANNEL, left = edge - BOX;
    Literal literal = flag_literal(row, flag);
    scene_box(row->scene,
              (Box){.symbol = SYMBOL_FRAME,
                    .x = left,
                    .y = y - HEIGHT / 2.0,
                    .width = BOX,
                    .height = HEIGHT},
              flag_box.label);
    bool both = flag_box.input[1].from != FROM_NONE;
    draw_input(row, &flag_box.input[0], edge, both ? y - 9 : y);
    draw_input(row, &flag_box.input[1], edge, y + 9);
    /* Several flags may be one literal: each pin is a net of its own. */
    Net net = net_of_pin((Pin)(PIN_FLAG + (int)flag));
    bool registered = row->unit->registers != REGISTERS_NONE;
    scene_wire(row->scene, net, WIRE_PLAIN, left, y);
    scene_to(row->scene, left - STUB, y);
    double end = left - STUB;
    if (registered) {
        scene_wire(row->scene, net, WIRE_PLAIN, end - REGISTER, y);
        end -= REGISTER + STUB;
        scene_to(row->scene, end, y);
    }
    scene_name(row->scene, end - 4, y + 4, ANCHOR_END, net, "%s",
               notes_short(row->unit->pin[PIN_FLAG + (int)flag], 24).text);
    if (row->values != NULL)
        scene_value(row->scene, left - 16, y - 4, ANCHOR_START, literal, row_level(row, literal));
}

/* The register that all flags pass, with room for its clock at the lower end. */
static void draw_register(Row *row, double top, double bottom) {
    double left = row_left(row) - CHANNEL - BOX - STUB - REGISTER, clock = bottom - 9;
    Box box = {
        .symbol = SYMBOL_REGISTER, .x = left, .y = top, .width = REGISTER, .height = bottom - top};
    scene_box(row->scene, box, "");
    scene_wire(row->scene, net_of_pin(PIN_CLK), WIRE_PLAIN, left - STUB, clock);
    scene_to(row->scene, left, clock);
    scene_name(row->scene, left - STUB - 4, clock + 4, ANCHOR_END, net_of_pin(PIN_CLK), "%s",
               notes_short(row->unit->pin[PIN_CLK], 24).text);
}

void row_draw_flags(Row *row) {
    /* The first box's wire is straight: the carry's. */
    double y = row->adders, first = 0;
    bool any = false;
    if (row->unit->flag[FLAG_CARRY]) {
        FlagBox box = box_of(row, FLAG_CARRY);
        y += box.input[1].from != FROM_NONE ? 9 : 0;
    } else {
        y += HEIGHT + GAP;
    }
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!row->unit->flag[flag])
            continue;
        first = any ? first : y;
        any = true;
        draw_flag(row, (Flag)flag, y);
        y += HEIGHT + GAP;
    }
    if (any && row->unit->registers != REGISTERS_NONE)
        draw_register(row, first - HEIGHT / 2.0, y - HEIGHT / 2.0 + 10);
}
