/* The round: order of the walk, feed by the water as read, what is held, what
 * may be one fault. */
#include "small_farm.h"

#include <math.h>
#include <stdio.h>

#include "work/round.h"

enum { FACTS_MAX = 8 };

typedef struct Walk {
    SmallFarm small;
    JobsWeek week;
    Told facts[FACTS_MAX];
    int32_t fact_count;
    Pump pump;
    Zone zone;
    Tolds hold_facts;
} Walk;

/* The small farm at 26 degC, one pump for all its beds. */
static void walk_open(Walk *walk, int week)
{
    *walk = (Walk){0};
    small_farm_open(&walk->small, true);
    small_farm_foresee(&walk->small, 26.0);
    Farm *farm = walk->small.farm;
    walk->pump = (Pump){.id = "lift", .loop = 0, .flow_m3_h = 9.0};
    walk->zone = (Zone){.id = "all", .loop = 0, .pump = 0, .turn = 1};
    farm->pumps = &walk->pump;
    farm->pumps_count = 1;
    farm->zones = &walk->zone;
    farm->zones_count = 1;
    for (int32_t b = 0; b < farm->beds_count; b++) {
        farm->beds[b].zone = 0;
    }
    walk->week = small_farm_jobs(&walk->small, week);
}

static Told *walk_tell(Walk *walk, ToldKind kind, const char *place)
{
    Told *fact = &walk->facts[walk->fact_count++];
    *fact = told_blank(kind, walk->week.week);
    fact->number = 100 + walk->fact_count;
    fact->place = place;
    return fact;
}

static void walk_read(Walk *walk, const char *tank, double degc)
{
    Told *fact = walk_tell(walk, TOLD_READ, tank);
    fact->quantity_key = "temp_degc";
    fact->value = degc;
}

static Round walk_on(Walk *walk, int day)
{
    RoundAsk ask = {.farm = walk->small.farm,
                    .book = &walk->small.book,
                    .outlook = &walk->small.outlook,
                    .week = &walk->week,
                    .before = day > 0 ? &walk->week : NULL,
                    .facts = walk->facts,
                    .fact_count = walk->fact_count,
                    .hold_facts = walk->hold_facts,
                    .day = walk->week.week + day};
    Round round = {0};
    assert_ok(round_make(&ask, &walk->small.arena, &round));
    return round;
}

static const RoundItem *item_of(const Round *round, const char *id)
{
    for (int32_t s = 0; s < round->stop_count; s++) {
        for (int32_t i = 0; i < round->stops[s].item_count; i++) {
            if (strcmp(round->stops[s].items[i].id, id) == 0) {
                return &round->stops[s].items[i];
            }
        }
    }
    fail_msg("no item %s", id);
    return NULL;
}

static void the_eyes_come_first_in_the_farms_own_order(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 10);
    Round round = walk_on(&walk, 1);
    const char *const eyes[] = {"tanks-water", "sump-water", "tubs",
                                "tunnel-T"};
    assert_int_equal(round_taps(&round), 4);
    for (int i = 0; i < 4; i++) {
        assert_string_equal(round.stops[i].id, eyes[i]);
        assert_false(round.stops[i].is_hands);
    }
    bool is_past_picks = false;
    for (int32_t s = 4; s < round.stop_count; s++) {
        assert_true(round.stops[s].is_hands);
        bool is_pick = strncmp(round.stops[s].id, "pick-", 5) == 0;
        assert_false(is_pick && is_past_picks);
        is_past_picks |= !is_pick;
    }
    assert_true(round.stop_count > 5);
    arena_release(&walk.small.arena);
}

static void feed_is_the_jobs_feed_while_nothing_is_told(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 0);
    Round round = walk_on(&walk, 3);
    double sum = 0.0;
    const char *const tanks[] = {"A", "E"};
    for (int i = 0; i < 2; i++) {
        const Job *job = small_find(&walk.week, JOB_FEED, tanks[i], 3);
        const Job *before = small_find(&walk.week, JOB_FEED, tanks[i], 2);
        char id[16];
        snprintf(id, sizeof id, "feed-%s", tanks[i]);
        const RoundItem *feed = item_of(&round, id);
        assert_near(feed->value.amount, job->amount, 0.5);
        assert_near(feed->value.yesterday, before->amount, 1e-9);
        assert_false(feed->value.is_yesterday_told);
        assert_string_equal(feed->job->id, job->id);
        assert_int_equal(feed->fact_count, 1);
        assert_near(feed->facts[0].grams, feed->value.amount, 1e-9);
        sum += feed->value.amount;
    }
    assert_near(round.feed_g, sum, 1e-9);
    assert_near(round.loops[0].given_g, sum, 1e-9);
    assert_true(isnan(round.loops[0].wanted_g));
    arena_release(&walk.small.arena);
}

static void a_cold_tank_is_not_fed_until_seen_then_a_third(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 0);
    Round before = walk_on(&walk, 0);
    double usual = item_of(&before, "feed-A")->value.amount;
    walk_read(&walk, "E", 26.2);
    walk_read(&walk, "A", 19.0);
    Round round = walk_on(&walk, 0);
    const RoundItem *feed = item_of(&round, "feed-A");
    assert_non_null(feed->hold);
    assert_non_null(strstr(feed->hold, "7 degrees colder"));
    assert_near(feed->value.amount, 0.0, 1e-12);
    assert_near(feed->then_amount, usual / 3.0, 0.01 * usual);
    assert_non_null(strstr(feed->detail, "one third"));
    assert_int_equal(feed->fact_count, 0);
    assert_int_equal(round.suspect_count, 1);
    assert_non_null(strstr(round.suspects[0].text, "Tank A: 7 degrees colder"));
    assert_null(item_of(&round, "feed-E")->hold);

    walk_tell(&walk, TOLD_SEEN, "A");
    round = walk_on(&walk, 0);
    feed = item_of(&round, "feed-A");
    assert_null(feed->hold);
    assert_near(feed->value.amount, usual / 3.0, 0.01 * usual);
    assert_int_equal(feed->fact_count, 1);
    arena_release(&walk.small.arena);
}

/* Looked at before it was read: that was another look. */
static void a_look_before_the_reading_does_not_release_it(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 0);
    walk_tell(&walk, TOLD_SEEN, "A");
    walk_read(&walk, "E", 25.7);
    walk_read(&walk, "A", 19.0);
    Round round = walk_on(&walk, 0);
    assert_non_null(item_of(&round, "feed-A")->hold);
    walk_read(&walk, "A", 25.4);
    round = walk_on(&walk, 0);
    assert_null(item_of(&round, "feed-A")->hold);
    assert_int_equal(round.suspect_count, 0);
    arena_release(&walk.small.arena);
}

/* A loop that is cold as a whole has no tank out of line: it is fed by what it
 * reads. */
static void a_cold_loop_is_fed_less_and_not_held(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 0);
    Round before = walk_on(&walk, 0);
    double usual = item_of(&before, "feed-A")->value.amount;
    walk_read(&walk, "E", 19.4);
    walk_read(&walk, "A", 19.0);
    Round round = walk_on(&walk, 0);
    const RoundItem *feed = item_of(&round, "feed-A");
    assert_null(feed->hold);
    assert_near(feed->value.amount, usual / 3.0, 0.01 * usual);
    arena_release(&walk.small.arena);
}

static void the_dead_are_fed_no_more(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 0);
    Round round = walk_on(&walk, 0);
    double usual = item_of(&round, "feed-A")->value.amount;
    walk_tell(&walk, TOLD_DIED, "A")->count = 40;
    round = walk_on(&walk, 0);
    const RoundItem *feed = item_of(&round, "feed-A");
    const double share = 1.0 - 40.0 / (400.0 * 0.985);
    assert_near(feed->value.amount, share * usual, 1.0);
    assert_non_null(strstr(feed->detail, "354 fish"));
    assert_int_equal(item_of(&round, "dead-A")->told_count, 1);
    assert_int_equal(round.told_count, 1);
    arena_release(&walk.small.arena);
}

static void a_cold_tank_and_a_full_bed_may_be_one_pump(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 0);
    walk_read(&walk, "E", 26.0);
    walk_read(&walk, "A", 19.0);
    walk_tell(&walk, TOLD_SEEN, "t2")->cause = "not-draining";
    Round round = walk_on(&walk, 0);
    assert_int_equal(round.suspect_count, 3);
    assert_string_equal(round.suspects[0].text,
                        "Tank A and bed t2 hang on lift: maybe one fault. "
                        "Look at the pump first.");
    assert_string_equal(round.suspects[0].pump, "lift");
    assert_non_null(strstr(round.suspects[2].text, "does not drain (lift)"));
    /* Pests hang on no pump. */
    walk.facts[2].cause = "pest";
    round = walk_on(&walk, 0);
    assert_int_equal(round.suspect_count, 2);
    assert_null(round.suspects[1].pump);
    arena_release(&walk.small.arena);
}

static void what_was_told_yesterday_stands_beside_today(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 0);
    walk_tell(&walk, TOLD_FED, "A")->grams = 311.5;
    walk_tell(&walk, TOLD_FED, "A")->grams = 200.0;
    Round round = walk_on(&walk, 1);
    const RoundItem *feed = item_of(&round, "feed-A");
    assert_near(feed->value.yesterday, 511.5, 1e-9);
    assert_true(feed->value.is_yesterday_told);
    assert_int_equal(feed->told_count, 0);
    assert_int_equal(round.told_count, 0);
    arena_release(&walk.small.arena);
}

static void as_usual_makes_up_no_number(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 6);
    walk_tell(&walk, TOLD_AS_USUAL, "")->stop = "tanks-water";
    Round round = walk_on(&walk, 0);
    assert_true(round.stops[0].is_as_usual);
    assert_false(round.stops[1].is_as_usual);
    for (int day = 0; day < 7; day++) {
        round = walk_on(&walk, day);
        for (int32_t s = 0; s < round.stop_count; s++) {
            for (int32_t i = 0; i < round.stops[s].item_count; i++) {
                const RoundItem *item = &round.stops[s].items[i];
                bool is_own = item->kind == ROUND_READ ||
                              item->kind == ROUND_LOOK ||
                              (item->job && item->job->kind == JOB_GRADE);
                assert_false(is_own && item->fact_count > 0);
                for (int32_t f = 0; f < item->fact_count; f++) {
                    assert_ok(told_check_alone(&item->facts[f]));
                }
            }
        }
    }
    arena_release(&walk.small.arena);
}

static void a_bed_on_hold_is_not_picked(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 10);
    Told spray = told_blank(TOLD_SPRAYED, walk.week.week - 2);
    spray.place = "t3";
    spray.product = "soap";
    Round round = walk_on(&walk, 0);
    int32_t before = 0;
    int32_t after = 0;
    for (int pass = 0; pass < 2; pass++) {
        walk.hold_facts = (Tolds){&spray, pass};
        round = walk_on(&walk, 0);
        for (int32_t s = 0; s < round.stop_count; s++) {
            for (int32_t i = 0; i < round.stops[s].item_count; i++) {
                const RoundItem *item = &round.stops[s].items[i];
                for (int32_t f = 0; f < item->fact_count; f++) {
                    bool is_it = item->facts[f].kind == TOLD_PICKED &&
                                 strcmp(item->facts[f].place, "t3") == 0;
                    *(pass ? &after : &before) += is_it;
                }
                if (pass && item->kind == ROUND_PICK && item->hold) {
                    assert_non_null(strstr(item->hold, "somebody releases"));
                }
            }
        }
    }
    assert_true(before > 0);
    assert_int_equal(after, 0);
    arena_release(&walk.small.arena);
}

/* Lettuce does not come up over 30 degC and does not recover. */
static void a_hot_bench_is_said_before_the_seed_is_spent(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 0);
    Nursery bench = {.id = "bench", .tunnel = -1};
    walk.small.farm->nursery = &bench;
    walk.small.farm->nursery_count = 1;
    const Job *sow = small_find(&walk.week, JOB_SOW, "lettuce", -1);
    assert_non_null(sow);
    int day = (int)(sow->day - walk.week.week);
    Round round = walk_on(&walk, day);
    assert_null(strstr(item_of(&round, sow->id)->warning, "bench"));
    Told *read = walk_tell(&walk, TOLD_READ, "bench");
    read->happened_on = sow->day;
    read->quantity_key = "temp_degc";
    read->value = 31.0;
    round = walk_on(&walk, day);
    assert_non_null(
        strstr(item_of(&round, sow->id)->warning, "The bench was 31 degC"));
    read->value = 19.0;
    round = walk_on(&walk, day);
    assert_null(strstr(item_of(&round, sow->id)->warning, "bench"));
    arena_release(&walk.small.arena);
}

/* Both entries stand and add up; nothing is merged away. */
static void two_pickers_of_one_bed_add_up(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 10);
    Round round = walk_on(&walk, 1);
    const RoundItem *pick = NULL;
    for (int32_t s = 0; s < round.stop_count && !pick; s++) {
        for (int32_t i = 0; i < round.stops[s].item_count && !pick; i++) {
            const RoundItem *item = &round.stops[s].items[i];
            pick =
                item->kind == ROUND_PICK && item->fact_count > 0 ? item : NULL;
        }
    }
    assert_non_null(pick);
    assert_true(isnan(pick->value.told));
    for (int p = 0; p < 2; p++) {
        Told *told = walk_tell(&walk, TOLD_PICKED, pick->facts[0].place);
        told->happened_on = walk.week.week + 1;
        told->way = pick->facts[0].way;
        told->quantity = 7.0 + p;
    }
    const char *id = pick->id;
    round = walk_on(&walk, 1);
    assert_near(item_of(&round, id)->value.told, 15.0, 1e-9);
    assert_int_equal(item_of(&round, id)->told_count, 2);
    arena_release(&walk.small.arena);
}

static void a_scoop_is_told_where_the_feed_has_one(void **state)
{
    (void)state;
    Walk walk;
    walk_open(&walk, 0);
    Feed feed = {
        .id = "grower", .from_g = 60.0, .to_g = 9000.0, .scoop_g = 160.0};
    walk.small.farm->feeds = &feed;
    walk.small.farm->feeds_count = 1;
    Round round = walk_on(&walk, 0);
    const RoundItem *item = item_of(&round, "feed-A");
    const char *scoops = arena_text(
        &walk.small.arena, "(%s scoops each)",
        job_number(item->value.amount / 3.0 / 160.0, &walk.small.arena));
    assert_non_null(strstr(item->text, scoops));
    arena_release(&walk.small.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_eyes_come_first_in_the_farms_own_order),
        cmocka_unit_test(feed_is_the_jobs_feed_while_nothing_is_told),
        cmocka_unit_test(a_cold_tank_is_not_fed_until_seen_then_a_third),
        cmocka_unit_test(a_look_before_the_reading_does_not_release_it),
        cmocka_unit_test(a_cold_loop_is_fed_less_and_not_held),
        cmocka_unit_test(the_dead_are_fed_no_more),
        cmocka_unit_test(a_cold_tank_and_a_full_bed_may_be_one_pump),
        cmocka_unit_test(what_was_told_yesterday_stands_beside_today),
        cmocka_unit_test(as_usual_makes_up_no_number),
        cmocka_unit_test(a_bed_on_hold_is_not_picked),
        cmocka_unit_test(a_hot_bench_is_said_before_the_seed_is_spent),
        cmocka_unit_test(two_pickers_of_one_bed_add_up),
        cmocka_unit_test(a_scoop_is_told_where_the_feed_has_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
