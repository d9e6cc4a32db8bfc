/* The best route of a lane's fish: a path over weeks and tanks with one move
 * at most, on present prices. */
#include <math.h>
#include <string.h>

#include "plan/search_parts.h"

/* One question: so many fish of a lane. */
typedef struct Route {
    Search *search;
    const PlanStock *stock;
    const PlanLane *lane;
    int stock_number;
    double count;
    int first_event; /* no move or sale before this week */
} Route;

void search_routes_open(Search *search, Arena *arena)
{
    const Problem *p = search->problem;
    int weeks = p->week_count, tanks = p->tank_count;
    SearchRoutes *r = &search->routes;
    r->can = ARENA_ARRAY(arena, uint8_t, tanks * weeks);
    r->stay = ARENA_ARRAY(arena, double, tanks *weeks);
    r->sale = ARENA_ARRAY(arena, double, weeks + 1);
    r->goods = ARENA_ARRAY(arena, int, weeks + 1);
    r->ahead = ARENA_ARRAY(arena, double, tanks *(weeks + 1));
    r->sale_at = ARENA_ARRAY(arena, int, tanks *(weeks + 1));
    r->feed_price = ARENA_ARRAY(arena, double, p->loop_count *weeks);
}

static bool is_of_loop(const Route *route, int tank)
{
    int loop = route->search->problem->tanks[tank].loop;
    return loop == route->stock->loop || loop == PLAN_NONE;
}

/* Weeks in which other stocks keep this one out of a tank. */
static void mark_neighbours(const Route *route, int tank, uint8_t *can,
                            double *stay)
{
    enum { WEEKS_MOST = 512 };
    const State *state = &route->search->state;
    const Problem *p = route->search->problem;
    const double *all = route->search->index.stock_mean_g;
    const double *own = all + route->stock_number * state->weeks;
    uint8_t count[WEEKS_MOST] = {0};
    for (int a = 0; a < state->active_count; a++) {
        int other = state->active[a];
        uint8_t marks[WEEKS_MOST] = {0};
        if (other == route->stock_number ||
            !state_mark_weeks(state, other, tank, marks)) {
            continue;
        }
        const double *mean = all + other * state->weeks;
        for (int t = 0; t < state->weeks; t++) {
            count[t] = (uint8_t)(count[t] + marks[t]);
            double more = own[t] > mean[t] ? own[t] : mean[t];
            double less = own[t] > mean[t] ? mean[t] : own[t];
            if (marks[t] && (count[t] >= p->tanks[tank].most_batches ||
                             more > p->fish.neighbour_ratio * less)) {
                can[t] = state->is_soft;
                stay[t] -= state->fault_price;
            }
        }
    }
}

/* How much more is above a limit with so much more. */
static double over(double now, double more, double most)
{
    double room = now < most ? most - now : 0.0;
    return more > room ? more - room : 0.0;
}

static void mark_tank(const Route *route, int tank)
{
    static const double G_IN_KG = 1e3;
    static const double SLACK = 1.0 + 1e-10;
    Search *search = route->search;
    const State *state = &search->state;
    const StateRows *rows = &search->index.rows;
    const PlanTank *k = &search->problem->tanks[tank];
    const PlanLane *lane = route->lane;
    int weeks = state->weeks;
    uint8_t *can = search->routes.can + tank * weeks;
    double *stay = search->routes.stay + tank * weeks;
    const double *kg = state_row(state, rows->kg + tank);
    const double *oxygen = state_row(state, rows->oxygen + tank);
    memset(can, 0, (size_t)weeks);
    if (!is_of_loop(route, tank)) {
        return;
    }
    for (int t = route->stock->start_week; t < weeks; t++) {
        double more = route->count * lane->alive[t] * lane->weight_g[t];
        double air = route->count * lane->oxygen_g_h[t];
        stay[t] = -route->count * lane->feed_kg[t] *
                  search->problem->fish.feed_price_kg;
        if (state->is_soft) {
            can[t] = 1;
            stay[t] -= over(kg[t], more / G_IN_KG, k->most_kg) *
                           state->limits[rows->kg + tank].price +
                       over(oxygen[t], air, k->air_g_h[t]) *
                           state->limits[rows->oxygen + tank].price;
        } else {
            can[t] = kg[t] + more / G_IN_KG <= k->most_kg * SLACK &&
                     oxygen[t] + air <= k->air_g_h[t] * SLACK;
        }
    }
    mark_neighbours(route, tank, can, stay);
    if (k->loop == PLAN_NONE) {
        return;
    }
    const PlanLoop *loop = &search->problem->loops[k->loop];
    const double *tan = state_row(state, rows->tan + k->loop);
    const double *price = search->routes.feed_price + k->loop * weeks;
    for (int t = route->stock->start_week; t < weeks; t++) {
        double more = route->count * lane->tan_g_d[t];
        if (state->is_soft) {
            stay[t] -= over(tan[t], more, loop->nitrify_g_d[t]) *
                       state->limits[rows->tan + k->loop].price;
        } else {
            can[t] = can[t] && tan[t] + more <= loop->nitrify_g_d[t] * SLACK;
        }
        stay[t] += route->count * lane->feed_kg[t] *
                   (1.0 - loop->lost_frac[t]) * price[t];
    }
}

/* What all the fish would bring, week by week, as the best of the goods that
 * they weigh enough for. */
static void price_sales(const Route *route)
{
    Search *search = route->search;
    const Problem *p = search->problem;
    const PlanLane *lane = route->lane;
    SearchRoutes *r = &search->routes;
    const double *worked = state_row(&search->state, search->index.rows.hours);
    int weeks = p->week_count;
    for (int t = 0; t < weeks; t++) {
        r->goods[t] = PLAN_NONE;
        r->sale[t] = -INFINITY;
        double weight = lane->weight_g[t] * (1.0 - p->fish.purge_loss_frac);
        for (int g = 0; g < p->goods_count && t >= route->first_event; g++) {
            if (!p->goods[g].is_fish || weight < p->goods[g].over_g) {
                continue;
            }
            double worth =
                search_gain(search, g, t, route->count * lane->alive[t]);
            worth -= worked[t] > p->hours_paid[t]
                         ? p->fish.catch_hours * p->wage_extra_h
                         : 0.0;
            if (worth > r->sale[t]) {
                r->sale[t] = worth;
                r->goods[t] = g;
            }
        }
    }
    static const double G_IN_KG = 1e3;
    r->sale[weeks] = route->count * lane->alive[weeks - 1] *
                     lane->weight_g[weeks - 1] / G_IN_KG * p->fish.end_price_kg;
    r->goods[weeks] = PLAN_NONE;
}

/* From the last week back: staying in a tank until the best sale. */
static void look_ahead(const Route *route, int tank)
{
    const Problem *p = route->search->problem;
    SearchRoutes *r = &route->search->routes;
    int weeks = p->week_count;
    double *ahead = r->ahead + tank * (weeks + 1);
    int *sale_at = r->sale_at + tank * (weeks + 1);
    const uint8_t *can = r->can + tank * weeks;
    const double *stay = r->stay + tank * weeks;
    ahead[weeks] = r->sale[weeks];
    sale_at[weeks] = weeks;
    for (int t = weeks - 1; t >= route->stock->start_week; t--) {
        ahead[t] = can[t] ? stay[t] + ahead[t + 1] : -INFINITY;
        sale_at[t] = sale_at[t + 1];
        if (p->tanks[tank].may_catch[t] && r->goods[t] != PLAN_NONE &&
            r->sale[t] > ahead[t]) {
            ahead[t] = r->sale[t];
            sale_at[t] = t;
        }
    }
}

static bool may_grade(const Route *route, int tank, int to_tank, int week)
{
    const Problem *p = route->search->problem;
    if (!p->tanks[tank].may_grade[week] || !p->tanks[to_tank].may_grade[week]) {
        return false;
    }
    const State *state = &route->search->state;
    const double *grades =
        state_row(state, route->search->index.rows.grades + tank);
    if (grades[week] > 0.5) {
        return true;
    }
    int between = p->fish.weeks_between;
    for (int t = week - between + 1; t < week + between; t++) {
        if (t >= 0 && t < state->weeks && grades[t] > 0.5) {
            return false;
        }
    }
    return true;
}

/* The best way on from a first tank; its worth. */
static double best_from(const Route *route, int tank, StateRun *out)
{
    Search *search = route->search;
    const Problem *p = search->problem;
    SearchRoutes *r = &search->routes;
    int weeks = p->week_count, start = route->stock->start_week;
    const uint8_t *can = r->can + tank * weeks;
    const double *ahead = r->ahead + tank * (weeks + 1);
    if (!can[start] && !route->stock->is_standing) {
        return -INFINITY;
    }
    double worth = 0.0;
    double best = ahead[start];
    int sale = r->sale_at[tank * (weeks + 1) + start];
    *out =
        (StateRun){(int16_t)tank, (int16_t)tank,           PLAN_NONE,
                   (int16_t)sale, (int16_t)r->goods[sale], (int)route->count};
    for (int t = start; t < weeks && p->tank_count > 1; t++) {
        for (int k = 0; t >= route->first_event && k < p->tank_count; k++) {
            if (k == tank || !r->can[k * weeks + t]) {
                continue;
            }
            double other = worth + r->stay[k * weeks + t] +
                           r->ahead[k * (weeks + 1) + t + 1];
            if (other > best && may_grade(route, tank, k, t)) {
                best = other;
                sale = r->sale_at[k * (weeks + 1) + t + 1];
                *out = (StateRun){(int16_t)tank,
                                  (int16_t)k,
                                  (int16_t)t,
                                  (int16_t)sale,
                                  (int16_t)r->goods[sale],
                                  (int)route->count};
            }
        }
        if (!can[t]) {
            break;
        }
        worth += r->stay[tank * weeks + t];
    }
    return best;
}

/* A little noise, so that the same question finds other good answers. */
static void stir(const Route *route)
{
    Search *search = route->search;
    double size = 0.3 * search->temperature / search->warm;
    int weeks = search->problem->week_count;
    for (int t = 0; t <= weeks; t++) {
        search->routes.sale[t] *=
            1.0 + size * (2.0 * rng_f64(&search->rng) - 1.0);
    }
}

bool search_best_route(Search *search, int stock, int lane, int count,
                       StateRun *out)
{
    const Problem *p = search->problem;
    const PlanStock *s = &p->stocks[stock];
    int first = search->index.first_week;
    Route route = {.search = search,
                   .stock = s,
                   .lane = &s->lanes[lane],
                   .stock_number = stock,
                   .count = count,
                   .first_event = s->start_week + (s->is_standing ? 0 : 1)};
    if (first > route.first_event && !search->is_urgent) {
        route.first_event = first;
    }
    price_sales(&route);
    stir(&route);
    for (int k = 0; k < p->tank_count; k++) {
        mark_tank(&route, k);
        look_ahead(&route, k);
    }
    double best = -INFINITY;
    for (int k = 0; k < p->tank_count; k++) {
        bool may_start =
            s->is_standing ? k == s->tank : p->tanks[k].is_stockable;
        StateRun run;
        if (!may_start || !is_of_loop(&route, k)) {
            continue;
        }
        double worth = best_from(&route, k, &run);
        if (worth > best) {
            best = worth;
            *out = run;
        }
    }
    return best > -INFINITY;
}
