/* What every look ahead stands on: the book with the farm's own figures in it,
 * and the farm's typical year. */
#ifndef LEAT_DESK_TYPICAL_H
#define LEAT_DESK_TYPICAL_H

#include "farm/book.h"
#include "farm/records.h"
#include "sim/climate_year.h"

typedef struct Typical {
    const Book *book; /* Borrowed from the arena, as all of this. */
    const ClimateYear *climate;
} Typical;

/* ERR_NOT_FOUND, ERR_RANGE or ERR_INPUT: a figure or cover that the book does
 * not have or allow. */
NODISCARD Err typical_make(const Farm *farm, Arena *arena, Typical *out);

#endif
