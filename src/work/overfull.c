/* Days on which somebody has more work than hours, and what could give way. */
#include "work/overfull.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "work/jobs_table.h"

enum { STAYS = 0, MOVES_MOST = 2 };

static const double MINUTES_AN_HOUR = 60.0;

double overfull_minutes(const JobsWeek *week, int hand, int weekday)
{
    const HandWeek *hours = &week->hands[hand];
    double over = hours->minutes_used[weekday] - hours->minutes_had[weekday];
    return over >= OVERFULL_LEAST_MIN ? over : 0.0;
}

/* What gives way first has the lowest number; common practice of the trade:
 * tidying waits before cleaning, both before plants that stand in trays. */
static int turn_of(const Job *job)
{
    switch (job->kind) {
    case JOB_TASK:
        return job->skill == SKILL_PICK ? STAYS : 1;
    case JOB_CLEAN:
        return 2;
    case JOB_SHADE:
    case JOB_RENEW:
        return 3;
    case JOB_PRUNE:
        return 4;
    case JOB_CLEAR:
        return 5;
    case JOB_SOW:
        return 6;
    case JOB_SET:
    case JOB_STRING:
        return 7;
    case JOB_ROUND:
    case JOB_TEST:
    case JOB_VENT:
    case JOB_COUNT:
    case JOB_FEED:
    case JOB_FAST:
    case JOB_PICK:
    case JOB_CROWD:
    case JOB_ORDER:
    case JOB_SALE:
    case JOB_DELIVER:
    case JOB_STOCK:
    case JOB_GRADE:
    case JOB_CATCH:
    case JOB_KIND_COUNT:
        return STAYS;
    }
    return STAYS;
}

static bool is_of(const Job *job, int hand, int32_t day)
{
    return job->day == day && job->hand_count == 1 && job->hands[0] == hand;
}

/* The next job to give way: by turn, the longest first; those already named
 * come before it. NULL where none is left. */
static const Job *next_mover(const JobsWeek *week, int hand, int32_t day,
                             const Job *after)
{
    const Job *found = NULL;
    for (int32_t i = 0; i < week->list.count; i++) {
        const Job *job = &week->list.jobs[i];
        int turn = turn_of(job);
        bool is_left =
            turn != STAYS && job->minutes >= OVERFULL_LEAST_MIN && job != after;
        bool is_later = !after || turn > turn_of(after) ||
                        (turn == turn_of(after) &&
                         (job->minutes < after->minutes || job > after));
        bool is_better =
            !found || turn < turn_of(found) ||
            (turn == turn_of(found) && job->minutes > found->minutes);
        if (is_of(job, hand, day) && is_left && is_later && is_better) {
            found = job;
        }
    }
    return found;
}

/* " to Thu, Ben": the first other day with room for it; " to next week". */
static const char *where_to(const Farm *farm, const JobsWeek *week,
                            const Job *job, Arena *arena)
{
    for (int d = 0; d < JOBS_DAYS; d++) {
        int day = (int)(job->day - week->week + 1 + d) % JOBS_DAYS;
        for (int h = 0; h < farm->hands_count; h++) {
            double left = week->hands[h].minutes_had[day] -
                          week->hands[h].minutes_used[day];
            bool may = farm->hands[h].may >> job->skill & 1u;
            if (may && week->week + day != job->day && left >= job->minutes) {
                return arena_say(arena, " to %s, %s",
                                 say(arena, date_weekday_name(day)),
                                 jobs_hand_name(farm, h));
            }
        }
    }
    return say(arena, " to next week");
}

const char *overfull_text(const Farm *farm, const JobsWeek *week, int hand,
                          int weekday, Arena *arena)
{
    double over = overfull_minutes(week, hand, weekday);
    if (over <= 0.0) {
        return NULL;
    }
    const char *text =
        arena_say(arena, "%s %.1f h over", jobs_hand_name(farm, hand),
                  over / MINUTES_AN_HOUR);
    const Job *job = NULL;
    int moved = 0;
    for (int i = 0; i < MOVES_MOST && over > 0.0; i++) {
        job = next_mover(week, hand, week->week + weekday, job);
        if (!job) {
            break;
        }
        text = arena_text(arena, "%s%s %s (%.0f min)%s", text,
                          say(arena, i ? " and" : ", could go:"), job->what,
                          ceil(job->minutes), where_to(farm, week, job, arena));
        over -= job->minutes;
        moved++;
    }
    if (!job && over > 0.0) {
        text = arena_say(arena,
                         moved > 0 ? "%s, nothing else of it can wait"
                                   : "%s, nothing of it can wait",
                         text);
    }
    double extra_h = farm->hands[hand].extra_h_w;
    return extra_h > 0.0
               ? arena_say(arena, "%s (has %.0f extra h a week)", text, extra_h)
               : text;
}
