/* Choices of a plan under search to a solution and back. */
#include <string.h>

#include "plan/state_parts.h"

static bool takes_floor(State *state, const PlanPlacement *p)
{
    int slot = state->index->bed_slot[p->bed] + p->first_section;
    if (slot + p->units > state->index->bed_slot[p->bed + 1]) {
        return false;
    }
    const StateOption *o = &state->index->options[p->option];
    bool fits = true;
    for (int i = 0; i < p->units; i++) {
        bool is_free = state_floor_fits(state, slot + i, p->option);
        fits = fits && is_free;
        if (is_free) {
            state_floor_put(state, slot + i, p->option);
        }
    }
    if (!state_bed_has_sun(state, p->bed, o->set, o->clear)) {
        state_settle(state);
        state_undo(state);
        return false;
    }
    return fits;
}

static bool takes_edge(State *state, const PlanPlacement *p)
{
    const StateOption *o = &state->index->options[p->option];
    int plants = p->units + state_edge_plants(state, p->bed, p->option);
    if (plants > state_edge_room(state, p->bed, p->option) ||
        !state_edge_set(state, p->bed, p->option, plants)) {
        return false;
    }
    if (!state_bed_has_sun(state, p->bed, o->set, o->clear)) {
        state_undo(state);
        return false;
    }
    return true;
}

static bool takes_placement(State *state, const PlanPlacement *p)
{
    const PlanOption *o = &state->problem->options[p->option];
    if (o->is_standing || o->kind != state->problem->beds[p->bed].kind) {
        return o->is_standing;
    }
    return o->is_edge ? takes_edge(state, p) : takes_floor(state, p);
}

static void take_run(State *state, const PlanRun *run)
{
    StateStock *stock = &state->stocks[run->stock];
    int16_t *count = &stock->run_count[run->lane];
    if (*count == STATE_RUNS) {
        return;
    }
    stock->runs[run->lane][(*count)++] =
        (StateRun){.tank = (int16_t)run->tank,
                   .to_tank = (int16_t)run->to_tank,
                   .move_week = (int16_t)run->move_week,
                   .sale_week = (int16_t)run->sale_week,
                   .goods = (int16_t)run->goods,
                   .count = run->count};
    stock->count += run->count;
}

/* A lane whose heads are not those of its stock's count. */
static bool is_whole(const State *state, int stock)
{
    const PlanStock *plan = &state->problem->stocks[stock];
    const StateStock *s = &state->stocks[stock];
    for (int b = 0; b < PLAN_LANES; b++) {
        int heads = 0;
        for (int i = 0; i < s->run_count[b]; i++) {
            heads += s->runs[b][i].count;
        }
        if (heads != state_lane_heads(s->count, b)) {
            return false;
        }
    }
    return s->count >= plan->least && s->count <= plan->most;
}

static int take_stock(State *state, const PlanSolution *solution, int stock)
{
    int runs = 0;
    for (int i = 0; i < solution->run_count; i++) {
        runs += solution->runs[i].stock == stock;
    }
    if (runs == 0) {
        return 0;
    }
    state_stock_open(state, stock);
    StateStock before = state->stocks[stock];
    state->stocks[stock] = (StateStock){0};
    for (int i = 0; i < solution->run_count; i++) {
        if (solution->runs[i].stock == stock) {
            take_run(state, &solution->runs[i]);
        }
    }
    bool fits = is_whole(state, stock);
    if (!fits) {
        state->stocks[stock] = before;
    }
    state_stock_close(state, stock);
    state_settle(state);
    state_commit(state);
    return fits ? 0 : 1;
}

/* Stores as the solution's own sales had them. */
static void take_stores(State *state, const double *store)
{
    const Problem *p = state->problem;
    for (int i = 0; store && i < p->goods_count * state->weeks; i++) {
        int goods = i / state->weeks, week = i % state->weeks;
        const PlanGoods *g = &p->goods[goods];
        if (g->keep <= 0.0 || g->store_max <= 0.0 || store[i] <= 0.0 ||
            p->store_room_kg <= 0.0) {
            continue;
        }
        int row = state->index->rows.mean + goods;
        state_touch(state, row, week, week + 1);
        state_store_set(state, goods, week, store[i]);
    }
    state_settle(state);
    state_commit(state);
}

int state_from_solution(State *state, const PlanSolution *solution)
{
    int refused = 0;
    for (int i = 0; i < solution->cleaning_count; i++) {
        const PlanCleaning *c = &solution->cleanings[i];
        bool fits = state_clean_fits(state, c->bed, c->week);
        if (fits) {
            state_clean_set(state, c->bed, c->week);
            state_settle(state);
            state_commit(state);
        }
        refused += !fits;
    }
    for (int i = 0; i < solution->placement_count; i++) {
        bool fits = takes_placement(state, &solution->placements[i]);
        state_settle(state);
        state_commit(state);
        refused += !fits;
    }
    for (int s = 0; s < state->problem->stock_count; s++) {
        refused += take_stock(state, solution, s);
    }
    take_stores(state, solution->outcome.store);
    return refused;
}

/* Whether slot s begins a placement, and how many neighbours share it. */
static int placement_units(const State *state, int slot, int week)
{
    const StateIndex *index = state->index;
    int held = state->holder[slot * state->weeks + week];
    if (held <= 0 || index->options[held - 1].set != week ||
        state->problem->options[held - 1].is_standing) {
        return 0;
    }
    int bed = index->slot_bed[slot];
    if (slot > index->bed_slot[bed] &&
        state->holder[(slot - 1) * state->weeks + week] == held) {
        return 0;
    }
    int units = 1;
    while (slot + units < index->bed_slot[bed + 1] &&
           state->holder[(slot + units) * state->weeks + week] == held) {
        units++;
    }
    return units;
}

static int put_floor(const State *state, PlanPlacement *out)
{
    int count = 0;
    for (int s = 0; s < state->index->slot_count; s++) {
        for (int t = 0; t < state->weeks; t++) {
            int units = placement_units(state, s, t);
            if (units == 0) {
                continue;
            }
            if (out) {
                int bed = state->index->slot_bed[s];
                out[count] = (PlanPlacement){
                    .option = state->holder[s * state->weeks + t] - 1,
                    .bed = bed,
                    .first_section = s - state->index->bed_slot[bed],
                    .units = units};
            }
            count++;
        }
    }
    return count;
}

static int put_edges(const State *state, PlanPlacement *out)
{
    int count = 0;
    for (int b = 0; b < state->problem->bed_count; b++) {
        for (int i = 0; i < state->edge_count[b]; i++) {
            const StateEdge *edge = &state->edges[b * STATE_EDGES + i];
            if (state->problem->options[edge->option].is_standing) {
                continue;
            }
            if (out) {
                out[count] = (PlanPlacement){edge->option, b, 0, edge->plants};
            }
            count++;
        }
    }
    return count;
}

static int put_runs(const State *state, PlanRun *out)
{
    int count = 0;
    for (int s = 0; s < state->problem->stock_count; s++) {
        const StateStock *stock = &state->stocks[s];
        for (int i = 0; i < PLAN_LANES * STATE_RUNS; i++) {
            int lane = i / STATE_RUNS;
            const StateRun *run = &stock->runs[lane][i % STATE_RUNS];
            if (i % STATE_RUNS >= stock->run_count[lane] || run->count == 0) {
                continue;
            }
            if (out) {
                out[count] = (PlanRun){s,
                                       lane,
                                       run->tank,
                                       run->move_week,
                                       run->to_tank,
                                       run->sale_week,
                                       run->goods,
                                       run->count};
            }
            count++;
        }
    }
    return count;
}

void state_to_solution(const State *state, Arena *arena, PlanSolution *out)
{
    int floor_count = put_floor(state, NULL);
    *out = (PlanSolution){0};
    out->placement_count = floor_count + put_edges(state, NULL);
    out->placements = ARENA_ARRAY(arena, PlanPlacement, out->placement_count);
    put_floor(state, out->placements);
    put_edges(state, out->placements + floor_count);
    out->run_count = put_runs(state, NULL);
    out->runs = ARENA_ARRAY(arena, PlanRun, out->run_count);
    put_runs(state, out->runs);
    out->cleanings =
        ARENA_ARRAY(arena, PlanCleaning, state->problem->bed_count);
    for (int b = 0; b < state->problem->bed_count; b++) {
        if (state->clean_week[b] != PLAN_NONE) {
            out->cleanings[out->cleaning_count++] =
                (PlanCleaning){b, state->clean_week[b]};
        }
    }
}
