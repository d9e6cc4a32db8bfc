/* What the typical year brings in a week. */
#include "work/outlook.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "plan/problem.h"
#include "sim/fish_case.h"
#include "sim/plant_planned.h"
#include "sim/plant_years.h"

typedef struct Outlook {
    const Farm *farm;
    const Book *book;
    const OutlookClimate *climate;
    int32_t week; /* the first of them */
    int weeks;
    Arena *arena;
    JobOutlook *out; /* by week */
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

static int32_t monday(const Outlook *outlook, int week)
{
    return outlook->week + week * JOBS_DAYS;
}

/* ---- plants ----------------------------------------------------------------
 */

/* By week and row of plan_plants. */
typedef struct PlantsOut {
    JobYield **yields;
    double **next_units;
    double *sow_degc; /* of every week alike */
} PlantsOut;

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

/* Rows that are picked in none of the weeks, nor in the one after, keep 0. */
static Err add_yields(const Outlook *outlook, PlantYears *years, int32_t index,
                      const PlantsOut *out)
{
    const PlanPlant *row = &outlook->farm->plan_plants[index];
    if (row->pick_from >= monday(outlook, outlook->weeks + 1) ||
        row->pick_until < outlook->week) {
        return ERR_NONE;
    }
    const PlantYear *year = NULL;
    TRY(plant_years_of(years, row->way, row->bed, row->is_shaded, &year));
    CLEANUP(arena_release) Arena scratch = {0};
    PlantBatch batch;
    plant_planned_grow(year, outlook->farm, row, &scratch, &batch);
    double plants = plant_planned_plants(&year->rule, outlook->farm, row);
    for (int w = 0; w < outlook->weeks; w++) {
        int32_t week = monday(outlook, w);
        int32_t next = week + JOBS_DAYS;
        if (row->pick_from < next && row->pick_until >= week) {
            out->yields[w][index] = week_yield(&batch, week, plants);
        }
        if (row->pick_from < next + JOBS_DAYS && row->pick_until >= next) {
            out->next_units[w][index] = week_yield(&batch, next, plants).mean;
        }
    }
    return ERR_NONE;
}

/* Warmth of the seed: on the bench in trays, else in the bed. */
static double sow_degc_of(const Outlook *outlook, const PlanPlant *row,
                          const PlantRule *rule)
{
    const BedYear *bed = &outlook->climate->beds[row->bed];
    int day = bed_day(row->sow_on);
    bool is_in_place =
        rule->start == START_SOWN || outlook->farm->ways[row->way].tray < 0;
    double bench_degc =
        bed->nursery_degc ? bed->nursery_degc[day] : rule->nursery_degc;
    double mat_degc = fmin(rule->mat_degc, rule->thermal.optimum_degc);
    return is_in_place ? bed->mean_degc[day] : fmax(bench_degc, mat_degc);
}

static Err fill_plants(const Outlook *outlook)
{
    const Farm *farm = outlook->farm;
    Arena *arena = outlook->arena;
    int32_t count = farm->plan_plants_count;
    PlantsOut out = {.yields = ARENA_ARRAY(arena, JobYield *, outlook->weeks),
                     .next_units = ARENA_ARRAY(arena, double *, outlook->weeks),
                     .sow_degc = ARENA_ARRAY(arena, double, count)};
    for (int w = 0; w < outlook->weeks; w++) {
        outlook->out[w].yields = out.yields[w] =
            ARENA_ARRAY(arena, JobYield, count);
        outlook->out[w].next_units = out.next_units[w] =
            ARENA_ARRAY(arena, double, count);
        outlook->out[w].sow_degc = out.sow_degc;
    }
    CLEANUP(arena_release) Arena scratch = {0};
    BedKinds kinds;
    bed_kinds_find(&scratch, farm, &kinds);
    PlantYears years = plant_years(farm, outlook->book, outlook->climate->beds,
                                   &kinds, &scratch);
    for (int32_t i = 0; i < count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        PlantRule rule;
        TRY(plant_rule_of_farm(outlook->book, farm, row->way, &rule));
        out.sow_degc[i] = sow_degc_of(outlook, row, &rule);
        TRY(add_yields(outlook, &years, i, &out));
    }
    return ERR_NONE;
}

/* ---- fish ------------------------------------------------------------------
 */

/* From the first Monday to the end of the last week that is asked for. */
static FishSpan span_of(const Outlook *outlook, int32_t first, int32_t tank)
{
    int32_t last = monday(outlook, outlook->weeks - 1);
    int weeks = (last - first) / JOBS_DAYS + 1;
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

/* Weeks of a fish year up to a week that is asked for. */
static int fish_week(const Outlook *outlook, const FishYear *year, int week)
{
    int32_t at = monday(outlook, week);
    return at > year->first_week ? (at - year->first_week) / JOBS_DAYS : 0;
}

/* What is told of fish, by week: of lanes, and of rows of fish. */
typedef struct FishOut {
    double **lane_g;
    double **lane_alive_frac;
    double **fish_g;
    double **fish_alive_frac;
} FishOut;

static void take_lane(const Outlook *outlook, int32_t lane,
                      const FishYear *year, const FishOut *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    const PlanFish *row = &outlook->farm->plan_fish[lane];
    FishLane lanes[PLAN_LANES];
    fish_year_lanes(&scratch, year, PLAN_LANES, lanes);
    int at = row->lane <= PLAN_LANES ? row->lane - 1 : PLAN_LANES - 1;
    for (int w = 0; w < outlook->weeks; w++) {
        int week = fish_week(outlook, year, w);
        out->lane_g[w][lane] = lanes[at].weight_g[week];
        out->lane_alive_frac[w][lane] = lanes[at].alive[week];
    }
}

static bool is_lane_of(const Farm *farm, int32_t lane, int32_t of)
{
    const PlanFish *row = &farm->plan_fish[lane];
    const PlanFish *other = &farm->plan_fish[of];
    return row->standing == other->standing && row->source == other->source &&
           strcmp(row->batch, other->batch) == 0;
}

/* A row of fish and the lanes that the plan cuts it into. */
static Err take_standing(const Outlook *outlook, int32_t row,
                         const FishOut *out)
{
    const Farm *farm = outlook->farm;
    CLEANUP(arena_release) Arena scratch = {0};
    FishYear year;
    TRY(run_standing(outlook, row, &scratch, &year));
    for (int w = 0; w < outlook->weeks; w++) {
        int week = fish_week(outlook, &year, w);
        out->fish_g[w][row] = fish_year_mean_g(&year, week);
        out->fish_alive_frac[w][row] =
            fish_year_count(&year, week) / farm->fish[row].count;
    }
    for (int32_t i = 0; i < farm->plan_fish_count; i++) {
        if (farm->plan_fish[i].standing == row) {
            take_lane(outlook, i, &year, out);
        }
    }
    return ERR_NONE;
}

/* All lanes of a batch to come, at the first of them. */
static Err take_coming(const Outlook *outlook, int32_t first,
                       const FishOut *out)
{
    const Farm *farm = outlook->farm;
    for (int32_t i = 0; i < first; i++) {
        if (is_lane_of(farm, i, first)) {
            return ERR_NONE;
        }
    }
    CLEANUP(arena_release) Arena scratch = {0};
    FishYear year;
    TRY(run_coming(outlook, first, &scratch, &year));
    for (int32_t i = first; i < farm->plan_fish_count; i++) {
        if (is_lane_of(farm, i, first)) {
            take_lane(outlook, i, &year, out);
        }
    }
    return ERR_NONE;
}

static FishOut open_fish(const Outlook *outlook)
{
    const Farm *farm = outlook->farm;
    Arena *arena = outlook->arena;
    FishOut out;
    double ***by_week[] = {&out.lane_g, &out.lane_alive_frac, &out.fish_g,
                           &out.fish_alive_frac};
    for (size_t i = 0; i < sizeof by_week / sizeof *by_week; i++) {
        *by_week[i] = ARENA_ARRAY(arena, double *, outlook->weeks);
    }
    for (int w = 0; w < outlook->weeks; w++) {
        JobOutlook *to = &outlook->out[w];
        int32_t lanes = farm->plan_fish_count;
        int32_t rows = farm->fish_count;
        to->lane_g = out.lane_g[w] = ARENA_ARRAY(arena, double, lanes);
        to->lane_alive_frac = out.lane_alive_frac[w] =
            ARENA_ARRAY(arena, double, lanes);
        to->fish_g = out.fish_g[w] = ARENA_ARRAY(arena, double, rows);
        to->fish_alive_frac = out.fish_alive_frac[w] =
            ARENA_ARRAY(arena, double, rows);
    }
    return out;
}

static Err fill_fish(const Outlook *outlook)
{
    const Farm *farm = outlook->farm;
    FishOut out = open_fish(outlook);
    for (int32_t i = 0; i < farm->fish_count; i++) {
        TRY(take_standing(outlook, i, &out));
    }
    for (int32_t i = 0; i < farm->plan_fish_count; i++) {
        if (farm->plan_fish[i].standing < 0) {
            TRY(take_coming(outlook, i, &out));
        }
    }
    return ERR_NONE;
}

/* ---- air and water ---------------------------------------------------------
 */

static void fill_water(const Outlook *outlook, int32_t week, JobOutlook *out)
{
    int32_t count = outlook->farm->tanks_count;
    double *degc = ARENA_ARRAY(outlook->arena, double, count *JOBS_DAYS);
    for (int32_t k = 0; k < count; k++) {
        const double *year = outlook->climate->tank_degc[k];
        for (int d = 0; d < JOBS_DAYS; d++) {
            degc[k * JOBS_DAYS + d] = year[day_of_year(week + d)];
        }
    }
    out->tank_degc = degc;
}

/* A tunnel's air is that of its first bed. */
static void fill_air(const Outlook *outlook, int32_t week, JobOutlook *out)
{
    const Farm *farm = outlook->farm;
    int32_t count = farm->tunnels_count;
    double *least = ARENA_ARRAY(outlook->arena, double, count *JOBS_DAYS);
    double *most = ARENA_ARRAY(outlook->arena, double, count *JOBS_DAYS);
    for (int32_t b = farm->beds_count - 1; b >= 0; b--) {
        int32_t tunnel = farm->beds[b].tunnel;
        for (int d = 0; d < JOBS_DAYS && tunnel >= 0; d++) {
            const BedYear *bed = &outlook->climate->beds[b];
            int day = bed_day(week + d);
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

Err outlook_make_weeks(const OutlookAsk *ask, int weeks, Arena *arena,
                       JobOutlook *out)
{
    Outlook outlook = {ask->farm, ask->book, ask->climate, ask->week,
                       weeks,     arena,     out};
    memset(out, 0, (size_t)weeks * sizeof *out);
    TRY(fill_plants(&outlook));
    TRY(fill_fish(&outlook));
    for (int w = 0; w < weeks; w++) {
        fill_water(&outlook, monday(&outlook, w), &out[w]);
        fill_air(&outlook, monday(&outlook, w), &out[w]);
    }
    return ERR_NONE;
}

Err outlook_make(const OutlookAsk *ask, Arena *arena, JobOutlook *out)
{
    return outlook_make_weeks(ask, 1, arena, out);
}

Err outlook_stand(const OutlookStand *ask, Arena *arena, PlantStand *out)
{
    OutlookClimate climate;
    outlook_climate(ask->farm, ask->climate, arena, &climate);
    BedKinds kinds;
    bed_kinds_find(arena, ask->farm, &kinds);
    PlantStandCase stand = {.farm = ask->farm,
                            .book = ask->book,
                            .beds = climate.beds,
                            .kinds = &kinds,
                            .first_week = ask->first_week,
                            .weeks = ask->weeks};
    return plant_stand_run(arena, &stand, out);
}
