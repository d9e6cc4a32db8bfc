/* The outlook of a week: yields, weights and warmth of the plan's rows. */
#include "small_farm.h"

#include "bed_climate.h"
#include "sim/fish_year.h"
#include "work/outlook.h"

typedef struct Place {
    BedClimate bed;
    BedYear beds[3];
    double water[FISH_YEAR_DAYS];
    double outside[FISH_YEAR_DAYS];
    const double *tanks[SMALL_TANKS];
    OutlookClimate climate;
} Place;

static void place_init(Place *place, double water_degc)
{
    bed_climate_init(&VALLEY, &TUNNEL, &place->bed);
    for (int b = 0; b < 3; b++) {
        place->beds[b] = place->bed.year;
    }
    for (int d = 0; d < FISH_YEAR_DAYS; d++) {
        place->water[d] = water_degc;
        place->outside[d] = 12.5;
    }
    for (int k = 0; k < SMALL_TANKS; k++) {
        place->tanks[k] = k < 3 ? place->water : place->outside;
    }
    place->climate = (OutlookClimate){place->beds, place->tanks};
}

static JobOutlook look(SmallFarm *small, const Place *place, int week)
{
    JobOutlook outlook = {0};
    OutlookAsk ask = {small->farm, &small->book, &place->climate,
                      small_week(week)};
    assert_ok(outlook_make(&ask, &small->arena, &outlook));
    return outlook;
}

/* Over all weeks of its picking a head lettuce gives what its plants can. */
static void yields_lie_in_the_weeks_of_picking(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    Place place;
    place_init(&place, 22.0);
    PlanPlant *row = &small.farm->plan_plants[0];
    JobYield none = look(&small, &place, 3).yields[0];
    assert_near(none.mean, 0.0, 1e-12);
    double heads = 0.0;
    row->pick_from = small_week(5);
    row->pick_until = small_week(14);
    for (int week = 0; week < 20; week++) {
        JobYield yield = look(&small, &place, week).yields[0];
        assert_true(yield.low <= yield.mean && yield.mean <= yield.high);
        heads += yield.mean;
    }
    assert_true(heads > 0.5 * row->plants && heads <= row->plants);
    small_farm_release(&small);
}

/* A lane's fish on a Monday are those of its batch's own run. */
static void lanes_weigh_what_their_batch_grows_to(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    Place place;
    place_init(&place, 25.0);
    JobOutlook now = look(&small, &place, 0);
    JobOutlook later = look(&small, &place, 6);
    assert_true(now.lane_g[0] < now.lane_g[1]);
    assert_near(now.lane_alive_frac[1], 1.0, 1e-9);
    assert_near(now.fish_g[0], 180.0, 0.5);
    assert_true(later.lane_g[1] > now.lane_g[1] + 30.0);
    assert_true(later.lane_alive_frac[1] < 1.0);
    assert_true(later.fish_alive_frac[0] > 0.95);
    small_farm_release(&small);
}

static void colder_water_grows_them_slower(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    Place warm;
    Place cool;
    place_init(&warm, 26.0);
    place_init(&cool, 20.0);
    double warm_g = look(&small, &warm, 8).lane_g[0];
    double cool_g = look(&small, &cool, 8).lane_g[0];
    assert_true(warm_g > cool_g + 20.0);
    small_farm_release(&small);
}

/* Tanks of a loop have its water, others that outside; seed in trays stands on
 * the bench, seed in place in its bed. */
static void warmth_is_that_of_the_place(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    Place place;
    place_init(&place, 23.5);
    JobOutlook outlook = look(&small, &place, 1);
    assert_near(outlook.tank_degc[0], 23.5, 1e-12);
    assert_near(outlook.tank_degc[3 * JOBS_DAYS + 6], 12.5, 1e-12);
    assert_true(outlook.tunnel_max_degc[2] > outlook.tunnel_min_degc[2]);
    int day = date_day_of_year(small_week(1)) - 1;
    assert_near(outlook.sow_degc[4], place.bed.mean_degc[day], 1e-9);
    assert_true(outlook.sow_degc[0] >= 18.0);
    small_farm_release(&small);
}

/* A bed in the open beside the tunnel is colder by night. */
static void a_bed_has_its_own_air(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    Place place;
    BedClimate open;
    BedClimate cool;
    place_init(&place, 22.0);
    bed_climate_init(&VALLEY, &OPEN_AIR, &open);
    bed_climate_init(&VALLEY, &COOL_SIDE, &cool);
    double under = look(&small, &place, 0).tunnel_min_degc[0];
    place.beds[0] = open.year;
    double outside = look(&small, &place, 0).tunnel_min_degc[0];
    place.beds[0] = cool.year;
    double side = look(&small, &place, 0).tunnel_min_degc[0];
    assert_true(outside < side && side < under);
    small_farm_release(&small);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(yields_lie_in_the_weeks_of_picking),
        cmocka_unit_test(lanes_weigh_what_their_batch_grows_to),
        cmocka_unit_test(colder_water_grows_them_slower),
        cmocka_unit_test(warmth_is_that_of_the_place),
        cmocka_unit_test(a_bed_has_its_own_air),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
