/* Orders in the weeks to come as JSON. */
#ifndef LEAT_JSON_ORDERS_H
#define LEAT_JSON_ORDERS_H

#include "work/orders_ahead.h"

typedef struct OrdersJson {
    const Farm *farm; /* Borrowed, as all of this. */
    const OrdersAhead *ahead;
    int32_t day;
    const char *title;
    const char *const *notices;
    int notice_count;
} OrdersJson;

/* {"day", "title", "notices", "weeks": [{"name": "2027-W09", "from"}],
 * "closures": [{"buyer", "from", "until"}] (null: the whole farm),
 * "orders": [{"id", "buyer", "product", "unit", "firmness", "quantity",
 * "least", "dated", "from", "until", "weeks": [{"ordered", "planned", "low",
 * "expected", "high", "short", "closed"}]}],
 * "offers": {"week", "products": [{"product", "name", "unit", "ordered", "low",
 * "expected", "high", "over", "to": [{"buyer", "units", "why"}]}]},
 * "shortages": [{"week", "product", "name", "unit", "ordered", "have", "lost",
 * "shares": [{"order", "buyer", "ordered", "usual", "least", "firm",
 * "cut_before", "in_proportion", "by_rule", "message"}], "instead":
 * [{"product", "units"}]}]}. shares and instead are empty for far weeks. */
const char *orders_to_json(const OrdersJson *page, Arena *arena);

#endif
