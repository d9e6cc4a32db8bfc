/* The tables of a typical year: their room, clearing and closing. */
#ifndef LEAT_SIM_CLIMATE_TABLES_H
#define LEAT_SIM_CLIMATE_TABLES_H

#include "sim/climate_model.h"
#include "sim/climate_year.h"

/* Room for all tables, zeroed; tanks without water of their own share their
 * loop's. */
void climate_tables_make(const Farm *farm, Arena *arena,
                         const ClimateModel *model, ClimateYear *year);

/* Zero again for all that a year adds up hour by hour. */
void climate_tables_clear(const ClimateModel *model, ClimateYear *year);

/* Weather outside, by day. */
void climate_tables_outside(const ClimateModel *model, ClimateYear *year);

/* Light of the beds, once the rows' light is known. */
void climate_tables_beds(const Farm *farm, ClimateYear *year);

/* The last day once more, for leap years. */
void climate_tables_leap_day(const Farm *farm, ClimateYear *year);

#endif
