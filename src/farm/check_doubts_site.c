/* Doubts about the place: its zone, climate, tunnels, and water too cold. */
#include <math.h>
#include <string.h>

#include "farm/checker.h"
#include "farm/zones.h"
#include "nature/fish/species.h"
#include "nature/sun/solar.h"

enum { MONTHS = 12, MID_MONTH_DAY = 15 };

/* Marks of a slip of the pen, common practice of the trade: on the clearest
 * days the ground has three quarters of the sun above the air, and under the
 * dullest month's sky more than a tenth; between one month and the next two
 * the mean temperature of no place bends by 8 degC; poleward of 30 degrees the
 * warm half of the year is the one with the long days; the water of a tunnel
 * that nobody heats is no more than 8 degC over the mean air outside. */
#define SUN_MOST_FRAC 0.85
#define SUN_LEAST_FRAC 0.1
#define BEND_MOST_DEGC 8.0
#define SEASONS_FROM_DEG 30.0
#define TUNNEL_WARMER_DEGC 8.0

static void doubt_zone(const Checker *c, const FarmSite *site)
{
    if (!*site->timezone || zone_is_known(site->timezone)) {
        return;
    }
    const char *near = zone_nearest(site->timezone, c->arena);
    check_doubt(c, TABLE_farm, site, "timezone",
                "no zone of the IANA list of 2025b%s%s%s; where the machine "
                "does not know it either, days begin in UTC",
                near ? " (near: " : "", near ? near : "", near ? ")" : "");
}

/* Rows by month; false where one is missing, told twice or at fault. */
static bool months_of(const Checker *c, const ClimateMonth *out[MONTHS])
{
    int count = 0;
    for (int32_t i = 0; i < c->farm->climate_count; i++) {
        const ClimateMonth *row = &c->farm->climate[i];
        bool is_sound = row->month >= 1 && row->month <= MONTHS &&
                        isfinite(row->tmax_degc) && isfinite(row->tmin_degc) &&
                        isfinite(row->sun_mj_m2_d) && !out[row->month - 1];
        if (!is_sound) {
            return false;
        }
        out[row->month - 1] = row;
        count++;
    }
    return count == MONTHS;
}

static double mean_degc(const ClimateMonth *row)
{
    return (row->tmax_degc + row->tmin_degc) / 2.0;
}

static void doubt_sun(const Checker *c, double latitude_deg,
                      const ClimateMonth *row)
{
    int day = (int)lround((row->month - 1) * 365.25 / MONTHS) + MID_MONTH_DAY;
    double above = sun_above_air_mj_m2_d(latitude_deg, day);
    if (row->sun_mj_m2_d > SUN_MOST_FRAC * above ||
        row->sun_mj_m2_d < SUN_LEAST_FRAC * above) {
        check_doubt(c, TABLE_climate, row, "sun_mj_m2_d",
                    "above the air month %d has %.3g MJ/m2 a day at latitude "
                    "%.4g; the ground has from a tenth to three quarters of it",
                    (int)row->month, above, latitude_deg);
    }
}

/* True, and told, where the year seems to be the other hemisphere's. */
static bool doubt_seasons(const Checker *c, const FarmSite *site,
                          const ClimateMonth *const months[MONTHS])
{
    double turn = 0.0; /* June to August over December to February */
    for (int i = 0; i < 3; i++) {
        turn += mean_degc(months[5 + i]) - mean_degc(months[(11 + i) % MONTHS]);
    }
    if (fabs(site->latitude_deg) < SEASONS_FROM_DEG ||
        turn * site->latitude_deg > 0.0) {
        return false;
    }
    check_doubt(c, TABLE_farm, site, "latitude_deg",
                "north is positive, and climate.csv has its warm months when "
                "the days there are short");
    return true;
}

/* How far a month stands from the mean of the two beside it. */
static double bend_degc(const ClimateMonth *const months[MONTHS], int m)
{
    return mean_degc(months[m % MONTHS]) -
           (mean_degc(months[(m + 1) % MONTHS]) +
            mean_degc(months[(m + MONTHS - 1) % MONTHS])) /
               2.0;
}

/* A month with a slip bends its neighbours too, half as far. */
static void doubt_bend(const Checker *c,
                       const ClimateMonth *const months[MONTHS], int m)
{
    double bend = fabs(bend_degc(months, m));
    if (bend > BEND_MOST_DEGC && bend > fabs(bend_degc(months, m + 1)) &&
        bend > fabs(bend_degc(months, m + MONTHS - 1))) {
        check_doubt(c, TABLE_climate, months[m], "tmax_degc",
                    "the mean of month %d is %.3g degC, between months of %.3g",
                    m + 1, mean_degc(months[m]),
                    mean_degc(months[m]) - bend_degc(months, m));
    }
}

static void doubt_climate(const Checker *c)
{
    const ClimateMonth *months[MONTHS] = {0};
    if (c->farm->farm_count != 1 || !isfinite(c->farm->farm[0].latitude_deg) ||
        !months_of(c, months) || doubt_seasons(c, &c->farm->farm[0], months)) {
        return;
    }
    for (int m = 0; m < MONTHS; m++) {
        doubt_bend(c, months, m);
        doubt_sun(c, c->farm->farm[0].latitude_deg, months[m]);
    }
}

/* ---- Fish in water that nobody heats --------------------------------------
 */

static bool is_heated(const Checker *c, int32_t tank, int month)
{
    int32_t loop = c->farm->tanks[tank].loop;
    for (int32_t i = 0; i < c->farm->heaters_count; i++) {
        const Heater *heater = &c->farm->heaters[i];
        bool is_its =
            heater->tank == tank || (loop >= 0 && heater->loop == loop);
        bool is_wrong = heater->tank == REF_WRONG || heater->loop == REF_WRONG;
        if ((is_its || is_wrong) && (heater->months >> month & 1u)) {
            return true;
        }
    }
    return false;
}

/* One doubt a fish batch, at the first month that is too cold or too hot. */
static void doubt_warmth(const Checker *c, const Fish *fish,
                         const ClimateMonth *const months[MONTHS])
{
    const FishSpecies *species = NULL;
    Err err = fish_species_find(fish->species, &species);
    if (err.kind != ERR_OK || fish->tank < 0) {
        return;
    }
    for (int m = 0; m < MONTHS; m++) {
        double warmest = mean_degc(months[m]) + TUNNEL_WARMER_DEGC;
        bool is_cold =
            warmest < species->lethal_low_degc && !is_heated(c, fish->tank, m);
        bool is_hot = mean_degc(months[m]) > species->lethal_high_degc;
        if (is_cold || is_hot) {
            check_doubt(c, TABLE_fish, fish, "tank",
                        "month %d has a mean of %.3g degC%s; %s dies below "
                        "%.3g and above %.3g degC",
                        m + 1, mean_degc(months[m]),
                        is_cold ? " and no heater for that tank" : "",
                        species->title, species->lethal_low_degc,
                        species->lethal_high_degc);
            return;
        }
    }
}

static void doubt_fish(const Checker *c)
{
    const ClimateMonth *months[MONTHS] = {0};
    if (!months_of(c, months)) {
        return;
    }
    for (int32_t i = 0; i < c->farm->fish_count; i++) {
        doubt_warmth(c, &c->farm->fish[i], months);
    }
}

void check_doubts_site(const Checker *c)
{
    if (c->farm->farm_count == 1) {
        doubt_zone(c, &c->farm->farm[0]);
    }
    doubt_climate(c);
    doubt_fish(c);
    for (int32_t i = 0; i < c->farm->tunnels_count; i++) {
        const Tunnel *tunnel = &c->farm->tunnels[i];
        if (tunnel_openings_m2(tunnel) <= 0.0) {
            check_doubt(c, TABLE_tunnels, tunnel, "vent_m2",
                        "tunnel %s has no opening that lets its heat out",
                        tunnel->id);
        }
    }
}
