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

static json_t *place_list(const JobPlace *places, int32_t count)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < count; i++) {
        json_t *object = json_object();
        json_object_set_new(object, "id", json_string(places[i].id));
        json_object_set_new(
            object, "amount",
            number_or_null(places[i].amount, places[i].amount > 0.0));
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

static json_t *job_json(const Farm *farm, const Job *job, Arena *arena)
{
    bool has_amount = job->amount > 0.0;
    json_t *object = json_object();
    json_object_set_new(object, "id", json_string(job->id));
    json_object_set_new(object, "day", day_json(job->day));
    json_object_set_new(object, "kind", json_string(job_kind_word(job->kind)));
    json_object_set_new(object, "what", json_string(job->what));
    json_object_set_new(object, "stop", json_string(job->stop));
    json_object_set_new(object, "places",
                        place_list(job->places, job->place_count));
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
    json_object_set_new(object, "brief", json_string(job->brief));
    json_object_set_new(object, "warning", json_string(job->warning));
    json_object_set_new(object, "caution",
                        json_string(job_caution_text(job, arena)));
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

static json_t *load_json(const Farm *farm, const Load *load)
{
    const Order *order = &farm->orders[load->order];
    const Product *product = &farm->products[order->product];
    const struct {
        const char *key;
        const char *text;
    } texts[] = {{"buyer", farm->buyers[order->buyer].id},
                 {"order", order->id},
                 {"product", product->id},
                 {"unit", product->unit},
                 {"rule", load_rule(farm, load)}};
    const struct {
        const char *key;
        double value;
    } numbers[] = {{"ordered", load->ordered}, {"planned", load->planned},
                   {"low", load->low},         {"expected", load->expected},
                   {"high", load->high},       {"short", load->short_by}};
    json_t *object = json_object();
    json_object_set_new(object, "day", day_json(load->day));
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        json_object_set_new(object, texts[i].key, json_string(texts[i].text));
    }
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        json_object_set_new(object, numbers[i].key,
                            json_real(numbers[i].value));
    }
    json_object_set_new(
        object, "picked_on",
        load->from_day == DATE_NEVER ? json_null() : day_json(load->from_day));
    json_object_set_new(object, "from",
                        place_list(load->from, load->from_count));
    return object;
}

static json_t *loads_json(const JobsJson *page)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < page->loads->count; i++) {
        json_array_append_new(list,
                              load_json(page->farm, &page->loads->loads[i]));
    }
    return list;
}

static json_t *news_json(const JobNews *news)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < news->count; i++) {
        const News *row = &news->news[i];
        json_t *object = json_object();
        json_object_set_new(object, "kind",
                            json_string(news_kind_word(row->kind)));
        json_object_set_new(object, "day",
                            row->day == DATE_NEVER ? json_null()
                                                   : day_json(row->day));
        json_object_set_new(object, "text", json_string(row->text));
        json_array_append_new(list, object);
    }
    return list;
}

/* What both answers begin with. */
static json_t *head_json(const JobsJson *page)
{
    char name[DATE_TEXT_SIZE];
    week_format(page->week->week, name);
    json_t *told = json_array();
    for (int i = 0; i < page->notice_count; i++) {
        json_array_append_new(told, json_string(page->notices[i]));
    }
    json_t *object = json_object();
    json_object_set_new(object, "week", json_string(name));
    json_object_set_new(object, "from", day_json(page->week->week));
    json_object_set_new(object, "day", day_json(page->day));
    json_object_set_new(object, "notices", told);
    return object;
}

const char *loads_to_json(const JobsJson *page, Arena *arena)
{
    json_t *object = head_json(page);
    json_object_set_new(object, "loads", loads_json(page));
    return json_text_take(object, arena);
}

const char *jobs_to_json(const JobsJson *page, Arena *arena)
{
    const Farm *farm = page->farm;
    const JobsWeek *week = page->week;
    json_t *jobs = json_array();
    for (int32_t i = 0; i < week->list.count; i++) {
        json_array_append_new(jobs, job_json(farm, &week->list.jobs[i], arena));
    }
    json_t *hands = json_array();
    for (int32_t i = 0; i < farm->hands_count; i++) {
        json_array_append_new(
            hands, hand_json(&farm->hands[i], &week->hands[i], week->week));
    }
    json_t *object = head_json(page);
    json_object_set_new(object, "news", news_json(page->news));
    json_object_set_new(object, "jobs", jobs);
    json_object_set_new(object, "hands", hands);
    json_object_set_new(object, "loads", loads_json(page));
    return json_text_take(object, arena);
}
