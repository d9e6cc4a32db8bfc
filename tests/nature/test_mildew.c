/* Moulds by temperature and wet leaves. */
#include <math.h>

#include "nature/plant/mildew.h"

#include "check.h"

/* [SCHERM1994] (four hours of morning wetness, against 1.9 h on days without
 * infection) and [WU2002] (none once the three hours after sunrise pass 20, or
 * the next four 22 degC). */
static void lettuce_is_infected_on_long_cool_wet_mornings(void **state)
{
    (void)state;
    assert_true(mildew_lettuce_infects(&(LettuceMorning){4.5, 14.2, 19.3}));
    assert_true(mildew_lettuce_infects(&(LettuceMorning){4.2, 20.0, 22.0}));
    assert_false(mildew_lettuce_infects(&(LettuceMorning){1.9, 14.2, 19.3}));
    assert_false(mildew_lettuce_infects(&(LettuceMorning){4.5, 14.2, 23.1}));
    assert_false(mildew_lettuce_infects(&(LettuceMorning){4.5, 20.4, 21.3}));
}

/* [COHEN1977]: 2 h are enough at 20 degC only, 6 h from 10-15, 12 h from 5-10,
 * none above 25. */
static void cucumber_downy_mildew_needs_longer_wetness_in_the_cold(void **state)
{
    (void)state;
    assert_near(mildew_cucumber_wet_h(20), 2.0, 1e-12);
    assert_near(mildew_cucumber_wet_h(12.5), 9.0, 1e-12);
    assert_true(mildew_cucumber_wet_h(16.3) <= 6.0);
    assert_true(mildew_cucumber_wet_h(16.3) > 2.0);
    assert_true(isinf(mildew_cucumber_wet_h(4.9)));
    assert_true(isinf(mildew_cucumber_wet_h(25.3)));
    for (double t = 5.0; t < 24.5; t += 0.37) {
        assert_true(mildew_cucumber_wet_h(t + 0.37) <=
                    mildew_cucumber_wet_h(t) + 1e-12);
    }
}

/* [YUNIS1994]: more than 7 h a day wet and more than 9.5 h of the night at
 * 9-21 degC, both. */
static void grey_mould_needs_wet_leaves_and_mild_nights(void **state)
{
    (void)state;
    assert_true(mildew_grey_breaks_out(7.3, 9.7));
    assert_false(mildew_grey_breaks_out(6.8, 12.0));
    assert_false(mildew_grey_breaks_out(11.0, 9.3));
}

/* [TRECATE2019]: best at 24.4-25.7 degC, next to nothing at 35. */
static void powdery_mildew_is_fastest_at_25_degrees(void **state)
{
    (void)state;
    assert_near(mildew_powdery_frac(25), 1.0, 1e-12);
    assert_near(mildew_powdery_frac(34.9), 0.0, 0.03);
    assert_near(mildew_powdery_frac(35.2), 0.0, 1e-12);
    assert_near(mildew_powdery_frac(9.7), 0.0, 1e-12);
    assert_true(mildew_powdery_frac(22.3) > mildew_powdery_frac(17.9));
    assert_true(mildew_powdery_frac(24.4) > 0.99);
}

/* [COHEN2016]: 4 h of free moisture to infect, 7.5 h of RH 95 % in the dark to
 * bear spores; [MSUBASIL]: at 12-25 degC. */
static void basil_mildew_needs_a_wet_spell_and_a_damp_night(void **state)
{
    (void)state;
    assert_true(mildew_basil_infects(4.0, 17.3));
    assert_false(mildew_basil_infects(3.9, 17.3));
    assert_false(mildew_basil_infects(9.0, 11.6));
    assert_false(mildew_basil_infects(9.0, 25.4));
    assert_true(mildew_basil_bears(7.6, 14.2));
    assert_false(mildew_basil_bears(7.4, 14.2));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lettuce_is_infected_on_long_cool_wet_mornings),
        cmocka_unit_test(
            cucumber_downy_mildew_needs_longer_wetness_in_the_cold),
        cmocka_unit_test(grey_mould_needs_wet_leaves_and_mild_nights),
        cmocka_unit_test(powdery_mildew_is_fastest_at_25_degrees),
        cmocka_unit_test(basil_mildew_needs_a_wet_spell_and_a_damp_night),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
