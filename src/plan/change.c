/* How the batches of two plans differ, and what the difference earns. */
#include "plan/change.h"

#include <math.h>
#include <stdlib.h>

#include "plan/verify.h"

static bool has_alike(const Problem *problem, const PlanSolution *solution,
                      const PlanPlacement *placed)
{
    const PlanOption *option = &problem->options[placed->option];
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *other = &solution->placements[i];
        const PlanOption *column = &problem->options[other->option];
        if (other->bed == placed->bed && column->way == option->way &&
            column->set_week == option->set_week &&
            column->is_edge == option->is_edge) {
            return true;
        }
    }
    return false;
}

/* The line of a batch's way and week, begun where it is new. */
static PlanChangeLine *line_of(PlanChange *change, const PlanOption *option)
{
    for (int i = 0; i < change->line_count; i++) {
        PlanChangeLine *line = &change->lines[i];
        if (line->way == option->way && line->is_edge == option->is_edge &&
            line->set_week == option->set_week) {
            return line;
        }
    }
    PlanChangeLine *line = &change->lines[change->line_count++];
    *line = (PlanChangeLine){.way = option->way,
                             .is_edge = option->is_edge,
                             .set_week = option->set_week};
    return line;
}

/* Batches of one plan that the other lacks, each with its line. */
static int count_alone(const Problem *problem, const PlanSolution *solution,
                       const PlanSolution *other, PlanChange *change)
{
    int count = 0;
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *placed = &solution->placements[i];
        const PlanOption *option = &problem->options[placed->option];
        if (option->is_standing || has_alike(problem, other, placed)) {
            continue;
        }
        count++;
        (void)line_of(change, option);
    }
    return count;
}

static int units_of(const Problem *problem, const PlanSolution *solution,
                    const PlanChangeLine *line)
{
    int units = 0;
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *placed = &solution->placements[i];
        const PlanOption *option = &problem->options[placed->option];
        bool is_of = !option->is_standing && option->way == line->way &&
                     option->is_edge == line->is_edge &&
                     option->set_week == line->set_week;
        units += is_of ? placed->units : 0;
    }
    return units;
}

static int by_week(const void *left, const void *right)
{
    const PlanChangeLine *a = left;
    const PlanChangeLine *b = right;
    return a->set_week != b->set_week
               ? (a->set_week > b->set_week) - (a->set_week < b->set_week)
               : a->way - b->way;
}

static void list_batches(const Problem *problem, const PlanSolution *before,
                         const PlanSolution *after, Arena *arena,
                         PlanChange *out)
{
    out->lines = ARENA_ARRAY(arena, PlanChangeLine,
                             before->placement_count + after->placement_count);
    out->added = count_alone(problem, after, before, out);
    out->dropped = count_alone(problem, before, after, out);
    for (int i = 0; i < after->placement_count; i++) {
        out->stayed +=
            !problem->options[after->placements[i].option].is_standing;
    }
    out->stayed -= out->added;
    for (int i = 0; i < out->line_count; i++) {
        PlanChangeLine *line = &out->lines[i];
        line->before = units_of(problem, before, line);
        line->after = units_of(problem, after, line);
    }
    qsort(out->lines, (size_t)out->line_count, sizeof *out->lines, by_week);
}

/* Units and money of one order over the horizon, added to the sale. */
static void add_order(const Problem *problem, int order,
                      const PlanOutcome *outcome, double sign,
                      PlanChangeSale *sale)
{
    const PlanOrder *o = &problem->orders[order];
    double *units = sign < 0.0 ? &sale->before : &sale->after;
    for (int t = 0; t < problem->horizon; t++) {
        double kept = outcome->kept[order * problem->week_count + t];
        *units += kept;
        sale->money += sign * kept * (o->price[t] + o->miss);
    }
}

static void add_outlet(const Problem *problem, int outlet,
                       const PlanOutcome *outcome, double sign,
                       PlanChangeSale *sale)
{
    const PlanOutlet *o = &problem->outlets[outlet];
    double *units = sign < 0.0 ? &sale->before : &sale->after;
    for (int t = 0; t < problem->horizon; t++) {
        double sold = outcome->sold[outlet * problem->week_count + t];
        *units += sold;
        sale->money += sign * sold * o->price[t];
    }
}

static int by_money(const void *left, const void *right)
{
    double a = fabs(((const PlanChangeSale *)left)->money);
    double b = fabs(((const PlanChangeSale *)right)->money);
    return (a < b) - (a > b);
}

static void list_sales(const Problem *problem, const PlanOutcome *before,
                       const PlanOutcome *after, Arena *arena, PlanChange *out)
{
    static const double LEAST_MONEY = 0.5;
    int most = problem->order_count + problem->outlet_count;
    out->sales = ARENA_ARRAY(arena, PlanChangeSale, most);
    for (int i = 0; i < most; i++) {
        int outlet = i - problem->order_count;
        PlanChangeSale sale = {0};
        if (outlet < 0) {
            sale.id = problem->orders[i].id;
            sale.product = problem->orders[i].product;
            add_order(problem, i, before, -1.0, &sale);
            add_order(problem, i, after, 1.0, &sale);
        } else {
            sale.id = problem->outlets[outlet].id;
            sale.product = problem->outlets[outlet].product;
            add_outlet(problem, outlet, before, -1.0, &sale);
            add_outlet(problem, outlet, after, 1.0, &sale);
        }
        if (fabs(sale.money) >= LEAST_MONEY) {
            out->sales[out->sale_count++] = sale;
        }
    }
    qsort(out->sales, (size_t)out->sale_count, sizeof *out->sales, by_money);
}

void plan_change(const Problem *problem, const PlanSolution *before,
                 int left_out, const PlanSolution *after, Arena *arena,
                 PlanChange *out)
{
    *out = (PlanChange){.left_out = left_out,
                        .value_before = before->outcome.value};
    list_batches(problem, before, after, arena, out);
    list_sales(problem, &before->outcome, &after->outcome, arena, out);
    VerifyReport *report = ARENA_NEW(arena, VerifyReport);
    plan_verify_choices(problem, before, arena, report);
    out->broken = report->count;
    out->break_of = report->count > 0 ? report->texts[0] : NULL;
}

static int shared(int from, int units, int other_from, int other_units)
{
    int first = from > other_from ? from : other_from;
    int end = from + units < other_from + other_units
                  ? from + units
                  : other_from + other_units;
    return end > first ? end - first : 0;
}

/* Share of a placement that another plan has too: 0..1 an edge batch, else
 * sections. */
static double kept_units(const Problem *problem, const PlanPlacement *placed,
                         const PlanSolution *other)
{
    const PlanOption *option = &problem->options[placed->option];
    double units = 0.0;
    for (int i = 0; i < other->placement_count; i++) {
        const PlanPlacement *its = &other->placements[i];
        const PlanOption *column = &problem->options[its->option];
        if (its->bed != placed->bed || column->way != option->way ||
            column->set_week != option->set_week ||
            column->is_edge != option->is_edge) {
            continue;
        }
        if (!option->is_edge) {
            units += shared(placed->first_section, placed->units,
                            its->first_section, its->units);
        } else if (its->option == placed->option) {
            units = fmin(1.0, (double)its->units / placed->units);
        }
    }
    return units;
}

double plan_kept_worth(const Problem *problem, const PlanSolution *accepted,
                       const PlanSolution *other)
{
    double worth = 0.0;
    for (int i = 0; i < accepted->placement_count; i++) {
        const PlanPlacement *placed = &accepted->placements[i];
        const PlanOption *option = &problem->options[placed->option];
        if (!option->is_standing && option->set_week >= 0) {
            worth += kept_units(problem, placed, other) *
                     plan_change_price(problem, option->set_week);
        }
    }
    return worth;
}

double plan_change_price(const Problem *problem, int week)
{
    return problem->change_price *
           exp2(-(double)week / problem->change_half_weeks);
}
