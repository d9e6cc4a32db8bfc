/* Deep cleans: a move, and weeks for all of them before anything else. */
#include <string.h>

#include "plan/search_parts.h"

/* Empties a bed in a week; false: something must stay. */
static bool empty_bed(Search *search, int bed, int week)
{
    State *state = &search->state;
    const StateIndex *index = &search->index;
    for (int s = index->bed_slot[bed]; s < index->bed_slot[bed + 1]; s++) {
        int held =
            state->holder[(size_t)s * (size_t)state->weeks + (size_t)week];
        if (held == HOLDER_FREE) {
            continue;
        }
        if (held < 0 || !search_is_free(search, held - 1)) {
            return false;
        }
        state_floor_take(state, s, held - 1);
    }
    for (int i = state->edge_count[bed] - 1; i >= 0; i--) {
        int option = state->edges[bed * STATE_EDGES + i].option;
        if (!search_overlaps(&index->options[option], week, week + 1)) {
            continue;
        }
        if (!search_is_free(search, option)) {
            return false;
        }
        state_edge_set(state, bed, option, 0);
    }
    return true;
}

static bool clean_in(Search *search, int bed, int week)
{
    State *state = &search->state;
    int before = state->clean_week[bed];
    if (week == before) {
        return false;
    }
    state_clean_set(state, bed, PLAN_NONE);
    if (!empty_bed(search, bed, week) || !state_clean_fits(state, bed, week)) {
        return false;
    }
    state_clean_set(state, bed, week);
    return true;
}

bool search_clean(Search *search)
{
    if (search->clean_bed_count == 0) {
        return false;
    }
    int bed = search->clean_beds[search_below(search, search->clean_bed_count)];
    int first = search->index.first_week;
    int by = search->problem->beds[bed].clean_by;
    int before = search->state.clean_week[bed];
    if (by < first || (before != PLAN_NONE && before < first)) {
        return false;
    }
    return clean_in(search, bed,
                    first + (int)search_below(search, by - first + 1));
}

/* Weeks for the beds of all loops, by matching: a bed that finds its weeks
 * taken asks those that have them to go elsewhere. */
typedef struct Weeks {
    Search *search;
    int *week;     /* by bed to be cleaned, as search->clean_beds */
    int *begun;    /* [loop][week], and one for no loop */
    uint8_t *seen; /* by bed: asked already */
} Weeks;

static int loop_row(const Problem *p, int bed)
{
    int loop = p->kinds[p->beds[bed].kind].loop;
    return loop == PLAN_NONE ? p->loop_count : loop;
}

static bool may_stay(const Search *search, int option)
{
    return !search_is_free(search, option);
}

/* Whether all that stands on the bed in that week may give way. */
static bool could_clean(const Search *search, int bed, int week)
{
    const State *state = &search->state;
    const StateIndex *index = &search->index;
    const PlanBed *b = &search->problem->beds[bed];
    if (week < b->first_week || week > b->clean_by || week > b->last_week) {
        return false;
    }
    for (int s = index->bed_slot[bed]; s < index->bed_slot[bed + 1]; s++) {
        int held = state->holder[s * state->weeks + week];
        if (held == HOLDER_CLOSED || (held > 0 && may_stay(search, held - 1))) {
            return false;
        }
    }
    for (int i = 0; i < state->edge_count[bed]; i++) {
        int option = state->edges[bed * STATE_EDGES + i].option;
        if (search_overlaps(&index->options[option], week, week + 1) &&
            may_stay(search, option)) {
            return false;
        }
    }
    return true;
}

static bool has_room(const Weeks *weeks, int loop, int week)
{
    const State *state = &weeks->search->state;
    const int *begun = weeks->begun + loop * state->weeks;
    int before = week > 0 ? begun[week - 1] : 0;
    int after = week + 1 < state->weeks ? begun[week + 1] : 0;
    int beside = before > after ? before : after;
    return begun[week] + 1 + beside <= state->cleans_most[loop] + 1e-9;
}

static void put(Weeks *weeks, int at, int week)
{
    const Search *search = weeks->search;
    int *begun =
        weeks->begun +
        loop_row(search->problem, search->clean_beds[at]) * search->state.weeks;
    if (weeks->week[at] != PLAN_NONE) {
        begun[weeks->week[at]]--;
    }
    if (week != PLAN_NONE) {
        begun[week]++;
    }
    weeks->week[at] = week;
}

static bool find_week(Weeks *weeks, int at);

/* Another bed of the loop gives the week up, if it finds one of its own. */
static bool displace(Weeks *weeks, int at, int week)
{
    const Search *search = weeks->search;
    const Problem *p = search->problem;
    int loop = loop_row(p, search->clean_beds[at]);
    for (int c = 0; c < search->clean_bed_count; c++) {
        int held = weeks->week[c];
        bool is_near = held != PLAN_NONE && held >= week - 1 &&
                       held <= week + 1 && held >= search->index.first_week;
        if (!is_near || weeks->seen[c] ||
            loop_row(p, search->clean_beds[c]) != loop) {
            continue;
        }
        put(weeks, c, PLAN_NONE);
        if (has_room(weeks, loop, week)) {
            put(weeks, at, week);
            if (find_week(weeks, c)) {
                return true;
            }
            put(weeks, at, PLAN_NONE);
        }
        put(weeks, c, held);
    }
    return false;
}

static bool find_week(Weeks *weeks, int at)
{
    const Search *search = weeks->search;
    int bed = search->clean_beds[at];
    int by = search->problem->beds[bed].clean_by;
    int first = search->index.first_week;
    weeks->seen[at] = 1;
    for (int turn = 0; turn < 2; turn++) {
        for (int week = by; week >= first; week--) {
            if (!could_clean(search, bed, week)) {
                continue;
            }
            if (turn == 1 && displace(weeks, at, week)) {
                return true;
            }
            if (turn == 0 &&
                has_room(weeks, loop_row(search->problem, bed), week)) {
                put(weeks, at, week);
                return true;
            }
        }
    }
    return false;
}

/* Batches that stand in the way are taken. */
static void clean_all(const Weeks *weeks)
{
    Search *search = weeks->search;
    State *state = &search->state;
    for (int turn = 0; turn < 2; turn++) {
        for (int i = 0; i < search->clean_bed_count; i++) {
            int bed = search->clean_beds[i];
            int week = weeks->week[i];
            if (week == state->clean_week[bed]) {
                continue;
            }
            if (turn == 0) {
                state_clean_set(state, bed, PLAN_NONE);
            } else if (!clean_in(search, bed, week)) {
                state_undo(state);
                continue;
            }
            state_settle(state);
            state_commit(state);
        }
    }
}

void search_place_cleans(Search *search)
{
    CLEANUP(arena_release) Arena scratch = {0};
    const State *state = &search->state;
    int beds = search->clean_bed_count;
    int loops = search->problem->loop_count + 1;
    Weeks weeks = {search, ARENA_ARRAY(&scratch, int, beds),
                   ARENA_ARRAY(&scratch, int, loops * state->weeks),
                   ARENA_ARRAY(&scratch, uint8_t, beds)};
    for (int i = 0; i < beds; i++) {
        weeks.week[i] = PLAN_NONE;
        put(&weeks, i, state->clean_week[search->clean_beds[i]]);
    }
    for (int by = 0; by < state->weeks; by++) {
        for (int i = 0; i < beds; i++) {
            const PlanBed *bed = &search->problem->beds[search->clean_beds[i]];
            if (bed->clean_by != by || weeks.week[i] != PLAN_NONE) {
                continue;
            }
            memset(weeks.seen, 0, (size_t)beds);
            (void)find_week(&weeks, i);
        }
    }
    clean_all(&weeks);
}
