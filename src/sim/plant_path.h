/* A batch on its way through the year, between plant_year.c and its picks in
 * plant_picks.c. No other file includes it. */
#ifndef LEAT_SIM_PLANT_PATH_H
#define LEAT_SIM_PLANT_PATH_H

#include "sim/plant_sums.h"
#include "sim/plant_year.h"

/* What the batch's way through the year is worked out in: days are counted from
 * start, the day on which growth in the bed begins. */
typedef struct PlantPath {
    const PlantYear *year;
    int32_t start;     /* day since 1970-01-01 */
    int32_t start_doy; /* its day of the year from 0 */
    int32_t seen;      /* day on which it was seen alive, from start; else 0 */
    int32_t ready;     /* day on which the first pick is ready, from start */
    int32_t pick;      /* day of the first pick: ready, or later when seen */
    int32_t stop;      /* day on which the plant is lost, or PLANT_NEVER */
    PlantEnd stop_why;
} PlantPath;

/* The day, from start, on which a sum is full. */
int32_t plant_path_full(const PlantPath *path, const double *sum,
                        double target);

/* Growth between two days counted from start, degC d. */
double plant_path_growth(const PlantPath *path, int32_t from, int32_t until);

/* Opens the batch's weeks to its last pick and puts the mean units into them;
 * end is set where the plant's stop cuts the picking short. Both return the
 * units there were before the losses. */
double plant_pick_flow(const PlantPath *path, Arena *arena, PlantBatch *batch);
double plant_pick_cuts(const PlantPath *path, int pick_weeks, Arena *arena,
                       PlantBatch *batch);

#endif
