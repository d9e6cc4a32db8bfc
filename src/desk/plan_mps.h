/* Write a plan's proof, or the whole model, as MPS files. */
#ifndef LEAT_DESK_PLAN_MPS_H
#define LEAT_DESK_PLAN_MPS_H

#include "desk/plan_year.h"

/* Writes the proof of year's plan (all choices fixed) to the file at path. */
NODISCARD Err plan_mps_write(const PlanYear *year, const char *path,
                             Arena *arena);

#endif
