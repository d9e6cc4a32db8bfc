/* What a plan tells: each order's weeks, each way's earnings, the fish. */
#include "plan/report.h"

typedef struct Reporter {
    const Problem *problem;
    const PlanSolution *solution;
    double *used;  /* [goods][week] units sold */
    double *money; /* [goods] sales */
    PlanReport *out;
} Reporter;

static void report_promise(const Reporter *reporter, int o)
{
    const Problem *problem = reporter->problem;
    const PlanOrder *order = &problem->orders[o];
    PlanPromiseLine line = {.order = o, .worst_week = PLAN_NONE};
    for (int t = 0; t < problem->horizon; t++) {
        double wanted = order->wanted[t];
        if (wanted <= 0.0) {
            continue;
        }
        double kept =
            reporter->solution->outcome.kept[o * problem->week_count + t];
        double missing = wanted - kept;
        line.weeks++;
        line.wanted += wanted;
        line.delivered += kept;
        line.kept_weeks += missing <= 0.01 * wanted;
        if (missing > 0.01 * wanted && missing > line.worst_short) {
            line.worst_short = missing;
            line.worst_week = t;
        }
    }
    reporter->out->promises[o] = line;
}

/* Books made units of a product in week t at that price to its goods; a mix
 * shares its money by weight. */
static void book_product(const Reporter *reporter, int p, int t, double units,
                         double price)
{
    const Problem *problem = reporter->problem;
    const PlanProduct *product = &problem->products[p];
    double kg = 0.0;
    for (int i = 0; i < product->part_count; i++) {
        const PlanPart *part = &product->parts[i];
        kg += part->units * problem->goods[part->goods].kg_per_unit;
    }
    for (int i = 0; i < product->part_count; i++) {
        const PlanPart *part = &product->parts[i];
        double share =
            part->units * problem->goods[part->goods].kg_per_unit / kg;
        reporter->used[part->goods * problem->week_count + t] +=
            units * part->units;
        reporter->money[part->goods] += units * price * share;
    }
}

static void report_sales(const Reporter *reporter)
{
    const Problem *problem = reporter->problem;
    const PlanOutcome *outcome = &reporter->solution->outcome;
    for (int t = 0; t < problem->horizon; t++) {
        for (int o = 0; o < problem->order_count; o++) {
            const PlanOrder *order = &problem->orders[o];
            book_product(reporter, order->product, t,
                         outcome->kept[o * problem->week_count + t],
                         order->price[t]);
        }
        for (int j = 0; j < problem->outlet_count; j++) {
            const PlanOutlet *outlet = &problem->outlets[j];
            book_product(reporter, outlet->product, t,
                         outcome->sold[j * problem->week_count + t],
                         outlet->price[t]);
        }
    }
}

static int lesser(int a, int b)
{
    return a < b ? a : b;
}

static void add_placement(const Reporter *reporter, const PlanPlacement *placed)
{
    const Problem *problem = reporter->problem;
    const PlanOption *option = &problem->options[placed->option];
    PlanWayLine *line = &reporter->out->ways[option->way];
    int from = option->set_week < 0 ? 0 : option->set_week;
    int weeks = lesser(option->clear_week, problem->horizon) - from;
    double held = weeks > 0 ? option->place * placed->units * weeks : 0.0;
    if (option->is_edge) {
        line->edge_weeks += held;
    } else {
        line->bed_weeks += held / problem->beds[placed->bed].sections;
    }
    for (int i = 0; i < option->weeks; i++) {
        int t = option->first_week + i;
        if (t >= 0 && t < problem->horizon) {
            line->hours += option->hours[i] * placed->units;
            line->units += option->mean[i] * placed->units;
        }
    }
    line->money -= option->is_standing ? 0.0 : option->cost * placed->units;
}

static void report_ways(const Reporter *reporter)
{
    const Problem *problem = reporter->problem;
    PlanReport *out = reporter->out;
    for (int i = 0; i < reporter->solution->placement_count; i++) {
        add_placement(reporter, &reporter->solution->placements[i]);
    }
    for (int w = 0; w < problem->way_count; w++) {
        PlanWayLine *line = &out->ways[w];
        line->way = w;
        /* Goods below the fish sizes are the ways, in their order. */
        line->money += reporter->money[w];
        for (int t = 0; t < problem->horizon; t++) {
            line->units_sold += reporter->used[w * problem->week_count + t];
        }
        line->per_bed_week =
            line->bed_weeks > 0.0 ? line->money / line->bed_weeks : 0.0;
        line->per_hour = line->hours > 0.0 ? line->money / line->hours : 0.0;
    }
    for (int g = problem->way_count; g < problem->goods_count; g++) {
        out->fish_money += reporter->money[g];
        for (int t = 0; t < problem->horizon; t++) {
            out->fish_sold += reporter->used[g * problem->week_count + t];
        }
    }
}

/* What is neither sold nor stored. */
static void report_over(const Reporter *reporter)
{
    const Problem *problem = reporter->problem;
    const PlanOutcome *outcome = &reporter->solution->outcome;
    for (int g = 0; g < problem->goods_count; g++) {
        double kept = 0.0;
        for (int t = 0; t < problem->week_count; t++) {
            int at = g * problem->week_count + t;
            double left = outcome->made[at] + kept - reporter->used[at] -
                          outcome->store[at];
            reporter->out->over[at] = left > 0.0 ? left : 0.0;
            kept = outcome->store[at] * problem->goods[g].keep;
        }
    }
}

void plan_report(const Problem *problem, const PlanSolution *solution,
                 Arena *arena, PlanReport *out)
{
    int cells = problem->goods_count * problem->week_count;
    *out = (PlanReport){
        .promises = ARENA_ARRAY(arena, PlanPromiseLine, problem->order_count),
        .ways = ARENA_ARRAY(arena, PlanWayLine, problem->way_count),
        .over = ARENA_ARRAY(arena, double, cells)};
    Reporter reporter = {problem, solution, ARENA_ARRAY(arena, double, cells),
                         ARENA_ARRAY(arena, double, problem->goods_count), out};
    for (int o = 0; o < problem->order_count; o++) {
        report_promise(&reporter, o);
    }
    report_sales(&reporter);
    report_ways(&reporter);
    report_over(&reporter);
    for (int l = 0; l < problem->loop_count; l++) {
        for (int t = 0; t < problem->horizon; t++) {
            out->feed_kg +=
                solution->outcome.given_kg[l * problem->week_count + t];
        }
    }
}
