/* Today's round. */
#include "desk/round.h"

#include "base/date.h"
#include "desk/check_farm.h"
#include "desk/plan_age.h"
#include "desk/told_folder.h"
#include "desk/typical.h"
#include "desk/week_choice.h"
#include "work/outlook.h"

static void tell(RoundAnswer *answer, const char *text)
{
    if (text && answer->notice_count < ROUND_NOTICES_MAX) {
        answer->notices[answer->notice_count++] = text;
    }
}

typedef struct Weeks {
    const Farm *farm;
    const Typical *typical;
    const OutlookClimate *climate;
    Arena *arena;
} Weeks;

static Err make_week(const Weeks *weeks, int32_t week, JobOutlook *out_outlook,
                     JobsWeek *out)
{
    OutlookAsk asked = {weeks->farm, weeks->typical->book, weeks->climate,
                        week};
    TRY(outlook_make(&asked, weeks->arena, out_outlook));
    JobsAsk ask = {weeks->farm, weeks->typical->book, out_outlook, week};
    return jobs_of_week(&ask, weeks->arena, out);
}

/* The week that holds the day before; false where the plan had not begun. */
static Err make_before(const Weeks *weeks, int32_t day, const JobsWeek *week,
                       JobsWeek *store, const JobsWeek **out)
{
    *out = week;
    if (week_of(day - 1) == week->week) {
        return ERR_NONE;
    }
    Err planned = jobs_week_is_planned(weeks->farm, week_of(day - 1));
    *out = NULL;
    if (planned.kind != ERR_OK) {
        return ERR_NONE;
    }
    JobOutlook outlook;
    TRY(make_week(weeks, week_of(day - 1), &outlook, store));
    *out = store;
    return ERR_NONE;
}

static const char *title_of(int32_t day, Arena *arena)
{
    char week[DATE_TEXT_SIZE];
    week_format(day, week);
    CivilDate civil = date_to_civil(day);
    return arena_text(arena, "%s %d %s %d, %s",
                      date_weekday_name(date_weekday(day)), civil.day,
                      date_month_name(civil.month), civil.year, week);
}

/* What the folder holds of yesterday and today, then what came with the
 * question. */
static Err gather_facts(const RoundQuestion *question, int32_t day,
                        Arena *arena, RoundAsk *ask)
{
    Tolds tolds;
    TRY(told_of_folder(
        &(ToldAsk){.dir = question->dir, .from = day - 1, .until = day}, arena,
        &tolds));
    int32_t count = tolds.count + question->fact_count;
    Told *facts = ARENA_ARRAY(arena, Told, count);
    for (int32_t i = 0; i < count; i++) {
        facts[i] =
            i < tolds.count ? tolds.items[i] : question->facts[i - tolds.count];
    }
    ask->facts = facts;
    ask->fact_count = count;
    return ERR_NONE;
}

static Err make_round(const RoundQuestion *question, int32_t day, Arena *arena,
                      RoundAnswer *answer)
{
    Typical typical;
    TRY(typical_make(answer->farm, arena, &typical));
    tell(answer,
         plan_age_notice(answer->farm, typical.book, question->dir, arena));
    OutlookClimate climate;
    outlook_climate(answer->farm, typical.climate, arena, &climate);
    Weeks weeks = {answer->farm, &typical, &climate, arena};
    JobOutlook outlook;
    JobsWeek week;
    JobsWeek store;
    RoundAsk ask = {.farm = answer->farm,
                    .book = typical.book,
                    .outlook = &outlook,
                    .week = &week,
                    .day = day};
    TRY(make_week(&weeks, week_of(day), &outlook, &week));
    TRY(gather_facts(question, day, arena, &ask));
    TRY(make_before(&weeks, day, &week, &store, &ask.before));
    return round_make(&ask, arena, &answer->round);
}

Err round_answer(const RoundQuestion *question, Arena *arena, RoundAnswer *out)
{
    RoundAnswer answer = {0};
    TRY(check_farm_load(question->dir, arena, &answer.farm));
    const Farm *farm = answer.farm;
    TRY(jobs_is_planned(farm));
    WeekChoice choice =
        week_choose(farm, question->today, week_of(farm->plan[0].from),
                    farm->plan[0].weeks, "the accepted plan", arena);
    tell(&answer, choice.notice);
    tell(&answer, week_untold(farm, choice.week, arena));
    TRY(jobs_week_is_planned(farm, choice.week));
    answer.title = title_of(choice.day, arena);
    TRY(make_round(question, choice.day, arena, &answer));
    *out = answer;
    return ERR_NONE;
}
