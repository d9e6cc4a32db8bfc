/* What is foreseen, as JSON. */
#include "json/foresee.h"

#include <jansson.h>
#include <math.h>

#include "base/date.h"
#include "json/text.h"

enum { WEEK_D = 7 };

static json_t *day_json(int32_t day)
{
    char text[DATE_TEXT_SIZE];
    if (day == DATE_NEVER || day == DATE_ALWAYS) {
        return json_null();
    }
    date_format(day, text);
    return json_string(text);
}

static json_t *number_json(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static json_t *series_json(const double *values, int count)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, number_json(values[i]));
    }
    return list;
}

static int32_t monday_of(const Foresight *foresight, int week)
{
    return foresight->first_week + WEEK_D * week;
}

/* Weekly means of a table of the typical year, times scale. */
static json_t *days_json(const Foresight *foresight, const double *days,
                         double scale)
{
    json_t *list = json_array();
    for (int week = 0; days && week < foresight->weeks; week++) {
        double mean = foresight_week_mean(days, monday_of(foresight, week));
        json_array_append_new(list, number_json(scale * mean));
    }
    return list;
}

static json_t *range_json(json_t *low, json_t *value, json_t *high)
{
    json_t *object = json_object();
    json_put(object, "low", low);
    json_put(object, "value", value);
    json_put(object, "high", high);
    return object;
}

static json_t *tunnels_json(const Foresight *foresight)
{
    json_t *list = json_array();
    for (int i = 0; i < foresight->farm->tunnels_count; i++) {
        const ClimateTunnel *tunnel = &foresight->climate->tunnels[i];
        json_t *object = json_object();
        json_put(object, "id", json_string(foresight->farm->tunnels[i].id));
        json_put(object, "mean_degc",
                 days_json(foresight, tunnel->mean_degc, 1));
        json_put(object, "min_degc", days_json(foresight, tunnel->min_degc, 1));
        json_put(object, "max_degc", days_json(foresight, tunnel->max_degc, 1));
        json_put(object, "dli_mol", days_json(foresight, tunnel->dli_mol, 1));
        json_put(object, "heater_kwh",
                 days_json(foresight, tunnel->heater_kwh, WEEK_D));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *kinds_json(const Foresight *foresight)
{
    const Farm *farm = foresight->farm;
    json_t *list = json_array();
    for (int kind = 0; kind < foresight->kinds.count; kind++) {
        int row = farm->beds[foresight->kinds.first_bed[kind]].tunnel;
        const double *light = row >= 0
                                  ? foresight->climate->tunnels[row].dli_mol
                                  : foresight->climate->outside_dli_mol;
        double share = foresight->bed_light_frac[kind];
        json_t *beds = json_array();
        for (int b = 0; b < farm->beds_count; b++) {
            if (foresight->kinds.of_bed[b] == kind) {
                json_array_append_new(beds, json_string(farm->beds[b].id));
            }
        }
        json_t *object = json_object();
        json_put(object, "name", json_string(foresight->kinds.names[kind]));
        json_put(object, "beds", beds);
        json_put(object, "light_frac", json_real(share));
        json_put(object, "dli_mol", days_json(foresight, light, share));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *carried_json(const Foresight *foresight, int loop)
{
    json_t *low = json_array();
    json_t *value = json_array();
    json_t *high = json_array();
    for (int week = 0; week < foresight->weeks; week++) {
        const Figure *figure = &foresight->fish.loops[loop].carries_g_d[week];
        json_array_append_new(low, number_json(figure->low));
        json_array_append_new(value, number_json(figure->value));
        json_array_append_new(high, number_json(figure->high));
    }
    return range_json(low, value, high);
}

static json_t *worst_json(const Foresight *foresight, int loop)
{
    json_t *list = json_array();
    for (int week = 0; week < foresight->weeks; week++) {
        int tank = -1;
        double share = foresight_oxygen_share(foresight, loop, week, &tank);
        json_t *object = json_object();
        json_put(object, "tank",
                 tank >= 0 ? json_string(foresight->farm->tanks[tank].id)
                           : json_null());
        json_put(object, "used_frac", number_json(share));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *loop_json(const Foresight *foresight, int loop)
{
    const ClimateLoop *water = &foresight->climate->loops[loop];
    const FishStandLoop *fish = &foresight->fish.loops[loop];
    int weeks = foresight->weeks;
    json_t *ratio = json_array();
    for (int week = 0; week < weeks; week++) {
        json_array_append_new(
            ratio, number_json(foresight_feed_ratio(foresight, loop, week)));
    }
    json_t *object = json_object();
    json_put(object, "id", json_string(foresight->farm->loops[loop].id));
    json_put(object, "water_degc", days_json(foresight, water->mean_degc, 1));
    json_put(object, "water_min_degc",
             days_json(foresight, water->min_degc, 1));
    json_put(object, "water_max_degc",
             days_json(foresight, water->max_degc, 1));
    json_put(object, "heater_kwh",
             days_json(foresight, water->heater_kwh, WEEK_D));
    json_put(object, "feed_offered_kg", series_json(fish->feed_kg, weeks));
    json_put(object, "feed_wanted_kg",
             series_json(foresight->plants.want_kg[loop], weeks));
    json_put(object, "feed_ratio", ratio);
    json_put(object, "ammonia_made_g_d", series_json(fish->tan_g_d, weeks));
    json_put(object, "ammonia_carried_g_d", carried_json(foresight, loop));
    json_put(object, "oxygen_used_g_h", series_json(fish->oxygen_g_h, weeks));
    json_put(object, "oxygen_worst", worst_json(foresight, loop));
    return object;
}

static json_t *loops_json(const Foresight *foresight)
{
    json_t *list = json_array();
    for (int loop = 0; loop < foresight->farm->loops_count; loop++) {
        json_array_append_new(list, loop_json(foresight, loop));
    }
    return list;
}

static json_t *week_json(const Foresight *foresight, int week)
{
    char text[DATE_TEXT_SIZE];
    if (week < 0) {
        return json_null();
    }
    week_format(monday_of(foresight, week), text);
    return json_string(text);
}

static json_t *tanks_json(const Foresight *foresight)
{
    const Farm *farm = foresight->farm;
    int weeks = foresight->weeks;
    json_t *list = json_array();
    for (int k = 0; k < farm->tanks_count; k++) {
        const FishStandTank *tank = &foresight->fish.tanks[k];
        int loop = farm->tanks[k].loop;
        json_t *object = json_object();
        json_put(object, "id", json_string(farm->tanks[k].id));
        json_put(object, "loop",
                 loop >= 0 ? json_string(farm->loops[loop].id) : json_null());
        json_put(
            object, "water_degc",
            days_json(foresight, foresight->climate->tanks[k].mean_degc, 1));
        json_put(object, "count", series_json(tank->count, weeks));
        json_put(object, "kg", series_json(tank->kg, weeks));
        json_put(object, "mean_g", series_json(tank->mean_g, weeks));
        json_put(object, "cv_frac", series_json(tank->cv_frac, weeks));
        json_put(object, "density_kg_m3",
                 series_json(tank->density_kg_m3, weeks));
        json_put(object, "feed_kg", series_json(tank->feed_kg, weeks));
        json_put(object, "oxygen_g_h", series_json(tank->oxygen_g_h, weeks));
        json_put(object, "air_g_h", series_json(tank->air_g_h, weeks));
        json_put(object, "tan_g_d", series_json(tank->tan_g_d, weeks));
        json_put(object, "over_density_week",
                 week_json(foresight, tank->over_density_week));
        json_put(object, "over_air_week",
                 week_json(foresight, tank->over_air_week));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *in_tanks_json(const Foresight *foresight,
                             const FishStandBatch *batch)
{
    json_t *list = json_array();
    for (int k = 0; k < foresight->farm->tanks_count; k++) {
        const FishStandShare *share = &batch->in_tanks[k];
        if (!share->count) {
            continue;
        }
        json_t *object = json_object();
        json_put(object, "id", json_string(foresight->farm->tanks[k].id));
        json_put(object, "count", series_json(share->count, foresight->weeks));
        json_put(object, "kg", series_json(share->kg, foresight->weeks));
        json_put(object, "mean_g",
                 series_json(share->mean_g, foresight->weeks));
        json_put(object, "cv_frac",
                 series_json(share->cv_frac, foresight->weeks));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *fish_json(const Foresight *foresight,
                         const FishStandBatch *batch)
{
    const Farm *farm = foresight->farm;
    int mondays = foresight->weeks + 1;
    bool stands = batch->standing >= 0;
    json_t *object = json_object();
    json_put(object, "id", json_string(batch->id));
    json_put(object, "species",
             json_string(stands ? farm->fish[batch->standing].species
                                : farm->fish_sources[batch->source].species));
    json_put(object, "standing", json_boolean(stands));
    json_put(object, "source",
             batch->source >= 0
                 ? json_string(farm->fish_sources[batch->source].id)
                 : json_null());
    json_put(object, "count", series_json(batch->count, mondays));
    json_put(object, "kg", series_json(batch->kg, mondays));
    json_put(object, "mean_g", series_json(batch->mean_g, mondays));
    json_put(object, "cv_frac", series_json(batch->cv_frac, mondays));
    json_put(object, "over_count", series_json(batch->over_count, mondays));
    json_put(object, "all_mean_g",
             range_json(series_json(batch->all.low_g, mondays),
                        series_json(batch->all.value_g, mondays),
                        series_json(batch->all.high_g, mondays)));
    json_put(object, "ready_early", day_json(batch->ready_early));
    json_put(object, "ready_on", day_json(batch->ready_on));
    json_put(object, "ready_late", day_json(batch->ready_late));
    json_put(object, "sold_count", json_real(batch->sold_count));
    json_put(object, "sold_kg", json_real(batch->sold_kg));
    json_put(object, "tanks", in_tanks_json(foresight, batch));
    return object;
}

static json_t *batches_of_fish_json(const Foresight *foresight)
{
    json_t *list = json_array();
    for (int b = 0; b < foresight->fish.batch_count; b++) {
        json_array_append_new(
            list, fish_json(foresight, &foresight->fish.batches[b]));
    }
    return list;
}

static json_t *ways_json(const Foresight *foresight)
{
    json_t *list = json_array();
    for (int w = 0; w < foresight->farm->ways_count; w++) {
        const PlantStandUnits *units = &foresight->plants.ways[w];
        json_t *object = json_object();
        json_put(object, "id", json_string(foresight->farm->ways[w].id));
        json_put(object, "unit", json_string(foresight->farm->ways[w].unit));
        json_put(object, "low", series_json(units->low, foresight->weeks));
        json_put(object, "value", series_json(units->value, foresight->weeks));
        json_put(object, "high", series_json(units->high, foresight->weeks));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *plant_json(const Foresight *foresight,
                          const PlantStandBatch *batch)
{
    const Farm *farm = foresight->farm;
    json_t *object = json_object();
    json_put(object, "id", json_string(batch->id));
    json_put(object, "way", json_string(farm->ways[batch->way].id));
    json_put(object, "bed", json_string(farm->beds[batch->bed].id));
    json_put(object, "place", json_string(batch->is_edge ? "edge" : "floor"));
    json_put(object, "standing", json_boolean(batch->standing >= 0));
    json_put(object, "planned", json_boolean(batch->planned >= 0));
    json_put(object, "plants", json_real(batch->plants));
    json_put(object, "sow_on", day_json(batch->sow_day));
    json_put(object, "emerge_on", day_json(batch->emerge_day));
    json_put(object, "set_on", day_json(batch->set_day));
    json_put(object, "pick_early", day_json(batch->early_day));
    json_put(object, "pick_on", day_json(batch->pick_day));
    json_put(object, "pick_late", day_json(batch->late_day));
    json_put(object, "last_pick_on", day_json(batch->last_day));
    json_put(object, "clear_on", day_json(batch->clear_day));
    json_put(object, "trouble", json_string(batch->trouble));
    json_put(object, "low", series_json(batch->pick.low, foresight->weeks));
    json_put(object, "value", series_json(batch->pick.value, foresight->weeks));
    json_put(object, "high", series_json(batch->pick.high, foresight->weeks));
    json_put(object, "feed_wanted_kg",
             series_json(batch->want_kg, foresight->weeks));
    return object;
}

static json_t *plants_json(const Foresight *foresight)
{
    json_t *list = json_array();
    for (int b = 0; b < foresight->plants.batch_count; b++) {
        json_array_append_new(
            list, plant_json(foresight, &foresight->plants.batches[b]));
    }
    return list;
}

static json_t *month_json(const PlantDays *days, int month, Arena *arena)
{
    PlantBatch batch = {.is_refused = !days->grows,
                        .end = days->end,
                        .end_month = days->end_month};
    json_t *object = json_object();
    json_put(object, "month", json_integer(month));
    json_put(object, "early",
             days->grows ? json_integer(days->early) : json_null());
    json_put(object, "value",
             days->grows ? json_integer(days->value) : json_null());
    json_put(object, "late",
             days->grows ? json_integer(days->late) : json_null());
    json_put(object, "nursery", json_integer(days->nursery));
    json_put(object, "trouble", json_string(plant_end_text(&batch, arena)));
    return object;
}

static json_t *way_days_json(const Foresight *foresight, Arena *arena)
{
    if (!foresight->days) {
        return json_null();
    }
    json_t *kinds = json_array();
    for (int kind = 0; kind < foresight->kinds.count; kind++) {
        if (!foresight->has_place[kind]) {
            continue;
        }
        json_t *months = json_array();
        for (int m = 0; m < FORESIGHT_MONTHS; m++) {
            const PlantDays *days =
                &foresight->days[kind * FORESIGHT_MONTHS + m];
            json_array_append_new(months, month_json(days, m + 1, arena));
        }
        json_t *object = json_object();
        json_put(object, "name", json_string(foresight->kinds.names[kind]));
        json_put(object, "months", months);
        json_array_append_new(kinds, object);
    }
    json_t *object = json_object();
    json_put(object, "way",
             json_string(foresight->farm->ways[foresight->way].id));
    json_put(object, "kinds", kinds);
    return object;
}

const char *foresee_to_json(const Foresight *foresight,
                            const char *const *notices, int notice_count,
                            Arena *arena)
{
    json_t *told = json_array();
    for (int i = 0; i < notice_count; i++) {
        json_array_append_new(told, json_string(notices[i]));
    }
    json_t *weeks = json_array();
    for (int week = 0; week < foresight->weeks; week++) {
        json_array_append_new(weeks, week_json(foresight, week));
    }
    json_t *year = json_object();
    json_put(year, "heater_kwh", number_json(foresight->climate->heater_kwh));
    json_put(year, "heater_cost", number_json(foresight->climate->heater_cost));
    json_t *object = json_object();
    json_put(object, "from", day_json(foresight->first_week));
    json_put(object, "weeks", weeks);
    json_put(object, "notices", told);
    json_put(object, "sale_g", number_json(foresight->sale_g));
    json_put(object, "feed_short_ratio",
             number_json(foresight_feed_short_ratio()));
    json_put(object, "feed_over_ratio",
             number_json(foresight_feed_over_ratio()));
    json_put(object, "tunnels", tunnels_json(foresight));
    json_put(object, "bed_kinds", kinds_json(foresight));
    json_put(object, "loops", loops_json(foresight));
    json_put(object, "tanks", tanks_json(foresight));
    json_put(object, "fish", batches_of_fish_json(foresight));
    json_put(object, "ways", ways_json(foresight));
    json_put(object, "plants", plants_json(foresight));
    json_put(object, "days", way_days_json(foresight, arena));
    json_put(object, "year", year);
    return json_text_take(object, arena);
}
