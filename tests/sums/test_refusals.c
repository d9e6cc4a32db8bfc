/* What sums refuse, and what they say when they do. */
#include <stdio.h>

#include "ask.h"

static Err refusal(const char *name, const char *facts)
{
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    return ask(name, facts, &arena, &answer);
}

#define DOSE                                                                   \
    " volume_m3=33 alkalinity_mg_l=40 ph=6.4 temp_degc=25 target_ph=7.0 "

static void a_step_that_frees_too_much_ammonia_is_refused(void **state)
{
    (void)state;
    /* 25 degC, pH 6.6: share 0.00225 by Emerson's equation. 0.05/0.00225 is 22
     * mg/L; 0.02/0.00225 is 9. */
    assert_err(refusal("base-dose", "base=KHCO3" DOSE "tan_mg_l=23"), ERR_LIMIT,
               "no base now");
    assert_err(refusal("base-dose", "base=KHCO3" DOSE "tan_mg_l=10 fry=1"),
               ERR_LIMIT, "over 0.02");
    assert_ok(refusal("base-dose", "base=KHCO3" DOSE "tan_mg_l=10"));
    /* Past the limit before any dose. */
    assert_err(refusal("base-dose", "base=KHCO3" DOSE "tan_mg_l=60"), ERR_LIMIT,
               "before any dose");
}

static void later_steps_stop_where_ammonia_would_pass_the_limit(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    assert_ok(
        ask("base-dose", "base=KHCO3" DOSE "tan_mg_l=12", &arena, &answer));
    /* pH 6.8: share 0.00357, 0.043 mg/L; pH 7.0: 0.0565 x 12, over 0.05. */
    assert_near(ask_value(&answer, "pH after the last day")->value, 6.8, 1e-9);
    assert_true(ask_value(&answer, "NH3-N after the last day")->value < 0.05);
    assert_true(ask_says(&answer, "the step to pH 7.00 is refused"));
}

static void a_hydroxide_that_would_overshoot_is_refused(void **state)
{
    (void)state;
    const char *thin = " volume_m3=33 alkalinity_mg_l=30 ph=7.8 temp_degc=25 "
                       "target_ph=8.3 tan_mg_l=0";
    char facts[200];
    snprintf(facts, sizeof facts, "base=KOH%s", thin);
    assert_err(refusal("base-dose", facts), ERR_LIMIT, "overshoots");
    /* In the usual range it is allowed, and the double dose is told. */
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    assert_ok(
        ask("base-dose", "base=KOH" DOSE "tan_mg_l=0.5", &arena, &answer));
    double twice =
        ask_value(&answer, "pH if the first day's dose were weighed double")
            ->value;
    assert_true(twice > 6.6 && twice < 8.0);
}

static void doses_come_split_with_cautions_and_a_daily_step(void **state)
{
    (void)state;
    static const char *const ASKED[][2] = {
        {"base-dose", "base=KOH" DOSE "tan_mg_l=0.5"},
        {"base-dose", "base=KHCO3" DOSE "tan_mg_l=0.5"},
        {"base-swap", "from=KHCO3 to=KOH mass_g=100"},
        {"base-for-feed", "base=KOH feed_kg_d=2.7 protein_pct=32"},
    };
    for (size_t i = 0; i < sizeof ASKED / sizeof *ASKED; i++) {
        CLEANUP(arena_release) Arena arena = {0};
        SumAnswer answer;
        assert_ok(ask(ASKED[i][0], ASKED[i][1], &arena, &answer));
        assert_true(ask_says(&answer, "oggles"));
        assert_true(ask_says(&answer, "loves"));
        assert_true(ask_says(&answer, "galvanised or aluminium"));
        assert_true(ask_says(&answer, "owder into"));
        assert_true(ask_says(&answer, "0.20 pH a day"));
        assert_true(ask_says(&answer, "stop when"));
    }
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    assert_ok(
        ask("base-dose", "base=KOH" DOSE "tan_mg_l=0.5", &arena, &answer));
    double days = ask_value(&answer, "days")->value;
    double all = ask_value(&answer, "all days together, never at once")->value;
    assert_near(days, 3, 1e-9); /* 6.4 to 7.0 by 0.2 */
    assert_true(answer.main.value < all);
    assert_ok(ask("iron-dose", "volume_m3=33 target_mg_l=2 strength_pct=11",
                  &arena, &answer));
    assert_true(ask_says(&answer, "Stop when"));
    assert_err(refusal("base-dose", "base=KOH" DOSE "tan_mg_l=0 step_ph=0.5"),
               ERR_RANGE, "step_ph=0.5");
}

static void a_base_that_is_not_known_is_told_those_that_are(void **state)
{
    (void)state;
    assert_err(refusal("base-swap", "from=KOH to=soda mass_g=1"), ERR_NOT_FOUND,
               "there are KOH");
    assert_err(refusal("feed-today", "count=1 weight_g=1 temp_degc=25 "
                                     "species=salmon"),
               ERR_NOT_FOUND, "nile-tilapia");
    assert_err(refusal("air-state", "dry_degc=20 wet_degc=15 draught=gale"),
               ERR_INPUT, "aspirated");
}

static void moved_fish_heavier_than_the_heaviest_are_impossible(void **state)
{
    (void)state;
    assert_err(refusal("grade-split", "count=420 mean_g=62 cv_pct=20 "
                                      "moved_count=105 moved_mean_g=95"),
               ERR_RANGE, "are not among them");
    assert_err(refusal("grade-split", "count=420 mean_g=62 cv_pct=40 "
                                      "moved_count=500 moved_mean_g=70"),
               ERR_RANGE, "out of 420");
    assert_err(refusal("grade-split", "count=420 mean_g=62 cv_pct=40 "
                                      "cut_g=1000"),
               ERR_RANGE, "no grading");
    assert_err(refusal("grade-split", "count=420 mean_g=62 cv_pct=40"),
               ERR_USAGE, "either cut_g");
    assert_err(refusal("grade-split", "count=420 mean_g=62 cut_g=70 "
                                      "moved_count=5 moved_mean_g=90"),
               ERR_USAGE, "either cut_g");
    assert_err(refusal("grade-split", "count=420 mean_g=62 moved_count=5"),
               ERR_USAGE, "go together");
}

static void what_is_left_above_a_cut_is_few(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    assert_ok(ask("grade-split", "count=420 mean_g=62 cv_pct=40 cut_g=75",
                  &arena, &answer));
    assert_near(
        ask_value(&answer, "still over the cut among those left")->value, 0.0,
        1e-9);
    assert_ok(ask("grade-split",
                  "count=420 mean_g=62 cv_pct=40 "
                  "moved_count=105 moved_mean_g=95",
                  &arena, &answer));
    /* A fresh log-normal of their new mean and the old spread would put a
     * seventh of them, 45 of 315, over the cut. */
    assert_true(
        ask_value(&answer, "still over the cut among those left")->value < 10);
    double before_kg = 420 * 0.062;
    double after_kg = ask_value(&answer, "kilos left")->value +
                      ask_value(&answer, "kilos moved")->value;
    assert_near(after_kg, before_kg, 1e-9);
}

static void oxygen_left_widens_and_says_so_where_others_refuse(void **state)
{
    (void)state;
    static const char *const FAR[] = {
        "density_kg_m3=40 weight_g=6000 temp_degc=26 oxygen_mg_l=6",
        "density_kg_m3=40 weight_g=900 temp_degc=41 oxygen_mg_l=6",
        "density_kg_m3=40 weight_g=900 temp_degc=4 oxygen_mg_l=6",
    };
    for (size_t i = 0; i < sizeof FAR / sizeof *FAR; i++) {
        CLEANUP(arena_release) Arena arena = {0};
        SumAnswer answer;
        assert_ok(ask("oxygen-left", FAR[i], &arena, &answer));
        assert_true(ask_says(&answer, "widened, not refused"));
        assert_true(ask_says(&answer, "doubled both ways"));
        assert_true(answer.main.high > 4.0 * answer.main.low);
    }
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer inside;
    assert_ok(ask("oxygen-left",
                  "density_kg_m3=40 weight_g=100 temp_degc=26 oxygen_mg_l=6",
                  &arena, &inside));
    assert_false(ask_says(&inside, "widened"));
    assert_true(ask_says(&inside, "Keep out of the water"));
    /* At the limit already: no minutes are left. */
    assert_ok(ask("oxygen-left",
                  "density_kg_m3=40 weight_g=100 temp_degc=26 oxygen_mg_l=2",
                  &arena, &inside));
    assert_near(inside.main.high, 0.0, 1e-12);
    assert_err(refusal("unionised-ammonia", "temp_degc=51 ph=8 tan_mg_l=1"),
               ERR_RANGE, "0 to 50 degC");
}

static void where_there_is_no_finite_answer_it_says_why(void **state)
{
    (void)state;
    assert_err(refusal("top-up-limit", "chlorine_mg_l=0 volume_m3=4 "
                                       "tank_degc=20 source_degc=20.5"),
               ERR_RANGE, "neither chlorine");
    assert_err(refusal("vent-minutes", "inside_degc=12 inside_rh_pct=95 "
                                       "outside_degc=12 outside_rh_pct=97 "
                                       "air_changes_h=10"),
               ERR_RANGE, "cannot dry it");
    assert_err(refusal("infection-hours",
                       "temp_degc=31 min_degc=7 optimum_degc=18 max_degc=30 "
                       "min_wet_h=10 max_wet_h=42"),
               ERR_RANGE, "no infection");
    assert_err(refusal("infection-hours",
                       "temp_degc=20 min_degc=19 optimum_degc=18 max_degc=30 "
                       "min_wet_h=10 max_wet_h=42"),
               ERR_INPUT, "must rise");
    assert_err(refusal("days-to-weight", "from_g=50 to_g=500 temp_degc=14"),
               ERR_RANGE, "does not reach");
    assert_err(refusal("days-to-weight", "from_g=500 to_g=50 temp_degc=26"),
               ERR_RANGE, "no growth");
    assert_err(refusal("fish-for-beds", "feed_g_d=1000 temp_degc=10"),
               ERR_RANGE, "take no feed");
    assert_err(refusal("feed-conversion", "feed_kg=10 count=10 "
                                          "mean_before_g=50 mean_after_g=50"),
               ERR_RANGE, "no conversion");
    assert_err(refusal("flood-cycle", "area_m2=2 depth_m=0.25 porosity=0.4 "
                                      "flow_m3_h=0.8 drain_mm=40 sump_m3=1 "
                                      "bleed_pct=100"),
               ERR_RANGE, "never fills");
    assert_err(refusal("harvest-window", "over_ripe_on=2027-06-01 "
                                         "today=2027-06-01 units=5"),
               ERR_RANGE, "no window");
    assert_err(refusal("next-sowing", "first_pick_on=2027-05-01 "
                                      "bearing_weeks=4 overlap_weeks=4 "
                                      "days_to_first_pick=49"),
               ERR_RANGE, "never move on");
    assert_err(refusal("fry-to-keep", "sale_count=40 temp_degc=18"), ERR_RANGE,
               "do not spawn");
    assert_err(
        refusal("carbon-dioxide", "temp_degc=25 ph=5 alkalinity_mg_l=1 x=1"),
        ERR_USAGE, "no key x");
    assert_err(refusal("air-state", "dry_degc=15 wet_degc=20"), ERR_INPUT,
               "swapped");
    assert_err(refusal("air-state", "dry_degc=50 wet_degc=5"), ERR_RANGE,
               "cannot be so dry");
    assert_err(refusal("head-loss", "flow_m3_h=1 diameter_mm=25 length_m=1 "
                                    "roughness=20"),
               ERR_RANGE, "Hazen");
    assert_err(refusal("sample-weight", "weights_g=42,x,3"), ERR_INPUT,
               "\"x\" is not a weight");
    assert_err(refusal("task-hours", "tasks=12x3,5"), ERR_INPUT,
               "\"5\" is not a count");
}

static void a_sump_that_cannot_supply_is_told(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    assert_ok(ask("flood-cycle",
                  "area_m2=2.5 depth_m=0.25 porosity=0.4 flow_m3_h=6 "
                  "drain_mm=40 beds_in_step=6 sump_m3=1",
                  &arena, &answer));
    assert_near(ask_value(&answer, "left in the sump")->value, -0.5, 1e-9);
    assert_true(ask_says(&answer, "cannot supply"));
}

static void a_spray_holds_to_the_hour(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    assert_ok(ask("spray-hold",
                  "sprayed_at=2027-06-14T19:30+02:00 reentry_h=12 "
                  "harvest_days=3",
                  &arena, &answer));
    assert_true(ask_says(&answer, "not before 2027-06-17T19:30+02:00"));
    assert_true(ask_says(&answer, "enter again from 2027-06-15T07:30+02:00"));
    assert_true(ask_says(&answer, "From the label only"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_step_that_frees_too_much_ammonia_is_refused),
        cmocka_unit_test(later_steps_stop_where_ammonia_would_pass_the_limit),
        cmocka_unit_test(a_hydroxide_that_would_overshoot_is_refused),
        cmocka_unit_test(doses_come_split_with_cautions_and_a_daily_step),
        cmocka_unit_test(a_base_that_is_not_known_is_told_those_that_are),
        cmocka_unit_test(moved_fish_heavier_than_the_heaviest_are_impossible),
        cmocka_unit_test(what_is_left_above_a_cut_is_few),
        cmocka_unit_test(oxygen_left_widens_and_says_so_where_others_refuse),
        cmocka_unit_test(where_there_is_no_finite_answer_it_says_why),
        cmocka_unit_test(a_spray_holds_to_the_hour),
        cmocka_unit_test(a_sump_that_cannot_supply_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
