/* Any text as an operand of sumwright work, the first two bytes choosing the width and the
 * operation: it is refused in one plain line, or read back from what is printed of it it is the
 * same word, and the sheet of its example is plain text that fits the terminal.
 *   ./operand_fuzz -max_total_time=60 -max_len=1300 */
#include "model/number.h"
#include "work/sheet.h"

#include <stdlib.h>
#include <string.h>

static void check(bool good, const char *what) {
    if (good)
        return;
    fprintf(stderr, "wrong: %s\n", what);
    abort();
}

static bool is_plain(const char *text) {
    for (const char *c = text; *c != '\0'; c++)
        if (*c != '\n' && (*c < ' ' || *c > '~'))
            return false;
    return true;
}

static void reads_back(const char *text, const Word *word) {
    Problem problem = {STATUS_DONE, ""};
    Word again;
    check(number_read(text, word->width, "operand a", &again, &problem), problem.text);
    check(word_equal(word, &again), "another word");
}

/* The example of the word and its complement. */
static void work(unsigned width, Operation operation, const Word *a) {
    static Unit unit;
    Problem problem = {STATUS_DONE, ""};
    unit_init(&unit);
    unit.width = width;
    unit.choice_count = 1;
    unit.choice[0].operation = operation;
    check(unit_settle(&unit, &problem), problem.text);
    Word b;
    word_not(&b, a);
    Working working;
    Story story;
    working_compute(&unit, 0, a, &b, true, &working);
    story_tell(&working, &story);
    char *text = NULL;
    size_t bytes = 0;
    FILE *out = open_memstream(&text, &bytes);
    check(out != NULL, "no memory");
    Terminal terminal = {out, TERMINAL_COLUMNS, false};
    sheet_write(&working, &story, width <= 64, &terminal);
    fclose(out);
    check(strlen(text) == bytes && is_plain(text), "not plain text");
    for (const char *line = text; *line != '\0'; line += strcspn(line, "\n") + 1)
        check(strcspn(line, "\n") <= TERMINAL_COLUMNS, "a line is too long");
    free(text);
    story_free(&story);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    if (size < 2)
        return 0;
    unsigned width = 1 + (data[0] * 16u + data[1]) % UNIT_WIDTH_MAX;
    char *text = malloc(size - 1);
    if (text == NULL)
        return 0;
    memcpy(text, data + 2, size - 2);
    text[size - 2] = '\0';
    Problem problem = {STATUS_DONE, ""};
    Word word;
    if (number_read(text, width, "operand a", &word, &problem)) {
        char digits[NUMBER_BYTES];
        number_unsigned(&word, digits);
        reads_back(digits, &word);
        number_signed(&word, digits);
        reads_back(digits, &word);
        work(width, (Operation)(data[1] % OP_COUNT), &word);
    } else {
        check(problem.status == STATUS_INVALID, "refused without a reason");
        check(is_plain(problem.text) && strchr(problem.text, '\n') == NULL, "not one plain line");
    }
    free(text);
    return 0;
}
