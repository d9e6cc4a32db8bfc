/* Oxygen that fish of many weights use, as the widest range. */
#include "nature/fish/oxygen_need.h"

#include <math.h>

#include "nature/fish/respiration.h"

/* Where the laws reach; see respiration.h. */
static const double FROM_G = 0.1;
static const double TO_G = 5000.0;
static const double FROM_DEGC = 10.0;
static const double TO_DEGC = 38.0;

static double held(double value, double least, double most)
{
    return fmin(most, fmax(least, value));
}

/* On a fixed grid, so that the ends move one way only. */
static const double GRID_DEGC = 0.5;

static double slowest_from(double weight_g, double temp_degc)
{
    double slow = INFINITY;
    for (int i = (int)floor(temp_degc / GRID_DEGC); i * GRID_DEGC <= TO_DEGC;
         i++) {
        slow = fmin(
            slow,
            fish_oxygen_use(weight_g, i * GRID_DEGC, INFINITY).mg_kg_h.low);
    }
    return slow;
}

static double fastest_to(double weight_g, double temp_degc, double meal_h)
{
    double fast = 0.0;
    for (int i = (int)ceil(temp_degc / GRID_DEGC); i * GRID_DEGC >= FROM_DEGC;
         i--) {
        fast =
            fmax(fast,
                 fish_oxygen_use(weight_g, i * GRID_DEGC, meal_h).mg_kg_h.high);
    }
    return fast;
}

OxygenRate fish_oxygen_rate_within(double weight_g, const OxygenSpan *span)
{
    double weight = held(weight_g, FROM_G, TO_G);
    double low_degc = held(span->low_degc, FROM_DEGC, TO_DEGC);
    double high_degc = held(span->high_degc, FROM_DEGC, TO_DEGC);
    OxygenUse cold = fish_oxygen_use(weight, low_degc, span->hours_since_meal);
    OxygenUse warm = fish_oxygen_use(weight, high_degc, span->hours_since_meal);
    OxygenRate out = {
        .low_mg_kg_h = slowest_from(weight, low_degc),
        .high_mg_kg_h = fastest_to(weight, high_degc, span->hours_since_meal),
        .is_widened = cold.is_widened || warm.is_widened,
    };
    bool is_small = weight_g < FROM_G;
    bool is_big = weight_g > TO_G;
    if (is_small || is_big || span->low_degc < FROM_DEGC) {
        out.low_mg_kg_h /= 2.0;
        out.is_widened = true;
    }
    if (is_small || is_big || span->high_degc > TO_DEGC) {
        out.high_mg_kg_h *= 2.0;
        out.is_widened = true;
    }
    return out;
}

OxygenNeed fish_oxygen_need(const FishSpecies *species,
                            const FishSlices *slices, const OxygenSpan *span)
{
    OxygenNeed need = {0};
    for (int i = 0; i < FISH_SLICES; i++) {
        const FishSlice *slice = &slices->at[i];
        double kg = slice->count * slice->weight_g / 1000.0;
        if (!(kg > 0.0)) {
            continue;
        }
        OxygenRate rate = fish_oxygen_rate_within(slice->weight_g, span);
        need.low_g_h += kg * rate.low_mg_kg_h * species->oxygen_frac / 1000.0;
        need.high_g_h += kg * rate.high_mg_kg_h * species->oxygen_frac / 1000.0;
        need.is_widened = need.is_widened || rate.is_widened;
    }
    return need;
}
