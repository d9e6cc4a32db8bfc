/* Lists of options, slots and rows for the search. */
#include "plan/state_index.h"

#include <stdlib.h>

static int clip(int week, int weeks)
{
    return week < 0 ? 0 : week > weeks ? weeks : week;
}

static StateSpan span_of(const PlanOption *o, const double *values, int weeks)
{
    int from = o->weeks, until = 0;
    for (int i = 0; i < o->weeks; i++) {
        if (values[i] > 0.0 || values[i] < 0.0) {
            from = from < i ? from : i;
            until = i + 1;
        }
    }
    from = clip(from + o->first_week, weeks);
    until = clip(until + o->first_week, weeks);
    return (StateSpan){(int16_t)from, (int16_t)(until < from ? from : until)};
}

static StateSpan join(StateSpan a, StateSpan b)
{
    if (a.from >= a.until) {
        return b;
    }
    if (b.from >= b.until) {
        return a;
    }
    return (StateSpan){a.from < b.from ? a.from : b.from,
                       a.until > b.until ? a.until : b.until};
}

static StateOption option_of(const Problem *p, const PlanOption *o)
{
    int weeks = p->week_count;
    StateOption out = {
        .set = (int16_t)clip(o->set_week, weeks),
        .clear = (int16_t)clip(o->clear_week, weeks),
        .way = (int16_t)o->way,
        .goods = (int16_t)o->goods,
        .trays = span_of(o, o->trays, weeks),
        .hours = span_of(o, o->hours, weeks),
        .want = span_of(o, o->want_kg, weeks),
        .yield = join(span_of(o, o->mean, weeks), span_of(o, o->low, weeks)),
        .series = PLAN_NONE,
        .shift = o->first_week,
        .loop = p->kinds[o->kind].loop,
        .wants_sun = o->wants_sun,
        .is_edge = o->is_edge,
    };
    out.shade = o->is_edge ? span_of(o, o->shade, weeks) : (StateSpan){0, 0};
    return out;
}

static bool is_usable(const StateIndex *index, const PlanOption *o)
{
    int begun = o->trays_of > 0 ? o->set_week : o->sow_week;
    return !o->is_standing && begun >= index->first_week && o->set_week >= 0 &&
           o->set_week < index->problem->horizon && o->place > 0.0;
}

/* Counting sort of the usable options by kind and week. */
static void open_menu(StateIndex *index, StateMenu *menu, bool is_edge,
                      Arena *arena)
{
    const Problem *p = index->problem;
    int cells = p->kind_count * p->week_count;
    menu->from = ARENA_ARRAY(arena, int, cells + 1);
    for (int i = 0; i < p->option_count; i++) {
        const PlanOption *o = &p->options[i];
        if (o->is_edge == is_edge && is_usable(index, o)) {
            menu->from[o->kind * p->week_count + o->set_week + 1]++;
            menu->count++;
        }
    }
    for (int i = 0; i < cells; i++) {
        menu->from[i + 1] += menu->from[i];
    }
    int *next = ARENA_ARRAY(arena, int, cells);
    menu->options = ARENA_ARRAY(arena, int, menu->count);
    for (int i = 0; i < p->option_count; i++) {
        const PlanOption *o = &p->options[i];
        if (o->is_edge == is_edge && is_usable(index, o)) {
            int cell = o->kind * p->week_count + o->set_week;
            menu->options[menu->from[cell] + next[cell]++] = i;
        }
    }
}

typedef struct SeriesKey {
    int way, kind, is_edge, set, span, option;
} SeriesKey;

static int by_series(const void *left, const void *right)
{
    const int *a = left, *b = right;
    for (int i = 0; i < (int)(sizeof(SeriesKey) / sizeof(int)); i++) {
        if (a[i] != b[i]) {
            return a[i] < b[i] ? -1 : 1;
        }
    }
    return 0;
}

static void open_series(StateIndex *index, Arena *arena)
{
    const Problem *p = index->problem;
    SeriesKey *keys = ARENA_ARRAY(arena, SeriesKey, p->option_count);
    int count = 0;
    for (int i = 0; i < p->option_count; i++) {
        const PlanOption *o = &p->options[i];
        if (is_usable(index, o)) {
            keys[count++] = (SeriesKey){o->way,
                                        o->kind,
                                        o->is_edge,
                                        o->set_week,
                                        o->pick_until - o->pick_from,
                                        i};
        }
    }
    qsort(keys, (size_t)count, sizeof *keys, by_series);
    index->series = ARENA_ARRAY(arena, int, count);
    index->series_count = count;
    for (int i = 0; i < count; i++) {
        index->series[i] = keys[i].option;
        index->options[keys[i].option].series = i;
    }
}

static void open_slots(StateIndex *index, Arena *arena)
{
    const Problem *p = index->problem;
    index->bed_slot = ARENA_ARRAY(arena, int, p->bed_count + 1);
    index->edge_beds = ARENA_ARRAY(arena, int, p->bed_count);
    for (int b = 0; b < p->bed_count; b++) {
        index->bed_slot[b + 1] = index->bed_slot[b] + p->beds[b].sections;
        if (p->beds[b].edge_m > 0.0) {
            index->edge_beds[index->edge_bed_count++] = b;
        }
    }
    index->slot_count = index->bed_slot[p->bed_count];
    index->slot_bed = ARENA_ARRAY(arena, int, index->slot_count);
    index->kind_from = ARENA_ARRAY(arena, int, p->kind_count + 1);
    for (int b = 0; b < p->bed_count; b++) {
        for (int s = index->bed_slot[b]; s < index->bed_slot[b + 1]; s++) {
            index->slot_bed[s] = b;
            index->kind_from[p->beds[b].kind + 1]++;
        }
    }
    for (int c = 0; c < p->kind_count; c++) {
        index->kind_from[c + 1] += index->kind_from[c];
    }
    int *next = ARENA_ARRAY(arena, int, p->kind_count);
    index->kind_slots = ARENA_ARRAY(arena, int, index->slot_count);
    for (int s = 0; s < index->slot_count; s++) {
        int kind = p->beds[index->slot_bed[s]].kind;
        index->kind_slots[index->kind_from[kind] + next[kind]++] = s;
    }
}

static StateRows number_rows(const Problem *p, int family_count)
{
    StateRows r = {.hours = 0, .trays = 1, .room = 2, .want = 3};
    r.given = r.want + p->loop_count;
    r.tan = r.given + p->loop_count;
    r.pool = r.tan + p->loop_count;
    r.lack = r.pool + p->loop_count;
    r.kg = r.lack + p->loop_count;
    r.oxygen = r.kg + p->tank_count;
    r.grades = r.oxygen + p->tank_count;
    r.catches = r.grades + p->tank_count;
    r.low = r.catches + p->tank_count;
    r.mean = r.low + p->goods_count;
    r.store = r.mean + p->goods_count;
    r.worth = r.store + p->goods_count;
    r.cleans = r.worth + family_count;
    r.seedlings = r.cleans + p->loop_count + 1;
    r.count = r.seedlings + p->seedlings_count;
    return r;
}

static void weigh_stocks(StateIndex *index, Arena *arena)
{
    const Problem *p = index->problem;
    int weeks = p->week_count;
    index->stock_mean_g = ARENA_ARRAY(arena, double, p->stock_count *weeks);
    for (int s = 0; s < p->stock_count; s++) {
        for (int t = p->stocks[s].start_week; t < weeks; t++) {
            double grams = 0.0, heads = 0.0;
            for (int b = 0; b < PLAN_LANES; b++) {
                const PlanLane *lane = &p->stocks[s].lanes[b];
                heads += lane->share * lane->alive[t];
                grams += lane->share * lane->alive[t] * lane->weight_g[t];
            }
            index->stock_mean_g[s * weeks + t] =
                heads > 0.0 ? grams / heads : 0.0;
        }
    }
}

void state_index_open(StateIndex *index, const Problem *problem, int first_week,
                      int family_count, Arena *arena)
{
    *index = (StateIndex){.problem = problem, .first_week = first_week};
    index->options = ARENA_ARRAY(arena, StateOption, problem->option_count);
    for (int i = 0; i < problem->option_count; i++) {
        index->options[i] = option_of(problem, &problem->options[i]);
    }
    open_menu(index, &index->floor, false, arena);
    open_menu(index, &index->edge, true, arena);
    open_series(index, arena);
    open_slots(index, arena);
    index->rows = number_rows(problem, family_count);
    weigh_stocks(index, arena);
}
