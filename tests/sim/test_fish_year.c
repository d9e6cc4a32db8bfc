/* A fish batch through its weeks: nothing lost, cold seasons, lanes. */
#include "check.h"

#include "base/date.h"
#include "sim/fish_year.h"

/* A loop that swings between 19 and 28 degC over the year. */
static void seasons(double out[FISH_YEAR_DAYS])
{
    for (int d = 0; d < FISH_YEAR_DAYS; d++) {
        out[d] = 23.5 - 4.5 * cos(2.0 * acos(-1.0) * (d - 20) / 365.0);
    }
}

static const FishFeed FEEDS[] = {{0, 5, 0.45}, {5, 60, 0.38}, {60, 9e9, 0.32}};

static FishYearCase batch(const double *water, int count, double mean_g)
{
    const FishSpecies *species = NULL;
    assert_ok(fish_species_find("nile-tilapia", &species));
    int32_t day = date_from_civil((CivilDate){2027, 3, 1});
    return (FishYearCase){
        .species = species,
        .draw = {count, mean_g, 0.25, FISH_SEX_SEXED},
        .from_day = day,
        .first_week = day,
        .weeks = 78,
        .water_degc = water,
        .appetite = 1.0,
        .ration_frac = 1.0,
        .death_scale = 1.0,
        .feeds = FEEDS,
        .feed_count = 3,
        .protein_frac = 0.32,
    };
}

static double sum(const double *values, int count)
{
    double total = 0.0;
    for (int i = 0; i < count; i++) {
        total += values[i];
    }
    return total;
}

static void kilos_close_over_the_whole_time(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    double water[FISH_YEAR_DAYS];
    seasons(water);
    FishYearCase fish = batch(water, 503, 61.0);
    FishYear year;
    assert_ok(fish_year_run(&arena, &fish, &year));
    double feed_kg = 0.0;
    for (int i = 0; i < FISH_SLICES; i++) {
        feed_kg += sum(year.slices[i].feed_kg, year.weeks);
    }
    assert_near(feed_kg, year.feed_kg, 1e-9 * feed_kg);
    assert_near(fish_year_count(&year, 0), 503.0, 1e-9);
    assert_near(fish_year_mean_g(&year, 0), 61.0, 1e-9);
    double gain_kg = fish_year_kg(&year, year.weeks) - year.start_kg;
    double conversion = feed_kg / (gain_kg + year.dead_kg);
    assert_true(conversion > 1.2 && conversion < 2.2);
    for (int w = 0; w < year.weeks; w++) {
        assert_true(fish_year_count(&year, w + 1) < fish_year_count(&year, w));
        assert_true(fish_year_mean_g(&year, w + 1) >
                    fish_year_mean_g(&year, w));
    }
}

static void the_same_fish_take_longer_through_a_winter(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    double water[FISH_YEAR_DAYS];
    seasons(water);
    int weeks_to[2] = {0, 0};
    static const CivilDate STARTS[] = {{2027, 4, 5}, {2027, 10, 4}};
    for (int s = 0; s < 2; s++) {
        FishYearCase fish = batch(water, 200, 150.0);
        fish.from_day = date_from_civil(STARTS[s]);
        fish.first_week = fish.from_day;
        FishYear year;
        assert_ok(fish_year_run(&arena, &fish, &year));
        while (fish_year_mean_g(&year, weeks_to[s]) < 400.0) {
            weeks_to[s]++;
        }
    }
    assert_true(weeks_to[1] > weeks_to[0] + 4);
}

static void lanes_add_up_to_the_batch(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    double water[FISH_YEAR_DAYS];
    seasons(water);
    FishYearCase fish = batch(water, 517, 61.0);
    fish.draw.sex = FISH_SEX_MIXED;
    FishYear year;
    assert_ok(fish_year_run(&arena, &fish, &year));
    FishLane lanes[4];
    fish_year_lanes(&arena, &year, 4, lanes);
    for (int w = 0; w < year.weeks; w++) {
        double kg = 0.0;
        double feed_kg = 0.0;
        double over = 0.0;
        for (int b = 0; b < 4; b++) {
            double heads = lanes[b].share * 517.0;
            kg += heads * lanes[b].alive[w] * lanes[b].weight_g[w] / 1000.0;
            feed_kg += heads * lanes[b].feed_kg[w];
            over += heads * fish_lane_over_frac(&year, &lanes[b], w, 0.5);
        }
        double want_kg = 0.0;
        for (int i = 0; i < FISH_SLICES; i++) {
            want_kg += year.slices[i].feed_kg[w];
        }
        assert_near(kg, fish_year_kg(&year, w), 1e-9 * kg);
        assert_near(feed_kg, want_kg, 1e-9 * feed_kg);
        assert_near(over, fish_year_count(&year, w), 1e-6 * over);
    }
    for (int b = 1; b < 4; b++) {
        assert_true(lanes[b].weight_g[0] > lanes[b - 1].weight_g[0]);
        assert_near(lanes[b].alive[0], 1.0, 1e-12);
    }
}

static void ammonia_follows_the_feed_and_its_protein(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    double water[FISH_YEAR_DAYS];
    seasons(water);
    FishYearCase fish = batch(water, 100, 300.0);
    FishYear year;
    assert_ok(fish_year_run(&arena, &fish, &year));
    const FishSliceYear *slice = &year.slices[7];
    assert_near(7.0 * slice->tan_g_d[20],
                1000.0 * slice->feed_kg[20] * 0.092 * 0.32,
                1e-9 * slice->tan_g_d[20] + 1e-9);
    /* Worst hour: between 100 and 1,500 mg/kg/h of its fish. */
    double kg = slice->count[20] * slice->weight_g[20] / 1000.0;
    assert_true(slice->oxygen_g_h[20] > 0.1 * kg &&
                slice->oxygen_g_h[20] < 1.5 * kg);
}

static void off_feed_fish_eat_nothing_and_thin_out_slowly(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    double water[FISH_YEAR_DAYS];
    seasons(water);
    FishYearCase fish = batch(water, 100, 300.0);
    fish.ration_frac = 0.0;
    fish.weeks = 2;
    FishYear year;
    assert_ok(fish_year_run(&arena, &fish, &year));
    assert_near(year.feed_kg, 0.0, 0.0);
    double left = fish_year_mean_g(&year, 2) / fish_year_mean_g(&year, 0);
    assert_true(left < 1.0 && left > 0.95);
}

static void fish_counted_before_the_first_week_grow_up_to_it(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    double water[FISH_YEAR_DAYS];
    seasons(water);
    FishYearCase late = batch(water, 400, 83.0);
    late.first_week += 35;
    FishYearCase on_time = batch(water, 400, 83.0);
    FishYear a;
    FishYear b;
    assert_ok(fish_year_run(&arena, &late, &a));
    assert_ok(fish_year_run(&arena, &on_time, &b));
    assert_near(fish_year_mean_g(&a, 0), fish_year_mean_g(&b, 5), 1e-9);
    assert_near(fish_year_kg(&a, 3), fish_year_kg(&b, 8), 1e-9);
}

static void impossible_cases_are_refused(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    double water[FISH_YEAR_DAYS];
    seasons(water);
    FishYear year;
    FishYearCase fish = batch(water, 0, 83.0);
    assert_err(fish_year_run(&arena, &fish, &year), ERR_RANGE, "0 fish");
    fish = batch(water, 10, 83.0);
    fish.weeks = 0;
    assert_err(fish_year_run(&arena, &fish, &year), ERR_RANGE, "0 weeks");
    fish = batch(water, 10, 83.0);
    fish.from_day -= 400;
    assert_err(fish_year_run(&arena, &fish, &year), ERR_RANGE, "count them");
    fish = batch(water, 10, 83.0);
    fish.from_day += 7;
    assert_err(fish_year_run(&arena, &fish, &year), ERR_RANGE, "7 days after");
    fish.from_day -= 1; /* the Sunday of the first week will do */
    assert_ok(fish_year_run(&arena, &fish, &year));
    assert_near(fish_year_mean_g(&year, 0), 83.0, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kilos_close_over_the_whole_time),
        cmocka_unit_test(the_same_fish_take_longer_through_a_winter),
        cmocka_unit_test(lanes_add_up_to_the_batch),
        cmocka_unit_test(ammonia_follows_the_feed_and_its_protein),
        cmocka_unit_test(off_feed_fish_eat_nothing_and_thin_out_slowly),
        cmocka_unit_test(fish_counted_before_the_first_week_grow_up_to_it),
        cmocka_unit_test(impossible_cases_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
