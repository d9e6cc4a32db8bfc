/* The coupled hour: what must hold on any farm. The farms are invented. */
#include "hour_farms.h"

#include <stdlib.h>

enum { YEAR_D = 364, DRAWN = 12 };

static int drawn = DRAWN; /* farms; ./prove long draws more */

static const double CLOSES = 1e-9;

static bool loop_is_finite(const HourLoopDay *l)
{
    double all = l->temp_degc + l->tan_g_m3 + l->nitrite_g_m3 +
                 l->nitrate_g_m3 + l->ph + l->ph_least + l->alkalinity_mg_l +
                 l->co2_g_m3 + l->sodium_g_m3 + l->chloride_g_m3 +
                 l->solids_kg + l->feed_kg + l->top_up_m3 + l->vapour_m3 +
                 l->heater_kwh + l->nitrified_g + l->sump_least_m3;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        all += l->element_g_m3[e] + l->fish_g[e] + l->mineral_g[e] +
               l->taken_g[e] + l->asked_g[e] + l->lost_g[e];
    }
    return isfinite(all);
}

static void assert_closes(const HourRun *run)
{
    if (!(run->days.worst_residual_frac <= CLOSES)) {
        print_error("%s is off by %g of what moved in an hour\n",
                    hour_quantity_name(run->days.worst_quantity),
                    run->days.worst_residual_frac);
    }
    assert_true(run->days.worst_residual_frac <= CLOSES);
}

static void assert_sound(const HourRun *run)
{
    const Farm *farm = run->farm;
    for (int i = 0; i < run->days.count * farm->loops_count; i++) {
        const HourLoopDay *l = &run->days.loops[i];
        assert_true(loop_is_finite(l));
        if (!(l->tan_g_m3 >= 0.0 && l->nitrite_g_m3 >= 0.0)) {
            print_error("day %d: ammonia %g, nitrite %g g/m3\n", i, l->tan_g_m3,
                        l->nitrite_g_m3);
        }
        assert_true(l->tan_g_m3 >= 0.0 && l->nitrite_g_m3 >= 0.0);
        assert_true(l->ph_least >= 3.0 && l->ph <= 12.0);
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            assert_true(l->element_g_m3[e] >= -1e-9);
            if (!(l->taken_g[e] <= l->asked_g[e] + 1e-9)) {
                print_error("day %d element %d: taken %g of %g\n", i, e,
                            l->taken_g[e], l->asked_g[e]);
            }
            assert_true(l->taken_g[e] <= l->asked_g[e] + 1e-9);
        }
    }
    for (int i = 0; i < run->days.count * farm->tanks_count; i++) {
        const HourTankDay *t = &run->days.tanks[i];
        assert_true(isfinite(t->count + t->kg + t->temp_degc +
                             t->oxygen_least_g_m3 + t->nh3_most_g_m3));
        assert_true(t->count >= 0.0 && t->kg >= -1e-9);
        assert_true(t->oxygen_least_g_m3 >= -1e-9);
    }
}

static void the_ledger_closes_each_hour_of_a_year_on_drawn_farms(void **state)
{
    (void)state;
    for (int number = 0; number < drawn; number++) {
        CLEANUP(arena_release) Arena arena = {0};
        HourTables tables = hour_tables_drawn(&arena, number);
        HourCare care = hour_usual_care();
        care.gives_iron = number % 2 == 0;
        HourRun run;
        hour_run_of(&arena, &tables, &care, YEAR_D, &run);
        assert_sound(&run);
        assert_closes(&run);
        for (int q = 0; q < LEDGER_COUNT; q++) {
            assert_true(hour_ledger_residual_frac(&run.days.ledger, q) <=
                        CLOSES);
        }
    }
}

static void something_moves_in_each_quantity_of_the_ledger(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables tables = hour_tables_usual();
    HourCare care = hour_usual_care();
    HourRun run;
    hour_run_of(&arena, &tables, &care, 28, &run);
    for (int q = 0; q < LEDGER_COUNT; q++) {
        bool comes = run.days.ledger.in[q] > 0.0;
        assert_true(comes || q == LEDGER_FISH_COUNT);
        assert_true(run.days.ledger.out[q] > 0.0);
        assert_true(fabs(run.days.ledger.stored[q]) > 0.0);
    }
}

static void a_copied_state_lives_the_same_days_to_the_last_bit(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables tables = hour_tables_usual();
    HourCare care = hour_usual_care();
    HourRun run;
    hour_run_of(&arena, &tables, &care, 9, &run);
    HourState *other = NULL;
    assert_ok(hour_state_make(run.hours, &arena, &other));
    hour_state_copy(run.hours, run.state, other);
    HourDays one, two;
    HourWeather *weather = ARENA_ARRAY(&arena, HourWeather, 12 * 24);
    hour_typical_weather(run.hours, 9 * 24, 12 * 24, weather);
    hour_days_make(run.hours, 12, &arena, &one);
    hour_days_make(run.hours, 12, &arena, &two);
    hour_run(run.hours, run.state, weather, &one);
    hour_run(run.hours, other, weather, &two);
    assert_memory_equal(one.loops, two.loops, 12 * sizeof *one.loops);
    assert_memory_equal(one.tanks, two.tanks, 24 * sizeof *one.tanks);
    assert_true(hour_state_hours(other) == 21 * 24);
}

/* Day after day of the first and last of a run. */
static double fed_kg(const HourRun *run, int from, int to)
{
    double sum = 0.0;
    for (int day = from; day < to; day++) {
        sum += run->days.loops[day].eaten_kg;
    }
    return sum;
}

static void colder_water_is_fed_less(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables warm = hour_tables_usual();
    HourTables cold = warm;
    warm.heaters = "boil,L,,,30,26,all\n";
    cold.heaters = "";
    HourCare care = hour_usual_care();
    HourRun run, other;
    hour_run_of(&arena, &warm, &care, 28, &run);
    hour_run_of(&arena, &cold, &care, 28, &other);
    assert_true(fed_kg(&run, 7, 28) > 1.5 * fed_kg(&other, 7, 28));
    assert_near(run.days.loops[27].temp_degc, 26.0, 0.3);
}

static void fish_without_pump_and_air_suffocate_when_crowded(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables still = hour_tables_usual();
    still.pumps = "P,L,0.01,0,0\n";
    still.aerators = "";
    still.fish = "old,nile-tilapia,A,2027-03-01,400,310,0.15,sexed\n";
    HourCare care = hour_usual_care();
    HourRun run;
    hour_run_of(&arena, &still, &care, 7, &run);
    assert_sound(&run);
    assert_true(run.days.tanks[0].dead_count > 100.0);
    assert_true(run.days.tanks[0].suffered_h > 2.0);
    assert_closes(&run);
}

static void fish_that_are_not_fed_lose_weight_and_make_less_ammonia(void **s)
{
    (void)s;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables tables = hour_tables_usual();
    HourCare fed = hour_usual_care();
    HourCare starved = fed;
    starved.feed_frac = 0.0;
    HourRun run, other;
    hour_run_of(&arena, &tables, &fed, 28, &run);
    hour_run_of(&arena, &tables, &starved, 28, &other);
    int last = 27 * 2;
    assert_true(run.days.tanks[last].kg > other.days.tanks[last].kg);
    assert_true(other.days.tanks[last].kg < other.days.tanks[0].kg);
    assert_true(run.days.loops[27].fish_g[HOUR_N] >
                3.0 * other.days.loops[27].fish_g[HOUR_N]);
}

static void beds_that_never_flood_let_ammonia_gather(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables wet = hour_tables_usual();
    HourTables dry = wet;
    dry.zones = "Z1,L,P,1,20,0\nZ2,L,P,2,25,0\n";
    HourCare care = hour_usual_care();
    HourRun run, other;
    hour_run_of(&arena, &wet, &care, 14, &run);
    hour_run_of(&arena, &dry, &care, 14, &other);
    assert_true(run.days.loops[13].tan_g_m3 < 1.0);
    assert_true(other.days.loops[13].tan_g_m3 > 3.0);
    /* What becomes mineral in the gravel is turned where it lies. */
    assert_true(other.days.loops[13].nitrified_g <
                0.1 * run.days.loops[13].nitrified_g);
}

static void plants_take_less_where_there_is_less(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables rich = hour_tables_usual();
    HourTables poor = rich;
    rich.readings = ",L,2027-02-26T16:00+00:00,nitrate_mg_l,80\n";
    poor.readings = ",L,2027-02-26T16:00+00:00,nitrate_mg_l,0.2\n";
    poor.fish = "";
    HourCare care = hour_usual_care();
    HourRun run, other;
    hour_run_of(&arena, &rich, &care, 14, &run);
    hour_run_of(&arena, &poor, &care, 14, &other);
    double much =
        run.days.loops[10].taken_g[HOUR_N] / run.days.loops[10].asked_g[HOUR_N];
    double little = other.days.loops[10].taken_g[HOUR_N] /
                    other.days.loops[10].asked_g[HOUR_N];
    assert_true(much > 0.9 && little < 0.7 && little > 0.0);
}

/* Every odd reading the tables allow is answered with finite numbers. */
static void bad_water_is_answered_with_finite_numbers(void **state)
{
    (void)state;
    static const char *const READINGS[] = {
        "A,,2027-03-01T07:30+00:00,temp_degc,2\n",
        "A,,2027-03-01T07:30+00:00,temp_degc,45\n",
        ",L,2027-03-01T07:30+00:00,ph,3\n",
        ",L,2027-03-01T07:30+00:00,ph,11\n",
        ",L,2027-03-01T07:30+00:00,alkalinity_mg_l,0\n",
        ",L,2027-03-01T07:30+00:00,oxygen_mg_l,0\n",
        (",L,2027-03-01T07:30+00:00,tan_mg_l,90\n"
         ",L,2027-03-01T07:30+00:00,ph,8.9\n"),
    };
    for (size_t i = 0; i < sizeof READINGS / sizeof *READINGS; i++) {
        CLEANUP(arena_release) Arena arena = {0};
        HourTables tables = hour_tables_usual();
        tables.readings = READINGS[i];
        HourCare care = hour_usual_care();
        HourRun run;
        hour_run_of(&arena, &tables, &care, 7, &run);
        assert_sound(&run);
        assert_closes(&run);
    }
}

static void hot_ammonia_rich_water_kills(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables tables = hour_tables_usual();
    tables.readings = ",L,2027-03-01T07:30+00:00,tan_mg_l,90\n"
                      ",L,2027-03-01T07:30+00:00,alkalinity_mg_l,400\n"
                      ",L,2027-03-01T07:30+00:00,ph,8.9\n";
    HourCare care = hour_usual_care();
    HourRun run;
    hour_run_of(&arena, &tables, &care, 7, &run);
    assert_true(run.days.tanks[0].nh3_most_g_m3 > 3.0);
    assert_true(run.days.tanks[0].dead_count > 10.0);
}

static void a_farm_without_pump_fish_or_plants_still_has_its_days(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables tables = hour_tables_usual();
    tables.fish = "";
    tables.plants = "";
    tables.pumps = "P,L,0.01,0,0\n";
    HourCare care = hour_usual_care();
    HourRun run;
    hour_run_of(&arena, &tables, &care, 28, &run);
    assert_sound(&run);
    assert_near(run.days.loops[27].feed_kg, 0.0, 0.0);
    assert_closes(&run);
}

static void hours_begin_on_a_monday(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables tables = hour_tables_usual();
    Book book;
    ClimateYear year;
    assert_ok(book_load(&arena, &book));
    const Farm *farm = hour_farm_of(&arena, &tables);
    assert_ok(climate_year_run(farm, &book, &arena, &year));
    HourAsk ask = {farm, &book, &year, farm->farm->records_from + 1,
                   hour_usual_care()};
    HourFarm *hours = NULL;
    assert_err(hour_farm_make(&ask, &arena, &hours), ERR_RANGE, "Monday");
}

int main(int count, char **words)
{
    drawn = count > 1 ? atoi(words[1]) : DRAWN;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_ledger_closes_each_hour_of_a_year_on_drawn_farms),
        cmocka_unit_test(something_moves_in_each_quantity_of_the_ledger),
        cmocka_unit_test(a_copied_state_lives_the_same_days_to_the_last_bit),
        cmocka_unit_test(colder_water_is_fed_less),
        cmocka_unit_test(fish_without_pump_and_air_suffocate_when_crowded),
        cmocka_unit_test(
            fish_that_are_not_fed_lose_weight_and_make_less_ammonia),
        cmocka_unit_test(beds_that_never_flood_let_ammonia_gather),
        cmocka_unit_test(plants_take_less_where_there_is_less),
        cmocka_unit_test(bad_water_is_answered_with_finite_numbers),
        cmocka_unit_test(hot_ammonia_rich_water_kills),
        cmocka_unit_test(a_farm_without_pump_fish_or_plants_still_has_its_days),
        cmocka_unit_test(hours_begin_on_a_monday),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
