/* The store: what was told is given back, exactly once, and struck, not lost.
 */
#include "store/store.h"

#include <sqlite3.h>

#include "base/date.h"
#include "check.h"
#include "place.h"

enum { DAY = 20880 }; /* 2027-03-03 */

typedef struct Bench {
    Place place;
    StoreDb store;
    Arena arena;
} Bench;

static int set_up(void **state)
{
    Bench *bench = calloc(1, sizeof *bench);
    place_make(&bench->place);
    Err err = store_open(bench->place.dir, STORE_CREATE, &bench->store);
    *state = bench;
    return err.kind == ERR_OK ? 0 : -1;
}

static int tear_down(void **state)
{
    Bench *bench = *state;
    store_close(&bench->store);
    place_remove(&bench->place);
    arena_release(&bench->arena);
    free(bench);
    return 0;
}

static Told note(const char *uid, const char *text)
{
    Told told = told_blank(TOLD_SEEN, DAY);
    told.uid = uid;
    told.text = text;
    return told;
}

static void every_field_comes_back_as_it_was_told(void **state)
{
    Bench *bench = *state;
    Told told = told_blank(TOLD_SOLD, DAY);
    told.uid = "phone-1";
    told.place = "A";
    told.batch = "june-fry";
    told.count = 37;
    told.mean_g = 483.25;
    told.grams = 17880.5;
    told.happened_at = 431;
    told.told_at = 1804063260;
    told.told_on = DAY + 1;
    told.who = "Ana";
    told.minutes = 12.5;
    told.text = "two gills pale";
    StoreAdded added;
    assert_ok(store_add(&bench->store, &told, 1, &added));
    assert_true(added.is_new);
    StoreFilter all = store_all();
    Tolds back;
    assert_ok(store_read(&bench->store, &all, &bench->arena, &back));
    assert_int_equal(back.count, 1);
    told.number = added.number;
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        ToldFieldId id = (ToldFieldId)i;
        assert_string_equal(told_text(&back.items[0], id, &bench->arena),
                            told_text(&told, id, &bench->arena));
    }
    assert_true(told_is_late(&back.items[0]));
}

static void columns_are_the_fields_of_an_entry(void **state)
{
    Bench *bench = *state;
    sqlite3_stmt *stmt = NULL;
    assert_int_equal(
        sqlite3_prepare_v2(bench->store.db,
                           "SELECT name FROM pragma_table_info('entry')", -1,
                           &stmt, NULL),
        SQLITE_OK);
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        assert_int_equal(sqlite3_step(stmt), SQLITE_ROW);
        assert_string_equal((const char *)sqlite3_column_text(stmt, 0),
                            TOLD_FIELD_TABLE[i].name);
    }
    assert_int_equal(sqlite3_step(stmt), SQLITE_DONE);
    sqlite3_finalize(stmt);
}

static void an_entry_told_twice_is_kept_once(void **state)
{
    Bench *bench = *state;
    Told told[2] = {note("a", "rain"), note("b", "hail")};
    StoreAdded first[2];
    StoreAdded again[2];
    assert_ok(store_add(&bench->store, told, 2, first));
    assert_ok(store_add(&bench->store, told, 2, again));
    assert_int_equal(again[1].number, first[1].number);
    assert_false(again[0].is_new);
    int64_t newest = 0;
    int64_t count = 0;
    assert_ok(store_newest(&bench->store, &newest, &count));
    assert_int_equal(count, 2);
}

static void all_of_a_telling_is_added_or_nothing(void **state)
{
    Bench *bench = *state;
    Told told[2] = {note("a", "rain"), told_blank(TOLD_STRUCK, DAY)};
    told[1].text = "slip";
    told[1].strikes = 99;
    StoreAdded added[2];
    assert_err(store_add(&bench->store, told, 2, added), ERR_NOT_FOUND, "99");
    told[1] = told_blank(TOLD_DIED, DAY);
    assert_err(store_add(&bench->store, told, 2, added), ERR_INPUT, "place");
    StoreFilter all = store_all();
    Tolds back;
    assert_ok(store_read(&bench->store, &all, &bench->arena, &back));
    assert_int_equal(back.count, 0);
}

static void what_is_struck_stays_readable_with_its_reason(void **state)
{
    Bench *bench = *state;
    Told told = note("a", "rain");
    StoreAdded added;
    assert_ok(store_add(&bench->store, &told, 1, &added));
    Told strike = told_blank(TOLD_STRUCK, DAY + 2);
    strike.strikes = added.number;
    strike.text = "it was dew";
    strike.who = "Bo";
    StoreAdded struck;
    assert_ok(store_add(&bench->store, &strike, 1, &struck));
    StoreFilter filter = store_all();
    filter.is_told_order = true;
    Tolds back;
    assert_ok(store_read(&bench->store, &filter, &bench->arena, &back));
    assert_int_equal(back.count, 2);
    assert_int_equal(back.items[0].struck_by, struck.number);
    assert_string_equal(back.items[0].text, "rain");
    assert_string_equal(back.items[0].struck_why, "it was dew");
    assert_string_equal(back.items[0].struck_who, "Bo");
    filter.without_struck = true;
    assert_ok(store_read(&bench->store, &filter, &bench->arena, &back));
    assert_int_equal(back.count, 1);
    strike.strikes = struck.number;
    assert_err(store_add(&bench->store, &strike, 1, &struck), ERR_CONFLICT,
               "strikes");
}

static void a_filter_takes_what_it_names_newest_first(void **state)
{
    Bench *bench = *state;
    Told told[4];
    for (int i = 0; i < 4; i++) {
        told[i] = told_blank(TOLD_DIED, DAY + i);
        told[i].place = i == 2 ? "B" : "A";
        told[i].count = i;
        told[i].who = i == 3 ? "Bo" : "Ana";
    }
    told[0].kind = TOLD_MOVED;
    told[0].to_place = "B";
    StoreAdded added[4];
    assert_ok(store_add(&bench->store, told, 4, added));
    StoreFilter filter = store_all();
    Tolds back;
    filter.place = "B";
    assert_ok(store_read(&bench->store, &filter, &bench->arena, &back));
    assert_int_equal(back.count, 2);
    assert_int_equal(back.items[0].count, 2);
    filter = store_all();
    filter.kinds = UINT64_C(1) << TOLD_DIED;
    filter.limit = 2;
    assert_ok(store_read(&bench->store, &filter, &bench->arena, &back));
    assert_int_equal(back.count, 2);
    assert_int_equal(back.items[0].happened_on, DAY + 3);
    filter.kinds |= UINT64_C(1) << TOLD_MOVED;
    filter.limit = 0;
    filter.who = "Ana";
    filter.until = DAY + 1;
    assert_ok(store_read(&bench->store, &filter, &bench->arena, &back));
    assert_int_equal(back.count, 2);
    told[0] = told_blank(TOLD_DELIVERED, DAY);
    told[0].buyer = "hotel";
    told[0].lot = "lot-7";
    StoreAdded delivered;
    assert_ok(store_add(&bench->store, told, 1, &delivered));
    filter = store_all();
    filter.lot = "lot-7";
    filter.limit = 5;
    assert_ok(store_read(&bench->store, &filter, &bench->arena, &back));
    assert_int_equal(back.count, 1);
    assert_string_equal(back.items[0].buyer, "hotel");
    filter = store_all();
    filter.before = added[2].number;
    filter.after = added[0].number;
    assert_ok(store_read(&bench->store, &filter, &bench->arena, &back));
    assert_int_equal(back.count, 1);
    assert_int_equal(back.items[0].number, added[1].number);
}

static void an_entry_told_late_drops_the_checkpoints_after_its_day(void **state)
{
    Bench *bench = *state;
    Told told = note("a", "rain");
    StoreAdded added;
    assert_ok(store_add(&bench->store, &told, 1, &added));
    for (int i = 0; i < 3; i++) {
        StoreCheckpoint point = {DAY + 10 * i, added.number, "state", 5};
        assert_ok(store_checkpoint_write(&bench->store, "mark", &point));
    }
    StoreCheckpoint got;
    assert_ok(store_checkpoint_read(&bench->store, DAY + 400, "mark",
                                    &bench->arena, &got));
    assert_int_equal(got.day, DAY + 20);
    assert_memory_equal(got.bytes, "state", 5);
    Told late = note("b", "hail");
    late.happened_on = DAY + 10;
    assert_ok(store_add(&bench->store, &late, 1, &added));
    assert_ok(store_checkpoint_read(&bench->store, DAY + 400, "mark",
                                    &bench->arena, &got));
    assert_int_equal(got.day, DAY);
    assert_ok(store_checkpoint_read(&bench->store, DAY + 400, "other",
                                    &bench->arena, &got));
    assert_int_equal(got.day, DATE_ALWAYS);
}

static void a_checkpoint_that_misses_an_entry_is_not_kept(void **state)
{
    Bench *bench = *state;
    Told told[2] = {note("a", "rain"), note("b", "hail")};
    StoreAdded added[2];
    assert_ok(store_add(&bench->store, told, 2, added));
    StoreCheckpoint point = {DAY, added[0].number, "state", 5};
    assert_ok(store_checkpoint_write(&bench->store, "mark", &point));
    StoreCheckpoint got;
    assert_ok(
        store_checkpoint_read(&bench->store, DAY, "mark", &bench->arena, &got));
    assert_int_equal(got.day, DATE_ALWAYS);
    Told strike = told_blank(TOLD_STRUCK, DAY + 5);
    strike.strikes = added[0].number;
    strike.text = "slip";
    assert_ok(store_add(&bench->store, &strike, 1, added));
    point.number = added[0].number - 1;
    assert_ok(store_checkpoint_write(&bench->store, "mark", &point));
    assert_ok(
        store_checkpoint_read(&bench->store, DAY, "mark", &bench->arena, &got));
    assert_int_equal(got.day, DATE_ALWAYS);
}

static void people_and_sessions_are_kept_and_ended(void **state)
{
    Bench *bench = *state;
    StorePerson ana = {.name = "Ana", .role = "grower", .hash = "$argon2id$x"};
    int64_t id = 0;
    assert_ok(store_people_put(&bench->store, &ana, &id));
    int64_t other = 0;
    assert_err(store_people_put(&bench->store, &ana, &other), ERR_CONFLICT,
               "UNIQUE");
    ana.id = id;
    ana.language = "pt";
    assert_ok(store_people_put(&bench->store, &ana, &other));
    StorePerson found;
    assert_ok(store_people_find(&bench->store, "Ana", &bench->arena, &found));
    assert_string_equal(found.language, "pt");
    StoreSession session = {.token_hash = "beef",
                            .person = id,
                            .made_at = 100,
                            .seen_at = 100,
                            .ends_at = 200};
    assert_ok(store_session_put(&bench->store, &session));
    StoreSession got;
    assert_ok(
        store_session_find(&bench->store, "beef", 199, &bench->arena, &got));
    assert_int_equal(got.person, id);
    assert_err(
        store_session_find(&bench->store, "beef", 200, &bench->arena, &got),
        ERR_NOT_FOUND, "log in");
    Told told = note("a", "rain");
    told.who = "Ana";
    StoreAdded added;
    assert_ok(store_add(&bench->store, &told, 1, &added));
    int64_t entries = 0;
    assert_ok(store_people_erase(&bench->store, "Ana", "somebody", &entries));
    assert_int_equal(entries, 1);
    assert_err(store_people_find(&bench->store, "Ana", &bench->arena, &found),
               ERR_NOT_FOUND, "Ana");
    assert_err(
        store_session_find(&bench->store, "beef", 150, &bench->arena, &got),
        ERR_NOT_FOUND, "log in");
}

static void blobs_are_kept_whole(void **state)
{
    Bench *bench = *state;
    static const char SHA[] =
        "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";
    StoreBlob blob = {SHA, "image/jpeg", "\xff\xd8\0x", 4};
    assert_ok(store_blob_put(&bench->store, &blob));
    assert_ok(store_blob_put(&bench->store, &blob));
    StoreBlob got;
    assert_ok(store_blob_find(&bench->store, SHA, &bench->arena, &got));
    assert_int_equal(got.length, 4);
    assert_memory_equal(got.bytes, blob.bytes, 4);
    blob.sha256 = "../x";
    assert_err(store_blob_put(&bench->store, &blob), ERR_INPUT, "64");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
#define BENCH_TEST(name)                                                       \
    cmocka_unit_test_setup_teardown(name, set_up, tear_down)
        BENCH_TEST(every_field_comes_back_as_it_was_told),
        BENCH_TEST(columns_are_the_fields_of_an_entry),
        BENCH_TEST(an_entry_told_twice_is_kept_once),
        BENCH_TEST(all_of_a_telling_is_added_or_nothing),
        BENCH_TEST(what_is_struck_stays_readable_with_its_reason),
        BENCH_TEST(a_filter_takes_what_it_names_newest_first),
        BENCH_TEST(an_entry_told_late_drops_the_checkpoints_after_its_day),
        BENCH_TEST(a_checkpoint_that_misses_an_entry_is_not_kept),
        BENCH_TEST(people_and_sessions_are_kept_and_ended),
        BENCH_TEST(blobs_are_kept_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
