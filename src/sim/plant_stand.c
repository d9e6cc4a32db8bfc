/* All plants of a farm through the weeks. */
#include "sim/plant_stand.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "farm/seedlings.h"
#include "sim/plant_planned.h"
#include "sim/plant_working.h"
#include "sim/plant_years.h"

enum { WEEK_D = 7, MONTHS = 12, MONTH_MIDDLE = 15 };

static const double G_KG = 1000.0;

typedef struct Stand {
    Arena *arena;
    Arena *scratch;
    const PlantStandCase *is;
    PlantStand *out;
    PlantYears years;
    /* By way and week: sums of what batches of a season deviate together, and
     * of squares of what each does alone, below and above. */
    double *together[2];
    double *alone[2];
} Stand;

/* A batch with what it is made from. */
typedef struct Batch {
    PlantStandBatch told;
    const PlantYear *year;
    PlantBatch grown;
    int32_t pick_from; /* picks kept, by the Monday of their week */
    int32_t pick_until;
} Batch;

static int32_t end_day(const Stand *s)
{
    return s->is->first_week + WEEK_D * s->is->weeks;
}

/* ---- What stands and what is planned --------------------------------------
 */

static double section_m2(const Bed *bed)
{
    return bed->length_m * bed->width_m / bed->sections;
}

static void size(const Stand *s, Batch *batch, int sections, double plants)
{
    const PlantRule *rule = &batch->year->rule;
    PlantStandBatch *told = &batch->told;
    told->area_m2 = told->is_edge
                        ? plants * rule->area_m2_plant
                        : sections * section_m2(&s->is->farm->beds[told->bed]);
    told->plants =
        plants > 0.0 ? plants : rule->way->plants_m2.value * told->area_m2;
}

static void tell_days(Stand *s, Batch *batch)
{
    PlantStandBatch *told = &batch->told;
    const PlantBatch *grown = &batch->grown;
    told->is_refused = grown->is_refused;
    told->trouble = plant_end_text(grown, s->arena);
    bool is_up = grown->end != PLANT_NO_SEEDLING;
    told->emerge_day = is_up ? grown->emerge_day : DATE_NEVER;
    told->early_day = told->pick_day = told->late_day = DATE_NEVER;
    if (!grown->is_refused) {
        told->early_day = grown->pick_early_day;
        told->pick_day = grown->pick_day;
        told->late_day = grown->pick_late_day;
    }
}

/* A standing row, as the plan has it where it does. */
static Err make_standing(Stand *s, int row, const PlanPlant *plan, Batch *batch)
{
    const Plant *plant = &s->is->farm->plants[row];
    PlantStandBatch *told = &batch->told;
    *told = (PlantStandBatch){.id = plant->id,
                              .way = plant->way,
                              .bed = plant->bed,
                              .standing = row,
                              .planned = -1,
                              .is_edge = plant->place == PLACE_EDGE};
    TRY(plant_years_of(&s->years, plant->way, plant->bed,
                       plan && plan->is_shaded, &batch->year));
    if (plan) {
        plant_planned_grow(batch->year, s->is->farm, plan, s->arena,
                           &batch->grown);
    } else {
        int weeks = seedlings_are(plant) ? plant_pick_weeks(&batch->year->rule)
                                         : PLANT_PICK_WEEKS;
        plant_year_standing(batch->year, plant->set_on, plant->counted_on,
                            weeks, s->arena, &batch->grown);
    }
    size(s, batch, plant->sections, plant->plants);
    tell_days(s, batch);
    bool is_coming = seedlings_are(plant);
    told->sow_day = is_coming ? plant->sown_on : batch->grown.sow_day;
    told->set_day = plant->set_on;
    /* What is past its end by the book is still there when counted. */
    int32_t seen = is_coming ? plant->set_on : plant->counted_on;
    int32_t last = batch->grown.is_refused ? seen : batch->grown.last_pick_day;
    told->last_day = last;
    told->clear_day = last + 1;
    batch->pick_from = INT32_MIN;
    batch->pick_until = INT32_MAX;
    return ERR_NONE;
}

static Err make_planned(Stand *s, int row, Batch *batch)
{
    const PlanPlant *plan = &s->is->farm->plan_plants[row];
    bool is_fed = seedlings_feed(s->is->farm, plan);
    if (plan->standing >= 0 && !is_fed) {
        TRY(make_standing(s, plan->standing, plan, batch));
    } else {
        batch->told = (PlantStandBatch){.id = plan->id,
                                        .way = plan->way,
                                        .bed = plan->bed,
                                        .standing = -1,
                                        .is_edge = plan->place == PLACE_EDGE};
        TRY(plant_years_of(&s->years, plan->way, plan->bed, plan->is_shaded,
                           &batch->year));
        plant_planned_grow(batch->year, s->is->farm, plan, s->arena,
                           &batch->grown);
        size(s, batch, plan->sections,
             plant_planned_plants(&batch->year->rule, s->is->farm, plan));
        tell_days(s, batch);
        batch->told.sow_day = plan->sow_on;
        batch->told.set_day = plan->set_on;
    }
    batch->told.planned = row;
    batch->told.last_day = plan->pick_until;
    batch->told.clear_day = plan->clear_on;
    batch->pick_from = plan->pick_from;
    batch->pick_until = plan->pick_until;
    return ERR_NONE;
}

/* ---- By week --------------------------------------------------------------
 */

static void tell_units(Stand *s, Batch *batch, int week, double units)
{
    PlantStandBatch *told = &batch->told;
    const PlantBatch *grown = &batch->grown;
    double share = batch->year->rule.season_share_frac;
    double off[2] = {units * grown->spread_low_frac,
                     units * grown->spread_high_frac};
    told->pick.low[week] = units - off[0];
    told->pick.value[week] = units;
    told->pick.high[week] = units + off[1];
    told->units.value += told->pick.value[week];
    told->units.low += told->pick.low[week];
    told->units.high += told->pick.high[week];
    int at = told->way * s->is->weeks + week;
    s->out->ways[told->way].value[week] += units;
    for (int end = 0; end < 2; end++) {
        s->together[end][at] += share * off[end];
        s->alone[end][at] += (1.0 - share * share) * off[end] * off[end];
    }
}

static void tell_weeks(Stand *s, Batch *batch)
{
    PlantStandBatch *told = &batch->told;
    const PlantBatch *grown = &batch->grown;
    int loop = bed_loop(s->is->farm, &s->is->farm->beds[told->bed]);
    for (int week = 0; week < s->is->weeks; week++) {
        int32_t monday = s->is->first_week + WEEK_D * week;
        int at = (monday - grown->first_week) / WEEK_D;
        if (grown->is_refused || monday < grown->first_week ||
            at >= grown->week_count || monday >= told->clear_day) {
            continue;
        }
        if (monday + WEEK_D > batch->pick_from && monday <= batch->pick_until) {
            tell_units(s, batch, week, grown->units[at] * told->plants);
        }
        told->want_kg[week] =
            grown->want_g_m2_d[at] * WEEK_D / G_KG * told->area_m2;
        if (loop >= 0) {
            s->out->want_kg[loop][week] += told->want_kg[week];
        }
    }
}

static void add(Stand *s, Batch *batch)
{
    PlantStandBatch *told = &batch->told;
    bool is_over = told->clear_day <= s->is->first_week;
    if (is_over || told->sow_day >= end_day(s)) {
        return;
    }
    size_t weeks = (size_t)s->is->weeks;
    told->pick.low = ARENA_ARRAY(s->arena, double, weeks);
    told->pick.value = ARENA_ARRAY(s->arena, double, weeks);
    told->pick.high = ARENA_ARRAY(s->arena, double, weeks);
    told->want_kg = ARENA_ARRAY(s->arena, double, weeks);
    tell_weeks(s, batch);
    told->age_degc_d = plant_year_growth_degc_d(
        batch->year, batch->grown.start_day, s->is->today);
    PlantWorking working = {.stand = s->is,
                            .told = told,
                            .year = batch->year,
                            .grown = &batch->grown};
    plant_working_tell(&working);
    s->out->batches[s->out->batch_count++] = *told;
}

static bool is_in_plan(const Farm *farm, int standing)
{
    for (int i = 0; i < farm->plan_plants_count; i++) {
        if (farm->plan_plants[i].standing == standing) {
            return true;
        }
    }
    return false;
}

/* Seedlings are set where the plan says, else where their row says; what a plan
 * has no use for is not set. */
static bool is_followed(const Farm *farm, int standing)
{
    const Plant *plant = &farm->plants[standing];
    bool is_unused =
        seedlings_are(plant) && (farm->plan_count > 0 || plant->bed < 0);
    return !is_in_plan(farm, standing) && !is_unused;
}

static Err add_all(Stand *s)
{
    const Farm *farm = s->is->farm;
    for (int i = 0; i < farm->plants_count; i++) {
        if (is_followed(farm, i)) {
            Batch batch = {0};
            TRY(make_standing(s, i, NULL, &batch));
            add(s, &batch);
        }
    }
    for (int i = 0; i < farm->plan_plants_count; i++) {
        Batch batch = {0};
        TRY(make_planned(s, i, &batch));
        add(s, &batch);
    }
    return ERR_NONE;
}

static void close_ways(Stand *s)
{
    for (int way = 0; way < s->is->farm->ways_count; way++) {
        PlantStandUnits *units = &s->out->ways[way];
        for (int week = 0; week < s->is->weeks; week++) {
            int at = way * s->is->weeks + week;
            units->low[week] =
                fmax(0.0, units->value[week] -
                              hypot(s->together[0][at], sqrt(s->alone[0][at])));
            units->high[week] =
                units->value[week] +
                hypot(s->together[1][at], sqrt(s->alone[1][at]));
        }
    }
}

static int by_set_day(const void *left, const void *right)
{
    const PlantStandBatch *a = left;
    const PlantStandBatch *b = right;
    if (a->set_day != b->set_day) {
        return a->set_day < b->set_day ? -1 : 1;
    }
    if (a->way != b->way) {
        return a->way < b->way ? -1 : 1;
    }
    return a->bed != b->bed ? (a->bed < b->bed ? -1 : 1) : strcmp(a->id, b->id);
}

static void make_room(Stand *s)
{
    const Farm *farm = s->is->farm;
    size_t weeks = (size_t)s->is->weeks;
    size_t cells = (size_t)farm->ways_count * weeks;
    PlantStand *out = s->out;
    out->batches = ARENA_ARRAY(s->arena, PlantStandBatch,
                               farm->plants_count + farm->plan_plants_count);
    out->ways = ARENA_ARRAY(s->arena, PlantStandUnits, farm->ways_count);
    for (int way = 0; way < farm->ways_count; way++) {
        out->ways[way] =
            (PlantStandUnits){ARENA_ARRAY(s->arena, double, weeks),
                              ARENA_ARRAY(s->arena, double, weeks),
                              ARENA_ARRAY(s->arena, double, weeks)};
    }
    out->want_kg = ARENA_ARRAY(s->arena, double *, farm->loops_count);
    for (int loop = 0; loop < farm->loops_count; loop++) {
        out->want_kg[loop] = ARENA_ARRAY(s->arena, double, weeks);
    }
    for (int end = 0; end < 2; end++) {
        s->together[end] = ARENA_ARRAY(s->scratch, double, cells);
        s->alone[end] = ARENA_ARRAY(s->scratch, double, cells);
    }
    s->years = plant_years(s->is->farm, s->is->book, s->is->beds, s->is->kinds,
                           s->scratch);
}

Err plant_stand_run(Arena *arena, const PlantStandCase *stand, PlantStand *out)
{
    assert(stand->weeks >= 1);
    CLEANUP(arena_release) Arena scratch = {0};
    PlantStand made = {.first_week = stand->first_week, .weeks = stand->weeks};
    Stand s = {.arena = arena, .scratch = &scratch, .is = stand, .out = &made};
    make_room(&s);
    TRY(add_all(&s));
    close_ways(&s);
    if (made.batch_count > 1) {
        qsort(made.batches, (size_t)made.batch_count, sizeof *made.batches,
              by_set_day);
    }
    *out = made;
    return ERR_NONE;
}

/* ---- Days are not days ----------------------------------------------------
 */

static PlantDays days_of(const PlantYear *year, int32_t set_day)
{
    CLEANUP(arena_release) Arena scratch = {0};
    PlantBatch batch;
    plant_year_batch(year, set_day, 1, &scratch, &batch);
    PlantDays days = {.grows = !batch.is_refused,
                      .end = batch.end,
                      .end_month = batch.end_month,
                      .nursery = batch.set_day - batch.sow_day};
    if (days.grows) {
        days.early = batch.pick_early_day - set_day;
        days.value = batch.pick_day - set_day;
        days.late = batch.pick_late_day - set_day;
    }
    return days;
}

/* The 15th of a month, on the first week's day or in the year after it. */
static int32_t month_middle(int32_t first_week, int month)
{
    CivilDate civil = date_to_civil(first_week);
    civil.year += month < civil.month ? 1 : 0;
    civil.month = month;
    civil.day = MONTH_MIDDLE;
    return date_from_civil(civil);
}

Err plant_stand_days(Arena *arena, const PlantStandCase *stand, int way,
                     PlantDays **out, bool **out_has_place)
{
    const Farm *farm = stand->farm;
    const BedKinds *kinds = stand->kinds;
    PlantRule rule;
    TRY(plant_rule_of_farm(stand->book, farm, way, &rule));
    PlantDays *days = ARENA_ARRAY(arena, PlantDays, kinds->count * MONTHS);
    bool *has_place = ARENA_ARRAY(arena, bool, kinds->count);
    for (int kind = 0; kind < kinds->count; kind++) {
        CLEANUP(arena_release) Arena scratch = {0};
        int bed = kinds->first_bed[kind];
        has_place[kind] =
            rule.place != WAY_EDGE ||
            (farm->beds[bed].edge != EDGE_NONE && farm->beds[bed].edge_m > 0.0);
        PlantYear year;
        plant_year_init(&scratch, &rule, &stand->beds[bed], &year);
        for (int month = 1; month <= MONTHS; month++) {
            days[kind * MONTHS + month - 1] =
                days_of(&year, month_middle(stand->first_week, month));
        }
    }
    *out = days;
    *out_has_place = has_place;
    return ERR_NONE;
}
