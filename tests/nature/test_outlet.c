/* Weirs, standpipes and siphons. */
#include "check.h"

#include "nature/flow/outlet.h"

/* Worked from the printed equation, not a published answer. */
static void a_standpipe_is_a_weir_until_its_hole_governs(void **state)
{
    (void)state;
    assert_near(flow_standpipe_m3_h(25.0, 0.010), 0.47, 0.035);
    assert_near(flow_standpipe_m3_h(50.0, 0.010), 1.00, 0.01);
    assert_near(flow_standpipe_m3_h(25.0, 0.020), 0.66, 0.01);
    assert_near(flow_standpipe_m3_h(50.0, 0.020), 2.66, 0.03);
    assert_near(flow_standpipe_m3_h(25.0, 0.020),
                flow_orifice_m3_h(25.0, 0.020), 1e-12);
}

static void head_over_a_standpipe_passes_its_flow(void **state)
{
    (void)state;
    for (double flow = 0.3; flow < 9.0; flow *= 1.7) {
        double head = flow_standpipe_head_m(42.0, flow);
        assert_near(flow_standpipe_m3_h(42.0, head), flow, 1e-6);
    }
}

static void a_siphon_trickles_works_or_sticks_by_its_inflow(void **state)
{
    (void)state;
    Siphon siphon = {.bore_mm = 25.0,
                     .drop_m = 0.45,
                     .length_m = 0.7,
                     .loss = 1.5,
                     .friction = 0.025,
                     .start_frac = 0.3};
    double full = flow_siphon_m3_h(&siphon);
    /* Without any loss it is Torricelli's: A sqrt(2 g h). */
    Siphon ideal = siphon;
    ideal.loss = 0.0;
    ideal.friction = 0.0;
    assert_near(0.6 * flow_siphon_m3_h(&ideal), flow_orifice_m3_h(25.0, 0.45),
                1e-9);
    assert_true(full < flow_siphon_m3_h(&ideal));
    assert_int_equal(flow_siphon_state(&siphon, 0.1 * full), SIPHON_TRICKLES);
    assert_int_equal(flow_siphon_state(&siphon, 0.6 * full), SIPHON_WORKS);
    assert_int_equal(flow_siphon_state(&siphon, 1.2 * full), SIPHON_STUCK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_standpipe_is_a_weir_until_its_hole_governs),
        cmocka_unit_test(head_over_a_standpipe_passes_its_flow),
        cmocka_unit_test(a_siphon_trickles_works_or_sticks_by_its_inflow),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
