/* How the figures of the orders' page are made. */
#include "work/orders_working.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"

static const char *day_text(Working *working, int32_t day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy_text(working->arena, text);
}

/* ---- an order in a week --------------------------------------------------
 */

typedef struct OrderOf {
    const OrdersAsk *ask;
    int32_t order;
    int week;
    const char *id;
    const char *unit;
    const OrderWeek *made;
} OrderOf;

static void tell_ordered(const OrderOf *of, const Due *due)
{
    Working *working =
        working_begin(of->ask->workings, "order", of->id, "ordered");
    const Order *row = &of->ask->farm->orders[of->order];
    working_says(working, "ordered in the week",
                 due->all_days > 1 || due->day_count == 0
                     ? "units of a week x delivery days on which the buyer is "
                       "open, over all its delivery days"
                     : "units on its day",
                 "ordered = q x open / all");
    working_value(working, "q", "units of the order", row->quantity,
                  (WorkingInput){.unit = of->unit, .from = WORKING_TABLE});
    working_value(working, "open", "delivery days that are open and in season",
                  due->day_count,
                  (WorkingInput){.unit = "d", .from = WORKING_TABLE});
    working_value(working, "all", "its delivery days", due->all_days,
                  (WorkingInput){.unit = "d", .from = WORKING_TABLE});
    working_is(working, of->made->ordered, of->unit);
}

static void tell_planned(const OrderOf *of)
{
    Working *working =
        working_begin(of->ask->workings, "order", of->id, "planned");
    working_says(working, "of it by the plan",
                 "what the accepted plan keeps of the order in that week",
                 "planned = k");
    working_value(working, "k", "kept by the plan", of->made->planned,
                  (WorkingInput){.unit = of->unit, .from = WORKING_PLAN});
    working_is(working, of->made->planned, of->unit);
}

/* What the product is made of, as it is picked and netted in the week. */
static void put_brought(const OrderOf *of, Working *working)
{
    const Farm *farm = of->ask->farm;
    int32_t product = farm->orders[of->order].product;
    const JobList *list = &of->ask->weeks[of->week].jobs->list;
    for (int32_t p = 0; working && p < farm->parts_count; p++) {
        const Part *part = &farm->parts[p];
        if (part->product != product) {
            continue;
        }
        WorkingInput brought = {.from = WORKING_FORESEEN, .unit = "units"};
        for (int32_t i = 0; i < list->count; i++) {
            const Job *job = &list->jobs[i];
            bool is_it = part->way >= 0
                             ? job->kind == JOB_PICK && job->way == part->way &&
                                   !job->is_stored
                             : job->kind == JOB_SALE;
            brought.value += is_it ? job->amount : 0.0;
            brought.low += is_it ? job->low : 0.0;
            brought.high += is_it ? job->high : 0.0;
        }
        working_value(
            working, NULL,
            arena_say(working->arena, "brought in the week: %s",
                      part->way >= 0 ? farm->ways[part->way].id : "fish"),
            brought.value, brought);
    }
}

/* low, expected and high are sums of what each delivery day is given. */
static void tell_given(const OrderOf *of, int end)
{
    static const char *const FIGURES[] = {"low", "expected", "high"};
    static const char *const NAMES[] = {SAY("given, one time in ten so little"),
                                        SAY("to be expected"),
                                        SAY("given, one time in ten so much")};
    Working *working =
        working_begin(of->ask->workings, "order", of->id, FIGURES[end]);
    if (!working) {
        return;
    }
    working_says(working, NAMES[end], "what its delivery days are given",
                 arena_text(working->arena, "%s = 0", FIGURES[end]));
    const JobLoads *loads = &of->ask->weeks[of->week].loads;
    int n = 0;
    for (int32_t i = 0; i < loads->count; i++) {
        const Load *load = &loads->loads[i];
        if (load->order != of->order) {
            continue;
        }
        const double given[] = {load->low, load->expected, load->high};
        const char *symbol = working_symbol(working, "g", ++n);
        working_joins(working, " + ");
        working_joins(working, symbol);
        working_value(working, symbol, day_text(working, load->day), given[end],
                      (WorkingInput){.unit = of->unit,
                                     .from = load->is_stored
                                                 ? WORKING_PLAN
                                                 : WORKING_FORESEEN});
    }
    put_brought(of, working);
    working_note(working,
                 "What the week's picks and nets bring waits from its day on. "
                 "Firm orders of all days are served first, then promised "
                 "ones, then outlets; within a day and rule what the plan "
                 "keeps goes first, the rest by what is still wanted; less "
                 "than an order's least useful quantity goes to the others.");
    const double values[] = {of->made->low, of->made->expected, of->made->high};
    working_is(working, values[end], of->unit);
    if (end == 1) {
        working_range(working, of->made->low, of->made->high);
    }
}

static void tell_short(const OrderOf *of)
{
    Working *working =
        working_begin(of->ask->workings, "order", of->id, "short");
    if (!working) {
        return;
    }
    working_says(working, "short in the week",
                 "of each delivery day: what is due less what is to be "
                 "expected; an outlet is never short",
                 "short = 0");
    const JobLoads *loads = &of->ask->weeks[of->week].loads;
    int n = 0;
    for (int32_t i = 0; i < loads->count; i++) {
        const Load *load = &loads->loads[i];
        bool is_outlet =
            of->ask->farm->orders[of->order].firmness == ORDER_OUTLET;
        if (load->order != of->order || is_outlet) {
            continue;
        }
        const char *due = working_symbol(working, "d", ++n);
        const char *given = working_symbol(working, "g", n);
        const char *day = day_text(working, load->day);
        working_joins(working,
                      arena_text(working->arena, " + %s - %s", due, given));
        working_value(working, due, arena_say(working->arena, "due on %s", day),
                      load->ordered,
                      (WorkingInput){.unit = of->unit, .from = WORKING_TABLE});
        working_value(
            working, given, arena_say(working->arena, "given on %s", day),
            load->expected,
            (WorkingInput){.unit = of->unit,
                           .low = load->low,
                           .high = load->high,
                           .from = load->is_stored ? WORKING_PLAN
                                                   : WORKING_FORESEEN});
    }
    put_brought(of, working);
    working_value(working, NULL, "to be expected in all", of->made->expected,
                  (WorkingInput){.unit = of->unit,
                                 .low = of->made->low,
                                 .high = of->made->high,
                                 .from = WORKING_WORKED,
                                 .opens = {"order", of->id, "expected"}});
    working_is(working, of->made->short_by, of->unit);
}

void orders_working_week(const OrdersAsk *ask, int32_t order, int week,
                         const Due *due, const OrderWeek *made)
{
    if (!ask->workings) {
        return;
    }
    const Farm *farm = ask->farm;
    char name[DATE_TEXT_SIZE];
    week_format(ask->first_week + week * JOBS_DAYS, name);
    OrderOf of = {.ask = ask,
                  .order = order,
                  .week = week,
                  .id = arena_text(ask->workings->arena, "%s/%s",
                                   farm->orders[order].id, name),
                  .unit = farm->products[farm->orders[order].product].unit,
                  .made = made};
    tell_ordered(&of, due);
    tell_planned(&of);
    for (int end = 0; end < 3; end++) {
        tell_given(&of, end);
    }
    tell_short(&of);
}

/* ---- what is short -------------------------------------------------------
 */

typedef struct ShortOf {
    const OrdersAsk *ask;
    const OrdersAhead *ahead;
    const Shortage *made;
    const char *id;
    const char *unit;
} ShortOf;

/* Whether it is counted by hand instead of added up from what is foreseen. */
static bool is_counted(const ShortOf *of)
{
    return of->made->product == of->ask->product && of->made->week == 0 &&
           !isnan(of->ask->have);
}

/* Each order's part, at most what it asks for; is_due: what it asks for. */
static void put_orders(const ShortOf *of, Working *working, bool is_due)
{
    const Farm *farm = of->ask->farm;
    int n = 0;
    for (int32_t i = 0; working && i < of->ahead->order_count; i++) {
        const OrderAhead *at = &of->ahead->orders[i];
        const Order *order = &farm->orders[at->order];
        const OrderWeek *week = &at->weeks[of->made->week];
        if (order->product != of->made->product ||
            order->firmness == ORDER_OUTLET) {
            continue;
        }
        const char *symbol = working_symbol(working, "o", ++n);
        working_joins(working, n == 1 ? "" : " + ");
        working_joins(working, symbol);
        working_value(
            working, symbol, order->id,
            is_due ? week->ordered : fmin(week->expected, week->ordered),
            (WorkingInput){.unit = of->unit,
                           .from = is_due ? WORKING_TABLE : WORKING_FORESEEN});
    }
    working_joins(working, n == 0 ? "0" : "");
}

static void tell_have(const ShortOf *of)
{
    Working *working =
        working_begin(of->ask->workings, "shortage", of->id, "have");
    bool is_whole = strcmp(of->unit, "kg") != 0;
    if (is_counted(of)) {
        working_says(working, "there is of it", "as it was counted",
                     "have = c");
        working_value(working, "c", "counted", of->made->have,
                      (WorkingInput){.unit = of->unit, .from = WORKING_YOURS});
    } else {
        working_says(working, "there is of it",
                     "what its orders are expected to be given, each at most "
                     "what it asks for; whole units",
                     is_whole ? "have = floor(0.05 + " : "have = ");
        put_orders(of, working, false);
        working_joins(working, is_whole ? ")" : "");
    }
    working_is(working, of->made->have, of->unit);
}

void orders_working_shortage(const OrdersAsk *ask, const OrdersAhead *ahead,
                             const Shortage *made)
{
    if (!ask->workings) {
        return;
    }
    const Product *product = &ask->farm->products[made->product];
    char monday[DATE_TEXT_SIZE];
    date_format(ask->first_week + made->week * JOBS_DAYS, monday);
    ShortOf of = {
        ask, ahead, made,
        arena_text(ask->workings->arena, "%s/%s", product->id, monday),
        product->unit};
    Working *working =
        working_begin(ask->workings, "shortage", of.id, "ordered");
    working_says(working, "ordered in that week",
                 "all orders of it but outlets", "ordered = ");
    put_orders(&of, working, true);
    working_is(working, made->ordered, of.unit);
    tell_have(&of);
    working = working_begin(ask->workings, "shortage", of.id, "lost");
    working_says(working, "short of it", "ordered less what is there",
                 "lost = max(0, ordered - have)");
    working_value(working, "ordered", "ordered in that week", made->ordered,
                  (WorkingInput){.unit = of.unit,
                                 .from = WORKING_WORKED,
                                 .opens = {"shortage", of.id, "ordered"}});
    working_value(working, "have", "there is of it", made->have,
                  (WorkingInput){.unit = of.unit,
                                 .from = WORKING_WORKED,
                                 .opens = {"shortage", of.id, "have"}});
    working_is(working, made->lost, of.unit);
}

/* ---- what can be offered -------------------------------------------------
 */

static int32_t goods_of(const Farm *farm, const Part *part)
{
    return part->way >= 0 ? part->way : farm->ways_count;
}

/* One part's term: "(there1 - taken1) / units1". */
static void put_part(Working *working, const OfferMade *made, const Part *part,
                     int n, int view, double (*left)[3])
{
    const Farm *farm = made->ask->farm;
    int32_t goods = goods_of(farm, part);
    const char *there = working_symbol(working, "t", n);
    const char *taken = working_symbol(working, "o", n);
    const char *units = working_symbol(working, "u", n);
    const char *id = part->way >= 0 ? farm->ways[part->way].id : "fish";
    working_value(working, there,
                  arena_say(working->arena, "ready in the week: %s", id),
                  made->there[goods][view],
                  (WorkingInput){.unit = "units",
                                 .low = made->there[goods][0],
                                 .high = made->there[goods][2],
                                 .from = WORKING_FORESEEN});
    working_value(working, taken,
                  arena_say(working->arena,
                            left == made->over
                                ? "taken by orders and outlets: %s"
                                : "taken by orders: %s",
                            id),
                  made->there[goods][view] - left[goods][view],
                  (WorkingInput){.unit = "units", .from = WORKING_TABLE});
    working_value(working, units,
                  arena_say(working->arena, "in one unit: %s", id), part->units,
                  (WorkingInput){.unit = "units", .from = WORKING_TABLE});
    working_joins(working, arena_text(working->arena, "%s(%s - %s) / %s",
                                      n == 1 ? "" : ", ", there, taken, units));
}

static void tell_makes(const OfferMade *made, const Offer *offer,
                       const char *figure, int view, double (*left)[3])
{
    const Farm *farm = made->ask->farm;
    const Product *product = &farm->products[offer->product];
    Working *working =
        working_begin(made->ask->workings, "offer", product->id, figure);
    if (!working) {
        return;
    }
    bool is_whole = strcmp(product->unit, "kg") != 0;
    int parts = 0;
    for (int32_t p = 0; p < farm->parts_count; p++) {
        parts += farm->parts[p].product == offer->product;
    }
    working_says(working,
                 left == made->over ? "over beyond what outlets take"
                                    : "can be offered beside the orders",
                 "of each part: what is ready less what is taken, over what "
                 "one unit needs; the least of them, whole units, never below "
                 "0",
                 arena_text(working->arena, "%s = %smax(0, %s", figure,
                            is_whole ? "floor(0.05 + " : "",
                            parts > 1 ? "min(" : ""));
    int n = 0;
    for (int32_t p = 0; p < farm->parts_count; p++) {
        if (farm->parts[p].product == offer->product) {
            put_part(working, made, &farm->parts[p], ++n, view, left);
        }
    }
    if (n == 0) {
        working->symbols = arena_text(working->arena, "%s = 0", figure);
    } else {
        working_joins(working, parts > 1 ? "))" : ")");
        working_joins(working, is_whole ? ")" : "");
    }
    working_note(working,
                 "Each product is offered as if no other took more of what it "
                 "shares with it.");
    const double ends[] = {offer->low, offer->expected, offer->high};
    working_is(working, left == made->over ? offer->over : ends[view],
               product->unit);
}

static void tell_offer_ordered(const OfferMade *made, const Offer *offer)
{
    const Farm *farm = made->ask->farm;
    const Product *product = &farm->products[offer->product];
    Working *working =
        working_begin(made->ask->workings, "offer", product->id, "ordered");
    working_says(working, "ordered in that week",
                 "all orders of it but outlets", "ordered = 0");
    int n = 0;
    for (int32_t o = 0; working && o < farm->orders_count; o++) {
        const Order *order = &farm->orders[o];
        double wanted = made->dues[o].wanted;
        if (order->product != offer->product ||
            order->firmness == ORDER_OUTLET || !(wanted > 0.0)) {
            continue;
        }
        const char *symbol = working_symbol(working, "o", ++n);
        working_joins(working, " + ");
        working_joins(working, symbol);
        working_value(
            working, symbol, order->id, wanted,
            (WorkingInput){.unit = product->unit, .from = WORKING_TABLE});
    }
    working_is(working, offer->ordered, product->unit);
}

void orders_working_offer(const OfferMade *made, const Offer *offer)
{
    if (!made->there) {
        return;
    }
    tell_offer_ordered(made, offer);
    tell_makes(made, offer, "low", 0, made->left);
    tell_makes(made, offer, "expected", 1, made->left);
    tell_makes(made, offer, "high", 2, made->left);
    tell_makes(made, offer, "over", 1, made->over);
}
