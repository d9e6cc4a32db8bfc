/* Photos and voice notes of the journal. */
#include "desk/blob.h"

#include <string.h>

#include <sodium.h>

enum { DIGITS = 64 };

Err blob_keep(const char *dir, const char *type, const void *bytes,
              size_t length, Arena *arena, const char **out_sha256)
{
    if (length == 0) {
        return err_make(ERR_INPUT, "the picture or sound is empty");
    }
    if (sodium_init() < 0) {
        return err_make(ERR_IO, "the machine gives no random numbers");
    }
    unsigned char hash[crypto_hash_sha256_BYTES];
    crypto_hash_sha256(hash, bytes, length);
    char *text = arena_alloc(arena, DIGITS + 1, 1);
    sodium_bin2hex(text, DIGITS + 1, hash, sizeof hash);
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(dir, STORE_CREATE, &store));
    StoreBlob blob = {
        .sha256 = text, .type = type, .bytes = bytes, .length = length};
    TRY(store_blob_put(&store, &blob));
    *out_sha256 = text;
    return ERR_NONE;
}

Err blob_find(const char *dir, const char *sha256, Arena *arena, StoreBlob *out)
{
    if (strlen(sha256) != DIGITS ||
        strspn(sha256, "0123456789abcdef") != DIGITS) {
        return err_make(ERR_USAGE, "sha256: expected 64 hex digits");
    }
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(dir, STORE_READ, &store));
    return store_blob_find(&store, sha256, arena, out);
}
