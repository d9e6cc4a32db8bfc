/* Sense of the selling: products and their parts, orders, prices, closures. */
#include "base/date.h"
#include "farm/checker.h"

enum {
    DAYS_LOOKED_AT = 366,
    WEEKS_LOOKED_AT = 104,
    WEEKDAYS = 7,
    ROWS_LOOKED_AT = 20000000
};

/* ---- Products -------------------------------------------------------------
 */

static void check_part(const Checker *c, const Part *part)
{
    bool is_fish = part->fish_over_g > 0.0;
    if (part->way == REF_BLANK && !is_fish) {
        check_tell(c, TABLE_parts, part, "way",
                   "way: a way that is grown here, or fish_over_g for fish; "
                   "nobody grows this part of %s",
                   part->product >= 0 ? c->farm->products[part->product].id
                                      : "a product");
    }
    if (part->way != REF_BLANK && is_fish) {
        check_tell(c, TABLE_parts, part, "fish_over_g",
                   "a way or a weight of fish, one of them");
    }
    bool has_fish = c->farm->fish_count > 0 || c->farm->fish_sources_count > 0;
    if (part->way == REF_BLANK && is_fish && !has_fish) {
        check_tell(c, TABLE_parts, part, "fish_over_g",
                   "fish standing or a source of them; nobody grows this "
                   "part");
    }
}

static void check_products(const Checker *c)
{
    int32_t part_count = c->farm->parts_count;
    CheckKey *keys = ARENA_ARRAY(c->arena, CheckKey, part_count);
    bool *has_parts = ARENA_ARRAY(c->arena, bool, c->farm->products_count);
    bool is_wrong = false;
    for (int32_t i = 0; i < part_count; i++) {
        const Part *part = &c->farm->parts[i];
        check_part(c, part);
        keys[i] = (CheckKey){.a = part->product, .b = part->way, .row = i};
        is_wrong |= part->product == REF_WRONG;
        if (part->product >= 0) {
            has_parts[part->product] = true;
        }
    }
    check_sort(keys, part_count);
    for (int32_t i = 1; i < part_count; i++) {
        const Part *part = &c->farm->parts[keys[i].row];
        if (keys[i].a >= 0 && keys[i].b >= 0 && keys[i].a == keys[i - 1].a &&
            keys[i].b == keys[i - 1].b) {
            check_tell(c, TABLE_parts, part, "way",
                       "each way once in a product; line %d has it already",
                       (int)c->farm->parts[keys[i - 1].row].line);
        }
    }
    for (int32_t i = 0; i < c->farm->products_count && !is_wrong; i++) {
        if (!has_parts[i]) {
            check_tell(c, TABLE_products, &c->farm->products[i], "id",
                       "parts: what a unit of %s is made of",
                       c->farm->products[i].id);
        }
    }
}

/* ---- Prices and orders ----------------------------------------------------
 */

static int64_t price_key(int32_t product, int32_t buyer)
{
    return (int64_t)product * INT32_MAX + buyer + 1;
}

/* Sorted by product and buyer, then by first day. */
static CheckKey *sort_prices(const Checker *c)
{
    int32_t count = c->farm->prices_count;
    CheckKey *keys = ARENA_ARRAY(c->arena, CheckKey, count);
    for (int32_t i = 0; i < count; i++) {
        const Price *price = &c->farm->prices[i];
        keys[i] = (CheckKey){.a = price_key(price->product, price->buyer),
                             .b = price->from,
                             .row = i};
    }
    check_sort(keys, count);
    return keys;
}

static void check_prices(const Checker *c, const CheckKey *keys)
{
    int32_t latest = DATE_ALWAYS;
    for (int32_t i = 0; i < c->farm->prices_count; i++) {
        const Price *price = &c->farm->prices[keys[i].row];
        bool is_same = i > 0 && keys[i].a == keys[i - 1].a;
        if (check_is_before(price->until, price->from)) {
            check_tell(c, TABLE_prices, price, "until",
                       "until: not before from");
        }
        if (price->product >= 0 && price->buyer != REF_WRONG && is_same &&
            price->from <= latest) {
            check_tell(c, TABLE_prices, price, "from",
                       "one price at a time; line %d holds on these days too",
                       (int)c->farm->prices[keys[i - 1].row].line);
        }
        latest = !is_same || price->until > latest ? price->until : latest;
    }
}

/* A price with a wrong reference may be the one that an order seems to lack. */
static bool has_wrong_price(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->prices_count; i++) {
        if (c->farm->prices[i].product == REF_WRONG ||
            c->farm->prices[i].buyer == REF_WRONG) {
            return true;
        }
    }
    return false;
}

static bool has_price(const Checker *c, const CheckKey *keys, int32_t product,
                      int32_t buyer)
{
    int32_t count = c->farm->prices_count;
    int64_t key = price_key(product, buyer);
    int32_t found = check_find(keys, count, key);
    return found < count && keys[found].a == key;
}

/* Whether some day from first to last lies in one of the months. */
static bool meets_months(uint32_t months, int32_t first, int32_t last)
{
    if (first == DATE_ALWAYS || last == DATE_WRONG || last == DATE_NEVER) {
        return months != 0;
    }
    for (int32_t day = first; day <= last && day - first < DAYS_LOOKED_AT;
         day++) {
        if (months >> (date_month(day) - 1) & 1u) {
            return true;
        }
    }
    return false;
}

/* Whether one of the rows of a product and buyer holds on a day. */
static bool is_priced_on(const Checker *c, const CheckKey *keys, int64_t key,
                         int32_t day, int64_t *budget)
{
    int32_t count = c->farm->prices_count;
    for (int32_t i = check_find(keys, count, key);
         i < count && keys[i].a == key && *budget > 0; i++) {
        const Price *price = &c->farm->prices[keys[i].row];
        (*budget)--;
        if (day >= price->from && day <= price->until) {
            return true;
        }
    }
    return false;
}

/* A plan that reaches a week of the order in which nothing has a price stops
 * there: told at the first such week of the next two years. A plan looks at
 * the middle of the week. budget: rows that may still be looked at. */
static void check_gap(const Checker *c, const CheckKey *prices,
                      const Order *order, int64_t *budget)
{
    int32_t from = check_first_day(c);
    if (from == DATE_WRONG) {
        return;
    }
    from = order->from > from ? order->from : from;
    int64_t own = price_key(order->product, order->buyer);
    int64_t list = price_key(order->product, REF_BLANK);
    for (int i = 0; i < WEEKS_LOOKED_AT; i++) {
        int32_t day = week_of(from) + WEEKDAYS * i + WEEKDAYS / 2;
        if (day > order->until || *budget <= 0) {
            return;
        }
        if ((order->months >> (date_month(day) - 1) & 1u) && day >= from &&
            !is_priced_on(c, prices, own, day, budget) &&
            !is_priced_on(c, prices, list, day, budget) && *budget > 0) {
            char week[DATE_TEXT_SIZE];
            week_format(day - WEEKDAYS / 2, week);
            check_notice(c, TABLE_orders, order, "product",
                         "order %s has no price for %s in %s: a plan that "
                         "reaches that week stops",
                         order->id, c->farm->products[order->product].id, week);
            return;
        }
    }
}

/* prices: NULL when they are not to be looked at. */
static void check_order(const Checker *c, const CheckKey *prices,
                        const Order *order, int64_t *budget)
{
    bool is_priced = prices && order->product >= 0 && order->buyer >= 0;
    if (is_priced && !has_price(c, prices, order->product, order->buyer) &&
        !has_price(c, prices, order->product, REF_BLANK)) {
        check_tell(c, TABLE_orders, order, "product",
                   "a price of %s for buyer %s, or for everybody",
                   c->farm->products[order->product].id,
                   c->farm->buyers[order->buyer].id);
    } else if (is_priced && order->until >= order->from) {
        check_gap(c, prices, order, budget);
    }
    if (check_is_before(order->until, order->from)) {
        check_tell(c, TABLE_orders, order, "until", "until: not before from");
    } else if (!meets_months(order->months, order->from, order->until)) {
        check_tell(c, TABLE_orders, order, "months",
                   "months: one of those from its first to its last day");
    }
    if (order->least > order->quantity) {
        check_tell(c, TABLE_orders, order, "least",
                   "least: at most the quantity, %.6g", order->quantity);
    }
    if (order->quantity <= 0.0) {
        check_notice(c, TABLE_orders, order, "quantity",
                     "order %s is for nothing", order->id);
    }
}

static void check_closures(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->closures_count; i++) {
        const Closure *row = &c->farm->closures[i];
        if (check_is_before(row->until, row->from)) {
            check_tell(c, TABLE_closures, row, "until",
                       "until: not before from");
        }
        if (row->buyer != REF_WRONG &&
            (row->kind == CLOSED_BUYER) != (row->buyer != REF_BLANK)) {
            check_tell(c, TABLE_closures, row, "buyer",
                       "buyer: the buyer that closes, where kind is buyer");
        }
        if (row->hand != REF_WRONG &&
            (row->kind == CLOSED_PERSON) != (row->hand != REF_BLANK)) {
            check_tell(c, TABLE_closures, row, "hand",
                       "hand: the person who is away, where kind is person");
        }
    }
}

void check_sales(const Checker *c)
{
    check_products(c);
    const CheckKey *prices = sort_prices(c);
    check_prices(c, prices);
    bool is_whole = !has_wrong_price(c);
    int64_t budget = ROWS_LOOKED_AT;
    for (int32_t i = 0; i < c->farm->orders_count; i++) {
        check_order(c, is_whole ? prices : NULL, &c->farm->orders[i], &budget);
    }
    check_closures(c);
}
