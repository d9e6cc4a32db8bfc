/* GET /api/jobs: the jobs of a week. */
#include "base/date.h"
#include "desk/jobs.h"
#include "http/routes.h"
#include "json/jobs.h"

ROUTE_QUESTION(JobsQuestion);

Err api_jobs_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    JobsQuestion jobs = {.dir = request->dir, .weekday = JOBS_ANY_DAY};
    TRY(request_today(request, &jobs.day));
    const char *week = request_text(request, "week");
    if (week && request_text(request, "day")) {
        return err_make(ERR_USAGE, "week and day do not go together");
    }
    if (week) {
        TRY(week_parse(week, &jobs.day));
    }
    jobs.is_exact = request_text(request, "day") != NULL;
    TRY(request_day(request, "day", &jobs.day));
    *(JobsQuestion *)question = jobs;
    return ERR_NONE;
}

Err api_jobs_answer(const void *question, Arena *arena, Reply *out)
{
    JobsAnswer answer;
    TRY(jobs_answer(question, arena, &answer));
    JobsJson page = {.farm = answer.farm,
                     .week = &answer.week,
                     .loads = &answer.loads,
                     .news = &answer.news,
                     .day = answer.day,
                     .notices = answer.notices,
                     .notice_count = answer.notice_count};
    *out = reply_json(jobs_to_json(&page, arena));
    return ERR_NONE;
}
