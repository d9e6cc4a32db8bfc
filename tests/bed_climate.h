/* A bed's year for tests, from twelve monthly normals: straight lines between
 * the middles of the months. Inside a tunnel where asked. */
#ifndef LEAT_TESTS_BED_CLIMATE_H
#define LEAT_TESTS_BED_CLIMATE_H

#include <math.h>

#include "sim/plant_year.h"

typedef struct Normals {
    double latitude_deg;
    double tmax_degc[12];
    double tmin_degc[12];
    double sun_mj_m2_d[12];
} Normals;

/* What the cover adds and takes; zero and one in the open. */
typedef struct TestCover {
    double max_up_degc;
    double min_up_degc;
    double light_frac;
    double summer_light_frac; /* June to August, times light_frac */
} TestCover;

typedef struct BedClimate {
    double mean_degc[PLANT_YEAR_DAYS];
    double min_degc[PLANT_YEAR_DAYS];
    double max_degc[PLANT_YEAR_DAYS];
    double dli_mol[PLANT_YEAR_DAYS];
    double day_length_h[PLANT_YEAR_DAYS];
    BedYear year; /* points to the arrays above */
} BedClimate;

static double between_months(const double *normals, int doy)
{
    double at = (doy + 0.5) / PLANT_YEAR_DAYS * 12.0 - 0.5 + 12.0;
    int month = (int)at;
    double part = at - month;
    return normals[month % 12] * (1.0 - part) +
           normals[(month + 1) % 12] * part;
}

static inline void bed_climate_init(const Normals *place,
                                    const TestCover *cover, BedClimate *out)
{
    double pi = acos(-1.0);
    for (int d = 0; d < PLANT_YEAR_DAYS; d++) {
        double tmax = between_months(place->tmax_degc, d);
        double tmin = between_months(place->tmin_degc, d);
        double sun = between_months(place->sun_mj_m2_d, d);
        out->max_degc[d] = tmax + cover->max_up_degc;
        out->min_degc[d] = tmin + cover->min_up_degc;
        out->mean_degc[d] = (out->max_degc[d] + out->min_degc[d]) / 2.0;
        /* 2.06 mol a MJ of sun: 0.45 of it PAR, 4.57 umol a J. */
        out->dli_mol[d] = 2.06 * sun * cover->light_frac;
        if (d >= 151 && d < 243) {
            out->dli_mol[d] *= cover->summer_light_frac;
        }
        /* FAO-56, equations 24, 25 and 34. */
        double tilt = 0.409 * sin(2.0 * pi * (d + 1) / 365.0 - 1.39);
        double phi = place->latitude_deg * pi / 180.0;
        out->day_length_h[d] = 24.0 / pi * acos(-tan(phi) * tan(tilt));
    }
    out->year = (BedYear){.mean_degc = out->mean_degc,
                          .min_degc = out->min_degc,
                          .max_degc = out->max_degc,
                          .dli_mol = out->dli_mol,
                          .day_length_h = out->day_length_h};
}

/* The demo's valley: the normals of demo/withy-reach. */
static const Normals VALLEY = {
    38.6,
    {14.0, 15.2, 18.0, 20.2, 24.3, 28.9, 32.0, 32.1, 28.6, 23.0, 17.6, 14.4},
    {4.6, 5.2, 6.9, 8.4, 11.0, 14.2, 15.9, 16.2, 14.9, 12.0, 8.2, 5.6},
    {7.6, 10.4, 15.0, 19.2, 23.4, 26.0, 26.9, 23.8, 18.0, 12.4, 8.6, 6.8}};

/* An unheated tunnel: +4.2 degC by day and +1.3 by night as measured in one.
 * Source: [SAVAGE1980]. Light of a film of two years, cloth in summer. */
static const TestCover TUNNEL = {4.2, 1.3, 0.62, 0.65};
/* A north row, vented wide: less sun on it, less heat. */
static const TestCover COOL_SIDE = {2.2, 1.0, 0.55, 0.65};
static const TestCover OPEN_AIR = {0.0, 0.0, 1.0, 1.0};

#endif
