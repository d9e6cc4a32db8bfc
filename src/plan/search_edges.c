/* Moves on edges, cleanings and stores. */
#include "plan/search_parts.h"

/* An edge batch of the bed in those weeks that may be changed. */
static int random_edge(Search *search, int bed, int from, int until)
{
    const State *state = &search->state;
    int count = state->edge_count[bed];
    int first = count > 0 ? (int)search_below(search, count) : 0;
    for (int i = 0; i < count; i++) {
        int option =
            state->edges[bed * STATE_EDGES + (first + i) % count].option;
        if (search_is_free(search, option) &&
            search_overlaps(&search->index.options[option], from, until)) {
            return option;
        }
    }
    return PLAN_NONE;
}

bool search_clear_shade(Search *search, int bed, int from, int until)
{
    while (!state_bed_has_sun(&search->state, bed, from, until)) {
        int option = random_edge(search, bed, from, until);
        if (option == PLAN_NONE) {
            return false;
        }
        int plants = state_edge_plants(&search->state, bed, option);
        state_edge_set(&search->state, bed, option,
                       (int)search_below(search, plants));
    }
    return true;
}

/* Takes sun-loving batches of a bed until the shade in those weeks suffices. */
static bool clear_sun(Search *search, int bed, int from, int until)
{
    State *state = &search->state;
    const StateIndex *index = &search->index;
    int first = index->bed_slot[bed];
    int count = index->bed_slot[bed + 1] - first;
    for (int t = from; t < until; t++) {
        int start = (int)search_below(search, count);
        for (int i = 0; i < count; i++) {
            if (state_bed_has_sun(state, bed, t, t + 1)) {
                break;
            }
            int slot = first + (start + i) % count;
            int held =
                state->holder[(size_t)slot * (size_t)state->weeks + (size_t)t];
            if (held > 0 && search_is_free(search, held - 1) &&
                index->options[held - 1].wants_sun) {
                state_floor_take(state, slot, held - 1);
            }
        }
        if (!state_bed_has_sun(state, bed, t, t + 1)) {
            return false;
        }
    }
    return true;
}

/* Sets so many plants more of an option on the bed's edge, at random up to what
 * fits; others give way when nothing does. */
static bool plant_edge(Search *search, int bed, int option)
{
    State *state = &search->state;
    const StateOption *o = &search->index.options[option];
    int before = state_edge_plants(state, bed, option);
    int room = state_edge_room(state, bed, option) - before;
    if (room <= 0 || search_below(search, 4) == 0) {
        int other = random_edge(search, bed, o->set, o->clear);
        if (other == PLAN_NONE || other == option) {
            return false;
        }
        state_edge_set(state, bed, other, 0);
        room = state_edge_room(state, bed, option) - before;
    }
    if (room <= 0) {
        return false;
    }
    int more = search_below(search, 2) == 0
                   ? room
                   : 1 + (int)search_below(search, room);
    if (!state_edge_set(state, bed, option, before + more)) {
        return false;
    }
    return state_bed_has_sun(state, bed, o->set, o->clear) ||
           (search_below(search, 2) == 0 &&
            clear_sun(search, bed, o->set, o->clear));
}

static bool change_edge(Search *search, int bed)
{
    State *state = &search->state;
    int option = random_edge(search, bed, 0, state->weeks);
    if (option == PLAN_NONE) {
        return false;
    }
    int plants = state_edge_plants(state, bed, option);
    if (search_below(search, 2) == 0) {
        state_edge_set(state, bed, option, (int)search_below(search, plants));
        return true;
    }
    int other = search_neighbour(search, option);
    if (other == PLAN_NONE) {
        return false;
    }
    state_edge_set(state, bed, option, 0);
    int room = state_edge_room(state, bed, other) -
               state_edge_plants(state, bed, other);
    plants = plants < room ? plants : room;
    const StateOption *o = &search->index.options[other];
    return plants > 0 &&
           state_edge_set(state, bed, other,
                          plants + state_edge_plants(state, bed, other)) &&
           state_bed_has_sun(state, bed, o->set, o->clear);
}

bool search_edge(Search *search)
{
    const StateIndex *index = &search->index;
    if (index->edge_bed_count == 0 || index->edge.count == 0) {
        return false;
    }
    int bed = index->edge_beds[search_below(search, index->edge_bed_count)];
    if (search_below(search, 3) == 0) {
        return change_edge(search, bed);
    }
    int first = index->first_week;
    int week =
        first + (int)search_below(search, search->problem->horizon - first);
    int cell =
        search->problem->beds[bed].kind * search->problem->week_count + week;
    int option = search_pick(search, &index->edge, cell, search->state.weeks);
    return option != PLAN_NONE && plant_edge(search, bed, option);
}

bool search_store(Search *search)
{
    if (search->store_goods_count == 0) {
        return false;
    }
    enum { REACH = 12, REACH_JOINED = 1 };
    State *state = &search->state;
    const Sales *sales = &search->sales;
    int goods =
        search->store_goods[search_below(search, search->store_goods_count)];
    int from = (int)search_below(search, state->weeks);
    /* Joined goods take a small linear programme at every look. */
    int until = from + (sales->families[sales->family_of[goods]].is_ladder
                            ? REACH
                            : REACH_JOINED);
    until = until < state->weeks ? until : state->weeks;
    bool has_change = false;
    for (int t = from; t < until; t++) {
        has_change = state_store_best(state, goods, t) || has_change;
    }
    for (int t = until - 1; t >= from; t--) {
        has_change = state_store_best(state, goods, t) || has_change;
    }
    return has_change;
}

/* After a trial touched goods that can be kept: the best stores around. */
bool search_mend_stores(Search *search)
{
    State *state = &search->state;
    const StateRows *rows = &search->index.rows;
    bool has_change = false;
    for (int i = 0; i < search->store_goods_count; i++) {
        int goods = search->store_goods[i];
        int row = rows->mean + goods;
        int from = state->touch_from[row], until = state->touch_until[row];
        if (from >= until ||
            !search->sales.families[search->sales.family_of[goods]].is_ladder) {
            continue;
        }
        from = from > 1 ? from - 2 : 0;
        for (int t = until < state->weeks ? until : state->weeks - 1; t >= from;
             t--) {
            has_change = state_store_best(state, goods, t) || has_change;
        }
        for (int t = from; t < until; t++) {
            has_change = state_store_best(state, goods, t) || has_change;
        }
    }
    return has_change;
}
