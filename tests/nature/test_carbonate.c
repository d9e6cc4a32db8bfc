/* The carbonate system against a speciation code's printed run and tables. */
#include "check.h"

#include "nature/water/carbonate.h"

/* Literature values at 25 degC (standard texts): 6.35, 10.33, 1.47, 14.0, 8.48.
 */
static void constants_at_25_degc_are_those_of_the_texts(void **state)
{
    (void)state;
    CarbonateConstants k = carbonate_constants(25.0, 0.0);
    assert_near(-k.log_k1, 6.352, 0.003);
    assert_near(-k.log_k2, 10.329, 0.003);
    assert_near(-k.log_kh, 1.468, 0.003);
    assert_near(-k.log_kw, 13.995, 0.006);
    assert_near(-k.log_ksp, 8.480, 0.003);
    assert_near(k.g1, 1.0, 1e-12);
}

/* Excess of positive charge of calcite-saturated water under CO2, eq/L. */
static double charge(const CarbonateConstants *k, double co2_atm, double ph,
                     CarbonateWater *out)
{
    double low = 0.0;
    double high = 0.02;
    for (int i = 0; i < 60; i++) { /* the alkalinity that has this pH */
        double middle = (low + high) / 2.0;
        *out = carbonate_in_air(k, middle, co2_atm);
        if (out->ph < ph) {
            low = middle;
        } else {
            high = middle;
        }
    }
    double calcium = pow(10.0, k->log_ksp) / (k->g2 * k->g2 * out->co3_mol_l);
    return 2.0 * calcium - out->alkalinity_eq_l;
}

/* PHREEQC's documented example 3, solution A (USGS): pure water with calcite
 * and CO2 at 10^-2 atm, 25 degC: pH 7.295, alkalinity 3.245 meq/L, total carbon
 * 3.576 mmol/L, calcium 1.623 mmol/L, CO2 0.340 mmol/L, ionic strength 0.00483.
 */
static void calcite_under_carbon_dioxide_matches_phreeqc(void **state)
{
    (void)state;
    CarbonateConstants k = carbonate_constants(25.0, 0.00483);
    CarbonateWater water = {0};
    double low = 6.0;
    double high = 9.0;
    for (int i = 0; i < 50; i++) {
        double middle = (low + high) / 2.0;
        if (charge(&k, 0.01, middle, &water) > 0.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    assert_near(water.ph, 7.295, 0.01);
    assert_near(water.alkalinity_eq_l, 3.245e-3, 0.02 * 3.245e-3);
    assert_near(water.dic_mol_l, 3.576e-3, 0.02 * 3.576e-3);
    assert_near(water.co2_mol_l, 0.340e-3, 0.02 * 0.340e-3);
    assert_near(carbonate_calcite_index(&k, &water, 1.623e-3), 0.0, 0.01);
}

/* The fish-pond table of CO2 per alkalinity (Tucker 1984 as widely reprinted):
 * 0.313 at pH 6.8 and 25 degC, and others; ideal water, 2 %. */
static void carbon_dioxide_matches_the_fish_pond_table(void **state)
{
    (void)state;
    static const double TABLE[][3] = {
        {6.0, 5, 2.915},  {6.0, 15, 2.315}, {6.0, 25, 1.970},
        {6.0, 30, 1.882}, {6.8, 10, 0.402}, {6.8, 25, 0.313},
        {7.0, 20, 0.211}, {7.0, 30, 0.188}, {7.6, 20, 0.053},
    };
    for (size_t i = 0; i < sizeof TABLE / sizeof *TABLE; i++) {
        CarbonateConstants k = carbonate_constants(TABLE[i][1], 0.0);
        CarbonateWater water =
            carbonate_from_ph(&k, eq_l_from_mg_l_caco3(50.0), TABLE[i][0]);
        assert_near(mg_l_co2_from_mol_l(water.co2_mol_l), 50.0 * TABLE[i][2],
                    0.025 * 50.0 * TABLE[i][2]);
    }
}

/* Worked from the equations, not published: with activities about 6 % less. */
static void activities_take_up_to_six_per_cent(void **state)
{
    (void)state;
    double alkalinity = eq_l_from_mg_l_caco3(100.0);
    CarbonateConstants k =
        carbonate_constants(20.0, carbonate_ionic_mol_l(alkalinity));
    CarbonateWater water = carbonate_from_ph(&k, alkalinity, 7.0);
    assert_near(mg_l_co2_from_mol_l(water.co2_mol_l), 19.95, 0.05);
    assert_near(water.dic_mol_l, 2.451e-3, 5e-6);
}

/* Worked from the equations: air of 420 ppm, 25 degC. */
static void well_aired_water_settles_where_its_alkalinity_says(void **state)
{
    (void)state;
    static const double MG_L[] = {20, 50, 100, 200};
    static const double PH[] = {7.78, 8.17, 8.46, 8.73};
    for (int i = 0; i < 4; i++) {
        double alkalinity = eq_l_from_mg_l_caco3(MG_L[i]);
        CarbonateConstants k =
            carbonate_constants(25.0, carbonate_ionic_mol_l(alkalinity));
        assert_near(carbonate_in_air(&k, alkalinity, 420e-6).ph, PH[i], 0.02);
    }
}

static void ph_and_carbon_give_each_other_back(void **state)
{
    (void)state;
    for (double ph = 5.7; ph < 9.6; ph += 0.37) {
        CarbonateConstants k = carbonate_constants(23.4, 0.0021);
        CarbonateWater there = carbonate_from_ph(&k, 1.37e-3, ph);
        CarbonateWater back = carbonate_solve(&k, 1.37e-3, there.dic_mol_l);
        assert_near(back.ph, ph, 1e-9);
        assert_near(back.alkalinity_eq_l, 1.37e-3, 1e-12);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(constants_at_25_degc_are_those_of_the_texts),
        cmocka_unit_test(calcite_under_carbon_dioxide_matches_phreeqc),
        cmocka_unit_test(carbon_dioxide_matches_the_fish_pond_table),
        cmocka_unit_test(activities_take_up_to_six_per_cent),
        cmocka_unit_test(well_aired_water_settles_where_its_alkalinity_says),
        cmocka_unit_test(ph_and_carbon_give_each_other_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
