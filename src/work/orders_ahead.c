/* Orders in the weeks to come. */
#include "work/orders_ahead.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "farm/closures.h"
#include "work/due.h"
#include "work/orders_working.h"

/* Less is not short and not over: half a unit of what is counted; judged. */
static const double LEAST_UNITS = 0.5;
static const double LEAST_KG = 0.05;

enum { INSTEAD_MOST = 4 };

typedef struct Work {
    const OrdersAsk *ask;
    const Farm *farm;
    Arena *arena;
    OrdersAhead *out;
    const Due *before;      /* of the week before the first */
    const Due *const *dues; /* by week */
} Work;

static bool is_weighed(const Farm *farm, int32_t product)
{
    return strcmp(farm->products[product].unit, "kg") == 0;
}

static double least_of(const Farm *farm, int32_t product)
{
    return is_weighed(farm, product) ? LEAST_KG : LEAST_UNITS;
}

static const char *product_name(const Farm *farm, int32_t product)
{
    const Product *row = &farm->products[product];
    return *row->name ? row->name : row->id;
}

static int32_t monday(const Work *work, int week)
{
    return work->ask->first_week + week * JOBS_DAYS;
}

/* ---- orders by week ------------------------------------------------------
 */

static OrderWeek week_of_order(const Work *work, int32_t order, int week)
{
    const Due due = work->dues[week][order];
    OrderWeek made = {.ordered = due.wanted,
                      .planned = due.kept,
                      .is_closed = due.day_count == 0};
    const JobLoads *loads = &work->ask->weeks[week].loads;
    for (int32_t i = 0; i < loads->count; i++) {
        const Load *load = &loads->loads[i];
        if (load->order == order) {
            made.low += load->low;
            made.expected += load->expected;
            made.high += load->high;
            made.short_by += load->short_by;
        }
    }
    orders_working_week(work->ask, order, week, &due, &made);
    return made;
}

static void add_orders(Work *work)
{
    const Farm *farm = work->farm;
    OrdersAhead *out = work->out;
    out->orders = ARENA_ARRAY(work->arena, OrderAhead, farm->orders_count + 1);
    for (int32_t o = 0; o < farm->orders_count; o++) {
        OrderWeek *weeks =
            ARENA_ARRAY(work->arena, OrderWeek, work->ask->week_count);
        bool is_due = false;
        for (int w = 0; w < work->ask->week_count; w++) {
            weeks[w] = week_of_order(work, o, w);
            is_due |= weeks[w].ordered > 0.0;
        }
        if (is_due) {
            out->orders[out->order_count++] = (OrderAhead){
                o, farm->orders[o].from == farm->orders[o].until, weeks};
        }
    }
}

/* ---- what can be offered -------------------------------------------------
 */

/* Units of each way in the week, the last is fish: low, expected, high. */
static void ready(const Work *work, int week, double (*units)[3])
{
    const Farm *farm = work->farm;
    const OrdersWeek *at = &work->ask->weeks[week];
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const JobYield *yield = &at->outlook->yields[i];
        double *way = units[farm->plan_plants[i].way];
        way[0] += yield->low;
        way[1] += yield->mean;
        way[2] += yield->high;
    }
    for (int32_t i = 0; i < at->jobs->list.count; i++) {
        const Job *job = &at->jobs->list.jobs[i];
        for (int v = 0; job->kind == JOB_SALE && v < 3; v++) {
            units[farm->ways_count][v] += job->amount;
        }
    }
}

static void take_ordered(const Work *work, int week, bool is_outlet,
                         double (*units)[3], double *ordered)
{
    const Farm *farm = work->farm;
    for (int32_t o = 0; o < farm->orders_count; o++) {
        const Order *order = &farm->orders[o];
        if ((order->firmness == ORDER_OUTLET) != is_outlet) {
            continue;
        }
        double wanted = work->dues[week][o].wanted;
        ordered[order->product] += wanted;
        for (int32_t p = 0; p < farm->parts_count; p++) {
            const Part *part = &farm->parts[p];
            if (part->product != order->product) {
                continue;
            }
            double *goods =
                units[part->way >= 0 ? part->way : farm->ways_count];
            for (int v = 0; v < 3; v++) {
                goods[v] -= part->units * wanted;
            }
        }
    }
}

/* Units of a product that its parts give; a mix takes its own shares. */
static double makes(const Farm *farm, int32_t product, double (*units)[3],
                    int view)
{
    double most = INFINITY;
    for (int32_t p = 0; p < farm->parts_count; p++) {
        const Part *part = &farm->parts[p];
        if (part->product == product) {
            double there =
                units[part->way >= 0 ? part->way : farm->ways_count][view];
            most = fmin(most, there / part->units);
        }
    }
    most = isfinite(most) ? fmax(most, 0.0) : 0.0;
    return is_weighed(farm, product) ? most : floor(most + 0.05);
}

/* Whether the price list has it for the buyer by name. */
static bool has_price(const Farm *farm, int32_t product, int32_t buyer)
{
    for (int32_t i = 0; i < farm->prices_count; i++) {
        if (farm->prices[i].product == product &&
            farm->prices[i].buyer == buyer) {
            return true;
        }
    }
    return false;
}

static void add_to(Offer *offer, int32_t buyer, double units, const char *why)
{
    for (int32_t i = 0; i < offer->to_count; i++) {
        if (offer->to[i].buyer == buyer) {
            return;
        }
    }
    offer->to[offer->to_count++] = (OfferTo){buyer, units, why};
}

static bool is_open(const Work *work, int32_t buyer, int week)
{
    for (int d = 0; d < JOBS_DAYS; d++) {
        if (!closures_shut_buyer(work->farm, buyer, monday(work, week) + d)) {
            return true;
        }
    }
    return false;
}

/* Whom to ask first: who is short of it this week, who takes it, outlets, who
 * has a price for it, all others that are open. */
static void find_whom(const Work *work, int week, Offer *offer)
{
    const Farm *farm = work->farm;
    offer->to = ARENA_ARRAY(work->arena, OfferTo, farm->buyers_count + 1);
    for (int32_t i = 0; i < work->out->order_count; i++) {
        const OrderAhead *at = &work->out->orders[i];
        const Order *order = &farm->orders[at->order];
        if (order->product == offer->product &&
            at->weeks[0].short_by >= least_of(farm, order->product) &&
            order->firmness != ORDER_OUTLET) {
            add_to(offer, order->buyer, at->weeks[0].short_by,
                   say(work->arena, "cut this week"));
        }
    }
    for (int32_t i = 0; i < work->out->order_count; i++) {
        const OrderAhead *at = &work->out->orders[i];
        const Order *order = &farm->orders[at->order];
        if (order->product == offer->product && at->weeks[week].ordered > 0.0) {
            bool is_outlet = order->firmness == ORDER_OUTLET;
            add_to(
                offer, order->buyer, is_outlet ? at->weeks[week].ordered : NAN,
                say(work->arena, is_outlet ? "outlet" : "takes it every week"));
        }
    }
    for (int32_t b = 0; b < farm->buyers_count; b++) {
        if (is_open(work, b, week) && has_price(farm, offer->product, b)) {
            add_to(offer, b, NAN, say(work->arena, "has a price for it"));
        }
    }
    for (int32_t b = 0; b < farm->buyers_count; b++) {
        if (is_open(work, b, week)) {
            add_to(offer, b, NAN, say(work->arena, "open, has not ordered it"));
        }
    }
}

/* For a working: the stocks as they are now; NULL where none is asked for. */
static double (*copy_units(const Work *work, double (*units)[3]))[3]
{
    size_t count = (size_t)work->farm->ways_count + 1;
    if (!work->ask->workings) {
        return NULL;
    }
    double(*copy)[3] = arena_alloc(work->arena, count, sizeof *copy);
    memcpy(copy, units, count * sizeof *copy);
    return copy;
}

/* What each product could give beside the orders of a week. is_told: its
 * workings are those of the offers. */
static void find_over(const Work *work, int week, bool is_told, Offer *offers)
{
    const Farm *farm = work->farm;
    double(*units)[3] =
        arena_alloc(work->arena, (size_t)farm->ways_count + 1, sizeof *units);
    double *ordered = ARENA_ARRAY(work->arena, double, farm->products_count);
    double *outlets = ARENA_ARRAY(work->arena, double, farm->products_count);
    ready(work, week, units);
    OfferMade made = {.ask = work->ask,
                      .week = week,
                      .dues = work->dues[week],
                      .there = copy_units(work, units)};
    take_ordered(work, week, false, units, ordered);
    made.left = copy_units(work, units);
    for (int32_t p = 0; p < farm->products_count; p++) {
        offers[p] = (Offer){.product = p,
                            .ordered = ordered[p],
                            .low = makes(farm, p, units, 0),
                            .expected = makes(farm, p, units, 1),
                            .high = makes(farm, p, units, 2)};
    }
    take_ordered(work, week, true, units, outlets);
    for (int32_t p = 0; p < farm->products_count; p++) {
        offers[p].over = makes(farm, p, units, 1);
    }
    made.over = units;
    for (int32_t p = 0; is_told && p < farm->products_count; p++) {
        orders_working_offer(&made, &offers[p]);
    }
}

static void add_offers(Work *work)
{
    int32_t count = work->farm->products_count;
    int week = work->ask->offer_week;
    Offer *offers = ARENA_ARRAY(work->arena, Offer, count + 1);
    find_over(work, week, true, offers);
    work->out->offers = offers;
    work->out->offer_week = monday(work, week);
    for (int32_t p = 0; p < count; p++) {
        if (offers[p].high >= least_of(work->farm, p) ||
            offers[p].ordered > 0.0) {
            Offer *offer = &offers[work->out->offer_count++];
            *offer = offers[p];
            if (offer->expected >= least_of(work->farm, p)) {
                find_whom(work, week, offer);
            }
        }
    }
}

/* ---- what is short -------------------------------------------------------
 */

/* "24 of 40 heads of head lettuce on Tue 2 Mar; instead: chard, 5 bunches". */
static const char *message_of(const Work *work, const Shortage *shortage,
                              const ShortShare *share)
{
    const Farm *farm = work->farm;
    const Product *product = &farm->products[shortage->product];
    const Order *order = &farm->orders[share->order];
    const Buyer *buyer = &farm->buyers[order->buyer];
    const char *text =
        arena_say(work->arena, "%s: %s of %s %s of %s this week",
                  *buyer->name ? buyer->name : buyer->id,
                  job_quantity(share->line.by_rule, product->unit, work->arena),
                  job_quantity(share->line.ordered, product->unit, work->arena),
                  job_unit(product->unit, share->line.ordered, work->arena),
                  product_name(farm, shortage->product));
    for (int32_t i = 0; i < shortage->instead_count; i++) {
        const Substitute *instead = &shortage->instead[i];
        text = arena_text(work->arena, "%s%s%s", text,
                          say(work->arena, i ? ", or " : "; instead we have "),
                          product_name(farm, instead->product));
    }
    return arena_text(work->arena, "%s.", text);
}

static void find_instead(const Work *work, Shortage *shortage)
{
    const Farm *farm = work->farm;
    Offer *offers = ARENA_ARRAY(work->arena, Offer, farm->products_count + 1);
    find_over(work, shortage->week, false, offers);
    Substitute *list = ARENA_ARRAY(work->arena, Substitute, INSTEAD_MOST + 1);
    for (int32_t p = 0; p < farm->products_count; p++) {
        bool is_fish = false;
        for (int32_t i = 0; i < farm->parts_count; i++) {
            is_fish |= farm->parts[i].product == p && farm->parts[i].way < 0;
        }
        if (p == shortage->product || is_fish ||
            offers[p].low < least_of(farm, p)) {
            continue;
        }
        int32_t at = shortage->instead_count < INSTEAD_MOST
                         ? shortage->instead_count++
                         : INSTEAD_MOST;
        while (at > 0 && list[at - 1].units < offers[p].low) {
            list[at] = list[at - 1];
            at--;
        }
        if (at < INSTEAD_MOST) {
            list[at] = (Substitute){p, offers[p].low};
        }
    }
    shortage->instead = list;
}

/* Units of a product that a buyer was told to have got the week before; NAN
 * where nothing was told of it. */
static double delivered_of(const Work *work, const Order *order)
{
    const Farm *farm = work->farm;
    double units = NAN;
    for (int32_t i = 0; i < work->ask->delivered.count; i++) {
        const Told *told = &work->ask->delivered.items[i];
        if (strcmp(told->buyer, farm->buyers[order->buyer].id) != 0 ||
            strcmp(told->product, farm->products[order->product].id) != 0) {
            continue;
        }
        double more = !isnan(told->quantity) ? told->quantity
                      : told->count >= 0     ? (double)told->count
                                             : 0.0;
        units = (isnan(units) ? 0.0 : units) + more;
    }
    return units;
}

/* Units by which a buyer was cut the week before: as told, else as foreseen. */
static double cut_before(const Work *work, const OrderAhead *at, int week)
{
    const Order *order = &work->farm->orders[at->order];
    double least = least_of(work->farm, order->product);
    const Due *dues = week == 0 ? work->before : work->dues[week - 1];
    Due due = dues[at->order];
    double told = week == 0 ? delivered_of(work, order) : NAN;
    double cut = !isnan(told) ? due.wanted - told
                 : week > 0   ? at->weeks[week - 1].short_by
                              : due.wanted - due.kept;
    return cut >= least ? cut : 0.0;
}

static void add_shares(const Work *work, Shortage *shortage)
{
    const Farm *farm = work->farm;
    ShareLine lines[SHARE_LINES_MOST];
    int32_t rows[SHARE_LINES_MOST];
    int32_t count = 0;
    for (int32_t i = 0; i < work->out->order_count; i++) {
        const OrderAhead *at = &work->out->orders[i];
        const Order *order = &farm->orders[at->order];
        double ordered = at->weeks[shortage->week].ordered;
        if (order->product != shortage->product ||
            order->firmness == ORDER_OUTLET || ordered <= 0.0 ||
            count == SHARE_LINES_MOST) {
            continue;
        }
        double take = farm->buyers[order->buyer].take_frac;
        rows[count] = at->order;
        lines[count++] =
            (ShareLine){.ordered = ordered,
                        .usual = take < 1.0 ? take * ordered : ordered,
                        .least = order->least,
                        .is_firm = order->firmness == ORDER_FIRM,
                        .cut_before = cut_before(work, at, shortage->week)};
    }
    share_out(lines, count, shortage->have,
              !is_weighed(farm, shortage->product));
    shortage->shares = ARENA_ARRAY(work->arena, ShortShare, count + 1);
    for (int32_t i = 0; i < count; i++) {
        ShortShare *share = &shortage->shares[shortage->share_count++];
        *share = (ShortShare){.order = rows[i], .line = lines[i]};
        share->message = message_of(work, shortage, share);
    }
}

static bool find_shortage(const Work *work, int32_t product, int week,
                          Shortage *out)
{
    Shortage made = {.week = week, .product = product};
    for (int32_t i = 0; i < work->out->order_count; i++) {
        const OrderAhead *at = &work->out->orders[i];
        const Order *order = &work->farm->orders[at->order];
        if (order->product == product && order->firmness != ORDER_OUTLET) {
            made.ordered += at->weeks[week].ordered;
            made.have +=
                fmin(at->weeks[week].expected, at->weeks[week].ordered);
        }
    }
    if (!is_weighed(work->farm, product)) {
        made.have = floor(made.have + 0.05); /* a part of a head is none */
    }
    if (product == work->ask->product && week == 0 && !isnan(work->ask->have)) {
        made.have = work->ask->have;
    }
    made.lost = fmax(0.0, made.ordered - made.have);
    *out = made;
    return made.lost >= least_of(work->farm, product);
}

static void add_shortages(Work *work)
{
    const Farm *farm = work->farm;
    int weeks = work->ask->week_count;
    work->out->shortages =
        ARENA_ARRAY(work->arena, Shortage,
                    (size_t)weeks * (size_t)farm->products_count + 1);
    for (int w = 0; w < weeks; w++) {
        for (int32_t p = 0; p < farm->products_count; p++) {
            Shortage *at = &work->out->shortages[work->out->shortage_count];
            if (!find_shortage(work, p, w, at)) {
                continue;
            }
            work->out->shortage_count++;
            orders_working_shortage(work->ask, work->out, at);
            if (w < work->ask->share_weeks) {
                find_instead(work, at);
                add_shares(work, at);
            }
        }
    }
}

void orders_ahead_make(const OrdersAsk *ask, Arena *arena, OrdersAhead *out)
{
    OrdersAhead made = {.first_week = ask->first_week,
                        .week_count = ask->week_count};
    Work work = {.ask = ask, .farm = ask->farm, .arena = arena, .out = &made};
    const Due **dues = ARENA_ARRAY(arena, const Due *, ask->week_count + 1);
    for (int w = 0; w < ask->week_count; w++) {
        dues[w] = due_of_week(ask->farm, monday(&work, w), arena);
    }
    work.dues = (const Due *const *)dues;
    work.before = due_of_week(ask->farm, monday(&work, -1), arena);
    add_orders(&work);
    add_offers(&work);
    add_shortages(&work);
    *out = made;
}
