/* A logger's weather in the farm's folder: the file weather_log.csv, which is
 * no table of the farm and need not be there. */
#ifndef LEAT_DESK_YEARS_LOG_H
#define LEAT_DESK_YEARS_LOG_H

#include "desk/farm_folder.h"
#include "sim/weather_log.h"

#define WEATHER_LOG_FILE FARM_NO_TABLE_FILE

/* The file's bytes; {0} where it is not there. ERR_IO, ERR_LIMIT. */
NODISCARD Err years_log_load(const char *dir, Arena *arena, FarmBuffer *out);

typedef struct YearsLogTold {
    const char *texts[4]; /* holes, clocks set right; the first of them */
    int count;
} YearsLogTold;

/* Reads it, its clock by the farm's zone at its first row. *out is in the
 * arena, NULL where there is no file. told may be NULL. ERR_INPUT with the
 * first fault. */
NODISCARD Err years_log_read(const FarmBuffer *file, const Farm *farm,
                             Arena *arena, const WeatherLog **out,
                             YearsLogTold *told);

#endif
