/* Amounts that go round between a hub and its vessels. */
#include "nature/water/star.h"

#include "check.h"

enum { N = 4 };

static double sum_of(const double *values, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        sum += values[i];
    }
    return sum;
}

/* A sump of 3 m3 that feeds vessels of 5, 2 and 0.6 m3. */
static const double GAIN[N] = {0.0, 1.7 / 3.0, 0.9 / 3.0, 8.3 / 3.0};
static const double BACK[N] = {0.0, 1.7 / 5.0, 0.9 / 2.0, 8.3 / 0.6};
static const double LOSS[N] = {10.9 / 3.0, 1.7 / 5.0, 0.9 / 2.0, 8.3 / 0.6};

static void what_only_goes_round_is_kept(void **state)
{
    (void)state;
    StarRates rates = {N, GAIN, BACK, LOSS};
    double amount[N] = {2.385, 17.1, 0.31, 4.07};
    double source[N] = {0.0}, mean[N], room[5 * N];
    double before = sum_of(amount, N);
    StarColumn column = {source, amount, mean, false};
    for (int hour = 0; hour < 500; hour++) {
        star_step(&rates, 1.0, &column, room);
    }
    assert_near(sum_of(amount, N), before, 1e-11);
    /* At rest every vessel has the hub's concentration. */
    double volume[N] = {3.0, 5.0, 2.0, 0.6};
    for (int j = 0; j < N; j++) {
        assert_near(amount[j] / volume[j], before / 10.6, 1e-9);
    }
}

/* One vessel alone that loses and gains: m = s/k + (m0 - s/k) exp(-k t). The
 * method is of order 2: a step half as long errs a quarter per hour. */
static void one_vessel_follows_its_exponential(void **state)
{
    (void)state;
    double loss[1] = {0.37}, source[1] = {1.9};
    double error[2];
    for (int halves = 0; halves < 2; halves++) {
        double amount[1] = {23.7}, mean[1], room[5];
        StarRates rates = {1, NULL, NULL, loss};
        StarColumn column = {source, amount, mean, false};
        int steps = halves ? 20 : 10;
        for (int i = 0; i < steps; i++) {
            star_step(&rates, 10.0 / steps, &column, room);
        }
        double rest = 1.9 / 0.37;
        error[halves] = amount[0] - (rest + (23.7 - rest) * exp(-3.7));
    }
    assert_near(error[0], 0.0, 0.02);
    assert_near(error[0] / error[1], 4.0, 0.6);
}

static void the_mean_accounts_for_every_gain_and_loss(void **state)
{
    (void)state;
    double loss[N] = {LOSS[0] + 0.02, LOSS[1], LOSS[2] + 1.3, LOSS[3] + 55.0};
    StarRates rates = {N, GAIN, BACK, loss};
    double amount[N] = {2.385, 17.1, 0.31, 4.07};
    double source[N] = {0.4, 3.1, 0.0, 0.7}, mean[N], room[5 * N];
    double before = sum_of(amount, N);
    StarColumn column = {source, amount, mean, false};
    star_step(&rates, 1.7, &column, room);
    double gone = 1.7 * (0.02 * mean[0] + 1.3 * mean[2] + 55.0 * mean[3]);
    assert_near(sum_of(amount, N) - before, 1.7 * 4.2 - gone, 1e-12);
}

static void nothing_falls_below_zero_however_stiff(void **state)
{
    (void)state;
    for (double k = 0.01; k < 1e7; k *= 7.3) {
        double loss[N] = {LOSS[0], LOSS[1] + k, LOSS[2], LOSS[3] + 3.0 * k};
        StarRates rates = {N, GAIN, BACK, loss};
        double amount[N] = {0.0, 41.0, 0.0, 13.3};
        double source[N] = {0.0}, mean[N], room[5 * N];
        StarColumn column = {source, amount, mean, false};
        for (int hour = 0; hour < 5; hour++) {
            star_step(&rates, 1.0, &column, room);
            for (int j = 0; j < N; j++) {
                assert_true(amount[j] >= 0.0 && mean[j] >= 0.0);
            }
        }
    }
}

static void a_block_does_what_its_columns_do_alone(void **state)
{
    (void)state;
    double loss[N][STAR_WIDE], source[N][STAR_WIDE], amount[N][STAR_WIDE];
    double mean[N][STAR_WIDE], room[4 * N * STAR_WIDE];
    double alone[STAR_WIDE][N], alone_mean[STAR_WIDE][N];
    static const double VOLUME[N] = {3.0, 5.0, 2.0, 0.6};
    for (int c = 0; c < STAR_WIDE; c++) {
        double own_loss[N], own_source[N];
        for (int j = 0; j < N; j++) {
            own_loss[j] = loss[j][c] = LOSS[j] + 0.13 * c * j;
            own_source[j] = source[j][c] = 0.3 * j + 0.05 * c;
            alone[c][j] = amount[j][c] = VOLUME[j] * (2.1 + c + 0.2 * j);
        }
        StarRates rates = {N, GAIN, BACK, own_loss};
        StarColumn column = {own_source, alone[c], alone_mean[c], false};
        star_step(&rates, 1.0, &column, room);
    }
    StarBlock block = {N,
                       GAIN,
                       BACK,
                       (const double(*)[STAR_WIDE])loss,
                       (const double(*)[STAR_WIDE])source,
                       amount,
                       mean};
    star_block_step(&block, 1.0, room);
    for (int c = 0; c < STAR_WIDE; c++) {
        for (int j = 0; j < N; j++) {
            assert_near(amount[j][c], alone[c][j], 1e-12);
            assert_near(mean[j][c], alone_mean[c][j], 1e-12);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_only_goes_round_is_kept),
        cmocka_unit_test(one_vessel_follows_its_exponential),
        cmocka_unit_test(the_mean_accounts_for_every_gain_and_loss),
        cmocka_unit_test(nothing_falls_below_zero_however_stiff),
        cmocka_unit_test(a_block_does_what_its_columns_do_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
