/* See moves.h. A new mistake in what is added is a row of the table and what it does to a variant.
 */
#include "check/find/moves.h"

#include <string.h>

static const Move moves[] = {
    {MOVE_FIRST_MISSING, 0, MISTAKE_FIRST_CARRY_MISSING, false, ""},
    {MOVE_PLAIN, OPERAND_PLAIN, MISTAKE_OPERAND_NOT_INVERTED, false, "it computes a + b + 1"},
    {MOVE_PLAIN, OPERAND_PLAIN_SUM, MISTAKE_OPERAND_NOT_INVERTED, false, "it computes a + b"},
    {MOVE_PLAIN, OPERAND_BIT_0, MISTAKE_OPERAND_NOT_INVERTED, false, "bit 0 alone is inverted"},
    {MOVE_PLAIN, OPERAND_LOGICAL, MISTAKE_OPERAND_NOT_INVERTED, false,
     "it is 1 for 0 and else 0: !b for ~b"},
    {MOVE_SWAPPED, 0, MISTAKE_OPERANDS_SWAPPED, false, ""},
    {MOVE_CONTROL, 0, MISTAKE_CONTROL_REVERSED, true, ""},
    {MOVE_CIN_SENSE, 0, MISTAKE_CARRY_SENSE_REVERSED, false, "the pin cin"},
    {MOVE_REVERSE, 1, MISTAKE_BITS_REVERSED, false, "a"},
    {MOVE_REVERSE, 2, MISTAKE_BITS_REVERSED, false, "b"},
    {MOVE_REVERSE, 4, MISTAKE_BITS_REVERSED, false, "result"},
    {MOVE_REVERSE, 3, MISTAKE_BITS_REVERSED, false, "a and b"},
    {MOVE_REVERSE, 5, MISTAKE_BITS_REVERSED, false, "a and result"},
    {MOVE_REVERSE, 6, MISTAKE_BITS_REVERSED, false, "b and result"},
    {MOVE_REVERSE, 7, MISTAKE_BITS_REVERSED, false, "a, b and result"},
    {MOVE_CODE, 0, MISTAKE_BITS_REVERSED, true, "op"},
    {MOVE_CUT, CUT_SUM_ZEROS, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_SUM_CARRY, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_SUM_SIGN, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_OPERANDS, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_A, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_B, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_X, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_Y, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_CUT, CUT_X_AND_Y, MISTAKE_WIDTH_SHORT, false, ""},
    {MOVE_STUCK, 0, MISTAKE_BIT_STUCK, true, ""},
    {MOVE_BREAKS, 0, MISTAKE_CARRY_BROKEN, false, ""},
};

const Move *moves_all(int *count) {
    *count = (int)(sizeof moves / sizeof moves[0]);
    return moves;
}

unsigned moves_lowest_wrong(const Study *study) {
    unsigned bit = 0;
    while (bit < study->unit->width && !word_bit(&study->ever_wrong, bit))
        bit++;
    return bit;
}

/* The lowest of the upper bits that are always 0, the width if there are less than two. */
static unsigned always_zero_from(const Study *study) {
    unsigned width = study->unit->width, bit = width;
    while (bit > 0 && word_bit(&study->stuck, bit - 1) && !word_bit(&study->stuck_level, bit - 1))
        bit--;
    return bit + 2 <= width ? bit : width;
}

/* How many lower bits a cut leaves. Where these are wrong in some other way, the zeros above them
 * tell, which begin one bit later where the carry is kept. */
static unsigned kept_by(const Study *study, Cut cut) {
    unsigned wrong = moves_lowest_wrong(study), zeros = always_zero_from(study);
    if (wrong > 0 || zeros == study->unit->width)
        return wrong;
    return cut == CUT_SUM_CARRY && zeros > 0 ? zeros - 1 : zeros;
}

/* Is what is stuck no more than what a cut leaves at 0? */
static bool stuck_is_cut(const Study *study) {
    unsigned zeros = always_zero_from(study), count = word_count(&study->stuck);
    return zeros > 0 && zeros + count == study->unit->width && count > 0;
}

bool theory_add(const Study *study, Theory *theory, const Move *move) {
    Variant *variant = &theory->variant;
    theory->move[theory->count++] = move;
    theory->everywhere = theory->everywhere || move->everywhere;
    switch (move->kind) {
    case MOVE_FIRST_MISSING:
        variant->first_missing = true;
        return true;
    case MOVE_PLAIN:
        variant->operand = (PlainOperand)move->number;
        return true;
    case MOVE_SWAPPED:
        variant->swapped = true;
        return true;
    case MOVE_CONTROL:
        variant->control_reversed = true;
        return study->unit->control != CONTROL_FIXED;
    case MOVE_CIN_SENSE:
        variant->cin_reversed = true;
        return unit_has(study->unit, PIN_CIN);
    case MOVE_REVERSE:
        variant->reverse_a = (move->number & 1) != 0;
        variant->reverse_b = (move->number & 2) != 0;
        variant->reverse_result = (move->number & 4) != 0;
        return unit_has(study->unit, PIN_B) || !variant->reverse_b;
    case MOVE_CODE:
        variant->code_reversed = true;
        return study->unit->control == CONTROL_CODE && study->unit->code_bits > 1;
    case MOVE_CUT:
        variant->cut = (Cut)move->number;
        variant->kept = kept_by(study, variant->cut);
        return variant->kept > 0 && variant->kept + 2 <= study->unit->width;
    case MOVE_STUCK:
        theory->stuck = true;
        return study->any_stuck && !stuck_is_cut(study);
    default:
        return true; /* breaks: found when all moves are known */
    }
}
/* ---- carries that do not arrive ------------------------------------------------------------ */

/* What has been seen of the carries that the columns were given. */
typedef struct {
    Word differs; /* columns where it was not the carry of the column before, in some case */
    Word seen_0, seen_1;
    Word not_first, not_before; /* where it was not that into column 0, into the column before */
    uint64_t
        like[64]; /* in words of up to 64 bits: bit j of like[k], columns k and j had the same */
} Carries;

/* The carries out of every column, shifted to the column that they enter. */
static void carries_on(const Machine *machine, const Word *used, Word *entering) {
    Word either, both;
    word_xor(&either, &machine->x, &machine->y);
    word_and(&both, &machine->x, &machine->y);
    word_and(&either, &either, used);
    word_or(&both, &both, &either);
    word_add(entering, &both, &both, word_bit(&machine->carries, 0));
}

static void note_alike(uint64_t used, uint64_t known, unsigned width, uint64_t *like) {
    for (unsigned k = 0; k < width; k++)
        if ((known >> k & 1) != 0)
            like[k] &= ~((used ^ ((used >> k & 1) != 0 ? UINT64_MAX : 0)) & known);
}

/* Which columns are given the same. */
static void note_other_carries(const Word *used, const Word *known, Carries *carries) {
    Word other, before;
    if (word_bit(used, 0))
        word_not(&other, used);
    else
        word_resize_unsigned(&other, used, used->width);
    word_and(&other, &other, known);
    word_or(&carries->not_first, &carries->not_first, &other);
    word_add(&before, used, used, false);
    word_xor(&other, used, &before);
    word_and(&other, &other, known);
    word_or(&carries->not_before, &carries->not_before, &other);
    if (used->width <= 64)
        note_alike(used->limb[0], known->limb[0], used->width, carries->like);
}

/* The column below that was always given the same: column 0 if it is one, else the nearest, of
 * those that have their own carry; of wide words, column 0 and the next one are looked at. -1:
 * none. */
static int source_of(const Carries *carries, unsigned column) {
    int broken = -1;
    if (column == 0)
        return -1;
    if (!word_bit(&carries->not_first, column))
        return 0;
    if (carries->differs.width > 64)
        return word_bit(&carries->not_before, column) ? -1 : (int)column - 1;
    for (unsigned k = column; k-- > 0;) {
        if ((carries->like[column] >> k & 1) == 0)
            continue;
        if (!word_bit(&carries->differs, k))
            return (int)k;
        broken = broken < 0 ? (int)k : broken;
    }
    return broken;
}

/* From the result that came out, bit by bit the carry that its column was given: result, X and Y
 * XORed. It should be the one that the column before makes of its own. */
static void note_carries(const Study *study, const Theory *theory, size_t k, Carries *carries) {
    View view;
    Machine machine;
    Word a, b, unknown, known, used, entering, differs;
    study_view(study, &theory->variant, k, &machine, &a, &b, &unknown, &view);
    if (theory->stuck)
        word_or(&unknown, &unknown, &study->stuck);
    Word seen = view.seen;
    if (theory->variant.reverse_result) {
        variant_reverse(&seen, &view.seen);
        known = unknown;
        variant_reverse(&unknown, &known);
    }
    word_not(&known, &unknown);
    word_xor(&used, &seen, &machine.x);
    word_xor(&used, &used, &machine.y);
    carries_on(&machine, &used, &entering);
    word_xor(&differs, &used, &entering);
    word_and(&differs, &differs, &known);
    word_add(&unknown, &unknown, &unknown, false); /* what an unknown bit hands on is not known */
    word_not(&unknown, &unknown);
    word_and(&differs, &differs, &unknown);
    word_or(&carries->differs, &carries->differs, &differs);
    note_other_carries(&used, &known, carries);
    word_and(&entering, &used, &known);
    word_or(&carries->seen_1, &carries->seen_1, &entering);
    word_not(&used, &used);
    word_and(&entering, &used, &known);
    word_or(&carries->seen_0, &carries->seen_0, &entering);
}

/* Columns that are not given their carry and no constant either. */
static void find_varying(const Carries *carries, Word *varying) {
    word_and(varying, &carries->seen_0, &carries->seen_1);
    word_and(varying, varying, &carries->differs);
}

/* Is what every column is given known, where it is not its carry? */
static bool all_known(const Carries *carries) {
    Word rest;
    find_varying(carries, &rest);
    word_and(&rest, &rest, &carries->not_first);
    if (word_is_zero(&rest))
        return true;
    for (unsigned column = 0; column < rest.width; column++)
        if (word_bit(&rest, column) && source_of(carries, column) < 0)
            return false;
    return true;
}

static void sort_breaks(const Carries *carries, Breaks *breaks) {
    breaks->any = !word_is_zero(&carries->differs);
    breaks->column = carries->differs;
    find_varying(carries, &breaks->taken);
    word_xor(&breaks->level, &carries->differs, &breaks->taken);
    word_and(&breaks->level, &breaks->level, &carries->seen_1);
    for (unsigned column = 0; column < breaks->taken.width; column++)
        if (word_bit(&breaks->taken, column))
            breaks->from[column] = (uint16_t)source_of(carries, column);
}

/* The breaks that the cases of the wrong groups show. */
static bool read_breaks(const Study *study, const Fit *base, Theory *theory) {
    Carries carries;
    Word *zeroed[] = {&carries.differs, &carries.seen_0, &carries.seen_1, &carries.not_first,
                      &carries.not_before};
    for (size_t k = 0; k < sizeof zeroed / sizeof zeroed[0]; k++)
        word_zero(zeroed[k], study->unit->width);
    memset(carries.like, 0xff, sizeof carries.like);
    for (int g = 0; g < study->unit->choice_count; g++)
        for (size_t i = study->begin[g]; i < study->begin[g + 1] && !base[g].agrees; i++) {
            note_carries(study, theory, study->order[i], &carries);
            if (!all_known(&carries))
                return false;
        }
    sort_breaks(&carries, &theory->breaks);
    theory->variant.breaks = &theory->breaks;
    return theory->breaks.any;
}

/* One column is given 0, 1, the first carry, or that of the column before. */
static void set_break(Breaks *breaks, unsigned width, unsigned column, unsigned kind) {
    breaks->any = true;
    word_zero(&breaks->column, width);
    word_put(&breaks->column, column, true);
    word_zero(&breaks->level, width);
    word_put(&breaks->level, column, kind == 1);
    word_zero(&breaks->taken, width);
    word_put(&breaks->taken, column, kind >= 2 && column > 0);
    breaks->from[column] = (uint16_t)(kind == 2 || column == 0 ? 0 : column - 1);
}

/* Where saturation hides the sum, carries cannot be read off: each break is tried. */
static bool guess_break(const Study *study, const Fit *base, Theory *theory) {
    theory->variant.breaks = &theory->breaks;
    for (unsigned k = 0; k < 4 * study->unit->width; k++) {
        set_break(&theory->breaks, study->unit->width, k / 4, k % 4);
        bool good = true;
        Fit fit;
        for (int g = 0; g < study->unit->choice_count && good; g++)
            good = base[g].agrees || study_fit(study, &theory->variant, theory->stuck, g, &fit);
        if (good)
            return true;
    }
    return false;
}

bool theory_find_breaks(const Study *study, const Fit *base, Theory *theory) {
    theory->breaks.any = false;
    theory->variant.breaks = NULL;
    if (theory->variant.cut != CUT_NOTHING)
        return false;
    return study->unit->overflow == OVERFLOW_WRAP ? read_breaks(study, base, theory)
                                                  : guess_break(study, base, theory);
}
