/* Orders in the weeks to come: kept and short by what is foreseen, what can be
 * offered, what is over and for whom, how to share what is short. */
#ifndef LEAT_WORK_ORDERS_AHEAD_H
#define LEAT_WORK_ORDERS_AHEAD_H

#include "base/working.h"
#include "journal/told.h"
#include "work/loads.h"
#include "work/share.h"

enum { ORDERS_WEEKS_MOST = 26 };

/* Units of the product in a week. */
typedef struct OrderWeek {
    double ordered;
    double planned; /* of it by the accepted plan */
    double low;     /* to be expected as things stand */
    double expected;
    double high;
    double short_by;
    bool is_closed; /* its usual days are all closed or out of season */
} OrderWeek;

typedef struct OrderAhead {
    int32_t order; /* row of orders */
    bool is_dated;
    OrderWeek *weeks;
} OrderAhead;

/* Somebody to offer what is over, first to last. */
typedef struct OfferTo {
    int32_t buyer; /* row of buyers */
    double units;  /* that may be taken: what was cut, an outlet's room; NAN
                      where nobody knows */
    const char *why;
} OfferTo;

/* What can be put on the list for a week beside what is ordered: each product
 * as if no other took more of what it shares. */
typedef struct Offer {
    int32_t product; /* row of products */
    double ordered;  /* by orders, outlets apart */
    double low;      /* can be offered beside them */
    double expected;
    double high;
    double over; /* of it beyond what outlets take */
    OfferTo *to;
    int32_t to_count;
} Offer;

/* What is given instead, out of what is over. */
typedef struct Substitute {
    int32_t product;
    double units; /* over in that week */
} Substitute;

typedef struct ShortShare {
    int32_t order;
    ShareLine line;
    const char *message; /* ready to send */
} ShortShare;

typedef struct Shortage {
    int week;        /* 0 is the first */
    int32_t product; /* row of products */
    double have;
    double ordered;
    double lost;        /* ordered and not there: demand, not nothing */
    ShortShare *shares; /* by order */
    int32_t share_count;
    Substitute *instead;
    int32_t instead_count;
} Shortage;

/* A week as it is foreseen. */
typedef struct OrdersWeek {
    const JobsWeek *jobs;      /* Borrowed. */
    const JobOutlook *outlook; /* Borrowed. */
    JobLoads loads;
} OrdersWeek;

typedef struct OrdersAsk {
    const Farm *farm;        /* Borrowed, as all of these. */
    const OrdersWeek *weeks; /* from the day's week on */
    int week_count;          /* 1..ORDERS_WEEKS_MOST */
    int32_t first_week;
    int offer_week;  /* which of them the list is for */
    int share_weeks; /* shortages are shared out in so many */
    /* A product that is short, as counted: NAN as foreseen. */
    int32_t product; /* row of products, -1 */
    double have;
    /* Deliveries told of the week before; where a buyer's is told, it says what
     * was cut last time, else the plan does. */
    Tolds delivered;
    Workings *workings; /* NULL for none */
} OrdersAsk;

typedef struct OrdersAhead {
    int32_t first_week;
    int week_count;
    OrderAhead *orders; /* that are due in these weeks, outlets too */
    int32_t order_count;
    Offer *offers; /* of the offer week, by product */
    int32_t offer_count;
    int32_t offer_week;  /* Monday */
    Shortage *shortages; /* by week and product */
    int32_t shortage_count;
} OrdersAhead;

void orders_ahead_make(const OrdersAsk *ask, Arena *arena, OrdersAhead *out);

#endif
