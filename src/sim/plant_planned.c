/* Rows of the accepted plan's plants as they grow. */
#include "sim/plant_planned.h"

#include <math.h>

#include "base/date.h"
#include "farm/seedlings.h"

int plant_pick_weeks(const PlantRule *rule)
{
    return rule->shape == SHAPE_ONCE ? PLANT_PICK_WEEKS : 1;
}

/* Weeks over which a single pick is spread, as the plan chose them. */
static int chosen_weeks(const PlantRule *rule, const PlanPlant *row)
{
    int most = plant_pick_weeks(rule);
    int weeks = (week_of(row->pick_until) - week_of(row->pick_from)) / 7 + 1;
    return weeks < 1 ? 1 : weeks > most ? most : weeks;
}

void plant_planned_grow(const PlantYear *year, const Farm *farm,
                        const PlanPlant *row, Arena *arena, PlantBatch *out)
{
    int weeks = chosen_weeks(&year->rule, row);
    if (row->standing < 0) {
        plant_year_batch(year, row->set_on, weeks, arena, out);
        return;
    }
    const Plant *plant = &farm->plants[row->standing];
    bool is_fed = seedlings_feed(farm, row);
    plant_year_standing(year, is_fed ? row->set_on : plant->set_on,
                        plant->counted_on, is_fed ? weeks : PLANT_PICK_WEEKS,
                        arena, out);
}

double plant_planned_plants(const PlantRule *rule, const Farm *farm,
                            const PlanPlant *row)
{
    if (row->place == PLACE_EDGE || row->sections < 1) {
        return row->plants;
    }
    const Bed *bed = &farm->beds[row->bed];
    double area_m2 =
        bed->length_m * bed->width_m * row->sections / bed->sections;
    double full = rule->way->plants_m2.value * area_m2;
    bool is_full = row->plants < 1 || fabs(full - row->plants) <= 1.0;
    return is_full ? full : row->plants;
}
