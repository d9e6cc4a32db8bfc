/* Of all ways to sell what a plan makes that bring the same money, one that is
 * near another plan's. */
#include "plan/sell_alike.h"

#include <math.h>
#include <string.h>

static const double ROUNDING = 1e-6;

typedef struct Alike {
    const Problem *problem;
    const PlanOutcome *before;
    PlanOutcome *after;
    int weeks;
    int *family;   /* by goods: the least goods that a product joins it to */
    bool *is_kept; /* by family: some of its goods are stored */
    bool *is_same; /* [family][week]: both plans make the same of it */
} Alike;

static bool is_near(double a, double b)
{
    return fabs(a - b) <= ROUNDING * (1.0 + fabs(a));
}

/* ---- Families of goods ----------------------------------------------------
 */

static void join_families(Alike *alike)
{
    const Problem *problem = alike->problem;
    bool is_moving = true;
    for (int g = 0; g < problem->goods_count; g++) {
        alike->family[g] = g;
    }
    while (is_moving) {
        is_moving = false;
        for (int p = 0; p < problem->product_count; p++) {
            const PlanProduct *product = &problem->products[p];
            int least = problem->goods_count;
            for (int j = 0; j < product->part_count; j++) {
                int family = alike->family[product->parts[j].goods];
                least = family < least ? family : least;
            }
            for (int j = 0; j < product->part_count; j++) {
                int *family = &alike->family[product->parts[j].goods];
                is_moving |= *family != least;
                *family = least;
            }
        }
    }
}

/* What is stored joins the weeks: a family with a store is the same only where
 * all its weeks are. */
static void mark_same(Alike *alike)
{
    const Problem *problem = alike->problem;
    int count = problem->goods_count * alike->weeks;
    memset(alike->is_same, 1, (size_t)count * sizeof *alike->is_same);
    for (int i = 0; i < count; i++) {
        int g = i / alike->weeks;
        int at = alike->family[g] * alike->weeks + i % alike->weeks;
        alike->is_kept[alike->family[g]] |= problem->goods[g].keep > 0.0;
        alike->is_same[at] &=
            is_near(alike->before->made[i], alike->after->made[i]);
    }
    for (int f = 0; f < problem->goods_count; f++) {
        bool *same = &alike->is_same[f * alike->weeks];
        bool is_all = true;
        for (int t = 0; t < alike->weeks; t++) {
            is_all &= same[t];
        }
        for (int t = 0; t < alike->weeks && alike->is_kept[f]; t++) {
            same[t] = is_all;
        }
    }
}

static bool is_same(const Alike *alike, int product, int week)
{
    int goods = alike->problem->products[product].parts[0].goods;
    return alike->is_same[alike->family[goods] * alike->weeks + week];
}

static void copy_same(const Alike *alike)
{
    const Problem *problem = alike->problem;
    const PlanOutcome *before = alike->before;
    PlanOutcome *after = alike->after;
    int weeks = alike->weeks;
    for (int i = 0; i < problem->order_count * weeks; i++) {
        if (is_same(alike, problem->orders[i / weeks].product, i % weeks)) {
            after->kept[i] = before->kept[i];
        }
    }
    for (int i = 0; i < problem->outlet_count * weeks; i++) {
        if (is_same(alike, problem->outlets[i / weeks].product, i % weeks)) {
            after->sold[i] = before->sold[i];
        }
    }
    for (int i = 0; i < problem->goods_count * weeks; i++) {
        int family = alike->family[i / weeks];
        if (alike->is_same[family * weeks + i % weeks]) {
            after->store[i] = before->store[i];
        }
    }
    int part = 0;
    for (int p = 0; p < problem->product_count; p++) {
        for (int i = 0; i < problem->products[p].part_count * weeks; i++) {
            int at = part * weeks + i;
            if (is_same(alike, p, i % weeks)) {
                after->part_firm[at] = before->part_firm[at];
                after->part_rest[at] = before->part_rest[at];
            }
        }
        part += problem->products[p].part_count;
    }
}

/* ---- Buyers who pay the same ----------------------------------------------
 */

static double gain(const PlanOrder *order, int week)
{
    return order->price[week] + order->miss;
}

static bool are_alike(const PlanOrder *a, const PlanOrder *b, int week)
{
    return a->product == b->product && a->is_firm == b->is_firm &&
           is_near(gain(a, week), gain(b, week));
}

/* Gives (or takes) up to *left units to order o, whose week is kept or short as
 * before. */
static void shift(const Alike *alike, int o, int week, double *left)
{
    int at = o * alike->weeks + week;
    double wanted = alike->problem->orders[o].wanted[week];
    double *kept = &alike->after->kept[at];
    double most = *left > 0.0 ? wanted - *kept : *kept;
    double units = fmin(fabs(*left), fmax(0.0, most));
    *kept += *left > 0.0 ? units : -units;
    *left += *left > 0.0 ? -units : units;
}

/* The group of order first shares what it gets as it did before; what is less
 * is taken first from those who were short already, what is more goes to them.
 */
static void share_group(const Alike *alike, int first, int week)
{
    const Problem *problem = alike->problem;
    double left = 0.0;
    for (int o = first; o < problem->order_count; o++) {
        int at = o * alike->weeks + week;
        if (are_alike(&problem->orders[o], &problem->orders[first], week)) {
            left += alike->after->kept[at] - alike->before->kept[at];
            alike->after->kept[at] = alike->before->kept[at];
        }
    }
    for (int turn = 0; turn < 2; turn++) {
        for (int o = first; o < problem->order_count; o++) {
            int at = o * alike->weeks + week;
            bool was_short =
                problem->orders[o].wanted[week] - alike->before->kept[at] >
                ROUNDING;
            if (was_short == (turn == 0) &&
                are_alike(&problem->orders[o], &problem->orders[first], week)) {
                shift(alike, o, week, &left);
            }
        }
    }
}

static void share_groups(const Alike *alike)
{
    const Problem *problem = alike->problem;
    for (int o = 0; o < problem->order_count; o++) {
        for (int t = 0; t < alike->weeks; t++) {
            bool is_first = problem->orders[o].wanted[t] > 0.0;
            for (int i = 0; i < o && is_first; i++) {
                is_first =
                    !(problem->orders[i].wanted[t] > 0.0 &&
                      are_alike(&problem->orders[i], &problem->orders[o], t));
            }
            if (is_first) {
                share_group(alike, o, t);
            }
        }
    }
}

/* ---- Money ----------------------------------------------------------------
 */

static void add_money(const Alike *alike, double *out_sales, double *out_missed)
{
    const Problem *problem = alike->problem;
    double sales = 0.0;
    double missed = 0.0;
    for (int i = 0; i < problem->order_count * alike->weeks; i++) {
        const PlanOrder *order = &problem->orders[i / alike->weeks];
        int t = i % alike->weeks;
        sales += order->price[t] * alike->after->kept[i];
        missed += order->miss * (order->wanted[t] - alike->after->kept[i]);
    }
    for (int i = 0; i < problem->outlet_count * alike->weeks; i++) {
        sales += problem->outlets[i / alike->weeks].price[i % alike->weeks] *
                 alike->after->sold[i];
    }
    *out_sales = sales;
    *out_missed = missed;
}

static bool has_room(const Alike *alike)
{
    const Problem *problem = alike->problem;
    for (int t = 0; t < alike->weeks; t++) {
        double kg = 0.0;
        for (int g = 0; g < problem->goods_count; g++) {
            kg += alike->after->store[g * alike->weeks + t] *
                  problem->goods[g].kg_per_unit;
        }
        if (kg > problem->store_room_kg + ROUNDING * (1.0 + kg)) {
            return false;
        }
    }
    return true;
}

static PlanOutcome copy_of(const Problem *problem, const PlanOutcome *from,
                           Arena *arena)
{
    size_t weeks = (size_t)problem->week_count;
    size_t parts = 0;
    for (int p = 0; p < problem->product_count; p++) {
        parts += (size_t)problem->products[p].part_count;
    }
    size_t orders = (size_t)problem->order_count * weeks;
    size_t outlets = (size_t)problem->outlet_count * weeks;
    size_t goods = (size_t)problem->goods_count * weeks;
    size_t size = sizeof(double);
    PlanOutcome copy = *from;
    copy.kept = arena_grow(arena, from->kept, orders, orders, size);
    copy.sold = arena_grow(arena, from->sold, outlets, outlets, size);
    copy.store = arena_grow(arena, from->store, goods, goods, size);
    copy.part_firm =
        arena_grow(arena, from->part_firm, parts * weeks, parts * weeks, size);
    copy.part_rest =
        arena_grow(arena, from->part_rest, parts * weeks, parts * weeks, size);
    return copy;
}

void plan_sell_alike(const Problem *problem, const PlanOutcome *before,
                     Arena *arena, PlanOutcome *after)
{
    PlanOutcome found = copy_of(problem, after, arena);
    int goods = problem->goods_count;
    Alike alike = {.problem = problem,
                   .before = before,
                   .after = &found,
                   .weeks = problem->week_count,
                   .family = ARENA_ARRAY(arena, int, goods),
                   .is_kept = ARENA_ARRAY(arena, bool, goods),
                   .is_same =
                       ARENA_ARRAY(arena, bool, goods * problem->week_count)};
    join_families(&alike);
    mark_same(&alike);
    copy_same(&alike);
    share_groups(&alike);
    add_money(&alike, &found.sales, &found.missed);
    bool is_worth =
        is_near(found.sales - found.missed, after->sales - after->missed);
    /* Where stores of different families share a room it may not be so. */
    if (is_worth && has_room(&alike)) {
        found.value +=
            found.sales - found.missed - after->sales + after->missed;
        *after = found;
    }
}
