/* Doubts: values that can be right and look like a slip of the pen. */
#include "sound_farm.h"

#include "farm/zones.h"

static void the_zone_is_looked_up(void **state)
{
    (void)state;
    const Case cases[] = {
        {"farm.csv", "Europe/Lisbon", "Europe/Lisbom",
         "doubt: farm.csv:2:4: \"Europe/Lisbom\": no zone of the IANA list of "
         "2025b (near: Europe/Lisbon); where the machine does not know it "
         "either, days begin in UTC"},
        {"farm.csv", "Europe/Lisbon", "America/Argentina/Ushuaia", ""},
    };
    CHECK_CASES(cases);
    assert_true(zone_is_known("UTC"));
    assert_true(zone_is_known("Africa/Abidjan"));
    assert_false(zone_is_known("Africa"));
    assert_false(zone_is_known(""));
}

static void the_climate_is_looked_at(void **state)
{
    (void)state;
    const Case cases[] = {
        {"climate.csv", "7,32,15.9", "7,12,5.9",
         "doubt: climate.csv:8:2: \"12\": the mean of month 7 is 8.95 degC, "
         "between months of 22.8"},
        {"climate.csv", "\n4,20.2,8.4,19.2", "\n4,20.2,8.4,41.2",
         "doubt: climate.csv:5:4: \"41.2\": above the air month 4 has 35.2 "
         "MJ/m2 a day at latitude 38.6; the ground has from a tenth to three "
         "quarters of it"},
        {"climate.csv", "\n4,20.2,8.4,19.2", "\n4,20.2,8.4,1.92",
         "doubt: climate.csv:5:4: \"1.92\": above the air month 4 has 35.2 "
         "MJ/m2 a day at latitude 38.6; the ground has from a tenth to three "
         "quarters of it"},
    };
    CHECK_CASES(cases);
}

/* Twelve cold months: every January bears ice. */
#define COLD_CSV                                                               \
    "month,tmax_degc,tmin_degc,sun_mj_m2_d\n"                                  \
    "1,-2,-12,6\n2,0,-10,9\n3,6,-5,14\n4,12,1,18\n5,18,7,21\n6,23,12,23\n"     \
    "7,26,15,23\n8,25,14,20\n9,20,9,15\n10,13,4,10\n11,6,-1,6.5\n"             \
    "12,0,-8,5\n"

static void fish_in_cold_water_are_doubted(void **state)
{
    (void)state;
    /* The tank of loop l1 is heated; the breeders' tank E is not. */
    check_case(&(Case){
        "climate.csv", CLIMATE_CSV, COLD_CSV,
        "doubt: fish.csv:3:3: \"E\": month 1 has a mean of -7 degC and no "
        "heater for that tank; Nile tilapia dies below "});
}

static void a_latitude_of_the_other_half_is_doubted(void **state)
{
    (void)state;
    check_case(&(Case){
        "farm.csv", "38.6,-6.4", "-32,-6.4",
        "doubt: farm.csv:2:2: \"-32\": north is positive, and climate.csv has "
        "its warm months when the days there are short"});
}

static void a_tunnel_without_vents_is_doubted(void **state)
{
    (void)state;
    check_case(&(Case){"tunnels.csv", "pe-single,38", "pe-single,0",
                       "doubt: tunnels.csv:2:5: \"0\": tunnel H1 has no "
                       "opening that lets its heat out"});
}

static void prices_far_from_the_others_are_doubted(void **state)
{
    (void)state;
    const Case cases[] = {
        {"prices.csv", "fish,shop,5.5", "fish,shop,55",
         "doubt: prices.csv:5:3: \"55.00\": other prices of fish are about 6"},
        {"prices.csv", "fish,shop,5.5", "fish,shop,0.55",
         "doubt: prices.csv:5:3: \"0.55\": other prices of fish are about "
         "5.5"},
        {"prices.csv", "pesto,,3.5", "pesto,,0",
         "doubt: prices.csv:2:3: \"0.00\": pesto is sold for nothing"},
        {"prices.csv", "pesto,,3.5,,\n", "pesto,,350,,\nfish,,5,,2020-01-01\n",
         "doubt: prices.csv:2:3: \"350.00\": the middle price of all products "
         "is 5.5, and this is 63.6 times as much"},
    };
    CHECK_CASES(cases);
}

static void quantities_beyond_the_farm_are_doubted(void **state)
{
    (void)state;
    const Case cases[] = {
        {"orders.csv", "fish,4,outlet", "fish,4000,outlet",
         "doubt: orders.csv:3:4: \"4000\": all of the farm's room given to "
         "fish would bring about 756 at once"},
        {"orders.csv", "pesto,12,", "pesto,120000,",
         "doubt: orders.csv:2:4: \"120000\": all of the farm's room given to "
         "pesto would bring about "},
        {"orders.csv", NULL,
         "o3,inn,fish,5,outlet,,all,,\no4,inn,fish,110,outlet,,all,,\n",
         "doubt: orders.csv:5:4: \"110\": other orders of fish are about 5"},
    };
    CHECK_CASES(cases);
}

static void units_that_disagree_are_doubted(void **state)
{
    (void)state;
    const Case cases[] = {
        {"ways.csv", "rocket-cut,kg,1000", "rocket-cut,kg,100",
         "doubt: ways.csv:3:5: \"100\": a kg of way rocket has 1000 g"},
        {"ways.csv", "rocket-cut,kg,1000", "rocket-cut,g,1", ""},
        {"parts.csv", "pesto,basil,,2\npesto,rocket,,0.05", "pesto,basil,,1",
         "doubt: products.csv:2:2: \"jar\": pesto is one bunch of way basil, "
         "by parts.csv line 2"},
        {"parts.csv", "pesto,basil,,2\npesto,rocket,,0.05", "pesto,basil,,3",
         ""},
    };
    CHECK_CASES(cases);
}

static void work_that_nobody_may_do_is_doubted(void **state)
{
    (void)state;
    const Case cases[] = {
        {"hands.csv", "sow set prune", "set prune",
         "doubt: hands.csv:0:0: \"\": nobody may sow, and plants are sown on "
         "this farm"},
        {"hands.csv", " dose ", " ",
         "doubt: hands.csv:0:0: \"\": nobody may dose, and bases.csv is not "
         "empty on this farm"},
    };
    CHECK_CASES(cases);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_zone_is_looked_up),
        cmocka_unit_test(the_climate_is_looked_at),
        cmocka_unit_test(fish_in_cold_water_are_doubted),
        cmocka_unit_test(a_latitude_of_the_other_half_is_doubted),
        cmocka_unit_test(a_tunnel_without_vents_is_doubted),
        cmocka_unit_test(prices_far_from_the_others_are_doubted),
        cmocka_unit_test(quantities_beyond_the_farm_are_doubted),
        cmocka_unit_test(units_that_disagree_are_doubted),
        cmocka_unit_test(work_that_nobody_may_do_is_doubted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
