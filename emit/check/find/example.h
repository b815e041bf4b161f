/* A mismatching case worked column by column: what went in, what came out, what should have. */
#ifndef SUMWRIGHT_CHECK_FIND_EXAMPLE_H
#define SUMWRIGHT_CHECK_FIND_EXAMPLE_H

#include "check/find/mistakes.h"

#include <stdio.h>

/* The diagnosis' example, each line indented by two blanks. */
void example_print(const Evidence *evidence, const Diagnosis *diagnosis, FILE *out);

/* "sub 3, 1" of a case, and the lowest result column that is wrong in it (-1: none). */
void example_operation(const Evidence *evidence, size_t k, char *text, size_t room);
int example_column(const Evidence *evidence, const Diagnosis *diagnosis);

#endif
