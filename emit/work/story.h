/* What there is to say about a worked operation, in words: the verdict, each number in both
 * readings, how a negative result is read back, the flags and why. All of it is plain ASCII. */
#ifndef SUMWRIGHT_WORK_STORY_H
#define SUMWRIGHT_WORK_STORY_H

#include "work/working.h"

/* The tone of a line's first word. */
typedef enum { TONE_PLAIN, TONE_GOOD, TONE_BAD } Tone;

/* A line: "signed", "OVERFLOW: 100 - (-50) = 150 is above 127, ..." */
typedef struct {
    char *label;
    char *text;
    Tone tone;
} StoryLine;

/* A number of the operation, in decimal in both readings. */
typedef struct {
    const char *label;
    char *as_unsigned;
    char *as_signed;
} StoryNumber;

enum { STORY_LINES_MAX = FLAG_COUNT, STORY_NUMBERS_MAX = 5 };

/* Lines under a heading; without lines there is nothing to say. */
typedef struct {
    const char *heading;
    StoryLine line[STORY_LINES_MAX];
    int count;
} StoryPart;

typedef struct {
    char *title;       /* "sub: a - b, added as a + not b + 1" */
    char *unit;        /* "addsub8, 8 bits" */
    char *first_carry; /* why the first carry is what it is */
    StoryPart verdict;
    StoryNumber number[STORY_NUMBERS_MAX];
    int number_count;
    StoryPart back; /* a result below 0 read back */
    StoryPart flags;
} Story;

/* Tells it; story_free frees what the story owns. */
void story_tell(const Working *working, Story *story);
void story_free(Story *story);

/* "column 3: 1 + 0 + carry 1 = 0, carry 1"; the caller frees it. */
char *story_step(const Working *working, unsigned column);

/* The word in one short form: "100", or "-50, unsigned 206". The caller frees it. */
char *story_both_readings(const Word *word);

/* A long decimal number shortened to its ends, "12345678...87654321 (1234 digits)"; others as they
 * are. The caller frees it. */
char *story_shorten(const char *digits);

#endif
