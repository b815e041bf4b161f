/* The signals that end the program from outside, and those that a parent of processes waits for:
 * the one place that knows them. A signal that is ignored (nohup, a shell's background job) stays
 * ignored. One user at a time: signals_clean_up() and signals_take() do not nest. */
#ifndef SUMWRIGHT_BASE_SIGNALS_H
#define SUMWRIGHT_BASE_SIGNALS_H

#include <signal.h>
#include <stdbool.h>

/* SIGINT, SIGTERM, SIGHUP and SIGQUIT end; then SIGCHLD and SIGALRM. */
enum { SIGNALS_ENDING = 4, SIGNALS_COUNT = 6 };

/* What the signals did before. */
typedef struct {
    sigset_t mask;
    struct sigaction action[SIGNALS_COUNT];
} Signals;

/* ---- leaving nothing behind ---- */

/* From now on a signal that ends calls clean_up(), which may call only what POSIX lists as safe in a
 * handler, and then ends the program as it would have. */
void signals_clean_up(Signals *before, void (*clean_up)(void));
void signals_clean_up_no_more(const Signals *before);

/* Those that end wait while something changes that clean_up() looks at. */
void signals_block(sigset_t *before);
void signals_unblock(const sigset_t *before);

/* ---- waiting for processes ---- */

/* From now on all six wait, but for the time of signals_wait(), so that none comes at a wrong
 * moment, and are remembered, so that one seen is one known. */
void signals_take(Signals *before);

/* Until one of them comes; at once if one has come and waits. */
void signals_wait(const Signals *before);

/* Since signals_take(): which signal that ends has come, or 0; whether SIGALRM has. */
int signals_caught(void);
bool signals_rang(void);

/* As before; ends the program if a signal that ends has come. */
void signals_give_back(const Signals *before);

/* In a new process that will become another program: every one of the six does what it does by
 * default, and the mask is as it was. */
void signals_default(const Signals *before);

#endif
