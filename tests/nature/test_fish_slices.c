/* A fish batch as slices: drawn, grown, graded; nothing is lost. */
#include "check.h"

#include "base/rng.h"
#include "nature/fish/slices.h"

static const FishSpecies *nile(void)
{
    const FishSpecies *species = NULL;
    assert_ok(fish_species_find("nile-tilapia", &species));
    return species;
}

static FishSlices drawn(int count, double mean_g, double cv_frac, FishSex sex)
{
    FishDraw draw = {count, mean_g, cv_frac, sex};
    return fish_slices_draw(&draw);
}

static void a_draw_has_its_count_mean_and_spread(void **state)
{
    (void)state;
    static const int COUNTS[] = {2, 7, 17, 250, 521, 10003};
    for (int i = 0; i < 6; i++) {
        FishSlices slices = drawn(COUNTS[i], 183.7, 0.27, FISH_SEX_SEXED);
        assert_near(fish_slices_count(&slices), COUNTS[i], 0.0);
        assert_near(fish_slices_mean_g(&slices), 183.7, 1e-9);
        assert_near(fish_slices_cv_frac(&slices), 0.27, 2e-3);
        for (int k = 0; k < FISH_SLICES; k++) {
            double count = slices.at[k].count;
            assert_near(count, floor(count + 0.5), 0.0);
        }
    }
    FishSlices none = drawn(0, 50.0, 0.2, FISH_SEX_MIXED);
    assert_near(fish_slices_kg(&none), 0.0, 0.0);
    FishSlices one = drawn(1, 50.0, 0.2, FISH_SEX_MIXED);
    assert_near(fish_slices_kg(&one), 0.050, 1e-12);
}

static void a_day_balances_to_the_gram(void **state)
{
    (void)state;
    FishSlices slices = drawn(499, 61.3, 0.33, FISH_SEX_MIXED);
    FishDayCare care = {fish_good_water(25.3), 0.97, 1.0, 1.0};
    for (int day = 0; day < 200; day++) {
        double count = fish_slices_count(&slices);
        double kg = fish_slices_kg(&slices);
        FishDayLedger ledger = fish_slices_day(nile(), &slices, &care);
        assert_near(fish_slices_count(&slices), count - ledger.dead_count,
                    1e-9);
        assert_near(fish_slices_kg(&slices),
                    kg + ledger.gain_kg - ledger.dead_kg, 1e-9);
        assert_true(ledger.feed_kg > ledger.gain_kg);
    }
}

/* Any order of gradings between four tanks conserves every fish and gram. */
static void gradings_conserve_counts_and_kilos(void **state)
{
    (void)state;
    Rng rng = rng_make(20270301, 7);
    for (int run = 0; run < 200; run++) {
        FishSlices tanks[4] = {
            drawn(20 + (int)rng_below(&rng, 900), 5.0 + 400.0 * rng_f64(&rng),
                  0.05 + 0.4 * rng_f64(&rng), (FishSex)rng_below(&rng, 4))};
        double count = fish_slices_count(&tanks[0]);
        double kg = fish_slices_kg(&tanks[0]);
        for (int move = 0; move < 30; move++) {
            FishSlices *from = &tanks[rng_below(&rng, 4)];
            FishSlices *to = &tanks[rng_below(&rng, 4)];
            if (from == to) {
                continue;
            }
            double there = fish_slices_count(from);
            double part = floor(there * rng_f64(&rng));
            if (rng_below(&rng, 2) == 0) {
                fish_slices_move_heaviest(from, to, part);
                assert_near(fish_slices_count(from), there - part, 1e-9);
            } else {
                fish_slices_move_over(from, to, 450.0 * rng_f64(&rng));
            }
        }
        double count_after = 0.0;
        double kg_after = 0.0;
        for (int k = 0; k < 4; k++) {
            count_after += fish_slices_count(&tanks[k]);
            kg_after += fish_slices_kg(&tanks[k]);
        }
        assert_near(count_after, count, 1e-9 * count);
        assert_near(kg_after, kg, 1e-9 * kg);
    }
}

static void a_grading_lowers_the_mean_and_stays_cut(void **state)
{
    (void)state;
    FishSlices tank = drawn(420, 62.0, 0.30, FISH_SEX_SEXED);
    FishSlices other = {0};
    double before = fish_slices_mean_g(&tank);
    fish_slices_move_heaviest(&tank, &other, 105.0);
    assert_true(fish_slices_mean_g(&tank) < before);
    assert_true(fish_slices_mean_g(&other) > before);
    double lightest = 1e9;
    for (int i = 0; i < FISH_SLICES; i++) {
        if (other.at[i].count > 0.0) {
            lightest = fmin(lightest, other.at[i].weight_g);
        }
    }
    assert_true(fish_slices_over(&tank, lightest) <= 0.06 * 315.0);
    assert_near(fish_slices_over(&other, lightest - 20.0), 105.0, 1e-9);
}

static void the_share_over_a_weight_falls_smoothly(void **state)
{
    (void)state;
    FishSlices tank = drawn(500, 180.0, 0.25, FISH_SEX_MALES);
    double before = 500.0;
    for (double w = 60.0; w < 400.0; w += 5.0) {
        double over = fish_slices_over(&tank, w);
        assert_true(over <= before + 1e-9 && before - over < 60.0);
        before = over;
    }
    assert_near(before, 0.0, 0.0);
}

/* Said 2015: ungraded monosex fingerlings at 46 % after 14 weeks, a small grade
 * at 21 %: a batch does not become even by itself. */
static void a_batch_keeps_its_spread_as_it_grows(void **state)
{
    (void)state;
    static const double STARTS_G[] = {3.0, 25.0, 180.0};
    for (int i = 0; i < 3; i++) {
        FishSlices tank = drawn(400, STARTS_G[i], 0.25, FISH_SEX_MALES);
        FishDayCare care = {fish_good_water(26.0), 1.0, 1.0, 1.0};
        for (int day = 0; day < 200; day++) {
            fish_slices_day(nile(), &tank, &care);
        }
        double cv = fish_slices_cv_frac(&tank);
        assert_true(cv > 0.20 && cv < 0.36);
    }
}

/* Best known for GIFT, sixth generation: males 776 g, females 470 g; over the
 * literature males weigh 1.3-1.65 times the females. */
static void males_outgrow_females_in_a_mixed_batch(void **state)
{
    (void)state;
    FishSlices males = drawn(300, 20.0, 0.2, FISH_SEX_MALES);
    FishSlices females = drawn(300, 20.0, 0.2, FISH_SEX_FEMALES);
    FishSlices mixed = drawn(300, 20.0, 0.2, FISH_SEX_MIXED);
    FishDayCare care = {fish_good_water(28.0), 1.0, 1.0, 1.0};
    for (int day = 0; day < 200; day++) {
        fish_slices_day(nile(), &males, &care);
        fish_slices_day(nile(), &females, &care);
        fish_slices_day(nile(), &mixed, &care);
    }
    double ratio = fish_slices_mean_g(&males) / fish_slices_mean_g(&females);
    assert_true(ratio > 1.3 && ratio < 1.7);
    assert_true(fish_slices_cv_frac(&mixed) > fish_slices_cv_frac(&males));
}

static void lanes_hold_neighbours_and_all_slices(void **state)
{
    (void)state;
    FishSlices tank = drawn(501, 180.0, 0.25, FISH_SEX_MIXED);
    int lane[FISH_SLICES];
    fish_slices_lanes(&tank, 4, lane);
    int held[4] = {0};
    for (int i = 0; i < FISH_SLICES; i++) {
        held[lane[i]]++;
        for (int k = 0; k < FISH_SLICES; k++) {
            if (tank.at[i].weight_g < tank.at[k].weight_g) {
                assert_true(lane[i] <= lane[k]);
            }
        }
    }
    for (int b = 0; b < 4; b++) {
        assert_int_equal(held[b], 4);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_draw_has_its_count_mean_and_spread),
        cmocka_unit_test(a_day_balances_to_the_gram),
        cmocka_unit_test(gradings_conserve_counts_and_kilos),
        cmocka_unit_test(a_grading_lowers_the_mean_and_stays_cut),
        cmocka_unit_test(the_share_over_a_weight_falls_smoothly),
        cmocka_unit_test(a_batch_keeps_its_spread_as_it_grows),
        cmocka_unit_test(males_outgrow_females_in_a_mixed_batch),
        cmocka_unit_test(lanes_hold_neighbours_and_all_slices),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
