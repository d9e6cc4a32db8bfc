/* Plants in the heat: which batches a hot spell takes, which side suits which
 * crop, when to shade, and when the nursery is too hot for seed. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "sim/bed_kinds.h"
#include "sim/plant_stand.h"
#include "sim/weather_forecast.h"
#include "work/foresight.h"
#include "work/heat.h"
#include "work/outlook.h"

enum { WEEK_D = 7 };
static const double UNITS_LOST_FRAC = 0.1;
static const double SEED_HALF_FRAC = 0.5;

static double by_day(const double *days, int32_t day)
{
    return days[date_day_of_year(day) - 1];
}

/* ---- The spell -------------------------------------------------------------
 */

int32_t heat_hottest_day(const HeatAsk *ask, int days)
{
    int32_t best = ask->first_week;
    double most = -INFINITY;
    for (int32_t from = ask->first_week;
         from + days <= ask->first_week + WEEK_D * ask->weeks; from++) {
        double sum = 0.0;
        for (int d = 0; d < days; d++) {
            sum += by_day(ask->climate->outside_max_degc, from + d);
            for (int32_t t = 0; t < ask->farm->tunnels_count; t++) {
                sum += by_day(ask->climate->tunnels[t].max_degc, from + d);
            }
        }
        if (sum > most + 1e-9) {
            most = sum;
            best = from;
        }
    }
    return best;
}

bool heat_forecast_spell(const HeatAsk *ask, HeatSpell *out)
{
    const double hot_k = 3.0;
    const int least_days = 2;
    WeatherForecast told;
    weather_forecast_of_farm(ask->farm, &told);
    HeatSpell best = {.is_forecast = true}, run = {.is_forecast = true};
    for (int i = 0; i < told.count; i++) {
        const WeatherForecastDay *day = &told.days[i];
        double over_k =
            day->max_degc - by_day(ask->climate->outside_max_degc, day->date);
        bool is_in = day->date >= ask->first_week &&
                     day->date < ask->first_week + WEEK_D * ask->weeks;
        if (!is_in || over_k < hot_k) {
            run.days = 0;
            continue;
        }
        bool follows = run.days > 0 && run.from_day + run.days == day->date;
        run.from_day = follows ? run.from_day : day->date;
        run.days = follows ? run.days + 1 : 1;
        double sum_k = follows ? run.warmer_k * (run.days - 1) : 0.0;
        run.warmer_k = (sum_k + over_k) / run.days;
        best = run.days > best.days ? run : best;
    }
    if (best.days < least_days) {
        return false;
    }
    *out = best;
    return true;
}

static double *warmed(const double *days, const HeatSpell *spell, Arena *arena)
{
    double *out = ARENA_ARRAY(arena, double, CLIMATE_DAYS);
    memcpy(out, days, CLIMATE_DAYS * sizeof *out);
    for (int d = 0; d < spell->days && d < CLIMATE_YEAR_DAYS; d++) {
        out[date_day_of_year(spell->from_day + d) - 1] += spell->warmer_k;
    }
    return out;
}

static ClimateYear warm_year(const HeatAsk *ask, const HeatSpell *spell,
                             Arena *arena)
{
    int32_t count = ask->farm->tunnels_count;
    ClimateYear year = *ask->climate;
    year.outside_mean_degc = warmed(year.outside_mean_degc, spell, arena);
    year.outside_min_degc = warmed(year.outside_min_degc, spell, arena);
    year.outside_max_degc = warmed(year.outside_max_degc, spell, arena);
    year.tunnels = ARENA_ARRAY(arena, ClimateTunnel, count);
    for (int32_t t = 0; t < count; t++) {
        ClimateTunnel *to = &year.tunnels[t];
        *to = ask->climate->tunnels[t];
        to->mean_degc = warmed(to->mean_degc, spell, arena);
        to->min_degc = warmed(to->min_degc, spell, arena);
        to->max_degc = warmed(to->max_degc, spell, arena);
        to->crop_min_degc = warmed(to->crop_min_degc, spell, arena);
    }
    return year;
}

static Err stand_in(const HeatAsk *ask, const ClimateYear *year, Arena *arena,
                    PlantStand *out)
{
    OutlookStand stand = {ask->farm, ask->book, year, ask->first_week,
                          ask->weeks};
    return outlook_stand(&stand, arena, out);
}

static double units_of(const PlantStand *stand, int batch)
{
    double sum = 0.0;
    for (int w = 0; w < stand->weeks; w++) {
        sum += stand->batches[batch].pick.value[w];
    }
    return sum;
}

/* Batches of the usual year beside those of the hot one, by id and bed. */
static int same_batch(const PlantStand *stand, const PlantStandBatch *of)
{
    for (int b = 0; b < stand->batch_count; b++) {
        const PlantStandBatch *batch = &stand->batches[b];
        if (batch->standing == of->standing && batch->planned == of->planned &&
            strcmp(batch->id, of->id) == 0) {
            return b;
        }
    }
    return -1;
}

/* The day on which what has gathered makes it bolt; as plant_year counts, from
 * its start in the bed or from the day on which it was seen. */
static int32_t bolting_day(const HeatAsk *ask, const ClimateYear *year,
                           const PlantRule *rule, const PlantStandBatch *batch)
{
    int32_t tunnel = ask->farm->beds[batch->bed].tunnel;
    const double *mean =
        tunnel < 0 ? year->outside_mean_degc : year->tunnels[tunnel].mean_degc;
    int32_t from = batch->set_day;
    if (rule->start == START_SOWN && batch->emerge_day != DATE_NEVER) {
        from = batch->emerge_day;
    }
    if (batch->standing >= 0) {
        int32_t seen = ask->farm->plants[batch->standing].counted_on;
        from = seen > from ? seen : from;
    }
    BoltState state = {0};
    for (int32_t day = from; day < from + CLIMATE_YEAR_DAYS; day++) {
        if (bolt_day(&rule->bolt, by_day(mean, day),
                     by_day(year->day_length_h, day), &state)) {
            return day;
        }
    }
    return DATE_NEVER;
}

/* What the batches are compared by. */
typedef struct Compared {
    const HeatAsk *ask;
    const PlantRule *rules; /* by way */
    const ClimateYear *hot_year;
    const PlantStand *usual, *hot;
} Compared;

static void find_batches(const Compared *by, Arena *arena, HeatPlants *to)
{
    const PlantStand *usual = by->usual, *hot = by->hot;
    to->batches = ARENA_ARRAY(arena, HeatBatch, usual->batch_count);
    for (int b = 0; b < usual->batch_count; b++) {
        const PlantStandBatch *was = &usual->batches[b];
        int at = same_batch(hot, was);
        if (at < 0) {
            continue;
        }
        const PlantStandBatch *is = &hot->batches[at];
        double units = units_of(hot, at), before = units_of(usual, b);
        bool is_other = strcmp(was->trouble, is->trouble) != 0;
        if (is_other || units < (1.0 - UNITS_LOST_FRAC) * before) {
            bool bolts = strstr(is->trouble, "bolts") != NULL;
            int32_t bolts_on = bolts ? bolting_day(by->ask, by->hot_year,
                                                   &by->rules[is->way], is)
                                     : DATE_NEVER;
            to->batches[to->batch_count++] =
                (HeatBatch){.id = was->id,
                            .way = was->way,
                            .bed = was->bed,
                            .set_day = was->set_day,
                            .usual = was->trouble,
                            .trouble = is->trouble,
                            .bolts_on = bolts_on,
                            .usual_units = before,
                            .units = units};
        }
    }
}

/* ---- Sides and shade -------------------------------------------------------
 */

static HeatSide side_of(const HeatAsk *ask, const PlantRule *rule, int tunnel)
{
    HeatSide side = {.tunnel = tunnel,
                     .cool_weeks = isnan(rule->cool_degc) ? -1 : 0};
    const double *days = ask->climate->tunnels[tunnel].mean_degc;
    for (int w = 0; w < ask->weeks; w++) {
        double mean = foresight_week_mean(days, ask->first_week + WEEK_D * w);
        side.hot_weeks += mean > rule->heat_degc;
        side.cool_weeks += side.cool_weeks >= 0 && mean < rule->cool_degc;
    }
    return side;
}

static HeatPlace place_of(const HeatSide *sides, int count)
{
    int hot = 0, likes_heat = 0;
    for (int t = 0; t < count; t++) {
        hot += sides[t].hot_weeks > 0;
        likes_heat += sides[t].cool_weeks > sides[t].hot_weeks;
    }
    return count > 0 && likes_heat == count ? HEAT_HOT_SIDE
           : hot == 0                       ? HEAT_ANYWHERE
           : hot == count                   ? HEAT_COOL_SIDE
                                            : HEAT_CHOOSE;
}

static bool stands_in(const HeatAsk *ask, const PlantStandBatch *batch,
                      int tunnel, int32_t monday)
{
    int32_t set = batch->set_day, clear = batch->clear_day;
    return ask->farm->beds[batch->bed].tunnel == tunnel &&
           set < monday + WEEK_D && clear >= monday;
}

static HeatShade shade_of(const HeatAsk *ask, const PlantStand *stand,
                          const PlantRule *rules, int tunnel)
{
    const ClimateTunnel *air = &ask->climate->tunnels[tunnel];
    const Tunnel *row = &ask->farm->tunnels[tunnel];
    HeatShade shade = {.tunnel = tunnel,
                       .way = -1,
                       .from = DATE_NEVER,
                       .until = DATE_NEVER,
                       .most_degc = -INFINITY,
                       .light_mol = INFINITY};
    for (int w = 0; w < ask->weeks; w++) {
        int32_t monday = ask->first_week + WEEK_D * w;
        double mean = foresight_week_mean(air->mean_degc, monday);
        int way = -1;
        for (int b = 0; b < stand->batch_count && way < 0; b++) {
            const PlantStandBatch *batch = &stand->batches[b];
            bool is_hot = mean > rules[batch->way].heat_degc;
            way = is_hot && stands_in(ask, batch, tunnel, monday) ? batch->way
                                                                  : -1;
        }
        if (way < 0) {
            continue;
        }
        shade.from = shade.way < 0 ? monday : shade.from;
        shade.way = shade.way < 0 ? way : shade.way;
        shade.until = monday + WEEK_D;
        shade.most_degc =
            fmax(shade.most_degc, foresight_week_mean(air->max_degc, monday));
        shade.light_mol =
            fmin(shade.light_mol, foresight_week_mean(air->dli_mol, monday));
        unsigned month = 1u << (date_to_civil(monday).month - 1);
        shade.is_shaded |=
            ((unsigned)row->shade_months & month && row->shade_frac > 0.0) ||
            ((unsigned)row->whitewash_months & month &&
             row->whitewash_frac > 0.0);
    }
    return shade;
}

/* ---- Seed ------------------------------------------------------------------
 */

static double comes_up_frac(const PlantRule *rule, double temp_degc)
{
    double share = emergence_germination_frac(&rule->row, temp_degc);
    if (isnan(share)) {
        return temp_degc <= rule->line.most_degc ? 1.0 : 0.0;
    }
    double best = 0.0;
    for (int i = 0; i < EMERGENCE_STEPS; i++) {
        best = fmax(best, rule->row.germination_frac[i]); /* NAN is passed */
    }
    return best > 0.0 ? share / best : 0.0;
}

static double best_seed_degc(const PlantRule *rule)
{
    double best = 0.0;
    double temp = fmin(rule->thermal.optimum_degc, rule->line.most_degc);
    for (int i = 0; i < EMERGENCE_STEPS; i++) {
        double share = rule->row.germination_frac[i];
        if (share > best) { /* not of NAN */
            best = share;
            temp = emergence_step_degc(i);
        }
    }
    return temp;
}

/* Upwards from where most comes up until half stays away. */
static double seed_limit_degc(const PlantRule *rule)
{
    double temp = best_seed_degc(rule);
    const double step_k = 0.1, most_degc = 45.0;
    while (temp < most_degc && comes_up_frac(rule, temp) >= SEED_HALF_FRAC) {
        temp += step_k;
    }
    return temp;
}

static HeatSeed seed_of(const HeatAsk *ask, const PlantRule *rule)
{
    HeatSeed seed = {.most_degc = seed_limit_degc(rule)};
    for (int32_t n = 0; n < ask->farm->nursery_count; n++) {
        const Nursery *bench = &ask->farm->nursery[n];
        const ClimateYear *year = ask->climate;
        const double *mean = bench->tunnel < 0
                                 ? year->outside_mean_degc
                                 : year->tunnels[bench->tunnel].mean_degc;
        const double *most = bench->tunnel < 0
                                 ? year->outside_max_degc
                                 : year->tunnels[bench->tunnel].max_degc;
        for (int month = 1; month <= HEAT_MONTHS; month++) {
            unsigned bit = 1u << (month - 1);
            bool is_hot = foresight_month_mean(mean, month) > seed.most_degc;
            bool is_noon = foresight_month_mean(most, month) > seed.most_degc;
            seed.hot_months |= is_hot ? bit : 0u;
            seed.noon_months |= is_noon ? bit : 0u;
        }
    }
    return seed;
}

/* ---- All of it -------------------------------------------------------------
 */

static Err rules_of(const HeatAsk *ask, Arena *arena, PlantRule **out)
{
    int32_t count = ask->farm->ways_count;
    PlantRule *rules = ARENA_ARRAY(arena, PlantRule, count);
    for (int32_t i = 0; i < count; i++) {
        TRY(plant_rule_of_farm(ask->book, ask->farm, i, &rules[i]));
    }
    *out = rules;
    return ERR_NONE;
}

static void find_sides(const HeatAsk *ask, const PlantRule *rules, Arena *arena,
                       HeatPlants *to)
{
    int ways = ask->farm->ways_count, tunnels = ask->farm->tunnels_count;
    to->sides = ARENA_ARRAY(arena, HeatSide, ways * tunnels);
    to->places = ARENA_ARRAY(arena, HeatPlace, ways);
    to->seeds = ARENA_ARRAY(arena, HeatSeed, ways);
    for (int w = 0; w < ways; w++) {
        for (int t = 0; t < tunnels; t++) {
            to->sides[w * tunnels + t] = side_of(ask, &rules[w], t);
            to->sides[w * tunnels + t].way = w;
        }
        to->places[w] = place_of(to->sides + w * tunnels, tunnels);
        HeatSeed seed = seed_of(ask, &rules[w]);
        seed.way = w;
        bool is_hot = seed.hot_months || seed.noon_months;
        if (is_hot && ask->farm->ways[w].tray >= 0) {
            to->seeds[to->seed_count++] = seed;
        }
    }
}

Err heat_plants_run(const HeatAsk *ask, const HeatSpell *spell, Arena *arena,
                    HeatPlants *out)
{
    HeatPlants made = {.spell = *spell};
    PlantRule *rules = NULL;
    TRY(rules_of(ask, arena, &rules));
    ClimateYear hot_year = warm_year(ask, spell, arena);
    PlantStand usual, hot;
    TRY(stand_in(ask, ask->climate, arena, &usual));
    TRY(stand_in(ask, &hot_year, arena, &hot));
    Compared by = {ask, rules, &hot_year, &usual, &hot};
    find_batches(&by, arena, &made);
    PressureAsk pressure = {ask->farm, ask->book, ask->climate, ask->first_week,
                            ask->weeks};
    TRY(pressure_weeks_make(&pressure, &usual, arena, &made.pressure));
    find_sides(ask, rules, arena, &made);
    int tunnels = ask->farm->tunnels_count;
    made.shades = ARENA_ARRAY(arena, HeatShade, tunnels);
    for (int t = 0; t < tunnels; t++) {
        made.shades[t] = shade_of(ask, &usual, rules, t);
    }
    *out = made;
    return ERR_NONE;
}
