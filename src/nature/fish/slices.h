/* A fish batch as 16 slices by weight. Slices grow, die, move and are sold, so
 * counts and kilos balance, a cut stays cut, and the mean of those left falls
 * by itself. */
#ifndef LEAT_NATURE_FISH_SLICES_H
#define LEAT_NATURE_FISH_SLICES_H

#include <stdbool.h>

#include "nature/fish/law.h"

enum { FISH_SLICES = 16 };

typedef enum FishSex {
    FISH_SEX_MIXED, /* half of them females, who grow less; they breed */
    FISH_SEX_SEXED, /* by hand: one in twenty is a female */
    FISH_SEX_MALES,
    FISH_SEX_FEMALES,
} FishSex;

typedef struct FishSlice {
    double count;
    double weight_g;    /* of one fish */
    double female_frac; /* share of females in it */
    double vigour;      /* its ration over that of a usual fish of its weight */
} FishSlice;

/* Slice i keeps its number for life, also when parts of it are in other
 * tanks: the same number there has the same fish's weight at that moment. */
typedef struct FishSlices {
    FishSlice at[FISH_SLICES];
} FishSlices;

typedef struct FishDraw {
    int count;      /* fish, at least 0 */
    double mean_g;  /* above 0 */
    double cv_frac; /* 0..1.5 */
    FishSex sex;
} FishDraw;

/* Vigour of a fish over its batch: (weight/mean)^0.45 when drawn, and for life.
 * The ration falls with weight as weight^-0.27..-0.58; without vigour the light
 * would catch up and a batch end as even as it never does (spreads of 35-46 %
 * after 14 weeks ungraded [SAID2015]). The power is a guess that keeps the
 * spread about as it was drawn. */
double fish_vigour(double weight_g, double mean_g);

/* Draws the slices once: whole fish, as equal in number as they can be, from
 * the lightest; counts add up to count, the mean is mean_g and the coefficient
 * of variation cv_frac (where there are two fish or more). */
FishSlices fish_slices_draw(const FishDraw *draw);

double fish_slices_count(const FishSlices *slices);
double fish_slices_kg(const FishSlices *slices);
double fish_slices_mean_g(const FishSlices *slices); /* 0 where none */
double fish_slices_cv_frac(const FishSlices *slices);

/* Fish over a weight; within a slice they are spread evenly from halfway to the
 * next lighter one to halfway to the next heavier. */
double fish_slices_over(const FishSlices *slices, double weight_g);

/* Moves that many fish of one slice; moved fish join what the other tank holds
 * of the same number. count at most what is there. */
void fish_slices_move(FishSlices *from, FishSlices *to, int slice,
                      double count);

/* Moves the heaviest fish, slice by slice, whole fish of a part slice. */
void fish_slices_move_heaviest(FishSlices *from, FishSlices *to, double count);

/* Moves every slice heavier than a weight. */
void fish_slices_move_over(FishSlices *from, FishSlices *to, double weight_g);

/* Slices in a number of lanes by weight: lane of slice i, 0 the lightest. */
void fish_slices_lanes(const FishSlices *slices, int lanes,
                       int out_lane[FISH_SLICES]);

/* What a slice's fish take over the ration of the book, by sex and vigour. */
double fish_slice_appetite(const FishSpecies *species, const FishSlice *slice);

typedef struct FishDayCare {
    FishWater water;
    double appetite;
    double feed_frac;   /* of what they would take: 1; 0 off feed */
    double death_scale; /* times the book's deaths: 1 */
} FishDayCare;

typedef struct FishDayLedger {
    double feed_kg;
    double gain_kg; /* of those that lived through the day */
    double dead_count;
    double dead_kg; /* at their weight before the day */
} FishDayLedger;

/* All slices live one day. after = before + gain - dead, in kg. */
FishDayLedger fish_slices_day(const FishSpecies *species, FishSlices *slices,
                              const FishDayCare *care);

#endif
