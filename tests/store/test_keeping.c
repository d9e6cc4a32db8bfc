/* Migrations from every earlier version, backups, restores, damage. */
#include <sqlite3.h>
#include <sys/stat.h>

#include "base/embed.h"
#include "check.h"
#include "place.h"
#include "store/store.h"

extern const EmbeddedFile MIGRATION_FILES[];
extern const size_t MIGRATION_FILES_COUNT;

enum { DAY = 20880, APPLICATION = 0x4c656174 };

static void path_in(const Place *place, const char *file, char out[800])
{
    snprintf(out, 800, "%s/%s", place->dir, file);
}

static void run(sqlite3 *db, const char *sql)
{
    char *error = NULL;
    if (sqlite3_exec(db, sql, NULL, NULL, &error) != SQLITE_OK) {
        fail_msg("%s: %s", sql, error);
    }
}

/* A database as the Leat of that version left it, with an entry in it. */
static void make_old(const Place *place, size_t version)
{
    char path[800];
    char sql[200];
    path_in(place, STORE_FILE, path);
    sqlite3 *db = NULL;
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    for (size_t i = 0; i < version; i++) {
        run(db, MIGRATION_FILES[i].bytes);
    }
    snprintf(sql, sizeof sql,
             "PRAGMA application_id = %d; PRAGMA user_version = %d",
             (int)APPLICATION, (int)version);
    run(db, sql);
    run(db, "INSERT INTO entry (uid, kind, happened_on, place, count) "
            "VALUES ('old-1', 'died', 20001, 'A', 7)");
    if (version >= 2) {
        run(db, "INSERT INTO person (name, role) VALUES ('Ana', 'owner')");
    }
    sqlite3_close(db);
}

static void every_earlier_version_is_brought_to_this_one(void **state)
{
    (void)state;
    for (size_t version = 1; version <= MIGRATION_FILES_COUNT; version++) {
        CLEANUP(arena_release) Arena arena = {0};
        Place place;
        place_make(&place);
        make_old(&place, version);
        CLEANUP(store_close) StoreDb store = {0};
        assert_ok(store_open(place.dir, STORE_READ, &store));
        StoreFilter all = store_all();
        Tolds tolds;
        assert_ok(store_read(&store, &all, &arena, &tolds));
        assert_int_equal(tolds.count, 1);
        assert_string_equal(tolds.items[0].uid, "old-1");
        assert_int_equal(tolds.items[0].count, 7);
        StorePeople people;
        assert_ok(store_people_read(&store, &arena, &people));
        assert_int_equal(people.count, version >= 2 ? 1 : 0);
        store_close(&store);
        StoreCheckpoint point = {DAY, 1, "x", 1};
        assert_ok(store_open(place.dir, STORE_WRITE, &store));
        assert_ok(store_checkpoint_write(&store, "mark", &point));
        assert_ok(store_look_through(&store));
        place_remove(&place);
    }
}

static void a_newer_or_foreign_file_is_left_alone(void **state)
{
    (void)state;
    Place place;
    place_make(&place);
    make_old(&place, MIGRATION_FILES_COUNT);
    char path[800];
    path_in(&place, STORE_FILE, path);
    sqlite3 *db = NULL;
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    run(db, "PRAGMA user_version = 99");
    StoreDb store = {0};
    assert_err(store_open(place.dir, STORE_WRITE, &store), ERR_CONFLICT,
               "newer");
    run(db, "PRAGMA user_version = 1; PRAGMA application_id = 7");
    assert_err(store_open(place.dir, STORE_WRITE, &store), ERR_INPUT,
               "not a database of Leat");
    sqlite3_close(db);
    place_remove(&place);
}

static int64_t tell(StoreDb *store, int from, int count)
{
    StoreAdded added = {0};
    for (int i = from; i < from + count; i++) {
        char uid[40];
        snprintf(uid, sizeof uid, "n-%d", i);
        Told told = told_blank(TOLD_SEEN, DAY);
        told.uid = uid;
        told.text = "a note that fills the page it is written on";
        assert_ok(store_add(store, &told, 1, &added));
    }
    return added.number;
}

static void a_backup_is_made_while_others_write_and_put_back(void **state)
{
    (void)state;
    Place place;
    place_make(&place);
    char file[800];
    char aside[1024];
    path_in(&place, "copy.db", file);
    StoreDb store = {0};
    StoreDb other = {0};
    assert_ok(store_open(place.dir, STORE_CREATE, &store));
    assert_ok(store_open(place.dir, STORE_WRITE, &other));
    tell(&store, 0, 40);
    assert_ok(store_backup(&other, file));
    int64_t count = 0;
    assert_ok(store_verify(file, &count));
    assert_int_equal(count, 40);
    assert_err(store_backup(&other, file), ERR_CONFLICT, "there already");
    tell(&store, 40, 5);
    assert_err(store_restore(place.dir, file, aside), ERR_BUSY, "open");
    store_close(&store);
    store_close(&other);
    assert_ok(store_restore(place.dir, file, aside));
    assert_non_null(strstr(aside, "old-1"));
    assert_ok(store_verify(aside, &count));
    assert_int_equal(count, 45);
    assert_ok(store_open(place.dir, STORE_WRITE, &store));
    int64_t newest = 0;
    assert_ok(store_newest(&store, &newest, &count));
    assert_int_equal(newest, 40);
    tell(&store, 40, 1);
    store_close(&store);
    place_remove(&place);
}

static void assert_private(const char *file)
{
    struct stat about = {0};
    assert_int_equal(stat(file, &about), 0);
    assert_int_equal(about.st_mode & 077, 0);
}

/* Names and hours are in them. */
static void the_database_and_its_backups_are_their_owners_alone(void **state)
{
    (void)state;
    Place place;
    place_make(&place);
    char file[800];
    char path[800];
    char log[800];
    path_in(&place, "copy.db", file);
    path_in(&place, STORE_FILE, path);
    path_in(&place, STORE_FILE "-wal", log);
    mode_t before = umask(022);
    StoreDb store = {0};
    assert_ok(store_open(place.dir, STORE_CREATE, &store));
    tell(&store, 0, 1);
    assert_ok(store_backup(&store, file));
    assert_int_equal(umask(before), 022);
    assert_private(path);
    assert_private(log);
    assert_private(file);
    store_close(&store);
    place_remove(&place);
}

static void a_damaged_file_is_told_with_the_last_good_backup(void **state)
{
    (void)state;
    Place place;
    place_make(&place);
    char file[800];
    char path[800];
    char aside[1024];
    path_in(&place, "copy.db", file);
    path_in(&place, STORE_FILE, path);
    StoreDb store = {0};
    assert_ok(store_open(place.dir, STORE_CREATE, &store));
    tell(&store, 0, 200);
    assert_ok(store_backup(&store, file));
    store_close(&store);
    FILE *bytes = fopen(path, "r+b");
    assert_non_null(bytes);
    for (long at = 4096; at < 4096 * 8; at += 512) {
        fseek(bytes, at, SEEK_SET);
        fwrite("\x5a\xa5\x5a\xa5", 1, 4, bytes);
    }
    fclose(bytes);
    assert_err(store_open(place.dir, STORE_READ, &store), ERR_IO, "copy.db");
    assert_ok(store_restore(place.dir, file, aside));
    assert_ok(store_open(place.dir, STORE_READ, &store));
    int64_t newest = 0;
    int64_t count = 0;
    assert_ok(store_newest(&store, &newest, &count));
    assert_int_equal(count, 200);
    store_close(&store);
    bytes = fopen(path, "wb");
    fputs("this is no database, whatever its name says", bytes);
    fclose(bytes);
    assert_err(store_open(place.dir, STORE_READ, &store), ERR_IO, "copy.db");
    assert_err(store_verify(path, &count), ERR_INPUT, "");
    place_remove(&place);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_earlier_version_is_brought_to_this_one),
        cmocka_unit_test(a_newer_or_foreign_file_is_left_alone),
        cmocka_unit_test(a_backup_is_made_while_others_write_and_put_back),
        cmocka_unit_test(the_database_and_its_backups_are_their_owners_alone),
        cmocka_unit_test(a_damaged_file_is_told_with_the_last_good_backup),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
