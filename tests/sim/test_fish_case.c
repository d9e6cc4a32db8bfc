/* From a farm's rows to a case. */
#include "pond.h"

#include "sim/fish_case.h"

static void rows_become_cases_word_for_word(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const Farm *farm = pond(&arena, false);
    FishSpan span = {pond_day(2027, 3, 1), 30, pond_water(&arena, farm)[0]};
    FishYearCase fish;
    assert_ok(fish_case_standing(&arena, farm, 1, &span, &fish));
    assert_int_equal(fish.draw.count, 403);
    assert_int_equal(fish.draw.sex, FISH_SEX_MIXED);
    assert_int_equal(fish.from_day, pond_day(2027, 2, 11));
    assert_string_equal(fish.species->name, "nile-tilapia");
    FishYear year;
    assert_ok(fish_year_run(&arena, &fish, &year));
    assert_true(fish_year_mean_g(&year, 0) > 60.0); /* grown since counted */
    assert_ok(fish_case_source(&arena, farm, 0, 317, &span, &fish));
    assert_int_equal(fish.draw.count, 317);
    assert_int_equal(fish.draw.sex, FISH_SEX_MALES);
    assert_near(fish.draw.mean_g, 25.0, 0.0);
    farm->fish[0].species = "salmon";
    assert_err(fish_case_standing(&arena, farm, 0, &span, &fish), ERR_NOT_FOUND,
               "salmon");
}

/* Told so or by the use of their tank; they are fed to condition. */
static void breeders_eat_less_than_they_would(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const Farm *farm = pond(&arena, false);
    FishSpan span = {pond_day(2027, 3, 1), 9, pond_water(&arena, farm)[0]};
    double feed_kg[3];
    for (int way = 0; way < 3; way++) {
        farm->fish[0].is_kept = way == 1;
        farm->tanks[0].use = way == 2 ? TANK_BREEDERS : TANK_GROW;
        assert_int_equal(fish_case_is_kept(farm, 0), way > 0);
        FishYearCase fish;
        FishYear year;
        assert_ok(fish_case_standing(&arena, farm, 0, &span, &fish));
        assert_ok(fish_year_run(&arena, &fish, &year));
        feed_kg[way] = year.feed_kg;
    }
    assert_true(feed_kg[1] < 0.5 * feed_kg[0]);
    assert_near(feed_kg[2], feed_kg[1], 1e-9);
}

static void the_ends_grow_less_and_more_than_the_middle(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Farm farm = *pond(&arena, false);
    FishSpan span = {pond_day(2027, 3, 1), 30, pond_water(&arena, &farm)[0]};
    FishYearCase fish;
    assert_ok(fish_case_standing(&arena, &farm, 0, &span, &fish));
    static OwnFigure own = {.about = "nile-tilapia",
                            .figure = "appetite",
                            .value = 1.2,
                            .low = 1.1,
                            .high = 1.3};
    for (int is_own = 0; is_own < 2; is_own++) {
        farm.figures = &own;
        farm.figures_count = is_own;
        double mean_g[3];
        for (int end = -1; end <= 1; end++) {
            FishSpecies room;
            FishYearCase at = fish_case_at(&farm, &fish, end, &room);
            FishYear year;
            assert_ok(fish_year_run(&arena, &at, &year));
            mean_g[end + 1] = fish_year_mean_g(&year, 20);
        }
        assert_true(mean_g[0] < mean_g[2]);
        if (!is_own) {
            assert_true(mean_g[0] < mean_g[1] && mean_g[1] < mean_g[2]);
        }
    }
    assert_near(fish_case_appetite(&farm, "nile-tilapia").value, 1.2, 0.0);
    assert_near(fish_case_appetite(&farm, "common-carp").value, 1.0, 0.0);
}

/* The farm's own growth per feed, upkeep, oxygen and deaths go before the
 * book's; where the water is warm the range is that of growth per feed. */
static void the_farms_own_figures_of_a_fish_are_used(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Farm farm = *pond(&arena, false);
    double *warm = ARENA_ARRAY(&arena, double, FISH_YEAR_DAYS);
    for (int d = 0; d < FISH_YEAR_DAYS; d++) {
        warm[d] = 29.0;
    }
    FishSpan span = {pond_day(2027, 3, 1), 20, warm};
    OwnFigure own[] = {
        {.about = "nile-tilapia",
         .figure = "efficiency",
         .value = 0.55,
         .low = 0.51,
         .high = 0.6},
        {.about = "nile-tilapia",
         .figure = "oxygen_frac",
         .value = 1.3,
         .low = 1.2,
         .high = 1.4},
        {.about = "nile-tilapia",
         .figure = "deaths",
         .value = 6.0,
         .low = 3.0,
         .high = 9.0},
        {.about = "nile-tilapia",
         .figure = "upkeep_g",
         .value = 0.0015,
         .low = 0.0012,
         .high = 0.0019},
    };
    FishYear years[2];
    for (int is_own = 0; is_own < 2; is_own++) {
        farm.figures = own;
        farm.figures_count = is_own ? 4 : 0;
        FishYearCase fish;
        assert_ok(fish_case_standing(&arena, &farm, 0, &span, &fish));
        assert_ok(fish_year_run(&arena, &fish, &years[is_own]));
        double mean_g[3];
        for (int end = -1; end <= 1; end++) {
            FishSpecies room;
            FishYearCase at = fish_case_at(&farm, &fish, end, &room);
            FishYear year;
            assert_ok(fish_year_run(&arena, &at, &year));
            mean_g[end + 1] = fish_year_mean_g(&year, 20);
        }
        assert_true(mean_g[0] < 0.99 * mean_g[1]);
        assert_true(mean_g[1] < 0.99 * mean_g[2]);
    }
    assert_true(fish_year_mean_g(&years[1], 20) <
                0.97 * fish_year_mean_g(&years[0], 20));
    assert_true(fish_year_count(&years[1], 20) <
                fish_year_count(&years[0], 20));
    double use[2];
    for (int i = 0; i < 2; i++) {
        use[i] = years[i].slices[3].oxygen_g_h[0] / years[i].slices[3].count[0];
    }
    /* They are lighter by the end of the week as well. */
    assert_true(use[1] > 1.22 * use[0] && use[1] <= 1.3 * use[0]);
}

static void tanks_have_their_loops_water_or_their_heaters(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Farm farm = *pond(&arena, false);
    static double loops[3][FISH_YEAR_DAYS];
    for (int d = 0; d < FISH_YEAR_DAYS; d++) {
        loops[0][d] = 21.3;
        loops[1][d] = 22.7;
        loops[2][d] = 9.1; /* outside */
    }
    const double *const loop_degc[] = {loops[0], loops[1]};
    /* Of tank B, in January and December; day 366 of a leap year is December.
     */
    static Heater heater = {.loop = -1,
                            .tank = 2,
                            .tunnel = -1,
                            .target_degc = 26.4,
                            .months = 1u | 1u << 11};
    farm.heaters = &heater;
    farm.heaters_count = 1;
    const double *const *tanks =
        fish_case_water(&arena, &farm, loop_degc, loops[2]);
    assert_near(tanks[0][200], 21.3, 0.0);
    assert_near(tanks[2][200], 22.7, 0.0);
    assert_near(tanks[2][30], 26.4, 0.0);
    assert_near(tanks[2][31], 22.7, 0.0);
    assert_near(tanks[2][365], 26.4, 0.0);
    assert_near(tanks[3][200], 21.3, 0.0); /* a tub in the room */
    farm.tanks[3].tunnel = 0;
    tanks = fish_case_water(&arena, &farm, loop_degc, loops[2]);
    assert_near(tanks[3][200], 9.1, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_become_cases_word_for_word),
        cmocka_unit_test(breeders_eat_less_than_they_would),
        cmocka_unit_test(the_farms_own_figures_of_a_fish_are_used),
        cmocka_unit_test(tanks_have_their_loops_water_or_their_heaters),
        cmocka_unit_test(the_ends_grow_less_and_more_than_the_middle),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
