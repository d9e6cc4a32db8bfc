/* Oxygen saturation against printed tables; transfer from air. */
#include "check.h"

#include "nature/water/oxygen.h"

static double fresh(double temp_degc, double altitude_m)
{
    return water_oxygen_saturation_mg_l(
        &(OxygenWater){temp_degc, water_pressure_kpa(altitude_m), 0.0});
}

/* EN 25814, fresh water at 1013.25 hPa; to 14 degC it prints one decimal, and
 * 12.2 at 7 degC where its own neighbours give 12.14. */
static void fresh_water_matches_the_standards_table(void **state)
{
    (void)state;
    static const double COLD[][2] = {
        {0, 14.6},  {1, 14.2},  {2, 13.8},  {3, 13.5},  {5, 12.8},
        {6, 12.5},  {7, 12.2},  {8, 11.8},  {9, 11.6},  {10, 11.3},
        {11, 11.0}, {12, 10.8}, {13, 10.5}, {14, 10.3},
    };
    static const double WARM[][2] = {
        {16, 9.87}, {17, 9.66}, {18, 9.47}, {19, 9.28}, {20, 9.09},
        {21, 8.91}, {22, 8.74}, {23, 8.58}, {24, 8.42}, {25, 8.26},
        {27, 7.97}, {28, 7.83}, {29, 7.69}, {30, 7.56},
    };
    for (size_t i = 0; i < sizeof COLD / sizeof *COLD; i++) {
        assert_near(fresh(COLD[i][0], 0.0), COLD[i][1], 0.065);
    }
    for (size_t i = 0; i < sizeof WARM / sizeof *WARM; i++) {
        assert_near(fresh(WARM[i][0], 0.0), WARM[i][1], 0.01);
    }
}

/* EN 25814's correction: subtract S K mg/L; straight in S where the equation is
 * not, so 0.12 wide. */
static void salt_lowers_saturation_as_the_standard_says(void **state)
{
    (void)state;
    static const double K[][2] = {
        {0, 0.0875},  {5, 0.0739},  {10, 0.0632}, {15, 0.0545},
        {20, 0.0475}, {25, 0.0421}, {30, 0.0371},
    };
    for (size_t i = 0; i < sizeof K / sizeof *K; i++) {
        OxygenWater salt = {K[i][0], 101.325, 10.0};
        double lower =
            fresh(K[i][0], 0.0) - water_oxygen_saturation_mg_l(&salt);
        assert_near(lower, 10.0 * K[i][1], 0.12);
    }
}

/* Pressure table of a meter's manual, mmHg (older solubility, up to 0.1 high at
 * 20 degC: 0.14 wide). */
static void pressure_lowers_saturation_as_a_meter_table_says(void **state)
{
    (void)state;
    static const double MMHG[] = {775, 760, 750, 725, 700, 675, 650, 625};
    static const double AT_20[] = {9.3, 9.2, 9.1, 8.7, 8.4, 8.1, 7.8, 7.5};
    static const double AT_0[] = {14.9, 14.6, 14.4, 13.9,
                                  13.5, 12.9, 12.5, 12.0};
    for (int i = 0; i < 8; i++) {
        double kpa = MMHG[i] * 101.325 / 760.0;
        OxygenWater warm = {20.0, kpa, 0.0};
        OxygenWater cold = {0.0, kpa, 0.0};
        assert_near(water_oxygen_saturation_mg_l(&warm), AT_20[i], 0.14);
        assert_near(water_oxygen_saturation_mg_l(&cold), AT_0[i], 0.12);
    }
}

/* Field manual: factor .90 at 2,864 ft and .82 at 5,403 ft. */
static void altitude_takes_a_tenth_at_nine_hundred_metres(void **state)
{
    (void)state;
    assert_near(fresh(20.0, 873.0) / fresh(20.0, 0.0), 0.90, 0.007);
    assert_near(fresh(20.0, 1647.0) / fresh(20.0, 0.0), 0.82, 0.007);
}

/* Worked from the printed equation, not a published answer. */
static void an_aerator_gives_a_third_of_its_label_in_warm_water(void **state)
{
    (void)state;
    AirTransfer air = {1.0, 0.9, 1.0};
    OxygenWater warm = {25.0, 101.325, 0.0};
    OxygenWater hot = {30.0, 101.325, 0.0};
    assert_near(water_air_gives_kg_h(&air, &warm, 5.0), 0.363, 1e-3);
    assert_near(water_air_gives_kg_h(&air, &hot, 5.0), 0.321, 1e-3);
    assert_near(water_air_gives_kg_h(&air, &hot, 3.0), 0.572, 1e-3);
    assert_near(water_air_gives_kg_h(&air, &hot, 9.0), 0.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fresh_water_matches_the_standards_table),
        cmocka_unit_test(salt_lowers_saturation_as_the_standard_says),
        cmocka_unit_test(pressure_lowers_saturation_as_a_meter_table_says),
        cmocka_unit_test(altitude_takes_a_tenth_at_nine_hundred_metres),
        cmocka_unit_test(an_aerator_gives_a_third_of_its_label_in_warm_water),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
