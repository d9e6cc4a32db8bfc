/* Sharing what is short: in proportion, by the rule, never more than there is.
 */
#include "check.h"

#include "base/rng.h"
#include "work/share.h"

static void sixty_nine_heads_go_to_four_in_proportion(void **state)
{
    (void)state;
    /* 40, 30, 25, 20 ordered, 69 there: 24, 18, 15, 12. */
    ShareLine lines[] = {{.ordered = 40, .usual = 40},
                         {.ordered = 30, .usual = 30},
                         {.ordered = 25, .usual = 25},
                         {.ordered = 20, .usual = 20}};
    share_out(lines, 4, 69.0, true);
    const double due[] = {24, 18, 15, 12};
    for (int i = 0; i < 4; i++) {
        assert_near(lines[i].in_proportion, due[i], 1e-9);
        assert_near(lines[i].by_rule, due[i], 1e-9);
    }
}

static void firm_orders_come_first_then_who_was_cut_last_time(void **state)
{
    (void)state;
    ShareLine lines[] = {{.ordered = 40, .usual = 40},
                         {.ordered = 30, .usual = 30, .cut_before = 6},
                         {.ordered = 25, .usual = 25, .is_firm = true},
                         {.ordered = 20, .usual = 20}};
    share_out(lines, 4, 69.0, true);
    assert_near(lines[2].by_rule, 25.0, 1e-9);
    assert_near(lines[1].by_rule, 30.0, 1e-9);
    /* 14 left for 40 and 20. */
    assert_near(lines[0].by_rule, 9.0, 1e-9);
    assert_near(lines[3].by_rule, 5.0, 1e-9);
}

/* Else an order that is padded would get more than one that is honest. */
static void padding_an_order_does_not_pay(void **state)
{
    (void)state;
    ShareLine lines[] = {{.ordered = 60, .usual = 20},
                         {.ordered = 20, .usual = 20}};
    share_out(lines, 2, 30.0, true);
    assert_near(lines[0].in_proportion, 15.0, 1e-9);
    assert_near(lines[1].in_proportion, 15.0, 1e-9);
    /* Where there is more than the usual takes, the rest is theirs. */
    share_out(lines, 2, 70.0, true);
    assert_near(lines[0].in_proportion, 50.0, 1e-9);
    assert_near(lines[1].in_proportion, 20.0, 1e-9);
}

static void less_than_is_useful_is_given_to_the_others(void **state)
{
    (void)state;
    ShareLine lines[] = {{.ordered = 40, .usual = 40, .least = 2},
                         {.ordered = 12, .usual = 12, .least = 10},
                         {.ordered = 20, .usual = 20}};
    share_out(lines, 3, 36.0, true);
    assert_near(lines[1].in_proportion, 0.0, 1e-9);
    assert_near(lines[0].in_proportion + lines[2].in_proportion, 36.0, 1e-9);
}

static void kilos_are_shared_to_the_gram(void **state)
{
    (void)state;
    ShareLine lines[] = {{.ordered = 0.8, .usual = 0.8},
                         {.ordered = 1.6, .usual = 1.6}};
    share_out(lines, 2, 0.9, false);
    assert_near(lines[0].in_proportion, 0.3, 1e-6);
    assert_near(lines[1].in_proportion, 0.6, 1e-6);
}

/* Five hundred drawn tables: nothing is made or lost, nobody gets more than
 * ordered, firm lines never fare worse by the rule. */
static void shares_add_up_whatever_is_ordered(void **state)
{
    (void)state;
    Rng rng = rng_make(811, 1);
    for (int t = 0; t < 500; t++) {
        ShareLine lines[7];
        double ordered = 0.0;
        int count = 2 + t % 6;
        for (int i = 0; i < count; i++) {
            double units = 1.0 + rng_below(&rng, 40);
            lines[i] = (ShareLine){.ordered = units,
                                   .usual = units * rng_f64(&rng),
                                   .is_firm = rng_f64(&rng) < 0.3,
                                   .cut_before = rng_f64(&rng) < 0.3};
            ordered += units;
        }
        double have = (double)(int)(1.2 * ordered * rng_f64(&rng));
        share_out(lines, count, have, true);
        double proportion = 0.0;
        double rule = 0.0;
        for (int i = 0; i < count; i++) {
            assert_true(lines[i].in_proportion <= lines[i].ordered + 1e-9);
            assert_true(lines[i].by_rule <= lines[i].ordered + 1e-9);
            proportion += lines[i].in_proportion;
            rule += lines[i].by_rule;
        }
        double due = have < ordered ? have : ordered;
        assert_near(proportion, due, 1e-6);
        assert_near(rule, due, 1e-6);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sixty_nine_heads_go_to_four_in_proportion),
        cmocka_unit_test(firm_orders_come_first_then_who_was_cut_last_time),
        cmocka_unit_test(padding_an_order_does_not_pay),
        cmocka_unit_test(less_than_is_useful_is_given_to_the_others),
        cmocka_unit_test(kilos_are_shared_to_the_gram),
        cmocka_unit_test(shares_add_up_whatever_is_ordered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
