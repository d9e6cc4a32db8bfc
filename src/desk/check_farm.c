/* Check a farm: all that is wrong in its folder, at once. */
#include "desk/check_farm.h"

#include "desk/farm_folder.h"
#include "farm/check.h"
#include "json/datapackage.h"

enum { PACKAGE_MAX_BYTES = 4 * 1024 * 1024 };

/* A folder without a package is taken to be of the present format. */
static void check_package(const char *path, Faults *faults)
{
    FarmBuffer bytes = {0};
    int format = 0;
    Err err = farm_folder_read_file(path, FARM_PACKAGE_FILE, PACKAGE_MAX_BYTES,
                                    faults->arena, &bytes);
    FaultPlace place = {.file = FARM_PACKAGE_FILE};
    if (err.kind == ERR_NOT_FOUND) {
        faults_notice(faults, place, "",
                      "not there; the tables are taken to be of format %d",
                      DATAPACKAGE_FORMAT);
        return;
    }
    if (err.kind == ERR_OK) {
        err = datapackage_read_format(bytes.bytes, bytes.length, &format);
    }
    if (err.kind != ERR_OK) {
        faults_add(faults, place, "", "%s", err.text);
    } else if (format != DATAPACKAGE_FORMAT) {
        faults_add(faults, place, "", "leat_format %d, not %d",
                   DATAPACKAGE_FORMAT, format);
    }
}

Err check_farm(const char *path, int32_t limit, Arena *arena, FarmCheck *out)
{
    FarmCheck check = {.read = ARENA_NEW(arena, FarmRead)};
    faults_init(&check.faults, arena, limit);
    TRY(farm_folder_read(path, &check.faults, check.read));
    check_package(path, &check.faults);
    Book *book = ARENA_NEW(arena, Book);
    TRY(book_load(arena, book));
    farm_check(check.read, book, &check.faults);
    faults_sort(&check.faults);
    *out = check;
    return ERR_NONE;
}

/* The number of faults, and one of them with its place. */
static Err tell_first(const char *path, const Faults *faults, Arena *arena)
{
    const Fault *first = &faults->items[0];
    bool is_one = faults->count == 1;
    const char *line =
        first->place.line > 0
            ? arena_text(arena, " line %d", (int)first->place.line)
            : "";
    return err_make(
        ERR_INPUT,
        "%lld %s in the farm (leat check %.60s)%s %.60s%s: expected "
        "%.120s",
        (long long)faults->count, is_one ? "fault" : "faults", path,
        is_one ? ":" : "; one is", first->place.file, line, first->expected);
}

Err check_farm_load(const char *path, Arena *arena, const Farm **out)
{
    FarmCheck check;
    TRY(check_farm(path, 1, arena, &check));
    if (check.faults.count > 0) {
        return tell_first(path, &check.faults, arena);
    }
    *out = &check.read->farm;
    return ERR_NONE;
}
