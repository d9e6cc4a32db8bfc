/* A plan changed by hand as JSON: what is asked, and what became of it. */
#include <string.h>

#include <jansson.h>

#include "base/date.h"
#include "base/text.h"
#include "json/compare.h"
#include "json/text.h"

/* ---- Out ------------------------------------------------------------------
 */

static json_t *day_json(const AlterFound *found, int week, int plus)
{
    char text[DATE_TEXT_SIZE];
    date_format(found->sides.index->from + 7 * week + plus, text);
    return json_string(text);
}

static json_t *week_json(const AlterFound *found, int week)
{
    char text[DATE_TEXT_SIZE];
    week_format(found->sides.index->from + 7 * week, text);
    return week == PLAN_NONE ? json_null() : json_string(text);
}

static json_t *batch_json(const AlterFound *found, const PlanPlacement *placed)
{
    const Problem *problem = found->sides.problem;
    if (placed->option == PLAN_NONE) {
        return json_null();
    }
    const PlanOption *option = &problem->options[placed->option];
    return json_pack(
        "{s:s, s:s, s:s, s:i, s:i, s:f, s:o, s:o, s:o, s:o, s:o}", "way",
        problem->way_names[option->way], "bed", problem->beds[placed->bed].id,
        "place", option->is_edge ? "edge" : "floor", "section",
        option->is_edge ? 0 : placed->first_section + 1, "units", placed->units,
        "plants", placed->units * option->plants, "sow_on",
        option->trays_of > 0 ? json_null()
                             : day_json(found, option->sow_week, 0),
        "set_on", day_json(found, option->set_week, 0), "pick_from",
        day_json(found, option->pick_from, 0), "pick_until",
        day_json(found, option->pick_until, 6), "clear_on",
        day_json(found, option->clear_week, 0));
}

static json_t *tank_json(const AlterFound *found, int tank)
{
    return tank == PLAN_NONE
               ? json_null()
               : json_string(found->sides.problem->tanks[tank].id);
}

static json_t *step_json(const AlterFound *found, const PlanAltered *change,
                         bool is_after)
{
    int week = is_after ? change->week_after : change->week_before;
    int tank = is_after ? change->tank_after : change->tank_before;
    if (week == PLAN_NONE) {
        return json_null();
    }
    return json_pack("{s:s, s:s, s:i, s:o, s:o}", "step",
                     FARM_WORDS[WORDS_MOVE_KINDS].words[change->move_kind],
                     "batch", found->sides.problem->stocks[change->stock].id,
                     "heads", change->heads, "week", week_json(found, week),
                     "tank", tank_json(found, tank));
}

static json_t *clean_json(const AlterFound *found, int bed, int week)
{
    return week == PLAN_NONE ? json_null()
                             : json_pack("{s:s, s:o}", "bed",
                                         found->sides.problem->beds[bed].id,
                                         "week", week_json(found, week));
}

static json_t *change_json(const AlterFound *found, const PlanAltered *change)
{
    static const char *const WORDS[] = {[ALTERED_MOVED] = "moved",
                                        [ALTERED_DROPPED] = "dropped",
                                        [ALTERED_ADDED] = "added",
                                        [ALTERED_STEP] = "fish",
                                        [ALTERED_CLEAN] = "clean"};
    json_t *before = NULL;
    json_t *after = NULL;
    switch (change->kind) {
    case ALTERED_STEP:
        before = step_json(found, change, false);
        after = step_json(found, change, true);
        break;
    case ALTERED_CLEAN:
        before = clean_json(found, change->bed, change->week_before);
        after = clean_json(found, change->bed, change->week_after);
        break;
    case ALTERED_MOVED:
    case ALTERED_DROPPED:
    case ALTERED_ADDED:
        before = batch_json(found, &change->before);
        after = batch_json(found, &change->after);
        break;
    }
    return json_pack("{s:s, s:o, s:o, s:s?}", "what", WORDS[change->kind],
                     "before", before, "after", after, "note", change->note);
}

const char *json_alter(const AlterFound *found, Arena *arena)
{
    json_t *object = json_object();
    json_t *changes = json_array();
    for (int i = 0; i < found->count; i++) {
        json_array_append_new(changes, change_json(found, &found->changes[i]));
    }
    json_put(object, "plan", json_string(found->plan));
    json_put(object, "mark", json_string(found->mark));
    json_put(object, "is_kept", json_boolean(found->is_kept));
    json_put(object, "is_accepted", json_boolean(found->is_accepted));
    json_put(object, "changes", changes);
    json_compare_put(object, &found->sides);
    json_put(object, "left_out", json_integer(found->left_out));
    return json_text_take(object, arena);
}

/* ---- In -------------------------------------------------------------------
 */

static Err read_text(const json_t *value, const char *key, Arena *arena,
                     const char **out)
{
    const char *text = json_string_value(value);
    size_t length = json_string_length(value);
    if (!text || length == 0 || text_plain(text, length) != length) {
        return err_make(ERR_INPUT, "%s: expected a line of text", key);
    }
    *out = arena_copy_text(arena, text);
    return ERR_NONE;
}

static Err read_count(const json_t *value, const char *key, int least, int *out)
{
    json_int_t number = json_integer_value(value);
    if (!json_is_integer(value) || number < least ||
        number > ALTER_UNITS_MOST) {
        return err_make(ERR_INPUT, "%s: expected a whole number from %d to %d",
                        key, least, (int)ALTER_UNITS_MOST);
    }
    *out = (int)number;
    return ERR_NONE;
}

static Err read_day(const json_t *value, const char *key, int32_t *out)
{
    const char *text = json_string_value(value);
    Err err = text ? date_parse(text, out) : err_make(ERR_INPUT, "no day");
    return err.kind == ERR_OK
               ? ERR_NONE
               : err_make(ERR_INPUT, "%s: expected a day as 2027-04-07", key);
}

static Err read_flag(const json_t *value, const char *key, bool *out)
{
    if (!json_is_boolean(value)) {
        return err_make(ERR_INPUT, "%s: expected true or false", key);
    }
    *out = json_is_true(value);
    return ERR_NONE;
}

static Err unknown_key(const char *key)
{
    return err_make(ERR_INPUT, "\"%.40s\" is nothing that can be told here",
                    key);
}

/* One key of a change; weeks reach as far back as forward. */
static Err read_field(const char *key, const json_t *value, Arena *arena,
                      PlanAlter *out)
{
    struct {
        const char *key;
        const char **text;
    } texts[] = {{"batch", &out->batch}, {"step", &out->step},
                 {"way", &out->way},     {"clean", &out->clean},
                 {"bed", &out->bed},     {"tank", &out->tank}};
    struct {
        const char *key;
        int32_t *day;
    } days[] = {{"sow_on", &out->sow_on},
                {"set_on", &out->set_on},
                {"clear_on", &out->clear_on},
                {"on", &out->on}};
    struct {
        const char *key;
        int least;
        int *count;
    } counts[] = {{"weeks", -ALTER_UNITS_MOST, &out->weeks},
                  {"section", 0, &out->section},
                  {"sections", 0, &out->sections},
                  {"plants", 0, &out->plants}};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        if (strcmp(key, texts[i].key) == 0) {
            return read_text(value, key, arena, texts[i].text);
        }
    }
    for (size_t i = 0; i < sizeof days / sizeof *days; i++) {
        if (strcmp(key, days[i].key) == 0) {
            return read_day(value, key, days[i].day);
        }
    }
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        if (strcmp(key, counts[i].key) == 0) {
            return read_count(value, key, counts[i].least, counts[i].count);
        }
    }
    return strcmp(key, "drop") == 0 ? read_flag(value, key, &out->is_drop)
                                    : unknown_key(key);
}

static Err read_change(json_t *object, Arena *arena, PlanAlter *out)
{
    PlanAlter change = {.sow_on = DATE_ALWAYS,
                        .set_on = DATE_ALWAYS,
                        .clear_on = DATE_ALWAYS,
                        .on = DATE_ALWAYS};
    const char *key = NULL;
    json_t *value = NULL;
    if (!json_is_object(object)) {
        return err_make(ERR_INPUT, "changes: expected a list of objects");
    }
    json_object_foreach(object, key, value)
    {
        if (!json_is_null(value)) {
            TRY(read_field(key, value, arena, &change));
        }
    }
    *out = change;
    return ERR_NONE;
}

static Err read_changes(const json_t *list, Arena *arena, AlterBody *out)
{
    size_t count = json_array_size(list);
    if (!json_is_array(list) || count > ALTER_MOST) {
        return err_make(ERR_INPUT, "changes: expected a list of up to %d",
                        (int)ALTER_MOST);
    }
    out->changes = ARENA_ARRAY(arena, PlanAlter, count);
    out->count = (int)count;
    for (size_t i = 0; i < count; i++) {
        TRY(read_change(json_array_get(list, i), arena, &out->changes[i]));
    }
    return ERR_NONE;
}

static Err read_body(json_t *object, Arena *arena, AlterBody *out)
{
    AlterBody body = {.plan = "accepted"};
    const char *key = NULL;
    json_t *value = NULL;
    json_object_foreach(object, key, value)
    {
        bool is_text = strcmp(key, "plan") == 0 || strcmp(key, "mark") == 0;
        if (is_text) {
            TRY(read_text(value, key, arena,
                          *key == 'p' ? &body.plan : &body.mark));
        } else if (strcmp(key, "changes") == 0) {
            TRY(read_changes(value, arena, &body));
        } else {
            bool *flag = strcmp(key, "keep") == 0      ? &body.is_kept
                         : strcmp(key, "accept") == 0  ? &body.is_accepted
                         : strcmp(key, "even_so") == 0 ? &body.is_even_so
                                                       : NULL;
            TRY(flag ? read_flag(value, key, flag) : unknown_key(key));
        }
    }
    *out = body;
    return ERR_NONE;
}

Err json_alter_read(const char *text, size_t length, Arena *arena,
                    AlterBody *out)
{
    json_error_t fault;
    json_t *object = json_loadb(text, length, JSON_REJECT_DUPLICATES, &fault);
    Err err = json_is_object(object)
                  ? read_body(object, arena, out)
                  : err_make(ERR_INPUT, "expected a JSON object");
    json_decref(object);
    return err;
}
