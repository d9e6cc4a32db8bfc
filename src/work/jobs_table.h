/* The jobs of a week as a table of comma-separated values. */
#ifndef LEAT_WORK_JOBS_TABLE_H
#define LEAT_WORK_JOBS_TABLE_H

#include "base/csv.h"
#include "work/jobs.h"

/* Name of a row of hands, its id where it has none. */
const char *jobs_hand_name(const Farm *farm, int hand);

/* Names of people of a job, "Ada, Ben"; of all who may do it where is_may. */
const char *jobs_names(const Farm *farm, const Job *job, bool is_may,
                       Arena *arena);

/* A header and a row a job; the writer holds the bytes. */
void jobs_write_table(const Farm *farm, const JobsWeek *week, Arena *arena,
                      CsvWriter *out);

#endif
