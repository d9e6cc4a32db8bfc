/* One way in one bed kind's typical year, read off sums made once. */
#include "sim/plant_year.h"

#include <assert.h>
#include <math.h>

#include "base/date.h"
#include "sim/plant_path.h"

static double bounded(double value)
{
    return value < 0.0 ? 0.0 : value > 1.0 ? 1.0 : value;
}

/* Share of emergence that a day at that temperature brings: the crop's row
 * where it was tested, else the line. */
static double up_rate(const PlantRule *rule, double temp_degc)
{
    double days = emergence_table_d(&rule->row, temp_degc);
    if (isnan(days)) {
        days = emergence_line_d(&rule->line, temp_degc);
    }
    return isinf(days) ? 0.0 : 1.0 / days;
}

/* A lot keeps its own germination at the row's best temperature and falls with
 * the row away from it. */
static double germination_at(const PlantRule *rule, double temp_degc)
{
    double here = emergence_germination_frac(&rule->row, temp_degc);
    if (isnan(here)) {
        bool is_in = temp_degc > rule->line.base_degc &&
                     temp_degc <= rule->line.most_degc;
        return is_in ? rule->germination_frac : 0.0;
    }
    double best = 0.0;
    for (int i = 0; i < EMERGENCE_STEPS; i++) {
        best = fmax(best, rule->row.germination_frac[i]); /* NAN is passed */
    }
    return best > 0.0 ? rule->germination_frac * here / best : 0.0;
}

/* Seed in the nursery stands on the warm bench where the crop likes it. */
static double seed_degc(const PlantRule *rule, double nursery_degc)
{
    return fmax(nursery_degc, fmin(rule->mat_degc, rule->thermal.optimum_degc));
}

static void fill_growth(const BedYear *bed, PlantYear *year)
{
    const PlantRule *rule = &year->rule;
    for (int d = 0; d < PLANT_YEAR_DAYS; d++) {
        double light = light_growth_frac(&rule->light, bed->dli_mol[d]);
        double warmth = thermal_day_sine_degc_d(
            &rule->thermal, bed->min_degc[d], bed->max_degc[d]);
        year->growth_degc_d[d + 1] = warmth * light;
        year->quality_frac[d + 1] =
            plant_quality_frac(rule, bed->mean_degc[d], light);
        year->up[d + 1] = up_rate(rule, bed->mean_degc[d]);
    }
}

static void fill_nursery(const BedYear *bed, PlantYear *year)
{
    const PlantRule *rule = &year->rule;
    double usual = thermal_rate_degc_d(&rule->thermal, rule->nursery_degc);
    for (int d = 0; d < PLANT_YEAR_DAYS; d++) {
        double temp =
            bed->nursery_degc ? bed->nursery_degc[d] : rule->nursery_degc;
        double seed = seed_degc(rule, temp);
        year->nursery_d[d + 1] =
            thermal_rate_degc_d(&rule->thermal, temp) / usual;
        year->nursery_up[d + 1] = up_rate(rule, seed);
        bool is_set = rule->start == START_SET;
        year->germination_frac[d] =
            germination_at(rule, is_set ? seed : bed->mean_degc[d]);
    }
}

static void fill_ends(const BedYear *bed, PlantYear *year)
{
    const PlantRule *rule = &year->rule;
    const BoltRule *bolt = &rule->bolt;
    for (int d = 0; d < PLANT_YEAR_DAYS; d++) {
        double mean = bed->mean_degc[d];
        double night = bed->min_degc[d];
        double day_h = bed->day_length_h[d];
        bool is_hot = day_h >= bolt->heat_day_h && mean > bolt->heat_degc;
        year->bolt_degc_d[d + 1] = is_hot ? mean - bolt->heat_degc : 0.0;
        year->cold_d[d + 1] = mean < bolt->cold_degc;
        year->long_d[d + 1] = day_h >= bolt->cold_day_h;
        year->chill_d[d + 1] = night < rule->chill_degc; /* NAN: never */
        year->frost_d[d + 1] =
            night - rule->cold_night_drop_degc <= rule->frost_kill_degc;
    }
}

void plant_year_init(Arena *arena, const PlantRule *rule, const BedYear *bed,
                     PlantYear *out)
{
    PlantYear year = {.rule = *rule};
    double **sums[] = {
        &year.growth_degc_d, &year.quality_frac, &year.up,     &year.nursery_d,
        &year.nursery_up,    &year.bolt_degc_d,  &year.cold_d, &year.long_d,
        &year.chill_d,       &year.frost_d};
    size_t count = sizeof sums / sizeof *sums;
    for (size_t i = 0; i < count; i++) {
        *sums[i] = ARENA_ARRAY(arena, double, PLANT_SUM_SIZE);
    }
    year.germination_frac = ARENA_ARRAY(arena, double, PLANT_YEAR_DAYS);
    fill_growth(bed, &year);
    fill_nursery(bed, &year);
    fill_ends(bed, &year);
    for (size_t i = 0; i < count; i++) {
        plant_sum_close(*sums[i]);
    }
    *out = year;
}

BedYear plant_shade_year(Arena *arena, const BedYear *bed, double lost_frac)
{
    double *dli_mol = ARENA_ARRAY(arena, double, PLANT_YEAR_DAYS);
    for (int d = 0; d < PLANT_YEAR_DAYS; d++) {
        dli_mol[d] = bed->dli_mol[d] * (1.0 - lost_frac);
    }
    BedYear shaded = *bed;
    shaded.dli_mol = dli_mol;
    return shaded;
}

static int32_t doy_of(int32_t day)
{
    int32_t doy = date_day_of_year(day) - 1;
    return doy < PLANT_YEAR_DAYS ? doy : PLANT_YEAR_DAYS - 1;
}

int32_t plant_path_full(const PlantPath *path, const double *sum, double target)
{
    return plant_sum_days(sum, path->start_doy, target);
}

static void stop_at(PlantPath *path, int32_t day, PlantEnd why)
{
    if (day < path->stop) {
        path->stop = day;
        path->stop_why = why;
    }
}

/* What ends the plant: by what gathers from its start, or from the day on which
 * it was seen alive. */
static void find_stop(PlantPath *path)
{
    const PlantYear *year = path->year;
    const PlantRule *rule = &year->rule;
    int32_t from = path->seen;
    int32_t doy = (path->start_doy + from) % PLANT_YEAR_DAYS;
    path->stop = PLANT_NEVER;
    stop_at(path, from + plant_sum_days(year->frost_d, doy, 1.0),
            PLANT_FREEZES);
    if (!isnan(rule->chill_d)) {
        stop_at(path, from + plant_sum_days(year->chill_d, doy, rule->chill_d),
                PLANT_CHILLS);
    }
    if (rule->bolt.heat_sum_degc_d > 0.0) {
        double heat = rule->bolt.heat_sum_degc_d;
        stop_at(path, from + plant_sum_days(year->bolt_degc_d, doy, heat),
                PLANT_BOLTS);
    }
    if (rule->bolt.cold_d > 0.0) {
        int32_t ready =
            from + plant_sum_days(year->cold_d, doy, rule->bolt.cold_d);
        if (ready < PLANT_NEVER) {
            int32_t then = (path->start_doy + ready) % PLANT_YEAR_DAYS;
            stop_at(path, ready + plant_sum_days(year->long_d, then, 1.0),
                    PLANT_BOLTS);
        }
    }
}

double plant_path_growth(const PlantPath *path, int32_t from, int32_t until)
{
    const double *sum = path->year->growth_degc_d;
    return plant_sum_of(sum, path->start_doy, until) -
           plant_sum_of(sum, path->start_doy, from);
}

/* Spread of one batch: yield and saleable share vary apart from each other. */
static double spread(const Figure *units, const Figure *saleable, bool is_low)
{
    double u = is_low ? units->value - units->low : units->high - units->value;
    double s = is_low ? saleable->value - saleable->low
                      : saleable->high - saleable->value;
    return hypot(u / units->value, s / saleable->value);
}

double plant_season_sd_frac(const PlantRule *rule)
{
    /* One in ten lies 1.28 standard deviations below the mean. */
    return rule->season_share_frac *
           bounded(spread(&rule->units, &rule->saleable_frac, true)) / 1.28;
}

double plant_counted_frac(const PlantRule *rule)
{
    static const double COUNTED_SPREADS = 0.84;
    return isnan(rule->counted_frac)
               ? fmax(0.0, 1.0 - COUNTED_SPREADS * plant_season_sd_frac(rule))
               : rule->counted_frac;
}

static void fill_spread(const PlantRule *rule, PlantBatch *batch)
{
    double low = spread(&rule->units, &rule->saleable_frac, true);
    double high = spread(&rule->units, &rule->saleable_frac, false);
    batch->spread_low_frac = bounded(low);
    batch->spread_high_frac = high;
    for (int32_t i = 0; i < batch->week_count; i++) {
        batch->units_low[i] = batch->units[i] * (1.0 - bounded(low));
        batch->units_high[i] = batch->units[i] * (1.0 + high);
    }
}

/* Feed wanted: full growth, less when young, cold or dull. Sown in place, the
 * bed wants nothing before the seed is up. */
static void fill_want(const PlantPath *path, PlantBatch *batch)
{
    const PlantRule *rule = &path->year->rule;
    double full_rate = rule->thermal.optimum_degc - rule->thermal.base_degc;
    int32_t end = batch->last_pick_day - path->start + 1;
    for (int32_t w = 0; w < batch->week_count; w++) {
        int32_t from = batch->first_week + 7 * w - path->start;
        int32_t until = from + 7 < end ? from + 7 : end;
        from = from < 0 ? 0 : from;
        if (until <= from) {
            continue;
        }
        double so_far = plant_path_growth(path, 0, (from + until) / 2);
        double way = so_far / rule->first_pick_degc_d.value;
        double stage =
            rule->young_frac +
            (1.0 - rule->young_frac) * fmin(way / rule->full_at_frac, 1.0);
        double growth = plant_path_growth(path, from, until);
        batch->want_g_m2_d[w] =
            rule->want_g_m2_d * stage * growth / full_rate / 7.0;
    }
}

/* From the setting out back to the sowing: as many days as bring the seedling
 * on, within what the book has for any season. */
static int32_t nursery_days(const PlantYear *year, int32_t set_doy)
{
    const Figure *days = &year->rule.nursery_d;
    int32_t most = (int32_t)days->high;
    for (int32_t n = (int32_t)days->low; n < most; n++) {
        int32_t doy =
            (set_doy - n % PLANT_YEAR_DAYS + PLANT_YEAR_DAYS) % PLANT_YEAR_DAYS;
        if (plant_sum_of(year->nursery_d, doy, n) >= days->value) {
            return n;
        }
    }
    return most;
}

int32_t plant_year_ready_day(const PlantYear *year, int32_t sow_day)
{
    const Figure *days = &year->rule.nursery_d;
    int32_t least = (int32_t)days->low;
    int32_t most = (int32_t)days->high;
    int32_t n = plant_sum_days(year->nursery_d, doy_of(sow_day), days->value);
    return sow_day + (n < least ? least : n > most ? most : n);
}

/* Sowing and emergence; false when there will be no seedling. */
static bool start_batch(const PlantYear *year, PlantBatch *batch)
{
    const PlantRule *rule = &year->rule;
    bool is_set = rule->start == START_SET;
    int32_t set_doy = doy_of(batch->set_day);
    int32_t days = is_set ? nursery_days(year, set_doy) : 0;
    int32_t sow_doy =
        (set_doy - days % PLANT_YEAR_DAYS + PLANT_YEAR_DAYS) % PLANT_YEAR_DAYS;
    const double *up = is_set ? year->nursery_up : year->up;
    int32_t emerge = plant_sum_days(up, sow_doy, 1.0);
    batch->sow_day = batch->set_day - days;
    batch->germination_frac = year->germination_frac[sow_doy];
    int32_t latest = is_set ? days : (int32_t)rule->slow_most_d;
    if (emerge > latest ||
        batch->germination_frac < rule->germination_least_frac) {
        batch->end_month = date_month(batch->sow_day);
        return false;
    }
    batch->emerge_day = batch->sow_day + emerge;
    return true;
}

static void refuse(PlantBatch *batch, PlantEnd why, int32_t day)
{
    batch->is_refused = true;
    batch->end = why;
    batch->end_month = date_month(day);
}

/* The first pick, the end, and between them the weeks. */
static void run_batch(PlantPath *path, int pick_weeks, Arena *arena,
                      PlantBatch *out)
{
    const PlantYear *year = path->year;
    const PlantRule *rule = &year->rule;
    const Figure *first = &rule->first_pick_degc_d;
    const double *growth = year->growth_degc_d;
    find_stop(path);
    path->ready = plant_path_full(path, growth, first->value);
    bool is_past = rule->shape == SHAPE_ONCE && path->ready < path->seen;
    path->pick = is_past ? path->seen : path->ready;
    int32_t most = (int32_t)rule->slow_most_d;
    if (path->stop <= path->pick && path->stop <= path->seen + most) {
        refuse(out, path->stop_why, path->start + path->stop);
        return;
    }
    if (path->ready > most) {
        refuse(out, PLANT_TOO_SLOW, out->set_day);
        return;
    }
    out->pick_day = path->start + path->pick;
    out->pick_early_day =
        path->start + plant_path_full(path, growth, first->low);
    out->pick_late_day =
        path->start + plant_path_full(path, growth, first->high);
    if (is_past) {
        out->pick_early_day = out->pick_day;
        out->pick_late_day = out->pick_day;
    }
    double gross = rule->shape == SHAPE_FLOW
                       ? plant_pick_flow(path, arena, out)
                       : plant_pick_cuts(path, pick_weeks, arena, out);
    double net = 0.0;
    for (int32_t i = 0; i < out->week_count; i++) {
        net += out->units[i];
    }
    out->loss_frac = 1.0 - net / gross;
    if (out->end != PLANT_GROWS) {
        out->end_month = date_month(path->start + path->stop);
    }
    fill_spread(rule, out);
    fill_want(path, out);
}

void plant_year_batch(const PlantYear *year, int32_t set_day, int pick_weeks,
                      Arena *arena, PlantBatch *out)
{
    assert(pick_weeks >= 1 && pick_weeks <= 3);
    *out = (PlantBatch){.end = PLANT_GROWS, .set_day = set_day};
    if (!start_batch(year, out)) {
        refuse(out, PLANT_NO_SEEDLING, out->sow_day);
        return;
    }
    bool is_set = year->rule.start == START_SET;
    int32_t start = is_set ? set_day : out->emerge_day;
    PlantPath path = {.year = year, .start = start, .start_doy = doy_of(start)};
    out->start_day = start;
    run_batch(&path, pick_weeks, arena, out);
}

void plant_year_standing(const PlantYear *year, int32_t set_day,
                         int32_t seen_day, int pick_weeks, Arena *arena,
                         PlantBatch *out)
{
    assert(pick_weeks >= 1 && pick_weeks <= 3);
    *out = (PlantBatch){.end = PLANT_GROWS, .set_day = set_day};
    bool is_set = year->rule.start == START_SET;
    /* It is there, so it came up, whatever the nursery was. */
    bool is_up = start_batch(year, out);
    out->end_month = 0;
    int32_t start = is_set || !is_up ? set_day : out->emerge_day;
    PlantPath path = {.year = year, .start = start, .start_doy = doy_of(start)};
    out->start_day = start;
    path.seen = seen_day > start ? seen_day - start : 0;
    run_batch(&path, pick_weeks, arena, out);
}

double plant_year_growth_degc_d(const PlantYear *year, int32_t from,
                                int32_t until)
{
    return until > from
               ? plant_sum_of(year->growth_degc_d, doy_of(from), until - from)
               : 0.0;
}

const char *plant_end_text(const PlantBatch *batch, Arena *arena)
{
    const char *month =
        batch->end_month > 0 ? date_month_name(batch->end_month) : "";
    const char *when =
        batch->is_refused ? " before the first pick" : " and ends the picking";
    switch (batch->end) {
    case PLANT_GROWS:
        break;
    case PLANT_NO_SEEDLING:
        return arena_text(arena, "seed does not come up in %s", month);
    case PLANT_TOO_SLOW:
        return arena_text(arena, "set out in %s it does not finish", month);
    case PLANT_BOLTS:
        return arena_text(arena, "it bolts in %s%s", month, when);
    case PLANT_FREEZES:
        return arena_text(arena, "frost kills it in %s%s", month, when);
    case PLANT_CHILLS:
        return arena_text(arena, "cold kills it in %s%s", month, when);
    }
    return "";
}
