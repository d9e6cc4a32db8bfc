/* The stops of the eyes: tanks, sumps, nursery, tunnels. What is looked at is
 * common practice of the trade. */
#include "work/round_parts.h"

#include <limits.h>
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "work/round_troubles.h"

static const char TANK_LOOK[] =
    SAY("fish up and breathing, level at its mark, screens, air");
static const char BED_LOOK[] =
    SAY("every bed floods and drains; leaves, drip, pests");
static const char NURSERY_LOOK[] =
    SAY("trays moist, none mouldy, none waiting too long");

/* More dead than this share of a tank are asked about once; judged. */
static const double DEAD_ODD_FRAC = 0.01;
/* A temperature of the nursery outside these is asked about once; judged. */
static const double NURSERY_COLD_DEGC = 10.0;
static const double NURSERY_HOT_DEGC = 35.0;

/* ---- tanks ---------------------------------------------------------------
 */

static void add_place(RoundWork *work, RoundItem *item, const char *id,
                      int32_t walk)
{
    JobPlace *places =
        arena_grow(work->arena, item->places, (size_t)item->place_count,
                   (size_t)item->place_count + 1, sizeof *places);
    places[item->place_count] = (JobPlace){id, walk, 0.0};
    item->places = places;
    item->place_count++;
}

/* "A, C" */
static const char *place_names(const RoundItem *item, Arena *arena)
{
    const char *names = "";
    for (int32_t i = 0; i < item->place_count; i++) {
        names = arena_text(arena, "%s%s%s", names, i ? ", " : "",
                           item->places[i].id);
    }
    return names;
}

static void add_dead(RoundWork *work, RoundStop *stop, int32_t tank)
{
    const Tank *row = &work->farm->tanks[tank];
    TankDay day = shoals_tank_day(&work->usual, tank, work->weekday);
    if (day.count < 0.5) {
        return;
    }
    RoundItem item = round_item(
        ROUND_LOOK, arena_text(work->arena, "dead-%s", row->id), row->id);
    item.text = arena_say(work->arena, "Dead fish in %s", row->id);
    item.detail = say(work->arena, "count, weigh, why, where they went");
    item.value = round_value("count", "fish");
    item.value.odd_above = fmax(2.0, DEAD_ODD_FRAC * day.count);
    round_add(work, stop, &item);
}

/* Crowded tanks are told with the fish that crowd them. */
static void add_crowd(RoundWork *work, RoundStop *stop, int32_t tank)
{
    const Tank *row = &work->farm->tanks[tank];
    const Job *job =
        round_job(work->ask->week, JOB_CROWD, row->id, work->ask->day);
    if (!job) {
        return;
    }
    RoundItem item = round_item(ROUND_LOOK, job->id, row->id);
    item.job = job;
    item.text = job->what;
    item.detail = job->note;
    item.caution = job_caution_text(job, work->arena);
    round_add(work, stop, &item);
}

/* Tanks of a loop, or those outside all loops for -1. */
static void add_tanks(RoundWork *work, int32_t loop)
{
    const Farm *farm = work->farm;
    const char *id =
        loop < 0 ? "tubs"
                 : arena_text(work->arena, "tanks-%s", farm->loops[loop].id);
    RoundItem look =
        round_item(ROUND_LOOK, arena_text(work->arena, "look-%s", id), "");
    int32_t walk = INT_MAX;
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        if (farm->tanks[k].loop == loop) {
            add_place(work, &look, farm->tanks[k].id, farm->tanks[k].walk);
            walk = farm->tanks[k].walk < walk ? farm->tanks[k].walk : walk;
        }
    }
    if (look.place_count == 0) {
        return;
    }
    const char *names = place_names(&look, work->arena);
    RoundStop *stop =
        round_stop(work, id, arena_say(work->arena, "Tanks %s", names), walk);
    look.text = say(work->arena, TANK_LOOK);
    look.troubles = ROUND_TANK_TROUBLES;
    round_add(work, stop, &look);
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        if (farm->tanks[k].loop == loop) {
            add_dead(work, stop, k);
            round_add_readings(work, stop, k, loop);
            add_crowd(work, stop, k);
            round_add_feed(work, stop, k);
        }
    }
}

/* ---- sumps ---------------------------------------------------------------
 */

static int32_t last_walk(const Farm *farm, int32_t loop)
{
    int32_t walk = 0;
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        if (farm->tanks[k].loop == loop && farm->tanks[k].walk > walk) {
            walk = farm->tanks[k].walk;
        }
    }
    return walk;
}

static void add_sump(RoundWork *work, int32_t loop)
{
    const Farm *farm = work->farm;
    const Loop *row = &farm->loops[loop];
    const char *id = arena_text(work->arena, "sump-%s", row->id);
    RoundStop *stop =
        round_stop(work, id, arena_say(work->arena, "Sump %s", row->id),
                   last_walk(farm, loop));
    RoundItem look =
        round_item(ROUND_LOOK, arena_text(work->arena, "look-%s", id), row->id);
    const char *text = say(work->arena, "level at its mark, screen");
    add_place(work, &look, row->id, stop->walk);
    for (int32_t p = 0; p < farm->pumps_count; p++) {
        if (farm->pumps[p].loop == loop) {
            add_place(work, &look, farm->pumps[p].id, stop->walk);
            text =
                arena_say(work->arena, "%s, %s runs", text, farm->pumps[p].id);
        }
    }
    for (int32_t a = 0; a < farm->aerators_count; a++) {
        if (farm->aerators[a].loop == loop && farm->aerators[a].tank < 0) {
            add_place(work, &look, farm->aerators[a].id, stop->walk);
            text = arena_say(work->arena, "%s, %s blows", text,
                             farm->aerators[a].id);
        }
    }
    look.text = text;
    look.troubles = ROUND_SUMP_TROUBLES;
    round_add(work, stop, &look);
    round_add_readings(work, stop, -1, loop);
}

/* ---- nursery and tunnels -------------------------------------------------
 */

/* The planned batch whose sowing is counted: the first of its way that was sown
 * in the week that the job's id ends with. */
static const char *counted_batch(const RoundWork *work, const Job *job)
{
    const Farm *farm = work->farm;
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        char week[DATE_TEXT_SIZE];
        date_format(week_of(row->sow_on), week);
        if (row->way == job->way && strstr(job->id, week)) {
            return row->id;
        }
    }
    return "";
}

/* A job of the eyes: counting what came up, looking whether plants still bear.
 */
static void add_job(RoundWork *work, RoundStop *stop, const Job *job)
{
    RoundItem item = round_item(ROUND_DO, job->id,
                                job->place_count > 0 ? job->places[0].id : "");
    item.job = job;
    item.text = job_text(job, work->arena);
    item.detail = job->note;
    item.caution = job_caution_text(job, work->arena);
    item.warning = job->warning;
    item.places = job->places;
    item.place_count = job->place_count;
    if (job->kind == JOB_COUNT) {
        item.batch = counted_batch(work, job);
        item.value = round_value("count", "seedlings");
        item.value.expected = job->amount > 0.0 ? job->amount : NAN;
    }
    round_add(work, stop, &item);
}

static void add_eye_jobs(RoundWork *work, RoundStop *stop, const char *where)
{
    const JobList *list = &work->ask->week->list;
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        bool is_ours = job->day == work->ask->day &&
                       (job->kind == JOB_COUNT || job->kind == JOB_RENEW) &&
                       strcmp(job->stop, where) == 0;
        if (is_ours) {
            add_job(work, stop, job);
        }
    }
}

static void add_nursery(RoundWork *work)
{
    const Farm *farm = work->farm;
    if (farm->nursery_count == 0) {
        return;
    }
    int32_t tunnel = farm->nursery[0].tunnel;
    RoundStop *stop =
        round_stop(work, "nursery", say(work->arena, "Nursery"),
                   tunnel < 0 ? INT_MAX - 1 : farm->tunnels[tunnel].walk);
    RoundItem look =
        round_item(ROUND_LOOK, "look-nursery", farm->nursery[0].id);
    look.text = say(work->arena, NURSERY_LOOK);
    look.troubles = ROUND_NURSERY_TROUBLES;
    round_add(work, stop, &look);
    for (int32_t i = 0; i < farm->nursery_count; i++) {
        const char *bench = farm->nursery[i].id;
        RoundItem read = round_item(
            ROUND_READ, arena_text(work->arena, "temp_degc-%s", bench), bench);
        read.text =
            arena_say(work->arena, "Warmest since yesterday, %s", bench);
        read.detail =
            say(work->arena,
                "over 25 degC lettuce, celery and viola do not come up: "
                "sow in the evening, in the shade");
        read.value = round_value("temp_degc", "degC");
        read.value.odd_below = NURSERY_COLD_DEGC;
        read.value.odd_above = NURSERY_HOT_DEGC;
        round_add(work, stop, &read);
    }
    add_eye_jobs(work, stop, "nursery");
}

static void add_vent(RoundWork *work, RoundStop *stop, int32_t tunnel)
{
    const Tunnel *row = &work->farm->tunnels[tunnel];
    const Job *job = round_job(work->ask->week, JOB_VENT, NULL, work->ask->day);
    if (!job) {
        return;
    }
    int at = tunnel * JOBS_DAYS + work->weekday;
    double most_degc = work->ask->outlook->tunnel_max_degc[at];
    double least_degc = work->ask->outlook->tunnel_min_degc[at];
    RoundItem item = round_item(
        ROUND_VENT, arena_text(work->arena, "vent-%s", row->id), row->id);
    item.job = job;
    item.text =
        work->ask->vents && work->ask->vents[tunnel]
            ? arena_text(work->arena, "%s: %s", row->id,
                         work->ask->vents[tunnel])
            : arena_say(work->arena, "%s to %.0f degC: %s", row->id, most_degc,
                        say(work->arena, jobs_vent_act(most_degc)));
    item.detail = arena_say(work->arena,
                            "%.0f to %.0f degC foreseen inside; close before "
                            "evening, aim under 85 %% humidity",
                            least_degc, most_degc);
    Told vented = told_blank(TOLD_VENTED, work->ask->day);
    vented.place = row->id;
    round_add_fact(work, &item, &vented);
    round_add(work, stop, &item);
}

/* Beds of a tunnel, or in the open for -1. */
static void add_tunnel(RoundWork *work, int32_t tunnel)
{
    const Farm *farm = work->farm;
    const char *where = tunnel < 0 ? "open" : farm->tunnels[tunnel].id;
    const char *id = arena_text(work->arena, "tunnel-%s", where);
    RoundItem look =
        round_item(ROUND_LOOK, arena_text(work->arena, "look-%s", id),
                   tunnel < 0 ? "" : where);
    int32_t walk = tunnel < 0 ? INT_MAX : farm->tunnels[tunnel].walk;
    for (int32_t b = 0; b < farm->beds_count; b++) {
        const Bed *bed = &farm->beds[b];
        if (bed->tunnel == tunnel && bed->from <= work->ask->day &&
            bed->until >= work->ask->day) {
            add_place(work, &look, bed->id, bed->walk);
            walk = tunnel < 0 && bed->walk < walk ? bed->walk : walk;
        }
    }
    if (look.place_count == 0 && tunnel < 0) {
        return;
    }
    const char *name = tunnel < 0 ? say(work->arena, "Beds in the open")
                       : *farm->tunnels[tunnel].name
                           ? arena_text(work->arena, "%s, %s", where,
                                        farm->tunnels[tunnel].name)
                           : where;
    RoundStop *stop = round_stop(work, id, name, walk);
    if (look.place_count > 0) {
        look.text = say(work->arena, BED_LOOK);
        look.troubles = ROUND_BED_TROUBLES;
        round_add(work, stop, &look);
    }
    if (tunnel >= 0) {
        add_vent(work, stop, tunnel);
    }
    add_eye_jobs(work, stop, where);
}

/* Scouting and other work of the eyes that has no place. */
static void add_others(RoundWork *work)
{
    const JobList *list = &work->ask->week->list;
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        if (job->day == work->ask->day && job->phase == PHASE_ROUND &&
            job->kind == JOB_TASK) {
            RoundStop *stop = round_stop(work, "scouting", job->what, INT_MAX);
            add_job(work, stop, job);
        }
    }
}

void round_add_eyes(RoundWork *work)
{
    const Farm *farm = work->farm;
    for (int32_t l = 0; l < farm->loops_count; l++) {
        add_tanks(work, l);
        add_sump(work, l);
    }
    add_tanks(work, -1);
    add_nursery(work);
    for (int32_t t = 0; t < farm->tunnels_count; t++) {
        add_tunnel(work, t);
    }
    add_tunnel(work, -1);
    add_others(work);
}
