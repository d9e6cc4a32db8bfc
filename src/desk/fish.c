/* The fish on a day. */
#include "desk/fish.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "desk/any_farm.h"
#include "json/fish.h"

enum { AHEAD_WEEKS = 104 };

/* Each tank's water today: the last temperature told today, else as the typical
 * year has it. */
static void find_water(const Today *today, const Tolds *tolds, double *degc,
                       bool *is_told)
{
    const Farm *farm = today->farm;
    int at = date_day_of_year(today->day) - 1;
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        degc[k] = today->outlook.tank_degc[k][at];
        is_told[k] = false;
    }
    for (int32_t i = 0; i < tolds->count; i++) {
        const Told *told = &tolds->items[i];
        if (told->kind != TOLD_READ || told->happened_on != today->day ||
            strcmp(told->quantity_key, "temp_degc") != 0) {
            continue;
        }
        for (int32_t k = 0; k < farm->tanks_count; k++) {
            if (strcmp(farm->tanks[k].id, told->place) == 0) {
                degc[k] = told->value;
                is_told[k] = true;
            }
        }
    }
}

static Err find_tanks(const FishQuestion *question, const Today *today,
                      FishDayAsk *ask, int32_t *out_only)
{
    AnyIds ids;
    ANY_IDS_OF(today->farm, today->arena, "tank", tanks, &ids);
    int32_t tank = -1;
    if (question->tank) {
        TRY(any_farm_find(&ids, question->tank, today->arena, &tank));
    }
    *out_only = tank;
    ask->tank = -1;
    ask->to_tank = -1;
    if (isnan(question->cut_g)) {
        return question->to
                   ? err_make(ERR_USAGE, "to=%.40s: with cut_g", question->to)
                   : ERR_NONE;
    }
    if (tank < 0) {
        return err_make(ERR_USAGE,
                        "cut_g=%g: of which tank? tank=", question->cut_g);
    }
    ask->tank = tank;
    ask->cut_g = question->cut_g;
    if (question->to) {
        TRY(any_farm_find(&ids, question->to, today->arena, &ask->to_tank));
    }
    return ask->to_tank == tank
               ? err_make(ERR_USAGE, "to=%.40s: another tank than they are in",
                          question->to)
               : ERR_NONE;
}

/* The first day on which standing fish were counted. */
static int32_t counted_from(const Farm *farm)
{
    int32_t from = farm->farm->records_from;
    for (int32_t i = 0; i < farm->fish_count; i++) {
        int32_t day = farm->fish[i].counted_on;
        from = day < from ? day : from;
    }
    return from;
}

/* The typical year is known as far as foresight reaches from the tables' day.
 */
static Err foresee(const Today *today, double sale_g, Foresight *out)
{
    Err err = today_foresee(today, AHEAD_WEEKS, sale_g, out);
    return err.kind == ERR_RANGE
               ? today_foresee(today, AHEAD_WEEKS / 2, sale_g, out)
               : err;
}

Err fish_answer(const FishQuestion *question, Arena *arena, FishAnswer *out)
{
    FishAnswer answer;
    TRY(today_open(question->dir, question->today, arena, &answer.today));
    answer.today.workings = question->workings;
    const Today *today = &answer.today;
    const Farm *farm = today->farm;
    FishDayAsk ask = {.farm = farm,
                      .opening = today->opening,
                      .foresight = &answer.foresight,
                      .day = today->day,
                      .workings = question->workings};
    TRY(find_tanks(question, today, &ask, &answer.only));
    TRY(foresee(today, question->sale_g, &answer.foresight));
    JobOutlook outlook;
    JobsWeek week;
    if (today->is_planned) {
        TRY(today_jobs(today, week_of(today->day), 1, &outlook, &week));
        ask.week = &week;
    }
    Tolds tolds;
    TRY(today_told(today, counted_from(today->opening), today->day, 0, &tolds));
    double *degc = ARENA_ARRAY(arena, double, farm->tanks_count);
    bool *is_told = ARENA_ARRAY(arena, bool, farm->tanks_count);
    find_water(today, &tolds, degc, is_told);
    ask.degc = degc;
    ask.is_degc_told = is_told;
    ask.facts = tolds.items;
    ask.fact_count = tolds.count;
    TRY(fish_page_make(&ask, arena, &answer.page));
    *out = answer;
    return ERR_NONE;
}

const char *fish_answer_json(const FishAnswer *answer, Arena *arena)
{
    FishJson page = {.farm = answer->today.farm,
                     .foresight = &answer->foresight,
                     .page = &answer->page,
                     .only = answer->only,
                     .title = answer->today.title,
                     .notices = answer->today.notices,
                     .notice_count = answer->today.notice_count};
    return fish_to_json(&page, arena);
}
