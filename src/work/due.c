/* What orders are due in one week. */
#include "work/due.h"

#include <math.h>

#include "base/date.h"
#include "farm/closures.h"

enum { DAYS = 7 };

static int count_bits(uint32_t days)
{
    int count = 0;
    for (int d = 0; d < DAYS; d++) {
        count += (days >> d & 1u) != 0;
    }
    return count;
}

static bool is_open(const Farm *farm, const Order *order, int32_t day)
{
    return (order->months >> (date_month(day) - 1) & 1u) &&
           day >= order->from && day <= order->until &&
           !closures_shut_buyer(farm, order->buyer, day);
}

static Due dated(const Order *order, int32_t week)
{
    bool is_due = order->from >= week && order->from < week + DAYS;
    return (Due){.days = is_due ? 1u << (order->from - week) : 0,
                 .day_count = is_due,
                 .all_days = 1,
                 .wanted = is_due ? order->quantity : 0.0};
}

static Due standing(const Farm *farm, const Order *order, int32_t week)
{
    uint32_t all = order->days ? order->days : farm->buyers[order->buyer].days;
    Due due = {0};
    for (int d = 0; d < DAYS; d++) {
        if ((all >> d & 1u) && is_open(farm, order, week + d)) {
            due.days |= 1u << d;
        }
    }
    due.day_count = count_bits(due.days);
    due.all_days = count_bits(all);
    due.wanted =
        due.day_count ? order->quantity * due.day_count / due.all_days : 0.0;
    return due;
}

const Due *due_of_week(const Farm *farm, int32_t week, Arena *arena)
{
    Due *due = ARENA_ARRAY(arena, Due, farm->orders_count);
    for (int32_t o = 0; o < farm->orders_count; o++) {
        const Order *row = &farm->orders[o];
        due[o] = row->from == row->until ? dated(row, week)
                                         : standing(farm, row, week);
        due[o].kept = row->firmness == ORDER_OUTLET ? due[o].wanted : 0.0;
    }
    for (int32_t i = 0; i < farm->plan_orders_count; i++) {
        const PlanPromise *promise = &farm->plan_orders[i];
        if (promise->week == week) {
            due[promise->order].kept = promise->kept;
        }
    }
    return due;
}

double due_on_day(const Due *due, double units, bool is_whole, int weekday)
{
    if (!(due->days >> weekday & 1u)) {
        return 0.0;
    }
    int before = count_bits(due->days & ((1u << weekday) - 1u));
    double until = units * (before + 1) / due->day_count;
    double already = units * before / due->day_count;
    return is_whole ? round(until) - round(already) : until - already;
}
