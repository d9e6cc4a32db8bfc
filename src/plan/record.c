/* A solution as the tables of the accepted plan. */
#include "plan/record.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "farm/seedlings.h"

typedef struct Recorder {
    const PlanInputs *inputs;
    const Problem *problem;
    const PlanIndex *index;
    const PlanSolution *solution;
    Arena *arena;
    Farm *out;
    int run_number; /* of the run being recorded; only those with rows count */
} Recorder;

static int32_t monday(const Recorder *recorder, int week)
{
    return recorder->index->from + 7 * week;
}

static bool is_id_taken(const Recorder *recorder, const char *id)
{
    for (int i = 0; i < recorder->out->plan_plants_count; i++) {
        const char *taken = recorder->out->plan_plants[i].id;
        if (taken && strcmp(taken, id) == 0) {
            return true;
        }
    }
    return false;
}

/* How near a batch of the accepted plan must be to hand on its id. */
typedef enum Kinship { SAME_BATCH, SAME_WEEK, WITHIN_A_WEEK, KINSHIPS } Kinship;

static bool is_kin(const PlanPlant *old, const PlanPlant *row, Kinship kinship)
{
    bool is_there = old->way == row->way && old->bed == row->bed &&
                    old->place == row->place;
    int32_t apart = abs(old->set_on - row->set_on);
    bool is_size = old->first_section == row->first_section &&
                   old->plants == row->plants && old->clear_on == row->clear_on;
    switch (kinship) {
    case SAME_BATCH:
        return is_there && apart == 0 && is_size;
    case SAME_WEEK:
        return is_there && apart == 0;
    case WITHIN_A_WEEK:
        return is_there && apart <= 7;
    case KINSHIPS:
        break;
    }
    return false;
}

/* The id of a batch of the accepted plan that is so near and whose id no row
 * bears yet, or NULL. */
static const char *known_id(const Recorder *recorder, const PlanPlant *row,
                            Kinship kinship)
{
    const Farm *farm = recorder->inputs->farm;
    for (int i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *old = &farm->plan_plants[i];
        bool is_placed = old->standing < 0 || seedlings_feed(farm, old);
        if (is_placed && is_kin(old, row, kinship) &&
            !is_id_taken(recorder, old->id)) {
            return old->id;
        }
    }
    return NULL;
}

static const char *new_id(const Recorder *recorder, const PlanPlant *row)
{
    const Farm *farm = recorder->inputs->farm;
    IsoWeek iso = week_to_iso(row->set_on);
    const char *stem =
        arena_text(recorder->arena, "%s-%s-%02dW%02d", farm->ways[row->way].id,
                   farm->beds[row->bed].id, iso.year % 100, iso.week);
    const char *id = stem;
    for (int n = 2; is_id_taken(recorder, id); n++) {
        id = arena_text(recorder->arena, "%s-%d", stem, n);
    }
    return id;
}

static int standing_of(const Recorder *recorder, const PlanPlacement *placed)
{
    for (int i = 0; i < recorder->problem->standing_count; i++) {
        const PlanStanding *standing = &recorder->problem->standing[i];
        if (standing->option == placed->option &&
            standing->bed == placed->bed &&
            standing->first_section == placed->first_section) {
            return i;
        }
    }
    return PLAN_NONE;
}

int plan_week_at(const PlanIndex *index, int32_t day)
{
    return (week_of(day) - index->from) / 7;
}

bool plan_is_shaded(const Farm *farm, int bed, const PlanOption *option)
{
    return farm->beds[bed].edge == EDGE_SUNNY && !option->is_edge &&
           !option->wants_sun;
}

/* The accepted plan's row of a batch that stands, or NULL. */
static const PlanPlant *same_row(const Recorder *recorder, const PlanPlant *row)
{
    const Farm *farm = recorder->inputs->farm;
    for (int i = 0; i < farm->plan_plants_count; i++) {
        if (strcmp(farm->plan_plants[i].id, row->id) == 0 &&
            farm->plan_plants[i].bed == row->bed) {
            return &farm->plan_plants[i];
        }
    }
    return NULL;
}

static void record_plant(const Recorder *recorder, const PlanPlacement *placed)
{
    const Farm *farm = recorder->inputs->farm;
    const PlanOption *option = &recorder->problem->options[placed->option];
    PlanPlant row = {
        .way = option->way,
        .bed = placed->bed,
        .place = option->is_edge ? PLACE_EDGE : PLACE_FLOOR,
        .sections = option->is_edge ? 0 : placed->units,
        .first_section = placed->first_section,
        .plants = (int32_t)lround(placed->units * option->plants),
        .is_shaded =
            plan_is_shaded(recorder->inputs->farm, placed->bed, option),
        .sow_on = monday(recorder, option->sow_week),
        .set_on = monday(recorder, option->set_week),
        .pick_from = monday(recorder, option->pick_from),
        .pick_until = monday(recorder, option->pick_until) + 6,
        .clear_on = monday(recorder, option->clear_week),
        .standing = -1,
    };
    if (row.plants < 1) {
        row.plants = 1;
    }
    if (option->trays_of > 0) {
        row.standing = recorder->index->trays_rows[option->trays_of - 1];
        row.sow_on = farm->plants[row.standing].sown_on;
    }
    if (option->is_standing) {
        int standing = standing_of(recorder, placed);
        row.id = recorder->problem->standing[standing].id;
        const PlanPlant *old = same_row(recorder, &row);
        row.is_shaded = old && old->is_shaded;
        row.pick_from = old && old->pick_from < row.pick_from ? old->pick_from
                                                              : row.pick_from;
        for (int i = 0; i < farm->plants_count; i++) {
            if (strcmp(farm->plants[i].id, row.id) == 0) {
                row.standing = i;
                row.set_on = farm->plants[i].set_on;
                row.sow_on = seedlings_are(&farm->plants[i])
                                 ? farm->plants[i].sown_on
                                 : row.sow_on;
            }
        }
    }
    recorder->out->plan_plants[recorder->out->plan_plants_count++] = row;
}

/* Ids pass on to the nearest batches first, so that neighbours in time keep
 * their own. */
static void name_plants(const Recorder *recorder)
{
    Farm *out = recorder->out;
    for (int kinship = SAME_BATCH; kinship < KINSHIPS; kinship++) {
        for (int i = 0; i < out->plan_plants_count; i++) {
            PlanPlant *row = &out->plan_plants[i];
            if (!row->id) {
                row->id = known_id(recorder, row, (Kinship)kinship);
            }
        }
    }
    for (int i = 0; i < out->plan_plants_count; i++) {
        PlanPlant *row = &out->plan_plants[i];
        if (!row->id) {
            row->id = new_id(recorder, row);
        }
    }
}

static int by_set_then_bed(const void *left, const void *right)
{
    const PlanPlant *a = left;
    const PlanPlant *b = right;
    if (a->set_on != b->set_on) {
        return a->set_on < b->set_on ? -1 : 1;
    }
    if (a->bed != b->bed) {
        return a->bed < b->bed ? -1 : 1;
    }
    return strcmp(a->id, b->id);
}

static void record_plants(const Recorder *recorder)
{
    const PlanSolution *solution = recorder->solution;
    const Problem *problem = recorder->problem;
    recorder->out->plan_plants_count = 0;
    recorder->out->plan_plants =
        ARENA_ARRAY(recorder->arena, PlanPlant,
                    solution->placement_count + problem->standing_count);
    for (int i = 0; i < problem->standing_count; i++) {
        const PlanStanding *standing = &problem->standing[i];
        record_plant(recorder, &(PlanPlacement){standing->option, standing->bed,
                                                standing->first_section,
                                                standing->units});
    }
    for (int i = 0; i < solution->placement_count; i++) {
        record_plant(recorder, &solution->placements[i]);
    }
    name_plants(recorder);
    if (recorder->out->plan_plants_count > 1) {
        qsort(recorder->out->plan_plants,
              (size_t)recorder->out->plan_plants_count, sizeof(PlanPlant),
              by_set_then_bed);
    }
}

/* The lane's row, made where there is none yet. */
static int fish_row(const Recorder *recorder, const PlanRun *run)
{
    Farm *out = recorder->out;
    const PlanStock *stock = &recorder->problem->stocks[run->stock];
    for (int i = 0; i < out->plan_fish_count; i++) {
        if (out->plan_fish[i].lane == run->lane + 1 &&
            strcmp(out->plan_fish[i].batch, stock->id) == 0) {
            return i;
        }
    }
    PlanFish *row = &out->plan_fish[out->plan_fish_count];
    *row = (PlanFish){
        .id = arena_text(recorder->arena, "%s-%d", stock->id, run->lane + 1),
        .batch = stock->id,
        .standing = recorder->index->stock_fish[run->stock],
        .source = stock->source,
        .lane = run->lane + 1,
        .mean_g = stock->lanes[run->lane].weight_g[stock->start_week]};
    return out->plan_fish_count++;
}

/* The product that a size of fish is first sold as. */
static int fish_product(const Problem *problem, int goods)
{
    for (int p = 0; p < problem->product_count; p++) {
        for (int i = 0; i < problem->products[p].part_count; i++) {
            if (problem->products[p].parts[i].goods == goods) {
                return p;
            }
        }
    }
    return PLAN_NONE;
}

static void record_move(const Recorder *recorder, const PlanRun *run, int week,
                        const PlanMove *facts)
{
    Farm *out = recorder->out;
    const PlanStock *stock = &recorder->problem->stocks[run->stock];
    const PlanLane *lane = &stock->lanes[run->lane];
    PlanMove row = *facts;
    row.id = arena_text(recorder->arena, "move-%d", out->plan_moves_count + 1);
    row.on = monday(recorder, week);
    row.run = recorder->run_number;
    row.started = run->count;
    row.count = (int32_t)lround(run->count * lane->alive[week]);
    row.mean_g = lane->weight_g[week];
    out->plan_moves[out->plan_moves_count++] = row;
}

static void record_run(Recorder *recorder, const PlanRun *run)
{
    int before = recorder->out->plan_moves_count;
    const Problem *problem = recorder->problem;
    const PlanStock *stock = &problem->stocks[run->stock];
    int fish = fish_row(recorder, run);
    recorder->out->plan_fish[fish].count += run->count;
    if (!stock->is_standing) {
        record_move(recorder, run, stock->start_week,
                    &(PlanMove){.fish = fish,
                                .kind = MOVE_STOCK,
                                .from_tank = -1,
                                .to_tank = run->tank,
                                .product = -1});
    }
    if (run->move_week != PLAN_NONE) {
        record_move(recorder, run, run->move_week,
                    &(PlanMove){.fish = fish,
                                .kind = MOVE_GRADE,
                                .from_tank = run->tank,
                                .to_tank = run->to_tank,
                                .product = -1});
    }
    if (run->sale_week < problem->week_count) {
        record_move(recorder, run, run->sale_week,
                    &(PlanMove){.fish = fish,
                                .kind = MOVE_SALE,
                                .from_tank = run->to_tank,
                                .to_tank = -1,
                                .product = fish_product(problem, run->goods)});
    }
    recorder->run_number += recorder->out->plan_moves_count > before;
}

static int by_day(const void *left, const void *right)
{
    const PlanMove *a = left;
    const PlanMove *b = right;
    if (a->on != b->on) {
        return a->on < b->on ? -1 : 1;
    }
    return a->fish != b->fish ? (a->fish < b->fish ? -1 : 1)
                              : strcmp(a->id, b->id);
}

static void record_fish(Recorder *recorder)
{
    const PlanSolution *solution = recorder->solution;
    Farm *out = recorder->out;
    out->plan_fish_count = 0;
    out->plan_moves_count = 0;
    out->plan_fish =
        ARENA_ARRAY(recorder->arena, PlanFish, solution->run_count);
    out->plan_moves =
        ARENA_ARRAY(recorder->arena, PlanMove, 3 * solution->run_count);
    for (int i = 0; i < solution->run_count; i++) {
        if (solution->runs[i].count > 0) {
            record_run(recorder, &solution->runs[i]);
        }
    }
    if (out->plan_moves_count > 1) {
        qsort(out->plan_moves, (size_t)out->plan_moves_count, sizeof(PlanMove),
              by_day);
    }
    for (int i = 0; i < out->plan_moves_count; i++) {
        out->plan_moves[i].id = arena_text(recorder->arena, "move-%d", i + 1);
    }
}

static void record_cleans(const Recorder *recorder)
{
    const PlanSolution *solution = recorder->solution;
    Farm *out = recorder->out;
    out->plan_cleans =
        ARENA_ARRAY(recorder->arena, PlanClean, solution->cleaning_count);
    out->plan_cleans_count = solution->cleaning_count;
    for (int i = 0; i < solution->cleaning_count; i++) {
        out->plan_cleans[i] =
            (PlanClean){.bed = solution->cleanings[i].bed,
                        .on = monday(recorder, solution->cleanings[i].week)};
    }
}

static void record_orders(const Recorder *recorder)
{
    const Problem *problem = recorder->problem;
    const double *kept = recorder->solution->outcome.kept;
    Farm *out = recorder->out;
    out->plan_orders_count = 0;
    out->plan_orders = ARENA_ARRAY(recorder->arena, PlanPromise,
                                   problem->order_count * problem->horizon);
    for (int o = 0; o < problem->order_count; o++) {
        for (int t = 0; t < problem->horizon; t++) {
            double wanted = problem->orders[o].wanted[t];
            if (wanted > 0.0) {
                out->plan_orders[out->plan_orders_count++] =
                    (PlanPromise){.order = recorder->index->order_rows[o],
                                  .week = monday(recorder, t),
                                  .wanted = wanted,
                                  .kept = kept[o * problem->week_count + t]};
            }
        }
    }
}

void plan_record(const PlanInputs *inputs, const Problem *problem,
                 const PlanIndex *index, const PlanSolution *solution,
                 const PlanStamp *stamp, Arena *arena, Farm *out)
{
    *out = *inputs->farm;
    Recorder recorder = {inputs, problem, index, solution, arena, out, 1};
    record_plants(&recorder);
    record_fish(&recorder);
    record_cleans(&recorder);
    record_orders(&recorder);
    out->plan = ARENA_NEW(arena, Plan);
    out->plan_count = 1;
    out->plan[0] = (Plan){
        .id = "accepted",
        .from = index->from,
        .weeks = problem->horizon,
        .accepted_on = stamp->accepted_on,
        .seed = stamp->seed,
        .value_e4 = (int64_t)llround(solution->outcome.value * 10000.0),
        .book = stamp->book,
        .tables = "",
    };
}
