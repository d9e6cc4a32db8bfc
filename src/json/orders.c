/* Orders in the weeks to come as JSON. */
#include "json/orders.h"

#include <jansson.h>

#include "base/date.h"
#include "json/page.h"
#include "json/text.h"

static const char *name_of(const Product *product)
{
    return *product->name ? product->name : product->id;
}

static void put_product(const Farm *farm, int32_t product, json_t *object)
{
    const Product *row = &farm->products[product];
    json_put(object, "product", json_string(row->id));
    json_put(object, "name", json_string(name_of(row)));
    json_put(object, "unit", json_string(row->unit));
}

static json_t *weeks_json(const OrdersAhead *ahead)
{
    json_t *list = json_array();
    for (int w = 0; w < ahead->week_count; w++) {
        int32_t monday = ahead->first_week + w * JOBS_DAYS;
        char name[DATE_TEXT_SIZE];
        week_format(monday, name);
        json_t *object = json_object();
        json_put(object, "name", json_string(name));
        json_put(object, "from", page_day(monday));
        json_array_append_new(list, object);
    }
    return list;
}

/* Those that touch the weeks. */
static json_t *closures_json(const OrdersJson *page)
{
    const Farm *farm = page->farm;
    int32_t until =
        page->ahead->first_week + page->ahead->week_count * JOBS_DAYS;
    json_t *list = json_array();
    for (int32_t i = 0; i < farm->closures_count; i++) {
        const Closure *closure = &farm->closures[i];
        if (closure->kind == CLOSED_PERSON || closure->from >= until ||
            closure->until < page->ahead->first_week) {
            continue;
        }
        json_t *object = json_object();
        json_put(object, "buyer",
                 page_text(closure->kind == CLOSED_BUYER
                               ? farm->buyers[closure->buyer].id
                               : NULL));
        json_put(object, "from", page_day(closure->from));
        json_put(object, "until", page_day(closure->until));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *week_json(const OrderWeek *week)
{
    json_t *object = json_object();
    json_put(object, "ordered", json_real(week->ordered));
    json_put(object, "planned", json_real(week->planned));
    json_put(object, "low", json_real(week->low));
    json_put(object, "expected", json_real(week->expected));
    json_put(object, "high", json_real(week->high));
    json_put(object, "short", json_real(week->short_by));
    json_put(object, "closed", json_boolean(week->is_closed));
    return object;
}

static json_t *order_json(const OrdersJson *page, const OrderAhead *at)
{
    const Farm *farm = page->farm;
    const Order *order = &farm->orders[at->order];
    json_t *weeks = json_array();
    for (int w = 0; w < page->ahead->week_count; w++) {
        json_array_append_new(weeks, week_json(&at->weeks[w]));
    }
    json_t *object = json_object();
    json_put(object, "id", json_string(order->id));
    json_put(object, "buyer", json_string(farm->buyers[order->buyer].id));
    put_product(farm, order->product, object);
    json_put(object, "firmness",
             json_string(FARM_WORDS[WORDS_FIRMNESSES].words[order->firmness]));
    json_put(object, "quantity", json_real(order->quantity));
    json_put(object, "least", json_real(order->least));
    json_put(object, "dated", json_boolean(at->is_dated));
    json_put(object, "from", page_day(order->from));
    json_put(object, "until", page_day(order->until));
    json_put(object, "weeks", weeks);
    return object;
}

static json_t *offer_json(const Farm *farm, const Offer *offer)
{
    json_t *whom = json_array();
    for (int32_t i = 0; i < offer->to_count; i++) {
        json_t *object = json_object();
        json_put(object, "buyer",
                 json_string(farm->buyers[offer->to[i].buyer].id));
        json_put(object, "units", page_number(offer->to[i].units));
        json_put(object, "why", json_string(offer->to[i].why));
        json_array_append_new(whom, object);
    }
    json_t *object = json_object();
    put_product(farm, offer->product, object);
    json_put(object, "ordered", json_real(offer->ordered));
    json_put(object, "low", json_real(offer->low));
    json_put(object, "expected", json_real(offer->expected));
    json_put(object, "high", json_real(offer->high));
    json_put(object, "over", json_real(offer->over));
    json_put(object, "to", whom);
    return object;
}

static json_t *share_json(const Farm *farm, const ShortShare *share)
{
    const Order *order = &farm->orders[share->order];
    json_t *object = json_object();
    json_put(object, "order", json_string(order->id));
    json_put(object, "buyer", json_string(farm->buyers[order->buyer].id));
    json_put(object, "ordered", json_real(share->line.ordered));
    json_put(object, "usual", json_real(share->line.usual));
    json_put(object, "least", json_real(share->line.least));
    json_put(object, "firm", json_boolean(share->line.is_firm));
    json_put(object, "cut_before", json_real(share->line.cut_before));
    json_put(object, "in_proportion", json_real(share->line.in_proportion));
    json_put(object, "by_rule", json_real(share->line.by_rule));
    json_put(object, "message", json_string(share->message));
    return object;
}

static json_t *shortage_json(const OrdersJson *page, const Shortage *shortage)
{
    const Farm *farm = page->farm;
    json_t *shares = json_array();
    for (int32_t i = 0; i < shortage->share_count; i++) {
        json_array_append_new(shares, share_json(farm, &shortage->shares[i]));
    }
    json_t *instead = json_array();
    for (int32_t i = 0; i < shortage->instead_count; i++) {
        json_t *object = json_object();
        put_product(farm, shortage->instead[i].product, object);
        json_put(object, "units", json_real(shortage->instead[i].units));
        json_array_append_new(instead, object);
    }
    json_t *object = json_object();
    json_put(object, "week",
             page_day(page->ahead->first_week + shortage->week * JOBS_DAYS));
    put_product(farm, shortage->product, object);
    json_put(object, "ordered", json_real(shortage->ordered));
    json_put(object, "have", json_real(shortage->have));
    json_put(object, "lost", json_real(shortage->lost));
    json_put(object, "shares", shares);
    json_put(object, "instead", instead);
    return object;
}

const char *orders_to_json(const OrdersJson *page, Arena *arena)
{
    const OrdersAhead *ahead = page->ahead;
    json_t *orders = json_array();
    for (int32_t i = 0; i < ahead->order_count; i++) {
        json_array_append_new(orders, order_json(page, &ahead->orders[i]));
    }
    json_t *products = json_array();
    for (int32_t i = 0; i < ahead->offer_count; i++) {
        json_array_append_new(products,
                              offer_json(page->farm, &ahead->offers[i]));
    }
    json_t *offers = json_object();
    json_put(offers, "week", page_day(ahead->offer_week));
    json_put(offers, "products", products);
    json_t *shortages = json_array();
    for (int32_t i = 0; i < ahead->shortage_count; i++) {
        json_array_append_new(shortages,
                              shortage_json(page, &ahead->shortages[i]));
    }
    json_t *object = json_object();
    json_put(object, "day", page_day(page->day));
    json_put(object, "title", json_string(page->title));
    json_put(object, "notices", page_texts(page->notices, page->notice_count));
    json_put(object, "weeks", weeks_json(ahead));
    json_put(object, "closures", closures_json(page));
    json_put(object, "orders", orders);
    json_put(object, "offers", offers);
    json_put(object, "shortages", shortages);
    return json_text_take(object, arena);
}
