/* Sizes of the fish of a tank as a log-normal. */
#include "nature/fish/sizes.h"

#include <assert.h>
#include <math.h>

static double normal_below(double z)
{
    return 0.5 * erfc(-z / sqrt(2.0));
}

FishSizes fish_sizes(double count, double mean_g, double cv_frac)
{
    static const double LEAST_CV = 0.001;
    assert(mean_g > 0.0 && count >= 0.0);
    double cv = fmax(LEAST_CV, cv_frac);
    double variance = log1p(cv * cv);
    return (FishSizes){
        .count = count,
        .log_mean = log(mean_g) - variance / 2.0,
        .log_sd = sqrt(variance),
        .over_g = 0.0,
        .under_g = INFINITY,
    };
}

static double z_of(const FishSizes *sizes, double weight_g)
{
    if (!(weight_g > 0.0)) {
        return -INFINITY;
    }
    return (log(weight_g) - sizes->log_mean) / sizes->log_sd;
}

/* Integral of w^power over the density between two weights, uncut. */
static double moment(const FishSizes *sizes, double from_g, double to_g,
                     int power)
{
    double shift = power * sizes->log_sd;
    double scale = exp(power * sizes->log_mean + shift * shift / 2.0);
    double high = z_of(sizes, to_g) - shift;
    double low = z_of(sizes, from_g) - shift;
    if (low > 0.0) { /* from the far side, where digits are left */
        return scale * (normal_below(-low) - normal_below(-high));
    }
    return scale * (normal_below(high) - normal_below(low));
}

static double whole(const FishSizes *sizes, int power)
{
    return moment(sizes, sizes->over_g, sizes->under_g, power);
}

double fish_sizes_mean_g(const FishSizes *sizes)
{
    return whole(sizes, 1) / whole(sizes, 0);
}

double fish_sizes_cv_frac(const FishSizes *sizes)
{
    double mean = fish_sizes_mean_g(sizes);
    double square = whole(sizes, 2) / whole(sizes, 0);
    return sqrt(fmax(0.0, square / (mean * mean) - 1.0));
}

double fish_sizes_share_above(const FishSizes *sizes, double weight_g)
{
    if (weight_g >= sizes->under_g) {
        return 0.0;
    }
    if (weight_g <= sizes->over_g) {
        return 1.0;
    }
    return moment(sizes, weight_g, sizes->under_g, 0) / whole(sizes, 0);
}

double fish_sizes_weight_at(const FishSizes *sizes, double share_above)
{
    static const double REACH = 8.0; /* standard deviations: all there is */
    double low =
        fmax(sizes->over_g, exp(sizes->log_mean - REACH * sizes->log_sd));
    double high =
        fmin(sizes->under_g, exp(sizes->log_mean + REACH * sizes->log_sd));
    for (int i = 0; i < 80; i++) {
        double middle = (low + high) / 2.0;
        if (fish_sizes_share_above(sizes, middle) > share_above) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return (low + high) / 2.0;
}

void fish_sizes_cut(const FishSizes *sizes, double cut_g, FishSizes *out_below,
                    FishSizes *out_above)
{
    double above = fish_sizes_share_above(sizes, cut_g);
    FishSizes below = *sizes;
    FishSizes over = *sizes;
    over.count = sizes->count * above;
    over.over_g = fmax(sizes->over_g, cut_g);
    below.count = sizes->count - over.count;
    below.under_g = fmin(sizes->under_g, cut_g);
    *out_below = below;
    *out_above = over;
}

GradeSplit fish_grade_at(const FishSizes *sizes, double cut_g)
{
    FishSizes below;
    FishSizes above;
    fish_sizes_cut(sizes, cut_g, &below, &above);
    GradeSplit split = {
        .moved_count = above.count,
        .left_count = below.count,
        .cut_g = cut_g,
        .sharp_frac = 1.0,
    };
    split.moved_mean_g = above.count > 0.0 ? fish_sizes_mean_g(&above) : 0.0;
    split.left_mean_g = below.count > 0.0 ? fish_sizes_mean_g(&below) : 0.0;
    return split;
}

/* A mix of the heaviest (sharp) and of any fish. */
static Err sharpness(const FishSizes *sizes, const GradeSplit *split,
                     double *out)
{
    FishSizes below;
    FishSizes above;
    fish_sizes_cut(sizes, split->cut_g, &below, &above);
    double mean_g = fish_sizes_mean_g(sizes);
    double top_g = fish_sizes_mean_g(&above);
    if (split->moved_mean_g > top_g * (1.0 + 1e-9)) {
        return err_make(ERR_RANGE,
                        "the heaviest %.0f of these fish weigh %.1f g on "
                        "average: %.0f of %.1f g are not among them",
                        split->moved_count, top_g, split->moved_count,
                        split->moved_mean_g);
    }
    double sharp = (split->moved_mean_g - mean_g) / (top_g - mean_g);
    *out = fmin(1.0, fmax(0.0, sharp));
    return ERR_NONE;
}

Err fish_grade_moved(const FishSizes *sizes, double moved_count,
                     double moved_mean_g, GradeSplit *out)
{
    if (!(moved_count > 0.0 && moved_count < sizes->count &&
          moved_mean_g > 0.0)) {
        return err_make(ERR_RANGE,
                        "moving %.0f fish of %.1f g out of %.0f: give a count "
                        "between 0 and all, and a weight",
                        moved_count, moved_mean_g, sizes->count);
    }
    double share = moved_count / sizes->count;
    double mean_g = fish_sizes_mean_g(sizes);
    GradeSplit split = {
        .moved_count = moved_count,
        .moved_mean_g = moved_mean_g,
        .left_count = sizes->count - moved_count,
        .cut_g = fish_sizes_weight_at(sizes, share),
    };
    split.left_mean_g =
        (sizes->count * mean_g - moved_count * moved_mean_g) / split.left_count;
    double light_cut_g = fish_sizes_weight_at(sizes, 1.0 - share);
    FishSizes light;
    FishSizes rest;
    fish_sizes_cut(sizes, light_cut_g, &light, &rest);
    if (moved_mean_g < fish_sizes_mean_g(&light) * (1.0 - 1e-9)) {
        return err_make(ERR_RANGE,
                        "the lightest %.0f of these fish weigh %.1f g on "
                        "average: %.0f of %.1f g are not among them",
                        moved_count, fish_sizes_mean_g(&light), moved_count,
                        moved_mean_g);
    }
    TRY(sharpness(sizes, &split, &split.sharp_frac));
    split.left_above_count =
        moved_count * (1.0 - split.sharp_frac) * (1.0 - share);
    *out = split;
    return ERR_NONE;
}
