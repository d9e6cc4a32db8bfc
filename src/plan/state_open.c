/* Opening a plan under search, and making its rows afresh. */
#include <assert.h>
#include <string.h>

#include "plan/state_parts.h"

/* What everything wanted would bring: the size of money in this problem. */
static double most_money(const State *state)
{
    const Problem *p = state->problem;
    double money = 1.0 + state->sales->missed_all;
    for (int i = 0; i < p->order_count; i++) {
        for (int t = 0; t < p->week_count; t++) {
            money += p->orders[i].price[t] * p->orders[i].wanted[t];
        }
    }
    return money;
}

static void limit(State *state, int row, const double *cap, double money)
{
    state->limits[row] = (StateLimit){cap, state_over_price(state, cap, money)};
}

static double *flat(Arena *arena, int weeks, double value)
{
    double *out = ARENA_ARRAY(arena, double, weeks);
    for (int t = 0; t < weeks; t++) {
        out[t] = value;
    }
    return out;
}

void state_price_tanks(State *state, double week_money)
{
    static const double FAULT_SHARE = 0.1; /* of an overfull tank's price */
    const StateRows *rows = &state->index->rows;
    state->is_soft = week_money > 0.0;
    double money =
        state->is_soft ? STATE_OVER_SHARE * week_money : state->money;
    for (int row = rows->tan; row < rows->grades; row++) {
        bool is_fish = row < rows->pool || row >= rows->kg;
        StateLimit *limit = &state->limits[row];
        if (is_fish && limit->cap) {
            limit->price = state_over_price(state, limit->cap, money);
        }
    }
    state->fault_price =
        state->is_soft ? FAULT_SHARE * week_money : state->money;
}

static void open_limits(State *state, Arena *arena)
{
    const Problem *p = state->problem;
    const StateRows *rows = &state->index->rows;
    double money = most_money(state);
    double *hours = flat(arena, state->weeks, 0.0);
    for (int t = 0; t < state->weeks; t++) {
        hours[t] = p->hours_paid[t] + p->hours_extra[t];
    }
    state->limits = ARENA_ARRAY(arena, StateLimit, rows->count);
    limit(state, rows->hours, hours, money);
    limit(state, rows->trays, p->trays, money);
    limit(state, rows->room, flat(arena, state->weeks, p->store_room_kg),
          money);
    for (int l = 0; l < p->loop_count; l++) {
        limit(state, rows->tan + l, p->loops[l].nitrify_g_d, money);
    }
    for (int k = 0; k < p->tank_count; k++) {
        limit(state, rows->kg + k,
              flat(arena, state->weeks, p->tanks[k].most_kg), money);
        limit(state, rows->oxygen + k, p->tanks[k].air_g_h, money);
    }
    for (int i = 0; i < p->seedlings_count; i++) {
        limit(state, rows->seedlings + i,
              flat(arena, state->weeks, p->seedlings[i].plants), money);
    }
    state->fault_price = state->money = money;
}

static void open_rows(State *state, Arena *arena)
{
    int rows = state->index->rows.count;
    int families = state->sales->family_count;
    state->cells = ARENA_ARRAY(arena, double, rows * state->weeks);
    state->saved = ARENA_ARRAY(arena, double, rows * state->weeks);
    state->touched = ARENA_ARRAY(arena, int, rows);
    state->touch_from = ARENA_ARRAY(arena, int16_t, rows);
    state->touch_until = ARENA_ARRAY(arena, int16_t, rows);
    state->supply =
        ARENA_ARRAY(arena, double, 2 * sales_most_goods(state->sales));
    const Problem *p = state->problem;
    state->keep = ARENA_ARRAY(arena, double, p->goods_count);
    for (int g = 0; g < p->goods_count; g++) {
        bool has_store = p->goods[g].store_max > 0.0 && p->store_room_kg > 0.0;
        state->keep[g] = has_store ? p->goods[g].keep : 0.0;
    }
    state->family_from = ARENA_ARRAY(arena, int, families);
    state->family_until = ARENA_ARRAY(arena, int, families);
    state->family_list = ARENA_ARRAY(arena, int, families);
    state->ops = ARENA_ARRAY(arena, StateOp, STATE_OPS);
}

static void open_beds(State *state, Arena *arena)
{
    const Problem *p = state->problem;
    const StateIndex *index = state->index;
    state->holder = ARENA_ARRAY(arena, int, index->slot_count * state->weeks);
    state->edges = ARENA_ARRAY(arena, StateEdge, p->bed_count * STATE_EDGES);
    state->edge_count = ARENA_ARRAY(arena, int, p->bed_count);
    state->clean_week = ARENA_ARRAY(arena, int, p->bed_count);
    state->cleans_most = ARENA_ARRAY(arena, double, p->loop_count + 1);
    for (int s = 0; s < index->slot_count; s++) {
        const PlanBed *bed = &p->beds[index->slot_bed[s]];
        for (int t = 0; t < state->weeks; t++) {
            bool is_open = t >= bed->first_week && t <= bed->last_week;
            state->holder[s * state->weeks + t] =
                is_open ? HOLDER_FREE : HOLDER_CLOSED;
        }
    }
    for (int b = 0; b < p->bed_count; b++) {
        int loop = p->kinds[p->beds[b].kind].loop;
        state->clean_week[b] = PLAN_NONE;
        state->cleans_most[loop == PLAN_NONE ? p->loop_count : loop] +=
            p->clean_share;
    }
    for (int l = 0; l <= p->loop_count; l++) {
        double *most = &state->cleans_most[l];
        *most = *most > 1.0 ? *most : 1.0;
    }
}

static void open_fish(State *state, Arena *arena)
{
    const Problem *p = state->problem;
    state->stocks = ARENA_ARRAY(arena, StateStock, p->stock_count);
    state->active = ARENA_ARRAY(arena, int, p->stock_count);
    state->active_at = ARENA_ARRAY(arena, int, p->stock_count);
    state->saved_stocks = ARENA_ARRAY(arena, StateStock, STATE_STOCKS);
    int there = state_there_size(state);
    state->there = ARENA_ARRAY(arena, uint8_t, p->stock_count * there);
    state->saved_there = ARENA_ARRAY(arena, uint8_t, STATE_STOCKS * there);
    state->tank_faults = ARENA_ARRAY(arena, double, p->tank_count);
    state->tank_faults_before = ARENA_ARRAY(arena, double, p->tank_count);
    state->tank_marks = ARENA_ARRAY(arena, uint8_t, p->tank_count);
    for (int s = 0; s < p->stock_count; s++) {
        state->active_at[s] = PLAN_NONE;
        if (!p->stocks[s].is_standing) {
            continue;
        }
        StateStock *stock = &state->stocks[s];
        stock->count = p->stocks[s].most;
        for (int b = 0; b < PLAN_LANES; b++) {
            stock->run_count[b] = 1;
            stock->runs[b][0] =
                (StateRun){.tank = (int16_t)p->stocks[s].tank,
                           .to_tank = (int16_t)p->stocks[s].tank,
                           .move_week = PLAN_NONE,
                           .sale_week = (int16_t)state->weeks,
                           .goods = PLAN_NONE,
                           .count = state_lane_heads(stock->count, b)};
        }
        state->active_at[s] = state->active_count;
        state->active[state->active_count++] = s;
    }
}

static void place_standing(State *state)
{
    const Problem *p = state->problem;
    for (int i = 0; i < p->standing_count; i++) {
        const PlanStanding *b = &p->standing[i];
        if (p->options[b->option].is_edge) {
            StateEdge *edges = state->edges + b->bed * STATE_EDGES;
            assert(state->edge_count[b->bed] < STATE_EDGES);
            edges[state->edge_count[b->bed]++] =
                (StateEdge){b->option, b->units};
            continue;
        }
        const StateOption *o = &state->index->options[b->option];
        int slot = state->index->bed_slot[b->bed] + b->first_section;
        for (int s = slot; s < slot + b->units; s++) {
            for (int t = o->set; t < o->clear; t++) {
                state->holder[s * state->weeks + t] = b->option + 1;
            }
        }
    }
}

void state_open(State *state, const StateIndex *index, const Sales *sales,
                Arena *arena)
{
    *state = (State){.problem = index->problem,
                     .index = index,
                     .sales = sales,
                     .weeks = index->problem->week_count};
    open_rows(state, arena);
    open_limits(state, arena);
    open_beds(state, arena);
    open_fish(state, arena);
    place_standing(state);
    state_rebuild(state);
}

/* Every batch on the floor once: counted where it begins. */
static void add_floor(State *state)
{
    for (int s = 0; s < state->index->slot_count; s++) {
        const int *held = state->holder + s * state->weeks;
        for (int t = 0; t < state->weeks; t++) {
            int option = held[t] - 1;
            if (held[t] > 0 && state->index->options[option].set == t) {
                state_add_option(state, option, 1.0);
            }
        }
    }
}

static void add_edges_and_cleans(State *state)
{
    const Problem *p = state->problem;
    for (int b = 0; b < p->bed_count; b++) {
        for (int i = 0; i < state->edge_count[b]; i++) {
            const StateEdge *edge = &state->edges[b * STATE_EDGES + i];
            state_add_option(state, edge->option, edge->plants);
        }
        int week = state->clean_week[b];
        if (week != PLAN_NONE) {
            state->clean_week[b] = PLAN_NONE;
            state_clean_set(state, b, week);
            state->op_count = 0;
        }
    }
}

/* Cells as if every row had changed from nothing, for one settling. */
static void clear_rows(State *state, double *stores)
{
    const Problem *p = state->problem;
    const StateRows *rows = &state->index->rows;
    size_t bytes =
        (size_t)p->goods_count * (size_t)state->weeks * sizeof(double);
    memcpy(stores, state_row(state, rows->store), bytes);
    memset(state->cells, 0,
           (size_t)rows->count * (size_t)state->weeks * sizeof(double));
    memset(state->there, 0,
           (size_t)p->stock_count * (size_t)state_there_size(state));
    state->now = (StateSums){0};
    state->before = (StateSums){0};
    for (int k = 0; k < p->tank_count; k++) {
        state->tank_faults[k] = state->tank_faults_before[k] = 0.0;
        state->tank_marks[k] = 1;
    }
}

static void add_fixed(State *state)
{
    const Problem *p = state->problem;
    const StateRows *rows = &state->index->rows;
    state->now.linear -= state->sales->missed_all;
    double *hours = state_row(state, rows->hours);
    state_touch(state, rows->hours, 0, state->weeks);
    for (int t = 0; t < state->weeks; t++) {
        hours[t] += p->hours_fixed[t];
    }
    for (int l = 0; l < p->loop_count; l++) {
        state_touch(state, rows->given + l, 0, state->weeks);
    }
    for (int g = 0; g < p->goods_count; g++) {
        state_touch(state, rows->mean + g, 0, state->weeks);
    }
}

void state_rebuild(State *state)
{
    const Problem *p = state->problem;
    const StateRows *rows = &state->index->rows;
    /* The saved copies serve as room: no trial is open. */
    assert(state->touched_count == 0 && state->op_count == 0);
    double *stores = state->saved;
    clear_rows(state, stores);
    for (int g = 0; g < p->goods_count; g++) {
        for (int t = 0; t < state->weeks; t++) {
            double units = stores[g * state->weeks + t];
            state_row(state, rows->store + g)[t] = units;
            state_row(state, rows->room)[t] += units * p->goods[g].kg_per_unit;
        }
    }
    memset(state->saved, 0,
           (size_t)rows->count * (size_t)state->weeks * sizeof(double));
    add_fixed(state);
    add_floor(state);
    add_edges_and_cleans(state);
    state->now.linear += state_kept_worth(state);
    int active = state->active_count;
    for (int i = 0; i < active; i++) {
        state_stock_rows(state, state->active[i]);
    }
    state->has_tank_change = true;
    state_settle(state);
    state_commit(state);
}
