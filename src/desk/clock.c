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

double clock_ahead_of_sun_h(const FarmSite *site, int32_t day)
{
    const double degrees_h = 15.0;
    setenv("TZ", site->timezone, 1);
    tzset();
    time_t noon = (time_t)day * 86400 + 43200;
    struct tm civil = {0};
    localtime_r(&noon, &civil);
    CivilDate date = {.year = civil.tm_year + 1900,
                      .month = civil.tm_mon + 1,
                      .day = civil.tm_mday};
    double days = date_from_civil(date) - day;
    double clock_h = 24.0 * days + civil.tm_hour - 12.0 + civil.tm_min / 60.0;
    return clock_h - site->longitude_deg / degrees_h;
}
