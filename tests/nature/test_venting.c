/* Drying a tunnel by opening it: balance of well-mixed air. */
#include "check.h"

#include "nature/air/venting.h"

/* Worked out from saturation of [FAO56] and the gas law: g/m3 taken out and
 * humidity once warmed, for five winter pairs. */
static void damp_cold_air_dries_a_tunnel_that_warms_again(void **state)
{
    (void)state;
    static const struct {
        double in_degc, in_rh, out_degc, out_rh, dries, end;
    } WANT[] = {
        {8, .95, 0, .90, 3.49, .53},  {12, .95, 5, .85, 4.35, .54},
        {8, .95, 5, .85, 2.08, .70},  {12, .95, 8, .95, 2.27, .74},
        {5, .95, -5, .80, 3.73, .40},
    };
    for (size_t i = 0; i < sizeof WANT / sizeof *WANT; i++) {
        Venting venting = {WANT[i].in_degc, WANT[i].in_rh, WANT[i].out_degc,
                           WANT[i].out_rh, 4.0};
        assert_near(air_vent_dries_g_m3(&venting), WANT[i].dries, 0.01);
        assert_near(air_vent_end_rh_frac(&venting), WANT[i].end, 0.006);
    }
}

/* Shares exchanged at 4 changes an hour: 63 % in 15, 90 % in 35, 95 % in 45
 * minutes, by 1 - exp(-n t). */
static void the_time_is_that_of_the_share_exchanged(void **state)
{
    (void)state;
    Venting venting = {8, 0.95, 0, 0.90, 4.0};
    double end = air_vent_end_rh_frac(&venting);
    static const double SHARE[] = {0.63212, 0.90, 0.95};
    static const double MINUTES[] = {15, 34.5, 44.9};
    for (int i = 0; i < 3; i++) {
        double target = 0.95 - SHARE[i] * (0.95 - end);
        assert_near(60.0 * air_vent_hours(&venting, target), MINUTES[i], 0.1);
    }
}

static void dry_enough_takes_no_time_and_too_dry_is_never_reached(void **state)
{
    (void)state;
    Venting venting = {8, 0.70, 0, 0.90, 4.0};
    assert_near(air_vent_hours(&venting, 0.85), 0.0, 1e-12);
    assert_true(isinf(air_vent_hours(&venting, 0.5)));
    /* More air, less time. */
    Venting wide = venting;
    wide.air_changes_h = 8.0;
    assert_near(air_vent_hours(&wide, 0.6), air_vent_hours(&venting, 0.6) / 2.0,
                1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(damp_cold_air_dries_a_tunnel_that_warms_again),
        cmocka_unit_test(the_time_is_that_of_the_share_exchanged),
        cmocka_unit_test(dry_enough_takes_no_time_and_too_dry_is_never_reached),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
