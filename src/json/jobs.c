/* The jobs of a week as JSON. */
#include "json/jobs.h"

#include <jansson.h>

#include "base/date.h"
#include "json/text.h"

static const double MINUTES_AN_HOUR = 60.0;

static json_t *day_json(int32_t day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return json_string(text);
}

static json_t *number_or_null(double value, bool is_told)
{
    return is_told ? json_real(value) : json_null();
}

static json_t *places_json(const Job *job)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < job->place_count; i++) {
        const JobPlace *place = &job->places[i];
        json_t *object = json_object();
        json_object_set_new(object, "id", json_string(place->id));
        json_object_set_new(object, "amount",
                            number_or_null(place->amount, place->amount > 0.0));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *hands_json(const Farm *farm, const Job *job)
{
    json_t *list = json_array();
    for (int i = 0; i < job->hand_count; i++) {
        json_array_append_new(list, json_string(farm->hands[job->hands[i]].id));
    }
    return list;
}

static json_t *may_json(const Farm *farm, const Job *job)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < farm->hands_count; i++) {
        if (farm->hands[i].may >> job->skill & 1u) {
            json_array_append_new(list, json_string(farm->hands[i].id));
        }
    }
    return list;
}

static json_t *job_json(const Farm *farm, const Job *job)
{
    bool has_amount = job->amount > 0.0;
    json_t *object = json_object();
    json_object_set_new(object, "id", json_string(job->id));
    json_object_set_new(object, "day", day_json(job->day));
    json_object_set_new(object, "kind", json_string(job_kind_word(job->kind)));
    json_object_set_new(object, "what", json_string(job->what));
    json_object_set_new(object, "places", places_json(job));
    json_object_set_new(object, "amount",
                        number_or_null(job->amount, has_amount));
    json_object_set_new(object, "low", number_or_null(job->low, has_amount));
    json_object_set_new(object, "high", number_or_null(job->high, has_amount));
    json_object_set_new(object, "unit", json_string(job->unit));
    json_object_set_new(object, "minutes", json_real(job->minutes));
    json_object_set_new(object, "people", json_integer(job->people));
    json_object_set_new(object, "hands", hands_json(farm, job));
    json_object_set_new(object, "may", may_json(farm, job));
    json_object_set_new(object, "note", json_string(job->note));
    json_object_set_new(object, "caution", json_string(job->caution));
    return object;
}

static json_t *hand_json(const Hand *hand, const HandWeek *hours, int32_t week)
{
    json_t *days = json_array();
    double had = 0.0;
    double used = 0.0;
    for (int d = 0; d < JOBS_DAYS; d++) {
        had += hours->minutes_had[d] / MINUTES_AN_HOUR;
        used += hours->minutes_used[d] / MINUTES_AN_HOUR;
        json_t *day = json_object();
        json_object_set_new(day, "day", day_json(week + d));
        json_object_set_new(
            day, "hours", json_real(hours->minutes_used[d] / MINUTES_AN_HOUR));
        json_object_set_new(day, "hours_had",
                            json_real(hours->minutes_had[d] / MINUTES_AN_HOUR));
        json_array_append_new(days, day);
    }
    json_t *object = json_object();
    json_object_set_new(object, "id", json_string(hand->id));
    json_object_set_new(object, "name", json_string(hand->name));
    json_object_set_new(object, "hours", json_real(used));
    json_object_set_new(object, "hours_had", json_real(had));
    json_object_set_new(object, "days", days);
    return object;
}

const char *jobs_to_json(const Farm *farm, const JobsWeek *week,
                         const char *const *notices, int notice_count,
                         Arena *arena)
{
    char name[DATE_TEXT_SIZE];
    week_format(week->week, name);
    json_t *told = json_array();
    for (int i = 0; i < notice_count; i++) {
        json_array_append_new(told, json_string(notices[i]));
    }
    json_t *jobs = json_array();
    for (int32_t i = 0; i < week->list.count; i++) {
        json_array_append_new(jobs, job_json(farm, &week->list.jobs[i]));
    }
    json_t *hands = json_array();
    for (int32_t i = 0; i < farm->hands_count; i++) {
        json_array_append_new(
            hands, hand_json(&farm->hands[i], &week->hands[i], week->week));
    }
    json_t *object = json_object();
    json_object_set_new(object, "week", json_string(name));
    json_object_set_new(object, "from", day_json(week->week));
    json_object_set_new(object, "notices", told);
    json_object_set_new(object, "jobs", jobs);
    json_object_set_new(object, "hands", hands);
    return json_text_take(object, arena);
}
