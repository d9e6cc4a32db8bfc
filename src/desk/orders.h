/* Orders in the weeks to come. */
#ifndef LEAT_DESK_ORDERS_H
#define LEAT_DESK_ORDERS_H

#include "desk/today.h"
#include "work/orders_ahead.h"

enum { ORDERS_WEEKS_USUAL = 10 };

typedef struct OrdersQuestion {
    const char *dir;
    int32_t today;       /* DATE_ALWAYS: by the clock */
    int weeks;           /* 1..ORDERS_WEEKS_MOST */
    const char *product; /* of which there is less than ordered; NULL */
    Workings *workings;  /* how its figures are made; NULL: not asked for */
    double have;         /* so many units this week; NAN: as foreseen */
} OrdersQuestion;

typedef struct OrdersAnswer {
    Today today; /* in the arena, as all of this */
    OrdersAhead ahead;
    int32_t product; /* row of products asked for; -1 */
} OrdersAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND without an accepted plan or
 * for an unknown product; ERR_RANGE: a day outside the plan; ERR_USAGE: have
 * without a product. */
NODISCARD Err orders_answer(const OrdersQuestion *question, Arena *arena,
                            OrdersAnswer *out);

/* As JSON, see json/orders.h. */
const char *orders_answer_json(const OrdersAnswer *answer, Arena *arena);

#endif
