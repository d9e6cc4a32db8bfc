/* The demo's year has the tensions that its description promises, each read off
 * Leat's own answers. */
#include "measures.h"

#include "base/date.h"
#include "sim/fish_case.h"
#include "sim/fish_stand.h"

#include "check.h"

#ifndef DEMO_DIR
#error "the build tells where the demo is"
#endif

enum { WEEKS = 52, FEW_MOVES = 150000 };

/* The demo with a plan of few moves, and its fish with none. */
typedef struct Shapes {
    Demo demo;
    PlanSolution plan;
    FishStand fish;
} Shapes;

static void stand_fish(Shapes *shapes)
{
    const Demo *demo = &shapes->demo;
    const Farm *farm = demo->year.farm;
    const ClimateYear *climate = demo->year.inputs.climate;
    const double **degc =
        ARENA_ARRAY(&shapes->demo.arena, const double *, farm->tanks_count);
    for (int k = 0; k < farm->tanks_count; k++) {
        degc[k] = climate->tanks[k].mean_degc;
    }
    FishStandCase fish = {.farm = farm,
                          .book = demo->year.book,
                          .first_week = demo->year.index.from,
                          .weeks = WEEKS,
                          .tank_degc = degc,
                          .sale_g = 450.0};
    assert_ok(fish_stand_run(&shapes->demo.arena, &fish, &shapes->fish));
}

static int set_up(void **state)
{
    static Shapes shapes;
    demo_open(DEMO_DIR, WEEKS, &shapes.demo);
    short_plan(&shapes.demo, FEW_MOVES, &shapes.plan);
    stand_fish(&shapes);
    *state = &shapes;
    return 0;
}

static int tear_down(void **state)
{
    Shapes *shapes = *state;
    demo_close(&shapes->demo);
    return 0;
}

static int week_at(const Shapes *shapes, const char *text)
{
    int32_t day = 0;
    assert_ok(date_parse(text, &day));
    return (week_of(day) - shapes->demo.year.index.from) / 7;
}

static double beds_asked(Shapes *shapes, const Wanted *wanted, int year,
                         int month)
{
    return month_mean(&shapes->demo, wanted->floor_beds, year, month) /
           month_mean(&shapes->demo, beds_there(&shapes->demo), year, month);
}

static void orders_ask_for_more_beds_than_there_are_in_autumn(void **state)
{
    Shapes *shapes = *state;
    Wanted wanted;
    wanted_by_orders(&shapes->demo, &wanted);
    double most = 0.0;
    for (int i = 0; i < 4; i++) {
        int year = i < 3 ? 2027 : 2028;
        most = fmax(most, beds_asked(shapes, &wanted, year, 1 + (9 + i) % 12));
    }
    assert_true(most > 1.05 && most < 1.25);
    /* It is made in September, in which summer crops still stand. */
    assert_true(beds_asked(shapes, &wanted, 2027, 9) > 1.0);
    assert_true(beds_asked(shapes, &wanted, 2027, 6) < 1.0);
}

static void
heads_of_lettuce_are_far_over_orders_in_some_weeks_of_spring(void **state)
{
    Shapes *shapes = *state;
    const double *ready = standing_units(&shapes->demo, "lettuce-head");
    const double *ordered = ordered_units(&shapes->demo, "head-lettuce");
    int over = 0;
    for (int t = 0; t < week_at(shapes, "2027-05-01"); t++) {
        over += ordered[t] > 0.0 && ready[t] >= 1.4 * ordered[t];
    }
    assert_true(over >= 2);
}

static void feed_is_short_in_weeks_of_spring_and_over_in_others(void **state)
{
    Shapes *shapes = *state;
    const Problem *problem = &shapes->demo.year.problem;
    int spring = week_at(shapes, "2027-06-01");
    int poor = 0;
    int rich = 0;
    for (int l = 0; l < problem->loop_count; l++) {
        for (int t = 0; t < problem->horizon; t++) {
            int at = l * problem->week_count + t;
            double share = shapes->plan.outcome.given_kg[at] /
                           shapes->plan.outcome.want_kg[at];
            poor += t < spring && share < 0.8;
            rich += share > 1.2;
        }
    }
    assert_true(poor >= 2);
    assert_true(rich >= 2);
}

/* Feed of a week of fish of a standing batch, the heaviest first; heads < 0:
 * all of it. */
static double feed_of(const PlanStock *stock, double heads, int week)
{
    double left = heads < 0.0 ? stock->most : heads;
    double feed = 0.0;
    for (int b = PLAN_LANES - 1; b >= 0; b--) {
        double here = fmin(left, stock->most * stock->lanes[b].share);
        feed += here * stock->lanes[b].feed_kg[week];
        left -= here;
    }
    return feed;
}

static void the_sale_of_13_may_lowers_the_feed_by_a_tenth_or_so(void **state)
{
    Shapes *shapes = *state;
    const Problem *problem = &shapes->demo.year.problem;
    int week = week_at(shapes, "2027-05-13");
    double all = 0.0;
    for (int s = 0; s < problem->stock_count; s++) {
        if (problem->stocks[s].is_standing) {
            all += feed_of(&problem->stocks[s], -1.0, week);
        }
    }
    double sold = feed_of(&problem->stocks[0], 70.0, week);
    assert_true(sold / all > 0.07 && sold / all < 0.18);
}

static void tanks_b_and_c_pass_their_ceiling_by_midsummer(void **state)
{
    Shapes *shapes = *state;
    const Farm *farm = shapes->demo.year.farm;
    int midsummer = week_at(shapes, "2027-07-01");
    int found = 0;
    for (int k = 0; k < farm->tanks_count; k++) {
        if (strcmp(farm->tanks[k].id, "B") == 0 ||
            strcmp(farm->tanks[k].id, "C") == 0) {
            int week = shapes->fish.tanks[k].over_density_week;
            assert_true(week > 4 && week <= midsummer);
            found++;
        }
    }
    assert_int_equal(found, 2);
}

/* Fish of 450 g and over if none had been sold, on a Monday. */
static double fish_ready(const Shapes *shapes, int week)
{
    double ready = 0.0;
    for (int i = 0; i < shapes->fish.batch_count; i++) {
        const FishStandBatch *batch = &shapes->fish.batches[i];
        if (!shapes->demo.year.farm->fish[batch->standing].is_kept) {
            ready += batch->over_count[week];
        }
    }
    return ready;
}

/* Weeks of June in which fish sold so far would be more than were ever ready,
 * when that share of the orders before May is sold. */
static int weeks_short_of_fish(Shapes *shapes, double spring_frac)
{
    const double *ordered = ordered_units(&shapes->demo, "fish");
    double sold = 0.0;
    int weeks_short = 0;
    for (int t = 0; t < week_at(shapes, "2027-07-01"); t++) {
        bool is_spring = t < week_at(shapes, "2027-05-01");
        sold += (is_spring ? spring_frac : 1.0) * ordered[t];
        weeks_short +=
            t >= week_at(shapes, "2027-06-01") && sold > fish_ready(shapes, t);
    }
    return weeks_short;
}

static void fish_are_short_in_june_unless_fewer_are_sold_in_spring(void **state)
{
    Shapes *shapes = *state;
    assert_true(weeks_short_of_fish(shapes, 1.0) >= 2);
    assert_int_equal(weeks_short_of_fish(shapes, 0.6), 0);
}

static void hours_bind_in_some_weeks_of_summer(void **state)
{
    Shapes *shapes = *state;
    const Problem *problem = &shapes->demo.year.problem;
    int binding = 0;
    for (int t = week_at(shapes, "2027-06-01");
         t < week_at(shapes, "2027-10-01"); t++) {
        binding +=
            shapes->plan.outcome.hours[t] > 0.97 * problem->hours_paid[t];
    }
    assert_true(binding >= 2);
}

static void six_a_bed_broccoli_earns_least_by_the_bed_week(void **state)
{
    Shapes *shapes = *state;
    Demo *demo = &shapes->demo;
    double wide = best_bed_week(demo, "broccoli-wide");
    assert_true(wide < 0.5 * best_bed_week(demo, "broccoli-close"));
    assert_true(wide < 0.2 * best_bed_week(demo, "lettuce-head"));
    int poorer = 0;
    for (int w = 0; w < demo->year.problem.way_count; w++) {
        double theirs = best_bed_week(demo, demo->year.problem.way_names[w]);
        poorer += isfinite(theirs) && theirs < wide;
    }
    assert_true(poorer <= 2);
}

static void the_plan_sets_no_six_a_bed_broccoli(void **state)
{
    Shapes *shapes = *state;
    int wide = way_of(&shapes->demo, "broccoli-wide");
    int sections = 0;
    for (int i = 0; i < shapes->plan.placement_count; i++) {
        const PlanPlacement *row = &shapes->plan.placements[i];
        bool is_wide =
            shapes->demo.year.problem.options[row->option].way == wide;
        sections += is_wide ? row->units : 0;
    }
    assert_true(sections <= 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(orders_ask_for_more_beds_than_there_are_in_autumn),
        cmocka_unit_test(
            heads_of_lettuce_are_far_over_orders_in_some_weeks_of_spring),
        cmocka_unit_test(feed_is_short_in_weeks_of_spring_and_over_in_others),
        cmocka_unit_test(the_sale_of_13_may_lowers_the_feed_by_a_tenth_or_so),
        cmocka_unit_test(tanks_b_and_c_pass_their_ceiling_by_midsummer),
        cmocka_unit_test(
            fish_are_short_in_june_unless_fewer_are_sold_in_spring),
        cmocka_unit_test(hours_bind_in_some_weeks_of_summer),
        cmocka_unit_test(six_a_bed_broccoli_earns_least_by_the_bed_week),
        cmocka_unit_test(the_plan_sets_no_six_a_bed_broccoli),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
