/* The jobs of a week. */
#include "desk/jobs.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "desk/check_farm.h"
#include "desk/clock.h"
#include "desk/typical.h"
#include "work/outlook.h"

static void tell(JobsAnswer *answer, const char *text)
{
    if (answer->notice_count < JOBS_NOTICES_MAX) {
        answer->notices[answer->notice_count++] = text;
    }
}

static const char *day_text(int32_t day, Arena *arena)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy_text(arena, text);
}

/* The Monday that is asked for. By the clock: this week, or the plan's first
 * where the clock stands outside the plan, with a notice. */
static int32_t choose_week(const JobsQuestion *question, const Farm *farm,
                           Arena *arena, JobsAnswer *answer)
{
    if (question->day != DATE_ALWAYS) {
        return week_of(question->day);
    }
    int32_t today = clock_today(farm->farm->timezone);
    if (farm->plan_count < 1) {
        return week_of(today);
    }
    const Plan *plan = &farm->plan[0];
    int32_t first = week_of(plan->from);
    if (today >= first && today < first + 7 * plan->weeks) {
        return week_of(today);
    }
    tell(answer, arena_text(arena,
                            "Today (%s) lies outside the accepted plan: this "
                            "is its first week.",
                            day_text(today, arena)));
    return first;
}

/* Nothing is recorded yet after the tables' day: what was planned since then is
 * taken as done, and that is said. */
static void tell_untold(const Farm *farm, int32_t week, Arena *arena,
                        JobsAnswer *answer)
{
    if (week > week_of(farm->farm->records_from)) {
        tell(answer,
             arena_text(arena,
                        "Nothing was told since %s: until then the plan is "
                        "taken as done.",
                        day_text(farm->farm->records_from, arena)));
    }
}

static Err make_week(const Farm *farm, int32_t week, Arena *arena,
                     JobsWeek *out)
{
    Typical typical;
    TRY(typical_make(farm, arena, &typical));
    OutlookClimate climate;
    outlook_climate(farm, typical.climate, arena, &climate);
    OutlookAsk asked = {farm, typical.book, &climate, week};
    JobOutlook outlook;
    TRY(outlook_make(&asked, arena, &outlook));
    JobsAsk ask = {farm, typical.book, &outlook, week};
    return jobs_of_week(&ask, arena, out);
}

Err jobs_answer(const JobsQuestion *question, Arena *arena, JobsAnswer *out)
{
    JobsAnswer answer = {0};
    TRY(check_farm_load(question->dir, arena, &answer.farm));
    int32_t week = choose_week(question, answer.farm, arena, &answer);
    tell_untold(answer.farm, week, arena, &answer);
    TRY(jobs_week_is_planned(answer.farm, week));
    TRY(make_week(answer.farm, week, arena, &answer.week));
    *out = answer;
    return ERR_NONE;
}

static CalendarEntry entry_of(const Job *job, Arena *arena)
{
    const char *gap = *job->note && *job->caution ? "\n" : "";
    const char *where = "";
    for (int32_t i = 0; i < job->place_count; i++) {
        where = arena_text(arena, "%s%s%s", where, i ? ", " : "",
                           job->places[i].id);
    }
    return (CalendarEntry){.uid = job->id,
                           .day = job->day,
                           .summary = job_text(job, arena),
                           .description = arena_text(
                               arena, "%s%s%s", job->caution, gap, job->note),
                           .location = where,
                           .minutes = job->minutes};
}

Err jobs_calendar(const JobsAnswer *answer, Arena *arena, CalendarFile *out)
{
    const JobList *list = &answer->week.list;
    CalendarEntry *entries = ARENA_ARRAY(arena, CalendarEntry, list->count);
    for (int32_t i = 0; i < list->count; i++) {
        entries[i] = entry_of(&list->jobs[i], arena);
    }
    const FarmSite *site = answer->farm->farm;
    return calendar_write(*site->name ? site->name : site->id,
                          answer->farm->plan[0].accepted_on, entries,
                          (size_t)list->count, arena, out);
}

Err jobs_save_calendar(const JobsAnswer *answer, const char *path, Arena *arena)
{
    CalendarFile calendar;
    TRY(jobs_calendar(answer, arena, &calendar));
    FILE *file = fopen(path, "wb");
    if (!file) {
        return err_make(ERR_IO, "%.100s: %s", path, strerror(errno));
    }
    size_t written = fwrite(calendar.bytes, 1, calendar.length, file);
    bool is_closed = fclose(file) == 0;
    if (written != calendar.length || !is_closed) {
        return err_make(ERR_IO, "%.100s: %s", path, strerror(errno));
    }
    return ERR_NONE;
}
