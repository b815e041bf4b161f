/* JSON as RFC 8259 has it: what stands between values, and what becomes of any text. */
#include "write/json.h"

#include "unit/written.h"

static void test_objects_and_arrays_nest(void **state) {
    (void)state;
    Written written;
    written_open(&written);
    Json json = json_begin(written.out);
    json_object(&json, NULL);
    json_text(&json, "name", "addsub8");
    json_array(&json, "rows");
    json_object(&json, NULL);
    json_whole(&json, "gates", UINT64_MAX);
    json_truth(&json, "smallest", true);
    json_truth(&json, "shallowest", false);
    json_close(&json);
    json_null(&json, NULL);
    json_number(&json, NULL, 0.5, 2);
    json_close(&json);
    json_close(&json);
    assert_written(&written, "{\n"
                             "  \"name\": \"addsub8\",\n"
                             "  \"rows\": [\n"
                             "    {\n"
                             "      \"gates\": 18446744073709551615,\n"
                             "      \"smallest\": true,\n"
                             "      \"shallowest\": false\n"
                             "    },\n"
                             "    null,\n"
                             "    0.50\n"
                             "  ]\n"
                             "}\n");
}

static void test_nothing_in_it_takes_one_line(void **state) {
    (void)state;
    Written written;
    written_open(&written);
    Json json = json_begin(written.out);
    json_array(&json, NULL);
    json_object(&json, NULL);
    json_close(&json);
    json_array(&json, NULL);
    json_close(&json);
    json_close(&json);
    assert_written(&written, "[\n  {},\n  []\n]\n");
}

/* RFC 8259 section 7: the quotation mark, the backslash and the control characters. */
static void test_texts_are_escaped(void **state) {
    (void)state;
    Written written;
    written_open(&written);
    Json json = json_begin(written.out);
    json_object(&json, NULL);
    json_text(&json, "a\"b", "\\ \" / \n \x01 \x7f \xC3\xA9 \xF0\x9F\x8C\x8A");
    json_close(&json);
    assert_written(&written, "{\n  \"a\\\"b\": \"\\\\ \\\" / \\u000a \\u0001 \\u007f \xC3\xA9 "
                             "\xF0\x9F\x8C\x8A\"\n}\n");
}

/* A file's name may be any bytes; what is no UTF-8 (RFC 3629) becomes U+FFFD, byte by byte. */
static void test_other_bytes_become_the_replacement_character(void **state) {
    (void)state;
    static const struct {
        const char *given;
        const char *expected;
    } cases[] = {
        {"\xFF", "\"\\ufffd\"\n"},                                  /* no first byte */
        {"a\x80z", "\"a\\ufffdz\"\n"},                              /* a following byte alone */
        {"\xC3", "\"\\ufffd\"\n"},                                  /* cut short by the end */
        {"\xE2\x82", "\"\\ufffd\\ufffd\"\n"},                       /* the same, later */
        {"\xC0\xAF", "\"\\ufffd\\ufffd\"\n"},                       /* overlong / */
        {"\xED\xA0\x80", "\"\\ufffd\\ufffd\\ufffd\"\n"},            /* a surrogate */
        {"\xF4\x90\x80\x80", "\"\\ufffd\\ufffd\\ufffd\\ufffd\"\n"}, /* past U+10FFFF */
        {"\xF4\x8F\xBF\xBF", "\"\xF4\x8F\xBF\xBF\"\n"},             /* U+10FFFF itself */
    };
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        Written written;
        written_open(&written);
        Json json = json_begin(written.out);
        json_text(&json, NULL, cases[k].given);
        fputc('\n', written.out);
        assert_written(&written, cases[k].expected);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_objects_and_arrays_nest),
        cmocka_unit_test(test_nothing_in_it_takes_one_line),
        cmocka_unit_test(test_texts_are_escaped),
        cmocka_unit_test(test_other_bytes_become_the_replacement_character),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
