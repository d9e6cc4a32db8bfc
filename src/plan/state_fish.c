/* Choices on fish: runs of lanes and what they do to tanks, feed and hours. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "plan/state_parts.h"

int state_lane_heads(int count, int lane)
{
    return (int)((int64_t)count * (lane + 1) / PLAN_LANES -
                 (int64_t)count * lane / PLAN_LANES);
}

/* A run's weeks in one tank. */
static void add_stay(State *state, const PlanLane *lane, int tank, StateSpan in,
                     double count)
{
    if (in.from >= in.until) {
        return;
    }
    static const double G_IN_KG = 1e3;
    const StateRows *rows = &state->index->rows;
    int loop = state->problem->tanks[tank].loop;
    double price = state->problem->fish.feed_price_kg;
    state_touch(state, rows->kg + tank, in.from, in.until);
    state_touch(state, rows->oxygen + tank, in.from, in.until);
    double *kg = state_row(state, rows->kg + tank);
    double *oxygen = state_row(state, rows->oxygen + tank);
    for (int t = in.from; t < in.until; t++) {
        kg[t] += count * lane->alive[t] * lane->weight_g[t] / G_IN_KG;
        oxygen[t] += count * lane->oxygen_g_h[t];
        state->now.linear -= count * lane->feed_kg[t] * price;
    }
    if (loop == PLAN_NONE) {
        return;
    }
    state_touch(state, rows->tan + loop, in.from, in.until);
    state_touch(state, rows->given + loop, in.from, in.until);
    double *tan = state_row(state, rows->tan + loop);
    double *given = state_row(state, rows->given + loop);
    for (int t = in.from; t < in.until; t++) {
        tan[t] += count * lane->tan_g_d[t];
        given[t] += count * lane->feed_kg[t];
    }
}

/* Feed that a run leaves in a week for an event. */
static void leave_feed(State *state, int tank, int week, double kg)
{
    int loop = state->problem->tanks[tank].loop;
    state->now.linear += kg * state->problem->fish.feed_price_kg;
    if (loop == PLAN_NONE) {
        return;
    }
    int row = state->index->rows.given + loop;
    state_touch(state, row, week, week + 1);
    state_row(state, row)[week] -= kg;
}

/* Counts one run's event; the first in its tank and week costs hours. */
static void count_event(State *state, int row, int week, double hours,
                        double sign)
{
    state_touch(state, row, week, week + 1);
    double *events = state_row(state, row);
    double before = events[week];
    events[week] += sign;
    if (before < 0.5 || events[week] < 0.5) {
        int hours_row = state->index->rows.hours;
        state_touch(state, hours_row, week, week + 1);
        state_row(state, hours_row)[week] += sign * hours;
    }
}

static void add_sale(State *state, const PlanLane *lane, const StateRun *run,
                     double sign)
{
    const PlanFishRules *fish = &state->problem->fish;
    const StateRows *rows = &state->index->rows;
    int week = run->sale_week;
    int tank = run->to_tank;
    count_event(state, rows->catches + tank, week, fish->catch_hours, sign);
    double heads = sign * run->count * lane->alive[week];
    state->now.linear -= heads * fish->unsold_price;
    state_touch(state, rows->low + run->goods, week, week + 1);
    state_touch(state, rows->mean + run->goods, week, week + 1);
    state_row(state, rows->low + run->goods)[week] += heads;
    state_row(state, rows->mean + run->goods)[week] += heads;
    if (week == 0) {
        return;
    }
    double feed = lane->feed_kg[week - 1];
    if (run->move_week == week - 1) {
        feed *= 1.0 - fish->feed_lost_frac;
    }
    int before = run->move_week == week ? run->tank : run->to_tank;
    leave_feed(state, before, week - 1,
               sign * run->count * feed * fish->purge_feed_frac);
}

/* Notes that a run is in a tank in some weeks, or takes the note back. */
static void note_there(State *state, int stock, int tank, StateSpan in,
                       double sign)
{
    uint8_t *there = state_there(state, stock, tank);
    uint8_t change = (uint8_t)(sign > 0.0 ? 1 : -1);
    for (int t = in.from; t < in.until; t++) {
        there[t] = (uint8_t)(there[t] + change);
    }
    there[state->weeks] = (uint8_t)(there[state->weeks] + change);
}

void state_run_add(State *state, int stock, int lane, const StateRun *run,
                   double sign)
{
    static const double G_IN_KG = 1e3;
    const PlanStock *s = &state->problem->stocks[stock];
    const PlanLane *l = &s->lanes[lane];
    const PlanFishRules *fish = &state->problem->fish;
    int weeks = state->weeks;
    int16_t start = (int16_t)s->start_week;
    bool moves = run->move_week != PLAN_NONE;
    int16_t turn = moves ? run->move_week : run->sale_week;
    double count = sign * run->count;
    add_stay(state, l, run->tank, (StateSpan){start, turn}, count);
    note_there(state, stock, run->tank, (StateSpan){start, turn}, sign);
    if (moves) {
        note_there(state, stock, run->to_tank,
                   (StateSpan){turn, run->sale_week}, sign);
        add_stay(state, l, run->to_tank, (StateSpan){turn, run->sale_week},
                 count);
        count_event(state, state->index->rows.grades + run->tank, turn,
                    fish->grade_hours, sign);
        leave_feed(state, run->to_tank, turn,
                   count * l->feed_kg[turn] * fish->feed_lost_frac);
        state->tank_marks[run->to_tank] = 1;
    }
    state->tank_marks[run->tank] = 1;
    state->has_tank_change = true;
    if (run->sale_week < weeks) {
        add_sale(state, l, run, sign);
    } else {
        state->now.linear += count * l->alive[weeks - 1] *
                             l->weight_g[weeks - 1] / G_IN_KG *
                             fish->end_price_kg;
    }
}

static void add_runs(State *state, int stock, double sign)
{
    const StateStock *s = &state->stocks[stock];
    for (int b = 0; b < PLAN_LANES; b++) {
        for (int i = 0; i < s->run_count[b]; i++) {
            state_run_add(state, stock, b, &s->runs[b][i], sign);
        }
    }
}

static void set_active(State *state, int stock, bool is_active)
{
    int at = state->active_at[stock];
    if (is_active && at == PLAN_NONE) {
        state->active_at[stock] = state->active_count;
        state->active[state->active_count++] = stock;
    } else if (!is_active && at != PLAN_NONE) {
        int last = state->active[--state->active_count];
        state->active[at] = last;
        state->active_at[last] = at;
        state->active_at[stock] = PLAN_NONE;
    }
}

static void add_stocking(State *state, int stock, double sign)
{
    const PlanStock *s = &state->problem->stocks[stock];
    int count = state->stocks[stock].count;
    if (count == 0 || s->is_standing) {
        return;
    }
    int row = state->index->rows.hours;
    state_touch(state, row, s->start_week, s->start_week + 1);
    state_row(state, row)[s->start_week] += sign * s->hours;
    state->now.linear -= sign * count * s->cost;
}

void state_stock_edit(State *state, int stock)
{
    assert(state->saved_stock_count < STATE_STOCKS);
    int saved = state->saved_stock_count++;
    state->saved_stocks[saved] = state->stocks[stock];
    size_t bytes = (size_t)state_there_size(state);
    memcpy(state->saved_there + (size_t)saved * bytes,
           state->there + (size_t)stock * bytes, bytes);
    state_log(state, (StateOp){OP_STOCK, stock, PLAN_NONE, saved});
    add_stocking(state, stock, -1.0);
}

void state_stock_open(State *state, int stock)
{
    state_stock_edit(state, stock);
    add_runs(state, stock, -1.0);
}

void state_stock_rows(State *state, int stock)
{
    add_runs(state, stock, 1.0);
    add_stocking(state, stock, 1.0);
}

void state_stock_finish(State *state, int stock)
{
    add_stocking(state, stock, 1.0);
    set_active(state, stock, state->stocks[stock].count > 0);
}

void state_stock_close(State *state, int stock)
{
    add_runs(state, stock, 1.0);
    state_stock_finish(state, stock);
}

void state_undo_stock(State *state, const StateOp *op)
{
    state->stocks[op->place] = state->saved_stocks[op->before];
    size_t bytes = (size_t)state_there_size(state);
    memcpy(state->there + (size_t)op->place * bytes,
           state->saved_there + (size_t)op->before * bytes, bytes);
    set_active(state, op->place, state->stocks[op->place].count > 0);
}

/* Weeks in which a tank holds too many stocks or unlike sizes. */
static double mixing_faults(const State *state, int tank)
{
    enum { WEEKS_MOST = 512 };
    assert(state->weeks <= WEEKS_MOST);
    uint8_t count[WEEKS_MOST] = {0};
    double least[WEEKS_MOST], most[WEEKS_MOST];
    const PlanTank *k = &state->problem->tanks[tank];
    double faults = 0.0;
    for (int a = 0; a < state->active_count; a++) {
        int stock = state->active[a];
        const uint8_t *there = state_there(state, stock, tank);
        if (there[state->weeks] == 0) {
            continue;
        }
        const double *mean = state->index->stock_mean_g + stock * state->weeks;
        for (int t = 0; t < state->weeks; t++) {
            if (!there[t]) {
                continue;
            }
            least[t] = count[t] && least[t] < mean[t] ? least[t] : mean[t];
            most[t] = count[t] && most[t] > mean[t] ? most[t] : mean[t];
            count[t]++;
            double ratio = state->problem->fish.neighbour_ratio;
            faults += count[t] > k->most_batches;
            faults += count[t] > 1 && most[t] > ratio * least[t];
        }
    }
    return faults;
}

/* Grading events too near to each other, and not allowed. */
static double event_faults(const State *state, int tank)
{
    const double *grades = state_row(state, state->index->rows.grades + tank);
    int between = state->problem->fish.weeks_between;
    int last = -between;
    double faults = 0.0;
    for (int t = 0; t < state->weeks; t++) {
        if (grades[t] > 0.5) {
            faults += t - last < between;
            last = t;
        }
    }
    return faults;
}

void state_count_tank_faults(State *state)
{
    for (int k = 0; k < state->problem->tank_count; k++) {
        if (!state->tank_marks[k]) {
            continue;
        }
        double faults = mixing_faults(state, k) + event_faults(state, k);
        state->now.faults += faults - state->tank_faults[k];
        state->tank_faults[k] = faults;
        state->tank_marks[k] = 0;
    }
}
