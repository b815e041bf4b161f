/* In place of the C library's calloc and realloc, for a program that is linked with --wrap: from a
 * call on that is chosen, they find no memory. */
#ifndef SUMWRIGHT_TESTS_ALLOCATE_H
#define SUMWRIGHT_TESTS_ALLOCATE_H

/* Counts calls from now on; the one of this number, from 1 on, fails, and all after it. 0: none
 * fails. Before it is called, the number is the environment variable FAILING, if there is one. */
void fail_at(long call);

#endif
