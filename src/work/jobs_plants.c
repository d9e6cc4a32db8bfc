/* Work with plants: sow, count what came up, set out, string, prune, look over
 * what grows old, clear; deep cleans in their rotation. */
#include "work/jobs_parts.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "farm/seedlings.h"
#include "nature/plant/seeds.h"

/* Days of the week, Monday 0, on which each work begins to be looked for room;
 * it may wait until the last. Common practice of the trade: beds are cleared
 * before they are set, and nobody sows on a delivery peak. */
enum {
    SOW_FIRST = 1,
    CLEAR_FIRST = 0,
    CLEAR_LAST_PICKED = 4, /* where picking goes on until the week's end */
    SET_FIRST = 2,
    STRING_FIRST = 0,
    PRUNE_SECOND = 3,
    CLEAN_FIRST = 1,
    DAY_LAST = 5, /* Saturday */
};

/* A planned batch with its way. */
typedef struct PlantWork {
    const PlanPlant *row;
    int32_t index;
    WayFacts facts;
    JobPlace place;
    double area_m2; /* floor: of its sections */
    bool is_sown_in_place;
} PlantWork;

static const char *week_text(const Jobs *jobs, int32_t day)
{
    char text[DATE_TEXT_SIZE];
    week_format(day, text);
    return arena_copy_text(jobs->arena, text);
}

static Err work_of(const Jobs *jobs, int32_t index, PlantWork *out)
{
    const PlanPlant *row = &jobs->farm->plan_plants[index];
    const Bed *bed = &jobs->farm->beds[row->bed];
    PlantWork work = {
        .row = row, .index = index, .place = {bed->id, bed->walk, row->plants}};
    TRY(jobs_way(jobs, row->way, &work.facts));
    work.area_m2 = bed->length_m * bed->width_m * row->sections / bed->sections;
    work.is_sown_in_place =
        work.facts.book->start == START_SOWN || work.facts.way->tray < 0;
    *out = work;
    return ERR_NONE;
}

/* One job for all batches of a way in a tunnel that are due together. */
static Job plant_job(const Jobs *jobs, const PlantWork *work, JobKind kind,
                     int32_t earliest, int32_t latest)
{
    Job job = job_of(kind, earliest, latest);
    job.id = jobs_id(jobs, kind, work->facts.way->id,
                     jobs_tunnel_id(jobs, work->row->bed), earliest);
    job.way = work->row->way;
    job.amount = work->row->plants;
    job.low = job.amount;
    job.high = job.amount;
    job.unit = "plant";
    return job;
}

/* ---- sowing ----------------------------------------------------------------
 */

/* Share of seeds that come up at that warmth, the farm's own where it has one.
 */
static double germination_frac(const WayFacts *facts, double temp_degc)
{
    if (facts->crop->germination_frac > 0.0) {
        return facts->crop->germination_frac;
    }
    double tried = emergence_germination_frac(facts->emergence, temp_degc);
    double usual = facts->book_crop->germination_frac.value;
    return isnan(tried) || tried > usual ? usual : tried;
}

static double emergence_d(const WayFacts *facts, double temp_degc)
{
    double days = emergence_table_d(facts->emergence, temp_degc);
    if (isnan(days)) {
        EmergenceLine line = book_emergence_line(facts->book_crop);
        days = emergence_line_d(&line, temp_degc);
    }
    return days;
}

typedef struct Sowing {
    int32_t plants;
    int32_t places; /* cells, or single seeds in the bed */
    int32_t seeds;
    int32_t trays;         /* 0: sown in place */
    double trays_full;     /* the same with its part of the last one */
    int32_t come_up_least; /* places that must come up for the plants wanted */
    double came_up_frac;   /* of places, to be expected */
} Sowing;

/* Exact: the fewest seeds that give the plants with the farm's confidence. */
static Sowing sowing_of(const Jobs *jobs, const PlantWork *work, int32_t plants,
                        double temp_degc)
{
    const BookCommon *common = &jobs->book->common[0];
    double seed_frac = germination_frac(&work->facts, temp_degc);
    double least_frac = common->germination_least_frac.value;
    seed_frac = fmax(seed_frac, fmax(least_frac, 0.01));
    double seeds_cell = work->facts.book->seeds_cell.value;
    int32_t each =
        isnan(seeds_cell) || seeds_cell < 1.0 ? 1 : (int32_t)lround(seeds_cell);
    double live_frac = (1.0 - common->seedling_loss_frac.value);
    if (!work->is_sown_in_place) {
        live_frac *= 1.0 - common->transplant_loss_frac.value;
    }
    Sowing sowing = {.plants = plants};
    sowing.came_up_frac = 1.0 - pow(1.0 - seed_frac, each);
    sowing.places = seeds_to_sow(plants, sowing.came_up_frac * live_frac,
                                 jobs->farm->farm->sow_confidence_frac);
    sowing.seeds = sowing.places * each;
    sowing.come_up_least = (int32_t)ceil(plants / live_frac);
    if (!work->is_sown_in_place) {
        const Tray *tray = &jobs->farm->trays[work->facts.way->tray];
        sowing.trays = seeds_trays(sowing.seeds, tray->cells, each);
        sowing.trays_full = (double)sowing.places / tray->cells;
    }
    return sowing;
}

/* Plants of all batches of that way sown in the week of a day, in one tunnel
 * where they are sown in place. */
static int32_t plants_sown(const Jobs *jobs, const PlantWork *work)
{
    int32_t plants = 0;
    int32_t sow_week = week_of(work->row->sow_on);
    for (int32_t i = 0; i < jobs->farm->plan_plants_count; i++) {
        const PlanPlant *row = &jobs->farm->plan_plants[i];
        bool is_with = row->way == work->row->way && row->standing < 0 &&
                       week_of(row->sow_on) == sow_week;
        bool is_near = jobs->farm->beds[row->bed].tunnel ==
                       jobs->farm->beds[work->row->bed].tunnel;
        if (is_with && (is_near || !work->is_sown_in_place)) {
            plants += row->plants;
        }
    }
    return plants;
}

/* Whether no earlier row of the plan belongs to the same sowing. */
static bool leads_sowing(const Jobs *jobs, const PlantWork *work)
{
    for (int32_t i = 0; i < work->index; i++) {
        const PlanPlant *row = &jobs->farm->plan_plants[i];
        bool is_with = row->way == work->row->way && row->standing < 0 &&
                       week_of(row->sow_on) == week_of(work->row->sow_on);
        bool is_near = jobs->farm->beds[row->bed].tunnel ==
                       jobs->farm->beds[work->row->bed].tunnel;
        if (is_with && (is_near || !work->is_sown_in_place)) {
            return false;
        }
    }
    return true;
}

/* "set out in 2027-W14, picked 2027-W20 to 2027-W22". */
static const char *for_weeks(const Jobs *jobs, const PlantWork *work)
{
    const PlanPlant *row = work->row;
    const char *set = work->is_sown_in_place
                          ? ""
                          : arena_say(jobs->arena, "set out in %s, ",
                                      week_text(jobs, row->set_on));
    return arena_say(jobs->arena, "%spicked %s to %s", set,
                     week_text(jobs, row->pick_from),
                     week_text(jobs, row->pick_until));
}

static const char *sow_note(const Jobs *jobs, const PlantWork *work,
                            const Sowing *sowing, double temp_degc)
{
    const char *how = say(jobs->arena, "in place");
    if (sowing->trays > 0) {
        const Tray *tray = &jobs->farm->trays[work->facts.way->tray];
        how = arena_say(jobs->arena, "in %d %s of %d cells", (int)sowing->trays,
                        say_n(jobs->arena, sowing->trays, "tray", "trays"),
                        (int)tray->cells);
    }
    const char *warm =
        temp_degc > work->facts.book_crop->germ_most_degc.value
            ? say(jobs->arena, "; too warm for this seed by day: sow in the "
                               "evening, keep cool")
            : "";
    return arena_say(
        jobs->arena,
        "%s for %d %s, enough in %.0f of 100 such sowings at %.0f degC; "
        "%s%s",
        how, (int)sowing->plants,
        say_n(jobs->arena, sowing->plants, "plant", "plants"),
        100.0 * jobs->farm->farm->sow_confidence_frac, temp_degc,
        for_weeks(jobs, work), warm);
}

/* "W19", for lines where the year is known. */
static const char *week_short(const Jobs *jobs, int32_t day)
{
    return strchr(week_text(jobs, day), 'W');
}

/* "1 tray of 72 for 9 plants, set W19"; "for 216 plants, first pick W18". */
static const char *sow_brief(const Jobs *jobs, const PlantWork *work,
                             const Sowing *sowing)
{
    if (sowing->trays < 1) {
        return arena_say(jobs->arena, "for %d %s, first pick %s",
                         (int)sowing->plants,
                         say_n(jobs->arena, sowing->plants, "plant", "plants"),
                         week_short(jobs, work->row->pick_from));
    }
    const Tray *tray = &jobs->farm->trays[work->facts.way->tray];
    return arena_say(jobs->arena, "%d %s of %d for %d %s, set %s",
                     (int)sowing->trays,
                     say_n(jobs->arena, sowing->trays, "tray", "trays"),
                     (int)tray->cells, (int)sowing->plants,
                     say_n(jobs->arena, sowing->plants, "plant", "plants"),
                     week_short(jobs, work->row->set_on));
}

static void add_sow(Jobs *jobs, const PlantWork *work)
{
    double temp_degc = jobs->outlook->sow_degc[work->index];
    if (leads_sowing(jobs, work)) {
        Sowing sowing =
            sowing_of(jobs, work, plants_sown(jobs, work), temp_degc);
        Job job =
            job_of(JOB_SOW, jobs->week + SOW_FIRST, jobs->week + DAY_LAST);
        job.id = jobs_id(
            jobs, JOB_SOW, work->facts.way->id,
            work->is_sown_in_place ? jobs_tunnel_id(jobs, work->row->bed) : "",
            jobs->week);
        job.way = work->row->way;
        job.what = arena_say(jobs->arena, "Sow %s", work->facts.name);
        job.amount = sowing.seeds;
        job.low = job.amount;
        job.high = job.amount;
        job.unit = "seed";
        job.brief = sow_brief(jobs, work, &sowing);
        job.note = sow_note(jobs, work, &sowing, temp_degc);
        double tray_min = work->facts.book->sow_min_tray.value;
        job.minutes = isnan(tray_min) ? 0.0 : tray_min * sowing.trays_full;
        job_add(jobs->list, &job, NULL);
    }
    if (work->is_sown_in_place) {
        double m2_min = work->facts.book->sow_min_m2.value;
        Job more =
            job_of(JOB_SOW, jobs->week + SOW_FIRST, jobs->week + DAY_LAST);
        more.id = jobs_id(jobs, JOB_SOW, work->facts.way->id,
                          jobs_tunnel_id(jobs, work->row->bed), jobs->week);
        more.way = work->row->way;
        more.what = say(jobs->arena, "Sow");
        more.minutes = isnan(m2_min) ? 0.0 : m2_min * work->area_m2;
        JobPlace place = work->place;
        place.amount = 0.0;
        job_add(jobs->list, &more, &place);
    }
}

/* The day on which half of what will come up is up, by that warmth; the sowing
 * is taken to have been on the first day that it might. */
static void add_count(Jobs *jobs, const PlantWork *work)
{
    double temp_degc = jobs->outlook->sow_degc[work->index];
    double days = emergence_d(&work->facts, temp_degc);
    int32_t sown_on = week_of(work->row->sow_on) + SOW_FIRST;
    int32_t due = isfinite(days) ? sown_on + (int32_t)ceil(days) : DATE_NEVER;
    if (!jobs_has_day(jobs, due)) {
        return;
    }
    JobPlace bed = {work->place.id, work->place.walk, 0.0};
    const JobPlace *place = work->is_sown_in_place ? &bed : NULL;
    Sowing sowing = sowing_of(jobs, work, plants_sown(jobs, work), temp_degc);
    Job job = job_of(JOB_COUNT, due, due);
    job.way = work->row->way;
    job.id = jobs_id(
        jobs, JOB_COUNT, work->facts.way->id,
        work->is_sown_in_place ? jobs_tunnel_id(jobs, work->row->bed) : "",
        week_of(work->row->sow_on));
    job.what =
        arena_say(jobs->arena, "Count what came up of %s", work->facts.name);
    if (!leads_sowing(jobs, work)) {
        if (place) {
            job_add(jobs->list, &job, place);
        }
        return;
    }
    job.amount = round(sowing.places * sowing.came_up_frac);
    job.low = sowing.come_up_least;
    job.high = fmax(job.amount, job.low);
    job.low = fmin(job.low, job.amount);
    job.unit = sowing.trays > 0 ? "cell" : "seedling";
    job.brief = arena_say(jobs->arena, "under %d: sow again",
                          (int)sowing.come_up_least);
    job.note = arena_say(jobs->arena,
                         "day %d after sowing at %.0f degC; fewer than %d of "
                         "%d: sow the rest again today",
                         (int)(due - sown_on), temp_degc,
                         (int)sowing.come_up_least, (int)sowing.places);
    job.minutes = jobs_task_minutes(jobs, "count") *
                  (sowing.trays > 0 ? sowing.trays_full : 1.0);
    job_add(jobs->list, &job, place);
}

/* ---- setting out, care -----------------------------------------------------
 */

/* "from the trays lettuce-1 sown in 2027-W05; ", for seedlings that stand in
 * the nursery; else "". */
static const char *from_trays(const Jobs *jobs, const PlantWork *work)
{
    if (!seedlings_feed(jobs->farm, work->row)) {
        return "";
    }
    const Plant *trays = &jobs->farm->plants[work->row->standing];
    return arena_say(jobs->arena, "from the trays %s sown in %s; ", trays->id,
                     week_text(jobs, trays->sown_on));
}

/* "trays of 1 Feb, 22 a m2": a sowing is told by its day. */
static const char *set_brief(const Jobs *jobs, const PlantWork *work,
                             const char *density)
{
    if (!seedlings_feed(jobs->farm, work->row)) {
        return density;
    }
    int32_t sown_on = jobs->farm->plants[work->row->standing].sown_on;
    return arena_say(
        jobs->arena, "trays of %d %s, %s", (int)date_to_civil(sown_on).day,
        say(jobs->arena, date_month_name(date_month(sown_on))), density);
}

static void add_set(Jobs *jobs, const PlantWork *work)
{
    const WayFacts *facts = &work->facts;
    Job job = plant_job(jobs, work, JOB_SET, jobs->week + SET_FIRST,
                        jobs->week + DAY_LAST);
    if (seedlings_feed(jobs->farm, work->row)) {
        /* Each sowing is fetched from its own trays. */
        job.id =
            jobs_id(jobs, JOB_SET, jobs->farm->plants[work->row->standing].id,
                    jobs_tunnel_id(jobs, work->row->bed), job.earliest);
    }
    job.what = arena_say(jobs->arena, "Set out %s", facts->name);
    double minutes = facts->book->set_min_plant.value;
    job.minutes = isnan(minutes) ? 0.0 : minutes * work->row->plants;
    bool is_edge = work->row->place == PLACE_EDGE;
    double density =
        is_edge ? facts->book->plants_m.value : facts->book->plants_m2.value;
    job.brief = set_brief(jobs, work,
                          arena_say(jobs->arena, "%s a %s",
                                    job_number(density, jobs->arena),
                                    is_edge ? "m" : "m2"));
    job.note =
        arena_say(jobs->arena, "%s%s plants a %s; first pick about %s",
                  from_trays(jobs, work), job_number(density, jobs->arena),
                  say(jobs->arena, is_edge ? "metre of edge" : "m2"),
                  week_text(jobs, work->row->pick_from));
    job_add(jobs->list, &job, &work->place);
}

static void add_string(Jobs *jobs, const PlantWork *work)
{
    Job job = plant_job(jobs, work, JOB_STRING, jobs->week + STRING_FIRST,
                        jobs->week + DAY_LAST);
    job.what = arena_say(jobs->arena, "String %s", work->facts.name);
    job.note = say(jobs->arena, "one string a plant, before it leans");
    job.minutes =
        work->facts.book->prune_min_plant_week.value * work->row->plants;
    job_add(jobs->list, &job, &work->place);
}

/* Common practice of the trade for each sort of plant. */
static const char *prune_note(const WayFacts *facts, const Arena *arena)
{
    if (facts->book_crop->feed_class == FEED_FRUITING) {
        return say(arena, "to their shoots, tie in, take off old leaves; not "
                          "while leaves are wet");
    }
    if (!isnan(facts->book_crop->piece_g.value)) {
        return say(arena, "take off spent flowers and old leaves");
    }
    return say(arena, facts->book->shape == SHAPE_ONCE
                          ? "fold leaves over the heads, take off old ones"
                          : "pinch out the tips before they flower, above a "
                            "pair of leaves");
}

/* Climbers twice a week, all others once. */
static void add_prune(Jobs *jobs, const PlantWork *work)
{
    bool is_edge = work->row->place == PLACE_EDGE;
    int times = is_edge ? 2 : 1;
    for (int i = 0; i < times; i++) {
        int32_t first = jobs->week + i * PRUNE_SECOND;
        int32_t last = is_edge ? first + 2 : jobs->week + DAY_LAST;
        Job job = plant_job(jobs, work, JOB_PRUNE, first, last);
        job.what = arena_say(jobs->arena, "Prune %s", work->facts.name);
        job.note = prune_note(&work->facts, jobs->arena);
        job.minutes = work->facts.book->prune_min_plant_week.value *
                      work->row->plants / times;
        job_add(jobs->list, &job, &work->place);
    }
}

/* The planned batch of the same crop and place that takes over: set between
 * this one's first pick and four weeks after its clearing. */
static const PlanPlant *successor(const Jobs *jobs, const PlantWork *work)
{
    const PlanPlant *found = NULL;
    for (int32_t i = 0; i < jobs->farm->plan_plants_count; i++) {
        const PlanPlant *row = &jobs->farm->plan_plants[i];
        bool is_same = jobs->farm->ways[row->way].crop ==
                           jobs->farm->ways[work->row->way].crop &&
                       row->place == work->row->place && row != work->row;
        if (is_same && row->set_on > work->row->pick_from &&
            row->set_on <= work->row->clear_on + 4 * JOBS_DAYS &&
            (!found || row->set_on < found->set_on)) {
            found = row;
        }
    }
    return found;
}

/* Plants that bear for long are looked over four weeks before their end. */
static void add_renew(Jobs *jobs, const PlantWork *work)
{
    Job job =
        plant_job(jobs, work, JOB_RENEW, jobs->week, jobs->week + DAY_LAST);
    job.what = arena_say(jobs->arena, "Look over old %s", work->facts.name);
    const PlanPlant *next = successor(jobs, work);
    const char *until = week_text(jobs, work->row->pick_until);
    job.brief =
        arena_say(jobs->arena, "planned to bear until %s", strchr(until, 'W'));
    job.note =
        next ? arena_say(jobs->arena,
                         "planned to bear until %s; new plants are set out in "
                         "%s: bring that forward if these fail",
                         until, week_text(jobs, next->set_on))
             : arena_say(jobs->arena,
                         "planned to bear until %s; no new plants are planned "
                         "after them",
                         until);
    job_add(jobs->list, &job, &work->place);
}

static void add_care(Jobs *jobs, const PlantWork *work)
{
    const PlanPlant *row = work->row;
    int32_t set_week = week_of(row->set_on);
    double prune = work->facts.book->prune_min_plant_week.value;
    bool is_edge = row->place == PLACE_EDGE;
    bool stands =
        set_week + JOBS_DAYS < jobs->week && row->clear_on > jobs->week;
    if (is_edge && prune > 0.0 && set_week + JOBS_DAYS == jobs->week) {
        add_string(jobs, work);
    } else if (stands && prune > 0.0) {
        add_prune(jobs, work);
    }
    int32_t look_on = week_of(row->pick_until) - 4 * JOBS_DAYS;
    if (work->facts.book->shape == SHAPE_FLOW && is_edge &&
        look_on == jobs->week && row->pick_from < jobs->week) {
        add_renew(jobs, work);
    }
}

/* Clearing lies between the last pick and the day the place is free. */
static void add_clear(Jobs *jobs, const PlantWork *work)
{
    if (week_of(work->row->clear_on - 1) != jobs->week) {
        return;
    }
    bool is_picked = work->row->pick_until >= jobs->week;
    int32_t first = jobs->week + (is_picked ? CLEAR_LAST_PICKED : CLEAR_FIRST);
    Job job = plant_job(jobs, work, JOB_CLEAR, first, jobs->week + DAY_LAST);
    job.what = arena_say(jobs->arena, "Clear %s", work->facts.name);
    double area_m2 =
        work->row->place == PLACE_EDGE
            ? work->row->plants * work->facts.book->area_m2_plant.value
            : work->area_m2;
    job.minutes = work->facts.book->clear_min_m2.value * area_m2;
    job.note =
        say(jobs->arena,
            "roots out, gravel raked; see that the bed floods and drains");
    job_add(jobs->list, &job, &work->place);
}

Err jobs_add_plants(Jobs *jobs)
{
    for (int32_t i = 0; i < jobs->farm->plan_plants_count; i++) {
        PlantWork work;
        TRY(work_of(jobs, i, &work));
        bool is_new = work.row->standing < 0;
        if (is_new && week_of(work.row->sow_on) == jobs->week) {
            add_sow(jobs, &work);
        }
        if (is_new && work.row->sow_on < jobs->week + JOBS_DAYS) {
            add_count(jobs, &work);
        }
        bool is_coming = is_new || seedlings_feed(jobs->farm, work.row);
        if (is_coming && !work.is_sown_in_place &&
            week_of(work.row->set_on) == jobs->week) {
            add_set(jobs, &work);
        }
        add_care(jobs, &work);
        add_clear(jobs, &work);
    }
    return ERR_NONE;
}

/* A deep clean is cut into parts that fit into a half day beside other work. */
void jobs_add_cleans(Jobs *jobs)
{
    const double part_minutes = 150.0; /* common practice: half a day */
    double minutes = jobs_task_minutes(jobs, "deep-clean");
    int parts = (int)ceil(minutes / part_minutes);
    for (int32_t i = 0; i < jobs->farm->plan_cleans_count; i++) {
        const PlanClean *clean = &jobs->farm->plan_cleans[i];
        if (week_of(clean->on) != jobs->week) {
            continue;
        }
        const Bed *bed = &jobs->farm->beds[clean->bed];
        JobPlace place = {bed->id, bed->walk, 0.0};
        for (int part = 0; part < parts; part++) {
            Job job = job_of(JOB_CLEAN, jobs->week + CLEAN_FIRST,
                             jobs->week + DAY_LAST);
            job.id =
                jobs_id(jobs, JOB_CLEAN, bed->id,
                        arena_text(jobs->arena, "%d", part + 1), jobs->week);
            job.what = arena_say(jobs->arena, "Deep clean, part %d of %d",
                                 part + 1, parts);
            job.minutes = minutes / parts;
            job.note = say(jobs->arena,
                           "rake, flush, rinse; its water not to the tanks");
            job.caution = CAUTION_CLEAN;
            job_add(jobs->list, &job, &place);
        }
    }
}
