/* Today's date and the clock's hour where the farm is: the only place that
 * reads the clock. */
#ifndef LEAT_DESK_CLOCK_H
#define LEAT_DESK_CLOCK_H

#include <stdint.h>

#include "farm/records.h"

/* The civil day now in an IANA zone ("Europe/Lisbon"); in UTC where the
 * machine does not know the zone. */
int32_t clock_today(const char *zone);

/* The clock's hour less the mean sun's at the farm at noon of a day; the sun
 * itself is up to a quarter of an hour apart from that. */
double clock_ahead_of_sun_h(const FarmSite *site, int32_t day);

#endif
