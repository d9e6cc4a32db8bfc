/* What comes every week: the round, tests, vents and shade, screens, lists,
 * deliveries. */
#include "work/jobs_parts.h"

#include <math.h>

#include "base/date.h"
#include "base/tongue.h"
#include "farm/closures.h"
#include "farm/usual_work.h"

static const char TEST_NOTE[] = SAY(
    "before feeding: temperature, oxygen, pH, ammonia, nitrite; once a week "
    "alkalinity, nitrate, iron; ammonia is judged by its un-ionised part, "
    "nitrite together with chloride");
static const char ROUND_NOTE[] = SAY(
    "eyes first, touch nothing: pumps, air, levels at their marks, screens, "
    "every bed floods and drains; then feed, and take off the next meal what "
    "is left after 15 minutes");

/* Air inside, by the warmest hour of the day: what is done about it. Common
 * practice of the trade. */
static const double WARM_DEGC = 20.0;
static const double HOT_DEGC = 28.0;

const char *jobs_vent_act(double most_degc)
{
    return most_degc < WARM_DEGC  ? SAY("open a while at midday to dry it")
           : most_degc < HOT_DEGC ? SAY("open by mid-morning")
                                  : SAY("open early and wide, doors too");
}

/* "H1, H2 to 20 degC: open by mid-morning; H3 to 19 degC: ...": neighbours that
 * ask for the same are told together, with the warmest of them. */
static const char *vent_note(const Jobs *jobs, int day)
{
    const Farm *farm = jobs->farm;
    const double *most = jobs->outlook->tunnel_max_degc;
    const char *note = "";
    for (int32_t i = 0; i < farm->tunnels_count; i++) {
        const char *act = jobs_vent_act(most[i * JOBS_DAYS + day]);
        const char *ids = farm->tunnels[i].id;
        double warmest = most[i * JOBS_DAYS + day];
        while (i + 1 < farm->tunnels_count &&
               jobs_vent_act(most[(i + 1) * JOBS_DAYS + day]) == act) {
            i++;
            warmest = fmax(warmest, most[i * JOBS_DAYS + day]);
            ids = arena_text(jobs->arena, "%s, %s", ids, farm->tunnels[i].id);
        }
        note = arena_text(jobs->arena, "%s%s%s", note, *note ? "; " : "",
                          arena_say(jobs->arena, "%s to %.0f degC: %s", ids,
                                    warmest, say(jobs->arena, act)));
    }
    return arena_say(jobs->arena,
                     "%s; close before evening, aim under 85 %% humidity",
                     *note ? note : say(jobs->arena, "no tunnel"));
}

/* What the warmest tunnel asks for. */
static const char *vent_brief(const Jobs *jobs, int day)
{
    double warmest = -INFINITY;
    for (int32_t i = 0; i < jobs->farm->tunnels_count; i++) {
        warmest =
            fmax(warmest, jobs->outlook->tunnel_max_degc[i * JOBS_DAYS + day]);
    }
    return isfinite(warmest)
               ? arena_say(jobs->arena, "to %.0f degC: %s", warmest,
                           say(jobs->arena, warmest < WARM_DEGC ? "midday"
                                            : warmest < HOT_DEGC
                                                ? "mid-morning"
                                                : "early, wide"))
               : "";
}

/* Words that belong to the work of that skill. */
static void describe(const Jobs *jobs, int skill, int day, Job *job)
{
    switch (skill) {
    case SKILL_FEED:
        job->brief = say(jobs->arena, "eyes first, touch nothing; then feed");
        job->note = say(jobs->arena, ROUND_NOTE);
        break;
    case SKILL_TEST:
        job->note = say(jobs->arena, TEST_NOTE);
        job->caution = CAUTION_BASE;
        break;
    case SKILL_VENT:
        job->brief = vent_brief(jobs, day);
        job->note = vent_note(jobs, day);
        break;
    case SKILL_SPRAY:
        job->caution = CAUTION_SPRAY;
        break;
    default:
        break;
    }
}

/* Hand work in the beds comes before packing; counting pests goes with the
 * round, while nothing is touched yet. */
static JobPhase phase_of(const Job *job)
{
    switch (job->skill) {
    case SKILL_SOW:
    case SKILL_SET:
    case SKILL_PRUNE:
    case SKILL_CLEAR:
        return PHASE_PLANTS;
    case SKILL_SPRAY:
        return PHASE_ROUND;
    default:
        return job->phase;
    }
}

/* Names are typed as they come; a line begins with a capital. */
static const char *sentence(const char *name, Arena *arena)
{
    char *copy = arena_text(arena, "%s", name);
    if (*copy >= 'a' && *copy <= 'z') {
        *copy = (char)(*copy - 'a' + 'A');
    }
    return copy;
}

static JobKind kind_of(int skill)
{
    switch (skill) {
    case SKILL_FEED:
        return JOB_ROUND;
    case SKILL_TEST:
        return JOB_TEST;
    case SKILL_VENT:
        return JOB_VENT;
    case SKILL_CLEAN:
        return JOB_CLEAN;
    default:
        return JOB_TASK;
    }
}

/* Times in this very week of work that comes times_w times a week: 0.5 is every
 * second week. */
static int times_now(const Jobs *jobs, double times_w)
{
    double weeks = floor((double)jobs->week / JOBS_DAYS);
    return (int)(floor((weeks + 1.0) * times_w) - floor(weeks * times_w));
}

typedef struct Regular {
    const char *id;
    const char *name;
    int skill;
    double minutes; /* each time */
} Regular;

/* Seven times is every day; fewer are spread over the week, more share days. */
static void add_regular(Jobs *jobs, const Regular *regular, int times)
{
    for (int i = 0; i < times; i++) {
        int day = times <= JOBS_DAYS ? i * JOBS_DAYS / times : i % JOBS_DAYS;
        bool is_daily = times >= JOBS_DAYS;
        int32_t first = jobs->week + day;
        int32_t last = is_daily || day >= JOBS_DAYS - 2 ? first : first + 1;
        Job job = job_of(kind_of(regular->skill), first, last);
        job.skill = regular->skill;
        job.id = jobs_id(jobs, job.kind, regular->id, "", first);
        job.phase = phase_of(&job);
        job.what = sentence(regular->name, jobs->arena);
        job.minutes = regular->minutes;
        describe(jobs, regular->skill, day, &job);
        job_add(jobs->list, &job, NULL);
    }
}

/* Rounds, vents and tests come also where the farm has not written them down.
 */
static void add_missing(Jobs *jobs)
{
    UsualWork usual[USUAL_WORK_MOST];
    int count = usual_work(jobs->farm, jobs->book, usual);
    for (int i = 0; i < count; i++) {
        Regular regular = {usual[i].id, say(jobs->arena, usual[i].name),
                           usual[i].skill, usual[i].minutes};
        add_regular(jobs, &regular, usual[i].times_w);
    }
}

static void add_tasks(Jobs *jobs)
{
    int month = date_month(jobs->week + 3);
    for (int32_t i = 0; i < jobs->farm->tasks_count; i++) {
        const Task *task = &jobs->farm->tasks[i];
        if (!(task->months >> (month - 1) & 1u)) {
            continue;
        }
        Regular regular = {task->id, *task->name ? task->name : task->id,
                           task->skill, task->minutes};
        add_regular(jobs, &regular, times_now(jobs, task->times_w));
    }
}

/* On the first of a month shade cloth or whitewash comes on or goes off. */
static void add_shade(Jobs *jobs, int day)
{
    int32_t first = jobs->week + day;
    int month = date_to_civil(first).month;
    int before = month == 1 ? 12 : month - 1;
    for (int32_t i = 0; i < jobs->farm->tunnels_count; i++) {
        const Tunnel *tunnel = &jobs->farm->tunnels[i];
        const struct {
            const char *name;
            uint32_t months;
            double frac;
        } covers[] = {
            {SAY("shade cloth"), tunnel->shade_months, tunnel->shade_frac},
            {SAY("whitewash"), tunnel->whitewash_months,
             tunnel->whitewash_frac},
        };
        for (int c = 0; c < 2; c++) {
            bool is_on = covers[c].months >> (month - 1) & 1u;
            bool was_on = covers[c].months >> (before - 1) & 1u;
            if (covers[c].frac <= 0.0 || is_on == was_on) {
                continue;
            }
            Job job = job_of(JOB_SHADE, jobs->week, jobs->week + 5);
            job.id = jobs_id(jobs, JOB_SHADE, is_on ? "on" : "off",
                             arena_text(jobs->arena, "%d", c + 1), first);
            job.what = arena_say(jobs->arena,
                                 is_on ? "Put on the %s" : "Take off the %s",
                                 say(jobs->arena, covers[c].name));
            job_add(jobs->list, &job,
                    &(JobPlace){tunnel->id, tunnel->walk, 0.0});
        }
    }
}

static void add_deliveries(Jobs *jobs)
{
    const Farm *farm = jobs->farm;
    for (int32_t i = 0; i < farm->buyers_count; i++) {
        const Buyer *buyer = &farm->buyers[i];
        for (int d = 0; d < JOBS_DAYS; d++) {
            bool is_due = (buyer->days >> d & 1u) && buyer->drop_min > 0.0;
            if (!is_due || closures_shut_buyer(farm, i, jobs->week + d)) {
                continue;
            }
            Job job = job_of(JOB_DELIVER, jobs->week + d, jobs->week + d);
            job.id = jobs_id(jobs, JOB_DELIVER, buyer->id, "", job.earliest);
            job.what = arena_say(jobs->arena, "Deliver to %s",
                                 *buyer->name ? buyer->name : buyer->id);
            job.buyer = i;
            job.minutes = buyer->drop_min;
            job.brief = say(jobs->arena, "cold boxes; note signed at the door");
            job.note = say(jobs->arena,
                           "cold boxes; have the note signed at the door");
            job_add(jobs->list, &job, NULL);
        }
    }
}

void jobs_add_rounds(Jobs *jobs)
{
    add_tasks(jobs);
    add_missing(jobs);
    for (int d = 0; d < JOBS_DAYS; d++) {
        if (date_to_civil(jobs->week + d).day == 1) {
            add_shade(jobs, d);
        }
    }
    add_deliveries(jobs);
}
