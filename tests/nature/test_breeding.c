/* Young fish from the farm's own breeders. */
#include "check.h"

#include "nature/fish/breeding.h"

/* SRAC: about 600 fry per 225 g Nile female and cycle at 28 degC, 250 at 24;
 * none below 20 degC. */
static void fry_come_by_temperature(void **state)
{
    (void)state;
    const FishSpecies *nile = NULL;
    assert_ok(fish_species_find("nile-tilapia", &nile));
    assert_near(fish_fry_per_female(nile, 28.0).value, 600.0, 1e-9);
    assert_near(fish_fry_per_female(nile, 24.0).value, 250.0, 1e-9);
    assert_near(fish_fry_per_female(nile, 19.7).value, 0.0, 0.0);
    Figure warm = fish_fry_per_female(nile, 26.1);
    assert_true(warm.low < warm.value && warm.value <= warm.high);
    const FishSpecies *carp = NULL;
    assert_ok(fish_species_find("common-carp", &carp));
    assert_near(fish_fry_per_female(carp, 26.1).value, 0.0, 0.0);
}

/* Common practice of the trade: a fifth lost as fry, few later. */
static void more_fry_are_needed_than_fish_are_sold(void **state)
{
    (void)state;
    assert_near(fish_fry_for_sale(74.48), 100.0, 1e-9);
    assert_true(fish_fry_cycle_days().low >= 16.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fry_come_by_temperature),
        cmocka_unit_test(more_fry_are_needed_than_fish_are_sold),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
