/* Seedlings that stand in trays on the day the plants were counted: rows of
 * plants that are still to be set out. */
#ifndef LEAT_FARM_SEEDLINGS_H
#define LEAT_FARM_SEEDLINGS_H

#include "farm/book.h"
#include "farm/records.h"

/* Whether the row was not set out yet when it was counted. */
bool seedlings_are(const Plant *plant);

/* Whether a row of the plan is set from the farm's standing trays, and not
 * sown for it or in its bed already. */
bool seedlings_feed(const Farm *farm, const PlanPlant *row);

/* Days a seedling of the farm's way can wait once it may be set out: the
 * farm's own, else the book's. */
double seedlings_wait_d(const Farm *farm, int32_t way, const BookWay *book);

#endif
