/* The sense of a farm: what each table may say alone but not all together. */
#ifndef LEAT_FARM_CHECK_H
#define LEAT_FARM_CHECK_H

#include "farm/book.h"
#include "farm/read.h"

/* Tells faults (the farm cannot be planned as described) and notices (it can,
 * but look at this). Cells that were told when the farm was read are passed
 * over here, so that one mistake is one fault. */
void farm_check(const FarmRead *read, const Book *book, Faults *faults);

#endif
