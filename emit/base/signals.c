/* See signals.h. */
#include "base/signals.h"

#include <stddef.h>

static const int numbers[SIGNALS_COUNT] = {SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGCHLD, SIGALRM};

static void (*cleaner)(void);         /* what on_end() calls */
static volatile sig_atomic_t caught;  /* the signal that is to end this process, or 0 */
static volatile sig_atomic_t ringing; /* SIGALRM has come */

static sigset_t set_of(int count) {
    sigset_t set;
    sigemptyset(&set);
    for (int k = 0; k < count; k++)
        sigaddset(&set, numbers[k]);
    return set;
}

void signals_block(sigset_t *before) {
    sigset_t set = set_of(SIGNALS_ENDING);
    sigprocmask(SIG_BLOCK, &set, before);
}

void signals_unblock(const sigset_t *before) {
    sigprocmask(SIG_SETMASK, before, NULL);
}

static void restore(const Signals *before, int count) {
    for (int k = 0; k < count; k++)
        sigaction(numbers[k], &before->action[k], NULL);
}

/* ---- leaving nothing behind ---------------------------------------------------------------- */

/* SA_RESETHAND has restored the default action, so the signal raised again ends the program once
 * the handler returns. */
static void on_end(int number) {
    cleaner();
    raise(number);
}

void signals_clean_up(Signals *before, void (*clean_up)(void)) {
    signals_block(&before->mask);
    cleaner = clean_up;
    struct sigaction action = {
        .sa_handler = on_end, .sa_flags = (int)SA_RESETHAND, .sa_mask = set_of(SIGNALS_ENDING)};
    for (int k = 0; k < SIGNALS_ENDING; k++) {
        sigaction(numbers[k], NULL, &before->action[k]);
        if (before->action[k].sa_handler != SIG_IGN)
            sigaction(numbers[k], &action, NULL);
    }
    signals_unblock(&before->mask);
}

void signals_clean_up_no_more(const Signals *before) {
    restore(before, SIGNALS_ENDING);
}

/* ---- waiting for processes ----------------------------------------------------------------- */

static void remember(int number) {
    if (number == SIGALRM)
        ringing = 1;
    else if (number != SIGCHLD)
        caught = number;
}

void signals_take(Signals *before) {
    sigset_t all = set_of(SIGNALS_COUNT);
    sigprocmask(SIG_BLOCK, &all, &before->mask);
    caught = 0;
    ringing = 0;
    struct sigaction action = {.sa_handler = remember};
    sigemptyset(&action.sa_mask);
    for (int k = 0; k < SIGNALS_COUNT; k++) {
        sigaction(numbers[k], NULL, &before->action[k]);
        if (before->action[k].sa_handler != SIG_IGN || k >= SIGNALS_ENDING)
            sigaction(numbers[k], &action, NULL);
    }
}

void signals_wait(const Signals *before) {
    sigset_t open = before->mask;
    for (int k = 0; k < SIGNALS_COUNT; k++)
        sigdelset(&open, numbers[k]);
    sigsuspend(&open);
}

int signals_caught(void) {
    return caught;
}

bool signals_rang(void) {
    return ringing != 0;
}

void signals_give_back(const Signals *before) {
    restore(before, SIGNALS_COUNT);
    if (caught != 0)
        raise(caught); /* takes effect when the mask is back */
    sigprocmask(SIG_SETMASK, &before->mask, NULL);
}

void signals_default(const Signals *before) {
    for (int k = 0; k < SIGNALS_COUNT; k++)
        signal(numbers[k], SIG_DFL);
    sigprocmask(SIG_SETMASK, &before->mask, NULL);
}
