/* Who uses the pages, as JSON. */
#ifndef LEAT_JSON_PEOPLE_H
#define LEAT_JSON_PEOPLE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

typedef struct JsonPerson {
    const char *name; /* "" where nobody has to log in */
    const char *id;   /* of hands.csv; "" */
    const char *role;
    const char *language; /* "" */
    bool is_us_units;
    bool is_gone;
} JsonPerson;

/* {"name","id","role","language","units":"metric|us","needs_login","lan"}; what
 * is empty is left out. */
const char *json_me(const JsonPerson *me, bool needs_login, bool is_lan,
                    Arena *arena);

/* {"people":[{"name","id","role","language","units","gone"}]} */
const char *json_people(const JsonPerson *people, int32_t count, Arena *arena);

/* {"name","passphrase"}; text in the arena. ERR_INPUT. */
NODISCARD Err json_login_read(const char *text, size_t length, Arena *arena,
                              const char **out_name,
                              const char **out_passphrase);

/* {"language":"pt","units":"metric|us"}. ERR_INPUT. */
NODISCARD Err json_prefer_read(const char *text, size_t length, Arena *arena,
                               const char **out_language, bool *out_is_us);

/* {}. ERR_INPUT. */
NODISCARD Err json_empty_read(const char *text, size_t length);

#endif
