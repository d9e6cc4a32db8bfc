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
    r->kg = ARENA_ARRAY(arena, double, weeks);
    r->oxygen = ARENA_ARRAY(arena, double, weeks);
    r->inside = ARENA_ARRAY(arena, double, weeks);
    r->outside = ARENA_ARRAY(arena, double, weeks);
    r->can_inside = ARENA_ARRAY(arena, uint8_t, weeks);
    r->tanks = ARENA_ARRAY(arena, int, tanks);
    r->fish = ARENA_ARRAY(arena, int, p->goods_count);
    for (int g = 0; g < p->goods_count; g++) {
        if (p->goods[g].is_fish) {
            r->fish[r->fish_count++] = g;
        }
    }
}

/* Tanks of the stock's loop and of none. */
static void list_tanks(const Route *route)
{
    const Problem *p = route->search->problem;
    SearchRoutes *r = &route->search->routes;
    r->tank_count = 0;
    for (int k = 0; k < p->tank_count; k++) {
        if (p->tanks[k].loop == route->stock->loop ||
            p->tanks[k].loop == PLAN_NONE) {
            r->tanks[r->tank_count++] = k;
        }
    }
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
        const uint8_t *there = state_there(state, other, tank);
        if (other == route->stock_number || there[state->weeks] == 0) {
            continue;
        }
        const double *mean = all + other * state->weeks;
        for (int t = route->stock->start_week; t < state->weeks; t++) {
            if (there[t] == 0) {
                continue;
            }
            count[t]++;
            double more = own[t] > mean[t] ? own[t] : mean[t];
            double less = own[t] > mean[t] ? mean[t] : own[t];
            if (count[t] >= p->tanks[tank].most_batches ||
                more > p->fish.neighbour_ratio * less) {
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

/* What the fish are in every week, whichever tank they are in: kilos, oxygen,
 * and, inside their loop and outside of all, the worth of their feed less what
 * the loop's TAN is passed by. */
static void weigh_fish(const Route *route)
{
    static const double G_IN_KG = 1e3;
    static const double SLACK = 1.0 + 1e-10;
    Search *search = route->search;
    const State *state = &search->state;
    const PlanLane *lane = route->lane;
    SearchRoutes *r = &search->routes;
    double feed_price = search->problem->fish.feed_price_kg;
    int loop = route->stock->loop;
    for (int t = route->stock->start_week; t < state->weeks; t++) {
        r->kg[t] = route->count * lane->alive[t] * lane->weight_g[t] / G_IN_KG;
        r->oxygen[t] = route->count * lane->oxygen_g_h[t];
        r->outside[t] = -route->count * lane->feed_kg[t] * feed_price;
        r->inside[t] = r->outside[t];
        r->can_inside[t] = 1;
    }
    if (loop == PLAN_NONE) {
        return;
    }
    const PlanLoop *l = &search->problem->loops[loop];
    const double *tan = state_row(state, search->index.rows.tan + loop);
    const double *price = r->feed_price + loop * state->weeks;
    double tan_price = state->limits[search->index.rows.tan + loop].price;
    for (int t = route->stock->start_week; t < state->weeks; t++) {
        double more = route->count * lane->tan_g_d[t];
        if (state->is_soft) {
            r->inside[t] -= over(tan[t], more, l->nitrify_g_d[t]) * tan_price;
        } else {
            r->can_inside[t] = tan[t] + more <= l->nitrify_g_d[t] * SLACK;
        }
        r->inside[t] += route->count * lane->feed_kg[t] *
                        (1.0 - l->lost_frac[t]) * price[t];
    }
}

static void mark_tank(const Route *route, int tank)
{
    static const double SLACK = 1.0 + 1e-10;
    Search *search = route->search;
    const State *state = &search->state;
    const StateRows *rows = &search->index.rows;
    const PlanTank *k = &search->problem->tanks[tank];
    const SearchRoutes *r = &search->routes;
    int start = route->stock->start_week, weeks = state->weeks;
    bool is_inside = k->loop != PLAN_NONE;
    uint8_t *can = r->can + tank * weeks;
    double *stay = r->stay + tank * weeks;
    const double *worth = is_inside ? r->inside : r->outside;
    const double *kg = state_row(state, rows->kg + tank);
    const double *oxygen = state_row(state, rows->oxygen + tank);
    double kg_price = state->limits[rows->kg + tank].price;
    double air_price = state->limits[rows->oxygen + tank].price;
    memset(can, 0, (size_t)start);
    for (int t = start; t < weeks && state->is_soft; t++) {
        can[t] = 1;
        stay[t] = worth[t] - over(kg[t], r->kg[t], k->most_kg) * kg_price -
                  over(oxygen[t], r->oxygen[t], k->air_g_h[t]) * air_price;
    }
    for (int t = start; t < weeks && !state->is_soft; t++) {
        can[t] = (!is_inside || r->can_inside[t]) &&
                 kg[t] + r->kg[t] <= k->most_kg * SLACK &&
                 oxygen[t] + r->oxygen[t] <= k->air_g_h[t] * SLACK;
        stay[t] = worth[t];
    }
    mark_neighbours(route, tank, can, stay);
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
        for (int i = 0; i < r->fish_count && t >= route->first_event; i++) {
            int g = r->fish[i];
            if (weight < p->goods[g].over_g) {
                continue;
            }
            double worth =
                search_gain(search, g, t, route->count * lane->alive[t]) -
                route->count * lane->alive[t] * p->fish.unsold_price;
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
    const uint8_t *may_catch = p->tanks[tank].may_catch;
    double best = ahead[weeks];
    int sale = weeks;
    for (int t = weeks - 1; t >= route->stock->start_week; t--) {
        best = can[t] ? stay[t] + best : -INFINITY;
        if (r->sale[t] > best && may_catch[t] && r->goods[t] != PLAN_NONE) {
            best = r->sale[t];
            sale = t;
        }
        ahead[t] = best;
        sale_at[t] = sale;
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
    for (int t = start; t < weeks && r->tank_count > 1; t++) {
        for (int i = 0; t >= route->first_event && i < r->tank_count; i++) {
            int k = r->tanks[i];
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
    list_tanks(&route);
    weigh_fish(&route);
    SearchRoutes *r = &search->routes;
    for (int i = 0; i < r->tank_count; i++) {
        mark_tank(&route, r->tanks[i]);
        look_ahead(&route, r->tanks[i]);
    }
    double best = -INFINITY;
    for (int i = 0; i < r->tank_count; i++) {
        int k = r->tanks[i];
        bool may_start =
            s->is_standing ? k == s->tank : p->tanks[k].is_stockable;
        StateRun run;
        if (!may_start) {
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
