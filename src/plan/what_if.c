/* A plan with one more order beside the plan without it. */
#include "plan/what_if.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

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

/* What the asked order takes of goods in all, and when. */
typedef struct Need {
    int first_week;
    int last_week;
    double units; /* of the product */
} Need;

static Need need_of(const Problem *problem)
{
    const PlanOrder *order = &problem->orders[problem->order_count - 1];
    Need need = {.first_week = PLAN_NONE};
    for (int t = 0; t < problem->horizon; t++) {
        if (order->wanted[t] > 0.0) {
            need.first_week =
                need.first_week == PLAN_NONE ? t : need.first_week;
            need.last_week = t;
            need.units += order->wanted[t];
        }
    }
    return need;
}

/* Units of goods that a unit of the product takes; 0 where it takes none. */
static double part_units(const PlanProduct *product, int goods)
{
    double units = 0.0;
    for (int i = 0; i < product->part_count; i++) {
        units +=
            product->parts[i].goods == goods ? product->parts[i].units : 0.0;
    }
    return units;
}

/* What a placement gives while the order runs. */
static double gives(const PlanOption *option, const Need *need, int units)
{
    double sum = 0.0;
    for (int i = 0; i < option->weeks; i++) {
        int t = option->first_week + i;
        if (t >= need->first_week && t <= need->last_week) {
            sum += option->mean[i] * units;
        }
    }
    return sum;
}

static int by_sowing(const void *left, const void *right)
{
    const WhatIfBatch *a = left;
    const WhatIfBatch *b = right;
    if (a->sow_on != b->sow_on) {
        return a->sow_on < b->sow_on ? -1 : 1;
    }
    return strcmp(a->bed, b->bed);
}

static WhatIfBatch batch_of(const WhatIfSide *side, const PlanPlacement *placed)
{
    const Problem *problem = side->problem;
    const PlanOption *option = &problem->options[placed->option];
    int plants = (int)lround(option->plants * placed->units);
    int32_t from = side->index->from;
    bool is_fed = option->trays_of > 0;
    WhatIfBatch batch = {
        .way = problem->way_names[option->way],
        .bed = problem->beds[placed->bed].id,
        .is_edge = option->is_edge,
        .units = placed->units,
        .plants = plants,
        .sow_on = from + 7 * (is_fed ? option->set_week : option->sow_week),
        .set_on = from + 7 * option->set_week,
        .pick_from = from + 7 * option->pick_from};
    if (is_fed) {
        batch.trays = problem->seedlings[option->trays_of - 1].id;
    } else {
        batch.seeds = seeds_of(side, option, plants < 1 ? 1 : plants);
    }
    return batch;
}

/* New batches that can fill the order, way by way, until they do: what else is
 * new in the plan is moved about for others. */
static void list_batches(const Comparison *both, int product)
{
    const WhatIfSide *side = both->after;
    const Problem *problem = side->problem;
    const PlanProduct *made = &problem->products[product];
    WhatIf *out = both->out;
    Need need = need_of(problem);
    for (int k = 0; k < made->part_count; k++) {
        int goods = made->parts[k].goods;
        double left = need.units * part_units(made, goods);
        for (int i = 0; i < side->solution->placement_count; i++) {
            const PlanPlacement *placed = &side->solution->placements[i];
            const PlanOption *option = &problem->options[placed->option];
            double given = gives(option, &need, placed->units);
            if (left <= 0.0 || option->is_standing || option->goods != goods ||
                given <= 0.0 || has_placement(both->before->solution, placed)) {
                continue;
            }
            left -= given;
            out->batches[out->batch_count++] = batch_of(side, placed);
        }
    }
    if (out->batch_count > 1) {
        qsort(out->batches, (size_t)out->batch_count, sizeof *out->batches,
              by_sowing);
    }
    if (out->batch_count > 0) {
        out->refuse_by = out->batches[0].sow_on - 1;
    }
}

/* Units of a product kept in a week by all orders but the asked one. */
static double product_kept(const WhatIfSide *side, int order_count, int product,
                           int week)
{
    const Problem *problem = side->problem;
    double sum = 0.0;
    for (int o = 0; o < order_count; o++) {
        if (problem->orders[o].product == product) {
            sum += side->solution->outcome.kept[o * problem->week_count + week];
        }
    }
    return sum;
}

/* Products of which the other orders get less: what one buyer loses to another
 * of the same product is no loss. Under a hundredth is the search's noise. */
static void list_losses(const Comparison *both)
{
    const Problem *problem = both->before->problem;
    int orders = problem->order_count;
    for (int p = 0; p < problem->product_count; p++) {
        WhatIfLoss loss = {.product = problem->products[p].name};
        double all = 0.0;
        for (int t = 0; t < problem->horizon; t++) {
            double had = product_kept(both->before, orders, p, t);
            double less = had - product_kept(both->after, orders, p, t);
            all += had;
            loss.units += less;
            loss.weeks += less > 0.01 * had && less > 0.05;
        }
        if (loss.units > 0.5 && loss.units > 0.01 * all) {
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
