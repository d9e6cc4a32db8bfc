/* People who use the pages, and what each may do. */
#ifndef LEAT_DESK_PEOPLE_H
#define LEAT_DESK_PEOPLE_H

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

#endif
