/* Entries in and out of the database. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "store/db.h"

enum { SQL_SIZE = 4096, UID_BYTES = 16, FIRST_ROOM = 64 };

/* SQL made of constant pieces; values are always bound. */
typedef struct Sql {
    char text[SQL_SIZE];
    size_t length;
} Sql;

static void add_piece(Sql *sql, const char *piece)
{
    size_t length = strlen(piece);
    if (sql->length + length < SQL_SIZE) {
        memcpy(sql->text + sql->length, piece, length + 1);
        sql->length += length;
    }
}

static void say_columns(Sql *sql, const char *before)
{
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        add_piece(sql, i > 0 ? ", " : "");
        add_piece(sql, before);
        add_piece(sql, "\"");
        add_piece(sql, TOLD_FIELD_TABLE[i].name);
        add_piece(sql, "\"");
    }
}

/* ---- Adding ---------------------------------------------------------------
 */

static int bind_field(Stmt *stmt, int place, const Told *told, ToldFieldId id)
{
    const ToldField *field = &TOLD_FIELD_TABLE[id];
    const char *member = (const char *)told + field->offset;
    if (!told_has(told, id) || id == TOLD_AT_number) {
        return sqlite3_bind_null(stmt->is, place);
    }
    switch (field->type) {
    case TOLD_TYPE_TEXT:
        return sqlite3_bind_text(stmt->is, place,
                                 *(const char *const *)(const void *)member, -1,
                                 SQLITE_TRANSIENT);
    case TOLD_TYPE_WHOLE:
        return sqlite3_bind_int64(stmt->is, place,
                                  *(const int64_t *)(const void *)member);
    case TOLD_TYPE_REAL:
        return sqlite3_bind_double(stmt->is, place,
                                   *(const double *)(const void *)member);
    case TOLD_TYPE_DAY:
        return sqlite3_bind_int64(stmt->is, place,
                                  *(const int32_t *)(const void *)member);
    case TOLD_TYPE_FLAG:
        return sqlite3_bind_int64(stmt->is, place, 1);
    case TOLD_TYPE_KIND:
        return sqlite3_bind_text(stmt->is, place, told_kind_word(told->kind),
                                 -1, SQLITE_STATIC);
    }
    return SQLITE_ERROR;
}

typedef struct Adding {
    StoreDb *store;
    Stmt find;
    Stmt insert;
    int32_t first_day; /* the earliest day that changes */
} Adding;

static void adding_close(Adding *adding)
{
    stmt_close(&adding->find);
    stmt_close(&adding->insert);
}

static Err adding_open(Adding *adding, StoreDb *store)
{
    adding->store = store;
    adding->first_day = DATE_NEVER;
    TRY(stmt_open(&adding->find, store,
                  "SELECT number FROM entry WHERE uid = ?1"));
    Sql sql = {.length = 0};
    add_piece(&sql, "INSERT INTO entry (");
    say_columns(&sql, "");
    add_piece(&sql, ") VALUES (");
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        add_piece(&sql, i > 0 ? ", ?" : "?");
    }
    add_piece(&sql, ")");
    return stmt_open(&adding->insert, store, sql.text);
}

static void choose_uid(char out[2 * UID_BYTES + 1])
{
    unsigned char bytes[UID_BYTES];
    sqlite3_randomness(UID_BYTES, bytes);
    for (int i = 0; i < UID_BYTES; i++) {
        snprintf(out + 2 * i, 3, "%02x", bytes[i]);
    }
}

/* The entry that is struck through, whose day's state changes. */
static Err check_strike(Adding *adding, const Told *told)
{
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, adding->store,
                  "SELECT kind, happened_on FROM entry WHERE number = ?1"));
    TRY(stmt_whole(&query, 1, told->strikes));
    bool is_row = false;
    TRY(stmt_step(&query, &is_row));
    if (!is_row) {
        return err_make(ERR_NOT_FOUND, "strikes=%lld: there is no such entry",
                        (long long)told->strikes);
    }
    const char *kind = (const char *)sqlite3_column_text(query.is, 0);
    if (strcmp(kind, told_kind_word(TOLD_STRUCK)) == 0) {
        return err_make(ERR_CONFLICT,
                        "strikes=%lld: that entry strikes another through; "
                        "tell the fact anew instead",
                        (long long)told->strikes);
    }
    int32_t day = (int32_t)stmt_get_whole(&query, 1);
    adding->first_day = day < adding->first_day ? day : adding->first_day;
    return ERR_NONE;
}

static Err add_one(Adding *adding, const Told *told, StoreAdded *out)
{
    Told entry = *told;
    char uid[2 * UID_BYTES + 1];
    if (!*entry.uid) {
        choose_uid(uid);
        entry.uid = uid;
    }
    bool is_row = false;
    TRY(stmt_text(&adding->find, 1, entry.uid));
    TRY(stmt_step(&adding->find, &is_row));
    if (is_row) {
        *out = (StoreAdded){stmt_get_whole(&adding->find, 0), false};
        stmt_reset(&adding->find);
        return ERR_NONE;
    }
    if (entry.strikes > 0) {
        TRY(check_strike(adding, &entry));
    }
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        int code = bind_field(&adding->insert, i + 1, &entry, (ToldFieldId)i);
        if (code != SQLITE_OK) {
            return db_error(adding->store, code);
        }
    }
    TRY(stmt_run(&adding->insert));
    *out = (StoreAdded){sqlite3_last_insert_rowid(adding->store->db), true};
    if (entry.happened_on < adding->first_day) {
        adding->first_day = entry.happened_on;
    }
    return ERR_NONE;
}

Err store_add(StoreDb *store, const Told *tolds, int32_t count, StoreAdded *out)
{
    for (int32_t i = 0; i < count; i++) {
        TRY(told_check_alone(&tolds[i]));
    }
    CLEANUP(change_close) Change change = {0};
    TRY(change_begin(&change, store));
    CLEANUP(adding_close) Adding adding = {0};
    TRY(adding_open(&adding, store));
    for (int32_t i = 0; i < count; i++) {
        TRY(add_one(&adding, &tolds[i], &out[i]));
    }
    if (adding.first_day != DATE_NEVER) {
        CLEANUP(stmt_close) Stmt drop = {0};
        TRY(stmt_open(&drop, store, "DELETE FROM checkpoint WHERE day >= ?1"));
        TRY(stmt_whole(&drop, 1, adding.first_day));
        TRY(stmt_run(&drop));
    }
    return change_commit(&change);
}

/* ---- Reading --------------------------------------------------------------
 */

enum {
    P_FROM = 1,
    P_UNTIL,
    P_PLACE = 4,
    P_WHO,
    P_BATCH,
    P_JOB,
    P_UID,
    P_BEFORE,
    P_AFTER,
    P_LIMIT,
    P_LOT,
};

static bool is_asked(const char *text)
{
    return text && *text;
}

static void say_kinds(Sql *sql, uint64_t kinds)
{
    const char *before = " AND e.kind IN (";
    for (int i = 0; i < TOLD_KIND_COUNT; i++) {
        if (kinds >> i & 1) {
            add_piece(sql, before);
            add_piece(sql, "'"); /* words of our own list */
            add_piece(sql, told_kind_word(i));
            add_piece(sql, "'");
            before = ", ";
        }
    }
    add_piece(sql, ")");
}

static const char *order_of(const StoreFilter *filter)
{
    return filter->is_told_order ? " ORDER BY e.number"
           : filter->is_fold_order
               ? " ORDER BY e.happened_on, e.number"
               : " ORDER BY e.happened_on DESC, e.number DESC";
}

/* Numbers of the entries wanted, of one place by one of its columns: found in
 * the indexes alone, before any row is read. */
static void say_numbers(Sql *sql, const StoreFilter *filter, const char *place)
{
    add_piece(sql, "SELECT e.number, e.happened_on FROM entry AS e "
                   "WHERE e.happened_on BETWEEN ?1 AND ?2");
    if (filter->kinds) {
        say_kinds(sql, filter->kinds);
    }
    add_piece(sql, place);
    add_piece(sql, is_asked(filter->who) ? " AND e.who = ?5" : "");
    add_piece(sql, is_asked(filter->batch) ? " AND e.batch = ?6" : "");
    add_piece(sql, is_asked(filter->job) ? " AND e.job = ?7" : "");
    add_piece(sql, is_asked(filter->lot) ? " AND e.lot = ?12" : "");
    add_piece(sql, is_asked(filter->uid) ? " AND e.uid = ?8" : "");
    add_piece(sql, filter->before > 0 ? " AND e.number < ?9" : "");
    add_piece(sql, filter->after > 0 ? " AND e.number > ?10" : "");
    add_piece(sql, filter->without_struck
                       ? " AND NOT EXISTS (SELECT 1 FROM entry AS x "
                         "WHERE x.strikes = e.number)"
                       : "");
    add_piece(sql, order_of(filter));
    add_piece(sql, filter->limit > 0 ? " LIMIT ?11" : "");
}

static void say_hits(Sql *sql, const StoreFilter *filter)
{
    if (is_asked(filter->place)) {
        add_piece(sql, "SELECT * FROM (");
        say_numbers(sql, filter, " AND e.place = ?4");
        add_piece(sql, ") UNION ALL SELECT * FROM (");
        say_numbers(sql, filter, " AND e.to_place = ?4");
        add_piece(sql, ")");
    } else {
        say_numbers(sql, filter, "");
    }
}

/* Parameters that the filter does not name are not in the statement. */
static Err bind_filter(Stmt *stmt, const StoreFilter *filter)
{
    const char *texts[] = {[P_PLACE] = filter->place,
                           [P_WHO] = filter->who,
                           [P_BATCH] = filter->batch,
                           [P_JOB] = filter->job,
                           [P_UID] = filter->uid};
    TRY(stmt_whole(stmt, P_FROM, filter->from));
    TRY(stmt_whole(stmt, P_UNTIL, filter->until));
    int last = sqlite3_bind_parameter_count(stmt->is);
    for (int i = P_PLACE; i <= P_UID && i <= last; i++) {
        TRY(stmt_text(stmt, i, texts[i]));
    }
    if (P_LOT <= last) {
        TRY(stmt_text(stmt, P_LOT, filter->lot));
    }
    const int64_t wholes[] = {filter->before, filter->after, filter->limit};
    for (int i = P_BEFORE; i <= P_LIMIT && i <= last; i++) {
        TRY(stmt_whole(stmt, i, wholes[i - P_BEFORE]));
    }
    return ERR_NONE;
}

static void get_field(const Stmt *stmt, ToldFieldId id, Arena *arena,
                      Told *told)
{
    const ToldField *field = &TOLD_FIELD_TABLE[id];
    void *member = (char *)told + field->offset;
    if (sqlite3_column_type(stmt->is, (int)id) == SQLITE_NULL) {
        return;
    }
    switch (field->type) {
    case TOLD_TYPE_TEXT:
        *(const char **)member = stmt_get_text(stmt, (int)id, arena);
        return;
    case TOLD_TYPE_WHOLE:
        *(int64_t *)member = stmt_get_whole(stmt, (int)id);
        return;
    case TOLD_TYPE_REAL:
        *(double *)member = sqlite3_column_double(stmt->is, (int)id);
        return;
    case TOLD_TYPE_DAY:
        *(int32_t *)member = (int32_t)stmt_get_whole(stmt, (int)id);
        return;
    case TOLD_TYPE_FLAG:
        *(bool *)member = stmt_get_whole(stmt, (int)id) != 0;
        return;
    case TOLD_TYPE_KIND: {
        const char *word = (const char *)sqlite3_column_text(stmt->is, (int)id);
        for (int k = 0; k < TOLD_KIND_COUNT; k++) {
            if (strcmp(word, TOLD_KIND_TABLE[k].word) == 0) {
                told->kind = k;
            }
        }
        return;
    }
    }
}

static void get_told(const Stmt *stmt, Arena *arena, Told *out)
{
    *out = told_blank(TOLD_SEEN, DATE_ALWAYS);
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        get_field(stmt, (ToldFieldId)i, arena, out);
    }
    out->struck_by = stmt_get_whole(stmt, TOLD_FIELD_COUNT);
    if (out->struck_by > 0) {
        out->struck_why = stmt_get_text(stmt, TOLD_FIELD_COUNT + 1, arena);
        out->struck_who = stmt_get_text(stmt, TOLD_FIELD_COUNT + 2, arena);
    }
}

Err store_read(StoreDb *store, const StoreFilter *filter, Arena *arena,
               Tolds *out)
{
    Sql sql = {.length = 0};
    add_piece(&sql, "SELECT ");
    say_columns(&sql, "e.");
    add_piece(&sql, ", s.number, s.text, s.who FROM (");
    say_hits(&sql, filter);
    add_piece(&sql, ") AS hit JOIN entry AS e ON e.number = hit.number "
                    "LEFT JOIN entry AS s "
                    "ON s.number = (SELECT min(x.number) FROM entry AS x "
                    "WHERE x.strikes = e.number)");
    add_piece(&sql, order_of(filter));
    add_piece(&sql, filter->limit > 0 ? " LIMIT ?11" : "");
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store, sql.text));
    TRY(bind_filter(&query, filter));
    Tolds tolds = {0};
    size_t room = 0;
    for (;;) {
        bool is_row = false;
        TRY(stmt_step(&query, &is_row));
        if (!is_row) {
            break;
        }
        if ((size_t)tolds.count == room) {
            size_t more = room > 0 ? 2 * room : FIRST_ROOM;
            tolds.items =
                arena_grow(arena, tolds.items, room, more, sizeof(Told));
            room = more;
        }
        get_told(&query, arena, &tolds.items[tolds.count++]);
    }
    *out = tolds;
    return ERR_NONE;
}

Err store_newest(StoreDb *store, int64_t *out_number, int64_t *out_count)
{
    CLEANUP(stmt_close) Stmt query = {0};
    /* Numbers are never reused and rows never removed, so that the newest
     * number is their count; the test of the store holds this. */
    TRY(stmt_open(&query, store, "SELECT max(number) FROM entry"));
    bool is_row = false;
    TRY(stmt_step(&query, &is_row));
    *out_number = is_row ? stmt_get_whole(&query, 0) : 0;
    *out_count = *out_number;
    return ERR_NONE;
}
