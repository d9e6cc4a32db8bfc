/* Locks on a farm's folder: one who changes it, readers who see all or nothing.
 */
#include "place.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "desk/farm_folder.h"
#include "desk/folder_lock.h"

enum { CHANGES = 60 };

static void only_one_changes_a_folder_and_the_other_is_told_who(void **state)
{
    const char *path = *state;
    CLEANUP(arena_release) Arena arena = {0};
    FolderLock mine = {0};
    FolderLock other = {0};
    assert_ok(folder_lock_open(path, &mine));
    const char *who = arena_text(&arena, "process %ld", (long)getpid());
    assert_err(folder_lock_open(path, &other), ERR_BUSY, who);
    assert_false(other.is_held);
    folder_lock_close(&mine);
    assert_ok(folder_lock_open(path, &other));
    folder_lock_close(&other);
    folder_lock_close(&other);
}

static void what_a_killed_process_held_is_free(void **state)
{
    const char *path = *state;
    int ready[2];
    assert_int_equal(pipe(ready), 0);
    pid_t child = fork();
    if (child == 0) {
        FolderLock held = {0};
        Err err = folder_lock_open(path, &held);
        char byte = (char)err.kind;
        if (write(ready[1], &byte, 1) == 1) {
            pause();
        }
        _exit(0);
    }
    char byte = 1;
    assert_int_equal(read(ready[0], &byte, 1), 1);
    assert_int_equal(byte, ERR_OK);
    FolderLock lock = {0};
    assert_err(folder_lock_open(path, &lock), ERR_BUSY, path);
    kill(child, SIGKILL);
    waitpid(child, NULL, 0);
    assert_ok(folder_lock_open(path, &lock));
    folder_lock_close(&lock);
    close(ready[0]);
    close(ready[1]);
}

static void what_stands_in_an_old_lock_file_does_no_harm(void **state)
{
    const char *path = *state;
    FolderLock lock = {0};
    FolderLock other = {0};
    assert_ok(
        farm_folder_write_file(path, FOLDER_LOCK_FILE, "\x1b[2Jnonsense", 12));
    assert_ok(folder_lock_open(path, &lock));
    assert_err(folder_lock_open(path, &other), ERR_BUSY, "process");
    folder_lock_close(&lock);
}

static void a_folder_that_cannot_be_locked_is_told(void **state)
{
    const char *path = *state;
    CLEANUP(arena_release) Arena arena = {0};
    FolderLock lock = {0};
    const char *file = arena_text(&arena, "%s/%s", path, FOLDER_LOCK_FILE);
    assert_int_equal(mkdir(file, 0777), 0);
    assert_err(folder_lock_open(path, &lock), ERR_IO, FOLDER_LOCK_FILE);
    assert_int_equal(rmdir(file), 0);
    assert_int_equal(symlink("/etc/passwd", file), 0);
    assert_err(folder_lock_open(path, &lock), ERR_IO, FOLDER_LOCK_FILE);
    assert_err(folder_lock_open("/nowhere/at/all", &lock), ERR_NOT_FOUND,
               "no such folder");
    assert_err(folder_lock_open("/dev/null", &lock), ERR_INPUT,
               "is not a folder");
}

/* Both tables say the same number, a new one each time. */
static void change_again_and_again(const char *path)
{
    for (int i = 1; i <= CHANGES; i++) {
        Arena arena = {0};
        Store store = {.id = "cellar", .temp_degc = 4, .room_kg = i};
        Tray tray = {.id = "t72", .cells = i, .room_frac = 1.0};
        Farm farm = {.stores = &store,
                     .stores_count = 1,
                     .trays = &tray,
                     .trays_count = 1};
        const TableId tables[] = {TABLE_stores, TABLE_trays};
        Err err = farm_folder_write_tables(path, &farm, tables, 2, &arena);
        arena_release(&arena);
        if (err.kind != ERR_OK) {
            _exit(1);
        }
    }
    _exit(0);
}

static void a_reader_sees_all_tables_old_or_all_new(void **state)
{
    const char *path = *state;
    pid_t writer = fork();
    if (writer == 0) {
        change_again_and_again(path);
    }
    int seen = 0;
    int status = 0;
    while (waitpid(writer, &status, WNOHANG) == 0) {
        CLEANUP(arena_release) Arena arena = {0};
        Faults faults;
        faults_init(&faults, &arena, 10);
        FarmRead *read = ARENA_NEW(&arena, FarmRead);
        assert_ok(farm_folder_read(path, &faults, read));
        assert_int_equal(read->farm.stores_count, read->farm.trays_count);
        if (read->farm.stores_count == 1) {
            assert_near(read->farm.stores[0].room_kg, read->farm.trays[0].cells,
                        1e-9);
            seen++;
        }
    }
    assert_int_equal(status, 0);
    assert_true(seen > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(
            only_one_changes_a_folder_and_the_other_is_told_who, make_place,
            remove_place),
        cmocka_unit_test_setup_teardown(what_a_killed_process_held_is_free,
                                        make_place, remove_place),
        cmocka_unit_test_setup_teardown(
            what_stands_in_an_old_lock_file_does_no_harm, make_place,
            remove_place),
        cmocka_unit_test_setup_teardown(a_folder_that_cannot_be_locked_is_told,
                                        make_place, remove_place),
        cmocka_unit_test_setup_teardown(a_reader_sees_all_tables_old_or_all_new,
                                        make_place, remove_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
