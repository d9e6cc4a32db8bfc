/* What is told first: what is short, crowded tanks, days with too much work. */
#include "small_farm.h"

#include "work/news.h"
#include "work/overfull.h"

static const News *find_news(const JobNews *news, NewsKind kind,
                             const char *words)
{
    for (int32_t i = 0; i < news->count; i++) {
        if (news->news[i].kind == kind && strstr(news->news[i].text, words)) {
            return &news->news[i];
        }
    }
    return NULL;
}

static JobNews news_of(SmallFarm *small, JobsWeek *jobs)
{
    JobLoads loads = loads_of_week(small->farm, jobs, &small->arena);
    return news_of_week(small->farm, &small->book, jobs, &loads, &small->arena);
}

static void a_short_week_names_product_and_buyer(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek jobs = small_farm_jobs(&small, 10);
    JobNews news = news_of(&small, &jobs);
    assert_null(find_news(&news, NEWS_SHORT, "head"));
    small.yields[0] = (JobYield){10.0, 14.0, 20.0};
    small.yields[1] = small.yields[0];
    jobs = small_farm_jobs(&small, 10);
    news = news_of(&small, &jobs);
    const News *told = find_news(&news, NEWS_SHORT, "head");
    assert_non_null(told);
    assert_non_null(strstr(told->text, "of 17 (inn)"));
    assert_null(strstr(told->text, "FIRM"));
    small_farm_release(&small);
}

/* 20 parents of 1.7 kg in 1.2 m3 pass 25 kg/m3; of 430 g they do not. */
static void breeders_over_the_ceiling_are_a_job_and_news(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek jobs = small_farm_jobs(&small, 0);
    assert_null(small_find(&jobs, JOB_CROWD, "E", -1));
    small.fish_g[1] = 1700.0;
    jobs = small_farm_jobs(&small, 0);
    const Job *crowd = small_find(&jobs, JOB_CROWD, "E", 0);
    assert_non_null(crowd);
    assert_int_equal(crowd->caution, CAUTION_CROWD);
    assert_non_null(strstr(crowd->what, "28."));
    assert_non_null(strstr(crowd->note, "1.2 m3"));
    JobNews news = news_of(&small, &jobs);
    assert_non_null(find_news(&news, NEWS_FISH, "Too many fish in E"));
    small_farm_release(&small);
}

static void a_day_with_too_much_names_what_could_go(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobList list = {.arena = &small.arena};
    int32_t week = small_week(1);
    Job job = job_of(JOB_PICK, week + 6, week + 6); /* Sunday: Ada alone */
    job.id = "pick";
    job.what = "Pick";
    job.minutes = 320.0;
    job_add(&list, &job, NULL);
    job = job_of(JOB_CLEAN, week + 6, week + 6);
    job.id = "clean";
    job.what = "Deep clean";
    job.minutes = 90.0;
    job_add(&list, &job, NULL);
    HandWeek hands[3];
    allot_week(small.farm, week, &list, hands);
    JobsWeek jobs = {.week = week, .list = list, .hands = hands};
    double had = 40.0 * 60.0 / 7.0;
    assert_near(overfull_minutes(&jobs, 0, 6), 410.0 - had, 1e-9);
    assert_near(overfull_minutes(&jobs, 0, 5), 0.0, 1e-9);
    const char *text = overfull_text(small.farm, &jobs, 0, 6, &small.arena);
    assert_non_null(strstr(text, "Ada 1.1 h over"));
    assert_non_null(strstr(text, "Deep clean (90 min) to Mon"));
    assert_null(overfull_text(small.farm, &jobs, 0, 5, &small.arena));
    small_farm_release(&small);
}

static void a_crop_that_comes_again_and_one_that_ends_are_told(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek jobs = small_farm_jobs(&small, 10); /* first cucumbers 10 May */
    JobNews news = news_of(&small, &jobs);
    assert_non_null(find_news(&news, NEWS_FIRST, "cucumber"));
    assert_null(find_news(&news, NEWS_FIRST, "lettuce"));
    jobs = small_farm_jobs(&small, 11); /* lettuce ends on 23 May */
    news = news_of(&small, &jobs);
    assert_non_null(find_news(&news, NEWS_LAST, "lettuce"));
    assert_null(find_news(&news, NEWS_FIRST, "cucumber"));
    small_farm_release(&small);
}

/* One person picks a tunnel, not two in turn. */
static void one_stop_is_one_persons(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    JobList list = {.arena = &small.arena};
    int32_t week = small_week(1);
    static const char *const IDS[] = {"a", "b", "c", "d"};
    for (int i = 0; i < 4; i++) {
        Job job = job_of(JOB_PICK, week, week);
        job.id = IDS[i];
        job.what = "Pick";
        job.stop = i % 2 ? "T" : "U";
        job.minutes = 31.0 - i;
        job_add(&list, &job, NULL);
    }
    HandWeek hands[3];
    allot_week(small.farm, week, &list, hands);
    assert_int_equal(list.jobs[0].hands[0], list.jobs[2].hands[0]);
    assert_int_equal(list.jobs[1].hands[0], list.jobs[3].hands[0]);
    assert_int_not_equal(list.jobs[0].hands[0], list.jobs[1].hands[0]);
    small_farm_release(&small);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_short_week_names_product_and_buyer),
        cmocka_unit_test(breeders_over_the_ceiling_are_a_job_and_news),
        cmocka_unit_test(a_day_with_too_much_names_what_could_go),
        cmocka_unit_test(a_crop_that_comes_again_and_one_that_ends_are_told),
        cmocka_unit_test(one_stop_is_one_persons),
    };
    return cmocka_run_group_tests_name("news", tests, NULL, NULL);
}
