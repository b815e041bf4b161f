/* The library's calls (library/sumwright.h): what they refuse and in which words; that what they make
 * is what the program makes; that memory may run out at any moment, which the sanitizers watch for
 * leaks; that threads do not disturb one another. */
#include "library/sumwright.h"

#include "unit/short_of_memory/allocate.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static sumwright_unit *unit_of(const char *width, const char *structure, const char *detail) {
    const sumwright_field fields[] = {{"detail", detail},    {"structure", structure},
                                      {"width", width},      {"operations", "add,sbc,neg"},
                                      {"flags", "all"},      {"vectors", "20"},
                                      {"registers", "both"}, {"enable", NULL}};
    sumwright_unit *unit = NULL;
    sumwright_error error;
    if (sumwright_unit_from_fields(fields, sizeof fields / sizeof fields[0], &unit, &error) !=
        SUMWRIGHT_DONE)
        fail_msg("%s", error.message);
    assert_string_equal(error.message, "");
    return unit;
}

/* ---- what is refused ----------------------------------------------------------------------- */

static void refuses(sumwright_field field, const char *words) {
    sumwright_unit *unit = NULL;
    sumwright_error error;
    assert_int_equal(sumwright_unit_from_fields(&field, 1, &unit, &error), SUMWRIGHT_INVALID);
    assert_null(unit);
    if (strstr(error.message, words) == NULL || strstr(error.message, "--") != NULL)
        fail_msg("%s=%s: %s", field.name, field.value, error.message);
    assert_int_equal(sumwright_unit_from_fields(&field, 1, &unit, NULL), SUMWRIGHT_INVALID);
}

static void test_refused_fields(void **state) {
    (void)state;
    refuses((sumwright_field){"width", "5000"}, "width");
    refuses((sumwright_field){"width", NULL}, "field width lacks its value");
    refuses((sumwright_field){"widht", "8"}, "there is no field 'widht'");
    refuses((sumwright_field){"out", "."}, "there is no field 'out'");
    refuses((sumwright_field){"templates", "."}, "there is no field 'templates'");
    refuses((sumwright_field){"help", NULL}, "there is no field 'help'");
    refuses((sumwright_field){"operations", "add,add"}, "add");
    refuses((sumwright_field){"name", "module"}, "module");
    refuses((sumwright_field){"enable", "yes"}, "enable takes no value");
    refuses((sumwright_field){"control", "fixed"}, "control");
}

static void test_refused_options(void **state) {
    (void)state;
    const char *const options[] = {"--width", "5000"}, *const help[] = {"--help"};
    sumwright_unit *unit = NULL;
    sumwright_error error;
    assert_int_equal(sumwright_unit_from_options(options, 2, &unit, &error), SUMWRIGHT_INVALID);
    assert_non_null(strstr(error.message, "--width"));
    assert_int_equal(sumwright_unit_from_options(options, 1, &unit, &error), SUMWRIGHT_INVALID);
    assert_int_equal(sumwright_unit_from_options(help, 1, &unit, &error), SUMWRIGHT_INVALID);
    assert_null(unit);
    assert_int_equal(sumwright_unit_from_options(NULL, 0, &unit, &error), SUMWRIGHT_DONE);
    assert_string_equal(sumwright_unit_name(unit), "addsub8");
    sumwright_unit_free(unit);
    assert_int_equal(sumwright_unit_from_fields(NULL, 0, &unit, &error), SUMWRIGHT_DONE);
    assert_int_equal(sumwright_unit_width(unit), 8);
    sumwright_unit_free(unit);
    sumwright_unit_free(NULL);
    sumwright_circuit_free(NULL);
    sumwright_free(NULL);
}

static void test_refused_examples(void **state) {
    (void)state;
    static const sumwright_example wrong[] = {{"rsb", "1", "2", -1},  {NULL, "1", NULL, -1},
                                              {"neg", "1", "2", -1},  {NULL, "1", "2", 1},
                                              {NULL, "256", "2", -1}, {NULL, NULL, NULL, -1}};
    static const char *const words[] = {
        "operation cannot be 'rsb'", "takes 2 operands", "takes 1 operand",
        "does not read cin",         "0 to 255",         "takes 2 operands"};
    sumwright_unit *unit = unit_of("8", "ripple", "cells");
    for (size_t k = 0; k < sizeof wrong / sizeof wrong[0]; k++) {
        char *text = NULL;
        sumwright_error error;
        assert_int_equal(sumwright_work(unit, &wrong[k], 0, &text, &error), SUMWRIGHT_INVALID);
        assert_null(text);
        assert_int_equal(sumwright_drawing(unit, &wrong[k], 0, &text, NULL), SUMWRIGHT_INVALID);
        if (strstr(error.message, words[k]) == NULL || strstr(error.message, "--") != NULL)
            fail_msg("%s", error.message);
    }
    sumwright_unit_free(unit);
}

/* ---- everything there is to make ----------------------------------------------------------- */

enum { TEXTS = 5 };
typedef struct {
    char *text[TEXTS];
} Texts;

static void free_texts(Texts *texts) {
    for (int k = 0; k < TEXTS; k++)
        sumwright_free(texts->text[k]);
}

static sumwright_status make_texts(const char *structure, const char *detail, Texts *texts) {
    static const sumwright_example example = {"sbc", "5", "-3", 1};
    const char *const options[] = {"--width=6", "--structure", structure,
                                   "--detail",  detail,        "--flags",
                                   "all",       "--vectors=9", "--operations=add,sbc,neg"};
    sumwright_unit *unit = NULL;
    sumwright_circuit *circuit = NULL;
    *texts = (Texts){{NULL}};
    char **text = texts->text;
    sumwright_status status = sumwright_unit_from_options(options, 9, &unit, NULL);
    if (status == SUMWRIGHT_DONE)
        status = sumwright_circuit_make(unit, &circuit, NULL);
    if (status == SUMWRIGHT_DONE)
        status = sumwright_verilog(circuit, &text[0], NULL);
    if (status == SUMWRIGHT_DONE)
        status = sumwright_testbench(unit, &text[1], NULL);
    if (status == SUMWRIGHT_DONE)
        status = sumwright_vectors(unit, &text[2], NULL);
    if (status == SUMWRIGHT_DONE)
        status = sumwright_work(unit, &example, 1, &text[3], NULL);
    if (status == SUMWRIGHT_DONE)
        status = sumwright_drawing(unit, &example, strcmp(detail, "gates") == 0, &text[4], NULL);
    sumwright_circuit_free(circuit);
    sumwright_unit_free(unit);
    return status;
}

static char *output_of(const char *command) {
    char *text = calloc(1 << 22, 1);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    size_t got = fread(text, 1, (1 << 22) - 1, pipe);
    text[got] = '\0';
    assert_int_equal(pclose(pipe), 0);
    return text;
}

static void test_same_as_the_program(void **state) {
    (void)state;
    static const char *const details[] = {"cells", "gates"};
    for (int d = 0; d < 2; d++) {
        char line[2048];
        Texts texts;
        assert_int_equal(make_texts("brent-kung", details[d], &texts), SUMWRIGHT_DONE);
        snprintf(line, sizeof line,
                 "set -e; cd \"$(mktemp -d)\"; unit='--width 6 --structure brent-kung --detail %s "
                 "--flags all --operations add,sbc,neg'; s=%s; $s emit $unit --vectors 9 >log; "
                 "cat *.v *_tb.v *.vec >/dev/null; n=$(ls *.vec); n=${n%%.vec}; "
                 "cat $n.v ${n}_tb.v $n.vec; COLUMNS=80 $s work $unit --operation sbc --cin 1 "
                 "--steps 5 -3; $s draw $unit --cin 1 --example 5,-3,sbc --svg d.svg >log; "
                 "cat d.svg; rm -r \"$PWD\"",
                 details[d], SUMWRIGHT_PROGRAM);
        char *wanted = output_of(line), *at = wanted;
        for (int k = 0; k < TEXTS; k++) {
            size_t bytes = strlen(texts.text[k]);
            if (strncmp(at, texts.text[k], bytes) != 0)
                fail_msg("text %d, %s, is another:\n%.300s", k, details[d], texts.text[k]);
            at += bytes;
        }
        assert_string_equal(at, "");
        free(wanted);
        free_texts(&texts);
    }
}

/* Fails at each of the first blocks, and then at some of the others; the sanitizers find what is not
 * freed, and what is freed in a wrong way. */
static void short_of_memory(const char *structure, const char *detail) {
    Texts texts;
    long block = 1;
    for (;;) {
        fail_at(block);
        sumwright_status status = make_texts(structure, detail, &texts);
        fail_at(0);
        free_texts(&texts);
        if (status == SUMWRIGHT_DONE)
            break;
        assert_int_equal(status, SUMWRIGHT_NO_MEMORY);
        block += block < 100 ? 1 : 1 + block / 10;
    }
    assert_true(block > 100);
}

static void test_short_of_memory(void **state) {
    (void)state;
    short_of_memory("ripple", "cells");
    short_of_memory("kogge-stone", "nor");
    short_of_memory("brent-kung", "cells");
    short_of_memory("select", "nand");
    short_of_memory("skip", "gates");
    short_of_memory("lookahead", "cells");
}

/* ---- gates --------------------------------------------------------------------------------- */

static void test_gates(void **state) {
    (void)state;
    sumwright_unit *unit = unit_of("8", "ripple", "gates");
    sumwright_circuit *circuit = NULL;
    assert_int_equal(sumwright_circuit_make(unit, &circuit, NULL), SUMWRIGHT_DONE);
    unsigned gates = 0, carries = 0, inputs = 0;
    for (size_t k = 0; k < sumwright_node_count(circuit); k++) {
        sumwright_node node = sumwright_node_at(circuit, k);
        assert_int_equal(node.kind == SUMWRIGHT_CONSTANT, k == 0);
        inputs += node.kind == SUMWRIGHT_INPUT;
        if (node.kind < SUMWRIGHT_AND)
            continue;
        gates++;
        assert_true(node.input[0] / 2 < k && node.input[1] / 2 < k);
        carries += node.name != NULL && strcmp(node.name, "carry") == 0;
    }
    assert_int_equal(inputs, 8 + 8 + 1 + 2);
    assert_int_equal(gates, sumwright_circuit_cost(circuit).gates);
    assert_true(carries >= 7);
    assert_int_equal(sumwright_output_count(circuit), 8 + 8);
    assert_string_equal(sumwright_output_at(circuit, 0).name, "result");
    sumwright_circuit_free(circuit);
    sumwright_unit_free(unit);
}

/* ---- threads ------------------------------------------------------------------------------- */

static void *work(void *context) {
    const Texts *wanted = context;
    for (int round = 0; round < 10; round++) {
        Texts texts;
        if (make_texts("brent-kung", "cells", &texts) != SUMWRIGHT_DONE)
            return context;
        for (int k = 0; k < TEXTS; k++)
            if (strcmp(texts.text[k], wanted->text[k]) != 0)
                return context;
        free_texts(&texts);
    }
    return NULL;
}

static void test_threads(void **state) {
    (void)state;
    enum { THREADS = 4 };
    pthread_t thread[THREADS];
    Texts wanted;
    assert_int_equal(make_texts("brent-kung", "cells", &wanted), SUMWRIGHT_DONE);
    for (int k = 0; k < THREADS; k++)
        assert_int_equal(pthread_create(&thread[k], NULL, work, &wanted), 0);
    for (int k = 0; k < THREADS; k++) {
        void *failed = NULL;
        pthread_join(thread[k], &failed);
        assert_null(failed);
    }
    free_texts(&wanted);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_refused_fields),   cmocka_unit_test(test_refused_options),
        cmocka_unit_test(test_refused_examples), cmocka_unit_test(test_same_as_the_program),
        cmocka_unit_test(test_short_of_memory),  cmocka_unit_test(test_gates),
        cmocka_unit_test(test_threads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
