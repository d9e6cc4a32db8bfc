/* The fish in each tank on a day. */
#include "sim/fish_now.h"

#include <math.h>

#include "base/date.h"
#include "farm/read.h"
#include "sim/fish_stand.h"

enum { WEEK_D = 7, GROWN_DAYS_MOST = 366 };

/* Water that the laws of growth take. */
static const double LEAST_DEGC = 1.0;
static const double MOST_DEGC = 38.0;
static const double NONE_KG = 1e-6;
static const double MOST_COUNT = 1e6;
static const double MOST_CV = 1.5;

static const FishSpecies *species_of(const char *name)
{
    const FishSpecies *found = NULL;
    Err err = fish_species_find(name ? name : "", &found);
    int count = 0;
    return err.kind == ERR_OK ? found : &fish_species_all(&count)[0];
}

static FishNowGroup *add_group(FishNowTank *tank, Arena *arena)
{
    tank->groups = arena_grow(arena, tank->groups, (size_t)tank->count,
                              (size_t)tank->count + 1, sizeof *tank->groups);
    return &tank->groups[tank->count++];
}

static FishSlices draw(double count, double mean_g, double cv_frac, FishSex sex)
{
    FishDraw is = {.count = (int)lround(fmin(MOST_COUNT, fmax(1.0, count))),
                   .mean_g = mean_g,
                   .cv_frac = fmin(MOST_CV, fmax(0.0, cv_frac)),
                   .sex = sex};
    return fish_slices_draw(&is);
}

/* ---- Followed -------------------------------------------------------------
 */

static const double *const *water_of(const Farm *farm,
                                     const ClimateYear *climate, Arena *arena)
{
    const double **tanks =
        ARENA_ARRAY(arena, const double *, farm->tanks_count);
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        double *days = ARENA_ARRAY(arena, double, CLIMATE_DAYS);
        for (int d = 0; d < CLIMATE_DAYS; d++) {
            days[d] = fmin(MOST_DEGC,
                           fmax(LEAST_DEGC, climate->tanks[k].mean_degc[d]));
        }
        tanks[k] = days;
    }
    return (const double *const *)tanks;
}

/* How far the batch's mean may be from the middle path, and what it gains until
 * the next Monday. */
static double part_of(const double *some, const double *value, int week)
{
    return value[week] > 0.0 ? some[week] / value[week] : 1.0;
}

static void add_followed(const FishStand *stand, const FishStandBatch *batch,
                         int32_t tank, Arena *arena, FishNowTank *to)
{
    const FishStandShare *share = &batch->in_tanks[tank];
    if (!share->count) {
        return;
    }
    int now = stand->weeks - 1;
    int at = share->kg[0] > share->kg[now] ? 0 : now;
    if (share->kg[at] < NONE_KG || share->count[at] < 1.0 / 2.0) {
        return;
    }
    double least_kg = fmin(share->kg[0], share->kg[now]);
    FishMeans all = batch->all;
    FishNowGroup *group = add_group(to, arena);
    *group = (FishNowGroup){
        .batch = batch->id,
        .species = species_of(NULL),
        .slices = draw(share->count[at], share->mean_g[at], share->cv_frac[at],
                       FISH_SEX_MALES),
        .low_frac = least_kg / share->kg[at] *
                    fmin(1.0, part_of(all.low_g, all.value_g, now)),
        .high_frac = fmax(1.0, part_of(all.high_g, all.value_g, now + 1)) *
                     fmax(1.0, all.value_g[now] > 0.0
                                   ? all.value_g[now + 1] / all.value_g[now]
                                   : 1.0),
    };
}

static const char *species_name(const Farm *farm, const FishStandBatch *batch)
{
    if (batch->standing >= 0) {
        return farm->fish[batch->standing].species;
    }
    return batch->source >= 0 ? farm->fish_sources[batch->source].species
                              : NULL;
}

static Err stand_from(const Farm *farm, const Book *book,
                      const double *const *water, int32_t day,
                      bool is_with_last, Arena *arena, FishStand *out)
{
    FishStandCase is = {
        .farm = farm,
        .book = book,
        .first_week = week_of(day) - (is_with_last ? WEEK_D : 0),
        .weeks = is_with_last ? 2 : 1,
        .tank_degc = water,
        .sale_g = INFINITY,
    };
    return fish_stand_run(arena, &is, out);
}

Err fish_now_followed(const Farm *farm, const Book *book,
                      const ClimateYear *climate, int32_t day, Arena *arena,
                      FishNow *out)
{
    FishNow now = {.tanks = ARENA_ARRAY(arena, FishNowTank, farm->tanks_count),
                   .is_followed = true};
    const double *const *water = water_of(farm, climate, arena);
    bool has_last = week_of(day) > week_of(farm->farm[0].records_from);
    FishStand stand;
    Err err = stand_from(farm, book, water, day, has_last, arena, &stand);
    if (err.kind != ERR_OK && has_last) {
        /* Counted in this week: there is no last Monday. */
        err = stand_from(farm, book, water, day, false, arena, &stand);
    }
    TRY(err);
    for (int b = 0; b < stand.batch_count; b++) {
        const FishStandBatch *batch = &stand.batches[b];
        for (int32_t k = 0; k < farm->tanks_count; k++) {
            int before = now.tanks[k].count;
            add_followed(&stand, batch, k, arena, &now.tanks[k]);
            if (now.tanks[k].count > before) {
                now.tanks[k].groups[before].species =
                    species_of(species_name(farm, batch));
            }
        }
    }
    *out = now;
    return ERR_NONE;
}

/* ---- Counted --------------------------------------------------------------
 */

static bool is_read(const Fish *row)
{
    return row->count > 0 && isfinite(row->mean_g) && row->mean_g > 0.0;
}

/* Kilos at full ration in warm water over kilos when counted. */
static double grown_frac(const FishNowGroup *group, const BookAlarm *alarm,
                         int days)
{
    FishWater water = fish_good_water(alarm->grown_degc.value);
    double before_kg = fish_slices_kg(&group->slices);
    double after_kg = 0.0;
    for (int i = 0; i < FISH_SLICES; i++) {
        const FishSlice *slice = &group->slices.at[i];
        double weight_g = slice->weight_g;
        for (int d = 0; d < days && slice->count > 0.0; d++) {
            weight_g =
                fish_day(group->species, weight_g, &water, 1.0, 1.0).weight_g;
        }
        after_kg += slice->count * weight_g / 1000.0;
    }
    return before_kg > 0.0 ? fmax(1.0, after_kg / before_kg) : 1.0;
}

static FishNowGroup counted_group(const Fish *row, const BookAlarm *alarm,
                                  int32_t day)
{
    FishNowGroup group = {
        .batch = row->id,
        .species = species_of(row->species),
        .slices =
            draw(row->count, row->mean_g,
                 isfinite(row->cv_frac) ? row->cv_frac : 0.0, FISH_SEX_MALES),
        .low_frac = 1.0,
    };
    int days = 0;
    if (row->counted_on != DATE_WRONG && day > row->counted_on) {
        days = day - row->counted_on < GROWN_DAYS_MOST ? day - row->counted_on
                                                       : GROWN_DAYS_MOST;
    }
    group.high_frac = grown_frac(&group, alarm, days);
    return group;
}

/* A tank whose fish could not be read, full to the farm's ceiling. */
static FishNowGroup assumed_group(const Farm *farm, const Fish *row,
                                  const BookAlarm *alarm)
{
    static const double USUAL_CEILING_KG_M3 = 25.0;
    double ceiling = farm->farm_count > 0 ? farm->farm[0].density_ceiling_kg_m3
                                          : USUAL_CEILING_KG_M3;
    double volume_m3 = farm->tanks[row->tank].volume_m3;
    double kg = (isfinite(ceiling) ? ceiling : USUAL_CEILING_KG_M3) *
                (isfinite(volume_m3) ? volume_m3 : 1.0);
    double mean_g = alarm->unread_weight_g.value;
    return (FishNowGroup){
        .batch = row->id,
        .species = species_of(row->species),
        .slices = draw(1000.0 * kg / mean_g, mean_g, 0.0, FISH_SEX_MALES),
        .low_frac = 0.0,
        .high_frac = 1.0,
        .is_assumed = true,
    };
}

void fish_now_counted(const Farm *farm, const BookAlarm *alarm, int32_t day,
                      Arena *arena, FishNow *out)
{
    *out =
        (FishNow){.tanks = ARENA_ARRAY(arena, FishNowTank, farm->tanks_count)};
    for (int32_t i = 0; i < farm->fish_count; i++) {
        const Fish *row = &farm->fish[i];
        if (row->tank < 0 || row->tank >= farm->tanks_count) {
            out->unread++;
            continue;
        }
        *add_group(&out->tanks[row->tank], arena) =
            is_read(row) ? counted_group(row, alarm, day)
                         : assumed_group(farm, row, alarm);
    }
}

/* ---- What it comes to -----------------------------------------------------
 */

FishNowKg fish_now_kg(const FishNowTank *tank)
{
    FishNowKg sum = {0};
    for (int i = 0; i < tank->count; i++) {
        double kg = fish_slices_kg(&tank->groups[i].slices);
        sum.value += kg;
        sum.low += kg * tank->groups[i].low_frac;
        sum.high += kg * tank->groups[i].high_frac;
    }
    return sum;
}

void fish_now_weights(const FishNowTank *tank, double *out_least_g,
                      double *out_most_g)
{
    *out_least_g = 0.0;
    *out_most_g = 0.0;
    for (int i = 0; i < tank->count; i++) {
        for (int k = 0; k < FISH_SLICES; k++) {
            const FishSlice *slice = &tank->groups[i].slices.at[k];
            bool is_some = slice->count > 0.0;
            if (is_some &&
                (*out_least_g <= 0.0 || slice->weight_g < *out_least_g)) {
                *out_least_g = slice->weight_g;
            }
            if (is_some) {
                *out_most_g = fmax(*out_most_g, slice->weight_g);
            }
        }
    }
}
