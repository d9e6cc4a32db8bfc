/* Possible years: each the same by its number alone, the typical one as the
 * forecast by weeks has it, sums in any order, orders and what breaks. */
#include "check.h"

#include "planned.h"
#include "work/years_sum.h"

enum { WEEKS = 30, YEARS_RUN = 40 };

typedef struct Opened {
    SmallFarm small;
    ClimateYear climate;
    YearsFarm *years;
    YearsShape shape;
    YearsSum sum;
    uint16_t *typical;
} Opened;

static void open_years(Opened *opened, bool has_plan, uint64_t seed)
{
    *opened = (Opened){0};
    small_farm_open(&opened->small, has_plan);
    Arena *arena = &opened->small.arena;
    const Farm *farm = opened->small.farm;
    assert_ok(
        climate_year_run(farm, &opened->small.book, arena, &opened->climate));
    YearsAsk ask = {.farm = farm,
                    .book = &opened->small.book,
                    .climate = &opened->climate,
                    .first_week = small_week(0),
                    .weeks = WEEKS,
                    .sale_g = 450.0,
                    .seed = seed};
    assert_ok(years_open(&ask, arena, &opened->years));
    opened->shape = years_shape(farm, WEEKS);
    opened->typical = ARENA_ARRAY(arena, uint16_t, opened->shape.code_count);
    years_run(opened->years, YEARS_TYPICAL, opened->typical);
    years_sum_open(&opened->shape, arena, &opened->sum);
}

static void run_years(Opened *opened, int from, int step)
{
    Arena *arena = &opened->small.arena;
    uint16_t *codes = ARENA_ARRAY(arena, uint16_t, opened->shape.code_count);
    for (int i = 0, k = from; i < YEARS_RUN; i++, k += step) {
        years_run(opened->years, k, codes);
        years_sum_add(&opened->sum, opened->small.farm, codes);
    }
}

static double typical_of(const Opened *opened, int series, int row, int week)
{
    return years_value(&opened->shape, opened->typical, series, row, week);
}

static void the_typical_year_picks_as_the_forecast_by_weeks(void **state)
{
    (void)state;
    Opened opened;
    open_years(&opened, true, 1);
    Planned look = {.small = opened.small, .climate = opened.climate};
    Foresight foresight = planned_look(&look, opened.small.farm, WEEKS);
    for (int way = 0; way < opened.small.farm->ways_count; way++) {
        double told = 0.0;
        for (int w = 0; w < WEEKS; w++) {
            told += foresight.plants.ways[way].value[w];
        }
        double got = typical_of(&opened, YEARS_PICKED, way, WEEKS);
        assert_true(told > 3.0);
        /* The plan's weeks of lettuce and rocket end before they are picked
         * through: here the rest is picked before it is cleared. */
        double least = 0.9, most = way == 1 ? 1.1 : 1.6;
        assert_true(got > least * told && got < most * told);
    }
    planned_release(&look); /* its arena has gone on from that of opened */
}

static void a_year_is_the_same_alone_and_after_others(void **state)
{
    (void)state;
    Opened one, other;
    open_years(&one, true, 3);
    open_years(&other, true, 3);
    int count = one.shape.code_count;
    uint16_t *alone = ARENA_ARRAY(&one.small.arena, uint16_t, count);
    uint16_t *after = ARENA_ARRAY(&one.small.arena, uint16_t, count);
    years_run(one.years, 17, alone);
    for (int k = 20; k > 16; k--) {
        years_run(other.years, k, after);
    }
    assert_memory_equal(alone, after, (size_t)count * sizeof *alone);
    years_run(other.years, 18, after);
    assert_memory_not_equal(alone, after, (size_t)count * sizeof *alone);
    small_farm_release(&one.small);
    small_farm_release(&other.small);
}

static void sums_are_the_same_in_any_order(void **state)
{
    (void)state;
    Opened up, down;
    open_years(&up, true, 1);
    open_years(&down, true, 1);
    run_years(&up, 0, 1);
    run_years(&down, YEARS_RUN - 1, -1);
    assert_memory_equal(up.sum.counts, down.sum.counts,
                        up.shape.counts_count * sizeof *up.sum.counts);
    assert_memory_equal(up.sum.first, down.sum.first, sizeof up.sum.first);
    assert_memory_equal(up.sum.any, down.sum.any, sizeof up.sum.any);
    small_farm_release(&up.small);
    small_farm_release(&down.small);
}

static void every_count_is_a_year_and_quantiles_stand_in_order(void **state)
{
    (void)state;
    Opened opened;
    open_years(&opened, true, 1);
    run_years(&opened, 0, 1);
    const Farm *farm = opened.small.farm;
    for (int s = 0; s < YEARS_SERIES_COUNT; s++) {
        for (int row = 0; row < years_rows(farm, YEARS_SERIES_TABLE[s].of);
             row++) {
            for (int w = 0; w <= WEEKS; w++) {
                Figure range = years_sum_range(&opened.sum, s, row, w);
                assert_true(isfinite(range.low) && isfinite(range.high));
                assert_true(range.low <= range.value &&
                            range.value <= range.high);
            }
        }
    }
    int64_t first = opened.sum.unbroken;
    for (int b = 0; b < YEARS_BREAK_COUNT; b++) {
        first += opened.sum.first[b];
        assert_true(opened.sum.first[b] <= opened.sum.any[b]);
    }
    assert_true(first == YEARS_RUN);
    small_farm_release(&opened.small);
}

static void weather_and_luck_spread_what_is_picked(void **state)
{
    (void)state;
    Opened opened;
    open_years(&opened, true, 1);
    run_years(&opened, 0, 1);
    for (int way = 0; way < opened.small.farm->ways_count; way++) {
        Figure range = years_sum_range(&opened.sum, YEARS_PICKED, way, WEEKS);
        YearsCounted counted = years_counted(&opened.sum, way, opened.typical);
        assert_true(range.high > 1.03 * range.low);
        assert_true(counted.by_week < counted.by_span + 0.1);
        assert_true(counted.by_span > 0.2 && counted.by_span < 1.1);
        double plan = years_plan_counted_frac(opened.years, way);
        assert_true(plan > 0.5 && plan < 1.0);
    }
    small_farm_release(&opened.small);
}

/* The lettuce of the plan stands ready in the week of its promises; no week
 * without a delivery is told. */
static void orders_are_kept_by_what_is_there(void **state)
{
    (void)state;
    Opened opened;
    open_years(&opened, true, 1);
    run_years(&opened, 0, 1);
    const Farm *farm = opened.small.farm;
    for (int o = 0; o < farm->orders_count; o++) {
        YearsOrder told =
            years_order(&opened.sum, opened.years, o, opened.typical);
        assert_int_equal(told.due_weeks, WEEKS);
        assert_true(told.chance >= 0.0 && told.chance <= 1.0);
        assert_true(told.least_chance <= told.chance);
        /* Nothing is ready in the first week. */
        assert_int_equal(years_sum_kept(&opened.sum, o, 0), 0);
    }
    /* School is firm and goes before the inn, whatever the table's order. */
    int64_t school = 0, inn = 0;
    for (int w = 0; w < WEEKS; w++) {
        inn += years_sum_kept(&opened.sum, 0, w);
        school += years_sum_kept(&opened.sum, 1, w);
    }
    assert_true(school > 0 && school >= inn);
    small_farm_release(&opened.small);
}

/* Its tanks have no air and 400 fish: that is what breaks. */
static void what_breaks_is_told_with_its_tank(void **state)
{
    (void)state;
    Opened opened;
    open_years(&opened, false, 1);
    run_years(&opened, 0, 1);
    const Farm *farm = opened.small.farm;
    assert_int_equal(opened.sum.any[BREAK_OXYGEN], YEARS_RUN);
    const char *const *lines =
        years_words(&opened.sum, farm, small_week(0), &opened.small.arena);
    assert_non_null(strstr(lines[0], "Nothing breaks in 0 years of 100"));
    bool is_told = false;
    for (int i = 0; lines[i]; i++) {
        is_told |= strstr(lines[i], "In 100 years of 100 oxygen falls") &&
                   strstr(lines[i], "tank ");
    }
    assert_true(is_told);
    small_farm_release(&opened.small);
}

static void weeks_out_of_range_are_refused(void **state)
{
    (void)state;
    Opened opened;
    open_years(&opened, true, 1);
    YearsAsk ask = {.farm = opened.small.farm,
                    .book = &opened.small.book,
                    .climate = &opened.climate,
                    .first_week = small_week(0),
                    .weeks = 105};
    YearsFarm *years = NULL;
    assert_err(years_open(&ask, &opened.small.arena, &years), ERR_RANGE,
               "not 105");
    ask.weeks = 10;
    ask.first_week = small_week(0) + 2;
    assert_err(years_open(&ask, &opened.small.arena, &years), ERR_RANGE,
               "Monday");
    small_farm_release(&opened.small);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_typical_year_picks_as_the_forecast_by_weeks),
        cmocka_unit_test(a_year_is_the_same_alone_and_after_others),
        cmocka_unit_test(sums_are_the_same_in_any_order),
        cmocka_unit_test(every_count_is_a_year_and_quantiles_stand_in_order),
        cmocka_unit_test(weather_and_luck_spread_what_is_picked),
        cmocka_unit_test(orders_are_kept_by_what_is_there),
        cmocka_unit_test(what_breaks_is_told_with_its_tank),
        cmocka_unit_test(weeks_out_of_range_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
