/* From any earlier version of the database to this one. */
#include <stdlib.h>
#include <string.h>

#include "base/embed.h"
#include "store/db.h"

/* migrations/NNN-what.sql in their order; the file's user_version is the
 * number of those it has. */
extern const EmbeddedFile MIGRATION_FILES[];
extern const size_t MIGRATION_FILES_COUNT;

static Err pragma(const StoreDb *store, const char *sql, int64_t *out)
{
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store, sql));
    bool is_row = false;
    TRY(stmt_step(&query, &is_row));
    *out = is_row ? stmt_get_whole(&query, 0) : 0;
    return ERR_NONE;
}

/* PRAGMA takes no bound values: the numbers are ours, never typed. */
static Err set_version(const StoreDb *store, size_t version)
{
    char sql[96];
    sqlite3_snprintf((int)sizeof sql, sql,
                     "PRAGMA application_id = %d; PRAGMA user_version = %d",
                     (int)STORE_APPLICATION_ID, (int)version);
    return db_run(store, sql);
}

static Err step(const StoreDb *store, size_t number)
{
    CLEANUP(change_close) Change change = {0};
    TRY(change_begin(&change, store));
    int64_t version = 0;
    TRY(pragma(store, "PRAGMA user_version", &version));
    if ((size_t)version == number) { /* nobody else was faster */
        TRY(db_run(store, MIGRATION_FILES[number].bytes));
        TRY(set_version(store, number + 1));
    }
    return change_commit(&change);
}

/* All three of one moment: somebody else may be making the file just now. */
static Err look(const StoreDb *store, int64_t *out_version,
                int64_t *out_application, int64_t *out_tables)
{
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store,
                  "SELECT user_version, application_id, "
                  "(SELECT count(*) FROM sqlite_schema) "
                  "FROM pragma_user_version, pragma_application_id"));
    bool is_row = false;
    TRY(stmt_step(&query, &is_row));
    *out_version = is_row ? stmt_get_whole(&query, 0) : 0;
    *out_application = is_row ? stmt_get_whole(&query, 1) : 0;
    *out_tables = is_row ? stmt_get_whole(&query, 2) : 0;
    return ERR_NONE;
}

Err migrate(const StoreDb *store)
{
    int64_t version = 0;
    int64_t application = 0;
    int64_t tables = 0;
    TRY(look(store, &version, &application, &tables));
    bool is_new = version == 0 && tables == 0;
    if (!is_new && application != STORE_APPLICATION_ID) {
        return err_make(ERR_INPUT, "%.120s is not a database of Leat",
                        store->path);
    }
    if (version < 0 || (size_t)version > MIGRATION_FILES_COUNT) {
        return err_make(ERR_CONFLICT,
                        "%.120s was written by a newer Leat (version %d; this "
                        "one knows %d)",
                        store->path, (int)version, (int)MIGRATION_FILES_COUNT);
    }
    if (is_new && store->is_read_only) {
        return err_make(ERR_INPUT, "%.120s is empty", store->path);
    }
    for (size_t i = (size_t)version; i < MIGRATION_FILES_COUNT; i++) {
        TRY(step(store, i));
    }
    return ERR_NONE;
}
