/* From a farm's rows to a fish batch that can be run through its weeks. */
#ifndef LEAT_SIM_FISH_CASE_H
#define LEAT_SIM_FISH_CASE_H

#include "base/figure.h"
#include "farm/records.h"
#include "sim/fish_year.h"

/* The farm's feeds by weight; *out_count of them. */
const FishFeed *fish_case_feeds(Arena *arena, const Farm *farm, int *out_count);

/* Appetite of a fish of the book on this farm: 1, or the farm's own figure
 * "appetite" about it. */
Figure fish_case_appetite(const Farm *farm, const char *species);

/* The fish of the book with the farm's own figures about it in their place, in
 * the arena. ERR_NOT_FOUND: the book lacks it. */
NODISCARD Err fish_case_species(Arena *arena, const Farm *farm,
                                const char *species, const FishSpecies **out);

/* What a row of farm->fish is given of what it would take: 1, or about a third
 * for breeders that are kept. */
double fish_case_ration_frac(const Farm *farm, int row);

/* Water of each tank by day of the year, by row of farm->tanks: its loop's. A
 * tank outside every loop in a room follows the first loop, in a tunnel or
 * without loops the air outside. A tank with a heater of its own is taken to be
 * held at its target in the heater's months.
 *
 * loop_degc     by row of farm->loops, FISH_YEAR_DAYS daily means each;
 * borrowed outside_degc  the same of the air outside; borrowed */
const double *const *fish_case_water(Arena *arena, const Farm *farm,
                                     const double *const *loop_degc,
                                     const double *outside_degc);

typedef struct FishSpan {
    int32_t first_week;       /* Monday */
    int weeks;                /* from it */
    const double *water_degc; /* Borrowed: FISH_YEAR_DAYS daily means */
} FishSpan;

/* Breeders, which no plan sells: told so, or in a breeders' tank. */
bool fish_case_is_kept(const Farm *farm, int row);

/* A row of farm->fish; breeders that are kept eat about a third of what they
 * would take. ERR_NOT_FOUND: a species that the book lacks. */
NODISCARD Err fish_case_standing(Arena *arena, const Farm *farm, int row,
                                 const FishSpan *span, FishYearCase *out);

/* count fish of a row of farm->fish_sources that arrive on span->first_week. */
NODISCARD Err fish_case_source(Arena *arena, const Farm *farm, int row,
                               int count, const FishSpan *span,
                               FishYearCase *out);

/* The same case at the low (-1), middle (0) and high (1) of what is known: by
 * the farm's own appetite where it has one, else by the published tables of
 * feed by temperature; and by growth per feed and upkeep, the farm's own where
 * it has them. species_room holds the changed species while the case lives. */
FishYearCase fish_case_at(const Farm *farm, const FishYearCase *fish, int end,
                          FishSpecies *species_room);

#endif
