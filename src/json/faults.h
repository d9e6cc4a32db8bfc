/* Faults and notices as JSON. */
#ifndef LEAT_JSON_FAULTS_H
#define LEAT_JSON_FAULTS_H

#include "farm/faults.h"

/* {"rows", "fault_count", "faults": [{"file","line","column","value",
 * "expected"}], "notices": [the same, with "text" for "expected"],
 * "doubts": [as the notices]}; line and
 * column are null where none is meant. */
const char *faults_to_json(const Faults *faults, int32_t row_count,
                           Arena *arena);

#endif
