/* The accepted plan after a recount: its rows about batches that the standing
 * tables no longer have. */
#ifndef LEAT_FARM_GONE_H
#define LEAT_FARM_GONE_H

#include "farm/faults.h"
#include "farm/records.h"

/* What stands in a reference of the plan to a batch that is not there. */
enum { REF_GONE = -3 };

/* Leaves such rows out of the plan's tables, with the moves of lanes that are
 * gone, and tells a notice a table. */
void gone_leave_out(Farm *farm, Faults *faults);

#endif
