/* The flags of a picture of columns: a box a flag on the left of the sign column, from where the
 * last carry comes down. Each says what its flag is made of, in the wires that the picture shows;
 * the two last carries come as wires, the rest by name. A flag is a function below, called from its
 * row in unit/flags.h. See frame.h. */
#include "draw/frame/frame.h"

#include "base/memory.h"
#include "draw/notes.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum {
    BOX = 160,
    HEIGHT = 36,
    GAP = 12,
    APART = 9, /* an input of two, from the middle of its box */
    STUB = 24,
    REGISTER = 30,
    NAME = 14, /* characters of an input's name */
    INPUTS = 2,
};

/* Where a box's input comes from: along a wire of the last two carries, or by name. */
typedef enum { FROM_LAST, FROM_SIGN, FROM_NAMED } From;

typedef struct {
    From from;
    Net net;
    Literal level; /* LITERAL_NONE: shows none */
    ShortName name;
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

static void add_input(FlagBox *box, From from, Net net, Literal level, const char *name) {
    Input *input = &box->input[box->input_count++];
    *input = (Input){from, net, level, notes_short(name, NAME)};
}

/* A constant is no input. */
static void add_named(const Frame *frame, FlagBox *box, Literal literal) {
    if (!frame_varies(literal))
        return;
    char *name = frame_name(frame, literal);
    add_input(box, FROM_NAMED, literal, literal, name);
    memory_free(name);
}

/* One of the two last carries. */
static void add_carry(const Frame *frame, FlagBox *box, From from) {
    Literal carry = frame_carry(frame, frame->core->width - (from == FROM_SIGN));
    if (frame_varies(carry))
        add_input(box, from, carry, LITERAL_NONE, "");
}

static void add_result(const Frame *frame, FlagBox *box) {
    add_input(box, FROM_NAMED, net_of_pin(PIN_RESULT), LITERAL_NONE, frame->unit->pin[PIN_RESULT]);
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
    if (column == frame->core->width)
        add_carry(frame, box, FROM_LAST);
    else
        add_named(frame, box, carry);
    if (turn == LITERAL_NONE) {
        add_named(frame, box, frame->core->signal[SIGNAL_SUBTRACTING]);
        say(box, "%s, a borrow if\nsubtracting", name);
    } else if (frame_varies(turn)) {
        char *by = frame_name(frame, turn);
        add_named(frame, box, turn);
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
        add_named(frame, box, frame->core->overflow);
        say(box, "sign column: carry in\nand carry out differ");
        return;
    }
    add_carry(frame, box, FROM_LAST);
    add_carry(frame, box, FROM_SIGN);
    if (literal_is_constant(frame->core->carry[width - 1]))
        say(box, "c%u differs\nfrom %d", width, frame->core->carry[width - 1] == LITERAL_1);
    else
        say(box, "c%u and c%u\ndiffer", width, width - 1);
}

static void fill_zero(const Frame *frame, FlagBox *box) {
    add_result(frame, box);
    say(box, "no bit is 1");
}

static void fill_negative(const Frame *frame, FlagBox *box) {
    unsigned sign = frame->core->width - 1;
    char *bit = memory_text("[%u]", sign);
    ShortName pin = notes_short(frame->unit->pin[PIN_RESULT], NAME - strlen(bit));
    char *name = memory_text("%s%s", pin.text, bit);
    add_input(box, FROM_NAMED, frame->core->result[sign], frame->core->result[sign], name);
    say(box, "bit %u", sign);
    memory_free(bit);
    memory_free(name);
}

/* The sum in the sign column may be left out: it and overflow differ where its half sum and the
 * last carry do. */
static void fill_less_signed(const Frame *frame, FlagBox *box) {
    const AdderCore *core = frame->core;
    unsigned sign = core->width - 1;
    if (core->sum[sign] != LITERAL_NONE && core->overflow != LITERAL_NONE) {
        add_named(frame, box, core->sum[sign]);
        add_named(frame, box, core->overflow);
        say(box, "sum%u differs\nfrom overflow", sign);
        return;
    }
    add_named(frame, box, core->half[sign]);
    add_named(frame, box, frame_carry(frame, core->width));
    say(box, "half sum %u differs\nfrom c%u", sign, core->width);
}

static void fill_less_unsigned(const Frame *frame, FlagBox *box) {
    Literal subtracting = frame->core->signal[SIGNAL_SUBTRACTING];
    add_named(frame, box, subtracting);
    if (subtracting != LITERAL_0)
        add_named(frame, box, frame_carry(frame, frame->core->width));
    say(box, subtracting == LITERAL_0   ? "0: no operation\nsubtracts"
             : subtracting == LITERAL_1 ? "a borrow out"
                                        : "a borrow out, if\nsubtracting");
}

static void fill_parity(const Frame *frame, FlagBox *box) {
    add_result(frame, box);
    say(box, "an odd number\nof bits is 1");
}

#define FILL_ROW(ID, id, ...) [FLAG_##ID] = fill_##id,
static void (*const fills[FLAG_COUNT])(const Frame *frame, FlagBox *box) = {FLAGS(FILL_ROW)};
#undef FILL_ROW

/* ---- the boxes and their inputs ---------------------------------------------------------------- */

/* A carry goes on from where it has come to by a way downward of its own. */
static void draw_input(Frame *frame, const Input *input, double edge, double y, const Point *ends) {
    if (input->from == FROM_NAMED) {
        frame_stub(frame, input->net, input->name.text, edge, edge + STUB, y);
        if (input->level != LITERAL_NONE)
            frame_above(frame, input->level, edge + 8, y);
        return;
    }
    bool sign = input->from == FROM_SIGN;
    double corner = frame_left(frame) - (sign ? 48 : 32);
    bool heavy = frame_carry_is_1(frame, frame->core->width - sign);
    scene_wire(frame->scene, input->net, heavy ? WIRE_HEAVY : WIRE_PLAIN, ends[sign].x,
               ends[sign].y);
    scene_to(frame->scene, corner, ends[sign].y);
    scene_to(frame->scene, corner, y);
    scene_to(frame->scene, edge, y);
}

static FlagBox box_of(const Frame *frame, Flag flag) {
    FlagBox box = {.input_count = 0};
    fills[flag](frame, &box);
    return box;
}

/* From the box to the flag's pin. Several flags may be one literal: each pin is a net of its own. */
static void draw_pin(Frame *frame, Flag flag, double left, double y) {
    Pin pin = pin_of_flag(flag);
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

static void draw_flag(Frame *frame, Flag flag, double y, const Point *ends) {
    FlagBox box = box_of(frame, flag);
    double edge = frame_left(frame) - FRAME_CHANNEL, left = edge - BOX;
    scene_rect(frame->scene, SYMBOL_FRAME, left, y - HEIGHT / 2.0, BOX, HEIGHT, box.label);
    for (int k = 0; k < box.input_count; k++)
        draw_input(frame, &box.input[k], edge, y + APART * (2 * k - (box.input_count - 1)), ends);
    draw_pin(frame, flag, left, y);
    frame_above(frame, frame->core->flag[flag].masked, left - 16, y);
}

void frame_draw_flags(Frame *frame, Point last, Point sign) {
    /* The first box's wire is straight: the carry's. */
    const Point ends[] = {last, sign};
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
        draw_flag(frame, (Flag)flag, y, ends);
        y += HEIGHT + GAP;
    }
    /* The register that all flags pass, with room for its clock at the lower end. */
    double left = frame_left(frame) - FRAME_CHANNEL - BOX - STUB - REGISTER;
    if (any && frame->unit->registers != REGISTERS_NONE)
        frame_register(frame,
                       (Extent){left, first - HEIGHT / 2.0, left + REGISTER, y - HEIGHT / 2.0 + 10},
                       STUB);
}
