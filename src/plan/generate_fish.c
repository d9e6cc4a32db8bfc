/* Invented problems: loops, tanks and fish batches. */
#include <math.h>

#include "plan/generate_parts.h"

/* One kind of fish, invented: weekly growth w' = w + rate(t) w^power in a water
 * whose warmth follows the sine, grams. */
static const struct {
    double rate;
    double power;
    double conversion; /* kg feed for a kg of growth */
    double upkeep;     /* feed a week as share of the weight */
    double death_wk;
    double oxygen_g_kg_h; /* by kg of fish at full growth */
    double tan_g_kg_feed;
    double lanes[PLAN_LANES]; /* weight against the mean */
} FISH = {0.52, 0.62, 1.15, 0.015, 0.004, 0.35, 30.0, {.68, .9, 1.08, 1.34}};

static const struct {
    double big_kg; /* density ceiling x volume, of every other tank */
    double small_kg;
    double air_g_kg_h;
    double handling_from; /* growth of the year: warm enough to grade, catch */
    double catch_from;
    double pool_kg;
    double pool_keep;
    double short_price;
    double nitrify_g_d; /* TAN that a bed carries in a day at growth 1 */
} WATER = {150.0, 90.0, 0.36, 0.36, 0.25, 16.0, 0.97, 9.0, 4.2};

static const PlanFishRules RULES = {.weeks_between = 4,
                                    .catch_hours = 0.75,
                                    .grade_hours = 3.0,
                                    .feed_lost_frac = 0.3,
                                    .end_price_kg = 3.6,
                                    .feed_price_kg = 1.3,
                                    .unsold_price = 0.4,
                                    .purge_feed_frac = 0.6,
                                    .purge_loss_frac = 0.03,
                                    .neighbour_ratio = 2.5};

/* Fish that stand in the first tanks, and what may be bought. */
static const struct {
    double count;
    double weight_g;
} STANDING[] = {{190.0, 390.0}, {330.0, 150.0}, {300.0, 55.0}};

static const struct {
    double weight_g;
    double least;
    double most;
    double cost;
    double hours;
} YOUNG = {18.0, 120.0, 600.0, 0.3, 1.0};

static void make_loops(Generator *g)
{
    int count = g->farm->loops;
    PlanLoop *loops = ARENA_ARRAY(g->arena, PlanLoop, count);
    double scale = g->scale / count;
    double beds = g->farm->beds / (double)count;
    for (int l = 0; l < count; l++) {
        double *nitrify = generate_flat(g, 0.0);
        for (int t = 0; t < g->weeks; t++) {
            nitrify[t] = WATER.nitrify_g_d * beds * generate_growth(t);
        }
        loops[l] = (PlanLoop){.name = arena_text(g->arena, "loop-%d", l + 1),
                              .pool_start_kg = WATER.pool_kg * scale,
                              .pool_max_kg = 2.0 * WATER.pool_kg * scale,
                              .pool_keep = WATER.pool_keep,
                              .short_price = WATER.short_price,
                              .lost_frac = generate_flat(g, 0.0),
                              .nitrify_g_d = nitrify};
    }
    g->out->loops = loops;
    g->out->loop_count = count;
}

static void make_tanks(Generator *g)
{
    int count = g->farm->loops * g->farm->tanks;
    PlanTank *tanks = ARENA_ARRAY(g->arena, PlanTank, count);
    uint8_t *grade = ARENA_ARRAY(g->arena, uint8_t, g->weeks);
    uint8_t *catch = ARENA_ARRAY(g->arena, uint8_t, g->weeks);
    for (int t = 0; t < g->weeks; t++) {
        grade[t] = generate_growth(t) >= WATER.handling_from;
        catch[t] = generate_growth(t) >= WATER.catch_from;
    }
    double scale = g->scale / g->farm->loops;
    for (int k = 0; k < count; k++) {
        int place = k % g->farm->tanks;
        double kg = (place < 2 ? WATER.big_kg : WATER.small_kg) * scale;
        tanks[k] = (PlanTank){
            .id = arena_text(g->arena, "tank-%d", k + 1),
            .loop = k / g->farm->tanks,
            .most_kg = kg,
            .most_batches = 2,
            .most_heads = kg / YOUNG.weight_g * 1e3,
            .air_g_h = generate_flat(g, WATER.air_g_kg_h * kg),
            .may_grade = grade,
            .may_catch = catch,
            .is_stockable = place >= 2 || g->farm->tanks < 4,
        };
    }
    g->out->tanks = tanks;
    g->out->tank_count = count;
}

static PlanLane make_lane(Generator *g, int start, double weight_g)
{
    double *weight = generate_flat(g, 0.0);
    double *alive = generate_flat(g, 0.0);
    double *feed = generate_flat(g, 0.0);
    double *oxygen = generate_flat(g, 0.0);
    double *tan = generate_flat(g, 0.0);
    static const double G_IN_KG = 1e3;
    static const double DAYS_IN_WEEK = 7.0;
    double count = 1.0;
    for (int t = start; t < g->weeks; t++) {
        double warmth = generate_growth(t);
        double gain = FISH.rate * warmth * pow(weight_g, FISH.power);
        weight[t] = weight_g;
        alive[t] = count;
        feed[t] = count / G_IN_KG *
                  (FISH.conversion * gain + FISH.upkeep * weight_g * warmth);
        oxygen[t] = count * FISH.oxygen_g_kg_h * warmth * weight_g / G_IN_KG;
        tan[t] = FISH.tan_g_kg_feed * feed[t] / DAYS_IN_WEEK;
        weight_g += gain;
        count *= 1.0 - FISH.death_wk;
    }
    return (PlanLane){.share = 1.0 / PLAN_LANES,
                      .weight_g = weight,
                      .alive = alive,
                      .feed_kg = feed,
                      .oxygen_g_h = oxygen,
                      .tan_g_d = tan};
}

static void fill_lanes(Generator *g, PlanStock *stock, double weight_g)
{
    for (int b = 0; b < PLAN_LANES; b++) {
        stock->lanes[b] =
            make_lane(g, stock->start_week, weight_g * FISH.lanes[b]);
    }
}

static int make_standing(Generator *g, int loop, PlanStock *stocks)
{
    int kinds = (int)(sizeof STANDING / sizeof STANDING[0]);
    int tanks = g->farm->tanks;
    int count = tanks > kinds ? kinds : tanks / 2;
    double scale = g->scale / g->farm->loops;
    for (int i = 0; i < count; i++) {
        double jitter = 1.0 + 0.1 * (rng_f64(&g->rng) - 0.5);
        int heads = (int)ceil(STANDING[i].count * scale * jitter);
        stocks[i] = (PlanStock){
            .id = arena_text(g->arena, "fish-%d-%d", loop + 1, i + 1),
            .is_standing = true,
            .source = PLAN_NONE,
            .tank = loop * tanks + i,
            .loop = loop,
            .least = heads,
            .most = heads};
        fill_lanes(g, &stocks[i], STANDING[i].weight_g);
    }
    return count;
}

static int make_young(Generator *g, int loop, PlanStock *stocks)
{
    int count = 0;
    double scale = g->scale / g->farm->loops;
    for (int t = 2; t < g->farm->horizon; t += g->farm->stock_every) {
        stocks[count] =
            (PlanStock){.id = arena_text(g->arena, "young-%d-%d", loop + 1, t),
                        .source = 0,
                        .start_week = t,
                        .tank = PLAN_NONE,
                        .loop = loop,
                        .least = (int)ceil(YOUNG.least * scale),
                        .most = (int)ceil(YOUNG.most * scale),
                        .cost = YOUNG.cost,
                        .hours = YOUNG.hours};
        fill_lanes(g, &stocks[count], YOUNG.weight_g);
        count++;
    }
    return count;
}

void generate_fish(Generator *g)
{
    make_loops(g);
    make_tanks(g);
    g->out->fish = RULES;
    if (g->farm->tanks == 0) {
        return;
    }
    int each = g->farm->tanks + g->farm->horizon / g->farm->stock_every + 1;
    PlanStock *stocks = ARENA_ARRAY(g->arena, PlanStock, each * g->farm->loops);
    int count = 0;
    for (int l = 0; l < g->farm->loops; l++) {
        count += make_standing(g, l, stocks + count);
        count += make_young(g, l, stocks + count);
    }
    g->out->stocks = stocks;
    g->out->stock_count = count;
}
