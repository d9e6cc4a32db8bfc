/* Fish of the book. */
#include "nature/fish/species.h"

#include <assert.h>
#include <string.h>

/* Share of weight a day at 26-31 degC. 1-600 g: common practice of the trade;
 * below 1 g the pattern of [SRAC282] (memory); over 600 g carried on, a guess.
 */
#define TILAPIA_RATION                                                         \
    {                                                                          \
        .count = 11,                                                           \
        .x = {0.02, 0.75, 1, 5, 20, 50, 100, 200, 350, 600, 1000},             \
        .y = {0.20,  0.12,  0.10,  0.06,  0.045, 0.035,                        \
              0.025, 0.020, 0.015, 0.011, 0.0085},                             \
    }

/* Low: no feed below 17.2, a third at 22 of what 30 gives [SRAC_TILAPIA].
 * Value: the trade's steps. High: the growth model of [YI1998] at 18-24
 * degC, feeding from 15 degC. */
#define TILAPIA_WARMTH                                                         \
    {                                                                          \
        {.count = 7,                                                           \
         .x = {17.2, 20, 22, 24, 26, 29, 34},                                  \
         .y = {0.15, 0.25, 0.33, 0.6, 0.8, 1, 0}},                             \
            {.count = 7,                                                       \
             .x = {15, 20, 22, 24, 26, 31, 35},                                \
             .y = {0.33333333, 0.33333333, 0.55, 0.8, 1, 1, 0}},               \
            {.count = 7,                                                       \
             .x = {15, 20, 22, 24, 26, 33, 37},                                \
             .y = {0.33333333, 0.5, 0.69, 0.89, 1, 1, 0}},                     \
    }

/* Fry of a 225 g female in a cycle of 16-20 days: 250 at 24, 600 at 28 degC,
 * none under 20 [SRAC_TILAPIA]; over 32 a guess. */
#define TILAPIA_FRY                                                            \
    {                                                                          \
        .count = 6, .x = {20, 22, 24, 28, 32, 36},                             \
        .y = {0, 100, 250, 600, 500, 0},                                       \
    }

static const FishSpecies SPECIES[] = {
    {
        .name = "nile-tilapia",
        .title = "Nile tilapia",
        .latin = "Oreochromis niloticus",
        .ration = TILAPIA_RATION,
        .warmth = TILAPIA_WARMTH,
        .efficiency = 0.657, /* conversion 1.60: the middle */
        .upkeep_g = 0.00133,
        .upkeep_rise = 0.0132,
        .upkeep_degc = 15.0,
        .upkeep_power = 0.81,
        .female_frac = 0.75,
        .lethal_low_degc = 11.0,
        .lethal_high_degc = 39.0,
        .spawn_degc = 20.0,
        .spawn_at_g = 100.0,
        .fry_cycle = TILAPIA_FRY,
        .oxygen_frac = 1.0,
        .origin = FIGURE_GUESS,
        .source = "YI1998",
    },
    {
        .name = "mozambique-tilapia",
        .title = "Mozambique tilapia",
        .latin = "Oreochromis mossambicus",
        .ration = TILAPIA_RATION,
        .warmth = TILAPIA_WARMTH,
        .efficiency = 0.65,
        .upkeep_g = 0.00133,
        .upkeep_rise = 0.0132,
        .upkeep_degc = 15.0,
        .upkeep_power = 0.81,
        .female_frac = 0.70,
        .lethal_low_degc = 10.0,
        .lethal_high_degc = 41.0,
        .spawn_degc = 20.0,
        .spawn_at_g = 60.0,
        .fry_cycle = TILAPIA_FRY,
        .oxygen_frac = 1.0,
        .origin = FIGURE_GUESS,
        .source = "SRAC_TILAPIA",
    },
    {
        .name = "common-carp",
        .title = "Common carp",
        .latin = "Cyprinus carpio",
        .ration = TILAPIA_RATION,
        /* Greatest growth 0.71, 2.31, 3.12, 3.32 % a day at 12, 18, 24, 30
         * degC [GOOLISH1984]; feeding ends near 8, best 20-25 [AFFRIS_CARP]. */
        .warmth =
            {
                {.count = 7,
                 .x = {10, 12, 16, 20, 25, 29, 33},
                 .y = {0.05, 0.15, 0.4, 0.75, 1, 0.8, 0}},
                {.count = 7,
                 .x = {8, 12, 18, 24, 28, 30, 35},
                 .y = {0.05, 0.21, 0.70, 1, 1, 0.95, 0}},
                {.count = 7,
                 .x = {6, 12, 18, 20, 30, 32, 36},
                 .y = {0.05, 0.3, 0.85, 1, 1, 0.9, 0}},
            },
        .efficiency = 0.67,
        .upkeep_g = 0.00133,
        .upkeep_rise = 0.0132,
        .upkeep_degc = 15.0,
        .upkeep_power = 0.81,
        .female_frac = 1.0,
        .lethal_low_degc = 1.0,
        .lethal_high_degc = 36.0,
        .spawn_degc = 17.0,
        .spawn_at_g = 1500.0,
        .fry_cycle = {.count = 0},
        .oxygen_frac = 1.0,
        .origin = FIGURE_GUESS,
        .source = "GOOLISH1984",
    },
    {
        .name = "african-catfish",
        .title = "African catfish",
        .latin = "Clarias gariepinus",
        .ration = TILAPIA_RATION,
        /* Good from 26 to 32 degC [KASIHMUDDIN2021]; the rest a guess. */
        .warmth =
            {
                {.count = 6,
                 .x = {19, 22, 25, 28, 31, 34},
                 .y = {0.15, 0.35, 0.7, 1, 1, 0}},
                {.count = 6,
                 .x = {18, 22, 25, 27, 32, 36},
                 .y = {0.25, 0.5, 0.8, 1, 1, 0}},
                {.count = 6,
                 .x = {16, 22, 25, 26, 33, 37},
                 .y = {0.25, 0.6, 0.9, 1, 1, 0}},
            },
        .efficiency = 0.78,
        .upkeep_g = 0.00133,
        .upkeep_rise = 0.0132,
        .upkeep_degc = 15.0,
        .upkeep_power = 0.81,
        .female_frac = 1.0,
        .lethal_low_degc = 9.0,
        .lethal_high_degc = 38.0,
        .spawn_degc = 22.0,
        .spawn_at_g = 500.0,
        .fry_cycle = {.count = 0},
        .oxygen_frac = 1.0, /* breathes air too; counted as if it did not */
        .origin = FIGURE_GUESS,
        .source = "AFFRIS_CATFISH",
    },
};

enum { SPECIES_COUNT = (int)(sizeof SPECIES / sizeof *SPECIES) };

const FishSpecies *fish_species_all(int *out_count)
{
    *out_count = SPECIES_COUNT;
    return SPECIES;
}

Err fish_species_find(const char *name, const FishSpecies **out)
{
    for (int i = 0; i < SPECIES_COUNT; i++) {
        if (strcmp(name, SPECIES[i].name) == 0) {
            *out = &SPECIES[i];
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
