/* What a farm's air and beds carry. */
#include "sim/carries.h"

#include <assert.h>
#include <math.h>

#include "base/date.h"
#include "nature/water/nitrogen.h"
#include "nature/water/oxygen.h"

static const double G_KG = 1000.0;

double carries_oxygen_floor_mg_l(void)
{
    return 5.0;
}

static double loop_volume_m3(const Farm *farm, int loop)
{
    double volume_m3 = 0.0;
    for (int k = 0; k < farm->tanks_count; k++) {
        volume_m3 += farm->tanks[k].loop == loop ? farm->tanks[k].volume_m3 : 0;
    }
    return volume_m3;
}

static double standard_kg_h(const Farm *farm, int tank, double share)
{
    double sum = 0.0;
    for (int i = 0; i < farm->aerators_count; i++) {
        const Aerator *air = &farm->aerators[i];
        double kg_h = air->power_w / 1000.0 * air->oxygen_kg_kwh;
        if (air->tank == tank) {
            sum += kg_h;
        } else if (air->tank < 0 && air->loop >= 0 &&
                   air->loop == farm->tanks[tank].loop) {
            sum += share * kg_h;
        }
    }
    return sum;
}

static double tank_flow_m3_h(const Farm *farm, int loop, double share)
{
    double flow_m3_h = 0.0;
    for (int i = 0; i < farm->pumps_count; i++) {
        const Pump *pump = &farm->pumps[i];
        if (loop >= 0 && pump->loop == loop) {
            flow_m3_h += pump->flow_m3_h * pump->tanks_frac * share;
        }
    }
    return flow_m3_h;
}

double carries_oxygen_g_h(const Farm *farm, int tank, double temp_degc)
{
    static const double ALPHA = 0.9; /* clean fish water: 0.9-1 */
    static const double BETA = 0.98;
    static const double INFLOW_FRAC = 0.9; /* of saturation; a guess */
    assert(tank >= 0 && tank < farm->tanks_count);
    int loop = farm->tanks[tank].loop;
    double share =
        loop < 0 ? 0.0
                 : farm->tanks[tank].volume_m3 / loop_volume_m3(farm, loop);
    double altitude_m = farm->farm_count > 0 ? farm->farm[0].altitude_m : 0.0;
    OxygenWater water = {temp_degc, water_pressure_kpa(altitude_m), 0.0};
    AirTransfer air = {standard_kg_h(farm, tank, share), ALPHA, BETA};
    double floor_mg_l = carries_oxygen_floor_mg_l();
    double over_mg_l =
        INFLOW_FRAC * water_oxygen_saturation_mg_l(&water) - floor_mg_l;
    return G_KG * water_air_gives_kg_h(&air, &water, floor_mg_l) +
           tank_flow_m3_h(farm, loop, share) * fmax(0.0, over_mg_l);
}

/* Rates over those at 25 degC, the temperature of the book's figure. */
static Figure warmth_of_films(double temp_degc)
{
    static const NitrifyWater LIKE = {
        .tan_mg_l = 1.0, .oxygen_mg_l = 5.0, .ph = 7.0, .clean_frac = 1.0};
    NitrifyWater here = LIKE;
    NitrifyWater book = LIKE;
    here.temp_degc = temp_degc;
    book.temp_degc = 25.0;
    Figure a = water_nitrify_g_m2_d(&here);
    Figure b = water_nitrify_g_m2_d(&book);
    return (Figure){.value = a.value / b.value,
                    .low = a.low / b.low,
                    .high = a.high / b.high};
}

static double flooded_share(const Farm *farm, const Bed *bed, int32_t day)
{
    static const double DAY_H = 24.0;
    double hours = farm->zones[bed->zone].hours_d[date_month(day) - 1];
    return fmin(1.0, bed->flood_m / bed->depth_m) * hours / DAY_H;
}

Figure carries_tan_g_d(const Farm *farm, const Book *book, int loop,
                       int32_t day, double temp_degc)
{
    Figure warm = warmth_of_films(temp_degc);
    Figure most = water_nitrify_most_g_m3_d();
    Figure sum = {.origin = FIGURE_GUESS, .source = most.source};
    for (int i = 0; i < farm->beds_count; i++) {
        const Bed *bed = &farm->beds[i];
        if (bed->zone < 0 || farm->zones[bed->zone].loop != loop ||
            day < bed->from || day > bed->until) {
            continue;
        }
        const BookGravel *gravel = book_gravel(book, bed->gravel);
        if (!gravel) {
            continue;
        }
        double m3 = bed->length_m * bed->width_m * bed->depth_m *
                    flooded_share(farm, bed, day);
        const Figure *rate = &gravel->nitrify_g_m2_d;
        const Figure *face = &gravel->surface_m2_m3;
        sum.value +=
            m3 * fmin(rate->value * warm.value * face->value, most.value);
        sum.low += m3 * fmin(rate->low * warm.low * face->low, most.low);
        sum.high += m3 * fmin(rate->high * warm.high * face->high, most.high);
    }
    return sum;
}
