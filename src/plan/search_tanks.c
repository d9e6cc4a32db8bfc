/* Tanks that may be overfull for a while.
 *
 * Fish that have found places hold each other there: young fish in another
 * week need a tank that others must leave first. So for most of the search a
 * tank may be too full, or hold sizes that do not go together, at a price that
 * rises; then limits are as hard as they are, and what still breaks them finds
 * other routes. */
#include <math.h>

#include "plan/search_parts.h"

/* Measured on the demo farm's fish alone. Prices are of a week of a tank as
 * full again as it may be, over the worth of all fish that it may hold. */
static const struct {
    double hard_from; /* of the moves */
    double first_price;
    double last_price;
    double again; /* priced anew when so many times as dear */
} TANKS = {0.8, 1.0, 100.0, 1.1};

static double tank_worth(const Problem *p)
{
    double kg = 0.0;
    for (int k = 0; k < p->tank_count; k++) {
        kg += p->tanks[k].most_kg / p->tank_count;
    }
    return kg * p->fish.end_price_kg;
}

/* All stocks out of their tanks, as they were kept in search->fitting. */
static int lift_all(Search *search)
{
    State *state = &search->state;
    int count = 0;
    while (state->active_count > 0) {
        int stock = state->active[state->active_count - 1];
        search->lifted[count] = stock;
        search->fitting[count++] = state->stocks[stock];
        state_stock_open(state, stock);
        state->stocks[stock] = (StateStock){.count = 0};
        state_stock_finish(state, stock);
        state_settle(state);
        state_commit(state);
    }
    return count;
}

static bool is_fit(Search *search)
{
    state_settle(&search->state);
    return state_faults(&search->state) <= search->faults_without_fish;
}

static void put_as_it_was(Search *search, int stock, const StateStock *before)
{
    state_stock_open(&search->state, stock);
    search->state.stocks[stock] = *before;
    state_stock_close(&search->state, stock);
}

/* Another stock's fish leave, the stock finds its routes, the other's fish find
 * theirs after it. */
static bool put_before(Search *search, int stock, int count, int other)
{
    State *state = &search->state;
    int others = state->stocks[other].count;
    state_stock_open(state, other);
    state->stocks[other] = (StateStock){.count = 0};
    state_stock_finish(state, other);
    return search_route_stock(search, stock, count, SEARCH_ALL_LANES) &&
           search_route_stock(search, other, others, SEARCH_ALL_LANES) &&
           is_fit(search);
}

static bool put_before_another(Search *search, int stock, int count)
{
    State *state = &search->state;
    for (int a = 0; a < state->active_count; a++) {
        int other = state->active[a];
        if (search->problem->stocks[other].is_kept) {
            continue;
        }
        if (put_before(search, stock, count, other)) {
            state_commit(state);
            return true;
        }
        state_undo(state);
    }
    return false;
}

/* What the kept weeks began as it was, the rest by new routes. */
static bool put_rest(Search *search, int stock, const StateStock *before)
{
    enum { TRIES = 6 };
    if (search->index.first_week == 0) {
        return false;
    }
    for (int i = 0; i < TRIES; i++) {
        put_as_it_was(search, stock, before);
        if (search_route_rest(search, stock) && is_fit(search)) {
            return true;
        }
        state_undo(&search->state);
    }
    return false;
}

static bool put_anew(Search *search, int stock, const StateStock *before)
{
    return search_route_stock(search, stock, before->count, SEARCH_ALL_LANES) &&
           is_fit(search);
}

/* Puts it back in one of the ways, the gentlest first; false: none fits. */
static bool put_somehow(Search *search, int stock, const StateStock *before)
{
    if (put_rest(search, stock, before)) {
        return true;
    }
    state_undo(&search->state);
    return put_anew(search, stock, before);
}

/* One back again: as it was if that breaks no limit, else by new routes, in the
 * kept weeks too where a tank is overfull in them, else not stocked. Fish that
 * stand today stay whatever they break: moves mend it. */
static void put_back(Search *search, int stock, const StateStock *before)
{
    State *state = &search->state;
    bool is_kept = search->problem->stocks[stock].is_kept;
    put_as_it_was(search, stock, before);
    if (is_fit(search) || is_kept) {
        state_commit(state);
        return;
    }
    for (int urgent = 0; urgent < 2; urgent++) {
        state_undo(state);
        search->is_urgent = urgent == 1;
        bool is_put = put_somehow(search, stock, before);
        search->is_urgent = false;
        if (is_put) {
            state_commit(state);
            return;
        }
    }
    state_undo(state);
    if (search->problem->stocks[stock].is_standing &&
        !put_before_another(search, stock, before->count)) {
        put_as_it_was(search, stock, before);
        state_settle(state);
        state_commit(state);
    }
}

/* Back in one after another, those that stand today first. */
static void fit_all(Search *search)
{
    int count = lift_all(search);
    search->faults_without_fish = state_faults(&search->state);
    search_price_feed(search);
    for (int turn = 0; turn < 2; turn++) {
        for (int i = count - 1; i >= 0; i--) {
            int stock = search->lifted[i];
            if (search->problem->stocks[stock].is_standing == (turn == 0)) {
                put_back(search, stock, &search->fitting[i]);
            }
        }
    }
}

void search_fit_tanks(Search *search)
{
    if (state_faults(&search->state) > 0.0) {
        fit_all(search);
    }
}

void search_price_tanks(Search *search, double done)
{
    State *state = &search->state;
    bool is_hard = done >= TANKS.hard_from;
    if (search->problem->tank_count == 0 || search->setup.from ||
        (is_hard && !state->is_soft)) {
        return;
    }
    double rise =
        pow(TANKS.last_price / TANKS.first_price, done / TANKS.hard_from);
    double price =
        is_hard ? 0.0 : TANKS.first_price * rise * tank_worth(search->problem);
    if (!is_hard && state->is_soft &&
        price < TANKS.again * search->tank_price) {
        return;
    }
    search->tank_price = price;
    state_price_tanks(state, price);
    state_rebuild(state);
    if (is_hard) {
        fit_all(search);
    }
}
