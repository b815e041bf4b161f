/* The smallest circuit of a unit, as a question to a satisfiability solver; for smallest_test.sh.
 *
 *   smallest write BASIS GATES UNIT ... >question.cnf   is there a circuit of so many gates?
 *   smallest read  BASIS GATES UNIT ... <answer         shows the circuit that the solver found,
 * and checks it on every input
 *
 * BASIS is any (two-input gates of any kind), nand or nor (both inputs of a gate may be the same
 * wire). UNIT is OPERATIONS WIDTH SENSE OUTPUTS, as in
 *
 *   add,sub 2 no-borrow result,carry,overflow
 *
 * with one operation, or two and a line that is 1 for the second; SENSE is that of the carry pins
 * in subtraction, in and out. A column between others of an adder-subtractor in borrow form is the
 * unit "adc,sbc 1 borrow result,carry".
 *
 * Ask for fewer gates first: the question is about the smallest circuits only (see rules.c). With
 * write-plain in place of write it is about all circuits, and takes longer to answer. */
#include "answer.h"

#include <stdlib.h>
#include <string.h>

int main(int argc, char **argv) {
    static Unit unit;
    static Question question;
    static const char *const bases[] = {"any", "nand", "nor"};
    if (argc != 8)
        stop("usage: smallest write|write-plain|read BASIS GATES OPERATIONS WIDTH SENSE OUTPUTS",
             "");
    Basis basis = (Basis)unit_word(&argv[2], bases, 3);
    int gates = atoi(argv[3]);
    if (gates < 1 || gates > GATES_MAX)
        stop("how many gates are ", argv[3]);
    unit_read(&unit, argv + 4, basis == BASIS_ANY);
    question_ask(&question, &unit, basis, gates);
    if (strcmp(argv[1], "write") == 0)
        question_restrict(&question);
    if (strcmp(argv[1], "read") == 0)
        answer_show(&question);
    else
        question_write(&question);
    question_free(&question);
    return 0;
}
