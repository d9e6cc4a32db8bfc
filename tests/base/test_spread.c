/* How often a value fell where: codes in order, quantiles, any order of adding.
 */
#include "check.h"

#include "base/rng.h"
#include "base/spread.h"

static const SpreadScale DOUBLING = {1024, 0.0, 0.0, false};
static const SpreadScale EVEN = {1000, -5.0, 0.05, false};
static const SpreadScale SHARES = {21, 0.0, 0.05, true};

static void codes_follow_the_order_of_values(void **state)
{
    (void)state;
    const SpreadScale *scales[] = {&DOUBLING, &EVEN, &SHARES};
    for (int s = 0; s < 3; s++) {
        uint16_t before = 0;
        for (double value = -7.3; value < 5e7; value += 0.013 + value / 37.0) {
            uint16_t code = spread_code(scales[s], value);
            assert_true(code >= before && code < scales[s]->codes);
            before = code;
            value = value < 0.0 ? value + 0.2 : value;
        }
    }
    assert_int_equal(spread_code(&DOUBLING, 0.0), 0);
    assert_int_equal(spread_code(&DOUBLING, NAN), 0);
    assert_int_equal(spread_code(&EVEN, -400.0), 0);
    assert_int_equal(spread_code(&EVEN, 1e9), 999);
}

static void a_value_comes_back_within_its_cell(void **state)
{
    (void)state;
    for (double value = 0.0031; value < 1e6; value *= 1.37) {
        double back =
            spread_value(&DOUBLING, spread_code(&DOUBLING, value), 0.5);
        assert_near(back / value, 1.0, 0.0117);
    }
    assert_near(spread_value(&EVEN, spread_code(&EVEN, 23.41), 0.5), 23.41,
                0.0251);
    /* Whole steps stand for themselves, the last among them. */
    assert_near(spread_value(&SHARES, spread_code(&SHARES, 1.0), 0.7), 1.0,
                1e-12);
    assert_near(spread_value(&SHARES, spread_code(&SHARES, 0.35), 0.2), 0.35,
                1e-12);
}

static void quantiles_of_a_normal_are_the_normals(void **state)
{
    (void)state;
    uint32_t counts[1000] = {0};
    Rng rng = rng_make(17, 3);
    for (int i = 0; i < 200000; i++) {
        counts[spread_code(&EVEN, 14.0 + 3.0 * rng_normal(&rng))]++;
    }
    assert_near(spread_quantile(&EVEN, counts, 0.5), 14.0, 0.03);
    assert_near(spread_quantile(&EVEN, counts, 0.1), 14.0 - 3.0 * 1.28155,
                0.04);
    assert_near(spread_quantile(&EVEN, counts, 0.9), 14.0 + 3.0 * 1.28155,
                0.04);
    assert_int_equal(spread_count_from(&EVEN, counts, 0), 200000);
}

static void nothing_added_has_no_quantile(void **state)
{
    (void)state;
    uint32_t counts[21] = {0};
    assert_true(isnan(spread_quantile(&SHARES, counts, 0.5)));
    counts[7] = 1;
    assert_near(spread_quantile(&SHARES, counts, 0.1), 0.35, 1e-12);
    assert_near(spread_quantile(&SHARES, counts, 1.0), 0.35, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(codes_follow_the_order_of_values),
        cmocka_unit_test(a_value_comes_back_within_its_cell),
        cmocka_unit_test(quantiles_of_a_normal_are_the_normals),
        cmocka_unit_test(nothing_added_has_no_quantile),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
