/* What a farm may know better than the book about its fish. */
#include "farm/fish_figures.h"

#include <assert.h>
#include <string.h>

#include "nature/fish/species.h"

/* Limits are of what can be typed in good faith, not of what is likely. */
static const struct {
    const char *name;
    double least;
    double most;
} FIGURES[FISH_FIGURES] = {
    {"appetite", 0.1, 3.0},    {"efficiency", 0.2, 1.2},
    {"upkeep_g", 0.0, 0.02},   {"female_frac", 0.2, 1.5},
    {"oxygen_frac", 0.2, 4.0}, {"deaths", 0.0, 50.0},
};

bool fish_figures_is_fish(const char *about)
{
    int count = 0;
    const FishSpecies *all = fish_species_all(&count);
    for (int i = 0; i < count; i++) {
        if (strcmp(all[i].name, about) == 0) {
            return true;
        }
    }
    return false;
}

Err fish_figures_check(const OwnFigure *own)
{
    for (int i = 0; i < FISH_FIGURES; i++) {
        if (strcmp(FIGURES[i].name, own->figure) != 0) {
            continue;
        }
        if (own->low > own->value || own->value > own->high) {
            return err_make(ERR_RANGE, "low, value and high rise");
        }
        if (own->low < FIGURES[i].least || own->high > FIGURES[i].most) {
            return err_make(ERR_RANGE, "%s from %g to %g", FIGURES[i].name,
                            FIGURES[i].least, FIGURES[i].most);
        }
        return ERR_NONE;
    }
    return err_make(ERR_NOT_FOUND,
                    "of a fish appetite, efficiency, upkeep_g, female_frac, "
                    "oxygen_frac or deaths, not %.40s",
                    own->figure);
}

const OwnFigure *fish_figures_own(const Farm *farm, const char *species,
                                  FishFigure figure)
{
    assert(figure < FISH_FIGURES);
    for (int i = 0; i < farm->figures_count; i++) {
        const OwnFigure *own = &farm->figures[i];
        if (strcmp(own->about, species) == 0 &&
            strcmp(own->figure, FIGURES[figure].name) == 0) {
            return own;
        }
    }
    return NULL;
}
