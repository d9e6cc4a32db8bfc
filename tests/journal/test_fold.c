/* Entries folded into the standing tables: plants come and go, counts and
 * kilos of fish balance. */
#include "check.h"

#include "journal/fold.h"

/* Two tanks, one fish batch of 400 x 250 g, one bed with one batch, and a plan
 * that sets a batch, clears the first, moves 100 fish of 330 g and sells 60. */
typedef struct Small {
    Farm farm;
    FarmSite site;
    Tank tanks[2];
    Bed bed;
    Way way;
    Plant plant;
    Fish fish;
    Plan plan;
    PlanPlant plan_plants[2];
    PlanFish lane;
    PlanMove moves[2];
} Small;

enum { START = 20878 }; /* Monday 1 March 2027 */

static void fill_plan(Small *small)
{
    small->plan = (Plan){.id = "accepted", .from = START, .weeks = 52};
    small->plan_plants[0] = (PlanPlant){.id = "first",
                                        .sections = 4,
                                        .plants = 64,
                                        .set_on = START - 30,
                                        .clear_on = START + 14,
                                        .standing = 0};
    small->plan_plants[1] = (PlanPlant){.id = "second",
                                        .sections = 3,
                                        .plants = 48,
                                        .set_on = START + 21,
                                        .clear_on = START + 70,
                                        .standing = -1};
    small->lane = (PlanFish){.id = "june-4",
                             .batch = "june",
                             .standing = 0,
                             .source = -1,
                             .lane = 4,
                             .count = 100,
                             .mean_g = 330.0};
    small->moves[0] = (PlanMove){.kind = MOVE_GRADE,
                                 .on = START + 28,
                                 .started = 100,
                                 .from_tank = 0,
                                 .to_tank = 1};
    small->moves[1] = (PlanMove){.kind = MOVE_SALE,
                                 .on = START + 56,
                                 .started = 60,
                                 .from_tank = 1,
                                 .to_tank = -1};
}

static void fill(Small *small)
{
    small->site.records_from = START;
    small->tanks[0].id = "A";
    small->tanks[1].id = "B";
    small->bed.cleaned_on = DATE_ALWAYS;
    small->plant = (Plant){.id = "lettuce-1",
                           .sections = 4,
                           .set_on = START - 30,
                           .counted_on = START};
    small->fish = (Fish){.id = "june",
                         .counted_on = START,
                         .count = 400,
                         .mean_g = 250.0,
                         .cv_frac = 0.25};
    fill_plan(small);
    small->farm = (Farm){.farm = &small->site,
                         .farm_count = 1,
                         .tanks = small->tanks,
                         .tanks_count = 2,
                         .beds = &small->bed,
                         .beds_count = 1,
                         .ways = &small->way,
                         .ways_count = 1,
                         .plants = &small->plant,
                         .plants_count = 1,
                         .fish = &small->fish,
                         .fish_count = 1,
                         .plan = &small->plan,
                         .plan_count = 1,
                         .plan_plants = small->plan_plants,
                         .plan_plants_count = 2,
                         .plan_fish = &small->lane,
                         .plan_fish_count = 1,
                         .plan_moves = small->moves,
                         .plan_moves_count = 2};
}

static void on_the_day_of_counting_the_tables_stand(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Small small = {0};
    fill(&small);
    Farm now;
    bool is_assumed = true;
    assert_ok(journal_farm_on(&small.farm, START, &arena, &now, &is_assumed));
    assert_false(is_assumed);
    assert_int_equal(now.plants_count, 1);
    assert_int_equal(now.fish[0].count, 400);
}

static void a_later_day_takes_the_plan_as_done_and_says_so(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Small small = {0};
    fill(&small);
    Farm now;
    bool is_assumed = false;
    assert_ok(
        journal_farm_on(&small.farm, START + 22, &arena, &now, &is_assumed));
    assert_true(is_assumed);
    assert_int_equal(now.plants_count, 1);
    assert_string_equal(now.plants[0].id, "second");
    assert_int_equal(now.plants[0].sections, 3);
    assert_int_equal(small.farm.plants_count, 1);
    assert_string_equal(small.farm.plants[0].id, "lettuce-1");
}

/* Seedlings in trays become what the plan sets of them, on its day. */
static void seedlings_leave_their_trays_when_they_are_set(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Small small = {0};
    fill(&small);
    Plant rows[2] = {small.plant,
                     {.id = "trays",
                      .bed = -1,
                      .plants = 130,
                      .trays = 2.6,
                      .sown_on = START - 20,
                      .set_on = DATE_NEVER,
                      .counted_on = START}};
    small.farm.plants = rows;
    small.farm.plants_count = 2;
    small.plan_plants[1].standing = 1;
    Farm now;
    bool is_assumed = false;
    assert_ok(
        journal_farm_on(&small.farm, START + 20, &arena, &now, &is_assumed));
    assert_int_equal(now.plants_count, 1);
    assert_string_equal(now.plants[0].id, "trays");
    assert_int_equal(now.plan_plants_count, 1);
    assert_int_equal(now.plan_plants[0].standing, 0);
    assert_ok(
        journal_farm_on(&small.farm, START + 22, &arena, &now, &is_assumed));
    assert_int_equal(now.plants_count, 2);
    assert_string_equal(now.plants[0].id, "trays");
    assert_int_equal(now.plants[0].plants, 130 - 48);
    assert_near(now.plants[0].trays, 2.6 * 82.0 / 130.0, 1e-9);
    assert_string_equal(now.plants[1].id, "second");
    assert_int_equal(now.plants[1].plants, 48);
    assert_int_equal(now.plants[1].counted_on, START + 21);
    assert_int_equal(now.plan_plants[0].standing, 1);
}

/* What was sown for the plan and is not set by then stands in trays, a batch
 * for each way and week of sowing; the plan sets it from there. */
static void what_is_sown_and_not_set_stands_in_trays(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Small small = {0};
    fill(&small);
    small.way = (Way){.id = "leek", .tray = 0};
    PlanPlant rows[3] = {small.plan_plants[0], small.plan_plants[1],
                         small.plan_plants[1]};
    rows[1].sow_on = START + 7;
    rows[1].set_on = START + 35;
    rows[2] = rows[1];
    rows[2].id = "third";
    rows[2].plants = 21;
    small.farm.plan_plants = rows;
    small.farm.plan_plants_count = 3;
    Farm now;
    bool is_assumed = false;
    assert_ok(
        journal_farm_on(&small.farm, START + 21, &arena, &now, &is_assumed));
    assert_int_equal(now.plants_count, 1);
    assert_string_equal(now.plants[0].id, "leek-sown-27W10");
    assert_int_equal(now.plants[0].plants, 48 + 21 + 2);
    assert_int_equal(now.plants[0].sown_on, START + 7);
    assert_int_equal(now.plants[0].bed, -1);
    assert_int_equal(now.plan_plants_count, 2);
    assert_int_equal(now.plan_plants[0].standing, 0);
    assert_int_equal(now.plan_plants[1].standing, 0);
}

static void counts_and_kilos_of_fish_balance(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Small small = {0};
    fill(&small);
    Farm now;
    bool is_assumed = false;
    assert_ok(
        journal_farm_on(&small.farm, START + 30, &arena, &now, &is_assumed));
    assert_int_equal(now.fish_count, 2);
    assert_int_equal(now.fish[0].count, 300);
    assert_int_equal(now.fish[1].count, 100);
    assert_string_equal(now.fish[1].id, "june-B");
    /* 400 x 250 g less 100 x 330 g leaves 300 of 223.3 g: the mean falls. */
    assert_near(now.fish[0].mean_g, 67000.0 / 300.0, 1e-9);
    assert_true(now.fish[0].cv_frac < 0.25);
    assert_ok(
        journal_farm_on(&small.farm, START + 60, &arena, &now, &is_assumed));
    assert_int_equal(now.fish[1].count, 40);
    assert_near(now.fish[0].count * now.fish[0].mean_g +
                    now.fish[1].count * now.fish[1].mean_g + 60 * 330.0,
                400 * 250.0, 1e-6);
}

static void more_fish_than_there_are_cannot_leave(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Small small = {0};
    fill(&small);
    small.moves[0].started = 401;
    Farm now;
    bool is_assumed = false;
    assert_err(
        journal_farm_on(&small.farm, START + 30, &arena, &now, &is_assumed),
        ERR_INPUT, "401 fish leave tank A");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(on_the_day_of_counting_the_tables_stand),
        cmocka_unit_test(a_later_day_takes_the_plan_as_done_and_says_so),
        cmocka_unit_test(seedlings_leave_their_trays_when_they_are_set),
        cmocka_unit_test(what_is_sown_and_not_set_stands_in_trays),
        cmocka_unit_test(counts_and_kilos_of_fish_balance),
        cmocka_unit_test(more_fish_than_there_are_cannot_leave),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
