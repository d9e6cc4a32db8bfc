/* Invented problems: goods, products with mixes, orders and outlets. */
#include <math.h>

#include "plan/generate_parts.h"

enum { FISH_SIZES = 2, BUYERS = 3, STEPS = 3 };

/* Buyers of every product: what part of the demand, at what price. */
static const struct {
    const char *name;
    bool is_firm;
    double share;
    double price; /* against the way's price */
    double miss;  /* price of missing a unit, against it */
    int closed_from;
    int closed_until;
} BUYER[BUYERS] = {{"box", true, 0.45, 1.0, 0.5, 0, 0},
                   {"inn", false, 0.30, 1.05, 0.2, 48, 52},
                   {"cook", false, 0.25, 1.1, 0.2, 22, 25}};

/* Steps of the outlet: room against the demand, price against the way's. */
static const struct {
    double room;
    double price;
} STEP[STEPS] = {{0.15, 0.8}, {0.15, 0.6}, {0.25, 0.35}};

static const struct {
    const char *name;
    double over_g;
    double price;
    double weekly; /* heads that are wanted in a week at scale 1 */
} SIZES[FISH_SIZES] = {{"fish 450", 450.0, 5.5, 9.0},
                       {"fish 200", 200.0, 1.9, 6.0}};

static const struct {
    double store_weeks; /* of demand that a good's store holds */
    double room_kg;     /* all stores at scale 1 */
    double mix_units;   /* kg of each of the three leaves in a bag */
    double mix_price;
    double mix_low; /* free mix: least and most share */
    double mix_high;
} STORES = {1.0, 40.0, 0.05, 4.0, 0.15, 0.6};

/* The leaves of the bag. */
static const int LEAVES[] = {1, 3, 4};
enum { LEAF_COUNT = 3, FIRST_MIX_WAYS = 5 };

static void make_goods(Generator *g)
{
    int ways = g->farm->ways;
    PlanGoods *goods = ARENA_ARRAY(g->arena, PlanGoods, ways + FISH_SIZES);
    for (int w = 0; w < ways; w++) {
        const InventedWay *way = generate_way(w);
        goods[w] = (PlanGoods){.name = way->name,
                               .kg_per_unit = way->unit_kg,
                               .keep = way->keep,
                               .store_max = ceil(STORES.store_weeks *
                                                 generate_weekly_demand(g, w))};
    }
    static const double G_IN_KG = 1e3;
    for (int i = 0; i < FISH_SIZES; i++) {
        goods[ways + i] = (PlanGoods){.name = SIZES[i].name,
                                      .is_fish = true,
                                      .over_g = SIZES[i].over_g,
                                      .kg_per_unit = SIZES[i].over_g / G_IN_KG};
    }
    g->out->goods = goods;
    g->out->goods_count = g->farm->tanks > 0 ? ways + FISH_SIZES : ways;
    g->out->store_room_kg = STORES.room_kg * g->scale;
}

/* A simple product of each good, a fixed mix and a free one of the leaves. */
static void make_products(Generator *g)
{
    int goods = g->out->goods_count;
    bool has_mix = g->farm->ways >= FIRST_MIX_WAYS;
    int count = goods + (has_mix ? 2 : 0);
    PlanProduct *products = ARENA_ARRAY(g->arena, PlanProduct, count);
    for (int i = 0; i < goods; i++) {
        PlanPart *part = ARENA_NEW(g->arena, PlanPart);
        *part = (PlanPart){.goods = i, .units = 1.0, .low = 1.0, .high = 1.0};
        products[i] = (PlanProduct){g->out->goods[i].name, part, 1};
    }
    for (int i = goods; i < count; i++) {
        bool is_fixed = i == goods;
        PlanPart *parts = ARENA_ARRAY(g->arena, PlanPart, LEAF_COUNT);
        for (int j = 0; j < LEAF_COUNT; j++) {
            parts[j] = (PlanPart){LEAVES[j], STORES.mix_units,
                                  is_fixed ? 1.0 : STORES.mix_low,
                                  is_fixed ? 1.0 : STORES.mix_high};
        }
        products[i] = (PlanProduct){is_fixed ? "leaf bag" : "mixed bag", parts,
                                    LEAF_COUNT};
    }
    g->out->products = products;
    g->out->product_count = count;
}

/* Units of a product that are wanted in a week of its season. */
static double product_demand(const Generator *g, int product)
{
    int ways = g->farm->ways;
    if (product < ways) {
        return generate_weekly_demand(g, product);
    }
    if (product < g->out->goods_count) {
        return SIZES[product - ways].weekly * g->scale;
    }
    /* A bag's leaves: a third of what their ways are sold for by the kg. */
    return generate_weekly_demand(g, LEAVES[0]) /
           (STORES.mix_units * LEAF_COUNT);
}

static double product_price(const Generator *g, int product)
{
    int ways = g->farm->ways;
    if (product < ways) {
        return generate_way(product)->price;
    }
    return product < g->out->goods_count ? SIZES[product - ways].price
                                         : STORES.mix_price;
}

/* What is warm is wanted only in the months in which it can be had. */
static bool is_season(const Generator *g, int product, int week)
{
    static const double GOOD_SUMMER = 0.7;
    static const int LATER = 4; /* the crop follows the sun */
    if (product >= g->farm->ways || generate_way(product)->warm <= 0.0) {
        return true;
    }
    return generate_growth(week - LATER) > GOOD_SUMMER;
}

static double *make_wanted(Generator *g, int product, int buyer)
{
    double *wanted = generate_flat(g, 0.0);
    double units = BUYER[buyer].share * product_demand(g, product);
    units = units >= 2.0 ? floor(units) : ceil(10.0 * units) / 10.0;
    bool is_fish =
        product < g->out->goods_count && g->out->goods[product].is_fish;
    for (int t = 0; t < g->weeks; t++) {
        int of_year = t % 52;
        bool is_closed = of_year >= BUYER[buyer].closed_from &&
                         of_year < BUYER[buyer].closed_until;
        if (!is_closed && is_season(g, product, t)) {
            wanted[t] = is_fish ? ceil(units) : units;
        }
    }
    return wanted;
}

static void make_orders(Generator *g)
{
    int products = g->out->product_count;
    PlanOrder *orders = ARENA_ARRAY(g->arena, PlanOrder, products * BUYERS);
    for (int i = 0; i < products * BUYERS; i++) {
        int product = i / BUYERS;
        int buyer = i % BUYERS;
        double price = product_price(g, product);
        orders[i] = (PlanOrder){
            .id = arena_text(g->arena, "%s-%d", BUYER[buyer].name, product + 1),
            .product = product,
            .is_firm = BUYER[buyer].is_firm,
            .wanted = make_wanted(g, product, buyer),
            .price = generate_flat(g, price * BUYER[buyer].price),
            .miss = price * BUYER[buyer].miss,
            .least = 0.0};
    }
    g->out->orders = orders;
    g->out->order_count = products * BUYERS;
}

static void make_outlets(Generator *g)
{
    int products = g->out->product_count;
    PlanOutlet *outlets = ARENA_ARRAY(g->arena, PlanOutlet, products * STEPS);
    for (int i = 0; i < products * STEPS; i++) {
        int product = i / STEPS;
        int step = i % STEPS;
        double room = ceil(STEP[step].room * product_demand(g, product));
        double price = STEP[step].price * product_price(g, product);
        outlets[i] =
            (PlanOutlet){.id = arena_text(g->arena, "stall-%d", product + 1),
                         .product = product,
                         .room = generate_flat(g, room),
                         .price = generate_flat(g, price)};
    }
    g->out->outlets = outlets;
    g->out->outlet_count = products * STEPS;
}

void generate_sales(Generator *g)
{
    make_goods(g);
    make_products(g);
    make_orders(g);
    make_outlets(g);
}
