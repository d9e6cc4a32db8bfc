/* Orders in the weeks to come. */
#include "desk/orders.h"

#include <math.h>

#include "base/date.h"
#include "desk/any_farm.h"
#include "json/orders.h"

enum { SHARE_WEEKS = 2 };

static Err make_weeks(const Today *today, int count, OrdersWeek *weeks)
{
    Arena *arena = today->arena;
    JobOutlook *outlooks = ARENA_ARRAY(arena, JobOutlook, count);
    JobsWeek *jobs = ARENA_ARRAY(arena, JobsWeek, count);
    TRY(today_jobs(today, week_of(today->day), count, outlooks, jobs));
    for (int w = 0; w < count; w++) {
        weeks[w] = (OrdersWeek){&jobs[w], &outlooks[w],
                                loads_of_week(today->farm, &jobs[w], arena)};
    }
    return ERR_NONE;
}

static Err find_product(const OrdersQuestion *question, OrdersAnswer *answer)
{
    answer->product = -1;
    if (!question->product) {
        return isnan(question->have)
                   ? ERR_NONE
                   : err_make(ERR_USAGE, "have=%g: of which product? product=",
                              question->have);
    }
    AnyIds ids;
    ANY_IDS_OF(answer->today.farm, answer->today.arena, "product", products,
               &ids);
    return any_farm_find(&ids, question->product, answer->today.arena,
                         &answer->product);
}

Err orders_answer(const OrdersQuestion *question, Arena *arena,
                  OrdersAnswer *out)
{
    OrdersAnswer answer;
    TRY(today_open_planned(question->dir, question->today, arena,
                           &answer.today));
    TRY(find_product(question, &answer));
    OrdersWeek *weeks = ARENA_ARRAY(arena, OrdersWeek, ORDERS_WEEKS_MOST);
    int count = today_weeks(&answer.today, question->weeks);
    TRY(make_weeks(&answer.today, count, weeks));
    /* Sunday's list is for the week that follows it. */
    OrdersAsk ask = {.farm = answer.today.farm,
                     .weeks = weeks,
                     .week_count = count,
                     .first_week = week_of(answer.today.day),
                     .offer_week = count > 1 ? 1 : 0,
                     .share_weeks = SHARE_WEEKS,
                     .product = answer.product,
                     .have = question->have,
                     .workings = question->workings};
    TRY(today_told(&answer.today, ask.first_week - JOBS_DAYS,
                   ask.first_week - 1, UINT64_C(1) << TOLD_DELIVERED,
                   &ask.delivered));
    orders_ahead_make(&ask, arena, &answer.ahead);
    *out = answer;
    return ERR_NONE;
}

const char *orders_answer_json(const OrdersAnswer *answer, Arena *arena)
{
    OrdersJson page = {.farm = answer->today.farm,
                       .ahead = &answer->ahead,
                       .day = answer->today.day,
                       .title = answer->today.title,
                       .notices = answer->today.notices,
                       .notice_count = answer->today.notice_count};
    return orders_to_json(&page, arena);
}
