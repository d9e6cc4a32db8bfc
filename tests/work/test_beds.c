/* Beds along the walk: order, holds, history, cleaning. */
#include "small_farm.h"

#include <math.h>

#include "work/beds.h"

typedef struct Line {
    SmallFarm small;
    JobsWeek week;
    Told facts[4];
    int32_t fact_count;
    PlantStandBatch batches[3];
    PlantStand plants;
} Line;

static void line_open(Line *line, int week)
{
    *line = (Line){0};
    small_farm_open(&line->small, true);
    small_farm_foresee(&line->small, 24.0);
    line->week = small_farm_jobs(&line->small, week);
    line->plants = (PlantStand){.batches = line->batches};
}

static Beds line_on(Line *line, int day)
{
    BedsAsk ask = {.farm = line->small.farm,
                   .plants = &line->plants,
                   .weeks = &line->week,
                   .week_count = 1,
                   .facts = line->facts,
                   .fact_count = line->fact_count,
                   .day = line->week.week + day};
    Beds beds;
    beds_make(&ask, &line->small.arena, &beds);
    return beds;
}

static Told *tell(Line *line, ToldKind kind, int day)
{
    Told *told = &line->facts[line->fact_count++];
    *told = told_blank(kind, line->week.week + day);
    told->place = "t2";
    return told;
}

static void beds_stand_in_the_order_of_the_walk(void **state)
{
    (void)state;
    Line line;
    line_open(&line, 0);
    line.small.farm->beds[0].walk = 125;
    Beds beds = line_on(&line, 0);
    const int due[] = {1, 0, 2};
    assert_int_equal(beds.count, 3);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(beds.beds[i].bed, due[i]);
        assert_int_equal(beds.beds[i].plate, i + 1);
        assert_int_equal(beds.beds[i].free_sections, 4);
    }
    arena_release(&line.small.arena);
}

/* A batch in three weeks of its life. */
static void a_batch_is_told_by_its_stage(void **state)
{
    (void)state;
    Line line;
    line_open(&line, 10);
    int32_t week = line.week.week;
    line.batches[0] = (PlantStandBatch){.id = "x",
                                        .bed = 2,
                                        .standing = -1,
                                        .planned = 0,
                                        .sow_day = week - 60,
                                        .set_day = week - 30,
                                        .pick_day = week + 9,
                                        .last_day = week + 20,
                                        .clear_day = week + 24,
                                        .trouble = ""};
    line.plants.batch_count = 1;
    Beds beds = line_on(&line, 0);
    const BedBatch *batch = &beds.beds[2].now.items[0];
    assert_int_equal(batch->stage, BED_GROWING);
    assert_int_equal(batch->age_d, 30);
    assert_int_equal(batch->sections, 4);
    assert_int_equal(beds.beds[2].free_sections, 0);
    line.batches[0].pick_day = week + 3;
    assert_int_equal(line_on(&line, 0).beds[2].now.items[0].stage, BED_SOON);
    line.batches[0].pick_day = week - 1;
    assert_int_equal(line_on(&line, 0).beds[2].now.items[0].stage, BED_PICKING);
    line.batches[0].last_day = week - 1;
    assert_int_equal(line_on(&line, 0).beds[2].now.items[0].stage, BED_OVER);
    line.batches[0].set_day = week + 4;
    beds = line_on(&line, 0);
    assert_int_equal(beds.beds[2].now.count, 0);
    assert_int_equal(beds.beds[2].next.items[0].stage, BED_IN_TRAYS);
    assert_int_equal(beds.trays.count, 1);
    assert_int_equal(beds.tray_beds[0], 2);
    arena_release(&line.small.arena);
}

static void a_sprayed_bed_is_held_for_the_labels_days(void **state)
{
    (void)state;
    Line line;
    line_open(&line, 0);
    Told *spray = tell(&line, TOLD_SPRAYED, 0);
    spray->product = "soap";
    spray->value = 3.0;
    spray->quantity = 2.0; /* of the mix: its unit is not that of the days */
    spray->unit = "L";
    Beds beds = line_on(&line, 2);
    assert_non_null(beds.beds[1].hold);
    assert_int_equal(beds.beds[1].hold_until, line.week.week + 3);
    assert_null(beds.beds[0].hold);
    assert_null(line_on(&line, 3).beds[1].hold);
    arena_release(&line.small.arena);
}

/* What is missing releases nothing: only a person does. */
static void without_its_days_a_hold_ends_when_somebody_releases_it(void **state)
{
    (void)state;
    Line line;
    line_open(&line, 0);
    tell(&line, TOLD_SPRAYED, 0)->product = "soap";
    Beds beds = line_on(&line, 6);
    assert_int_equal(beds.beds[1].hold_until, DATE_NEVER);
    assert_int_equal(beds.beds[1].history_count, 1);
    tell(&line, TOLD_CHECKED, 5)->cause = "release";
    beds = line_on(&line, 6);
    assert_null(beds.beds[1].hold);
    assert_int_equal(beds.beds[1].history_count, 2);
    assert_int_equal(beds.beds[1].history[0]->kind, TOLD_CHECKED);
    tell(&line, TOLD_SEEN, 6)->cause = "splash";
    assert_non_null(line_on(&line, 6).beds[1].hold);
    arena_release(&line.small.arena);
}

static void the_next_job_and_the_deep_clean_are_told(void **state)
{
    (void)state;
    Line line;
    line_open(&line, 11);
    Beds beds = line_on(&line, 0);
    assert_true(beds.beds[2].is_cleaning);
    assert_non_null(beds.beds[2].job);
    assert_int_equal(beds.beds[2].past.count, 1);
    assert_string_equal(beds.beds[2].past.items[0].id, "L1");
    arena_release(&line.small.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(beds_stand_in_the_order_of_the_walk),
        cmocka_unit_test(a_batch_is_told_by_its_stage),
        cmocka_unit_test(a_sprayed_bed_is_held_for_the_labels_days),
        cmocka_unit_test(
            without_its_days_a_hold_ends_when_somebody_releases_it),
        cmocka_unit_test(the_next_job_and_the_deep_clean_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
