/* Answers about the journal as JSON. */
#include "json/journal.h"

#include <jansson.h>

#include "base/date.h"
#include "json/text.h"

static json_t *day_json(int32_t day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return json_string(text);
}

static json_t *doubts_json(const JournalDoubt *doubts, int32_t count)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < count; i++) {
        json_t *object = json_object();
        json_put(object, "number", json_integer(doubts[i].number));
        json_put(object, "day", day_json(doubts[i].day));
        json_put(object, "text", json_string(doubts[i].text));
        json_array_append_new(list, object);
    }
    return list;
}

const char *journal_added_to_json(const JournalAddedJson *added, Arena *arena)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < added->tolds->count; i++) {
        const Told *told = &added->tolds->items[i];
        json_t *object = json_object();
        json_put(object, "uid", json_string(told->uid));
        json_put(object, "number", json_integer(told->number));
        json_put(object, "is_new", json_boolean(added->is_new[i]));
        json_array_append_new(list, object);
    }
    json_t *object = json_object();
    json_put(object, "added", list);
    json_put(object, "doubts", doubts_json(added->doubts, added->doubt_count));
    return json_text_take(object, arena);
}

const char *journal_page_to_json(const Tolds *tolds, int64_t newest,
                                 bool has_more, Arena *arena)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < tolds->count; i++) {
        json_array_append_new(list, told_json(&tolds->items[i]));
    }
    json_t *object = json_object();
    json_put(object, "newest", json_integer(newest));
    json_put(object, "has_more", json_boolean(has_more));
    json_put(object, "entries", list);
    return json_text_take(object, arena);
}

static json_t *unsettled_json(const JournalUnsettled *told)
{
    json_t *object = json_object();
    json_put(object, "day", day_json(told->day));
    json_put(object, "kind", json_string(told->step));
    json_put(object, "batch", json_string(told->batch));
    json_put(object, "place", json_string(told->place));
    json_put(object, "to_place", json_string(told->to_place));
    json_put(object, "count", json_integer(told->count));
    json_put(object, "text", json_string(told->text));
    return object;
}

static json_t *fish_json(const FishAccount *fish)
{
    json_t *object = json_object();
    json_put(object, "opened", json_integer(fish->opened));
    json_put(object, "stocked", json_integer(fish->stocked));
    json_put(object, "found", json_integer(fish->found));
    json_put(object, "died", json_integer(fish->died));
    json_put(object, "sold", json_integer(fish->sold));
    json_put(object, "lost", json_integer(fish->lost));
    json_put(object, "standing", json_integer(fish->standing));
    json_put(object, "missing", json_integer(fish->missing));
    json_put(object, "standing_kg", json_real(fish->standing_g / 1000.0));
    json_put(object, "growth_kg", json_real(fish->growth_g / 1000.0));
    return object;
}

const char *journal_settle_to_json(const JournalSettleJson *settle,
                                   Arena *arena)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < settle->unsettled_count; i++) {
        json_array_append_new(list, unsettled_json(&settle->unsettled[i]));
    }
    json_t *object = json_object();
    json_put(object, "today", day_json(settle->today));
    json_put(object, "to_settle", list);
    json_put(object, "doubts",
             doubts_json(settle->doubts, settle->doubt_count));
    json_put(object, "fish", fish_json(settle->fish));
    return json_text_take(object, arena);
}
