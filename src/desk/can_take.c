/* Can this order be taken? */
#include "desk/can_take.h"

#include <string.h>

#include "base/text.h"
#include "farm/read.h"
#include "plan/record.h"

/* Missing a unit of the asked order is priced at so many times its price: it
 * is kept if it can be, whatever it costs others; the cost is then told. */
static const double ASKED_MISS_FRAC = 3.0;
static const char ASKED_ID[] = "the-order-asked-about";

/* The row of that id in a table with ids, with the nearest name where there is
 * none. */
static Err find_row(const Farm *farm, TableId table, const char *key,
                    const char *id, Arena *arena, int32_t *out)
{
    const Table *rows = &FARM_TABLES[table];
    int32_t count = farm_row_count(farm, rows);
    const char *bytes = farm_rows(farm, rows);
    const char **names = ARENA_ARRAY(arena, const char *, count);
    for (int32_t i = 0; i < count; i++) {
        /* An id is the first field of its record. */
        memcpy(&names[i],
               bytes + (size_t)i * rows->row_size + rows->fields[0].offset,
               sizeof names[i]);
        if (strcmp(names[i], id) == 0) {
            *out = i;
            return ERR_NONE;
        }
    }
    const char *near = text_nearest(id, names, (size_t)count);
    return err_make(ERR_NOT_FOUND, "%s=%.60s is not in %s.csv%s%s", key, id,
                    rows->name, near ? "; nearest: " : "", near ? near : "");
}

/* The asked order has a buyer of its own, like the one who asks, so that its
 * price changes nobody else's; days off go with him. Returns his row. */
static int32_t add_buyer(const Farm *farm, int32_t like, Arena *arena,
                         Farm *out)
{
    size_t count = (size_t)farm->buyers_count;
    out->buyers =
        arena_grow(arena, farm->buyers, count, count + 1, sizeof *out->buyers);
    out->buyers[count] = farm->buyers[like];
    out->buyers[count].id = ASKED_ID;
    out->buyers[count].drop_min = 0.0;
    out->buyers_count++;
    size_t closures = (size_t)farm->closures_count;
    out->closures = arena_grow(arena, farm->closures, closures, 2 * closures,
                               sizeof *out->closures);
    for (size_t i = 0; i < closures; i++) {
        if (farm->closures[i].buyer == like) {
            Closure copy = farm->closures[i];
            copy.id = arena_text(arena, "%s-%d", ASKED_ID, (int)i);
            copy.buyer = (int32_t)count;
            out->closures[out->closures_count++] = copy;
        }
    }
    return (int32_t)count;
}

/* The prices that the asking buyer has, for the asked order; then the price
 * asked about, which goes before them. */
static void add_prices(const CanAsk *ask, const Price *asked, int32_t like,
                       Arena *arena, Farm *out)
{
    size_t count = (size_t)out->prices_count;
    const Price *told = out->prices;
    out->prices =
        arena_grow(arena, told, count, 2 * count + 1, sizeof *out->prices);
    for (size_t i = 0; i < count; i++) {
        if (told[i].buyer == like && told[i].product == asked->product) {
            Price copy = told[i];
            copy.buyer = asked->buyer;
            out->prices[out->prices_count++] = copy;
        }
    }
    if (ask->price_e4 > 0) {
        Price price = *asked;
        price.price_e4 = ask->price_e4;
        price.from = DATE_ALWAYS;
        price.until = DATE_NEVER;
        out->prices[out->prices_count++] = price;
    }
}

/* The farm with the asked order as its last row. */
static Err farm_with_order(const CanAsk *ask, const Farm *farm, Arena *arena,
                           Farm *out)
{
    int32_t product = -1;
    int32_t buyer = -1;
    TRY(find_row(farm, TABLE_products, "product", ask->product, arena,
                 &product));
    TRY(find_row(farm, TABLE_buyers, "buyer", ask->buyer, arena, &buyer));
    *out = *farm;
    int32_t asked = add_buyer(farm, buyer, arena, out);
    add_prices(ask, &(Price){.product = product, .buyer = asked}, buyer, arena,
               out);
    size_t count = (size_t)farm->orders_count;
    out->orders =
        arena_grow(arena, farm->orders, count, count + 1, sizeof *out->orders);
    out->orders[count] = (Order){.id = ASKED_ID,
                                 .buyer = asked,
                                 .product = product,
                                 .quantity = ask->quantity,
                                 .firmness = ORDER_FIRM,
                                 .months = MONTHS_ALL,
                                 .from = ask->from,
                                 .until = ask->until,
                                 .miss_frac = ASKED_MISS_FRAC};
    out->orders_count++;
    return ERR_NONE;
}

static Err check_ask(const CanAsk *ask)
{
    if (!(ask->quantity > 0.0 && ask->quantity <= 1e6)) {
        return err_make(ERR_INPUT,
                        "quantity=%g: a quantity is above 0, at most 1000000",
                        ask->quantity);
    }
    if (ask->price_e4 < 0) {
        return err_make(ERR_INPUT, "price=: a price is above 0");
    }
    if (ask->until < ask->from) {
        return err_make(ERR_INPUT, "until is before from");
    }
    return ERR_NONE;
}

/* The accepted plan searched on, then the same with the order searched on from
 * there, so that what the order changes is not what mere searching gains. */
static Err plan_both(const CanAsk *ask, Arena *arena, CanAnswer *answer)
{
    PlanYearAsk plan = ask->plan;
    PlanYear *before = &answer->before;
    plan.is_from_plan = true;
    TRY(plan_year_open(&plan, arena, before));
    if (before->farm->plan_count == 0) {
        return err_make(ERR_NOT_FOUND,
                        "%.80s holds no accepted plan (leat plan %.80s "
                        "--accept)",
                        plan.dir, plan.dir);
    }
    Farm *asked = ARENA_NEW(arena, Farm);
    TRY(farm_with_order(ask, before->farm, arena, asked));
    TRY(plan_year_search(&plan, arena, before));
    PlanStamp stamp = {.book = "asked"};
    Farm *farm = ARENA_NEW(arena, Farm);
    plan_record(&before->inputs, &before->problem, &before->index,
                &before->solution, &stamp, arena, farm);
    farm->orders = asked->orders;
    farm->orders_count = asked->orders_count;
    farm->buyers = asked->buyers;
    farm->buyers_count = asked->buyers_count;
    farm->closures = asked->closures;
    farm->closures_count = asked->closures_count;
    farm->prices = asked->prices;
    farm->prices_count = asked->prices_count;
    TRY(plan_year_make(farm, &before->inputs, arena, &answer->after));
    return plan_year_search(&plan, arena, &answer->after);
}

static WhatIfSide side_of(const PlanYear *year)
{
    return (WhatIfSide){.farm = year->farm,
                        .book = year->book,
                        .problem = &year->problem,
                        .index = &year->index,
                        .solution = &year->solution};
}

Err can_take(const CanAsk *ask, Arena *arena, CanAnswer *out)
{
    TRY(check_ask(ask));
    TRY(plan_both(ask, arena, out));
    WhatIfSide before = side_of(&out->before);
    WhatIfSide after = side_of(&out->after);
    plan_what_if(&before, &after, arena, &out->found);
    if (out->found.wanted <= 0.0) {
        return err_make(ERR_INPUT,
                        "no delivery day of the order lies within the plan");
    }
    if (out->found.verdict != CAN_YES && ask->wants_ceiling) {
        TRY(plan_year_ceiling(&ask->plan, arena, &out->after));
    }
    return ERR_NONE;
}
