/* Fish of the book: what each kind eats, bears and does at each temperature. */
#ifndef LEAT_NATURE_FISH_SPECIES_H
#define LEAT_NATURE_FISH_SPECIES_H

#include "base/err.h"
#include "base/figure.h"

enum { FISH_NODES = 16 };

/* A line through points (x rising); count of them. */
typedef struct FishCurve {
    int count;
    double x[FISH_NODES];
    double y[FISH_NODES];
} FishCurve;

typedef struct FishSpecies {
    const char *name;  /* "nile-tilapia" */
    const char *title; /* "Nile tilapia" */
    const char *latin;
    FishCurve ration; /* weight g -> share of weight a day at full appetite */
    FishCurve warmth[3]; /* temp degC -> share of ration: low, value, high; 0
                            below the first point and above the last */
    double efficiency;   /* e: growth per feed before upkeep, g/g */
    double efficiency_end[2]; /* low and high of it */
    double upkeep_g;          /* kmin: upkeep of 1 g at upkeep_degc, g/d */
    double upkeep_rise;       /* j, per degC */
    double upkeep_degc;
    double upkeep_power; /* 0.81 */
    double female_frac;  /* a female's ration over a male's */
    double lethal_low_degc;
    double lethal_high_degc;
    double spawn_degc;   /* no spawning below */
    double spawn_at_g;   /* females from this weight */
    FishCurve fry_cycle; /* temp degC -> fry per female and cycle */
    double oxygen_frac;  /* oxygen use over that of tilapia */
    FigureOrigin origin;
    const char *source;
} FishSpecies;

/* All of them; *out_count of them. */
const FishSpecies *fish_species_all(int *out_count);

/* By name; ERR_NOT_FOUND names those there are. */
NODISCARD Err fish_species_find(const char *name, const FishSpecies **out);

/* On the line; outside its points the nearest point's value. */
double fish_curve_at(const FishCurve *curve, double x);

#endif
