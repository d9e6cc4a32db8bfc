/* Random numbers: the published sequence, and moments. */
#include "check.h"

#include "base/rng.h"

/* SplitMix64 with seed 1234567; values from memory of the widely reprinted
 * reference run. */
static void stream_zero_is_the_published_sequence(void **state)
{
    (void)state;
    Rng rng = rng_make(1234567, 0);
    assert_true(rng_u64(&rng) == 6457827717110365317u);
    assert_true(rng_u64(&rng) == 3203168211198807973u);
    assert_true(rng_u64(&rng) == 9817491932198370423u);
}

static void streams_differ_and_moments_hold(void **state)
{
    (void)state;
    Rng a = rng_make(1, 1);
    Rng b = rng_make(1, 2);
    double sum = 0.0;
    double squares = 0.0;
    int same = 0;
    for (int i = 0; i < 100000; i++) {
        same += rng_u64(&b) == a.key;
        double z = rng_normal(&a);
        sum += z;
        squares += z * z;
    }
    assert_int_equal(same, 0);
    assert_near(sum / 1e5, 0.0, 0.015);
    assert_near(squares / 1e5, 1.0, 0.02);
}

static void below_stays_below_and_reaches_all(void **state)
{
    (void)state;
    Rng rng = rng_make(3, 9);
    int seen[7] = {0};
    for (int i = 0; i < 7000; i++) {
        uint32_t value = rng_below(&rng, 7);
        assert_true(value < 7);
        seen[value]++;
    }
    for (int i = 0; i < 7; i++) {
        assert_true(seen[i] > 800 && seen[i] < 1200);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stream_zero_is_the_published_sequence),
        cmocka_unit_test(streams_differ_and_moments_hold),
        cmocka_unit_test(below_stays_below_and_reaches_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
