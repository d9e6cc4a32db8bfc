/* Work that takes longer than a page waits for, as JSON. */
#include "json/work.h"

#include <math.h>
#include <string.h>

#include <jansson.h>

#include "base/date.h"
#include "base/text.h"
#include "farm/fields.h"
#include "json/text.h"

static const char *const WORDS[] = {
#define WORK_KIND_WORD(name, word) [name] = word,
    WORK_KINDS(WORK_KIND_WORD)
#undef WORK_KIND_WORD
};

enum {
    KINDS = sizeof WORDS / sizeof *WORDS,
    PLAN_WEEKS_LEAST = 4,
    PLAN_WEEKS_MOST = 104,
    YEARS_WEEKS_MOST_HERE = 52,
    YEARS_MOST_HERE = 2000,
    YEARS_USUAL = 100,
    WEEKS_USUAL = 52,
};

const char *work_kind_word(WorkKind kind)
{
    return WORDS[kind];
}

/* ---- In -------------------------------------------------------------------
 */

static Err read_text(const json_t *object, const char *key, Arena *arena,
                     const char **out)
{
    const json_t *value = json_object_get(object, key);
    const char *text = json_string_value(value);
    size_t length = json_string_length(value);
    if (!text || text_plain(text, length) != length) {
        return err_make(ERR_INPUT, "%s: expected a line of text", key);
    }
    *out = arena_copy_text(arena, text);
    return ERR_NONE;
}

static Err read_whole(const json_t *object, const char *key, int64_t least,
                      int64_t most, int64_t *out)
{
    const json_t *value = json_object_get(object, key);
    if (!value || json_is_null(value)) {
        return ERR_NONE;
    }
    int64_t number = json_integer_value(value);
    if (!json_is_integer(value) || number < least || number > most) {
        return err_make(ERR_INPUT,
                        "%s: expected a whole number from %lld to %lld", key,
                        (long long)least, (long long)most);
    }
    *out = number;
    return ERR_NONE;
}

static Err read_number(const json_t *object, const char *key, double least,
                       double most, double *out)
{
    const json_t *value = json_object_get(object, key);
    double number = json_number_value(value);
    if (!json_is_number(value) || !(number >= least && number <= most)) {
        return err_make(ERR_INPUT, "%s: expected a number from %g to %g", key,
                        least, most);
    }
    *out = number;
    return ERR_NONE;
}

static Err read_day(const json_t *object, const char *key, int32_t *out)
{
    const json_t *value = json_object_get(object, key);
    const char *text = json_string_value(value);
    if (!value || json_is_null(value)) {
        return ERR_NONE;
    }
    Err err = text ? date_parse(text, out) : err_make(ERR_INPUT, "no day");
    return err.kind == ERR_OK
               ? ERR_NONE
               : err_make(ERR_INPUT, "%s: expected a day as 2027-04-07", key);
}

static Err read_flag(const json_t *object, const char *key, bool *out)
{
    const json_t *value = json_object_get(object, key);
    if (value && !json_is_boolean(value)) {
        return err_make(ERR_INPUT, "%s: expected true or false", key);
    }
    *out = json_is_true(value);
    return ERR_NONE;
}

static Err read_can(const json_t *object, Arena *arena, WorkQuestion *out)
{
    const double most = 1e7;
    double price = 0.0;
    out->from = DATE_ALWAYS;
    out->until = DATE_NEVER;
    TRY(read_text(object, "product", arena, &out->product));
    TRY(read_text(object, "buyer", arena, &out->buyer));
    TRY(read_number(object, "quantity", 0.0, most, &out->quantity));
    TRY(read_day(object, "from", &out->from));
    TRY(read_day(object, "until", &out->until));
    if (out->from == DATE_ALWAYS) {
        return err_make(ERR_INPUT, "from: expected a day as 2027-04-07");
    }
    if (json_object_get(object, "price")) {
        const double e4 = 1e4;
        TRY(read_number(object, "price", 0.0, most, &price));
        out->price_e4 = (int64_t)llround(price * e4);
    }
    return ERR_NONE;
}

static Err read_common(const json_t *object, WorkQuestion *out)
{
    bool is_years = out->kind == WORK_YEARS;
    int64_t weeks = WEEKS_USUAL;
    int64_t keep_weeks = 0;
    int64_t years = YEARS_USUAL;
    out->seed = 1;
    TRY(read_whole(object, "weeks", is_years ? 1 : PLAN_WEEKS_LEAST,
                   is_years ? YEARS_WEEKS_MOST_HERE : PLAN_WEEKS_MOST, &weeks));
    TRY(read_whole(object, "seed", 0, INT32_MAX, &out->seed));
    TRY(read_whole(object, "moves", 1, INT64_C(1) << 40, &out->moves));
    TRY(read_whole(object, "keep_weeks", 0, weeks - 1, &keep_weeks));
    TRY(read_whole(object, "years", 1, YEARS_MOST_HERE, &years));
    TRY(read_flag(object, "anew", &out->is_anew));
    TRY(read_flag(object, "freeze_fish", &out->is_fish_frozen));
    TRY(read_flag(object, "ceiling", &out->wants_ceiling));
    if (out->is_anew && keep_weeks > 0) {
        return err_make(ERR_INPUT, "anew plans from nothing; it does not go "
                                   "with keep_weeks");
    }
    out->weeks = (int)weeks;
    out->keep_weeks = (int)keep_weeks;
    out->years = (int)years;
    return ERR_NONE;
}

static Err read_work(const json_t *object, Arena *arena, WorkQuestion *out)
{
    const char *what = json_string_value(json_object_get(object, "what"));
    WorkQuestion question = {.kind = WORK_PLAN};
    int kind = 0;
    while (kind < KINDS && !(what && strcmp(what, WORDS[kind]) == 0)) {
        kind++;
    }
    if (kind == KINDS) {
        return err_make(ERR_INPUT, "what: expected plan, can or years");
    }
    question.kind = (WorkKind)kind;
    TRY(read_common(object, &question));
    if (question.kind == WORK_CAN) {
        TRY(read_can(object, arena, &question));
    }
    *out = question;
    return ERR_NONE;
}

static Err load(const char *text, size_t length, json_t **out)
{
    json_error_t fault;
    json_t *object = json_loadb(text, length, JSON_REJECT_DUPLICATES, &fault);
    if (json_is_object(object)) {
        *out = object;
        return ERR_NONE;
    }
    json_decref(object);
    return err_make(ERR_INPUT, "expected a JSON object");
}

Err json_work_read(const char *text, size_t length, Arena *arena,
                   WorkQuestion *out)
{
    json_t *object = NULL;
    TRY(load(text, length, &object));
    Err err = read_work(object, arena, out);
    json_decref(object);
    return err;
}

Err json_work_id_read(const char *text, size_t length, Arena *arena,
                      const char **out_id)
{
    json_t *object = NULL;
    TRY(load(text, length, &object));
    Err err = read_text(object, "id", arena, out_id);
    json_decref(object);
    return err;
}

/* ---- Out ------------------------------------------------------------------
 */

static json_t *number_or_null(double number)
{
    return isfinite(number) ? json_real(number) : json_null();
}

static json_t *state_of(const WorkState *state)
{
    json_t *object = json_object();
    json_put(object, "id", json_string(state->id));
    json_put(object, "what", json_string(work_kind_word(state->kind)));
    json_put(object, "state", json_string(state->state));
    json_put(object, "progress",
             number_or_null(state->done_frac < 0.0 ? NAN : state->done_frac));
    json_put(object, "value", number_or_null(state->value));
    if (state->error) {
        json_t *error = json_object();
        json_put(error, "kind", json_string(err_kind_word(state->error->kind)));
        json_put(error, "text", json_string(state->error->text));
        json_put(object, "error", error);
    }
    return object;
}

/* The answer is JSON already and may be long: it is put in as it stands. */
const char *json_work_state(const WorkState *state, Arena *arena)
{
    json_t *object = state_of(state);
    const char *line = json_text_line(object, arena);
    json_decref(object);
    size_t length = strlen(line);
    if (!state->answer) {
        return arena_text(arena, "%s\n", line);
    }
    return arena_text(arena, "%.*s,\"answer\":%s}\n", (int)length - 1, line,
                      state->answer);
}

const char *json_work_list(const WorkState *states, int count, Arena *arena)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, state_of(&states[i]));
    }
    json_t *object = json_object();
    json_put(object, "works", list);
    return json_text_take(object, arena);
}
