/* A good place to start where there is little time for so large a farm: what
 * beds would hold if sections could be shared among plantings, and then whole
 * sections, one after another (search_blend_give.c).
 *
 * A section's plantings are a path through its free weeks. At given prices
 * (search_blend_prices.c) the best path is found from the last week back; a
 * part of it is blended into what all sections hold, the prices follow, and so
 * on: the blend of all paths, each round's share 2 / (round + 2), comes near
 * the best that shared sections earn.
 * Source: [FW1956] for the blending, there of a concave value by its slope. */
#include <math.h>

#include "plan/search_blend.h"

static const struct {
    int rounds;
    int edge_parts; /* strips of a bed's edge */
} BLEND = {30, 4};

static bool is_edge_free(const Search *search, int bed, int week)
{
    const PlanBed *b = &search->problem->beds[bed];
    const State *state = &search->state;
    if (!b->has_edge[week] || week < b->first_week || week > b->last_week ||
        state->clean_week[bed] == week) {
        return false;
    }
    for (int i = 0; i < state->edge_count[bed]; i++) {
        int option = state->edges[bed * STATE_EDGES + i].option;
        if (!search_is_free(search, option) &&
            search_overlaps(&search->index.options[option], week, week + 1)) {
            return false;
        }
    }
    return true;
}

static bool is_free(const Search *search, const BlendStrip *strip, int week)
{
    if (strip->slot == PLAN_NONE) {
        return is_edge_free(search, strip->bed, week);
    }
    size_t at = (size_t)strip->slot * (size_t)search->state.weeks;
    return search->state.holder[at + (size_t)week] == HOLDER_FREE;
}

static bool are_alike(const Search *search, const BlendStrip *a,
                      const BlendStrip *b)
{
    const PlanBed *beds = search->problem->beds;
    if (a->place != b->place ||
        (a->slot == PLAN_NONE &&
         fabs(beds[a->bed].edge_m - beds[b->bed].edge_m) > 1e-9)) {
        return false;
    }
    for (int t = 0; t < search->state.weeks; t++) {
        if (is_free(search, a, t) != is_free(search, b, t)) {
            return false;
        }
    }
    return true;
}

static void add_strip(Blend *blend, int bed, int slot)
{
    const Search *search = blend->search;
    BlendStrip *strip = &blend->strips[blend->strip_count];
    int kind = search->problem->beds[bed].kind;
    *strip = (BlendStrip){bed, slot, 2 * kind + (slot == PLAN_NONE)};
    int g = 0;
    while (g < blend->group_count &&
           !are_alike(search, strip, &blend->strips[blend->groups[g].strip])) {
        g++;
    }
    if (g == blend->group_count) {
        blend->groups[blend->group_count++].strip = blend->strip_count;
    }
    blend->groups[g].count++;
    blend->place_strips[strip->place]++;
    blend->strip_count++;
}

static void list_strips(Blend *blend, Arena *arena)
{
    const Search *search = blend->search;
    const Problem *p = search->problem;
    int most = search->index.slot_count + BLEND.edge_parts * p->bed_count;
    blend->strips = ARENA_ARRAY(arena, BlendStrip, most);
    blend->groups = ARENA_ARRAY(arena, BlendGroup, most);
    blend->bed_strip = ARENA_ARRAY(arena, int, p->bed_count + 1);
    blend->place_strips = ARENA_ARRAY(arena, int, 2 * p->kind_count);
    for (int b = 0; b < p->bed_count; b++) {
        int parts = p->beds[b].edge_m > 0.0 ? BLEND.edge_parts : 0;
        blend->bed_strip[b] = blend->strip_count;
        for (int i = 0; i < parts; i++) {
            add_strip(blend, b, PLAN_NONE);
        }
        for (int s = search->index.bed_slot[b];
             s < search->index.bed_slot[b + 1]; s++) {
            add_strip(blend, b, s);
        }
    }
    blend->bed_strip[p->bed_count] = blend->strip_count;
}

static void list_rows(Blend *blend, Arena *arena)
{
    const Problem *p = blend->search->problem;
    const StateRows *rows = &blend->search->index.rows;
    int count = 0;
    blend->rows =
        ARENA_ARRAY(arena, int, 2 + p->loop_count + 2 * p->goods_count);
    blend->goods_row = ARENA_ARRAY(arena, int, p->goods_count);
    blend->rows[count++] = rows->hours;
    blend->rows[count++] = rows->trays;
    for (int l = 0; l < p->loop_count; l++) {
        blend->rows[count++] = rows->want + l;
    }
    for (int g = 0; g < p->goods_count; g++) {
        blend->goods_row[g] = count;
        if (!p->goods[g].is_fish) {
            blend->rows[count++] = rows->low + g;
            blend->rows[count++] = rows->mean + g;
        }
    }
    blend->state_row_count = count;
    blend->row_count = count + p->kind_count;
}

/* Sun that is taken as things stand, and all that there is. */
static void count_sun(Blend *blend)
{
    const Search *search = blend->search;
    const StateIndex *index = &search->index;
    const Problem *p = search->problem;
    int weeks = p->week_count;
    for (int b = 0; b < p->bed_count; b++) {
        double *taken = blend->sun + p->beds[b].kind * weeks;
        double *most = blend->sun_most + p->beds[b].kind * weeks;
        for (int t = 0; t < weeks; t++) {
            taken[t] += state_bed_shade(&search->state, b, t);
        }
        for (int s = index->bed_slot[b]; s < index->bed_slot[b + 1]; s++) {
            const int *held = search->state.holder + s * weeks;
            for (int t = 0; t < weeks; t++) {
                most[t] += held[t] >= 0;
                taken[t] +=
                    held[t] > 0 && index->options[held[t] - 1].wants_sun;
            }
        }
    }
}

static void blend_open(Blend *blend, Search *search, Arena *arena)
{
    const Problem *p = search->problem;
    int weeks = p->week_count;
    *blend = (Blend){.search = search};
    list_strips(blend, arena);
    list_rows(blend, arena);
    int cells = blend->row_count * weeks;
    blend->base = ARENA_ARRAY(arena, double, cells);
    blend->shared = ARENA_ARRAY(arena, double, 2 * p->kind_count * cells);
    blend->fresh = ARENA_ARRAY(arena, double, 2 * p->kind_count * cells);
    blend->worth = ARENA_ARRAY(arena, double, p->option_count);
    blend->ahead = ARENA_ARRAY(arena, double, weeks + 1);
    blend->choice = ARENA_ARRAY(arena, int, weeks + 1);
    blend->free_end = ARENA_ARRAY(arena, int, weeks + 1);
    blend->sun_end = ARENA_ARRAY(arena, int, weeks + 1);
    blend->sun = ARENA_ARRAY(arena, double, p->kind_count *weeks);
    blend->sun_most = ARENA_ARRAY(arena, double, p->kind_count *weeks);
    count_sun(blend);
    for (int i = 0; i < blend->state_row_count; i++) {
        search_copy(blend->base + i * weeks,
                    state_row(&search->state, blend->rows[i]), weeks,
                    sizeof(double));
    }
    search_copy(blend->base + blend->state_row_count * weeks, blend->sun,
                p->kind_count * weeks, sizeof(double));
    blend_open_prices(blend, arena);
}

/* For each week the end of the free weeks it is in, and of those with sun. */
static void mark_weeks(Blend *blend, const BlendStrip *strip)
{
    const Search *search = blend->search;
    int weeks = search->state.weeks;
    int end = weeks, sun_end = weeks;
    bool asks_sun = blend->is_whole && strip->slot != PLAN_NONE;
    for (int t = weeks - 1; t >= 0; t--) {
        end = is_free(search, strip, t) ? end : t;
        if (asks_sun && !state_bed_sun_left(&search->state, strip->bed, t)) {
            sun_end = t;
        }
        blend->free_end[t] = end;
        blend->sun_end[t] = sun_end;
    }
}

/* The best option to set in a week, what follows it included. Seedlings that
 * stand are few: moves find their places. */
static void choose(Blend *blend, const StateMenu *menu, int cell, int week)
{
    const Search *search = blend->search;
    int end = blend->free_end[week], sun_end = blend->sun_end[week];
    double best = blend->ahead[week + 1];
    int choice = PLAN_NONE;
    for (int i = menu->from[cell]; end > week && i < menu->from[cell + 1];
         i++) {
        int option = menu->options[i];
        const StateOption *o = &search->index.options[option];
        double worth = blend->worth[option] + blend->ahead[o->clear];
        if (worth > best && o->clear <= end &&
            (!o->wants_sun || o->clear <= sun_end) &&
            search->problem->options[option].trays_of == 0) {
            best = worth;
            choice = option;
        }
    }
    blend->ahead[week] = best;
    blend->choice[week] = choice;
}

void blend_best_path(Blend *blend, const BlendStrip *strip)
{
    const Search *search = blend->search;
    const Problem *p = search->problem;
    const StateMenu *menu =
        strip->slot == PLAN_NONE ? &search->index.edge : &search->index.floor;
    mark_weeks(blend, strip);
    for (int t = p->week_count; t >= p->horizon; t--) {
        blend->ahead[t] = 0.0;
    }
    for (int t = p->horizon - 1; t >= search->index.first_week; t--) {
        choose(blend, menu, strip->place / 2 * p->week_count + t, t);
    }
}

int blend_next(const Blend *blend, int week)
{
    int horizon = blend->search->problem->horizon;
    for (int t = week; t < horizon; t++) {
        if (blend->choice[t] != PLAN_NONE) {
            return blend->choice[t];
        }
    }
    return PLAN_NONE;
}

int blend_units(const Blend *blend, const BlendStrip *strip, int option)
{
    if (strip->slot != PLAN_NONE) {
        return 1;
    }
    const Problem *p = blend->search->problem;
    double metres = p->beds[strip->bed].edge_m / BLEND.edge_parts;
    return (int)floor(metres / p->options[option].place + 1e-9);
}

static void add_profile(double *cells, StateSpan span, const double *values,
                        double units)
{
    for (int t = span.from; t < span.until; t++) {
        cells[t] += units * values[t];
    }
}

void blend_take_sun(const Blend *blend, int option, double units, double *sun)
{
    const StateOption *o = &blend->search->index.options[option];
    const PlanOption *plan = &blend->search->problem->options[option];
    if (o->is_edge) {
        add_profile(sun, o->shade, plan->shade - o->shift, units);
    }
    for (int t = o->set; t < o->clear && o->wants_sun && !o->is_edge; t++) {
        sun[t] += units;
    }
}

static void add_fresh(Blend *blend, int place, int option, double units)
{
    const Problem *p = blend->search->problem;
    const StateOption *o = &blend->search->index.options[option];
    const PlanOption *plan = &p->options[option];
    int weeks = p->week_count;
    double *cells = blend->fresh + place * blend->row_count * weeks;
    double *low = cells + blend->goods_row[o->goods] * weeks;
    add_profile(cells, o->hours, plan->hours - o->shift, units);
    add_profile(cells + weeks, o->trays, plan->trays - o->shift, units);
    if (o->loop != PLAN_NONE) {
        add_profile(cells + (2 + o->loop) * weeks, o->want,
                    plan->want_kg - o->shift, units);
    }
    add_profile(low, o->yield, plan->low - o->shift, units);
    add_profile(low + weeks, o->yield, plan->mean - o->shift, units);
    blend_take_sun(blend, option, units,
                   cells + (blend->state_row_count + plan->kind) * weeks);
}

/* The rows are to hold what is there and the whole blend. */
static void fill_rows(Blend *blend)
{
    State *state = &blend->search->state;
    int weeks = state->weeks;
    for (int i = 0; i < blend->row_count; i++) {
        double *cells = blend->sun + (i - blend->state_row_count) * weeks;
        if (i < blend->state_row_count) {
            state_touch(state, blend->rows[i], 0, weeks);
            cells = state_row(state, blend->rows[i]);
        }
        search_copy(cells, blend->base + i * weeks, weeks, sizeof(double));
        for (int c = 0; c < 2 * state->problem->kind_count; c++) {
            const double *shared =
                blend->shared + (c * blend->row_count + i) * weeks;
            for (int t = 0; t < weeks; t++) {
                cells[t] += shared[t];
            }
        }
    }
    state_settle(state);
    state_commit(state);
}

static void blend_in(Blend *blend, double share)
{
    const Search *search = blend->search;
    const Problem *p = search->problem;
    int cells = 2 * p->kind_count * blend->row_count * p->week_count;
    memset(blend->fresh, 0, (size_t)cells * sizeof(double));
    for (int g = 0; g < blend->group_count; g++) {
        const BlendGroup *group = &blend->groups[g];
        const BlendStrip *strip = &blend->strips[group->strip];
        blend_best_path(blend, strip);
        int option = blend_next(blend, search->index.first_week);
        while (option != PLAN_NONE) {
            add_fresh(blend, strip->place, option,
                      group->count * blend_units(blend, strip, option));
            option = blend_next(blend, search->index.options[option].clear);
        }
    }
    for (int i = 0; i < cells; i++) {
        blend->shared[i] += share * (blend->fresh[i] - blend->shared[i]);
    }
    fill_rows(blend);
}

void search_blend(Search *search)
{
    CLEANUP(arena_release) Arena arena = {0};
    Blend blend;
    blend_open(&blend, search, &arena);
    for (int k = 0; k < BLEND.rounds; k++) {
        blend_make_prices(&blend);
        blend_in(&blend, 2.0 / (k + 2.0));
    }
    blend_give(&blend, &arena);
    state_rebuild(&search->state);
}
