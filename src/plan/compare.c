/* Two plans of one problem side by side. */
#include "plan/compare.h"

#include <math.h>
#include <stdlib.h>

#include "farm/records.h"

/* Of what is wanted: what is missed of it is not worth the name. */
static const double SLACK_FRAC = 0.01;

/* ---- Orders ---------------------------------------------------------------
 */

static void compare_week(CompareOrder *line, int week, double wanted,
                         double before, double after)
{
    double slack = SLACK_FRAC * wanted;
    bool was_kept = wanted - before <= slack;
    bool is_kept = wanted - after <= slack;
    line->weeks++;
    line->kept_before += was_kept;
    line->kept_after += is_kept;
    line->delivered_before += before;
    line->delivered_after += after;
    bool is_turn = was_kept != is_kept;
    if (!is_turn && (is_kept || fabs(after - before) <= slack)) {
        return;
    }
    CompareTurn turn = was_kept         ? TURN_LOST
                       : is_kept        ? TURN_GAINED
                       : after < before ? TURN_LESS
                                        : TURN_MORE;
    line->changes[line->change_count++] =
        (CompareWeek){week, turn, wanted, before, after};
}

static void compare_orders(const Problem *problem, const PlanOutcome *before,
                           const PlanOutcome *after, Arena *arena,
                           PlanCompare *out)
{
    out->orders = ARENA_ARRAY(arena, CompareOrder, problem->order_count);
    for (int o = 0; o < problem->order_count; o++) {
        CompareOrder line = {
            .order = o,
            .changes = ARENA_ARRAY(arena, CompareWeek, problem->horizon)};
        for (int t = 0; t < problem->horizon; t++) {
            int at = o * problem->week_count + t;
            if (problem->orders[o].wanted[t] > 0.0) {
                compare_week(&line, t, problem->orders[o].wanted[t],
                             before->kept[at], after->kept[at]);
            }
        }
        if (line.change_count > 0) {
            out->orders[out->order_count++] = line;
        }
    }
}

/* ---- Batches --------------------------------------------------------------
 */

static CompareBatch *batch_line(PlanCompare *out, const CompareBatch *of)
{
    for (int i = 0; i < out->batch_count; i++) {
        CompareBatch *line = &out->batches[i];
        if (line->week == of->week && line->way == of->way &&
            line->bed == of->bed && line->clear_week == of->clear_week &&
            line->is_edge == of->is_edge) {
            return line;
        }
    }
    out->batches[out->batch_count] = *of;
    return &out->batches[out->batch_count++];
}

static bool is_same_placement(const PlanPlacement *a, const PlanPlacement *b)
{
    return a->option == b->option && a->bed == b->bed && a->units == b->units;
}

static void add_batches(const Problem *problem, const PlanSolution *plan,
                        const bool *is_shared, bool is_after, PlanCompare *out)
{
    for (int i = 0; i < plan->placement_count; i++) {
        const PlanPlacement *placed = &plan->placements[i];
        const PlanOption *option = &problem->options[placed->option];
        if (is_shared[i]) {
            continue;
        }
        CompareBatch *line =
            batch_line(out, &(CompareBatch){.week = option->set_week,
                                            .way = option->way,
                                            .bed = placed->bed,
                                            .is_edge = option->is_edge,
                                            .sow_week = option->sow_week,
                                            .clear_week = option->clear_week});
        double plants = placed->units * option->plants;
        *(is_after ? &line->units_after : &line->units_before) += placed->units;
        *(is_after ? &line->plants_after : &line->plants_before) += plants;
    }
}

static int by_week_of_batch(const void *left, const void *right)
{
    const CompareBatch *a = left;
    const CompareBatch *b = right;
    return a->week != b->week ? a->week - b->week
           : a->bed != b->bed ? a->bed - b->bed
                              : a->way - b->way;
}

static void compare_batches(const Problem *problem, const PlanSolution *before,
                            const PlanSolution *after, Arena *arena,
                            PlanCompare *out)
{
    int most = before->placement_count + after->placement_count;
    bool *is_before = ARENA_ARRAY(arena, bool, before->placement_count);
    bool *is_after = ARENA_ARRAY(arena, bool, after->placement_count);
    out->batches = ARENA_ARRAY(arena, CompareBatch, most);
    for (int i = 0; i < before->placement_count; i++) {
        for (int j = 0; j < after->placement_count && !is_before[i]; j++) {
            if (!is_after[j] && is_same_placement(&before->placements[i],
                                                  &after->placements[j])) {
                is_before[i] = true;
                is_after[j] = true;
            }
        }
    }
    add_batches(problem, before, is_before, false, out);
    add_batches(problem, after, is_after, true, out);
    int kept = 0;
    for (int i = 0; i < out->batch_count; i++) {
        if (out->batches[i].units_before != out->batches[i].units_after) {
            out->batches[kept++] = out->batches[i];
        }
    }
    out->batch_count = kept;
    if (kept > 1) {
        qsort(out->batches, (size_t)kept, sizeof *out->batches,
              by_week_of_batch);
    }
}

/* ---- Fish and cleans ------------------------------------------------------
 */

static void add_step(PlanCompare *out, const CompareStep *of, int count,
                     bool is_after)
{
    CompareStep *line = NULL;
    for (int i = 0; i < out->step_count && !line; i++) {
        CompareStep *one = &out->steps[i];
        bool is_it = one->week == of->week && one->kind == of->kind &&
                     one->stock == of->stock && one->tank == of->tank &&
                     one->to_tank == of->to_tank;
        line = is_it ? one : NULL;
    }
    if (!line) {
        line = &out->steps[out->step_count++];
        *line = *of;
    }
    *(is_after ? &line->after : &line->before) += count;
}

static void add_steps(const Problem *problem, const PlanSolution *plan,
                      bool is_after, PlanCompare *out)
{
    for (int i = 0; i < plan->run_count; i++) {
        const PlanRun *run = &plan->runs[i];
        const PlanStock *stock = &problem->stocks[run->stock];
        CompareStep step = {.stock = run->stock, .to_tank = PLAN_NONE};
        if (!stock->is_standing) {
            step.kind = MOVE_STOCK;
            step.week = stock->start_week;
            step.tank = run->tank;
            add_step(out, &step, run->count, is_after);
        }
        if (run->move_week != PLAN_NONE) {
            step.kind = MOVE_GRADE;
            step.week = run->move_week;
            step.tank = run->tank;
            step.to_tank = run->to_tank;
            add_step(out, &step, run->count, is_after);
        }
        if (run->goods != PLAN_NONE) {
            step.kind = MOVE_SALE;
            step.week = run->sale_week;
            step.tank = run->to_tank;
            step.to_tank = PLAN_NONE;
            add_step(out, &step, run->count, is_after);
        }
    }
}

static int by_week_of_step(const void *left, const void *right)
{
    const CompareStep *a = left;
    const CompareStep *b = right;
    return a->week != b->week   ? a->week - b->week
           : a->kind != b->kind ? a->kind - b->kind
                                : a->stock - b->stock;
}

static void compare_steps(const Problem *problem, const PlanSolution *before,
                          const PlanSolution *after, Arena *arena,
                          PlanCompare *out)
{
    enum { STEPS_A_RUN = 3 };
    out->steps =
        ARENA_ARRAY(arena, CompareStep,
                    STEPS_A_RUN * (before->run_count + after->run_count));
    add_steps(problem, before, false, out);
    add_steps(problem, after, true, out);
    int kept = 0;
    for (int i = 0; i < out->step_count; i++) {
        if (out->steps[i].before != out->steps[i].after) {
            out->steps[kept++] = out->steps[i];
        }
    }
    out->step_count = kept;
    if (kept > 1) {
        qsort(out->steps, (size_t)kept, sizeof *out->steps, by_week_of_step);
    }
}

static int clean_week(const PlanSolution *plan, int bed)
{
    for (int i = 0; i < plan->cleaning_count; i++) {
        if (plan->cleanings[i].bed == bed) {
            return plan->cleanings[i].week;
        }
    }
    return PLAN_NONE;
}

static void compare_cleans(const Problem *problem, const PlanSolution *before,
                           const PlanSolution *after, Arena *arena,
                           PlanCompare *out)
{
    out->cleans = ARENA_ARRAY(arena, CompareClean, problem->bed_count);
    for (int b = 0; b < problem->bed_count; b++) {
        CompareClean line = {b, clean_week(before, b), clean_week(after, b)};
        if (line.week_before != line.week_after) {
            out->cleans[out->clean_count++] = line;
        }
    }
}

/* ---- Feed -----------------------------------------------------------------
 */

static void compare_feed(const Problem *problem, const PlanOutcome *before,
                         const PlanOutcome *after, Arena *arena,
                         PlanCompare *out)
{
    static const double LEAST_KG = 0.01;
    out->feed = ARENA_ARRAY(arena, CompareFeed, problem->loop_count);
    for (int l = 0; l < problem->loop_count; l++) {
        CompareFeed line = {.loop = l, .worst_week = PLAN_NONE};
        for (int t = 0; t < problem->week_count; t++) {
            int at = l * problem->week_count + t;
            double more = after->short_kg[at] - before->short_kg[at];
            line.short_before_kg += before->short_kg[at];
            line.short_after_kg += after->short_kg[at];
            if (more > line.worst_kg && more >= LEAST_KG) {
                line.worst_kg = more;
                line.worst_week = t;
            }
        }
        if (fabs(line.short_after_kg - line.short_before_kg) >= LEAST_KG) {
            out->feed[out->feed_count++] = line;
        }
    }
}

void plan_compare(const Problem *problem, const PlanSolution *before,
                  const PlanSolution *after, const PlanSolution *today,
                  Arena *arena, PlanCompare *out)
{
    PlanCompare compare = {0};
    compare_orders(problem, &before->outcome, &after->outcome, arena, &compare);
    compare_batches(problem, before, after, arena, &compare);
    compare_steps(problem, before, after, arena, &compare);
    compare_cleans(problem, before, after, arena, &compare);
    compare_feed(problem, &before->outcome, &after->outcome, arena, &compare);
    plan_compare_breaks(problem, before, after, today, arena, &compare);
    *out = compare;
}
