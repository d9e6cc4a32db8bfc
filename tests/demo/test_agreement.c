/* What the forecast tells for an accepted plan is what the plan counted on. */
#include "measures.h"

#include "base/date.h"
#include "plan/record.h"
#include "work/foresight.h"
#include "work/outlook.h"

#include "check.h"

#ifndef DEMO_DIR
#error "the build tells where the demo is"
#endif

enum { WEEKS = 52, FEW_MOVES = 60000 };

typedef struct Accepted {
    Demo demo;
    PlanSolution plan;
    Farm farm;
    Foresight foresight;
} Accepted;

static int set_up(void **state)
{
    static Accepted accepted;
    Demo *demo = &accepted.demo;
    demo_open(DEMO_DIR, WEEKS, demo);
    short_plan(demo, FEW_MOVES, &accepted.plan);
    PlanStamp stamp = {demo->year.index.from, 7, "x"};
    plan_record(&demo->year.inputs, &demo->year.problem, &demo->year.index,
                &accepted.plan, &stamp, &demo->arena, &accepted.farm);
    ForesightAsk ask = {.farm = &accepted.farm,
                        .book = demo->year.book,
                        .climate = demo->year.inputs.climate,
                        .first_week = demo->year.index.from,
                        .weeks = WEEKS,
                        .sale_g = NAN,
                        .way = FORESIGHT_ALL};
    assert_ok(foresight_make(&ask, &demo->arena, &accepted.foresight));
    *state = &accepted;
    return 0;
}

static int tear_down(void **state)
{
    Accepted *accepted = *state;
    demo_close(&accepted->demo);
    return 0;
}

static void add(const PlanOption *option, double units, const double *profile,
                double *weeks)
{
    for (int i = 0; i < option->weeks; i++) {
        int t = option->first_week + i;
        if (t >= 0 && t < WEEKS) {
            weeks[t] += units * profile[i];
        }
    }
}

/* Units that the plan counted of a way, by week. */
static void planned_units(const Accepted *accepted, int way, double *weeks)
{
    const Problem *problem = &accepted->demo.year.problem;
    for (int i = 0; i < problem->standing_count; i++) {
        const PlanStanding *row = &problem->standing[i];
        const PlanOption *option = &problem->options[row->option];
        if (option->way == way) {
            add(option, row->units, option->mean, weeks);
        }
    }
    for (int i = 0; i < accepted->plan.placement_count; i++) {
        const PlanPlacement *row = &accepted->plan.placements[i];
        const PlanOption *option = &problem->options[row->option];
        if (option->way == way) {
            add(option, row->units, option->mean, weeks);
        }
    }
}

static void units_foreseen_are_those_planned(void **state)
{
    Accepted *accepted = *state;
    const Farm *farm = &accepted->farm;
    for (int way = 0; way < farm->ways_count; way++) {
        double weeks[WEEKS] = {0};
        planned_units(accepted, way, weeks);
        for (int t = 0; t < WEEKS; t++) {
            double told = accepted->foresight.plants.ways[way].value[t];
            if (fabs(told - weeks[t]) > 1e-6 * (1.0 + weeks[t])) {
                print_error("%s in week %d: %.4f planned, %.4f foreseen\n",
                            farm->ways[way].id, t, weeks[t], told);
            }
            assert_near(told, weeks[t], 1e-6 * (1.0 + weeks[t]));
        }
    }
}

static void feed_wanted_is_that_of_the_plan(void **state)
{
    Accepted *accepted = *state;
    const Problem *problem = &accepted->demo.year.problem;
    for (int l = 0; l < problem->loop_count; l++) {
        for (int t = 0; t < WEEKS; t++) {
            double planned =
                accepted->plan.outcome.want_kg[l * problem->week_count + t];
            assert_near(accepted->foresight.plants.want_kg[l][t], planned,
                        1e-6 * (1.0 + planned));
        }
    }
}

/* Hours of a week's jobs; those of fish made ready for the buyer apart, which
 * the plan leaves out. */
static double job_hours(Accepted *accepted, const OutlookClimate *climate,
                        int week)
{
    Demo *demo = &accepted->demo;
    int32_t monday = demo->year.index.from + 7 * week;
    OutlookAsk asked = {&accepted->farm, demo->year.book, climate, monday};
    JobOutlook outlook = {0};
    assert_ok(outlook_make(&asked, &demo->arena, &outlook));
    JobsAsk ask = {.farm = &accepted->farm,
                   .book = demo->year.book,
                   .outlook = &outlook,
                   .week = monday};
    JobsWeek jobs = {0};
    assert_ok(jobs_of_week(&ask, &demo->arena, &jobs));
    double minutes = 0.0;
    for (int i = 0; i < jobs.list.count; i++) {
        const Job *job = &jobs.list.jobs[i];
        minutes += job->kind == JOB_SALE ? 0.0 : job->minutes;
    }
    return minutes / 60.0;
}

/* Week by week what is over is not picked, and work that comes every second
 * week falls into one of two; over the year they agree. */
static void the_hours_of_jobs_are_those_of_the_plan(void **state)
{
    Accepted *accepted = *state;
    Demo *demo = &accepted->demo;
    OutlookClimate climate;
    outlook_climate(&accepted->farm, demo->year.inputs.climate, &demo->arena,
                    &climate);
    double planned = 0.0;
    double told = 0.0;
    for (int t = 0; t < WEEKS; t++) {
        double plan = accepted->plan.outcome.hours[t];
        double jobs = job_hours(accepted, &climate, t);
        assert_near(jobs, plan, 5.0);
        planned += plan;
        told += jobs;
    }
    print_message("hours of the plan %.0f, of its jobs %.0f\n", planned, told);
    assert_near(told, planned, 0.015 * planned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(units_foreseen_are_those_planned),
        cmocka_unit_test(feed_wanted_is_that_of_the_plan),
        cmocka_unit_test(the_hours_of_jobs_are_those_of_the_plan),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
