/* Loops, tanks and fish batches of the planning problem. */
#include "plan/build_parts.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "nature/fish/limits.h"
#include "sim/carries.h"
#include "sim/fish_case.h"

/* Work with fish where the book's tasks lack it, hours. */
static double task_hours(const Build *build, const char *id)
{
    const BookTask *task = book_task(build->book, id);
    return task ? task->minutes.value / 60.0 : 0.0;
}

/* Mean water of a loop in week t, within what the laws take. */
static double tank_degc(const Build *build, int loop, int week)
{
    return fmin(fmax(build_water_degc(build, loop, week), 0.0), 40.0);
}

static double loop_volume_m3(const Farm *farm, int loop)
{
    double volume = farm->loops[loop].sump_m3;
    for (int k = 0; k < farm->tanks_count; k++) {
        volume += farm->tanks[k].loop == loop ? farm->tanks[k].volume_m3 : 0.0;
    }
    return volume;
}

/* What the beds of a loop bring, at the mean price, for a kg of feed wanted. */
static double money_per_feed(const Build *build)
{
    const Problem *problem = build->problem;
    double money = 0.0;
    double feed = 0.0;
    for (int o = 0; o < problem->order_count; o++) {
        for (int t = 0; t < problem->horizon; t++) {
            money += problem->orders[o].wanted[t] * problem->orders[o].price[t];
        }
    }
    const BookCommon *common = &build->book->common[0];
    for (int b = 0; b < build->farm->beds_count; b++) {
        const Bed *bed = &build->farm->beds[b];
        feed += bed->length_m * bed->width_m * common->feed_leafy_g_m2_d.value /
                1000.0 * 7.0 * problem->horizon;
    }
    return feed > 0.0 ? money / feed : 0.0;
}

static void build_loops(Build *build)
{
    const Farm *farm = build->farm;
    const BookCommon *common = build->book->common;
    PlanLoop *loops = ARENA_ARRAY(build->arena, PlanLoop, farm->loops_count);
    for (int l = 0; l < farm->loops_count; l++) {
        double *nitrify = build_weeks(build);
        for (int t = 0; t < build->week_count; t++) {
            nitrify[t] =
                carries_tan_g_d(farm, build->book, l, build_monday(build, t),
                                tank_degc(build, l, t))
                    .value;
        }
        double store_kg =
            loop_volume_m3(farm, l) * common->nutrient_store_kg_m3.value;
        loops[l] = (PlanLoop){
            .name = farm->loops[l].id,
            .pool_start_kg = store_kg * common->nutrient_start_frac.value,
            .pool_max_kg = store_kg,
            .pool_keep = common->nutrient_kept_frac.value,
            .short_price =
                common->short_feed_loss_frac.value * money_per_feed(build),
            .lost_frac = build_weeks(build),
            .nitrify_g_d = nitrify};
    }
    build->problem->loops = loops;
    build->problem->loop_count = farm->loops_count;
}

static void fill_tank_weeks(const Build *build, int tank, double *air_g_h,
                            uint8_t *may_grade, uint8_t *may_catch)
{
    for (int t = 0; t < build->week_count; t++) {
        double temp = tank_degc(build, build->farm->tanks[tank].loop, t);
        air_g_h[t] = carries_oxygen_g_h(build->farm, tank, temp);
        /* The air is judged to hold a little more than its floor. */
        may_grade[t] = fish_may_grade(temp, carries_oxygen_floor_mg_l() + 1.0);
        may_catch[t] = fish_may_catch(temp);
    }
}

static void build_tanks(Build *build)
{
    const Farm *farm = build->farm;
    PlanTank *tanks = ARENA_ARRAY(build->arena, PlanTank, farm->tanks_count);
    for (int k = 0; k < farm->tanks_count; k++) {
        const Tank *tank = &farm->tanks[k];
        double *air = build_weeks(build);
        uint8_t *may_grade =
            ARENA_ARRAY(build->arena, uint8_t, build->week_count);
        uint8_t *may_catch =
            ARENA_ARRAY(build->arena, uint8_t, build->week_count);
        fill_tank_weeks(build, k, air, may_grade, may_catch);
        double most_kg = farm->farm[0].density_ceiling_kg_m3 * tank->volume_m3;
        /* Purge, quarantine and breeders' tanks are no place for growing: the
         * plan moves nothing into them. */
        bool holds_batches = tank->use == TANK_GROW || tank->use == TANK_FRY;
        if (!holds_batches || build->is_fish_frozen) {
            memset(may_grade, 0, (size_t)build->week_count);
        }
        tanks[k] =
            (PlanTank){.id = tank->id,
                       .loop = tank->loop,
                       .most_kg = most_kg,
                       .most_batches = tank->batches > 0 ? tank->batches : 1,
                       .most_heads = most_kg / 0.005,
                       .air_g_h = air,
                       .may_grade = may_grade,
                       .may_catch = may_catch,
                       .is_stockable = holds_batches};
    }
    build->problem->tanks = tanks;
    build->problem->tank_count = farm->tanks_count;
}

/* The loop's water by day of the year. */
static const double *water_by_day(const Build *build, int loop)
{
    double *days = ARENA_ARRAY(build->arena, double, FISH_YEAR_DAYS);
    for (int d = 0; d < FISH_YEAR_DAYS; d++) {
        days[d] = build_water_day_degc(build, loop, d);
    }
    return days;
}

/* Cost of a kg of the feed that suits most of a grow-out. */
static double feed_price_kg(const Farm *farm)
{
    double price = 0.0;
    for (int i = 0; i < farm->feeds_count; i++) {
        if (farm->feeds[i].from_g <= 200.0 && farm->feeds[i].to_g >= 200.0) {
            price = (double)farm->feeds[i].price_kg_e4 / 10000.0;
        }
    }
    return price;
}

/* Copies a lane's weeks into the problem from the batch's first week on. */
static const double *from_week(const Build *build, const double *values,
                               int start_week)
{
    double *weeks = build_weeks(build);
    for (int t = start_week; t < build->week_count; t++) {
        weeks[t] = values[t - start_week];
    }
    return weeks;
}

static FishSpan span_of(const Build *build, const PlanStock *stock)
{
    return (FishSpan){.first_week = build_monday(build, stock->start_week),
                      .weeks = build->week_count - stock->start_week,
                      .water_degc = water_by_day(build, stock->loop)};
}

static Err add_lanes(const Build *build, const FishYearCase *fish,
                     PlanStock *stock)
{
    FishYear year;
    TRY(fish_year_run(build->scratch, fish, &year));
    FishLane lanes[PLAN_LANES];
    fish_year_lanes(build->scratch, &year, PLAN_LANES, lanes);
    for (int b = 0; b < PLAN_LANES; b++) {
        const FishLane *lane = &lanes[b];
        int start = stock->start_week;
        stock->lanes[b] =
            (PlanLane){.share = lane->share,
                       .weight_g = from_week(build, lane->weight_g, start),
                       .alive = from_week(build, lane->alive, start),
                       .feed_kg = from_week(build, lane->feed_kg, start),
                       .oxygen_g_h = from_week(build, lane->oxygen_g_h, start),
                       .tan_g_d = from_week(build, lane->tan_g_d, start)};
    }
    return ERR_NONE;
}

static Err add_standing_fish(Build *build, PlanStock *stocks, int *rows)
{
    const Farm *farm = build->farm;
    for (int i = 0; i < farm->fish_count; i++) {
        const Fish *fish = &farm->fish[i];
        PlanStock stock = {.id = fish->id,
                           .is_standing = true,
                           .is_kept = fish_case_is_kept(farm, i),
                           .source = PLAN_NONE,
                           .start_week = 0,
                           .tank = fish->tank,
                           .loop = farm->tanks[fish->tank].loop,
                           .least = fish->count,
                           .most = fish->count};
        FishSpan span = span_of(build, &stock);
        FishYearCase year;
        TRY(fish_case_standing(build->scratch, farm, i, &span, &year));
        TRY(add_lanes(build, &year, &stock));
        rows[build->problem->stock_count] = i;
        stocks[build->problem->stock_count++] = stock;
    }
    return ERR_NONE;
}

/* May a source deliver in week t: its months, the lead time from today, and
 * own fry only every so many weeks. Bought fish are offered every fourth week,
 * so that the choices stay few. */
enum { WEEK_D = 7 };

static bool is_delivery(const Build *build, const FishSource *source, int t)
{
    int every = source->kind == FISH_OWN ? (int)ceil(source->cycle_weeks) : 4;
    bool is_month = (source->months >> (build_month(build, t) - 1) & 1u) != 0;
    /* By the calendar, so that a plan made later offers the same weeks. */
    int week = (int)(build_monday(build, t) / WEEK_D);
    return is_month && t >= source->lead_weeks && t < build->horizon &&
           week % every == 0;
}

/* Fish of a source that the accepted plan has for week t: within the lead time
 * they are ordered. */
static int ordered(const Build *build, int source, int loop, int t)
{
    const Farm *farm = build->farm;
    int count = 0;
    for (int i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *row = &farm->plan_moves[i];
        bool is_its = row->kind == MOVE_STOCK &&
                      farm->plan_fish[row->fish].source == source &&
                      farm->tanks[row->to_tank].loop == loop &&
                      week_of(row->on) == build_monday(build, t);
        count += is_its ? row->started : 0;
    }
    return count;
}

static Err add_source(Build *build, int row, int loop, PlanStock *stocks,
                      int *rows)
{
    const FishSource *source = &build->farm->fish_sources[row];
    for (int t = 0; t < build->horizon; t++) {
        int count = t < source->lead_weeks ? ordered(build, row, loop, t) : 0;
        if (!is_delivery(build, source, t) && count == 0) {
            continue;
        }
        char week[DATE_TEXT_SIZE];
        week_format(build_monday(build, t), week);
        PlanStock stock = {
            .id = arena_text(build->arena, "%s-%s-%s", source->id,
                             build->farm->loops[loop].id, week + 2),
            .source = row,
            .start_week = t,
            .tank = PLAN_NONE,
            .loop = loop,
            .least = count > 0 ? count : source->least,
            .most = count > 0 ? count : source->most,
            .cost = (double)source->price_e4 / 10000.0,
            .hours = task_hours(build, "catch")};
        FishSpan span = span_of(build, &stock);
        FishYearCase year;
        TRY(fish_case_source(build->scratch, build->farm, row, stock.most,
                             &span, &year));
        TRY(add_lanes(build, &year, &stock));
        rows[build->problem->stock_count] = PLAN_NONE;
        stocks[build->problem->stock_count++] = stock;
    }
    return ERR_NONE;
}

static bool has_grow_tank(const Farm *farm, int loop)
{
    for (int k = 0; k < farm->tanks_count; k++) {
        if (farm->tanks[k].loop == loop && farm->tanks[k].use == TANK_GROW) {
            return true;
        }
    }
    return false;
}

/* A kg of the fish that a product is, at that price a unit; 0: no fish. */
static double price_kg(const Problem *problem, int product, double price)
{
    const PlanGoods *goods =
        &problem->goods[problem->products[product].parts[0].goods];
    return goods->is_fish && goods->kg_per_unit > 0.0
               ? price / goods->kg_per_unit
               : 0.0;
}

/* Least and best price of a kg over the weeks that have one, of those before;
 * 0: none yet. */
static void widen(const Problem *problem, int product, const double *price,
                  double *least, double *best)
{
    for (int t = 0; t < problem->week_count; t++) {
        double kg = price_kg(problem, product, price[t]);
        if (kg > 0.0) {
            *best = fmax(*best, kg);
            *least = *least > 0.0 ? fmin(*least, kg) : kg;
        }
    }
}

/* What living fish are held to be worth at the end: so many at once would go
 * to the last step of an outlet. Where none takes fish, the best order's. */
static double end_price_kg(const Build *build)
{
    const Problem *problem = build->problem;
    double end_frac = build->book->common->end_fish_price_frac.value;
    double least = 0.0;
    double best = 0.0;
    for (int j = 0; j < problem->outlet_count; j++) {
        const PlanOutlet *outlet = &problem->outlets[j];
        widen(problem, outlet->product, outlet->price, &least, &best);
    }
    if (least > 0.0) {
        return end_frac * least;
    }
    for (int o = 0; o < problem->order_count; o++) {
        const PlanOrder *order = &problem->orders[o];
        widen(problem, order->product, order->price, &least, &best);
    }
    return end_frac * best;
}

Err build_fish(Build *build)
{
    const Farm *farm = build->farm;
    const BookCommon *common = build->book->common;
    build_loops(build);
    build_tanks(build);
    int room = farm->fish_count +
               farm->fish_sources_count * farm->loops_count * build->horizon;
    PlanStock *stocks = ARENA_ARRAY(build->arena, PlanStock, room);
    int *rows = ARENA_ARRAY(build->arena, int, room);
    TRY(add_standing_fish(build, stocks, rows));
    int sources = build->is_fish_frozen ? 0 : farm->fish_sources_count;
    for (int i = 0; i < sources; i++) {
        for (int l = 0; l < farm->loops_count; l++) {
            if (has_grow_tank(farm, l)) {
                TRY(add_source(build, i, l, stocks, rows));
            }
        }
    }
    build->problem->stocks = stocks;
    build->index->stock_fish = rows;
    build->problem->heat_cost =
        build->climate->heater_cost * build->horizon * 7.0 / 365.25;
    build->problem->fish = (PlanFishRules){
        .weeks_between = fish_weeks_between_handlings(),
        .catch_hours = task_hours(build, "catch"),
        .grade_hours = task_hours(build, "grade"),
        .feed_lost_frac = common->handled_off_feed_d.value / 7.0,
        .purge_feed_frac = fmin(1.0, farm->farm[0].purge_days / 7.0),
        .purge_loss_frac = common->purge_loss_frac.value,
        .feed_price_kg = feed_price_kg(farm),
        .end_price_kg = end_price_kg(build),
        .unsold_price =
            common->fish_unsold_h.value * build->problem->wage_extra_h,
        .neighbour_ratio = common->neighbour_weight_ratio.value,
    };
    return ERR_NONE;
}
