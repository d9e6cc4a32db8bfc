/* What goes to a child and comes back survives the way there and back. */
#include "check.h"

#include "json/json_child.h"

static void a_question_comes_back_as_it_was_asked(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    static const char BYTES[] = "id,side\n\"b,1\",ma\xc3\xa7\xc3\xa3\n";
    const FarmBuffer tables[] = {
        {.file = "beds.csv", .bytes = BYTES, .length = sizeof BYTES - 1},
        {.file = "farm.csv", .bytes = "", .length = 0},
    };
    ChildQuestion asked = {.kind = CHILD_CEILING,
                           .tables = tables,
                           .table_count = 2,
                           .from = 20878,
                           .weeks = 52,
                           .seed = 7000000001,
                           .start = 3,
                           .moves = 5000000000,
                           .keep_weeks = 4,
                           .is_fish_frozen = true};
    ChildQuestion got = {0};
    assert_ok(json_child_question_read(json_child_question(&asked, &arena),
                                       &arena, &got));
    assert_int_equal(got.kind, CHILD_CEILING);
    assert_int_equal(got.table_count, 2);
    assert_string_equal(got.tables[0].file, "beds.csv");
    assert_int_equal(got.tables[0].length, sizeof BYTES - 1);
    assert_memory_equal(got.tables[0].bytes, BYTES, sizeof BYTES);
    assert_true(got.seed == 7000000001 && got.moves == 5000000000);
    assert_int_equal(got.start, 3);
    assert_int_equal(got.keep_weeks, 4);
    assert_true(got.is_fish_frozen);
    assert_false(got.is_from_plan);
}

static void a_broken_question_is_refused(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    ChildQuestion got;
    assert_err(json_child_question_read("{\"question\":", &arena, &got),
               ERR_INPUT, "not JSON");
    assert_err(json_child_question_read("{}", &arena, &got), ERR_INPUT,
               "question");
    assert_err(json_child_question_read("[1,2]", &arena, &got), ERR_INPUT,
               "question");
    ChildQuestion asked = {.weeks = 52, .moves = -1};
    assert_err(json_child_question_read(json_child_question(&asked, &arena),
                                        &arena, &got),
               ERR_INPUT, "moves from 0");
    asked = (ChildQuestion){.weeks = 4, .keep_weeks = 5};
    assert_err(json_child_question_read(json_child_question(&asked, &arena),
                                        &arena, &got),
               ERR_INPUT, "keep_weeks up to");
}

static void choices_come_back_number_by_number(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    PlanPlacement placements[] = {{11, 2, 3, 4}, {5, 6, 0, 8}};
    PlanRun runs[] = {{1, 3, 0, PLAN_NONE, 0, 78, PLAN_NONE, 63}};
    PlanCleaning cleanings[] = {{9, 17}};
    PlanSolution told = {.placements = placements,
                         .placement_count = 2,
                         .runs = runs,
                         .run_count = 1,
                         .cleanings = cleanings,
                         .cleaning_count = 1,
                         .outcome.value = 38265.125};
    PlanSolution got = {0};
    assert_ok(json_child_choices_read(json_child_choices(&told, &arena), &arena,
                                      &got));
    assert_int_equal(got.placement_count, 2);
    assert_memory_equal(got.placements, placements, sizeof placements);
    assert_memory_equal(got.runs, runs, sizeof runs);
    assert_memory_equal(got.cleanings, cleanings, sizeof cleanings);
    assert_near(got.outcome.value, 38265.125, 1e-9);
    assert_err(json_child_choices_read(
                   "{\"placements\":[[1,2]],\"runs\":[],\"cleanings\":[],"
                   "\"value\":1.0}",
                   &arena, &got),
               ERR_INPUT, "placement 0: number 2");
}

static void a_ceiling_and_its_scarce_things_come_back(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    PlanScarce scarce[] = {{"a bed of H1 south", 47, 2, 50, 31, 2.5, 41.25}};
    PlanCeiling told = {45996.5, scarce, 1, 9321, 39808};
    PlanCeiling got = {0};
    assert_ok(json_child_ceiling_read(json_child_ceiling(&told, &arena), &arena,
                                      &got));
    assert_near(got.value, 45996.5, 1e-9);
    assert_int_equal(got.scarce_count, 1);
    assert_string_equal(got.scarce[0].what, "a bed of H1 south");
    assert_int_equal(got.scarce[0].peak_week, 31);
    assert_near(got.scarce[0].total, 41.25, 1e-12);
}

static void an_error_comes_back_with_its_kind(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Err err = err_make(ERR_CONFLICT, "no plan keeps \"all\" limits");
    PlanSolution got;
    assert_err(
        json_child_choices_read(json_child_error(&err, &arena), &arena, &got),
        ERR_CONFLICT, "no plan keeps \"all\" limits");
}

static void progress_is_told_from_an_answer(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    double done_frac = 0.0;
    double value = 0.0;
    assert_true(json_child_progress_read(
        json_child_progress(0.26, -1234.5, &arena), &done_frac, &value));
    assert_near(done_frac, 0.26, 1e-12);
    assert_near(value, -1234.5, 1e-12);
    assert_false(json_child_progress_read("{\"done\":1}", &done_frac, &value));
    assert_false(json_child_progress_read("half", &done_frac, &value));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_question_comes_back_as_it_was_asked),
        cmocka_unit_test(a_broken_question_is_refused),
        cmocka_unit_test(choices_come_back_number_by_number),
        cmocka_unit_test(a_ceiling_and_its_scarce_things_come_back),
        cmocka_unit_test(an_error_comes_back_with_its_kind),
        cmocka_unit_test(progress_is_told_from_an_answer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
