/* Days and people: nobody does what they may not, or is not there to do. */
#include "small_farm.h"

#include "farm/closures.h"

static void every_job_has_people_who_may_and_are_there(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    for (int week = 0; week < 30; week++) {
        JobsWeek jobs = small_farm_jobs(&small, week);
        for (int32_t i = 0; i < jobs.list.count; i++) {
            const Job *job = &jobs.list.jobs[i];
            assert_true(job->day >= job->earliest && job->day <= job->latest);
            assert_true(job->earliest >= jobs.week &&
                        job->latest < jobs.week + 7);
            assert_true(job->hand_count <= job->people);
            for (int h = 0; h < job->hand_count; h++) {
                const Hand *hand = &small.farm->hands[job->hands[h]];
                assert_true(hand->may >> job->skill & 1u);
                assert_true(hand->days >> (job->day - jobs.week) & 1u);
                assert_false(
                    closures_keep_hand(small.farm, job->hands[h], job->day));
            }
        }
    }
    small_farm_release(&small);
}

static void minutes_given_are_minutes_used(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek jobs = small_farm_jobs(&small, 10);
    double given = 0.0;
    double used = 0.0;
    for (int32_t i = 0; i < jobs.list.count; i++) {
        const Job *job = &jobs.list.jobs[i];
        given += job->hand_count ? job->minutes : 0.0;
    }
    for (int h = 0; h < small.farm->hands_count; h++) {
        for (int d = 0; d < 7; d++) {
            used += jobs.hands[h].minutes_used[d];
        }
    }
    assert_true(given > 600.0);
    assert_near(used, given, 1e-6);
    small_farm_release(&small);
}

static void hours_are_spread_over_the_days_that_no_closure_takes(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek jobs = small_farm_jobs(&small, 0);
    assert_near(jobs.hands[0].minutes_had[6], 40.0 * 60.0 / 7.0, 1e-9);
    assert_near(jobs.hands[1].minutes_had[1], 360.0, 1e-9);
    assert_near(jobs.hands[1].minutes_had[2], 0.0, 1e-9);
    assert_near(jobs.hands[2].minutes_had[5], 480.0, 1e-9);
    assert_near(jobs.hands[2].minutes_had[0], 0.0, 1e-9);
    small_farm_release(&small);
}

/* On a day with room for one of two, work that can wait goes to the next. */
static void work_that_can_wait_makes_room(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    JobList list = {.arena = &small.arena};
    int32_t week = small_week(1);
    const char *const ids[] = {"late", "now", "odd"};
    for (int i = 0; i < 3; i++) {
        Job job = job_of(JOB_TEST, week, i == 1 ? week : week + 3);
        job.id = ids[i];
        job.what = "Test";
        job.minutes = 300.0;
        job_add(&list, &job, NULL);
    }
    HandWeek hands[3];
    allot_week(small.farm, week, &list, hands);
    assert_int_equal(list.jobs[1].day, week);
    assert_int_equal(list.jobs[0].day, week + 1);
    assert_int_equal(list.jobs[2].day, week + 2);
    small_farm_release(&small);
}

static void work_that_nobody_may_do_is_nobodys(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    for (int h = 0; h < small.farm->hands_count; h++) {
        small.farm->hands[h].may &= ~(1u << SKILL_NET);
    }
    JobList list = {.arena = &small.arena};
    Job job = job_of(JOB_GRADE, small_week(0), small_week(0));
    job.id = "grade";
    job.what = "Grade";
    job.minutes = 90.0;
    job_add(&list, &job, NULL);
    HandWeek hands[3];
    allot_week(small.farm, small_week(0), &list, hands);
    assert_int_equal(list.jobs[0].hand_count, 0);
    small_farm_release(&small);
}

static void ids_are_unique_and_the_walk_is_in_order(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    for (int week = 0; week < 30; week++) {
        JobsWeek jobs = small_farm_jobs(&small, week);
        for (int32_t i = 0; i < jobs.list.count; i++) {
            const Job *job = &jobs.list.jobs[i];
            for (int32_t j = 0; j < i; j++) {
                assert_string_not_equal(jobs.list.jobs[j].id, job->id);
            }
            const Job *last = i ? &jobs.list.jobs[i - 1] : NULL;
            assert_true(!last || last->day < job->day ||
                        (last->day == job->day && last->phase <= job->phase));
        }
    }
    small_farm_release(&small);
}

/* 0.5 times a week is every second week; 2 times are two days. */
static void weekly_work_comes_as_often_as_it_should(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    int screens = 0;
    int tests = 0;
    int rounds = 0;
    for (int week = 0; week < 8; week++) {
        JobsWeek jobs = small_farm_jobs(&small, week);
        for (int32_t i = 0; i < jobs.list.count; i++) {
            screens += strcmp(jobs.list.jobs[i].what, "Pump screens") == 0;
            tests += jobs.list.jobs[i].kind == JOB_TEST;
            rounds += jobs.list.jobs[i].kind == JOB_ROUND;
        }
    }
    assert_int_equal(screens, 4);
    assert_int_equal(tests, 16);
    assert_int_equal(rounds, 56);
    small_farm_release(&small);
}

static void shade_goes_on_at_its_months_first_day(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek jobs = small_farm_jobs(&small, 8); /* 1 May 2027 is its Saturday */
    assert_non_null(small_find(&jobs, JOB_SHADE, "Put on the shade", -1));
    jobs = small_farm_jobs(&small, 7);
    assert_null(small_find(&jobs, JOB_SHADE, "shade", -1));
    jobs = small_farm_jobs(&small, 30); /* 1 October is its Friday */
    assert_non_null(small_find(&jobs, JOB_SHADE, "Take off the shade", -1));
    small_farm_release(&small);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_job_has_people_who_may_and_are_there),
        cmocka_unit_test(minutes_given_are_minutes_used),
        cmocka_unit_test(hours_are_spread_over_the_days_that_no_closure_takes),
        cmocka_unit_test(work_that_can_wait_makes_room),
        cmocka_unit_test(work_that_nobody_may_do_is_nobodys),
        cmocka_unit_test(ids_are_unique_and_the_walk_is_in_order),
        cmocka_unit_test(weekly_work_comes_as_often_as_it_should),
        cmocka_unit_test(shade_goes_on_at_its_months_first_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
