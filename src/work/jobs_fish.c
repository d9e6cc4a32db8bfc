/* Work with fish: feed by each day's water, fast, grade, catch and purge, sell,
 * stock, order young fish. */
#include "work/jobs_shoals.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"

/* Handling limits, and the meals of a day by water. Common practice of the
 * trade. */
static const double CATCH_LEAST_DEGC = 17.0;
static const double COLD_DEGC = 15.0; /* no feed below */
static const double COOL_DEGC = 20.0; /* one meal below */
static const double MILD_DEGC = 24.0; /* two meals below */
static const double FRY_G = 50.0;     /* a meal more below */

/* ---- feed ---------------------------------------------------------------- */

int shoals_meals(double temp_degc, double least_g)
{
    if (temp_degc < COLD_DEGC) {
        return 0;
    }
    int meals = temp_degc < COOL_DEGC ? 1 : temp_degc < MILD_DEGC ? 2 : 3;
    return meals + (least_g < FRY_G && meals > 1);
}

/* Told once a week and tank, on the first day that passes the farm's ceiling.
 */
static void add_crowd(const FishWork *work, int32_t tank)
{
    Jobs *jobs = work->jobs;
    const Tank *row = &jobs->farm->tanks[tank];
    double most_kg_m3 = jobs->farm->farm->density_ceiling_kg_m3;
    double last =
        shoals_tank_day(work, tank, JOBS_DAYS - 1).kg / row->volume_m3;
    for (int day = 0; day < JOBS_DAYS; day++) {
        TankDay sum = shoals_tank_day(work, tank, day);
        double kg_m3 = sum.kg / row->volume_m3;
        if (kg_m3 <= most_kg_m3) {
            continue;
        }
        Job job = job_of(JOB_CROWD, jobs->week + day, jobs->week + day);
        job.id = jobs_id(jobs, JOB_CROWD, row->id, "", jobs->week);
        job.what = arena_say(jobs->arena, "Too many fish in %s: %.1f kg/m3",
                             row->id, kg_m3);
        job.brief =
            arena_say(jobs->arena, "ceiling %s; %.1f kg in %s m3, thin out",
                      job_number(most_kg_m3, jobs->arena), sum.kg,
                      job_number(row->volume_m3, jobs->arena));
        job.note = arena_say(
            jobs->arena,
            "%.0f fish, %.1f kg in %s m3; over the farm's ceiling of %s "
            "kg/m3 from this day, %.1f on Sunday; %s",
            sum.count, sum.kg, job_number(row->volume_m3, jobs->arena),
            job_number(most_kg_m3, jobs->arena), last,
            row->use == TANK_BREEDERS
                ? say(jobs->arena,
                      "the plan leaves breeders alone: take some out")
                : say(jobs->arena, "move or sell some"));
        job.caution = CAUTION_CROWD;
        job_add(jobs->list, &job, &(JobPlace){row->id, row->walk, 0.0});
        return;
    }
}

/* Closes the working that shoals_tank_day_told began. */
static void tell_feed(Working *working, double degc, bool is_fed, double feed_g)
{
    working_put(
        working,
        &(WorkingInput){.symbol = "m",
                        .name = SAY("fed at all: 1 in water of 15 degC and "
                                    "more, 0 below"),
                        .value = is_fed ? 1.0 : 0.0,
                        .from = WORKING_GUESS,
                        .unit = ""});
    working_put(working, &(WorkingInput){.name = SAY("water of the day"),
                                         .value = degc,
                                         .unit = "degC",
                                         .from = WORKING_FORESEEN});
    working_is(working, feed_g, "g");
}

static void add_feed(const FishWork *work, int32_t tank, int day)
{
    Jobs *jobs = work->jobs;
    const Tank *row = &jobs->farm->tanks[tank];
    Working *working =
        jobs->week + day == jobs->day
            ? working_begin(jobs->workings, "tank", row->id, "feed_g")
            : NULL;
    TankDay sum = shoals_tank_day_told(work, tank, day, working);
    if (sum.count < 0.5) {
        working_says(working, "feed of the day",
                     "there are no fish here on that day", "feed_g = 0");
        working_is(working, 0.0, "g");
        return;
    }
    double degc = shoals_water_degc(jobs, tank, day);
    int meals = shoals_meals(degc, sum.least_g);
    bool is_fed = sum.feed_g >= 0.5 && meals > 0;
    tell_feed(working, degc, is_fed, is_fed ? sum.feed_g : 0.0);
    JobKind kind = is_fed ? JOB_FEED : JOB_FAST;
    Job job = job_of(kind, jobs->week + day, jobs->week + day);
    job.id = jobs_id(jobs, kind, row->id, "", job.earliest);
    if (is_fed) {
        job.what = say(jobs->arena, "Feed");
        job.amount = sum.feed_g;
        job.low = sum.feed_g;
        job.high = sum.feed_g;
        job.unit = "g";
        job.brief =
            arena_text(jobs->arena, "%d x %.0f", meals, sum.feed_g / meals);
        job.note =
            arena_say(jobs->arena,
                      "%d %s of %.0f g; %.0f fish, %.1f kg, water of %.0f degC",
                      meals, say_n(jobs->arena, meals, "meal", "meals"),
                      sum.feed_g / meals, sum.count, sum.kg, degc);
    } else {
        job.what = say(jobs->arena, "No feed");
        job.note = degc < COLD_DEGC
                       ? arena_say(jobs->arena, "water of %.0f degC", degc)
                       : say(jobs->arena, "nets today or tomorrow");
        job.brief = job.note;
    }
    job_add(jobs->list, &job, &(JobPlace){row->id, row->walk, 0.0});
}

/* ---- nets ---------------------------------------------------------------- */

/* "of 210 to 340 g (lanes 3, 4 of june-fry)": which slices of a batch go. */
static const char *which_fish(const Jobs *jobs, const Shoal *shoal)
{
    if (shoal->lane < 0) {
        return shoal->batch;
    }
    const PlanFish *lane = &jobs->farm->plan_fish[shoal->lane];
    return arena_say(jobs->arena, "%s, quarter %d by weight, about %.0f g",
                     lane->batch, (int)lane->lane, shoal->weight_g[0]);
}

static bool goes_with(const Shoal *at, const Shoal *leaving, bool is_sale)
{
    return is_sale ? at->sale && at->catch_day == leaving->catch_day
                   : at->move && at->move->to_tank == leaving->move->to_tank;
}

/* Weight over which a fish of the batch goes: halfway between the heaviest
 * quarter that stays in the tank and the lightest that leaves; 0 where those
 * that leave are not simply the heavier ones. */
static double cut_g(const FishWork *work, const Shoal *leaving, bool is_sale)
{
    double stays_g = 0.0;
    double goes_g = INFINITY;
    for (int i = 0; i < work->count; i++) {
        const Shoal *at = &work->shoals[i];
        if (at->tank != leaving->tank ||
            strcmp(at->batch, leaving->batch) != 0) {
            continue;
        }
        if (goes_with(at, leaving, is_sale)) {
            goes_g = fmin(goes_g, at->weight_g[0]);
        } else {
            stays_g = fmax(stays_g, at->weight_g[0]);
        }
    }
    return stays_g > 0.0 && stays_g < goes_g ? (stays_g + goes_g) / 2.0 : 0.0;
}

static const char *move_note(const FishWork *work, const Shoal *shoal,
                             bool is_sale, const char *where)
{
    Jobs *jobs = work->jobs;
    double over_g = cut_g(work, shoal, is_sale);
    const char *cut =
        over_g > 0.0
            ? arena_say(jobs->arena, "; take those over %.0f g", over_g)
            : "";
    return arena_say(jobs->arena, "%s: %.0f fish, %.1f kg, %s%s",
                     which_fish(jobs, shoal), shoal->count,
                     shoal->count * shoal->weight_g[0] / 1000.0, where, cut);
}

/* "18.4 kg into B, those over 240 g". */
static const char *move_brief(const FishWork *work, const Shoal *shoal,
                              bool is_sale, const char *where)
{
    Jobs *jobs = work->jobs;
    double over_g = cut_g(work, shoal, is_sale);
    const char *cut =
        over_g > 0.0 ? arena_say(jobs->arena, ", those over %.0f g", over_g)
                     : "";
    return arena_say(jobs->arena, "%.1f kg %s%s",
                     shoal->count * shoal->weight_g[0] / 1000.0, where, cut);
}

static Job net_job(const Jobs *jobs, JobKind kind, const Shoal *shoal,
                   int32_t tank, int day)
{
    const Tank *from = &jobs->farm->tanks[tank];
    Job job = job_of(kind, jobs->week + day, jobs->week + day);
    job.id = jobs_id(jobs, kind, from->id, "", jobs->week + day);
    job.amount = round(shoal->count);
    job.low = job.amount;
    job.high = job.amount;
    job.unit = "fish";
    job.caution = CAUTION_NET;
    return job;
}

/* A job is one netting of a tank: its minutes count once. */
static double netting_minutes(const Jobs *jobs, const char *id,
                              const char *task)
{
    for (int32_t i = 0; i < jobs->list->count; i++) {
        if (strcmp(jobs->list->jobs[i].id, id) == 0) {
            return 0.0;
        }
    }
    return jobs_task_minutes(jobs, task);
}

static void add_grade(const FishWork *work, const Shoal *shoal)
{
    Jobs *jobs = work->jobs;
    const Tank *from = &jobs->farm->tanks[shoal->tank];
    const Tank *to = &jobs->farm->tanks[shoal->move->to_tank];
    int day = shoal->move_day < 0 ? GRADE_FIRST : shoal->move_day;
    Job job = net_job(jobs, JOB_GRADE, shoal, shoal->tank, day);
    job.what = say(jobs->arena, "Grade");
    job.minutes = netting_minutes(jobs, job.id, "grade");
    job.brief = move_brief(work, shoal, false,
                           arena_say(jobs->arena, "into %s", to->id));
    job.note = move_note(work, shoal, false,
                         arena_say(jobs->arena, "into %s", to->id));
    if (shoal->move_day < 0) {
        job.warning =
            arena_say(jobs->arena,
                      "NOT in this water: fish are graded at %.0f to %.0f "
                      "degC only. Wait for it, and plan again.",
                      GRADE_LEAST_DEGC, GRADE_MOST_DEGC);
    }
    job_add(jobs->list, &job, &(JobPlace){from->id, from->walk, job.amount});
}

/* Where fish wait for their sale in clean water: the smallest purge tank that
 * holds them, else an empty tank shut off from its loop; NULL where neither is.
 */
static const Tank *purge_tank(const FishWork *work, double kg, int day)
{
    const Farm *farm = work->jobs->farm;
    const Tank *found = NULL;
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        const Tank *tank = &farm->tanks[k];
        bool holds = tank->volume_m3 * farm->farm->density_ceiling_kg_m3 >= kg;
        bool is_purge = tank->use == TANK_PURGE;
        bool is_empty =
            tank->use == TANK_GROW && shoals_tank_day(work, k, day).count < 0.5;
        bool is_better = !found || (is_purge && found->use != TANK_PURGE) ||
                         (is_purge == (found->use == TANK_PURGE) &&
                          tank->volume_m3 < found->volume_m3);
        if (holds && (is_purge || is_empty) && is_better) {
            found = tank;
        }
    }
    return found;
}

/* Kilos that are caught on one day, from all tanks together. */
static double caught_kg(const FishWork *work, int day)
{
    double kg = 0.0;
    for (int i = 0; i < work->count; i++) {
        const Shoal *shoal = &work->shoals[i];
        if (shoal->sale && shoal->catch_day == day) {
            kg += shoal->count * shoal->weight_g[0] / 1000.0;
        }
    }
    return kg;
}

static const char *purge_text(const Jobs *jobs, const Tank *from,
                              const Tank *purge)
{
    if (!purge) {
        return say(jobs->arena,
                   "kept off feed where they are: no tank is free to purge in");
    }
    if (purge->use == TANK_PURGE) {
        return arena_say(jobs->arena, "into %s, clean water, no feed",
                         purge->id);
    }
    return arena_say(jobs->arena,
                     purge == from ? "all stay in %s, shut off from its loop, "
                                     "clean water, no feed"
                                   : "into %s, shut off from its loop, "
                                     "clean water, no feed",
                     purge->id);
}

static void add_catch(const FishWork *work, const Shoal *shoal)
{
    Jobs *jobs = work->jobs;
    int32_t tank = shoals_caught_from(shoal);
    const Tank *from = &jobs->farm->tanks[tank];
    int day = shoal->catch_day;
    const Tank *purge = purge_tank(work, caught_kg(work, day), day);
    const char *where = purge_text(jobs, from, purge);
    Job job = net_job(jobs, JOB_CATCH, shoal, tank, day);
    job.what =
        say(jobs->arena, purge == from ? "Purge for sale" : "Catch for sale");
    job.minutes = purge == from ? 0.0 : netting_minutes(jobs, job.id, "catch");
    job.brief = move_brief(
        work, shoal, true,
        purge == NULL   ? say(jobs->arena, "kept there, off feed")
        : purge == from ? say(jobs->arena, "all stay, shut off, off feed")
                        : arena_say(jobs->arena, "into %s", purge->id));
    job.note = move_note(work, shoal, true, where);
    if (shoals_water_degc(jobs, tank, day) < CATCH_LEAST_DEGC) {
        job.warning = arena_say(jobs->arena,
                                "Water under %.0f degC: do not net now, tell "
                                "the buyers.",
                                CATCH_LEAST_DEGC);
    }
    job_add(jobs->list, &job, &(JobPlace){from->id, from->walk, job.amount});
}

/* Where fish for sale wait: the farm's purge water, else the tank that they are
 * caught from. */
static const Tank *waits_in(const FishWork *work, const Shoal *shoal)
{
    int day = shoal->catch_day > 0 ? shoal->catch_day : 0;
    const Tank *purge =
        purge_tank(work, caught_kg(work, shoal->catch_day), day);
    int32_t tank = shoals_caught_from(shoal);
    return purge ? purge : tank >= 0 ? &work->jobs->farm->tanks[tank] : NULL;
}

/* Share of a week's sale fish that is wanted on each day: orders first, outlets
 * take what is left. */
static void sale_shares(const FishWork *work, const PlanMove *sale,
                        int sale_day, double out_share[JOBS_DAYS])
{
    const Jobs *jobs = work->jobs;
    double fish = 0.0;
    for (int i = 0; i < work->count; i++) {
        const PlanMove *move = work->shoals[i].sale;
        fish +=
            move && move->on == sale->on ? round(work->shoals[i].count) : 0.0;
    }
    double wanted[2] = {0.0, 0.0};
    for (int d = 0; d < JOBS_DAYS; d++) {
        wanted[0] += jobs_demand_of(jobs, -1, sale->on + d, false);
        wanted[1] += jobs_demand_of(jobs, -1, sale->on + d, true);
    }
    double first = fmin(wanted[0], fish);
    double rest = fmin(wanted[1], fish - first);
    for (int d = 0; d < JOBS_DAYS; d++) {
        double ordered = jobs_demand_of(jobs, -1, sale->on + d, false);
        double outlet = jobs_demand_of(jobs, -1, sale->on + d, true);
        double taken = (wanted[0] > 0.0 ? first * ordered / wanted[0] : 0.0) +
                       (wanted[1] > 0.0 ? rest * outlet / wanted[1] : 0.0);
        out_share[d] = first + rest > 0.0 ? taken / (first + rest)
                                          : (double)(d == sale_day);
    }
}

/* Sold over the week's delivery days as they are wanted. */
static void add_sale(const FishWork *work, const Shoal *shoal)
{
    Jobs *jobs = work->jobs;
    double shares[JOBS_DAYS];
    sale_shares(work, shoal->sale, shoal->sale_day, shares);
    const Tank *tank = waits_in(work, shoal);
    double share = 0.0; /* of the week's sales, to the day's end */
    double sold = 0.0;
    for (int d = 0; d < JOBS_DAYS; d++) {
        share += shares[d];
        double fish = round(round(shoal->count) * share) - sold;
        if (fish <= 0.0) {
            continue;
        }
        sold += fish;
        Job job = job_of(JOB_SALE, jobs->week + d, jobs->week + d);
        job.id = jobs_id(jobs, JOB_SALE, "fish", "", job.earliest);
        job.what = say(jobs->arena, "Take fish out for sale");
        job.amount = fish;
        job.low = job.amount;
        job.high = job.amount;
        job.unit = "fish";
        job.minutes = job.amount * jobs_task_minutes(jobs, "fish-sale");
        job.brief = say(jobs->arena, "weigh, write down");
        job.note =
            say(jobs->arena, "from the purge water; weigh and write down");
        job.caution = CAUTION_SALE;
        job_add(jobs->list, &job,
                tank ? &(JobPlace){tank->id, tank->walk, job.amount} : NULL);
    }
}

/* Fish that no tank has room for and nobody has ordered. */
static void add_given_up(const FishWork *work, const Shoal *shoal)
{
    Jobs *jobs = work->jobs;
    const Tank *from = &jobs->farm->tanks[shoal->tank];
    Job job = net_job(jobs, JOB_CATCH, shoal, shoal->tank, STOCK_DAY);
    job.id = jobs_id(jobs, JOB_CATCH, "no-room", shoal->batch, jobs->week);
    job.what = say(jobs->arena, "Thin out");
    job.brief =
        say(jobs->arena, "no buyer, or no room for them; never released");
    job.minutes = netting_minutes(jobs, job.id, "catch");
    job.note = arena_say(jobs->arena,
                         "about %.0f g each; another farm that may keep them, "
                         "or a humane end; never released",
                         shoal->given_up->mean_g);
    job.caution = CAUTION_SALE;
    job_add(jobs->list, &job, &(JobPlace){from->id, from->walk, job.amount});
}

static void add_stock(const FishWork *work, const Shoal *shoal)
{
    Jobs *jobs = work->jobs;
    const Tank *to = &jobs->farm->tanks[shoal->move->to_tank];
    Job job = job_of(JOB_STOCK, jobs->week + STOCK_DAY, jobs->week + STOCK_DAY);
    job.id = jobs_id(jobs, JOB_STOCK, shoal->batch, to->id, jobs->week);
    job.what = arena_say(jobs->arena, "Stock %s", shoal->batch);
    job.amount = shoal->move->count;
    job.low = job.amount;
    job.high = job.amount;
    job.unit = "fish";
    job.brief =
        say(jobs->arena,
            "papers; float the bags to the tank's warmth; no feed today");
    job.note =
        say(jobs->arena,
            "papers checked; float the bags until the water is as warm as "
            "the tank's; count, weigh a sample, no feed today");
    job.caution = CAUTION_NET;
    job_add(jobs->list, &job, &(JobPlace){to->id, to->walk, job.amount});
}

static void add_events(const FishWork *work, const Shoal *shoal)
{
    if (shoal->count < 0.5) {
        return;
    }
    if (shoal->move && shoal->move->kind == MOVE_STOCK) {
        add_stock(work, shoal);
    } else if (shoal->move && shoal->tank >= 0) {
        add_grade(work, shoal);
    }
    if (shoal->given_up && shoal->tank >= 0) {
        add_given_up(work, shoal);
    }
    if (shoal->sale && shoal->catch_day >= 0 &&
        shoals_caught_from(shoal) >= 0) {
        add_catch(work, shoal);
    }
    if (shoal->sale && shoal->sale_day < JOBS_DAYS) {
        add_sale(work, shoal);
    }
}

/* Young fish are ordered their lead time before they come. */
static void add_orders(Jobs *jobs)
{
    const Farm *farm = jobs->farm;
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        const PlanFish *lane = &farm->plan_fish[move->fish];
        if (move->kind != MOVE_STOCK || lane->source < 0) {
            continue;
        }
        const FishSource *source = &farm->fish_sources[lane->source];
        int32_t due = move->on - JOBS_DAYS * source->lead_weeks;
        if (source->kind != FISH_BOUGHT || week_of(due) != jobs->week) {
            continue;
        }
        char week[DATE_TEXT_SIZE];
        week_format(move->on, week);
        Job job = job_of(JOB_ORDER, jobs->week, jobs->week + 4);
        job.id = jobs_id(jobs, JOB_ORDER, lane->batch, "", jobs->week);
        job.what =
            arena_say(jobs->arena, "Order young fish from %s", source->id);
        job.amount = move->count;
        job.low = job.amount;
        job.high = job.amount;
        job.unit = "fish";
        job.brief = arena_say(jobs->arena, "to arrive %s", week);
        job.note = arena_say(jobs->arena,
                             "to arrive in %s, of about %.0f g; ask for the "
                             "papers your authority wants",
                             week, source->mean_g);
        job_add(jobs->list, &job, NULL);
    }
}

Err jobs_add_fish(Jobs *jobs)
{
    FishWork work = {.jobs = jobs};
    TRY(shoals_find(&work));
    for (int32_t k = 0; k < jobs->farm->tanks_count; k++) {
        for (int day = 0; day < JOBS_DAYS; day++) {
            add_feed(&work, k, day);
        }
        add_crowd(&work, k);
    }
    for (int i = 0; i < work.count; i++) {
        add_events(&work, &work.shoals[i]);
    }
    add_orders(jobs);
    return ERR_NONE;
}
