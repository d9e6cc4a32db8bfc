/* What options are worth at present prices, to draw the better ones oftener. */
#include <math.h>

#include "plan/search_parts.h"

void search_score_open(Search *search, Arena *arena)
{
    const Problem *p = search->problem;
    search->score = ARENA_ARRAY(arena, float, p->option_count);
    search->goods_price =
        ARENA_ARRAY(arena, double, p->goods_count * p->week_count);
    search->goods_batch = ARENA_ARRAY(arena, double, p->goods_count);
    search->hour_price = ARENA_ARRAY(arena, double, p->week_count);
    search->hours_dear = ARENA_ARRAY(arena, int, p->week_count + 1);
    search->feed_dear =
        ARENA_ARRAY(arena, int, p->loop_count *(p->week_count + 1));
    for (int i = 0; i < p->option_count; i++) {
        const PlanOption *o = &p->options[i];
        StateSpan span = search->index.options[i].yield;
        double *batch = &search->goods_batch[o->goods];
        for (int t = span.from; t < span.until; t++) {
            double units = o->mean[t - o->first_week];
            *batch = units > *batch ? units : *batch;
        }
    }
}

double search_gain(Search *search, int goods, int week, double units)
{
    State *state = &search->state;
    const StateRows *rows = &search->index.rows;
    int family = search->sales.family_of[goods];
    double *low = state_row(state, rows->low + goods) + week;
    double *mean = state_row(state, rows->mean + goods) + week;
    double low_before = *low, mean_before = *mean;
    *low += units;
    *mean += units;
    double with = state_family_worth(state, family, week);
    *low = low_before;
    *mean = mean_before;
    return with - state_row(state, rows->worth + family)[week];
}

static void price_goods(Search *search)
{
    const Problem *p = search->problem;
    for (int g = 0; g < p->goods_count; g++) {
        double units = search->goods_batch[g];
        double *price = search->goods_price + g * p->week_count;
        for (int t = 0; t < p->week_count && units > 0.0; t++) {
            price[t] = search_gain(search, g, t, units) / units;
        }
    }
}

/* What a kg more or less in a loop's pool is worth, week by week. */
void search_price_feed(Search *search)
{
    const Problem *p = search->problem;
    const State *state = &search->state;
    const StateRows *rows = &search->index.rows;
    for (int l = 0; l < p->loop_count; l++) {
        const double *pool = state_row(state, rows->pool + l);
        const double *lack = state_row(state, rows->lack + l);
        double *price = search->routes.feed_price + l * p->week_count;
        double ahead = 0.0;
        for (int t = p->week_count - 1; t >= 0; t--) {
            bool is_full = pool[t] >= p->loops[l].pool_max_kg;
            double here = lack[t] > 0.0 ? p->loops[l].short_price
                          : is_full     ? 0.0
                                        : ahead;
            price[t] = here;
            ahead = p->loops[l].pool_keep * here;
        }
    }
}

/* Hours above those paid, and how many weeks so far have any; the same of feed
 * that has a price. Most options meet neither. */
static void price_hours(Search *search)
{
    const Problem *p = search->problem;
    const double *worked = state_row(&search->state, search->index.rows.hours);
    for (int t = 0; t < p->week_count; t++) {
        bool is_over = worked[t] > p->hours_paid[t];
        search->hour_price[t] = is_over ? p->wage_extra_h : 0.0;
        search->hours_dear[t + 1] = search->hours_dear[t] + is_over;
    }
    for (int l = 0; l < p->loop_count; l++) {
        const double *price = search->routes.feed_price + l * p->week_count;
        int *dear = search->feed_dear + l * (p->week_count + 1);
        for (int t = 0; t < p->week_count; t++) {
            dear[t + 1] = dear[t] + (price[t] > 0.0);
        }
    }
}

static double sum_of(StateSpan span, const double *values, const double *prices)
{
    double sum = 0.0;
    for (int t = span.from; t < span.until; t++) {
        sum += values[t] * prices[t];
    }
    return sum;
}

double search_option_worth(const Search *search, int option)
{
    const Problem *p = search->problem;
    const PlanOption *o = &p->options[option];
    const StateOption *s = &search->index.options[option];
    double worth = sum_of(s->yield, o->mean - s->shift,
                          search->goods_price + o->goods * p->week_count) -
                   o->cost;
    if (search->hours_dear[s->hours.until] >
        search->hours_dear[s->hours.from]) {
        worth -= sum_of(s->hours, o->hours - s->shift, search->hour_price);
    }
    if (s->loop != PLAN_NONE) {
        const int *dear = search->feed_dear + s->loop * (p->week_count + 1);
        if (dear[s->want.until] > dear[s->want.from]) {
            worth -=
                sum_of(s->want, o->want_kg - s->shift,
                       search->routes.feed_price + s->loop * p->week_count);
        }
    }
    return worth;
}

void search_price_all(Search *search)
{
    price_goods(search);
    search_price_feed(search);
    price_hours(search);
}

void search_score(Search *search)
{
    search_price_all(search);
    for (int i = 0; i < search->index.series_count; i++) {
        int option = search->index.series[i];
        const StateOption *o = &search->index.options[option];
        double weeks = o->clear - o->set + 1;
        search->score[option] =
            (float)(search_option_worth(search, option) / weeks /
                    search->problem->options[option].place);
    }
    search->score_at = search->moves;
}

int search_pick(Search *search, const StateMenu *menu, int cell, int until)
{
    int from = menu->from[cell];
    int count = menu->from[cell + 1] - from;
    if (count == 0) {
        return PLAN_NONE;
    }
    enum { TRIES_MOST = 8 };
    int tries = 1 + (int)rng_below(&search->rng, TRIES_MOST);
    int best = PLAN_NONE;
    for (int i = 0; i < tries; i++) {
        int option =
            menu->options[from + (int)rng_below(&search->rng, (uint32_t)count)];
        if (search->index.options[option].clear <= until &&
            (best == PLAN_NONE ||
             search->score[option] > search->score[best])) {
            best = option;
        }
    }
    return best;
}
