/* The jobs of one week, from the accepted plan. */
#include "work/jobs_parts.h"

#include <assert.h>

#include "base/date.h"
#include "base/tongue.h"
#include "work/due.h"

Err jobs_way(const Jobs *jobs, int32_t way, WayFacts *out)
{
    assert(way >= 0 && way < jobs->farm->ways_count);
    const Way *row = &jobs->farm->ways[way];
    const BookWay *book = book_way(jobs->book, row->book);
    if (!book) {
        return err_make(ERR_INPUT, "way %s: the book has no way %s", row->id,
                        row->book);
    }
    const BookCrop *crop = book_crop_of(jobs->book, book);
    *out = (WayFacts){
        .way = row,
        .crop = &jobs->farm->crops[row->crop],
        .book = book,
        .book_crop = crop,
        .emergence = &jobs->book->emergence[crop - jobs->book->crops],
        .name = *row->name ? row->name : say(jobs->arena, book->name)};
    return ERR_NONE;
}

const char *jobs_id(const Jobs *jobs, JobKind kind, const char *what,
                    const char *where, int32_t when)
{
    char day[DATE_TEXT_SIZE];
    date_format(when, day);
    return arena_text(jobs->arena, "%s.%s.%s%s%s.%s", jobs->farm->farm->id,
                      job_kind_word(kind), what, *where ? "." : "", where, day);
}

bool jobs_has_day(const Jobs *jobs, int32_t day)
{
    return day >= jobs->week && day < jobs->week + JOBS_DAYS;
}

double jobs_task_minutes(const Jobs *jobs, const char *task)
{
    const BookTask *row = book_task(jobs->book, task);
    return row ? row->minutes.value : 0.0;
}

const char *jobs_tunnel_id(const Jobs *jobs, int32_t bed)
{
    int32_t tunnel = jobs->farm->beds[bed].tunnel;
    return tunnel < 0 ? "open" : jobs->farm->tunnels[tunnel].id;
}

/* ---- what the orders of a day take --------------------------------------- */

/* Demand of one week by way (the last is fish), outlets apart, by weekday. */
typedef struct DemandWeek {
    int32_t week;
    double (*units)[2][JOBS_DAYS];
    struct DemandWeek *next;
} DemandWeek;

static DemandWeek *demand_of_week(const Jobs *jobs, int32_t week)
{
    const Farm *farm = jobs->farm;
    DemandWeek *made = ARENA_NEW(jobs->arena, DemandWeek);
    made->week = week;
    made->units = arena_alloc(jobs->arena, (size_t)farm->ways_count + 1,
                              sizeof *made->units);
    const Due *due = due_of_week(farm, week, jobs->arena);
    for (int32_t p = 0; p < farm->parts_count; p++) {
        const Part *part = &farm->parts[p];
        int32_t way = part->way >= 0 ? part->way : farm->ways_count;
        for (int32_t o = 0; o < farm->orders_count; o++) {
            const Order *order = &farm->orders[o];
            double *units = made->units[way][order->firmness == ORDER_OUTLET];
            for (int d = 0; d < JOBS_DAYS && order->product == part->product;
                 d++) {
                units[d] +=
                    part->units * due_on_day(&due[o], due[o].kept, false, d);
            }
        }
    }
    return made;
}

double jobs_demand_of(const Jobs *jobs, int32_t way, int32_t day,
                      bool is_outlet)
{
    int32_t week = week_of(day);
    DemandWeek *demand = jobs->demand->first;
    while (demand && demand->week != week) {
        demand = demand->next;
    }
    if (!demand) {
        demand = demand_of_week(jobs, week);
        demand->next = jobs->demand->first;
        jobs->demand->first = demand;
    }
    int32_t row = way >= 0 ? way : jobs->farm->ways_count;
    return demand->units[row][is_outlet][date_weekday(day)];
}

double jobs_demand(const Jobs *jobs, int32_t way, int32_t day)
{
    return jobs_demand_of(jobs, way, day, false) +
           jobs_demand_of(jobs, way, day, true);
}

/* ---- the whole ----------------------------------------------------------- */

Err jobs_is_planned(const Farm *farm)
{
    return farm->plan_count > 0
               ? ERR_NONE
               : err_make(ERR_NOT_FOUND,
                          "no plan is accepted yet; make one with: leat plan "
                          "DIR --accept");
}

Err jobs_week_is_planned(const Farm *farm, int32_t week)
{
    TRY(jobs_is_planned(farm));
    const Plan *plan = &farm->plan[0];
    int32_t end = week_of(plan->from) + plan->weeks * JOBS_DAYS;
    if (week < week_of(plan->from) || week >= end) {
        char first[DATE_TEXT_SIZE];
        char last[DATE_TEXT_SIZE];
        week_format(plan->from, first);
        week_format(end - JOBS_DAYS, last);
        return err_make(ERR_RANGE, "the accepted plan runs from %s to %s",
                        first, last);
    }
    return ERR_NONE;
}

Err jobs_of_week(const JobsAsk *ask, Arena *arena, JobsWeek *out)
{
    assert(date_weekday(ask->week) == 0);
    TRY(jobs_week_is_planned(ask->farm, ask->week));
    JobsWeek made = {.week = ask->week, .list = {.arena = arena}};
    JobsDemand demand = {0};
    Jobs jobs = {.farm = ask->farm,
                 .book = ask->book,
                 .outlook = ask->outlook,
                 .week = ask->week,
                 .arena = arena,
                 .list = &made.list,
                 .demand = &demand,
                 .day = ask->day,
                 .workings = ask->workings};
    jobs_add_rounds(&jobs);
    TRY(jobs_add_plants(&jobs));
    TRY(jobs_add_picks(&jobs));
    jobs_add_cleans(&jobs);
    TRY(jobs_add_fish(&jobs));
    jobs_set_stops(&jobs);
    HandWeek *hands = ARENA_ARRAY(arena, HandWeek, ask->farm->hands_count);
    allot_week(ask->farm, ask->week, &made.list, hands);
    job_sort(&made.list);
    made.hands = hands;
    *out = made;
    return ERR_NONE;
}
