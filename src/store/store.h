/* What happened on a farm, in one SQLite file in its folder: leat.db.
 *
 * Facts are only added. store_add answers only when the entries are on the
 * disk: what it acknowledged is there after a crash of the program or of the
 * machine. Times and days come from the caller; the store reads no clock. All
 * text given back is in the arena. Names of people, their hours and their notes
 * are in this file (docs/journal.md). */
#ifndef LEAT_STORE_STORE_H
#define LEAT_STORE_STORE_H

#include "base/arena.h"
#include "base/err.h"
#include "journal/told.h"

#define STORE_FILE "leat.db"

typedef struct StoreDb {
    struct sqlite3 *db; /* Owned; NULL when closed. */
    char path[1024];
    bool is_read_only;
} StoreDb;

typedef enum StoreMode {
    STORE_READ,   /* ERR_NOT_FOUND where there is no leat.db */
    STORE_WRITE,  /* the same; migrates */
    STORE_CREATE, /* makes leat.db where there is none */
} StoreMode;

/* Opens DIR/leat.db. ERR_NOT_FOUND; ERR_CONFLICT: written by a newer Leat;
 * ERR_IO: it cannot be opened, or is damaged (the text names the last good
 * backup beside it where there is one). A file of an older version is migrated
 * in one transaction first, also by STORE_READ. Closing a zeroed or closed
 * StoreDb does nothing. */
NODISCARD Err store_open(const char *dir, StoreMode mode, StoreDb *out);
void store_close(StoreDb *store);

/* True where DIR/leat.db is there. */
bool store_is_there(const char *dir);

/* Looks through every page: a damaged file is ERR_IO, with the last good
 * backup. Opening does so by itself where the file is small. */
NODISCARD Err store_look_through(const StoreDb *store);

/* ---- Entries --------------------------------------------------------------
 */

typedef struct StoreAdded {
    int64_t number;
    bool is_new; /* false: an entry of that uid was there already */
} StoreAdded;

/* Adds all in one transaction or none, exactly once by uid (one is chosen where
 * it is ""); number of the entries is not read. Each must have passed
 * told_check_alone. Entries of kind struck: ERR_NOT_FOUND where there is no
 * such entry, ERR_CONFLICT where that is itself of kind struck; one struck
 * twice keeps both reasons, and the first counts. Drops the checkpoints after
 * the earliest day told. ERR_BUSY: somebody else writes for seconds. ERR_IO:
 * disk full, or cannot be written; then nothing was added. out: count of them.
 */
NODISCARD Err store_add(StoreDb *store, const Told *tolds, int32_t count,
                        StoreAdded *out);

typedef struct StoreFilter {
    int32_t from;       /* happened_on; DATE_ALWAYS */
    int32_t until;      /* inclusive; DATE_NEVER */
    uint64_t kinds;     /* bit i: kind i; 0: all */
    const char *place;  /* place or to_place; NULL or "": all */
    const char *who;    /* the same */
    const char *batch;  /* the same */
    const char *lot;    /* the same */
    const char *job;    /* the same */
    const char *uid;    /* the same */
    int64_t before;     /* numbers below; 0: all */
    int64_t after;      /* numbers above */
    int32_t limit;      /* at most so many; 0: all */
    bool is_told_order; /* oldest number first; else the newest day first,
                           within a day the newest number first */
    bool is_fold_order; /* by day, time of day, then number */
    bool without_struck;
} StoreFilter;

static inline StoreFilter store_all(void)
{
    return (StoreFilter){.from = DATE_ALWAYS, .until = DATE_NEVER};
}

NODISCARD Err store_read(StoreDb *store, const StoreFilter *filter,
                         Arena *arena, Tolds *out);

/* The number of the newest entry (0: none), and how many there are. */
NODISCARD Err store_newest(StoreDb *store, int64_t *out_number,
                           int64_t *out_count);

/* ---- Checkpoints of the fold ----------------------------------------------
 */

typedef struct StoreCheckpoint {
    int32_t day;    /* the state after all entries up to its end */
    int64_t number; /* the newest entry that it knows */
    const char *bytes;
    size_t length;
} StoreCheckpoint;

/* The newest checkpoint of a day at or before day that was made from tables of
 * that mark; its day is DATE_ALWAYS where there is none. */
NODISCARD Err store_checkpoint_read(StoreDb *store, int32_t day,
                                    const char *mark, Arena *arena,
                                    StoreCheckpoint *out);

/* Keeps a checkpoint, unless an entry above its number changes its day or one
 * before. Those of another mark are dropped. */
NODISCARD Err store_checkpoint_write(StoreDb *store, const char *mark,
                                     const StoreCheckpoint *point);

/* ---- People, sessions, blobs ----------------------------------------------
 */

typedef struct StorePerson {
    int64_t id;
    const char *name; /* what they log in with; unique, also after they left */
    const char *hand; /* of hands.csv, or "" */
    const char *role; /* owner, grower, hand, reader */
    const char *language;  /* "" the farm's */
    const char *mass_unit; /* kg or lb; "" */
    const char *temp_unit; /* degC or degF; "" */
    const char *hash; /* of the passphrase, as text of its library; "" none */
    bool is_gone;     /* may not log in any more */
} StorePerson;

typedef struct StorePeople {
    StorePerson *items;
    int32_t count;
} StorePeople;

NODISCARD Err store_people_read(StoreDb *store, Arena *arena, StorePeople *out);
/* ERR_NOT_FOUND where nobody has that name. */
NODISCARD Err store_people_find(StoreDb *store, const char *name, Arena *arena,
                                StorePerson *out);
/* id 0 adds (ERR_CONFLICT: the name is taken), else changes. */
NODISCARD Err store_people_put(StoreDb *store, const StorePerson *person,
                               int64_t *out_id);
/* Erases a person: name, passphrase and sessions; "who" of their entries
 * becomes the word given, "somebody" say. Returns how many entries. */
NODISCARD Err store_people_erase(StoreDb *store, const char *name,
                                 const char *instead, int64_t *out_entries);

typedef struct StoreSession {
    const char *token_hash; /* text chosen by the caller, never the token */
    int64_t person;
    const char *device;
    int64_t made_at; /* UTC seconds */
    int64_t seen_at;
    int64_t ends_at;
} StoreSession;

NODISCARD Err store_session_put(StoreDb *store, const StoreSession *session);
/* ERR_NOT_FOUND: none of that hash, or ended at or before now. */
NODISCARD Err store_session_find(StoreDb *store, const char *token_hash,
                                 int64_t now, Arena *arena, StoreSession *out);
NODISCARD Err store_session_end(StoreDb *store, const char *token_hash);
/* All of a person (0: of everybody) and those that ended before now. */
NODISCARD Err store_session_end_all(StoreDb *store, int64_t person,
                                    int64_t now);

enum { STORE_BLOB_MAX_BYTES = 12 * 1024 * 1024 };

typedef struct StoreBlob {
    const char *sha256; /* 64 hex digits, small letters */
    const char *type;   /* "image/jpeg", "audio/webm" .. */
    const void *bytes;
    size_t length;
} StoreBlob;

/* Kept once; putting it again does nothing. */
NODISCARD Err store_blob_put(StoreDb *store, const StoreBlob *blob);
NODISCARD Err store_blob_find(StoreDb *store, const char *sha256, Arena *arena,
                              StoreBlob *out);

/* ---- Safe keeping ---------------------------------------------------------
 */

/* A whole copy into a new file while others read and write; checked before it
 * is named done. ERR_CONFLICT: file is there already. */
NODISCARD Err store_backup(StoreDb *store, const char *file);

/* A thorough look at a database file of Leat: every page, every index. ERR_IO
 * says what is wrong; ERR_INPUT: no database of Leat. out_count: entries. */
NODISCARD Err store_verify(const char *file, int64_t *out_count);

/* Puts a verified backup in the place of DIR/leat.db; what was there is kept
 * beside it under out_aside (a buffer of 1024 bytes; "" where there was none).
 * ERR_BUSY while a Leat has the database open. */
NODISCARD Err store_restore(const char *dir, const char *file, char *out_aside);

#endif
