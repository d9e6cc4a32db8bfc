/* Choices on beds: sections, edges, cleanings. */
#include <assert.h>
#include <math.h>

#include "plan/state_parts.h"

static int *holders(const State *state, int slot)
{
    return state->holder + (size_t)slot * (size_t)state->weeks;
}

static void fill(State *state, int slot, int option, int value)
{
    int *held = holders(state, slot);
    const StateOption *o = &state->index->options[option];
    for (int t = o->set; t < o->clear; t++) {
        held[t] = value;
    }
}

bool state_floor_fits(const State *state, int slot, int option)
{
    const StateOption *o = &state->index->options[option];
    const int *held = holders(state, slot);
    for (int t = o->set; t < o->clear; t++) {
        if (held[t] != HOLDER_FREE) {
            return false;
        }
    }
    return true;
}

void state_floor_put(State *state, int slot, int option)
{
    assert(state->op_count < STATE_OPS);
    fill(state, slot, option, option + 1);
    state_log(state, (StateOp){OP_FLOOR_PUT, slot, option, 0});
    state_add_option(state, option, 1.0);
    state->now.linear += state_keep_floor(state, slot, option);
}

void state_floor_take(State *state, int slot, int option)
{
    assert(state->op_count < STATE_OPS);
    fill(state, slot, option, HOLDER_FREE);
    state_log(state, (StateOp){OP_FLOOR_TAKE, slot, option, 0});
    state_add_option(state, option, -1.0);
    state->now.linear -= state_keep_floor(state, slot, option);
}

static double shade_in(const State *state, int bed, int week)
{
    const StateEdge *edges = state->edges + bed * STATE_EDGES;
    double shade = 0.0;
    for (int i = 0; i < state->edge_count[bed]; i++) {
        const StateOption *o = &state->index->options[edges[i].option];
        if (week >= o->shade.from && week < o->shade.until) {
            shade +=
                edges[i].plants *
                state->problem->options[edges[i].option].shade[week - o->shift];
        }
    }
    return shade;
}

bool state_bed_has_sun(const State *state, int bed, int from, int until)
{
    if (state->edge_count[bed] == 0) {
        return true;
    }
    const StateIndex *index = state->index;
    int first = index->bed_slot[bed], end = index->bed_slot[bed + 1];
    for (int t = from; t < until; t++) {
        double room = end - first - shade_in(state, bed, t) + 1e-9;
        int sunny = 0;
        for (int s = first; s < end; s++) {
            int held = holders(state, s)[t];
            sunny += held > 0 && index->options[held - 1].wants_sun;
        }
        if (sunny > room && sunny > 0) {
            return false;
        }
    }
    return true;
}

double state_bed_shade(const State *state, int bed, int week)
{
    return shade_in(state, bed, week);
}

bool state_bed_sun_left(const State *state, int bed, int week)
{
    if (state->edge_count[bed] == 0) {
        return true;
    }
    const StateIndex *index = state->index;
    int first = index->bed_slot[bed], end = index->bed_slot[bed + 1];
    int sunny = 1;
    for (int s = first; s < end; s++) {
        int held = holders(state, s)[week];
        sunny += held > 0 && index->options[held - 1].wants_sun;
    }
    return sunny <= end - first - shade_in(state, bed, week) + 1e-9;
}

static double edge_held(const State *state, int bed, int but, int week)
{
    const StateEdge *edges = state->edges + bed * STATE_EDGES;
    double held = 0.0;
    for (int i = 0; i < state->edge_count[bed]; i++) {
        const StateOption *o = &state->index->options[edges[i].option];
        if (edges[i].option != but && week >= o->set && week < o->clear) {
            held += edges[i].plants *
                    state->problem->options[edges[i].option].place;
        }
    }
    return held;
}

int state_edge_room(const State *state, int bed, int option)
{
    const StateOption *o = &state->index->options[option];
    const PlanBed *b = &state->problem->beds[bed];
    double place = state->problem->options[option].place;
    double most = b->edge_m;
    if (o->set < b->first_week || o->clear > b->last_week + 1) {
        return 0;
    }
    int clean = state->clean_week[bed];
    if (clean != PLAN_NONE && clean >= o->set && clean < o->clear) {
        return 0;
    }
    for (int t = o->set; t < o->clear; t++) {
        double room = b->has_edge[t] ? b->edge_m : 0.0;
        room -= edge_held(state, bed, option, t);
        most = room < most ? room : most;
    }
    return (int)floor(most / place + 1e-9);
}

static int edge_at(const State *state, int bed, int option)
{
    const StateEdge *edges = state->edges + bed * STATE_EDGES;
    for (int i = 0; i < state->edge_count[bed]; i++) {
        if (edges[i].option == option) {
            return i;
        }
    }
    return PLAN_NONE;
}

int state_edge_plants(const State *state, int bed, int option)
{
    int at = edge_at(state, bed, option);
    return at == PLAN_NONE ? 0 : state->edges[bed * STATE_EDGES + at].plants;
}

static bool place_edge(State *state, int bed, int option, int plants)
{
    StateEdge *edges = state->edges + bed * STATE_EDGES;
    int at = edge_at(state, bed, option);
    if (at == PLAN_NONE) {
        if (plants == 0) {
            return true;
        }
        if (state->edge_count[bed] == STATE_EDGES) {
            return false;
        }
        edges[state->edge_count[bed]++] = (StateEdge){option, plants};
        return true;
    }
    if (plants == 0) {
        edges[at] = edges[--state->edge_count[bed]];
    } else {
        edges[at].plants = plants;
    }
    return true;
}

bool state_edge_set(State *state, int bed, int option, int plants)
{
    int before = state_edge_plants(state, bed, option);
    if (!place_edge(state, bed, option, plants)) {
        return false;
    }
    state_log(state, (StateOp){OP_EDGE, bed, option, before});
    state_add_option(state, option, plants - before);
    state->now.linear += state_keep_edge(state, bed, option, plants) -
                         state_keep_edge(state, bed, option, before);
    return true;
}

static int cleans_row(const State *state, int bed)
{
    int loop = state->problem->kinds[state->problem->beds[bed].kind].loop;
    int last = state->problem->loop_count;
    return state->index->rows.cleans + (loop == PLAN_NONE ? last : loop);
}

static void hold_clean(State *state, int bed, int week, int value)
{
    const StateIndex *index = state->index;
    for (int s = index->bed_slot[bed]; s < index->bed_slot[bed + 1]; s++) {
        holders(state, s)[week] = value;
    }
}

bool state_clean_fits(const State *state, int bed, int week)
{
    const StateIndex *index = state->index;
    const PlanBed *b = &state->problem->beds[bed];
    if (week < b->first_week || week > b->clean_by || week > b->last_week) {
        return false;
    }
    for (int s = index->bed_slot[bed]; s < index->bed_slot[bed + 1]; s++) {
        if (holders(state, s)[week] != HOLDER_FREE) {
            return false;
        }
    }
    if (edge_held(state, bed, PLAN_NONE, week) > 0.0) {
        return false;
    }
    int row = cleans_row(state, bed);
    const double *begun = state_row(state, row);
    double before = week > 0 ? begun[week - 1] : 0.0;
    double after = week + 1 < state->weeks ? begun[week + 1] : 0.0;
    double more = before > after ? before : after;
    return begun[week] + 1.0 + more <=
           state->cleans_most[row - state->index->rows.cleans] + 1e-9;
}

static void count_clean(State *state, int bed, int week, double sign)
{
    if (week == PLAN_NONE) {
        return;
    }
    const Problem *p = state->problem;
    int row = cleans_row(state, bed);
    state_touch(state, row, week, week + 1);
    state_row(state, row)[week] += sign;
    int hours = state->index->rows.hours;
    state_touch(state, hours, week, week + 1);
    state_row(state, hours)[week] += sign * p->clean_hours[p->beds[bed].kind];
}

void state_clean_set(State *state, int bed, int week)
{
    int before = state->clean_week[bed];
    count_clean(state, bed, before, -1.0);
    count_clean(state, bed, week, 1.0);
    if (before != PLAN_NONE) {
        hold_clean(state, bed, before, HOLDER_FREE);
    }
    if (week != PLAN_NONE) {
        hold_clean(state, bed, week, HOLDER_CLEAN);
    }
    state->clean_week[bed] = week;
    state_log(state, (StateOp){OP_CLEAN, bed, PLAN_NONE, before});
}

static void undo_clean(State *state, const StateOp *op)
{
    if (state->clean_week[op->place] != PLAN_NONE) {
        hold_clean(state, op->place, state->clean_week[op->place], HOLDER_FREE);
    }
    if (op->before != PLAN_NONE) {
        hold_clean(state, op->place, op->before, HOLDER_CLEAN);
    }
    state->clean_week[op->place] = op->before;
}

void state_undo_ops(State *state)
{
    for (int i = state->op_count - 1; i >= 0; i--) {
        const StateOp *op = &state->ops[i];
        switch (op->kind) {
        case OP_FLOOR_PUT:
            fill(state, op->place, op->option, HOLDER_FREE);
            break;
        case OP_FLOOR_TAKE:
            fill(state, op->place, op->option, op->option + 1);
            break;
        case OP_EDGE:
            place_edge(state, op->place, op->option, op->before);
            break;
        case OP_CLEAN:
            undo_clean(state, op);
            break;
        case OP_STOCK:
            state_undo_stock(state, op);
            break;
        }
    }
}
