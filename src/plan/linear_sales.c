/* The linear model: orders, outlets, mixes, stores. */
#include <math.h>

#include "plan/linear_parts.h"

bool linear_is_fixed_mix(const PlanProduct *product)
{
    for (int j = 0; j < product->part_count; j++) {
        const PlanPart *part = &product->parts[j];
        if (part->low < 1.0 || part->high > 1.0) {
            return false;
        }
    }
    return true;
}

static double all_units(const PlanProduct *product)
{
    double units = 0.0;
    for (int j = 0; j < product->part_count; j++) {
        units += product->parts[j].units;
    }
    return units;
}

/* Fish that must be caught in the week in which they are sold. */
static bool is_fresh_fish(const PlanGoods *goods)
{
    return goods->is_fish && !(goods->keep > 0.0);
}

double linear_most_fish_sold(const Problem *problem, int week)
{
    double *made = NULL;
    CLEANUP(arena_release) Arena scratch = {0};
    made = ARENA_ARRAY(&scratch, double, problem->product_count);
    for (int o = 0; o < problem->order_count; o++) {
        made[problem->orders[o].product] += problem->orders[o].wanted[week];
    }
    for (int j = 0; j < problem->outlet_count; j++) {
        made[problem->outlets[j].product] += problem->outlets[j].room[week];
    }
    double most = 0.0;
    for (int p = 0; p < problem->product_count; p++) {
        const PlanProduct *product = &problem->products[p];
        for (int j = 0; j < product->part_count; j++) {
            const PlanPart *part = &product->parts[j];
            if (is_fresh_fish(&problem->goods[part->goods])) {
                most += made[p] * (linear_is_fixed_mix(product)
                                       ? part->units
                                       : part->high * all_units(product));
            }
        }
    }
    return most;
}

/* column takes value of goods in a week, for firm orders or others. */
static void use_goods(LinearPlan *plan, LinearTag what, int column,
                      double value)
{
    int at = what.a * plan->weeks + what.week;
    linear_model_entry(&plan->model, plan->rows.goods[at], column, value);
    if (what.b == 1) {
        linear_model_entry(&plan->model, plan->rows.promise[at], column, value);
    }
    if (is_fresh_fish(&plan->problem->goods[what.a])) {
        linear_model_entry(&plan->model, plan->rows.catch_least[what.week],
                           column, value);
    }
}

static void add_store(LinearPlan *plan, int f)
{
    const PlanGoods *goods = &plan->problem->goods[f];
    LinearModel *model = &plan->model;
    for (int t = 0; t + 1 < plan->weeks; t++) {
        int at = f * plan->weeks + t;
        LinearColumn store = {.tag = {LINEAR_STORE, f, 0, t},
                              .upper = goods->store_max};
        int column = linear_model_column(model, &store);
        linear_model_entry(model, plan->rows.goods[at], column, 1.0);
        linear_model_entry(model, plan->rows.goods[at + 1], column,
                           -goods->keep);
        linear_model_entry(model, plan->rows.promise[at + 1], column,
                           -goods->keep);
    }
}

/* All stores' kg <= store_room_kg */
static void add_room(LinearPlan *plan, int first_column)
{
    const Problem *problem = plan->problem;
    double most = 0.0;
    for (int f = 0; f < problem->goods_count; f++) {
        const PlanGoods *goods = &problem->goods[f];
        most += goods->keep > 0.0 ? goods->store_max * goods->kg_per_unit : 0.0;
    }
    if (most <= problem->store_room_kg) {
        return;
    }
    int *rows = ARENA_ARRAY(plan->arena, int, plan->weeks);
    for (int t = 0; t < plan->weeks; t++) {
        rows[t] =
            linear_model_row(&plan->model, (LinearTag){LINEAR_ROOM, 0, 0, t},
                             -INFINITY, problem->store_room_kg);
    }
    int end = plan->model.column_count;
    for (int j = first_column; j < end; j++) {
        LinearTag tag = plan->model.columns[j].tag;
        linear_model_entry(&plan->model, rows[tag.week], j,
                           problem->goods[tag.a].kg_per_unit);
    }
}

static void add_goods(LinearPlan *plan)
{
    const Problem *problem = plan->problem;
    int count = problem->goods_count * plan->weeks;
    plan->rows.goods = linear_no_rows(plan, count);
    plan->rows.promise = linear_no_rows(plan, count);
    plan->rows.catch_least = linear_no_rows(plan, plan->weeks);
    for (int i = 0; i < count; i++) {
        int f = i / plan->weeks;
        int t = i % plan->weeks;
        plan->rows.goods[i] = linear_model_row(
            &plan->model, (LinearTag){LINEAR_GOODS, f, 0, t}, -INFINITY, 0.0);
        if (!problem->goods[f].is_fish) {
            plan->rows.promise[i] = linear_model_row(
                &plan->model, (LinearTag){LINEAR_PROMISE, f, 0, t}, -INFINITY,
                0.0);
        }
    }
    for (int t = 0; t < plan->weeks && problem->stock_count > 0; t++) {
        plan->rows.catch_least[t] = linear_model_row(
            &plan->model, (LinearTag){LINEAR_CATCH_LEAST, 0, 0, t}, -INFINITY,
            0.0);
    }
    int first_column = plan->model.column_count;
    for (int f = 0; f < problem->goods_count; f++) {
        const PlanGoods *goods = &problem->goods[f];
        if (goods->keep > 0.0 && goods->store_max > 0.0 &&
            problem->store_room_kg > 0.0) {
            add_store(plan, f);
        }
    }
    add_room(plan, first_column);
}

/* The rows of one free mix in one week: (14). Returns the first of them: the
 * whole, then two for each part. */
static int add_mix(LinearPlan *plan, LinearTag mix, int first_part)
{
    const PlanProduct *product = &plan->problem->products[mix.a];
    LinearModel *model = &plan->model;
    int whole = linear_model_row(model, mix, 0.0, 0.0);
    for (int j = 0; j < product->part_count; j++) {
        LinearTag tag = {LINEAR_PART_LOW, first_part + j, mix.b, mix.week};
        int low = linear_model_row(model, tag, 0.0, INFINITY);
        tag.part = LINEAR_PART_HIGH;
        int high = linear_model_row(model, tag, -INFINITY, 0.0);
        LinearColumn part = {.tag = tag, .upper = INFINITY};
        part.tag.part = LINEAR_PART;
        int column = linear_model_column(model, &part);
        linear_model_entry(model, whole, column, 1.0);
        linear_model_entry(model, low, column, 1.0);
        linear_model_entry(model, high, column, 1.0);
        LinearTag use = {LINEAR_GOODS, product->parts[j].goods, mix.b,
                         mix.week};
        use_goods(plan, use, column, 1.0);
    }
    return whole;
}

/* Rows of free mixes: [product][firm][week]. */
static int *add_mixes(LinearPlan *plan)
{
    const Problem *problem = plan->problem;
    int *rows = linear_no_rows(plan, problem->product_count * 2 * plan->weeks);
    int first_part = 0;
    for (int p = 0; p < problem->product_count; p++) {
        bool is_fixed = linear_is_fixed_mix(&problem->products[p]);
        for (int i = 0; i < 2 * plan->weeks && !is_fixed; i++) {
            LinearTag mix = {LINEAR_MIX, p, i / plan->weeks, i % plan->weeks};
            rows[p * 2 * plan->weeks + i] = add_mix(plan, mix, first_part);
        }
        first_part += problem->products[p].part_count;
    }
    return rows;
}

/* Makes column use up its product: firm says which goods it may count on. */
static void use_product(LinearPlan *plan, const int *mixes, LinearTag what,
                        int column)
{
    const PlanProduct *product = &plan->problem->products[what.a];
    int at = (what.a * 2 + what.b) * plan->weeks + what.week;
    double units = all_units(product);
    for (int j = 0; j < product->part_count; j++) {
        const PlanPart *part = &product->parts[j];
        if (mixes[at] == PLAN_NONE) {
            LinearTag use = {LINEAR_GOODS, part->goods, what.b, what.week};
            use_goods(plan, use, column, part->units);
            continue;
        }
        int low = mixes[at] + 1 + 2 * j;
        linear_model_entry(&plan->model, low, column, -part->low * units);
        linear_model_entry(&plan->model, low + 1, column, -part->high * units);
    }
    linear_model_entry(&plan->model, mixes[at], column, -units);
}

/* Sales of one product in one week at one gain are one column of the ceiling:
 * only their sum matters there. */
typedef struct SaleColumns {
    LinearPlan *plan;
    const int *mixes;
    int *first; /* [product][firm][week]: the last one added, or PLAN_NONE */
    int *next;  /* by order or outlet, in the order of adding */
    int *columns;
    int count;
} SaleColumns;

static bool merge_sale(SaleColumns *sales, int at, const LinearColumn *sale)
{
    static const double SAME = 1e-9;
    for (int i = sales->first[at]; i != PLAN_NONE; i = sales->next[i]) {
        LinearColumn *column = &sales->plan->model.columns[sales->columns[i]];
        if (fabs(column->gain - sale->gain) <= SAME) {
            column->upper += sale->upper;
            return true;
        }
    }
    return false;
}

static void add_sale(SaleColumns *sales, LinearTag use,
                     const LinearColumn *sale)
{
    LinearPlan *plan = sales->plan;
    int at = (use.a * 2 + use.b) * plan->weeks + use.week;
    if (!plan->is_exact && merge_sale(sales, at, sale)) {
        return;
    }
    int column = linear_model_column(&plan->model, sale);
    use_product(plan, sales->mixes, use, column);
    sales->columns[sales->count] = column;
    sales->next[sales->count] = sales->first[at];
    sales->first[at] = sales->count++;
}

/* Fish pay for having no buyer when they are caught; who buys them pays it
 * back. */
static double buyer_gain(const Problem *problem, int product)
{
    return problem->fish.unsold_price *
           plan_fish_units(&problem->products[product], problem->goods);
}

static void add_orders(LinearPlan *plan, SaleColumns *sales)
{
    const Problem *problem = plan->problem;
    for (int i = 0; i < problem->order_count * plan->weeks; i++) {
        const PlanOrder *order = &problem->orders[i / plan->weeks];
        int t = i % plan->weeks;
        if (!(order->wanted[t] > 0.0)) {
            continue;
        }
        LinearColumn kept = {.tag = {LINEAR_KEPT, i / plan->weeks, 0, t},
                             .upper = order->wanted[t],
                             .gain = order->price[t] + order->miss +
                                     buyer_gain(problem, order->product)};
        plan->model.constant -= order->miss * order->wanted[t];
        LinearTag use = {LINEAR_MIX, order->product, order->is_firm, t};
        add_sale(sales, use, &kept);
    }
}

void linear_add_sales(LinearPlan *plan)
{
    const Problem *problem = plan->problem;
    add_goods(plan);
    int most = (problem->order_count + problem->outlet_count) * plan->weeks;
    SaleColumns sales = {
        .plan = plan,
        .mixes = add_mixes(plan),
        .first = linear_no_rows(plan, problem->product_count * 2 * plan->weeks),
        .next = ARENA_ARRAY(plan->arena, int, most),
        .columns = ARENA_ARRAY(plan->arena, int, most)};
    add_orders(plan, &sales);
    for (int i = 0; i < problem->outlet_count * plan->weeks; i++) {
        const PlanOutlet *outlet = &problem->outlets[i / plan->weeks];
        int t = i % plan->weeks;
        if (!(outlet->room[t] > 0.0)) {
            continue;
        }
        LinearColumn sold = {.tag = {LINEAR_SOLD, i / plan->weeks, 0, t},
                             .upper = outlet->room[t],
                             .gain = outlet->price[t] +
                                     buyer_gain(problem, outlet->product)};
        LinearTag use = {LINEAR_MIX, outlet->product, 0, t};
        add_sale(&sales, use, &sold);
    }
}
