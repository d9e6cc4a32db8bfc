/* A farm's folder: files written whole, new folders, size limits. */
#include "place.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "desk/check_farm.h"
#include "desk/farm_folder.h"
#include "desk/new_farm.h"

static void a_file_is_written_whole_and_read_back(void **state)
{
    const char *path = *state;
    CLEANUP(arena_release) Arena arena = {0};
    FarmBuffer back = {0};
    assert_ok(farm_folder_write_file(path, "loops.csv", "id\nl1\n", 6));
    assert_ok(farm_folder_write_file(path, "loops.csv", "id\n", 3));
    assert_ok(farm_folder_read_file(path, "loops.csv", 100, &arena, &back));
    assert_int_equal(back.length, 3);
    assert_string_equal(back.bytes, "id\n");
    assert_err(farm_folder_read_file(path, "loops.csv", 2, &arena, &back),
               ERR_LIMIT, "loops.csv");
    assert_err(farm_folder_read_file(path, "none.csv", 2, &arena, &back),
               ERR_NOT_FOUND, "none.csv");
}

static void a_failed_write_leaves_the_old_file_and_no_other(void **state)
{
    const char *path = *state;
    CLEANUP(arena_release) Arena arena = {0};
    const char *blocked = arena_text(&arena, "%s/beds.csv", path);
    assert_int_equal(mkdir(blocked, 0777), 0);
    const char *inside = arena_text(&arena, "%s/in", blocked);
    assert_int_equal(mkdir(inside, 0777), 0);
    assert_err(farm_folder_write_file(path, "beds.csv", "id\n", 3), ERR_IO,
               "beds.csv cannot be written");
    assert_int_equal(rmdir(inside), 0);
    assert_int_equal(rmdir(blocked), 0);
    /* The folder is empty again: no temporary file was left. */
    assert_int_equal(rmdir(path), 0);
    assert_int_equal(mkdir(path, 0777), 0);
    assert_err(farm_folder_write_file("/nowhere/at/all", "a.csv", "", 0),
               ERR_NOT_FOUND, "/nowhere/at/all");
}

static void only_an_empty_folder_is_made_into_a_farm(void **state)
{
    const char *path = *state;
    assert_ok(farm_folder_make(path));
    assert_ok(farm_folder_write_file(path, "a", "", 0));
    assert_err(farm_folder_make(path), ERR_CONFLICT, "holds a");
    assert_err(farm_folder_make("/nowhere/at/all"), ERR_IO, "cannot be made");
    assert_err(farm_folder_make("/dev/null"), ERR_INPUT, "is not a folder");
}

static void a_sound_farm_is_loaded_and_a_faulty_one_refused(void **state)
{
    const char *path = *state;
    CLEANUP(arena_release) Arena arena = {0};
    const Farm *farm = NULL;
    assert_ok(new_farm(path, false, &arena));
    assert_ok(check_farm_load(path, &arena, &farm));
    assert_int_equal(farm->beds_count, 64);
    assert_int_equal(farm->fish_count, 4);
    assert_ok(farm_folder_write_file(path, "loops.csv", "id\n", 3));
    assert_err(check_farm_load(path, &arena, &farm), ERR_INPUT, "faults");
}

static void tables_are_written_together_and_named_in_the_package(void **state)
{
    const char *path = *state;
    CLEANUP(arena_release) Arena arena = {0};
    assert_ok(new_farm(path, false, &arena));
    const Farm *farm = NULL;
    assert_ok(check_farm_load(path, &arena, &farm));
    Farm changed = *farm;
    Loop loops[2] = {farm->loops[0], farm->loops[1]};
    loops[1].name = "renamed, once";
    changed.loops = loops;
    const TableId tables[] = {TABLE_loops, TABLE_plan};
    assert_ok(farm_folder_write_tables(path, &changed, tables, 2, &arena));
    const Farm *back = NULL;
    assert_ok(check_farm_load(path, &arena, &back));
    assert_string_equal(back->loops[1].name, "renamed, once");
    assert_int_equal(back->beds_count, 64);
    FarmBuffer package = {0};
    assert_ok(farm_folder_read_file(path, FARM_PACKAGE_FILE, 1000000, &arena,
                                    &package));
    assert_non_null(strstr(package.bytes, "\"path\": \"plan.csv\""));
    assert_non_null(strstr(package.bytes, "\"path\": \"beds.csv\""));
    assert_null(strstr(package.bytes, "plan_moves.csv"));
    assert_non_null(strstr(package.bytes, "\"name\": \"withy-reach\""));
}

/* A table that cannot take its place leaves no half-written files. */
static void a_failed_write_of_tables_leaves_nothing_beside(void **state)
{
    const char *path = *state;
    CLEANUP(arena_release) Arena arena = {0};
    const char *blocked = arena_text(&arena, "%s/plan.csv", path);
    assert_int_equal(mkdir(blocked, 0777), 0);
    Farm farm = {0};
    const TableId tables[] = {TABLE_plan};
    assert_err(farm_folder_write_tables(path, &farm, tables, 1, &arena), ERR_IO,
               "plan.csv cannot be written");
    assert_int_equal(rmdir(blocked), 0);
    assert_int_equal(rmdir(path), 0);
    assert_int_equal(mkdir(path, 0777), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_file_is_written_whole_and_read_back,
                                        make_place, remove_place),
        cmocka_unit_test_setup_teardown(
            a_failed_write_leaves_the_old_file_and_no_other, make_place,
            remove_place),
        cmocka_unit_test_setup_teardown(
            only_an_empty_folder_is_made_into_a_farm, make_place, remove_place),
        cmocka_unit_test_setup_teardown(
            a_sound_farm_is_loaded_and_a_faulty_one_refused, make_place,
            remove_place),
        cmocka_unit_test_setup_teardown(
            tables_are_written_together_and_named_in_the_package, make_place,
            remove_place),
        cmocka_unit_test_setup_teardown(
            a_failed_write_of_tables_leaves_nothing_beside, make_place,
            remove_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
