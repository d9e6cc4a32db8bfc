/* How the figures of the tunnels' page are made, written by the code that makes
 * them. */
#ifndef LEAT_WORK_VENT_WORKING_H
#define LEAT_WORK_VENT_WORKING_H

#include "sim/hour.h"
#include "work/vent.h"

/* The hours of the day, and of the one after it, that are tonight's. */
enum { VENT_EVENING_H = 18, VENT_NIGHT_UNTIL_H = VENT_DAY_H + 8 };

/* Of "tunnel" ID: night_degc. air: its hours, opened as advised. */
void vent_working_night(const VentAsk *ask, int32_t tunnel, const HourAir *air,
                        const VentTunnel *made);

/* Of "tunnel" ID: opened_wet_h or shut_wet_h, by way. */
void vent_working_wet(const VentAsk *ask, int32_t tunnel, int way,
                      const VentTunnel *made);

/* Of "air" "day": outside_most_degc, outside_least_degc. */
void vent_working_outside(const VentAsk *ask, const VentDay *made);

#endif
