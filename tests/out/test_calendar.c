/* Calendar files: read back by the standard's own rules of text. */
#include "check.h"

#include <libical/ical.h>

#include "base/date.h"
#include "out/calendar.h"

static const char LONG_TEXT[] =
    "Goggles, gloves; powder into water, never water onto powder.\n"
    "Half now, half tomorrow: \"stop\" if ammonia is up \\ pH over 7.2. "
    "Folha de manjeric\xc3\xa3o, 12,5 g.";

static CalendarEntry entry_of(const char *uid, int32_t day)
{
    return (CalendarEntry){.uid = uid,
                           .day = day,
                           .summary = "Pick basil, 17 bunches",
                           .description = LONG_TEXT,
                           .location = "H1-03",
                           .minutes = 23.4};
}

static int32_t leap_day(void)
{
    return date_from_civil((CivilDate){2028, 2, 29});
}

static void an_entry_reads_back_whole(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CalendarEntry entry =
        entry_of("withy-reach.pick.b12.2028-02-29", leap_day());
    CalendarFile file = {0};
    assert_ok(calendar_write("Withy Reach", leap_day() - 3, &entry, 1, &arena,
                             &file));
    icalcomponent *calendar = icalparser_parse_string(file.bytes);
    assert_non_null(calendar);
    assert_int_equal(icalcomponent_count_errors(calendar), 0);
    assert_int_equal(
        icalcomponent_count_components(calendar, ICAL_VEVENT_COMPONENT), 1);
    icalcomponent *event =
        icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT);
    assert_string_equal(icalcomponent_get_uid(event), entry.uid);
    assert_string_equal(icalcomponent_get_summary(event),
                        "Pick basil, 17 bunches (24 min)");
    assert_string_equal(icalcomponent_get_description(event), LONG_TEXT);
    assert_string_equal(icalcomponent_get_location(event), "H1-03");
    icaltimetype start = icalcomponent_get_dtstart(event);
    icaltimetype end = icalcomponent_get_dtend(event);
    assert_true(start.is_date);
    assert_int_equal(start.month * 100 + start.day, 229);
    assert_int_equal(end.month * 100 + end.day, 301);
    icalcomponent_free(calendar);
}

/* RFC 5545 section 3.1: lines end with CR LF and hold at most 75 bytes; a fold
 * must not cut a letter in two for a reader that unfolds by characters. */
static void lines_keep_the_standards_length_and_ends(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CalendarEntry entry = entry_of("a", leap_day());
    CalendarFile file = {0};
    assert_ok(calendar_write("Farm", leap_day(), &entry, 1, &arena, &file));
    assert_int_equal(strlen(file.bytes), file.length);
    size_t from = 0;
    for (size_t i = 0; i < file.length; i++) {
        if (file.bytes[i] == '\n') {
            assert_true(i > 0 && file.bytes[i - 1] == '\r');
            assert_true(i - 1 - from <= 75);
            from = i + 1;
        }
    }
    assert_int_equal(from, file.length);
    assert_non_null(strstr(file.bytes, "DTSTART;VALUE=DATE:20280229\r\n"));
    assert_non_null(strstr(file.bytes, "DTSTAMP:20280229T000000Z\r\n"));
    assert_non_null(strstr(file.bytes, "NAME:Farm\r\n"));
}

static void the_same_entries_give_the_same_bytes(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CalendarEntry entries[2] = {entry_of("a", 20001), entry_of("b", 20002)};
    CalendarFile first = {0};
    CalendarFile second = {0};
    assert_ok(calendar_write("Farm", 20000, entries, 2, &arena, &first));
    assert_ok(calendar_write("Farm", 20000, entries, 2, &arena, &second));
    assert_string_equal(first.bytes, second.bytes);
}

static void an_empty_week_is_a_calendar_too(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CalendarFile file = {0};
    assert_ok(calendar_write("Farm", 20000, NULL, 0, &arena, &file));
    assert_non_null(strstr(file.bytes, "END:VCALENDAR"));
    assert_null(strstr(file.bytes, "VEVENT"));
}

static void one_id_twice_and_no_id_are_refused(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CalendarFile file = {0};
    CalendarEntry entries[3] = {entry_of("a", 20001), entry_of("b", 20001),
                                entry_of("a", 20002)};
    assert_err(calendar_write("Farm", 20000, entries, 3, &arena, &file),
               ERR_INPUT, "the id a");
    entries[2].uid = "";
    assert_err(calendar_write("Farm", 20000, entries, 3, &arena, &file),
               ERR_INPUT, "no id");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_entry_reads_back_whole),
        cmocka_unit_test(lines_keep_the_standards_length_and_ends),
        cmocka_unit_test(the_same_entries_give_the_same_bytes),
        cmocka_unit_test(an_empty_week_is_a_calendar_too),
        cmocka_unit_test(one_id_twice_and_no_id_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
