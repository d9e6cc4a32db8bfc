/* The tables of a typical year: their room, clearing and closing. */
#include "sim/climate_tables.h"

#include <math.h>
#include <string.h>

#include "nature/sun/solar.h"

static double *new_days(Arena *arena)
{
    return ARENA_ARRAY(arena, double, CLIMATE_DAYS);
}

void climate_tables_make(const Farm *farm, Arena *arena,
                         const ClimateModel *model, ClimateYear *year)
{
    *year = (ClimateYear){
        .day_length_h = new_days(arena),
        .outside_mean_degc = new_days(arena),
        .outside_min_degc = new_days(arena),
        .outside_max_degc = new_days(arena),
        .outside_dli_mol = new_days(arena),
        .tunnels = ARENA_ARRAY(arena, ClimateTunnel, farm->tunnels_count),
        .loops = ARENA_ARRAY(arena, ClimateLoop, farm->loops_count),
        .tanks = ARENA_ARRAY(arena, ClimateLoop, farm->tanks_count),
        .bed_light_frac = ARENA_ARRAY(arena, double, farm->beds_count)};
    for (int32_t i = 0; i < farm->tunnels_count; i++) {
        year->tunnels[i] = (ClimateTunnel){
            .mean_degc = new_days(arena),
            .min_degc = new_days(arena),
            .max_degc = new_days(arena),
            .crop_min_degc = new_days(arena),
            .dli_mol = new_days(arena),
            .row_dli_mol = {new_days(arena), new_days(arena), new_days(arena)},
            .heater_kwh = new_days(arena),
            .rh_frac = new_days(arena),
            .wet_h = new_days(arena)};
    }
    for (int32_t i = 0; i < farm->loops_count; i++) {
        year->loops[i] = (ClimateLoop){new_days(arena), new_days(arena),
                                       new_days(arena), new_days(arena)};
    }
    for (int32_t i = 0; i < farm->tanks_count; i++) {
        int32_t water = model->tank_water[i];
        if (water < farm->loops_count) {
            year->tanks[i] = year->loops[water];
            year->tanks[i].heater_kwh = NULL;
        } else {
            year->tanks[i] = (ClimateLoop){new_days(arena), new_days(arena),
                                           new_days(arena), new_days(arena)};
        }
    }
}

/* Everything that a counted year adds to. */
void climate_tables_clear(const ClimateModel *model, ClimateYear *year)
{
    size_t size = CLIMATE_DAYS * sizeof(double);
    year->ledger = (ClimateLedger){0};
    year->heater_cost = 0.0;
    for (int32_t i = 0; i < model->farm->tunnels_count; i++) {
        memset(year->tunnels[i].mean_degc, 0, size);
        memset(year->tunnels[i].heater_kwh, 0, size);
        memset(year->tunnels[i].rh_frac, 0, size);
        memset(year->tunnels[i].wet_h, 0, size);
    }
    for (int32_t i = 0; i < model->farm->loops_count; i++) {
        memset(year->loops[i].mean_degc, 0, size);
        memset(year->loops[i].heater_kwh, 0, size);
    }
    for (int32_t i = 0; i < model->farm->tanks_count; i++) {
        if (year->tanks[i].heater_kwh) {
            memset(year->tanks[i].mean_degc, 0, size);
            memset(year->tanks[i].heater_kwh, 0, size);
        }
    }
}

void climate_tables_outside(const ClimateModel *model, ClimateYear *year)
{
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        year->day_length_h[day] = model->days[day].day_length_h;
        year->outside_min_degc[day] = model->days[day].min_degc;
        year->outside_max_degc[day] = model->days[day].max_degc;
        year->outside_dli_mol[day] =
            sun_dli_mol_m2_d(model->days[day].sun_mj_m2_d);
        for (int hour = 0; hour < 24; hour++) {
            year->outside_mean_degc[day] +=
                model->hour_degc[day * 24 + hour] / 24.0;
        }
    }
}

static void repeat_last_day(double *days)
{
    if (days) {
        days[CLIMATE_DAYS - 1] = days[CLIMATE_DAYS - 2];
    }
}

static void repeat_last_loop(ClimateLoop *loop)
{
    repeat_last_day(loop->mean_degc);
    repeat_last_day(loop->min_degc);
    repeat_last_day(loop->max_degc);
    repeat_last_day(loop->heater_kwh);
}

void climate_tables_leap_day(const Farm *farm, ClimateYear *year)
{
    double *outside[] = {year->day_length_h, year->outside_mean_degc,
                         year->outside_min_degc, year->outside_max_degc,
                         year->outside_dli_mol};
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++) {
        repeat_last_day(outside[i]);
    }
    for (int32_t i = 0; i < farm->tunnels_count; i++) {
        ClimateTunnel *to = &year->tunnels[i];
        ClimateLoop air = {to->mean_degc, to->min_degc, to->max_degc,
                           to->heater_kwh};
        repeat_last_loop(&air);
        repeat_last_day(to->dli_mol);
        repeat_last_day(to->crop_min_degc);
        repeat_last_day(to->rh_frac);
        repeat_last_day(to->wet_h);
        for (int row = 0; row < CLIMATE_ROWS; row++) {
            repeat_last_day(to->row_dli_mol[row]);
        }
    }
    for (int32_t i = 0; i < farm->loops_count; i++) {
        repeat_last_loop(&year->loops[i]);
    }
    for (int32_t i = 0; i < farm->tanks_count; i++) {
        repeat_last_loop(&year->tanks[i]);
    }
}

/* Where the farm's table gives no light of its own the side tells. */
static const double *row_of_bed(const ClimateYear *year, const Farm *farm,
                                const Bed *bed)
{
    bool is_given = fabs(bed->light_frac - 1.0) > 1e-9;
    if (bed->tunnel < 0 || is_given) {
        return NULL;
    }
    int row = climate_row_of(bed->side, farm->tunnels[bed->tunnel].axis_deg);
    return year->tunnels[bed->tunnel].row_dli_mol[row];
}

void climate_tables_beds(const Farm *farm, ClimateYear *year)
{
    for (int32_t i = 0; i < farm->beds_count; i++) {
        const Bed *bed = &farm->beds[i];
        const double *row = row_of_bed(year, farm, bed);
        year->bed_light_frac[i] = bed->light_frac;
        double own = 0.0, mean = 0.0;
        for (int day = 0; row && day < CLIMATE_YEAR_DAYS; day++) {
            own += row[day];
            mean += year->tunnels[bed->tunnel].dli_mol[day];
        }
        if (mean > 0.0) {
            year->bed_light_frac[i] = own / mean;
        }
    }
}

double climate_bed_dli_mol(const ClimateYear *year, const Farm *farm, int bed,
                           int day)
{
    const Bed *row = &farm->beds[bed];
    const double *own = row_of_bed(year, farm, row);
    if (own) {
        return own[day];
    }
    return row->light_frac * (row->tunnel < 0
                                  ? year->outside_dli_mol[day]
                                  : year->tunnels[row->tunnel].dli_mol[day]);
}
