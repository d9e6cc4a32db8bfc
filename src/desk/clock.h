/* Today's date where the farm is: the only place that reads the clock. */
#ifndef LEAT_DESK_CLOCK_H
#define LEAT_DESK_CLOCK_H

#include <stdint.h>

/* The civil day now in an IANA zone ("Europe/Lisbon"); in UTC where the
 * machine does not know the zone. */
int32_t clock_today(const char *zone);

#endif
