/* A unit is valid by construction whoever fills it in: what the command line would never write is
 * refused by unit_settle with its reason, and what is not refused keeps every promise of unit.h. */
#include "unit/unit.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static Unit unit;

static void refused(const char *words) {
    Problem problem = {STATUS_DONE, ""};
    if (unit_settle(&unit, &problem))
        fail_msg("taken, nothing about '%s'", words);
    assert_int_equal(problem.status, STATUS_INVALID);
    if (strstr(problem.text, words) == NULL)
        fail_msg("nothing about '%s' in: %s", words, problem.text);
    assert_null(strstr(problem.text, "--")); /* options are the command line's */
    unit_init(&unit);
}

static void list(int count, const Operation *operations) {
    unit.choice_count = count;
    for (int k = 0; k < count; k++)
        unit.choice[k].operation = operations[k];
}

static void test_numbers(void **state) {
    (void)state;
    unit_init(&unit);
    unit.width = 5000;
    refused("`width` cannot be 5000; it is a whole number from 1 to 4096");
    unit.width = UINT32_MAX;
    refused("`width` cannot be 4294967295");
    unit.structure = STRUCTURE_DEPTH;
    refused("`structure` cannot be 0");
    unit.structure = STRUCTURE_DEPTH;
    unit.depth = 5000;
    refused("`structure` cannot be 5000");
    unit.structure = STRUCTURE_DEPTH;
    unit.depth = 2;
    refused("use depth=3 or more");
}

static void test_operations(void **state) {
    (void)state;
    unit_init(&unit);
    unit.choice_count = OP_COUNT + 1;
    refused("`operations` cannot be 10 operations; there are 9");
    unit.choice_count = -1;
    refused("cannot be -1 operations");
    list(2, (const Operation[]){OP_ADD, OP_ADD});
    refused("`operations` lists add twice");
    list(2, (const Operation[]){OP_ADD, (Operation)OP_COUNT});
    refused("no operation number 9");
    list(2, (const Operation[]){OP_ADD, (Operation)-1});
    refused("no operation number 4294967295");
}

static void test_codes(void **state) {
    (void)state;
    unit_init(&unit);
    list(2, (const Operation[]){OP_ADD, OP_SUB});
    unit.code_bits = 2;
    unit.choice[1].code = 4;
    refused("sub in `operations` has the code 4, which does not fit 2 bits");
    list(2, (const Operation[]){OP_ADD, OP_SUB});
    unit.code_bits = 1;
    refused("add and sub in `operations` have the same code");
    list(2, (const Operation[]){OP_ADD, OP_SUB});
    unit.code_bits = UNIT_CODE_BITS_MAX + 1;
    refused("from 1 to 16");
    list(3, (const Operation[]){OP_ADD, OP_SUB, OP_INC});
    unit.code_bits = 2;
    unit.choice[1].code = 1;
    unit.choice[2].code = 2;
    unit.control = CONTROL_ONE_HOT;
    refused("has no op field");
}

static void test_values(void **state) {
    (void)state;
    unit_init(&unit);
    unit.control = (Control)CONTROL_COUNT;
    refused("`control` has no value number 6; it is fixed, high, low, one-hot or code");
    unit.sense = (Sense)SENSE_COUNT;
    refused("`subtract-carry` has no value number 2");
    unit.overflow = (Overflow)-1;
    refused("`overflow` has no value number");
    unit.structure = (Structure)STRUCTURE_COUNT;
    refused("`structure` has no value number");
    unit.detail = (Detail)DETAIL_COUNT;
    refused("`detail` has no value number");
    unit.registers = (Registers)REGISTERS_COUNT;
    refused("`registers` has no value number");
    unit.reset = (Reset)RESET_COUNT;
    refused("`reset` has no value number");
}

static void test_names(void **state) {
    (void)state;
    unit_init(&unit);
    strcpy(unit.name, "endmodule");
    refused("module name 'endmodule' is a Verilog keyword");
    strcpy(unit.name, "8bit");
    refused("module name '8bit' is not a Verilog name");
    memset(unit.name, 'n', sizeof unit.name);
    refused("module name does not end");
    strcpy(unit.pin[PIN_A], "reg");
    refused("pin name 'reg' is a Verilog keyword");
    strcpy(unit.pin[PIN_RESULT], "a b");
    refused("pin name 'a b' is not a Verilog name");
    memset(unit.pin[PIN_LINE], 'n', sizeof unit.pin[PIN_LINE]);
    refused("pin name does not end");
    strcpy(unit.pin[PIN_B], "a");
    refused("pins a and b have one name");
}

/* ---- any bytes ---------------------------------------------------------------------------- */

static uint64_t random_state;

/* xorshift64 (G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software, 2003). */
static uint64_t draw(uint64_t below) {
    random_state ^= random_state << 13;
    random_state ^= random_state >> 7;
    random_state ^= random_state << 17;
    return random_state % below;
}

/* A bool holds 0 or 1 in C, whatever else is wrong. */
static void random_bytes(void) {
    unsigned char *byte = (unsigned char *)&unit;
    for (size_t k = 0; k < sizeof unit; k++)
        byte[k] = (unsigned char)draw(256);
    unsigned char truth[FLAG_COUNT];
    for (int flag = 0; flag < FLAG_COUNT; flag++)
        truth[flag] = (unsigned char)draw(2);
    memcpy(unit.flag, truth, sizeof truth);
    memcpy(&unit.reset_low, truth, 1);
    memcpy(&unit.enable, truth + 1, 1);
}

/* A small number mostly, of which most are right for an enum; rarely any at all. */
static unsigned some(void) {
    return draw(40) == 0 ? (unsigned)draw(UINT32_MAX) : (unsigned)draw(6);
}

static void random_name(char name[UNIT_NAME_MAX + 1]) {
    static const char *const names[] = {"", "", "", "", "a", "b", "x", "reg", "4x", "WIDTH", "$"};
    strcpy(name, names[draw(sizeof names / sizeof *names)]);
}

/* Mostly right, so that many are taken. */
static void random_unit(void) {
    unit_init(&unit);
    unit.width = draw(8) == 0 ? (unsigned)draw(5000) : (unsigned)draw(20);
    unit.choice_count = (int)draw(OP_COUNT + 2);
    for (int k = 0; k < OP_COUNT; k++) {
        int place = (k + (int)draw(3)) % OP_COUNT; /* often one twice */
        unit.choice[k] = (Choice){(Operation)(draw(3) == 0 ? place : k), some()};
    }
    unit.code_bits = draw(2) == 0 ? 0 : some();
    unit.control = (Control)(draw(2) == 0 ? CONTROL_UNSET : some());
    unit.sense = (Sense)(draw(2) == 0 ? SENSE_BORROW : some());
    unit.overflow = (Overflow)(draw(2) == 0 ? OVERFLOW_WRAP : some());
    unit.structure = (Structure)draw(STRUCTURE_COUNT + 1);
    unit.depth = some();
    unit.detail = (Detail)(draw(2) == 0 ? DETAIL_UNSET : some());
    unit.registers = (Registers)draw(REGISTERS_COUNT);
    unit.reset = (Reset)(draw(2) == 0 ? RESET_UNSET : some());
    unit.enable = draw(8) == 0;
    unit.reset_low = draw(8) == 0;
    unit.flag[FLAG_HALF_CARRY] = draw(2) == 0;
    random_name(unit.name);
    for (int pin = 0; pin < PIN_COUNT; pin++)
        if (draw(8) == 0)
            random_name(unit.pin[pin]);
}

static void name_is_good(const char name[UNIT_NAME_MAX + 1]) {
    Problem problem = {STATUS_DONE, ""};
    assert_non_null(memchr(name, '\0', UNIT_NAME_MAX + 1));
    assert_true(unit_check_name(name, "name", &problem));
}

static void choices_are_good(void) {
    assert_in_range(unit.choice_count, 1, OP_COUNT);
    for (int k = 0; k < unit.choice_count; k++) {
        assert_in_range(unit.choice[k].operation, 0, OP_COUNT - 1);
        assert_true(unit_control_choice(&unit, unit_control_value(&unit, k)) == k);
        for (int other = 0; other < k; other++)
            assert_int_not_equal(unit.choice[k].operation, unit.choice[other].operation);
    }
    unsigned bits = unit_control_bits(&unit);
    assert_in_range(bits, 0, UNIT_CODE_BITS_MAX);
    for (int k = 0; k < unit.choice_count; k++)
        assert_true(unit_control_value(&unit, k) >> bits == 0);
    assert_int_equal(unit.control == CONTROL_CODE, unit.code_bits > 0);
}

static void pins_are_good(void) {
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        assert_int_equal(unit_has(&unit, (Pin)pin), unit.pin[pin][0] != '\0');
        if (unit.pin[pin][0] == '\0')
            continue;
        name_is_good(unit.pin[pin]);
        name_is_good(unit_role(&unit, (Pin)pin));
        assert_in_range(unit_pin_bits(&unit, (Pin)pin), 1, UNIT_WIDTH_MAX);
        assert_string_not_equal(unit.pin[pin], unit.name);
        for (int other = 0; other < pin; other++)
            assert_string_not_equal(unit.pin[pin], unit.pin[other]);
    }
}

/* Every promise of unit.h about a settled unit. */
static void unit_is_good(void) {
    name_is_good(unit.name);
    assert_in_range(unit.width, 1, UNIT_WIDTH_MAX);
    choices_are_good();
    assert_in_range(unit.control, CONTROL_UNSET + 1, CONTROL_COUNT - 1);
    assert_in_range(unit.sense, 0, SENSE_COUNT - 1);
    assert_in_range(unit.overflow, 0, OVERFLOW_COUNT - 1);
    assert_in_range(unit.structure, 0, STRUCTURE_COUNT - 1);
    assert_int_equal(structure_facts(unit.structure)->has_number, unit.depth > 0);
    assert_in_range(unit.detail, DETAIL_UNSET + 1, DETAIL_COUNT - 1);
    assert_in_range(unit.registers, 0, REGISTERS_COUNT - 1);
    assert_in_range(unit.reset, RESET_UNSET + 1, RESET_COUNT - 1);
    assert_in_range(unit_latency(&unit), 0, 2);
    assert_true(!unit.flag[FLAG_HALF_CARRY] || unit.width >= 4);
    assert_true(unit.registers != REGISTERS_NONE ||
                (!unit.enable && !unit.reset_low && unit.reset == RESET_NONE));
    pins_are_good();
}

/* Any bytes are refused or become a unit that is good, and stays as it is when it is settled again.
 */
static void test_any_bytes(void **state) {
    (void)state;
    static Unit again;
    random_state = 20261129;
    int taken = 0;
    for (int round = 0; round < 40000; round++) {
        if (round % 20 == 0)
            random_bytes();
        else
            random_unit();
        Problem problem = {STATUS_DONE, ""};
        bool good = unit_settle(&unit, &problem);
        assert_int_equal(good, problem.status == STATUS_DONE);
        assert_int_equal(good, problem.text[0] == '\0');
        if (!good)
            continue;
        taken++;
        unit_is_good();
        again = unit;
        assert_true(unit_settle(&again, &problem));
        assert_memory_equal(&unit, &again, sizeof unit);
    }
    assert_in_range(taken, 500, 39500); /* both ways have been gone */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_numbers), cmocka_unit_test(test_operations),
        cmocka_unit_test(test_codes),   cmocka_unit_test(test_values),
        cmocka_unit_test(test_names),   cmocka_unit_test(test_any_bytes),
    };
    return cmocka_run_group_tests_name("settle", tests, NULL, NULL);
}
