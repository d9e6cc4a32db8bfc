/* Invented planning problems for tests and the bench: a farm of so many beds
 * with a year that follows a sine, so that summer and winter differ.
 *
 * Everything in them is made up and stands for no real farm: beds are short in
 * winter, hours in summer, feed in spring. The same case gives the same
 * problem, bit for bit. */
#ifndef LEAT_PLAN_GENERATE_H
#define LEAT_PLAN_GENERATE_H

#include "base/arena.h"
#include "plan/problem.h"

enum { GENERATE_MOST_WAYS = 20, GENERATE_MOST_SHAPES = 3 };

typedef struct GenerateCase {
    uint64_t seed;
    int beds;     /* at least kinds */
    int kinds;    /* every second one has an edge */
    int sections; /* of a bed */
    int ways;     /* 1 .. GENERATE_MOST_WAYS */
    int shapes;   /* picking shapes of a way: 1 .. GENERATE_MOST_SHAPES */
    int loops;    /* at least 1 */
    int tanks;    /* of each loop; 0: no fish */
    int horizon;
    int tail;
    int stock_every; /* weeks from one stocking that is offered to the next */
    double crowding; /* demand against what beds give at mean growth */
    int seedlings;   /* batches of them standing in trays */
} GenerateCase;

/* A farm of that many beds, 52 weeks and a tail of 26, 20 ways. */
GenerateCase generate_case(int beds, uint64_t seed);

/* Two tanks, three ways, two beds, a batch of seedlings in trays, 10 weeks and
 * a tail of 6. */
GenerateCase generate_tiny_case(uint64_t seed);

/* The problem, in arena. */
void generate_problem(Arena *arena, const GenerateCase *farm, Problem *out);

#endif
