/* Whole strips from a blend: each in turn gives back its share and takes the
 * best path of its own at the prices that are then. */
#include "plan/search_blend.h"

/* Prices are made so often at most while strips are given. */
enum { PRICES_MOST = 200 };

static void take_back(Blend *blend, int place)
{
    State *state = &blend->search->state;
    int weeks = state->weeks;
    double share = 1.0 / blend->place_strips[place]--;
    for (int i = 0; i < blend->row_count; i++) {
        double *shared = blend->shared + (place * blend->row_count + i) * weeks;
        double *cells = blend->sun + (i - blend->state_row_count) * weeks;
        if (i < blend->state_row_count) {
            state_touch(state, blend->rows[i], 0, weeks);
            cells = state_row(state, blend->rows[i]);
        }
        for (int t = 0; t < weeks; t++) {
            double part = share * shared[t];
            shared[t] -= part;
            cells[t] -= part;
        }
    }
    state_settle(state);
    state_commit(state);
}

static bool put(State *state, const BlendStrip *strip, int option, int units)
{
    if (strip->slot != PLAN_NONE) {
        state_floor_put(state, strip->slot, option);
        return true;
    }
    int plants = state_edge_plants(state, strip->bed, option) + units;
    return plants <= state_edge_room(state, strip->bed, option) &&
           state_edge_set(state, strip->bed, option, plants);
}

/* Sets so many units if there is room and sun, and if it earns something. */
static bool try_put(Blend *blend, const BlendStrip *strip, int option,
                    int units)
{
    Search *search = blend->search;
    State *state = &search->state;
    const StateOption *o = &search->index.options[option];
    double before = state->now.value;
    bool is_put = put(state, strip, option, units);
    if (is_put && (o->wants_sun || o->is_edge)) {
        is_put = state_bed_has_sun(state, strip->bed, o->set, o->clear);
    }
    if (!is_put || state_settle_above(state, before) < before) {
        state_undo(state);
        return false;
    }
    state_commit(state);
    int kind = search->problem->beds[strip->bed].kind;
    blend_take_sun(blend, option, units, blend->sun + kind * state->weeks);
    return true;
}

static void give_path(Blend *blend, const BlendStrip *strip)
{
    const Search *search = blend->search;
    blend_best_path(blend, strip);
    int option = blend_next(blend, search->index.first_week);
    while (option != PLAN_NONE) {
        int units = blend_units(blend, strip, option);
        while (units > 0 && !try_put(blend, strip, option, units)) {
            units /= 2;
        }
        option = blend_next(blend, search->index.options[option].clear);
    }
}

void blend_give(Blend *blend, Arena *arena)
{
    Search *search = blend->search;
    int beds = search->problem->bed_count;
    int hold = blend->strip_count / PRICES_MOST + 1;
    int given = 0;
    int *order = ARENA_ARRAY(arena, int, beds);
    blend->is_whole = true;
    for (int b = 0; b < beds; b++) {
        order[b] = b;
    }
    for (int i = 0; i < beds; i++) {
        int j = i + (int)search_below(search, beds - i);
        int bed = order[j];
        order[j] = order[i];
        for (int s = blend->bed_strip[bed]; s < blend->bed_strip[bed + 1];
             s++) {
            take_back(blend, blend->strips[s].place);
            if (given++ % hold == 0) {
                blend_make_prices(blend);
            }
            give_path(blend, &blend->strips[s]);
        }
    }
}
