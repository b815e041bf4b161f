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

/* A row of bits of the worked table. */
typedef struct {
    const char *label;
    const Word *word;   /* the working's */
    bool shows_value;   /* its value is said beside it, where there is room */
    const char *remark; /* said where the value is not; NULL for nothing */
} StoryRow;

/* A number of the operation in decimal, unsigned and in two's complement. */
typedef struct {
    const char *label;
    char *reading[2];
} StoryNumber;

/* STORY_ROWS_MAX: two at the pins, two that are added, the sum and the result. */
enum {
    STORY_LINES_MAX = FLAG_COUNT > 4 ? FLAG_COUNT : 4,
    STORY_NUMBERS_MAX = 5,
    STORY_ROWS_MAX = 6
};

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
    /* From the top: the operands at the pins, where the adder sees one of them inverted; X and Y;
     * what is delivered, below the sum where that saturates. */
    StoryRow row[STORY_ROWS_MAX];
    int row_x, row_sum, row_count; /* where the rows of X and of the sum are, and how many */
    StoryPart verdict;
    StoryNumber number[STORY_NUMBERS_MAX];
    int number_count;
    StoryPart back; /* a result below 0 read back */
    StoryPart flags;
} Story;

/* "unsigned", "two's complement" */
extern const char *const story_readings[2];

/* Tells it; story_free frees what the story owns. The working must outlive the story. */
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
