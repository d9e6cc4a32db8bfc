/* All fish of a farm through the weeks. */
#include "sim/fish_stand.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "sim/carries.h"
#include "sim/fish_case.h"
#include "sim/fish_working.h"

enum { WEEK_D = 7, PLAN_LANES_LEAST = 4 };

static const double NONE_LEFT = 1e-6; /* fish */

typedef struct Stand {
    Arena *arena;
    const FishStandCase *is;
    FishStand *out;
    double *squares; /* by tank and week: count x weight^2, for the spread */
} Stand;

/* Fish that are moved together: a lane of the plan, or a whole batch. */
typedef struct MovedFish {
    int plan_row; /* of farm->plan_fish, or -1: stays where it is */
    bool holds[FISH_SLICES];
    double *share; /* by tank, of the part's fish */
} MovedFish;

typedef struct Batch {
    FishStandBatch told;
    FishYear year;
    int tank; /* where it starts, whose water it grows in */
    MovedFish *parts;
    int part_count;
    double *squares; /* by week */
    Working *over;   /* how many are over the weight of sale; NULL */
} Batch;

/* ---- Its own growth -------------------------------------------------------
 */

static int32_t monday(const Stand *s, int week)
{
    return s->is->first_week + WEEK_D * week;
}

static int32_t first_over(const Stand *s, const double *mean_g, int from)
{
    for (int w = from; w <= s->is->weeks; w++) {
        if (mean_g[w] >= s->is->sale_g) {
            return monday(s, w);
        }
    }
    return DATE_NEVER;
}

static Err grow_mean(Stand *s, const Batch *batch, const FishYearCase *fish,
                     double *mean_g)
{
    FishYear year;
    TRY(fish_year_run(s->arena, fish, &year));
    for (int w = 0; w <= year.weeks; w++) {
        mean_g[batch->told.start_week + w] = fish_year_mean_g(&year, w);
    }
    return ERR_NONE;
}

static Err grow(Stand *s, Batch *batch, const FishYearCase *fish)
{
    size_t mondays = (size_t)s->is->weeks + 1;
    FishStandBatch *told = &batch->told;
    told->count = ARENA_ARRAY(s->arena, double, mondays);
    told->kg = ARENA_ARRAY(s->arena, double, mondays);
    told->mean_g = ARENA_ARRAY(s->arena, double, mondays);
    told->cv_frac = ARENA_ARRAY(s->arena, double, mondays);
    told->over_count = ARENA_ARRAY(s->arena, double, mondays);
    batch->squares = ARENA_ARRAY(s->arena, double, mondays);
    double *means[3];
    for (int end = -1; end <= 1; end++) {
        FishSpecies room;
        means[end + 1] = ARENA_ARRAY(s->arena, double, mondays);
        FishYearCase at = fish_case_at(s->is->farm, fish, end, &room);
        TRY(grow_mean(s, batch, &at, means[end + 1]));
    }
    told->all = (FishMeans){means[0], means[1], means[2]};
    told->ready_late = first_over(s, means[0], told->start_week);
    told->ready_on = first_over(s, means[1], told->start_week);
    told->ready_early = first_over(s, means[2], told->start_week);
    return fish_year_run(s->arena, fish, &batch->year);
}

static FishSpan span_of(const Stand *s, const Batch *batch)
{
    return (FishSpan){
        .first_week = monday(s, batch->told.start_week),
        .weeks = s->is->weeks - batch->told.start_week,
        .water_degc = s->is->tank_degc[batch->tank],
    };
}

/* ---- Lanes and their moves ------------------------------------------------
 */

static bool is_of_batch(const Farm *farm, const Batch *batch, int row)
{
    const PlanFish *lane = &farm->plan_fish[row];
    return batch->told.standing >= 0
               ? lane->standing == batch->told.standing
               : lane->standing < 0 && strcmp(lane->batch, batch->told.id) == 0;
}

static void make_parts(Stand *s, Batch *batch)
{
    const Farm *farm = s->is->farm;
    int lanes = PLAN_LANES_LEAST;
    for (int i = 0; i < farm->plan_fish_count; i++) {
        if (is_of_batch(farm, batch, i)) {
            batch->part_count++;
            lanes = farm->plan_fish[i].lane > lanes ? farm->plan_fish[i].lane
                                                    : lanes;
        }
    }
    bool is_planned = batch->part_count > 0;
    batch->part_count = is_planned ? batch->part_count : 1;
    batch->parts = ARENA_ARRAY(s->arena, MovedFish, batch->part_count);
    int lane_of[FISH_SLICES];
    FishSlices first = fish_year_slices(&batch->year, 0);
    fish_slices_lanes(&first, lanes, lane_of);
    int p = 0;
    for (int i = is_planned ? 0 : -1; i < farm->plan_fish_count; i++) {
        if (is_planned && !is_of_batch(farm, batch, i)) {
            continue;
        }
        MovedFish *part = &batch->parts[p++];
        part->plan_row = is_planned ? i : -1;
        part->share = ARENA_ARRAY(s->arena, double, farm->tanks_count);
        part->share[batch->tank] = batch->told.standing >= 0 ? 1.0 : 0.0;
        for (int k = 0; k < FISH_SLICES; k++) {
            part->holds[k] =
                !is_planned || lane_of[k] == farm->plan_fish[i].lane - 1;
        }
        if (!is_planned) {
            break;
        }
    }
}

static double part_kg(const Batch *batch, const MovedFish *part, int at)
{
    double mass_g = 0.0;
    for (int k = 0; k < FISH_SLICES; k++) {
        if (part->holds[k]) {
            mass_g += batch->year.slices[k].count[at] *
                      batch->year.slices[k].weight_g[at];
        }
    }
    return mass_g / 1000.0;
}

static double part_count(const Batch *batch, const MovedFish *part, int at)
{
    double count = 0.0;
    for (int k = 0; k < FISH_SLICES; k++) {
        count += part->holds[k] ? batch->year.slices[k].count[at] : 0.0;
    }
    return count;
}

/* Moves of that week; week 0 has all that came before too. */
static void move_part(const Stand *s, Batch *batch, MovedFish *part, int week)
{
    const Farm *farm = s->is->farm;
    for (int i = 0; part->plan_row >= 0 && i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        int32_t on = week_of(move->on);
        bool is_now =
            on == monday(s, week) || (week == 0 && on < s->is->first_week);
        double all = farm->plan_fish[part->plan_row].count;
        if (move->fish != part->plan_row || !is_now || !(all > 0.0)) {
            continue;
        }
        double share = move->started / all;
        if (move->from_tank >= 0) {
            share = fmin(share, part->share[move->from_tank]);
            part->share[move->from_tank] -= share;
        }
        if (move->to_tank >= 0) {
            part->share[move->to_tank] += share;
        } else if (on >= s->is->first_week) {
            int at = week - batch->told.start_week;
            batch->told.sold_count += share * part_count(batch, part, at);
            batch->told.sold_kg += share * part_kg(batch, part, at);
        }
    }
}

/* ---- What stands where ----------------------------------------------------
 */

static void tell_share(Stand *s, FishStandShare *share, int week, double count,
                       double weight_g)
{
    if (!share->count) {
        share->count = ARENA_ARRAY(s->arena, double, s->is->weeks);
        share->kg = ARENA_ARRAY(s->arena, double, s->is->weeks);
        share->mean_g = ARENA_ARRAY(s->arena, double, s->is->weeks);
        share->cv_frac = ARENA_ARRAY(s->arena, double, s->is->weeks);
    }
    share->count[week] += count;
    share->kg[week] += count * weight_g / 1000.0;
    share->cv_frac[week] += count * weight_g * weight_g; /* squares so far */
}

/* A slice's fish in one tank in one week; after the last week only the batch is
 * told. */
static void tell_tank(Stand *s, const FishSliceYear *slice, int tank,
                      double share, int week, int at)
{
    FishStandTank *told = &s->out->tanks[tank];
    double count = share * slice->count[at];
    double weight_g = slice->weight_g[at];
    told->count[week] += count;
    told->kg[week] += count * weight_g / 1000.0;
    told->oxygen_g_h[week] += share * slice->oxygen_g_h[at];
    if (s->is->farm->tanks[tank].use != TANK_PURGE) {
        told->feed_kg[week] += share * slice->feed_kg[at];
        told->tan_g_d[week] += share * slice->tan_g_d[at];
    }
    s->squares[tank * s->is->weeks + week] += count * weight_g * weight_g;
}

static void tell_part(Stand *s, Batch *batch, const MovedFish *part, int week)
{
    int at = week - batch->told.start_week;
    double here = 0.0;
    for (int tank = 0; tank < s->is->farm->tanks_count; tank++) {
        double share = part->share[tank];
        here += share;
        for (int k = 0; k < FISH_SLICES && share > 0.0; k++) {
            if (part->holds[k] && week < s->is->weeks) {
                const FishSliceYear *slice = &batch->year.slices[k];
                tell_tank(s, slice, tank, share, week, at);
                tell_share(s, &batch->told.in_tanks[tank], week,
                           share * slice->count[at], slice->weight_g[at]);
            }
        }
    }
    FishSlices slices = fish_year_slices(&batch->year, at);
    for (int k = 0; k < FISH_SLICES; k++) {
        slices.at[k].count *= part->holds[k] ? here : 0.0;
        double weight_g = slices.at[k].weight_g;
        batch->squares[week] += slices.at[k].count * weight_g * weight_g;
    }
    batch->told.count[week] += fish_slices_count(&slices);
    batch->told.kg[week] += fish_slices_kg(&slices);
    double over = fish_slices_over(&slices, s->is->sale_g);
    batch->told.over_count[week] += over;
    if (week == 0) {
        fish_working_over(batch->over, fish_slices_count(&slices), over);
    }
}

static double spread(double count, double kg, double squares)
{
    double mean_g = count > 0.0 ? 1000.0 * kg / count : 0.0;
    return mean_g > 0.0
               ? sqrt(fmax(0.0, squares / count / (mean_g * mean_g) - 1.0))
               : 0.0;
}

static void close_share(const Stand *s, FishStandShare *share)
{
    for (int week = 0; share->count && week < s->is->weeks; week++) {
        double count = share->count[week];
        double kg = share->kg[week];
        bool is_some = count > NONE_LEFT;
        share->mean_g[week] = is_some ? 1000.0 * kg / count : 0.0;
        share->cv_frac[week] =
            is_some ? spread(count, kg, share->cv_frac[week]) : 0.0;
    }
}

static void tell_batch(Stand *s, Batch *batch)
{
    FishStandBatch *told = &batch->told;
    told->in_tanks =
        ARENA_ARRAY(s->arena, FishStandShare, s->is->farm->tanks_count);
    make_parts(s, batch);
    batch->over = fish_working_begin_over(s->is, told);
    for (int week = told->start_week; week <= s->is->weeks; week++) {
        for (int p = 0; p < batch->part_count; p++) {
            move_part(s, batch, &batch->parts[p], week);
            tell_part(s, batch, &batch->parts[p], week);
        }
        if (told->count[week] > NONE_LEFT) {
            told->mean_g[week] = 1000.0 * told->kg[week] / told->count[week];
            told->cv_frac[week] =
                spread(told->count[week], told->kg[week], batch->squares[week]);
        }
    }
    for (int tank = 0; tank < s->is->farm->tanks_count; tank++) {
        close_share(s, &told->in_tanks[tank]);
    }
    working_is(batch->over, told->over_count[0], "fish");
    fish_working_ready(s->is, told);
    s->out->batches[s->out->batch_count++] = *told;
}

/* ---- Every batch ----------------------------------------------------------
 */

static Err run_standing(Stand *s, int row)
{
    const Fish *fish = &s->is->farm->fish[row];
    Batch batch = {
        .told = {.id = fish->id, .standing = row, .source = -1},
        .tank = fish->tank,
    };
    FishSpan span = span_of(s, &batch);
    FishYearCase grown;
    TRY(fish_case_standing(s->arena, s->is->farm, row, &span, &grown));
    TRY(grow(s, &batch, &grown));
    tell_batch(s, &batch);
    return ERR_NONE;
}

/* The first stocking of a planned batch, or NULL. */
static const PlanMove *stocking(const Farm *farm, const Batch *batch)
{
    const PlanMove *first = NULL;
    for (int i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        if (move->kind == MOVE_STOCK && move->to_tank >= 0 &&
            is_of_batch(farm, batch, move->fish) &&
            (!first || move->on < first->on)) {
            first = move;
        }
    }
    return first;
}

/* The planned batch whose first row this is; other rows do nothing. */
static Err run_planned(Stand *s, int row)
{
    const Farm *farm = s->is->farm;
    const PlanFish *lane = &farm->plan_fish[row];
    Batch batch = {
        .told = {.id = lane->batch, .standing = -1, .source = lane->source}};
    int count = 0;
    for (int i = 0; i < farm->plan_fish_count; i++) {
        if (is_of_batch(farm, &batch, i)) {
            if (i < row) {
                return ERR_NONE;
            }
            count += farm->plan_fish[i].count;
        }
    }
    const PlanMove *stock = stocking(farm, &batch);
    if (!stock || lane->source < 0 || count < 1) {
        return ERR_NONE;
    }
    int32_t on = week_of(stock->on);
    int week = (int)((on - s->is->first_week) / WEEK_D);
    if (week >= s->is->weeks) {
        return ERR_NONE;
    }
    batch.told.start_week = week > 0 ? week : 0;
    batch.tank = stock->to_tank;
    FishSpan span = span_of(s, &batch);
    FishYearCase grown;
    TRY(fish_case_source(s->arena, farm, lane->source, count, &span, &grown));
    grown.from_day = on < span.first_week ? on : span.first_week;
    TRY(grow(s, &batch, &grown));
    tell_batch(s, &batch);
    return ERR_NONE;
}

static void close_tanks(Stand *s)
{
    const Farm *farm = s->is->farm;
    double ceiling =
        farm->farm_count > 0 ? farm->farm[0].density_ceiling_kg_m3 : INFINITY;
    for (int k = 0; k < farm->tanks_count; k++) {
        FishStandTank *tank = &s->out->tanks[k];
        tank->over_density_week = tank->over_air_week = -1;
        for (int w = s->is->weeks - 1; w >= 0; w--) {
            double degc =
                s->is->tank_degc[k][date_day_of_year(monday(s, w)) - 1];
            tank->air_g_h[w] = carries_oxygen_g_h(farm, k, degc);
            tank->density_kg_m3[w] = tank->kg[w] / farm->tanks[k].volume_m3;
            if (tank->count[w] > 0.0) {
                tank->mean_g[w] = 1000.0 * tank->kg[w] / tank->count[w];
                tank->cv_frac[w] = spread(tank->count[w], tank->kg[w],
                                          s->squares[k * s->is->weeks + w]);
            }
            if (tank->density_kg_m3[w] > ceiling) {
                tank->over_density_week = w;
            }
            if (tank->oxygen_g_h[w] > tank->air_g_h[w]) {
                tank->over_air_week = w;
            }
        }
    }
}

static void close_loops(Stand *s)
{
    const Farm *farm = s->is->farm;
    for (int l = 0; l < farm->loops_count; l++) {
        FishStandLoop *loop = &s->out->loops[l];
        for (int w = 0; w < s->is->weeks; w++) {
            int32_t day = monday(s, w);
            double volume_m3 = 0.0;
            for (int k = 0; k < farm->tanks_count; k++) {
                if (farm->tanks[k].loop != l) {
                    continue;
                }
                const FishStandTank *tank = &s->out->tanks[k];
                volume_m3 += farm->tanks[k].volume_m3;
                loop->temp_degc[w] +=
                    farm->tanks[k].volume_m3 *
                    s->is->tank_degc[k][date_day_of_year(day) - 1];
                loop->feed_kg[w] += tank->feed_kg[w];
                loop->tan_g_d[w] += tank->tan_g_d[w];
                loop->oxygen_g_h[w] += tank->oxygen_g_h[w];
            }
            if (volume_m3 > 0.0) {
                loop->temp_degc[w] /= volume_m3;
                loop->carries_g_d[w] = carries_tan_g_d(farm, s->is->book, l,
                                                       day, loop->temp_degc[w]);
            }
        }
    }
}

static void make_room(Stand *s)
{
    const Farm *farm = s->is->farm;
    int weeks = s->is->weeks;
    Arena *arena = s->arena;
    FishStand *out = s->out;
    int most = farm->fish_count + farm->plan_fish_count;
    out->batches = ARENA_ARRAY(arena, FishStandBatch, most);
    out->tanks = ARENA_ARRAY(arena, FishStandTank, farm->tanks_count);
    out->loops = ARENA_ARRAY(arena, FishStandLoop, farm->loops_count);
    s->squares = ARENA_ARRAY(arena, double, farm->tanks_count *weeks);
    for (int k = 0; k < farm->tanks_count; k++) {
        out->tanks[k] = (FishStandTank){
            .count = ARENA_ARRAY(arena, double, weeks),
            .kg = ARENA_ARRAY(arena, double, weeks),
            .mean_g = ARENA_ARRAY(arena, double, weeks),
            .cv_frac = ARENA_ARRAY(arena, double, weeks),
            .density_kg_m3 = ARENA_ARRAY(arena, double, weeks),
            .feed_kg = ARENA_ARRAY(arena, double, weeks),
            .oxygen_g_h = ARENA_ARRAY(arena, double, weeks),
            .air_g_h = ARENA_ARRAY(arena, double, weeks),
            .tan_g_d = ARENA_ARRAY(arena, double, weeks),
        };
    }
    for (int l = 0; l < farm->loops_count; l++) {
        out->loops[l] = (FishStandLoop){
            .temp_degc = ARENA_ARRAY(arena, double, weeks),
            .feed_kg = ARENA_ARRAY(arena, double, weeks),
            .tan_g_d = ARENA_ARRAY(arena, double, weeks),
            .carries_g_d = ARENA_ARRAY(arena, Figure, weeks),
            .oxygen_g_h = ARENA_ARRAY(arena, double, weeks),
        };
    }
}

Err fish_stand_run(Arena *arena, const FishStandCase *stand, FishStand *out)
{
    assert(stand->weeks >= 1);
    FishStand made = {.first_week = stand->first_week, .weeks = stand->weeks};
    Stand s = {.arena = arena, .is = stand, .out = &made};
    make_room(&s);
    for (int i = 0; i < stand->farm->fish_count; i++) {
        TRY(run_standing(&s, i));
    }
    for (int i = 0; i < stand->farm->plan_fish_count; i++) {
        if (stand->farm->plan_fish[i].standing < 0) {
            TRY(run_planned(&s, i));
        }
    }
    close_tanks(&s);
    close_loops(&s);
    *out = made;
    return ERR_NONE;
}
