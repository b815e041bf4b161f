/* The model, and the columns worked by hand with their verdict, against worked examples as printed
 * in textbooks, a data sheet and a standard. All are from memory: the numbers, not the wording, and
 * not the page. */
#include "all_operations.h"
#include "model/model.h"
#include "work/story.h"

enum { NOT_SHOWN = -1 };

/* An example as printed. The carry and overflow that a book does not show are NOT_SHOWN; an answer
 * that it gives as the right number shows that there is no overflow. */
typedef struct {
    unsigned width;
    Operation operation;
    const char *a, *b; /* binary, most significant bit first */
    const char *result;
    int carry, overflow;
} Example;

static uint64_t from_binary(const char *digits) {
    uint64_t value = 0;
    for (; *digits != '\0'; digits++)
        value = 2 * value + (*digits == '1');
    return value;
}

static void shown(const Example *e, const char *what, int printed, bool model) {
    if (printed != NOT_SHOWN && printed != (int)model)
        fail_msg("%s %s %s: %s printed %d, the model says %d", e->a, operation_name(e->operation),
                 e->b, what, printed, model);
}

/* The example worked column by column: the result that is printed, and a verdict on overflow and on
 * carry or borrow as the source gives it. */
static void check_working(const Example *e, const Unit *unit, const Word *a, const Word *b) {
    Working working;
    Story story;
    working_compute(unit, (int)e->operation, a, b, false, &working);
    story_tell(&working, &story);
    assert_int_equal(working.sum.limb[0], from_binary(e->result));
    assert_string_equal(story.verdict.line[1].label, "two's complement");
    assert_string_equal(story.verdict.line[2].label, "unsigned");
    shown(e, "verdict in two's complement", e->overflow, story.verdict.line[1].tone == TONE_BAD);
    /* A carry that is no borrow says that all is well. */
    bool reversed = e->operation == OP_SUB && unit->sense == SENSE_NO_BORROW;
    bool told = story.verdict.line[2].tone == TONE_BAD;
    shown(e, "verdict unsigned", e->carry, told != reversed);
    story_free(&story);
}

/* sense: whether the source shows the carry of a subtraction as the adder gives it, or a borrow. */
static void check(const Example *examples, size_t count, Sense sense) {
    for (const Example *e = examples; e < examples + count; e++) {
        Unit unit;
        Word a, b;
        Outcome outcome;
        all_operations(&unit, e->width, sense, OVERFLOW_WRAP);
        word_set(&a, e->width, from_binary(e->a));
        word_set(&b, e->width, from_binary(e->b));
        model_outcome(&unit, (int)e->operation, &a, &b, 0, &outcome);
        if (outcome.result.limb[0] != from_binary(e->result))
            fail_msg("%s %s %s: printed %s, the model says %#llx", e->a,
                     operation_name(e->operation), e->b, e->result,
                     (unsigned long long)outcome.result.limb[0]);
        shown(e, "carry", e->carry, outcome.flag[FLAG_CARRY]);
        shown(e, "overflow", e->overflow, outcome.flag[FLAG_OVERFLOW]);
        check_working(e, &unit, &a, &b);
    }
}

#define COUNT(examples) (sizeof(examples) / sizeof(examples)[0])

/* From memory: W. Stallings, "Computer Organization and Architecture", chapter on computer
 * arithmetic, the figures of addition and of subtraction of numbers in two's complement. */
static void test_stallings(void **state) {
    (void)state;
    static const Example examples[] = {
        {4, OP_ADD, "1001", "0101", "1110", 0, 0}, /* -7 + 5 = -2 */
        {4, OP_ADD, "1100", "0100", "0000", 1, 0}, /* -4 + 4 = 0 */
        {4, OP_ADD, "0011", "0100", "0111", 0, 0}, /* 3 + 4 = 7 */
        {4, OP_ADD, "1100", "1111", "1011", 1, 0}, /* -4 + -1 = -5 */
        {4, OP_ADD, "0101", "0100", "1001", 0, 1}, /* 5 + 4 overflows */
        {4, OP_ADD, "1001", "1010", "0011", 1, 1}, /* -7 + -6 overflows */
        {4, OP_SUB, "0010", "0111", "1011", 0, 0}, /* 2 - 7 = -5 */
        {4, OP_SUB, "0101", "0010", "0011", 1, 0}, /* 5 - 2 = 3 */
        {4, OP_SUB, "1011", "0010", "1001", 1, 0}, /* -5 - 2 = -7 */
        {4, OP_SUB, "0101", "1110", "0111", 0, 0}, /* 5 - -2 = 7 */
        {4, OP_SUB, "0111", "1001", "1110", 0, 1}, /* 7 - -7 overflows */
        {4, OP_SUB, "1010", "0100", "0110", 1, 1}, /* -6 - 4 overflows */
    };
    check(examples, COUNT(examples), SENSE_NO_BORROW);
}

/* From memory: D. M. Harris and S. L. Harris, "Digital Design and Computer Architecture", chapter
 * 1, the examples of two's complement addition, subtraction and overflow. */
static void test_harris_and_harris(void **state) {
    (void)state;
    static const Example examples[] = {
        {4, OP_ADD, "1110", "0001", "1111", NOT_SHOWN, 0}, /* -2 + 1 = -1 */
        {4, OP_ADD, "1001", "0111", "0000", 1, 0},         /* -7 + 7 = 0 */
        {4, OP_SUB, "0101", "0011", "0010", 1, 0},         /* 5 - 3 = 2 */
        {4, OP_SUB, "0011", "0101", "1110", NOT_SHOWN, 0}, /* 3 - 5 = -2 */
        {4, OP_ADD, "0100", "0101", "1001", NOT_SHOWN, 1}, /* 4 + 5 overflows to -7 */
    };
    check(examples, COUNT(examples), SENSE_NO_BORROW);
}

/* From memory: M. M. Mano and M. D. Ciletti, "Digital Design", chapter 1: complements and signed
 * binary numbers; chapter 4: overflow. An end carry in X - Y says X >= Y. */
static void test_mano_and_ciletti(void **state) {
    (void)state;
    static const Example examples[] = {
        {7, OP_SUB, "1010100", "1000011", "0010001", 1, NOT_SHOWN},    /* X - Y: 84 - 67 */
        {7, OP_SUB, "1000011", "1010100", "1101111", 0, NOT_SHOWN},    /* Y - X: 67 - 84 */
        {8, OP_ADD, "00000110", "00001101", "00010011", 0, 0},         /* 6 + 13 = 19 */
        {8, OP_ADD, "11111010", "00001101", "00000111", NOT_SHOWN, 0}, /* -6 + 13 = 7 */
        {8, OP_ADD, "00000110", "11110011", "11111001", NOT_SHOWN, 0}, /* 6 + -13 = -7 */
        {8, OP_ADD, "11111010", "11110011", "11101101", NOT_SHOWN, 0}, /* -6 + -13 = -19 */
        {8, OP_ADD, "01000110", "01010000", "10010110", 0, 1},         /* 70 + 80 */
        {8, OP_ADD, "10111010", "10110000", "01101010", 1, 1},         /* -70 + -80 */
        {8, OP_SUB, "11111010", "11110011", "00000111", 1, 0},         /* -6 - -13 = 7 */
    };
    check(examples, COUNT(examples), SENSE_NO_BORROW);
}

/* From memory: J. F. Wakerly, "Digital Design: Principles and Practices", chapter 2: the tables of
 * binary additions and subtractions with their carries and borrows, and the two's complement
 * additions with and without overflow. */
static void test_wakerly(void **state) {
    (void)state;
    static const Example examples[] = {
        {8, OP_ADD, "10111110", "10001101", "01001011", 1, NOT_SHOWN}, /* 190 + 141 = 331 */
        {8, OP_ADD, "10101101", "00101100", "11011001", 0, NOT_SHOWN}, /* 173 + 44 = 217 */
        {8, OP_ADD, "01111111", "00111111", "10111110", 0, NOT_SHOWN}, /* 127 + 63 = 190 */
        {8, OP_ADD, "10101010", "01010101", "11111111", 0, NOT_SHOWN}, /* 170 + 85 = 255 */
        {8, OP_SUB, "11100101", "00101110", "10110111", 0, NOT_SHOWN}, /* 229 - 46 = 183 */
        {8, OP_SUB, "11010010", "01101101", "01100101", 0, NOT_SHOWN}, /* 210 - 109 = 101 */
        {8, OP_SUB, "10101010", "01010101", "01010101", 0, NOT_SHOWN}, /* 170 - 85 = 85 */
        {8, OP_SUB, "11011101", "01001100", "10010001", 0, NOT_SHOWN}, /* 221 - 76 = 145 */
        {4, OP_ADD, "0011", "0100", "0111", 0, 0},                     /* 3 + 4 = 7 */
        {4, OP_ADD, "1110", "1010", "1000", 1, 0},                     /* -2 + -6 = -8 */
        {4, OP_ADD, "0110", "1101", "0011", 1, 0},                     /* 6 + -3 = 3 */
        {4, OP_ADD, "0100", "1001", "1101", 0, 0},                     /* 4 + -7 = -3 */
        {4, OP_ADD, "1101", "1010", "0111", 1, 1},                     /* -3 + -6 overflows */
        {4, OP_ADD, "0101", "0110", "1011", 0, 1},                     /* 5 + 6 overflows */
        {4, OP_ADD, "1000", "1000", "0000", 1, 1},                     /* -8 + -8 overflows */
        {4, OP_ADD, "0111", "0111", "1110", 0, 1},                     /* 7 + 7 overflows */
    };
    check(examples, COUNT(examples), SENSE_BORROW);
}

/* From memory: D. A. Patterson and J. L. Hennessy, "Computer Organization and Design", chapter 3,
 * addition and subtraction: 7 + 6 and 7 - 6 on 32-bit words. */
static void test_patterson_and_hennessy(void **state) {
    (void)state;
    static const Example examples[] = {
        {32, OP_ADD, "0111", "0110", "1101", NOT_SHOWN, 0},
        {32, OP_SUB, "0111", "0110", "0001", NOT_SHOWN, 0},
    };
    check(examples, COUNT(examples), SENSE_NO_BORROW);
}

/* Two columns of the adder by the data sheet's table, C0 low and C0 high: the carry out of them
 * (bit 2) and their two sums, for every two bits of a and of b. */
static const unsigned pair[2][4][4] = {
    {{0, 1, 2, 3}, {1, 2, 3, 4}, {2, 3, 4, 5}, {3, 4, 5, 6}},
    {{1, 2, 3, 4}, {2, 3, 4, 5}, {3, 4, 5, 6}, {4, 5, 6, 7}},
};

/* From memory: data sheets of the 4-bit binary full adder with fast carry, type 283 of the 7400
 * series: C4 and S4 to S1 for every input, by its function table on the columns 1 and 2 and then,
 * with C2, on 3 and 4. */
static void test_four_bit_adder_function_table(void **state) {
    (void)state;
    Unit unit;
    all_operations(&unit, 4, SENSE_NO_BORROW, OVERFLOW_WRAP);
    for (unsigned input = 0; input < 512; input++) {
        unsigned a = input & 15, b = input >> 4 & 15, c0 = input >> 8;
        unsigned low = pair[c0][a & 3][b & 3];
        unsigned high = pair[low >> 2][a >> 2][b >> 2];
        Word word_a, word_b;
        Outcome outcome;
        word_set(&word_a, 4, a);
        word_set(&word_b, 4, b);
        model_outcome(&unit, OP_ADC, &word_a, &word_b, c0, &outcome);
        assert_int_equal(outcome.result.limb[0], (high & 3) << 2 | (low & 3));
        assert_int_equal(outcome.flag[FLAG_CARRY], high >> 2);
    }
}

/* From memory: the example of the same data sheets, one set of levels read twice. Active high,
 * 10 + 9 = 19; active low, carry + 5 + 6 = 12. */
static void test_four_bit_adder_example(void **state) {
    (void)state;
    Unit unit;
    Word a, b;
    Outcome outcome;
    all_operations(&unit, 4, SENSE_NO_BORROW, OVERFLOW_WRAP);
    word_set(&a, 4, from_binary("1010"));
    word_set(&b, 4, from_binary("1001"));
    model_outcome(&unit, OP_ADC, &a, &b, 0, &outcome);
    assert_int_equal(outcome.result.limb[0], from_binary("0011"));
    assert_true(outcome.flag[FLAG_CARRY]);
    word_set(&a, 4, from_binary("0101"));
    word_set(&b, 4, from_binary("0110"));
    model_outcome(&unit, OP_ADC, &a, &b, 1, &outcome);
    assert_int_equal(outcome.result.limb[0], from_binary("1100"));
    assert_false(outcome.flag[FLAG_CARRY]);
}

/* From memory: RFC 1071, "Computing the Internet Checksum" (R. Braden, D. Borman, C. Partridge),
 * section 3: the 16-bit words 0001 f203 f4f5 f6f7 sum to 2ddf0, and with the carries added in at
 * the other end to ddf2. */
static void test_internet_checksum(void **state) {
    (void)state;
    static const uint64_t words[] = {0x0001, 0xf203, 0xf4f5, 0xf6f7};
    Unit narrow, wide;
    Outcome sum16, sum32;
    all_operations(&narrow, 16, SENSE_NO_BORROW, OVERFLOW_WRAP);
    all_operations(&wide, 32, SENSE_NO_BORROW, OVERFLOW_WRAP);
    word_zero(&sum16.result, 16);
    word_zero(&sum32.result, 32);
    sum16.flag[FLAG_CARRY] = false;
    for (size_t k = 0; k < COUNT(words); k++) {
        Word word;
        word_set(&word, 16, words[k]);
        Outcome before = sum16;
        model_outcome(&narrow, OP_ADC, &before.result, &word, before.flag[FLAG_CARRY], &sum16);
        word_set(&word, 32, words[k]);
        before.result = sum32.result;
        model_outcome(&wide, OP_ADD, &before.result, &word, 0, &sum32);
    }
    assert_int_equal(sum32.result.limb[0], 0x2ddf0);
    Word zero;
    word_zero(&zero, 16);
    Word last = sum16.result;
    model_outcome(&narrow, OP_ADC, &last, &zero, sum16.flag[FLAG_CARRY], &sum16);
    assert_int_equal(sum16.result.limb[0], 0xddf2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_stallings),
        cmocka_unit_test(test_harris_and_harris),
        cmocka_unit_test(test_mano_and_ciletti),
        cmocka_unit_test(test_wakerly),
        cmocka_unit_test(test_patterson_and_hennessy),
        cmocka_unit_test(test_four_bit_adder_function_table),
        cmocka_unit_test(test_four_bit_adder_example),
        cmocka_unit_test(test_internet_checksum),
    };
    return cmocka_run_group_tests_name("textbook", tests, NULL, NULL);
}
