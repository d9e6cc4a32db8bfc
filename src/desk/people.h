/* People who use the pages: what each may do, passphrases and sessions.
 *
 * They are kept in the farm's store. A passphrase is kept as a salted hash of
 * libsodium, a session as a hash of its token: neither can be read back. */
#ifndef LEAT_DESK_PEOPLE_H
#define LEAT_DESK_PEOPLE_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

/* What a person may do; each may do all that those before may. */
#define PEOPLE_ROLES(R)                                                        \
    R(ROLE_ANYONE, "anyone") /* without login: the emergency card */           \
    R(ROLE_READER, "reader") /* sees */                                        \
    R(ROLE_HAND, "hand")     /* today's work and own entries */                \
    R(ROLE_GROWER, "grower") /* plans and records */                           \
    R(ROLE_OWNER, "owner")   /* all */

typedef enum PeopleRole {
#define PEOPLE_ROLE_ENUM(name, word) name,
    PEOPLE_ROLES(PEOPLE_ROLE_ENUM)
#undef PEOPLE_ROLE_ENUM
} PeopleRole;

const char *people_role_word(PeopleRole role);

/* ERR_USAGE names the roles there are; "anyone" is none of them. */
NODISCARD Err people_role_named(const char *word, PeopleRole *out);

enum {
    PEOPLE_NAME_MOST = 60, /* bytes */
    PEOPLE_PASSPHRASE_LEAST = 8,
    PEOPLE_PASSPHRASE_MOST = 200,
    PEOPLE_TOKEN_SIZE = 65, /* 64 hex digits */
    PEOPLE_SESSION_S = 30 * 24 * 3600,
};

/* Text is in the arena. */
typedef struct Person {
    const char *name;     /* what they log in with */
    const char *hand;     /* of hands.csv; "" */
    PeopleRole role;      /* */
    const char *language; /* "" the browser's */
    bool is_us_units;     /* pounds and degrees Fahrenheit */
    bool is_gone;
} Person;

typedef struct People {
    Person *items;
    int32_t count;
} People;

/* None where nothing was ever told (there is no store). */
NODISCARD Err people_read(const char *dir, Arena *arena, People *out);

/* Adds a person, or gives one that is there (also one who left) a new role,
 * hand or passphrase. passphrase: NULL leaves it as it is. Sessions end where
 * role or passphrase change. ERR_USAGE: a name or passphrase too short or too
 * long. */
NODISCARD Err people_put(const char *dir, const Person *person,
                         const char *passphrase, int64_t now_s, Arena *arena);

/* May not log in any more; the sessions end. ERR_NOT_FOUND. */
NODISCARD Err people_leave(const char *dir, const char *name, int64_t now_s,
                           Arena *arena);

/* Erases a name for good: passphrase and sessions go, and what was told in that
 * name stays as told by PEOPLE_SOMEBODY. Backups made before keep it.
 * out_entries: how many those are. ERR_NOT_FOUND. */
#define PEOPLE_SOMEBODY "somebody"
NODISCARD Err people_erase(const char *dir, const char *name, Arena *arena,
                           int64_t *out_entries);

/* A person's own language and units. */
NODISCARD Err people_prefer(const char *dir, const char *name,
                            const char *language, bool is_us_units,
                            Arena *arena);

/* Begins a session. ERR_NOT_FOUND: no such name, or not this passphrase; both
 * take as long. */
NODISCARD Err people_login(const char *dir, const char *name,
                           const char *passphrase, const char *device,
                           int64_t now_s, Arena *arena,
                           char out_token[PEOPLE_TOKEN_SIZE]);

/* Whose session it is. ERR_NOT_FOUND: nobody's, or it has ended. */
NODISCARD Err people_session(const char *dir, const char *token, int64_t now_s,
                             Arena *arena, Person *out);
NODISCARD Err people_logout(const char *dir, const char *token, Arena *arena);

#endif
