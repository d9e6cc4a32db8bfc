/* The beds on a day. */
#include "desk/beds.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/text.h"
#include "json/beds.h"

/* So far is looked ahead, and so many weeks for the next job; so far back is
 * what was told. */
enum { AHEAD_WEEKS = 52, JOB_WEEKS = 4, BACK_D = 730 };

static Err find_only(const BedsQuestion *question, BedsAnswer *answer)
{
    const Farm *farm = answer->today.farm;
    answer->only = BEDS_ALL;
    if (!question->bed) {
        return ERR_NONE;
    }
    const char **ids =
        ARENA_ARRAY(answer->today.arena, const char *, answer->beds.count + 1);
    for (int32_t i = 0; i < answer->beds.count; i++) {
        ids[i] = farm->beds[answer->beds.beds[i].bed].id;
        if (strcmp(ids[i], question->bed) == 0) {
            answer->only = i;
            return ERR_NONE;
        }
    }
    const char *nearest =
        text_nearest(question->bed, ids, (size_t)answer->beds.count);
    return err_make(ERR_NOT_FOUND, "the farm has no bed \"%.60s\" in use%s%s",
                    question->bed, nearest ? "; did you mean " : "",
                    nearest ? nearest : "");
}

Err beds_answer(const BedsQuestion *question, Arena *arena, BedsAnswer *out)
{
    BedsAnswer answer;
    TRY(today_open(question->dir, question->today, arena, &answer.today));
    answer.today.workings = question->workings;
    const Today *today = &answer.today;
    Foresight foresight;
    TRY(today_foresee(today, AHEAD_WEEKS, NAN, &foresight));
    JobsWeek *weeks = ARENA_ARRAY(arena, JobsWeek, JOB_WEEKS);
    JobOutlook outlooks[JOB_WEEKS];
    int week_count = today_weeks(today, JOB_WEEKS);
    TRY(today_jobs(today, week_of(today->day), week_count, outlooks, weeks));
    Tolds tolds;
    TRY(today_told(today, today->day - BACK_D, today->day, 0, &tolds));
    BedsAsk ask = {.farm = today->farm,
                   .plants = &foresight.plants,
                   .weeks = weeks,
                   .week_count = week_count,
                   .facts = tolds.items,
                   .fact_count = tolds.count,
                   .day = today->day,
                   .workings = question->workings};
    beds_make(&ask, arena, &answer.beds);
    TRY(find_only(question, &answer));
    *out = answer;
    return ERR_NONE;
}

const char *beds_answer_json(const BedsAnswer *answer, Arena *arena)
{
    BedsJson page = {.farm = answer->today.farm,
                     .beds = &answer->beds,
                     .only = answer->only,
                     .title = answer->today.title,
                     .notices = answer->today.notices,
                     .notice_count = answer->today.notice_count};
    return beds_to_json(&page, arena);
}
