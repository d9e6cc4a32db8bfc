/* From feed to ammonia to nitrate. */
#include "nature/water/nitrogen.h"

#include <assert.h>
#include <math.h>

static const double N_IN_PROTEIN = 0.16;
static const double N_G_MOL = 14.0067;
static const double O2_G_MOL = 31.9988;
static const double CACO3_G_EQ = 50.0435;

Figure water_feed_tan_kg_kg(double protein_frac)
{
    assert(protein_frac >= 0.0 && protein_frac <= 1.0);
    return (Figure){
        .value = 0.092 * protein_frac,
        .low = 0.025 / 0.32 * protein_frac,
        .high = N_IN_PROTEIN * 0.61 * protein_frac,
        .origin = FIGURE_BOOK,
        .source = "TIMMONS2010",
    };
}

Figure water_feed_oxygen_fish_kg_kg(void)
{
    return (Figure){0.30, 0.25, 0.42, FIGURE_BOOK, "TIMMONS2010"};
}

Figure water_feed_oxygen_loop_kg_kg(void)
{
    return (Figure){0.85, 0.7, 1.0, FIGURE_GUESS, "TIMMONS2010"};
}

double water_nitrify_oxygen_g_g(void)
{
    return 2.0 * O2_G_MOL / N_G_MOL;
}

double water_nitrify_alkalinity_g_g(void)
{
    return 2.0 * CACO3_G_EQ / N_G_MOL;
}

double water_uptake_alkalinity_g_g(void)
{
    return CACO3_G_EQ / N_G_MOL;
}

/* Low, value and high of the same thing. */
typedef struct Three {
    double at[3];
} Three;

static Three ph_share(double ph)
{
    static const double PH[] = {5.0, 5.5, 6.0, 7.0, 7.5, 8.0, 8.8, 9.5};
    static const Three SHARE[] = {
        {{0.00, 0.05, 0.10}}, {{0.10, 0.18, 0.25}}, {{0.24, 0.32, 0.40}},
        {{0.39, 0.70, 0.83}}, {{0.62, 0.90, 1.00}}, {{1.00, 1.00, 1.00}},
        {{0.60, 0.90, 1.00}}, {{0.00, 0.20, 0.50}},
    };
    enum { COUNT = sizeof PH / sizeof *PH };
    if (ph <= PH[0]) {
        return SHARE[0];
    }
    for (int i = 1; i < COUNT; i++) {
        if (ph <= PH[i]) {
            double part = (ph - PH[i - 1]) / (PH[i] - PH[i - 1]);
            Three out;
            for (int k = 0; k < 3; k++) {
                out.at[k] = SHARE[i - 1].at[k] +
                            part * (SHARE[i].at[k] - SHARE[i - 1].at[k]);
            }
            return out;
        }
    }
    return SHARE[COUNT - 1];
}

Figure water_nitrify_g_m2_d(const NitrifyWater *water)
{
    static const Three R20 = {{1.0, 2.4, 3.4}};
    static const Three KS = {{2.0, 1.5, 1.0}};
    static const double THETA_LOW = 1.011;
    static const double THETA = 1.027;
    static const double THETA_HIGH = 1.043;
    static const double KO = 1.3;
    Three ph = ph_share(water->ph);
    double away = water->temp_degc - 20.0;
    double warm = pow(THETA_HIGH, away);
    double cool = pow(THETA_LOW, away);
    Three heat = {{fmin(warm, cool), pow(THETA, away), fmax(warm, cool)}};
    double tan = fmax(0.0, water->tan_mg_l);
    double oxygen = fmax(0.0, water->oxygen_mg_l);
    double rate[3];
    for (int k = 0; k < 3; k++) {
        rate[k] = R20.at[k] * heat.at[k] * tan / (KS.at[k] + tan) * oxygen /
                  (KO + oxygen) * ph.at[k] * water->clean_frac;
    }
    return (Figure){rate[1], rate[0], rate[2], FIGURE_GUESS, "TIMMONS2010"};
}

Figure water_nitrify_most_g_m3_d(void)
{
    return (Figure){100.0, 31.0, 171.0, FIGURE_GUESS, "TYSON2008"};
}

double water_gravel_surface_m2_m3(double porosity_frac, double stone_mm)
{
    assert(stone_mm > 0.0);
    return 6.0 * (1.0 - porosity_frac) / (stone_mm / 1000.0);
}

Figure water_bed_carries_g_d(const NitrifyWater *water, double gravel_m3,
                             double surface_m2_m3)
{
    Figure film = water_nitrify_g_m2_d(water);
    Figure most = water_nitrify_most_g_m3_d();
    return (Figure){
        .value = gravel_m3 * fmin(film.value * surface_m2_m3, most.value),
        .low = gravel_m3 * fmin(film.low * surface_m2_m3, most.low),
        .high = gravel_m3 * fmin(film.high * surface_m2_m3, most.high),
        .origin = FIGURE_GUESS,
        .source = film.source,
    };
}
