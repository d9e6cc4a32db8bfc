/* What readings mean: the rules, each against worked cases, and that no text is
 * ever left with a hole. */
#include "check.h"

#include "../farm/tables.h"
#include "base/date.h"
#include "base/rng.h"
#include "work/judge.h"

#define LOOPS "id,sump_m3,source\nl1,3,tap\nl2,3,soft\n"
#define SOURCES                                                                \
    "id,temp_degc,ph,alkalinity_mg_l\ntap,15,7.6,210\nsoft,15,7.0,20\n"
#define TANKS                                                                  \
    "id,loop,use,volume_m3\nA,l1,grow,4\nF,l1,fry,1\nB,l2,grow,4\n"            \
    "N,l2,grow,4\n"
#define FISH                                                                   \
    "id,species,tank,counted_on,count,mean_g,cv_frac,sex\n"                    \
    "big,nile-tilapia,A,2027-03-03,150,290,0,males\n"                          \
    "fry,nile-tilapia,F,2027-03-03,900,0.4,0,mixed\n"                          \
    "mid,nile-tilapia,B,2027-03-03,150,90,0,males\n"
#define BEDS                                                                   \
    "id,walk,length_m,width_m,depth_m,flood_m,gravel\n"                        \
    "b1,1,2,1,0.3,0.2,gravel-8-20\n"

enum { TANK_A, TANK_F, TANK_B, TANK_N };

#define AT_08_00 1804060800 /* 2027-03-03T08:00Z */

typedef struct Case {
    Arena arena;
    const Farm *farm;
    Book book;
    FishNow fish;
    double told[WATER_QUANTITIES];
    Judge judge;
} Case;

static Case *case_open(const char *readings)
{
    static Case is;
    is = (Case){0};
    Faults *faults = ARENA_NEW(&is.arena, Faults);
    faults_init(faults, &is.arena, FAULTS_USUAL_LIMIT);
    const FarmRead *read = tables_read(
        faults,
        (const char *const[]){
            "beds.csv", BEDS, "sources.csv", SOURCES, "loops.csv", LOOPS,
            "tanks.csv", TANKS, "fish.csv", FISH, "readings.csv",
            readings ? readings : "tank,loop,at,quantity,value\n", NULL});
    assert_string_equal(faults_text(faults), "");
    is.farm = &read->farm;
    assert_ok(book_load(&is.arena, &is.book));
    fish_now_counted(is.farm, is.book.alarm, 20880, &is.arena, &is.fish);
    for (int i = 0; i < WATER_QUANTITIES; i++) {
        is.told[i] = NAN;
    }
    return &is;
}

static void case_close(Case **is)
{
    arena_release(&(*is)->arena);
}

static void ask(Case *is, int32_t tank)
{
    JudgeAsk asked = {.farm = is->farm,
                      .book = &is->book,
                      .fish = &is->fish,
                      .tank = tank,
                      .loop = tank < 0 ? -1 : is->farm->tanks[tank].loop,
                      .at = AT_08_00,
                      .told = is->told,
                      .usual_degc = NAN};
    judge_make(&asked, &is->arena, &is->judge);
}

/* Total 1.0 mg/L is 0.002 at pH 6.6 and 24 degC, 0.18 at pH 8.5 and 28 degC; at
 * pH 8.0 and 24 degC the factor is 0.0502 [IFAS_FA16]. */
static void ammonia_is_judged_by_its_unionised_part(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    is->told[READ_TAN] = 1.0;
    is->told[READ_TEMP] = 24.0;
    is->told[READ_PH] = 6.6;
    ask(is, TANK_A);
    assert_near(is->judge.of[JUDGE_NH3], 0.002, 5e-4);
    assert_false(judge_has(&is->judge, "nh3-stop"));
    assert_int_equal(is->judge.feed, FEED_AS_USUAL);
    is->told[READ_PH] = 8.0;
    ask(is, TANK_A);
    assert_near(is->judge.of[JUDGE_NH3], 0.0502, 1e-4);
    assert_true(judge_has(&is->judge, "nh3-stop"));
    is->told[READ_PH] = 8.5;
    is->told[READ_TEMP] = 28.0;
    ask(is, TANK_A);
    assert_near(is->judge.of[JUDGE_NH3], 0.18, 5e-3);
    assert_int_equal(is->judge.feed, FEED_NONE);
    assert_true(is->judge.change_frac > 0.7);
    assert_near(is->judge.change_today_frac, 0.3, 1e-9);
}

/* The same water: nothing for 290 g, over the caution for fry. */
static void fry_bear_less(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    is->told[READ_TAN] = 0.55;
    is->told[READ_TEMP] = 26.3;
    is->told[READ_PH] = 7.9;
    ask(is, TANK_A);
    assert_false(judge_has(&is->judge, "nh3-stop"));
    ask(is, TANK_F);
    assert_true(judge_has(&is->judge, "nh3-stop"));
    assert_near(is->judge.of[JUDGE_NH3_CAUTION], 0.02, 1e-9);
    assert_near(is->judge.fish[0].ammonia_half_mg_l, 0.40, 1e-9);
    ask(is, -1); /* the whole farm: its lightest count */
    assert_int_equal(is->judge.fish_count, 3);
    assert_true(judge_has(&is->judge, "nh3-stop"));
}

static void more_ammonia_is_never_judged_milder(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    is->told[READ_TEMP] = 25.1;
    is->told[READ_PH] = 7.7;
    JudgeFeed last = FEED_AS_USUAL;
    double last_change = 0.0;
    for (double tan = 0.0; tan < 60.0; tan += 0.37) {
        is->told[READ_TAN] = tan;
        ask(is, TANK_A);
        assert_true(is->judge.feed >= last);
        assert_true(is->judge.change_frac >= last_change);
        last = is->judge.feed;
        last_change = is->judge.change_frac;
    }
    assert_true(judge_has(&is->judge, "nh3-danger"));
}

/* A total without pH is no judgement: it asks for the pH. */
static void ammonia_without_ph_asks_for_it(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    is->told[READ_TAN] = 6.3;
    ask(is, TANK_A);
    assert_true(isnan(is->judge.of[JUDGE_NH3]));
    assert_false(judge_has(&is->judge, "nh3-stop"));
    bool asks = false;
    for (int i = 0; i < is->judge.need_count; i++) {
        asks = asks || strstr(is->judge.needs[i], "pH in the same sample");
    }
    assert_true(asks);
}

static void a_fallen_ph_is_named_as_what_stalls_nitrification(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    is->told[READ_TAN] = 1.5;
    is->told[READ_PH] = 6.0;
    is->told[READ_ALKALINITY] = 15.0;
    is->told[READ_TEMP] = 24.0;
    ask(is, TANK_B);
    assert_true(judge_has(&is->judge, "ph-stall"));
    assert_true(judge_has(&is->judge, "alkalinity-eaten"));
    assert_false(judge_has(&is->judge, "both-steps"));
    assert_int_equal(is->judge.feed, FEED_NONE);
    assert_true(judge_wants_base(&is->judge));
    /* Perlite beds: 0.24 to 0.40 of their best at pH 6 [TYSON2008]. */
    assert_true(is->judge.of[JUDGE_NITRIFY_PCT] > 23.0);
    assert_true(is->judge.of[JUDGE_NITRIFY_PCT] < 41.0);
    is->told[READ_PH] = 7.3;
    is->told[READ_NITRITE] = 0.7;
    ask(is, TANK_B);
    assert_false(judge_has(&is->judge, "ph-stall"));
    assert_true(judge_has(&is->judge, "both-steps"));
}

/* 25 degC, pH 6.8, alkalinity 50: 15.65 mg/L of carbon dioxide [TUCKER1984];
 * alkalinity 20 in air comes to pH 7.78 (worked out). */
static void readings_that_cannot_all_be_true_are_named(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    is->told[READ_TEMP] = 25.0;
    is->told[READ_PH] = 6.8;
    is->told[READ_ALKALINITY] = 50.0;
    ask(is, TANK_A);
    assert_near(is->judge.of[JUDGE_CO2], 15.65, 0.35);
    assert_false(judge_has(&is->judge, "ph-over-air"));
    is->told[READ_ALKALINITY] = 20.0;
    ask(is, TANK_A);
    assert_near(is->judge.of[JUDGE_PH_AIR], 7.78, 0.02);
    is->told[READ_PH] = 8.3;
    is->told[READ_ALKALINITY] = 5.0;
    ask(is, TANK_A);
    assert_true(judge_has(&is->judge, "ph-over-air"));
    assert_false(judge_wants_base(&is->judge)); /* in doubt: no dose */
    is->told[READ_PH] = 6.0;
    is->told[READ_ALKALINITY] = 200.0;
    ask(is, TANK_A);
    assert_true(judge_has(&is->judge, "co2-absurd"));
    assert_false(judge_has(&is->judge, "co2-stop"));
    is->told[READ_PH] = 11.0;
    is->told[READ_ALKALINITY] = 3.0;
    ask(is, TANK_A);
    assert_true(judge_has(&is->judge, "alkalinity-short"));
    is->told[READ_TEMP] = 28.0;
    is->told[READ_OXYGEN] = 18.0;
    ask(is, TANK_A);
    assert_true(judge_has(&is->judge, "oxygen-absurd"));
    is->told[READ_OXYGEN] = 7.7;
    ask(is, TANK_A);
    assert_false(judge_has(&is->judge, "oxygen-absurd"));
    assert_false(judge_has(&is->judge, "oxygen-over"));
}

static void nitrite_is_judged_with_chloride(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    is->told[READ_NITRITE] = 0.43;
    ask(is, TANK_B);
    assert_true(judge_has(&is->judge, "nitrite-stop")); /* none is known */
    is->told[READ_CHLORIDE] = 70.0;
    ask(is, TANK_B);
    assert_false(judge_has(&is->judge, "nitrite-stop"));
    assert_true(judge_has(&is->judge, "nitrite-watch"));
    /* 44.67 mg/L nitrite is 13.6 of nitrogen; a twentieth 0.68 [WANG2006]. */
    assert_near(is->judge.of[JUDGE_NITRITE_CAUTION], 0.68, 0.01);
    assert_true(judge_has(&is->judge, "nitrite-watch"));
}

static void hard_source_water_wants_no_base(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    is->told[READ_ALKALINITY] = 120.0;
    is->told[READ_PH] = 7.2;
    ask(is, TANK_A);
    assert_true(judge_has(&is->judge, "hard-source"));
    ask(is, TANK_B);
    assert_false(judge_has(&is->judge, "hard-source"));
}

#define HEAD "tank,loop,at,quantity,value\n"

static void old_readings_are_not_taken_and_fresh_ones_are_told(void **state)
{
    (void)state;
    CLEANUP(case_close)
    Case *is = case_open(HEAD "A,,2027-03-03T02:00+00:00,ph,8.6\n"
                              "A,,2027-02-25T02:00+00:00,temp_degc,11\n"
                              ",l1,2027-03-01T02:00+00:00,chloride_mg_l,80\n"
                              ",l1,2027-01-01T02:00+00:00,alkalinity_mg_l,9\n");
    is->told[READ_TAN] = 1.1;
    ask(is, TANK_A);
    assert_near(is->judge.of[JUDGE_PH], 8.6, 0.0);
    assert_near(is->judge.of[JUDGE_CHLORIDE], 80.0, 0.0);
    assert_true(isnan(is->judge.of[JUDGE_ALKALINITY]));
    assert_true(is->judge.is_temp_assumed);
    assert_int_equal(is->judge.taken_count, 2);
    /* No temperature: the warm end, 30 degC, so as not to be too mild. */
    assert_true(is->judge.of[JUDGE_NH3] > 0.24);
    assert_false(judge_has(&is->judge, "cold-stop"));
}

/* "T3 is 7 degrees colder than others": heater or flow, before any feed. */
static void a_tank_apart_from_its_loop_is_not_fed_before_a_look(void **state)
{
    (void)state;
    CLEANUP(case_close)
    Case *is = case_open(HEAD "F,,2027-03-03T06:00+00:00,temp_degc,26\n");
    is->told[READ_TEMP] = 19.0;
    ask(is, TANK_A);
    assert_near(is->judge.of[JUDGE_TEMP_APART], 7.0, 1e-9);
    assert_true(judge_has(&is->judge, "temp-apart"));
    assert_int_equal(is->judge.feed, FEED_NONE);
    is->told[READ_TEMP] = 24.0;
    ask(is, TANK_A);
    assert_false(judge_has(&is->judge, "temp-apart"));
    is->told[READ_TEMP] = 19.0;
    ask(is, TANK_F); /* seven degrees since six o'clock */
    assert_true(judge_has(&is->judge, "temp-jump"));
}

static void cold_and_hot_water_stop_feed(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    static const struct {
        double temp_degc;
        const char *rule;
    } CASES[] = {
        {12.0, "cold-danger"}, {14.3, "cold-stop"}, {36.1, "heat-stop"}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        is->told[READ_TEMP] = CASES[i].temp_degc;
        ask(is, TANK_A);
        assert_true(judge_has(&is->judge, CASES[i].rule));
        assert_int_equal(is->judge.feed, FEED_NONE);
        ask(is, TANK_N); /* no fish */
        assert_false(judge_has(&is->judge, CASES[i].rule));
    }
    is->told[READ_TEMP] = 26.0;
    ask(is, TANK_A);
    assert_int_equal(is->judge.finding_count, 0);
}

static void large_fish_want_more_oxygen_for_a_full_meal(void **state)
{
    (void)state;
    CLEANUP(case_close) Case *is = case_open(NULL);
    is->told[READ_TEMP] = 27.0;
    is->told[READ_OXYGEN] = 4.1;
    ask(is, -1);
    const JudgeFish *big = &is->judge.fish[0];
    const JudgeFish *fry = &is->judge.fish[1];
    assert_near(big->full_feed_mg_l, 5.5, 0.11); /* [TRANDUY2012] */
    assert_near(fry->full_feed_mg_l, 3.0, 0.11);
    assert_true(big->eats_high_frac < fry->eats_high_frac);
    assert_true(judge_has(&is->judge, "oxygen-watch"));
}

/* Whatever is read, nothing breaks and no text has a hole; every rule is
 * reached by something. */
static void
any_readings_give_whole_texts_and_every_rule_is_reached(void **state)
{
    (void)state;
    static const double MOST[WATER_QUANTITIES] = {
        45.0, 40.0, 12.0, 60.0, 30.0, 900.0, 300.0, 400.0, 4.0};
    enum { ROUNDS = 6000, RULES_MOST = 64 };
    bool reached[RULES_MOST] = {0};
    Rng rng = rng_make(71, 5);
    CLEANUP(case_close)
    Case *is = case_open(HEAD "F,,2027-03-03T06:00+00:00,temp_degc,26\n");
    for (int round = 0; round < ROUNDS; round++) {
        for (int q = 0; q < WATER_QUANTITIES; q++) {
            double least = q == READ_PH ? 3.0 : 0.0;
            double part = rng_f64(&rng);
            bool is_told = rng_f64(&rng) < 0.7;
            part = rng_f64(&rng) < 0.4 ? part * part * part : part;
            is->told[q] =
                is_told ? least + part * (MOST[q] - least) : (double)NAN;
        }
        CLEANUP(arena_release) Arena scratch = {0};
        JudgeAsk asked = {.farm = is->farm,
                          .book = &is->book,
                          .fish = &is->fish,
                          .tank = round % 5 - 1,
                          .at = AT_08_00,
                          .told = is->told,
                          .usual_degc = round % 2 ? 21.0 : (double)NAN};
        asked.loop = asked.tank < 0 ? -1 : is->farm->tanks[asked.tank].loop;
        Judge judge;
        judge_make(&asked, &scratch, &judge);
        for (int i = 0; i < judge.finding_count; i++) {
            const JudgeFinding *finding = &judge.findings[i];
            reached[finding->rule - JUDGE_RULES] = true;
            assert_null(strstr(finding->means, "nan"));
            assert_null(strpbrk(finding->means, "{}"));
            assert_null(strstr(finding->means, " ? "));
            assert_true(i == 0 || judge.findings[i - 1].rule->class <=
                                      finding->rule->class);
        }
        assert_true(judge.change_today_frac <= judge.change_frac);
    }
    for (const JudgeRule *rule = JUDGE_RULES; rule->id; rule++) {
        if (!reached[rule - JUDGE_RULES]) {
            print_error("never reached: %s\n", rule->id);
        }
        assert_true(reached[rule - JUDGE_RULES]);
    }
}

/* A rule's limits stand in the book, every limit of the book is used, and what
 * says it better is a rule. */
static void rules_and_limits_belong_together(void **state)
{
    (void)state;
    static const char *const BY_CODE[] = {"stale-fast", "stale-slow",
                                          "change-most", "air-co2"};
    CLEANUP(arena_release) Arena arena = {0};
    Book book = {0};
    assert_ok(book_load(&arena, &book));
    for (int32_t i = 0; i < book.limits_count; i++) {
        const char *id = book.limits[i].id;
        bool is_used = false;
        for (size_t k = 0; k < sizeof BY_CODE / sizeof *BY_CODE; k++) {
            is_used = is_used || strcmp(BY_CODE[k], id) == 0;
        }
        for (const JudgeRule *rule = JUDGE_RULES; rule->id; rule++) {
            for (int t = 0; t < JUDGE_TESTS; t++) {
                const char *limit = rule->tests[t].limit;
                assert_true(!limit || book_limit(&book, limit));
                is_used = is_used || (limit && strcmp(limit, id) == 0);
            }
        }
        if (!is_used) {
            print_error("used by no rule: %s\n", id);
        }
        assert_true(is_used);
    }
    for (const JudgeRule *rule = JUDGE_RULES; rule->id; rule++) {
        bool is_there = !rule->unless;
        for (const JudgeRule *other = JUDGE_RULES; other->id; other++) {
            is_there = is_there || strcmp(other->id, rule->unless) == 0;
            assert_true(other == rule || strcmp(other->id, rule->id) != 0);
        }
        assert_true(is_there);
        assert_true(rule->feed != FEED_NONE || rule->again);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ammonia_is_judged_by_its_unionised_part),
        cmocka_unit_test(fry_bear_less),
        cmocka_unit_test(more_ammonia_is_never_judged_milder),
        cmocka_unit_test(ammonia_without_ph_asks_for_it),
        cmocka_unit_test(a_fallen_ph_is_named_as_what_stalls_nitrification),
        cmocka_unit_test(readings_that_cannot_all_be_true_are_named),
        cmocka_unit_test(nitrite_is_judged_with_chloride),
        cmocka_unit_test(hard_source_water_wants_no_base),
        cmocka_unit_test(old_readings_are_not_taken_and_fresh_ones_are_told),
        cmocka_unit_test(a_tank_apart_from_its_loop_is_not_fed_before_a_look),
        cmocka_unit_test(cold_and_hot_water_stop_feed),
        cmocka_unit_test(large_fish_want_more_oxygen_for_a_full_meal),
        cmocka_unit_test(
            any_readings_give_whole_texts_and_every_rule_is_reached),
        cmocka_unit_test(rules_and_limits_belong_together),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
