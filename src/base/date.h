/* Days, weeks and months.
 *
 * A day is an int32 count of days since 1970-01-01 in the proleptic Gregorian
 * calendar; a week is the day of its Monday. Years 1900 to 2199. */
#ifndef LEAT_BASE_DATE_H
#define LEAT_BASE_DATE_H

#include <stdint.h>

#include "base/err.h"

enum { DATE_TEXT_SIZE = 16 };

typedef struct CivilDate {
    int year;
    int month; /* 1..12 */
    int day;   /* 1..31 */
} CivilDate;

/* ISO 8601 week: the year it belongs to and 1..53. */
typedef struct IsoWeek {
    int year;
    int week;
} IsoWeek;

int32_t date_from_civil(CivilDate civil);
CivilDate date_to_civil(int32_t day);

/* "2027-03-01"; anything else, or a day that does not exist, is ERR_INPUT. */
NODISCARD Err date_parse(const char *text, int32_t *out);
void date_format(int32_t day, char out[DATE_TEXT_SIZE]);

/* Monday 0 .. Sunday 6. */
int date_weekday(int32_t day);
const char *date_weekday_name(int weekday); /* "Mon" .. "Sun" */
const char *date_month_name(int month);     /* "Jan" .. "Dec" for 1..12 */
int date_month(int32_t day);                /* 1..12 */
int date_day_of_year(int32_t day);          /* 1..366 */

/* The Monday on or before day. */
int32_t week_of(int32_t day);
IsoWeek week_to_iso(int32_t day);

/* "2027-W14" to its Monday; a week 53 that the year lacks is ERR_INPUT. */
NODISCARD Err week_parse(const char *text, int32_t *out);
void week_format(int32_t day, char out[DATE_TEXT_SIZE]);

#endif
