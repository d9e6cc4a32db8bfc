/* Folded states that save folding from the beginning. */
#include "store/db.h"

Err store_checkpoint_read(StoreDb *store, int32_t day, const char *mark,
                          Arena *arena, StoreCheckpoint *out)
{
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store,
                  "SELECT day, number, bytes FROM checkpoint WHERE day <= ?1 "
                  "AND mark = ?2 ORDER BY day DESC LIMIT 1"));
    TRY(stmt_whole(&query, 1, day));
    TRY(stmt_text(&query, 2, mark));
    bool is_row = false;
    TRY(stmt_step(&query, &is_row));
    *out = (StoreCheckpoint){.day = DATE_ALWAYS};
    if (!is_row) {
        return ERR_NONE;
    }
    out->day = (int32_t)stmt_get_whole(&query, 0);
    out->number = stmt_get_whole(&query, 1);
    size_t length = (size_t)sqlite3_column_bytes(query.is, 2);
    out->bytes =
        arena_copy_bytes(arena, sqlite3_column_blob(query.is, 2), length);
    out->length = length;
    return ERR_NONE;
}

/* Whether an entry unknown to it changes its day or one before. */
static Err is_behind(StoreDb *store, const StoreCheckpoint *point, bool *out)
{
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store,
                  "SELECT 1 FROM entry AS e LEFT JOIN entry AS s ON "
                  "s.number = e.strikes WHERE e.number > ?1 AND "
                  "min(e.happened_on, ifnull(s.happened_on, e.happened_on)) <= "
                  "?2 LIMIT 1"));
    TRY(stmt_whole(&query, 1, point->number));
    TRY(stmt_whole(&query, 2, point->day));
    return stmt_step(&query, out);
}

Err store_checkpoint_write(StoreDb *store, const char *mark,
                           const StoreCheckpoint *point)
{
    CLEANUP(change_close) Change change = {0};
    TRY(change_begin(&change, store));
    CLEANUP(stmt_close) Stmt drop = {0};
    TRY(stmt_open(&drop, store, "DELETE FROM checkpoint WHERE mark <> ?1"));
    TRY(stmt_text(&drop, 1, mark));
    TRY(stmt_run(&drop));
    bool behind = false;
    TRY(is_behind(store, point, &behind));
    if (!behind) {
        CLEANUP(stmt_close) Stmt put = {0};
        TRY(stmt_open(&put, store,
                      "INSERT OR REPLACE INTO checkpoint VALUES "
                      "(?1, ?2, ?3, ?4)"));
        TRY(stmt_whole(&put, 1, point->day));
        TRY(stmt_text(&put, 2, mark));
        TRY(stmt_whole(&put, 3, point->number));
        int code = sqlite3_bind_blob64(put.is, 4, point->bytes, point->length,
                                       SQLITE_TRANSIENT);
        if (code != SQLITE_OK) {
            return db_error(store, code);
        }
        TRY(stmt_run(&put));
    }
    return change_commit(&change);
}
