/* The fish of an accepted plan as choices in a problem that may begin later. */
#include "plan/recall_fish.h"

#include <math.h>
#include <string.h>

#include "base/date.h"

/* A run as the plan's rows tell it. Weeks before 0 are over. */
typedef struct Told {
    int fish; /* its row of plan_fish; -1: no row names the run */
    int started;
    bool is_stocked; /* a row stocks it */
    int stock_week;
    int tank; /* where it is first; -1: told by the first row that leaves it */
    int move_week;
    int to_tank;
    int sale_week;
    int goods;
} Told;

static int find_stock(const Problem *problem, const char *batch)
{
    for (int i = 0; i < problem->stock_count; i++) {
        if (strcmp(problem->stocks[i].id, batch) == 0) {
            return i;
        }
    }
    return PLAN_NONE;
}

/* The batch's fish that stand in that tank: a batch in several tanks has the
 * tank in its later names. */
static int find_standing(const Problem *problem, const char *batch, int tank)
{
    size_t length = strlen(batch);
    for (int i = 0; i < problem->stock_count; i++) {
        const PlanStock *stock = &problem->stocks[i];
        if (!stock->is_standing || (tank != PLAN_NONE && stock->tank != tank) ||
            strncmp(stock->id, batch, length) != 0) {
            continue;
        }
        const char *rest = stock->id + length;
        bool is_its =
            *rest == '\0' || (tank != PLAN_NONE && *rest == '-' &&
                              strcmp(rest + 1, problem->tanks[tank].id) == 0);
        if (is_its) {
            return i;
        }
    }
    return PLAN_NONE;
}

/* The goods of fish that leave without a buyer, or PLAN_NONE. */
static int given_up_goods(const Problem *problem)
{
    for (int g = 0; g < problem->goods_count; g++) {
        if (problem->goods[g].is_fish && problem->goods[g].over_g <= 0.0) {
            return g;
        }
    }
    return PLAN_NONE;
}

static void tell_row(const Problem *problem, const PlanIndex *index,
                     const PlanMove *row, Told *told)
{
    int week = plan_week_at(index, row->on);
    told->fish = row->fish;
    told->started = row->started;
    if (row->kind != MOVE_STOCK && told->tank < 0) {
        told->tank = row->from_tank;
    }
    switch (row->kind) {
    case MOVE_STOCK:
        told->is_stocked = true;
        told->stock_week = week;
        told->tank = row->to_tank;
        return;
    case MOVE_GRADE:
        told->move_week = week;
        told->to_tank = row->to_tank;
        return;
    default:
        told->sale_week = week;
        told->goods = row->product >= 0
                          ? problem->products[row->product].parts[0].goods
                          : given_up_goods(problem);
    }
}

/* One of a standing stock's groups of fish, in order of weight. */
typedef struct Group {
    PlanRun run; /* count: as started in the plan */
    int lane;    /* of the plan */
    int number;  /* of its rows; 0: none */
} Group;

typedef struct Recall {
    const Farm *farm;
    const Problem *problem;
    Group *groups; /* of all standing stocks */
    int group_count;
    PlanSolution *out;
} Recall;

static PlanRun run_of(const Problem *problem, const Told *told, int stock,
                      int lane)
{
    bool is_moved = told->move_week >= 0;
    int tank = told->tank;
    if (told->move_week != INT32_MIN && !is_moved) {
        tank = told->to_tank; /* moved before today */
    }
    bool is_sold = told->sale_week < problem->week_count;
    return (PlanRun){.stock = stock,
                     .lane = lane,
                     .tank = tank,
                     .move_week = is_moved ? told->move_week : PLAN_NONE,
                     .to_tank = is_moved ? told->to_tank : tank,
                     .sale_week =
                         is_sold ? told->sale_week : problem->week_count,
                     .goods = is_sold ? told->goods : PLAN_NONE,
                     .count = told->started};
}

static void put_run(Recall *recall, const PlanRun *run, int number)
{
    PlanSolution *out = recall->out;
    out->run_numbers[out->run_count] = number;
    out->runs[out->run_count++] = *run;
}

/* False: it no longer can be. */
static bool take(Recall *recall, const Told *told, int number)
{
    const PlanFish *lane = &recall->farm->plan_fish[told->fish];
    if (told->sale_week < 0) {
        return true; /* sold before today */
    }
    if (told->is_stocked && told->stock_week >= 0) {
        int stock = find_stock(recall->problem, lane->batch);
        if (stock != PLAN_NONE) {
            PlanRun run = run_of(recall->problem, told, stock, lane->lane - 1);
            put_run(recall, &run, number);
        }
        return stock != PLAN_NONE;
    }
    PlanRun run = run_of(recall->problem, told, PLAN_NONE, lane->lane - 1);
    run.stock = find_standing(recall->problem, lane->batch, run.tank);
    if (run.stock != PLAN_NONE) {
        recall->groups[recall->group_count++] =
            (Group){run, lane->lane, number};
    }
    return run.stock != PLAN_NONE;
}

/* Fish of a lane that no row moves or sells stay where they are. */
static void take_stayers(Recall *recall, const Told *told, int told_count)
{
    const Farm *farm = recall->farm;
    for (int f = 0; f < farm->plan_fish_count; f++) {
        const PlanFish *lane = &farm->plan_fish[f];
        int left = lane->count;
        for (int i = 0; i < told_count; i++) {
            left -= told[i].fish == f ? told[i].started : 0;
        }
        int stock = find_standing(recall->problem, lane->batch, PLAN_NONE);
        if (left <= 0 || stock == PLAN_NONE) {
            continue;
        }
        int tank = recall->problem->stocks[stock].tank;
        PlanRun run = {.stock = stock,
                       .tank = tank,
                       .to_tank = tank,
                       .move_week = PLAN_NONE,
                       .sale_week = recall->problem->week_count,
                       .goods = PLAN_NONE,
                       .count = left};
        recall->groups[recall->group_count++] = (Group){run, lane->lane, 0};
    }
}

static int lane_from(const PlanStock *stock, int lane)
{
    return (int)((int64_t)stock->most * lane / PLAN_LANES);
}

void plan_fit_sale(const Problem *problem, PlanRun *run)
{
    if (run->goods == PLAN_NONE) {
        return;
    }
    const PlanLane *lane = &problem->stocks[run->stock].lanes[run->lane];
    double over_g = problem->goods[run->goods].over_g;
    double left = 1.0 - problem->fish.purge_loss_frac;
    while (run->sale_week < problem->week_count &&
           (lane->weight_g[run->sale_week] * left < over_g ||
            !problem->tanks[run->to_tank].may_catch[run->sale_week])) {
        run->sale_week++;
    }
    if (run->sale_week == problem->week_count) {
        run->goods = PLAN_NONE;
    }
}

/* Heads from .. until of a stock, the lightest first, go the run's way. */
static void put_heads(Recall *recall, const Group *group, int from, int until)
{
    const PlanRun *run = &group->run;
    const PlanStock *stock = &recall->problem->stocks[run->stock];
    for (int b = 0; b < PLAN_LANES; b++) {
        int first = lane_from(stock, b) > from ? lane_from(stock, b) : from;
        int end =
            lane_from(stock, b + 1) < until ? lane_from(stock, b + 1) : until;
        if (first < end) {
            PlanRun part = *run;
            part.lane = b;
            part.count = end - first;
            plan_fit_sale(recall->problem, &part);
            put_run(recall, &part, group->number);
        }
    }
}

/* The groups of a standing stock share its heads of today as they shared those
 * of the plan. */
static void share_out(Recall *recall, int stock)
{
    double all = 0.0;
    for (int i = 0; i < recall->group_count; i++) {
        const PlanRun *run = &recall->groups[i].run;
        all += run->stock == stock ? run->count : 0;
    }
    int heads = recall->problem->stocks[stock].most;
    double sum = 0.0;
    int from = 0;
    for (int lane = 1; lane <= PLAN_LANES; lane++) {
        for (int i = 0; i < recall->group_count; i++) {
            const Group *group = &recall->groups[i];
            if (group->run.stock != stock || group->lane != lane) {
                continue;
            }
            sum += group->run.count;
            int until = (int)lround(heads * sum / all);
            put_heads(recall, group, from, until);
            from = until;
        }
    }
    if (from < heads) { /* no row tells of them */
        const PlanStock *own = &recall->problem->stocks[stock];
        Group stay = {.run = {.stock = stock,
                              .tank = own->tank,
                              .to_tank = own->tank,
                              .move_week = PLAN_NONE,
                              .sale_week = recall->problem->week_count,
                              .goods = PLAN_NONE}};
        put_heads(recall, &stay, from, heads);
    }
}

int plan_recall_fish(const Farm *farm, const Problem *problem,
                     const PlanIndex *index, Arena *arena, PlanSolution *out)
{
    int rows = farm->plan_moves_count;
    Told *told = ARENA_ARRAY(arena, Told, rows);
    for (int i = 0; i < rows; i++) {
        told[i] = (Told){.fish = -1,
                         .tank = -1,
                         .move_week = INT32_MIN,
                         .sale_week = problem->week_count,
                         .goods = PLAN_NONE};
    }
    /* Rows of one run stand under one number; numbers start at 1. */
    for (int i = 0; i < rows; i++) {
        const PlanMove *row = &farm->plan_moves[i];
        if (row->run >= 1 && row->run <= rows) {
            tell_row(problem, index, row, &told[row->run - 1]);
        }
    }
    int groups = rows + farm->plan_fish_count;
    Recall recall = {farm, problem, ARENA_ARRAY(arena, Group, groups), 0, out};
    int most = PLAN_LANES * (groups + problem->stock_count);
    out->runs = ARENA_ARRAY(arena, PlanRun, most);
    out->run_numbers = ARENA_ARRAY(arena, int, most);
    int left_out = 0;
    for (int i = 0; i < rows; i++) {
        left_out += told[i].fish >= 0 && !take(&recall, &told[i], i + 1);
    }
    take_stayers(&recall, told, rows);
    for (int i = 0; i < problem->stock_count; i++) {
        if (problem->stocks[i].is_standing) {
            share_out(&recall, i);
        }
    }
    return left_out;
}
