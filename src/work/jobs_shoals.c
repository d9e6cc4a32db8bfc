/* Which fish are where on each day of a week. */
#include "work/jobs_shoals.h"

#include "base/tongue.h"

#include <math.h>
#include <string.h>

#include "sim/fish_case.h"

static const double AFTER_NET_FRAC = 0.5;

enum { SALE_DAY_USUAL = 3 };

double shoals_water_degc(const Jobs *jobs, int32_t tank, int day)
{
    return jobs->outlook->tank_degc[tank * JOBS_DAYS + day];
}

/* ---- which fish are where ------------------------------------------------ */

/* A standing batch's row of fish or, below 0, a source's species. */
static Err take_species(const Jobs *jobs, int32_t standing, int32_t source,
                        Shoal *shoal)
{
    const Farm *farm = jobs->farm;
    const char *name = standing >= 0 ? farm->fish[standing].species
                                     : farm->fish_sources[source].species;
    double given = standing >= 0 ? fish_case_ration_frac(farm, standing) : 1.0;
    shoal->ration_frac = given * fish_case_appetite(farm, name).value;
    return fish_case_species(jobs->arena, farm, name, &shoal->species);
}

/* The first delivery day of a fish product in that week. */
static int sale_day(const Jobs *jobs, int32_t week)
{
    for (int d = 0; d < JOBS_DAYS; d++) {
        if (jobs_demand(jobs, -1, week + d) > 0.0) {
            return d;
        }
    }
    return SALE_DAY_USUAL;
}

/* The first day in the week on which the water allows it, from a usual day on
 * and then from Monday; -1 where none does. */
static int day_within(const Jobs *jobs, int32_t tank, double least_degc)
{
    for (int i = 0; i < JOBS_DAYS - 1; i++) {
        int day = (GRADE_FIRST + i) % (JOBS_DAYS - 1);
        double degc = shoals_water_degc(jobs, tank, day);
        if (degc >= least_degc && degc <= GRADE_MOST_DEGC) {
            return day;
        }
    }
    return -1;
}

/* A sale whose fish are caught before the week's end. */
static void set_sale(const Jobs *jobs, Shoal *shoal, const PlanMove *move)
{
    if (move->product < 0) {
        shoal->given_up = jobs_has_day(jobs, move->on) ? move : NULL;
        return;
    }
    int day = (int)(move->on - jobs->week) + sale_day(jobs, move->on);
    int catch_day = day - jobs->farm->farm->purge_days;
    if (catch_day < JOBS_DAYS) {
        shoal->sale = move;
        shoal->sale_day = day;
        shoal->catch_day = catch_day;
    }
}

/* A stocking or grading of this week. */
static void set_move(const Jobs *jobs, Shoal *shoal, const PlanMove *move)
{
    if (!jobs_has_day(jobs, move->on)) {
        return;
    }
    shoal->move = move;
    shoal->move_day = move->kind == MOVE_GRADE
                          ? day_within(jobs, move->from_tank, GRADE_LEAST_DEGC)
                          : STOCK_DAY;
}

/* Follows the moves of one run of a lane to the Monday of the week. */
static void follow_run(const Jobs *jobs, Shoal *shoal, int32_t run)
{
    const Farm *farm = jobs->farm;
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        if (move->fish != shoal->lane || move->run != run) {
            continue;
        }
        if (move->on < jobs->week) {
            shoal->tank = move->to_tank;
        } else if (move->kind == MOVE_SALE) {
            set_sale(jobs, shoal, move);
        } else {
            set_move(jobs, shoal, move);
        }
    }
}

static Shoal *shoal_add(FishWork *work, const Shoal *shoal)
{
    work->shoals[work->count] = *shoal;
    return &work->shoals[work->count++];
}

static bool leads_run(const Farm *farm, int32_t move)
{
    for (int32_t i = 0; i < move; i++) {
        if (farm->plan_moves[i].run == farm->plan_moves[move].run &&
            farm->plan_moves[i].fish == farm->plan_moves[move].fish) {
            return false;
        }
    }
    return true;
}

/* A lane's runs by number, and those of its fish that never move. */
static Err add_lane(FishWork *work, int32_t lane)
{
    const Jobs *jobs = work->jobs;
    const Farm *farm = jobs->farm;
    const PlanFish *row = &farm->plan_fish[lane];
    double alive = jobs->outlook->lane_alive_frac[lane];
    Shoal shoal = {.batch = row->batch, .lane = lane, .tank = -1};
    TRY(take_species(jobs, row->standing, row->source, &shoal));
    shoal.weight_g[0] = jobs->outlook->lane_g[lane];
    if (row->standing >= 0) {
        shoal.tank = farm->fish[row->standing].tank;
    }
    double left = row->count;
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        if (move->fish != lane || !leads_run(farm, i)) {
            continue;
        }
        left -= move->started;
        Shoal *run = shoal_add(work, &shoal);
        run->count = move->started * alive;
        follow_run(jobs, run, move->run);
    }
    if (left > 0.0 && shoal.tank >= 0) {
        shoal_add(work, &shoal)->count = left * alive;
    }
    return ERR_NONE;
}

/* Fish that the plan leaves alone: breeders. */
static Err add_kept(FishWork *work)
{
    const Jobs *jobs = work->jobs;
    const Farm *farm = jobs->farm;
    for (int32_t i = 0; i < farm->fish_count; i++) {
        bool is_planned = false;
        for (int32_t j = 0; j < farm->plan_fish_count; j++) {
            is_planned |= farm->plan_fish[j].standing == i;
        }
        if (is_planned) {
            continue;
        }
        Shoal shoal = {.batch = farm->fish[i].id,
                       .lane = -1,
                       .tank = farm->fish[i].tank,
                       .count = farm->fish[i].count *
                                jobs->outlook->fish_alive_frac[i]};
        TRY(take_species(jobs, i, -1, &shoal));
        shoal.weight_g[0] = jobs->outlook->fish_g[i];
        shoal_add(work, &shoal);
    }
    return ERR_NONE;
}

static Err find_all(FishWork *work)
{
    const Farm *farm = work->jobs->farm;
    work->shoals = ARENA_ARRAY(work->jobs->arena, Shoal,
                               farm->plan_moves_count + farm->plan_fish_count +
                                   farm->fish_count + 1);
    for (int32_t lane = 0; lane < farm->plan_fish_count; lane++) {
        TRY(add_lane(work, lane));
    }
    return add_kept(work);
}

/* The tank on a day had nobody been caught. */
static int32_t tank_by_move(const Shoal *shoal, int day)
{
    bool has_moved =
        shoal->move && shoal->move_day >= 0 && day >= shoal->move_day;
    return has_moved ? shoal->move->to_tank : shoal->tank;
}

/* The tank on a day; -1 where they are not in a tank that is fed: not here yet,
 * in the purge water, sold. */
static int32_t tank_on(const Shoal *shoal, int day)
{
    return shoal->sale && day >= shoal->catch_day ? -1
                                                  : tank_by_move(shoal, day);
}

int32_t shoals_caught_from(const Shoal *shoal)
{
    return tank_by_move(shoal, shoal->catch_day);
}

/* ---- through the week ---------------------------------------------------- */

/* Whether fish leave the tank by net on that day. */
static bool is_graded(const FishWork *work, int32_t tank, int day)
{
    for (int i = 0; i < work->count; i++) {
        const Shoal *shoal = &work->shoals[i];
        if (shoal->move && shoal->tank == tank && shoal->count >= 1.0 &&
            day == shoal->move_day) {
            return true;
        }
    }
    return false;
}

static bool is_caught(const FishWork *work, int32_t tank, int day)
{
    for (int i = 0; i < work->count; i++) {
        const Shoal *shoal = &work->shoals[i];
        if (shoal->sale && day == shoal->catch_day && shoal->count >= 1.0 &&
            shoals_caught_from(shoal) == tank) {
            return true;
        }
    }
    return false;
}

static bool is_netted(const FishWork *work, int32_t tank, int day)
{
    return is_graded(work, tank, day) || is_caught(work, tank, day);
}

/* Share of their appetite that the fish of a tank get: none on the day before
 * a grading and on the day of the nets, half on the day after. */
static double fed_frac(const FishWork *work, int32_t tank, int day)
{
    if (is_netted(work, tank, day) || is_graded(work, tank, day + 1)) {
        return 0.0;
    }
    return day > 0 && is_netted(work, tank, day - 1) ? AFTER_NET_FRAC : 1.0;
}

/* Weights through the week, each fish in the water of the tank it is in. */
static void grow(FishWork *work)
{
    for (int i = 0; i < work->count; i++) {
        Shoal *shoal = &work->shoals[i];
        for (int day = 0; day < JOBS_DAYS; day++) {
            int32_t tank = tank_on(shoal, day);
            shoal->weight_g[day + 1] = shoal->weight_g[day];
            if (tank < 0 || shoal->weight_g[day] <= 0.0) {
                continue;
            }
            FishWater water =
                fish_good_water(shoals_water_degc(work->jobs, tank, day));
            shoal->weight_g[day + 1] =
                fish_day(shoal->species, shoal->weight_g[day], &water,
                         shoal->ration_frac, fed_frac(work, tank, day))
                    .weight_g;
        }
    }
}

/* What one shoal takes, as a term of the feed's equation; equal values of
 * warmth and appetite have one symbol. */
typedef struct FeedTerms {
    Working *working;
    int count;
    int count_input;   /* the last term's: how many fish, .. */
    const char *batch; /* .. of which batch and weight */
    double weight_g;
    double warmth, appetite; /* put last */
    const char *warmth_symbol, *appetite_symbol;
} FeedTerms;

static void put_shares(FeedTerms *terms, const Shoal *shoal, double temp_degc)
{
    Figure warmth = fish_warmth_frac(shoal->species, temp_degc);
    if (!terms->warmth_symbol || fabs(warmth.value - terms->warmth) > 0.0) {
        terms->warmth = warmth.value;
        terms->warmth_symbol =
            working_symbol(terms->working, "t", terms->count);
        working_figure(terms->working, terms->warmth_symbol,
                       "share of the ration at this temperature", &warmth,
                       "share");
    }
    if (!terms->appetite_symbol ||
        fabs(shoal->ration_frac - terms->appetite) > 0.0) {
        terms->appetite = shoal->ration_frac;
        terms->appetite_symbol =
            working_symbol(terms->working, "a", terms->count);
        working_value(
            terms->working, terms->appetite_symbol,
            "appetite here, short for breeders", shoal->ration_frac,
            (WorkingInput){.unit = "share",
                           .from = fabs(shoal->ration_frac - 1.0) > 0.0
                                       ? WORKING_YOURS
                                       : WORKING_BOOK});
    }
}

/* Fish that the last term was about already: more of the same. */
static bool is_same_group(const FeedTerms *terms, const Shoal *shoal,
                          double weight_g)
{
    return terms->count > 0 && strcmp(terms->batch, shoal->batch) == 0 &&
           !(fabs(terms->weight_g - weight_g) > 0.0) &&
           !(fabs(terms->appetite - shoal->ration_frac) > 0.0);
}

static void put_shoal(FeedTerms *terms, const Shoal *shoal, double weight_g,
                      double temp_degc)
{
    Working *working = terms->working;
    if (working && is_same_group(terms, shoal, weight_g)) {
        WorkingInput *fish = &working->inputs[terms->count_input];
        fish->value += shoal->count;
        fish->low = fish->value;
        fish->high = fish->value;
        return;
    }
    int n = ++terms->count;
    if (!working) {
        return;
    }
    terms->batch = shoal->batch;
    terms->weight_g = weight_g;
    terms->count_input = working->input_count;
    const char *count = working_symbol(working, "n", n);
    const char *weight = working_symbol(working, "w", n);
    const char *ration = working_symbol(working, "r", n);
    working_value(
        working, count, arena_say(working->arena, "fish of %s", shoal->batch),
        shoal->count, (WorkingInput){.unit = "fish", .from = WORKING_FORESEEN});
    working_value(working, weight, "weight of one", weight_g,
                  (WorkingInput){.unit = "g", .from = WORKING_FORESEEN});
    working_value(working, ration,
                  "full ration at that weight, share of it a day",
                  fish_ration_frac(shoal->species, weight_g),
                  (WorkingInput){.unit = "share",
                                 .from = (WorkingFrom)shoal->species->origin,
                                 .source = "SRAC282"});
    put_shares(terms, shoal, temp_degc);
    working_joins(working,
                  arena_text(working->arena, "%s%s x %s x %s x %s x %s",
                             n == 1 ? "" : " + ", count, weight, ration,
                             terms->warmth_symbol, terms->appetite_symbol));
}

TankDay shoals_tank_day_told(const FishWork *work, int32_t tank, int day,
                             Working *working)
{
    TankDay sum = {.least_g = INFINITY};
    double temp_degc = shoals_water_degc(work->jobs, tank, day);
    FishWater water = fish_good_water(temp_degc);
    double share = fed_frac(work, tank, day);
    FeedTerms terms = {.working = working};
    working_says(working, "feed of the day",
                 "for each group of fish: how many x weight of one x full "
                 "ration at that weight x share at this temperature x "
                 "appetite; their sum x the share that is fed on such a day",
                 "feed_g = m x s x (");
    for (int i = 0; i < work->count; i++) {
        const Shoal *shoal = &work->shoals[i];
        double weight_g = shoal->weight_g[day];
        if (tank_on(shoal, day) != tank || weight_g <= 0.0) {
            continue;
        }
        sum.count += shoal->count;
        sum.kg += shoal->count * weight_g / 1000.0;
        sum.feed_g +=
            shoal->count * fish_intake_g_d(shoal->species, weight_g, &water,
                                           shoal->ration_frac);
        sum.least_g = fmin(sum.least_g, weight_g);
        put_shoal(&terms, shoal, weight_g, temp_degc);
    }
    sum.feed_g *= share;
    working_joins(working, terms.count == 0 ? "0)" : ")");
    working_value(working, "s",
                  "share fed: 0 before and on a day of nets, half after", share,
                  (WorkingInput){.unit = "share", .from = WORKING_GUESS});
    return sum;
}

TankDay shoals_tank_day(const FishWork *work, int32_t tank, int day)
{
    return shoals_tank_day_told(work, tank, day, NULL);
}

Err shoals_find(FishWork *work)
{
    TRY(find_all(work));
    grow(work);
    return ERR_NONE;
}
