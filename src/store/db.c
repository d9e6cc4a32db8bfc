/* Opening the database, statements and errors. */
#include "store/db.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum {
    BUSY_MS = 5000,
    RETRY_MS = 10,
    QUICK_CHECK_MAX_MB = 16,
    BYTES_PER_MB = 1024 * 1024
};

Err db_error(const StoreDb *store, int code)
{
    const char *text = store->db ? sqlite3_errmsg(store->db) : "";
    char offer[400];
    switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return err_make(ERR_BUSY, "%.120s: another Leat is writing in it",
                        store->path);
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        backup_offer(store->path, offer);
        return err_make(ERR_IO, "%.80s is damaged (%.40s)%.120s", store->path,
                        text, offer);
    case SQLITE_FULL:
        return err_make(ERR_IO, "%.120s: the disk is full; nothing was added",
                        store->path);
    case SQLITE_READONLY:
        return err_make(ERR_IO, "%.120s may not be written", store->path);
    case SQLITE_CONSTRAINT:
        return err_make(ERR_CONFLICT, "%.120s", text);
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN:
        return err_make(ERR_IO, "%.120s cannot be read or written: %.80s",
                        store->path, text);
    default:
        return err_make(ERR_DEFECT, "database: %.160s (%d)", text, code);
    }
}

/* ---- Statements -----------------------------------------------------------
 */

Err stmt_open(Stmt *stmt, const StoreDb *store, const char *sql)
{
    stmt->store = store;
    int code = sqlite3_prepare_v2(store->db, sql, -1, &stmt->is, NULL);
    return code == SQLITE_OK ? ERR_NONE : db_error(store, code);
}

void stmt_close(Stmt *stmt)
{
    sqlite3_finalize(stmt->is);
    stmt->is = NULL;
}

static Err bound(const Stmt *stmt, int code)
{
    return code == SQLITE_OK ? ERR_NONE : db_error(stmt->store, code);
}

Err stmt_text(Stmt *stmt, int at, const char *text)
{
    return bound(
        stmt, text ? sqlite3_bind_text(stmt->is, at, text, -1, SQLITE_TRANSIENT)
                   : sqlite3_bind_null(stmt->is, at));
}

Err stmt_whole(Stmt *stmt, int at, int64_t value)
{
    return bound(stmt, sqlite3_bind_int64(stmt->is, at, value));
}

Err stmt_step(Stmt *stmt, bool *out_is_row)
{
    int code = sqlite3_step(stmt->is);
    if (code == SQLITE_ROW) {
        *out_is_row = true;
        return ERR_NONE;
    }
    if (code != SQLITE_DONE) {
        Err err = db_error(stmt->store, code);
        sqlite3_reset(stmt->is);
        return err;
    }
    sqlite3_reset(stmt->is);
    *out_is_row = false;
    return ERR_NONE;
}

Err stmt_run(Stmt *stmt)
{
    bool is_row = false;
    TRY(stmt_step(stmt, &is_row));
    if (is_row) {
        stmt_reset(stmt);
    }
    return ERR_NONE;
}

void stmt_reset(Stmt *stmt)
{
    sqlite3_reset(stmt->is);
}

const char *stmt_get_text(const Stmt *stmt, int at, Arena *arena)
{
    const unsigned char *text = sqlite3_column_text(stmt->is, at);
    return text ? arena_copy_text(arena, (const char *)text) : "";
}

int64_t stmt_get_whole(const Stmt *stmt, int at)
{
    return sqlite3_column_int64(stmt->is, at);
}

Err db_run(const StoreDb *store, const char *sql)
{
    int code = sqlite3_exec(store->db, sql, NULL, NULL, NULL);
    return code == SQLITE_OK ? ERR_NONE : db_error(store, code);
}

/* ---- Transactions ---------------------------------------------------------
 */

Err change_begin(Change *change, const StoreDb *store)
{
    change->store = NULL;
    TRY(db_run(store, "BEGIN IMMEDIATE"));
    change->store = store;
    return ERR_NONE;
}

Err change_commit(Change *change)
{
    Err err = db_run(change->store, "COMMIT");
    if (err.kind == ERR_OK) {
        change->store = NULL;
    }
    return err;
}

void change_close(Change *change)
{
    if (change->store && !sqlite3_get_autocommit(change->store->db)) {
        sqlite3_exec(change->store->db, "ROLLBACK", NULL, NULL, NULL);
    }
    change->store = NULL;
}

/* ---- Opening --------------------------------------------------------------
 */

static void path_of(const char *dir, char out[1024])
{
    snprintf(out, 1024, "%.1000s/" STORE_FILE, dir);
}

static bool is_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file) {
        fclose(file);
    }
    return file != NULL;
}

bool store_is_there(const char *dir)
{
    char path[1024];
    path_of(dir, path);
    return is_file(path);
}

void store_close(StoreDb *store)
{
    sqlite3_close(store->db);
    store->db = NULL;
}

/* A small file is looked through whole; a large one is when a server starts
 * and at every backup. */
static Err look_through(const StoreDb *store)
{
    CLEANUP(stmt_close) Stmt pages = {0};
    TRY(stmt_open(&pages, store,
                  "SELECT page_count * page_size FROM pragma_page_count, "
                  "pragma_page_size"));
    bool is_row = false;
    TRY(stmt_step(&pages, &is_row));
    int64_t bytes = is_row ? stmt_get_whole(&pages, 0) : 0;
    return bytes > (int64_t)QUICK_CHECK_MAX_MB * BYTES_PER_MB
               ? ERR_NONE
               : store_look_through(store);
}

Err store_look_through(const StoreDb *store)
{
    CLEANUP(stmt_close) Stmt check = {0};
    TRY(stmt_open(&check, store, "PRAGMA quick_check(1)"));
    bool is_row = false;
    TRY(stmt_step(&check, &is_row));
    const char *text =
        is_row ? (const char *)sqlite3_column_text(check.is, 0) : "";
    if (!text || strcmp(text, "ok") != 0) {
        char offer[400];
        backup_offer(store->path, offer);
        return err_make(ERR_IO, "%.80s is damaged (%.50s)%.110s", store->path,
                        text ? text : "", offer);
    }
    return ERR_NONE;
}

/* The one change that SQLite does not wait with while somebody else is in the
 * file: two that make a new one at the same time. */
static Err turn_to_wal(const StoreDb *store)
{
    Err err = db_run(store, "PRAGMA journal_mode = WAL");
    for (int ms = 0; err.kind == ERR_BUSY && ms < BUSY_MS; ms += RETRY_MS) {
        sqlite3_sleep(RETRY_MS);
        err = db_run(store, "PRAGMA journal_mode = WAL");
    }
    return err;
}

static Err set_up(const StoreDb *store)
{
    sqlite3_busy_timeout(store->db, BUSY_MS);
    sqlite3_extended_result_codes(store->db, 1);
    TRY(db_run(store, "PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF;"
                      "PRAGMA cell_size_check = ON;"
                      "PRAGMA synchronous = FULL; PRAGMA temp_store = MEMORY"));
    return turn_to_wal(store);
}

int open_private(const char *file, int flags, struct sqlite3 **out)
{
    mode_t before = umask(S_IRWXG | S_IRWXO);
    int code = sqlite3_open_v2(file, out, flags, NULL);
    /* The file is made by the first look into it. */
    if (code == SQLITE_OK && (flags & SQLITE_OPEN_CREATE)) {
        sqlite3_exec(*out, "BEGIN IMMEDIATE; ROLLBACK", NULL, NULL, NULL);
    }
    umask(before);
    return code;
}

static Err open_file(StoreDb *store, StoreMode mode)
{
    int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOFOLLOW |
                (mode == STORE_CREATE ? SQLITE_OPEN_CREATE : 0);
    int code = open_private(store->path, flags, &store->db);
    if (code != SQLITE_OK) {
        Err err = db_error(store, code);
        return store->db
                   ? err
                   : err_make(ERR_IO, "%.120s cannot be opened", store->path);
    }
    store->is_read_only = sqlite3_db_readonly(store->db, "main") == 1;
    return ERR_NONE;
}

static Err open_whole(StoreDb *store, StoreMode mode)
{
    TRY(open_file(store, mode));
    if (store->is_read_only) {
        sqlite3_busy_timeout(store->db, BUSY_MS);
    } else {
        TRY(set_up(store));
    }
    TRY(look_through(store));
    TRY(migrate(store));
    return mode == STORE_READ ? db_run(store, "PRAGMA query_only = ON")
                              : ERR_NONE;
}

Err store_open(const char *dir, StoreMode mode, StoreDb *out)
{
    StoreDb store = {0};
    path_of(dir, store.path);
    if (mode != STORE_CREATE && !is_file(store.path)) {
        return err_make(ERR_NOT_FOUND,
                        "%.120s: nothing was told to this farm yet", dir);
    }
    Err err = open_whole(&store, mode);
    if (err.kind != ERR_OK) {
        store_close(&store);
        return err;
    }
    *out = store;
    return ERR_NONE;
}
