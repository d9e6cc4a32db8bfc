/* What every page of a day stands on. */
#include "desk/today.h"

#include "base/date.h"
#include "base/tongue.h"
#include "desk/farm_today.h"
#include "desk/plan_age.h"
#include "desk/typical.h"
#include "desk/week_choice.h"

enum { YEAR_WEEKS = 52 };

void today_tell(Today *today, const char *text)
{
    if (text && today->notice_count < TODAY_NOTICES_MAX) {
        today->notices[today->notice_count++] = text;
    }
}

static const char *title_of(int32_t day, Arena *arena)
{
    char week[DATE_TEXT_SIZE];
    week_format(day, week);
    CivilDate civil = date_to_civil(day);
    return arena_text(arena, "%s %d %s %d, %s",
                      say(arena, date_weekday_name(date_weekday(day))),
                      civil.day, say(arena, date_month_name(civil.month)),
                      civil.year, say_apart(arena, week));
}

/* The day that is asked for, or by the clock within the plan, else within the
 * year after the tables. */
static void choose_day(int32_t asked, Today *today)
{
    const Farm *farm = today->farm;
    bool has_plan = farm->plan_count > 0;
    WeekChoice choice = week_choose(
        farm, asked,
        week_of(has_plan ? farm->plan[0].from : farm->farm->records_from),
        has_plan ? farm->plan[0].weeks : YEAR_WEEKS,
        say(today->arena, has_plan ? "the accepted plan"
                                   : "the year after the farm's tables"),
        today->arena);
    today->day = choice.day;
    today_tell(today, choice.notice);
    today_tell(today, week_untold(farm, choice.week, today->arena));
    Err planned = jobs_week_is_planned(farm, choice.week);
    today->is_planned = planned.kind == ERR_OK;
}

static Err open_of(const char *dir, const FarmToday *at, int32_t today,
                   Arena *arena, Today *out)
{
    Today made = {
        .dir = dir, .arena = arena, .farm = at->farm, .opening = at->opening};
    choose_day(today, &made);
    for (int i = 0; i < at->notice_count; i++) {
        today_tell(&made, at->notices[i]);
    }
    made.title = title_of(made.day, arena);
    Typical typical;
    TRY(typical_make(made.farm, arena, &typical));
    made.book = typical.book;
    made.climate = typical.climate;
    outlook_climate(made.farm, made.climate, arena, &made.outlook);
    today_tell(&made, plan_age_notice(made.opening, made.book, dir, arena));
    *out = made;
    return ERR_NONE;
}

Err today_open(const char *dir, int32_t today, Arena *arena, Today *out)
{
    FarmToday at;
    TRY(farm_today_read(dir, today, arena, &at));
    return open_of(dir, &at, today, arena, out);
}

static Err need_plan(const Today *today)
{
    return jobs_week_is_planned(today->farm, week_of(today->day));
}

Err today_open_planned(const char *dir, int32_t today, Arena *arena, Today *out)
{
    Today made;
    TRY(today_open(dir, today, arena, &made));
    TRY(need_plan(&made));
    *out = made;
    return ERR_NONE;
}

Err today_open_morning(const char *dir, int32_t today, Arena *arena, Today *out)
{
    FarmToday at;
    TRY(farm_today_morning(dir, today, arena, &at));
    Today made;
    TRY(open_of(dir, &at, today, arena, &made));
    TRY(need_plan(&made));
    *out = made;
    return ERR_NONE;
}

Err today_foresee(const Today *today, int weeks, double sale_g, Foresight *out)
{
    ForesightAsk ask = {.farm = today->farm,
                        .book = today->book,
                        .climate = today->climate,
                        .first_week = week_of(today->day),
                        .weeks = weeks,
                        .sale_g = sale_g,
                        .way = FORESIGHT_ALL,
                        .today = today->day,
                        .workings = today->workings};
    return foresight_make(&ask, today->arena, out);
}

int today_weeks(const Today *today, int wanted)
{
    int count = 0;
    while (count < wanted) {
        Err planned = jobs_week_is_planned(today->farm, week_of(today->day) +
                                                            count * JOBS_DAYS);
        if (planned.kind != ERR_OK) {
            break;
        }
        count++;
    }
    return count;
}

Err today_jobs(const Today *today, int32_t week, int weeks,
               JobOutlook *out_outlooks, JobsWeek *out)
{
    OutlookAsk asked = {today->farm, today->book, &today->outlook, week};
    TRY(outlook_make_weeks(&asked, weeks, today->arena, out_outlooks));
    for (int w = 0; w < weeks; w++) {
        JobsAsk ask = {.farm = today->farm,
                       .book = today->book,
                       .outlook = &out_outlooks[w],
                       .week = week + w * JOBS_DAYS,
                       .day = today->day,
                       .workings = today->workings};
        TRY(jobs_of_week(&ask, today->arena, &out[w]));
    }
    return ERR_NONE;
}

Err today_told(const Today *today, int32_t from, int32_t until, uint64_t kinds,
               Tolds *out)
{
    *out = (Tolds){0};
    if (!store_is_there(today->dir)) {
        return ERR_NONE;
    }
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(today->dir, STORE_READ, &store));
    StoreFilter filter = store_all();
    filter.from = from;
    filter.until = until;
    filter.kinds = kinds;
    filter.is_fold_order = true;
    filter.without_struck = true;
    return store_read(&store, &filter, today->arena, out);
}
