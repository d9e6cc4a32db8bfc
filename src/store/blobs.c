/* Photos and voice notes, kept as they are. */
#include <string.h>

#include "store/db.h"

enum { SHA256_HEX = 64 };

static bool is_sha256(const char *text)
{
    return strlen(text) == SHA256_HEX &&
           strspn(text, "0123456789abcdef") == SHA256_HEX;
}

Err store_blob_put(StoreDb *store, const StoreBlob *blob)
{
    if (!is_sha256(blob->sha256)) {
        return err_make(ERR_INPUT, "blob %.70s: expected 64 hex digits",
                        blob->sha256);
    }
    if (blob->length < 1 || blob->length > STORE_BLOB_MAX_BYTES) {
        return err_make(ERR_LIMIT,
                        "a photo or voice note of %zu bytes; at most %d are "
                        "kept",
                        blob->length, (int)STORE_BLOB_MAX_BYTES);
    }
    CLEANUP(stmt_close) Stmt put = {0};
    TRY(stmt_open(&put, store,
                  "INSERT OR IGNORE INTO blob (sha256, type, bytes) VALUES "
                  "(?1, ?2, ?3)"));
    TRY(stmt_text(&put, 1, blob->sha256));
    TRY(stmt_text(&put, 2, blob->type));
    int code = sqlite3_bind_blob64(put.is, 3, blob->bytes, blob->length,
                                   SQLITE_STATIC);
    return code == SQLITE_OK ? stmt_run(&put) : db_error(store, code);
}

Err store_blob_find(StoreDb *store, const char *sha256, Arena *arena,
                    StoreBlob *out)
{
    CLEANUP(stmt_close) Stmt query = {0};
    TRY(stmt_open(&query, store,
                  "SELECT sha256, type, bytes FROM blob WHERE sha256 = ?1"));
    TRY(stmt_text(&query, 1, sha256));
    bool is_row = false;
    TRY(stmt_step(&query, &is_row));
    if (!is_row) {
        return err_make(ERR_NOT_FOUND, "there is no photo or voice note %.70s",
                        sha256);
    }
    size_t length = (size_t)sqlite3_column_bytes(query.is, 2);
    *out = (StoreBlob){.sha256 = stmt_get_text(&query, 0, arena),
                       .type = stmt_get_text(&query, 1, arena),
                       .bytes = arena_copy_bytes(
                           arena, sqlite3_column_blob(query.is, 2), length),
                       .length = length};
    return ERR_NONE;
}
