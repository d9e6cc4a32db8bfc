/* From entries to the farm as it stands on a day. */
#ifndef LEAT_JOURNAL_FOLD_H
#define LEAT_JOURNAL_FOLD_H

#include "journal/entry.h"

/* The farm's standing tables (plants, fish, beds' last cleans) as the entries
 * before day leave them; all other tables are shared with farm. Counts and
 * kilos of fish balance: who leaves takes his weight with him, so the mean and
 * the spread of those left follow. Fish keep the day they were counted on.
 * Seedlings that are set leave their trays. ERR_INPUT where an entry takes more
 * fish than there are. */
NODISCARD Err journal_fold(const Farm *farm, const Entries *entries,
                           int32_t day, Arena *arena, Farm *out);

/* The farm on a day. The standing tables where they are of that day or later,
 * or where no plan was accepted; else the plan is taken as done, and
 * *out_is_assumed says so: its batches that were set stand, those cleared are
 * no longer in it. */
NODISCARD Err journal_farm_on(const Farm *farm, int32_t day, Arena *arena,
                              Farm *out, bool *out_is_assumed);

#endif
