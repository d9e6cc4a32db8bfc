/* What bad water does in an hour, and what a gut gives off. */
#include "nature/fish/stress.h"

#include "nature/fish/limits.h"

#include "check.h"

static FishHarm well(void)
{
    return (FishHarm){.oxygen_mg_l = 6.1,
                      .nh3_mg_l = 0.04,
                      .nitrite_mg_l = 0.2,
                      .nh3_deadly_mg_l = 2.65,
                      .nitrite_deadly_mg_l = 8.6};
}

static void good_water_harms_nobody(void **state)
{
    (void)state;
    FishHarm harm = well();
    assert_near(fish_harm_1_h(&harm), 0.0, 0.0);
}

/* The published limits: half die in an hour at 0.7 mg/L; half in 96 h at the
 * LC50. Source: fish_oxygen_deadly_mg_l, [BENLI2005]. */
static void half_die_at_the_published_limits(void **state)
{
    (void)state;
    FishHarm harm = well();
    harm.oxygen_mg_l = fish_oxygen_deadly_mg_l().value;
    assert_near(exp(-fish_harm_1_h(&harm)), 0.5, 1e-12);
    harm = well();
    harm.nh3_mg_l = harm.nh3_deadly_mg_l;
    assert_near(exp(-96.0 * fish_harm_1_h(&harm)), 0.5, 1e-12);
    harm = well();
    harm.nitrite_mg_l = harm.nitrite_deadly_mg_l;
    assert_near(exp(-96.0 * fish_harm_1_h(&harm)), 0.5, 1e-12);
}

static void worse_water_kills_more(void **state)
{
    (void)state;
    double before = 0.0;
    for (double oxygen = 1.5; oxygen >= 0.0; oxygen -= 0.13) {
        FishHarm harm = well();
        harm.oxygen_mg_l = oxygen;
        double rate = fish_harm_1_h(&harm);
        assert_true(rate >= before);
        before = rate;
    }
}

/* A meal of 37 g comes out whole; most of it 4-6 h later, as ammonia is told
 * to. */
static void a_meal_is_digested_whole_and_peaks_hours_later(void **state)
{
    (void)state;
    double rate = 0.22, stays = exp(-0.22);
    double first = 37.0, second = 0.0, sum = 0.0, most = 0.0;
    int peak = 0;
    for (int hour = 0; hour < 240; hour++) {
        double out = fish_digest_h(stays, rate, &first, &second);
        sum += out;
        if (out > most) {
            most = out;
            peak = hour;
        }
    }
    assert_near(sum, 37.0, 1e-9);
    assert_in_range(peak, 4, 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(good_water_harms_nobody),
        cmocka_unit_test(half_die_at_the_published_limits),
        cmocka_unit_test(worse_water_kills_more),
        cmocka_unit_test(a_meal_is_digested_whole_and_peaks_hours_later),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
