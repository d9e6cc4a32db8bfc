/* Jobs with plants: seeds, days, picks and their sums. */
#include "small_farm.h"

#include "nature/plant/seeds.h"

/* Two batches of one way sown in a week are one sowing, exact by the binomial:
 * enough with the farm's confidence, and with one seed fewer not enough. */
static void seeds_are_the_fewest_that_suffice(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 0);
    const Job *sow = small_find(&jobs, JOB_SOW, "head lettuce", -1);
    assert_non_null(sow);
    const BookCommon *common = &small.book.common[0];
    const BookCrop *crop = book_crop(&small.book, "lettuce");
    double tried = emergence_germination_frac(
        &small.book.emergence[crop - small.book.crops], 18.0);
    double share = fmin(tried, crop->germination_frac.value) *
                   (1.0 - common->seedling_loss_frac.value) *
                   (1.0 - common->transplant_loss_frac.value);
    int32_t seeds = (int32_t)sow->amount;
    assert_true(seeds > 126);
    assert_true(seeds_chance_frac(seeds, 126, share) >= 0.9);
    assert_true(seeds_chance_frac(seeds - 1, 126, share) < 0.9);
    assert_non_null(strstr(sow->note, "trays of 128 cells"));
    assert_non_null(strstr(sow->note, "set out in 2027-W13"));
    assert_null(small_find(&jobs, JOB_SOW, "rocket", -1));
    small_farm_release(&small);
}

static void what_is_sown_in_place_has_no_trays_and_is_not_set(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 1);
    const Job *sow = small_find(&jobs, JOB_SOW, "rocket", -1);
    assert_non_null(sow);
    assert_true(sow->amount > 900.0);
    assert_true(sow->minutes > 0.0);
    assert_int_equal(sow->place_count, 1);
    assert_string_equal(sow->places[0].id, "t1");
    assert_null(small_find(&jobs, JOB_SET, "rocket", -1));
    small_farm_release(&small);
}

/* Days from the sowing to the count, over the weeks that may hold it; -1 where
 * none does. */
static int days_to_count(SmallFarm *small, const char *way, int sown_week)
{
    for (int week = sown_week; week < sown_week + 8; week++) {
        JobsWeek jobs = small_farm_jobs(small, week);
        const Job *count = small_find(&jobs, JOB_COUNT, way, -1);
        if (count) {
            return (int)(count->day - small_week(sown_week) - 1);
        }
    }
    return -1;
}

/* [HARRINGTON1954] lettuce: 3 days at 20 degC, 7 at 10 (by data/crops.csv). */
static void emergence_is_counted_on_the_crops_own_day(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    small.sow_degc[0] = small.sow_degc[1] = 20.0;
    int warm = days_to_count(&small, "head lettuce", 0);
    small.sow_degc[0] = small.sow_degc[1] = 10.0;
    int cool = days_to_count(&small, "head lettuce", 0);
    assert_int_equal(warm, 3);
    assert_int_equal(cool, 7);
    assert_true(days_to_count(&small, "cucumber", 3) > warm);
    small_farm_release(&small);
}

static void the_count_names_the_number_below_which_to_sow_again(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 0);
    const Job *count = small_find(&jobs, JOB_COUNT, "head lettuce", -1);
    assert_non_null(count);
    assert_true(count->low >= 126.0);
    assert_true(count->amount >= count->low);
    assert_non_null(strstr(count->note, "sow the rest again today"));
    small_farm_release(&small);
}

static void beds_are_set_in_one_job_in_walking_order(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 4);
    const Job *set = small_find(&jobs, JOB_SET, "head lettuce", -1);
    assert_non_null(set);
    assert_near(set->amount, 126.0, 1e-9);
    assert_int_equal(set->place_count, 2);
    assert_string_equal(set->places[0].id, "t2");
    assert_string_equal(set->places[1].id, "t3");
    assert_near(set->minutes,
                126.0 *
                    book_way(&small.book, "lettuce-head")->set_min_plant.value,
                1e-9);
    small_farm_release(&small);
}

static void
picks_sum_to_the_orders_and_never_to_more_than_is_there(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 10);
    double heads = 0.0;
    double of_first = 0.0;
    for (int32_t i = 0; i < jobs.list.count; i++) {
        const Job *job = &jobs.list.jobs[i];
        if (job->kind != JOB_PICK || !strstr(job->what, "lettuce")) {
            continue;
        }
        assert_near(job->amount, round(job->amount), 1e-9);
        assert_true(job->low <= job->amount && job->amount <= job->high);
        assert_string_equal(job->unit, "head");
        heads += job->amount;
        for (int32_t p = 0; p < job->place_count; p++) {
            of_first += strcmp(job->places[p].id, "t3") == 0
                            ? job->places[p].amount
                            : 0.0;
        }
    }
    assert_near(heads, 41.0, 1e-9);
    /* L1 ends first: all of its 31 before any of L2. */
    assert_near(of_first, 31.0, 1e-9);
    const Job *school = small_find(&jobs, JOB_PICK, "lettuce", 0);
    assert_non_null(school);
    assert_near(school->amount, 24.0, 1e-9);
    small.yields[0] = small.yields[1] = (JobYield){5.0, 7.0, 9.0};
    jobs = small_farm_jobs(&small, 10);
    school = small_find(&jobs, JOB_PICK, "lettuce", 0);
    assert_near(school->amount, 14.0, 1e-9);
    assert_null(small_find(&jobs, JOB_PICK, "lettuce", 1));
    small_farm_release(&small);
}

/* 62 stand, 41 go out; next week wants 41 and gives 25: the 16 that lack are
 * picked on Friday, with those that the store loses in a week. */
static void what_keeps_and_lacks_next_week_is_put_by(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    small.next_units[0] = 25.0;
    small.next_units[1] = 0.0;
    JobsWeek jobs = small_farm_jobs(&small, 9);
    assert_null(small_find(&jobs, JOB_PICK, "into the cold store", -1));
    Store store = {.id = "cold", .room_kg = 200.0};
    small.farm->stores = &store;
    small.farm->stores_count = 1;
    small.farm->ways[0].keep_days = 28.0; /* 3 of 4 last a week */
    jobs = small_farm_jobs(&small, 9);
    const Job *put_by = small_find(&jobs, JOB_PICK, "into the cold store", 4);
    assert_non_null(put_by);
    assert_near(put_by->amount, floor(16.0 / 0.75), 1e-9);
    small.next_units[1] = 16.0;
    jobs = small_farm_jobs(&small, 9);
    assert_null(small_find(&jobs, JOB_PICK, "into the cold store", -1));
    small_farm_release(&small);
}

static void fruit_is_picked_as_it_ripens_ordered_or_not(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 11); /* no promise told for it */
    double fruit = 0.0;
    int days = 0;
    for (int32_t i = 0; i < jobs.list.count; i++) {
        const Job *job = &jobs.list.jobs[i];
        if (job->kind == JOB_PICK && strstr(job->what, "cucumber")) {
            fruit += job->amount;
            days++;
        }
    }
    assert_near(fruit, 31.0, 1e-9);
    assert_int_equal(days, 3);
    small_farm_release(&small);
}

static void climbers_are_strung_then_pruned_twice_a_week(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 7);
    assert_non_null(small_find(&jobs, JOB_STRING, "cucumber", -1));
    assert_null(small_find(&jobs, JOB_PRUNE, "cucumber", -1));
    jobs = small_farm_jobs(&small, 8);
    int times = 0;
    for (int32_t i = 0; i < jobs.list.count; i++) {
        times += jobs.list.jobs[i].kind == JOB_PRUNE;
    }
    assert_int_equal(times, 2);
    small_farm_release(&small);
}

static void
old_cucumbers_are_looked_over_with_their_successor_named(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 16);
    const Job *renew = small_find(&jobs, JOB_RENEW, "cucumber", -1);
    assert_non_null(renew);
    assert_non_null(strstr(renew->note, "set out in 2027-W29"));
    small_farm_release(&small);
}

/* L1 is picked to the Sunday before its place is free: cleared at that week's
 * end; L2 has a week of its own for it. */
static void beds_are_cleared_before_they_are_free(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 10);
    const Job *clear = small_find(&jobs, JOB_CLEAR, "t3", -1);
    assert_non_null(clear);
    assert_true(clear->day >= small_week(10) + 4 &&
                clear->day < small_week(11));
    jobs = small_farm_jobs(&small, 12);
    assert_non_null(small_find(&jobs, JOB_CLEAR, "t2", -1));
    small_farm_release(&small);
}

static void a_deep_clean_comes_in_parts_that_sum_to_the_whole(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    JobsWeek jobs = small_farm_jobs(&small, 11);
    double minutes = 0.0;
    for (int32_t i = 0; i < jobs.list.count; i++) {
        const Job *job = &jobs.list.jobs[i];
        if (job->kind == JOB_CLEAN && strstr(job->what, "Deep")) {
            assert_non_null(
                strstr(caution_text(job->caution), "off at the board"));
            minutes += job->minutes;
        }
    }
    assert_near(minutes, book_task(&small.book, "deep-clean")->minutes.value,
                1e-9);
    small_farm_release(&small);
}

static void only_weeks_of_the_accepted_plan_have_jobs(void **state)
{
    (void)state;
    SmallFarm small;
    JobsWeek jobs;
    small_farm_open(&small, false);
    small_farm_foresee(&small, 21.0);
    JobsAsk ask = {.farm = small.farm,
                   .book = &small.book,
                   .outlook = &small.outlook,
                   .week = small_week(0)};
    assert_err(jobs_of_week(&ask, &small.arena, &jobs), ERR_NOT_FOUND,
               "no plan is accepted");
    small_farm_release(&small);
    small_farm_open(&small, true);
    small_farm_foresee(&small, 21.0);
    ask = (JobsAsk){.farm = small.farm,
                    .book = &small.book,
                    .outlook = &small.outlook,
                    .week = small_week(52)};
    assert_err(jobs_of_week(&ask, &small.arena, &jobs), ERR_RANGE,
               "from 2027-W09 to 2028-W08");
    ask.week = small_week(-1);
    assert_err(jobs_of_week(&ask, &small.arena, &jobs), ERR_RANGE, "2027-W09");
    small_farm_release(&small);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(seeds_are_the_fewest_that_suffice),
        cmocka_unit_test(what_is_sown_in_place_has_no_trays_and_is_not_set),
        cmocka_unit_test(emergence_is_counted_on_the_crops_own_day),
        cmocka_unit_test(the_count_names_the_number_below_which_to_sow_again),
        cmocka_unit_test(beds_are_set_in_one_job_in_walking_order),
        cmocka_unit_test(
            picks_sum_to_the_orders_and_never_to_more_than_is_there),
        cmocka_unit_test(what_keeps_and_lacks_next_week_is_put_by),
        cmocka_unit_test(fruit_is_picked_as_it_ripens_ordered_or_not),
        cmocka_unit_test(climbers_are_strung_then_pruned_twice_a_week),
        cmocka_unit_test(
            old_cucumbers_are_looked_over_with_their_successor_named),
        cmocka_unit_test(beds_are_cleared_before_they_are_free),
        cmocka_unit_test(a_deep_clean_comes_in_parts_that_sum_to_the_whole),
        cmocka_unit_test(only_weeks_of_the_accepted_plan_have_jobs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
