/* The parts that a set of vectors is made of, a file each, in the order in which vectors.c sends
 * them; private to this folder. */
#ifndef SUMWRIGHT_VECTORS_PARTS_H
#define SUMWRIGHT_VECTORS_PARTS_H

#include "vectors/generator.h"

void part_compact(Generator *generator);
void part_idle(Generator *generator);
void part_corners(Generator *generator);
void part_walks(Generator *generator);
void part_chains(Generator *generator);
void part_random(Generator *generator, const VectorPlan *plan);

#endif
