/* Seedlings standing in trays on the first day, from the table to the plan,
 * the forecast and the jobs. */
#include "planned.h"

#include "farm/seedlings.h"
#include "plan/trays.h"
#include "sim/plant_year.h"

enum { WEEKS = 20 };

/* Head lettuce for bed t3, set a fortnight after the first day. */
static Plant settled(const Planned *planned)
{
    return (Plant){.id = "trays",
                   .way = planned_way(planned, "lettuce-head"),
                   .bed = 2,
                   .place = PLACE_FLOOR,
                   .sections = 2,
                   .trays = 1.0,
                   .sown_on = small_week(-3),
                   .set_on = small_week(2),
                   .counted_on = small_week(0)};
}

static const PlanPlant *row_of(const Farm *farm, const char *id)
{
    for (int i = 0; i < farm->plan_plants_count; i++) {
        if (strcmp(farm->plan_plants[i].id, id) == 0) {
            return &farm->plan_plants[i];
        }
    }
    return NULL;
}

/* They hold the bench until they are set and the bed from then on, and cost
 * nothing more. */
static void seedlings_with_a_bed_are_set_there_on_their_day(void **state)
{
    (void)state;
    Planned planned;
    planned_open(&planned);
    Plant row = settled(&planned);
    planned.small.farm->plants = &row;
    planned.small.farm->plants_count = 1;
    planned_build(&planned, WEEKS);
    assert_int_equal(planned.problem.standing_count, 1);
    const PlanOption *option =
        &planned.problem.options[planned.problem.standing[0].option];
    assert_int_equal(option->set_week, 2);
    assert_true(option->sow_week < 0);
    assert_near(option->cost, 0.0, 1e-12);
    for (int t = 0; t < option->weeks; t++) {
        assert_near(option->trays[t] * 2, t < 2 ? 1.0 : 0.0, 1e-9);
    }
    planned_search(&planned, 20000);
    const PlanPlant *told = row_of(&planned.accepted, "trays");
    assert_non_null(told);
    assert_int_equal(told->standing, 0);
    assert_int_equal(told->set_on, small_week(2));
    assert_int_equal(told->sow_on, small_week(-3));
    planned_release(&planned);
}

/* What stands where they go is picked up to then and cleared for them. */
static void what_stands_there_makes_way(void **state)
{
    (void)state;
    Planned planned;
    planned_open(&planned);
    Plant rows[2] = {settled(&planned), settled(&planned)};
    rows[0].id = "old";
    rows[0].sections = 4;
    rows[0].trays = 0.0;
    rows[0].sown_on = DATE_ALWAYS;
    rows[0].set_on = small_week(-2);
    planned.small.farm->plants = rows;
    planned.small.farm->plants_count = 2;
    planned_build(&planned, WEEKS);
    const PlanOption *old =
        &planned.problem.options[planned.problem.standing[0].option];
    assert_string_equal(planned.problem.standing[0].id, "old");
    assert_int_equal(old->clear_week, 2);
    planned_search(&planned, 20000);
    planned_release(&planned);
}

/* Seedlings that the bed's frost or heat kills are told, not planned. */
static void seedlings_that_come_to_nothing_are_told(void **state)
{
    (void)state;
    Planned planned;
    planned_open(&planned);
    Plant row = settled(&planned);
    planned.small.farm->plants = &row;
    planned.small.farm->plants_count = 1;
    for (int d = 0; d < CLIMATE_DAYS; d++) {
        planned.climate.tunnels[0].min_degc[d] = -9.0;
        planned.climate.tunnels[0].crop_min_degc[d] = -9.0;
    }
    planned_build(&planned, WEEKS);
    assert_int_equal(planned.problem.standing_count, 0);
    assert_int_equal(planned.index.unused_count, 1);
    assert_string_equal(planned.index.unused[0].id, "trays");
    assert_non_null(strstr(planned.index.unused[0].why, "frost"));
    planned_release(&planned);
}

static void foresee_and_jobs_know_them(void **state)
{
    (void)state;
    Planned planned;
    planned_open(&planned);
    Plant row = settled(&planned);
    planned.small.farm->plants = &row;
    planned.small.farm->plants_count = 1;
    Foresight alone = planned_look(&planned, planned.small.farm, WEEKS);
    assert_int_equal(alone.plants.batch_count, 1);
    const PlantStandBatch *batch = &alone.plants.batches[0];
    assert_int_equal(batch->sow_day, row.sown_on);
    assert_int_equal(batch->set_day, row.set_on);
    double heads = 0.0;
    for (int w = 0; w < WEEKS; w++) {
        heads += batch->pick.value[w];
    }
    assert_true(heads > 20.0 && heads <= batch->plants);
    planned_build(&planned, WEEKS);
    planned_search(&planned, 20000);
    JobsWeek jobs = planned_jobs(&planned, &planned.accepted, 2);
    const Job *set = small_find(&jobs, JOB_SET, "t3", -1);
    assert_non_null(set);
    assert_non_null(strstr(set->note, "from the trays trays sown in 2027-W06"));
    assert_true(set->minutes > 0.0);
    for (int week = 0; week < 4; week++) {
        JobsWeek other = planned_jobs(&planned, &planned.accepted, week);
        for (int i = 0; i < other.list.count; i++) {
            const Job *job = &other.list.jobs[i];
            bool is_ours = job->kind == JOB_SET && job->place_count > 0 &&
                           strstr(job->note, "from the trays");
            assert_true(!is_ours || week == 2);
        }
    }
    planned_release(&planned);
}

/* 50 head lettuces in trays, for any bed. */
static Plant anywhere(const Planned *planned)
{
    Plant row = settled(planned);
    row.bed = -1;
    row.sections = 0;
    row.plants = 50;
    row.set_on = DATE_NEVER;
    return row;
}

static double plants_set(const Farm *farm, int standing)
{
    double plants = 0.0;
    for (int i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        plants += row->standing == standing ? row->plants : 0;
    }
    return plants;
}

/* The plan finds bed and week: within what a seedling can wait, no more of them
 * than stand, their bench held until then, at no cost. */
static void seedlings_without_a_bed_are_placed_by_the_plan(void **state)
{
    (void)state;
    Planned planned;
    planned_open(&planned);
    Plant row = anywhere(&planned);
    planned.small.farm->plants = &row;
    planned.small.farm->plants_count = 1;
    planned_build(&planned, WEEKS);
    assert_int_equal(planned.problem.standing_count, 0);
    assert_int_equal(planned.problem.seedlings_count, 1);
    assert_near(planned.problem.seedlings[0].plants, 50.0, 1e-12);
    const BookWay *book = book_way(&planned.small.book, "lettuce-head");
    double wait_d = seedlings_wait_d(planned.small.farm, row.way, book);
    int options = 0;
    for (int i = 0; i < planned.problem.option_count; i++) {
        const PlanOption *option = &planned.problem.options[i];
        if (option->trays_of == 0) {
            continue;
        }
        int32_t age_d = small_week(option->set_week) - row.sown_on;
        assert_true(age_d >= book->nursery_d.low - 3);
        assert_true(age_d <= book->nursery_d.high + wait_d);
        assert_near(option->cost, 0.0, 1e-12);
        if (option->set_week > 0) {
            assert_near(option->trays[0], option->plants / 50.0, 1e-9);
        }
        options++;
    }
    assert_true(options > 0);
    planned_search(&planned, 40000);
    double set = plants_set(&planned.accepted, 0);
    assert_true(set > 0.0 && set <= 51.0);
    PlanTrays *lines = NULL;
    int count = plan_trays(&planned.problem, &planned.index, &planned.solution,
                           &planned.small.arena, &lines);
    assert_int_equal(count, 1);
    assert_string_equal(lines[0].id, "trays");
    assert_true(lines[0].set > 0 && lines[0].set <= 50);
    assert_null(lines[0].why);
    planned_release(&planned);
}

/* What the accepted plan placed is found again in the tables. */
static void placed_seedlings_are_recalled(void **state)
{
    (void)state;
    Planned planned;
    planned_open(&planned);
    Plant row = anywhere(&planned);
    planned.small.farm->plants = &row;
    planned.small.farm->plants_count = 1;
    planned_build(&planned, WEEKS);
    planned_search(&planned, 40000);
    PlanInputs again = planned.inputs;
    again.farm = &planned.accepted;
    PlanSolution recalled;
    int left_out = 0;
    plan_recall(&again, &planned.problem, &planned.index, &planned.small.arena,
                &recalled, &left_out);
    assert_int_equal(left_out, 0);
    assert_int_equal(recalled.placement_count,
                     planned.solution.placement_count);
    double before = 0.0;
    double after = 0.0;
    for (int i = 0; i < recalled.placement_count; i++) {
        const PlanPlacement *a = &planned.solution.placements[i];
        const PlanPlacement *b = &recalled.placements[i];
        before += planned.problem.options[a->option].trays_of ? a->units : 0;
        after += planned.problem.options[b->option].trays_of ? b->units : 0;
    }
    assert_true(before > 0.0);
    assert_near(after, before, 1e-12);
    planned_release(&planned);
}

/* Warm weeks bring seedlings on sooner; none waits for more days than the book
 * has for any season. */
static void seedlings_are_ready_within_the_books_days(void **state)
{
    (void)state;
    Planned planned;
    planned_open(&planned);
    PlantRule rule;
    assert_ok(plant_rule_of_farm(&planned.small.book, planned.small.farm,
                                 planned_way(&planned, "lettuce-head"), &rule));
    OutlookClimate climate;
    outlook_climate(planned.small.farm, &planned.climate, &planned.small.arena,
                    &climate);
    double cool[CLIMATE_DAYS];
    double warm[CLIMATE_DAYS];
    for (int d = 0; d < CLIMATE_DAYS; d++) {
        cool[d] = 13.0;
        warm[d] = 21.0;
    }
    int32_t days[2];
    for (int i = 0; i < 2; i++) {
        BedYear bed = climate.beds[2];
        bed.nursery_degc = i == 0 ? cool : warm;
        PlantYear year;
        plant_year_init(&planned.small.arena, &rule, &bed, &year);
        days[i] = plant_year_ready_day(&year, small_week(0)) - small_week(0);
        assert_true(days[i] >= (int32_t)rule.nursery_d.low);
        assert_true(days[i] <= (int32_t)rule.nursery_d.high);
    }
    assert_true(days[0] > days[1]);
    planned_release(&planned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(seedlings_with_a_bed_are_set_there_on_their_day),
        cmocka_unit_test(what_stands_there_makes_way),
        cmocka_unit_test(seedlings_that_come_to_nothing_are_told),
        cmocka_unit_test(foresee_and_jobs_know_them),
        cmocka_unit_test(seedlings_without_a_bed_are_placed_by_the_plan),
        cmocka_unit_test(placed_seedlings_are_recalled),
        cmocka_unit_test(seedlings_are_ready_within_the_books_days),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
