/* Write a plan's proof as an MPS file. */
#include "desk/plan_mps.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "plan/mps.h"

Err plan_mps_write(const PlanYear *year, const char *path, Arena *arena)
{
    PlanMps mps;
    plan_mps_proof(&year->problem, &year->solution, arena, &mps);
    FILE *file = fopen(path, "wb");
    if (!file) {
        return err_make(ERR_IO, "%.120s: %s", path, strerror(errno));
    }
    size_t written = fwrite(mps.bytes, 1, mps.length, file);
    if (fclose(file) != 0 || written != mps.length) {
        return err_make(ERR_IO, "%.120s cannot be written whole", path);
    }
    return ERR_NONE;
}
