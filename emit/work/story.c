/* See story.h. A new flag is a function here, why_ and its pin: why it has its value. */
#include "work/story.h"

#include "base/memory.h"
#include "base/text.h"
#include "model/number.h"

#include <assert.h>
#include <string.h>

const char *const story_readings[2] = {"unsigned", "two's complement"};

/* The text is owned by the part from here on. */
static void add_line(StoryPart *part, Tone tone, const char *label, char *text) {
    assert(part->count < STORY_LINES_MAX);
    StoryLine *line = &part->line[part->count++];
    line->label = memory_text("%s", label);
    line->text = text;
    line->tone = tone;
}

/* ---- numbers ------------------------------------------------------------------------------ */

enum { WHOLE_DIGITS = 24, END_DIGITS = 8, WHOLE_BITS = 32, BOUND_BITS = 64, BOUND_BYTES = 32 };

char *story_shorten(const char *digits) {
    size_t sign = digits[0] == '-', length = strlen(digits);
    if (length - sign <= WHOLE_DIGITS)
        return memory_text("%s", digits);
    return memory_text("%.*s...%s (%zu digits)", (int)(sign + END_DIGITS), digits,
                       digits + length - END_DIGITS, length - sign);
}

static char *decimal(const Word *word, bool is_signed) {
    char digits[NUMBER_BYTES];
    (is_signed ? number_signed : number_unsigned)(word, digits);
    return memory_text("%s", digits);
}

static char *short_decimal(const Word *word, bool is_signed) {
    char *whole = decimal(word, is_signed);
    char *text = story_shorten(whole);
    memory_free(whole);
    return text;
}

char *story_both_readings(const Word *word) {
    char *as_signed = short_decimal(word, true);
    if (!word_bit(word, word->width - 1))
        return as_signed;
    char *as_unsigned = short_decimal(word, false);
    char *text = memory_text("%s, unsigned %s", as_signed, as_unsigned);
    memory_free(as_signed);
    memory_free(as_unsigned);
    return text;
}

/* The bits: in binary while they can be taken in, else in hexadecimal, the middle left out. */
static char *bits(const Word *word) {
    char digits[WORD_BITS_MAX / 4 + 2];
    if (word->width > WHOLE_BITS) {
        unsigned count = word_hex(word, digits);
        if (count <= 2 * END_DIGITS)
            return memory_text("0x%s", digits);
        return memory_text("0x%.*s...%s", END_DIGITS, digits, digits + count - END_DIGITS);
    }
    for (unsigned i = 0; i < word->width; i++)
        digits[i] = word_bit(word, word->width - 1 - i) ? '1' : '0';
    digits[word->width] = '\0';
    return memory_text("%s", digits);
}

/* The least or the greatest number of a reading, as a power of two where it has many digits. */
static char *bound(unsigned width, bool is_signed, bool greatest) {
    if (!is_signed && !greatest)
        return memory_text("0");
    unsigned power = is_signed ? width - 1 : width;
    if (width > BOUND_BITS)
        return greatest ? memory_text("2^%u - 1", power) : memory_text("-2^%u", power);
    Word word;
    word_zero(&word, width);
    if (greatest)
        word_not(&word, &word);
    if (is_signed)
        word_put(&word, width - 1, !greatest);
    return decimal(&word, is_signed);
}

/* ---- the formula with its numbers --------------------------------------------------------- */

/* What a word of the formula stands for; the caller frees it. */
static char *term(const Working *working, const char *name, size_t length, bool is_signed) {
    if (length == 1 && (name[0] == 'a' || name[0] == 'b'))
        return short_decimal(name[0] == 'a' ? &working->a : &working->b, is_signed);
    if (strncmp(name, "carry", length) == 0)
        return memory_text("%d", working->cin);
    if (strncmp(name, "borrow", length) == 0)
        return memory_text("%d", working->cin == working->cin_inverted);
    return memory_text("%.*s", (int)length, name);
}

/* "100 - (-50)" for "a - b": letters are replaced by numbers, the rest stays. */
static char *equation(const Working *working, bool is_signed) {
    const char *formula = operation_facts(working_operation(working))->formula;
    TextBuffer text = {NULL, 0, 0};
    for (const char *at = formula; *at != '\0';) {
        size_t letters = strspn(at, "abcdefghijklmnopqrstuvwxyz");
        size_t length = letters > 0 ? letters : 1;
        char *replaced =
            letters > 0 ? term(working, at, letters, is_signed) : memory_text("%.1s", at);
        bool apart = replaced[0] == '-' && letters > 0 && at != formula;
        text_printf(&text, apart ? "(%s)" : "%s", replaced);
        memory_free(replaced);
        at += length;
    }
    return text_take(&text);
}

/* ---- the verdict -------------------------------------------------------------------------- */

static void tell_carries(const Working *working, StoryPart *part) {
    bool in = working_carry_in(working), out = working_carry_out(working);
    add_line(part, TONE_PLAIN, "last carries",
             memory_text("into the sign column %u: %d, out of it: %d; they %s, so in two's "
                         "complement the result %s",
                         working->unit->width - 1, in, out, in == out ? "are equal" : "differ",
                         in == out ? "is valid" : "overflows"));
}

/* What the exact result is in one reading, and what the columns make of it. */
static void tell_reading(const Working *working, bool is_signed, StoryPart *part) {
    unsigned width = working->unit->width;
    const Word *exact = is_signed ? &working->exact_signed : &working->exact_unsigned;
    bool below = word_bit(exact, width + 1);
    char *sum = equation(working, is_signed), *value = short_decimal(exact, true);
    char *least = bound(width, is_signed, false), *greatest = bound(width, is_signed, true);
    bool fits = is_signed ? working_carry_in(working) == working_carry_out(working)
                          : !word_bit(exact, width) && !below;
    char *given = short_decimal(&working->sum, is_signed), *text;
    if (fits)
        text = memory_text("valid: %s = %s lies in %s to %s", sum, value, least, greatest);
    else
        text = memory_text("%s: %s = %s is %s %s, the %s that %u bit%s; the columns give %s, "
                           "2^%u too %s",
                           is_signed ? "OVERFLOW"
                           : below   ? "BORROW"
                                     : "CARRY",
                           sum, value, below ? "below" : "above", below ? least : greatest,
                           below ? "least" : "greatest", width, width == 1 ? " holds" : "s hold",
                           given, width, below ? "high" : "low");
    add_line(part, fits ? TONE_GOOD : TONE_BAD, story_readings[is_signed], text);
    char *parts[] = {sum, value, least, greatest, given};
    for (size_t k = 0; k < sizeof parts / sizeof parts[0]; k++)
        memory_free(parts[k]);
}

static void tell_saturation(const Working *working, StoryPart *part) {
    const Unit *unit = working->unit;
    if (unit->overflow == OVERFLOW_WRAP)
        return;
    bool is_signed = unit->overflow == OVERFLOW_SATURATE_SIGNED;
    const char *reading = story_readings[is_signed];
    if (word_equal(&working->sum, &working->outcome.result)) {
        add_line(part, TONE_PLAIN, "saturation",
                 memory_text("the sum is delivered as it is: read as %s it fits", reading));
        return;
    }
    bool below =
        word_bit(is_signed ? &working->exact_signed : &working->exact_unsigned, unit->width + 1);
    char *delivered = short_decimal(&working->outcome.result, is_signed);
    add_line(part, TONE_PLAIN, "saturation",
             memory_text("%s is delivered in place of the sum: the %s %s number of %u bit%s",
                         delivered, below ? "least" : "greatest", reading, unit->width,
                         unit->width == 1 ? "" : "s"));
    memory_free(delivered);
}

/* ---- the rows of bits --------------------------------------------------------------------- */

static void add_row(Story *story, const char *label, const Word *word, bool shows_value,
                    const char *remark) {
    assert(story->row_count < STORY_ROWS_MAX);
    story->row[story->row_count++] = (StoryRow){label, word, shows_value, remark};
}

/* An operand that comes in as it is shows its value, unless the rows above have shown it. */
static void tell_rows(const Working *working, Story *story) {
    bool inverts = working_inverts(working);
    bool saturates = working->unit->overflow != OVERFLOW_WRAP;
    if (inverts) {
        add_row(story, "a", &working->a, true, NULL);
        if (operation_facts(working_operation(working))->reads_b)
            add_row(story, "b", &working->b, true, NULL);
    }
    story->row_x = story->row_count;
    for (int which = 0; which < 2; which++)
        add_row(story, addend_name(working->addend[which]), &working->operand[which],
                !inverts && !addend_is_constant(working->addend[which]),
                working_operand_remark(working, which));
    story->row_sum = story->row_count;
    if (saturates)
        add_row(story, "sum", &working->sum, true, NULL);
    add_row(story, "result", &working->outcome.result, true, NULL);
}

/* ---- numbers in both readings -------------------------------------------------------------- */

static void add_number(Story *story, const char *label, const Word *as_unsigned,
                       const Word *as_signed, bool exact) {
    assert(story->number_count < STORY_NUMBERS_MAX);
    story->number[story->number_count++] =
        (StoryNumber){label, {decimal(as_unsigned, exact), decimal(as_signed, true)}};
}

static void tell_numbers(const Working *working, Story *story) {
    add_number(story, "a", &working->a, &working->a, false);
    if (operation_facts(working_operation(working))->reads_b)
        add_number(story, "b", &working->b, &working->b, false);
    add_number(story, "exact", &working->exact_unsigned, &working->exact_signed, true);
    if (working->unit->overflow != OVERFLOW_WRAP)
        add_number(story, "sum", &working->sum, &working->sum, false);
    const Word *result = &working->outcome.result;
    add_number(story, "result", result, result, false);
}

/* ---- a negative result read back ------------------------------------------------------------ */

static void tell_back(const Working *working, StoryPart *part) {
    const Word *result = &working->outcome.result;
    unsigned width = result->width;
    part->heading = "the negative result read back";
    if (!word_bit(result, width - 1))
        return;
    Word inverted, magnitude, one;
    word_set(&one, width, 1);
    word_not(&inverted, result);
    word_add(&magnitude, &inverted, &one, false);
    char *shown[] = {bits(result), bits(&inverted), bits(&magnitude)};
    char *value[] = {short_decimal(result, true), short_decimal(&inverted, false),
                     short_decimal(&magnitude, false)};
    add_line(part, TONE_PLAIN, "result",
             memory_text("%s: the sign bit is 1, so it is below 0", shown[0]));
    add_line(part, TONE_PLAIN, "invert", memory_text("%s = %s", shown[1], value[1]));
    add_line(part, TONE_PLAIN, "add one",
             memory_text("%s = %s, so the result reads %s", shown[2], value[2], value[0]));
    for (int k = 0; k < 3; k++) {
        memory_free(shown[k]);
        memory_free(value[k]);
    }
}

/* ---- the flags ------------------------------------------------------------------------------ */

/* What a carry out of a column says at a pin. */
static char *carry_reason(const Working *working, unsigned column, const char *what) {
    bool carry = word_bit(&working->carry, column + 1);
    if (!operation_facts(working_operation(working))->subtracts)
        return memory_text("the carry out of column %u: %s %s", column, what,
                           carry ? "does not fit unsigned" : "fits unsigned");
    const char *meaning = carry ? "no borrow is needed" : "a borrow is needed";
    if (working->unit->sense == SENSE_BORROW)
        return memory_text("the carry out of column %u, %d, turned over: %s", column, carry,
                           meaning);
    return memory_text("the carry out of column %u: %s", column, meaning);
}

static char *why_carry(const Working *working) {
    return carry_reason(working, working->unit->width - 1, "the result");
}

static char *why_overflow(const Working *working) {
    bool in = working_carry_in(working), out = working_carry_out(working);
    return memory_text("the two last carries, %d in and %d out, %s", in, out,
                       in == out ? "are equal" : "differ");
}

/* The lowest column that holds a 1, or the width. */
static unsigned lowest_one(const Word *word) {
    unsigned column = 0;
    while (column < word->width && !word_bit(word, column))
        column++;
    return column;
}

static char *why_zero(const Working *working) {
    unsigned column = lowest_one(&working->outcome.result);
    if (column == working->unit->width)
        return memory_text("every bit of the result is 0");
    return memory_text("the result has a 1 in column %u", column);
}

static char *why_negative(const Working *working) {
    return memory_text("the sign bit of the result, column %u", working->unit->width - 1);
}

static char *why_less(const Working *working, bool is_signed) {
    const Word *exact = is_signed ? &working->exact_signed : &working->exact_unsigned;
    char *value = short_decimal(exact, true);
    char *text = memory_text("the exact result %s, %s, is %sbelow 0",
                             is_signed ? "in two's complement" : "unsigned", value,
                             word_bit(exact, exact->width - 1) ? "" : "not ");
    memory_free(value);
    return text;
}

static char *why_less_signed(const Working *working) {
    return why_less(working, true);
}

static char *why_less_unsigned(const Working *working) {
    return why_less(working, false);
}

static char *why_parity(const Working *working) {
    unsigned ones = 0;
    for (unsigned column = 0; column < working->unit->width; column++)
        ones += word_bit(&working->outcome.result, column);
    return memory_text("the result has %u one%s, an %s number", ones, ones == 1 ? "" : "s",
                       ones % 2 == 0 ? "even" : "odd");
}

static char *why_half_carry(const Working *working) {
    return carry_reason(working, 3, "the lowest four columns' result");
}

#define REASON_ROW(ID, pin, ...) [FLAG_##ID] = why_##pin,
static char *(*const reasons[FLAG_COUNT])(const Working *working) = {FLAGS(REASON_ROW)};

static void tell_flags(const Working *working, StoryPart *part) {
    part->heading = "flags";
    for (int flag = 0; flag < FLAG_COUNT; flag++) {
        if (!working->unit->flag[flag])
            continue;
        char *label = memory_text("%s %d", flag_name((Flag)flag), working->outcome.flag[flag]);
        add_line(part, TONE_PLAIN, label, reasons[flag](working));
        memory_free(label);
    }
}

/* ---- what it begins with --------------------------------------------------------------------- */

static char *tell_title(const Working *working) {
    const OperationFacts *facts = operation_facts(working_operation(working));
    static const char *const firsts[] = {[ENTERS_0] = "0", [ENTERS_1] = "1", [ENTERS_CIN] = "cin"};
    return memory_text("%s: %s, added as %s + %s + %s%s", facts->name, facts->formula,
                       addend_name(facts->x), addend_name(facts->y),
                       facts->reads_cin && working->cin_inverted ? "not " : "",
                       firsts[facts->first]);
}

/* The unit, and which pins a and b are where they have names of their own. */
static char *tell_unit(const Working *working) {
    const Unit *unit = working->unit;
    const Pin pins[] = {PIN_A, PIN_B, PIN_CIN, PIN_RESULT};
    TextBuffer text = {NULL, 0, 0};
    text_printf(&text, "%s, %u bit%s", unit->name, unit->width, unit->width == 1 ? "" : "s");
    for (size_t k = 0; k < sizeof pins / sizeof pins[0]; k++) {
        const char *role = unit_role(unit, pins[k]);
        if (unit_has(unit, pins[k]) && strcmp(unit->pin[pins[k]], role) != 0)
            text_printf(&text, ", %s: %s", role, unit->pin[pins[k]]);
    }
    return text_take(&text);
}

static char *tell_first_carry(const Working *working) {
    const OperationFacts *facts = operation_facts(working_operation(working));
    switch (facts->first) {
    case ENTERS_0:
        return memory_text("%s lets no carry enter", facts->name);
    case ENTERS_1:
        return memory_text("%s lets a 1 enter", facts->name);
    case ENTERS_CIN:
        break;
    }
    return working->cin_inverted ? memory_text("cin, %d, turned over", working->cin)
                                 : memory_text("cin");
}

void story_tell(const Working *working, Story *story) {
    memset(story, 0, sizeof *story);
    story->title = tell_title(working);
    story->unit = tell_unit(working);
    story->first_carry = tell_first_carry(working);
    tell_rows(working, story);
    story->verdict.heading = "verdict";
    tell_carries(working, &story->verdict);
    tell_reading(working, true, &story->verdict);
    tell_reading(working, false, &story->verdict);
    tell_saturation(working, &story->verdict);
    tell_numbers(working, story);
    tell_back(working, &story->back);
    tell_flags(working, &story->flags);
}

static void free_part(StoryPart *part) {
    for (int k = 0; k < part->count; k++) {
        memory_free(part->line[k].label);
        memory_free(part->line[k].text);
    }
}

void story_free(Story *story) {
    memory_free(story->title);
    memory_free(story->unit);
    memory_free(story->first_carry);
    free_part(&story->verdict);
    free_part(&story->back);
    free_part(&story->flags);
    for (int k = 0; k < story->number_count; k++) {
        memory_free(story->number[k].reading[0]);
        memory_free(story->number[k].reading[1]);
    }
}

char *story_step(const Working *working, unsigned column) {
    return memory_text("column %u%s: %d + %d + carry %d = %d, carry %d", column,
                       column + 1 == working->unit->width ? " (sign)" : "",
                       word_bit(&working->operand[0], column),
                       word_bit(&working->operand[1], column), word_bit(&working->carry, column),
                       word_bit(&working->sum, column), word_bit(&working->carry, column + 1));
}
