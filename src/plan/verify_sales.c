/* The separate checker: sales, parts, stores and the value. */
#include <math.h>

#include "plan/verify_parts.h"

typedef struct SalesWork {
    double *firm;      /* [product][week] made for firm orders */
    double *rest;      /* [product][week] made for all others */
    double *used_firm; /* [goods][week] */
    double *used;      /* [goods][week] firm and rest */
    double money;
} SalesWork;

/* Fish in a unit of a product. */
static double fish_in(const Problem *problem, int product)
{
    const PlanProduct *what = &problem->products[product];
    double fish = 0.0;
    for (int j = 0; j < what->part_count; j++) {
        if (problem->goods[what->parts[j].goods].is_fish) {
            fish += what->parts[j].units;
        }
    }
    return fish;
}

/* (17) */
static void take_sales(Verifier *v, SalesWork *work)
{
    const Problem *problem = v->problem;
    const PlanOutcome *outcome = &v->solution->outcome;
    for (int i = 0; i < problem->order_count * v->weeks; i++) {
        const PlanOrder *order = &problem->orders[i / v->weeks];
        int t = i % v->weeks;
        double kept = outcome->kept[i];
        if (verify_is_over(kept, order->wanted[t]) ||
            verify_is_over(0.0, kept)) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_SALES,
                                        .week = t,
                                        .place = order->id,
                                        .got = kept,
                                        .most = order->wanted[t]},
                         "order %s gets %.2f in week %d and wants %.2f",
                         order->id, kept, t, order->wanted[t]);
        }
        work->money +=
            order->price[t] * kept - order->miss * (order->wanted[t] - kept);
        v->caught -= kept * fish_in(problem, order->product);
        (order->is_firm ? work->firm
                        : work->rest)[order->product * v->weeks + t] += kept;
    }
    for (int i = 0; i < problem->outlet_count * v->weeks; i++) {
        const PlanOutlet *outlet = &problem->outlets[i / v->weeks];
        int t = i % v->weeks;
        double sold = outcome->sold[i];
        if (verify_is_over(sold, outlet->room[t]) ||
            verify_is_over(0.0, sold)) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_SALES,
                                        .week = t,
                                        .place = outlet->id,
                                        .got = sold,
                                        .most = outlet->room[t]},
                         "outlet %s gets %.2f in week %d and has room for "
                         "%.2f",
                         outlet->id, sold, t, outlet->room[t]);
        }
        work->money += outlet->price[t] * sold;
        v->caught -= sold * fish_in(problem, outlet->product);
        work->rest[outlet->product * v->weeks + t] += sold;
    }
}

/* (13), (14) for one product in one week; parts are by week. */
static void check_parts(Verifier *v, int number, const double *parts,
                        double made, int week)
{
    const PlanProduct *product = &v->problem->products[number];
    double units = 0.0;
    double sum = 0.0;
    bool is_fixed = true;
    for (int j = 0; j < product->part_count; j++) {
        const PlanPart *part = &product->parts[j];
        units += part->units;
        sum += parts[j * v->weeks + week];
        is_fixed &= part->low >= 1.0 && part->high <= 1.0;
    }
    for (int j = 0; j < product->part_count; j++) {
        const PlanPart *part = &product->parts[j];
        double got = parts[j * v->weeks + week];
        double low = is_fixed ? part->units : part->low * units;
        double high = is_fixed ? part->units : part->high * units;
        if (verify_is_over(low * made, got) ||
            verify_is_over(got, high * made)) {
            verify_break(
                v,
                &(VerifyBreak){
                    .kind = VERIFY_SALES, .week = week, .place = product->name},
                "%.2f %s hold %.2f of %s in week %d, %.2f to %.2f "
                "may be",
                made, product->name, got, v->problem->goods[part->goods].name,
                week, low * made, high * made);
        }
    }
    if (verify_is_over(fabs(sum - units * made), 0.0) &&
        verify_is_over(fabs(sum / (units * made) - 1.0), 0.0)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_SALES,
                                    .week = week,
                                    .place = product->name},
                     "the parts of %.2f %s come to %.2f in week %d, not to "
                     "%.2f",
                     made, product->name, sum, week, units * made);
    }
}

static void take_parts(Verifier *v, SalesWork *work)
{
    const PlanOutcome *outcome = &v->solution->outcome;
    int part = 0;
    for (int p = 0; p < v->problem->product_count; p++) {
        const PlanProduct *product = &v->problem->products[p];
        const double *firm = &outcome->part_firm[part * v->weeks];
        const double *rest = &outcome->part_rest[part * v->weeks];
        for (int t = 0; t < v->weeks; t++) {
            check_parts(v, p, firm, work->firm[p * v->weeks + t], t);
            check_parts(v, p, rest, work->rest[p * v->weeks + t], t);
        }
        for (int i = 0; i < product->part_count * v->weeks; i++) {
            int goods = product->parts[i / v->weeks].goods;
            int at = goods * v->weeks + i % v->weeks;
            work->used_firm[at] += firm[i];
            work->used[at] += firm[i] + rest[i];
        }
        part += product->part_count;
    }
}

/* (15), (16) */
static void check_goods(Verifier *v, const SalesWork *work, int f, int t)
{
    const PlanGoods *goods = &v->problem->goods[f];
    const double *store = &v->solution->outcome.store[f * v->weeks];
    int at = f * v->weeks + t;
    double before = t > 0 ? goods->keep * store[t - 1] : 0.0;
    double have = v->mean[at] + before;
    if (verify_is_over(work->used[at] + store[t], have)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_SALES,
                                    .week = t,
                                    .place = goods->name,
                                    .got = work->used[at] + store[t],
                                    .most = have},
                     "%.2f of %s are sold and %.2f kept in week %d, of %.2f",
                     work->used[at], goods->name, store[t], t, have);
    }
    double sure = v->low[at] + before;
    if (verify_is_over(work->used_firm[at], sure)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_SALES,
                                    .week = t,
                                    .place = goods->name,
                                    .got = work->used_firm[at],
                                    .most = sure},
                     "firm orders take %.2f of %s in week %d, %.2f can be "
                     "counted on",
                     work->used_firm[at], goods->name, t, sure);
    }
    double most = goods->keep > 0.0 ? goods->store_max : 0.0;
    if (verify_is_over(store[t], most) || verify_is_over(0.0, store[t])) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_SALES,
                                    .week = t,
                                    .place = goods->name,
                                    .got = store[t],
                                    .most = most},
                     "the store holds %.2f of %s in week %d, at most %.2f",
                     store[t], goods->name, t, most);
    }
}

static void check_room(Verifier *v, int week)
{
    double kg = 0.0;
    for (int f = 0; f < v->problem->goods_count; f++) {
        kg += v->solution->outcome.store[f * v->weeks + week] *
              v->problem->goods[f].kg_per_unit;
    }
    if (verify_is_over(kg, v->problem->store_room_kg)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_SALES,
                                    .week = week,
                                    .got = kg,
                                    .most = v->problem->store_room_kg},
                     "the stores hold %.1f kg in week %d, at most %.1f", kg,
                     week, v->problem->store_room_kg);
    }
}

/* (11): what feed falls short costs. */
static double short_cost(const Verifier *v, int l)
{
    const PlanLoop *loop = &v->problem->loops[l];
    double pool = loop->pool_start_kg;
    double cost = 0.0;
    for (int t = 0; t < v->weeks; t++) {
        int at = l * v->weeks + t;
        pool = loop->pool_keep * pool +
               v->given[at] * (1.0 - loop->lost_frac[t]) - v->want[at];
        if (pool < 0.0) {
            cost -= pool * loop->short_price;
            pool = 0.0;
        }
        pool = pool > loop->pool_max_kg ? loop->pool_max_kg : pool;
    }
    return cost;
}

static void check_value(Verifier *v, const SalesWork *work)
{
    double value = work->money - v->costs + v->end_fish -
                   v->caught * v->problem->fish.unsold_price;
    for (int l = 0; l < v->problem->loop_count; l++) {
        value -= short_cost(v, l);
    }
    for (int t = 0; t < v->weeks; t++) {
        double extra = v->hours[t] - v->problem->hours_paid[t];
        value -= extra > 0.0 ? extra * v->problem->wage_extra_h : 0.0;
    }
    v->report->value = value;
    double told = v->solution->outcome.value;
    if (verify_is_over(told, value) || verify_is_over(value, told)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_SALES,
                                    .week = PLAN_NONE,
                                    .got = value,
                                    .most = told},
                     "the plan comes to %.4f, not to the %.4f told", value,
                     told);
    }
}

void verify_sales(Verifier *v)
{
    const Problem *problem = v->problem;
    int products = problem->product_count * v->weeks;
    int goods = problem->goods_count * v->weeks;
    SalesWork work = {.firm = ARENA_ARRAY(v->arena, double, products),
                      .rest = ARENA_ARRAY(v->arena, double, products),
                      .used_firm = ARENA_ARRAY(v->arena, double, goods),
                      .used = ARENA_ARRAY(v->arena, double, goods)};
    take_sales(v, &work);
    take_parts(v, &work);
    for (int i = 0; i < goods; i++) {
        check_goods(v, &work, i / v->weeks, i % v->weeks);
    }
    for (int t = 0; t < v->weeks; t++) {
        check_room(v, t);
    }
    check_value(v, &work);
}
