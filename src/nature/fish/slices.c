/* A fish batch as 16 slices by weight. */
#include "nature/fish/slices.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>

static double female_frac(FishSex sex, int slice)
{
    static const double MISSED = 0.05; /* of hand-sexed fish: a guess */
    switch (sex) {
    case FISH_SEX_MIXED:
        return slice % 2; /* both sexes all along the range of sizes */
    case FISH_SEX_SEXED:
        return MISSED;
    case FISH_SEX_MALES:
        return 0.0;
    case FISH_SEX_FEMALES:
        return 1.0;
    }
    return 0.0;
}

double fish_slices_count(const FishSlices *slices)
{
    double count = 0.0;
    for (int i = 0; i < FISH_SLICES; i++) {
        count += slices->at[i].count;
    }
    return count;
}

double fish_slices_kg(const FishSlices *slices)
{
    double mass_g = 0.0;
    for (int i = 0; i < FISH_SLICES; i++) {
        mass_g += slices->at[i].count * slices->at[i].weight_g;
    }
    return mass_g / 1000.0;
}

double fish_slices_mean_g(const FishSlices *slices)
{
    double count = fish_slices_count(slices);
    return count > 0.0 ? 1000.0 * fish_slices_kg(slices) / count : 0.0;
}

double fish_slices_cv_frac(const FishSlices *slices)
{
    double count = fish_slices_count(slices);
    double mean = fish_slices_mean_g(slices);
    if (!(count > 0.0 && mean > 0.0)) {
        return 0.0;
    }
    double squares = 0.0;
    for (int i = 0; i < FISH_SLICES; i++) {
        double away = slices->at[i].weight_g - mean;
        squares += slices->at[i].count * away * away;
    }
    return sqrt(squares / count) / mean;
}

static double normal_below(double z)
{
    return 0.5 * erfc(-z / sqrt(2.0));
}

/* The z below which a share of a standard normal lies. */
static double normal_at(double share)
{
    double low = -10.0;
    double high = 10.0;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2.0;
        if (normal_below(middle) < share) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return (low + high) / 2.0;
}

/* Upper ends of the slices in a standard normal. */
typedef struct Cuts {
    double z[FISH_SLICES];
} Cuts;

static Cuts cuts_of(const FishSlices *slices)
{
    Cuts cuts;
    double total = fish_slices_count(slices);
    double upto = 0.0;
    for (int i = 0; i < FISH_SLICES; i++) {
        upto += slices->at[i].count;
        cuts.z[i] = upto >= total ? INFINITY
                    : upto > 0.0  ? normal_at(upto / total)
                                  : -INFINITY;
    }
    return cuts;
}

/* Means of consecutive shares of a log-normal of that spread:
 * mean (Phi(b - s) - Phi(a - s)) / (Phi(b) - Phi(a)), s^2 = ln(1 + cv^2). */
static void set_weights(FishSlices *slices, const Cuts *cuts, double mean_g,
                        double cv_frac)
{
    double log_sd = sqrt(log1p(cv_frac * cv_frac));
    double total = fish_slices_count(slices);
    double below = 0.0;
    for (int i = 0; i < FISH_SLICES; i++) {
        FishSlice *slice = &slices->at[i];
        double upto = normal_below(cuts->z[i] - log_sd);
        if (slice->count > 0.0) {
            slice->weight_g = mean_g * (upto - below) * total / slice->count;
        }
        below = upto;
    }
}

double fish_vigour(double weight_g, double mean_g)
{
    static const double POWER = 0.45;
    return pow(weight_g / mean_g, POWER);
}

static void set_vigour(FishSlices *slices, double mean_g)
{
    for (int i = 0; i < FISH_SLICES; i++) {
        slices->at[i].vigour = fish_vigour(slices->at[i].weight_g, mean_g);
    }
}

FishSlices fish_slices_draw(const FishDraw *draw)
{
    assert(draw->count >= 0 && draw->mean_g > 0.0 && draw->cv_frac >= 0.0);
    FishSlices slices = {0};
    for (int i = 0; i < FISH_SLICES; i++) {
        /* Whole fish: the i-th part of count, the rests spread evenly. */
        int upto = (int)((int64_t)draw->count * (i + 1) / FISH_SLICES);
        int before = (int)((int64_t)draw->count * i / FISH_SLICES);
        slices.at[i] = (FishSlice){
            .count = upto - before,
            .weight_g = draw->mean_g,
            .female_frac = female_frac(draw->sex, i),
        };
    }
    if (draw->count < 2) {
        set_vigour(&slices, draw->mean_g);
        return slices;
    }
    Cuts cuts = cuts_of(&slices);
    /* Means of slices spread less than their fish: widen until they do not. */
    double low = draw->cv_frac;
    double high = 2.0 * draw->cv_frac + 0.01;
    for (int i = 0; i < 40; i++) {
        double middle = (low + high) / 2.0;
        set_weights(&slices, &cuts, draw->mean_g, middle);
        if (fish_slices_cv_frac(&slices) < draw->cv_frac) {
            low = middle;
        } else {
            high = middle;
        }
    }
    set_vigour(&slices, draw->mean_g);
    return slices;
}

/* Slices with fish, from the lightest; how many. */
static int by_weight(const FishSlices *slices, int out[FISH_SLICES])
{
    int count = 0;
    for (int i = 0; i < FISH_SLICES; i++) {
        if (!(slices->at[i].count > 0.0)) {
            continue;
        }
        int k = count++;
        while (k > 0 &&
               slices->at[out[k - 1]].weight_g > slices->at[i].weight_g) {
            out[k] = out[k - 1];
            k--;
        }
        out[k] = i;
    }
    return count;
}

double fish_slices_over(const FishSlices *slices, double weight_g)
{
    int order[FISH_SLICES];
    int n = by_weight(slices, order);
    double over = 0.0;
    for (int k = 0; k < n; k++) {
        double here = slices->at[order[k]].weight_g;
        double below = k > 0 ? here - slices->at[order[k - 1]].weight_g : -1.0;
        double above =
            k < n - 1 ? slices->at[order[k + 1]].weight_g - here : -1.0;
        below = below < 0.0 ? above : below;
        above = above < 0.0 ? below : above;
        double from = here - fmax(0.0, below) / 2.0;
        double to = here + fmax(0.0, above) / 2.0;
        double share = to > from ? (to - weight_g) / (to - from)
                                 : (here >= weight_g ? 1.0 : 0.0);
        over += slices->at[order[k]].count * fmin(1.0, fmax(0.0, share));
    }
    return over;
}

void fish_slices_move(FishSlices *from, FishSlices *to, int slice, double count)
{
    FishSlice *source = &from->at[slice];
    FishSlice *target = &to->at[slice];
    assert(count >= 0.0 && count <= source->count + 1e-9);
    double moved = fmin(count, source->count);
    double total = target->count + moved;
    if (!(total > 0.0)) {
        return;
    }
    double mass_g = target->count * target->weight_g + moved * source->weight_g;
    double females =
        target->count * target->female_frac + moved * source->female_frac;
    double vigour = target->count * target->vigour + moved * source->vigour;
    *target =
        (FishSlice){total, mass_g / total, females / total, vigour / total};
    source->count -= moved;
}

void fish_slices_move_heaviest(FishSlices *from, FishSlices *to, double count)
{
    int order[FISH_SLICES];
    int n = by_weight(from, order);
    double left = fmin(count, fish_slices_count(from));
    for (int k = n - 1; k >= 0 && left > 0.0; k--) {
        double take = fmin(left, from->at[order[k]].count);
        fish_slices_move(from, to, order[k], take);
        left -= take;
    }
}

void fish_slices_move_over(FishSlices *from, FishSlices *to, double weight_g)
{
    for (int i = 0; i < FISH_SLICES; i++) {
        if (from->at[i].weight_g > weight_g) {
            fish_slices_move(from, to, i, from->at[i].count);
        }
    }
}

void fish_slices_lanes(const FishSlices *slices, int lanes,
                       int out_lane[FISH_SLICES])
{
    assert(lanes > 0 && lanes <= FISH_SLICES);
    int order[FISH_SLICES];
    int n = by_weight(slices, order);
    for (int i = 0; i < FISH_SLICES; i++) {
        out_lane[i] = 0;
    }
    for (int k = 0; k < n; k++) {
        out_lane[order[k]] = k * lanes / n;
    }
}

double fish_slice_appetite(const FishSpecies *species, const FishSlice *slice)
{
    return slice->vigour *
           (1.0 - slice->female_frac * (1.0 - species->female_frac));
}

FishDayLedger fish_slices_day(const FishSpecies *species, FishSlices *slices,
                              const FishDayCare *care)
{
    FishDayLedger ledger = {0};
    for (int i = 0; i < FISH_SLICES; i++) {
        FishSlice *slice = &slices->at[i];
        if (!(slice->count > 0.0)) {
            continue;
        }
        double appetite = care->appetite * fish_slice_appetite(species, slice);
        FishDay day = fish_day(species, slice->weight_g, &care->water, appetite,
                               care->feed_frac);
        double dead = slice->count *
                      fmin(1.0, care->death_scale *
                                    fish_death_frac_d(species, slice->weight_g,
                                                      care->water.temp_degc));
        double alive = slice->count - dead;
        ledger.feed_kg += alive * day.feed_g / 1000.0;
        ledger.gain_kg += alive * (day.weight_g - slice->weight_g) / 1000.0;
        ledger.dead_count += dead;
        ledger.dead_kg += dead * slice->weight_g / 1000.0;
        slice->count = alive;
        slice->weight_g = day.weight_g;
    }
    return ledger;
}
