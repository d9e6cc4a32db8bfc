/* Plan, forecast and jobs tell the same of a plan that is done as it was made:
 * units by way and week, feed wanted, hours. */
#include "planned.h"

enum { WEEKS = 30, MOVES = 30000, FARMS = 3 };

/* Farms that differ: what stands, what is in trays, spring and winter, beds of
 * other sizes. */
static void open_farm(Planned *planned, int number, Plant rows[3])
{
    planned_open(planned);
    Farm *farm = planned->small.farm;
    farm->tasks_count = 0;
    int way = planned_way(planned, "lettuce-head");
    rows[0] = (Plant){.id = "old",
                      .way = way,
                      .bed = 1,
                      .sections = 3,
                      .plants = number == 1 ? 41 : 0,
                      .sown_on = DATE_ALWAYS,
                      .set_on = small_week(-6),
                      .counted_on = small_week(0)};
    rows[1] = (Plant){.id = "settled",
                      .way = way,
                      .bed = 2,
                      .sections = 2,
                      .sown_on = small_week(-4),
                      .set_on = small_week(1) + 2,
                      .counted_on = small_week(0)};
    rows[2] = (Plant){.id = "trays",
                      .way = way,
                      .bed = -1,
                      .plants = 70,
                      .trays = 1.0,
                      .sown_on = small_week(-3),
                      .set_on = DATE_NEVER,
                      .counted_on = small_week(0)};
    farm->plants = rows;
    farm->plants_count = number == 2 ? 0 : 3;
    if (number == 1) {
        for (int b = 0; b < farm->beds_count; b++) {
            farm->beds[b].length_m = 3.1;
            farm->beds[b].sections = 5;
            farm->beds[b].edge = EDGE_NONE;
            farm->beds[b].edge_m = 0.0;
        }
    }
    planned_build(planned, WEEKS);
    planned_search(planned, MOVES);
}

static void add_option(const PlanOption *option, double units,
                       const double *profile, double *weeks)
{
    for (int i = 0; i < option->weeks; i++) {
        int t = option->first_week + i;
        if (t >= 0 && t < WEEKS) {
            weeks[t] += units * profile[i];
        }
    }
}

/* Units of a way that the plan counted on, by week. */
static void units_planned(const Planned *planned, int way, double *weeks)
{
    const Problem *problem = &planned->problem;
    for (int i = 0; i < problem->standing_count; i++) {
        const PlanStanding *row = &problem->standing[i];
        const PlanOption *option = &problem->options[row->option];
        if (option->way == way) {
            add_option(option, row->units, option->mean, weeks);
        }
    }
    for (int i = 0; i < planned->solution.placement_count; i++) {
        const PlanPlacement *row = &planned->solution.placements[i];
        const PlanOption *option = &problem->options[row->option];
        if (option->way == way) {
            add_option(option, row->units, option->mean, weeks);
        }
    }
}

static void the_forecast_has_the_units_of_the_plan(void **state)
{
    (void)state;
    for (int number = 0; number < FARMS; number++) {
        Planned planned;
        Plant rows[3];
        open_farm(&planned, number, rows);
        Foresight told = planned_look(&planned, &planned.accepted, WEEKS);
        double all = 0.0;
        for (int way = 0; way < planned.small.farm->ways_count; way++) {
            double weeks[WEEKS] = {0};
            units_planned(&planned, way, weeks);
            for (int t = 0; t < WEEKS; t++) {
                assert_near(told.plants.ways[way].value[t], weeks[t],
                            1e-6 * (1.0 + weeks[t]));
                all += weeks[t];
            }
        }
        assert_true(all > 100.0);
        planned_release(&planned);
    }
}

/* Units of the week in the jobs' outlook. */
static double units_in_outlook(Planned *planned, int way, int week)
{
    OutlookClimate climate;
    Arena *arena = &planned->small.arena;
    outlook_climate(&planned->accepted, &planned->climate, arena, &climate);
    OutlookAsk ask = {&planned->accepted, &planned->small.book, &climate,
                      small_week(week)};
    JobOutlook outlook = {0};
    assert_ok(outlook_make(&ask, arena, &outlook));
    double units = 0.0;
    for (int i = 0; i < planned->accepted.plan_plants_count; i++) {
        units += planned->accepted.plan_plants[i].way == way
                     ? outlook.yields[i].mean
                     : 0.0;
    }
    return units;
}

static void the_jobs_look_for_the_units_of_the_plan(void **state)
{
    (void)state;
    for (int number = 0; number < FARMS; number++) {
        Planned planned;
        Plant rows[3];
        open_farm(&planned, number, rows);
        for (int way = 0; way < planned.small.farm->ways_count; way++) {
            double weeks[WEEKS] = {0};
            units_planned(&planned, way, weeks);
            for (int t = 0; t < WEEKS; t += 3) {
                assert_near(units_in_outlook(&planned, way, t), weeks[t],
                            1e-6 * (1.0 + weeks[t]));
            }
        }
        planned_release(&planned);
    }
}

static double job_hours(Planned *planned, int week)
{
    JobsWeek jobs = planned_jobs(planned, &planned->accepted, week);
    double minutes = 0.0;
    for (int i = 0; i < jobs.list.count; i++) {
        minutes += jobs.list.jobs[i].minutes;
    }
    return minutes / 60.0;
}

/* With no table of tasks both count the usual rounds. Jobs pick whole heads and
 * only what is ordered, and sow for nine sowings in ten: minutes apart. */
static void the_hours_of_jobs_are_those_of_the_plan(void **state)
{
    (void)state;
    for (int number = 0; number < FARMS; number++) {
        Planned planned;
        Plant rows[3];
        open_farm(&planned, number, rows);
        double planned_h = 0.0;
        double told_h = 0.0;
        for (int t = 0; t < WEEKS; t++) {
            double fixed = planned.problem.hours_fixed[t];
            double plan = planned.solution.outcome.hours[t];
            double jobs = job_hours(&planned, t);
            assert_true(fixed > 8.0);
            assert_near(jobs, plan, 0.25);
            planned_h += plan - fixed;
            told_h += jobs - fixed;
        }
        assert_true(planned_h > 5.0);
        assert_near(told_h, planned_h, 0.06 * planned_h);
        planned_release(&planned);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_forecast_has_the_units_of_the_plan),
        cmocka_unit_test(the_jobs_look_for_the_units_of_the_plan),
        cmocka_unit_test(the_hours_of_jobs_are_those_of_the_plan),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
