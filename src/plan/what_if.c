/* A plan with one more order beside the plan without it. */
#include "plan/what_if.h"

#include <math.h>

#include "nature/plant/seeds.h"

static bool is_same(const PlanPlacement *a, const PlanPlacement *b)
{
    return a->option == b->option && a->bed == b->bed && a->units == b->units;
}

static bool has_placement(const PlanSolution *solution, const PlanPlacement *p)
{
    for (int i = 0; i < solution->placement_count; i++) {
        if (is_same(&solution->placements[i], p)) {
            return true;
        }
    }
    return false;
}

static int seeds_of(const WhatIfSide *side, const PlanOption *option,
                    int plants)
{
    const Way *way = &side->farm->ways[option->way];
    const BookWay *book = book_way(side->book, way->book);
    double share = book_crop_of(side->book, book)->germination_frac.value *
                   (1.0 - side->book->common[0].seedling_loss_frac.value);
    return seeds_to_sow(plants, share, side->farm->farm[0].sow_confidence_frac);
}

/* Both plans and what is found about them. */
typedef struct Comparison {
    const WhatIfSide *before;
    const WhatIfSide *after;
    WhatIf *out;
} Comparison;

static bool is_part(const PlanProduct *product, int goods)
{
    for (int i = 0; i < product->part_count; i++) {
        if (product->parts[i].goods == goods) {
            return true;
        }
    }
    return false;
}

static void list_batches(const Comparison *both, int product)
{
    const WhatIfSide *side = both->after;
    const Problem *problem = side->problem;
    for (int i = 0; i < side->solution->placement_count; i++) {
        const PlanPlacement *placed = &side->solution->placements[i];
        const PlanOption *option = &problem->options[placed->option];
        if (option->is_standing ||
            !is_part(&problem->products[product], option->goods) ||
            has_placement(both->before->solution, placed)) {
            continue;
        }
        int plants = (int)lround(option->plants * placed->units);
        int32_t from = side->index->from;
        both->out->batches[both->out->batch_count++] = (WhatIfBatch){
            .way = problem->way_names[option->way],
            .bed = problem->beds[placed->bed].id,
            .is_edge = option->is_edge,
            .units = placed->units,
            .plants = plants,
            .seeds = seeds_of(side, option, plants < 1 ? 1 : plants),
            .sow_on = from + 7 * option->sow_week,
            .set_on = from + 7 * option->set_week,
            .pick_from = from + 7 * option->pick_from};
        if (from + 7 * option->sow_week - 1 < both->out->refuse_by) {
            both->out->refuse_by = from + 7 * option->sow_week - 1;
        }
    }
}

/* Orders that get less than before; the asked one is not among them. */
static void list_losses(const Comparison *both)
{
    const Problem *problem = both->before->problem;
    const double *had = both->before->solution->outcome.kept;
    const double *has = both->after->solution->outcome.kept;
    for (int o = 0; o < problem->order_count; o++) {
        WhatIfLoss loss = {.order = problem->orders[o].id};
        for (int t = 0; t < problem->horizon; t++) {
            int at = o * problem->week_count + t;
            loss.units += had[at] - has[at];
            loss.weeks +=
                had[at] - has[at] > 0.01 * problem->orders[o].wanted[t];
        }
        if (loss.weeks > 0 && loss.units > 0.5) {
            both->out->losses[both->out->loss_count++] = loss;
        }
    }
}

static void sum_needs(const Comparison *both)
{
    const PlanOutcome *before = &both->before->solution->outcome;
    const PlanOutcome *after = &both->after->solution->outcome;
    const Problem *problem = both->after->problem;
    WhatIf *out = both->out;
    for (int t = 0; t < problem->horizon; t++) {
        double hours = after->hours[t] - before->hours[t];
        double feed = 0.0;
        for (int l = 0; l < problem->loop_count; l++) {
            int at = l * problem->week_count + t;
            feed += after->want_kg[at] - before->want_kg[at];
        }
        out->more_hours += hours;
        out->more_hours_w = fmax(out->more_hours_w, hours);
        out->more_feed_kg_d = fmax(out->more_feed_kg_d, feed / 7.0);
    }
}

static void judge(const Comparison *both)
{
    const Problem *problem = both->after->problem;
    WhatIf *out = both->out;
    int o = problem->order_count - 1;
    double missed = 0.0;
    for (int t = 0; t < problem->horizon; t++) {
        double wanted = problem->orders[o].wanted[t];
        double kept =
            both->after->solution->outcome.kept[o * problem->week_count + t];
        out->wanted += wanted;
        out->kept += kept;
        missed += problem->orders[o].miss * (wanted - kept);
        if (out->short_week == PLAN_NONE && kept < 0.99 * wanted) {
            out->short_week = t;
        }
    }
    out->value_change = both->after->solution->outcome.value + missed -
                        both->before->solution->outcome.value;
    if (out->short_week != PLAN_NONE || out->wanted <= 0.0) {
        out->verdict = CAN_NO;
    } else if (out->loss_count > 0 || out->value_change < 0.0) {
        out->verdict = CAN_YES_IF;
    } else {
        out->verdict = CAN_YES;
    }
}

void plan_what_if(const WhatIfSide *before, const WhatIfSide *after,
                  Arena *arena, WhatIf *out)
{
    *out = (WhatIf){
        .short_week = PLAN_NONE,
        .refuse_by = DATE_NEVER,
        .batches =
            ARENA_ARRAY(arena, WhatIfBatch, after->solution->placement_count),
        .losses = ARENA_ARRAY(arena, WhatIfLoss, before->problem->order_count)};
    Comparison both = {before, after, out};
    const Problem *problem = after->problem;
    list_batches(&both, problem->orders[problem->order_count - 1].product);
    list_losses(&both);
    sum_needs(&both);
    judge(&both);
}
