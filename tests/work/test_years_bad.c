/* Possible years of farms in bad states: each gives finite numbers that close,
 * and tells what breaks. */
#include <stdio.h>

#include "check.h"

#include "../sim/hour_farms.h"
#include "farm/book.h"
#include "sim/climate_year.h"
#include "work/years_sum.h"

enum { WEEKS = 16, YEARS_RUN = 5 };

typedef struct Bad {
    Arena arena;
    const Farm *farm;
    Book book;
    ClimateYear climate;
    YearsSum sum;
    YearsShape shape;
    double residual;
} Bad;

static void run_bad(const HourTables *tables, Bad *bad)
{
    *bad = (Bad){0};
    Arena *arena = &bad->arena;
    bad->farm = hour_farm_of(arena, tables);
    assert_ok(book_load(arena, &bad->book));
    assert_ok(climate_year_run(bad->farm, &bad->book, arena, &bad->climate));
    YearsAsk ask = {.farm = bad->farm,
                    .book = &bad->book,
                    .climate = &bad->climate,
                    .first_week = bad->farm->farm->records_from,
                    .weeks = WEEKS,
                    .sale_g = 450.0,
                    .seed = 4};
    YearsFarm *years = NULL;
    assert_ok(years_open(&ask, arena, &years));
    bad->shape = years_shape(bad->farm, WEEKS);
    years_sum_open(&bad->shape, arena, &bad->sum);
    uint16_t *codes = ARENA_ARRAY(arena, uint16_t, bad->shape.code_count);
    for (int k = 0; k < YEARS_RUN; k++) {
        years_run(years, k, codes); /* asserts that all is finite */
        years_sum_add(&bad->sum, bad->farm, codes);
    }
    bad->residual = years_worst_residual_frac(years);
    assert_true(bad->residual < 1e-9);
}

static void close_bad(Bad *bad)
{
    arena_release(&bad->arena);
}

static double middle(const Bad *bad, int series, int row)
{
    return years_sum_range(&bad->sum, series, row, WEEKS).value;
}

static void without_fish_nothing_is_fed_and_none_die(void **state)
{
    (void)state;
    HourTables t = hour_tables_usual();
    t.fish = "";
    Bad bad;
    run_bad(&t, &bad);
    assert_near(middle(&bad, YEARS_FEED, 0), 0.0, 0.0);
    assert_near(middle(&bad, YEARS_DEAD, 0), 0.0, 0.0);
    assert_int_equal(bad.sum.any[BREAK_OXYGEN], 0);
    close_bad(&bad);
}

/* Tanks stand still: ammonia stays where it is made. */
static void without_a_pump_ammonia_gathers_in_the_tanks(void **state)
{
    (void)state;
    HourTables t = hour_tables_usual();
    Bad with, without;
    run_bad(&t, &with);
    t.pumps = "";
    t.zones = "";
    t.beds = "b1,T,south,1,9,1.3,0.3,0.25,gravel-8-20,,1\n"
             "b2,T,middle,2,9,1.3,0.3,0.22,gravel-8-20,,1\n";
    run_bad(&t, &without);
    assert_true(middle(&without, YEARS_NH3, 0) >
                2.0 * middle(&with, YEARS_NH3, 0));
    assert_int_equal(without.sum.any[BREAK_AMMONIA], YEARS_RUN);
    close_bad(&with);
    close_bad(&without);
}

static void without_plants_nothing_is_picked(void **state)
{
    (void)state;
    HourTables t = hour_tables_usual();
    t.plants = "";
    Bad bad;
    run_bad(&t, &bad);
    for (int way = 0; way < bad.farm->ways_count; way++) {
        assert_near(middle(&bad, YEARS_PICKED, way), 0.0, 0.0);
    }
    close_bad(&bad);
}

/* No heater in a frozen winter, and a boiler set far too high. */
static void cold_and_hot_water_are_named(void **state)
{
    (void)state;
    HourTables t = hour_tables_usual();
    t.heaters = "";
    t.readings = "A,,2027-03-01T07:30+00:00,temp_degc,2\n"
                 "B,,2027-03-01T07:30+00:00,temp_degc,2\n"
                 ",L,2027-03-01T07:30+00:00,temp_degc,2\n";
    Bad bad;
    run_bad(&t, &bad);
    assert_int_equal(bad.sum.any[BREAK_COLD_WATER], YEARS_RUN);
    close_bad(&bad);
    t.heaters = "boil,L,,,60,40,all\n";
    t.readings = "A,,2027-03-01T07:30+00:00,temp_degc,45\n"
                 ",L,2027-03-01T07:30+00:00,temp_degc,45\n";
    run_bad(&t, &bad);
    assert_int_equal(bad.sum.any[BREAK_HOT_WATER], YEARS_RUN);
    assert_int_equal(bad.sum.any[BREAK_DEATHS], YEARS_RUN);
    close_bad(&bad);
}

static void water_of_ph_3_and_11_stays_finite(void **state)
{
    (void)state;
    static const char *const PH[] = {"3", "11"};
    for (int i = 0; i < 2; i++) {
        HourTables t = hour_tables_usual();
        char text[160];
        snprintf(text, sizeof text,
                 "A,,2027-03-01T07:30+00:00,ph,%s\n"
                 ",L,2027-03-01T07:30+00:00,ph,%s\n"
                 ",L,2027-03-01T07:30+00:00,tan_mg_l,6\n",
                 PH[i], PH[i]);
        t.readings = text;
        Bad bad;
        run_bad(&t, &bad);
        double ph = years_sum_range(&bad.sum, YEARS_PH, 0, 0).value;
        assert_true(i == 0 ? ph < 5.0 : ph > 6.0);
        if (i == 1) { /* ammonia of that water is poison */
            assert_int_equal(bad.sum.any[BREAK_AMMONIA], YEARS_RUN);
        }
        close_bad(&bad);
    }
}

/* Every fish sold in the first weeks: from then on the beds starve. */
static void a_plan_that_sells_every_fish_starves_the_beds(void **state)
{
    (void)state;
    HourTables t = hour_tables_usual();
    t.plan = "main,2027-03-01,52,2027-03-01,1,1000,x\n";
    t.plan_fish = "o1,old,old,,1,35,100\n"
                  "o2,old,old,,2,35,100\n"
                  "o3,old,old,,3,35,100\n"
                  "o4,old,old,,4,35,100\n"
                  "y1,young,young,,1,50,100\n"
                  "y2,young,young,,2,50,100\n"
                  "y3,young,young,,3,50,100\n"
                  "y4,young,young,,4,50,100\n";
    t.plan_moves = "m1,o1,sale,2027-03-08,1,35,35,100,A,,\n"
                   "m2,o2,sale,2027-03-08,2,35,35,100,A,,\n"
                   "m3,o3,sale,2027-03-08,3,35,35,100,A,,\n"
                   "m4,o4,sale,2027-03-08,4,35,35,100,A,,\n"
                   "m5,y1,sale,2027-03-08,5,50,50,100,B,,\n"
                   "m6,y2,sale,2027-03-08,6,50,50,100,B,,\n"
                   "m7,y3,sale,2027-03-08,7,50,50,100,B,,\n"
                   "m8,y4,sale,2027-03-08,8,50,50,100,B,,\n";
    Bad bad;
    run_bad(&t, &bad);
    double late = years_sum_range(&bad.sum, YEARS_FEED, 0, WEEKS - 1).high;
    double early = years_sum_range(&bad.sum, YEARS_FEED, 0, 0).value;
    assert_true(early > 1.0 && late < 0.01 * early);
    close_bad(&bad);
}

/* No air at all and far too many fish: they die, and it says so. */
static void a_farm_that_kills_its_fish_says_so(void **state)
{
    (void)state;
    HourTables t = hour_tables_usual();
    t.aerators = "";
    t.pumps = "";
    t.zones = "";
    t.beds = "b1,T,south,1,9,1.3,0.3,0.25,gravel-8-20,,1\n"
             "b2,T,middle,2,9,1.3,0.3,0.22,gravel-8-20,,1\n";
    t.fish = "old,nile-tilapia,A,2027-03-01,1400,310,0.15,sexed\n"
             "young,nile-tilapia,B,2027-02-11,2030,62,0.3,mixed\n";
    Bad bad;
    run_bad(&t, &bad);
    assert_int_equal(bad.sum.any[BREAK_OXYGEN], YEARS_RUN);
    assert_int_equal(bad.sum.any[BREAK_DEATHS], YEARS_RUN);
    assert_true(middle(&bad, YEARS_DEAD, 0) > 100.0);
    const char *const *words = years_words(
        &bad.sum, bad.farm, bad.farm->farm->records_from, &bad.arena);
    assert_non_null(strstr(words[1], "In 100 years of 100"));
    close_bad(&bad);
}

/* Farms of every kind: finite, closing, and quantiles in order. */
static void drawn_farms_all_give_an_answer(void **state)
{
    (void)state;
    for (int number = 0; number < 12; number++) {
        CLEANUP(arena_release) Arena arena = {0};
        HourTables t = hour_tables_drawn(&arena, number);
        Bad bad;
        run_bad(&t, &bad);
        assert_true(bad.sum.count == YEARS_RUN);
        close_bad(&bad);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_fish_nothing_is_fed_and_none_die),
        cmocka_unit_test(without_a_pump_ammonia_gathers_in_the_tanks),
        cmocka_unit_test(without_plants_nothing_is_picked),
        cmocka_unit_test(cold_and_hot_water_are_named),
        cmocka_unit_test(water_of_ph_3_and_11_stays_finite),
        cmocka_unit_test(a_plan_that_sells_every_fish_starves_the_beds),
        cmocka_unit_test(a_farm_that_kills_its_fish_says_so),
        cmocka_unit_test(drawn_farms_all_give_an_answer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
