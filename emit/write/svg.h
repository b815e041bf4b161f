/* Writes drawings as SVG 1.1: a document with its title and description, and the few shapes that
 * drawings here are made of. Lengths are in pixels of the drawing, x to the right, y downward;
 * text stays text, there are no scripts and nothing is fetched.
 *
 * The attributes of a shape are written as they stand: `fill="none" stroke="black"`. They come from
 * the program only, never from a user; titles, descriptions and texts may hold anything and are
 * escaped. Where shapes are only measured, the stream is NULL. Write errors show in the stream (ferror); files_open_one (write/files.h) gives one whose
 * file appears whole or not at all. */
#ifndef SUMWRIGHT_WRITE_SVG_H
#define SUMWRIGHT_WRITE_SVG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

/* Opens the document: its size, what it shows in a few words, and in a sentence or more for those
 * who cannot see it. White ground, black sans-serif text of 12 pixels unless attributes say
 * otherwise. */
void svg_begin(FILE *out, double width, double height, const char *title, const char *description);
void svg_end(FILE *out);

/* Shapes until svg_group_end have these attributes where they have none of their own. */
void svg_group(FILE *out, const char *attributes);
void svg_group_end(FILE *out);

void svg_line(FILE *out, double x1, double y1, double x2, double y2, const char *attributes);
void svg_rect(FILE *out, double x, double y, double width, double height, const char *attributes);
void svg_circle(FILE *out, double x, double y, double radius, const char *attributes);

/* A path: svg_path begins it, svg_to adds a step (its letter, M or L, and where to), svg_path_end
 * ends it: closed (a last letter Z) or open. A curve (C, two points to lead it and where to) is
 * three steps, the letters of the second and third a blank. */
void svg_path(FILE *out, const char *attributes);
void svg_to(FILE *out, char step, double x, double y);
void svg_path_end(FILE *out, bool closed);

/* One line of text whose baseline begins at x, y (text-anchor="middle" or "end": is centred, or
 * ends, there). */
void svg_text(FILE *out, double x, double y, const char *attributes, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* About how wide a text of this size in pixels is in any usual sans-serif font: rather too much
 * than too little, so that what is placed by it does not overlap. */
double svg_text_width(const char *text, double size);

/* How many bytes of the text fit so many pixels: whole words, or as much of the first word as
 * fits, one byte at least. The text is ASCII. */
size_t svg_text_fits(const char *text, double size, double room);

#endif
