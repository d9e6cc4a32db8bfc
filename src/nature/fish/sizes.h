/* Sizes of the fish of a tank as a log-normal, whole or cut by a grading.
 *
 * A cut stays cut: fish that were graded out above a weight are not there any
 * more, whatever the mean and spread of those left would suggest. */
#ifndef LEAT_NATURE_FISH_SIZES_H
#define LEAT_NATURE_FISH_SIZES_H

#include "base/err.h"

typedef struct FishSizes {
    double count;
    double log_mean; /* of the whole log-normal before any cut, ln g */
    double log_sd;
    double over_g;  /* none lighter; 0 where nothing was taken below */
    double under_g; /* none heavier; INFINITY where nothing was taken above */
} FishSizes;

/* Uncut, with that mean and coefficient of variation. count, mean_g above 0,
 * cv_frac 0.001..1.5 (less is taken as 0.001). */
FishSizes fish_sizes(double count, double mean_g, double cv_frac);

double fish_sizes_mean_g(const FishSizes *sizes);
double fish_sizes_cv_frac(const FishSizes *sizes);

/* Share of the fish heavier than a weight, 0..1. */
double fish_sizes_share_above(const FishSizes *sizes, double weight_g);

/* The weight that a share of them exceeds. */
double fish_sizes_weight_at(const FishSizes *sizes, double share_above);

/* Cuts at a weight: those above and those below. Counts add up, and kilos. */
void fish_sizes_cut(const FishSizes *sizes, double cut_g, FishSizes *out_below,
                    FishSizes *out_above);

typedef struct GradeSplit {
    double moved_count, moved_mean_g;
    double left_count, left_mean_g;
    double cut_g;            /* weight at which a sharp grader would cut */
    double sharp_frac;       /* 1: only the heaviest went; 0: any fish */
    double left_above_count; /* still over the cut among those left */
} GradeSplit;

/* Takes out the fish above a weight, all of them. */
GradeSplit fish_grade_at(const FishSizes *sizes, double cut_g);

/* Takes out a count of a known mean weight: the mean of those left follows from
 * counts and kilos alone. The moved are seen as a mix of the heaviest and of
 * any fish, in the share that gives their mean. ERR_RANGE: more than there are;
 * or heavier together than the heaviest of that count can be; or so light that
 * those left would have to be. */
NODISCARD Err fish_grade_moved(const FishSizes *sizes, double moved_count,
                               double moved_mean_g, GradeSplit *out);

#endif
