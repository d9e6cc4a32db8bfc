/* Columns and numbers of weather tables. */
#include "sim/weather_cells.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

enum { NUMBER_SIZE = 40 };

WeatherSheet weather_sheet(const char *file, const WeatherColumn *columns,
                           int count, Faults *faults)
{
    WeatherSheet sheet = {
        .file = file, .columns = columns, .count = count, .faults = faults};
    for (int i = 0; i < WEATHER_COLUMNS_MAX; i++) {
        sheet.at[i] = -1;
    }
    return sheet;
}

static FaultPlace place_of(const WeatherSheet *sheet, int32_t line,
                           int32_t column)
{
    return (FaultPlace){sheet->file, line, column};
}

static int column_of(const WeatherSheet *sheet, const char *name)
{
    for (int i = 0; i < sheet->count; i++) {
        if (strcmp(sheet->columns[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

void weather_sheet_header(WeatherSheet *sheet, const CsvRow *row)
{
    sheet->has_header = true;
    for (int32_t i = 0; i < row->count; i++) {
        const CsvCell *cell = &row->cells[i];
        int column = column_of(sheet, cell->text);
        FaultPlace place = place_of(sheet, row->line, cell->column);
        if (column < 0) {
            faults_notice(sheet->faults, place, cell->text,
                          "a column that is not read");
        } else if (sheet->at[column] >= 0) {
            faults_add(sheet->faults, place, cell->text, "each column once");
        } else {
            sheet->at[column] = i;
        }
    }
    sheet->is_usable = true;
    for (int i = 0; i < sheet->count; i++) {
        if (sheet->columns[i].is_needed && sheet->at[i] < 0) {
            faults_add(sheet->faults, place_of(sheet, row->line, 0), "",
                       "a column %s", sheet->columns[i].name);
            sheet->is_usable = false;
        }
    }
}

const CsvCell *weather_cell(const WeatherSheet *sheet, const CsvRow *row,
                            int column)
{
    int at = sheet->at[column];
    if (at < 0 || at >= row->count || row->cells[at].length == 0) {
        return NULL;
    }
    return &row->cells[at];
}

bool weather_number(const WeatherSheet *sheet, const CsvRow *row, int column,
                    double *out)
{
    const CsvCell *cell = weather_cell(sheet, row, column);
    const WeatherColumn *is = &sheet->columns[column];
    *out = NAN;
    if (!cell) {
        return true;
    }
    char text[NUMBER_SIZE] = "";
    double value = NAN;
    bool is_number = cell->length < sizeof text;
    if (is_number) {
        memcpy(text, cell->text, cell->length);
        char *comma = row->delimiter == ';' ? strchr(text, ',') : NULL;
        if (comma) {
            *comma = '.';
        }
        Err err = text_to_f64(text, &value);
        is_number = err.kind == ERR_OK && isfinite(value) && value >= is->low &&
                    value <= is->high;
    }
    if (!is_number) {
        faults_add(sheet->faults, place_of(sheet, cell->line, cell->column),
                   cell->text, "a number from %g to %g", is->low, is->high);
        return false;
    }
    *out = value;
    return true;
}

void weather_sheet_fault(const WeatherSheet *sheet, const CsvFault *fault)
{
    faults_add(sheet->faults, place_of(sheet, fault->line, fault->column),
               fault->value, "%s", fault->expected);
}
