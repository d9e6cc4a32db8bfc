/* Joined goods: one week's sales as a small linear programme.
 *
 * Columns: each offer of a product of the family, in units of the product;
 * then for each free mix, for firm orders and for the rest, what each part
 * gives above its least share. Rows: expected and counted-on goods; for each
 * free mix the parts above their least shares add up, and each stays below its
 * most. All rows are "at most". */
#include "plan/sales_parts.h"

typedef struct Joined {
    const Problem *problem;
    SalesFamily *family;
    int *local;         /* by goods: place in the family */
    int *mix_row[2];    /* by product: first row of a free mix; [is firm] */
    int *mix_column[2]; /* first column of its parts */
    int *offers;        /* column by column */
    int offer_count;
    SalesSimplex shape;
} Joined;

bool sales_is_fixed(const PlanProduct *product)
{
    for (int j = 0; j < product->part_count; j++) {
        if (product->parts[j].low < 1.0) {
            return product->part_count == 1;
        }
    }
    return true;
}

static double units_of(const PlanProduct *product)
{
    double units = 0.0;
    for (int j = 0; j < product->part_count; j++) {
        units += product->parts[j].units;
    }
    return units;
}

static bool is_of_family(const Sales *sales, const SalesFamily *family,
                         int product)
{
    int goods = sales->problem->products[product].parts[0].goods;
    return &sales->families[sales->family_of[goods]] == family;
}

static void list_offers(Joined *joined, const Sales *sales, Arena *arena)
{
    const Problem *p = joined->problem;
    int most = p->order_count + p->outlet_count;
    joined->offers = ARENA_ARRAY(arena, int, most);
    for (int i = 0; i < most; i++) {
        if (is_of_family(sales, joined->family, sales_offer(p, i).product)) {
            joined->offers[joined->offer_count++] = i;
        }
    }
}

/* Gives rows to the goods' promises and rows and columns to free mixes, as far
 * as an offer needs them. */
static void number_rows(Joined *joined, Arena *arena)
{
    const Problem *p = joined->problem;
    SalesFamily *family = joined->family;
    int rows = family->goods_count;
    int columns = joined->offer_count;
    for (int i = 0; i < family->goods_count; i++) {
        family->low_row[i] = PLAN_NONE;
    }
    for (int firm = 0; firm < 2; firm++) {
        joined->mix_row[firm] = ARENA_ARRAY(arena, int, p->product_count);
        joined->mix_column[firm] = ARENA_ARRAY(arena, int, p->product_count);
    }
    for (int i = 0; i < joined->offer_count; i++) {
        SalesOffer offer = sales_offer(p, joined->offers[i]);
        const PlanProduct *product = &p->products[offer.product];
        for (int j = 0; offer.is_firm && j < product->part_count; j++) {
            int *low = &family->low_row[joined->local[product->parts[j].goods]];
            *low = *low == PLAN_NONE ? rows++ : *low;
        }
        int *row = &joined->mix_row[offer.is_firm][offer.product];
        if (!sales_is_fixed(product) && *row == 0) {
            *row = rows;
            rows += 1 + product->part_count;
            joined->mix_column[offer.is_firm][offer.product] = columns;
            columns += product->part_count;
        }
    }
    joined->shape.rows = rows;
    joined->shape.columns = columns;
}

static void add_goods(Joined *joined, double *matrix, int column,
                      const PlanPart *part, double units, bool is_firm)
{
    int local = joined->local[part->goods];
    int columns = joined->shape.columns;
    matrix[local * columns + column] += units;
    if (is_firm) {
        matrix[joined->family->low_row[local] * columns + column] += units;
    }
}

/* An offer's column: its least of each part, and for a free mix what the parts
 * must add and may add. */
static void fill_offer(Joined *joined, double *matrix, int column)
{
    const Problem *p = joined->problem;
    int columns = joined->shape.columns;
    SalesOffer offer = sales_offer(p, joined->offers[column]);
    const PlanProduct *product = &p->products[offer.product];
    bool is_fixed = sales_is_fixed(product);
    double all = units_of(product);
    double open = all;
    int row = joined->mix_row[offer.is_firm][offer.product];
    for (int j = 0; j < product->part_count; j++) {
        const PlanPart *part = &product->parts[j];
        double least = is_fixed ? part->units : part->low * all;
        add_goods(joined, matrix, column, part, least, offer.is_firm);
        open -= least;
        if (!is_fixed) {
            matrix[(row + 1 + j) * columns + column] =
                -(part->high - part->low) * all;
        }
    }
    if (!is_fixed) {
        matrix[row * columns + column] = open;
    }
}

static void fill_mix(Joined *joined, double *matrix, int product, bool is_firm)
{
    const PlanProduct *mix = &joined->problem->products[product];
    int columns = joined->shape.columns;
    int row = joined->mix_row[is_firm][product];
    int column = joined->mix_column[is_firm][product];
    for (int j = 0; row > 0 && j < mix->part_count; j++) {
        add_goods(joined, matrix, column + j, &mix->parts[j], 1.0, is_firm);
        matrix[row * columns + column + j] = -1.0;
        matrix[(row + 1 + j) * columns + column + j] = 1.0;
    }
}

/* Most that the parts of a mix can be worth having in a week. */
static double mix_bound(const Joined *joined, int product, int week)
{
    const Problem *p = joined->problem;
    double units = 0.0;
    for (int i = 0; i < joined->offer_count; i++) {
        SalesOffer offer = sales_offer(p, joined->offers[i]);
        units += offer.product == product ? offer.room[week] : 0.0;
    }
    return units * units_of(&p->products[product]);
}

static void open_week(Joined *joined, int week, Arena *arena)
{
    const Problem *p = joined->problem;
    int columns = joined->shape.columns;
    double *gain = ARENA_ARRAY(arena, double, columns);
    double *upper = ARENA_ARRAY(arena, double, columns);
    for (int i = 0; i < joined->offer_count; i++) {
        SalesOffer offer = sales_offer(p, joined->offers[i]);
        gain[i] = offer.price[week] + offer.miss;
        upper[i] = offer.room[week] > 0.0 ? offer.room[week] : 0.0;
    }
    for (int product = 0; product < p->product_count; product++) {
        for (int firm = 0; firm < 2; firm++) {
            int parts = joined->mix_row[firm][product] > 0
                            ? p->products[product].part_count
                            : 0;
            for (int j = 0; j < parts; j++) {
                upper[joined->mix_column[firm][product] + j] =
                    mix_bound(joined, product, week);
            }
        }
    }
    SalesSimplex shape = joined->shape;
    shape.gain = gain;
    shape.upper = upper;
    sales_simplex_open(&joined->family->weeks[week], &shape, arena);
}

void sales_open_joined(Sales *sales, SalesFamily *family, Arena *arena)
{
    const Problem *p = sales->problem;
    Joined joined = {.problem = p, .family = family};
    joined.local = ARENA_ARRAY(arena, int, p->goods_count);
    for (int i = 0; i < family->goods_count; i++) {
        joined.local[family->goods[i]] = i;
    }
    family->low_row = ARENA_ARRAY(arena, int, family->goods_count);
    list_offers(&joined, sales, arena);
    number_rows(&joined, arena);
    SalesSimplex *shape = &joined.shape;
    double *matrix = ARENA_ARRAY(arena, double, shape->rows * shape->columns);
    for (int i = 0; i < joined.offer_count; i++) {
        fill_offer(&joined, matrix, i);
    }
    for (int product = 0; product < p->product_count; product++) {
        fill_mix(&joined, matrix, product, false);
        fill_mix(&joined, matrix, product, true);
    }
    shape->matrix = matrix;
    family->weeks = ARENA_ARRAY(arena, SalesSimplex, p->week_count);
    family->right = ARENA_ARRAY(arena, double, shape->rows);
    for (int t = 0; t < p->week_count; t++) {
        open_week(&joined, t, arena);
    }
}
