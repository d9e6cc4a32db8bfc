/* How the figures of the orders' page are made, written by the code that makes
 * them. */
#ifndef LEAT_WORK_ORDERS_WORKING_H
#define LEAT_WORK_ORDERS_WORKING_H

#include "work/due.h"
#include "work/orders_ahead.h"

/* Of "order" ORDER/2027-W10: ordered, planned, expected, low, high, short. */
void orders_working_week(const OrdersAsk *ask, int32_t order, int week,
                         const Due *due, const OrderWeek *made);

/* Of "shortage" PRODUCT/2027-03-08: ordered, have, lost. ahead: with its
 * orders.
 */
void orders_working_shortage(const OrdersAsk *ask, const OrdersAhead *ahead,
                             const Shortage *made);

/* Units of each way, the last is fish: low, expected, high; as they are there,
 * and left by orders and by outlets too. Borrowed. */
typedef struct OfferMade {
    const OrdersAsk *ask;
    int week;
    const Due *dues;    /* of it, by row of orders */
    double (*there)[3]; /* NULL: nothing is asked for */
    double (*left)[3];
    double (*over)[3];
} OfferMade;

/* Of "offer" PRODUCT: ordered, low, expected, high, over. */
void orders_working_offer(const OfferMade *made, const Offer *offer);

#endif
