/* Doses as JSON. */
#include "json/dose.h"

#include <jansson.h>
#include <math.h>

#include "json/text.h"
#include "json/working.h"

static json_t *real_or_null(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static json_t *text_or_null(const char *text)
{
    return text ? json_string(text) : json_null();
}

static json_t *texts_json(const char *const *texts, int count)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, json_string(texts[i]));
    }
    return list;
}

static json_t *day_json(const DoseDay *day)
{
    json_t *object = json_object();
    json_object_set_new(object, "base", json_string(day->base));
    json_object_set_new(object, "product_g", json_real(day->product_g));
    json_object_set_new(object, "portion_g", json_real(day->portion_g));
    json_object_set_new(object, "ph_after", json_real(day->ph));
    json_object_set_new(object, "alkalinity_after_mg_l",
                        json_real(day->alkalinity_mg_l));
    json_object_set_new(object, "nh3_after_mg_l", json_real(day->nh3_mg_l));
    return object;
}

static json_t *salt_json(const DoseSalt *salt)
{
    json_t *object = json_object();
    json_object_set_new(object, "id", json_string(salt->id));
    json_object_set_new(object, "element", json_string(salt->element));
    json_object_set_new(object, "rise_mg_l", json_real(salt->rise_mg_l));
    json_object_set_new(object, "product_g", json_real(salt->product_g));
    json_object_set_new(object, "portions", json_integer(salt->portions));
    json_object_set_new(object, "portion_g", json_real(salt->portion_g));
    return object;
}

const char *dose_to_json(const DosePlan *plan, Arena *arena)
{
    json_t *days = json_array();
    for (int i = 0; i < plan->day_count; i++) {
        json_array_append_new(days, day_json(&plan->days[i]));
    }
    json_t *salts = json_array();
    for (int i = 0; i < plan->salt_count; i++) {
        json_array_append_new(salts, salt_json(&plan->salts[i]));
    }
    json_t *object = json_object();
    json_object_set_new(object, "where", json_string(plan->where));
    json_object_set_new(object, "when", json_string(plan->when));
    json_object_set_new(object, "cautions",
                        texts_json(plan->cautions, plan->caution_count));
    json_object_set_new(object, "volume_m3", json_real(plan->volume_m3));
    json_object_set_new(object, "ph", real_or_null(plan->ph));
    json_object_set_new(object, "target_ph", real_or_null(plan->target_ph));
    json_object_set_new(object, "no_base", text_or_null(plan->none));
    json_object_set_new(object, "stopped", text_or_null(plan->stopped));
    json_object_set_new(object, "days", days);
    json_object_set_new(object, "yours_today_g", real_or_null(plan->yours_g));
    json_object_set_new(object, "salts", salts);
    json_object_set_new(object, "notices",
                        texts_json(plan->notices, plan->notice_count));
    json_object_set_new(object, "workings",
                        workings_json(&plan->workings, arena));
    return json_text_take(object, arena);
}
