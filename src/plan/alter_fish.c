/* A plan changed by hand: stockings, gradings and sales of fish. */
#include "plan/alter_parts.h"

#include <assert.h>
#include <string.h>

#include "base/date.h"
#include "plan/recall_fish.h"

/* A step as the plan has it: the row, and the first run that takes it. */
typedef struct Step {
    const PlanMove *row;
    int run; /* of the solution */
} Step;

static bool takes(const Alterer *alterer, const Step *step, int run)
{
    return alterer->solution->run_numbers[run] == step->row->run;
}

/* Whether the run's step of that kind is still to come. */
static bool is_to_come(const Alterer *alterer, const Step *step, int run)
{
    const PlanRun *its = &alterer->solution->runs[run];
    const PlanStock *stock = &alterer->problem->stocks[its->stock];
    return step->row->kind == MOVE_STOCK   ? !stock->is_standing
           : step->row->kind == MOVE_GRADE ? its->move_week != PLAN_NONE
                                           : its->goods != PLAN_NONE;
}

static Err find_step(const Alterer *alterer, const char *id, Step *out)
{
    const Farm *farm = alterer->inputs->farm;
    const char **names =
        ARENA_ARRAY(alterer->arena, const char *, farm->plan_moves_count);
    Step step = {NULL, PLAN_NONE};
    for (int i = 0; i < farm->plan_moves_count; i++) {
        names[i] = farm->plan_moves[i].id;
        if (strcmp(names[i], id) == 0) {
            step.row = &farm->plan_moves[i];
        }
    }
    if (!step.row) {
        return alter_not_found("step of fish", id, names,
                               farm->plan_moves_count);
    }
    for (int i = 0; i < alterer->solution->run_count; i++) {
        if (takes(alterer, &step, i) && is_to_come(alterer, &step, i)) {
            step.run = i;
            *out = step;
            return ERR_NONE;
        }
    }
    return err_make(ERR_INPUT,
                    "%.60s is no longer planned: it is over, or was dropped",
                    id);
}

/* ---- A stocking: all fish of it ------------------------------------------
 */

/* The same young fish in another week. */
static Err find_stocking(const Alterer *alterer, int stock, int week, int *out)
{
    const Problem *problem = alterer->problem;
    const PlanStock *like = &problem->stocks[stock];
    int nearest = PLAN_NONE;
    for (int i = 0; i < problem->stock_count; i++) {
        const PlanStock *one = &problem->stocks[i];
        if (one->is_standing || one->source != like->source ||
            one->loop != like->loop) {
            continue;
        }
        int apart = one->start_week > week ? one->start_week - week
                                           : week - one->start_week;
        int best = nearest == PLAN_NONE ? -1
                   : problem->stocks[nearest].start_week > week
                       ? problem->stocks[nearest].start_week - week
                       : week - problem->stocks[nearest].start_week;
        nearest = best < 0 || apart < best ? i : nearest;
    }
    if (nearest == PLAN_NONE || problem->stocks[nearest].start_week != week) {
        return err_make(
            ERR_INPUT, "no young fish come in %s; nearest: %s",
            alter_week(alterer, week),
            nearest == PLAN_NONE
                ? "none"
                : alter_week(alterer, problem->stocks[nearest].start_week));
    }
    *out = nearest;
    return ERR_NONE;
}

static bool is_taken(const Alterer *alterer, int stock)
{
    for (int i = 0; i < alterer->solution->run_count; i++) {
        const PlanRun *run = &alterer->solution->runs[i];
        if (run->stock == stock && run->count > 0) {
            return true;
        }
    }
    return false;
}

static void drop_stocking(Alterer *alterer, int stock)
{
    PlanSolution *plan = alterer->solution;
    int kept = 0;
    for (int i = 0; i < plan->run_count; i++) {
        if (plan->runs[i].stock != stock) {
            plan->runs[kept] = plan->runs[i];
            plan->run_numbers[kept++] = plan->run_numbers[i];
        }
    }
    plan->run_count = kept;
}

static Err alter_stocking(Alterer *alterer, const PlanAlter *change,
                          const Step *step, PlanAltered *done)
{
    const Problem *problem = alterer->problem;
    PlanSolution *plan = alterer->solution;
    int stock = plan->runs[step->run].stock;
    int moved = stock;
    for (int i = 0; i < plan->run_count; i++) {
        done->heads += plan->runs[i].stock == stock ? plan->runs[i].count : 0;
    }
    if (change->is_drop) {
        drop_stocking(alterer, stock);
        return ERR_NONE;
    }
    int week = alter_wanted_week(alterer, change, change->on,
                                 problem->stocks[stock].start_week);
    if (week != problem->stocks[stock].start_week) {
        TRY(find_stocking(alterer, stock, week, &moved));
        if (is_taken(alterer, moved)) {
            return err_make(ERR_INPUT, "fish are stocked in %s already",
                            alter_week(alterer, week));
        }
    }
    for (int i = 0; i < plan->run_count; i++) {
        PlanRun *run = &plan->runs[i];
        if (run->stock != stock) {
            continue;
        }
        run->stock = moved;
        if (change->tank && run->tank == done->tank_before) {
            run->to_tank =
                run->to_tank == run->tank ? done->tank_after : run->to_tank;
            run->tank = done->tank_after;
        }
        plan_fit_sale(problem, run);
    }
    done->week_after = week;
    return ERR_NONE;
}

/* ---- A grading or a sale: the fish of one row -----------------------------
 */

/* Fish sold in another week are sold as what they weigh then. */
static int goods_then(const Problem *problem, const PlanRun *run)
{
    double sold_g =
        problem->stocks[run->stock].lanes[run->lane].weight_g[run->sale_week] *
        (1.0 - problem->fish.purge_loss_frac);
    if (problem->goods[run->goods].over_g <= sold_g) {
        return run->goods;
    }
    int found = run->goods;
    double best_g = 0.0;
    for (int g = 0; g < problem->goods_count; g++) {
        const PlanGoods *goods = &problem->goods[g];
        if (goods->is_fish && goods->over_g > best_g &&
            goods->over_g <= sold_g) {
            best_g = goods->over_g;
            found = g;
        }
    }
    return found;
}

static void keep_fish(const Problem *problem, PlanRun *run)
{
    run->sale_week = problem->week_count;
    run->goods = PLAN_NONE;
}

static void alter_run(const Alterer *alterer, const PlanAlter *change,
                      const Step *step, const PlanAltered *done, PlanRun *run)
{
    const Problem *problem = alterer->problem;
    if (step->row->kind == MOVE_GRADE && change->is_drop) {
        run->move_week = PLAN_NONE;
        run->to_tank = run->tank;
    } else if (step->row->kind == MOVE_GRADE) {
        run->move_week = done->week_after;
        run->to_tank = done->tank_after;
    } else if (change->is_drop || done->week_after >= problem->week_count) {
        keep_fish(problem, run);
    } else {
        run->sale_week = done->week_after;
        run->goods = goods_then(problem, run);
    }
}

static Err alter_others(Alterer *alterer, const PlanAlter *change,
                        const Step *step, PlanAltered *done)
{
    PlanSolution *plan = alterer->solution;
    bool is_sale = step->row->kind == MOVE_SALE;
    if (is_sale && change->tank) {
        return err_make(ERR_INPUT, "a sale goes into no tank");
    }
    int week =
        alter_wanted_week(alterer, change, change->on, done->week_before);
    /* A sale past the end is none; a grading there would be for nothing. */
    if (!change->is_drop &&
        (week < 0 || (!is_sale && week >= alterer->problem->week_count))) {
        return err_make(ERR_INPUT, "%s lies outside the plan",
                        alter_week(alterer, week));
    }
    done->week_after = change->is_drop ? PLAN_NONE : week;
    for (int i = 0; i < plan->run_count; i++) {
        if (takes(alterer, step, i) && is_to_come(alterer, step, i)) {
            done->heads += plan->runs[i].count;
            alter_run(alterer, change, step, done, &plan->runs[i]);
        }
    }
    return ERR_NONE;
}

Err alter_step(Alterer *alterer, const PlanAlter *change, PlanAltered *out)
{
    Step step = {NULL, PLAN_NONE};
    if (change->bed || change->section > 0 || change->sections > 0 ||
        change->plants > 0 || change->sow_on != DATE_ALWAYS ||
        change->set_on != DATE_ALWAYS || change->clear_on != DATE_ALWAYS) {
        return err_make(ERR_INPUT, "a step of fish takes weeks, on, tank or "
                                   "drop");
    }
    if (!change->is_drop && change->weeks == 0 && change->on == DATE_ALWAYS &&
        !change->tank) {
        return err_make(ERR_INPUT, "%.60s: tell weeks, on, tank or drop",
                        change->step);
    }
    TRY(find_step(alterer, change->step, &step));
    assert(step.row != NULL);
    const PlanRun *run = &alterer->solution->runs[step.run];
    bool is_stocking = step.row->kind == MOVE_STOCK;
    bool is_grading = step.row->kind == MOVE_GRADE;
    PlanAltered done = {
        .kind = ALTERED_STEP,
        .before = {.option = PLAN_NONE},
        .after = {.option = PLAN_NONE},
        .move_kind = step.row->kind,
        .stock = run->stock,
        .week_before = is_stocking
                           ? alterer->problem->stocks[run->stock].start_week
                       : is_grading ? run->move_week
                                    : run->sale_week,
        .week_after = PLAN_NONE,
        .tank_before = is_stocking ? run->tank : run->to_tank};
    done.tank_after = change->is_drop ? PLAN_NONE : done.tank_before;
    if (change->tank) {
        TRY(alter_tank(alterer, change->tank, &done.tank_after));
    }
    TRY(is_stocking ? alter_stocking(alterer, change, &step, &done)
                    : alter_others(alterer, change, &step, &done));
    *out = done;
    return ERR_NONE;
}
