/* How the figures of a batch of plants are made: its dates, its age in thermal
 * time, the units that are still to come. */
#ifndef LEAT_SIM_PLANT_WORKING_H
#define LEAT_SIM_PLANT_WORKING_H

#include "sim/plant_stand.h"

/* A batch as it is told, with what it was made from. Borrowed. */
typedef struct PlantWorking {
    const PlantStandCase *stand; /* its workings may be NULL */
    const PlantStandBatch *told;
    const PlantYear *year;
    const PlantBatch *grown;
} PlantWorking;

/* Writes the workings that are asked for, of "batch". */
void plant_working_tell(const PlantWorking *of);

#endif
