/* Annealing: temperatures, the mix of moves, the best plan met. */
#include "plan/search.h"

#include <math.h>
#include <string.h>

#include "plan/search_parts.h"

/* How the search works; measured on invented farms (bench/gap). */
static const struct {
    double warm_batches; /* temperatures, in worths of a typical batch */
    double cold_batches;
    double blend_batches;   /* warmth after a blend */
    double blend_moves;     /* a section's week: with fewer it begins so */
    double reach_batches;   /* short of taking by so much: look at stores */
    double fish_warmth;     /* fish moves are larger: times the temperature */
    int step_moves;         /* of one search_step */
    int score_moves;        /* scores hold for so many moves at least */
    uint32_t voyage_one_in; /* of fish moves */
    int rebuild_steps;      /* rows are made afresh every so many steps */
    int moves_a_slot_week;  /* default length */
    double moves_many;      /* above it only a share: a blend does the rest */
    double share_of_more;
    double moves_least;
    double moves_most;
} SEARCH = {0.10, 0.0015, 0.02, 40.0,  0.2,  18.0, 2000, 8000,
            4,    200,    88,   1.2e6, 0.35, 4e5,  4e7};

/* Moves and how often they are drawn. */
static const struct {
    SearchMove move;
    int weight;
} MOVES[] = {
    {search_fill, 250}, {search_insert, 300}, {search_shift, 200},
    {search_drop, 15},  {search_cross, 60},   {search_edge, 100},
    {search_clean, 5},  {search_store, 60},   {search_fish, 20},
    {search_mix, 10},
};

enum { MOVE_COUNT = sizeof MOVES / sizeof MOVES[0] };

static double slot_weeks(const Problem *problem)
{
    double slots = 0.0;
    for (int b = 0; b < problem->bed_count; b++) {
        slots += problem->beds[b].sections;
    }
    return slots * problem->horizon;
}

int64_t search_default_moves(const Problem *problem)
{
    double moves = slot_weeks(problem) * SEARCH.moves_a_slot_week;
    if (moves > SEARCH.moves_many) {
        moves = SEARCH.moves_many +
                SEARCH.share_of_more * (moves - SEARCH.moves_many);
    }
    moves = moves < SEARCH.moves_least ? SEARCH.moves_least : moves;
    moves = moves > SEARCH.moves_most ? SEARCH.moves_most : moves;
    return (int64_t)moves;
}

static void list_choices(Search *search, Arena *arena)
{
    const Problem *p = search->problem;
    search->clean_beds = ARENA_ARRAY(arena, int, p->bed_count);
    search->store_goods = ARENA_ARRAY(arena, int, p->goods_count);
    search->young = ARENA_ARRAY(arena, int, p->stock_count);
    for (int b = 0; b < p->bed_count; b++) {
        if (p->beds[b].clean_by != PLAN_NONE) {
            search->clean_beds[search->clean_bed_count++] = b;
        }
    }
    for (int g = 0; g < p->goods_count; g++) {
        if (p->goods[g].keep > 0.0 && p->goods[g].store_max > 0.0 &&
            p->store_room_kg > 0.0) {
            search->store_goods[search->store_goods_count++] = g;
        }
    }
    search->fitting = ARENA_ARRAY(arena, StateStock, p->stock_count);
    search->lifted = ARENA_ARRAY(arena, int, p->stock_count);
    search->mixes = ARENA_ARRAY(arena, int, p->product_count);
    for (int i = 0; i < p->product_count; i++) {
        if (p->products[i].part_count > 1) {
            search->mixes[search->mix_count++] = i;
        }
    }
    for (int s = 0; s < p->stock_count; s++) {
        const PlanStock *stock = &p->stocks[s];
        if (!stock->is_standing && stock->most > 0 &&
            stock->start_week >= search->setup.keep_weeks &&
            stock->start_week < p->horizon) {
            search->young[search->young_count++] = s;
        }
    }
}

static void best_open(Search *search, Arena *arena)
{
    const Problem *p = search->problem;
    SearchBest *best = &search->best;
    int slots = search->index.slot_count, weeks = p->week_count;
    *best = (SearchBest){.value = -INFINITY};
    best->holder = ARENA_ARRAY(arena, int, slots *weeks);
    best->edges = ARENA_ARRAY(arena, StateEdge, p->bed_count * STATE_EDGES);
    best->edge_count = ARENA_ARRAY(arena, int, p->bed_count);
    best->clean_week = ARENA_ARRAY(arena, int, p->bed_count);
    best->stocks = ARENA_ARRAY(arena, StateStock, p->stock_count);
    best->active = ARENA_ARRAY(arena, int, p->stock_count);
    best->active_at = ARENA_ARRAY(arena, int, p->stock_count);
    best->stores = ARENA_ARRAY(arena, double, p->goods_count *weeks);
}

static void keep_best(Search *search)
{
    const Problem *p = search->problem;
    const State *s = &search->state;
    SearchBest *best = &search->best;
    if (s->now.value <= best->value) {
        return;
    }
    best->value = s->now.value;
    int stocks = p->stock_count;
    search_copy(best->holder, s->holder, search->index.slot_count * s->weeks,
                sizeof(int));
    search_copy(best->edges, s->edges, p->bed_count * STATE_EDGES,
                sizeof(StateEdge));
    search_copy(best->edge_count, s->edge_count, p->bed_count, sizeof(int));
    search_copy(best->clean_week, s->clean_week, p->bed_count, sizeof(int));
    search_copy(best->stocks, s->stocks, stocks, sizeof(StateStock));
    search_copy(best->active, s->active, stocks, sizeof(int));
    search_copy(best->active_at, s->active_at, stocks, sizeof(int));
    search_copy(best->stores, state_row(s, search->index.rows.store),
                p->goods_count * s->weeks, sizeof(double));
    best->active_count = s->active_count;
}

static void restore_best(Search *search)
{
    const Problem *p = search->problem;
    State *s = &search->state;
    const SearchBest *best = &search->best;
    int stocks = p->stock_count;
    search_copy(s->holder, best->holder, search->index.slot_count * s->weeks,
                sizeof(int));
    search_copy(s->edges, best->edges, p->bed_count * STATE_EDGES,
                sizeof(StateEdge));
    search_copy(s->edge_count, best->edge_count, p->bed_count, sizeof(int));
    search_copy(s->clean_week, best->clean_week, p->bed_count, sizeof(int));
    search_copy(s->stocks, best->stocks, stocks, sizeof(StateStock));
    search_copy(s->active, best->active, stocks, sizeof(int));
    search_copy(s->active_at, best->active_at, stocks, sizeof(int));
    search_copy(state_row(s, search->index.rows.store), best->stores,
                p->goods_count * s->weeks, sizeof(double));
    s->active_count = best->active_count;
    state_rebuild(s);
}

/* Worth of a batch that is worth something, on the empty plan's prices. */
static double typical_batch(const Search *search)
{
    double sum = 0.0;
    int count = 0;
    for (int i = 0; i < search->index.series_count; i++) {
        int option = search->index.series[i];
        const StateOption *o = &search->index.options[option];
        if (!o->is_edge && search->score[option] > 0.0f) {
            sum += (double)search->score[option] * (o->clear - o->set);
            count++;
        }
    }
    return count > 0 ? sum / count : 1.0;
}

/* Warmth of a search that begins with a plan, over the coldest. */
static const double FROM_WARMTH = 3.0;

/* A short search on a large farm has no time to find beds' plantings by itself.
 */
static bool is_short(const Search *search)
{
    return !search->setup.from && search->index.floor.count > 0 &&
           (double)search->moves_all <
               SEARCH.blend_moves * slot_weeks(search->problem);
}

/* A plan that is given is searched on from, not melted down first. */
static void set_warmth(Search *search)
{
    double batch = typical_batch(search);
    search->cold = SEARCH.cold_batches * batch;
    search->warm = search->fish_warm = search->setup.from
                                           ? FROM_WARMTH * search->cold
                                           : SEARCH.warm_batches * batch;
    if (is_short(search)) {
        search->warm = SEARCH.blend_batches * batch;
    }
    search->temperature = search->warm;
    search->reach =
        search->store_goods_count > 0 ? SEARCH.reach_batches * batch : 0.0;
}

Search *search_open(Arena *arena, const Problem *problem,
                    const SearchSetup *setup)
{
    Search *search = ARENA_NEW(arena, Search);
    search->problem = problem;
    search->setup = *setup;
    search->moves_all =
        setup->moves > 0 ? setup->moves : search_default_moves(problem);
    search->rng = rng_make(setup->seed, (uint64_t)setup->start + 1);
    sales_open(&search->sales, problem, arena);
    state_index_open(&search->index, problem, setup->keep_weeks,
                     search->sales.family_count, arena);
    state_open(&search->state, &search->index, &search->sales, arena);
    list_choices(search, arena);
    search_routes_open(search, arena);
    search_voyage_open(search, arena);
    search_score_open(search, arena);
    best_open(search, arena);
    search_score(search);
    set_warmth(search);
    if (setup->from) {
        state_keep(&search->state, setup->from, arena);
        search->refused = state_from_solution(&search->state, setup->from);
        search_fit_tanks(search);
    }
    search_place_cleans(search);
    if (is_short(search)) {
        search_blend(search);
        search_score(search);
    }
    keep_best(search);
    return search;
}

static SearchMove draw_move(Search *search)
{
    int all = 0;
    for (int i = 0; i < MOVE_COUNT; i++) {
        all += MOVES[i].weight;
    }
    int draw = (int)rng_below(&search->rng, (uint32_t)all);
    int i = 0;
    while (draw >= MOVES[i].weight) {
        draw -= MOVES[i++].weight;
    }
    return MOVES[i].move;
}

static void try_move(Search *search)
{
    State *state = &search->state;
    SearchMove move = draw_move(search);
    double heat = move == search_fish ? search->fish_heat : search->temperature;
    if (move == search_fish &&
        rng_below(&search->rng, SEARCH.voyage_one_in) == 0) {
        search_voyage(search, heat);
        return;
    }
    if (!move(search)) {
        state_undo(state);
        return;
    }
    /* What a draw would just accept, drawn beforehand. */
    double least =
        state->before.value + heat * log(1.0 - rng_f64(&search->rng));
    double value = state_settle_above(state, least - search->reach);
    if (value < least && value >= least - search->reach &&
        search_mend_stores(search)) {
        value = state_settle_above(state, least);
    }
    if (value >= least) {
        state_commit(state);
    } else {
        state_undo(state);
    }
}

bool search_step(Search *search)
{
    int64_t left = search->moves_all - search->moves;
    int64_t moves = left < SEARCH.step_moves ? left : SEARCH.step_moves;
    double done = (double)search->moves / (double)search->moves_all;
    search->temperature = search->warm * pow(search->cold / search->warm, done);
    search->fish_heat = SEARCH.fish_warmth * search->fish_warm *
                        pow(search->cold / search->fish_warm, done);
    int64_t hold = SEARCH.score_moves > search->index.series_count
                       ? SEARCH.score_moves
                       : search->index.series_count;
    search_price_tanks(search, done);
    if (search->moves - search->score_at >= hold) {
        search_score(search);
    }
    for (int64_t i = 0; i < moves; i++) {
        try_move(search);
    }
    search->moves += moves;
    if (search->moves / SEARCH.step_moves % SEARCH.rebuild_steps == 0) {
        state_rebuild(&search->state);
    }
    if (search->moves >= search->moves_all) {
        search_price_tanks(search, 1.0);
        state_rebuild(&search->state);
        search_drop_useless(search);
        keep_best(search);
        return false;
    }
    return true;
}

SearchProgress search_progress(const Search *search)
{
    return (SearchProgress){search->moves, search->moves_all,
                            search->state.now.value, search->best.value};
}

int search_refused(const Search *search)
{
    return search->refused;
}

double search_take(Search *search, Arena *arena, PlanSolution *out,
                   double *out_faults)
{
    search_price_tanks(search, 1.0);
    keep_best(search);
    restore_best(search);
    state_to_solution(&search->state, arena, out);
    *out_faults = state_faults(&search->state);
    for (int i = 0; i < search->clean_bed_count; i++) {
        *out_faults +=
            search->state.clean_week[search->clean_beds[i]] == PLAN_NONE;
    }
    return search->state.now.value - state_kept_worth(&search->state);
}
