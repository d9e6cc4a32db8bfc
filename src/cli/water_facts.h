/* Facts that are numbers, as ph=6.4: readings of the water among them. */
#ifndef LEAT_CLI_WATER_FACTS_H
#define LEAT_CLI_WATER_FACTS_H

#include "cli/arguments.h"

/* NAN where the fact was not given; ERR_USAGE where it is no number. */
NODISCARD Err facts_number(const Arguments *arguments, const char *key,
                           double *out);

/* All quantities of readings.csv, by their number. */
NODISCARD Err facts_readings(const Arguments *arguments, double *out_told);

#endif
