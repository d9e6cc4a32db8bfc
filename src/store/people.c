/* People and their sessions. */
#include <string.h>

#include "store/db.h"

#define PERSON_COLUMNS                                                         \
    "SELECT id, name, hand, role, language, mass_unit, temp_unit, hash, "      \
    "is_gone FROM person "

static StorePerson get_person(const Stmt *stmt, Arena *arena)
{
    return (StorePerson){.id = stmt_get_whole(stmt, 0),
                         .name = stmt_get_text(stmt, 1, arena),
                         .hand = stmt_get_text(stmt, 2, arena),
                         .role = stmt_get_text(stmt, 3, arena),
                         .language = stmt_get_text(stmt, 4, arena),
                         .mass_unit = stmt_get_text(stmt, 5, arena),
                         .temp_unit = stmt_get_text(stmt, 6, arena),
                         .hash = stmt_get_text(stmt, 7, arena),
                         .is_gone = stmt_get_whole(stmt, 8) != 0};
}

static Err count_of(StoreDb *store, const char *sql, int64_t *out)
{
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store, sql));
    bool is_row = false;
    TRY(stmt_step(&query, &is_row));
    *out = is_row ? stmt_get_whole(&query, 0) : 0;
    return ERR_NONE;
}

Err store_people_read(StoreDb *store, Arena *arena, StorePeople *out)
{
    int64_t most = 0;
    TRY(count_of(store, "SELECT count(*) FROM person", &most));
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store, PERSON_COLUMNS "ORDER BY name"));
    StorePeople people = {ARENA_ARRAY(arena, StorePerson, most), 0};
    while (people.count < most) {
        bool is_row = false;
        TRY(stmt_step(&query, &is_row));
        if (!is_row) {
            break;
        }
        people.items[people.count++] = get_person(&query, arena);
    }
    *out = people;
    return ERR_NONE;
}

Err store_people_find(StoreDb *store, const char *name, Arena *arena,
                      StorePerson *out)
{
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store, PERSON_COLUMNS "WHERE name = ?1"));
    TRY(stmt_text(&query, 1, name));
    bool is_row = false;
    TRY(stmt_step(&query, &is_row));
    if (!is_row) {
        return err_make(ERR_NOT_FOUND, "nobody is called \"%.60s\" here", name);
    }
    *out = get_person(&query, arena);
    return ERR_NONE;
}

static const char *or_blank(const char *text)
{
    return text ? text : "";
}

Err store_people_put(StoreDb *store, const StorePerson *person, int64_t *out_id)
{
    CLEANUP(change_close) Change change = {0};
    TRY(change_begin(&change, store));
    CLEANUP(stmt_close) Stmt put = {0};
    TRY(stmt_open(&put, store,
                  person->id > 0
                      ? "UPDATE person SET name = ?1, hand = ?2, role = ?3, "
                        "language = ?4, mass_unit = ?5, temp_unit = ?6, "
                        "hash = ?7, is_gone = ?8 WHERE id = ?9"
                      : "INSERT INTO person (name, hand, role, language, "
                        "mass_unit, temp_unit, hash, is_gone) VALUES (?1, ?2, "
                        "?3, ?4, ?5, ?6, ?7, ?8)"));
    const char *texts[] = {
        person->name,      person->hand,      person->role, person->language,
        person->mass_unit, person->temp_unit, person->hash};
    enum { TEXTS = sizeof texts / sizeof *texts };
    for (int i = 0; i < TEXTS; i++) {
        TRY(stmt_text(&put, i + 1, or_blank(texts[i])));
    }
    TRY(stmt_whole(&put, TEXTS + 1, person->is_gone));
    if (person->id > 0) {
        TRY(stmt_whole(&put, TEXTS + 2, person->id));
    }
    TRY(stmt_run(&put));
    if (person->id > 0 && sqlite3_changes(store->db) == 0) {
        return err_make(ERR_NOT_FOUND, "there is no person %lld",
                        (long long)person->id);
    }
    int64_t id =
        person->id > 0 ? person->id : sqlite3_last_insert_rowid(store->db);
    TRY(change_commit(&change));
    *out_id = id;
    return ERR_NONE;
}

static Err run_with(StoreDb *store, const char *sql, const char *first,
                    const char *second)
{
    CLEANUP(stmt_close) Stmt stmt = {0};
    TRY(stmt_open(&stmt, store, sql));
    TRY(stmt_text(&stmt, 1, first));
    if (second) {
        TRY(stmt_text(&stmt, 2, second));
    }
    return stmt_run(&stmt);
}

Err store_people_erase(StoreDb *store, const char *name, const char *instead,
                       int64_t *out_entries)
{
    CLEANUP(change_close) Change change = {0};
    TRY(change_begin(&change, store));
    TRY(run_with(store, "DELETE FROM person WHERE name = ?1", name, NULL));
    TRY(run_with(store, "UPDATE entry SET who = ?2 WHERE who = ?1", name,
                 instead));
    int64_t entries = sqlite3_changes(store->db);
    TRY(change_commit(&change));
    *out_entries = entries;
    /* What was there must not stay in free pages of the file. */
    return db_run(store, "VACUUM; PRAGMA wal_checkpoint(TRUNCATE)");
}

/* ---- Sessions -------------------------------------------------------------
 */

Err store_session_put(StoreDb *store, const StoreSession *session)
{
    CLEANUP(stmt_close) Stmt put = {0};
    TRY(stmt_open(&put, store,
                  "INSERT OR REPLACE INTO session (token_hash, person, device, "
                  "made_at, seen_at, ends_at) VALUES (?1, ?2, ?3, ?4, ?5, "
                  "?6)"));
    TRY(stmt_text(&put, 1, session->token_hash));
    TRY(stmt_whole(&put, 2, session->person));
    TRY(stmt_text(&put, 3, or_blank(session->device)));
    TRY(stmt_whole(&put, 4, session->made_at));
    TRY(stmt_whole(&put, 5, session->seen_at));
    TRY(stmt_whole(&put, 6, session->ends_at));
    return stmt_run(&put);
}

Err store_session_find(StoreDb *store, const char *token_hash, int64_t now,
                       Arena *arena, StoreSession *out)
{
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store,
                  "SELECT token_hash, person, device, made_at, seen_at, "
                  "ends_at FROM session WHERE token_hash = ?1 AND ends_at > "
                  "?2"));
    TRY(stmt_text(&query, 1, token_hash));
    TRY(stmt_whole(&query, 2, now));
    bool is_row = false;
    TRY(stmt_step(&query, &is_row));
    if (!is_row) {
        return err_make(ERR_NOT_FOUND, "no session: log in again");
    }
    *out = (StoreSession){.token_hash = stmt_get_text(&query, 0, arena),
                          .person = stmt_get_whole(&query, 1),
                          .device = stmt_get_text(&query, 2, arena),
                          .made_at = stmt_get_whole(&query, 3),
                          .seen_at = stmt_get_whole(&query, 4),
                          .ends_at = stmt_get_whole(&query, 5)};
    return ERR_NONE;
}

Err store_session_end(StoreDb *store, const char *token_hash)
{
    return run_with(store, "DELETE FROM session WHERE token_hash = ?1",
                    token_hash, NULL);
}

Err store_session_end_all(StoreDb *store, int64_t person, int64_t now)
{
    CLEANUP(stmt_close) Stmt end = {0};
    TRY(stmt_open(&end, store,
                  "DELETE FROM session WHERE ?1 = 0 OR person = ?1 OR "
                  "ends_at <= ?2"));
    TRY(stmt_whole(&end, 1, person));
    TRY(stmt_whole(&end, 2, now));
    return stmt_run(&end);
}
