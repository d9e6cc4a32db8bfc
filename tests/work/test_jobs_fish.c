/* Jobs with fish: feed by the day's water, nets within limits, nothing lost. */
#include "small_farm.h"

#include "nature/fish/law.h"
#include "sim/fish_case.h"

static double fed_g(const JobsWeek *jobs, const char *tank, int day)
{
    const Job *feed = small_find(jobs, JOB_FEED, tank, day);
    return feed ? feed->amount : 0.0;
}

static void feed_is_what_the_fish_take_in_that_days_water(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek jobs = small_farm_jobs(&small, 0);
    const FishSpecies *tilapia = NULL;
    assert_ok(fish_species_find("nile-tilapia", &tilapia));
    FishWater water = fish_good_water(24.0);
    double want = 200.0 * 0.985 *
                  (fish_intake_g_d(tilapia, 140.0, &water, 1.0) +
                   fish_intake_g_d(tilapia, 220.0, &water, 1.0));
    assert_near(fed_g(&jobs, "A", 0), want, 1e-6 * want);
    assert_true(fed_g(&jobs, "A", 6) > want);
    /* Breeders are fed to condition. */
    double parents = 20.0 * fish_intake_g_d(tilapia, 430.0, &water, 1.0) *
                     fish_case_ration_frac(small.farm, 1);
    assert_true(fish_case_ration_frac(small.farm, 1) < 0.6);
    assert_near(fed_g(&jobs, "E", 0), parents, 1e-6 * parents);
    assert_near(fed_g(&jobs, "B", 0), 0.0, 1e-9);
    small_farm_release(&small);
}

/* A farm whose fish eat less than the book's is told to feed less. */
static void feed_follows_the_farms_own_appetite(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek book = small_farm_jobs(&small, 0);
    OwnFigure own = {.about = "nile-tilapia",
                     .figure = "appetite",
                     .value = 0.85,
                     .low = 0.8,
                     .high = 0.93};
    small.farm->figures = &own;
    small.farm->figures_count = 1;
    JobsWeek ours = small_farm_jobs(&small, 0);
    assert_near(fed_g(&ours, "A", 0), 0.85 * fed_g(&book, "A", 0), 1e-3);
    small_farm_release(&small);
}

static void cold_days_bring_no_feed_and_cool_ones_one_meal(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    small.tank_degc[1] = 14.2;
    small.tank_degc[2] = 17.3;
    JobsWeek jobs = small_farm_jobs(&small, 0);
    const Job *none = small_find(&jobs, JOB_FAST, "A", 1);
    assert_non_null(none);
    assert_non_null(strstr(none->note, "water of 14"));
    assert_null(small_find(&jobs, JOB_FEED, "A", 1));
    const Job *cool = small_find(&jobs, JOB_FEED, "A", 2);
    assert_non_null(strstr(cool->note, "1 meal of"));
    assert_true(cool->amount < 0.5 * fed_g(&jobs, "A", 0));
    assert_non_null(
        strstr(small_find(&jobs, JOB_FEED, "A", 3)->note, "3 meals of"));
    small_farm_release(&small);
}

/* 120 of lane 2 go from A to B; 80 of it and all of lane 1 stay. */
static void a_grading_moves_fish_and_feed_and_loses_none(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek jobs = small_farm_jobs(&small, 6);
    const Job *grade = small_find(&jobs, JOB_GRADE, "A", -1);
    assert_non_null(grade);
    assert_int_equal(grade->day, small_week(6) + 2);
    assert_near(grade->amount, 118.0, 1e-9);
    assert_non_null(strstr(grade->note, "into B"));
    assert_non_null(strstr(grade->note, "quarter 2"));
    assert_int_equal(grade->hand_count, 2);
    assert_non_null(small_find(&jobs, JOB_FAST, "A", 1));
    assert_non_null(small_find(&jobs, JOB_FAST, "A", 2));
    assert_true(fed_g(&jobs, "A", 3) < 0.6 * fed_g(&jobs, "A", 4));
    assert_near(fed_g(&jobs, "B", 1), 0.0, 1e-9);
    assert_true(fed_g(&jobs, "B", 4) > 0.0);
    /* Before and after, what both tanks hold is fed alike, growth apart. */
    double before = fed_g(&jobs, "A", 0);
    double after = fed_g(&jobs, "A", 5) + fed_g(&jobs, "B", 5);
    assert_near(after, before, 0.06 * before);
    small_farm_release(&small);
}

static void no_grading_in_water_that_is_too_cold(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 18.4);
    JobsWeek jobs = small_farm_jobs(&small, 6);
    const Job *grade = small_find(&jobs, JOB_GRADE, "A", -1);
    assert_non_null(grade);
    assert_non_null(strstr(grade->warning, "NOT in this water"));
    /* One day of the week is warm enough: that day is taken. */
    small.tank_degc[4] = 20.6;
    jobs = small_farm_jobs(&small, 6);
    grade = small_find(&jobs, JOB_GRADE, "A", 4);
    assert_non_null(grade);
    assert_null(strstr(grade->warning, "NOT"));
    small_farm_release(&small);
}

/* The inn takes fish on Tuesday and Friday; three days of purge before Tuesday
 * are the Saturday of the week before. */
static void fish_for_sale_are_caught_off_feed_days_ahead(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek before = small_farm_jobs(&small, 9);
    const Job *catch = small_find(&before, JOB_CATCH, "A", -1);
    assert_non_null(catch);
    assert_int_equal(catch->day, small_week(9) + 5);
    assert_near(catch->amount, 9.0, 1e-9);
    assert_non_null(strstr(catch->note, "into tub, clean water, no feed"));
    assert_int_equal(catch->caution, CAUTION_NET);
    JobsWeek sale = small_farm_jobs(&small, 10);
    assert_null(small_find(&sale, JOB_CATCH, "A", -1));
    double sold = 0.0;
    for (int32_t i = 0; i < sale.list.count; i++) {
        const Job *job = &sale.list.jobs[i];
        if (job->kind == JOB_SALE) {
            assert_non_null(strstr(caution_text(job->caution), "not a stun"));
            sold += job->amount;
        }
    }
    assert_near(sold, 9.0, 1e-9);
    small_farm_release(&small);
}

/* Graded into B on Wednesday and caught there on Saturday, for a sale on the
 * Thursday after. */
static void fish_just_graded_are_caught_where_they_went(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    small.farm->farm->purge_days = 5;
    PlanMove *sale = &small.farm->plan_moves[1];
    sale->run = 1;
    sale->started = 120;
    sale->on = small_week(7);
    sale->from_tank = 1;
    JobsWeek jobs = small_farm_jobs(&small, 6);
    assert_non_null(small_find(&jobs, JOB_GRADE, "A", 2));
    const Job *caught = small_find(&jobs, JOB_CATCH, "B", 5);
    assert_non_null(caught);
    assert_near(caught->amount, 118.0, 1e-9);
    /* 26 kg are too many for the tub, and nobody else is left in B. */
    assert_non_null(strstr(caught->note, "all stay in B, shut off"));
    assert_true(fed_g(&jobs, "B", 4) > 0.0);
    assert_near(fed_g(&jobs, "B", 5), 0.0, 1e-9);
    small_farm_release(&small);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(feed_is_what_the_fish_take_in_that_days_water),
        cmocka_unit_test(feed_follows_the_farms_own_appetite),
        cmocka_unit_test(cold_days_bring_no_feed_and_cool_ones_one_meal),
        cmocka_unit_test(a_grading_moves_fish_and_feed_and_loses_none),
        cmocka_unit_test(no_grading_in_water_that_is_too_cold),
        cmocka_unit_test(fish_for_sale_are_caught_off_feed_days_ahead),
        cmocka_unit_test(fish_just_graded_are_caught_where_they_went),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
