/* What the typical year brings in one week. */
#include "work/outlook.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "plan/problem.h"
#include "sim/fish_case.h"
#include "sim/plant_planned.h"

typedef struct Outlook {
    const Farm *farm;
    const Book *book;
    const OutlookClimate *climate;
    int32_t week;
    Arena *arena;
} Outlook;

static int day_of_year(int32_t day)
{
    return date_day_of_year(day) - 1;
}

/* Day of a bed's year, which has 365. */
static int bed_day(int32_t day)
{
    int at = day_of_year(day);
    return at < PLANT_YEAR_DAYS ? at : PLANT_YEAR_DAYS - 1;
}

/* ---- plants ----------------------------------------------------------------
 */

/* Units of a batch in a week, for its plants. */
static JobYield week_yield(const PlantBatch *batch, int32_t week, double plants)
{
    int at = (week - batch->first_week) / 7;
    if (batch->is_refused || week < batch->first_week ||
        at >= batch->week_count) {
        return (JobYield){0};
    }
    return (JobYield){.low = batch->units_low[at] * plants,
                      .mean = batch->units[at] * plants,
                      .high = batch->units_high[at] * plants};
}

static Err yield_of(const Outlook *outlook, int32_t index, JobYield *out,
                    double *out_next)
{
    const PlanPlant *row = &outlook->farm->plan_plants[index];
    int32_t next = outlook->week + JOBS_DAYS;
    *out = (JobYield){0};
    *out_next = 0.0;
    if (row->pick_from >= next + JOBS_DAYS || row->pick_until < outlook->week) {
        return ERR_NONE;
    }
    CLEANUP(arena_release) Arena scratch = {0};
    PlantRule rule;
    TRY(plant_rule_of_farm(outlook->book, outlook->farm, row->way, &rule));
    BedYear bed = outlook->climate->beds[row->bed];
    if (row->is_shaded) {
        bed = plant_shade_year(&scratch, &bed,
                               outlook->book->common->edge_shade_frac.value);
    }
    PlantYear year;
    plant_year_init(&scratch, &rule, &bed, &year);
    PlantBatch batch;
    plant_planned_grow(&year, outlook->farm, row, &scratch, &batch);
    double plants = plant_planned_plants(&rule, outlook->farm, row);
    if (row->pick_from < next) {
        *out = week_yield(&batch, outlook->week, plants);
    }
    if (row->pick_until >= next) {
        *out_next = week_yield(&batch, next, plants).mean;
    }
    return ERR_NONE;
}

/* Warmth of the seed: on the bench in trays, else in the bed. */
static Err sow_degc_of(const Outlook *outlook, int32_t index, double *out)
{
    const PlanPlant *row = &outlook->farm->plan_plants[index];
    const BedYear *bed = &outlook->climate->beds[row->bed];
    PlantRule rule;
    TRY(plant_rule_of_farm(outlook->book, outlook->farm, row->way, &rule));
    int day = bed_day(row->sow_on);
    bool is_in_place =
        rule.start == START_SOWN || outlook->farm->ways[row->way].tray < 0;
    double bench_degc =
        bed->nursery_degc ? bed->nursery_degc[day] : rule.nursery_degc;
    double mat_degc = fmin(rule.mat_degc, rule.thermal.optimum_degc);
    *out = is_in_place ? bed->mean_degc[day] : fmax(bench_degc, mat_degc);
    return ERR_NONE;
}

static Err fill_plants(const Outlook *outlook, JobOutlook *out)
{
    int32_t count = outlook->farm->plan_plants_count;
    JobYield *yields = ARENA_ARRAY(outlook->arena, JobYield, count);
    double *next_units = ARENA_ARRAY(outlook->arena, double, count);
    double *sow_degc = ARENA_ARRAY(outlook->arena, double, count);
    for (int32_t i = 0; i < count; i++) {
        TRY(yield_of(outlook, i, &yields[i], &next_units[i]));
        TRY(sow_degc_of(outlook, i, &sow_degc[i]));
    }
    out->yields = yields;
    out->next_units = next_units;
    out->sow_degc = sow_degc;
    return ERR_NONE;
}

/* ---- fish ------------------------------------------------------------------
 */

/* From the first Monday to the end of the week that is asked for. */
static FishSpan span_of(const Outlook *outlook, int32_t first, int32_t tank)
{
    int weeks = (outlook->week - first) / 7 + 1;
    return (FishSpan){.first_week = first,
                      .weeks = weeks < 1 ? 1 : weeks,
                      .water_degc = outlook->climate->tank_degc[tank]};
}

/* A row of fish, from the day it was counted. */
static Err run_standing(const Outlook *outlook, int32_t row, Arena *arena,
                        FishYear *out)
{
    const Fish *fish = &outlook->farm->fish[row];
    FishSpan span = span_of(outlook, week_of(fish->counted_on + 6), fish->tank);
    FishYearCase fish_case;
    TRY(fish_case_standing(arena, outlook->farm, row, &span, &fish_case));
    return fish_year_run(arena, &fish_case, out);
}

/* The batch of a lane that comes from a source, from its first stocking on. */
static Err run_coming(const Outlook *outlook, int32_t lane, Arena *arena,
                      FishYear *out)
{
    const Farm *farm = outlook->farm;
    const PlanFish *row = &farm->plan_fish[lane];
    int32_t from = week_of(farm->plan[0].from);
    int32_t tank = 0;
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        if (move->kind == MOVE_STOCK &&
            strcmp(farm->plan_fish[move->fish].batch, row->batch) == 0) {
            from = week_of(move->on);
            tank = move->to_tank;
            break;
        }
    }
    FishSpan span = span_of(outlook, from, tank);
    FishYearCase fish_case;
    TRY(fish_case_source(arena, farm, row->source,
                         farm->fish_sources[row->source].most, &span,
                         &fish_case));
    return fish_year_run(arena, &fish_case, out);
}

static Err fill_lane(const Outlook *outlook, int32_t lane, double *out_g,
                     double *out_alive_frac)
{
    const PlanFish *row = &outlook->farm->plan_fish[lane];
    CLEANUP(arena_release) Arena scratch = {0};
    FishYear year;
    if (row->standing >= 0) {
        TRY(run_standing(outlook, row->standing, &scratch, &year));
    } else {
        TRY(run_coming(outlook, lane, &scratch, &year));
    }
    FishLane lanes[PLAN_LANES];
    fish_year_lanes(&scratch, &year, PLAN_LANES, lanes);
    int lane_index = row->lane <= PLAN_LANES ? row->lane - 1 : PLAN_LANES - 1;
    int week = outlook->week > year.first_week
                   ? (outlook->week - year.first_week) / 7
                   : 0;
    *out_g = lanes[lane_index].weight_g[week];
    *out_alive_frac = lanes[lane_index].alive[week];
    return ERR_NONE;
}

static Err fill_fish(const Outlook *outlook, JobOutlook *out)
{
    const Farm *farm = outlook->farm;
    double *lane_g = ARENA_ARRAY(outlook->arena, double, farm->plan_fish_count);
    double *lane_alive =
        ARENA_ARRAY(outlook->arena, double, farm->plan_fish_count);
    double *fish_g = ARENA_ARRAY(outlook->arena, double, farm->fish_count);
    double *fish_alive = ARENA_ARRAY(outlook->arena, double, farm->fish_count);
    for (int32_t i = 0; i < farm->plan_fish_count; i++) {
        TRY(fill_lane(outlook, i, &lane_g[i], &lane_alive[i]));
    }
    for (int32_t i = 0; i < farm->fish_count; i++) {
        CLEANUP(arena_release) Arena scratch = {0};
        FishYear year;
        TRY(run_standing(outlook, i, &scratch, &year));
        int week = (outlook->week - year.first_week) / 7;
        week = week < 0 ? 0 : week;
        fish_g[i] = fish_year_mean_g(&year, week);
        fish_alive[i] = fish_year_count(&year, week) / farm->fish[i].count;
    }
    out->lane_g = lane_g;
    out->lane_alive_frac = lane_alive;
    out->fish_g = fish_g;
    out->fish_alive_frac = fish_alive;
    return ERR_NONE;
}

/* ---- air and water ---------------------------------------------------------
 */

static void fill_water(const Outlook *outlook, JobOutlook *out)
{
    int32_t count = outlook->farm->tanks_count;
    double *degc = ARENA_ARRAY(outlook->arena, double, count *JOBS_DAYS);
    for (int32_t k = 0; k < count; k++) {
        const double *year = outlook->climate->tank_degc[k];
        for (int d = 0; d < JOBS_DAYS; d++) {
            degc[k * JOBS_DAYS + d] = year[day_of_year(outlook->week + d)];
        }
    }
    out->tank_degc = degc;
}

/* A tunnel's air is that of its first bed. */
static void fill_air(const Outlook *outlook, JobOutlook *out)
{
    const Farm *farm = outlook->farm;
    int32_t count = farm->tunnels_count;
    double *least = ARENA_ARRAY(outlook->arena, double, count *JOBS_DAYS);
    double *most = ARENA_ARRAY(outlook->arena, double, count *JOBS_DAYS);
    for (int32_t b = farm->beds_count - 1; b >= 0; b--) {
        int32_t tunnel = farm->beds[b].tunnel;
        for (int d = 0; d < JOBS_DAYS && tunnel >= 0; d++) {
            const BedYear *bed = &outlook->climate->beds[b];
            int day = bed_day(outlook->week + d);
            least[tunnel * JOBS_DAYS + d] = bed->min_degc[day];
            most[tunnel * JOBS_DAYS + d] = bed->max_degc[day];
        }
    }
    out->tunnel_min_degc = least;
    out->tunnel_max_degc = most;
}

static BedYear bed_year(const Farm *farm, const ClimateYear *year, int32_t bed,
                        Arena *arena)
{
    int32_t row = farm->beds[bed].tunnel;
    const ClimateTunnel *tunnel = row >= 0 ? &year->tunnels[row] : NULL;
    const double *floor_mol = tunnel ? tunnel->dli_mol : year->outside_dli_mol;
    double *dli_mol = ARENA_ARRAY(arena, double, CLIMATE_DAYS);
    for (int d = 0; d < CLIMATE_DAYS; d++) {
        dli_mol[d] = floor_mol[d] * year->bed_light_frac[bed];
    }
    return (BedYear){
        .mean_degc = tunnel ? tunnel->mean_degc : year->outside_mean_degc,
        .min_degc = tunnel ? tunnel->crop_min_degc : year->outside_min_degc,
        .max_degc = tunnel ? tunnel->max_degc : year->outside_max_degc,
        .dli_mol = dli_mol,
        .day_length_h = year->day_length_h};
}

void outlook_climate(const Farm *farm, const ClimateYear *year, Arena *arena,
                     OutlookClimate *out)
{
    BedYear *beds = ARENA_ARRAY(arena, BedYear, farm->beds_count);
    for (int32_t b = 0; b < farm->beds_count; b++) {
        beds[b] = bed_year(farm, year, b, arena);
    }
    const double **tanks =
        ARENA_ARRAY(arena, const double *, farm->tanks_count);
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        tanks[k] = year->tanks[k].mean_degc;
    }
    *out = (OutlookClimate){beds, (const double *const *)tanks};
}

Err outlook_make(const OutlookAsk *ask, Arena *arena, JobOutlook *out)
{
    Outlook outlook = {ask->farm, ask->book, ask->climate, ask->week, arena};
    JobOutlook made = {0};
    TRY(fill_plants(&outlook, &made));
    TRY(fill_fish(&outlook, &made));
    fill_water(&outlook, &made);
    fill_air(&outlook, &made);
    *out = made;
    return ERR_NONE;
}
