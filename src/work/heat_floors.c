/* What a floor of the water costs and brings. */
#include <math.h>

#include "base/date.h"
#include "sim/fish_case.h"
#include "sim/fish_stand.h"
#include "work/foresight.h"
#include "work/heat.h"

static const double UNDER_K = 0.5;
static const double G_KG = 1000.0;
static const double E4 = 10000.0;
static const double YEAR_WEEKS = 365.0 / 7.0;
enum { WATER_LEAST = 0, WATER_MOST = 40 };

double heat_fish_price(const Farm *farm, int32_t day)
{
    double best = 0.0;
    for (int32_t i = 0; i < farm->prices_count; i++) {
        const Price *price = &farm->prices[i];
        if (price->buyer >= 0 || day < price->from || day > price->until) {
            continue;
        }
        for (int32_t j = 0; j < farm->parts_count; j++) {
            const Part *part = &farm->parts[j];
            double kg = part->units * part->fish_over_g / G_KG;
            if (part->product != price->product || part->way >= 0 ||
                !(kg > 0.0)) {
                continue;
            }
            double net = (double)price->price_e4 / E4 /
                         (price->has_tax ? 1.0 + price->tax_frac : 1.0);
            best = fmax(best, net / kg);
        }
    }
    return best;
}

/* The farm with its loops' heaters set anew. */
static Err with_floor(const Farm *farm, double floor_degc, Arena *arena,
                      Farm *out)
{
    *out = *farm;
    if (isnan(floor_degc)) {
        return ERR_NONE;
    }
    int warmed = 0;
    Heater *heaters = ARENA_ARRAY(arena, Heater, farm->heaters_count);
    for (int32_t i = 0; i < farm->heaters_count; i++) {
        heaters[i] = farm->heaters[i];
        if (heaters[i].loop >= 0) {
            heaters[i].target_degc = floor_degc;
            heaters[i].months = MONTHS_ALL;
            warmed++;
        }
    }
    out->heaters = heaters;
    return warmed ? ERR_NONE
                  : err_make(ERR_INPUT,
                             "no heater of the farm warms a loop's water: "
                             "there is no floor to choose");
}

static bool is_heated(const Farm *farm, int32_t loop)
{
    for (int32_t i = 0; i < farm->heaters_count; i++) {
        if (farm->heaters[i].loop == loop) {
            return true;
        }
    }
    return false;
}

static void note_water(const Farm *farm, const ClimateYear *year,
                       HeatFloor *floor)
{
    floor->coldest_degc = INFINITY;
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        bool is_under = false;
        for (int32_t i = 0; i < farm->loops_count; i++) {
            double least = year->loops[i].min_degc[day];
            floor->coldest_degc = fmin(floor->coldest_degc, least);
            is_under |= is_heated(farm, i) && !isnan(floor->floor_degc) &&
                        least < floor->floor_degc - UNDER_K;
        }
        floor->under_d += is_under;
    }
    floor->heater_kwh = year->heater_kwh;
    floor->heater_cost = year->heater_cost;
}

/* Water within what the fish's laws take. */
static const double *const *tank_water(const Farm *farm,
                                       const ClimateYear *year, Arena *arena)
{
    const double **water =
        ARENA_ARRAY(arena, const double *, farm->tanks_count);
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        double *days = ARENA_ARRAY(arena, double, FISH_YEAR_DAYS);
        for (int d = 0; d < FISH_YEAR_DAYS; d++) {
            double degc = year->tanks[k].mean_degc[d];
            days[d] = fmin(fmax(degc, WATER_LEAST), WATER_MOST);
        }
        water[k] = days;
    }
    return (const double *const *)water;
}

static double feed_price(const Farm *farm, double mean_g)
{
    double last = 0.0;
    for (int32_t i = 0; i < farm->feeds_count; i++) {
        const Feed *feed = &farm->feeds[i];
        last = (double)feed->price_kg_e4 / E4;
        if (mean_g >= feed->from_g && mean_g < feed->to_g) {
            break;
        }
    }
    return last;
}

static void note_fish(const HeatAsk *ask, const FishStand *fish,
                      HeatFloor *floor)
{
    for (int32_t k = 0; k < ask->farm->tanks_count; k++) {
        const FishStandTank *tank = &fish->tanks[k];
        for (int w = 0; w < ask->weeks; w++) {
            floor->feed_kg += tank->feed_kg[w];
            floor->feed_cost +=
                tank->feed_kg[w] * feed_price(ask->farm, tank->mean_g[w]);
        }
    }
    for (int b = 0; b < fish->batch_count; b++) {
        const FishStandBatch *batch = &fish->batches[b];
        floor->gained_kg += batch->kg[ask->weeks] + batch->sold_kg -
                            batch->kg[batch->start_week];
    }
    floor->fish_value =
        floor->gained_kg * heat_fish_price(ask->farm, ask->first_week);
}

Err heat_floor_run(const HeatAsk *ask, double floor_degc, Arena *arena,
                   HeatFloor *out)
{
    HeatFloor floor = {.floor_degc = floor_degc};
    Farm farm;
    TRY(with_floor(ask->farm, floor_degc, arena, &farm));
    ClimateYear year = *ask->climate;
    if (!isnan(floor_degc)) {
        TRY(climate_year_run(&farm, ask->book, arena, &year));
    }
    note_water(&farm, &year, &floor);
    FishStandCase stand = {.farm = &farm,
                           .book = ask->book,
                           .first_week = ask->first_week,
                           .weeks = ask->weeks,
                           .tank_degc = tank_water(&farm, &year, arena),
                           .sale_g = foresight_usual_sale_g()};
    FishStand fish;
    TRY(fish_stand_run(arena, &stand, &fish));
    note_fish(ask, &fish, &floor);
    floor.margin = floor.fish_value - floor.feed_cost -
                   floor.heater_cost * ask->weeks / YEAR_WEEKS;
    *out = floor;
    return ERR_NONE;
}
