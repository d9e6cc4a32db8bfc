/* The jobs of a week. */
#include "desk/jobs.h"

#include "base/date.h"
#include "base/tongue.h"
#include "desk/farm_today.h"
#include "desk/plan_age.h"
#include "desk/typical.h"
#include "desk/week_choice.h"
#include "work/outlook.h"

static void tell(JobsAnswer *answer, const char *text)
{
    if (text && answer->notice_count < JOBS_NOTICES_MAX) {
        answer->notices[answer->notice_count++] = text;
    }
}

static Err make_week(const FarmToday *today, const char *dir, int32_t week,
                     Arena *arena, JobsAnswer *answer)
{
    const Farm *farm = today->farm;
    Typical typical;
    TRY(typical_make(farm, arena, &typical));
    OutlookClimate climate;
    outlook_climate(farm, typical.climate, arena, &climate);
    OutlookAsk asked = {farm, typical.book, &climate, week};
    JobOutlook outlook;
    tell(answer, plan_age_notice(today->opening, typical.book, dir, arena));
    TRY(outlook_make(&asked, arena, &outlook));
    JobsAsk ask = {
        .farm = farm, .book = typical.book, .outlook = &outlook, .week = week};
    TRY(jobs_of_week(&ask, arena, &answer->week));
    answer->loads = loads_of_week(farm, &answer->week, arena);
    answer->news =
        news_of_week(farm, typical.book, &answer->week, &answer->loads, arena);
    return ERR_NONE;
}

/* The day of the answer: the one asked for, else the first from it on with work
 * that somebody is there to do. */
static int32_t working_day(const JobsAnswer *answer, int32_t asked)
{
    const JobList *list = &answer->week.list;
    for (int32_t i = 0; i < list->count; i++) {
        if (list->jobs[i].day >= asked && list->jobs[i].hand_count > 0) {
            return list->jobs[i].day;
        }
    }
    return asked;
}

Err jobs_answer(const JobsQuestion *question, Arena *arena, JobsAnswer *out)
{
    JobsAnswer answer = {0};
    FarmToday today;
    TRY(farm_today_read(question->dir, question->day, arena, &today));
    const Farm *farm = today.farm;
    answer.farm = farm;
    TRY(jobs_is_planned(farm));
    int32_t first = week_of(farm->plan[0].from);
    WeekChoice choice =
        week_choose(farm, question->day, first, farm->plan[0].weeks,
                    say(arena, "the accepted plan"), arena);
    tell(&answer, choice.notice);
    choice.day += question->later_d;
    choice.week = week_of(choice.day);
    if (question->weekday != JOBS_ANY_DAY) {
        choice.day = choice.week + question->weekday;
    }
    tell(&answer, week_untold(farm, choice.week, arena));
    TRY(jobs_week_is_planned(farm, choice.week));
    for (int i = 0; i < today.notice_count; i++) {
        tell(&answer, today.notices[i]);
    }
    TRY(make_week(&today, question->dir, choice.week, arena, &answer));
    answer.day =
        question->is_exact ? choice.day : working_day(&answer, choice.day);
    *out = answer;
    return ERR_NONE;
}
