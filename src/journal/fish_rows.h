/* Arithmetic of rows of fish: who joins or leaves takes his weight along. */
#ifndef LEAT_JOURNAL_FISH_ROWS_H
#define LEAT_JOURNAL_FISH_ROWS_H

#include "base/arena.h"
#include "farm/records.h"

/* Sums over the fish of a row. */
typedef struct FishSums {
    double heads;
    double sum_g;
    double squares_g2;
} FishSums;

FishSums fish_sums_of(const Fish *row);

/* Adds (sign 1) or takes away (sign -1) the part's fish: count, mean and spread
 * of the row follow. A row that is left without fish keeps its mean. */
void fish_row_change(Fish *row, const Fish *part, double sign);

/* A batch that stands in several tanks is a row in each: the later ones take
 * the tank into their name, since ids are unique. */
void fish_rows_tell_apart(Farm *farm, Arena *arena);

#endif
