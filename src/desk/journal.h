/* Read a farm's journal: a page of entries, and what is to settle. */
#ifndef LEAT_DESK_JOURNAL_H
#define LEAT_DESK_JOURNAL_H

#include "farm/faults.h"
#include "journal/state.h"
#include "store/store.h"

typedef struct JournalPage {
    Tolds tolds;    /* newest day first */
    int64_t newest; /* number of the newest entry of all; 0: none */
    bool has_more;  /* the limit cut it */
} JournalPage;

/* Nothing told yet is an empty page. Fails as store_open does. */
NODISCARD Err journal_page(const char *dir, const StoreFilter *filter,
                           Arena *arena, JournalPage *out);

typedef struct JournalSettle {
    int32_t today;
    const JournalUnsettled *unsettled;
    int32_t unsettled_count;
    const JournalDoubt *doubts;
    int32_t doubt_count;
    FishAccount fish;
} JournalSettle;

/* Planned steps that nobody told of, doubts, and the account of fish. ERR_INPUT
 * for a farm with faults. */
NODISCARD Err journal_settle(const char *dir, int32_t today, Arena *arena,
                             JournalSettle *out);

/* Looks through the whole database of the folder, as a server does before it
 * begins: ERR_IO where it is damaged, with the last good backup by name.
 * Nothing where nothing was told. */
NODISCARD Err journal_look_through(const char *dir);

/* For leat check: looks through the whole database of the folder, a fault where
 * it is damaged; on a sound farm each doubt and the count of steps to settle as
 * notices. Nothing where nothing was told. */
void journal_check(const char *dir, const Farm *farm, Arena *arena,
                   Faults *faults);

#endif
