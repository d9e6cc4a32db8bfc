/* Orders of a possible year: what each could be given by week. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "farm/keeping.h"
#include "sim/plant_rule.h"
#include "work/due.h"
#include "work/years_parts.h"

/* ---- Opening --------------------------------------------------------------
 */

static void open_due(YearsFarm *years, Arena *arena)
{
    const Farm *farm = years->ask.farm;
    int weeks = years->ask.weeks;
    Orders *orders = &years->orders;
    orders->due = ARENA_ARRAY(arena, YearsDue, farm->orders_count * weeks);
    orders->turn = ARENA_ARRAY(arena, int, farm->orders_count);
    for (int firm = ORDER_FIRM; firm <= ORDER_PROMISED; firm++) {
        for (int o = 0; o < farm->orders_count; o++) {
            if (farm->orders[o].firmness == firm) {
                orders->turn[orders->turn_count++] = o;
            }
        }
    }
    /* What is wanted without the plan's rows, then each of those once. */
    Farm unplanned = *farm;
    unplanned.plan_orders_count = 0;
    for (int w = 0; w < weeks; w++) {
        CLEANUP(arena_release) Arena scratch = {0};
        int32_t monday = years->ask.first_week + YEARS_WEEK_D * w;
        const Due *due = due_of_week(&unplanned, monday, &scratch);
        for (int i = 0; i < orders->turn_count; i++) {
            int o = orders->turn[i];
            orders->due[o * weeks + w].wanted = due[o].wanted;
        }
    }
    for (int32_t i = 0; i < farm->plan_orders_count; i++) {
        const PlanPromise *row = &farm->plan_orders[i];
        int32_t days = row->week - years->ask.first_week;
        bool is_order = farm->orders[row->order].firmness != ORDER_OUTLET;
        if (is_order && days >= 0 && days < YEARS_WEEK_D * weeks &&
            days % YEARS_WEEK_D == 0) {
            orders->due[row->order * weeks + days / YEARS_WEEK_D].planned =
                row->kept;
        }
    }
}

void years_orders_open(YearsFarm *years, Arena *arena)
{
    const Farm *farm = years->ask.farm;
    Orders *orders = &years->orders;
    open_due(years, arena);
    double **const by_way[] = {&orders->keep, &orders->unit_kg, &orders->store,
                               &orders->there};
    for (size_t i = 0; i < sizeof by_way / sizeof *by_way; i++) {
        *by_way[i] = ARENA_ARRAY(arena, double, farm->ways_count);
    }
    for (int w = 0; w < farm->ways_count; w++) {
        orders->keep[w] =
            keeping_week_frac(keeping_days(years->ask.book, &farm->ways[w]));
        orders->unit_kg[w] = farm->ways[w].unit_g / 1000.0;
    }
    for (int i = 0; i < farm->stores_count; i++) {
        orders->room_kg += farm->stores[i].room_kg;
    }
    orders->fish = ARENA_ARRAY(arena, double, farm->products_count);
    orders->fish_had = ARENA_ARRAY(arena, double, farm->products_count);
    orders->made = ARENA_ARRAY(arena, double, farm->orders_count);
}

YearsDue years_due(const YearsFarm *years, int order, int week)
{
    return years->orders.due[order * years->ask.weeks + week];
}

void years_orders_begin(YearsFarm *years)
{
    const Farm *farm = years->ask.farm;
    Orders *orders = &years->orders;
    memset(orders->store, 0, (size_t)farm->ways_count * sizeof(double));
    for (int p = 0; p < farm->products_count; p++) {
        orders->fish_had[p] = hour_sold_over(years->first)[p];
    }
}

/* ---- Making a product ------------------------------------------------------
 */

/* What there is of a part. */
static double *pile(const YearsFarm *years, const Part *part)
{
    Orders *orders = (Orders *)&years->orders;
    return part->way >= 0 ? &orders->there[part->way]
                          : &orders->fish[part->product];
}

/* Whether `made` units of a product can be put together: each part between its
 * least and its most, all of them together the product's units. */
static bool can_make(const YearsFarm *years, int product, double made)
{
    const Farm *farm = years->ask.farm;
    double wanted = 0.0, most = 0.0;
    for (int i = 0; i < farm->parts_count; i++) {
        const Part *part = &farm->parts[i];
        if (part->product != product) {
            continue;
        }
        double there = *pile(years, part);
        double units = part->units * made;
        if (there < part->low_frac * units) {
            return false;
        }
        wanted += units;
        most += fmin(there, part->high_frac * units);
    }
    return most >= wanted * (1.0 - 1e-9);
}

/* Takes its parts: the least of each, the rest by what is left of each. */
static void take(const YearsFarm *years, int product, double made)
{
    const Farm *farm = years->ask.farm;
    double wanted = 0.0, room = 0.0;
    for (int i = 0; i < farm->parts_count; i++) {
        const Part *part = &farm->parts[i];
        if (part->product != product) {
            continue;
        }
        double units = part->units * made;
        double least = part->low_frac * units;
        wanted += units - least;
        room += fmax(0.0,
                     fmin(*pile(years, part), part->high_frac * units) - least);
    }
    double share = room > 0.0 ? fmin(1.0, wanted / room) : 0.0;
    for (int i = 0; i < farm->parts_count; i++) {
        const Part *part = &farm->parts[i];
        if (part->product != product) {
            continue;
        }
        double *there = pile(years, part);
        double units = part->units * made;
        double least = part->low_frac * units;
        double more = fmax(0.0, fmin(*there, part->high_frac * units) - least);
        *there = fmax(0.0, *there - least - share * more);
    }
}

/* As much as can be made, at most wanted. */
static double make(const YearsFarm *years, int product, double wanted)
{
    enum { HALVINGS = 24 };
    double made = wanted;
    if (!(wanted > 0.0)) {
        return 0.0;
    }
    if (!can_make(years, product, wanted)) {
        double low = 0.0, high = wanted;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2.0;
            *(can_make(years, product, middle) ? &low : &high) = middle;
        }
        made = low;
    }
    take(years, product, made);
    return made;
}

/* ---- A week ----------------------------------------------------------------
 */

static void gather(YearsFarm *years)
{
    const Farm *farm = years->ask.farm;
    Orders *orders = &years->orders;
    for (int w = 0; w < farm->ways_count; w++) {
        orders->there[w] = years->picked[w] + orders->store[w];
    }
    const double *sold = hour_sold_over(years->state);
    for (int p = 0; p < farm->products_count; p++) {
        orders->fish[p] = sold[p] - orders->fish_had[p];
        orders->fish_had[p] = sold[p];
    }
}

/* What is left and lasts goes into the store, as far as it has room. */
static void put_by(YearsFarm *years)
{
    const Farm *farm = years->ask.farm;
    Orders *orders = &years->orders;
    double kg = 0.0;
    for (int w = 0; w < farm->ways_count; w++) {
        kg +=
            orders->keep[w] > 0.0 ? orders->there[w] * orders->unit_kg[w] : 0.0;
    }
    double share = kg > orders->room_kg ? orders->room_kg / kg : 1.0;
    for (int w = 0; w < farm->ways_count; w++) {
        orders->store[w] = share * orders->keep[w] * orders->there[w];
    }
}

/* The plan rounds to what it can count on: so near is kept. */
static const double KEPT_FRAC = 0.995;

/* The last step is for what is kept. */
static double kept_frac(double made, double wanted)
{
    static const double NEARLY = 0.95;
    return made >= KEPT_FRAC * wanted ? 1.0 : fmin(NEARLY, made / wanted);
}

void years_orders_week(YearsFarm *years, int week)
{
    const Farm *farm = years->ask.farm;
    Orders *orders = &years->orders;
    gather(years);
    for (int i = 0; i < orders->turn_count; i++) {
        int o = orders->turn[i];
        YearsDue due = years_due(years, o, week);
        double planned = fmin(due.wanted, due.planned);
        orders->made[o] = make(years, farm->orders[o].product, planned);
        if (orders->made[o] < KEPT_FRAC * planned) {
            bool is_firm = farm->orders[o].firmness == ORDER_FIRM;
            years_break(years, is_firm ? BREAK_FIRM : BREAK_PROMISE, o, week);
        }
    }
    for (int i = 0; i < orders->turn_count; i++) {
        int o = orders->turn[i];
        YearsDue due = years_due(years, o, week);
        double rest = due.wanted - orders->made[o];
        if (due.wanted > 0.0) {
            orders->made[o] +=
                make(years, farm->orders[o].product, fmax(0.0, rest));
            years_put(years, YEARS_KEPT, o, week,
                      kept_frac(orders->made[o], due.wanted));
        }
    }
    put_by(years);
}
