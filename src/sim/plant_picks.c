/* The picks of a batch: through the week, or in whole cuts. */
#include "sim/plant_path.h"

#include <assert.h>
#include <math.h>

#include "base/date.h"

enum { QUALITY_DAYS = 14 };

/* Mean of the quality over the fortnight before a day counted from start. */
static double quality_before(const PlantPath *path, int32_t day)
{
    int32_t days = day < QUALITY_DAYS ? (day < 1 ? 1 : day) : QUALITY_DAYS;
    int32_t from = day - days < 0 ? 0 : day - days;
    int32_t doy = (path->start_doy + from) % PLANT_YEAR_DAYS;
    return plant_sum_of(path->year->quality_frac, doy, days) / days;
}

/* Adds picks' worth of units in the week of a day counted from start, and keeps
 * the tally of what was there before the losses. */
static void add_units(const PlantPath *path, PlantBatch *batch, int32_t day,
                      double picks, double *gross)
{
    const PlantRule *rule = &path->year->rule;
    int32_t week = (path->start + day - batch->first_week) / 7;
    double before = picks * rule->units.value;
    batch->units[week] += before * rule->saleable_frac.value * rule->kept_frac *
                          quality_before(path, day);
    *gross += before;
}

static int32_t least_of(int32_t a, int32_t b)
{
    return a < b ? a : b;
}

/* Last day of picking, from start, and clears the batch's arrays for it. */
static void open_weeks(const PlantPath *path, Arena *arena, int32_t last,
                       PlantBatch *batch)
{
    batch->last_pick_day = path->start + last;
    batch->clear_day = batch->last_pick_day + 1;
    batch->first_week = week_of(batch->set_day);
    batch->week_count = (batch->last_pick_day - batch->first_week) / 7 + 1;
    batch->units = ARENA_ARRAY(arena, double, batch->week_count);
    batch->units_low = ARENA_ARRAY(arena, double, batch->week_count);
    batch->units_high = ARENA_ARRAY(arena, double, batch->week_count);
    batch->want_g_m2_d = ARENA_ARRAY(arena, double, batch->week_count);
}

double plant_pick_flow(const PlantPath *path, Arena *arena, PlantBatch *batch)
{
    const PlantRule *rule = &path->year->rule;
    double whole = rule->picks * rule->every_degc_d;
    int32_t doy = (path->start_doy + path->pick) % PLANT_YEAR_DAYS;
    int32_t done = plant_sum_days(path->year->growth_degc_d, doy, whole);
    int32_t last = path->pick + least_of(done, (int32_t)rule->span_d) - 1;
    if (path->stop <= last) {
        last = path->stop - 1;
        batch->end = path->stop_why;
    }
    open_weeks(path, arena, last, batch);
    double gross = 0.0, so_far = 0.0;
    int32_t day = path->pick;
    while (day <= last) {
        int32_t in_week = (path->start + day - batch->first_week) % 7;
        int32_t next = least_of(day + 7 - in_week, last + 1);
        double growth = plant_path_growth(path, day, next);
        double x = (so_far + growth / 2.0) / whole;
        double picks = growth / rule->every_degc_d * plant_flow_shape(rule, x);
        add_units(path, batch, day, picks, &gross);
        so_far += growth;
        day = next;
    }
    return gross;
}

/* The Monday, from start, nearest to a day: a crop ready by Thursday is cut in
 * its own week. */
static int32_t near_monday(const PlantPath *path, int32_t day)
{
    int32_t monday = week_of(path->start + day + 3) - path->start;
    return monday < 0 ? 0 : monday;
}

/* The days of whole cuts, from start, at most most of them; those that the
 * plant lives to see. out_lost: a cut was lost to the plant's end. */
static int cut_days(const PlantPath *path, int32_t *days, int most,
                    bool *out_lost)
{
    const PlantRule *rule = &path->year->rule;
    int cuts = rule->shape == SHAPE_ONCE ? 1 : (int)(rule->picks + 0.5);
    cuts = cuts > most ? most : cuts;
    *out_lost = false;
    for (int i = 0; i < cuts; i++) {
        double growth = rule->first_pick_degc_d.value;
        growth += i == 0 ? 0.0 : i * rule->every_degc_d;
        int32_t day =
            i == 0 ? path->pick
                   : plant_path_full(path, path->year->growth_degc_d, growth);
        if (i > 0 && day - path->pick > (int32_t)rule->span_d) {
            return i;
        }
        if (day >= path->stop) {
            *out_lost = true;
            return i;
        }
        days[i] = day;
    }
    return cuts;
}

/* Weeks over which a cut may be spread: wanted, but not past what stands, the
 * plant's end, or the next cut. */
static int cut_weeks(const PlantPath *path, int32_t day, int32_t next,
                     int wanted)
{
    const PlantRule *rule = &path->year->rule;
    /* What was seen standing past its time stands for one week more. */
    int32_t ripe = day > path->ready && day == path->pick ? path->ready : day;
    int32_t doy = (path->start_doy + ripe) % PLANT_YEAR_DAYS;
    int32_t stands = ripe + plant_sum_days(path->year->growth_degc_d, doy,
                                           rule->stand_degc_d);
    if (stands < path->seen + 7) {
        stands = path->seen + 7;
    }
    int32_t until = least_of(least_of(stands, path->stop), next);
    int32_t monday = near_monday(path, day);
    int weeks = 1;
    while (weeks < wanted && monday + 7 * weeks < until) {
        weeks++;
    }
    return weeks;
}

enum { CUTS_MOST = 32 };

double plant_pick_cuts(const PlantPath *path, int pick_weeks, Arena *arena,
                       PlantBatch *batch)
{
    int32_t days[CUTS_MOST + 1];
    int weeks[CUTS_MOST];
    bool is_lost = false;
    int count = cut_days(path, days, CUTS_MOST, &is_lost);
    assert(count > 0);
    days[count] = PLANT_NEVER;
    for (int i = 0; i < count; i++) {
        weeks[i] = cut_weeks(path, days[i], days[i + 1], pick_weeks);
    }
    int32_t last =
        near_monday(path, days[count - 1]) + 7 * weeks[count - 1] - 1;
    open_weeks(path, arena, last, batch);
    double gross = 0.0;
    for (int i = 0; i < count; i++) {
        int32_t monday = near_monday(path, days[i]);
        for (int k = 0; k < weeks[i]; k++) {
            add_units(path, batch, monday + 7 * k, 1.0 / weeks[i], &gross);
        }
    }
    if (is_lost) {
        batch->end = path->stop_why;
    }
    return gross;
}
