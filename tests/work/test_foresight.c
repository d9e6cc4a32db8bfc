/* The weeks to come of a small farm: what adds up, and what does not depend on
 * the day from which it is looked at. */
#include "small_farm.h"

#include "sim/plant_rule.h"
#include "work/foresight.h"

enum { WEEKS = 24 };

typedef struct Pond {
    SmallFarm small;
    ClimateYear climate;
} Pond;

static void pond_open(Pond *pond, bool has_plan)
{
    small_farm_open(&pond->small, has_plan);
    assert_ok(climate_year_run(pond->small.farm, &pond->small.book,
                               &pond->small.arena, &pond->climate));
    /* Its loop has no heater: warm springs keep the fish alive. */
    for (int k = 0; k < pond->small.farm->tanks_count; k++) {
        for (int d = 0; d < CLIMATE_DAYS; d++) {
            pond->climate.tanks[k].mean_degc[d] = 24.5;
        }
    }
}

static ForesightAsk ask_of(Pond *pond, int from, int weeks)
{
    return (ForesightAsk){.farm = pond->small.farm,
                          .book = &pond->small.book,
                          .climate = &pond->climate,
                          .first_week = small_week(from),
                          .weeks = weeks,
                          .sale_g = NAN,
                          .way = FORESIGHT_ALL};
}

static Foresight look(Pond *pond, int from, int weeks)
{
    Foresight foresight = {0};
    ForesightAsk ask = ask_of(pond, from, weeks);
    assert_ok(foresight_make(&ask, &pond->small.arena, &foresight));
    return foresight;
}

static const PlantStandBatch *batch_of(const Foresight *foresight,
                                       const char *id)
{
    for (int i = 0; i < foresight->plants.batch_count; i++) {
        if (strcmp(foresight->plants.batches[i].id, id) == 0) {
            return &foresight->plants.batches[i];
        }
    }
    return NULL;
}

static void a_way_brings_what_its_batches_bring(void **state)
{
    (void)state;
    Pond pond;
    pond_open(&pond, true);
    Foresight f = look(&pond, 0, WEEKS);
    const PlantStandBatch *a = batch_of(&f, "L1");
    const PlantStandBatch *b = batch_of(&f, "L2");
    const PlantStandUnits *way = &f.plants.ways[a->way];
    double sum = 0.0;
    for (int w = 0; w < WEEKS; w++) {
        assert_near(way->value[w], a->pick.value[w] + b->pick.value[w], 1e-9);
        double apart = (a->pick.value[w] - a->pick.low[w]) +
                       (b->pick.value[w] - b->pick.low[w]);
        /* Batches of one season lean the same way, but not wholly. */
        assert_true(way->value[w] - way->low[w] <= apart + 1e-9);
        assert_true(way->value[w] - way->low[w] >= 0.5 * apart - 1e-9);
        sum += way->value[w];
    }
    assert_true(sum > 60.0 && sum < 126.0);
    small_farm_release(&pond.small);
}

static void nothing_is_picked_outside_the_weeks_of_the_plan(void **state)
{
    (void)state;
    Pond pond;
    pond_open(&pond, true);
    Foresight f = look(&pond, 0, WEEKS);
    for (int i = 0; i < f.plants.batch_count; i++) {
        const PlantStandBatch *batch = &f.plants.batches[i];
        const PlanPlant *plan = &pond.small.farm->plan_plants[batch->planned];
        assert_true(batch->sow_day <= batch->emerge_day);
        assert_true(batch->set_day < batch->early_day);
        assert_true(batch->early_day <= batch->pick_day);
        assert_true(batch->pick_day <= batch->late_day);
        for (int w = 0; w < WEEKS; w++) {
            int32_t monday = small_week(w);
            if (monday + 6 < plan->pick_from || monday > plan->pick_until) {
                assert_near(batch->pick.high[w], 0.0, 1e-12);
            }
            if (monday >= plan->clear_on || monday + 6 < plan->set_on) {
                assert_near(batch->want_kg[w], 0.0, 1e-12);
            }
        }
    }
    small_farm_release(&pond.small);
}

/* Looked at four weeks later with nothing told, the same weeks hold the same:
 * the plan is taken as done. */
static void a_later_look_finds_the_same_weeks(void **state)
{
    (void)state;
    Pond pond;
    pond_open(&pond, true);
    enum { LATER = 8 };
    Foresight f = look(&pond, 0, WEEKS);
    Foresight g = look(&pond, LATER, WEEKS - LATER);
    for (int w = 0; w < WEEKS - LATER; w++) {
        for (int way = 0; way < pond.small.farm->ways_count; way++) {
            assert_near(g.plants.ways[way].high[w],
                        f.plants.ways[way].high[w + LATER], 1e-9);
        }
        for (int k = 0; k < pond.small.farm->tanks_count; k++) {
            assert_near(g.fish.tanks[k].count[w],
                        f.fish.tanks[k].count[w + LATER], 1e-6);
            assert_near(g.fish.tanks[k].kg[w], f.fish.tanks[k].kg[w + LATER],
                        1e-6);
        }
    }
    small_farm_release(&pond.small);
}

static void fish_by_batch_and_tank_add_up(void **state)
{
    (void)state;
    Pond pond;
    pond_open(&pond, true);
    Foresight f = look(&pond, 0, WEEKS);
    bool is_split = false;
    for (int w = 0; w < WEEKS; w++) {
        for (int b = 0; b < f.fish.batch_count; b++) {
            const FishStandBatch *batch = &f.fish.batches[b];
            double kg = 0.0;
            int places = 0;
            for (int k = 0; k < pond.small.farm->tanks_count; k++) {
                const FishStandShare *share = &batch->in_tanks[k];
                kg += share->count ? share->kg[w] : 0.0;
                places += share->count && share->count[w] > 0.5;
            }
            assert_near(kg, batch->kg[w], 1e-9);
            is_split |= places == 2;
        }
    }
    assert_true(is_split); /* the plan grades from A to B on 12 April */
    const FishStandShare *moved = &f.fish.batches[0].in_tanks[1];
    assert_near(moved->count[5], 0.0, 1e-9);
    assert_true(moved->count[6] > 50.0 && moved->count[6] < 61.0);
    assert_true(moved->cv_frac[6] < f.fish.batches[0].cv_frac[6]);
    small_farm_release(&pond.small);
}

static void the_same_crop_takes_other_days_by_season_and_place(void **state)
{
    (void)state;
    Pond pond;
    pond_open(&pond, false);
    ForesightAsk ask = ask_of(&pond, 0, 1);
    ask.way = 0;
    Foresight f = {0};
    assert_ok(foresight_make(&ask, &pond.small.arena, &f));
    assert_int_equal(f.kinds.count, 2);
    assert_string_equal(f.kinds.names[1], "T north");
    const PlantDays *south = f.days;
    const PlantDays *north = f.days + FORESIGHT_MONTHS;
    assert_true(south[3].grows && south[10].grows && north[10].grows);
    assert_true(south[10].value > south[3].value + 10); /* November, April */
    assert_true(north[10].value >= south[10].value);
    assert_true(south[3].early < south[3].value);
    assert_true(south[3].value < south[3].late);
    ask.way = 1; /* cucumber wants an edge, which the north side lacks */
    assert_ok(foresight_make(&ask, &pond.small.arena, &f));
    assert_true(f.has_place[0] && !f.has_place[1]);
    assert_false(f.days[0].grows); /* set in January */
    assert_true(f.days[4].grows);
    small_farm_release(&pond.small);
}

static void fish_are_ready_from_the_weight_that_is_sold(void **state)
{
    (void)state;
    Pond pond;
    pond_open(&pond, false);
    ForesightAsk ask = ask_of(&pond, 0, WEEKS);
    Foresight sold = look(&pond, 0, WEEKS);
    assert_near(sold.sale_g, 450.0, 1e-12);
    ask.sale_g = 217.5;
    Foresight light = {0};
    assert_ok(foresight_make(&ask, &pond.small.arena, &light));
    for (int w = 0; w < WEEKS; w++) {
        assert_true(foresight_ready_count(&light, w) >=
                    foresight_ready_count(&sold, w));
    }
    assert_true(foresight_ready_count(&light, 0) > 50.0);
    /* Breeders are kept: their twenty are never counted. */
    assert_true(foresight_ready_count(&sold, 0) < 1.0);
    small_farm_release(&pond.small);
}

static void what_lies_before_the_tables_is_refused(void **state)
{
    (void)state;
    Pond pond;
    pond_open(&pond, true);
    Foresight f;
    ForesightAsk ask = ask_of(&pond, -1, 4);
    assert_err(foresight_make(&ask, &pond.small.arena, &f), ERR_RANGE,
               "2027-03-01");
    ask = ask_of(&pond, 0, 0);
    assert_err(foresight_make(&ask, &pond.small.arena, &f), ERR_RANGE, "not 0");
    ask = ask_of(&pond, 0, 105);
    assert_err(foresight_make(&ask, &pond.small.arena, &f), ERR_RANGE,
               "not 105");
    small_farm_release(&pond.small);
}

static void months_and_weeks_are_means_of_their_days(void **state)
{
    (void)state;
    double days[CLIMATE_DAYS];
    for (int d = 0; d < CLIMATE_DAYS; d++) {
        days[d] = d;
    }
    assert_near(foresight_month_mean(days, 1), 15.0, 1e-12);
    assert_near(foresight_month_mean(days, 12), 349.0, 1e-12);
    assert_int_equal(foresight_month_days(2), 28);
    /* 2027-03-01 is the 60th day of its year. */
    assert_near(foresight_week_mean(days, small_week(0)), 62.0, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_way_brings_what_its_batches_bring),
        cmocka_unit_test(nothing_is_picked_outside_the_weeks_of_the_plan),
        cmocka_unit_test(a_later_look_finds_the_same_weeks),
        cmocka_unit_test(fish_by_batch_and_tank_add_up),
        cmocka_unit_test(the_same_crop_takes_other_days_by_season_and_place),
        cmocka_unit_test(fish_are_ready_from_the_weight_that_is_sold),
        cmocka_unit_test(what_lies_before_the_tables_is_refused),
        cmocka_unit_test(months_and_weeks_are_means_of_their_days),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
