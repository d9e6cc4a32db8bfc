/* Moves on the floor of beds: fill, insert, shift, drop, cross. */
#include "plan/search_parts.h"

static int random_slot(Search *search)
{
    return (int)search_below(search, search->index.slot_count);
}

static int random_week(Search *search)
{
    int first = search->index.first_week;
    return first + (int)search_below(search, search->problem->horizon - first);
}

static int *holders(Search *search, int slot)
{
    return search->state.holder + (size_t)slot * (size_t)search->state.weeks;
}

static int kind_of(const Search *search, int slot)
{
    return search->problem->beds[search->index.slot_bed[slot]].kind;
}

/* Takes away what stands in the option's weeks; false: something must stay. */
static bool make_room(Search *search, int slot, int option)
{
    const StateOption *o = &search->index.options[option];
    const int *held = holders(search, slot);
    for (int t = o->set; t < o->clear; t++) {
        if (held[t] == HOLDER_FREE) {
            continue;
        }
        if (held[t] < 0 || !search_is_free(search, held[t] - 1)) {
            return false;
        }
        state_floor_take(&search->state, slot, held[t] - 1);
    }
    return true;
}

static bool has_sun(Search *search, int slot, int option)
{
    const StateOption *o = &search->index.options[option];
    return !o->wants_sun ||
           state_bed_has_sun(&search->state, search->index.slot_bed[slot],
                             o->set, o->clear);
}

/* Free weeks around a free week. */
static StateSpan gap_around(Search *search, int slot, int week)
{
    const int *held = holders(search, slot);
    int from = week, until = week + 1;
    while (from > search->index.first_week && held[from - 1] == HOLDER_FREE) {
        from--;
    }
    while (until < search->state.weeks && held[until] == HOLDER_FREE) {
        until++;
    }
    return (StateSpan){(int16_t)from, (int16_t)until};
}

/* Puts a good option into a gap, set out near its beginning; PLAN_NONE: none
 * was found. */
static int fill_gap(Search *search, int slot, StateSpan gap)
{
    const Problem *p = search->problem;
    int end = gap.until < p->horizon ? gap.until : p->horizon;
    if (gap.from >= end) {
        return PLAN_NONE;
    }
    /* The smaller of two draws: a gap is filled from its beginning. */
    int a = (int)search_below(search, end - gap.from);
    int b = (int)search_below(search, end - gap.from);
    int cell =
        kind_of(search, slot) * p->week_count + gap.from + (a < b ? a : b);
    int option = search_pick(search, &search->index.floor, cell, gap.until);
    if (option == PLAN_NONE) {
        return PLAN_NONE;
    }
    state_floor_put(&search->state, slot, option);
    if (!has_sun(search, slot, option)) {
        state_floor_take(&search->state, slot, option);
        return PLAN_NONE;
    }
    return option;
}

/* The same option on neighbouring sections of the bed too, some or all: beds
 * planted whole are found sooner, and are less work. */
static bool widen(Search *search, int slot, int option, bool may_clear)
{
    enum { ONE_IN = 5 };
    const StateIndex *index = &search->index;
    int bed = index->slot_bed[slot];
    int first = index->bed_slot[bed];
    int count = index->bed_slot[bed + 1] - first;
    if (count < 2 || search_below(search, ONE_IN) != 0) {
        return true;
    }
    int more = 1 + (int)search_below(search, count - 1);
    for (int i = 1; i <= more; i++) {
        int other = first + (slot - first + i) % count;
        if (!state_floor_fits(&search->state, other, option)) {
            if (!may_clear) {
                continue;
            }
            if (!make_room(search, other, option)) {
                return false;
            }
        }
        state_floor_put(&search->state, other, option);
    }
    return has_sun(search, slot, option);
}

bool search_fill(Search *search)
{
    int slot = random_slot(search);
    int week = random_week(search);
    enum { LOOKS = 4 };
    for (int i = 0; i < LOOKS && holders(search, slot)[week] != HOLDER_FREE;
         i++) {
        slot = random_slot(search);
        week = random_week(search);
    }
    if (holders(search, slot)[week] != HOLDER_FREE) {
        return search_insert(search);
    }
    int option = fill_gap(search, slot, gap_around(search, slot, week));
    return option != PLAN_NONE && widen(search, slot, option, false);
}

/* After an option took its place: the gaps that this left. */
static void fill_beside(Search *search, int slot, int option)
{
    const StateOption *o = &search->index.options[option];
    const int *held = holders(search, slot);
    if (o->set > search->index.first_week && held[o->set - 1] == HOLDER_FREE) {
        fill_gap(search, slot, gap_around(search, slot, o->set - 1));
    }
    if (o->clear < search->problem->horizon && held[o->clear] == HOLDER_FREE) {
        fill_gap(search, slot, gap_around(search, slot, o->clear));
    }
}

/* Puts an option where it stands free; its shade, if need be, gives way. */
static bool place(Search *search, int slot, int option)
{
    const StateOption *o = &search->index.options[option];
    state_floor_put(&search->state, slot, option);
    if (!has_sun(search, slot, option) &&
        (search_below(search, 2) == 0 ||
         !search_clear_shade(search, search->index.slot_bed[slot], o->set,
                             o->clear))) {
        return false;
    }
    if (search_below(search, 2) == 0) {
        fill_beside(search, slot, option);
    }
    return true;
}

bool search_insert(Search *search)
{
    int slot = random_slot(search);
    int cell = kind_of(search, slot) * search->problem->week_count +
               random_week(search);
    int option =
        search_pick(search, &search->index.floor, cell, search->state.weeks);
    if (option == PLAN_NONE || !make_room(search, slot, option)) {
        return false;
    }
    return place(search, slot, option) && widen(search, slot, option, true);
}

/* A batch that may be moved, at random; PLAN_NONE when none was met. */
static int random_batch(Search *search, int *out_slot)
{
    enum { LOOKS = 4 };
    for (int i = 0; i < LOOKS; i++) {
        int slot = random_slot(search);
        int held = holders(search, slot)[random_week(search)];
        if (held > 0 && search_is_free(search, held - 1)) {
            *out_slot = slot;
            return held - 1;
        }
    }
    return PLAN_NONE;
}

/* The same way in the same kind some places on in its series. */
int search_neighbour(Search *search, int option)
{
    enum { REACH = 6 };
    int step = 1 + (int)search_below(search, REACH);
    int at = search->index.options[option].series +
             (search_below(search, 2) == 0 ? step : -step);
    if (at < 0 || at >= search->index.series_count) {
        return PLAN_NONE;
    }
    int other = search->index.series[at];
    const PlanOption *a = &search->problem->options[option];
    const PlanOption *b = &search->problem->options[other];
    bool is_same =
        a->way == b->way && a->kind == b->kind && a->is_edge == b->is_edge;
    return is_same ? other : PLAN_NONE;
}

bool search_shift(Search *search)
{
    int slot = 0;
    int option = random_batch(search, &slot);
    int other =
        option == PLAN_NONE ? PLAN_NONE : search_neighbour(search, option);
    if (other == PLAN_NONE) {
        return false;
    }
    state_floor_take(&search->state, slot, option);
    if (!make_room(search, slot, other)) {
        return false;
    }
    return place(search, slot, other);
}

bool search_drop(Search *search)
{
    int slot = 0;
    int option = random_batch(search, &slot);
    if (option == PLAN_NONE) {
        return false;
    }
    state_floor_take(&search->state, slot, option);
    return true;
}

/* Whether a batch goes over from the week before into this one. */
static bool is_seam(const int *held, int week)
{
    return week == 0 || held[week] == HOLDER_FREE || held[week] < 0 ||
           held[week] != held[week - 1];
}

/* Two sections of a kind exchange what they hold between two seams: worth
 * nothing by itself, it brings gaps together. */
bool search_cross(Search *search)
{
    int a = random_slot(search);
    int kind = kind_of(search, a);
    const StateIndex *index = &search->index;
    int count = index->kind_from[kind + 1] - index->kind_from[kind];
    int b = index->kind_slots[index->kind_from[kind] +
                              (int)search_below(search, count)];
    int from = random_week(search);
    int *in_a = holders(search, a), *in_b = holders(search, b);
    /* Where the plan begun from counts, its sections are not alike. */
    if (a == b || search->state.kept_way || !is_seam(in_a, from) ||
        !is_seam(in_b, from)) {
        return false;
    }
    int until = from;
    for (; until < search->state.weeks; until++) {
        bool may_end =
            until > from && is_seam(in_a, until) && is_seam(in_b, until);
        if (may_end && search_below(search, 4) == 0) {
            break;
        }
        bool is_fixed =
            in_a[until] < 0 || in_b[until] < 0 ||
            (in_a[until] > 0 && !search_is_free(search, in_a[until] - 1)) ||
            (in_b[until] > 0 && !search_is_free(search, in_b[until] - 1));
        if (is_fixed) {
            if (may_end) {
                break;
            }
            return false;
        }
    }
    for (int turn = 0; turn < 2; turn++) {
        for (int t = from; t < until; t++) {
            int held = in_a[t];
            in_a[t] = in_b[t];
            in_b[t] = held;
        }
        if (turn == 1 || (state_bed_has_sun(&search->state, index->slot_bed[a],
                                            from, until) &&
                          state_bed_has_sun(&search->state, index->slot_bed[b],
                                            from, until))) {
            break;
        }
    }
    return false;
}

/* An option, drawn at random, that gives the goods in that week; and a section
 * for it. */
static int draw_giver(Search *search, int goods, int week, int *out_slot)
{
    enum { TRIES = 40, LONGEST = 20 };
    const StateMenu *menu = &search->index.floor;
    int weeks = search->problem->week_count;
    int first = search->index.first_week;
    for (int i = 0; i < TRIES; i++) {
        int slot = random_slot(search);
        int set = week - (int)search_below(search, LONGEST);
        if (set < first || set >= search->problem->horizon) {
            continue;
        }
        int cell = kind_of(search, slot) * weeks + set;
        int from = menu->from[cell], count = menu->from[cell + 1] - from;
        int start = count > 0 ? (int)search_below(search, count) : 0;
        for (int j = 0; j < count; j++) {
            int option = menu->options[from + (start + j) % count];
            const StateOption *o = &search->index.options[option];
            if (o->goods == goods && o->yield.from <= week &&
                o->yield.until > week) {
                *out_slot = slot;
                return option;
            }
        }
    }
    return PLAN_NONE;
}

/* All parts of a mix at once for one week: one part alone earns nothing. */
bool search_mix(Search *search)
{
    if (search->mix_count == 0) {
        return false;
    }
    const Problem *p = search->problem;
    const PlanProduct *mix =
        &p->products[search->mixes[search_below(search, search->mix_count)]];
    int first = search->index.first_week;
    int week = first + (int)search_below(search, p->week_count - first);
    for (int j = 0; j < mix->part_count; j++) {
        int slot = 0;
        int option = draw_giver(search, mix->parts[j].goods, week, &slot);
        if (option == PLAN_NONE || !make_room(search, slot, option)) {
            return false;
        }
        state_floor_put(&search->state, slot, option);
        if (!has_sun(search, slot, option)) {
            return false;
        }
    }
    return true;
}
