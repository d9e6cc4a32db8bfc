/* Picking: what the orders of each day take from what is ready, oldest first;
 * what ripens day by day is picked whether ordered or not. */
#include "work/jobs_parts.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "farm/keeping.h"

/* Fruit that ripens day by day is picked every second day and on delivery days;
 * common practice of the trade. */
static const bool FLOW_DAYS[JOBS_DAYS] = {true, false, true, false,
                                          true, false, false};

/* Friday: all that the week's orders take is picked by then. Judged. */
enum { STORE_DAY = 4 };

/* Less is not worth the walk. */
static const double LEAST_KG = 0.05;

/* A batch that bears in the week. */
typedef struct Bearing {
    const PlanPlant *row;
    JobYield yield;
    double left; /* mean units not yet picked */
} Bearing;

typedef struct WayPick {
    WayFacts facts;
    Bearing *bearing;
    int32_t count;
    double demand[JOBS_DAYS];
} WayPick;

static Err gather(const Jobs *jobs, int32_t way, WayPick *out)
{
    const Farm *farm = jobs->farm;
    WayPick pick = {
        .bearing = ARENA_ARRAY(jobs->arena, Bearing, farm->plan_plants_count)};
    TRY(jobs_way(jobs, way, &pick.facts));
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        JobYield yield = jobs->outlook->yields[i];
        bool is_due = row->pick_from < jobs->week + JOBS_DAYS &&
                      row->pick_until >= jobs->week;
        if (row->way == way && is_due && yield.mean > 0.0) {
            pick.bearing[pick.count++] = (Bearing){row, yield, yield.mean};
        }
    }
    for (int d = 0; d < JOBS_DAYS; d++) {
        pick.demand[d] = jobs_demand(jobs, way, jobs->week + d);
    }
    *out = pick;
    return ERR_NONE;
}

/* The batch with something left that must be picked first: it ends soonest, and
 * was set first. */
static Bearing *oldest(const WayPick *pick)
{
    Bearing *found = NULL;
    for (int32_t i = 0; i < pick->count; i++) {
        Bearing *at = &pick->bearing[i];
        bool is_older = !found ||
                        at->row->pick_until < found->row->pick_until ||
                        (at->row->pick_until == found->row->pick_until &&
                         at->row->set_on < found->row->set_on);
        if (at->left > 0.0 && is_older) {
            found = at;
        }
    }
    return found;
}

/* A pick as it goes out, or of STORE_DAY into the cold store. */
static void add_pick(Jobs *jobs, const WayPick *pick, Bearing *from, int day,
                     double units, bool is_stored)
{
    const Bed *bed = &jobs->farm->beds[from->row->bed];
    const char *way = pick->facts.way->id;
    Job job = job_of(JOB_PICK, jobs->week + day, jobs->week + day);
    job.id =
        jobs_id(jobs, JOB_PICK,
                is_stored ? arena_text(jobs->arena, "%s-to-store", way) : way,
                jobs_tunnel_id(jobs, from->row->bed), job.earliest);
    job.way = from->row->way;
    job.is_stored = is_stored;
    job.what = arena_say(jobs->arena,
                         is_stored ? "Pick %s into the cold store" : "Pick %s",
                         pick->facts.name);
    job.amount = units;
    job.low = units * from->yield.low / from->yield.mean;
    job.high = units * from->yield.high / from->yield.mean;
    job.unit = pick->facts.way->unit;
    job.minutes = units * pick->facts.book->pick_min_unit.value;
    job.caution = CAUTION_PICK;
    from->left -= units;
    job_add(jobs->list, &job, &(JobPlace){bed->id, bed->walk, units});
}

/* Heads, bunches, pieces; not kilograms. */
static bool is_counted(const WayPick *pick)
{
    return strcmp(pick->facts.way->unit, "kg") != 0;
}

/* What a day's orders take; heads and bunches whole, the rest with the last. */
static void pick_for_orders(Jobs *jobs, const WayPick *pick)
{
    bool is_whole = is_counted(pick);
    double carried = 0.0;
    for (int d = 0; d < JOBS_DAYS; d++) {
        double wanted = pick->demand[d] + carried;
        if (pick->demand[d] <= 0.0) {
            continue;
        }
        if (is_whole) {
            carried = wanted - ceil(wanted - 0.05);
            wanted = ceil(wanted - 0.05);
        }
        Bearing *from = oldest(pick);
        while (wanted > LEAST_KG && from) {
            double there = is_whole ? floor(from->left + 0.05) : from->left;
            double units = fmin(wanted, there);
            wanted -= units;
            if (units > 0.0) {
                add_pick(jobs, pick, from, d, units, false);
            } else {
                from->left = 0.0; /* part of a head is none */
            }
            from = oldest(pick);
        }
    }
}

/* Units of a batch on picking day number i of so many: its share of the week,
 * whole where they are counted, so that the week's sum is whole too. */
static double ripe_units(const WayPick *pick, double week_units, int i,
                         int days)
{
    double until = week_units * (i + 1) / days;
    double before = week_units * i / days;
    return is_counted(pick) ? round(until) - round(before) : until - before;
}

static void pick_as_it_ripens(Jobs *jobs, const WayPick *pick)
{
    int picked[JOBS_DAYS];
    int days = 0;
    for (int d = 0; d < JOBS_DAYS; d++) {
        if (FLOW_DAYS[d] || pick->demand[d] > 0.0) {
            picked[days++] = d;
        }
    }
    for (int i = 0; i < days; i++) {
        for (int32_t b = 0; b < pick->count; b++) {
            Bearing *from = &pick->bearing[b];
            double units = ripe_units(pick, from->yield.mean, i, days);
            if (units > LEAST_KG) {
                add_pick(jobs, pick, from, picked[i], units, false);
            }
        }
    }
}

static double spare_units(const WayPick *pick)
{
    double spare = 0.0;
    for (int32_t i = 0; i < pick->count; i++) {
        spare += fmax(pick->bearing[i].left, 0.0);
    }
    return spare;
}

/* What next week's orders want beyond what next week gives. */
static double next_lack(const Jobs *jobs, int32_t way)
{
    double lack = 0.0;
    for (int d = 0; d < JOBS_DAYS; d++) {
        lack += jobs_demand(jobs, way, jobs->week + JOBS_DAYS + d);
    }
    for (int32_t i = 0; i < jobs->farm->plan_plants_count; i++) {
        if (jobs->farm->plan_plants[i].way == way) {
            lack -= jobs->outlook->next_units[i];
        }
    }
    return lack;
}

/* What keeps and is wanted next week is picked into the cold store at the end
 * of this one, so much more as is lost there. */
static void pick_to_store(Jobs *jobs, const WayPick *pick)
{
    const Farm *farm = jobs->farm;
    const Way *way = pick->facts.way;
    double lasts_frac = keeping_week_frac(keeping_days(jobs->book, way));
    double lack = lasts_frac > 0.0 && farm->stores_count > 0
                      ? next_lack(jobs, (int32_t)(way - farm->ways))
                      : 0.0;
    double units = fmin(spare_units(pick), lack / fmax(lasts_frac, 0.1));
    units = is_counted(pick) ? floor(units + 0.05) : units;
    Bearing *from = oldest(pick);
    while (units > LEAST_KG && from) {
        double part = fmin(units, from->left);
        part = is_counted(pick) ? floor(part + 0.05) : part;
        units -= part;
        if (part > 0.0) {
            add_pick(jobs, pick, from, STORE_DAY, part, true);
        } else {
            from->left = 0.0; /* part of a head is none */
        }
        from = oldest(pick);
    }
}

/* What stands ready without an order is said once, where somebody can offer it.
 */
static void tell_spare(Jobs *jobs, const WayPick *pick)
{
    double spare = spare_units(pick);
    if (spare < 1.0) {
        return;
    }
    Job job = job_of(JOB_TASK, jobs->week, jobs->week);
    job.id = jobs_id(jobs, JOB_TASK, "offer", pick->facts.way->id, jobs->week);
    job.what =
        arena_say(jobs->arena, "Offer %s without an order", pick->facts.name);
    job.amount = spare;
    job.low = spare;
    job.high = spare;
    job.unit = pick->facts.way->unit;
    job.note = say(jobs->arena,
                   "ready this week beyond what is ordered; offer it early, or "
                   "leave it standing where it keeps");
    job_add(jobs->list, &job, NULL);
}

Err jobs_add_picks(Jobs *jobs)
{
    for (int32_t way = 0; way < jobs->farm->ways_count; way++) {
        WayPick pick;
        TRY(gather(jobs, way, &pick));
        if (pick.facts.book->shape == SHAPE_FLOW) {
            pick_as_it_ripens(jobs, &pick);
        } else {
            pick_for_orders(jobs, &pick);
            pick_to_store(jobs, &pick);
            tell_spare(jobs, &pick);
        }
    }
    return ERR_NONE;
}
