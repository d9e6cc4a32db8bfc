/* Tell entries to a farm's journal. */
#ifndef LEAT_DESK_NOTE_H
#define LEAT_DESK_NOTE_H

#include "journal/state.h"
#include "store/store.h"

typedef struct NoteQuestion {
    const char *dir;
    const Told *tolds; /* happened_on DATE_ALWAYS: today; told_at and told_on
                          are written here */
    int32_t count;
    int32_t today;      /* DATE_ALWAYS: by the clock */
    const char *who;    /* of entries that name nobody; NULL: nobody */
    const char *device; /* the same */
} NoteQuestion;

typedef struct NoteAnswer {
    Tolds tolds;                /* as they were kept */
    const StoreAdded *added;    /* tolds.count of them */
    const JournalDoubt *doubts; /* about these entries */
    int32_t doubt_count;
    int32_t today;
} NoteAnswer;

/* All are kept, or none: what an entry names must be of the farm, and nothing
 * may lie ahead of today. The first entry makes leat.db. ERR_INPUT "entry 2:
 * ..." names what is wrong; others as store_add. */
NODISCARD Err note_add(const NoteQuestion *question, Arena *arena,
                       NoteAnswer *out);

/* Kinds that leat writes itself and nobody tells. */
bool note_is_ours(int32_t kind);

#endif
