/* Check a farm: all that is wrong in its folder, at once. */
#ifndef LEAT_DESK_CHECK_FARM_H
#define LEAT_DESK_CHECK_FARM_H

#include "farm/read.h"

typedef struct FarmCheck {
    FarmRead *read; /* Borrowed from the arena, as all of this. */
    Faults faults;  /* sorted by place */
} FarmCheck;

/* Reads the folder and checks its tables and its sense. limit: faults kept
 * (FAULTS_USUAL_LIMIT, or INT32_MAX for all of them). An error only where the
 * folder itself cannot be read. */
NODISCARD Err check_farm(const char *path, int32_t limit, Arena *arena,
                         FarmCheck *out);

/* The farm in a folder for any command that needs a sound one. ERR_INPUT with
 * the first fault and their count when it is not. */
NODISCARD Err check_farm_load(const char *path, Arena *arena, const Farm **out);

#endif
