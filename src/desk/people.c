/* People who use the pages. */
#include "desk/people.h"

#include <string.h>

#include <sodium.h>

#include "base/text.h"
#include "store/store.h"

static const char *const WORDS[] = {
#define PEOPLE_ROLE_WORD(name, word) [name] = word,
    PEOPLE_ROLES(PEOPLE_ROLE_WORD)
#undef PEOPLE_ROLE_WORD
};

const char *people_role_word(PeopleRole role)
{
    return WORDS[role];
}

Err people_role_named(const char *word, PeopleRole *out)
{
    for (int role = ROLE_READER; role <= ROLE_OWNER; role++) {
        if (strcmp(word, WORDS[role]) == 0) {
            *out = (PeopleRole)role;
            return ERR_NONE;
        }
    }
    return err_make(ERR_USAGE,
                    "role=%.60s: expected owner, grower, hand or reader", word);
}

static Err start_sodium(void)
{
    return sodium_init() >= 0
               ? ERR_NONE
               : err_make(ERR_IO, "the machine gives no random numbers");
}

static Person person_of(const StorePerson *stored)
{
    PeopleRole role = ROLE_ANYONE;
    Err err = people_role_named(stored->role, &role);
    return (Person){.name = stored->name,
                    .hand = stored->hand,
                    .role = err.kind == ERR_OK ? role : ROLE_ANYONE,
                    .language = stored->language,
                    .is_us_units = strcmp(stored->mass_unit, "lb") == 0,
                    .is_gone = stored->is_gone};
}

Err people_read(const char *dir, Arena *arena, People *out)
{
    *out = (People){.count = 0};
    if (!store_is_there(dir)) {
        return ERR_NONE;
    }
    CLEANUP(store_close) StoreDb store = {0};
    StorePeople stored;
    TRY(store_open(dir, STORE_READ, &store));
    TRY(store_people_read(&store, arena, &stored));
    out->items = ARENA_ARRAY(arena, Person, stored.count);
    for (int32_t i = 0; i < stored.count; i++) {
        out->items[out->count++] = person_of(&stored.items[i]);
    }
    return ERR_NONE;
}

/* ---- Changing -------------------------------------------------------------
 */

static Err check_name(const char *name)
{
    size_t length = strlen(name);
    bool is_good = length > 0 && length <= PEOPLE_NAME_MOST &&
                   text_plain(name, length) == length && name[0] != ' ' &&
                   name[length - 1] != ' ';
    return is_good ? ERR_NONE
                   : err_make(ERR_USAGE, "name: one line of 1 to %d bytes",
                              PEOPLE_NAME_MOST);
}

/* The hash as text, in the arena. */
static Err hash_passphrase(const char *passphrase, Arena *arena,
                           const char **out)
{
    size_t length = strlen(passphrase);
    if (length < PEOPLE_PASSPHRASE_LEAST || length > PEOPLE_PASSPHRASE_MOST) {
        return err_make(ERR_USAGE,
                        "a passphrase has %d to %d bytes; four words that do "
                        "not belong together are a good one",
                        PEOPLE_PASSPHRASE_LEAST, PEOPLE_PASSPHRASE_MOST);
    }
    char *hash = arena_alloc(arena, crypto_pwhash_STRBYTES, 1);
    if (crypto_pwhash_str(hash, passphrase, length,
                          crypto_pwhash_OPSLIMIT_INTERACTIVE,
                          crypto_pwhash_MEMLIMIT_INTERACTIVE) != 0) {
        return err_make(ERR_BUSY, "not enough memory to hash a passphrase");
    }
    *out = hash;
    return ERR_NONE;
}

static StorePerson stored_of(const Person *person)
{
    return (StorePerson){.name = person->name,
                         .hand = person->hand,
                         .role = people_role_word(person->role),
                         .language = person->language,
                         .mass_unit = person->is_us_units ? "lb" : "kg",
                         .temp_unit = person->is_us_units ? "degF" : "degC",
                         .hash = ""};
}

/* The last owner cannot become less: nobody could let people in then. */
static Err check_owners(StoreDb *store, const StorePerson *there,
                        const StorePerson *wanted, Arena *arena)
{
    const char *owner = people_role_word(ROLE_OWNER);
    if (strcmp(there->role, owner) != 0 || strcmp(wanted->role, owner) == 0) {
        return ERR_NONE;
    }
    StorePeople all;
    TRY(store_people_read(store, arena, &all));
    for (int32_t i = 0; i < all.count; i++) {
        const StorePerson *other = &all.items[i];
        if (other->id != there->id && !other->is_gone &&
            strcmp(other->role, owner) == 0) {
            return ERR_NONE;
        }
    }
    return err_make(ERR_CONFLICT,
                    "%.60s is the only owner: make somebody else owner first",
                    there->name);
}

Err people_put(const char *dir, const Person *person, const char *passphrase,
               int64_t now_s, Arena *arena)
{
    TRY(start_sodium());
    TRY(check_name(person->name));
    StorePerson wanted = stored_of(person);
    if (passphrase) {
        TRY(hash_passphrase(passphrase, arena, &wanted.hash));
    }
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(dir, STORE_CREATE, &store));
    StorePerson there;
    Err err = store_people_find(&store, person->name, arena, &there);
    if (err.kind == ERR_OK) {
        TRY(check_owners(&store, &there, &wanted, arena));
        wanted.id = there.id;
        wanted.hash = passphrase ? wanted.hash : there.hash;
    } else if (err.kind != ERR_NOT_FOUND) {
        return err;
    }
    if (!*wanted.hash) {
        return err_make(ERR_USAGE, "%.60s needs a passphrase", person->name);
    }
    int64_t id = 0;
    TRY(store_people_put(&store, &wanted, &id));
    return wanted.id > 0 ? store_session_end_all(&store, id, now_s) : ERR_NONE;
}

static Err find(const char *dir, const char *name, StoreDb *store, Arena *arena,
                StorePerson *out)
{
    if (!store_is_there(dir)) {
        return err_make(ERR_NOT_FOUND, "nobody is called %.60s", name);
    }
    TRY(store_open(dir, STORE_WRITE, store));
    return store_people_find(store, name, arena, out);
}

Err people_leave(const char *dir, const char *name, int64_t now_s, Arena *arena)
{
    CLEANUP(store_close) StoreDb store = {0};
    StorePerson person;
    TRY(find(dir, name, &store, arena, &person));
    person.is_gone = true;
    int64_t id = 0;
    TRY(store_people_put(&store, &person, &id));
    return store_session_end_all(&store, id, now_s);
}

Err people_erase(const char *dir, const char *name, Arena *arena,
                 int64_t *out_entries)
{
    CLEANUP(store_close) StoreDb store = {0};
    StorePerson person;
    TRY(find(dir, name, &store, arena, &person));
    return store_people_erase(&store, person.name, PEOPLE_SOMEBODY,
                              out_entries);
}

Err people_prefer(const char *dir, const char *name, const char *language,
                  bool is_us_units, Arena *arena)
{
    CLEANUP(store_close) StoreDb store = {0};
    StorePerson person;
    TRY(find(dir, name, &store, arena, &person));
    person.language = language;
    person.mass_unit = is_us_units ? "lb" : "kg";
    person.temp_unit = is_us_units ? "degF" : "degC";
    int64_t id = 0;
    return store_people_put(&store, &person, &id);
}

/* ---- Sessions -------------------------------------------------------------
 */

/* What is kept of a token. */
static const char *hash_token(const char *token, Arena *arena)
{
    unsigned char hash[crypto_generichash_BYTES];
    char *text = arena_alloc(arena, 2 * sizeof hash + 1, 1);
    crypto_generichash(hash, sizeof hash, (const unsigned char *)token,
                       strlen(token), NULL, 0);
    return sodium_bin2hex(text, 2 * sizeof hash + 1, hash, sizeof hash);
}

/* Whether it is the passphrase; takes as long where there is no such person. */
static Err verify(const StorePerson *person, const char *passphrase,
                  Arena *arena, bool *out)
{
    size_t length = strlen(passphrase);
    *out = false;
    if (length > PEOPLE_PASSPHRASE_MOST) {
        return ERR_NONE;
    }
    if (!person) {
        const char *unused = NULL;
        return hash_passphrase("nobody has this one", arena, &unused);
    }
    *out = crypto_pwhash_str_verify(person->hash, passphrase, length) == 0;
    return ERR_NONE;
}

static Err begin_session(StoreDb *store, const StorePerson *person,
                         const char *device, int64_t now_s, Arena *arena,
                         char out_token[PEOPLE_TOKEN_SIZE])
{
    unsigned char random[(PEOPLE_TOKEN_SIZE - 1) / 2];
    char token[PEOPLE_TOKEN_SIZE];
    randombytes_buf(random, sizeof random);
    sodium_bin2hex(token, sizeof token, random, sizeof random);
    StoreSession session = {.token_hash = hash_token(token, arena),
                            .person = person->id,
                            .device = device,
                            .made_at = now_s,
                            .seen_at = now_s,
                            .ends_at = now_s + PEOPLE_SESSION_S};
    TRY(store_session_put(store, &session));
    memcpy(out_token, token, sizeof token);
    return ERR_NONE;
}

Err people_login(const char *dir, const char *name, const char *passphrase,
                 const char *device, int64_t now_s, Arena *arena,
                 char out_token[PEOPLE_TOKEN_SIZE])
{
    TRY(start_sodium());
    CLEANUP(store_close) StoreDb store = {0};
    StorePerson person = {.hash = ""};
    Err err = find(dir, name, &store, arena, &person);
    bool is_there = err.kind == ERR_OK && !person.is_gone && *person.hash;
    if (err.kind != ERR_OK && err.kind != ERR_NOT_FOUND) {
        return err;
    }
    bool is_right = false;
    TRY(verify(is_there ? &person : NULL, passphrase, arena, &is_right));
    if (!is_right) {
        return err_make(ERR_NOT_FOUND, "not this name with this passphrase");
    }
    return begin_session(&store, &person, device, now_s, arena, out_token);
}

static bool is_token(const char *token)
{
    return strlen(token) == PEOPLE_TOKEN_SIZE - 1 &&
           strspn(token, "0123456789abcdef") == PEOPLE_TOKEN_SIZE - 1;
}

Err people_session(const char *dir, const char *token, int64_t now_s,
                   Arena *arena, Person *out)
{
    if (!is_token(token) || !store_is_there(dir)) {
        return err_make(ERR_NOT_FOUND, "no such session");
    }
    CLEANUP(store_close) StoreDb store = {0};
    StoreSession session;
    StorePeople people;
    TRY(start_sodium());
    TRY(store_open(dir, STORE_READ, &store));
    TRY(store_session_find(&store, hash_token(token, arena), now_s, arena,
                           &session));
    TRY(store_people_read(&store, arena, &people));
    for (int32_t i = 0; i < people.count; i++) {
        if (people.items[i].id == session.person && !people.items[i].is_gone) {
            *out = person_of(&people.items[i]);
            return ERR_NONE;
        }
    }
    return err_make(ERR_NOT_FOUND, "no such session");
}

Err people_logout(const char *dir, const char *token, Arena *arena)
{
    if (!is_token(token) || !store_is_there(dir)) {
        return ERR_NONE;
    }
    CLEANUP(store_close) StoreDb store = {0};
    TRY(start_sodium());
    TRY(store_open(dir, STORE_WRITE, &store));
    return store_session_end(&store, hash_token(token, arena));
}
