/* The demo's year, measured. */
#include "measures.h"

#include "base/date.h"
#include "desk/check_farm.h"
#include "plan/evaluate.h"
#include "plan/search.h"
#include "plan/verify.h"

#include "check.h"

void demo_open(const char *dir, int weeks, Demo *out)
{
    *out = (Demo){0};
    const Farm *farm = NULL;
    assert_ok(check_farm_load(dir, &out->arena, &farm));
    PlanInputs wanted = {.from = week_of(farm->farm[0].records_from),
                         .weeks = weeks};
    assert_ok(plan_year_make(farm, &wanted, &out->arena, &out->year));
}

void demo_close(Demo *demo)
{
    arena_release(&demo->arena);
}

static double *weeks_of(Demo *demo)
{
    return ARENA_ARRAY(&demo->arena, double, demo->year.problem.week_count);
}

static double sum_of(const double *values, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        sum += values[i];
    }
    return sum;
}

static int last_week(const Problem *problem, const PlanOption *option)
{
    return option->clear_week < problem->week_count ? option->clear_week
                                                    : problem->week_count;
}

/* Weeks in which a unit holds its place. */
static int weeks_held(const Problem *problem, const PlanOption *option)
{
    int from = option->set_week > 0 ? option->set_week : 0;
    return last_week(problem, option) - from;
}

/* The column that holds its place least long for a unit that is ready in that
 * week; PLAN_NONE where none is. */
static int leanest(const Problem *problem, int goods, int week)
{
    int best = PLAN_NONE;
    double least = 0.0;
    for (int r = 0; r < problem->option_count; r++) {
        const PlanOption *option = &problem->options[r];
        int at = week - option->first_week;
        if (option->goods != goods || option->is_standing || at < 0 ||
            at >= option->weeks || option->mean[at] <= 0.0 ||
            option->clear_week > problem->week_count) {
            continue;
        }
        double held = option->place * weeks_held(problem, option) /
                      sum_of(option->mean, option->weeks);
        if (best == PLAN_NONE || held < least) {
            best = r;
            least = held;
        }
    }
    return best;
}

static void add_wanted(const Problem *problem, const PlanOption *option,
                       double units, Wanted *out)
{
    double share = units / sum_of(option->mean, option->weeks);
    const PlanKind *kind = &problem->kinds[option->kind];
    int from = option->set_week > 0 ? option->set_week : 0;
    for (int t = from; t < last_week(problem, option); t++) {
        if (option->is_edge) {
            out->edge_m[t] += share * option->place;
        } else {
            out->floor_beds[t] +=
                share * option->place / kind->sections_per_bed;
        }
    }
    for (int i = 0; i < option->weeks; i++) {
        out->hours[option->first_week + i] += share * option->hours[i];
    }
}

void wanted_by_orders(Demo *demo, Wanted *out)
{
    const Problem *problem = &demo->year.problem;
    *out = (Wanted){.floor_beds = weeks_of(demo),
                    .edge_m = weeks_of(demo),
                    .hours = weeks_of(demo)};
    for (int g = 0; g < problem->goods_count; g++) {
        for (int t = 0; t < problem->week_count; t++) {
            int best = leanest(problem, g, t);
            if (best == PLAN_NONE) {
                continue;
            }
            double units = 0.0;
            for (int o = 0; o < problem->order_count; o++) {
                const PlanOrder *order = &problem->orders[o];
                const PlanProduct *product = &problem->products[order->product];
                for (int i = 0; i < product->part_count; i++) {
                    units += product->parts[i].goods == g
                                 ? order->wanted[t] * product->parts[i].units
                                 : 0.0;
                }
            }
            add_wanted(problem, &problem->options[best], units, out);
        }
    }
}

double *beds_there(Demo *demo)
{
    const Problem *problem = &demo->year.problem;
    double *beds = weeks_of(demo);
    for (int c = 0; c < problem->kind_count; c++) {
        for (int t = 0; t < problem->week_count; t++) {
            beds[t] += problem->kinds[c].sections[t] /
                       problem->kinds[c].sections_per_bed;
        }
    }
    return beds;
}

double month_mean(const Demo *demo, const double *weeks, int year, int month)
{
    double sum = 0.0;
    int count = 0;
    for (int t = 0; t < demo->year.problem.week_count; t++) {
        CivilDate date = date_to_civil(demo->year.index.from + 7 * t + 3);
        if (date.year == year && date.month == month) {
            sum += weeks[t];
            count++;
        }
    }
    return count > 0 ? sum / count : 0.0;
}

int way_of(const Demo *demo, const char *way)
{
    const Problem *problem = &demo->year.problem;
    for (int w = 0; w < problem->way_count; w++) {
        if (strcmp(problem->way_names[w], way) == 0) {
            return w;
        }
    }
    fail_msg("no way %s", way);
    return PLAN_NONE;
}

int product_of(const Demo *demo, const char *product)
{
    const Farm *farm = demo->year.farm;
    for (int p = 0; p < farm->products_count; p++) {
        if (strcmp(farm->products[p].id, product) == 0) {
            return p;
        }
    }
    fail_msg("no product %s", product);
    return PLAN_NONE;
}

double *standing_units(Demo *demo, const char *way)
{
    const Problem *problem = &demo->year.problem;
    int wanted = way_of(demo, way);
    double *units = weeks_of(demo);
    for (int i = 0; i < problem->standing_count; i++) {
        const PlanStanding *standing = &problem->standing[i];
        const PlanOption *option = &problem->options[standing->option];
        for (int k = 0; k < option->weeks && option->way == wanted; k++) {
            units[option->first_week + k] += standing->units * option->mean[k];
        }
    }
    return units;
}

double *ordered_units(Demo *demo, const char *product)
{
    const Problem *problem = &demo->year.problem;
    int wanted = product_of(demo, product);
    double *units = weeks_of(demo);
    for (int o = 0; o < problem->order_count; o++) {
        const PlanOrder *order = &problem->orders[o];
        for (int t = 0; t < problem->week_count && order->product == wanted;
             t++) {
            units[t] += order->wanted[t];
        }
    }
    return units;
}

/* Best price that an order pays for a unit of goods sold on their own. */
static double best_price(const Problem *problem, int goods)
{
    double best = 0.0;
    for (int o = 0; o < problem->order_count; o++) {
        const PlanOrder *order = &problem->orders[o];
        const PlanProduct *product = &problem->products[order->product];
        if (product->part_count != 1 || product->parts[0].goods != goods) {
            continue;
        }
        for (int t = 0; t < problem->week_count; t++) {
            best = fmax(best, order->price[t] / product->parts[0].units);
        }
    }
    return best;
}

double best_bed_week(Demo *demo, const char *way)
{
    const Problem *problem = &demo->year.problem;
    int wanted = way_of(demo, way);
    double best = -INFINITY;
    for (int r = 0; r < problem->option_count; r++) {
        const PlanOption *option = &problem->options[r];
        if (option->way != wanted || option->is_standing || option->is_edge ||
            option->clear_week > problem->week_count) {
            continue;
        }
        double money = sum_of(option->mean, option->weeks) *
                           best_price(problem, option->goods) -
                       option->cost;
        double beds =
            option->place / problem->kinds[option->kind].sections_per_bed;
        best = fmax(best, money / (beds * weeks_held(problem, option)));
    }
    return best;
}

void short_plan(Demo *demo, int64_t moves, PlanSolution *out)
{
    const Problem *problem = &demo->year.problem;
    SearchSetup setup = {.seed = 7, .moves = moves};
    Search *search = search_open(&demo->arena, problem, &setup);
    while (search_step(search)) {
    }
    double faults = 0.0;
    (void)search_take(search, &demo->arena, out, &faults);
    assert_true(faults < 0.5);
    assert_ok(plan_evaluate(problem, out, &demo->arena, &out->outcome));
    VerifyReport report;
    plan_verify(problem, out, &demo->arena, &report);
    assert_int_equal(report.count, 0);
}
