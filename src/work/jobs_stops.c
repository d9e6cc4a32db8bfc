/* Where the walk stops for each job: a tunnel, the tanks of a loop, the
 * nursery, the van .. */
#include <string.h>

#include "base/tongue.h"

#include "farm/cell.h"
#include "work/jobs_parts.h"

/* The loop of a tank; "tanks" where it has none or the farm has but one. */
static const char *tank_stop(const Farm *farm, const char *id)
{
    for (int32_t i = 0; i < farm->tanks_count && farm->loops_count > 1; i++) {
        int32_t loop = farm->tanks[i].loop;
        if (strcmp(farm->tanks[i].id, id) == 0 && loop >= 0) {
            return farm->loops[loop].id;
        }
    }
    return "tanks";
}

static const char *task_stop(int skill)
{
    switch (skill) {
    case SKILL_PICK:
        return "packing";
    case SKILL_OFFICE:
        return "office";
    case SKILL_NET:
        return "tanks";
    case SKILL_DELIVER:
        return "van";
    case SKILL_SOW:
        return "nursery";
    case SKILL_FEED:
    case SKILL_TEST:
    case SKILL_VENT:
        return "round";
    default:
        return "farm";
    }
}

static const char *stop_of(const Jobs *jobs, const Job *job)
{
    const char *place = job->place_count > 0 ? job->places[0].id : NULL;
    switch (job->kind) {
    case JOB_FEED:
    case JOB_FAST:
    case JOB_CROWD:
    case JOB_STOCK:
    case JOB_GRADE:
    case JOB_CATCH:
    case JOB_SALE:
        return place ? tank_stop(jobs->farm, place) : "tanks";
    case JOB_SHADE:
        return place ? place : "round";
    case JOB_ROUND:
    case JOB_TEST:
    case JOB_VENT:
    case JOB_TASK:
    case JOB_ORDER:
    case JOB_DELIVER:
        return task_stop(job->skill);
    case JOB_COUNT:
    case JOB_RENEW:
    case JOB_PICK:
    case JOB_SOW:
    case JOB_CLEAR:
    case JOB_SET:
    case JOB_STRING:
    case JOB_PRUNE:
    case JOB_CLEAN:
    case JOB_KIND_COUNT:
        break;
    }
    int32_t bed = place ? cell_row_of(jobs->farm, TABLE_beds, place) : -1;
    return bed >= 0 ? jobs_tunnel_id(jobs, bed) : task_stop(job->skill);
}

const char *jobs_stop_name(const char *stop, const Arena *arena)
{
    static const char *const WORDS[] = {
        SAY("tanks"),   SAY("packing"), SAY("office"), SAY("van"),
        SAY("nursery"), SAY("round"),   SAY("farm"),   SAY("open")};
    for (size_t i = 0; i < sizeof WORDS / sizeof *WORDS; i++) {
        if (strcmp(stop, WORDS[i]) == 0) {
            return say(arena, stop);
        }
    }
    return stop;
}

void jobs_set_stops(Jobs *jobs)
{
    for (int32_t i = 0; i < jobs->list->count; i++) {
        Job *job = &jobs->list->jobs[i];
        job->stop = stop_of(jobs, job);
    }
}
