/* The picks of a plant batch through a year as it comes, week by week: by how
 * far the coupled hour's water and air brought it.
 *
 * The same rules as the typical year's (sim/plant_year.h), met from the other
 * side: that one knows the whole year when a batch is set, this one learns each
 * week as it passes. Who picks knows the plan: a crop picked once waits for its
 * planned week where it can stand so long, is picked early where it cannot, and
 * is cleared when the plan clears it, ripe or not. */
#ifndef LEAT_SIM_PICKS_H
#define LEAT_SIM_PICKS_H

#include "sim/plant_rule.h"
#include "sim/plant_year.h"

typedef struct PickCase {
    const PlantRule *rule; /* Borrowed. */
    double plants;
    int32_t set_day;
    int32_t clear_day; /* free again from then; DATE_NEVER */
    int32_t pick_from; /* the plan's first pick; DATE_ALWAYS: as it comes */
    int pick_weeks;    /* a crop picked once: weeks it is spread over, 1..3 */
} PickCase;

typedef struct PickState {
    int picked;         /* cuts made, or weeks of a crop picked once */
    double picked_frac; /* of a crop picked once */
    int32_t first_day;  /* Monday of the first pick; DATE_NEVER before */
    double flow_degc_d; /* growth since the first pick of a flow */
    double heat_degc_d; /* towards bolting */
    double cold_d;
    double chill_d;
    PlantEnd end; /* PLANT_GROWS while it lives */
} PickState;
PickState pick_start(void);

/* A week as the batch lived it. */
typedef struct PickWeek {
    int32_t monday;
    double
        from_degc_d; /* growth at its beginning and end, as the book counts */
    double to_degc_d;
    double quality_frac; /* of the fortnight before */
    /* What ends a plant, of the days on which it stood. */
    double heat_degc_d;
    double cold_d;
    double chill_d;
    bool is_long_day; /* long enough for what is ready to bolt */
    bool is_frost;
} PickWeek;

/* Units a plant that the week gives (before what this year's luck and losses
 * make of them), and moves the state on. */
double pick_week(const PickCase *is, const PickWeek *week, PickState *state);

#endif
