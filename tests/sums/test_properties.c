/* What must hold of sums whatever the numbers: they rise, fall, close and agree
 * with one another. */
#include <stdio.h>

#include "ask.h"

#include "base/rng.h"

/* The value asked for, with the facts filled in as printf does. */
PRINTF_LIKE(3, 4)
static double value_of(const char *sum, const char *also, const char *format,
                       ...)
{
    char facts[400];
    va_list args;
    va_start(args, format);
    vsnprintf(facts, sizeof facts, format, args);
    va_end(args);
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    assert_ok(ask(sum, facts, &arena, &answer));
    return ask_value(&answer, also)->value;
}

static double between(Rng *rng, double low, double high)
{
    return low + rng_f64(rng) * (high - low);
}

enum { TRIES = 40 };

static void ammonia_rises_with_ph_and_warmth(void **state)
{
    (void)state;
    Rng rng = rng_make(7, 1);
    for (int i = 0; i < TRIES; i++) {
        double t = between(&rng, 2, 45);
        double ph = between(&rng, 5, 10);
        double here = value_of("unionised-ammonia", NULL,
                               "temp_degc=%.6f ph=%.6f tan_mg_l=2.385", t, ph);
        assert_true(here < value_of("unionised-ammonia", NULL,
                                    "temp_degc=%.6f ph=%.6f tan_mg_l=2.385",
                                    t + 1, ph));
        assert_true(here < value_of("unionised-ammonia", NULL,
                                    "temp_degc=%.6f ph=%.6f tan_mg_l=2.385", t,
                                    ph + 0.1));
        assert_true(here < 2.385);
    }
}

static void a_gradings_counts_and_kilos_add_up(void **state)
{
    (void)state;
    Rng rng = rng_make(7, 2);
    for (int i = 0; i < TRIES; i++) {
        double count = floor(between(&rng, 50, 2000));
        double mean = between(&rng, 5, 700);
        CLEANUP(arena_release) Arena arena = {0};
        char facts[200];
        snprintf(facts, sizeof facts,
                 "count=%.0f mean_g=%.4f cv_pct=%.3f cut_g=%.4f", count, mean,
                 between(&rng, 15, 50), mean * between(&rng, 0.8, 1.25));
        SumAnswer answer;
        assert_ok(ask("grade-split", facts, &arena, &answer));
        double fish = ask_value(&answer, "left")->value +
                      ask_value(&answer, "moved")->value;
        double kilos = ask_value(&answer, "kilos left")->value +
                       ask_value(&answer, "kilos moved")->value;
        assert_near(fish, count, 1e-6 * count);
        /* As many digits as the facts were written with. */
        assert_near(kilos, count * mean / 1000.0, 1e-4 * kilos);
        assert_true(answer.main.value < mean);
        assert_true(ask_value(&answer, "mean weight of the moved")->value >
                    mean);
    }
}

static void doses_scale_with_the_water_and_keep_to_their_steps(void **state)
{
    (void)state;
    static const char *const BASES[] = {"KHCO3", "KOH", "Ca(OH)2"};
    Rng rng = rng_make(7, 3);
    for (int i = 0; i < TRIES; i++) {
        char facts[300];
        double ph = between(&rng, 5.8, 6.8);
        double tan = between(&rng, 0, 4);
        snprintf(facts, sizeof facts,
                 "base=%s alkalinity_mg_l=%.3f ph=%.4f target_ph=%.4f "
                 "temp_degc=%.3f tan_mg_l=%.4f",
                 BASES[i % 3], between(&rng, 20, 90), ph,
                 ph + between(&rng, 0.05, 0.4), between(&rng, 18, 30), tan);
        const char *all = "all days together, never at once";
        double one = value_of("base-dose", all, "%s volume_m3=1", facts);
        double many = value_of("base-dose", all, "%s volume_m3=33", facts);
        assert_near(many, 33.0 * one, 1e-6 * many);
        double first = value_of("base-dose", NULL, "%s volume_m3=1", facts);
        assert_true(first <= one * (1.0 + 1e-9));
        double after = value_of("base-dose", "pH after the first day",
                                "%s volume_m3=1", facts);
        assert_true(after - ph < 0.2 + 1e-4);
        assert_true(value_of("base-dose", "NH3-N after the last day",
                             "%s volume_m3=1", facts) <= 0.05);
    }
}

static void a_base_swapped_there_and_back_is_the_same(void **state)
{
    (void)state;
    double lime = value_of("base-swap", NULL, "from=KOH to=Ca(OH)2 mass_g=137");
    assert_near(
        value_of("base-swap", NULL, "from=Ca(OH)2 to=KOH mass_g=%.12f", lime),
        137, 1e-6);
}

static void crowded_fish_have_less_time_and_fed_ones_less_again(void **state)
{
    (void)state;
    double last = 1e9;
    for (double density = 5; density < 90; density += 7) {
        CLEANUP(arena_release) Arena arena = {0};
        char facts[200];
        snprintf(facts, sizeof facts,
                 "density_kg_m3=%.2f weight_g=135 temp_degc=27 oxygen_mg_l=6.5 "
                 "fed_hours_ago=12",
                 density);
        SumAnswer rested;
        assert_ok(ask("oxygen-left", facts, &arena, &rested));
        assert_true(rested.main.value < last);
        last = rested.main.value;
        snprintf(facts, sizeof facts,
                 "density_kg_m3=%.2f weight_g=135 temp_degc=27 oxygen_mg_l=6.5",
                 density);
        SumAnswer fed;
        assert_ok(ask("oxygen-left", facts, &arena, &fed));
        assert_near(fed.main.low, rested.main.low / 1.5, 1e-9);
    }
}

static void more_confidence_takes_more_seeds_and_better_seed_fewer(void **state)
{
    (void)state;
    double last = 0;
    for (int confidence = 5; confidence < 100; confidence += 5) {
        double seeds = value_of("seeds-to-sow", NULL,
                                "plants=96 germination_pct=83 "
                                "confidence_pct=%d",
                                confidence);
        assert_true(seeds >= last);
        last = seeds;
    }
    last = 1e9;
    for (int germination = 30; germination <= 100; germination += 5) {
        double seeds = value_of("seeds-to-sow", NULL,
                                "plants=96 germination_pct=%d", germination);
        assert_true(seeds < last);
        last = seeds;
    }
    assert_true(last >= 96);
}

static void feed_for_beds_and_beds_for_feed_close(void **state)
{
    (void)state;
    double feed = value_of("feed-for-beds", NULL, "leafy_m2=77.5");
    assert_near(value_of("beds-for-feed", NULL, "feed_g_d=%.9f", feed), 77.5,
                1e-9);
}

/* Two laws of one pipe: plastic differs by 7 % or so where flow is turbulent.
 */
static void both_laws_of_a_plastic_pipe_agree(void **state)
{
    (void)state;
    static const double FLOW_M3_H[] = {4, 8, 12};
    for (size_t i = 0; i < sizeof FLOW_M3_H / sizeof *FLOW_M3_H; i++) {
        double darcy = value_of("head-loss", NULL,
                                "flow_m3_h=%.1f diameter_mm=50 length_m=20 "
                                "roughness=0.0015",
                                FLOW_M3_H[i]);
        double hazen = value_of("head-loss", NULL,
                                "flow_m3_h=%.1f diameter_mm=50 length_m=20 "
                                "roughness=150",
                                FLOW_M3_H[i]);
        assert_near(hazen / darcy, 1.0, 0.1);
    }
}

/* Half a year on, the day is as long on the other side of the equator. */
static void day_and_night_change_sides_in_half_a_year(void **state)
{
    (void)state;
    static const char *const DAYS[][2] = {{"2027-01-15", "2027-07-16"},
                                          {"2027-03-01", "2027-08-31"},
                                          {"2027-05-20", "2027-11-19"}};
    for (size_t i = 0; i < sizeof DAYS / sizeof *DAYS; i++) {
        double north =
            value_of("day-length", NULL, "latitude_deg=41 date=%s", DAYS[i][0]);
        double south = value_of("day-length", NULL, "latitude_deg=-41 date=%s",
                                DAYS[i][1]);
        assert_near(north, south, 0.2);
        double sun =
            value_of("sun-today", NULL, "latitude_deg=41 date=%s", DAYS[i][0]);
        double other =
            value_of("sun-today", NULL, "latitude_deg=-41 date=%s", DAYS[i][1]);
        assert_near(other / sun, 1.0, 0.08);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ammonia_rises_with_ph_and_warmth),
        cmocka_unit_test(a_gradings_counts_and_kilos_add_up),
        cmocka_unit_test(doses_scale_with_the_water_and_keep_to_their_steps),
        cmocka_unit_test(a_base_swapped_there_and_back_is_the_same),
        cmocka_unit_test(crowded_fish_have_less_time_and_fed_ones_less_again),
        cmocka_unit_test(
            more_confidence_takes_more_seeds_and_better_seed_fewer),
        cmocka_unit_test(feed_for_beds_and_beds_for_feed_close),
        cmocka_unit_test(both_laws_of_a_plastic_pipe_agree),
        cmocka_unit_test(day_and_night_change_sides_in_half_a_year),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
