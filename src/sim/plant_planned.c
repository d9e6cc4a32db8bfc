/* Rows of the accepted plan's plants as they grow. */
#include "sim/plant_planned.h"

#include <math.h>

#include "base/date.h"
#include "farm/seedlings.h"

int plant_pick_weeks(const PlantRule *rule)
{
    return rule->shape == SHAPE_ONCE ? PLANT_PICK_WEEKS : 1;
}

static bool is_standing(const Farm *farm, const PlanPlant *row)
{
    return row->standing >= 0 && !seedlings_feed(farm, row);
}

/* Whether somebody saw it standing; else all that is known of it is that the
 * plan set it. */
static bool is_counted(const Farm *farm, const PlanPlant *row)
{
    const Plant *plant =
        is_standing(farm, row) ? &farm->plants[row->standing] : NULL;
    return plant && plant->counted_on > plant->set_on;
}

int plant_chosen_weeks(const PlantRule *rule, const Farm *farm,
                       const PlanPlant *row)
{
    bool has_standing_weeks = is_counted(farm, row);
    bool is_cut_off =
        farm->plan_count > 0 && row->pick_from == week_of(farm->plan[0].from);
    int most = has_standing_weeks ? PLANT_PICK_WEEKS : plant_pick_weeks(rule);
    if (has_standing_weeks && is_cut_off) {
        return most;
    }
    int weeks = (week_of(row->pick_until) - week_of(row->pick_from)) / 7 + 1;
    return weeks < 1 ? 1 : weeks > most ? most : weeks;
}

void plant_planned_grow(const PlantYear *year, const Farm *farm,
                        const PlanPlant *row, Arena *arena, PlantBatch *out)
{
    int weeks = plant_chosen_weeks(&year->rule, farm, row);
    if (row->standing < 0) {
        plant_year_batch(year, row->set_on, weeks, arena, out);
        return;
    }
    const Plant *plant = &farm->plants[row->standing];
    plant_year_standing(year,
                        is_standing(farm, row) ? plant->set_on : row->set_on,
                        plant->counted_on, weeks, arena, out);
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
