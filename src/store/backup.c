/* Whole copies of the database, on a running farm, and back. */
#include <stdio.h>
#include <string.h>

#include "store/db.h"

enum { PAGES_A_STEP = 256, TRIES = 200, WAIT_MS = 25, NAME_SIZE = 1024 };

static bool is_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file) {
        fclose(file);
    }
    return file != NULL;
}

/* ---- The list of backups, beside the database -----------------------------
 */

static void list_name(const char *path, char out[NAME_SIZE + 16])
{
    snprintf(out, NAME_SIZE + 16, "%.1000s-backups", path);
}

/* A line a backup, the newest last. Without it a damaged file could not say
 * what to go back to; a disk that is full only loses the hint. */
static void list_add(const char *path, const char *file)
{
    char name[NAME_SIZE + 16];
    list_name(path, name);
    FILE *list = fopen(name, "ab");
    if (list) {
        fprintf(list, "%s\n", file);
        fclose(list);
    }
}

void backup_offer(const char *path, char *out)
{
    char name[NAME_SIZE + 16];
    char line[NAME_SIZE];
    char last[NAME_SIZE] = "";
    out[0] = '\0';
    list_name(path, name);
    FILE *list = fopen(name, "rb");
    if (!list) {
        snprintf(out, 400, "; no backup is known");
        return;
    }
    while (fgets(line, (int)sizeof line, list)) {
        line[strcspn(line, "\n")] = '\0';
        if (is_file(line)) {
            memcpy(last, line, sizeof last);
        }
    }
    fclose(list);
    if (*last) {
        snprintf(out, 400, "; last good backup: %.340s (leat restore)", last);
    } else {
        snprintf(out, 400, "; no backup is found where it was written");
    }
}

/* ---- Backup ---------------------------------------------------------------
 */

static void close_db(sqlite3 **db)
{
    sqlite3_close(*db);
    *db = NULL;
}

static Err copy_pages(StoreDb *store, sqlite3 *to, const char *file)
{
    sqlite3_backup *backup = sqlite3_backup_init(to, "main", store->db, "main");
    if (!backup) {
        return err_make(ERR_IO, "%.120s cannot be written: %.80s", file,
                        sqlite3_errmsg(to));
    }
    int code = SQLITE_OK;
    for (int waits = 0; waits < TRIES;) {
        code = sqlite3_backup_step(backup, PAGES_A_STEP);
        if (code == SQLITE_BUSY || code == SQLITE_LOCKED) {
            sqlite3_sleep(WAIT_MS);
            waits++;
        } else if (code != SQLITE_OK) {
            break;
        }
    }
    int closed = sqlite3_backup_finish(backup);
    code = code == SQLITE_DONE ? closed : code;
    if (code == SQLITE_OK) {
        return ERR_NONE;
    }
    return code == SQLITE_FULL
               ? err_make(ERR_IO, "%.120s: the disk is full", file)
               : err_make(ERR_IO, "%.120s cannot be written: %.80s", file,
                          sqlite3_errstr(code));
}

static Err copy_to(StoreDb *store, const char *file)
{
    CLEANUP(close_db) sqlite3 *to = NULL;
    int code = open_private(
        file, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOFOLLOW,
        &to);
    if (code != SQLITE_OK) {
        return err_make(ERR_IO, "%.120s cannot be written: %.80s", file,
                        to ? sqlite3_errmsg(to) : "");
    }
    TRY(copy_pages(store, to, file));
    /* One plain file, without a write-ahead log beside it. */
    code = sqlite3_exec(to, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL);
    return code == SQLITE_OK
               ? ERR_NONE
               : err_make(ERR_IO, "%.120s: %.80s", file, sqlite3_errmsg(to));
}

Err store_backup(StoreDb *store, const char *file)
{
    if (is_file(file)) {
        return err_make(ERR_CONFLICT,
                        "%.160s is there already; nothing was written", file);
    }
    char part[NAME_SIZE];
    snprintf(part, sizeof part, "%.1000s.part", file);
    remove(part);
    Err err = copy_to(store, part);
    int64_t count = 0;
    if (err.kind == ERR_OK) {
        err = store_verify(part, &count);
    }
    if (err.kind == ERR_OK && rename(part, file) != 0) {
        err = err_make(ERR_IO, "%.160s cannot be written", file);
    }
    if (err.kind != ERR_OK) {
        remove(part);
        return err;
    }
    list_add(store->path, file);
    return ERR_NONE;
}

/* ---- Looking at a file, and putting it back -------------------------------
 */

static Err first_text(sqlite3 *db, const char *sql, const char *file,
                      char out[120])
{
    sqlite3_stmt *stmt = NULL;
    int code = sqlite3_prepare_v2(db, sql, -1, &stmt, NULL);
    code = code == SQLITE_OK ? sqlite3_step(stmt) : code;
    bool is_read = code == SQLITE_ROW;
    if (is_read) {
        snprintf(out, 120, "%.100s",
                 (const char *)sqlite3_column_text(stmt, 0));
    }
    sqlite3_finalize(stmt);
    return is_read ? ERR_NONE
                   : err_make(code == SQLITE_NOTADB ? ERR_INPUT : ERR_IO,
                              "%.120s: %.80s", file, sqlite3_errmsg(db));
}

Err store_verify(const char *file, int64_t *out_count)
{
    if (!is_file(file)) {
        return err_make(ERR_NOT_FOUND, "%.160s: there is no such file", file);
    }
    CLEANUP(close_db) sqlite3 *db = NULL;
    int code = sqlite3_open_v2(file, &db, SQLITE_OPEN_READONLY, NULL);
    if (code != SQLITE_OK) {
        return err_make(ERR_IO, "%.120s cannot be opened", file);
    }
    char text[120] = "";
    char mark[16];
    snprintf(mark, sizeof mark, "%d", (int)STORE_APPLICATION_ID);
    TRY(first_text(db, "PRAGMA application_id", file, text));
    if (strcmp(text, mark) != 0) {
        return err_make(ERR_INPUT, "%.160s is not a database of Leat", file);
    }
    TRY(first_text(db, "PRAGMA integrity_check(1)", file, text));
    if (strcmp(text, "ok") != 0) {
        return err_make(ERR_IO, "%.120s is damaged: %.100s", file, text);
    }
    TRY(first_text(db, "SELECT count(*) FROM entry", file, text));
    int64_t count = 0;
    for (const char *at = text; *at >= '0' && *at <= '9'; at++) {
        count = count * 10 + (*at - '0');
    }
    *out_count = count;
    return ERR_NONE;
}

/* Nobody may have the old file open while another takes its name: whoever has
 * would go on writing into the old one. A damaged file cannot be asked. */
static Err take_alone(const char *path)
{
    CLEANUP(close_db) sqlite3 *db = NULL;
    int code = sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE, NULL);
    if (code != SQLITE_OK) {
        return ERR_NONE;
    }
    code = sqlite3_exec(db,
                        "PRAGMA locking_mode = EXCLUSIVE;"
                        "PRAGMA journal_mode = DELETE; BEGIN EXCLUSIVE; COMMIT",
                        NULL, NULL, NULL);
    if ((code & 0xff) == SQLITE_BUSY || (code & 0xff) == SQLITE_LOCKED) {
        return err_make(
            ERR_BUSY, "%.120s is open in another Leat; stop that first", path);
    }
    return ERR_NONE;
}

static Err copy_file(const char *from, const char *to)
{
    CLEANUP(close_db) sqlite3 *source = NULL;
    int code = sqlite3_open_v2(from, &source, SQLITE_OPEN_READONLY, NULL);
    if (code != SQLITE_OK) {
        return err_make(ERR_IO, "%.120s cannot be opened", from);
    }
    StoreDb store = {.db = source};
    remove(to);
    return copy_to(&store, to);
}

static void move_beside(const char *path, const char *aside, const char *what)
{
    char from[NAME_SIZE + 16];
    char to[NAME_SIZE + 16];
    snprintf(from, sizeof from, "%.1000s%s", path, what);
    snprintf(to, sizeof to, "%.1000s%s", aside, what);
    rename(from, to);
}

/* Puts the old file and its log under the first free name "leat.db.old-N". */
static Err put_aside(const char *path, char *aside)
{
    enum { NAMES = 1000 };
    for (int i = 1; i < NAMES; i++) {
        snprintf(aside, NAME_SIZE, "%.1000s.old-%d", path, i);
        if (!is_file(aside)) {
            move_beside(path, aside, "-wal");
            move_beside(path, aside, "-shm");
            return rename(path, aside) == 0
                       ? ERR_NONE
                       : err_make(ERR_IO, "%.160s cannot be put aside", path);
        }
    }
    return err_make(ERR_CONFLICT, "%.120s: too many old databases beside it",
                    path);
}

Err store_restore(const char *dir, const char *file, char *out_aside)
{
    char path[NAME_SIZE];
    char part[NAME_SIZE];
    int64_t count = 0;
    snprintf(path, sizeof path, "%.900s/" STORE_FILE, dir);
    snprintf(part, sizeof part, "%.900s/" STORE_FILE ".part", dir);
    TRY(store_verify(file, &count));
    bool is_there = is_file(path);
    if (is_there) {
        TRY(take_alone(path));
    }
    Err err = copy_file(file, part);
    if (err.kind != ERR_OK) {
        remove(part);
        return err;
    }
    char aside[NAME_SIZE] = "";
    if (is_there) {
        TRY(put_aside(path, aside));
    }
    if (rename(part, path) != 0) {
        return err_make(ERR_IO, "%.160s cannot be put in its place", path);
    }
    memcpy(out_aside, aside, sizeof aside);
    return ERR_NONE;
}
