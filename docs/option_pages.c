/* What docs/ has from the table of options, for docs/make.sh: a list of the manual page, or a whole
 * completion.
 *
 *   option_pages man unit       the options that every command takes, as mdoc
 *   option_pages man COMMAND    those that it takes beside them
 *   option_pages bash|zsh|fish  the completion for that shell
 *   option_pages operations     the operations as a table of docs/conventions.md */
#include "base/memory.h"
#include "options/table.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* ---- questions about an option -------------------------------------------------------------- */

static bool is_for_all(const Option *option) {
    bool all = true;
    for (int k = 0; k < COMMAND_COUNT; k++)
        all = all && option_is_for(option, (Command)k);
    return all;
}

static bool takes(const Option *option, const char *argument) {
    return option->argument != NULL && strcmp(option->argument, argument) == 0;
}

/* The roles of pins, each once: of units that differ in what pins are called. */
static void list_roles(FILE *out) {
    static Unit unit;
    const char *between = "";
    for (int pin = 0; pin < PIN_COUNT; pin++) {
        unit_init(&unit);
        unit.choice[0].operation = OP_ADD;
        unit.choice[1].operation = OP_SUB;
        const char *first = unit_role(&unit, (Pin)pin);
        unit.choice[1].operation = OP_RSB;
        unit.reset_low = true;
        const char *second = unit_role(&unit, (Pin)pin);
        fprintf(out, "%s%s=", between, first);
        if (strcmp(first, second) != 0)
            fprintf(out, " %s=", second);
        between = " ";
    }
}

/* What a shell can offer for the option's text, with blanks between; false where it is anything. */
static bool list_values(const Option *option, FILE *out) {
    if (takes(option, "ROLE=NAME"))
        list_roles(out);
    else if (option->kind == OPTION_NUMBER && option->most - option->least == 1)
        fprintf(out, "%d %d", (int)option->least, (int)option->most);
    else if (option->value_count == 0)
        return false;
    const char *between = "";
    for (int k = 0; k < option->value_count; k++) {
        const char *name = option->values[k].name;
        if (name == NULL)
            continue;
        size_t length = strlen(name); /* of depth=N, depth= */
        length -= length > 2 && strcmp(name + length - 2, "=N") == 0;
        fprintf(out, "%s%.*s", between, (int)length, name);
        between = " ";
    }
    return true;
}

/* The same as a text, "" where it is anything; freed by memory_free(). */
static char *values_of(const Option *option) {
    char text[4096] = "";
    FILE *out = fmemopen(text, sizeof text, "w");
    if (out == NULL || (list_values(option, out), fclose(out) != 0))
        exit(EXIT_FAILURE);
    return memory_text("%s", text);
}

/* ---- the manual page ------------------------------------------------------------------------ */

enum { LINE = 95 };

/* One word, in column 0 where a line begins; a name of an option becomes a macro on a line of its
 * own. Returns the column behind it. */
static int man_word(const char *word, int length, int column) {
    if (length > 2 && strncmp(word, "--", 2) == 0) {
        int name = (int)strcspn(word, " .,;:)");
        printf("%s.Fl %.*s", column > 0 ? "\n" : "", name - 1, word + 1);
        for (int k = name; k < length; k++)
            printf(" %c", word[k]);
        putchar('\n');
        return 0;
    }
    bool folds = column > 0 && column + 1 + length > LINE;
    if (column > 0)
        putchar(folds ? '\n' : ' ');
    printf("%.*s", length, word);
    return (column > 0 && !folds ? column + 1 : 0) + length;
}

/* Sentences; the first letter large, a full stop at the end. */
static void man_sentences(const char *before, const char *text) {
    char *whole = memory_text("%s%s%s", before, text, text[strlen(text) - 1] == '.' ? "" : ".");
    whole[0] = (char)toupper((unsigned char)whole[0]);
    int column = 0;
    for (const char *word = whole; *word != '\0'; word += strspn(word, " ")) {
        int length = (int)strcspn(word, " ");
        column = man_word(word, length, column);
        word += length;
        if (column > 0 && word[-1] == '.' && isupper((unsigned char)word[word[0] == ' '])) {
            putchar('\n'); /* a sentence begins a line, as mdoc wants it */
            column = 0;
        }
    }
    if (column > 0)
        putchar('\n');
    memory_free(whole);
}

static void man_argument(const char *argument) {
    const char *equals = strchr(argument, '=');
    if (equals != NULL)
        printf(" Ar %.*s Ns = Ns Ar %s", (int)(equals - argument), argument, equals + 1);
    else
        printf(" Ar %s", argument);
}

static void man_option(const Option *option) {
    printf(".It Fl -%s", option->name);
    if (option->argument != NULL)
        man_argument(option->argument);
    putchar('\n');
    man_sentences("", option->meaning);
    if (option->value_count > 0) {
        puts(".Bl -tag -width saturate-unsigned -compact");
        for (int k = 0; k < option->value_count; k++)
            if (option->values[k].name != NULL)
                printf(".It Cm %s\n%s\n", option->values[k].name, option->values[k].meaning);
        puts(".El");
    }
    if (option->more != NULL)
        man_sentences("", option->more);
    if (option->standard != NULL)
        man_sentences("default: ", option->standard);
}

static void man(const char *whose) {
    puts(".Bl -tag -width Ds");
    for (const Option *option = options_table; option < options_table + options_count; option++) {
        bool wanted = strcmp(whose, "unit") == 0 && is_for_all(option);
        for (int k = 0; k < COMMAND_COUNT; k++)
            wanted = wanted || (strcmp(whose, command_name((Command)k)) == 0 &&
                                option_is_for(option, (Command)k) && !is_for_all(option));
        if (wanted)
            man_option(option);
    }
    puts(".El");
}

/* ---- completions ---------------------------------------------------------------------------- */

/* The text up to a semicolon, to stand between single quotes; what is escaped gets a backslash. */
static void describe(const char *text, const char *escaped) {
    for (const char *c = text; *c != '\0' && *c != ';'; c++) {
        if (*c == '\'')
            fputs("'\\'", stdout);
        else if (strchr(escaped, *c) != NULL)
            putchar('\\');
        putchar(*c);
    }
}

static void bash_option(const Option *option) {
    char *values = values_of(option);
    const char *between = "    ";
    for (int k = 0; k < (is_for_all(option) ? 1 : COMMAND_COUNT); k++) {
        if (!option_is_for(option, (Command)k))
            continue;
        const char *name = is_for_all(option) ? "*" : command_name((Command)k);
        printf("%s%s:--%s", between, name, option->name);
        between = " | ";
    }
    if (values[0] != '\0')
        printf(") values=\"%s\" ;;\n", values);
    else if (takes(option, "DIR") || takes(option, "FILE"))
        printf(") paths=-%c ;;\n", takes(option, "DIR") ? 'd' : 'f');
    else
        puts(") return ;;");
    memory_free(values);
}

/* The options of a list, and the one that ends in =, whose values go on behind what is offered. */
static void bash_open(void) {
    const char *between = "    ";
    for (int k = 0; k < options_count; k++)
        if ((takes(&options_table[k], "LIST") && options_table[k].value_count > 0)) {
            printf("%s--%s", between, options_table[k].name);
            between = " | ";
        }
    puts(")\n      items=${word%\"${word##*,}\"}\n      compopt -o nospace 2>/dev/null\n      ;;\n"
         "    --port) compopt -o nospace 2>/dev/null ;;");
}

static void bash(void) {
    fputs("# bash completion for sumwright; made by docs/make.sh\n_sumwright() {\n"
          "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}\n"
          "  local values= items= paths=\n  COMPREPLY=()\n"
          "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n    COMPREPLY=($(compgen -W \"",
          stdout);
    for (int k = 0; k < COMMAND_COUNT; k++)
        printf("%s ", command_name((Command)k));
    puts("--help --version\" -- \"$word\"))\n    return\n  fi\n  case ${COMP_WORDS[1]}:$before in");
    for (int k = 0; k < options_count; k++)
        if (options_table[k].argument != NULL)
            bash_option(&options_table[k]);
    for (int k = 0; k < COMMAND_COUNT; k++) {
        printf("    %s:*) values=\"", command_name((Command)k));
        for (int o = 0; o < options_count; o++)
            if (option_is_for(&options_table[o], (Command)k))
                printf("--%s ", options_table[o].name);
        puts("\" ;;");
    }
    puts("  esac\n  # What is no option is a design of check.\n"
         "  if [ \"${COMP_WORDS[1]}\" = check ] && [[ $word != -* && $values = --* ]]; then\n"
         "    paths=-f\n  fi\n  if [ -n \"$paths\" ]; then\n"
         "    COMPREPLY=($(compgen \"$paths\" -- \"$word\"))\n    return\n  fi\n"
         "  # In a comma list the last item is completed, and another may follow.\n"
         "  case $before in");
    bash_open();
    puts("  esac\n  COMPREPLY=($(compgen -P \"$items\" -W \"$values\" -- "
         "\"${word#\"$items\"}\"))\n}\n"
         "complete -F _sumwright sumwright");
}

static void zsh_option(const Option *option, const char *indent) {
    char *values = values_of(option);
    printf("%s'%s--%s[", indent, option->repeatable && option->argument != NULL ? "*" : "",
           option->name);
    describe(option->meaning, "[]:\\");
    putchar(']');
    if (option->argument != NULL) {
        const char *path = takes(option, "DIR")    ? "_files -/"
                           : takes(option, "FILE") ? "_files"
                                                   : "";
        printf(":%s:", option->argument);
        if (values[0] != '\0' && takes(option, "LIST"))
            printf("_values -s , item %s", values);
        else
            printf(values[0] != '\0' ? "(%s)" : "%s", values[0] != '\0' ? values : path);
    }
    puts("'");
    memory_free(values);
}

static void zsh(void) {
    fputs("#compdef sumwright\n# zsh completion for sumwright; made by docs/make.sh\n\n"
          "if ((CURRENT == 2)); then\n  _values 'command'",
          stdout);
    for (int k = 0; k < COMMAND_COUNT; k++) {
        printf(" '%s[", command_name((Command)k));
        describe(command_summary((Command)k), "[]:\\");
        fputs("]'", stdout);
    }
    puts(" '--help' '--version'\n  return\nfi\nshift words\n((CURRENT--))\nlocal -a unit "
         "own\nunit=(");
    for (int k = 0; k < options_count; k++)
        if (is_for_all(&options_table[k]))
            zsh_option(&options_table[k], "  ");
    puts(")\ncase $words[1] in");
    for (int k = 0; k < COMMAND_COUNT; k++) {
        printf("  %s)\n    own=(\n", command_name((Command)k));
        for (int o = 0; o < options_count; o++)
            if (option_is_for(&options_table[o], (Command)k) && !is_for_all(&options_table[o]))
                zsh_option(&options_table[o], "      ");
        if (command_operands((Command)k) != NULL)
            printf("      '*:operand:%s'\n", k == COMMAND_CHECK ? "_files" : "");
        puts("    )\n    ;;");
    }
    puts("esac\n_arguments $unit $own");
}

static void fish_option(const Option *option) {
    char *values = values_of(option);
    fputs("complete -c sumwright -n '__fish_seen_subcommand_from", stdout);
    for (int k = 0; k < COMMAND_COUNT; k++)
        if (option_is_for(option, (Command)k))
            printf(" %s", command_name((Command)k));
    printf("' -l %s", option->name);
    if (takes(option, "FILE"))
        fputs(" -r -F", stdout);
    else if (takes(option, "DIR"))
        fputs(" -x -a '(__fish_complete_directories)'", stdout);
    else if (option->argument != NULL)
        fputs(" -x", stdout);
    if (values[0] != '\0')
        printf(takes(option, "LIST") ? " -a '(__fish_append , %s)'" : " -a '%s'", values);
    fputs(" -d '", stdout);
    describe(option->meaning, "\\");
    puts("'");
    memory_free(values);
}

static void fish(void) {
    puts("# fish completion for sumwright; made by docs/make.sh\ncomplete -c sumwright -f");
    for (int k = 0; k < COMMAND_COUNT; k++) {
        printf("complete -c sumwright -n __fish_use_subcommand -a %s -d '",
               command_name((Command)k));
        describe(command_summary((Command)k), "\\");
        puts("'");
    }
    puts("complete -c sumwright -n __fish_use_subcommand -l help -d 'show the commands'\n"
         "complete -c sumwright -n __fish_use_subcommand -l version -d 'show the version'\n"
         "complete -c sumwright -n '__fish_seen_subcommand_from check' -F");
    for (int k = 0; k < options_count; k++)
        fish_option(&options_table[k]);
}

/* ---- a table -------------------------------------------------------------------------------- */

static const char *addend_text(Addend addend) {
    switch (addend) {
    case ADDEND_A:
        return "a";
    case ADDEND_NOT_A:
        return "not a";
    case ADDEND_B:
        return "b";
    case ADDEND_NOT_B:
        return "not b";
    case ADDEND_ZEROS:
        return "0";
    case ADDEND_ONES:
        return "not 0";
    }
    return "";
}

static const char *first_text(const OperationFacts *facts) {
    if (facts->first != ENTERS_CIN)
        return facts->first == ENTERS_1 ? "1" : "0";
    return facts->subtracts ? "`cin`; its complement where the sense is `borrow`" : "`cin`";
}

static void operations(void) {
    puts("\n| operation | result modulo 2^n | X | Y | first carry | `carry` "
         "|\n|---|---|---|---|---|---|");
    for (int op = 0; op < OP_COUNT; op++) {
        const OperationFacts *facts = operation_facts((Operation)op);
        printf("| `%s` | ", facts->name);
        for (const char *c = facts->formula; *c != '\0'; c++)
            *c == '-' ? fputs("\xe2\x88\x92", stdout) : putchar(*c); /* a minus */
        bool still = facts->y == ADDEND_ZEROS && facts->first == ENTERS_0 && !facts->subtracts;
        printf(" | %s | %s | %s | %s |\n", addend_text(facts->x), addend_text(facts->y),
               first_text(facts),
               still              ? "0: nothing is added"
               : facts->subtracts ? "no borrow, or borrow, by the sense"
                                  : "carry");
    }
    putchar('\n');
}

int main(int argc, char **argv) {
    const char *what = argc > 1 ? argv[1] : "";
    if (argc == 3 && strcmp(what, "man") == 0)
        man(argv[2]);
    else if (strcmp(what, "bash") == 0)
        bash();
    else if (strcmp(what, "zsh") == 0)
        zsh();
    else if (strcmp(what, "fish") == 0)
        fish();
    else if (strcmp(what, "operations") == 0)
        operations();
    else
        return EXIT_FAILURE;
    return EXIT_SUCCESS;
}
