/* Answers about the journal as JSON. */
#ifndef LEAT_JSON_JOURNAL_H
#define LEAT_JSON_JOURNAL_H

#include "json/told.h"
#include "journal/state.h"

typedef struct JournalAddedJson {
    const Tolds *tolds; /* with their numbers */
    const bool *is_new; /* tolds->count of them */
    const JournalDoubt *doubts;
    int32_t doubt_count;
} JournalAddedJson;

/* {"added":[{"uid","number","is_new"}],"doubts":[{"number","day","text"}]} */
const char *journal_added_to_json(const JournalAddedJson *added, Arena *arena);

/* {"newest","has_more","entries":[..]} */
const char *journal_page_to_json(const Tolds *tolds, int64_t newest,
                                 bool has_more, Arena *arena);

typedef struct JournalSettleJson {
    int32_t today;
    const JournalUnsettled *unsettled;
    int32_t unsettled_count;
    const JournalDoubt *doubts;
    int32_t doubt_count;
    const FishAccount *fish;
} JournalSettleJson;

/* {"today","to_settle":[{"day","kind","batch","place","to_place","count",
 * "text"}],"doubts":[..],"fish":{"opened",..,"standing","standing_kg",..}} */
const char *journal_settle_to_json(const JournalSettleJson *settle,
                                   Arena *arena);

#endif
