/* Bases: equivalents, closed-water doses, and doses that are refused. */
#include "check.h"

#include "nature/water/base.h"

static const WaterBase *base_of(const char *name)
{
    const WaterBase *base = NULL;
    assert_ok(water_base_find(name, &base));
    return base;
}

/* From molar masses; NaHCO3 at 12 g per g N is also printed by a wastewater
 * text (Dryden). */
static void equivalents_follow_from_molar_masses(void **state)
{
    (void)state;
    static const struct {
        const char *formula;
        double g_per_g;
    } WANT[] = {
        {"KOH", 1.121},    {"KHCO3", 2.001}, {"K2CO3", 1.381},
        {"Ca(OH)2", .740}, {"CaCO3", 1.000}, {"CaO", .560},
        {"NaHCO3", 1.679}, {"NaOH", .799},   {"MgO", .403},
    };
    for (size_t i = 0; i < sizeof WANT / sizeof *WANT; i++) {
        assert_near(water_base_g_per_g_caco3(base_of(WANT[i].formula)),
                    WANT[i].g_per_g, 6e-4);
    }
    assert_near(7.14 * water_base_g_per_g_caco3(base_of("nahco3")), 12.0, 0.05);
    assert_near(water_base_swap_g(base_of("KOH"), base_of("Ca(OH)2"), 1.0),
                0.66, 5e-3);
}

static BaseQuestion farm_water(const char *base, double target_ph)
{
    return (BaseQuestion){
        .base = base_of(base),
        .strength_frac = 1.0,
        .volume_m3 = 1.0,
        .temp_degc = 25.0,
        .alkalinity_mg_l = 50.0,
        .ph = 6.5,
        .target_ph = target_ph,
        .tan_mg_l = 0.7,
        .ph_step = 0.2,
        .nh3_limit_mg_l = 0.05,
    };
}

/* Worked from the equations, not published: one litre of 50 mg/L, pH 6.50. */
static void hydroxide_overshoots_where_bicarbonate_cannot(void **state)
{
    (void)state;
    BaseQuestion koh = farm_water("KOH", 7.0);
    assert_near(water_base_ph_after(&koh, 14.0), 6.80, 0.02);
    assert_near(water_base_ph_after(&koh, 28.05), 7.25, 0.03);
    assert_near(water_base_ph_after(&koh, 56.1), 9.6, 0.1);
    BaseQuestion lime = farm_water("Ca(OH)2", 7.0);
    assert_near(water_base_ph_after(&lime, 9.26), 6.80, 0.02);
    BaseQuestion mild = farm_water("KHCO3", 7.0);
    assert_near(water_base_ph_after(&mild, 25.0), 6.60, 0.02);
    BaseQuestion carbonate = farm_water("K2CO3", 7.0);
    assert_near(water_base_ph_after(&carbonate, 17.28), 6.69, 0.02);
    mild.volume_m3 = 0.03; /* far too much, and still mild */
    assert_true(water_base_ph_after(&mild, 56.1) < 8.3);
}

static void a_dose_is_split_and_reaches_its_target(void **state)
{
    (void)state;
    BaseQuestion koh = farm_water("KOH", 7.1);
    koh.strength_frac = 0.9;
    BaseDose dose;
    assert_ok(water_base_dose(&koh, &dose));
    assert_int_equal(dose.count, 3);
    assert_false(dose.is_stopped);
    double sum_g = 0.0;
    double before = koh.ph;
    for (int i = 0; i < dose.count; i++) {
        sum_g += dose.steps[i].product_g;
        assert_true(dose.steps[i].ph - before <= koh.ph_step + 1e-9);
        before = dose.steps[i].ph;
    }
    assert_near(sum_g, dose.total_g, 1e-9);
    assert_near(water_base_ph_after(&koh, 0.9 * dose.total_g), 7.1, 1e-6);
}

static void a_step_that_frees_too_much_ammonia_is_refused(void **state)
{
    (void)state;
    BaseQuestion koh = farm_water("KOH", 7.6);
    koh.tan_mg_l = 4.3;
    BaseDose dose;
    assert_ok(water_base_dose(&koh, &dose));
    assert_true(dose.is_stopped);
    assert_true(dose.refused_nh3_mg_l > 0.05);
    for (int i = 0; i < dose.count; i++) {
        assert_true(dose.steps[i].nh3_mg_l <= 0.05);
    }
    assert_true(dose.reached_ph < 7.6);
    koh.nh3_limit_mg_l = 0.001;
    assert_err(water_base_dose(&koh, &dose), ERR_LIMIT, "before any dose");
}

static void targets_out_of_reach_are_refused(void **state)
{
    (void)state;
    BaseDose dose;
    BaseQuestion down = farm_water("KOH", 6.1);
    assert_err(water_base_dose(&down, &dose), ERR_RANGE, "already");
    BaseQuestion mild = farm_water("NaHCO3", 9.4);
    assert_err(water_base_dose(&mild, &dose), ERR_RANGE, "alone brings");
    const WaterBase *base = NULL;
    assert_err(water_base_find("vinegar", &base), ERR_NOT_FOUND, "vinegar");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(equivalents_follow_from_molar_masses),
        cmocka_unit_test(hydroxide_overshoots_where_bicarbonate_cannot),
        cmocka_unit_test(a_dose_is_split_and_reaches_its_target),
        cmocka_unit_test(a_step_that_frees_too_much_ammonia_is_refused),
        cmocka_unit_test(targets_out_of_reach_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
