/* The farm at a glance: what stands in its tables, faults or not, on a day. */
#ifndef LEAT_DESK_FARM_PAGE_H
#define LEAT_DESK_FARM_PAGE_H

#include "base/err.h"
#include "json/farm_page.h"

/* today: DATE_ALWAYS for the clock, or the day the tables begin where that is
 * still to come. An error only where the folder itself
 * cannot be read. */
NODISCARD Err farm_page_make(const char *dir, int32_t today, Arena *arena,
                             FarmPage *out);

#endif
