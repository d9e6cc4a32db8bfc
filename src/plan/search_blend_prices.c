/* Prices of the blend: of goods, wages and feed as the search has them, and of
 * what is above a limit, rising with it. */
#include <math.h>

#include "plan/search_blend.h"

/* Passing a limit by this share of it costs as much as a typical planting
 * earns with what it takes of it. */
static const double OVER_FRAC = 0.03;

/* What plantings on the floor that earn something take together. */
typedef struct Taken {
    double worth;
    double weeks;
    double trays;
    double hours;
} Taken;

static Taken sum_taken(const Blend *blend)
{
    const Search *search = blend->search;
    Taken sum = {0.0, 0.0, 0.0, 0.0};
    for (int i = 0; i < search->index.series_count; i++) {
        int option = search->index.series[i];
        const StateOption *o = &search->index.options[option];
        const PlanOption *plan = &search->problem->options[option];
        double worth = search_option_worth(search, option);
        if (worth <= 0.0 || o->is_edge) {
            continue;
        }
        sum.worth += worth;
        sum.weeks += o->clear - o->set;
        for (int t = o->trays.from; t < o->trays.until; t++) {
            sum.trays += plan->trays[t - o->shift];
        }
        for (int t = o->hours.from; t < o->hours.until; t++) {
            sum.hours += plan->hours[t - o->shift];
        }
    }
    return sum;
}

static double rise(double worth, double taken, double most)
{
    return taken > 0.0 ? worth / taken / (OVER_FRAC * fmax(most, 1.0)) : 0.0;
}

static double mean_of(const double *values, int count)
{
    double sum = 0.0;
    for (int t = 0; t < count; t++) {
        sum += values[t];
    }
    return sum / count;
}

void blend_open_prices(Blend *blend, Arena *arena)
{
    const Problem *p = blend->search->problem;
    BlendPrices *prices = &blend->prices;
    int weeks = p->week_count;
    Taken taken = sum_taken(blend);
    prices->hours = ARENA_ARRAY(arena, double, weeks);
    prices->trays = ARENA_ARRAY(arena, double, weeks);
    prices->sun = ARENA_ARRAY(arena, double, p->kind_count *weeks);
    prices->sun_rise = ARENA_ARRAY(arena, double, p->kind_count);
    prices->dear = ARENA_ARRAY(arena, int, (2 + p->kind_count) * (weeks + 1));
    prices->hour_rise =
        rise(taken.worth, taken.hours,
             mean_of(p->hours_paid, weeks) + mean_of(p->hours_extra, weeks));
    prices->tray_rise =
        rise(taken.worth, taken.trays, mean_of(p->trays, weeks));
    for (int c = 0; c < p->kind_count; c++) {
        prices->sun_rise[c] = rise(taken.worth, taken.weeks,
                                   mean_of(blend->sun_most + c * weeks, weeks));
    }
}

static void count_dear(const double *prices, int weeks, int *dear)
{
    for (int t = 0; t < weeks; t++) {
        dear[t + 1] = dear[t] + (prices[t] > 0.0);
    }
}

static void price_limits(Blend *blend)
{
    const Search *search = blend->search;
    const Problem *p = search->problem;
    BlendPrices *prices = &blend->prices;
    int weeks = p->week_count;
    const double *hours = state_row(&search->state, search->index.rows.hours);
    const double *trays = state_row(&search->state, search->index.rows.trays);
    for (int t = 0; t < weeks; t++) {
        double most = p->hours_paid[t] + p->hours_extra[t];
        prices->hours[t] = prices->hour_rise * fmax(0.0, hours[t] - most);
        prices->trays[t] =
            prices->tray_rise * fmax(0.0, trays[t] - p->trays[t]);
    }
    count_dear(prices->hours, weeks, prices->dear);
    count_dear(prices->trays, weeks, prices->dear + weeks + 1);
    for (int c = 0; c < p->kind_count; c++) {
        double *sun = prices->sun + c * weeks;
        for (int t = 0; t < weeks; t++) {
            double over =
                blend->sun[c * weeks + t] - blend->sun_most[c * weeks + t];
            sun[t] = prices->sun_rise[c] * fmax(0.0, over);
        }
        count_dear(sun, weeks, prices->dear + (2 + c) * (weeks + 1));
    }
}

/* Prices x what is taken in a span; dear: weeks before with a price. */
static double cost_of(StateSpan span, const double *taken, const double *prices,
                      const int *dear)
{
    double sum = 0.0;
    bool is_free = dear[span.until] == dear[span.from];
    for (int t = span.from; t < span.until && !is_free; t++) {
        sum += taken[t] * prices[t];
    }
    return sum;
}

static double over_cost(const Blend *blend, int option)
{
    const Problem *p = blend->search->problem;
    const StateOption *o = &blend->search->index.options[option];
    const PlanOption *plan = &p->options[option];
    const BlendPrices *prices = &blend->prices;
    int weeks = p->week_count;
    const int *dear = prices->dear;
    const int *sun_dear = dear + (2 + plan->kind) * (weeks + 1);
    const double *sun = prices->sun + plan->kind * weeks;
    double cost =
        cost_of(o->hours, plan->hours - o->shift, prices->hours, dear) +
        cost_of(o->trays, plan->trays - o->shift, prices->trays,
                dear + weeks + 1);
    if (o->is_edge) {
        return cost + cost_of(o->shade, plan->shade - o->shift, sun, sun_dear);
    }
    bool pays_sun = o->wants_sun && !blend->is_whole &&
                    sun_dear[o->clear] > sun_dear[o->set];
    for (int t = o->set; t < o->clear && pays_sun; t++) {
        cost += sun[t];
    }
    return cost;
}

void blend_make_prices(Blend *blend)
{
    Search *search = blend->search;
    search_price_all(search);
    price_limits(blend);
    for (int i = 0; i < search->index.series_count; i++) {
        int option = search->index.series[i];
        blend->worth[option] =
            search_option_worth(search, option) - over_cost(blend, option);
    }
}
