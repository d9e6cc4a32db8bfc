/* Work that takes longer than a page waits for, as JSON: what is asked, and how
 * far it is. */
#ifndef LEAT_JSON_WORK_H
#define LEAT_JSON_WORK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

enum { WORK_ID_SIZE = 24, WORK_JSON_MAX_BYTES = 8 * 1024 };

#define WORK_KINDS(K)                                                          \
    K(WORK_PLAN, "plan")   /* a plan of the year */                            \
    K(WORK_CAN, "can")     /* can this order be taken? */                      \
    K(WORK_YEARS, "years") /* many possible years */

typedef enum WorkKind {
#define WORK_KIND_ENUM(name, word) name,
    WORK_KINDS(WORK_KIND_ENUM)
#undef WORK_KIND_ENUM
} WorkKind;

const char *work_kind_word(WorkKind kind);

typedef struct WorkQuestion {
    WorkKind kind;
    int weeks;     /* 4..104, of years 1..52 */
    int64_t seed;  /* */
    int64_t moves; /* 0: by the farm's size */
    int keep_weeks;
    bool is_anew;
    bool is_fish_frozen;
    bool wants_ceiling;
    const char *product; /* of can, as the next five; in the arena */
    const char *buyer;
    double quantity;
    int32_t from;
    int32_t until;    /* DATE_NEVER: without end */
    int64_t price_e4; /* 0: the list's */
    int years;
} WorkQuestion;

/* {"what":"plan","weeks":52,"seed":1,"moves":N,"keep_weeks":2,"anew":false,
 * "freeze_fish":false,"ceiling":true}
 * {"what":"can","product","buyer","quantity","from","until","price"}
 * {"what":"years","years":200,"weeks":52,"seed":1}
 *
 * What is left out is as the command line has it; a ceiling only where it is
 * asked for. ERR_INPUT names the key. */
NODISCARD Err json_work_read(const char *text, size_t length, Arena *arena,
                             WorkQuestion *out);

/* {"id":".."}; text in the arena. ERR_INPUT. */
NODISCARD Err json_work_id_read(const char *text, size_t length, Arena *arena,
                                const char **out_id);

typedef struct WorkState {
    const char *id;
    WorkKind kind;
    const char *state;  /* running, stopping, done, failed, accepting,
                           accepted */
    double done_frac;   /* below 0: nobody knows */
    double value;       /* NAN: none yet */
    const char *answer; /* JSON; NULL: none yet */
    const Err *error;   /* NULL: none */
} WorkState;

/* {"id","what","state","progress" (0..1, or null),"value","answer","error"} */
const char *json_work_state(const WorkState *state, Arena *arena);

/* {"works":[the same, without answers]} */
const char *json_work_list(const WorkState *states, int count, Arena *arena);

#endif
