/* One fish batch through its weeks. */
#include "sim/fish_year.h"

#include <assert.h>
#include <math.h>

#include "base/date.h"
#include "nature/fish/respiration.h"
#include "nature/water/nitrogen.h"

enum { WEEK_D = 7 };

static const double GOOD_OXYGEN_MG_L = 7.0;

static FishWater water_on(const FishYearCase *fish, int32_t day)
{
    int at = date_day_of_year(day) - 1;
    FishWater water = fish_good_water(fish->water_degc[at]);
    water.oxygen_mg_l =
        fish->oxygen_mg_l ? fish->oxygen_mg_l[at] : GOOD_OXYGEN_MG_L;
    return water;
}

static double protein_for(const FishYearCase *fish, double weight_g)
{
    for (int i = 0; i < fish->feed_count; i++) {
        if (weight_g >= fish->feeds[i].from_g &&
            weight_g < fish->feeds[i].to_g) {
            return fish->feeds[i].protein_frac;
        }
    }
    return fish->protein_frac;
}

/* What one slice did in a day. */
typedef struct SliceDay {
    double feed_kg;
    double tan_g;
    double dead_kg;
} SliceDay;

static SliceDay slice_day(const FishYearCase *fish, FishSlice *slice,
                          const FishWater *water)
{
    if (!(slice->count > 0.0)) {
        return (SliceDay){0};
    }
    double appetite =
        fish->appetite * fish_slice_appetite(fish->species, slice);
    FishDay day = fish_day(fish->species, slice->weight_g, water, appetite,
                           fish->ration_frac);
    double dies =
        fish_death_frac_d(fish->species, slice->weight_g, water->temp_degc);
    double dead = slice->count * fmin(1.0, fish->death_scale * dies);
    double alive = slice->count - dead;
    double feed_kg = alive * day.feed_g / 1000.0;
    double tan_kg_kg =
        water_feed_tan_kg_kg(protein_for(fish, slice->weight_g)).value;
    SliceDay out = {
        .feed_kg = feed_kg,
        .tan_g = 1000.0 * feed_kg * tan_kg_kg,
        .dead_kg = dead * slice->weight_g / 1000.0,
    };
    slice->count = alive;
    slice->weight_g = day.weight_g;
    return out;
}

/* Use in the worst hour of a slice's fish: just fed where they are fed. */
static double slice_oxygen_g_h(const FishYearCase *fish, const FishSlice *slice,
                               double temp_degc, bool is_fed)
{
    static const double UNFED_H = 24.0;
    if (!(slice->count > 0.0)) {
        return 0.0;
    }
    OxygenUse use =
        fish_oxygen_use(slice->weight_g, temp_degc, is_fed ? 0.0 : UNFED_H);
    double kg = slice->count * slice->weight_g / 1000.0;
    return kg * use.mg_kg_h.value / 1000.0 * fish->species->oxygen_frac;
}

static void run_week(const FishYearCase *fish, FishSlices *now, int week,
                     FishYear *year)
{
    int32_t monday = fish->first_week + WEEK_D * week;
    double degc_sum = 0.0;
    for (int d = 0; d < WEEK_D; d++) {
        FishWater water = water_on(fish, monday + d);
        degc_sum += water.temp_degc;
        for (int i = 0; i < FISH_SLICES; i++) {
            FishSliceYear *slice = &year->slices[i];
            SliceDay day = slice_day(fish, &now->at[i], &water);
            slice->feed_kg[week] += day.feed_kg;
            slice->tan_g_d[week] += day.tan_g / WEEK_D;
            year->dead_kg += day.dead_kg;
            year->feed_kg += day.feed_kg;
            if (d > 0 && d < WEEK_D - 1) {
                continue; /* weight and water lead to one end of the week */
            }
            double used = slice_oxygen_g_h(fish, &now->at[i], water.temp_degc,
                                           day.feed_kg > 0.0);
            slice->oxygen_g_h[week] = fmax(slice->oxygen_g_h[week], used);
        }
    }
    year->temp_degc[week] = degc_sum / WEEK_D;
}

static Err check(const FishYearCase *fish)
{
    if (fish->weeks < 1) {
        return err_make(ERR_RANGE, "a fish batch of %d weeks", fish->weeks);
    }
    if (fish->draw.count < 1 || !(fish->draw.mean_g > 0.0)) {
        return err_make(ERR_RANGE, "a fish batch of %d fish of %.2f g",
                        fish->draw.count, fish->draw.mean_g);
    }
    int32_t wait_d = fish->first_week - fish->from_day;
    if (wait_d > FISH_YEAR_DAYS) {
        return err_make(ERR_RANGE,
                        "fish counted %d days before the first week: count "
                        "them again",
                        (int)wait_d);
    }
    if (wait_d <= -WEEK_D) {
        return err_make(ERR_RANGE, "fish counted %d days after the first week",
                        (int)-wait_d);
    }
    return ERR_NONE;
}

static void store_monday(const FishSlices *now, int week, FishYear *year)
{
    for (int i = 0; i < FISH_SLICES; i++) {
        year->slices[i].weight_g[week] = now->at[i].weight_g;
        year->slices[i].count[week] = now->at[i].count;
    }
}

Err fish_year_run(Arena *arena, const FishYearCase *fish, FishYear *out)
{
    TRY(check(fish));
    FishSlices now = fish_slices_draw(&fish->draw);
    FishYear year = {
        .first_week = fish->first_week,
        .weeks = fish->weeks,
        .start_count = fish_slices_count(&now),
        .start_kg = fish_slices_kg(&now),
        .temp_degc = ARENA_ARRAY(arena, double, fish->weeks),
    };
    for (int i = 0; i < FISH_SLICES; i++) {
        year.slices[i] = (FishSliceYear){
            .weight_g = ARENA_ARRAY(arena, double, fish->weeks + 1),
            .count = ARENA_ARRAY(arena, double, fish->weeks + 1),
            .feed_kg = ARENA_ARRAY(arena, double, fish->weeks),
            .oxygen_g_h = ARENA_ARRAY(arena, double, fish->weeks),
            .tan_g_d = ARENA_ARRAY(arena, double, fish->weeks),
        };
    }
    for (int32_t day = fish->from_day; day < fish->first_week; day++) {
        FishWater water = water_on(fish, day);
        for (int i = 0; i < FISH_SLICES; i++) {
            SliceDay done = slice_day(fish, &now.at[i], &water);
            year.feed_kg += done.feed_kg;
            year.dead_kg += done.dead_kg;
        }
    }
    store_monday(&now, 0, &year);
    for (int week = 0; week < fish->weeks; week++) {
        run_week(fish, &now, week, &year);
        store_monday(&now, week + 1, &year);
    }
    *out = year;
    return ERR_NONE;
}

FishSlices fish_year_slices(const FishYear *year, int week)
{
    assert(week >= 0 && week <= year->weeks);
    FishSlices slices = {0};
    for (int i = 0; i < FISH_SLICES; i++) {
        slices.at[i].count = year->slices[i].count[week];
        slices.at[i].weight_g = year->slices[i].weight_g[week];
    }
    return slices;
}

double fish_year_count(const FishYear *year, int week)
{
    FishSlices slices = fish_year_slices(year, week);
    return fish_slices_count(&slices);
}

double fish_year_kg(const FishYear *year, int week)
{
    FishSlices slices = fish_year_slices(year, week);
    return fish_slices_kg(&slices);
}

double fish_year_mean_g(const FishYear *year, int week)
{
    FishSlices slices = fish_year_slices(year, week);
    return fish_slices_mean_g(&slices);
}

/* Fish of a lane on the first Monday. */
static double lane_start(const FishYear *year, const FishLane *lane)
{
    double count = 0.0;
    for (int i = 0; i < FISH_SLICES; i++) {
        count += lane->holds[i] ? year->slices[i].count[0] : 0.0;
    }
    return count;
}

static void fill_lane(const FishYear *year, FishLane *lane)
{
    double start = lane_start(year, lane);
    for (int i = 0; i < FISH_SLICES && start > 0.0; i++) {
        if (!lane->holds[i]) {
            continue;
        }
        const FishSliceYear *slice = &year->slices[i];
        for (int week = 0; week <= year->weeks; week++) {
            lane->alive[week] += slice->count[week] / start;
            lane->weight_g[week] +=
                slice->count[week] * slice->weight_g[week] / start;
        }
        for (int week = 0; week < year->weeks; week++) {
            lane->feed_kg[week] += slice->feed_kg[week] / start;
            lane->oxygen_g_h[week] += slice->oxygen_g_h[week] / start;
            lane->tan_g_d[week] += slice->tan_g_d[week] / start;
        }
    }
    for (int week = 0; week <= year->weeks; week++) {
        lane->weight_g[week] = lane->alive[week] > 0.0
                                   ? lane->weight_g[week] / lane->alive[week]
                                   : 0.0;
    }
}

void fish_year_lanes(Arena *arena, const FishYear *year, int lanes,
                     FishLane *out)
{
    FishSlices first = fish_year_slices(year, 0);
    double total = fish_slices_count(&first);
    int lane_of[FISH_SLICES];
    fish_slices_lanes(&first, lanes, lane_of);
    for (int b = 0; b < lanes; b++) {
        FishLane lane = {
            .slice_lane = b,
            .weight_g = ARENA_ARRAY(arena, double, year->weeks + 1),
            .alive = ARENA_ARRAY(arena, double, year->weeks + 1),
            .feed_kg = ARENA_ARRAY(arena, double, year->weeks),
            .oxygen_g_h = ARENA_ARRAY(arena, double, year->weeks),
            .tan_g_d = ARENA_ARRAY(arena, double, year->weeks),
        };
        for (int i = 0; i < FISH_SLICES; i++) {
            lane.holds[i] = lane_of[i] == b;
        }
        lane.share = total > 0.0 ? lane_start(year, &lane) / total : 0.0;
        fill_lane(year, &lane);
        out[b] = lane;
    }
}

double fish_lane_over_frac(const FishYear *year, const FishLane *lane, int week,
                           double weight_g)
{
    double start = lane_start(year, lane);
    FishSlices slices = fish_year_slices(year, week);
    for (int i = 0; i < FISH_SLICES; i++) {
        slices.at[i].count = lane->holds[i] ? slices.at[i].count : 0.0;
    }
    return start > 0.0 ? fish_slices_over(&slices, weight_g) / start : 0.0;
}
