/* How long fish have when something stops: what hangs on it, what is known of
 * the water, and that a worse case never lasts longer. */
#include "pond.h"

#include "sim/alarm_air.h"
#include "sim/alarm_heat.h"

#define READINGS_HEAD "tank,loop,at,quantity,value\n"
#define AT_02_10 1804039800 /* 2027-03-03T02:10Z */

typedef struct Night {
    Arena *arena;
    const Farm *farm;
    Book book;
    Hangs hangs;
    FishNow fish;
    const char *readings;
    double told[WATER_QUANTITIES];
    double meal_h;
} Night;

/* One tank of 4 m3 as told in the trade's own example: 150 fish of 290 g. */
static const Farm *tank_farm(Arena *arena, const char *readings,
                             const char *count)
{
    Faults *faults = ARENA_NEW(arena, Faults);
    faults_init(faults, arena, FAULTS_USUAL_LIMIT);
    const FarmRead *read = tables_read(
        faults,
        (const char *const[]){
            "beds.csv", POND_BEDS_CSV, "loops.csv", LOOPS_CSV, "tanks.csv",
            "id,loop,use,volume_m3\nT3,l1,grow,4\nT4,l2,grow,4\n", "pumps.csv",
            PUMPS_CSV, "zones.csv", ZONES_CSV, "aerators.csv",
            "id,tank,loop,power_w,battery_h\na1,T3,,200,10\n", "fish.csv",
            arena_text(arena,
                       "id,species,tank,counted_on,count,mean_g,cv_frac,sex\n"
                       "big,nile-tilapia,T3,2027-03-03,%s,290,0,males\n",
                       count),
            "readings.csv", readings, NULL});
    assert_string_equal(faults_text(faults), "");
    return &read->farm;
}

static void night_open(Arena *arena, const char *readings, const char *count,
                       Night *out)
{
    *out = (Night){.arena = arena, .meal_h = -1.0};
    out->farm = tank_farm(arena, readings, count);
    assert_ok(book_load(arena, &out->book));
    hangs_find(out->farm, HANGS_PUMP, 0, arena, &out->hangs);
    fish_now_counted(out->farm, out->book.alarm, pond_day(2027, 3, 3), arena,
                     &out->fish);
    for (int i = 0; i < WATER_QUANTITIES; i++) {
        out->told[i] = NAN;
    }
}

static WaterNow water_of(const Night *night)
{
    WaterAsk ask = {.farm = night->farm,
                    .alarm = night->book.alarm,
                    .tank = 0,
                    .loop = 0,
                    .at = AT_02_10,
                    .told = night->told,
                    .usual_degc = 26.0};
    return water_now(&ask);
}

static AlarmAir air_of(const Night *night)
{
    WaterNow water = water_of(night);
    AlarmAirAsk ask = {.hangs = &night->hangs,
                       .alarm = night->book.alarm,
                       .fish = &night->fish.tanks[0],
                       .water = &water,
                       .hours_since_meal = night->meal_h};
    return alarm_air(&ask);
}

#define EIGHT_HOURS_OLD                                                        \
    READINGS_HEAD "T3,,2027-03-02T18:10+00:00,oxygen_mg_l,5.8\n"               \
                  "T3,,2027-03-02T18:10+00:00,temp_degc,26\n"

/* 43.5 kg in 4 m3, fed nine hours ago, 5.8 mg/L eight hours ago: were it true
 * now 37-86 min to 3 mg/L by source; the old reading makes it 15 to 60 and
 * more, and both stand within ours. By hand: 60 x 2.8/(10.9 x 0.420) = 37. */
static void the_night_of_the_pump_is_wider_than_the_fresh_reading(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Night night;
    night_open(&arena, EIGHT_HOURS_OLD, "150", &night);
    night.meal_h = 9.0;
    AlarmAir air = air_of(&night);
    assert_near(air.kg.value, 43.5, 1e-6);
    double low_min = 60.0 * air.without.act.low_h;
    double high_min = 60.0 * air.without.act.high_h;
    assert_true(low_min > 5.0 && low_min <= 15.0);
    assert_true(high_min >= 86.0 && high_min < 300.0);
    assert_true(air.is_widened && air.has_air);
    /* Told now, without bacteria at the low end, it comes to the sum's own. */
    night.told[READ_OXYGEN] = 5.8;
    night.told[READ_TEMP] = 26.0;
    AlarmAir fresh = air_of(&night);
    assert_true(60.0 * fresh.without.act.low_h < 37.0);
    assert_true(60.0 * fresh.without.act.low_h > 20.0);
    assert_true(60.0 * fresh.without.act.high_h > 86.0);
}

static void limits_follow_each_other(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Night night;
    night_open(&arena, EIGHT_HOURS_OLD, "150", &night);
    AlarmAir air = air_of(&night);
    assert_true(air.without.act.low_h <= air.without.gasp.low_h);
    assert_true(air.without.gasp.low_h <= air.without.dying.low_h);
    assert_true(air.without.gasp.high_h <= air.without.dying.high_h);
    assert_true(air.without.act.low_h <= air.without.act.high_h);
    assert_true(air.with_air.act.low_h >= air.without.act.low_h);
    assert_true(air.with_air.dying.high_h >= air.without.dying.high_h);
}

static void more_fish_never_last_longer(void **state)
{
    (void)state;
    static const char *const COUNTS[] = {"1",   "37",  "150",
                                         "151", "400", "5000"};
    AlarmHours last = {
        {INFINITY, INFINITY}, {INFINITY, INFINITY}, {INFINITY, INFINITY}};
    for (size_t i = 0; i < sizeof COUNTS / sizeof *COUNTS; i++) {
        CLEANUP(arena_release) Arena arena = {0};
        Night night;
        night_open(&arena, EIGHT_HOURS_OLD, COUNTS[i], &night);
        AlarmHours now = air_of(&night).without;
        assert_true(now.act.low_h <= last.act.low_h);
        assert_true(now.act.high_h <= last.act.high_h);
        assert_true(now.dying.high_h <= last.dying.high_h);
        last = now;
    }
}

static void warmer_or_staler_water_never_lasts_longer(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Night night;
    night_open(&arena, READINGS_HEAD, "150", &night);
    for (int has_air = 0; has_air < 2; has_air++) {
        for (double oxygen = 9.1; oxygen > 0.0; oxygen -= 0.83) {
            AlarmSpan last = {INFINITY, INFINITY};
            for (double t = 12.3; t < 36.0; t += 0.71) {
                night.told[READ_OXYGEN] = oxygen;
                night.told[READ_TEMP] = t;
                AlarmAir air = air_of(&night);
                AlarmSpan now = has_air ? air.with_air.act : air.without.act;
                assert_true(now.low_h <= last.low_h);
                assert_true(now.high_h <= last.high_h + 1e-9);
                last = now;
            }
        }
    }
    double last_h = INFINITY;
    for (double oxygen = 12.3; oxygen > 0.0; oxygen -= 0.31) {
        night.told[READ_OXYGEN] = oxygen;
        night.told[READ_TEMP] = 25.1;
        double now_h = air_of(&night).without.act.low_h;
        assert_true(now_h <= last_h);
        last_h = now_h;
    }
    assert_near(last_h, 0.0, 0.0);
}

static void an_older_reading_is_never_narrower(void **state)
{
    (void)state;
    for (double value = 0.9; value < 12.0; value += 1.17) {
        WaterKnown last[2] = {{.low = INFINITY, .high = -INFINITY},
                              {.low = INFINITY, .high = -INFINITY}};
        for (int hour = 1; hour < 24 * 9; hour += 5) {
            CLEANUP(arena_release) Arena arena = {0};
            int64_t minute = (int64_t)24 * 60 * 9 - hour * 60 + 130;
            const char *at = arena_text(&arena, "2027-02-%02dT%02d:%02d+00:00",
                                        (int)(22 + minute / (24 * 60)),
                                        (int)(minute / 60 % 24), 10);
            if (22 + minute / (24 * 60) > 28) {
                at = arena_text(&arena, "2027-03-%02dT%02d:%02d+00:00",
                                (int)(22 + minute / (24 * 60) - 28),
                                (int)(minute / 60 % 24), 10);
            }
            Night night;
            night_open(&arena,
                       arena_text(&arena,
                                  READINGS_HEAD "T3,,%s,oxygen_mg_l,%.2f\n"
                                                "T3,,%s,temp_degc,%.2f\n",
                                  at, value, at, value + 14.0),
                       "150", &night);
            WaterNow water = water_of(&night);
            const WaterKnown *now[2] = {&water.of[READ_OXYGEN],
                                        &water.of[READ_TEMP]};
            for (int i = 0; i < 2; i++) {
                assert_int_equal(now[i]->from, WATER_READ);
                assert_near(now[i]->age_h, hour, 1e-9);
                assert_true(now[i]->low <= last[i].low);
                assert_true(now[i]->high >= last[i].high);
                last[i] = *now[i];
            }
        }
        /* Months old it holds what one would take without it. */
        assert_true(last[1].low <= 23.0 && last[1].high >= 29.0);
    }
}

static void readings_of_other_waters_and_of_later_do_not_count(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Night night;
    night_open(&arena,
               READINGS_HEAD "T4,,2027-03-03T01:00+00:00,oxygen_mg_l,2.2\n"
                             ",l1,2027-03-03T01:00+00:00,oxygen_mg_l,7.7\n"
                             ",l1,2027-03-03T01:00+00:00,ph,6.6\n"
                             "T3,,2027-03-03T03:00+00:00,temp_degc,12\n",
               "150", &night);
    WaterNow water = water_of(&night);
    assert_int_equal(water.of[READ_OXYGEN].from, WATER_ASSUMED);
    assert_near(water.of[READ_OXYGEN].low, 4.0, 0.0);
    assert_int_equal(water.of[READ_TEMP].from, WATER_USUAL);
    assert_near(water.of[READ_PH].value, 6.6, 0.0);
    assert_int_equal(water.of[READ_TAN].from, WATER_UNKNOWN);
}

static void what_hangs_follows_loops_zones_and_shares(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const Farm *farm = pond(&arena, false);
    Hangs hangs;
    hangs_find(farm, HANGS_PUMP, 0, &arena, &hangs);
    assert_int_equal(hangs_count(hangs.beds, farm->beds_count), 2);
    assert_true(hangs.tanks_flow[0] && hangs.tanks_flow[1]);
    assert_false(hangs.tanks_flow[2] || hangs.tanks_flow[3]);
    assert_true(hangs_aerator_serves(farm, 0, 0));
    assert_true(hangs_aerator_serves(farm, 0, 1));
    assert_true(hangs_aerator_serves(farm, 1, 1));
    assert_false(hangs_aerator_serves(farm, 1, 0));
    assert_near(hangs_share_frac(farm, 0), 6.0 / 9.0, 1e-12);
    assert_near(hangs_share_frac(farm, 3), 1.0, 0.0);
    hangs_find(farm, HANGS_AERATOR, 2, &arena, &hangs);
    assert_int_equal(hangs_count(hangs.beds, farm->beds_count), 0);
    assert_true(hangs.tanks_air[2] && !hangs.tanks_air[0]);
    hangs_find(farm, HANGS_POWER, -1, &arena, &hangs);
    assert_int_equal(hangs_count(hangs.aerators, farm->aerators_count), 3);
}

/* Air on a battery holds as long as it runs, then the water falls. */
static void a_battery_adds_its_hours(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Night night;
    night_open(&arena, EIGHT_HOURS_OLD, "150", &night);
    AlarmAir runs = air_of(&night);
    hangs_find(night.farm, HANGS_POWER, -1, &arena, &night.hangs);
    AlarmAir battery = air_of(&night);
    assert_true(battery.is_on_battery);
    assert_near(battery.battery_low_h, 5.0, 1e-9);
    assert_near(battery.battery_high_h, 10.0, 1e-9);
    assert_true(isinf(runs.with_air.act.high_h));
    assert_true(battery.with_air.act.high_h > 10.0);
    assert_true(battery.with_air.act.high_h < 15.0);
    assert_true(battery.with_air.act.low_h <= runs.with_air.act.low_h);
}

static AlarmHeatAsk heat_of(const Night *night)
{
    return (AlarmHeatAsk){
        .farm = night->farm,
        .alarm = night->book.alarm,
        .loop = 0,
        .tank = -1,
        .start_low_degc = 20.3,
        .start_high_degc = 21.9,
        .night_low_degc = -3.1,
        .night_high_degc = 2.7,
        .limits = alarm_cold_limits(night->book.alarm, night->fish.tanks, 2),
        .day = pond_day(2027, 6, 3),
    };
}

static void assert_later(const AlarmCold *late, const AlarmCold *soon)
{
    assert_true(late->feed.low_h >= soon->feed.low_h);
    assert_true(late->feed.high_h >= soon->feed.high_h);
    assert_true(late->lethal.low_h >= soon->lethal.low_h);
    assert_true(late->lethal.high_h >= soon->lethal.high_h);
    assert_true(soon->feed.low_h <= soon->feed.high_h);
    assert_true(soon->feed.low_h <= soon->danger.low_h);
    assert_true(soon->danger.low_h <= soon->lethal.low_h);
    assert_true(soon->danger.high_h <= soon->lethal.high_h);
}

static void beds_off_and_lids_on_keep_warm_longer(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Night night;
    night_open(&arena, READINGS_HEAD, "150", &night);
    AlarmHeatAsk ask = heat_of(&night);
    AlarmHeat heat = alarm_heat(&ask);
    assert_near(heat.water_m3, 7.0, 1e-9); /* a tank and the sump */
    assert_int_equal(heat.without_lid, 1);
    assert_later(&heat.off, &heat.on);
    assert_later(&heat.lidded, &heat.off);
    assert_true(heat.on.feed.low_h < heat.off.feed.low_h);
    assert_true(heat.loss_on_w_k > heat.loss_off_w_k);
    ask.night_low_degc = ask.night_high_degc = 23.0;
    assert_true(isinf(alarm_heat(&ask).off.feed.low_h));
    ask.night_low_degc = -12.0;
    ask.night_high_degc = -12.0;
    AlarmHeat colder = alarm_heat(&ask);
    assert_later(&heat.off, &colder.off);
}

/* By hand: 4 m3 alone, bare wall, no lid: 1.72 m across, (5 x 11.6 + 20 x 2.3)
 * W/K, 4.186e6 x 4/104/3600 = 44.6 h; from 20 to 12.5 under 0 degC, ln(20/12.5)
 * of it, 21 h. */
static void a_tank_alone_cools_as_reckoned_by_hand(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Night night;
    night_open(&arena, READINGS_HEAD, "150", &night);
    AlarmHeatAsk ask = heat_of(&night);
    Tank *tanks = arena_grow(&arena, night.farm->tanks, 2, 2, sizeof *tanks);
    tanks[0].wall = WALL_BARE;
    Farm *farm = ARENA_NEW(&arena, Farm);
    *farm = *night.farm;
    farm->tanks = tanks;
    ask.farm = farm;
    ask.loop = -1;
    ask.tank = 0;
    ask.start_low_degc = 20.0;
    ask.night_low_degc = 0.0;
    AlarmHeat heat = alarm_heat(&ask);
    assert_near(ask.limits.lethal_high_degc, 12.5, 1e-9);
    assert_near(heat.off.lethal.low_h, 21.0, 0.6);
}

static void fish_followed_hold_those_that_leave_this_week(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const Farm *farm = pond(&arena, true);
    Book book = {0};
    assert_ok(book_load(&arena, &book));
    ClimateYear climate;
    assert_ok(climate_year_run(farm, &book, &arena, &climate));
    FishNow now;
    /* In the week of Monday 12 April 33 more are to be sold from A. */
    assert_ok(fish_now_followed(farm, &book, &climate, pond_day(2027, 4, 14),
                                &arena, &now));
    FishNowKg a = fish_now_kg(&now.tanks[0]);
    assert_true(now.is_followed);
    assert_true(a.low < a.value && a.value < a.high);
    assert_true((a.value - a.low) / a.value > 33.0 / 250.0 / 2.0);
    assert_int_equal(now.tanks[3].count, 0);
    double least_g = 0.0;
    double most_g = 0.0;
    fish_now_weights(&now.tanks[0], &least_g, &most_g);
    assert_true(least_g > 100.0 && most_g > least_g);
    assert_err(fish_now_followed(farm, &book, &climate, pond_day(2030, 4, 14),
                                 &arena, &now),
               ERR_RANGE, "");
}

static void fish_that_cannot_be_read_fill_their_tank(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Night night;
    night_open(&arena, READINGS_HEAD, "150", &night);
    Fish *fish = night.farm->fish;
    fish[0].count = COUNT_WRONG;
    FishNow now;
    fish_now_counted(night.farm, night.book.alarm, pond_day(2027, 3, 3), &arena,
                     &now);
    FishNowKg kg = fish_now_kg(&now.tanks[0]);
    assert_near(kg.high, 4.0 * 25.0, 0.2);
    assert_near(kg.low, 0.0, 0.0);
    fish[0].tank = REF_WRONG;
    fish_now_counted(night.farm, night.book.alarm, pond_day(2027, 3, 3), &arena,
                     &now);
    assert_int_equal(now.unread, 1);
    assert_int_equal(now.tanks[0].count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_night_of_the_pump_is_wider_than_the_fresh_reading),
        cmocka_unit_test(limits_follow_each_other),
        cmocka_unit_test(more_fish_never_last_longer),
        cmocka_unit_test(warmer_or_staler_water_never_lasts_longer),
        cmocka_unit_test(an_older_reading_is_never_narrower),
        cmocka_unit_test(readings_of_other_waters_and_of_later_do_not_count),
        cmocka_unit_test(what_hangs_follows_loops_zones_and_shares),
        cmocka_unit_test(a_battery_adds_its_hours),
        cmocka_unit_test(beds_off_and_lids_on_keep_warm_longer),
        cmocka_unit_test(a_tank_alone_cools_as_reckoned_by_hand),
        cmocka_unit_test(fish_followed_hold_those_that_leave_this_week),
        cmocka_unit_test(fish_that_cannot_be_read_fill_their_tank),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
