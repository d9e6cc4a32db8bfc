/* Who is closed or away on a day. */
#ifndef LEAT_FARM_CLOSURES_H
#define LEAT_FARM_CLOSURES_H

#include "farm/records.h"

/* The farm or that buyer (a row of farm->buyers) is closed. */
bool closures_shut_buyer(const Farm *farm, int32_t buyer, int32_t day);

/* The farm is closed or that person (a row of farm->hands) is away. */
bool closures_keep_hand(const Farm *farm, int32_t hand, int32_t day);

#endif
