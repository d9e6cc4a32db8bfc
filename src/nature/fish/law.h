/* The one law of feed and growth.
 *
 *     intake = ration(W) W  warmth(T)  air(DO, W)  calm(NH3)  appetite
 *     growth = e intake - k(T) W^0.81,  k = kmin exp(j (T - Tmin))
 *
 * intake, growth g per fish and day; W g; e is set so that conversion is
 * 1.4-1.8 from 50 to 500 g at 28 degC. Ration table and temperature steps:
 * common practice of the trade; upkeep [YI1998] (memory). */
#ifndef LEAT_NATURE_FISH_LAW_H
#define LEAT_NATURE_FISH_LAW_H

#include "base/err.h"
#include "nature/fish/species.h"

typedef struct FishWater {
    double temp_degc;
    double oxygen_mg_l;
    double nh3_mg_l; /* NH3-N */
} FishWater;

/* Water in which only temperature matters. */
FishWater fish_good_water(double temp_degc);

/* Full ration, share of weight a day; straight in logarithms between points,
 * and on beyond the last. weight_g above 0. */
double fish_ration_frac(const FishSpecies *species, double weight_g);

/* Shares of the ration, 0..1. Temperature as a range: low and high from the
 * other published tables. */
Figure fish_warmth_frac(const FishSpecies *species, double temp_degc);

/* The species at the low (-1), middle (0) or high (1) table of feed by
 * temperature and growth per feed: what a range of growth is run with. In cool
 * water the tables are the wider of the two, in warm water they agree. */
FishSpecies fish_species_end(const FishSpecies *species, int end);

/* Oxygen: feed is stopped below 3 mg/L; from there straight to 1 at 3 mg/L
 * (fish under 50 g) or 5.5 (200 g and over), lying on the line that reaches 0.6
 * at 1.5 mg/L. Source: [TRANDUY2012] 5.5; [TSADIK1987] 0.6. */
double fish_air_frac(double oxygen_mg_l, double weight_g);

/* Ammonia: 1 to 0.06 mg/L NH3-N, 0.5 at 0.73, 0 from 1.46.
 * Source: [ABDALLA1998]. */
double fish_calm_frac(double nh3_mg_l);

/* Feed one fish takes in a day, g. appetite: 1 by the book. */
double fish_intake_g_d(const FishSpecies *species, double weight_g,
                       const FishWater *water, double appetite);

/* What one fish needs to stay as it is, g of itself a day. */
double fish_upkeep_g_d(const FishSpecies *species, double weight_g,
                       double temp_degc);

typedef struct FishDay {
    double weight_g; /* after the day */
    double feed_g;   /* eaten in it */
} FishDay;

/* One day (or part of it) of one fish that gets feed_frac of what it would
 * take: midpoint rule. Never below 60 % of the start. */
FishDay fish_day(const FishSpecies *species, double weight_g,
                 const FishWater *water, double appetite, double feed_frac);

/* Feed for one fish, g a day, with low and high by the tables of temperature.
 */
Figure fish_intake_range_g_d(const FishSpecies *species, double weight_g,
                             const FishWater *water, double appetite);

typedef struct FishPath {
    double days;
    double feed_g;     /* eaten by one fish */
    double conversion; /* feed per gain */
} FishPath;

/* From one weight to another in steady water. ERR_RANGE: it does not get there
 * within ten years, or to_g is not over from_g. */
NODISCARD Err fish_days_to_weight(const FishSpecies *species, double from_g,
                                  double to_g, const FishWater *water,
                                  double appetite, FishPath *out);

/* The same with low and high: days by the most and the least generous table of
 * temperature; high is INFINITY where the fish never get there by it. */
NODISCARD Err fish_days_range(const FishSpecies *species, double from_g,
                              double to_g, const FishWater *water,
                              double appetite, Figure *out_days);

/* e that gives a conversion from one weight to another at a temperature. */
double fish_fit_efficiency(const FishSpecies *species, double from_g,
                           double to_g, double temp_degc, double conversion);

/* Specific growth, % a day: 100 ln(to/from)/days. And the thermal growth
 * coefficient, g^(1/3) per 1000 degC d. */
double fish_growth_pct_d(double from_g, double to_g, double days);
double fish_thermal_growth(double from_g, double to_g, double degc_days);

/* Share that dies in a day at that weight and temperature, of fish well kept;
 * fry 20 % in their stage, under 2 % in the last. Below the lethal temperature
 * most go within days. Source: [RAKOCY2004] 1.7 % of grow-out in 168 days;
 * younger stages common practice. */
double fish_death_frac_d(const FishSpecies *species, double weight_g,
                         double temp_degc);

#endif
