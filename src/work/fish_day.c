/* The fish of a day. */
#include "work/fish_day.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "nature/fish/limits.h"
#include "nature/fish/sizes.h"
#include "work/fish_working.h"

/* Oxygen that is enough for handling where none is told; the page says that it
 * must be measured. */
static const double ASSUMED_OXYGEN_MG_L = 6.0;
/* Shares of a batch that are offered to go; common practice of the trade. */
static const double GRADE_SHARES[FISH_GRADINGS] = {0.25, 1.0 / 3.0, 0.5};
/* Fewer are not worth a netting; judged. */
static const double LEAST_FISH = 10.0;

typedef struct Work {
    const FishDayAsk *ask;
    const Farm *farm;
    const FishStand *stand;
    int weekday;
    Arena *arena;
} Work;

static FishPart part_of(double count, double mean_g, double cv_frac)
{
    return (FishPart){count, mean_g, cv_frac, count * mean_g / 1000.0};
}

/* Weight today over that of Monday, as the batch grows. */
static double grown_frac(const Work *work, const FishStandBatch *batch)
{
    double monday_g = batch->all.value_g[0];
    double next_g = batch->all.value_g[1];
    return monday_g > 0.0 && next_g > 0.0
               ? pow(next_g / monday_g, work->weekday / (double)JOBS_DAYS)
               : 1.0;
}

/* Fish that the plan nets in the week but not before the day: those of a batch
 * that leave a tank for it, less those that come. */
static FishPart still_to_net(const Work *work, const char *batch, int32_t tank)
{
    const Farm *farm = work->farm;
    double count = 0.0;
    double grams = 0.0;
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        bool is_to_come = move->on >= work->ask->day &&
                          move->on < work->stand->first_week + JOBS_DAYS;
        if (!is_to_come ||
            strcmp(farm->plan_fish[move->fish].batch, batch) != 0) {
            continue;
        }
        double sign =
            (double)(move->from_tank == tank) - (double)(move->to_tank == tank);
        count += sign * move->count;
        grams += sign * move->count * move->mean_g;
    }
    return (FishPart){.count = count, .kg = grams / 1000.0};
}

/* What a batch has in a tank today: Monday's after the week's moves, grown, and
 * what of those moves is still to be done undone. */
static FishMade made_in(const Work *work, const FishStandBatch *batch,
                        int32_t tank)
{
    const FishStandShare *share = &batch->in_tanks[tank];
    FishPart net = still_to_net(work, batch->id, tank);
    FishMade made = {.monday_count = share->count ? share->count[0] : 0.0,
                     .monday_kg = share->count ? share->kg[0] : 0.0,
                     .net_count = net.count,
                     .net_kg = net.kg,
                     .grown_frac = grown_frac(work, batch)};
    double count = net.count + made.monday_count;
    double kg = net.kg * made.grown_frac + made.monday_kg * made.grown_frac;
    if (count < 0.5 || kg <= 0.0) {
        return made;
    }
    double cv_frac = share->count ? share->cv_frac[0] : 0.0;
    made.is_cv_counted = net.count > 0.0 && batch->standing >= 0 &&
                         work->farm->fish[batch->standing].tank == tank;
    made.part =
        part_of(count, 1000.0 * kg / count,
                made.is_cv_counted ? work->farm->fish[batch->standing].cv_frac
                                   : cv_frac);
    return made;
}

static FishPart stands_in(const Work *work, const FishStandBatch *batch,
                          int32_t tank)
{
    return made_in(work, batch, tank).part;
}

/* ---- gradings ------------------------------------------------------------
 */

static FishPart sizes_part(const FishSizes *sizes)
{
    return sizes->count < 0.5 ? (FishPart){0}
                              : part_of(sizes->count, fish_sizes_mean_g(sizes),
                                        fish_sizes_cv_frac(sizes));
}

/* Cuts a part at a weight; whole fish go, and what is moved and left is what
 * was there. */
static void cut(const FishPart *before, double over_g, FishGrading *out)
{
    FishSizes sizes =
        fish_sizes(before->count, before->mean_g, fmax(before->cv_frac, 0.001));
    FishSizes below;
    FishSizes above;
    fish_sizes_cut(&sizes, over_g, &below, &above);
    FishPart moved = sizes_part(&above);
    FishPart left = sizes_part(&below);
    moved = part_of(round(moved.count), moved.mean_g, moved.cv_frac);
    double left_count = before->count - moved.count;
    double left_kg = before->kg - moved.kg;
    left = part_of(left_count,
                   left_count > 0.0 ? 1000.0 * left_kg / left_count : 0.0,
                   left.cv_frac);
    *out = (FishGrading){.over_g = over_g,
                         .before = *before,
                         .moved = moved,
                         .left = left,
                         .to_tank = -1,
                         .to_density_kg_m3 = NAN};
}

static double tank_kg(const Work *work, int32_t tank)
{
    double kg = 0.0;
    for (int b = 0; b < work->stand->batch_count; b++) {
        kg += stands_in(work, &work->stand->batches[b], tank).kg;
    }
    return kg;
}

/* Whether fish of a weight may join those of a tank: not more than twice or
 * less than half as heavy as any batch there, for they eat each other, and no
 * more batches than it takes. Common practice of the trade. */
static bool may_join(const Work *work, int32_t tank, double mean_g)
{
    int batches = 0;
    for (int b = 0; b < work->stand->batch_count; b++) {
        FishPart part = stands_in(work, &work->stand->batches[b], tank);
        if (part.count < 0.5) {
            continue;
        }
        batches++;
        if (part.mean_g > 2.0 * mean_g || 2.0 * part.mean_g < mean_g) {
            return false;
        }
    }
    return batches < work->farm->tanks[tank].batches;
}

/* The grow-out tank of the same loop that has most room left with them in it.
 * Another loop is a step of disease: only where it is asked for. */
static int32_t room_for(const Work *work, int32_t from, const FishPart *part)
{
    const Farm *farm = work->farm;
    int32_t found = -1;
    double least = farm->farm->density_ceiling_kg_m3;
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        const Tank *tank = &farm->tanks[k];
        double density = (tank_kg(work, k) + part->kg) / tank->volume_m3;
        if (k != from && tank->use == TANK_GROW &&
            tank->loop == farm->tanks[from].loop && density <= least &&
            may_join(work, k, part->mean_g)) {
            found = k;
            least = density;
        }
    }
    return found;
}

static void put_tanks(const Work *work, int32_t from, int32_t to,
                      FishGrading *grading)
{
    const Farm *farm = work->farm;
    grading->to_tank = to;
    grading->from_density_kg_m3 =
        (tank_kg(work, from) - grading->moved.kg) / farm->tanks[from].volume_m3;
    grading->doubt = "";
    if (to < 0) {
        return;
    }
    grading->to_density_kg_m3 =
        (tank_kg(work, to) + grading->moved.kg) / farm->tanks[to].volume_m3;
    const char *const doubts[] = {
        may_join(work, to, grading->moved.mean_g)
            ? ""
            : say(work->arena, "Fish of such different sizes, or so many "
                               "batches, do not go together. "),
        grading->to_density_kg_m3 > farm->farm->density_ceiling_kg_m3
            ? say(work->arena, "Over the farm's ceiling there. ")
            : "",
        farm->tanks[to].loop != farm->tanks[from].loop
            ? say(work->arena,
                  "Another loop's water: a step of disease; at most "
                  "2 degC and 0.5 pH apart. ")
            : ""};
    grading->doubt =
        arena_text(work->arena, "%s%s%s", doubts[0], doubts[1], doubts[2]);
}

static void offer(const Work *work, int32_t tank, FishInTank *in)
{
    if (in->part.count * GRADE_SHARES[0] < LEAST_FISH) {
        return;
    }
    FishSizes sizes = fish_sizes(in->part.count, in->part.mean_g,
                                 fmax(in->part.cv_frac, 0.001));
    for (int g = 0; g < FISH_GRADINGS; g++) {
        FishGrading *grading = &in->gradings[in->grading_count++];
        cut(&in->part, fish_sizes_weight_at(&sizes, GRADE_SHARES[g]), grading);
        put_tanks(work, tank, room_for(work, tank, &grading->moved), grading);
    }
}

static Err make_asked(const Work *work, FishPage *page)
{
    const FishDayAsk *ask = work->ask;
    page->asked_batch = -1;
    if (ask->tank < 0) {
        return ERR_NONE;
    }
    const FishInTank *most = NULL;
    for (int32_t t = 0; t < page->tank_count; t++) {
        const FishTank *tank = &page->tanks[t];
        for (int b = 0; tank->tank == ask->tank && b < tank->batch_count; b++) {
            most = !most || tank->batches[b].part.count > most->part.count
                       ? &tank->batches[b]
                       : most;
        }
    }
    const char *id = work->farm->tanks[ask->tank].id;
    if (!most) {
        return err_make(ERR_RANGE, "there are no fish in %s", id);
    }
    cut(&most->part, ask->cut_g, &page->asked);
    if (page->asked.moved.count < 0.5 || page->asked.left.count < 0.5) {
        return err_make(
            ERR_RANGE, "cut_g=%.4g would move %s of the %.0f fish", ask->cut_g,
            page->asked.moved.count < 0.5 ? "none" : "all", most->part.count);
    }
    page->asked_batch = most->batch;
    int32_t to = ask->to_tank >= 0
                     ? ask->to_tank
                     : room_for(work, ask->tank, &page->asked.moved);
    put_tanks(work, ask->tank, to, &page->asked);
    return ERR_NONE;
}

/* ---- tanks ---------------------------------------------------------------
 */

/* Rows of the plan that are one netting: the same week, kind, batch, way. */
static bool is_same(const Farm *farm, const FishMove *a, const PlanMove *b)
{
    return a->on == b->on && a->kind == (int)b->kind &&
           strcmp(a->batch, farm->plan_fish[b->fish].batch) == 0 &&
           a->from_tank == b->from_tank && a->to_tank == b->to_tank &&
           a->product == b->product;
}

static void add_move(const Work *work, FishTank *tank, const PlanMove *move)
{
    FishMove *moves = tank->moves;
    for (int32_t i = 0; i < tank->move_count; i++) {
        if (is_same(work->farm, &moves[i], move)) {
            double grams =
                moves[i].count * moves[i].mean_g + move->count * move->mean_g;
            moves[i].count += move->count;
            moves[i].mean_g = grams / moves[i].count;
            return;
        }
    }
    int32_t at = tank->move_count++;
    while (at > 0 && moves[at - 1].on > move->on) {
        moves[at] = moves[at - 1];
        at--;
    }
    moves[at] = (FishMove){.on = move->on,
                           .kind = (int)move->kind,
                           .batch = work->farm->plan_fish[move->fish].batch,
                           .count = move->count,
                           .mean_g = move->mean_g,
                           .from_tank = move->from_tank,
                           .to_tank = move->to_tank,
                           .product = move->product};
}

static void add_moves(const Work *work, FishTank *tank)
{
    const Farm *farm = work->farm;
    tank->moves =
        ARENA_ARRAY(work->arena, FishMove, farm->plan_moves_count + 1);
    int32_t week = week_of(work->ask->day);
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        if (move->on >= week && move->count > 0 &&
            (move->from_tank == tank->tank || move->to_tank == tank->tank)) {
            add_move(work, tank, move);
        }
    }
}

/* Beyond the plan nothing is sold or moved: what crowds then says nothing. */
static bool is_within_plan(const Farm *farm, int32_t week)
{
    return farm->plan_count == 0 ||
           week < week_of(farm->plan[0].from) + farm->plan[0].weeks * JOBS_DAYS;
}

/* Days since fish of the tank were last graded or moved and put back, told;
 * -1 never. */
static int32_t handled_d(const Work *work, const char *tank)
{
    int32_t days = -1;
    for (int32_t i = 0; i < work->ask->fact_count; i++) {
        const Told *told = &work->ask->facts[i];
        bool is_handled = told->kind == TOLD_GRADED || told->kind == TOLD_MOVED;
        if (is_handled && (strcmp(told->place, tank) == 0 ||
                           strcmp(told->to_place, tank) == 0)) {
            days = work->ask->day - told->happened_on;
        }
    }
    return days;
}

static void find_hold(const Work *work, FishTank *tank)
{
    const char *id = work->farm->tanks[tank->tank].id;
    int32_t days = handled_d(work, id);
    int32_t least = JOBS_DAYS * fish_weeks_between_handlings();
    if (!fish_may_grade(tank->degc, ASSUMED_OXYGEN_MG_L)) {
        tank->grade_hold = arena_say(
            work->arena, "water of %.1f degC: graded at 20 to 30 degC only",
            tank->degc);
    } else if (days >= 0 && days < least) {
        tank->grade_hold =
            arena_say(work->arena, "handled %d days ago: not before %d",
                      (int)days, (int)least);
    }
}

static double feed_today(const Work *work, const char *tank)
{
    const JobsWeek *week = work->ask->week;
    for (int32_t i = 0; week && i < week->list.count; i++) {
        const Job *job = &week->list.jobs[i];
        if (job->kind == JOB_FEED && job->day == work->ask->day &&
            strcmp(job->places[0].id, tank) == 0) {
            return job->amount;
        }
    }
    return 0.0;
}

static void add_batches(const Work *work, FishTank *tank)
{
    for (int b = 0; b < work->stand->batch_count; b++) {
        const FishStandBatch *batch = &work->stand->batches[b];
        FishMade made = made_in(work, batch, tank->tank);
        if (made.part.count < 0.5 ||
            tank->batch_count == FISH_BATCHES_IN_TANK) {
            continue;
        }
        FishInTank *in = &tank->batches[tank->batch_count++];
        in->batch = b;
        in->part = made.part;
        fish_working_part(work->ask, work->farm->tanks[tank->tank].id,
                          batch->id, &made);
        tank->count += in->part.count;
        tank->kg += in->part.kg;
    }
}

static FishTank tank_of(const Work *work, int32_t k)
{
    const Tank *row = &work->farm->tanks[k];
    FishTank tank = {.tank = k,
                     .ceiling_kg_m3 = work->farm->farm->density_ceiling_kg_m3,
                     .degc = work->ask->degc[k],
                     .is_degc_told = work->ask->is_degc_told[k],
                     .crowded_on = DATE_NEVER};
    add_batches(work, &tank);
    tank.mean_g = tank.count > 0.0 ? 1000.0 * tank.kg / tank.count : 0.0;
    tank.density_kg_m3 = tank.kg / row->volume_m3;
    int over = work->stand->tanks[k].over_density_week;
    if (over >= 0 && is_within_plan(work->farm, work->stand->first_week +
                                                    over * JOBS_DAYS)) {
        tank.crowded_on = work->stand->first_week + over * JOBS_DAYS;
    }
    tank.feed_g = feed_today(work, row->id);
    tank.conversion = conversion_of(work->ask->opening, k, work->ask->facts,
                                    work->ask->fact_count);
    tank.conversion.lacking = say(work->arena, tank.conversion.lacking);
    add_moves(work, &tank);
    find_hold(work, &tank);
    for (int b = 0; b < tank.batch_count; b++) {
        int standing = work->stand->batches[tank.batches[b].batch].standing;
        if (standing < 0 || !work->farm->fish[standing].is_kept) {
            offer(work, k, &tank.batches[b]);
        }
    }
    fish_working_tank(work->ask, &tank);
    return tank;
}

/* ---- the whole -----------------------------------------------------------
 */

/* All of a batch, in whatever tanks; the spread is Monday's. */
static FishPart batch_part(const Work *work, const FishStandBatch *batch)
{
    double count = 0.0;
    double kg = 0.0;
    for (int32_t k = 0; k < work->farm->tanks_count; k++) {
        FishPart part = stands_in(work, batch, k);
        count += part.count;
        kg += part.kg;
    }
    return count < 0.5 ? (FishPart){0}
                       : part_of(count, 1000.0 * kg / count, batch->cv_frac[0]);
}

static void add_batch_days(const Work *work, FishPage *page)
{
    page->batches =
        ARENA_ARRAY(work->arena, FishBatchDay, work->stand->batch_count + 1);
    for (int b = 0; b < work->stand->batch_count; b++) {
        const FishStandBatch *batch = &work->stand->batches[b];
        FishPart part = batch_part(work, batch);
        if (part.count < 0.5) {
            continue;
        }
        page->batches[page->batch_count++] =
            (FishBatchDay){.batch = b,
                           .part = part,
                           .over_count = batch->over_count[0],
                           .ready_early = batch->ready_early,
                           .ready_on = batch->ready_on,
                           .ready_late = batch->ready_late,
                           .sold_count = batch->sold_count};
    }
}

/* Tanks that hold fish or that the plan moves fish to or from, by walk. */
static void add_tanks(const Work *work, FishPage *page)
{
    const Farm *farm = work->farm;
    page->tanks = ARENA_ARRAY(work->arena, FishTank, farm->tanks_count);
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        int32_t at = page->tank_count++;
        int32_t walk = farm->tanks[k].walk;
        while (at > 0 && farm->tanks[page->tanks[at - 1].tank].walk > walk) {
            page->tanks[at] = page->tanks[at - 1];
            at--;
        }
        page->tanks[at] = tank_of(work, k);
        page->feed_g += page->tanks[at].feed_g;
    }
}

Err fish_page_make(const FishDayAsk *ask, Arena *arena, FishPage *out)
{
    Work work = {ask, ask->farm, &ask->foresight->fish, date_weekday(ask->day),
                 arena};
    FishPage page = {.day = ask->day, .sale_g = ask->foresight->sale_g};
    add_tanks(&work, &page);
    add_batch_days(&work, &page);
    fish_working_batches(ask, &page);
    fish_working_feed(ask, &page);
    TRY(make_asked(&work, &page));
    *out = page;
    return ERR_NONE;
}
