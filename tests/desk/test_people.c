/* People, passphrases, sessions. */
#include "check.h"
#include "desk/people.h"
#include "place.h"
#include "store/store.h"

static const int64_t NOW_S = INT64_C(1804000000); /* in March 2027 */

typedef struct Folder {
    Place place;
    Arena arena;
} Folder;

static int open_folder(void **state)
{
    Folder *folder = test_malloc(sizeof *folder);
    folder->arena = (Arena){0};
    place_make(&folder->place);
    *state = folder;
    return 0;
}

static int close_folder(void **state)
{
    Folder *folder = *state;
    place_remove(&folder->place);
    arena_release(&folder->arena);
    test_free(folder);
    return 0;
}

static void add(Folder *folder, const char *name, PeopleRole role)
{
    Person person = {.name = name, .hand = "", .role = role, .language = "fr"};
    assert_ok(people_put(folder->place.dir, &person, "moss under the pump",
                         NOW_S, &folder->arena));
}

static Err login(Folder *folder, const char *name, const char *passphrase,
                 char *token)
{
    return people_login(folder->place.dir, name, passphrase, "a phone", NOW_S,
                        &folder->arena, token);
}

static void a_session_lasts_thirty_days(void **state)
{
    Folder *folder = *state;
    char token[PEOPLE_TOKEN_SIZE];
    Person person;
    add(folder, "Ana", ROLE_GROWER);
    assert_ok(login(folder, "Ana", "moss under the pump", token));
    assert_ok(people_session(folder->place.dir, token,
                             NOW_S + PEOPLE_SESSION_S - 7, &folder->arena,
                             &person));
    assert_string_equal(person.name, "Ana");
    assert_int_equal(person.role, ROLE_GROWER);
    assert_string_equal(person.language, "fr");
    assert_err(people_session(folder->place.dir, token,
                              NOW_S + PEOPLE_SESSION_S + 7, &folder->arena,
                              &person),
               ERR_NOT_FOUND, "");
}

static void a_wrong_name_and_a_wrong_passphrase_are_answered_alike(void **state)
{
    Folder *folder = *state;
    char token[PEOPLE_TOKEN_SIZE] = "untouched";
    add(folder, "Ana", ROLE_OWNER);
    Err name = login(folder, "Ona", "moss under the pump", token);
    Err passphrase = login(folder, "Ana", "moss under the pumps", token);
    assert_int_equal(name.kind, ERR_NOT_FOUND);
    assert_int_equal(passphrase.kind, ERR_NOT_FOUND);
    assert_string_equal(name.text, passphrase.text);
    assert_string_equal(token, "untouched");
    assert_err(login(folder, "Ana", "", token), ERR_NOT_FOUND, "");
}

static void two_sessions_have_two_tokens(void **state)
{
    Folder *folder = *state;
    char one[PEOPLE_TOKEN_SIZE];
    char other[PEOPLE_TOKEN_SIZE];
    Person person;
    add(folder, "Ana", ROLE_HAND);
    assert_ok(login(folder, "Ana", "moss under the pump", one));
    assert_ok(login(folder, "Ana", "moss under the pump", other));
    assert_string_not_equal(one, other);
    assert_ok(people_logout(folder->place.dir, one, &folder->arena));
    assert_err(
        people_session(folder->place.dir, one, NOW_S, &folder->arena, &person),
        ERR_NOT_FOUND, "");
    assert_ok(people_session(folder->place.dir, other, NOW_S, &folder->arena,
                             &person));
}

static void a_new_role_or_a_leave_ends_the_sessions(void **state)
{
    Folder *folder = *state;
    char token[PEOPLE_TOKEN_SIZE];
    Person person;
    add(folder, "Bea", ROLE_OWNER);
    assert_ok(login(folder, "Bea", "moss under the pump", token));
    /* Nobody could let people in without an owner. */
    Person less = {.name = "Bea", .hand = "", .role = ROLE_READER};
    assert_err(people_put(folder->place.dir, &less, "moss under the pump",
                          NOW_S, &folder->arena),
               ERR_CONFLICT, "Bea");
    add(folder, "Ana", ROLE_OWNER);
    add(folder, "Bea", ROLE_READER);
    assert_err(people_session(folder->place.dir, token, NOW_S, &folder->arena,
                              &person),
               ERR_NOT_FOUND, "");
    assert_ok(people_leave(folder->place.dir, "Bea", NOW_S, &folder->arena));
    assert_err(login(folder, "Bea", "moss under the pump", token),
               ERR_NOT_FOUND, "");
    assert_err(people_leave(folder->place.dir, "Nobody", NOW_S, &folder->arena),
               ERR_NOT_FOUND, "");
}

static void who_is_erased_is_somebody_in_the_journal(void **state)
{
    Folder *folder = *state;
    Arena *arena = &folder->arena;
    char token[PEOPLE_TOKEN_SIZE];
    add(folder, "Cai", ROLE_HAND);
    add(folder, "Dot", ROLE_OWNER);
    CLEANUP(store_close) StoreDb store = {0};
    assert_ok(store_open(folder->place.dir, STORE_WRITE, &store));
    Told told = told_blank(TOLD_SEEN, 20880);
    told.text = "a heron";
    told.who = "Cai";
    StoreAdded added;
    assert_ok(store_add(&store, &told, 1, &added));
    int64_t entries = 0;
    assert_ok(people_erase(folder->place.dir, "Cai", arena, &entries));
    assert_int_equal(entries, 1);
    StoreFilter filter = store_all();
    Tolds tolds;
    assert_ok(store_read(&store, &filter, arena, &tolds));
    assert_string_equal(tolds.items[0].who, PEOPLE_SOMEBODY);
    assert_string_equal(tolds.items[0].text, "a heron");
    assert_err(login(folder, "Cai", "moss under the pump", token),
               ERR_NOT_FOUND, "");
    assert_ok(login(folder, "Dot", "moss under the pump", token));
    assert_err(people_erase(folder->place.dir, "Cai", arena, &entries),
               ERR_NOT_FOUND, "Cai");
}

static void names_and_passphrases_have_their_sizes(void **state)
{
    Folder *folder = *state;
    Person person = {
        .name = "Ana", .hand = "", .role = ROLE_OWNER, .language = ""};
    Arena *arena = &folder->arena;
    assert_err(people_put(folder->place.dir, &person, "seven77", NOW_S, arena),
               ERR_USAGE, "passphrase");
    assert_err(people_put(folder->place.dir, &person, NULL, NOW_S, arena),
               ERR_USAGE, "passphrase");
    static const char *const NAMES[] = {"", " Ana", "An\na"};
    for (size_t i = 0; i < sizeof NAMES / sizeof *NAMES; i++) {
        person.name = NAMES[i];
        assert_err(people_put(folder->place.dir, &person, "moss under the pump",
                              NOW_S, arena),
                   ERR_USAGE, "name");
    }
}

static void roles_are_named(void **state)
{
    (void)state;
    PeopleRole role = ROLE_ANYONE;
    assert_ok(people_role_named("grower", &role));
    assert_int_equal(role, ROLE_GROWER);
    assert_err(people_role_named("anyone", &role), ERR_USAGE, "owner");
    assert_err(people_role_named("king", &role), ERR_USAGE, "king");
}

#define IN_FOLDER(test)                                                        \
    cmocka_unit_test_setup_teardown(test, open_folder, close_folder)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(a_session_lasts_thirty_days),
        IN_FOLDER(a_wrong_name_and_a_wrong_passphrase_are_answered_alike),
        IN_FOLDER(two_sessions_have_two_tokens),
        IN_FOLDER(a_new_role_or_a_leave_ends_the_sessions),
        IN_FOLDER(who_is_erased_is_somebody_in_the_journal),
        IN_FOLDER(names_and_passphrases_have_their_sizes),
        cmocka_unit_test(roles_are_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
