/* The typical year as the planning problem's pieces read it. */
#include "plan/build_parts.h"

#include "base/date.h"

/* Index of a day in the arrays of the typical year. */
static int year_day(int32_t day)
{
    return date_day_of_year(day) - 1;
}

double build_water_day_degc(const Build *build, int loop, int day)
{
    /* Water outside the loops stands in the room and follows the first loop:
     * its tubs hold fish for days only. */
    int row = loop >= 0 ? loop : 0;
    return build->farm->loops_count > 0
               ? build->climate->loops[row].mean_degc[day]
               : build->climate->outside_mean_degc[day];
}

double build_water_degc(const Build *build, int loop, int week)
{
    double sum = 0.0;
    for (int d = 0; d < 7; d++) {
        sum += build_water_day_degc(build, loop,
                                    year_day(build_monday(build, week) + d));
    }
    return sum / 7.0;
}

void build_bed_year(const Build *build, int kind, double shaded_frac,
                    BedYear *out)
{
    int row = build->bed_of_kind[kind];
    const Bed *bed = &build->farm->beds[row];
    const ClimateYear *climate = build->climate;
    double share = climate->bed_light_frac[row] * (1.0 - shaded_frac);
    const double *dli = bed->tunnel >= 0 ? climate->tunnels[bed->tunnel].dli_mol
                                         : climate->outside_dli_mol;
    double *light = ARENA_ARRAY(build->scratch, double, CLIMATE_DAYS);
    for (int d = 0; d < CLIMATE_DAYS; d++) {
        light[d] = dli[d] * share;
    }
    *out = (BedYear){.mean_degc = climate->outside_mean_degc,
                     .min_degc = climate->outside_min_degc,
                     .max_degc = climate->outside_max_degc,
                     .dli_mol = light,
                     .day_length_h = climate->day_length_h};
    if (bed->tunnel >= 0) {
        const ClimateTunnel *tunnel = &climate->tunnels[bed->tunnel];
        out->mean_degc = tunnel->mean_degc;
        out->min_degc = tunnel->crop_min_degc;
        out->max_degc = tunnel->max_degc;
    }
}
