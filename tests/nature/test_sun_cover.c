/* Light through a sheet and on the rows below a round roof. */
#include "nature/sun/cover.h"

#include "check.h"

/* Computed once from the quoted equations with another program, n = 1.5. */
static void the_angle_table_holds(void **state)
{
    (void)state;
    static const double rows[][3] = {{0, 0.908, 0.878},  {20, 0.907, 0.876},
                                     {30, 0.905, 0.873}, {40, 0.898, 0.865},
                                     {50, 0.879, 0.845}, {60, 0.831, 0.797},
                                     {70, 0.712, 0.680}, {75, 0.603, 0.574},
                                     {80, 0.445, 0.420}, {85, 0.236, 0.216}};
    CoverSheet clean = {1.5, 0.0165}, aged = {1.5, 0.05};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double cos_i = cos(sun_rad_from_deg(rows[i][0]));
        assert_near(cover_direct_frac(&clean, cos_i), rows[i][1], 1.1e-3);
        assert_near(cover_direct_frac(&aged, cos_i), rows[i][2], 1.1e-3);
    }
    assert_near(cover_diffuse_frac(&clean), 0.835, 1.1e-3);
    assert_near(cover_diffuse_frac(&aged), 0.803, 1.1e-3);
}

/* (1 - r)/(1 + r) with r = 0.04, the textbook's loss-free sheet. */
static void a_sheet_without_absorption_only_reflects(void **state)
{
    (void)state;
    CoverSheet ideal = {1.5, 0};
    assert_near(cover_direct_frac(&ideal, 1), 0.96 / 1.04, 1e-9);
    assert_near(cover_direct_frac(&ideal, 0), 0, 1e-12);
    assert_near(cover_direct_frac(&ideal, -0.3), 0, 1e-12);
}

static void a_sheet_is_found_from_what_it_lets_through(void **state)
{
    (void)state;
    for (double frac = 0.61; frac < 0.92; frac += 0.043) {
        CoverSheet sheet = cover_sheet_of(1.5, frac);
        assert_near(cover_direct_frac(&sheet, 1), frac, 1e-9);
    }
    CoverSheet best = cover_sheet_of(1.5, 0.99);
    assert_near(best.thickness, 0, 1e-12);
}

static void the_curve_follows_the_equation(void **state)
{
    (void)state;
    CoverSheet sheet = {1.5, 0.03};
    CoverCurve curve;
    cover_curve_fill(&sheet, &curve);
    for (double cos_i = 0.0037; cos_i < 1; cos_i += 0.0131) {
        assert_near(cover_curve_at(&curve, cos_i),
                    cover_direct_frac(&sheet, cos_i), 2.5e-3);
    }
    assert_near(cover_curve_at(&curve, 1.2), curve.frac[COVER_STEPS], 1e-12);
}

/* Below half a circle every ray to the middle row meets the roof squarely in
 * the section. */
static void a_round_roof_faces_its_middle(void **state)
{
    (void)state;
    CoverRoof roof = cover_roof_of(9, 4.5, 90);
    for (double angle = 0.1; angle < 1.5; angle += 0.17) {
        SunDirection south = {0, -sin(angle), cos(angle)};
        assert_near(cover_roof_cos_incidence(&roof, &south, 0), 1, 1e-9);
    }
    SunDirection along = {0.8, 0, 0.6};
    assert_near(cover_roof_cos_incidence(&roof, &along, 0), 0.6, 1e-9);
    SunDirection down = {0, -1, -0.01};
    assert_near(cover_roof_cos_incidence(&roof, &down, 0), 0, 1e-12);
}

static void the_low_southern_sun_favours_southern_rows(void **state)
{
    (void)state;
    CoverRoof roof = cover_roof_of(7, 3.2, 90);
    SunDirection noon = sun_direction(38.6, -0.4, 0);
    double south = cover_roof_cos_incidence(&roof, &noon, 2.3);
    double north = cover_roof_cos_incidence(&roof, &noon, -2.3);
    assert_true(south > north);
    CoverRoof turned = cover_roof_of(7, 3.2, 0);
    assert_near(cover_roof_cos_incidence(&turned, &noon, 2.3),
                cover_roof_cos_incidence(&turned, &noon, -2.3), 1e-9);
    SunDirection morning = sun_direction(38.6, -0.1, -0.9);
    assert_true(cover_roof_cos_incidence(&turned, &morning, 2.3) >
                cover_roof_cos_incidence(&turned, &morning, -2.3));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_angle_table_holds),
        cmocka_unit_test(a_sheet_without_absorption_only_reflects),
        cmocka_unit_test(a_sheet_is_found_from_what_it_lets_through),
        cmocka_unit_test(the_curve_follows_the_equation),
        cmocka_unit_test(a_round_roof_faces_its_middle),
        cmocka_unit_test(the_low_southern_sun_favours_southern_rows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
