/* The model against the flags of the processor that runs this test, through inline assembly: its
 * own add, subtract, add with carry, subtract with borrow, compare, test and the others it has.
 *
 * x86-64: CF OF ZF SF AF PF at 8, 16, 32 and 64 bits, also of neg, inc, dec, cmp and test. sub with
 * its operands exchanged stands for rsb, test of a word with itself for pass. In subtraction CF
 * and AF are borrows, and PF is 1 for an even number of ones in the low byte. inc and dec do not
 * write CF: what must hold there is that it stays as it was; test leaves AF undefined. Source, from
 * memory: Intel 64 and IA-32 Architectures Software Developer's Manual, volume 2, the pages of ADD,
 * ADC, SUB, SBB, NEG, INC, DEC, CMP and TEST; volume 1, status flags.
 *
 * AArch64: NZCV of adds, subs, adcs, sbcs, negs, cmp and tst at 32 and 64 bits. In subtraction C is
 * 1 for no borrow. Source, from memory: Arm Architecture Reference Manual, the pages of these
 * instructions and AddWithCarry.
 *
 * Elsewhere there is nothing to compare with, and the test says so. */
#include "all_operations.h"
#include "model/model.h"

/* What the processor made of an instruction. Flags that it does not have are not read. */
typedef struct {
    uint64_t result;
    bool carry, overflow, zero, sign;
    bool half_carry, even_parity; /* x86-64 */
} Host;

/* What an instruction does not do. */
enum { KEEPS_CARRY = 1 /* does not write the carry flag */, NO_RESULT = 2, NO_HALF_CARRY = 4 };

/* An instruction at one width. It starts with the processor's carry flag at cin; one operand
 * instructions do not read b. */
typedef struct {
    const char *name;
    Operation operation;
    unsigned width;
    unsigned traits; /* of these: */
    Host (*run)(uint64_t a, uint64_t b, bool cin);
} Instruction;

#if defined(__x86_64__)

#define HOST_NAME  "x86-64"
#define HOST_SENSE SENSE_BORROW
#define HOST_X86   true

/* lahf: SF ZF 0 AF 0 PF 1 CF in bits 15 to 8; seto: OF in bits 7 to 0. */
static Host decode(uint64_t result, uint64_t ax) {
    return (Host){.result = result,
                  .carry = ax >> 8 & 1,
                  .even_parity = ax >> 10 & 1,
                  .half_carry = ax >> 12 & 1,
                  .zero = ax >> 14 & 1,
                  .sign = ax >> 15 & 1,
                  .overflow = ax & 1};
}

/* bt copies cin to CF. neg, inc and dec take their operand out of the same register as the others
 * and leave b alone. */
#define RUN(name, text, type)                                                                      \
    static Host name(uint64_t a, uint64_t b, bool cin) {                                           \
        type x = (type)a, y = (type)b;                                                             \
        uint32_t carry = cin;                                                                      \
        uint64_t ax;                                                                               \
        __asm__("btl $0, %[carry]\n\t" text "\n\tlahf\n\tseto %%al"                                \
                : [x] "+&r"(x), [y] "+&r"(y), "=&a"(ax)                                            \
                : [carry] "r"(carry)                                                               \
                : "cc");                                                                           \
        return decode(x, ax);                                                                      \
    }

#define RUN_AT_EVERY_WIDTH(name, operands)                                                         \
    RUN(name##_8, #name "b " operands, uint8_t)                                                    \
    RUN(name##_16, #name "w " operands, uint16_t)                                                  \
    RUN(name##_32, #name "l " operands, uint32_t)                                                  \
    RUN(name##_64, #name "q " operands, uint64_t)

RUN_AT_EVERY_WIDTH(add, "%[y], %[x]")
RUN_AT_EVERY_WIDTH(adc, "%[y], %[x]")
RUN_AT_EVERY_WIDTH(sub, "%[y], %[x]")
RUN_AT_EVERY_WIDTH(sbb, "%[y], %[x]")
RUN_AT_EVERY_WIDTH(neg, "%[x]")
RUN_AT_EVERY_WIDTH(inc, "%[x]")
RUN_AT_EVERY_WIDTH(dec, "%[x]")
RUN_AT_EVERY_WIDTH(cmp, "%[y], %[x]")
RUN_AT_EVERY_WIDTH(test, "%[x], %[x]")
RUN(rsb_8, "subb %[x], %[y]\n\tmovb %[y], %[x]", uint8_t)
RUN(rsb_16, "subw %[x], %[y]\n\tmovw %[y], %[x]", uint16_t)
RUN(rsb_32, "subl %[x], %[y]\n\tmovl %[y], %[x]", uint32_t)
RUN(rsb_64, "subq %[x], %[y]\n\tmovq %[y], %[x]", uint64_t)

static const Instruction instructions[] = {
    {"addb", OP_ADD, 8, false, add_8},
    {"addw", OP_ADD, 16, false, add_16},
    {"addl", OP_ADD, 32, false, add_32},
    {"addq", OP_ADD, 64, false, add_64},
    {"adcb", OP_ADC, 8, false, adc_8},
    {"adcw", OP_ADC, 16, false, adc_16},
    {"adcl", OP_ADC, 32, false, adc_32},
    {"adcq", OP_ADC, 64, false, adc_64},
    {"subb", OP_SUB, 8, false, sub_8},
    {"subw", OP_SUB, 16, false, sub_16},
    {"subl", OP_SUB, 32, false, sub_32},
    {"subq", OP_SUB, 64, false, sub_64},
    {"sbbb", OP_SBC, 8, false, sbb_8},
    {"sbbw", OP_SBC, 16, false, sbb_16},
    {"sbbl", OP_SBC, 32, false, sbb_32},
    {"sbbq", OP_SBC, 64, false, sbb_64},
    {"negb", OP_NEG, 8, false, neg_8},
    {"negw", OP_NEG, 16, false, neg_16},
    {"negl", OP_NEG, 32, false, neg_32},
    {"negq", OP_NEG, 64, false, neg_64},
    {"incb", OP_INC, 8, true, inc_8},
    {"incw", OP_INC, 16, true, inc_16},
    {"incl", OP_INC, 32, true, inc_32},
    {"incq", OP_INC, 64, true, inc_64},
    {"decb", OP_DEC, 8, true, dec_8},
    {"decw", OP_DEC, 16, true, dec_16},
    {"decl", OP_DEC, 32, true, dec_32},
    {"decq", OP_DEC, 64, true, dec_64},
    {"cmpb", OP_SUB, 8, NO_RESULT, cmp_8},
    {"cmpw", OP_SUB, 16, NO_RESULT, cmp_16},
    {"cmpl", OP_SUB, 32, NO_RESULT, cmp_32},
    {"cmpq", OP_SUB, 64, NO_RESULT, cmp_64},
    {"testb", OP_PASS, 8, NO_HALF_CARRY, test_8},
    {"testw", OP_PASS, 16, NO_HALF_CARRY, test_16},
    {"testl", OP_PASS, 32, NO_HALF_CARRY, test_32},
    {"testq", OP_PASS, 64, NO_HALF_CARRY, test_64},
    {"subb reversed", OP_RSB, 8, 0, rsb_8},
    {"subw reversed", OP_RSB, 16, 0, rsb_16},
    {"subl reversed", OP_RSB, 32, 0, rsb_32},
    {"subq reversed", OP_RSB, 64, 0, rsb_64},
};

#elif defined(__aarch64__)

#define HOST_NAME  "AArch64"
#define HOST_SENSE SENSE_NO_BORROW
#define HOST_X86   false

static Host decode(uint64_t result, uint64_t nzcv) {
    return (Host){.result = result,
                  .sign = nzcv >> 31 & 1,
                  .zero = nzcv >> 30 & 1,
                  .carry = nzcv >> 29 & 1,
                  .overflow = nzcv >> 28 & 1};
}

/* cmp with 1 leaves C at cin: no borrow in cin - 1. */
#define RUN(name, text, type)                                                                      \
    static Host name(uint64_t a, uint64_t b, bool cin) {                                           \
        type x = (type)a, y = (type)b, z;                                                          \
        uint32_t carry = cin;                                                                      \
        uint64_t nzcv;                                                                             \
        __asm__("cmp %w[carry], #1\n\t" text "\n\tmrs %[nzcv], nzcv"                               \
                : [z] "=&r"(z), [nzcv] "=&r"(nzcv)                                                 \
                : [x] "r"(x), [y] "r"(y), [carry] "r"(carry)                                       \
                : "cc");                                                                           \
        return decode(z, nzcv);                                                                    \
    }

#define RUN_AT_BOTH_WIDTHS(name)                                                                   \
    RUN(name##_32, #name " %w[z], %w[x], %w[y]", uint32_t)                                         \
    RUN(name##_64, #name " %x[z], %x[x], %x[y]", uint64_t)

RUN_AT_BOTH_WIDTHS(adds)
RUN_AT_BOTH_WIDTHS(adcs)
RUN_AT_BOTH_WIDTHS(subs)
RUN_AT_BOTH_WIDTHS(sbcs)
RUN(negs_32, "negs %w[z], %w[x]", uint32_t)
RUN(negs_64, "negs %x[z], %x[x]", uint64_t)
RUN(cmp_32, "cmp %w[x], %w[y]\n\tmov %w[z], wzr", uint32_t)
RUN(cmp_64, "cmp %x[x], %x[y]\n\tmov %x[z], xzr", uint64_t)
RUN(tst_32, "tst %w[x], %w[x]\n\tmov %w[z], %w[x]", uint32_t)
RUN(tst_64, "tst %x[x], %x[x]\n\tmov %x[z], %x[x]", uint64_t)
RUN(rsb_32, "subs %w[z], %w[y], %w[x]", uint32_t)
RUN(rsb_64, "subs %x[z], %x[y], %x[x]", uint64_t)

static const Instruction instructions[] = {
    {"adds w", OP_ADD, 32, false, adds_32},     {"adds x", OP_ADD, 64, false, adds_64},
    {"adcs w", OP_ADC, 32, false, adcs_32},     {"adcs x", OP_ADC, 64, false, adcs_64},
    {"subs w", OP_SUB, 32, false, subs_32},     {"subs x", OP_SUB, 64, false, subs_64},
    {"sbcs w", OP_SBC, 32, false, sbcs_32},     {"sbcs x", OP_SBC, 64, false, sbcs_64},
    {"negs w", OP_NEG, 32, false, negs_32},     {"negs x", OP_NEG, 64, false, negs_64},
    {"cmp w", OP_SUB, 32, NO_RESULT, cmp_32},   {"cmp x", OP_SUB, 64, NO_RESULT, cmp_64},
    {"tst w", OP_PASS, 32, 0, tst_32},          {"tst x", OP_PASS, 64, 0, tst_64},
    {"subs w reversed", OP_RSB, 32, 0, rsb_32}, {"subs x reversed", OP_RSB, 64, 0, rsb_64},
};

#endif

#ifdef HOST_NAME

enum { INSTRUCTIONS = sizeof instructions / sizeof instructions[0], RANDOM_PAIRS = 20000 };

/* One input of one instruction, and both outcomes. */
typedef struct {
    const Instruction *instruction;
    const Unit *unit;
    uint64_t a, b;
    bool cin;
    Host host;
    Outcome model;
} Run;

static void same(const Run *run, const char *what, bool host, bool model) {
    if (host != model)
        fail_msg("%s: %s is %d on " HOST_NAME ", the model says %d: a %#llx b %#llx cin %d",
                 run->instruction->name, what, host, model, (unsigned long long)run->a,
                 (unsigned long long)run->b, run->cin);
}

/* The conditions that programs branch on: signed less is sign != overflow; unsigned less, after a
 * compare, is the carry flag's borrow. */
static void compare_less(const Run *run) {
    const bool *flag = run->model.flag;
    same(run, "less-signed", run->host.sign != run->host.overflow, flag[FLAG_LESS_SIGNED]);
    if (operation_facts(run->instruction->operation)->subtracts &&
        (run->instruction->traits & KEEPS_CARRY) == 0) {
        bool borrow = HOST_SENSE == SENSE_BORROW ? run->host.carry : !run->host.carry;
        same(run, "less-unsigned", borrow, flag[FLAG_LESS_UNSIGNED]);
    }
}

static void compare_x86_flags(const Run *run) {
    Word low_byte;
    word_resize_unsigned(&low_byte, &run->model.result, 8);
    if ((run->instruction->traits & NO_HALF_CARRY) == 0)
        same(run, "half-carry", run->host.half_carry, run->model.flag[FLAG_HALF_CARRY]);
    same(run, "low byte's parity", !run->host.even_parity, word_parity(&low_byte));
    if (run->instruction->width == 8)
        same(run, "parity", !run->host.even_parity, run->model.flag[FLAG_PARITY]);
}

static void compare(Run *run) {
    unsigned width = run->instruction->width;
    Word a, b;
    word_set(&a, width, run->a);
    word_set(&b, width, run->b);
    model_outcome(run->unit, (int)run->instruction->operation, &a, &b, run->cin, &run->model);
    run->host = run->instruction->run(run->a, run->b, run->cin);

    const bool *flag = run->model.flag;
    if ((run->instruction->traits & NO_RESULT) == 0)
        same(run, "equality of results", true, run->host.result == run->model.result.limb[0]);
    same(run, "carry", run->host.carry,
         (run->instruction->traits & KEEPS_CARRY) != 0 ? run->cin : flag[FLAG_CARRY]);
    same(run, "overflow", run->host.overflow, flag[FLAG_OVERFLOW]);
    same(run, "zero", run->host.zero, flag[FLAG_ZERO]);
    same(run, "negative", run->host.sign, flag[FLAG_NEGATIVE]);
    compare_less(run);
    if (HOST_X86)
        compare_x86_flags(run);
}

static void both_carries(Run *run, uint64_t a, uint64_t b) {
    run->a = a;
    run->b = b;
    for (int cin = 0; cin < 2; cin++) {
        run->cin = cin;
        compare(run);
    }
}

static void every_byte(Run *run) {
    for (uint64_t a = 0; a < 256; a++)
        for (uint64_t b = 0; b < 256; b++)
            both_carries(run, a, b);
}

/* Around 0, the largest and the most negative number, and every power of two. */
static void corners(Run *run) {
    unsigned width = run->instruction->width;
    uint64_t mask = UINT64_MAX >> (64 - width);
    for (unsigned i = 0; i < 3 * width; i++)
        for (unsigned j = 0; j < 3 * width; j++) {
            uint64_t a = (UINT64_C(1) << i / 3) + i % 3 - 1;
            uint64_t b = (UINT64_C(1) << j / 3) + j % 3 - 1;
            both_carries(run, a & mask, b & mask);
            both_carries(run, ~a & mask, b & mask);
            both_carries(run, a & mask, ~b & mask);
        }
}

/* xorshift64 (G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software, 2003; from memory):
 * the same sequence in every run. */
static uint64_t next_random(uint64_t *x) {
    *x ^= *x << 13;
    *x ^= *x >> 7;
    *x ^= *x << 17;
    return *x;
}

static void random_words(Run *run) {
    uint64_t mask = UINT64_MAX >> (64 - run->instruction->width), seed = 4660;
    for (int i = 0; i < RANDOM_PAIRS; i++) {
        uint64_t a = next_random(&seed);
        uint64_t b = next_random(&seed);
        both_carries(run, a & mask, b & mask);
    }
}

static void test_flags_of_the_host(void **state) {
    (void)state;
    for (int i = 0; i < INSTRUCTIONS; i++) {
        Unit unit;
        Run run = {.instruction = &instructions[i], .unit = &unit};
        all_operations(&unit, instructions[i].width, HOST_SENSE, OVERFLOW_WRAP);
        if (instructions[i].width == 8)
            every_byte(&run);
        else
            corners(&run);
        random_words(&run);
    }
    print_message("compared with the flags of %s: %d instructions\n", HOST_NAME, INSTRUCTIONS);
}

#else

static void test_flags_of_the_host(void **state) {
    (void)state;
    print_message("did not run: this host is neither x86-64 nor AArch64\n");
    skip();
}

#endif

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_flags_of_the_host),
    };
    return cmocka_run_group_tests_name("host_cpu", tests, NULL, NULL);
}
