/* Sizes of the fish of a tank, and what a grading does to them. */
#include "check.h"

#include "nature/fish/sizes.h"

static void an_uncut_batch_has_its_mean_and_spread(void **state)
{
    (void)state;
    FishSizes sizes = fish_sizes(417.0, 62.3, 0.31);
    assert_near(fish_sizes_mean_g(&sizes), 62.3, 1e-6);
    assert_near(fish_sizes_cv_frac(&sizes), 0.31, 1e-6);
    assert_near(fish_sizes_share_above(&sizes, 0.0), 1.0, 1e-12);
    double median = fish_sizes_weight_at(&sizes, 0.5);
    assert_near(median, 62.3 / sqrt(1.0 + 0.31 * 0.31), 1e-6);
    assert_near(fish_sizes_share_above(&sizes, median), 0.5, 1e-9);
}

static void a_cut_keeps_counts_and_kilos_and_stays_cut(void **state)
{
    (void)state;
    FishSizes sizes = fish_sizes(417.0, 62.3, 0.31);
    for (double cut = 30.0; cut < 130.0; cut += 13.7) {
        FishSizes below;
        FishSizes above;
        fish_sizes_cut(&sizes, cut, &below, &above);
        assert_near(below.count + above.count, 417.0, 1e-9);
        assert_near(below.count * fish_sizes_mean_g(&below) +
                        above.count * fish_sizes_mean_g(&above),
                    417.0 * 62.3, 1e-4);
        assert_near(fish_sizes_share_above(&below, cut), 0.0, 0.0);
        assert_true(fish_sizes_cv_frac(&below) < 0.31);
        assert_true(fish_sizes_mean_g(&below) < 62.3);
        /* An uncut batch of that mean and spread would still have some. */
        FishSizes naive = fish_sizes(below.count, fish_sizes_mean_g(&below),
                                     fish_sizes_cv_frac(&below));
        assert_true(fish_sizes_share_above(&naive, cut) > 0.0);
    }
}

/* Common practice of the trade: 420 of 62 g, take 105 of 95 g: 315 of 51.0 g.
 */
static void the_mean_of_those_left_falls(void **state)
{
    (void)state;
    FishSizes sizes = fish_sizes(420.0, 62.0, 0.45);
    GradeSplit split;
    assert_ok(fish_grade_moved(&sizes, 105.0, 95.0, &split));
    assert_near(split.left_count, 315.0, 1e-9);
    assert_near(split.left_mean_g, 51.0, 1e-6);
    assert_true(split.sharp_frac > 0.5 && split.sharp_frac < 1.0);
    assert_true(split.left_above_count > 0.0 &&
                split.left_above_count < 0.5 * 105.0);
}

static void fish_that_cannot_be_there_are_refused(void **state)
{
    (void)state;
    FishSizes sizes = fish_sizes(420.0, 62.0, 0.20);
    GradeSplit split;
    assert_err(fish_grade_moved(&sizes, 105.0, 95.0, &split), ERR_RANGE,
               "heaviest 105");
    assert_err(fish_grade_moved(&sizes, 105.0, 19.0, &split), ERR_RANGE,
               "lightest 105");
    assert_err(fish_grade_moved(&sizes, 421.0, 62.0, &split), ERR_RANGE,
               "out of 420");
}

static void a_sharp_cut_by_weight_and_by_count_are_the_same(void **state)
{
    (void)state;
    FishSizes sizes = fish_sizes(500.0, 181.0, 0.25);
    GradeSplit by_weight = fish_grade_at(&sizes, 210.0);
    GradeSplit by_count;
    assert_ok(fish_grade_moved(&sizes, by_weight.moved_count,
                               by_weight.moved_mean_g, &by_count));
    assert_near(by_count.left_mean_g, by_weight.left_mean_g, 1e-4);
    assert_near(by_count.cut_g, 210.0, 1e-4);
    assert_near(by_count.left_above_count, 0.0, 1e-3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_uncut_batch_has_its_mean_and_spread),
        cmocka_unit_test(a_cut_keeps_counts_and_kilos_and_stays_cut),
        cmocka_unit_test(the_mean_of_those_left_falls),
        cmocka_unit_test(fish_that_cannot_be_there_are_refused),
        cmocka_unit_test(a_sharp_cut_by_weight_and_by_count_are_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
