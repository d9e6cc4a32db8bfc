/* Check a farm: all that is wrong in its folder, at once. */
#include "desk/check_farm.h"

#include "desk/farm_folder.h"
#include "farm/check.h"

Err check_farm(const char *path, int32_t limit, Arena *arena, FarmCheck *out)
{
    FarmCheck check = {.read = ARENA_NEW(arena, FarmRead)};
    faults_init(&check.faults, arena, limit);
    TRY(farm_folder_read(path, &check.faults, check.read));
    farm_check(check.read, &check.faults);
    faults_sort(&check.faults);
    *out = check;
    return ERR_NONE;
}

Err check_farm_load(const char *path, Arena *arena, const Farm **out)
{
    FarmCheck check;
    TRY(check_farm(path, 1, arena, &check));
    if (check.faults.count > 0) {
        const Fault *first = &check.faults.items[0];
        return err_make(ERR_INPUT,
                        "%lld faults in the farm (leat check %.60s); one is "
                        "%s line %d: expected %.120s",
                        (long long)check.faults.count, path, first->place.file,
                        (int)first->place.line, first->expected);
    }
    *out = &check.read->farm;
    return ERR_NONE;
}
