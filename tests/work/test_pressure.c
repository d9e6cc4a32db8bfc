/* Moulds' pressure from seven days of air made up by hand. */
#include <string.h>

#include "work/pressure.h"

#include "check.h"

typedef struct Weather {
    double day_degc, night_degc;
    int wet_from, wet_until; /* hours of the day, through midnight where from
                                is later */
    double wet_rh_frac;
    int rise, set;
} Weather;

static bool is_between(int hour, int from, int until)
{
    return from <= until ? hour >= from && hour < until
                         : hour >= from || hour < until;
}

static void fill(const Weather *w, PressureAir *out)
{
    for (int i = 0; i < PRESSURE_HOURS; i++) {
        int hour = i % 24;
        bool is_dark = !is_between(hour, w->rise, w->set);
        bool is_wet = is_between(hour, w->wet_from, w->wet_until);
        out[i] =
            (PressureAir){.air_degc = is_dark ? w->night_degc : w->day_degc,
                          .rh_frac = is_wet ? w->wet_rh_frac : 0.7,
                          .is_wet = is_wet,
                          .is_dark = is_dark};
    }
}

static void press(const Weather *w, Pressure out[MOULD_COUNT])
{
    PressureAir air[PRESSURE_HOURS];
    fill(w, air);
    pressure_of_week(air, out);
}

static void damp_cool_mornings_press_on_lettuce(void **state)
{
    (void)state;
    Pressure is[MOULD_COUNT];
    Weather w = {14.2, 7.8, 23, 11, 0.93, 7, 18};
    press(&w, is);
    assert_int_equal(is[MOULD_DOWNY_LETTUCE].level, PRESSURE_HIGH);
    assert_near(is[MOULD_DOWNY_LETTUCE].count, 7, 1e-12);
    w.wet_until = 9; /* three hours from six on */
    press(&w, is);
    assert_int_equal(is[MOULD_DOWNY_LETTUCE].level, PRESSURE_NONE);
    w.wet_until = 11;
    w.day_degc = 22.6; /* too warm once the sun is up */
    press(&w, is);
    assert_int_equal(is[MOULD_DOWNY_LETTUCE].level, PRESSURE_NONE);
}

static void long_wet_nights_press_on_cucumbers(void **state)
{
    (void)state;
    Pressure is[MOULD_COUNT];
    Weather w = {24.0, 15.3, 22, 6, 0.94, 6, 20};
    press(&w, is); /* 8 h at 15.3 */
    assert_int_equal(is[MOULD_DOWNY_CUCURBIT].level, PRESSURE_HIGH);
    w.wet_from = 1; /* 5 h: 6 are needed */
    press(&w, is);
    assert_int_equal(is[MOULD_DOWNY_CUCURBIT].level, PRESSURE_NONE);
    w.night_degc = 26.2; /* too warm whatever the wetness */
    w.wet_from = 21;
    press(&w, is);
    assert_int_equal(is[MOULD_DOWNY_CUCURBIT].level, PRESSURE_NONE);
}

static void basil_mildew_is_high_where_it_bears_too(void **state)
{
    (void)state;
    Pressure is[MOULD_COUNT];
    Weather w = {21.0, 16.1, 0, 5, 0.96, 6, 20};
    press(&w, is); /* five wet hours: it takes hold, but bears nothing */
    assert_int_equal(is[MOULD_DOWNY_BASIL].level, PRESSURE_SOME);
    w.wet_from = 21;
    press(&w, is); /* eight, in the dark, over 95 % */
    assert_int_equal(is[MOULD_DOWNY_BASIL].level, PRESSURE_HIGH);
    w.wet_rh_frac = 0.93;
    press(&w, is);
    assert_int_equal(is[MOULD_DOWNY_BASIL].level, PRESSURE_SOME);
    w.night_degc = 8.4;
    press(&w, is);
    assert_int_equal(is[MOULD_DOWNY_BASIL].level, PRESSURE_NONE);
}

static void grey_mould_wants_wet_leaves_and_mild_nights(void **state)
{
    (void)state;
    Pressure is[MOULD_COUNT];
    Weather w = {17.0, 10.4, 0, 9, 0.93, 7, 18};
    press(&w, is);
    assert_int_equal(is[MOULD_GREY].level, PRESSURE_HIGH);
    assert_near(is[MOULD_GREY].count, 9, 1e-9);
    w.night_degc = 5.2;
    press(&w, is);
    assert_int_equal(is[MOULD_GREY].level, PRESSURE_SOME);
    w.wet_until = 6;
    press(&w, is);
    assert_int_equal(is[MOULD_GREY].level, PRESSURE_NONE);
}

static void powdery_mildew_goes_by_warmth_alone(void **state)
{
    (void)state;
    Pressure is[MOULD_COUNT];
    Weather w = {25.0, 25.0, 0, 0, 0.5, 6, 20};
    press(&w, is);
    assert_near(is[MOULD_POWDERY].count, 1.0, 1e-9);
    assert_int_equal(is[MOULD_POWDERY].level, PRESSURE_HIGH);
    w.day_degc = w.night_degc = 9.4;
    press(&w, is);
    assert_int_equal(is[MOULD_POWDERY].level, PRESSURE_NONE);
}

static void words_name_what_is_counted(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Pressure mornings = {PRESSURE_HIGH, 5};
    assert_string_equal(pressure_text(MOULD_DOWNY_LETTUCE, &mornings, &arena),
                        "high: 5 mornings in 7 days");
    Pressure pace = {PRESSURE_SOME, 0.314};
    assert_string_equal(pressure_text(MOULD_POWDERY, &pace, &arena),
                        "some: 31 % of its best pace");
    for (int m = 0; m < MOULD_COUNT; m++) {
        assert_true(strlen(mould_rule((Mould)m)) > 40);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(damp_cool_mornings_press_on_lettuce),
        cmocka_unit_test(long_wet_nights_press_on_cucumbers),
        cmocka_unit_test(basil_mildew_is_high_where_it_bears_too),
        cmocka_unit_test(grey_mould_wants_wet_leaves_and_mild_nights),
        cmocka_unit_test(powdery_mildew_goes_by_warmth_alone),
        cmocka_unit_test(words_name_what_is_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
