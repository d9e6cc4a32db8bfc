/* Rows of the accepted plan's plants as they grow: the one way in which plan,
 * forecast and jobs grow them, so that all three tell the same. */
#ifndef LEAT_SIM_PLANT_PLANNED_H
#define LEAT_SIM_PLANT_PLANNED_H

#include "farm/records.h"
#include "sim/plant_year.h"

/* Weeks over which a crop picked once is spread where no plan says it. */
enum { PLANT_PICK_WEEKS = 3 };

/* The row's batch. year is its way's in its bed's light, shaded where the row
 * is; what stands is followed from the day it was counted on, and what is
 * picked once over as many weeks as the plan chose. */
void plant_planned_grow(const PlantYear *year, const Farm *farm,
                        const PlanPlant *row, Arena *arena, PlantBatch *out);

/* Weeks over which the plan has the row picked: of a crop picked once its weeks
 * of picking, else 1. What stood already when the plan began, and was picked by
 * then, keeps the weeks that a standing batch is given. */
int plant_chosen_weeks(const PlantRule *rule, const Farm *farm,
                       const PlanPlant *row);

/* Plants of the row. The table has them whole; where that is the rounded number
 * that its sections take, this is the number that they take, as in the plan. */
double plant_planned_plants(const PlantRule *rule, const Farm *farm,
                            const PlanPlant *row);

/* Weeks over which seedlings or seed of a way are picked where the day of
 * setting is fixed: a crop picked once is spread, others have their own span.
 */
int plant_pick_weeks(const PlantRule *rule);

#endif
