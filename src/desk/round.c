/* Today's round. */
#include "desk/round.h"

#include "base/date.h"

/* The week that holds the day before; NULL where the plan had not begun. */
static Err make_before(const Today *today, const JobsWeek *week,
                       JobsWeek *store, const JobsWeek **out)
{
    int32_t before = week_of(today->day - 1);
    *out = week;
    if (before == week->week) {
        return ERR_NONE;
    }
    Err planned = jobs_week_is_planned(today->farm, before);
    *out = NULL;
    if (planned.kind != ERR_OK) {
        return ERR_NONE;
    }
    JobOutlook outlook;
    TRY(today_jobs(today, before, &outlook, store));
    *out = store;
    return ERR_NONE;
}

/* What the folder holds of yesterday and today, then what came with the
 * question. */
static Err gather_facts(const RoundQuestion *question, const Today *today,
                        RoundAsk *ask)
{
    Tolds tolds;
    TRY(today_told(today, today->day - 1, today->day, 0, &tolds));
    int32_t count = tolds.count + question->fact_count;
    Told *facts = ARENA_ARRAY(today->arena, Told, count);
    for (int32_t i = 0; i < count; i++) {
        facts[i] =
            i < tolds.count ? tolds.items[i] : question->facts[i - tolds.count];
    }
    ask->facts = facts;
    ask->fact_count = count;
    return ERR_NONE;
}

Err round_answer(const RoundQuestion *question, Arena *arena, RoundAnswer *out)
{
    RoundAnswer answer;
    TRY(today_open_morning(question->dir, question->today, arena,
                           &answer.today));
    const Today *today = &answer.today;
    JobOutlook outlook;
    JobsWeek week;
    JobsWeek store;
    RoundAsk ask = {.farm = today->farm,
                    .book = today->book,
                    .outlook = &outlook,
                    .week = &week,
                    .day = today->day};
    TRY(today_jobs(today, week_of(today->day), &outlook, &week));
    TRY(make_before(today, &week, &store, &ask.before));
    TRY(gather_facts(question, today, &ask));
    TRY(round_make(&ask, arena, &answer.round));
    *out = answer;
    return ERR_NONE;
}
