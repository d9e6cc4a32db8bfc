/* Today's date where the farm is. */
#include "desk/clock.h"

#include <stdlib.h>
#include <time.h>

#include "base/date.h"

int32_t clock_today(const char *zone)
{
    setenv("TZ", zone, 1);
    tzset();
    time_t now = time(NULL);
    struct tm civil = {0};
    localtime_r(&now, &civil);
    return date_from_civil((CivilDate){.year = civil.tm_year + 1900,
                                       .month = civil.tm_mon + 1,
                                       .day = civil.tm_mday});
}
