/* Fish of the book: their figures stand in data/fish.csv. */
#include "nature/fish/species.h"

#include <assert.h>
#include <string.h>

#include "nature/fish/species_table.h"

const FishSpecies *fish_species_all(int *out_count)
{
    *out_count = FISH_SPECIES_COUNT;
    return FISH_SPECIES;
}

Err fish_species_find(const char *name, const FishSpecies **out)
{
    for (int i = 0; i < FISH_SPECIES_COUNT; i++) {
        if (strcmp(name, FISH_SPECIES[i].name) == 0) {
            *out = &FISH_SPECIES[i];
            return ERR_NONE;
        }
    }
    return err_make(ERR_NOT_FOUND,
                    "no fish of the book is called \"%.40s\"; there are "
                    "nile-tilapia, mozambique-tilapia, common-carp, "
                    "african-catfish",
                    name);
}

double fish_curve_at(const FishCurve *curve, double x)
{
    assert(curve->count > 0);
    int last = curve->count - 1;
    if (x <= curve->x[0]) {
        return curve->y[0];
    }
    for (int i = 1; i <= last; i++) {
        if (x <= curve->x[i]) {
            double part =
                (x - curve->x[i - 1]) / (curve->x[i] - curve->x[i - 1]);
            return curve->y[i - 1] + part * (curve->y[i] - curve->y[i - 1]);
        }
    }
    return curve->y[last];
}
