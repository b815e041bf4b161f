/* Words written as numbers: what a command line says, and what a reader is shown. */
#ifndef SUMWRIGHT_MODEL_NUMBER_H
#define SUMWRIGHT_MODEL_NUMBER_H

#include "base/problem.h"
#include "model/word.h"

#include <stdbool.h>

/* Room for the decimal digits of any Word (2^4098 has 1234), a sign and the terminating zero. */
enum { NUMBER_BYTES = 1240 };

/* Reads decimal digits with or without a leading -, or 0x and hexadecimal digits, or 0b and binary
 * digits, into a word of this width. Any value of either reading of the width is taken, from
 * -2^(width - 1) to 2^width - 1; any other, or anything else, is a problem of STATUS_INVALID that
 * names the range in both readings. what names the number in the message ("operand a"). */
bool number_read(const char *text, unsigned width, const char *what, Word *word, Problem *problem);

/* The word read as an unsigned number, and as a number in two's complement, in decimal. text has
 * room for NUMBER_BYTES. */
void number_unsigned(const Word *word, char *text);
void number_signed(const Word *word, char *text);

#endif
