/* What hangs on a pump, an aerator, a heater, or on all power: which loops,
 * tanks, zones and beds it leaves without water, air or heat. Works on any farm
 * that could be read, faults or not. */
#ifndef LEAT_SIM_HANGS_H
#define LEAT_SIM_HANGS_H

#include "base/arena.h"
#include "farm/records.h"

/* By row of the farm's tables. Owned by the arena. */
typedef struct Hangs {
    const Farm *farm; /* Borrowed. */
    bool *pumps;      /* that stand still */
    bool *aerators;   /* without power: those with a battery run on it */
    bool *heaters;    /* cold */
    bool *loops;      /* water of which stands or cools */
    bool *tanks_flow; /* less or no water comes in */
    bool *tanks_air;  /* an aerator of theirs is without power */
    bool *tanks_heat; /* a heater of theirs is cold */
    bool *zones;      /* no longer flood */
    bool *beds;
    bool *tunnels;       /* whose air heater is cold */
    int32_t other_pumps; /* pumps that run on in the same loops */
} Hangs;

typedef enum HangsOn {
    HANGS_PUMP,
    HANGS_AERATOR,
    HANGS_HEATER,
    HANGS_POWER,
} HangsOn;

/* row: of farm->pumps, ->aerators or ->heaters; not read for HANGS_POWER. */
void hangs_find(const Farm *farm, HangsOn on, int32_t row, Arena *arena,
                Hangs *out);

int32_t hangs_count(const bool *which, int32_t count);

/* Whether a tank is touched in any way. */
bool hangs_tank(const Hangs *hangs, int32_t tank);

/* Whether an aerator serves a tank: its own, or shared by its loop. */
bool hangs_aerator_serves(const Farm *farm, int32_t aerator, int32_t tank);

/* A heater of that water: of the tank itself, or of its loop for tanks that
 * have none of their own. */
bool hangs_heater_serves(const Farm *farm, int32_t heater, int32_t tank);

/* A tank's share by volume of what its loop's tanks share; 1 outside loops. */
double hangs_share_frac(const Farm *farm, int32_t tank);

/* Ways by which water of elsewhere can be let into a loop or tank: open valves
 * and transfers between two loops, or from another loop's tank. In that month.
 */
bool hangs_link_helps(const Hangs *hangs, int32_t link, int month);

#endif
