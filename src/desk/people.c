/* People who use the pages. */
#include "desk/people.h"

#include <string.h>

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
