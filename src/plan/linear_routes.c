/* Routes of fish priced by dynamic programming over weeks. */
#include "plan/linear_routes.h"

#include <math.h>

static const double G_IN_KG = 1e3;

bool linear_may_start(const Problem *problem, int stock, int tank)
{
    const PlanStock *fish = &problem->stocks[stock];
    return fish->is_standing ? fish->tank == tank
                             : problem->tanks[tank].is_stockable;
}

bool linear_may_move(const Problem *problem, int stock, int tank, int to_tank,
                     int week)
{
    const PlanStock *fish = &problem->stocks[stock];
    int first = fish->start_week + (fish->is_standing ? 0 : 1);
    return !fish->is_kept && tank != to_tank && week >= first &&
           week < problem->week_count && problem->tanks[tank].may_grade[week] &&
           problem->tanks[to_tank].may_grade[week];
}

bool linear_may_sell(const Problem *problem, int stock, int tank, int week)
{
    const PlanStock *fish = &problem->stocks[stock];
    int first = fish->start_week + (fish->is_standing ? 0 : 1);
    return !fish->is_kept && week >= first && week < problem->week_count &&
           problem->tanks[tank].may_catch[week];
}

bool linear_is_same_route(const PlanRun *a, const PlanRun *b)
{
    return a->stock == b->stock && a->lane == b->lane && a->tank == b->tank &&
           a->move_week == b->move_week && a->to_tank == b->to_tank &&
           a->sale_week == b->sale_week && a->goods == b->goods;
}

int linear_best_size(const LinearPlan *plan, const PlanLane *lane, int week,
                     const double *prices)
{
    const Problem *problem = plan->problem;
    double sold_g =
        lane->weight_g[week] * (1.0 - problem->fish.purge_loss_frac);
    int best = PLAN_NONE;
    double most = -INFINITY;
    for (int f = 0; f < problem->goods_count; f++) {
        const PlanGoods *goods = &problem->goods[f];
        if (!goods->is_fish || sold_g < goods->over_g) {
            continue;
        }
        int row = plan->rows.goods[f * plan->weeks + week];
        double worth = prices ? prices[row] : goods->over_g;
        if (worth > most) {
            most = worth;
            best = f;
        }
    }
    return best;
}

/* What one fish of a lane earns in one tank, by week. */
typedef struct TankWorth {
    double *kept;  /* weeks + 1: sum of what staying earned before the week */
    double *food;  /* what all its feed of the week is worth */
    double *leave; /* price of being graded out */
    double *sold;  /* weeks + 1: worth when it is sold in that week (the last:
                      alive at the end), less the feed of its purging; minus
                      INFINITY where it may not be */
    int *goods;
    double *best; /* weeks + 1: most of sold + kept from that week on */
    int *best_week;
} TankWorth;

typedef struct LanePricing {
    const LinearPlan *plan;
    const double *prices;
    int stock;
    int lane;
    TankWorth *tanks;
} LanePricing;

static double price_of(const double *prices, int row)
{
    return row == PLAN_NONE ? 0.0 : prices[row];
}

/* What a week in a tank earns, feed apart. */
static double stay_worth(const LanePricing *work, int k, int t)
{
    const LinearPlan *plan = work->plan;
    const Problem *problem = plan->problem;
    const PlanLane *lane = &problem->stocks[work->stock].lanes[work->lane];
    int at = k * plan->weeks + t;
    double kg = lane->alive[t] * lane->weight_g[t] / G_IN_KG;
    double cost =
        kg * price_of(work->prices, plan->rows.density[at]) +
        lane->oxygen_g_h[t] * price_of(work->prices, plan->rows.oxygen[at]) +
        price_of(work->prices, plan->rows.batches[at]) /
            linear_most_heads(problem, work->stock, k, t);
    int loop = problem->tanks[k].loop;
    if (loop != PLAN_NONE) {
        int row = plan->rows.nitrify[loop * plan->weeks + t];
        cost += lane->tan_g_d[t] * price_of(work->prices, row);
    }
    return -cost;
}

/* The rows of fish that may not share a tank. */
static void add_cliques(const LanePricing *work, int k, double *worth)
{
    const LinearPlan *plan = work->plan;
    for (int c = 0; c < plan->clique_count; c++) {
        const LinearClique *clique = &plan->cliques[c];
        for (int j = 0; j < clique->count && clique->tank == k; j++) {
            if (clique->stocks[j] == work->stock) {
                worth[clique->week] -=
                    price_of(work->prices, clique->row) /
                    linear_most_heads(plan->problem, work->stock, k,
                                      clique->week);
            }
        }
    }
}

static double food_worth(const LanePricing *work, int k, int t)
{
    const LinearPlan *plan = work->plan;
    const Problem *problem = plan->problem;
    int loop = problem->tanks[k].loop;
    const PlanLane *lane = &problem->stocks[work->stock].lanes[work->lane];
    double cost = lane->feed_kg[t] * problem->fish.feed_price_kg;
    if (loop == PLAN_NONE) {
        return -cost;
    }
    return lane->feed_kg[t] * (1.0 - problem->loops[loop].lost_frac[t]) *
               price_of(work->prices, plan->rows.pool[loop * plan->weeks + t]) -
           cost;
}

static double leave_price(const LanePricing *work, int k, int t)
{
    const LinearPlan *plan = work->plan;
    const Problem *problem = plan->problem;
    double price =
        problem->fish.grade_hours * price_of(work->prices, plan->rows.hours[t]);
    for (int i = 0; i < problem->fish.weeks_between && i <= t; i++) {
        price += price_of(work->prices,
                          plan->rows.grade_rate[k * plan->weeks + t - i]);
    }
    return price * linear_event_share(problem, work->stock, k, t);
}

static double sale_worth(const LanePricing *work, int k, int t, int *goods)
{
    const LinearPlan *plan = work->plan;
    const Problem *problem = plan->problem;
    const PlanLane *lane = &problem->stocks[work->stock].lanes[work->lane];
    *goods = PLAN_NONE;
    if (t == plan->weeks) {
        return lane->alive[t - 1] * lane->weight_g[t - 1] / G_IN_KG *
               problem->fish.end_price_kg;
    }
    if (!linear_may_sell(problem, work->stock, k, t)) {
        return -INFINITY;
    }
    *goods = linear_best_size(plan, lane, t, work->prices);
    if (*goods == PLAN_NONE) {
        return -INFINITY;
    }
    double price =
        price_of(work->prices, plan->rows.goods[*goods * plan->weeks + t]) +
        price_of(work->prices, plan->rows.promise[*goods * plan->weeks + t]);
    return lane->alive[t] * (price - problem->fish.unsold_price) -
           linear_event_share(problem, work->stock, k, t) *
               price_of(work->prices, plan->rows.catching[t]);
}

static void price_tank(LanePricing *work, int k)
{
    TankWorth *tank = &work->tanks[k];
    int weeks = work->plan->weeks;
    const Problem *problem = work->plan->problem;
    int start = problem->stocks[work->stock].start_week;
    for (int t = 0; t < weeks; t++) {
        tank->food[t] = t < start ? 0.0 : food_worth(work, k, t);
        tank->best[t] = t < start ? 0.0 : stay_worth(work, k, t);
        tank->leave[t] = t < start ? 0.0 : leave_price(work, k, t);
    }
    add_cliques(work, k, tank->best);
    tank->kept[0] = 0.0;
    for (int t = 0; t < weeks; t++) {
        tank->kept[t + 1] = tank->kept[t] + tank->best[t] + tank->food[t];
    }
    for (int t = weeks; t >= start; t--) {
        tank->sold[t] = sale_worth(work, k, t, &tank->goods[t]);
        if (t > start && t < weeks) {
            tank->sold[t] -= problem->fish.purge_feed_frac * tank->food[t - 1];
        }
        double worth = tank->sold[t] + tank->kept[t];
        bool is_better = t == weeks || worth > tank->best[t + 1];
        tank->best[t] = is_better ? worth : tank->best[t + 1];
        tank->best_week[t] = is_better ? t : tank->best_week[t + 1];
    }
}

/* Best route that stays in tank k. */
static void best_stay(const LanePricing *work, int k, PricedRun *out)
{
    const TankWorth *tank = &work->tanks[k];
    int start = work->plan->problem->stocks[work->stock].start_week;
    int sale = tank->best_week[start];
    *out = (PricedRun){.run = {.stock = work->stock,
                               .lane = work->lane,
                               .tank = k,
                               .move_week = PLAN_NONE,
                               .to_tank = k,
                               .sale_week = sale,
                               .goods = tank->goods[sale]},
                       .profit = tank->best[start] - tank->kept[start]};
}

/* Best sale after a move into a tank in week t, and its worth from then on. */
static double best_after(const LanePricing *work, const TankWorth *to, int t,
                         int *sale)
{
    const PlanFishRules *rules = &work->plan->problem->fish;
    double base = to->kept[t] + rules->feed_lost_frac * to->food[t];
    /* In the week of the move only what is not lost can be held back. */
    double soon = to->sold[t + 1] + to->kept[t + 1];
    if (t + 1 < work->plan->weeks) {
        soon += rules->purge_feed_frac * rules->feed_lost_frac * to->food[t];
    }
    *sale = t + 1;
    if (t + 2 <= work->plan->weeks && to->best[t + 2] > soon) {
        *sale = to->best_week[t + 2];
        return to->best[t + 2] - base;
    }
    return soon - base;
}

/* Best route from tank k to another; profit minus INFINITY where none is. */
static void best_move(const LanePricing *work, int k, int to_tank,
                      PricedRun *out)
{
    const LinearPlan *plan = work->plan;
    const TankWorth *from = &work->tanks[k];
    const TankWorth *to = &work->tanks[to_tank];
    int start = plan->problem->stocks[work->stock].start_week;
    out->profit = -INFINITY;
    for (int t = start; t < plan->weeks; t++) {
        if (!linear_may_move(plan->problem, work->stock, k, to_tank, t)) {
            continue;
        }
        int sale = 0;
        double worth = from->kept[t] - from->kept[start] - from->leave[t] +
                       best_after(work, to, t, &sale);
        if (worth > out->profit) {
            out->profit = worth;
            out->run = (PlanRun){.stock = work->stock,
                                 .lane = work->lane,
                                 .tank = k,
                                 .move_week = t,
                                 .to_tank = to_tank,
                                 .sale_week = sale,
                                 .goods = to->goods[sale]};
        }
    }
}

static TankWorth *new_tanks(const LinearPlan *plan, Arena *arena)
{
    int count = plan->problem->tank_count;
    int weeks = plan->weeks + 1;
    TankWorth *tanks = ARENA_ARRAY(arena, TankWorth, count);
    for (int k = 0; k < count; k++) {
        tanks[k] = (TankWorth){.kept = ARENA_ARRAY(arena, double, weeks),
                               .food = ARENA_ARRAY(arena, double, weeks),
                               .leave = ARENA_ARRAY(arena, double, weeks),
                               .sold = ARENA_ARRAY(arena, double, weeks),
                               .goods = ARENA_ARRAY(arena, int, weeks),
                               .best = ARENA_ARRAY(arena, double, weeks),
                               .best_week = ARENA_ARRAY(arena, int, weeks)};
    }
    return tanks;
}

/* The best route for each pair of tanks; returns the most profit among them.
 * best: [tank][tank], profit minus INFINITY where there is none. */
static double price_lane(LanePricing *work, double lane_price, PricedRun *best)
{
    const Problem *problem = work->plan->problem;
    int tanks = problem->tank_count;
    double most = 0.0;
    for (int k = 0; k < tanks; k++) {
        price_tank(work, k);
    }
    for (int j = 0; j < tanks * tanks; j++) {
        int k = j / tanks;
        best[j].profit = -INFINITY;
        if (!linear_may_start(problem, work->stock, k)) {
            continue;
        }
        if (k == j % tanks) {
            best_stay(work, k, &best[j]);
        } else {
            best_move(work, k, j % tanks, &best[j]);
        }
        best[j].profit -= lane_price;
        most = fmax(most, best[j].profit);
    }
    return most;
}

double linear_price_routes(const LinearPlan *plan, const double *prices,
                           double least, void *self,
                           void (*found)(void *self, const PricedRun *run))
{
    CLEANUP(arena_release) Arena scratch = {0};
    const Problem *problem = plan->problem;
    int pairs = problem->tank_count * problem->tank_count;
    PricedRun *best = ARENA_ARRAY(&scratch, PricedRun, pairs);
    double above = 0.0;
    LanePricing work = {plan, prices, 0, 0, new_tanks(plan, &scratch)};
    for (int i = 0; i < problem->stock_count * PLAN_LANES; i++) {
        work.stock = i / PLAN_LANES;
        work.lane = i % PLAN_LANES;
        double most = price_lane(&work, prices[plan->rows.lanes[i]], best);
        for (int j = 0; j < pairs; j++) {
            if (best[j].profit > least &&
                best[j].profit >= LINEAR_GOOD_SHARE * most) {
                found(self, &best[j]);
            }
        }
        /* A lane's heads: a quarter, but for what does not divide. */
        above +=
            most * ceil(problem->stocks[work.stock].most / (double)PLAN_LANES);
    }
    return above;
}

static void first_routes_of(const LinearPlan *plan, PricedRun *first, int step,
                            void *self,
                            void (*found)(void *self, const PricedRun *run))
{
    const Problem *problem = plan->problem;
    PlanRun *run = &first->run;
    const PlanLane *lane = &problem->stocks[run->stock].lanes[run->lane];
    int from = run->move_week == PLAN_NONE
                   ? problem->stocks[run->stock].start_week
                   : run->move_week + 1;
    run->sale_week = plan->weeks;
    run->goods = PLAN_NONE;
    found(self, first);
    for (int t = from; t < plan->weeks; t += step) {
        run->goods = linear_best_size(plan, lane, t, NULL);
        run->sale_week = t;
        if (run->goods != PLAN_NONE &&
            linear_may_sell(problem, run->stock, run->to_tank, t)) {
            found(self, first);
        }
    }
}

void linear_first_routes(const LinearPlan *plan, int step, void *self,
                         void (*found)(void *self, const PricedRun *run))
{
    const Problem *problem = plan->problem;
    int lanes = problem->stock_count * PLAN_LANES;
    for (int i = 0; i < lanes * problem->tank_count; i++) {
        int stock = i / problem->tank_count / PLAN_LANES;
        int k = i % problem->tank_count;
        if (!linear_may_start(problem, stock, k)) {
            continue;
        }
        PricedRun first = {.run = {.stock = stock,
                                   .lane = i / problem->tank_count % PLAN_LANES,
                                   .tank = k,
                                   .move_week = PLAN_NONE,
                                   .to_tank = k}};
        first_routes_of(plan, &first, step, self, found);
        for (int to = 0; to < problem->tank_count; to++) {
            first.run.to_tank = to;
            int start = problem->stocks[stock].start_week;
            for (int t = start; t < plan->weeks; t += 2 * step) {
                first.run.move_week = t;
                if (problem->stocks[stock].is_standing &&
                    linear_may_move(problem, stock, k, to, t)) {
                    first_routes_of(plan, &first, 2 * step, self, found);
                }
            }
        }
    }
}
