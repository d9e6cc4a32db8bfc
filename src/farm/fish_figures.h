/* What a farm may know better than the book about its fish: rows of figures
 * whose about is a fish of the book. */
#ifndef LEAT_FARM_FISH_FIGURES_H
#define LEAT_FARM_FISH_FIGURES_H

#include "base/err.h"
#include "base/figure.h"
#include "farm/records.h"

typedef enum FishFigure {
    FISH_APPETITE,   /* share of the book's ration that is taken, 1 by it */
    FISH_EFFICIENCY, /* growth per feed before upkeep, g/g */
    FISH_UPKEEP,     /* upkeep_g: of 1 g at the book's temperature, g/d */
    FISH_FEMALE,     /* female_frac: a female's ration over a male's */
    FISH_OXYGEN,     /* oxygen_frac: oxygen use over that of tilapia */
    FISH_DEATHS,     /* deaths: times the book's */
    FISH_FIGURES
} FishFigure;

/* Whether the book has a fish of that name. */
bool fish_figures_is_fish(const char *about);

/* ERR_NOT_FOUND: no such figure of a fish, with those there are; ERR_RANGE: a
 * number outside its range, or low, value, high that do not rise. */
NODISCARD Err fish_figures_check(const OwnFigure *own);

/* The farm's own, or NULL. Borrowed from the farm. */
const OwnFigure *fish_figures_own(const Farm *farm, const char *species,
                                  FishFigure figure);

#endif
