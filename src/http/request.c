/* One request as a route sees it, and its reply. */
#include "http/request.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/text.h"
#include "json/json_sum.h"

const char *request_text(const Request *request, const char *key)
{
    for (int i = 0; i < request->query_count; i++) {
        if (strcmp(request->query[i].key, key) == 0) {
            return request->query[i].value;
        }
    }
    return NULL;
}

Err request_day(const Request *request, const char *key, int32_t *out)
{
    const char *text = request_text(request, key);
    if (!text) {
        return ERR_NONE;
    }
    Err err = date_parse(text, out);
    return err.kind == ERR_OK ? ERR_NONE
                              : err_make(ERR_USAGE,
                                         "%s=%.60s: expected a day "
                                         "as 2027-04-07",
                                         key, text);
}

Err request_number(const Request *request, const char *key, double *out)
{
    const char *text = request_text(request, key);
    *out = NAN;
    if (!text) {
        return ERR_NONE;
    }
    Err err = text_to_f64(text, out);
    return err.kind == ERR_OK
               ? ERR_NONE
               : err_make(ERR_USAGE, "%s=%.60s: expected a number", key, text);
}

Err request_integer(const Request *request, const char *key, int64_t least,
                    int64_t most, int64_t *out)
{
    if (!request_text(request, key)) {
        return ERR_NONE;
    }
    double value = 0.0;
    TRY(request_number(request, key, &value));
    if (!(value >= (double)least && value <= (double)most) ||
        value < floor(value) || value > floor(value)) {
        return err_make(ERR_USAGE,
                        "%s=%.60s: expected a whole number from %" PRId64
                        " to %" PRId64,
                        key, request_text(request, key), least, most);
    }
    *out = (int64_t)value;
    return ERR_NONE;
}

Err request_flag(const Request *request, const char *key, bool *out)
{
    const char *text = request_text(request, key);
    if (!text) {
        return ERR_NONE;
    }
    bool is_on = strcmp(text, "yes") == 0 || strcmp(text, "1") == 0;
    if (!is_on && strcmp(text, "no") != 0 && strcmp(text, "0") != 0) {
        return err_make(ERR_USAGE, "%s=%.60s: expected yes or no", key, text);
    }
    *out = is_on;
    return ERR_NONE;
}

Err request_today(const Request *request, int32_t *out)
{
    *out = request->today;
    return request_day(request, "today", out);
}

static bool is_plain(const char *text, size_t length)
{
    return text_plain(text, length) == length &&
           text_utf8_valid(text, length) == length;
}

Err request_add(Request *request, const char *key, size_t key_length,
                const char *value, size_t value_length, Arena *arena)
{
    value = value ? value : "";
    if (request->query_count == QUERY_PAIRS_MOST) {
        return err_make(ERR_USAGE, "more than %d questions after the ?",
                        QUERY_PAIRS_MOST);
    }
    if (!is_plain(key, key_length) || !is_plain(value, value_length)) {
        return err_make(ERR_USAGE, "the address holds what is no plain text");
    }
    request->query[request->query_count++] =
        (QueryPair){arena_copy_bytes(arena, key, key_length),
                    arena_copy_bytes(arena, value, value_length)};
    return ERR_NONE;
}

Reply reply_json(const char *text)
{
    return (Reply){.status = 200,
                   .type = "application/json",
                   .body = text,
                   .length = strlen(text)};
}

int reply_status_of(const Err *err)
{
    switch (err->kind) {
    case ERR_OK:
        return 200;
    case ERR_INPUT:
    case ERR_RANGE:
    case ERR_USAGE:
    case ERR_LIMIT:
        return 400;
    case ERR_NOT_FOUND:
        return 404;
    case ERR_CONFLICT:
        return 409;
    case ERR_BUSY:
    case ERR_STOPPED:
        return 503;
    case ERR_IO:
    case ERR_DEFECT:
        return 500;
    }
    return 500;
}

Reply reply_error(const Err *err, Arena *arena)
{
    Reply reply = reply_json(json_sum_error(err, arena));
    reply.status = reply_status_of(err);
    return reply;
}
