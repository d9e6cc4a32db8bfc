/* The separate checker: fish batches, tanks, events. */
#include <math.h>

#include "plan/verify_parts.h"

/* What is in each tank in each week. */
typedef struct TankWork {
    double *kg;     /* [tank][week] */
    double *oxygen; /* [tank][week] */
    double *tan;    /* [loop][week] */
    int *fish;      /* [stock][tank][week] at their start */
    bool *graded;   /* [tank][week] */
    bool *caught;   /* [tank][week] */
    int *lanes;     /* [stock][lane] */
} TankWork;

static double mean_g(const PlanStock *stock, int week)
{
    double grams = 0.0;
    double alive = 0.0;
    for (int b = 0; b < PLAN_LANES; b++) {
        const PlanLane *lane = &stock->lanes[b];
        grams += lane->share * lane->alive[week] * lane->weight_g[week];
        alive += lane->share * lane->alive[week];
    }
    return alive > 0.0 ? grams / alive : 0.0;
}

static void check_start(Verifier *v, const PlanRun *run)
{
    const Problem *problem = v->problem;
    const PlanStock *stock = &problem->stocks[run->stock];
    const PlanTank *tank = &problem->tanks[run->tank];
    if (stock->is_standing && stock->tank != run->tank) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_START,
                                    .week = stock->start_week,
                                    .place = tank->id,
                                    .way = stock->id},
                     "%s is in %s, not in %s", stock->id,
                     problem->tanks[stock->tank].id, tank->id);
    }
    if (!stock->is_standing && !tank->is_stockable) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_START,
                                    .week = stock->start_week,
                                    .place = tank->id,
                                    .way = stock->id},
                     "%s starts in %s, which takes no young fish", stock->id,
                     tank->id);
    }
    if (!stock->is_standing && stock->start_week >= problem->horizon) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_START,
                                    .week = stock->start_week,
                                    .place = tank->id,
                                    .way = stock->id},
                     "%s is stocked in week %d, past week %d", stock->id,
                     stock->start_week, problem->horizon - 1);
    }
    bool is_moved = run->move_week != PLAN_NONE;
    if (stock->is_kept && (is_moved || run->sale_week < v->weeks)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_ROUTE,
                                    .week = PLAN_NONE,
                                    .place = tank->id,
                                    .way = stock->id},
                     "%s is kept stock and may not leave %s", stock->id,
                     tank->id);
    }
}

/* (10): may it be moved and sold when it is? */
static void check_move(Verifier *v, const PlanRun *run, int first)
{
    const Problem *problem = v->problem;
    const PlanStock *stock = &problem->stocks[run->stock];
    const PlanTank *from = &problem->tanks[run->tank];
    const PlanTank *to = &problem->tanks[run->to_tank];
    int t = run->move_week;
    if (t < first || t >= run->sale_week) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_ROUTE,
                                    .week = t,
                                    .place = from->id,
                                    .way = stock->id},
                     "%s moves in week %d, between week %d and %d only",
                     stock->id, t, first, run->sale_week - 1);
    } else if (!from->may_grade[t] || !to->may_grade[t]) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_WATER,
                                    .week = t,
                                    .place = from->id,
                                    .way = stock->id},
                     "%s moves from %s to %s in week %d, when its water "
                     "allows no grading",
                     stock->id, from->id, to->id, t);
    }
}

static void check_route(Verifier *v, const PlanRun *run)
{
    const Problem *problem = v->problem;
    const PlanStock *stock = &problem->stocks[run->stock];
    const PlanTank *to = &problem->tanks[run->to_tank];
    int first = stock->start_week + (stock->is_standing ? 0 : 1);
    if (run->move_week != PLAN_NONE) {
        check_move(v, run, first);
    }
    if (run->sale_week == v->weeks) {
        return;
    }
    int t = run->sale_week;
    const PlanGoods *goods = &problem->goods[run->goods];
    double sold_g = stock->lanes[run->lane].weight_g[t] *
                    (1.0 - problem->fish.purge_loss_frac);
    if (t < first) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_ROUTE,
                                    .week = t,
                                    .place = to->id,
                                    .way = stock->id},
                     "%s is sold in week %d, before week %d", stock->id, t,
                     first);
    }
    if (!to->may_catch[t]) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_WATER,
                                    .week = t,
                                    .place = to->id,
                                    .way = stock->id},
                     "%s is caught in %s in week %d, when its water allows "
                     "no catch",
                     stock->id, to->id, t);
    }
    if (!goods->is_fish || verify_is_over(goods->over_g, sold_g)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_SIZE,
                                    .week = t,
                                    .place = to->id,
                                    .way = stock->id,
                                    .got = sold_g,
                                    .most = goods->over_g},
                     "%s lane %d is sold as %s at %.0f g in week %d", stock->id,
                     run->lane + 1, goods->name, sold_g, t);
    }
}

static double feed_given(const Verifier *v, const PlanRun *run, int week)
{
    const PlanFishRules *rules = &v->problem->fish;
    double kg = v->problem->stocks[run->stock].lanes[run->lane].feed_kg[week];
    if (week == run->move_week) {
        kg *= 1.0 - rules->feed_lost_frac;
    }
    if (run->sale_week < v->weeks && week == run->sale_week - 1) {
        kg *= 1.0 - rules->purge_feed_frac;
    }
    return kg * run->count;
}

static void take_weeks(Verifier *v, TankWork *work, const PlanRun *run)
{
    const Problem *problem = v->problem;
    const PlanStock *stock = &problem->stocks[run->stock];
    const PlanLane *lane = &stock->lanes[run->lane];
    for (int t = stock->start_week; t < run->sale_week; t++) {
        bool is_moved = run->move_week != PLAN_NONE && t >= run->move_week;
        int k = is_moved ? run->to_tank : run->tank;
        int at = k * v->weeks + t;
        work->kg[at] += run->count * lane->alive[t] * lane->weight_g[t] / 1e3;
        work->oxygen[at] += run->count * lane->oxygen_g_h[t];
        work->fish[(run->stock * problem->tank_count + k) * v->weeks + t] +=
            run->count;
        int loop = problem->tanks[k].loop;
        v->costs += problem->fish.feed_price_kg * feed_given(v, run, t);
        if (loop != PLAN_NONE) {
            work->tan[loop * v->weeks + t] += run->count * lane->tan_g_d[t];
            v->given[loop * v->weeks + t] += feed_given(v, run, t);
        }
    }
}

static void take_run(Verifier *v, TankWork *work, const PlanRun *run)
{
    const Problem *problem = v->problem;
    const PlanStock *stock = &problem->stocks[run->stock];
    const PlanLane *lane = &stock->lanes[run->lane];
    if (run->count == 0) {
        return;
    }
    check_start(v, run);
    check_route(v, run);
    work->lanes[run->stock * PLAN_LANES + run->lane] += run->count;
    take_weeks(v, work, run);
    if (run->move_week != PLAN_NONE) {
        work->graded[run->tank * v->weeks + run->move_week] = true;
    }
    if (!stock->is_standing) {
        v->costs += run->count * stock->cost;
    }
    int t = run->sale_week;
    if (t < v->weeks) {
        int goods = run->goods * v->weeks + t;
        work->caught[run->to_tank * v->weeks + t] = true;
        v->mean[goods] += run->count * lane->alive[t];
        v->low[goods] += run->count * lane->alive[t];
        v->caught += run->count * lane->alive[t];
    } else {
        v->end_fish += run->count * lane->alive[t - 1] * lane->weight_g[t - 1] /
                       1e3 * problem->fish.end_price_kg;
    }
}

/* (6) */
static void check_lanes(Verifier *v, const TankWork *work, int i)
{
    const PlanStock *stock = &v->problem->stocks[i];
    const int *lanes = &work->lanes[i * PLAN_LANES];
    int heads = 0;
    for (int b = 0; b < PLAN_LANES; b++) {
        heads += lanes[b];
    }
    int wanted = stock->is_standing ? stock->most : heads;
    if (heads != wanted) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_COUNT,
                                    .week = stock->start_week,
                                    .way = stock->id,
                                    .got = heads,
                                    .most = wanted},
                     "%s has %d fish with a route, of %d", stock->id, heads,
                     wanted);
    }
    if (!stock->is_standing && heads > 0 &&
        (heads < stock->least || heads > stock->most)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_FISH_COUNT,
                                    .week = stock->start_week,
                                    .way = stock->id,
                                    .got = heads,
                                    .most = stock->most},
                     "%s is stocked with %d fish, %d to %d may be", stock->id,
                     heads, stock->least, stock->most);
    }
    for (int b = 0; b < PLAN_LANES; b++) {
        int share = wanted * (b + 1) / 4 - wanted * b / 4;
        if (lanes[b] != share) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_FISH_COUNT,
                                        .week = stock->start_week,
                                        .way = stock->id,
                                        .got = lanes[b],
                                        .most = share},
                         "lane %d of %s has %d fish with a route, of %d", b + 1,
                         stock->id, lanes[b], share);
        }
    }
    if (!stock->is_standing && heads > 0) {
        v->hours[stock->start_week] += stock->hours;
    }
}

/* (9) */
static void check_company(Verifier *v, const TankWork *work, int k, int t)
{
    const Problem *problem = v->problem;
    int batches = 0;
    double least_g = INFINITY;
    double most_g = 0.0;
    for (int i = 0; i < problem->stock_count; i++) {
        if (work->fish[(i * problem->tank_count + k) * v->weeks + t] > 0) {
            double grams = mean_g(&problem->stocks[i], t);
            least_g = fmin(least_g, grams);
            most_g = fmax(most_g, grams);
            batches++;
        }
    }
    const PlanTank *tank = &problem->tanks[k];
    if (batches > tank->most_batches) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_COMPANY,
                                    .week = t,
                                    .place = tank->id,
                                    .got = batches,
                                    .most = tank->most_batches},
                     "%s holds %d batches in week %d, at most %d may be",
                     tank->id, batches, t, tank->most_batches);
    }
    if (batches > 1 &&
        verify_is_over(most_g, problem->fish.neighbour_ratio * least_g)) {
        verify_break(
            v,
            &(VerifyBreak){.kind = VERIFY_NEIGHBOURS,
                           .week = t,
                           .place = tank->id,
                           .got = most_g,
                           .most = problem->fish.neighbour_ratio * least_g},
            "%s holds fish of %.0f g and of %.0f g in week %d, too "
            "far apart",
            tank->id, least_g, most_g, t);
    }
}

/* (7), (8), (10) */
static void check_tank(Verifier *v, const TankWork *work, int k, int t)
{
    const Problem *problem = v->problem;
    const PlanTank *tank = &problem->tanks[k];
    int at = k * v->weeks + t;
    if (verify_is_over(work->kg[at], tank->most_kg)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_TANK_KG,
                                    .week = t,
                                    .place = tank->id,
                                    .got = work->kg[at],
                                    .most = tank->most_kg},
                     "%s holds %.1f kg of fish in week %d, at most %.1f",
                     tank->id, work->kg[at], t, tank->most_kg);
    }
    if (verify_is_over(work->oxygen[at], tank->air_g_h[t])) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_OXYGEN,
                                    .week = t,
                                    .place = tank->id,
                                    .got = work->oxygen[at],
                                    .most = tank->air_g_h[t]},
                     "%s needs %.1f g oxygen an hour in week %d of %.1f",
                     tank->id, work->oxygen[at], t, tank->air_g_h[t]);
    }
    if (work->caught[at]) {
        v->hours[t] += problem->fish.catch_hours;
    }
    if (!work->graded[at]) {
        return;
    }
    v->hours[t] += problem->fish.grade_hours;
    for (int i = 1; i < problem->fish.weeks_between && i <= t; i++) {
        if (work->graded[at - i]) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_GRADING,
                                        .week = t,
                                        .place = tank->id},
                         "%s is graded in week %d and again in week %d",
                         tank->id, t - i, t);
        }
    }
}

void verify_fish(Verifier *v)
{
    const Problem *problem = v->problem;
    int places = problem->tank_count * v->weeks;
    int loops = problem->loop_count * v->weeks;
    int lanes = problem->stock_count * PLAN_LANES;
    TankWork work = {
        .kg = ARENA_ARRAY(v->arena, double, places),
        .oxygen = ARENA_ARRAY(v->arena, double, places),
        .tan = ARENA_ARRAY(v->arena, double, loops),
        .fish = ARENA_ARRAY(v->arena, int, problem->stock_count *places),
        .graded = ARENA_ARRAY(v->arena, bool, places),
        .caught = ARENA_ARRAY(v->arena, bool, places),
        .lanes = ARENA_ARRAY(v->arena, int, lanes)};
    for (int i = 0; i < v->solution->run_count; i++) {
        take_run(v, &work, &v->solution->runs[i]);
    }
    for (int i = 0; i < problem->stock_count; i++) {
        check_lanes(v, &work, i);
    }
    for (int i = 0; i < places; i++) {
        check_tank(v, &work, i / v->weeks, i % v->weeks);
        check_company(v, &work, i / v->weeks, i % v->weeks);
    }
    for (int i = 0; i < loops; i++) {
        const PlanLoop *loop = &problem->loops[i / v->weeks];
        double most = loop->nitrify_g_d[i % v->weeks];
        if (verify_is_over(work.tan[i], most)) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_TAN,
                                        .week = i % v->weeks,
                                        .place = loop->name,
                                        .got = work.tan[i],
                                        .most = most},
                         "the beds of %s get %.1f g TAN a day in week %d "
                         "and carry %.1f",
                         loop->name, work.tan[i], i % v->weeks, most);
        }
    }
}
