/* What the files of store/ share: statements that close themselves, and
 * SQLite's errors as ours. Only for store/. */
#ifndef LEAT_STORE_DB_H
#define LEAT_STORE_DB_H

#include <sqlite3.h>

#include "store/store.h"

/* A prepared statement; a zeroed one may be closed. */
typedef struct Stmt {
    sqlite3_stmt *is; /* Owned. */
    const StoreDb *store;
} Stmt;

NODISCARD Err stmt_open(Stmt *stmt, const StoreDb *store, const char *sql);
void stmt_close(Stmt *stmt);

/* Parameters count from 1. NULL text, and DAY_NONE, bind NULL. */
NODISCARD Err stmt_text(Stmt *stmt, int at, const char *text);
NODISCARD Err stmt_whole(Stmt *stmt, int at, int64_t value);

/* The next row, if there is one; then ready for the first again. */
NODISCARD Err stmt_step(Stmt *stmt, bool *out_is_row);
/* For statements that give no row. */
NODISCARD Err stmt_run(Stmt *stmt);
void stmt_reset(Stmt *stmt);

/* Columns count from 0; text is copied, NULL is "". */
const char *stmt_get_text(const Stmt *stmt, int at, Arena *arena);
int64_t stmt_get_whole(const Stmt *stmt, int at);

/* Several statements of constant text. */
NODISCARD Err db_run(const StoreDb *store, const char *sql);

/* The error that SQLite tells now, or of a code. */
NODISCARD Err db_error(const StoreDb *store, int code);

/* One transaction: begin, then commit, or closing it rolls back. */
typedef struct Change {
    const StoreDb *store; /* NULL: done */
} Change;

NODISCARD Err change_begin(Change *change, const StoreDb *store);
NODISCARD Err change_commit(Change *change);
void change_close(Change *change);

/* Brings the file to the newest version, a transaction a step. */
NODISCARD Err migrate(const StoreDb *store);
enum { STORE_APPLICATION_ID = 0x4c656174 }; /* "Leat" */

/* Opens a database file; one that is made here is its owner's alone, for names
 * and hours are in it. SQLite's own code. */
int open_private(const char *file, int flags, struct sqlite3 **out);

/* The last good backup that leat backup wrote for this file: its name with why
 * it is offered, or "". out: of 400 bytes. */
void backup_offer(const char *path, char *out);

#endif
