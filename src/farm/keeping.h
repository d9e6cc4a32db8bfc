/* How long what is picked keeps in a cold store. */
#ifndef LEAT_FARM_KEEPING_H
#define LEAT_FARM_KEEPING_H

#include "farm/book.h"
#include "farm/records.h"

/* Days that a way's units keep: the farm's own where it gives them, else the
 * book's. */
double keeping_days(const Book *book, const Way *way);

/* Share of a store that lasts a week: it loses a keeping time's worth evenly,
 * so that what keeps a fortnight has lost half after one week and three
 * quarters after two. Less than a tenth that lasts is no store: 0, as for all
 * that keeps a week or less. */
double keeping_week_frac(double keep_days);

#endif
