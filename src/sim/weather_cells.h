/* Columns and numbers of the small weather tables that a grower brings. */
#ifndef LEAT_SIM_WEATHER_CELLS_H
#define LEAT_SIM_WEATHER_CELLS_H

#include "base/csv.h"
#include "farm/faults.h"

enum { WEATHER_COLUMNS_MAX = 6 };

typedef struct WeatherColumn {
    const char *name;
    bool is_needed;
    double low, high; /* of its numbers */
} WeatherColumn;

/* A table while it is read. */
typedef struct WeatherSheet {
    const char *file;             /* Borrowed. */
    const WeatherColumn *columns; /* Borrowed; the first is the time or date. */
    int count;
    Faults *faults;              /* Borrowed. */
    int at[WEATHER_COLUMNS_MAX]; /* cell of a row, from 0; -1: not there */
    bool has_header;
    bool is_usable; /* has all that is needed */
} WeatherSheet;

WeatherSheet weather_sheet(const char *file, const WeatherColumn *columns,
                           int count, Faults *faults);

/* Takes the first row. Names it does not know are passed over with a notice. */
void weather_sheet_header(WeatherSheet *sheet, const CsvRow *row);

/* The cell of a column, trimmed by one space at most; NULL where it is not
 * there or blank. */
const CsvCell *weather_cell(const WeatherSheet *sheet, const CsvRow *row,
                            int column);

/* Its number, NAN where it is blank. False, and a fault told, for anything but
 * a number within the column's bounds. A decimal comma is read where
 * semicolons divide the cells. */
bool weather_number(const WeatherSheet *sheet, const CsvRow *row, int column,
                    double *out);

/* What the reader of bytes tells. */
void weather_sheet_fault(const WeatherSheet *sheet, const CsvFault *fault);

#endif
