/* Sense of the water: loops, pumps, zones in step, tanks, air, heat. */
#include <math.h>

#include "farm/checker.h"

enum { MIN_PER_H = 60 };

/* Share of a sump below which a step may draw it before we speak of it: the
 * pump must stay under water. Common practice of the trade. */
#define SUMP_DRAWN_MOST_FRAC 0.8

/* ---- Zones and sumps ------------------------------------------------------
 */

/* Water in the gravel of each zone when it is full, m3. */
static double *zone_volumes_m3(const Checker *c)
{
    double *held_m3 = ARENA_ARRAY(c->arena, double, c->farm->zones_count);
    for (int32_t i = 0; i < c->farm->beds_count; i++) {
        const Bed *bed = &c->farm->beds[i];
        if (bed->zone >= 0) {
            held_m3[bed->zone] += bed->length_m * bed->width_m * bed->flood_m *
                                  bed->porosity_frac;
        }
    }
    return held_m3;
}

static void check_zone(const Checker *c, const Zone *zone, double held_m3)
{
    if (!(held_m3 > 0.0) && !isnan(held_m3)) {
        check_notice(c, TABLE_zones, zone, "id", "zone %s has no beds",
                     zone->id);
    }
    if (zone->loop < 0 || zone->pump < 0) {
        return;
    }
    const Pump *pump = &c->farm->pumps[zone->pump];
    if (pump->loop >= 0 && pump->loop != zone->loop) {
        check_tell(c, TABLE_zones, zone, "pump",
                   "pump: a pump of loop %s; %s lifts that of %s",
                   c->farm->loops[zone->loop].id, pump->id,
                   c->farm->loops[pump->loop].id);
        return;
    }
    double given_m3 =
        pump->flow_m3_h * (1.0 - pump->tanks_frac) * zone->minutes / MIN_PER_H;
    if (given_m3 < held_m3) {
        check_notice(c, TABLE_zones, zone, "minutes",
                     "zone %s does not fill: its turn brings %.3g m3, its beds "
                     "hold %.3g",
                     zone->id, given_m3, held_m3);
    }
}

/* Told at the first zone of the step. The sump gives the step's water and has
 * to take it back when the pump stops; tanks overflow at their level and
 * neither lend nor store any. */
static void check_step(const Checker *c, const Zone *zone, int zone_count,
                       double drawn_m3)
{
    const Loop *loop = &c->farm->loops[zone->loop];
    if (drawn_m3 > loop->sump_m3) {
        check_tell(c, TABLE_zones, zone, "turn",
                   "a sump that can supply and catch turn %d: %d zones hold "
                   "%.3g m3 when full, the sump of loop %s %.3g",
                   (int)zone->turn, zone_count, drawn_m3, loop->id,
                   loop->sump_m3);
    } else if (drawn_m3 > SUMP_DRAWN_MOST_FRAC * loop->sump_m3) {
        check_notice(c, TABLE_zones, zone, "turn",
                     "turn %d draws %.3g of the %.3g m3 in the sump of loop "
                     "%s: the pump may run dry",
                     (int)zone->turn, drawn_m3, loop->sump_m3, loop->id);
    }
}

/* Zones of one loop with the same turn flood together. */
static void check_zones(const Checker *c)
{
    int32_t count = c->farm->zones_count;
    double *held_m3 = zone_volumes_m3(c);
    CheckKey *keys = ARENA_ARRAY(c->arena, CheckKey, count);
    for (int32_t i = 0; i < count; i++) {
        const Zone *zone = &c->farm->zones[i];
        check_zone(c, zone, held_m3[i]);
        keys[i] = (CheckKey){.a = zone->loop, .b = zone->turn, .row = i};
    }
    check_sort(keys, count);
    for (int32_t i = 0; i < count;) {
        int32_t end = i;
        double drawn_m3 = 0.0;
        for (; end < count && keys[end].a == keys[i].a &&
               keys[end].b == keys[i].b;
             end++) {
            drawn_m3 += held_m3[keys[end].row];
        }
        if (keys[i].a >= 0 && keys[i].b != COUNT_WRONG) {
            check_step(c, &c->farm->zones[keys[i].row], end - i, drawn_m3);
        }
        i = end;
    }
}

static void check_pumps(const Checker *c)
{
    bool *has_pump = ARENA_ARRAY(c->arena, bool, c->farm->loops_count);
    for (int32_t i = 0; i < c->farm->pumps_count; i++) {
        if (c->farm->pumps[i].loop == REF_WRONG) {
            return; /* it may be the one that seems to lack */
        }
        if (c->farm->pumps[i].loop >= 0) {
            has_pump[c->farm->pumps[i].loop] = true;
        }
    }
    for (int32_t i = 0; i < c->farm->loops_count; i++) {
        if (!has_pump[i]) {
            check_tell(c, TABLE_loops, &c->farm->loops[i], "id",
                       "a pump that lifts the water of loop %s",
                       c->farm->loops[i].id);
        }
    }
}

/* ---- Tanks, air, heat -----------------------------------------------------
 */

static void check_tank(const Checker *c, const Tank *tank)
{
    if (tank->use == TANK_GROW && tank->loop == REF_BLANK) {
        check_notice(c, TABLE_tanks, tank, "loop",
                     "tank %s is for growing but on no loop: its fish feed no "
                     "bed",
                     tank->id);
    }
    if (tank->batches == 0) {
        check_notice(c, TABLE_tanks, tank, "batches",
                     "tank %s may hold no fish batch", tank->id);
    }
}

static void check_air(const Checker *c)
{
    bool *has_air = ARENA_ARRAY(c->arena, bool, c->farm->tanks_count);
    bool *loop_has_air = ARENA_ARRAY(c->arena, bool, c->farm->loops_count);
    for (int32_t i = 0; i < c->farm->aerators_count; i++) {
        const Aerator *aerator = &c->farm->aerators[i];
        if (!check_is_one(aerator->tank, aerator->loop, REF_BLANK)) {
            check_tell(c, TABLE_aerators, aerator, "tank",
                       "a tank or a loop for aerator %s, one of them",
                       aerator->id);
        }
        if (aerator->tank >= 0) {
            has_air[aerator->tank] = true;
        }
        if (aerator->loop >= 0) {
            loop_has_air[aerator->loop] = true;
        }
    }
    for (int32_t i = 0; i < c->farm->tanks_count; i++) {
        const Tank *tank = &c->farm->tanks[i];
        if (!has_air[i] && !(tank->loop >= 0 && loop_has_air[tank->loop])) {
            check_notice(c, TABLE_tanks, tank, "id",
                         "tank %s has no air but what the water brings",
                         tank->id);
        }
    }
}

static void check_heaters(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->heaters_count; i++) {
        const Heater *heater = &c->farm->heaters[i];
        if (!check_is_one(heater->loop, heater->tank, heater->tunnel)) {
            check_tell(c, TABLE_heaters, heater, "loop",
                       "a loop, a tank or a tunnel that heater %s heats, one "
                       "of them",
                       heater->id);
        }
    }
}

static void check_materials(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->bases_count; i++) {
        const Base *base = &c->farm->bases[i];
        if (*base->kind && !book_base(c->book, base->kind)) {
            check_tell(c, TABLE_bases, base, "kind",
                       "kind: a base or supplement of the book%s",
                       check_near(c, "bases", base->kind));
        }
    }
    for (int32_t i = 0; i < c->farm->feeds_count; i++) {
        const Feed *feed = &c->farm->feeds[i];
        if (feed->from_g > feed->to_g) {
            check_tell(c, TABLE_feeds, feed, "to_g",
                       "to_g: at least from_g, %.4g", feed->from_g);
        }
    }
}

/* A reading has one place, and a value that its quantity can have: outside
 * these limits it is a slip of the pen, common practice of the trade. */
static void check_readings(const Checker *c)
{
    static const struct {
        double least;
        double most;
    } LIMITS[] = {
        [READ_TEMP] = {-2, 45},        [READ_OXYGEN] = {0, 25},
        [READ_PH] = {3, 11},           [READ_TAN] = {0, 100},
        [READ_NITRITE] = {0, 100},     [READ_NITRATE] = {0, 2000},
        [READ_ALKALINITY] = {0, 1000}, [READ_CHLORIDE] = {0, 10000},
        [READ_IRON] = {0, 50},
    };
    for (int32_t i = 0; i < c->farm->readings_count; i++) {
        const Reading *reading = &c->farm->readings[i];
        if (!check_is_one(reading->tank, reading->loop, REF_BLANK)) {
            check_tell(c, TABLE_readings, reading, "tank",
                       "a tank or a loop for the reading, one of them");
        }
        if (reading->value < LIMITS[reading->quantity].least ||
            reading->value > LIMITS[reading->quantity].most) {
            check_tell(c, TABLE_readings, reading, "value",
                       "value: %s from %.4g to %.4g",
                       FARM_WORDS[WORDS_QUANTITIES].words[reading->quantity],
                       LIMITS[reading->quantity].least,
                       LIMITS[reading->quantity].most);
        }
    }
}

void check_water(const Checker *c)
{
    check_zones(c);
    check_pumps(c);
    for (int32_t i = 0; i < c->farm->tanks_count; i++) {
        check_tank(c, &c->farm->tanks[i]);
    }
    check_air(c);
    check_heaters(c);
    check_materials(c);
    check_readings(c);
}
