/* What each tank is fed today: by the water as it was read, for the fish that
 * live, and nothing where the water is out of line until somebody has looked.
 */
#include "work/round_parts.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"

/* A number told outside these shares of what was reckoned is asked about once;
 * judged. */
static const double ODD_LOW_FRAC = 0.7;
static const double ODD_HIGH_FRAC = 1.3;

static const double HALF_FRAC = 0.5; /* where a finding asks for half */

/* Less than this is weighed, not scooped; judged. */
static const double LEAST_SCOOPS = 0.3;

/* ---- the water as it was read --------------------------------------------
 */

/* The last temperature told today; *out_number is its entry's. */
static double told_degc(const RoundWork *work, const char *tank,
                        int64_t *out_number)
{
    double degc = NAN;
    for (int32_t i = 0; i < work->ask->fact_count; i++) {
        const Told *fact = &work->ask->facts[i];
        if (round_is_today(work, fact) && fact->kind == TOLD_READ &&
            strcmp(fact->place, tank) == 0 &&
            strcmp(fact->quantity_key, "temp_degc") == 0) {
            degc = fact->value;
            *out_number = fact->number;
        }
    }
    return degc;
}

static bool is_seen_since(const RoundWork *work, const char *tank,
                          int64_t number)
{
    for (int32_t i = 0; i < work->ask->fact_count; i++) {
        const Told *fact = &work->ask->facts[i];
        if (round_is_today(work, fact) && fact->kind == TOLD_SEEN &&
            strcmp(fact->place, tank) == 0 && fact->number > number) {
            return true;
        }
    }
    return false;
}

static double foreseen_degc(const RoundWork *work, int32_t tank)
{
    return work->ask->outlook->tank_degc[tank * JOBS_DAYS + work->weekday];
}

/* How far the other tanks are from what was foreseen, on the mean: those of the
 * loop, or of all loops where none of it was read; 0 where none was. */
static double others_off_k(const RoundWork *work, int32_t tank)
{
    const Farm *farm = work->farm;
    for (int is_all = 0; is_all < 2; is_all++) {
        double sum = 0.0;
        int count = 0;
        for (int32_t k = 0; k < farm->tanks_count; k++) {
            bool is_mate = farm->tanks[k].loop == farm->tanks[tank].loop;
            if (k != tank && !isnan(work->told_degc[k]) &&
                (is_mate || is_all)) {
                sum += work->told_degc[k] - foreseen_degc(work, k);
                count++;
            }
        }
        if (count > 0) {
            return sum / count;
        }
    }
    return 0.0;
}

double round_off_k(const RoundWork *work, int32_t tank)
{
    return work->told_degc[tank] - foreseen_degc(work, tank) -
           others_off_k(work, tank);
}

/* Out of line: by more than tanks of one loop may differ, both from what was
 * foreseen and from how the others are off it. A loop that is cold as a whole
 * is fed by its temperature; one tank that is cold alone has a fault. */
static bool is_out_of_line(const RoundWork *work, int32_t tank)
{
    double most_k = book_limit(work->ask->book, "temp-apart")->limit.value;
    double off_k = work->told_degc[tank] - foreseen_degc(work, tank);
    return fabs(off_k) > most_k && fabs(round_off_k(work, tank)) > most_k;
}

/* The jobs' own shoals, in this week's water. */
static Err find_shoals(RoundWork *work, const JobOutlook *outlook,
                       FishWork *out)
{
    Jobs *jobs = ARENA_NEW(work->arena, Jobs);
    *jobs = (Jobs){.farm = work->farm,
                   .book = work->ask->book,
                   .outlook = outlook,
                   .week = work->ask->week->week,
                   .arena = work->arena,
                   .list = ARENA_NEW(work->arena, JobList),
                   .demand = ARENA_NEW(work->arena, JobsDemand)};
    jobs->list->arena = work->arena;
    *out = (FishWork){.jobs = jobs};
    return shoals_find(out);
}

Err round_find_water(RoundWork *work)
{
    int32_t tanks = work->farm->tanks_count;
    work->told_degc = ARENA_ARRAY(work->arena, double, tanks);
    work->is_out = ARENA_ARRAY(work->arena, bool, tanks);
    work->is_seen = ARENA_ARRAY(work->arena, bool, tanks);
    double *water = ARENA_ARRAY(work->arena, double, tanks *JOBS_DAYS);
    int64_t *numbers = ARENA_ARRAY(work->arena, int64_t, tanks);
    for (int32_t k = 0; k < tanks; k++) {
        for (int d = 0; d < JOBS_DAYS; d++) {
            water[k * JOBS_DAYS + d] =
                work->ask->outlook->tank_degc[k * JOBS_DAYS + d];
        }
        work->told_degc[k] =
            told_degc(work, work->farm->tanks[k].id, &numbers[k]);
        if (!isnan(work->told_degc[k])) {
            water[k * JOBS_DAYS + work->weekday] = work->told_degc[k];
        }
    }
    for (int32_t k = 0; k < tanks; k++) {
        work->is_out[k] = !isnan(work->told_degc[k]) && is_out_of_line(work, k);
        work->is_seen[k] =
            is_seen_since(work, work->farm->tanks[k].id, numbers[k]);
    }
    JobOutlook *told = ARENA_NEW(work->arena, JobOutlook);
    *told = *work->ask->outlook;
    told->tank_degc = water;
    TRY(find_shoals(work, work->ask->outlook, &work->usual));
    return find_shoals(work, told, &work->told);
}

/* ---- feed ----------------------------------------------------------------
 */

static double dead_today(const RoundWork *work, const char *tank)
{
    double dead = 0.0;
    for (int32_t i = 0; i < work->ask->fact_count; i++) {
        const Told *fact = &work->ask->facts[i];
        if (round_is_today(work, fact) && fact->kind == TOLD_DIED &&
            strcmp(fact->place, tank) == 0) {
            dead += fact->count < 0 ? 1.0 : (double)fact->count;
        }
    }
    return dead;
}

/* The same tank without those that were found dead today. */
static TankDay alive(const RoundWork *work, const FishWork *fish, int32_t tank)
{
    TankDay day = shoals_tank_day(fish, tank, work->weekday);
    double dead = dead_today(work, work->farm->tanks[tank].id);
    double share = day.count > dead ? 1.0 - dead / day.count : 0.0;
    day.count *= share;
    day.kg *= share;
    day.feed_g *= share;
    return day;
}

/* What was given yesterday, told; else as the plan had it. */
static void find_yesterday(const RoundWork *work, const char *tank,
                           RoundValue *value)
{
    int32_t day = work->ask->day - 1;
    double told = NAN;
    for (int32_t i = 0; i < work->ask->fact_count; i++) {
        const Told *fact = &work->ask->facts[i];
        if (fact->happened_on == day && fact->kind == TOLD_FED &&
            strcmp(fact->place, tank) == 0 && !isnan(fact->grams)) {
            told = (isnan(told) ? 0.0 : told) + fact->grams;
        }
    }
    value->yesterday_on = day;
    value->is_yesterday_told = !isnan(told);
    value->yesterday = told;
    if (isnan(told)) {
        const Job *fed = round_job(work->ask->before, JOB_FEED, tank, day);
        const Job *none = round_job(work->ask->before, JOB_FAST, tank, day);
        value->yesterday = fed ? fed->amount : none ? 0.0 : NAN;
    }
}

/* The scoop of the feed that suits fish of that weight; 0 none. */
static double scoop_g(const Farm *farm, double weight_g)
{
    for (int32_t i = 0; i < farm->feeds_count; i++) {
        const Feed *feed = &farm->feeds[i];
        if (weight_g >= feed->from_g && weight_g < feed->to_g) {
            return feed->scoop_g;
        }
    }
    return 0.0;
}

static const char *feed_text(const RoundWork *work, const char *tank,
                             double grams, const TankDay *day, int meals)
{
    double scoop = scoop_g(work->farm, day->kg * 1000.0 / day->count);
    bool is_scooped = scoop > 0.0 && grams / meals > LEAST_SCOOPS * scoop;
    const char *scoops =
        is_scooped ? arena_say(work->arena, " (%s scoops each)",
                               job_number(grams / meals / scoop, work->arena))
                   : "";
    return meals == 1
               ? arena_say(work->arena, "Feed %s %.0f g in one meal%s", tank,
                           grams, scoops)
               : arena_text(work->arena,
                            say_n(work->arena, meals,
                                  "Feed %s %.0f g in %d meal of %.0f g%s",
                                  "Feed %s %.0f g in %d meals of %.0f g%s"),
                            tank, grams, meals, grams / meals, scoops);
}

/* "a third", for what is said of cold water; else per cent. */
static const char *share_text(double share, Arena *arena)
{
    const double third = 1.0 / 3.0;
    return fabs(share - third) < 0.02
               ? say(arena, "one third")
               : arena_text(arena, "%.0f %%", 100.0 * share);
}

static void hold(RoundWork *work, int32_t tank, double then_g, double usual_g,
                 RoundItem *item)
{
    const char *id = work->farm->tanks[tank].id;
    double off_k = round_off_k(work, tank);
    item->hold = arena_say(
        work->arena,
        "%s reads %.1f degC, %.0f degrees %s than it should: heater, flow or "
        "thermometer? No feed until its flow and its fish have been seen.",
        id, work->told_degc[tank], fabs(off_k),
        say(work->arena, off_k < 0.0 ? "colder" : "warmer"));
    item->text = arena_say(work->arena, "Do not feed %s yet", id);
    item->detail =
        then_g >= 0.5
            ? arena_say(work->arena, "once seen, %.0f g (%s; usually %.0f g)",
                        then_g, share_text(then_g / usual_g, work->arena),
                        usual_g)
            : say(work->arena, "once seen, still nothing at this temperature");
    item->then_amount = then_g;
    item->value.amount = 0.0;
}

/* The feed as it may be given, in words and as a fact. */
static void give(RoundWork *work, const TankDay *day, double degc,
                 RoundItem *item)
{
    int meals = shoals_meals(degc, day->least_g);
    item->meals = meals;
    item->value.amount = round(day->feed_g);
    item->value.low = item->value.amount;
    item->value.high = item->value.amount;
    item->value.odd_below = ODD_LOW_FRAC * day->feed_g;
    item->value.odd_above = ODD_HIGH_FRAC * day->feed_g;
    item->text = feed_text(work, item->place, item->value.amount, day, meals);
    item->detail = arena_say(work->arena,
                             "%.0f fish, %.1f kg, water of %.0f "
                             "degC; off the next meal what is "
                             "left after 15 minutes",
                             day->count, day->kg, degc);
    Told fed = told_blank(TOLD_FED, work->ask->day);
    fed.place = item->place;
    fed.grams = item->value.amount;
    round_add_fact(work, item, &fed);
    work->round->feed_g += item->value.amount;
    for (int32_t k = 0; k < work->farm->tanks_count; k++) {
        int32_t loop = work->farm->tanks[k].loop;
        if (loop >= 0 && strcmp(work->farm->tanks[k].id, item->place) == 0) {
            work->round->loops[loop].given_g += item->value.amount;
        }
    }
}

/* What the readings of today say against feeding; NULL: nothing. A thermometer
 * that is out of line is told by its own rule. */
static const JudgeFinding *finding_of(const RoundWork *work, int32_t tank,
                                      JudgeFeed feed)
{
    const Judge *judge = work->ask->judges ? work->ask->judges[tank] : NULL;
    for (int i = 0; judge && i < judge->finding_count; i++) {
        const JudgeFinding *finding = &judge->findings[i];
        if (finding->rule->class != JUDGE_CLASH &&
            finding->rule->feed == feed) {
            return finding;
        }
    }
    return NULL;
}

static void hold_by(RoundWork *work, const JudgeFinding *finding,
                    RoundItem *item)
{
    item->text = arena_say(work->arena, "Do not feed %s", item->place);
    item->hold =
        arena_text(work->arena, "%s%s%s", finding->means,
                   finding->act ? " " : "", finding->act ? finding->act : "");
    item->detail = finding->again
                       ? arena_say(work->arena, "feed again %s", finding->again)
                       : "";
    item->value.amount = 0.0;
}

static void add_fast(RoundWork *work, RoundStop *stop, const Tank *tank,
                     const Job *job, const char *why)
{
    RoundItem item = round_item(
        ROUND_FAST, arena_text(work->arena, "feed-%s", tank->id), tank->id);
    item.job = job;
    item.text = arena_say(work->arena, "No feed for %s", tank->id);
    item.detail = why;
    Told fasted = told_blank(TOLD_FASTED, work->ask->day);
    fasted.place = tank->id;
    round_add_fact(work, &item, &fasted);
    round_add(work, stop, &item);
}

void round_add_feed(RoundWork *work, RoundStop *stop_of, int32_t tank)
{
    const Tank *row = &work->farm->tanks[tank];
    int32_t day = work->ask->day;
    const Job *job = round_job(work->ask->week, JOB_FEED, row->id, day);
    const Job *none = round_job(work->ask->week, JOB_FAST, row->id, day);
    TankDay usual = alive(work, &work->usual, tank);
    TankDay told = alive(work, &work->told, tank);
    double degc = isnan(work->told_degc[tank]) ? foreseen_degc(work, tank)
                                               : work->told_degc[tank];
    bool is_held = work->is_out[tank] && !work->is_seen[tank];
    if ((!job && !none) || told.count < 0.5) {
        return;
    }
    bool is_fed = told.feed_g >= 0.5 && shoals_meals(degc, told.least_g) > 0;
    if (!is_fed && !is_held) {
        add_fast(work, stop_of, row, none,
                 none ? none->note
                      : arena_say(work->arena, "water of %.0f degC", degc));
        return;
    }
    RoundItem item = round_item(
        ROUND_FEED, arena_text(work->arena, "feed-%s", row->id), row->id);
    item.job = job;
    item.value = round_value("grams", "g");
    find_yesterday(work, row->id, &item.value);
    const JudgeFinding *stop = finding_of(work, tank, FEED_NONE);
    const JudgeFinding *less = finding_of(work, tank, FEED_HALF);
    if (stop) {
        hold_by(work, stop, &item);
    } else if (is_held) {
        hold(work, tank, is_fed ? told.feed_g : 0.0, usual.feed_g, &item);
    } else {
        told.feed_g *= less ? HALF_FRAC : 1.0;
        give(work, &told, degc, &item);
        item.warning =
            less ? arena_say(work->arena, "Half the feed: %s", less->means)
                 : "";
    }
    round_add(work, stop_of, &item);
}
