/* The flags of a picture of columns: a box a flag on the left of the sign column, from where the
 * last carry comes down. Each says what its flag is made of, in the wires that the picture shows;
 * the two last carries come as wires, the rest by name. A flag is a function below, called from its
 * row in unit/flags.h. See frame.h. */
#include "draw/frame/frame.h"

#include "base/memory.h"
#include "draw/notes.h"

#include <stdarg.h>
#include <stdio.h>

enum {
    BOX = 160,
    HEIGHT = 36,
    GAP = 12,
    APART = 9, /* an input of two, from the middle of its box */
    STUB = 24,
    REGISTER = 30,
    NAME = 11, /* characters of an input's name */
    INPUTS = 2,
};

/* Where a box's input comes from. */
typedef enum { FROM_NONE, FROM_LAST, FROM_SIGN, FROM_NAMED, FROM_SIGN_BIT, FROM_RESULT } From;

typedef struct {
    From from;
    Literal literal; /* FROM_NAMED */
} Input;

/* A flag's box: what it says, and its inputs. */
typedef struct {
    char label[64];
    Input input[INPUTS];
    int input_count;
} FlagBox;

static void say(FlagBox *box, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void say(FlagBox *box, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(box->label, sizeof box->label, format, arguments);
    va_end(arguments);
}

static void add_input(FlagBox *box, From from, Literal literal) {
    if (from != FROM_NAMED || frame_varies(literal))
        box->input[box->input_count++] = (Input){from, literal};
}

/* ---- what each flag is made of ----------------------------------------------------------------- */

/* Where the pin shows a carry turned over, as a literal: turned XOR subtracting where the sense is
 * borrow, of which at most one is taken; LITERAL_NONE where both vary. */
static Literal turning(const Frame *frame, unsigned column) {
    const AdderCore *core = frame->core;
    bool chained = core->carry[column] != LITERAL_NONE;
    Literal turned = chained ? core->turned : LITERAL_0;
    Literal shown =
        frame->unit->sense == SENSE_BORROW ? core->signal[SIGNAL_SUBTRACTING] : LITERAL_0;
    if (literal_is_constant(turned))
        return shown ^ turned;
    if (literal_is_constant(shown) || literal_node(shown) == literal_node(turned))
        return literal_is_constant(shown) ? turned ^ shown : (shown ^ turned) & 1u;
    return LITERAL_NONE;
}

/* The carry into a column as its pin shows it. */
static void fill_with_carry(const Frame *frame, FlagBox *box, unsigned column) {
    Literal carry = frame_carry(frame, column), turn = turning(frame, column);
    char *name = literal_is_constant(carry) ? memory_text("%d", carry == LITERAL_1)
                                            : memory_text("c%u", column);
    if (frame_varies(carry))
        add_input(box, column == frame->core->width ? FROM_LAST : FROM_NAMED, carry);
    if (turn == LITERAL_NONE) {
        add_input(box, FROM_NAMED, frame->core->signal[SIGNAL_SUBTRACTING]);
        say(box, "%s, a borrow if\nsubtracting", name);
    } else if (frame_varies(turn)) {
        char *by = frame_name(frame, turn);
        add_input(box, FROM_NAMED, turn);
        say(box, "%s, turned over if\n%s", name, notes_short(by, 21).text);
        memory_free(by);
    } else {
        say(box, "%s%s", turn == LITERAL_1 ? "not " : "", name);
    }
    memory_free(name);
}

static void fill_carry(const Frame *frame, FlagBox *box) {
    fill_with_carry(frame, box, frame->core->width);
}

static void fill_half_carry(const Frame *frame, FlagBox *box) {
    fill_with_carry(frame, box, 4);
}

/* Where both last carries are of the chain they can be compared; else the last column tells. */
static void fill_overflow(const Frame *frame, FlagBox *box) {
    unsigned width = frame->core->width;
    if (!frame_compares(frame)) {
        add_input(box, FROM_NAMED, frame->core->overflow);
        say(box, "sign column: carry in\nand carry out differ");
        return;
    }
    if (frame_varies(frame->core->carry[width]))
        add_input(box, FROM_LAST, LITERAL_NONE);
    if (frame_varies(frame->core->carry[width - 1]))
        add_input(box, FROM_SIGN, LITERAL_NONE);
    say(box, "c%u and c%u\ndiffer", width, width - 1);
}

static void fill_zero(const Frame *frame, FlagBox *box) {
    (void)frame;
    add_input(box, FROM_RESULT, LITERAL_NONE);
    say(box, "no bit is 1");
}

static void fill_negative(const Frame *frame, FlagBox *box) {
    add_input(box, FROM_SIGN_BIT, LITERAL_NONE);
    say(box, "bit %u", frame->core->width - 1);
}

/* The sum in the sign column may be left out: it and overflow differ where its half sum and the
 * last carry do. */
static void fill_less_signed(const Frame *frame, FlagBox *box) {
    const AdderCore *core = frame->core;
    unsigned sign = core->width - 1;
    if (core->sum[sign] != LITERAL_NONE && core->overflow != LITERAL_NONE) {
        add_input(box, FROM_NAMED, core->sum[sign]);
        add_input(box, FROM_NAMED, core->overflow);
        say(box, "sum%u differs\nfrom overflow", sign);
        return;
    }
    add_input(box, FROM_NAMED, core->half[sign]);
    add_input(box, FROM_NAMED, frame_carry(frame, core->width));
    say(box, "half sum %u differs\nfrom c%u", sign, core->width);
}

static void fill_less_unsigned(const Frame *frame, FlagBox *box) {
    Literal subtracting = frame->core->signal[SIGNAL_SUBTRACTING];
    add_input(box, FROM_NAMED, subtracting);
    if (subtracting != LITERAL_0)
        add_input(box, FROM_NAMED, frame_carry(frame, frame->core->width));
    say(box, subtracting == LITERAL_0   ? "0: no operation\nsubtracts"
             : subtracting == LITERAL_1 ? "a borrow out"
                                        : "a borrow out, if\nsubtracting");
}

static void fill_parity(const Frame *frame, FlagBox *box) {
    (void)frame;
    add_input(box, FROM_RESULT, LITERAL_NONE);
    say(box, "an odd number\nof bits is 1");
}

#define FILL_ROW(ID, id, ...) [FLAG_##ID] = fill_##id,
static void (*const fills[FLAG_COUNT])(const Frame *frame, FlagBox *box) = {FLAGS(FILL_ROW)};
#undef FILL_ROW

/* ---- the boxes and their inputs ---------------------------------------------------------------- */

/* A carry, from where it has come to, on to a box, by a way downward of its own. */
static void draw_carry(Frame *frame, unsigned column, Point from, double corner, double edge,
                       double y) {
    scene_wire(frame->scene, frame_carry(frame, column),
               frame_carry_is_1(frame, column) ? WIRE_HEAVY : WIRE_PLAIN, from.x, from.y);
    scene_to(frame->scene, corner, from.y);
    scene_to(frame->scene, corner, y);
    scene_to(frame->scene, edge, y);
}

static void draw_named(Frame *frame, Literal literal, double edge, double y) {
    char *name = frame_name(frame, literal);
    frame_stub(frame, literal, notes_short(name, NAME).text, edge, edge + STUB, y);
    frame_above(frame, literal, edge + 8, y);
    memory_free(name);
}

static void draw_input(Frame *frame, const Input *input, double edge, double y, Point last,
                       Point sign) {
    double left = frame_left(frame);
    unsigned width = frame->core->width;
    const char *result = frame->unit->pin[PIN_RESULT];
    switch (input->from) {
    case FROM_NONE:
        break;
    case FROM_LAST:
        draw_carry(frame, width, last, left - 32, edge, y);
        if (y > last.y && frame->unit->flag[FLAG_CARRY]) /* goes straight on, too */
            scene_dot(frame->scene, frame_carry(frame, width), left - 32, last.y);
        break;
    case FROM_SIGN:
        draw_carry(frame, width - 1, sign, left - 48, edge, y);
        break;
    case FROM_NAMED:
        draw_named(frame, input->literal, edge, y);
        break;
    case FROM_SIGN_BIT: {
        char *bit = memory_text("%s[%u]", notes_short(result, NAME - 3).text, width - 1);
        frame_stub(frame, frame->core->result[width - 1], bit, edge, edge + STUB, y);
        frame_above(frame, frame->core->result[width - 1], edge + 8, y);
        memory_free(bit);
        break;
    }
    case FROM_RESULT:
        frame_stub(frame, net_of_pin(PIN_RESULT), notes_short(result, NAME).text, edge, edge + STUB,
                   y);
        break;
    }
}

static FlagBox box_of(const Frame *frame, Flag flag) {
    FlagBox box = {.input_count = 0};
    fills[flag](frame, &box);
    return box;
}

/* From the box to the flag's pin. Several flags may be one literal: each pin is a net of its own. */
static void draw_pin(Frame *frame, Flag flag, double left, double y) {
    Pin pin = (Pin)(PIN_FLAG + (int)flag);
    Net net = net_of_pin(pin);
    double end = left - STUB;
    if (frame->unit->registers != REGISTERS_NONE) {
        scene_wire(frame->scene, net, WIRE_PLAIN, left, y);
        scene_to(frame->scene, end, y);
        left = end - REGISTER;
        end = left - STUB;
    }
    frame_stub(frame, net, frame->unit->pin[pin], left, end, y);
}

static void draw_flag(Frame *frame, Flag flag, double y, Point last, Point sign) {
    FlagBox box = box_of(frame, flag);
    double edge = frame_left(frame) - FRAME_CHANNEL, left = edge - BOX;
    scene_box(frame->scene,
              (Box){.symbol = SYMBOL_FRAME,
                    .x = left,
                    .y = y - HEIGHT / 2.0,
                    .width = BOX,
                    .height = HEIGHT},
              box.label);
    for (int k = 0; k < box.input_count; k++)
        draw_input(frame, &box.input[k], edge,
                   box.input_count == 1 ? y
                   : k == 0             ? y - APART
                                        : y + APART,
                   last, sign);
    draw_pin(frame, flag, left, y);
    frame_above(frame, frame->core->flag[flag].masked, left - 16, y);
}

/* The register that all flags pass, with room for its clock at the lower end. */
static void draw_register(Frame *frame, double top, double bottom) {
    double left = frame_left(frame) - FRAME_CHANNEL - BOX - STUB - REGISTER;
    scene_box(frame->scene,
              (Box){.symbol = SYMBOL_REGISTER,
                    .x = left,
                    .y = top,
                    .width = REGISTER,
                    .height = bottom - top},
              "");
    frame_stub(frame, net_of_pin(PIN_CLK), frame->unit->pin[PIN_CLK], left, left - STUB,
               bottom - 9);
}

void frame_draw_flags(Frame *frame, Point last, Point sign) {
    /* The first box's wire is straight: the carry's. */
    double y = last.y, first = 0;
    bool any = false;
    if (frame->unit->flag[FLAG_CARRY])
        y += box_of(frame, FLAG_CARRY).input_count == INPUTS ? APART : 0;
    else
        y += HEIGHT + GAP;
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!frame->unit->flag[flag])
            continue;
        first = any ? first : y;
        any = true;
        draw_flag(frame, (Flag)flag, y, last, sign);
        y += HEIGHT + GAP;
    }
    if (any && frame->unit->registers != REGISTERS_NONE)
        draw_register(frame, first - HEIGHT / 2.0, y - HEIGHT / 2.0 + 10);
}
