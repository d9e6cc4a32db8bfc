/* The water on a day. */
#include "desk/water.h"

#include "base/date.h"
#include "desk/any_farm.h"
#include "desk/moment.h"
#include "json/water.h"

enum { HISTORY_D = 60 };

/* Means of the day in the typical year. */
static void find_foreseen(const Today *today, double *tank_degc,
                          double *loop_degc)
{
    int at = date_day_of_year(today->day) - 1;
    for (int32_t k = 0; k < today->farm->tanks_count; k++) {
        tank_degc[k] = today->climate->tanks[k].mean_degc[at];
    }
    for (int32_t l = 0; l < today->farm->loops_count; l++) {
        loop_degc[l] = today->climate->loops[l].mean_degc[at];
    }
}

Err water_answer(const WaterQuestion *question, Arena *arena, WaterAnswer *out)
{
    WaterAnswer answer = {.only = -1};
    TRY(today_open(question->dir, question->today, arena, &answer.today));
    const Today *today = &answer.today;
    if (question->tank) {
        AnyIds ids;
        ANY_IDS_OF(today->farm, arena, "tank", tanks, &ids);
        TRY(any_farm_find(&ids, question->tank, arena, &answer.only));
    }
    Moment moment;
    TRY(moment_find(today->farm, question->at, today->day, arena, &moment));
    answer.when = moment.text;
    FishNow fish;
    TRY(fish_now_followed(today->farm, today->book, today->climate, today->day,
                          arena, &fish));
    Tolds tolds;
    TRY(today_told(today, today->day - HISTORY_D, today->day,
                   UINT64_C(1) << TOLD_READ, &tolds));
    double *tank_degc = ARENA_ARRAY(arena, double, today->farm->tanks_count);
    double *loop_degc = ARENA_ARRAY(arena, double, today->farm->loops_count);
    find_foreseen(today, tank_degc, loop_degc);
    WaterDayAsk ask = {.farm = today->farm,
                       .book = today->book,
                       .fish = &fish,
                       .tank_degc = tank_degc,
                       .loop_degc = loop_degc,
                       .at = moment.at,
                       .facts = tolds.items,
                       .fact_count = tolds.count,
                       .workings = question->workings};
    water_day_make(&ask, arena, &answer.water);
    *out = answer;
    return ERR_NONE;
}

const char *water_answer_json(const WaterAnswer *answer, Arena *arena)
{
    WaterJson page = {.farm = answer->today.farm,
                      .water = &answer->water,
                      .only = answer->only,
                      .day = answer->today.day,
                      .title = answer->today.title,
                      .when = answer->when,
                      .notices = answer->today.notices,
                      .notice_count = answer->today.notice_count};
    return water_to_json(&page, arena);
}
