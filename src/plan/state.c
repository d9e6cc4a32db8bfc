/* Rows of a plan under search: touching, valuing, undoing. */
#include "plan/state.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "plan/state_parts.h"

/* Above a limit by less than this share of it counts as within. */
static const double NOISE_FRAC = 1e-9;

void state_touch(State *state, int row, int from, int until)
{
    if (from >= until) {
        return;
    }
    size_t offset = (size_t)row * (size_t)state->weeks;
    double *saved = state->saved + offset;
    const double *cells = state->cells + offset;
    int16_t *old_from = &state->touch_from[row];
    int16_t *old_until = &state->touch_until[row];
    if (*old_from >= *old_until) {
        state->touched[state->touched_count++] = row;
        memcpy(saved + from, cells + from,
               (size_t)(until - from) * sizeof *saved);
        *old_from = (int16_t)from;
        *old_until = (int16_t)until;
        return;
    }
    if (from < *old_from) {
        memcpy(saved + from, cells + from,
               (size_t)(*old_from - from) * sizeof *saved);
        *old_from = (int16_t)from;
    }
    if (until > *old_until) {
        memcpy(saved + *old_until, cells + *old_until,
               (size_t)(until - *old_until) * sizeof *saved);
        *old_until = (int16_t)until;
    }
}

static void forget_touches(State *state)
{
    for (int i = 0; i < state->touched_count; i++) {
        state->touch_from[state->touched[i]] = 0;
        state->touch_until[state->touched[i]] = 0;
    }
    state->touched_count = 0;
    state->op_count = 0;
    state->saved_stock_count = 0;
    state->has_tank_change = false;
    state->sold = state->pooled = 0.0;
    state->before = state->now;
}

void state_commit(State *state)
{
    if (state->has_tank_change) {
        memcpy(state->tank_faults_before, state->tank_faults,
               (size_t)state->problem->tank_count * sizeof(double));
    }
    forget_touches(state);
}

void state_undo(State *state)
{
    for (int i = 0; i < state->touched_count; i++) {
        int row = state->touched[i];
        int from = state->touch_from[row];
        size_t offset = (size_t)row * (size_t)state->weeks + (size_t)from;
        memcpy(state->cells + offset, state->saved + offset,
               (size_t)(state->touch_until[row] - from) * sizeof(double));
    }
    state_undo_ops(state);
    if (state->has_tank_change) {
        memcpy(state->tank_faults, state->tank_faults_before,
               (size_t)state->problem->tank_count * sizeof(double));
    }
    state->now = state->before;
    forget_touches(state);
}

static void add_profile(State *state, int row, StateSpan span,
                        const double *values, double units)
{
    if (span.from >= span.until) {
        return;
    }
    state_touch(state, row, span.from, span.until);
    double *cells = state_row(state, row);
    for (int t = span.from; t < span.until; t++) {
        cells[t] += units * values[t];
    }
}

void state_add_option(State *state, int option, double units)
{
    const StateOption *o = &state->index->options[option];
    const PlanOption *plan = &state->problem->options[option];
    const StateRows *rows = &state->index->rows;
    int shift = o->shift;
    add_profile(state, rows->hours, o->hours, plan->hours - shift, units);
    add_profile(state, rows->trays, o->trays, plan->trays - shift, units);
    if (o->loop != PLAN_NONE) {
        add_profile(state, rows->want + o->loop, o->want, plan->want_kg - shift,
                    units);
    }
    add_profile(state, rows->low + o->goods, o->yield, plan->low - shift,
                units);
    add_profile(state, rows->mean + o->goods, o->yield, plan->mean - shift,
                units);
    if (plan->trays_of > 0) {
        int row = rows->seedlings + plan->trays_of - 1;
        state_touch(state, row, 0, 1);
        state_row(state, row)[0] += units * plan->plants;
    }
    state->now.linear -= plan->is_standing ? 0.0 : units * plan->cost;
}

static double over_cost(const State *state, int row, const double *cells,
                        int from, int until)
{
    const StateLimit *limit = &state->limits[row];
    double over = 0.0;
    for (int t = from; t < until; t++) {
        double excess = cells[t] - limit->cap[t];
        if (excess > NOISE_FRAC * (1.0 + limit->cap[t])) {
            over += excess;
        }
    }
    return over * limit->price;
}

/* What a row costs in some weeks: above its limit, and extra wages. */
static double row_cost(const State *state, int row, const double *cells,
                       int from, int until)
{
    double cost = over_cost(state, row, cells, from, until);
    if (row == state->index->rows.hours) {
        const double *paid = state->problem->hours_paid;
        double extra = 0.0;
        for (int t = from; t < until; t++) {
            extra += cells[t] > paid[t] ? cells[t] - paid[t] : 0.0;
        }
        cost += extra * state->problem->wage_extra_h;
    }
    return cost;
}

static double limits_change(State *state)
{
    double change = 0.0;
    for (int i = 0; i < state->touched_count; i++) {
        int row = state->touched[i];
        if (!state->limits[row].cap) {
            continue;
        }
        size_t offset = (size_t)row * (size_t)state->weeks;
        int from = state->touch_from[row], until = state->touch_until[row];
        change -= row_cost(state, row, state->cells + offset, from, until) -
                  row_cost(state, row, state->saved + offset, from, until);
    }
    return change;
}

/* Runs a loop's pool on from a touched week until it agrees again. */
static double pool_change(State *state, int loop)
{
    const StateRows *rows = &state->index->rows;
    const PlanLoop *l = &state->problem->loops[loop];
    int want_row = rows->want + loop, given_row = rows->given + loop;
    int from = state->weeks, until = 0;
    for (int i = 0; i < 2; i++) {
        int row = i == 0 ? want_row : given_row;
        if (state->touch_from[row] < state->touch_until[row]) {
            int start = state->touch_from[row], end = state->touch_until[row];
            from = start < from ? start : from;
            until = end > until ? end : until;
        }
    }
    if (from >= until) {
        return 0.0;
    }
    state_touch(state, rows->pool + loop, from, state->weeks);
    state_touch(state, rows->lack + loop, from, state->weeks);
    const double *want = state_row(state, want_row);
    const double *given = state_row(state, given_row);
    double *pool = state_row(state, rows->pool + loop);
    double *lack = state_row(state, rows->lack + loop);
    double held = from > 0 ? pool[from - 1] : l->pool_start_kg;
    double change = 0.0;
    for (int t = from; t < state->weeks; t++) {
        double balance =
            l->pool_keep * held + given[t] * (1.0 - l->lost_frac[t]) - want[t];
        double missing = balance < 0.0 ? -balance : 0.0;
        held = balance < 0.0              ? 0.0
               : balance > l->pool_max_kg ? l->pool_max_kg
                                          : balance;
        change -= (missing - lack[t]) * l->short_price;
        lack[t] = missing;
        bool agrees = fabs(held - pool[t]) < 1e-13 * (1.0 + held);
        pool[t] = held;
        if (agrees && t + 1 >= until) {
            break;
        }
    }
    return change;
}

/* Lowers stores that there is no longer anything for. */
static void mend_store(State *state, int goods, int from)
{
    const StateRows *rows = &state->index->rows;
    double keep = state->problem->goods[goods].keep;
    const double *mean = state_row(state, rows->mean + goods);
    const double *store = state_row(state, rows->store + goods);
    int until = state->touch_until[rows->mean + goods];
    for (int t = from; t < state->weeks; t++) {
        double held = t > 0 ? keep * store[t - 1] : 0.0;
        double most = mean[t] + held;
        bool is_over = store[t] > most;
        if (is_over) {
            state_store_set(state, goods, t, most > 0.0 ? most : 0.0);
        } else if (t >= until) {
            break;
        }
    }
}

static void note_family(State *state, int *count, int goods, int from,
                        int until)
{
    int f = state->sales->family_of[goods];
    if (state->family_from[f] >= state->family_until[f]) {
        state->family_list[(*count)++] = f;
        state->family_from[f] = from;
        state->family_until[f] = until;
        return;
    }
    if (from < state->family_from[f]) {
        state->family_from[f] = from;
    }
    if (until > state->family_until[f]) {
        state->family_until[f] = until;
    }
}

/* Families whose goods were touched, with their weeks. */
static int list_families(State *state)
{
    const StateRows *rows = &state->index->rows;
    int goods_count = state->problem->goods_count;
    int count = 0;
    for (int i = 0; i < state->touched_count; i++) {
        int row = state->touched[i];
        int goods = row - rows->mean;
        if (goods >= 0 && goods < goods_count &&
            state_has_store(state, goods)) {
            mend_store(state, goods, state->touch_from[row]);
        }
    }
    for (int i = 0; i < state->touched_count; i++) {
        int row = state->touched[i];
        if (row < rows->low || row >= rows->store + goods_count) {
            continue;
        }
        bool is_store = row >= rows->store;
        int until = state->touch_until[row] + (is_store ? 1 : 0);
        note_family(state, &count, (row - rows->low) % goods_count,
                    state->touch_from[row],
                    until > state->weeks ? state->weeks : until);
    }
    return count;
}

static SalesSupply supply_of(const State *state, int family, int week)
{
    const SalesFamily *f = &state->sales->families[family];
    const StateRows *rows = &state->index->rows;
    double *low = state->supply;
    double *mean = low + f->goods_count;
    for (int i = 0; i < f->goods_count; i++) {
        int g = f->goods[i];
        double sum = state_row(state, rows->mean + g)[week];
        double sure = state_row(state, rows->low + g)[week];
        if (state_has_store(state, g)) {
            const double *store = state_row(state, rows->store + g);
            double held = week > 0 ? store[week - 1] : 0.0;
            held *= state->keep[g];
            sum += held - store[week];
            sure += held;
        }
        mean[i] = sum > 0.0 ? sum : 0.0;
        low[i] = sure > 0.0 ? sure : 0.0;
    }
    return (SalesSupply){.low = low, .mean = mean};
}

double state_family_worth(const State *state, int family, int week)
{
    SalesSupply supply = supply_of(state, family, week);
    return sales_week(state->sales, family, week, &supply);
}

/* Ladders exactly; joined families by what their last prices allow at most,
 * which stands in their rows until settle_joined. */
static double bound_sales(State *state, int count)
{
    double change = 0.0;
    for (int i = 0; i < count; i++) {
        int f = state->family_list[i];
        int row = state->index->rows.worth + f;
        bool is_ladder = state->sales->families[f].is_ladder;
        state_touch(state, row, state->family_from[f], state->family_until[f]);
        double *worth = state_row(state, row);
        for (int t = state->family_from[f]; t < state->family_until[f]; t++) {
            SalesSupply supply = supply_of(state, f, t);
            double now = is_ladder ? sales_week(state->sales, f, t, &supply)
                                   : sales_bound(state->sales, f, t, &supply);
            change += now - worth[t];
            worth[t] = now;
        }
    }
    return change;
}

/* Joined families exactly, until it shows that the value stays below least. */
static double settle_joined(State *state, int count, double value, double least)
{
    for (int i = 0; i < count; i++) {
        int f = state->family_list[i];
        double *worth = state_row(state, state->index->rows.worth + f);
        int until = state->family_until[f];
        if (state->sales->families[f].is_ladder) {
            continue;
        }
        for (int t = state->family_from[f]; t < until && value >= least; t++) {
            double now = state_family_worth(state, f, t);
            value += now - worth[t];
            worth[t] = now;
        }
    }
    return value;
}

double state_settle_above(State *state, double least)
{
    if (state->has_tank_change) {
        state_count_tank_faults(state);
    }
    int count = list_families(state);
    double change = limits_change(state);
    for (int l = 0; l < state->problem->loop_count; l++) {
        state->pooled += pool_change(state, l);
    }
    change += state->pooled + state->sold;
    change += state->now.linear - state->before.linear;
    change -= (state->now.faults - state->before.faults) * state->fault_price;
    double value = state->before.value + change;
    if (count > 0) {
        double before = value;
        value += bound_sales(state, count);
        value = settle_joined(state, count, value, least);
        state->sold += value - before;
    }
    for (int i = 0; i < count; i++) {
        int f = state->family_list[i];
        state->family_from[f] = state->family_until[f] = 0;
    }
    state->now.value = value;
    return value;
}

double state_settle(State *state)
{
    return state_settle_above(state, -INFINITY);
}

void state_store_set(State *state, int goods, int week, double units)
{
    const StateRows *rows = &state->index->rows;
    int row = rows->store + goods;
    double *store = state_row(state, row);
    double kg =
        (units - store[week]) * state->problem->goods[goods].kg_per_unit;
    state_touch(state, row, week, week + 1);
    state_touch(state, rows->room, week, week + 1);
    store[week] = units;
    state_row(state, rows->room)[week] += kg;
}

double state_faults(const State *state)
{
    double faults = state->now.faults * state->fault_price;
    for (int row = 0; row < state->index->rows.count; row++) {
        if (state->limits[row].cap) {
            faults +=
                over_cost(state, row, state_row(state, row), 0, state->weeks);
        }
    }
    return faults;
}

/* The price of a unit above a limit, for money of that size. */
double state_over_price(const State *state, const double *cap, double money)
{
    double sum = 0.0;
    for (int t = 0; t < state->weeks; t++) {
        sum += cap[t];
    }
    double mean = sum / state->weeks;
    return money / (STATE_OVER_SHARE * (mean > 0.0 ? mean : 1.0));
}
