/* What a year draws for figures: shares below and above, names, sharing. */
#include "check.h"

#include "sim/luck.h"

static void one_in_ten_lies_below_low_and_above_high(void **state)
{
    (void)state;
    Figure figure = {.value = 10.0, .low = 7.3, .high = 18.1};
    int below = 0, above = 0, under = 0;
    for (uint32_t year = 0; year < 40000; year++) {
        LuckYear luck = {5, year};
        double drawn =
            luck_figure(&figure, luck_normal(&luck, LUCK_UNITS, "leaf"));
        below += drawn < 7.3;
        under += drawn < 10.0;
        above += drawn > 18.1;
    }
    assert_near(below / 4e4, 0.1, 0.006);
    assert_near(under / 4e4, 0.5, 0.01);
    assert_near(above / 4e4, 0.1, 0.006);
}

static void a_draw_hangs_on_seed_year_kind_and_name_alone(void **state)
{
    (void)state;
    LuckYear luck = {5, 77};
    double z = luck_normal(&luck, LUCK_GROWTH, "b1");
    (void)luck_normal(&luck, LUCK_GROWTH, "other");
    assert_near(luck_normal(&luck, LUCK_GROWTH, "b1"), z, 0.0);
    LuckYear next = {5, 78};
    LuckYear seed = {6, 77};
    assert_true(fabs(luck_normal(&next, LUCK_GROWTH, "b1") - z) > 1e-9);
    assert_true(fabs(luck_normal(&seed, LUCK_GROWTH, "b1") - z) > 1e-9);
    assert_true(fabs(luck_normal(&luck, LUCK_UNITS, "b1") - z) > 1e-9);
    assert_true(fabs(luck_normal(&luck, LUCK_GROWTH, "b2") - z) > 1e-9);
}

/* Two batches of a season with a share s in common correlate by s squared, and
 * each keeps a variance of 1. */
static void batches_of_a_season_have_their_share_in_common(void **state)
{
    (void)state;
    const double share = 0.6;
    const int years = 60000;
    double ab = 0.0, aa = 0.0, a_next = 0.0, before = 0.0;
    for (uint32_t year = 0; year < (uint32_t)years; year++) {
        LuckYear luck = {9, year};
        double a = luck_shared(&luck, LUCK_UNITS, "leaf", "a", share);
        double b = luck_shared(&luck, LUCK_UNITS, "leaf", "b", share);
        ab += a * b;
        aa += a * a;
        a_next += a * before;
        before = a;
    }
    assert_near(aa / years, 0.97, 0.03); /* held to 2.5 */
    assert_near(ab / years, share * share, 0.02);
    assert_near(a_next / years, 0.0, 0.015);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_in_ten_lies_below_low_and_above_high),
        cmocka_unit_test(a_draw_hangs_on_seed_year_kind_and_name_alone),
        cmocka_unit_test(batches_of_a_season_have_their_share_in_common),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
