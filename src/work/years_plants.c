/* Plants of a possible year: what each batch is by this year's luck, and what
 * is picked of it by week. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "farm/seedlings.h"
#include "nature/plant/seeds.h"
#include "plan/build.h"
#include "sim/plant_planned.h"
#include "work/years_parts.h"

/* ---- Opening --------------------------------------------------------------
 */

static void open_batch(const YearsFarm *years, int plant, Batch *to)
{
    const Farm *farm = years->ask.farm;
    HourPlantName name = hour_plant_name(years->hours, plant);
    const PlantRule *rule = hour_plant_rule(years->hours, plant);
    const Bed *bed = &farm->beds[name.bed];
    const PlanPlant *row =
        name.planned >= 0 ? &farm->plan_plants[name.planned] : NULL;
    *to = (Batch){.is = {.rule = rule,
                         .plants = name.plants,
                         .set_day = name.set_day,
                         .clear_day = name.clear_day,
                         .pick_from = DATE_ALWAYS,
                         .pick_weeks = plant_pick_weeks(rule)},
                  .plant = plant,
                  .way = name.way,
                  .place = bed->tunnel >= 0 ? bed->tunnel : farm->tunnels_count,
                  .light_frac = years->ask.climate->bed_light_frac[name.bed],
                  .is_coming = name.set_day >= years->ask.first_week};
    if (bed->tunnel < 0) {
        to->light_frac = bed->light_frac;
    }
    if (row) {
        to->is.pick_from = row->pick_from;
        to->is.pick_weeks = plant_chosen_weeks(rule, farm, row);
        to->is.plants = plant_planned_plants(rule, farm, row);
    }
    if (row && row->is_shaded) {
        to->light_frac *= 1.0 - years->ask.book->common->edge_shade_frac.value;
    }
}

/* Share of cells in which a seed comes up. */
static double cells_up_frac(const PlantRule *rule, double germination_frac)
{
    double each = rule->way->seeds_cell.value;
    return isnan(each) || each < 1.0
               ? germination_frac
               : 1.0 - pow(1.0 - germination_frac, round(each));
}

/* Cells sown for a batch, as the jobs reckon them. */
static double cells_of(const YearsFarm *years, const Batch *batch)
{
    const PlantRule *rule = batch->is.rule;
    const BookCommon *common = years->ask.book->common;
    double share = cells_up_frac(rule, rule->germination_frac) *
                   (1.0 - common->seedling_loss_frac.value) *
                   (1.0 - common->transplant_loss_frac.value);
    int32_t plants = (int32_t)ceil(batch->is.plants);
    if (!(share > 0.0) || share > 1.0 || plants < 1 || plants > SEEDS_MOST) {
        return batch->is.plants;
    }
    return seeds_to_sow(plants, share,
                        years->ask.farm->farm->sow_confidence_frac);
}

Err years_plants_open(YearsFarm *years, Arena *arena)
{
    const Farm *farm = years->ask.farm;
    Plants *plants = &years->plants;
    int count = hour_plant_count(years->hours);
    int32_t end = years->ask.first_week + YEARS_WEEK_D * years->ask.weeks;
    plants->places = farm->tunnels_count + 1;
    int cells = farm->ways_count * plants->places;
    plants->batches = ARENA_ARRAY(arena, Batch, count);
    plants->speed = ARENA_ARRAY(arena, double, count);
    plants->is_used = ARENA_ARRAY(arena, bool, cells);
    for (int i = 0; i < count; i++) {
        Batch *batch = &plants->batches[plants->batch_count];
        open_batch(years, i, batch);
        if (batch->is.set_day >= end ||
            batch->is.clear_day <= years->ask.first_week) {
            continue;
        }
        if (batch->is_coming && batch->is.rule->start == START_SET) {
            batch->sown = cells_of(years, batch);
        }
        plants->is_used[batch->way * plants->places + batch->place] = true;
        plants->batch_count++;
    }
    years->counted_frac = ARENA_ARRAY(arena, double, farm->ways_count);
    for (int way = 0; way < farm->ways_count; way++) {
        PlantRule rule;
        TRY(plant_rule_of_farm(years->ask.book, farm, way, &rule));
        years->counted_frac[way] = plant_counted_frac(&rule);
    }
    plants->states = ARENA_ARRAY(arena, PickState, plants->batch_count);
    plants->yield = ARENA_ARRAY(arena, double, plants->batch_count);
    plants->before = ARENA_ARRAY(arena, double, plants->batch_count);
    plants->ways = ARENA_ARRAY(arena, WayWeek, cells);
    plants->dli =
        arena_alloc(arena, (size_t)plants->places, sizeof *plants->dli);
    return ERR_NONE;
}

double years_plan_counted_frac(const YearsFarm *years, int way)
{
    return years->counted_frac[way];
}

/* ---- A year's luck ---------------------------------------------------------
 */

/* Plants of a batch that come to be set, of those wanted: seed of the season's
 * lot comes up as it does, some are lost in the nursery; what is sown is the
 * usual with some to spare, and no more are set than wanted. */
static double set_frac(const YearsFarm *years, const Batch *batch,
                       const char *id)
{
    const LuckYear *luck = &years->luck;
    const PlantRule *rule = batch->is.rule;
    const Figure *book = &rule->crop->germination_frac;
    double z = luck_normal(luck, LUCK_SEED, rule->crop->id);
    double times = luck_figure(book, z) / book->value;
    double share = fmin(0.999, fmax(0.01, rule->germination_frac * times));
    if (!(batch->sown > 0.0)) { /* sown in place: thinner stands */
        return fmin(1.0, share / rule->germination_frac);
    }
    double lost = luck_figure(&years->ask.book->common->seedling_loss_frac,
                              luck_normal(luck, LUCK_NURSERY, id));
    share = cells_up_frac(rule, share) * (1.0 - fmin(1.0, fmax(0.0, lost)));
    double mean = batch->sown * share;
    double up =
        mean + luck_normal(luck, LUCK_COUNT, id) * sqrt(mean * (1.0 - share));
    return fmin(1.0, fmax(0.0, up / batch->is.plants));
}

static void draw_batch(YearsFarm *years, int i)
{
    Plants *plants = &years->plants;
    const Batch *batch = &plants->batches[i];
    const PlantRule *rule = batch->is.rule;
    const char *id = hour_plant_name(years->hours, batch->plant).id;
    double yield =
        batch->is.plants * rule->saleable_frac.value * rule->kept_frac;
    plants->yield[i] = yield;
    plants->speed[batch->plant] = 1.0;
    if (years->is_typical) {
        return;
    }
    double share = rule->season_share_frac;
    const LuckYear *luck = &years->luck;
#define DRAWN(kind, figure)                                                    \
    (luck_figure(figure, luck_shared(luck, kind, rule->id, id, share)) /       \
     (figure)->value)
    double slow = DRAWN(LUCK_GROWTH, &rule->first_pick_degc_d);
    double units = DRAWN(LUCK_UNITS, &rule->units);
    double saleable = DRAWN(LUCK_SALEABLE, &rule->saleable_frac);
#undef DRAWN
    saleable = fmin(saleable, 1.0 / rule->saleable_frac.value);
    plants->speed[batch->plant] = 1.0 / fmax(0.1, slow);
    yield *= fmax(0.0, units) * fmax(0.0, saleable);
    if (batch->is_coming) {
        const Figure *loss = &years->ask.book->common->transplant_loss_frac;
        double lost = luck_figure(loss, luck_normal(luck, LUCK_SETTING, id));
        yield *= set_frac(years, batch, id);
        yield *= rule->start == START_SET
                     ? (1.0 - fmax(0.0, lost)) / rule->kept_frac
                     : 1.0;
    }
    plants->yield[i] = yield;
}

void years_plants_begin(YearsFarm *years)
{
    Plants *plants = &years->plants;
    int cells = years->ask.farm->ways_count * plants->places;
    memset(plants->ways, 0, (size_t)cells * sizeof *plants->ways);
    for (int i = 0; i < hour_plant_count(years->hours); i++) {
        plants->speed[i] = 1.0;
    }
    for (int i = 0; i < plants->batch_count; i++) {
        plants->states[i] = pick_start();
        plants->before[i] =
            hour_plant_degc_d(years->first, plants->batches[i].plant);
        draw_batch(years, i);
    }
}

/* ---- A week ----------------------------------------------------------------
 */

static void see_way(const YearsFarm *years, const PlantRule *rule, int place,
                    int week, WayWeek *to)
{
    const PlaceWeek *is = &years->place_weeks[place];
    const BoltRule *bolt = &rule->bolt;
    int32_t monday = years->ask.first_week + YEARS_WEEK_D * week;
    double warm = 0.0;
    PickWeek *ends = &to->ends;
    *ends = (PickWeek){.monday = monday};
    for (int d = 0; d < YEARS_WEEK_D; d++) {
        int doy = date_day_of_year(monday + d) - 1;
        double day_h = years->ask.climate->day_length_h[doy];
        double mean = is->mean_degc[d];
        warm += plant_quality_frac(rule, mean, 1.0) / YEARS_WEEK_D;
        ends->heat_degc_d += day_h >= bolt->heat_day_h && mean > bolt->heat_degc
                                 ? mean - bolt->heat_degc
                                 : 0.0;
        ends->cold_d += mean < bolt->cold_degc ? 1.0 : 0.0;
        ends->chill_d += is->least_degc[d] < rule->chill_degc ? 1.0 : 0.0;
        ends->is_long_day |= day_h >= bolt->cold_day_h;
        ends->is_frost |= is->least_degc[d] <= rule->frost_kill_degc;
    }
    if (week == 0) {
        to->warm_frac[0] = to->warm_frac[1] = warm;
    }
    to->now_frac = warm;
}

static double mean_dli(const PlaceWeek *place)
{
    double sum = 0.0;
    for (int d = 0; d < YEARS_WEEK_D; d++) {
        sum += place->dli_mol[d] / YEARS_WEEK_D;
    }
    return sum;
}

static void see_places(YearsFarm *years, int week)
{
    Plants *plants = &years->plants;
    for (int p = 0; p < plants->places && week == 0; p++) {
        plants->dli[p][0] = plants->dli[p][1] =
            mean_dli(&years->place_weeks[p]);
    }
    for (int i = 0; i < plants->batch_count; i++) {
        const Batch *batch = &plants->batches[i];
        int cell = batch->way * plants->places + batch->place;
        int32_t monday = years->ask.first_week + YEARS_WEEK_D * week;
        if (plants->is_used[cell] && plants->ways[cell].ends.monday != monday) {
            see_way(years, batch->is.rule, batch->place, week,
                    &plants->ways[cell]);
        }
    }
}

/* The fortnight before is the week before and the one before that. */
static void pass_places(YearsFarm *years)
{
    Plants *plants = &years->plants;
    for (int i = 0; i < years->ask.farm->ways_count * plants->places; i++) {
        WayWeek *way = &plants->ways[i];
        way->warm_frac[1] = way->warm_frac[0];
        way->warm_frac[0] = way->now_frac;
    }
    for (int p = 0; p < plants->places; p++) {
        plants->dli[p][1] = plants->dli[p][0];
        plants->dli[p][0] = mean_dli(&years->place_weeks[p]);
    }
}

static double quality(const Plants *plants, const Batch *batch)
{
    const WayWeek *way =
        &plants->ways[batch->way * plants->places + batch->place];
    const double *dli = plants->dli[batch->place];
    const PlantRule *rule = batch->is.rule;
    double light = light_growth_frac(&rule->light, batch->light_frac *
                                                       (dli[0] + dli[1]) / 2.0);
    double dull = 1.0 - rule->dull_loss_frac * (1.0 - light);
    return dull * (way->warm_frac[0] + way->warm_frac[1]) / 2.0;
}

static void tell_end(YearsFarm *years, const Batch *batch,
                     const PickState *state, int week)
{
    static const int KINDS[] = {[PLANT_BOLTS] = BREAK_BOLT,
                                [PLANT_FREEZES] = BREAK_FROST,
                                [PLANT_CHILLS] = BREAK_CHILL};
    bool is_lost = state->picked == 0 && state->first_day == DATE_NEVER;
    bool is_told = state->end == PLANT_BOLTS || state->end == PLANT_FREEZES ||
                   state->end == PLANT_CHILLS;
    if (is_lost && is_told) {
        years_break(years, KINDS[state->end], batch->way, week);
    }
}

static void pick_batch(YearsFarm *years, int i, int week)
{
    Plants *plants = &years->plants;
    const Batch *batch = &plants->batches[i];
    PickState *state = &plants->states[i];
    int32_t monday = years->ask.first_week + YEARS_WEEK_D * week;
    bool is_there = state->end == PLANT_GROWS && monday < batch->is.clear_day &&
                    monday + YEARS_WEEK_D > batch->is.set_day;
    if (!is_there) {
        return;
    }
    PickWeek now =
        plants->ways[batch->way * plants->places + batch->place].ends;
    now.from_degc_d = plants->before[i];
    now.to_degc_d = hour_plant_degc_d(years->state, batch->plant);
    now.quality_frac = quality(plants, batch);
    plants->before[i] = now.to_degc_d;
    double units = pick_week(&batch->is, &now, state);
    years->picked[batch->way] += units * plants->yield[i];
    tell_end(years, batch, state, week);
}

/* Growth kept, and the nutrient that took a tenth of a loop's week or more. */
static void tell_growth(YearsFarm *years, int week)
{
    static const double SHORT_FRAC = 0.1; /* judged */
    const Farm *farm = years->ask.farm;
    int count = hour_plant_count(years->hours);
    for (int loop = 0; loop < farm->loops_count; loop++) {
        double kept = 0.0;
        int standing = 0;
        int short_of[HOUR_ELEMENTS] = {0};
        const HourPlantDay *last =
            years->days.plants + (YEARS_WEEK_D - 1) * count;
        for (int i = 0; i < years->plants.batch_count; i++) {
            int plant = years->plants.batches[i].plant;
            if (hour_plant_name(years->hours, plant).loop != loop ||
                !last[plant].is_there) {
                continue;
            }
            kept += 1.0 - last[plant].short_frac;
            standing++;
            if (last[plant].short_frac > SHORT_FRAC &&
                last[plant].scarcest >= 0) {
                short_of[last[plant].scarcest]++;
            }
        }
        years_put(years, YEARS_GROWN, loop, week,
                  standing > 0 ? kept / standing : 1.0);
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            if (standing > 0 && 2 * short_of[e] > standing) {
                years_break(years, BREAK_NUTRIENT, loop * HOUR_ELEMENTS + e,
                            week);
            }
        }
    }
}

void years_plants_week(YearsFarm *years, int week)
{
    const Farm *farm = years->ask.farm;
    for (int way = 0; way < farm->ways_count; way++) {
        years->picked[way] = 0.0;
    }
    see_places(years, week);
    for (int i = 0; i < years->plants.batch_count; i++) {
        pick_batch(years, i, week);
    }
    pass_places(years);
    for (int way = 0; way < farm->ways_count; way++) {
        years_put(years, YEARS_PICKED, way, week, years->picked[way]);
    }
    tell_growth(years, week);
}
