/* A large change of fish, given time to settle before it is judged.
 *
 * Young fish stocked in another week, or room made for them, are seldom worth
 * it at once: the other fish have not yet found their new places. So such a
 * change is followed by some small moves of fish, and all of it is taken or
 * left together. */
#include <math.h>
#include <string.h>

#include "plan/search_parts.h"

void search_voyage_open(Search *search, Arena *arena)
{
    const Problem *p = search->problem;
    SearchVoyage *v = &search->voyage;
    int cells = search->index.rows.count * search->state.weeks;
    v->loop = v->drawn_loop = PLAN_NONE;
    v->cells = ARENA_ARRAY(arena, double, cells);
    v->stocks = ARENA_ARRAY(arena, StateStock, p->stock_count);
    v->active = ARENA_ARRAY(arena, int, p->stock_count);
    v->active_at = ARENA_ARRAY(arena, int, p->stock_count);
    v->tank_faults = ARENA_ARRAY(arena, double, p->tank_count);
    v->there = ARENA_ARRAY(arena, uint8_t,
                           p->stock_count * state_there_size(&search->state));
}

static void leave(Search *search)
{
    const Problem *p = search->problem;
    const State *s = &search->state;
    SearchVoyage *v = &search->voyage;
    search_copy(v->cells, s->cells, search->index.rows.count * s->weeks,
                sizeof(double));
    search_copy(v->stocks, s->stocks, p->stock_count, sizeof(StateStock));
    search_copy(v->active, s->active, p->stock_count, sizeof(int));
    search_copy(v->active_at, s->active_at, p->stock_count, sizeof(int));
    search_copy(v->tank_faults, s->tank_faults, p->tank_count, sizeof(double));
    search_copy(v->there, s->there, p->stock_count * state_there_size(s), 1);
    v->active_count = s->active_count;
    v->now = s->now;
}

static void come_back(Search *search)
{
    const Problem *p = search->problem;
    State *s = &search->state;
    const SearchVoyage *v = &search->voyage;
    search_copy(s->cells, v->cells, search->index.rows.count * s->weeks,
                sizeof(double));
    search_copy(s->stocks, v->stocks, p->stock_count, sizeof(StateStock));
    search_copy(s->active, v->active, p->stock_count, sizeof(int));
    search_copy(s->active_at, v->active_at, p->stock_count, sizeof(int));
    search_copy(s->tank_faults, v->tank_faults, p->tank_count, sizeof(double));
    search_copy(s->tank_faults_before, v->tank_faults, p->tank_count,
                sizeof(double));
    search_copy(s->there, v->there, p->stock_count * state_there_size(s), 1);
    s->active_count = v->active_count;
    s->now = s->before = v->now;
}

static bool settle_trial(Search *search, bool is_sensible, double least)
{
    State *state = &search->state;
    if (is_sensible && state_settle_above(state, least) >= least) {
        state_commit(state);
        return true;
    }
    state_undo(state);
    return false;
}

/* Measured on the demo farm's fish alone. */
static const struct {
    int steps;    /* small moves after a large one */
    double cool;  /* their warmth over that of fish moves */
    double reach; /* a large change may first cost so many warmths */
} VOYAGE = {60, 0.03, 50.0};

void search_voyage(Search *search, double heat)
{
    if (search->young_count == 0) {
        return;
    }
    State *state = &search->state;
    double before = state->now.value;
    leave(search);
    search_price_feed(search);
    if (!settle_trial(search, search_fish_large(search),
                      before - VOYAGE.reach * heat)) {
        return;
    }
    search->voyage.loop = search->voyage.drawn_loop;
    for (int i = 0; i < VOYAGE.steps; i++) {
        double least = state->now.value +
                       VOYAGE.cool * heat * log(1.0 - rng_f64(&search->rng));
        settle_trial(search, search_fish_small(search), least);
    }
    search->voyage.loop = PLAN_NONE;
    if (state->now.value < before + heat * log(1.0 - rng_f64(&search->rng))) {
        come_back(search);
    }
}
