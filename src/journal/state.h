/* The farm on a day, from the standing tables, what was told since, and the
 * accepted plan.
 *
 * The standing tables open the account. What was told is folded onto them in
 * the order of the days. A step of the plan that an entry names is taken from
 * the entry; one of the weeks before this that nothing names is taken as done
 * and listed as to settle; one told as undone is due this week. Of this week's
 * steps only what was told is done. What breaks the balance is kept as told and
 * listed as a doubt, never dropped: no count falls below nothing.
 *
 * Where the tables were written from the journal itself (an entry of kind
 * counted), entries up to that one are in them; else those before records_from
 * are. */
#ifndef LEAT_JOURNAL_STATE_H
#define LEAT_JOURNAL_STATE_H

#include "journal/told.h"

/* How a row of fish has grown since it was counted: mean weight on day over
 * that of counted_on. NULL function: 1, that is, not at all. */
typedef struct FishGrow {
    double (*factor)(void *self, const Fish *row, int32_t day);
    void *self;
} FishGrow;

typedef struct JournalDoubt {
    int64_t number; /* of the entry */
    int32_t day;
    const char *text;
} JournalDoubt;

/* A planned step of an earlier week that nothing was told of. */
typedef struct JournalUnsettled {
    int32_t day;       /* planned for (a Monday) */
    const char *step;  /* the kind of entry that would settle it: "set" .. */
    const char *batch; /* or "" */
    const char *place; /* a bed or tank, or "" */
    const char *to_place;
    int32_t count; /* plants or fish; 0: not told */
    const char *text;
} JournalUnsettled;

/* Fish of the whole farm. standing = opened + stocked + found - died - sold -
 * lost, in heads and, growth_g added, in grams (weights as of the day each
 * batch was last weighed). */
typedef struct FishAccount {
    int64_t opened, stocked, found, died, sold, lost, standing;
    double opened_g, stocked_g, found_g, died_g, sold_g, lost_g, standing_g;
    double growth_g; /* told by samples */
    int64_t missing; /* told as leaving, but not there: doubts */
} FishAccount;

typedef struct JournalState {
    Farm farm; /* standing tables as of the day; plants' rows of the plan follow
                  them; fish: see journal/lanes.h */
    int32_t day;
    bool is_assumed;      /* steps were taken as done */
    JournalDoubt *doubts; /* Borrowed from the arena, by day told. */
    int32_t doubt_count;
    JournalUnsettled *unsettled;
    int32_t unsettled_count;
    FishAccount fish;
    const bool *is_move_over; /* by row of plan_moves: done, told or assumed */
} JournalState;

typedef struct JournalPoint JournalPoint; /* journal/checkpoint.h */

typedef struct JournalAsk {
    const Farm *opening;
    const Tolds *tolds; /* in the order of the fold (StoreFilter), struck ones
                           passed over */
    int32_t day;
    FishGrow grow;
    const JournalPoint
        *point; /* a checkpoint of the same tables, at or before
                   CHECKPOINT_AHEAD_D days ago; tolds need hold
                   only what happened after its day. NULL: none */
} JournalAsk;

/* ERR_CONFLICT: an entry tells of a step that was over at the checkpoint; ask
 * without it. */
NODISCARD Err journal_state(const JournalAsk *ask, Arena *arena,
                            JournalState *out);

/* A checkpoint at the end of the last Sunday before ask->day; entries up to
 * CHECKPOINT_AHEAD_D days after it are told in ask->tolds as well. */
NODISCARD Err journal_point(const JournalAsk *asked, Arena *arena,
                            JournalPoint *out);

/* The entry of kind counted with which these standing tables were written from
 * the journal: the newest of the day that they describe whose mark is theirs
 * (else the newest of the day: somebody changed a row by hand); NULL: they were
 * counted by people. */
const Told *journal_counted(const Farm *farm, const Tolds *tolds, Arena *arena);

/* What an entry of kind counted says of the tables it goes with. */
const char *journal_standing_mark(const Farm *farm, Arena *arena);

/* Kinds that change the state: others need not be read for it. */
extern const uint64_t JOURNAL_STATE_KINDS;

#endif
