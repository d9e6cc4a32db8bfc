/* Goods, products, orders and outlets of the planning problem. Each row of an
 * outlet is one step of it, with the price of its buyer; a stall whose prices
 * fall as it fills is several rows. */
#include "plan/build_parts.h"

#include <math.h>

#include "base/date.h"
#include "farm/closures.h"
#include "farm/keeping.h"

static double room_kg(const Farm *farm)
{
    double room = 0.0;
    for (int i = 0; i < farm->stores_count; i++) {
        room += farm->stores[i].room_kg;
    }
    return room;
}

/* The goods that fish of over_g and more are; the sizes follow the ways. */
static int fish_goods(const Build *build, double over_g)
{
    int goods = build->index->fish_goods;
    while (fabs(build->problem->goods[goods].over_g - over_g) > 1e-9) {
        goods++;
    }
    return goods;
}

static void build_goods(Build *build)
{
    const Farm *farm = build->farm;
    double room = room_kg(farm);
    PlanGoods *goods = ARENA_ARRAY(build->arena, PlanGoods,
                                   farm->ways_count + farm->parts_count + 1);
    int count = 0;
    for (int w = 0; w < farm->ways_count; w++) {
        const Way *way = &farm->ways[w];
        double unit_kg = way->unit_g / 1000.0;
        double keep = keeping_week_frac(keeping_days(build->book, way));
        bool has_store = room > 0.0 && keep > 0.0;
        goods[count++] = (PlanGoods){
            .name = way->id,
            .kg_per_unit = unit_kg,
            .keep = has_store ? keep : 0.0,
            .store_max = has_store ? room / unit_kg : 0.0,
        };
    }
    build->index->fish_goods = count;
    for (int i = 0; i < farm->parts_count; i++) {
        const Part *part = &farm->parts[i];
        bool is_known = part->way >= 0;
        for (int g = build->index->fish_goods; g < count; g++) {
            is_known |= fabs(goods[g].over_g - part->fish_over_g) < 1e-9;
        }
        if (!is_known) {
            goods[count++] = (PlanGoods){
                .name = arena_text(build->arena, "fish of %g g and over",
                                   part->fish_over_g),
                .is_fish = true,
                .over_g = part->fish_over_g,
                .kg_per_unit = part->fish_over_g / 1000.0};
        }
    }
    /* Fish of any weight that leave without a buyer: what a farm does when no
     * tank has room for them. It earns nothing, so a plan does it last. */
    goods[count++] = (PlanGoods){
        .name = "fish given up", .is_fish = true, .kg_per_unit = 0.001};
    build->problem->goods = goods;
    build->problem->goods_count = count;
    build->problem->store_room_kg = room;
}

/* The table gives a part's least and most as shares of its own units; the
 * problem's are shares of the whole mix. A mix of set units stays as it is. */
static void share_mix(PlanPart *parts, int count)
{
    double units = 0.0;
    bool is_free = false;
    for (int i = 0; i < count; i++) {
        units += parts[i].units;
        is_free = is_free || parts[i].low < 1.0 || parts[i].high > 1.0;
    }
    for (int i = 0; is_free && count > 1 && i < count; i++) {
        parts[i].low *= parts[i].units / units;
        parts[i].high *= parts[i].units / units;
    }
}

static Err build_products(Build *build)
{
    const Farm *farm = build->farm;
    PlanProduct *products =
        ARENA_ARRAY(build->arena, PlanProduct, farm->products_count);
    for (int p = 0; p < farm->products_count; p++) {
        PlanPart *parts =
            ARENA_ARRAY(build->arena, PlanPart, farm->parts_count);
        int count = 0;
        for (int i = 0; i < farm->parts_count; i++) {
            const Part *part = &farm->parts[i];
            if (part->product != p) {
                continue;
            }
            parts[count++] = (PlanPart){
                .goods = part->way >= 0 ? part->way
                                        : fish_goods(build, part->fish_over_g),
                .units = part->units,
                .low = part->low_frac,
                .high = part->high_frac};
        }
        if (count == 0) {
            return err_make(ERR_INPUT, "products: %s has no part in parts.csv",
                            farm->products[p].id);
        }
        share_mix(parts, count);
        products[p] = (PlanProduct){
            .name = farm->products[p].id, .parts = parts, .part_count = count};
    }
    build->problem->products = products;
    build->problem->product_count = farm->products_count;
    return ERR_NONE;
}

/* Share of a week's delivery days on which the order runs; 1 where a dated
 * order falls into the week. */
static double open_share(const Build *build, const Order *order, int week)
{
    const Farm *farm = build->farm;
    int32_t monday = build_monday(build, week);
    if (order->from == order->until) {
        return order->from >= monday && order->from < monday + 7 ? 1.0 : 0.0;
    }
    uint32_t days = order->days ? order->days : farm->buyers[order->buyer].days;
    int all = 0;
    int open = 0;
    for (int d = 0; d < 7; d++) {
        int32_t day = monday + d;
        if (!(days >> d & 1u)) {
            continue;
        }
        all++;
        bool in_month = (order->months >> (date_month(day) - 1) & 1u) != 0;
        open += in_month && day >= order->from && day <= order->until &&
                !closures_shut_buyer(farm, order->buyer, day);
    }
    return all == 0 ? 0.0 : (double)open / all;
}

/* The price row of a product for a buyer on a day: the buyer's own row goes
 * before the list; NULL where there is none. */
static const Price *find_price(const Farm *farm, int product, int buyer,
                               int32_t day)
{
    const Price *found = NULL;
    for (int i = 0; i < farm->prices_count; i++) {
        const Price *price = &farm->prices[i];
        if (price->product != product || day < price->from ||
            day > price->until ||
            (price->buyer >= 0 && price->buyer != buyer)) {
            continue;
        }
        if (!found || price->buyer >= 0) {
            found = price;
        }
    }
    return found;
}

static double net_price(const Price *price)
{
    double gross = (double)price->price_e4 / 10000.0;
    return price->has_tax ? gross / (1.0 + price->tax_frac) : gross;
}

/* Wanted units and net price by week. */
static Err order_weeks(const Build *build, const Order *order, double *wanted,
                       double *price)
{
    for (int t = 0; t < build->week_count; t++) {
        wanted[t] = order->quantity * open_share(build, order, t);
        const Price *row = find_price(build->farm, order->product, order->buyer,
                                      build_monday(build, t) + 3);
        if (wanted[t] > 0.0 && !row) {
            char week[DATE_TEXT_SIZE];
            week_format(build_monday(build, t), week);
            return err_make(ERR_INPUT,
                            "orders:%d: %s has no price for %s in %s",
                            (int)order->line, order->id,
                            build->farm->products[order->product].id, week);
        }
        price[t] = row ? net_price(row) : 0.0;
    }
    return ERR_NONE;
}

static double mean_price(const Build *build, const double *wanted,
                         const double *price)
{
    double sum = 0.0;
    double weight = 0.0;
    for (int t = 0; t < build->week_count; t++) {
        sum += wanted[t] * price[t];
        weight += wanted[t];
    }
    return weight > 0.0 ? sum / weight : 0.0;
}

static double miss_price(const Build *build, const Order *order,
                         const double *wanted, const double *price)
{
    double share = order->miss_frac;
    if (share < 0.0) {
        share = order->firmness == ORDER_FIRM ? 1.0 : 0.25;
    }
    return share * mean_price(build, wanted, price);
}

Err build_sales(Build *build)
{
    const Farm *farm = build->farm;
    build_goods(build);
    TRY(build_products(build));
    int count = farm->orders_count;
    PlanOrder *orders = ARENA_ARRAY(build->arena, PlanOrder, count);
    PlanOutlet *outlets = ARENA_ARRAY(build->arena, PlanOutlet, count);
    int *order_rows = ARENA_ARRAY(build->arena, int, count);
    int *outlet_rows = ARENA_ARRAY(build->arena, int, count);
    build->index->order_rows = order_rows;
    build->index->outlet_rows = outlet_rows;
    for (int o = 0; o < count; o++) {
        const Order *order = &farm->orders[o];
        double *wanted = build_weeks(build);
        double *price = build_weeks(build);
        TRY(order_weeks(build, order, wanted, price));
        if (order->firmness == ORDER_OUTLET) {
            outlet_rows[build->problem->outlet_count] = o;
            outlets[build->problem->outlet_count++] =
                (PlanOutlet){.id = order->id,
                             .product = order->product,
                             .room = wanted,
                             .price = price};
            continue;
        }
        order_rows[build->problem->order_count] = o;
        orders[build->problem->order_count++] =
            (PlanOrder){.id = order->id,
                        .product = order->product,
                        .is_firm = order->firmness == ORDER_FIRM,
                        .wanted = wanted,
                        .price = price,
                        .miss = miss_price(build, order, wanted, price),
                        .least = order->least};
    }
    build->problem->orders = orders;
    build->problem->outlets = outlets;
    return ERR_NONE;
}
