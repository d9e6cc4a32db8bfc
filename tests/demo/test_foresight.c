/* The demo farm's weeks have the shapes that its description promises, as far
 * as they show without a plan or with one sale planned by hand. */
#include "base/date.h"
#include "desk/check_farm.h"
#include "sim/plant_rule.h"
#include "work/foresight.h"

#include "check.h"

#ifndef DEMO_DIR
#error "the build tells where the demo is"
#endif

enum { WEEKS = 26 };

typedef struct Demo {
    Arena arena;
    const Farm *farm;
    Book *book;
    ClimateYear climate;
    Foresight alone; /* what stands, and nothing new */
} Demo;

static Foresight look(Demo *demo, const Farm *farm)
{
    ForesightAsk ask = {.farm = farm,
                        .book = demo->book,
                        .climate = &demo->climate,
                        .first_week = week_of(farm->farm[0].records_from),
                        .weeks = WEEKS,
                        .sale_g = NAN,
                        .way = FORESIGHT_ALL};
    Foresight foresight = {0};
    assert_ok(foresight_make(&ask, &demo->arena, &foresight));
    return foresight;
}

static int set_up(void **state)
{
    static Demo demo;
    demo = (Demo){0};
    Book book;
    assert_ok(check_farm_load(DEMO_DIR, &demo.arena, &demo.farm));
    assert_ok(book_load(&demo.arena, &book));
    demo.book = ARENA_NEW(&demo.arena, Book);
    assert_ok(plant_book_of_farm(&demo.arena, &book, demo.farm, demo.book));
    assert_ok(
        climate_year_run(demo.farm, demo.book, &demo.arena, &demo.climate));
    demo.alone = look(&demo, demo.farm);
    *state = &demo;
    return 0;
}

static int tear_down(void **state)
{
    Demo *demo = *state;
    arena_release(&demo->arena);
    return 0;
}

static int tank_of(const Farm *farm, const char *id)
{
    for (int k = 0; k < farm->tanks_count; k++) {
        if (strcmp(farm->tanks[k].id, id) == 0) {
            return k;
        }
    }
    fail();
    return -1;
}

static int way_of(const Farm *farm, const char *id)
{
    for (int w = 0; w < farm->ways_count; w++) {
        if (strcmp(farm->ways[w].id, id) == 0) {
            return w;
        }
    }
    fail();
    return -1;
}

static int week_at(const Demo *demo, int month, int day)
{
    CivilDate civil = {2027, month, day};
    return (week_of(date_from_civil(civil)) - demo->alone.first_week) / 7;
}

static void b_and_c_pass_their_ceiling_by_midsummer_unless_graded(void **state)
{
    Demo *demo = *state;
    const FishStandTank *tanks = demo->alone.fish.tanks;
    int midsummer = week_at(demo, 6, 28);
    int b = tanks[tank_of(demo->farm, "B")].over_density_week;
    int c = tanks[tank_of(demo->farm, "C")].over_density_week;
    assert_true(b >= week_at(demo, 4, 12) && b <= midsummer);
    assert_true(c >= week_at(demo, 4, 12) && c <= midsummer);
}

static double orders_of(const Farm *farm, const char *product, int month)
{
    double sum = 0.0;
    for (int i = 0; i < farm->orders_count; i++) {
        const Order *order = &farm->orders[i];
        bool is_of = strcmp(farm->products[order->product].id, product) == 0;
        bool is_dated = order->from != DATE_ALWAYS;
        if (is_of && !is_dated && order->firmness != ORDER_OUTLET &&
            (order->months >> (month - 1) & 1u)) {
            sum += order->quantity;
        }
    }
    return sum;
}

static void heads_ready_in_march_and_april_exceed_their_orders(void **state)
{
    Demo *demo = *state;
    const Farm *farm = demo->farm;
    const PlantStandUnits *heads =
        &demo->alone.plants.ways[way_of(farm, "lettuce-head")];
    double wanted = orders_of(farm, "head-lettuce", 3);
    assert_true(wanted > 80.0);
    int over = 0;
    for (int w = 0; w <= week_at(demo, 4, 30); w++) {
        over += heads->value[w] > 1.4 * wanted;
    }
    assert_true(over >= 4 && over <= 7);
}

/* Of grow-out's lanes the heaviest fish go: the 70 of 450 g and over that are
 * told in advance for Thursday 13 May. */
static Farm with_the_sale_of_may(Demo *demo)
{
    enum { LANES = 4, SOLD_LANES = 2 };
    static const int32_t COUNTS[LANES] = {47, 48, 47, 48};
    static const int32_t SOLD[SOLD_LANES] = {22, 48};
    int32_t monday = demo->alone.first_week + 7 * week_at(demo, 5, 13);
    Farm farm = *demo->farm;
    farm.plan = ARENA_NEW(&demo->arena, Plan);
    farm.plan[0] =
        (Plan){.id = "by-hand", .from = demo->alone.first_week, .weeks = WEEKS};
    farm.plan_count = 1;
    farm.plan_fish = ARENA_ARRAY(&demo->arena, PlanFish, LANES);
    farm.plan_fish_count = LANES;
    for (int i = 0; i < LANES; i++) {
        farm.plan_fish[i] = (PlanFish){.id = "lane",
                                       .batch = "grow-out",
                                       .standing = 0,
                                       .source = -1,
                                       .lane = i + 1,
                                       .count = COUNTS[i]};
    }
    farm.plan_moves = ARENA_ARRAY(&demo->arena, PlanMove, SOLD_LANES);
    farm.plan_moves_count = SOLD_LANES;
    for (int i = 0; i < SOLD_LANES; i++) {
        farm.plan_moves[i] = (PlanMove){.id = "sale",
                                        .fish = i + 2,
                                        .kind = MOVE_SALE,
                                        .on = monday,
                                        .started = SOLD[i],
                                        .count = SOLD[i],
                                        .from_tank = tank_of(&farm, "A"),
                                        .to_tank = -1};
    }
    return farm;
}

static double farm_feed_kg(const Foresight *foresight, int week)
{
    double kg = 0.0;
    for (int l = 0; l < foresight->farm->loops_count; l++) {
        kg += foresight->fish.loops[l].feed_kg[week];
    }
    return kg;
}

static void the_sale_of_may_lowers_feed_by_about_a_tenth(void **state)
{
    Demo *demo = *state;
    assert_string_equal(demo->farm->fish[0].id, "grow-out");
    Farm farm = with_the_sale_of_may(demo);
    Foresight sold = look(demo, &farm);
    int week = week_at(demo, 5, 13);
    assert_near(sold.fish.batches[0].sold_count, 70.0, 1.5);
    assert_near(farm_feed_kg(&sold, week - 1),
                farm_feed_kg(&demo->alone, week - 1), 1e-6);
    double share =
        1.0 - farm_feed_kg(&sold, week) / farm_feed_kg(&demo->alone, week);
    print_message("the sale lowers the week's feed by %.1f %%\n",
                  100.0 * share);
    assert_true(share > 0.05 && share < 0.15);
}

/* With the orders delivered week by week and nothing graded, the sale takes
 * more fish of 450 g than are left, and they come back by July. */
static void the_sale_of_may_takes_more_fish_than_are_left(void **state)
{
    Demo *demo = *state;
    double sold = 0.0;
    double left[WEEKS];
    for (int w = 0; w < WEEKS; w++) {
        int month = date_month(demo->alone.first_week + 7 * w + 3);
        sold += orders_of(demo->farm, "fish", month);
        sold += w == week_at(demo, 5, 13) ? 70.0 : 0.0;
        left[w] = foresight_ready_count(&demo->alone, w) - sold;
    }
    int sale = week_at(demo, 5, 13);
    print_message("fish of 450 g: %.0f before the sale, %.0f after it\n",
                  left[sale - 1], left[sale]);
    assert_true(left[sale - 1] > 0.0 && left[sale] < 0.0);
    for (int w = 0; w <= week_at(demo, 7, 5); w++) {
        assert_true(left[w] >= left[sale]);
    }
}

static void feed_falls_and_rises_against_what_beds_want(void **state)
{
    Demo *demo = *state;
    bool is_over = false;
    for (int l = 0; l < demo->farm->loops_count; l++) {
        for (int w = 0; w < WEEKS; w++) {
            is_over |= foresight_feed_ratio(&demo->alone, l, w) >
                       foresight_feed_over_ratio();
        }
    }
    assert_true(is_over);
}

/* B's air carries its fish now, and no longer does when they are crowded. */
static void air_binds_where_density_does(void **state)
{
    Demo *demo = *state;
    const FishStandTank *b = &demo->alone.fish.tanks[tank_of(demo->farm, "B")];
    assert_true(b->oxygen_g_h[0] < 0.6 * b->air_g_h[0]);
    assert_true(b->over_air_week >= week_at(demo, 5, 1));
    assert_true(b->over_air_week <= week_at(demo, 7, 1));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(b_and_c_pass_their_ceiling_by_midsummer_unless_graded),
        cmocka_unit_test(heads_ready_in_march_and_april_exceed_their_orders),
        cmocka_unit_test(the_sale_of_may_lowers_feed_by_about_a_tenth),
        cmocka_unit_test(the_sale_of_may_takes_more_fish_than_are_left),
        cmocka_unit_test(feed_falls_and_rises_against_what_beds_want),
        cmocka_unit_test(air_binds_where_density_does),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
