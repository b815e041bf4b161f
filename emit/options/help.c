/* The help of a command, from the table. See options.h. */
#include "options/table.h"

#include "base/memory.h"

#include <string.h>

enum { HELP_INDENT = 26, HELP_WIDTH = 92 };

/* Words of text, wrapped between the indent and the width, from column on. */
static void wrap(FILE *out, const char *text, int column) {
    while (*text != '\0') {
        int length = (int)strcspn(text, " ");
        if (column > HELP_INDENT && column + 1 + length > HELP_WIDTH) {
            fprintf(out, "\n%*s", HELP_INDENT, "");
            column = HELP_INDENT;
        } else if (column > HELP_INDENT) {
            fputc(' ', out);
            column++;
        }
        fprintf(out, "%.*s", length, text);
        column += length;
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', out);
}

static void help_option(const Option *option, FILE *out) {
    int column = fprintf(out, "  --%s%s%s", option->name, option->argument != NULL ? " " : "",
                         option->argument != NULL ? option->argument : "");
    fprintf(out, "%*s", column < HELP_INDENT ? HELP_INDENT - column : 1, "");
    bool list = option->argument != NULL && strcmp(option->argument, "LIST") == 0;
    char *values = values_text(option->values, option->value_count, list ? " and " : " or ");
    char *text = memory_text("%s%s%s%s%s%s", option->meaning, values[0] == '\0' ? "" : ": ", values,
                             option->standard == NULL ? "" : " [",
                             option->standard == NULL ? "" : option->standard,
                             option->standard == NULL ? "" : "]");
    wrap(out, text, HELP_INDENT);
    memory_free(text);
    memory_free(values);
}

void options_help(Command command, FILE *out) {
    const char *operands = command_operands(command);
    fprintf(out, "usage: sumwright %s [options]%s%s\n\n", command_name(command),
            operands != NULL ? " " : "", operands != NULL ? operands : "");
    for (int k = 0; k < options_count; k++)
        if (option_is_for(&options_table[k], command))
            help_option(&options_table[k], out);
    fprintf(out, "\nIn brackets: what holds when the option is not given.\n");
}
