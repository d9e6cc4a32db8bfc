/* Moves on fish: stock, drop, resize, other week, and lanes by new routes. */
#include "plan/search_parts.h"

/* A run into a lane's list and the rows; the same route twice is one run. */
static bool take_run(Search *search, int stock, int lane, StateRun run)
{
    State *state = &search->state;
    StateStock *s = &state->stocks[stock];
    for (int i = 0; i < s->run_count[lane]; i++) {
        StateRun *r = &s->runs[lane][i];
        if (r->tank == run.tank && r->to_tank == run.to_tank &&
            r->move_week == run.move_week && r->sale_week == run.sale_week &&
            r->goods == run.goods) {
            /* Off and on again: an event counts once a run. */
            state_run_add(state, stock, lane, r, -1.0);
            r->count += run.count;
            state_run_add(state, stock, lane, r, 1.0);
            return true;
        }
    }
    if (s->run_count[lane] == STATE_RUNS) {
        return false;
    }
    s->runs[lane][s->run_count[lane]++] = run;
    state_run_add(state, stock, lane, &run, 1.0);
    return true;
}

/* So many heads of a lane by best routes, a part at a time: each part sees what
 * those before it have taken. */
static bool route_heads(Search *search, int stock, int lane, int heads)
{
    enum { PARTS_MOST = 8 };
    int parts = 1 + (int)search_below(search, PARTS_MOST);
    parts = search_below(search, 3) == 0 ? 1 : parts;
    for (int i = 0; i < parts; i++) {
        int count = (int)((int64_t)heads * (i + 1) / parts -
                          (int64_t)heads * i / parts);
        StateRun run = {0};
        if (count == 0) {
            continue;
        }
        if (!search_best_route(search, stock, lane, count, &run) ||
            !take_run(search, stock, lane, run)) {
            return false;
        }
    }
    return true;
}

static bool route_lane(Search *search, int stock, int lane)
{
    StateStock *s = &search->state.stocks[stock];
    s->run_count[lane] = 0;
    return route_heads(search, stock, lane, state_lane_heads(s->count, lane));
}

/* Whether something of the run happens within the weeks that are kept. */
static bool is_begun(const Search *search, const StateRun *run)
{
    int first = search->index.first_week;
    return run->sale_week < first ||
           (run->move_week != PLAN_NONE && run->move_week < first);
}

bool search_route_rest(Search *search, int stock)
{
    State *state = &search->state;
    state_stock_open(state, stock);
    StateStock *s = &state->stocks[stock];
    int heads[PLAN_LANES];
    for (int b = 0; b < PLAN_LANES; b++) {
        int kept = 0;
        heads[b] = state_lane_heads(s->count, b);
        for (int i = 0; i < s->run_count[b]; i++) {
            StateRun run = s->runs[b][i];
            if (is_begun(search, &run)) {
                heads[b] -= run.count;
                s->runs[b][kept++] = run;
                state_run_add(state, stock, b, &run, 1.0);
            }
        }
        s->run_count[b] = (int16_t)kept;
    }
    bool is_routed = true;
    for (int b = PLAN_LANES - 1; b >= 0; b--) {
        is_routed = is_routed &&
                    (heads[b] == 0 || route_heads(search, stock, b, heads[b]));
    }
    state_stock_finish(state, stock);
    return is_routed;
}

/* Whether its routes are past choosing: something of it happens within the
 * weeks that are kept. */
static bool is_fixed(const Search *search, int stock)
{
    const PlanStock *s = &search->problem->stocks[stock];
    if (s->is_kept || search->index.first_week == 0) {
        return s->is_kept;
    }
    if (!s->is_standing) {
        return s->start_week < search->index.first_week;
    }
    const StateStock *now = &search->state.stocks[stock];
    for (int b = 0; b < PLAN_LANES; b++) {
        for (int r = 0; r < now->run_count[b]; r++) {
            if (is_begun(search, &now->runs[b][r])) {
                return true;
            }
        }
    }
    return false;
}

/* Opens a stock and gives it so many fish; lanes of the mask by new routes
 * (the heaviest first, they go first), the others as they were. */
bool search_route_stock(Search *search, int stock, int count, unsigned mask)
{
    State *state = &search->state;
    state_stock_edit(state, stock);
    StateStock *s = &state->stocks[stock];
    s->count = count;
    for (int b = 0; b < PLAN_LANES; b++) {
        for (int i = 0; (mask >> b & 1u) != 0 && i < s->run_count[b]; i++) {
            state_run_add(state, stock, b, &s->runs[b][i], -1.0);
        }
        s->run_count[b] = mask >> b & 1u ? 0 : s->run_count[b];
    }
    bool is_routed = true;
    for (int b = PLAN_LANES - 1; b >= 0 && count > 0; b--) {
        if (mask >> b & 1u) {
            is_routed = is_routed && route_lane(search, stock, b);
        }
    }
    state_stock_finish(state, stock);
    return is_routed;
}

static int random_count(Search *search, int stock)
{
    const PlanStock *s = &search->problem->stocks[stock];
    return s->least + (int)search_below(search, s->most - s->least + 1);
}

static int random_active(Search *search)
{
    enum { LOOKS = 8 };
    if (search->state.active_count == 0) {
        return PLAN_NONE;
    }
    int loop = search->voyage.loop;
    for (int i = 0; i < LOOKS; i++) {
        int stock =
            search->state
                .active[search_below(search, search->state.active_count)];
        if (loop == PLAN_NONE || search->problem->stocks[stock].loop == loop) {
            return is_fixed(search, stock) ? PLAN_NONE : stock;
        }
    }
    return PLAN_NONE;
}

/* The large change's stock: those that settle after it are of its loop. */
static int draw_young(Search *search)
{
    int stock = search->young[search_below(search, search->young_count)];
    search->voyage.drawn_loop = search->problem->stocks[stock].loop;
    return stock;
}

/* Stocks a batch that is not, or takes away one that is. */
static bool turn_young(Search *search)
{
    if (search->young_count == 0) {
        return false;
    }
    int stock = draw_young(search);
    int count = search->state.stocks[stock].count;
    return search_route_stock(search, stock,
                              count > 0 ? 0 : random_count(search, stock),
                              SEARCH_ALL_LANES);
}

static bool resize(Search *search)
{
    int stock = random_active(search);
    if (stock == PLAN_NONE || search->problem->stocks[stock].is_standing) {
        return false;
    }
    const PlanStock *s = &search->problem->stocks[stock];
    int count = random_count(search, stock);
    if (search_below(search, 2) == 0) {
        int before = search->state.stocks[stock].count;
        count = before + (count - before) / 8;
    }
    count = count < s->least ? s->least : count;
    return search_route_stock(search, stock, count, SEARCH_ALL_LANES);
}

/* The same fish from another of the weeks on offer. */
static bool shift(Search *search)
{
    int stock = random_active(search);
    if (stock == PLAN_NONE || search->problem->stocks[stock].is_standing) {
        return false;
    }
    int other = draw_young(search);
    if (search->state.stocks[other].count > 0) {
        return false;
    }
    const PlanStock *s = &search->problem->stocks[other];
    int count = search->state.stocks[stock].count;
    count = count < s->least ? s->least : count > s->most ? s->most : count;
    return search_route_stock(search, stock, 0, SEARCH_ALL_LANES) &&
           search_route_stock(search, other, count, SEARCH_ALL_LANES);
}

/* Some fish of one run go on another sale week of the same tank. */
static bool nudge(Search *search, int stock)
{
    State *state = &search->state;
    int lane = (int)search_below(search, PLAN_LANES);
    StateStock *s = &state->stocks[stock];
    if (s->run_count[lane] == 0) {
        return false;
    }
    int at = (int)search_below(search, s->run_count[lane]);
    StateRun run = s->runs[lane][at];
    if (run.count == 0) {
        return false; /* a few fish leave a lane empty */
    }
    state_stock_edit(state, stock);
    int part = search_below(search, 2) == 0
                   ? run.count
                   : 1 + (int)search_below(search, run.count);
    state_run_add(state, stock, lane, &run, -1.0);
    s->runs[lane][at].count -= part;
    if (s->runs[lane][at].count == 0) {
        s->runs[lane][at] = s->runs[lane][--s->run_count[lane]];
    } else {
        state_run_add(state, stock, lane, &s->runs[lane][at], 1.0);
    }
    StateRun best = {0};
    bool is_routed = search_best_route(search, stock, lane, part, &best) &&
                     take_run(search, stock, lane, best);
    state_stock_finish(state, stock);
    return is_routed;
}

/* Fish that gave way to others and wait for a new route. */
typedef struct Waiting {
    int stock;
    int lane;
    int count;
} Waiting;

enum { WAITING_MOST = 96 };

typedef struct Ejected {
    Waiting fish[WAITING_MOST];
    int count;
} Ejected;

static bool is_in_tank(const Search *search, const StateRun *run, int tank,
                       int from)
{
    bool moves = run->move_week != PLAN_NONE;
    int leaves = moves ? run->move_week : run->sale_week;
    int first = search->index.first_week;
    if (run->sale_week < first || (moves && run->move_week < first)) {
        return false;
    }
    return (run->tank == tank && leaves > from) ||
           (moves && run->to_tank == tank && run->sale_week > from);
}

static bool is_touched(const Search *search, int stock, int tank, int from)
{
    const StateStock *s = &search->state.stocks[stock];
    for (int b = 0; b < PLAN_LANES; b++) {
        for (int i = 0; i < s->run_count[b]; i++) {
            if (is_in_tank(search, &s->runs[b][i], tank, from)) {
                return true;
            }
        }
    }
    return false;
}

/* Takes a stock's runs out of a tank from some week on; the rest stays. */
static bool eject_stock(Search *search, int stock, int tank, int from,
                        Ejected *out)
{
    State *state = &search->state;
    state_stock_edit(state, stock);
    StateStock *s = &state->stocks[stock];
    for (int b = 0; b < PLAN_LANES; b++) {
        int kept = 0;
        for (int i = 0; i < s->run_count[b]; i++) {
            StateRun run = s->runs[b][i];
            if (!is_in_tank(search, &run, tank, from)) {
                s->runs[b][kept++] = run;
                continue;
            }
            state_run_add(state, stock, b, &run, -1.0);
            if (out->count == WAITING_MOST) {
                return false;
            }
            out->fish[out->count++] = (Waiting){stock, b, run.count};
        }
        s->run_count[b] = (int16_t)kept;
    }
    state_stock_finish(state, stock);
    return true;
}

static bool eject(Search *search, int tank, int from, Ejected *out)
{
    const State *state = &search->state;
    int stocks[STATE_STOCKS];
    int count = 0;
    for (int a = 0; a < state->active_count; a++) {
        int stock = state->active[a];
        if (!is_touched(search, stock, tank, from)) {
            continue;
        }
        if (is_fixed(search, stock) || count == STATE_STOCKS - 1) {
            return false;
        }
        stocks[count++] = stock;
    }
    for (int i = 0; i < count; i++) {
        if (!eject_stock(search, stocks[i], tank, from, out)) {
            return false;
        }
    }
    return true;
}

/* Stocks young fish, or routes them anew, in a tank that others leave; those
 * find new routes afterwards. */
static bool stock_with_room(Search *search)
{
    const Problem *p = search->problem;
    if (search->young_count == 0 || p->tank_count == 0) {
        return false;
    }
    int stock = draw_young(search);
    int tank = (int)search_below(search, p->tank_count);
    int start = p->stocks[stock].start_week;
    Ejected ejected = {.count = 0};
    if (!p->tanks[tank].is_stockable ||
        p->tanks[tank].loop != p->stocks[stock].loop ||
        search->state.stocks[stock].count > 0 ||
        !eject(search, tank, start, &ejected) ||
        !search_route_stock(search, stock, random_count(search, stock),
                            SEARCH_ALL_LANES)) {
        return false;
    }
    for (int i = 0; i < ejected.count; i++) {
        const Waiting *w = &ejected.fish[i];
        StateRun run = {0};
        if (!search_best_route(search, w->stock, w->lane, w->count, &run) ||
            !take_run(search, w->stock, w->lane, run)) {
            return false;
        }
    }
    return true;
}

/* Stocks a batch at another count, or not at all, if that is no worse. */
static bool try_count(Search *search, int stock, int count)
{
    State *state = &search->state;
    double before = state->now.value;
    bool is_routed = search_route_stock(search, stock, count, SEARCH_ALL_LANES);
    if (is_routed && state_settle_above(state, before) >= before) {
        state_commit(state);
        return true;
    }
    state_undo(state);
    return false;
}

static int given_up(const Search *search, int stock)
{
    const StateStock *s = &search->state.stocks[stock];
    int count = 0;
    for (int b = 0; b < PLAN_LANES; b++) {
        for (int i = 0; i < s->run_count[b]; i++) {
            int goods = s->runs[b][i].goods;
            bool is_given = goods != PLAN_NONE &&
                            search->problem->goods[goods].over_g <= 0.0;
            count += is_given ? s->runs[b][i].count : 0;
        }
    }
    return count;
}

void search_drop_useless(Search *search)
{
    enum { TRIES = 20 };
    const Problem *p = search->problem;
    search_price_feed(search);
    for (int i = 0; i < search->young_count; i++) {
        int stock = search->young[i];
        int count = search->state.stocks[stock].count;
        if (count == 0 || is_fixed(search, stock) ||
            try_count(search, stock, 0)) {
            continue;
        }
        for (int k = 0; k < TRIES && given_up(search, stock) > 0; k++) {
            int fewer = search->state.stocks[stock].count -
                        (given_up(search, stock) + TRIES - 1) / TRIES;
            (void)try_count(search, stock,
                            fewer < p->stocks[stock].least
                                ? p->stocks[stock].least
                                : fewer);
        }
    }
}

bool search_fish_large(Search *search)
{
    uint32_t draw = search_below(search, 28);
    if (draw < 15) {
        return stock_with_room(search);
    }
    return draw < 20 ? turn_young(search) : shift(search);
}

bool search_fish_small(Search *search)
{
    uint32_t draw = search_below(search, 100);
    if (draw < 12) {
        return resize(search);
    }
    int stock = random_active(search);
    if (stock == PLAN_NONE) {
        return false;
    }
    if (draw < 60) {
        return nudge(search, stock);
    }
    unsigned mask =
        draw < 80 ? 1u << search_below(search, PLAN_LANES) : SEARCH_ALL_LANES;
    return search_route_stock(search, stock, search->state.stocks[stock].count,
                              mask);
}

bool search_fish(Search *search)
{
    if (search->problem->stock_count == 0) {
        return false;
    }
    search_price_feed(search);
    enum { LARGE_OF_100 = 23 };
    return search_below(search, 100) < LARGE_OF_100 ? search_fish_large(search)
                                                    : search_fish_small(search);
}
