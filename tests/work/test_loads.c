/* The load list: nothing out of nothing, firm first, due on open days. */
#include "small_farm.h"

#include "work/due.h"
#include "work/loads.h"

enum { INN_HEAD, SCHOOL_HEAD, INN_CUCUMBER, INN_FISH };

static double sum_of(const JobLoads *loads, int32_t order)
{
    double units = 0.0;
    for (int32_t i = 0; i < loads->count; i++) {
        units += loads->loads[i].order == order ? loads->loads[i].expected : 0;
    }
    return units;
}

static double picked(const JobsWeek *jobs, int32_t way)
{
    double units = 0.0;
    for (int32_t i = 0; i < jobs->list.count; i++) {
        const Job *job = &jobs->list.jobs[i];
        units += job->kind == JOB_PICK && job->way == way ? job->amount : 0.0;
    }
    return units;
}

static void a_week_with_enough_gives_all_and_tells_where_from(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    JobsWeek jobs = small_farm_jobs(&small, 10);
    JobLoads loads = loads_of_week(small.farm, &jobs, &small.arena);
    assert_near(sum_of(&loads, INN_HEAD), 17.0, 1e-9);
    assert_near(sum_of(&loads, SCHOOL_HEAD), 24.0, 1e-9);
    for (int32_t i = 0; i < loads.count; i++) {
        const Load *load = &loads.loads[i];
        const Load *before = i ? load - 1 : load;
        assert_true(before->day <= load->day);
        assert_true(load->low <= load->expected);
        assert_true(load->expected <= load->high);
        assert_true(load->high <= load->ordered + 1e-9);
        if (load->order == SCHOOL_HEAD) {
            assert_int_equal(load->day, jobs.week);
            assert_true(load->from_count > 0);
            assert_int_equal(load->from_day, jobs.week);
            assert_string_equal(load_rule(small.farm, load), "firm");
        }
    }
    small_farm_release(&small);
}

/* 28 heads for 41: the school's firm 24 are whole, though the inn's Tuesday
 * would take its own. */
static void what_is_short_goes_to_firm_orders_first(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    small.yields[0] = (JobYield){10.0, 14.0, 20.0};
    small.yields[1] = small.yields[0];
    JobsWeek jobs = small_farm_jobs(&small, 10);
    JobLoads loads = loads_of_week(small.farm, &jobs, &small.arena);
    double heads = picked(&jobs, 0);
    assert_true(heads > 25.0 && heads <= 28.0);
    assert_near(sum_of(&loads, SCHOOL_HEAD), 24.0, 1e-9);
    assert_near(sum_of(&loads, INN_HEAD), heads - 24.0, 1e-9);
    double lacks = 0.0;
    for (int32_t i = 0; i < loads.count; i++) {
        bool is_inn = loads.loads[i].order == INN_HEAD;
        lacks += is_inn ? loads.loads[i].short_by : 0.0;
    }
    assert_near(lacks, 17.0 - (heads - 24.0), 1e-9);
    /* The other way round, the school would go without. */
    small.farm->orders[INN_HEAD].firmness = ORDER_FIRM;
    small.farm->orders[SCHOOL_HEAD].firmness = ORDER_PROMISED;
    JobLoads turned = loads_of_week(small.farm, &jobs, &small.arena);
    assert_true(sum_of(&turned, INN_HEAD) > sum_of(&loads, INN_HEAD));
    small_farm_release(&small);
}

static void less_than_is_of_use_is_given_to_the_others(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    small.yields[0] = (JobYield){10.0, 14.0, 20.0};
    small.yields[1] = small.yields[0];
    JobsWeek jobs = small_farm_jobs(&small, 10);
    small.farm->orders[INN_HEAD].least = 6.0;
    JobLoads loads = loads_of_week(small.farm, &jobs, &small.arena);
    assert_near(sum_of(&loads, INN_HEAD), 0.0, 1e-9);
    small_farm_release(&small);
}

/* A mix whose parts may give way: more of it than the scarcer part has. */
static void a_mix_stretches_the_part_that_is_short(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    small_farm_foresee(&small, 24.0);
    small.yields[0] = (JobYield){7.0, 7.0, 7.0};
    small.yields[1] = small.yields[0];
    Part parts[] = {
        {.product = 0,
         .way = 0,
         .units = 1.0,
         .low_frac = 0.8,
         .high_frac = 1.2},
        {.product = 0,
         .way = 1,
         .units = 1.0,
         .low_frac = 0.8,
         .high_frac = 1.2},
    };
    small.farm->parts = parts;
    small.farm->parts_count = 2;
    small.farm->orders[SCHOOL_HEAD].quantity = 0.0;
    JobsWeek jobs = small_farm_jobs(&small, 10);
    JobLoads loads = loads_of_week(small.farm, &jobs, &small.arena);
    assert_near(picked(&jobs, 0), 14.0, 1e-9);
    double bags = sum_of(&loads, INN_HEAD);
    assert_true(bags > 14.0 && bags <= 17.0);
    small_farm_release(&small);
}

static void a_dated_order_is_due_on_its_day_alone(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    Order *order = &small.farm->orders[INN_FISH];
    order->from = small_week(10) + 3; /* Thursday; the inn takes Tue and Fri */
    order->until = order->from;
    Due due = due_of_week(small.farm, small_week(10), &small.arena)[INN_FISH];
    assert_int_equal(due.days, 1u << 3);
    assert_near(due_on_day(&due, due.wanted, true, 3), 9.0, 1e-9);
    assert_near(due_on_day(&due, due.wanted, true, 1), 0.0, 1e-9);
    Due later = due_of_week(small.farm, small_week(11), &small.arena)[INN_FISH];
    assert_int_equal(later.day_count, 0);
    small_farm_release(&small);
}

/* 17 over Tuesday and Friday are 9 and 8; a closed Friday leaves half of it. */
static void days_share_whole_units_and_closed_days_take_none(void **state)
{
    (void)state;
    SmallFarm small;
    small_farm_open(&small, true);
    Due due = due_of_week(small.farm, small_week(10), &small.arena)[INN_HEAD];
    assert_near(due_on_day(&due, due.wanted, true, 1), 9.0, 1e-9);
    assert_near(due_on_day(&due, due.wanted, true, 4), 8.0, 1e-9);
    assert_near(due.kept, 17.0, 1e-9);
    Closure closed = {.kind = CLOSED_BUYER,
                      .buyer = small.farm->orders[INN_HEAD].buyer,
                      .hand = -1,
                      .from = small_week(10) + 4,
                      .until = small_week(10) + 4};
    small.farm->closures = &closed;
    small.farm->closures_count = 1;
    due = due_of_week(small.farm, small_week(10), &small.arena)[INN_HEAD];
    assert_near(due.wanted, 8.5, 1e-9);
    assert_near(due_on_day(&due, due.wanted, true, 4), 0.0, 1e-9);
    small_farm_release(&small);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_week_with_enough_gives_all_and_tells_where_from),
        cmocka_unit_test(what_is_short_goes_to_firm_orders_first),
        cmocka_unit_test(less_than_is_of_use_is_given_to_the_others),
        cmocka_unit_test(a_mix_stretches_the_part_that_is_short),
        cmocka_unit_test(a_dated_order_is_due_on_its_day_alone),
        cmocka_unit_test(days_share_whole_units_and_closed_days_take_none),
    };
    return cmocka_run_group_tests_name("loads", tests, NULL, NULL);
}
