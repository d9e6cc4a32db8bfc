/* The weeks to come as the typical year has them. */
#include "work/foresight.h"

#include <math.h>

#include "base/date.h"
#include "sim/fish_case.h"
#include "work/outlook.h"

enum { WEEK_D = 7, ORDINARY_YEAR = 2027, WATER_LEAST = 0, WATER_MOST = 40 };

double foresight_usual_sale_g(void)
{
    return 450.0; /* a whole fish for a plate; common practice */
}

/* ---- The typical year by week and month -----------------------------------
 */

int foresight_month_days(int month)
{
    CivilDate first = {ORDINARY_YEAR, month, 1};
    CivilDate next = {month < FORESIGHT_MONTHS ? ORDINARY_YEAR
                                               : ORDINARY_YEAR + 1,
                      month < FORESIGHT_MONTHS ? month + 1 : 1, 1};
    return (int)(date_from_civil(next) - date_from_civil(first));
}

double foresight_month_mean(const double *days, int month)
{
    CivilDate first = {ORDINARY_YEAR, month, 1};
    int from = date_day_of_year(date_from_civil(first)) - 1;
    int count = foresight_month_days(month);
    double sum = 0.0;
    for (int d = 0; d < count; d++) {
        sum += days[from + d];
    }
    return sum / count;
}

double foresight_week_mean(const double *days, int32_t monday)
{
    double sum = 0.0;
    for (int d = 0; d < WEEK_D; d++) {
        sum += days[date_day_of_year(monday + d) - 1];
    }
    return sum / WEEK_D;
}

/* ---- What fits together ---------------------------------------------------
 */

double foresight_feed_ratio(const Foresight *foresight, int loop, int week)
{
    double wanted = foresight->plants.want_kg[loop][week];
    return wanted > 0.0 ? foresight->fish.loops[loop].feed_kg[week] / wanted
                        : NAN;
}

double foresight_feed_short_ratio(void)
{
    return 0.7;
}

double foresight_feed_over_ratio(void)
{
    return 1.2;
}

double foresight_oxygen_share(const Foresight *foresight, int loop, int week,
                              int *out_tank)
{
    const Farm *farm = foresight->farm;
    double most = 0.0;
    int worst = -1;
    for (int k = 0; k < farm->tanks_count; k++) {
        const FishStandTank *tank = &foresight->fish.tanks[k];
        bool is_used = farm->tanks[k].loop == loop && tank->count[week] > 0.0;
        double share = is_used && tank->air_g_h[week] > 0.0
                           ? tank->oxygen_g_h[week] / tank->air_g_h[week]
                       : is_used ? INFINITY
                                 : 0.0;
        if (share > most) {
            most = share;
            worst = k;
        }
    }
    if (out_tank) {
        *out_tank = worst;
    }
    return most;
}

double foresight_ready_count(const Foresight *foresight, int week)
{
    double count = 0.0;
    for (int b = 0; b < foresight->fish.batch_count; b++) {
        const FishStandBatch *batch = &foresight->fish.batches[b];
        bool is_kept = batch->standing >= 0 &&
                       fish_case_is_kept(foresight->farm, batch->standing);
        count += is_kept ? 0.0 : batch->over_count[week];
    }
    return count;
}

/* ---- Making it ------------------------------------------------------------
 */

double foresight_sale_g(const Farm *farm)
{
    double least = INFINITY;
    for (int i = 0; i < farm->parts_count; i++) {
        const Part *part = &farm->parts[i];
        if (part->way < 0 && part->fish_over_g > 0.0) {
            least = fmin(least, part->fish_over_g);
        }
    }
    return isfinite(least) ? least : foresight_usual_sale_g();
}

/* Water within what the laws of fish and oxygen take. */
static const double *const *
tank_water(const Farm *farm, const double *const *tank_degc, Arena *arena)
{
    const double **water =
        ARENA_ARRAY(arena, const double *, farm->tanks_count);
    for (int k = 0; k < farm->tanks_count; k++) {
        double *days = ARENA_ARRAY(arena, double, FISH_YEAR_DAYS);
        for (int d = 0; d < FISH_YEAR_DAYS; d++) {
            days[d] = fmin(fmax(tank_degc[k][d], WATER_LEAST), WATER_MOST);
        }
        water[k] = days;
    }
    return (const double *const *)water;
}

static Err check_span(const ForesightAsk *ask)
{
    int32_t first = week_of(ask->farm->farm[0].records_from);
    char text[DATE_TEXT_SIZE];
    if (ask->weeks < 1 || ask->weeks > FORESIGHT_WEEKS_MOST) {
        return err_make(ERR_RANGE, "1 to %d weeks can be foreseen, not %d",
                        FORESIGHT_WEEKS_MOST, ask->weeks);
    }
    if (ask->first_week < first) {
        date_format(first, text);
        return err_make(ERR_RANGE,
                        "the farm's tables begin in the week of %s: what came "
                        "before is not foreseen",
                        text);
    }
    return ERR_NONE;
}

static Err make_plants(const ForesightAsk *ask, const OutlookClimate *climate,
                       Arena *arena, Foresight *made)
{
    PlantStandCase plants = {.farm = ask->farm,
                             .book = ask->book,
                             .beds = climate->beds,
                             .kinds = &made->kinds,
                             .first_week = ask->first_week,
                             .weeks = ask->weeks,
                             .workings = ask->workings,
                             .today =
                                 ask->today ? ask->today : ask->first_week};
    TRY(plant_stand_run(arena, &plants, &made->plants));
    if (ask->way >= 0) {
        TRY(plant_stand_days(arena, &plants, ask->way, &made->days,
                             &made->has_place));
    }
    made->bed_light_frac = ARENA_ARRAY(arena, double, made->kinds.count);
    for (int kind = 0; kind < made->kinds.count; kind++) {
        int bed = made->kinds.first_bed[kind];
        made->bed_light_frac[kind] = ask->climate->bed_light_frac[bed];
    }
    return ERR_NONE;
}

Err foresight_make(const ForesightAsk *ask, Arena *arena, Foresight *out)
{
    TRY(check_span(ask));
    Foresight made = {
        .farm = ask->farm,
        .climate = ask->climate,
        .first_week = ask->first_week,
        .weeks = ask->weeks,
        .sale_g =
            isnan(ask->sale_g) ? foresight_sale_g(ask->farm) : ask->sale_g,
        .way = ask->way,
    };
    OutlookClimate climate;
    outlook_climate(ask->farm, ask->climate, arena, &climate);
    bed_kinds_find(arena, ask->farm, &made.kinds);
    TRY(make_plants(ask, &climate, arena, &made));
    FishStandCase fish = {
        .farm = ask->farm,
        .book = ask->book,
        .first_week = ask->first_week,
        .weeks = ask->weeks,
        .tank_degc = tank_water(ask->farm, climate.tank_degc, arena),
        .sale_g = made.sale_g,
        .workings = ask->workings,
    };
    TRY(fish_stand_run(arena, &fish, &made.fish));
    *out = made;
    return ERR_NONE;
}
