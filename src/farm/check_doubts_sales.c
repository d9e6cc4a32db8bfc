/* Doubts about the selling: prices, quantities and units far from the others.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "farm/checker.h"

enum { G_PER_KG = 1000, FEW = 5, LONG_DAYS = 56, WEEKS_OF_A_CROP = 4 };

/* Marks of a slip of the pen, common practice of the trade: a product's prices
 * lie within five times of each other, those of all products within 25 times
 * of the middle one, its orders within 20 times of the middle one; no crop is
 * sown and cleared in less than four weeks. */
#define PRICE_TIMES 5.0
#define PRODUCT_TIMES 25.0
#define ORDER_TIMES 20.0

static int compare_numbers(const void *left, const void *right)
{
    double a = *(const double *)left;
    double b = *(const double *)right;
    return (a > b) - (a < b);
}

/* The middle one of count numbers, the lower of two. Sorts them. */
static double middle_of(double *numbers, int32_t count)
{
    qsort(numbers, (size_t)count, sizeof *numbers, compare_numbers);
    return numbers[(count - 1) / 2];
}

static bool is_far(double value, double middle, double times)
{
    return value > times * middle || value < middle / times;
}

/* ---- Prices ---------------------------------------------------------------
 */

/* Doubts of one product's prices, which are sorted together. */
static void doubt_group(const Checker *c, const CheckKey *keys, int32_t count,
                        double *numbers, double all_e4)
{
    for (int32_t i = 0; i < count; i++) {
        numbers[i] = (double)c->farm->prices[keys[i].row].price_e4;
    }
    double middle = middle_of(numbers, count);
    for (int32_t i = 0; i < count; i++) {
        const Price *row = &c->farm->prices[keys[i].row];
        double price = (double)row->price_e4;
        const char *product = c->farm->products[row->product].id;
        if (count > 1 && is_far(price, middle, PRICE_TIMES)) {
            check_doubt(c, TABLE_prices, row, "price",
                        "other prices of %s are about %.6g", product,
                        middle / 10000.0);
        } else if (all_e4 > 0.0 && is_far(price, all_e4, PRODUCT_TIMES)) {
            check_doubt(c, TABLE_prices, row, "price",
                        "the middle price of all products is %.6g, and this is "
                        "%.3g times as much",
                        all_e4 / 10000.0, price / all_e4);
        }
    }
}

static void doubt_prices(const Checker *c)
{
    int32_t count = c->farm->prices_count;
    CheckKey *keys = ARENA_ARRAY(c->arena, CheckKey, count);
    double *numbers = ARENA_ARRAY(c->arena, double, count);
    int32_t known = 0;
    for (int32_t i = 0; i < count; i++) {
        const Price *row = &c->farm->prices[i];
        bool is_read = c->faults->count == 0; /* a wrong price is 0 too */
        if (row->price_e4 == 0 && row->product >= 0 && is_read) {
            check_doubt(c, TABLE_prices, row, "price", "%s is sold for nothing",
                        c->farm->products[row->product].id);
        } else if (row->product >= 0 && row->price_e4 > 0) {
            numbers[known] = (double)row->price_e4;
            keys[known++] = (CheckKey){.a = row->product, .row = i};
        }
    }
    double all_e4 = known >= FEW ? middle_of(numbers, known) : 0.0;
    check_sort(keys, known);
    for (int32_t i = 0, end = 0; i < known; i = end) {
        while (end < known && keys[end].a == keys[i].a) {
            end++;
        }
        doubt_group(c, keys + i, end - i, numbers, all_e4);
    }
}

/* ---- Quantities -----------------------------------------------------------
 */

/* Units of a way that all beds would give if they held nothing else and all
 * was picked at once; NAN where the book does not know it. */
static double most_units(const Checker *c, const Way *way)
{
    const BookWay *book = book_way(c->book, way->book);
    if (!book || !(way->unit_g > 0.0)) {
        return (double)NAN;
    }
    double plants = 0.0;
    for (int32_t i = 0; i < c->farm->beds_count; i++) {
        const Bed *bed = &c->farm->beds[i];
        plants += book->place == WAY_EDGE
                      ? bed->edge_m * book->plants_m.value
                      : bed->length_m * bed->width_m * book->plants_m2.value;
    }
    bool is_head = book->sold_by == SOLD_HEAD;
    double units = is_head ? 1.0 : book->yield_g.high / way->unit_g;
    return plants * units * book->picks.high;
}

/* Fish that all tanks of the farm may hold, at the weight they are sold at. */
static double most_fish(const Checker *c, double over_g)
{
    double volume_m3 = 0.0;
    for (int32_t i = 0; i < c->farm->tanks_count; i++) {
        volume_m3 += c->farm->tanks[i].volume_m3;
    }
    double kg_m3 = c->farm->farm[0].density_ceiling_kg_m3;
    return volume_m3 * kg_m3 * G_PER_KG / over_g;
}

/* The most units of each product in one week, by the part that limits it. */
static double *most_of_products(const Checker *c)
{
    double *most = ARENA_ARRAY(c->arena, double, c->farm->products_count);
    double *of_way = ARENA_ARRAY(c->arena, double, c->farm->ways_count);
    for (int32_t i = 0; i < c->farm->products_count; i++) {
        most[i] = (double)INFINITY;
    }
    for (int32_t i = 0; i < c->farm->ways_count; i++) {
        of_way[i] = most_units(c, &c->farm->ways[i]);
    }
    for (int32_t i = 0; i < c->farm->parts_count; i++) {
        const Part *part = &c->farm->parts[i];
        double units = part->way >= 0 ? of_way[part->way]
                       : part->fish_over_g > 0.0
                           ? most_fish(c, part->fish_over_g)
                           : (double)NAN;
        if (part->product >= 0 && units / part->units < most[part->product]) {
            most[part->product] = units / part->units;
        }
    }
    return most;
}

static void doubt_room(const Checker *c, const Order *order, double most)
{
    if (c->faults->count > 0) {
        return; /* the room may be what cannot be read */
    }
    /* Days of no end are far from every other. */
    int64_t days = (int64_t)order->until - order->from;
    double most_week = days > LONG_DAYS ? most / WEEKS_OF_A_CROP : most;
    if (order->quantity > most_week) {
        check_doubt(c, TABLE_orders, order, "quantity",
                    "all of the farm's room given to %s would bring about %.3g "
                    "%s",
                    c->farm->products[order->product].id, most_week,
                    days > LONG_DAYS ? "every week" : "at once");
    }
}

static void doubt_orders(const Checker *c)
{
    int32_t count = c->farm->orders_count;
    const double *most = most_of_products(c);
    CheckKey *keys = ARENA_ARRAY(c->arena, CheckKey, count);
    double *numbers = ARENA_ARRAY(c->arena, double, count);
    int32_t known = 0;
    for (int32_t i = 0; i < count; i++) {
        const Order *order = &c->farm->orders[i];
        if (order->product >= 0 && order->quantity > 0.0) {
            doubt_room(c, order, most[order->product]);
            keys[known++] = (CheckKey){.a = order->product, .row = i};
        }
    }
    check_sort(keys, known);
    for (int32_t i = 0, end = 0; i < known; i = end) {
        while (end < known && keys[end].a == keys[i].a) {
            numbers[end - i] = c->farm->orders[keys[end].row].quantity;
            end++;
        }
        double middle = middle_of(numbers, end - i);
        for (int32_t k = i; k < end && end - i > 2; k++) {
            const Order *order = &c->farm->orders[keys[k].row];
            if (order->quantity > ORDER_TIMES * middle) {
                check_doubt(c, TABLE_orders, order, "quantity",
                            "other orders of %s are about %.6g",
                            c->farm->products[order->product].id, middle);
            }
        }
    }
}

/* ---- Units ----------------------------------------------------------------
 */

static void doubt_way_unit(const Checker *c, const Way *way)
{
    double right_g = strcmp(way->unit, "kg") == 0  ? (double)G_PER_KG
                     : strcmp(way->unit, "g") == 0 ? 1.0
                                                   : way->unit_g;
    if (fabs(way->unit_g - right_g) > 1e-6 * right_g) {
        check_doubt(c, TABLE_ways, way, "unit_g", "a %s of way %s has %.0f g",
                    way->unit, way->id, right_g);
    }
}

/* A product of one way, unit for unit, has the way's unit. */
static void doubt_units(const Checker *c)
{
    int32_t *parts = ARENA_ARRAY(c->arena, int32_t, c->farm->products_count);
    for (int32_t i = 0; i < c->farm->parts_count; i++) {
        int32_t product = c->farm->parts[i].product;
        if (product >= 0) {
            parts[product]++;
        }
    }
    for (int32_t i = 0; i < c->farm->parts_count; i++) {
        const Part *part = &c->farm->parts[i];
        if (part->product < 0 || part->way < 0 || parts[part->product] != 1 ||
            fabs(part->units - 1.0) > 1e-9) {
            continue;
        }
        const Product *product = &c->farm->products[part->product];
        const Way *way = &c->farm->ways[part->way];
        if (*product->unit && *way->unit &&
            strcmp(product->unit, way->unit) != 0) {
            check_doubt(c, TABLE_products, product, "unit",
                        "%s is one %s of way %s, by parts.csv line %d",
                        product->id, way->unit, way->id, (int)part->line);
        }
    }
}

void check_doubts_sales(const Checker *c)
{
    doubt_prices(c);
    if (c->farm->farm_count == 1) {
        doubt_orders(c);
    }
    for (int32_t i = 0; i < c->farm->ways_count; i++) {
        doubt_way_unit(c, &c->farm->ways[i]);
    }
    doubt_units(c);
}
