/* The model and its words against the GNU Multiple Precision library's integers, at widths from 1
 * to 4096: corner words crossed, and random words, every operation, sense, cin and overflow rule;
 * and chains of words through adc and sbc: of 64 bits against mpn_add_n, mpn_sub_n and one wide
 * operation, of any widths and mixed ones against mpz. The random sequence is the same in every
 * run. */
#include "all_operations.h"
#include "model/model.h"
#include "model/number.h"

#include <gmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const unsigned widths[] = {1,  2,   3,   31,  32,   33,   63,   64,
                                  65, 127, 128, 129, 1000, 1024, 4095, 4096};
enum { WIDTHS = sizeof widths / sizeof widths[0] };
enum { RANDOM_WIDTHS = 12, RANDOM_PAIRS = 40, CORNERS = 11 };

static gmp_randstate_t random_state;

static int begin_random(void **state) {
    (void)state;
    gmp_randinit_mt(random_state);
    gmp_randseed_ui(random_state, 4660);
    return 0;
}

static int end_random(void **state) {
    (void)state;
    gmp_randclear(random_state);
    return 0;
}

/* A random width, as often narrow as wide. */
static unsigned random_width(void) {
    unsigned bits = 1 + (unsigned)gmp_urandomm_ui(random_state, 12);
    return 1 + (unsigned)gmp_urandomb_ui(random_state, bits);
}

/* Half of them evenly random, half with long runs of zeros and ones, where carries go far. */
static void random_word(mpz_t z, unsigned width) {
    if (gmp_urandomb_ui(random_state, 1))
        mpz_urandomb(z, random_state, width);
    else
        mpz_rrandomb(z, random_state, width);
}

static void set_word(Word *word, unsigned width, const mpz_t z) {
    word_zero(word, width);
    mpz_export(word->limb, NULL, -1, sizeof word->limb[0], 0, 0, z);
}

static void get_word(mpz_t z, const Word *word) {
    mpz_import(z, (word->width + 63) / 64, -1, sizeof word->limb[0], 0, 0, word->limb);
}

/* ---- what is expected ----------------------------------------------------------------------- */

typedef struct {
    const Unit *unit;
    Operation operation;
    bool cin;
    mpz_t a, b;                         /* unsigned readings */
    mpz_t exact_unsigned, exact_signed; /* exact results */
    mpz_t full, half;                   /* 2^n, 2^(n-1) */
    mpz_t result;
    mpz_t s, t; /* scratch */
} Case;

static void init_case(Case *c) {
    mpz_inits(c->a, c->b, c->exact_unsigned, c->exact_signed, c->full, c->half, c->result, c->s,
              c->t, NULL);
}

static void clear_case(Case *c) {
    mpz_clears(c->a, c->b, c->exact_unsigned, c->exact_signed, c->full, c->half, c->result, c->s,
               c->t, NULL);
}

static bool subtracts(Operation operation) {
    return operation == OP_SUB || operation == OP_SBC || operation == OP_RSB ||
           operation == OP_DEC || operation == OP_NEG;
}

static void exact(const Case *c, mpz_t to, const mpz_t a, const mpz_t b) {
    bool borrow = c->unit->sense == SENSE_BORROW ? c->cin : !c->cin;
    switch (c->operation) {
    case OP_ADD:
    case OP_ADC:
        mpz_add(to, a, b);
        mpz_add_ui(to, to, c->operation == OP_ADC && c->cin);
        break;
    case OP_SUB:
    case OP_SBC:
        mpz_sub(to, a, b);
        mpz_sub_ui(to, to, c->operation == OP_SBC && borrow);
        break;
    case OP_RSB:
        mpz_sub(to, b, a);
        break;
    case OP_INC:
        mpz_add_ui(to, a, 1);
        break;
    case OP_DEC:
        mpz_sub_ui(to, a, 1);
        break;
    case OP_NEG:
        mpz_neg(to, a);
        break;
    default:
        mpz_set(to, a);
    }
}

/* The carry pin for an exact result on words whose values end below limit. */
static bool carry_of(const Case *c, const mpz_t exact_result, const mpz_t limit) {
    if (!subtracts(c->operation))
        return mpz_cmp(exact_result, limit) >= 0;
    bool borrow = mpz_sgn(exact_result) < 0;
    return c->unit->sense == SENSE_BORROW ? borrow : !borrow;
}

static bool half_carry_of(Case *c) {
    if (c->unit->width < 4)
        return false;
    mpz_fdiv_r_2exp(c->s, c->a, 4);
    mpz_fdiv_r_2exp(c->t, c->b, 4);
    exact(c, c->s, c->s, c->t);
    mpz_set_ui(c->t, 16);
    return carry_of(c, c->s, c->t);
}

static void signed_reading(const Case *c, mpz_t to, const mpz_t from) {
    if (mpz_cmp(from, c->half) >= 0)
        mpz_sub(to, from, c->full);
    else
        mpz_set(to, from);
}

/* -2^(n-1) <= exact signed result < 2^(n-1), in the scratch numbers. */
static bool signed_overflow(Case *c) {
    mpz_neg(c->s, c->half);
    return mpz_cmp(c->exact_signed, c->s) < 0 || mpz_cmp(c->exact_signed, c->half) >= 0;
}

static void expect_result(Case *c) {
    mpz_sub_ui(c->t, c->full, 1);
    if (c->unit->overflow == OVERFLOW_SATURATE_UNSIGNED) {
        mpz_set(c->result, c->exact_unsigned);
        if (mpz_sgn(c->result) < 0)
            mpz_set_ui(c->result, 0);
        else if (mpz_cmp(c->result, c->t) > 0)
            mpz_set(c->result, c->t);
        return;
    }
    mpz_set(c->result, c->exact_signed);
    if (c->unit->overflow == OVERFLOW_SATURATE_SIGNED && signed_overflow(c)) {
        if (mpz_sgn(c->exact_signed) < 0)
            mpz_neg(c->result, c->half);
        else
            mpz_sub_ui(c->result, c->half, 1);
    }
    mpz_mod(c->result, c->result, c->full);
}

static void compare_with_model(Case *c) {
    unsigned width = c->unit->width;
    Word a, b, expected;
    Outcome outcome;
    set_word(&a, width, c->a);
    set_word(&b, width, c->b);
    model_outcome(c->unit, (int)c->operation, &a, &b, c->cin, &outcome);

    exact(c, c->exact_unsigned, c->a, c->b);
    signed_reading(c, c->s, c->a);
    signed_reading(c, c->t, c->b);
    exact(c, c->exact_signed, c->s, c->t);
    expect_result(c);
    set_word(&expected, width, c->result);
    const bool flag[FLAG_COUNT] = {
        [FLAG_CARRY] = carry_of(c, c->exact_unsigned, c->full),
        [FLAG_OVERFLOW] = signed_overflow(c),
        [FLAG_ZERO] = mpz_sgn(c->result) == 0,
        [FLAG_NEGATIVE] = mpz_cmp(c->result, c->half) >= 0,
        [FLAG_LESS_SIGNED] = mpz_sgn(c->exact_signed) < 0,
        [FLAG_LESS_UNSIGNED] = mpz_sgn(c->exact_unsigned) < 0,
        [FLAG_PARITY] = mpz_popcount(c->result) % 2,
        [FLAG_HALF_CARRY] = half_carry_of(c),
    };
    const char *wrong = word_equal(&outcome.result, &expected) ? NULL : "result";
    for (int f = 0; f < FLAG_COUNT; f++)
        if (flag[f] != outcome.flag[f])
            wrong = flag_name((Flag)f);
    if (wrong == NULL)
        return;
    gmp_fprintf(stderr, "a %#Zx\nb %#Zx\n", c->a, c->b);
    fail_msg("%s differs: width %u %s cin %d sense %s overflow %s", wrong, width,
             operation_name(c->operation), c->cin, sense_name(c->unit->sense),
             overflow_name(c->unit->overflow));
}

/* ---- which operands ------------------------------------------------------------------------- */

/* Corner words, cut to the width where it is too narrow for them. */
static void corner_word(mpz_t z, int corner, unsigned width) {
    mpz_set_ui(z, 1);
    mpz_mul_2exp(z, z, width - 1); /* the most negative */
    switch (corner) {
    case 0:
    case 1:
    case 2:
        mpz_set_ui(z, (unsigned long)corner);
        break;
    case 3: /* the largest signed */
        mpz_sub_ui(z, z, 1);
        break;
    case 4:
        break;
    case 5:
        mpz_add_ui(z, z, 1);
        break;
    case 6: /* all ones, and one less */
    case 7:
        mpz_mul_2exp(z, z, 1);
        mpz_sub_ui(z, z, (unsigned long)corner - 5);
        break;
    case 8: /* the lower half ones, and one more */
    case 9:
        mpz_set_ui(z, 1);
        mpz_mul_2exp(z, z, width / 2);
        mpz_sub_ui(z, z, 9 - (unsigned long)corner);
        break;
    default: /* 0101... */
        mpz_mul_2exp(z, z, 1);
        mpz_fdiv_q_ui(z, z, 3);
    }
    mpz_fdiv_r_2exp(z, z, width);
}

static void every_operation(Case *c) {
    for (int op = 0; op < OP_COUNT; op++)
        for (int cin = 0; cin < 2; cin++) {
            c->operation = (Operation)op;
            c->cin = cin;
            compare_with_model(c);
        }
}

static void every_operand(Case *c) {
    unsigned width = c->unit->width;
    for (int i = 0; i < CORNERS; i++)
        for (int j = 0; j < CORNERS; j++) {
            corner_word(c->a, i, width);
            corner_word(c->b, j, width);
            every_operation(c);
        }
    for (int i = 0; i < RANDOM_PAIRS; i++) {
        random_word(c->a, width);
        random_word(c->b, width);
        every_operation(c);
    }
}

static void every_unit(unsigned width) {
    Case c;
    init_case(&c);
    mpz_ui_pow_ui(c.full, 2, width);
    mpz_ui_pow_ui(c.half, 2, width - 1);
    for (int sense = 0; sense < SENSE_COUNT; sense++)
        for (int overflow = 0; overflow < OVERFLOW_COUNT; overflow++) {
            Unit unit;
            all_operations(&unit, width, (Sense)sense, (Overflow)overflow);
            c.unit = &unit;
            every_operand(&c);
        }
    clear_case(&c);
}

static void test_chosen_widths(void **state) {
    (void)state;
    for (int i = 0; i < WIDTHS; i++)
        every_unit(widths[i]);
}

static void test_random_widths(void **state) {
    (void)state;
    for (int i = 0; i < RANDOM_WIDTHS; i++)
        every_unit(random_width());
}

/* ---- words ---------------------------------------------------------------------------------- */

static void assert_word(const Word *word, const mpz_t expected) {
    char hex[WORD_BITS_MAX / 4 + 2];
    mpz_t got;
    mpz_init(got);
    get_word(got, word);
    assert_int_equal(mpz_cmp(got, expected), 0);
    word_hex(word, hex);
    mpz_set_str(got, hex, 16);
    assert_int_equal(mpz_cmp(got, expected), 0);
    assert_int_equal(word_parity(word), mpz_popcount(expected) % 2);
    mpz_clear(got);
}

static void words_of_width(unsigned width, mpz_t x, mpz_t y, mpz_t z) {
    Word word_x, word_y, got;
    random_word(x, width);
    random_word(y, width);
    set_word(&word_x, width, x);
    set_word(&word_y, width, y);
    for (unsigned extra = 0; extra < 2; extra++) {
        mpz_add(z, x, y);
        mpz_add_ui(z, z, extra);
        assert_int_equal(word_add(&got, &word_x, &word_y, extra), mpz_tstbit(z, width));
        mpz_fdiv_r_2exp(z, z, width);
        assert_word(&got, z);
        mpz_sub(z, x, y);
        mpz_sub_ui(z, z, extra);
        assert_int_equal(word_subtract(&got, &word_x, &word_y, extra), mpz_sgn(z) < 0);
        mpz_fdiv_r_2exp(z, z, width);
        assert_word(&got, z);
    }
    word_not(&got, &word_x);
    mpz_com(z, x);
    mpz_fdiv_r_2exp(z, z, width);
    assert_word(&got, z);
    word_xor(&got, &word_x, &word_y);
    mpz_xor(z, x, y);
    assert_word(&got, z);
    word_and(&got, &word_x, &word_y);
    mpz_and(z, x, y);
    assert_word(&got, z);
}

static void resize_to(unsigned from_width, unsigned to_width, mpz_t x, mpz_t z) {
    Word from, got;
    random_word(x, from_width);
    set_word(&from, from_width, x);
    word_resize_unsigned(&got, &from, to_width);
    mpz_fdiv_r_2exp(z, x, to_width);
    assert_word(&got, z);
    word_resize_signed(&got, &from, to_width);
    if (mpz_tstbit(x, from_width - 1)) {
        mpz_ui_pow_ui(z, 2, from_width);
        mpz_sub(x, x, z);
    }
    mpz_fdiv_r_2exp(z, x, to_width);
    assert_word(&got, z);
}

static void test_words(void **state) {
    (void)state;
    mpz_t x, y, z;
    mpz_inits(x, y, z, NULL);
    for (int i = 0; i < 500; i++) {
        unsigned width = random_width();
        words_of_width(i % 10 == 0 ? WORD_BITS_MAX : width, x, y, z);
        resize_to(width, random_width(), x, z);
        resize_to(width, width + 2, x, z);
    }
    mpz_clears(x, y, z, NULL);
}

/* ---- numbers -------------------------------------------------------------------------------- */

static void assert_reads(const char *text, const Word *expected) {
    Problem problem = {STATUS_DONE, ""};
    Word got;
    if (!number_read(text, expected->width, "operand a", &got, &problem))
        fail_msg("%s", problem.text);
    assert_true(word_equal(&got, expected));
}

/* The same bits written by GMP in every form that is read, and what is written read by GMP. */
static void number_of_width(unsigned width, mpz_t x) {
    Word word;
    char text[NUMBER_BYTES], digits[WORD_BITS_MAX + 4];
    random_word(x, width);
    set_word(&word, width, x);
    number_unsigned(&word, text);
    assert_string_equal(text, mpz_get_str(digits, 10, x));
    assert_reads(digits, &word);
    gmp_snprintf(digits, sizeof digits, "0x%Zx", x);
    assert_reads(digits, &word);
    mpz_get_str(digits + 2, 2, x);
    memcpy(digits, "0b", 2);
    assert_reads(digits, &word);
    if (mpz_tstbit(x, width - 1)) {
        mpz_t full;
        mpz_init(full);
        mpz_ui_pow_ui(full, 2, width);
        mpz_sub(x, x, full);
        mpz_clear(full);
    }
    number_signed(&word, text);
    assert_string_equal(text, mpz_get_str(digits, 10, x));
    assert_reads(digits, &word);
}

static void assert_number(const mpz_t value, unsigned width, bool taken) {
    Problem problem = {STATUS_DONE, ""};
    Word word;
    char *text = mpz_get_str(NULL, 10, value);
    assert_int_equal(number_read(text, width, "operand a", &word, &problem), taken);
    free(text);
}

/* The first and the last number that fits, and their neighbours. */
static void ends_of_width(unsigned width, mpz_t x) {
    mpz_ui_pow_ui(x, 2, width);
    assert_number(x, width, false);
    mpz_sub_ui(x, x, 1);
    assert_number(x, width, true);
    mpz_ui_pow_ui(x, 2, width - 1);
    mpz_neg(x, x);
    assert_number(x, width, true);
    mpz_sub_ui(x, x, 1);
    assert_number(x, width, false);
}

static void test_numbers(void **state) {
    (void)state;
    mpz_t x;
    mpz_init(x);
    for (int i = 0; i < WIDTHS; i++) {
        ends_of_width(widths[i], x);
        for (int k = 0; k < 20; k++)
            number_of_width(widths[i], x);
    }
    for (int i = 0; i < 500; i++) {
        unsigned width = random_width();
        ends_of_width(width, x);
        number_of_width(width, x);
    }
    mpz_clear(x);
}

/* ---- chains --------------------------------------------------------------------------------- */

enum { CHAIN_WORDS_MAX = UNIT_WIDTH_MAX / 64 };

/* The operation on words of 64 bits, the carry pin out of each joined to the cin pin of the next;
 * returns the last carry pin. */
static bool chain(const Unit *unit, Operation operation, const Word *a, const Word *b, bool cin,
                  Word *result) {
    word_zero(result, a->width);
    for (unsigned k = 0; k < a->width / 64; k++) {
        Word part_a, part_b;
        Outcome part;
        word_set(&part_a, 64, a->limb[k]);
        word_set(&part_b, 64, b->limb[k]);
        model_outcome(unit, (int)operation, &part_a, &part_b, cin, &part);
        result->limb[k] = part.result.limb[0];
        cin = part.flag[FLAG_CARRY];
    }
    return cin;
}

/* The same through GMP's limbs; returns the carry, or the borrow. */
static bool by_mpn(Operation operation, const mpz_t a, const mpz_t b, unsigned width, bool extra,
                   mpz_t result) {
    mp_limb_t x[UNIT_WIDTH_MAX / GMP_NUMB_BITS], y[UNIT_WIDTH_MAX / GMP_NUMB_BITS];
    mp_limb_t z[UNIT_WIDTH_MAX / GMP_NUMB_BITS];
    mp_size_t limbs = (mp_size_t)(width / GMP_NUMB_BITS);
    for (mp_size_t k = 0; k < limbs; k++) {
        x[k] = mpz_getlimbn(a, k);
        y[k] = mpz_getlimbn(b, k);
    }
    mp_limb_t out;
    if (operation == OP_ADC) {
        out = mpn_add_n(z, x, y, limbs);
        out += mpn_add_1(z, z, limbs, extra);
    } else {
        out = mpn_sub_n(z, x, y, limbs);
        out += mpn_sub_1(z, z, limbs, extra);
    }
    mpz_import(result, (size_t)limbs, -1, sizeof z[0], 0, 0, z);
    return out != 0;
}

static void one_chain(Sense sense, Operation operation, unsigned width, bool cin, const mpz_t a,
                      const mpz_t b) {
    Unit narrow, wide;
    Word word_a, word_b, chained, expected;
    Outcome at_once;
    mpz_t result;
    mpz_init(result);
    all_operations(&narrow, 64, sense, OVERFLOW_WRAP);
    all_operations(&wide, width, sense, OVERFLOW_WRAP);
    set_word(&word_a, width, a);
    set_word(&word_b, width, b);
    bool pin = chain(&narrow, operation, &word_a, &word_b, cin, &chained);

    bool complemented = operation == OP_SBC && sense == SENSE_NO_BORROW;
    bool out = by_mpn(operation, a, b, width, cin != complemented, result);
    set_word(&expected, width, result);
    assert_true(word_equal(&chained, &expected));
    assert_int_equal(pin, out != complemented);

    model_outcome(&wide, (int)operation, &word_a, &word_b, cin, &at_once);
    assert_true(word_equal(&chained, &at_once.result));
    assert_int_equal(pin, at_once.flag[FLAG_CARRY]);
    mpz_clear(result);
}

static void chains_of(unsigned words, mpz_t a, mpz_t b) {
    for (int sense = 0; sense < SENSE_COUNT; sense++)
        for (int cin = 0; cin < 2; cin++) {
            random_word(a, words * 64);
            random_word(b, words * 64);
            one_chain((Sense)sense, OP_ADC, words * 64, cin, a, b);
            one_chain((Sense)sense, OP_SBC, words * 64, cin, a, b);
            one_chain((Sense)sense, OP_SBC, words * 64, cin, a, a); /* a borrow goes all the way */
            mpz_com(b, a);
            mpz_fdiv_r_2exp(b, b, words * 64);
            one_chain((Sense)sense, OP_ADC, words * 64, cin, a, b); /* and a carry */
        }
}

static void test_chains_of_words(void **state) {
    (void)state;
    mpz_t a, b;
    mpz_inits(a, b, NULL);
    for (unsigned words = 1; words <= CHAIN_WORDS_MAX; words++)
        chains_of(words, a, b);
    mpz_clears(a, b, NULL);
}

/* ---- chains of words of any widths ---------------------------------------------------------- */

/* The pieces of a chain, lowest first. */
typedef struct {
    unsigned width[4];
    int count; /* the widths come round until all bits are used; the last piece may be narrower */
} Chunking;

/* a plus or minus b, piece by piece: add or sub with the first, adc or sbc with the others, each
 * piece in a unit of its own width. Returns the last carry pin. */
static bool chain_pieces(const Chunking *chunking, Sense sense, bool subtract, unsigned width,
                         const mpz_t a, const mpz_t b, mpz_t result) {
    bool pin = false;
    mpz_t piece;
    mpz_init(piece);
    mpz_set_ui(result, 0);
    unsigned low = 0;
    for (int k = 0; low < width; k++) {
        unsigned bits = chunking->width[k % chunking->count];
        bits = bits < width - low ? bits : width - low;
        Operation first = subtract ? OP_SUB : OP_ADD, other = subtract ? OP_SBC : OP_ADC;
        Unit unit;
        Word word_a, word_b;
        Outcome outcome;
        all_operations(&unit, bits, sense, OVERFLOW_WRAP);
        mpz_fdiv_q_2exp(piece, a, low);
        mpz_fdiv_r_2exp(piece, piece, bits);
        set_word(&word_a, bits, piece);
        mpz_fdiv_q_2exp(piece, b, low);
        mpz_fdiv_r_2exp(piece, piece, bits);
        set_word(&word_b, bits, piece);
        model_outcome(&unit, (int)(k == 0 ? first : other), &word_a, &word_b, pin, &outcome);
        get_word(piece, &outcome.result);
        mpz_mul_2exp(piece, piece, low);
        mpz_add(result, result, piece);
        pin = outcome.flag[FLAG_CARRY];
        low += bits;
    }
    mpz_clear(piece);
    return pin;
}

static void check_pieces(const Chunking *chunking, Sense sense, unsigned width, const mpz_t a,
                         const mpz_t b) {
    mpz_t exact_result, result;
    mpz_inits(exact_result, result, NULL);
    for (int subtract = 0; subtract < 2; subtract++) {
        bool pin = chain_pieces(chunking, sense, subtract, width, a, b, result);
        if (subtract)
            mpz_sub(exact_result, a, b);
        else
            mpz_add(exact_result, a, b);
        bool borrow = mpz_sgn(exact_result) < 0;
        bool carry = mpz_tstbit(exact_result, width);
        mpz_fdiv_r_2exp(exact_result, exact_result, width);
        assert_int_equal(mpz_cmp(result, exact_result), 0);
        assert_int_equal(pin, !subtract ? carry : sense == SENSE_BORROW ? borrow : !borrow);
    }
    mpz_clears(exact_result, result, NULL);
}

static void test_chains_of_pieces(void **state) {
    (void)state;
    static const Chunking chunkings[] = {{{1}, 1},        {{3}, 1},          {{4}, 1},
                                         {{8}, 1},        {{16}, 1},         {{32}, 1},
                                         {{33}, 1},       {{63, 65}, 2},     {{1, 64, 7}, 3},
                                         {{5, 1, 12}, 3}, {{2, 3, 5, 7}, 4}, {{100, 1, 28, 64}, 4}};
    static const unsigned sums[] = {8, 32, 65, 128, 257};
    mpz_t a, b;
    mpz_inits(a, b, NULL);
    for (size_t c = 0; c < sizeof chunkings / sizeof *chunkings; c++)
        for (size_t s = 0; s < sizeof sums / sizeof *sums; s++)
            for (int round = 0; round < 12; round++) {
                random_word(a, sums[s]);
                random_word(b, sums[s]);
                if (round == 0)
                    mpz_set(b, a); /* a borrow goes nowhere, or all the way */
                if (round == 1)
                    mpz_com(b, a);
                if (round == 1)
                    mpz_fdiv_r_2exp(b, b, sums[s]);
                check_pieces(&chunkings[c], (Sense)(round % SENSE_COUNT), sums[s], a, b);
            }
    mpz_clears(a, b, NULL);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_chosen_widths),   cmocka_unit_test(test_random_widths),
        cmocka_unit_test(test_words),           cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_chains_of_words), cmocka_unit_test(test_chains_of_pieces),
    };
    return cmocka_run_group_tests_name("gmp", tests, begin_random, end_random);
}
