/* Families of goods and their weekly worth; ladders. */
#include "plan/sales.h"

#include <assert.h>
#include <stdlib.h>

#include "plan/sales_parts.h"

static int root_of(int *parent, int goods)
{
    while (parent[goods] != goods) {
        parent[goods] = parent[parent[goods]];
        goods = parent[goods];
    }
    return goods;
}

/* Joins the goods of each mixed product. */
static void join_goods(const Problem *p, int *parent)
{
    for (int g = 0; g < p->goods_count; g++) {
        parent[g] = g;
    }
    for (int i = 0; i < p->product_count; i++) {
        const PlanProduct *product = &p->products[i];
        for (int j = 1; j < product->part_count; j++) {
            int a = root_of(parent, product->parts[0].goods);
            int b = root_of(parent, product->parts[j].goods);
            parent[a > b ? a : b] = a > b ? b : a;
        }
    }
}

static void list_families(Sales *sales, Arena *arena)
{
    const Problem *p = sales->problem;
    int *parent = ARENA_ARRAY(arena, int, p->goods_count);
    join_goods(p, parent);
    sales->families = ARENA_ARRAY(arena, SalesFamily, p->goods_count);
    sales->family_of = ARENA_ARRAY(arena, int, p->goods_count);
    for (int g = 0; g < p->goods_count; g++) {
        int root = root_of(parent, g);
        if (root == g) {
            sales->family_of[g] = sales->family_count++;
        }
        SalesFamily *family = &sales->families[sales->family_of[root]];
        if (root == g) {
            family->goods = ARENA_ARRAY(arena, int, p->goods_count);
        }
        sales->family_of[g] = sales->family_of[root];
        family->goods[family->goods_count++] = g;
    }
}

static int by_falling_price(const void *left, const void *right)
{
    const SalesStep *a = left, *b = right;
    if (a->price > b->price || a->price < b->price) {
        return a->price > b->price ? -1 : 1;
    }
    return b->is_firm - a->is_firm;
}

/* The ladder of one week into steps; how many. */
static int make_ladder(const Sales *sales, int goods, int week,
                       SalesStep *steps)
{
    const Problem *p = sales->problem;
    int count = 0;
    for (int i = 0; i < p->order_count + p->outlet_count; i++) {
        SalesOffer offer = sales_offer(p, i);
        const PlanPart *part = p->products[offer.product].parts;
        double price = offer.price[week] + offer.miss;
        if (part->goods != goods || offer.room[week] <= 0.0 || price <= 0.0) {
            continue;
        }
        steps[count++] = (SalesStep){.price = price / part->units,
                                     .room = offer.room[week] * part->units,
                                     .is_firm = offer.is_firm};
    }
    qsort(steps, (size_t)count, sizeof *steps, by_falling_price);
    return count;
}

static void open_ladder(Sales *sales, SalesFamily *family, Arena *arena)
{
    const Problem *p = sales->problem;
    int offers = 0;
    for (int i = 0; i < p->order_count + p->outlet_count; i++) {
        const PlanProduct *product = &p->products[sales_offer(p, i).product];
        offers += product->parts[0].goods == family->goods[0];
    }
    family->is_ladder = true;
    family->steps = ARENA_ARRAY(arena, SalesStep, offers * p->week_count);
    family->step_from = ARENA_ARRAY(arena, int, p->week_count + 1);
    for (int t = 0; t < p->week_count; t++) {
        int from = family->step_from[t];
        family->step_from[t + 1] = from + make_ladder(sales, family->goods[0],
                                                      t, family->steps + from);
    }
}

static double miss_everything(const Problem *p)
{
    double missed = 0.0;
    for (int i = 0; i < p->order_count; i++) {
        for (int t = 0; t < p->week_count; t++) {
            missed += p->orders[i].miss * p->orders[i].wanted[t];
        }
    }
    return missed;
}

void sales_open(Sales *sales, const Problem *problem, Arena *arena)
{
    *sales = (Sales){.problem = problem};
    list_families(sales, arena);
    for (int f = 0; f < sales->family_count; f++) {
        SalesFamily *family = &sales->families[f];
        if (family->goods_count == 1) {
            open_ladder(sales, family, arena);
        } else {
            sales_open_joined(sales, family, arena);
        }
    }
    sales->missed_all = miss_everything(problem);
}

static double ladder_week(const SalesFamily *family, int week, double low,
                          double mean)
{
    const SalesStep *step = family->steps + family->step_from[week];
    const SalesStep *end = family->steps + family->step_from[week + 1];
    double worth = 0.0;
    for (; step < end && mean > 0.0; step++) {
        double take = step->room < mean ? step->room : mean;
        if (step->is_firm) {
            take = take < low ? take : low;
            low -= take;
        }
        mean -= take;
        worth += take * step->price;
    }
    return worth;
}

static const double *right_of(const SalesFamily *family,
                              const SalesSupply *supply)
{
    for (int i = 0; i < family->goods_count; i++) {
        family->right[i] = supply->mean[i];
        if (family->low_row[i] != PLAN_NONE) {
            family->right[family->low_row[i]] = supply->low[i];
        }
    }
    return family->right;
}

double sales_week(const Sales *sales, int family, int week,
                  const SalesSupply *supply)
{
    const SalesFamily *f = &sales->families[family];
    if (f->is_ladder) {
        return ladder_week(f, week, supply->low[0], supply->mean[0]);
    }
    return sales_simplex_solve(&f->weeks[week], right_of(f, supply));
}

double sales_bound(const Sales *sales, int family, int week,
                   const SalesSupply *supply)
{
    const SalesFamily *f = &sales->families[family];
    if (f->is_ladder) {
        return ladder_week(f, week, supply->low[0], supply->mean[0]);
    }
    return sales_simplex_bound(&f->weeks[week], right_of(f, supply));
}

int sales_most_goods(const Sales *sales)
{
    int most = 1;
    for (int f = 0; f < sales->family_count; f++) {
        int count = sales->families[f].goods_count;
        most = count > most ? count : most;
    }
    return most;
}
